"""The order of work as it is told: steps alike in one row, a cure with the glue-up it follows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scantling.plan.parts import PlannedPart
from scantling.plan.steps.order import Order
from scantling.plan.steps.step import GLUE_UP, Step

__all__ = ["OrderRow", "likes_of", "order_rows"]

_SAME_MIN = 0.5
"""Times that differ by less are one. [min]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRow:
    """Steps told as one.

    Parameters
    ----------
    steps
        Glue-ups alike that follow one another, or one step.
    cures
        The cure after each of them, where there is one.
    """

    steps: tuple[Step, ...]
    cures: tuple[Step, ...] = ()

    @property
    def title(self) -> str:
        """Of the first, and how many more are alike."""
        more = len(self.steps) - 1
        return self.steps[0].title + (f", and {more} alike" if more else "")

    @property
    def details(self) -> tuple[str, ...]:
        """How, in order, after which others it is done to."""
        others = "; ".join(step.title.removeprefix(GLUE_UP) for step in self.steps[1:])
        return (*((f"Alike: {others}",) if others else ()), *self.steps[0].details)

    @property
    def parts(self) -> tuple[str, ...]:
        """Parts they are done to."""
        return tuple(dict.fromkeys(part for step in self.steps for part in step.parts))

    @property
    def hands_on_min(self) -> float:
        """Of all of them. [min]"""
        return sum(step.hands_on_min for step in self.steps)

    @property
    def waits_min(self) -> tuple[float, ...]:
        """Of the last: in clamps, then to cure. [min]"""
        return tuple(step.wait_min for step in (self.steps[-1], *self.cures[-1:]) if step.wait_min)


def likes_of(parts: Iterable[PlannedPart]) -> Mapping[str, str]:
    """Entry of each part, by which parts are alike."""
    return {part.name: part.like for part in parts}


def order_rows(order: Order, likes: Mapping[str, str]) -> tuple[OrderRow, ...]:
    """The order of work, row by row.

    Parameters
    ----------
    order
        Of the plan.
    likes
        Entry of each part, by which parts are alike.

    Returns
    -------
    tuple of OrderRow
        In the order their hands begin; every step of the plan is in one of them.
    """
    begin = {entry.task: entry.start_min for entry in order.timetable.entries}
    place = {step.title: i for i, step in enumerate(order.steps)}
    glued = {step.title for step in order.steps if step.clamps or step.phase == "gluing"}
    cures = {
        step.needs[0]: step
        for step in order.steps
        if not step.hands_on_min and len(step.needs) == 1 and step.needs[0] in glued
    }
    resting = {step.title for step in cures.values()}
    rows: list[OrderRow] = []
    for step in sorted(order.steps, key=lambda s: (begin.get(s.title, 0), place[s.title])):
        if step.title in resting:
            continue
        cure = (cures[step.title],) if step.title in cures else ()
        if rows and _alike(rows[-1].steps[-1], step, likes):
            last = rows.pop()
            rows.append(OrderRow(steps=(*last.steps, step), cures=(*last.cures, *cure)))
        else:
            rows.append(OrderRow(steps=(step,), cures=cure))
    return tuple(rows)


def _alike(one: Step, other: Step, likes: Mapping[str, str]) -> bool:
    """Whether two glue-ups are the same work, or work on parts alike, and take as long."""
    glued = one.title.startswith(GLUE_UP) and other.title.startswith(GLUE_UP)
    pressed = (one.phase, one.clamps, one.wait_min) == (other.phase, other.clamps, other.wait_min)
    long = abs(one.hands_on_min - other.hands_on_min) < _SAME_MIN
    return (
        glued
        and pressed
        and long
        and (one.details == other.details or _likes(one, likes) == _likes(other, likes))
    )


def _likes(step: Step, likes: Mapping[str, str]) -> list[str]:
    return sorted(likes.get(part, part) for part in step.parts)
