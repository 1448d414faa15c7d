"""The routes of one piece: its documents, and everything a document asks for.

They are relative to where the piece stands, so the same documents serve one piece at ``/`` and each of many
under a path of its own.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable
from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response
from fastapi.responses import HTMLResponse

from scantling.papers.words.offer_terms import Terms, asked_price
from scantling.web.designs.measuring import MeasureIn
from scantling.web.designs.seasons import KeptRooms
from scantling.web.designs.sending import Sent
from scantling.web.designs.session import Session
from scantling.web.designs.taking import KINDS, paper_named
from scantling.web.designs.yarding import YardIn
from scantling.web.documents.answering import as_file, given_of, kept
from scantling.web.documents.pages import leaf
from scantling.web.documents.places import Standing
from scantling.web.routes.season_routes import season_routes

__all__ = ["piece_routes"]

_UNSURE = re.compile(r"[^\w .-]", re.ASCII)
"""What browsers and we may not escape alike."""


def piece_routes(
    session_of: Callable[[Request], Session],
    standing_of: Callable[[Request], Standing],
    rooms_of: Callable[[], KeptRooms] = dict,
) -> APIRouter:
    """The routes.

    Parameters
    ----------
    session_of
        Finds the piece a request is about.
    standing_of
        Tells where it stands, and so which places its documents lead to.
    rooms_of
        Rooms that are kept, to compare with.
    """
    router = APIRouter()
    _documents(router, session_of, standing_of)
    router.include_router(season_routes(session_of, standing_of, rooms_of))
    _answers(router, session_of)
    _files(router, session_of)
    return router


def _documents(
    router: APIRouter, session_of: Callable[[Request], Session], standing_of: Callable[[Request], Standing]
) -> None:
    @router.get("/")
    def show_page(request: Request) -> HTMLResponse:
        title, about = session_of(request).heading()
        version = request.path_params.get("version")
        old = "" if version is None else f'<old-version version="{int(version)}"></old-version>'
        return leaf("index", standing_of(request), ready=old, soon=_soon(request), title=title, about=about)

    @router.get("/yard")
    def show_yard(request: Request) -> HTMLResponse:
        title, _ = session_of(request).heading()
        return leaf("yard", standing_of(request), title=title)

    @router.get("/papers")
    def show_papers(request: Request) -> HTMLResponse:
        title, _ = session_of(request).heading()
        return leaf("papers", standing_of(request), title=title)


def _soon(request: Request) -> list[str]:
    """What the page will ask for to draw the piece, where it is sure to write the address the same way."""
    given = sorted(request.query_params.multi_items())
    if any(_UNSURE.search(word) for pair in given for word in pair):
        return []
    asked = f"?{urlencode(given)}" if given else ""
    return [f"api/shape{asked}", f"api/scene.glb{asked}"]


def _answers(router: APIRouter, session_of: Callable[[Request], Session]) -> None:
    @router.get("/api/piece")
    def show_piece(request: Request) -> Response:
        session = session_of(request)
        return kept(request, session.key({}), lambda: Sent(session.piece()))

    @router.get("/api/shape")
    def show_shape(request: Request) -> Response:
        session, given = session_of(request), given_of(request)
        return kept(request, session.key(given), lambda: Sent(session.shape_view(given)))

    @router.get("/api/figures")
    def show_figures(request: Request) -> Response:
        session, given = session_of(request), given_of(request)
        key = f"{session.key(given)}-figures"
        return kept(request, key, lambda: Sent(session.plan_view(given, whole=False)))

    @router.get("/api/plan")
    def show_plan(request: Request) -> Response:
        session, given = session_of(request), given_of(request)
        return kept(request, session.key(given), lambda: Sent(session.plan_view(given)))

    @router.get("/api/work")
    def show_work(request: Request) -> Response:
        session, given = session_of(request), given_of(request)
        return kept(request, f"{session.key(given)}-work", lambda: Sent(session.work(given)))

    @router.post("/api/measure")
    def measure(asked: MeasureIn, request: Request) -> Response:
        return Sent(session_of(request).measured(asked, given_of(request)))

    @router.post("/api/yard")
    def judge_boards(asked: YardIn, request: Request) -> Response:
        return Sent(session_of(request).yard(asked, given_of(request)))

    @router.post("/api/yard/rack.csv")
    def write_rack(asked: YardIn, request: Request) -> Response:
        return as_file(session_of(request).rack_file(asked, given_of(request)), "attachment")


def _files(router: APIRouter, session_of: Callable[[Request], Session]) -> None:
    @router.get("/api/scene.glb")
    def show_scene(request: Request) -> Response:
        session, given = session_of(request), given_of(request)
        return kept(
            request,
            session.key(given),
            lambda: Response(session.scene(given), media_type="model/gltf-binary"),
        )

    @router.get("/api/packet.pdf")
    def show_packet(request: Request) -> Response:
        session, given = session_of(request), given_of(request, but=frozenset({"paper"}))
        paper = request.query_params.get("paper", "a4")
        key = f"{session.key(given)}-{paper_named(paper)}"
        return kept(request, key, lambda: as_file(session.packet(given, paper), "inline"))

    @router.get("/api/offer.pdf")
    def show_offer(request: Request) -> Response:
        asked = request.query_params
        session, given = session_of(request), given_of(request, but=frozenset({"paper", "client", "price"}))
        paper = paper_named(asked.get("paper", "a4"))
        terms = Terms(client=asked.get("client", "").strip(), price=asked_price(asked.get("price")))
        mark = hashlib.sha256(repr(terms).encode()).hexdigest()[:16]
        key = f"{session.key(given)}-offer-{paper}-{mark}"
        return kept(request, key, lambda: as_file(session.offer(given, terms, paper), "inline"))

    @router.get("/api/published.html")
    def show_published(request: Request) -> Response:
        session, given = session_of(request), given_of(request)
        key = f"{session.key(given)}-published"
        return kept(request, key, lambda: as_file(session.published(given), "attachment"))

    @router.get("/api/export/{kind}")
    def show_export(kind: str, request: Request) -> Response:
        session, given = session_of(request), given_of(request)
        key = f"{session.key(given)}-{kind if kind in KINDS else 'none'}"
        return kept(request, key, lambda: as_file(session.export(given, kind), "attachment"))
