"""The bench's log keeps what happened, and how things stand is worked out from it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from scantling.errors import InputError
from scantling.store.bench import BenchEvent, BenchKind, bench_state
from scantling.store.bench_log import (
    add_bench_event,
    bench_events,
    bench_states,
    take_back_bench_event,
    take_back_measured,
)
from scantling.store.database import Database
from scantling.store.versions import begin_piece
from tests.store.clock import Clock, content


def _begun(database: Database, clock: Clock) -> int:
    with database.writing() as records:
        return begin_piece(records, "Bench", content("a"), now=clock()).number


def _kept(database: Database, piece: int, *events: BenchEvent) -> list[BenchEvent]:
    with database.writing() as records:
        return [add_bench_event(records, piece, event) for event in events]


def test_how_things_stand_follows_from_what_happened(database: Database) -> None:
    """A step ticked and unticked, a size measured twice, a timer run twice for a minute, a note."""
    clock = Clock()
    piece = _begun(database, clock)
    events = _kept(
        database,
        piece,
        BenchEvent(kind=BenchKind.STEP_DONE, subject="Plane the legs", at=clock()),
        BenchEvent(kind=BenchKind.STEP_DONE, subject="Rip the rails", at=clock()),
        BenchEvent(kind=BenchKind.STEP_OPEN, subject="Rip the rails", at=clock()),
        BenchEvent(kind=BenchKind.MEASURED, subject="leg_fl.width", figure=44.5, unit="mm", at=clock()),
        BenchEvent(kind=BenchKind.MEASURED, subject="leg_fl.width", figure=44.2, unit="mm", at=clock()),
        *(
            BenchEvent(kind=kind, subject="Glue", at=clock())
            for kind in (BenchKind.TIMER_STARTED, BenchKind.TIMER_STOPPED) * 2
        ),
        BenchEvent(kind=BenchKind.TIMER_STARTED, subject="Cure", at=clock()),
        BenchEvent(kind=BenchKind.NOTED, note="The left leg has a stain", at=clock()),
    )
    state = bench_state(events)
    assert state.done == {"Plane the legs": events[0].at}
    assert (state.measured["leg_fl.width"].figure, state.measured["leg_fl.width"].unit) == (44.2, "mm")
    assert state.ran_min == {"Glue": 2.0}
    assert state.running == {"Cure": events[9].at}
    assert (state.notes, state.finished_at, state.begun) == (("The left leg has a stain",), None, True)
    with database.reading() as records:
        assert list(bench_events(records, piece)) == events
        assert bench_states(records) == {piece: state}


def test_what_was_wrong_is_taken_back_and_stays_told(database: Database) -> None:
    """The last event, then the one before it; the log has four lines, and the first counts."""
    clock = Clock()
    piece = _begun(database, clock)
    first, second, _ = _kept(
        database,
        piece,
        *(BenchEvent(kind=BenchKind.STEP_DONE, subject=step, at=clock()) for step in ("A", "B", "C")),
    )
    with database.writing() as records:
        take_back_bench_event(records, piece, now=clock())
        assert take_back_bench_event(records, piece, now=clock()).takes_back == second.number
        events = bench_events(records, piece)
        assert (len(events), bench_state(events).done) == (5, {"A": first.at})
        with pytest.raises(InputError) as refused:
            take_back_bench_event(records, piece, number=second.number, now=clock())
        assert refused.value.code == "taken_back_already"
        with pytest.raises(InputError) as refused:
            take_back_bench_event(records, piece, number=999, now=clock())
        assert refused.value.code == "unknown_event"
        take_back_bench_event(records, piece, now=clock())
        with pytest.raises(InputError) as refused:
            take_back_bench_event(records, piece, now=clock())
        assert refused.value.code == "nothing_to_take_back"


def test_sent_twice_under_one_key_it_is_kept_once(database: Database) -> None:
    """As a phone does whose answer got lost on the way; the same key for another piece is another event."""
    clock = Clock()
    piece = _begun(database, clock)
    event = BenchEvent(kind=BenchKind.STEP_DONE, subject="A", at=clock(), key="phone-1")
    (once,) = _kept(database, piece, event)
    assert _kept(database, piece, event) == [once]
    with database.writing() as records:
        other = begin_piece(records, "Chair", content("a"), now=clock()).number
        assert add_bench_event(records, other, event).number > once.number


def test_a_measure_taken_back_twice_under_one_key_leaves_what_was_measured_since(database: Database) -> None:
    """Two windows send one queue: taken back, then 658 mm. The second taking back comes after 658."""
    clock = Clock()
    piece = _begun(database, clock)
    first, other, anew = (
        BenchEvent(kind=BenchKind.MEASURED, subject="top.width", figure=mm, unit="mm", at=clock(), key=key)
        for mm, key in ((657.0, "a"), (656.0, "b"), (658.0, "d"))
    )
    _kept(database, piece, first, other)
    with database.writing() as records:
        for _ in range(2):
            take_back_measured(records, piece, "top.width", now=clock(), key="c")
            add_bench_event(records, piece, anew)
        events = bench_events(records, piece)
    assert bench_state(events).measured["top.width"].figure == 658.0
    assert len(events) == 5


def test_a_measure_told_after_the_taking_back_stands(database: Database) -> None:
    """A phone with no signal takes 657 back; what a tablet has measured since is not what it saw."""
    clock = Clock()
    piece = _begun(database, clock)
    first = BenchEvent(kind=BenchKind.MEASURED, subject="top.width", figure=657.0, unit="mm", at=clock())
    back = clock()
    _kept(database, piece, first, replace(first, figure=658.0, at=clock()))
    with database.writing() as records:
        take_back_measured(records, piece, "top.width", now=back, up_to=back, key="c")
        stands = bench_state(bench_events(records, piece))
        assert stands.measured["top.width"].figure == 658.0
        with pytest.raises(InputError) as refused:
            take_back_measured(records, piece, "top.width", now=back, up_to=back, key="e")
        assert refused.value.code == "nothing_to_take_back"
        take_back_measured(records, piece, "top.width", now=clock())
        assert bench_state(bench_events(records, piece)).measured == {}


def test_a_finished_piece_is_known(database: Database) -> None:
    """Until that is taken back."""
    clock = Clock()
    piece = _begun(database, clock)
    (event,) = _kept(database, piece, BenchEvent(kind=BenchKind.FINISHED, at=clock()))
    with database.writing() as records:
        assert bench_state(bench_events(records, piece)).finished_at == event.at
        take_back_bench_event(records, piece, now=clock())
        assert bench_state(bench_events(records, piece)).finished_at is None


def test_a_clock_set_back_takes_no_time_off(database: Database) -> None:
    """A timer stopped before it was started ran for no time."""
    clock = Clock()
    piece = _begun(database, clock)
    events = _kept(
        database,
        piece,
        BenchEvent(kind=BenchKind.TIMER_STARTED, subject="Glue", at=clock()),
        BenchEvent(kind=BenchKind.TIMER_STOPPED, subject="Glue", at=clock() - timedelta(hours=1)),
    )
    assert bench_state(events).ran_min == {"Glue": 0.0}


@pytest.mark.parametrize(
    ("kind", "given", "code"),
    [
        (BenchKind.STEP_DONE, {}, "subject_missing"),
        (BenchKind.STEP_DONE, {"subject": "x" * 301}, "too_long"),
        (BenchKind.STEP_DONE, {"subject": "a\nb"}, "not_text"),
        (BenchKind.STEP_DONE, {"subject": "A", "figure": 3.0}, "figure_unwanted"),
        (BenchKind.MEASURED, {"subject": "leg.width", "unit": "mm"}, "figure_missing"),
        (BenchKind.MEASURED, {"subject": "leg.width", "figure": 3.0}, "figure_missing"),
        (
            BenchKind.MEASURED,
            {"subject": "leg.width", "figure": float("nan"), "unit": "mm"},
            "figure_missing",
        ),
        (BenchKind.NOTED, {}, "note_missing"),
        (BenchKind.TAKEN_BACK, {"subject": "A"}, "wrong_kind"),
    ],
)
def test_what_will_not_do_is_refused(
    database: Database, kind: BenchKind, given: dict[str, object], code: str
) -> None:
    """And nothing of it is kept."""
    clock = Clock()
    piece = _begun(database, clock)
    event = BenchEvent(kind=kind, at=clock(), **given)  # type: ignore[arg-type]
    with database.writing() as records:
        with pytest.raises(InputError) as refused:
            add_bench_event(records, piece, event)
        assert refused.value.code == code
        assert bench_events(records, piece) == ()
