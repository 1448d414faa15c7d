"""The routes of a piece's seasons: its document, the year in a room, and when to build."""

from __future__ import annotations

from collections.abc import Callable

from fastapi import APIRouter, Request, Response
from fastapi.responses import HTMLResponse, JSONResponse

from scantling.web.designs.seasons import KeptRooms, build_view, seasons_view
from scantling.web.designs.session import Session
from scantling.web.documents.answering import given_of, kept
from scantling.web.documents.pages import leaf
from scantling.web.documents.places import Standing
from scantling.web.sent.views import as_json

__all__ = ["ELSEWHERE", "season_routes"]

ELSEWHERE = "elsewhere"
"""Name under which another room is asked for, beside the parameters."""


def season_routes(
    session_of: Callable[[Request], Session],
    standing_of: Callable[[Request], Standing],
    rooms_of: Callable[[], KeptRooms],
) -> APIRouter:
    """The routes.

    Parameters
    ----------
    session_of, standing_of
        As for the other routes of a piece.
    rooms_of
        Rooms that are kept.
    """
    router = APIRouter()

    @router.get("/seasons")
    def show_seasons(request: Request) -> HTMLResponse:
        title, _ = session_of(request).heading()
        return leaf("seasons", standing_of(request), title=title)

    @router.get("/api/seasons")
    def show_year(request: Request) -> Response:
        session, given = session_of(request), given_of(request, but=frozenset({ELSEWHERE}))
        elsewhere = request.query_params.get(ELSEWHERE, "")[:200]
        return JSONResponse(as_json(seasons_view(session, given, elsewhere, rooms_of())))

    @router.get("/api/seasons/build")
    def show_build(request: Request) -> Response:
        session, given = session_of(request), given_of(request)
        key = f"{session.key(given)}-build"
        return kept(request, key, lambda: JSONResponse(as_json(build_view(session, given))))

    return router
