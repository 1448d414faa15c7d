"""The routes of the boards: drawings, a part where it is put, marks kept one by one, and the search."""

from __future__ import annotations

import json
from collections.abc import AsyncIterator, Callable
from dataclasses import dataclass
from time import monotonic

from anyio import to_thread
from fastapi import APIRouter, Request, Response
from fastapi.responses import HTMLResponse, JSONResponse, StreamingResponse

from scantling.errors import InputError, ScantlingError
from scantling.papers.words.layout_words import beside_words, layout_words
from scantling.plan.timber.laying_out import Question, answer_of, as_shown
from scantling.plan.timber.search_apart import Found
from scantling.stock.solving.matching import layout_key
from scantling.web.boards.board_acts import Bench, done
from scantling.web.boards.board_judging import Judge
from scantling.web.boards.board_making import Drawer, boards_view
from scantling.web.boards.searching import Searches, Searching
from scantling.web.documents.answering import as_file, given_of
from scantling.web.documents.pages import leaf
from scantling.web.documents.places import Standing
from scantling.web.kept.notes_keeping import NotesKeeper
from scantling.web.sent.board_bodies import Act, JudgeIn, MarkIn, StepIn
from scantling.web.sent.board_views import BoardsView, NotesView, SearchView
from scantling.web.sent.refusing import faults_of, refusal
from scantling.web.sent.taken import TakenFile
from scantling.web.sent.views import as_json

__all__ = ["board_routes"]

KeeperOf = Callable[[Request], NotesKeeper]
_ABOUT_BOARDS = "T"
_SECONDS = "120"


def board_routes(
    keeper_of: KeeperOf, standing_of: Callable[[Request], Standing], searches: Searches
) -> APIRouter:
    """The routes.

    Parameters
    ----------
    keeper_of
        Finds whose notes a request is about.
    standing_of
        Says where its documents stand.
    searches
        The searches of this server.
    """
    router = APIRouter()
    _looking(router, keeper_of, standing_of)
    _marking(router, keeper_of, searches)
    _searching(router, keeper_of, searches)
    return router


def _looking(router: APIRouter, keeper_of: KeeperOf, standing_of: Callable[[Request], Standing]) -> None:
    @router.get("/boards")
    def show_page(request: Request) -> HTMLResponse:
        title, _ = keeper_of(request).session().heading()
        return leaf("boards", standing_of(request), title=title)

    @router.get("/api/boards")
    def show_boards(request: Request) -> JSONResponse:
        return _told(_view(keeper_of(request), given_of(request)))

    @router.get("/api/boards/notes.yaml")
    def take_notes(request: Request) -> Response:
        notes = keeper_of(request).look()
        content = notes.text.encode()
        return as_file(
            TakenFile(name=notes.name, media_type="application/yaml", content=content), "attachment"
        )

    @router.post("/api/boards/judge")
    def judge(asked: JudgeIn, request: Request) -> JSONResponse:
        return _told(_looked_at(keeper_of(request), given_of(request)).judge.place(asked))

    @router.post("/api/boards/mark")
    def measure_mark(asked: MarkIn, request: Request) -> JSONResponse:
        return _told(_looked_at(keeper_of(request), given_of(request)).judge.mark(asked))


def _marking(router: APIRouter, keeper_of: KeeperOf, searches: Searches) -> None:
    @router.post("/api/boards")
    def make_mark(act: Act, request: Request) -> JSONResponse:
        keeper, given = keeper_of(request), given_of(request)
        notes, session = keeper.look(), keeper.session()
        question, rack = _asked(session.question(given)), session.design(given).job.rack
        assert rack is not None
        looked = _looked_at(keeper, given)
        bench = Bench(
            question=question,
            text=notes.text,
            layout=lambda: looked.judge.layout,
            found=searches.best,
            judged=looked.judge.words,
            boards=(*question.asked.boards, *rack.sheets),
            unit=looked.judge.drawer.show.lead_unit,
            gone=keeper.boards_go,
        )
        text, said = done(act, bench)
        return _told(keeper.keep(text, parent=act.parent, why=said))

    @router.post("/api/boards/undo")
    def step_back(step: StepIn, request: Request) -> JSONResponse:
        return _told(keeper_of(request).step("undo", parent=step.parent))

    @router.post("/api/boards/redo")
    def step_forward(step: StepIn, request: Request) -> JSONResponse:
        return _told(keeper_of(request).step("redo", parent=step.parent))

    @router.post("/api/boards/write")
    def write(step: StepIn, request: Request) -> JSONResponse:
        return _told(keeper_of(request).write(parent=step.parent))


