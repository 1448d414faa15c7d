"""What was done at the bench: steps ticked, sizes measured, timers started; and how things stand after it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum

__all__ = ["BenchEvent", "BenchKind", "BenchState", "Measured", "bench_state"]


class BenchKind(StrEnum):
    """What happened."""

    STEP_DONE = "step done"
    STEP_OPEN = "step open"
    MEASURED = "measured"
    TIMER_STARTED = "timer started"
    TIMER_STOPPED = "timer stopped"
    NOTED = "noted"
    FINISHED = "finished"
    TAKEN_BACK = "taken back"


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchEvent:
    """One thing that happened.

    Parameters
    ----------
    number
        Its number; 0 before it is kept.
    version
        The version of the piece it was done by; 0 for the current one, until it is kept.
    subject
        What it was done to: a step's title, a part's size (``leg_fl.width``), a timer's name.
    figure, unit
        What was measured, and in what (``mm``, ``%``, ``kg``); None and empty where nothing was.
    key
        A word of whoever sends it: sent again under the same key, it is kept once. Empty for none.
    takes_back
        Number of the event it takes back.
    """

    kind: BenchKind
    at: datetime
    subject: str = ""
    figure: float | None = None
    unit: str = ""
    note: str = ""
    key: str = ""
    number: int = 0
    version: int = 0
    takes_back: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """The last that was measured of a size."""

    figure: float
    unit: str
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchState:
    """How things stand at the bench.

    Parameters
    ----------
    done
        Steps done, by title, and when.
    measured
        Sizes measured, by name.
    running
        Timers that run, and since when.
    ran_min
        How long each timer has run that was stopped, all its runs together. [min]
    notes
        What was noted, oldest first.
    finished_at
        When the piece was finished; None while it is not.
    """

    done: dict[str, datetime] = field(default_factory=dict)
    measured: dict[str, Measured] = field(default_factory=dict)
    running: dict[str, datetime] = field(default_factory=dict)
    ran_min: dict[str, float] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    finished_at: datetime | None = None

    @property
    def begun(self) -> bool:
        """Whether anything has happened."""
        return bool(self.done or self.measured or self.running or self.ran_min or self.notes)


def bench_state(events: Iterable[BenchEvent]) -> BenchState:
    """How things stand after some events, in the order they were kept."""
    listed = tuple(events)
    gone = {event.takes_back for event in listed}
    state = BenchState()
    notes: list[str] = []
    finished = None
    for event in listed:
        if event.number in gone:
            continue
        match event.kind:
            case BenchKind.STEP_DONE:
                state.done[event.subject] = event.at
            case BenchKind.STEP_OPEN:
                state.done.pop(event.subject, None)
            case BenchKind.MEASURED if event.figure is not None:
                state.measured[event.subject] = Measured(figure=event.figure, unit=event.unit, at=event.at)
            case BenchKind.TIMER_STARTED:
                state.running[event.subject] = event.at
            case BenchKind.TIMER_STOPPED:
                _stop(state, event)
            case BenchKind.NOTED:
                notes.append(event.note)
            case BenchKind.FINISHED:
                finished = event.at
    return BenchState(
        done=state.done,
        measured=state.measured,
        running=state.running,
        ran_min=state.ran_min,
        notes=tuple(notes),
        finished_at=finished,
    )


def _stop(state: BenchState, event: BenchEvent) -> None:
    since = state.running.pop(event.subject, None)
    if since is not None:
        ran = max(0.0, (event.at - since).total_seconds() / 60.0)
        state.ran_min[event.subject] = state.ran_min.get(event.subject, 0.0) + ran
