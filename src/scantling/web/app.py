"""The server: routes, files of the page, and how what goes wrong is told."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from fastapi import FastAPI, HTTPException, Request
from fastapi.responses import HTMLResponse, JSONResponse, RedirectResponse

from scantling import __version__
from scantling.web.boards.board_routes import board_routes
from scantling.web.boards.searching import Searches
from scantling.web.designs.session import Session
from scantling.web.documents.answering import FRESH
from scantling.web.documents.describing import describe
from scantling.web.documents.files import Files
from scantling.web.documents.pages import leaf, page_policy, static_folder
from scantling.web.documents.places import Standing
from scantling.web.documents.refused import refuse_in_one_body
from scantling.web.documents.shell import SCOPE_HEADER, WORKER, shell_files, shell_version
from scantling.web.guard.bounding import Bounded
from scantling.web.guard.guarding import LOCAL_HOSTS, Guard
from scantling.web.guard.keyed import Keyed, is_here
from scantling.web.guard.network import Network, code_svg
from scantling.web.routes.routes import piece_routes

if TYPE_CHECKING:
    from scantling.web.kept.desk import Desk
    from scantling.web.kept.notes_keeping import NotesKeeper

__all__ = ["create_app"]


def create_app(
    session: Session | None,
    desk: Desk | None = None,
    *,
    network: Network | None = None,
    notes: NotesKeeper | None = None,
) -> FastAPI:
    """The page's server.

    Parameters
    ----------
    session
        Whose piece it shows at ``/``; None to begin with the list of those that are kept.
    desk
        Records to keep and show; None for a page of one file alone.
    network
        Where it is on the shop's network, with its key; None for this computer only.
    notes
        Keeps the bench notes of the piece at ``/``; None for a page without its boards.
    """
    app = FastAPI(
        title="Scantling", version=__version__, docs_url=None, redoc_url=None, openapi_url="/api/openapi.json"
    )
    app.add_middleware(Bounded)
    if network is not None:
        app.add_middleware(Keyed, network=network)
    hosts = LOCAL_HOSTS if network is None else LOCAL_HOSTS | {network.host}
    app.add_middleware(Guard, policy=page_policy(), hosts=hosts)
    app.state.listed = desk is not None
    refuse_in_one_body(app)
    describe(app)
    alone = Standing(base="/", listed=desk is not None, boards=notes is not None)
    searches = Searches()
    if session is not None:
        app.include_router(piece_routes(lambda _: session, lambda _: alone), include_in_schema=False)
        if notes is not None:
            boards = board_routes(lambda _: notes, lambda _: alone, searches)
            app.include_router(boards, include_in_schema=False)
    else:
        app.add_api_route("/", lambda: RedirectResponse("/pieces"), include_in_schema=False)
    if network is not None:
        _show_code(app, network)
    if desk is not None:  # a page of one file needs no database
        from scantling.web.routes.kept_routes import kept_routes

        app.include_router(kept_routes(desk, searches))

    @app.get("/api/health")
    def show_health() -> JSONResponse:
        """Whether it runs, and its version."""
        return JSONResponse({"ok": True, "version": __version__})

    @app.get("/api/shell", include_in_schema=False)
    def show_shell() -> JSONResponse:
        """The files of the page, for a browser to keep."""
        return JSONResponse({"version": shell_version(), "files": shell_files()})

    fonts = files("scantling.papers") / "fonts"
    app.mount("/fonts", Files(Path(str(fonts)), FRESH))
    app.mount("/static", Files(static_folder(), FRESH, {WORKER: SCOPE_HEADER}))
    return app


def _show_code(app: FastAPI, network: Network) -> None:
    @app.get("/phone", include_in_schema=False)
    def show_phone(request: Request) -> HTMLResponse:
        if not is_here(request.scope):  # by the address it comes from: the name it asks for is its own word
            raise HTTPException(404)  # whoever is in has no need of it, and shall not hand it on
        page = leaf("phone", Standing(), ready=code_svg(network.link))
        page.headers["cache-control"] = "no-store"
        return page