def _searching(router: APIRouter, keeper_of: KeeperOf, searches: Searches) -> None:
    @router.get("/api/boards/search")
    def search(request: Request) -> StreamingResponse:
        given = given_of(request, but=frozenset({"seconds"}))
        seconds = request.query_params.get("seconds", _SECONDS)
        looked = _looked_at(keeper_of(request), given)
        stream = _stream(looked, searches, _seconds(seconds))
        headers = {"cache-control": "no-store", "x-accel-buffering": "no"}
        return StreamingResponse(stream, media_type="text/event-stream", headers=headers)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Looked:
    """The boards as they are."""

    judge: Judge

    @property
    def question(self) -> Question:
        return self.judge.question


def _looked_at(keeper: NotesKeeper, given: dict[str, str]) -> _Looked:
    session = keeper.session()
    question, plan = _asked(session.question(given)), session.design(given).plan
    layout = plan.timber.layout
    assert layout is not None
    return _Looked(judge=Judge(drawer=Drawer.of(plan, question), question=question, layout=layout))


def _asked(question: Question | None) -> Question:
    if question is None:
        raise InputError(
            code="no_rack",
            field="rack",
            value="nothing",
            rule="must be there to be laid out",
            remedy="Give the piece a rack, or the stockroom.",
        )
    return question


def _view(keeper: NotesKeeper, given: dict[str, str]) -> BoardsView:
    notes, session = keeper.look(), keeper.session()
    findings = tuple(f for f in session.findings(given) if f.code.startswith(_ABOUT_BOARDS))
    design = session.design(given)
    return boards_view(design.plan, session.question(given), notes=notes, findings=findings)


def _told(view: object) -> JSONResponse:
    if isinstance(view, NotesView | BoardsView):
        told = as_json(view)
        assert isinstance(told, dict)
        notes = told.get("notes", told)
        notes["text"] = view.text if isinstance(view, NotesView) else view.notes.text
        return JSONResponse(told, headers={"cache-control": "no-store"})
    return JSONResponse(as_json(view), headers={"cache-control": "no-store"})


def _seconds(written: str) -> float:
    try:
        return float(written)
    except ValueError:
        return 0.0


async def _stream(looked: _Looked, searches: Searches, seconds: float) -> AsyncIterator[str]:
    """Every better layout as it comes; whoever goes away ends the search."""
    try:
        with searches.begun(looked.question, seconds) as searching:
            yield _event("begun", {"number": searching.number})
            async for event in _answers(looked, searching):
                yield event
            broken = await to_thread.run_sync(searching.broken_off)
            yield _event("end", {"number": searching.number, "broken_off": broken})
    except ScantlingError as error:
        yield _event("refused", as_json(refusal(422, faults_of(error))))


async def _answers(looked: _Looked, searching: Searching) -> AsyncIterator[str]:
    """Better layouts as they come, drawn; a word in between where there was none for a while."""
    begun = monotonic()
    while True:
        try:
            found = await to_thread.run_sync(searching.next, 0.4)
        except (EOFError, OSError):
            return
        if found is None:
            yield ": still searching\n\n"
            continue
        told = await to_thread.run_sync(_better, looked, searching.number, found, monotonic() - begun)
        yield _event("better", as_json(told))


def _event(name: str, data: object) -> str:
    return f"event: {name}\ndata: {json.dumps(data)}\n\n"


def _better(looked: _Looked, number: int, found: Found, seconds: float) -> SearchView:
    question, drawer, before = looked.question, looked.judge.drawer, looked.judge.layout
    layout = as_shown(question, answer_of(question, found.chosen)[1])
    better = layout_key(layout, question.whole) < layout_key(before, question.whole)
    return SearchView(
        number=number,
        seconds=round(seconds, 1),
        words=layout_words(layout, money=drawer.money, proven=found.proven and not question.kept.boards),
        beside=beside_words(layout, before, money=drawer.money, better=better),
        better=better,
        proven=found.proven,
        facts=drawer.facts(layout),
        boards=drawer.boards(layout, bare=False) if better else (),
        loose=drawer.loose(layout),
    )
