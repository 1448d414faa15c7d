"""The bench: what was done there, told as it happens, and how things stand."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import datetime
from typing import Annotated

from fastapi import APIRouter
from pydantic import Field, model_validator

from scantling.errors import Fault, FileFaults, InputError, ScantlingError
from scantling.joinery import look_at_text
from scantling.reading import parse_document
from scantling.store.bench import BenchEvent, BenchKind, BenchState, bench_state
from scantling.store.bench_log import (
    add_bench_event,
    bench_events,
    take_back_bench_event,
    take_back_measured,
)
from scantling.store.content import Content
from scantling.store.versions import content_at
from scantling.web.kept.desk import Desk
from scantling.web.sent.bench_sizes import as_measured, in_thousands, no_decimals, written_as
from scantling.web.sent.bodies import NOTHING_BACK, REFUSALS, Body
from scantling.web.sent.numbers import Number, PieceNumber, When

__all__ = ["BenchBody", "bench_routes"]


class MeasuredBody(Body):
    """The last that was measured of a size, in the unit it was measured in; `written` is both together."""

    figure: float
    unit: str
    written: str
    at: datetime


class BenchEventBody(Body):
    """One thing that happened; `takesBack` is the number of the event it takes back."""

    number: int
    version: int
    kind: BenchKind
    at: datetime
    subject: str
    figure: float | None
    unit: str
    note: str
    key: str
    takes_back: int | None

    @classmethod
    def of(cls, event: BenchEvent) -> BenchEventBody:
        """As it is sent."""
        return cls(
            number=event.number,
            version=event.version,
            kind=event.kind,
            at=event.at,
            subject=event.subject,
            figure=event.figure,
            unit=event.unit,
            note=event.note,
            key=event.key,
            takes_back=event.takes_back,
        )


class BenchBody(Body):
    """How things stand: steps done and timers running with their times, sizes measured; all that happened."""

    done: dict[str, datetime]
    measured: dict[str, MeasuredBody]
    running: dict[str, datetime]
    ran_min: dict[str, float]
    notes: list[str]
    finished_at: datetime | None
    events: list[BenchEventBody]

    @classmethod
    def of(cls, state: BenchState, events: tuple[BenchEvent, ...]) -> BenchBody:
        """As it is sent."""
        return cls(
            done=state.done,
            measured={
                name: MeasuredBody(
                    figure=found.figure,
                    unit=found.unit,
                    written=written_as(found.figure, found.unit),
                    at=found.at,
                )
                for name, found in state.measured.items()
            },
            running=state.running,
            ran_min=state.ran_min,
            notes=list(state.notes),
            finished_at=state.finished_at,
            events=[BenchEventBody.of(event) for event in events],
        )


class BenchEventNew(Body):
    """Something that happened.

    `subject` is a step's title, a part's size (`leg_fl.width`) or a timer's name. What was measured is
    `written` with its unit (`47.6 mm`, `1 7/8 in`), or told as `figure` and `unit`. `at` is when, if not now.
    `version` is that of the piece it was done by, if not the current one: what was ticked with no signal was
    made to the sizes seen then. Sent again under the same `key`, it counts once.
    """

    kind: BenchKind
    subject: Annotated[str, Field(max_length=300)] = ""
    figure: Annotated[float, Field(allow_inf_nan=False)] | None = None
    unit: Annotated[str, Field(max_length=8)] = ""
    written: Annotated[str, Field(max_length=60)] = ""
    note: Annotated[str, Field(max_length=1000)] = ""
    at: When | None = None
    version: Number | None = None
    key: Annotated[str, Field(max_length=64)] = ""


class TakingBack(Body):
    """What is to be taken back: what was measured of a `subject`, an event by its number, or the last.

    Of a subject, with `at` what was measured later stands; sent again under the same `key`, it counts once.
    """

    event: Number | None = None
    subject: Annotated[str, Field(max_length=300)] = ""
    at: When | None = None
    key: Annotated[str, Field(max_length=64)] = ""

    @model_validator(mode="after")
    def _of_one(self) -> TakingBack:
        """`at` and `key` belong to a subject."""
        if not self.subject and (self.at is not None or self.key):
            raise ValueError("has 'at' and 'key' only with a subject")
        return self


def bench_routes(desk: Desk) -> APIRouter:
    """Routes below a piece, for the bench.

    Parameters
    ----------
    desk
        Where it is kept.
    """
    routes = APIRouter(tags=["bench"], responses=REFUSALS)

    @routes.get("/bench")
    def show(number: PieceNumber) -> BenchBody:
        """How things stand at the bench, and all that happened."""
        with desk.reading() as records:
            events = bench_events(records, number)
        return BenchBody.of(bench_state(events), events)

    @routes.post("/bench", status_code=201)
    def add(number: PieceNumber, new: BenchEventNew) -> BenchBody:
        """Tell what happened; the answer is how things stand after it."""
        event = BenchEvent(
            kind=new.kind,
            at=desk.now() if new.at is None else new.at,
            subject=new.subject,
            figure=new.figure,
            unit=new.unit,
            note=new.note,
            key=new.key,
            version=new.version or 0,
        )
        if not _is_kept(desk, number, event):  # what is kept already is not judged by what the piece is now
            event = as_measured(event, new.written)
            if event.kind is BenchKind.MEASURED:
                _check_measured(desk, number, event, new.written)
        with desk.writing() as records:
            add_bench_event(records, number, event)
            events = bench_events(records, number)
        return BenchBody.of(bench_state(events), events)

    @routes.post("/bench/take-back", status_code=201, responses=NOTHING_BACK)
    def take_back(number: PieceNumber, back: TakingBack) -> BenchBody:
        """Take back the last event, another, or a measure; it stays in the log and no longer counts."""
        if back.event is not None and back.subject:
            raise InputError(
                code="event_unwanted",
                field="event",
                value=str(back.event),
                rule="must not be told with a subject",
                remedy="Leave out the event to take back what was measured of the subject; leave out the "
                "subject to take back that event.",
            )
        with desk.writing() as records:
            if back.subject:
                now, up_to = back.at or desk.now(), back.at
                take_back_measured(records, number, back.subject, now=now, up_to=up_to, key=back.key)
            else:
                take_back_bench_event(records, number, now=desk.now(), number=back.event)
            events = bench_events(records, number)
        return BenchBody.of(bench_state(events), events)

    return routes


def _is_kept(desk: Desk, number: int, event: BenchEvent) -> bool:
    with desk.reading() as records:
        return bool(event.key) and event.key in {each.key for each in bench_events(records, number)}


def _check_measured(desk: Desk, number: int, event: BenchEvent, written: str) -> None:
    """Refuse a size that cannot be: of no part of the piece, not to be believed, or not to be drawn.

    Of a piece whose file has faults nothing is known, and anything may be measured. A comma that could part
    thousands too is one before decimals where the piece believes that, and not the thousands.

    Raises
    ------
    InputError
        ``not_a_length``: it could be either.
    FileFaults
        ``not_in_piece``, ``not_believable``, or what keeps the piece from being drawn so.
    """
    with desk.reading() as records:
        content, events = content_at(records, number), bench_events(records, number)
    faults = _disbelieved(desk, content, event)
    thousands = in_thousands(written)
    if thousands and (faults != [] or not _disbelieved(desk, content, _as_thousands(event, thousands))):
        raise no_decimals(event, written)
    if faults is None:
        return
    if faults:
        raise FileFaults([_at_the_bench(fault) for fault in faults])
    built = desk.built(number, (*events, replace(event, number=2**31)))
    desk.session(content, built).shape({})


def _as_thousands(event: BenchEvent, written: str) -> BenchEvent:
    return as_measured(replace(event, figure=None, unit=""), written)


def _disbelieved(desk: Desk, content: Content, event: BenchEvent) -> list[Fault] | None:
    """What is wrong with a size by the piece as it is drawn; None where that cannot be known."""
    part, dot, size = event.subject.partition(".")
    written = written_as(event.figure or 0.0, event.unit)
    told = {size: written} if dot else written
    try:
        desk.session(content).shape({})
    except ScantlingError:
        return None
    notes = parse_document(json.dumps({"measured": {part: told}}), file="bench")
    return list(look_at_text(content.piece, given=content.given, built=notes).faults)


def _at_the_bench(fault: Fault) -> Fault:
    """A fault that stands in no file."""
    return replace(fault, file="", line=0, column=0, field=fault.field.removeprefix("measured."))
