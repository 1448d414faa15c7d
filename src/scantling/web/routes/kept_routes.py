"""Pieces that are kept: listed, begun, opened, renamed, put away; and texts that are being written."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request, Response
from fastapi.responses import HTMLResponse

from scantling.errors import Fault, FileFaults, InputError
from scantling.piece.forms import demo_files, find_form, forms
from scantling.store.bench import bench_state
from scantling.store.bench_log import bench_events, bench_states
from scantling.store.content import Attached, Content
from scantling.store.pieces import find_piece, list_pieces, put_away, spare_name, take_out
from scantling.store.titles import title_of, titled
from scantling.store.versions import begin_piece, call, content_at
from scantling.web.boards.board_routes import board_routes
from scantling.web.boards.searching import Searches
from scantling.web.designs.drawn_forms import drawn_form
from scantling.web.designs.session import Session
from scantling.web.documents.pages import leaf
from scantling.web.documents.places import Standing
from scantling.web.documents.profile_pages import profile_pages
from scantling.web.kept.desk import Desk
from scantling.web.kept.notes_keeping import PieceNotes
from scantling.web.kept.piece_keeping import opened_piece
from scantling.web.routes.bench_routes import bench_routes
from scantling.web.routes.brief_routes import brief_routes
from scantling.web.routes.choosing import choosing_routes, chosen
from scantling.web.routes.entry_routes import entry_routes
from scantling.web.routes.part_routes import part_routes
from scantling.web.routes.room_routes import room_routes
from scantling.web.routes.routes import piece_routes
from scantling.web.routes.shop_routes import shop_routes
from scantling.web.routes.stock_routes import stock_routes
from scantling.web.routes.typed_routes import typed_routes
from scantling.web.routes.version_routes import version_routes
from scantling.web.routes.wood_routes import wood_routes
from scantling.web.sent.bodies import (
    REFUSALS,
    ContentBody,
    DraftBody,
    FaultBody,
    FormBody,
    FormList,
)
from scantling.web.sent.numbers import PieceNumber
from scantling.web.sent.piece_bodies import (
    BEGUN_FROM,
    PieceBody,
    PieceChange,
    PieceList,
    PieceNew,
    PieceOpen,
    piece_body,
)
from scantling.web.sent.refusing import faults_of

__all__ = ["kept_routes"]

_TAKEN: dict[int | str, dict[str, Any]] = {409: REFUSALS[422] | {"description": "The name is taken."}}


def kept_routes(desk: Desk, searches: Searches) -> APIRouter:
    """Routes for all pieces that are kept.

    Parameters
    ----------
    desk
        Where they are kept.
    searches
        Searches for better layouts.
    """
    routes = APIRouter(prefix="/api", responses=REFUSALS)
    _listing(routes, desk)
    _changing(routes, desk)
    _drafting(routes, desk)
    for beside in (stock_routes(desk), shop_routes(desk), room_routes(desk)):
        routes.include_router(beside)
    of_a_piece = (
        version_routes,
        bench_routes,
        entry_routes,
        brief_routes,
        part_routes,
        wood_routes,
        choosing_routes,
        typed_routes,
    )
    for below in (made(desk) for made in of_a_piece):
        routes.include_router(below, prefix="/pieces/{number}")
    both = APIRouter()
    both.include_router(routes)
    both.include_router(profile_pages())
    _designs(both, desk)
    boards = board_routes(
        lambda request: PieceNotes(desk, request.path_params["number"]), _standings(desk)[0], searches
    )
    both.include_router(boards, prefix="/pieces/{number:number}", include_in_schema=False)
    return both


def _designs(routes: APIRouter, desk: Desk) -> None:
    """The page of each piece with all it asks for, where the piece stands; of a version and a draft too."""

    @routes.get("/pieces", include_in_schema=False)
    def show_list() -> HTMLResponse:
        return leaf("pieces", Standing())

    @routes.get("/stockroom", include_in_schema=False)
    def show_stockroom() -> HTMLResponse:
        return leaf("stockroom", Standing())

    def of_piece(request: Request) -> Session:
        session, request.state.version = desk.session_now(request.path_params["number"])
        return session

    def of_version(request: Request) -> Session:
        return desk.session_at(request.path_params["number"], request.path_params["version"])

    def of_draft(request: Request) -> Session:
        return desk.session_of_draft(request.path_params["draft"])

    of_now, of_old = _standings(desk)

    @routes.get("/pieces/{number:number}/write", include_in_schema=False)
    def show_text(request: Request) -> HTMLResponse:
        return leaf("write", of_now(request), title="")

    @routes.get("/pieces/{number:number}/bench", include_in_schema=False)
    def show_bench(request: Request) -> HTMLResponse:
        return leaf("bench", of_now(request), title="")

    for prefix, session_of, standing_of in (
        ("/pieces/{number:number}", of_piece, of_now),
        ("/pieces/{number:number}/versions/{version:number}", of_version, of_old),
        ("/drafts/{draft}", of_draft, _of_draft),
    ):
        of_one = piece_routes(session_of, standing_of, desk.kept_rooms)
        routes.include_router(of_one, prefix=prefix, include_in_schema=False)


def _standings(desk: Desk) -> tuple[Callable[[Request], Standing], Callable[[Request], Standing]]:
    """Where a piece stands, and where an older version does, which leads to the places of the piece now."""

    def now(request: Request) -> Standing:
        number = request.path_params["number"]
        with desk.reading() as records:
            name = find_piece(records, number).name
        return Standing(base=f"/pieces/{number}/", kept=True, boards=True, name=name)

    return now, lambda request: replace(now(request), old=True)


def _of_draft(request: Request) -> Standing:
    return Standing(base=f"/drafts/{request.path_params['draft']}/")


def _listing(routes: APIRouter, desk: Desk) -> None:
    @routes.get("/forms", tags=["pieces"])
    def list_forms() -> FormList:
        """The forms a piece can be begun from."""
        return FormList(forms=[FormBody(name=f.name, title=f.title, about=f.about) for f in forms()])

    @routes.get("/forms/{name}/picture.svg", tags=["pieces"], response_class=_Picture)
    def show_form(name: Annotated[str, Path(max_length=100)]) -> Response:
        """A form as it stands, in lines."""
        form = find_form(name)
        return _Picture(drawn_form(form) or desk.form_picture(Content(piece=form.text)))

    @routes.get("/demo", tags=["pieces"])
    def show_demo() -> ContentBody:
        """The demo piece with the shop, rack and room that go with it, to begin one from."""
        return ContentBody.of(_demo_content())

    @routes.get("/pieces", tags=["pieces"])
    def list_all(away: Annotated[bool, Query(alias="putAway")] = False) -> PieceList:
        """The pieces, last changed first; those put away are a list of their own."""
        with desk.reading() as records:
            bench = bench_states(records)
            listed = list_pieces(records, put_away=away)
        return PieceList(pieces=[piece_body(piece, bench.get(piece.number)) for piece in listed])

    @routes.get("/pieces/{number}", tags=["pieces"])
    def open_piece(number: PieceNumber) -> PieceOpen:
        """A piece with everything it is planned from."""
        with desk.reading() as records:
            return opened_piece(records, number)

    @routes.get("/pieces/{number}/file", tags=["pieces"], response_class=_PieceFile)
    def take_file(number: PieceNumber) -> Response:
        """The piece file alone, as it was written, to take away."""
        with desk.reading() as records:
            text = content_at(records, number).piece
        headers = {"content-disposition": f'attachment; filename="piece-{number}.yaml"'}
        return _PieceFile(text, headers=headers)


def _changing(routes: APIRouter, desk: Desk) -> None:
    @routes.post("/pieces", status_code=201, tags=["pieces"], responses=_TAKEN)
    def begin(new: PieceNew) -> PieceOpen:
        """Begin a piece from a form, or from a text; one with faults is kept too."""
        content = _content_of(new)
        with desk.writing() as records:
            content, _ = chosen(records, content, new.planned_for)
            name = new.name if new.name is not None else spare_name(records, _title(content))
            called = titled(content, " ".join(name.split()))
            piece = begin_piece(records, name, called, now=desk.now(), why=new.why or _why(new))
            return opened_piece(records, piece.number)

    @routes.patch("/pieces/{number}", tags=["pieces"], responses=_TAKEN)
    def change(number: PieceNumber, change: PieceChange) -> PieceBody:
        """Call a piece something else, put it away, or take it out again."""
        with desk.writing() as records:
            if change.name is not None:
                call(records, number, change.name, now=desk.now())
            if change.put_away is not None and change.put_away:
                put_away(records, number, now=desk.now())
            elif change.put_away is not None:
                take_out(records, number)
            piece, events = find_piece(records, number), bench_events(records, number)
        return piece_body(piece, bench_state(events))


def _drafting(routes: APIRouter, desk: Desk) -> None:
    @routes.post("/drafts", tags=["drafts"])
    def lay_down(content: ContentBody) -> DraftBody:
        """Hold a text that is being written, to ask for its designs; tells what is wrong with it."""
        laid = content.content()
        draft, faults = desk.lay_down(laid), tuple[Fault, ...]()
        try:
            desk.session(laid).shape({})
        except (FileFaults, InputError) as error:
            faults = faults_of(error)
        return DraftBody(draft=draft, errors=[FaultBody.of(fault) for fault in faults])


class _Picture(Response):
    media_type = "image/svg+xml"


class _PieceFile(Response):
    media_type = "application/yaml"


def _content_of(new: PieceNew) -> Content:
    if (new.form is None) == (new.content is None):
        raise InputError(
            code="one_of_two",
            field="form",
            value="both" if new.form is not None else "neither",
            rule="must be named, or a content be given, and not both",
            remedy="Send {form: NAME}, or {content: {piece: TEXT}}.",
        )
    if new.content is not None:
        return new.content.content()
    return Content(piece=find_form(str(new.form)).text)


def _demo_content() -> Content:
    """The demo piece with everything that goes with it."""
    files = demo_files()

    def text(what: str) -> str:
        return files[what].read_text(encoding="utf-8")

    shop, rack, room = (Attached(name=files[what].name, text=text(what)) for what in ("shop", "rack", "room"))
    return Content(piece=text("piece"), shop=shop, rack=rack, room=room)


def _why(new: PieceNew) -> str:
    return "Begun" if new.form is None else BEGUN_FROM + find_form(new.form).title


def _title(content: Content) -> str:
    """The title in the file; a plain word where it has none that can be read."""
    return title_of(content)[:150] or "Piece"
