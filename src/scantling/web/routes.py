"""The routes of one piece: its documents, and everything a document asks for.

They are relative to where the piece stands, so the same documents serve one piece at ``/`` and each of many
under a path of its own.
"""

from __future__ import annotations

from collections.abc import Callable

from fastapi import APIRouter, Request, Response
from fastapi.responses import HTMLResponse, JSONResponse

from scantling.errors import Fault, FileFaults
from scantling.web.pages import document
from scantling.web.session import Session
from scantling.web.taking import KINDS, TakenFile, paper_named
from scantling.web.views import as_json
from scantling.web.yarding import YardIn

__all__ = ["FRESH", "piece_routes"]

_LONGEST, _MOST = 200, 200
"""Characters of a value given, and values given."""
FRESH = {"cache-control": "no-cache"}
"""The browser asks each time whether what it holds is still right."""


def piece_routes(session_of: Callable[[Request], Session]) -> APIRouter:
    """The routes.

    Parameters
    ----------
    session_of
        Finds the piece a request is about.
    """
    router = APIRouter()
    _documents(router, session_of)
    _answers(router, session_of)
    _files(router, session_of)
    return router


def _documents(router: APIRouter, session_of: Callable[[Request], Session]) -> None:
    @router.get("/")
    def show_page(request: Request) -> HTMLResponse:
        title, about = session_of(request).heading()
        return HTMLResponse(document("index.html").filled(title=title, about=about), headers=FRESH)

    @router.get("/yard")
    def show_yard(request: Request) -> HTMLResponse:
        title, _ = session_of(request).heading()
        return HTMLResponse(document("yard.html").filled(title=title), headers=FRESH)


def _answers(router: APIRouter, session_of: Callable[[Request], Session]) -> None:
    @router.get("/api/piece")
    def show_piece(request: Request) -> Response:
        session = session_of(request)
        return _kept(request, session.key({}), lambda: JSONResponse(as_json(session.piece())))

    @router.get("/api/shape")
    def show_shape(request: Request) -> Response:
        session, given = session_of(request), _given(request)
        return _kept(request, session.key(given), lambda: JSONResponse(as_json(session.shape_view(given))))

    @router.get("/api/plan")
    def show_plan(request: Request) -> Response:
        session, given = session_of(request), _given(request)
        return _kept(request, session.key(given), lambda: JSONResponse(as_json(session.plan_view(given))))

    @router.post("/api/yard")
    def judge_boards(asked: YardIn, request: Request) -> JSONResponse:
        return JSONResponse(as_json(session_of(request).yard(asked, _given(request))))

    @router.post("/api/yard/rack.csv")
    def write_rack(asked: YardIn, request: Request) -> Response:
        return _file(session_of(request).rack_file(asked, _given(request)), "attachment")


def _files(router: APIRouter, session_of: Callable[[Request], Session]) -> None:
    @router.get("/api/scene.glb")
    def show_scene(request: Request) -> Response:
        session, given = session_of(request), _given(request)
        return _kept(
            request,
            session.key(given),
            lambda: Response(session.scene(given), media_type="model/gltf-binary"),
        )

    @router.get("/api/packet.pdf")
    def show_packet(request: Request) -> Response:
        session, given = session_of(request), _given(request, but=frozenset({"paper"}))
        paper = request.query_params.get("paper", "a4")
        key = f"{session.key(given)}-{paper_named(paper)}"
        return _kept(request, key, lambda: _file(session.packet(given, paper), "inline"))

    @router.get("/api/export/{kind}")
    def show_export(kind: str, request: Request) -> Response:
        session, given = session_of(request), _given(request)
        key = f"{session.key(given)}-{kind if kind in KINDS else 'none'}"
        return _kept(request, key, lambda: _file(session.export(given, kind), "attachment"))


def _given(request: Request, *, but: frozenset[str] = frozenset()) -> dict[str, str]:
    """Parameters asked for; each once, none endless."""
    pairs = [(name, value) for name, value in request.query_params.multi_items() if name not in but]
    given, faults = dict(pairs), []
    if len(given) < len(pairs) or len(pairs) > _MOST:
        faults.append(
            Fault(
                code="given_twice",
                field="query",
                value=f"{len(pairs)} values",
                rule=f"must name each parameter once, and at most {_MOST}",
                remedy="Open the page without what stands behind the question mark.",
            )
        )
    faults += [
        Fault(
            code="too_long",
            field=name[:_LONGEST],
            value=f"{value[:20]}...",
            rule=f"must have at most {_LONGEST} characters",
            remedy="Write one length, such as 730 mm.",
        )
        for name, value in pairs
        if len(value) > _LONGEST or len(name) > _LONGEST
    ]
    if faults:
        raise FileFaults(faults)
    return given


def _file(taken: TakenFile, shown: str) -> Response:
    """A file to take away, under its own name."""
    headers = {"content-disposition": f'{shown}; filename="{taken.name}"'}
    return Response(taken.content, media_type=taken.media_type, headers=headers)


def _kept(request: Request, key: str, answer: Callable[[], Response]) -> Response:
    """The answer, or word that what the browser holds is still right."""
    tag = f'"{key}"'
    if tag in request.headers.get("if-none-match", ""):
        return Response(status_code=304, headers={"etag": tag, **FRESH})
    response = answer()
    response.headers.update({"etag": tag, **FRESH})
    return response
