"""The order of work as cards for the bench: one step at a time, with what it needs and what it is done to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.papers.sheets.show import Show, word
from scantling.papers.words.built_words import beside, sizes_of
from scantling.papers.words.joint_naming import words_of
from scantling.papers.words.naming import label_of, names_of
from scantling.papers.words.order_rows import OrderRow, likes_of, order_rows
from scantling.papers.words.sawing_words import ends_words
from scantling.papers.words.sentence_units import in_style
from scantling.piece.built import SIZES
from scantling.plan.parts import PlannedPart
from scantling.plan.result import Plan
from scantling.shop.sawing.sawsetup import SawSetup

__all__ = ["CardPart", "Needed", "StepCard", "step_cards"]

_LISTED = 12
"""A piece of more parts is not told part by part at a step about all of it. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPart:
    """A part a step is done to.

    Parameters
    ----------
    sizes
        Name of the size (``length``, ``width``, ``thickness``), what it is to be as it is shown, and what is
        told beside it where that is not as drawn: ``measured; drawn 660 mm``.
    """

    name: str
    label: str
    sizes: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """A step that comes before another, by its key."""

    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StepCard:
    """One step as it is told at the bench.

    Parameters
    ----------
    key
        Title of the step in the plan, by which it is ticked; of alike ones told as one, the first.
    hands_on, wait
        Time, and what then dries or rests; empty for none.
    wait_min, clamped_min
        The same, to count down; how much of it in clamps. [min]
    needs
        The steps before it.
    """

    key: str
    title: str
    phase: str
    hands_on: str
    wait: str
    wait_min: float
    clamped_min: float
    lines: tuple[str, ...]
    cautions: tuple[str, ...]
    needs: tuple[Needed, ...]
    parts: tuple[CardPart, ...]
    parts_words: str
    once: bool


def step_cards(plan: Plan) -> tuple[StepCard, ...]:
    """Every step of a plan, in the order they are begun."""
    show, rows = Show.of(plan), order_rows(plan.order, likes_of(plan.parts))
    sawn = {setup.title: _sawn(setup, show) for setup in plan.setups}
    keys = {step.title: row.steps[0].title for row in rows for step in (*row.steps, *row.cures)}
    planned = {part.name: part for part in plan.parts}
    with words_of(plan):
        parts = {name: _part(part, plan, show) for name, part in planned.items()}
        cards = tuple(_card(row, keys, parts, show=show, sawn=sawn) for row in rows)
    return in_style(cards, plan.style)


def _card(
    row: OrderRow,
    keys: dict[str, str],
    parts: dict[str, CardPart],
    *,
    show: Show,
    sawn: dict[str, tuple[str, ...]],
) -> StepCard:
    first = row.steps[0]
    lines = sawn.get(first.title, row.details)
    own = {step.title for step in (*row.steps, *row.cures)}
    needs = [need for step in (*row.steps, *row.cures) for need in step.needs if need not in own]
    waits = row.waits_min
    return StepCard(
        key=first.title,
        title=word(row.title),
        phase=first.phase,
        hands_on=show.minutes(row.hands_on_min) if row.hands_on_min else "",
        wait=_wait(waits, show),
        wait_min=float(sum(waits)),
        clamped_min=float(waits[0]) if len(waits) > 1 else 0.0,
        lines=tuple(word(line) for line in lines),
        cautions=first.cautions,
        needs=tuple(Needed(key=key) for key in dict.fromkeys(keys[need] for need in needs if need in keys)),
        parts=tuple(parts[name] for name in row.parts if name in parts),
        parts_words=_parts_words(row.parts, len(parts)),
        once=first.once,
    )


def _parts_words(names: Sequence[str], whole: int) -> str:
    """The parts of a step by name; of a step about the whole of a large piece, how many they are."""
    everything = len(frozenset(names)) == whole > _LISTED
    return f"All {whole} parts" if everything else names_of(names)


def _sawn(setup: SawSetup, show: Show) -> tuple[str, ...]:
    """How the saw is set, which ends, and how they are cut."""
    angles = f"Blade turned {show.angle(setup.miter_deg)} from square, tilted {show.angle(setup.bevel_deg)}"
    stop = "" if setup.stop_mm is None else f"; stop to long point {show.length(setup.stop_mm, unit=True)}"
    return (f"{angles}{stop}.", ends_words(setup, show.ends), *setup.steps)


def _wait(waits_min: tuple[float, ...], show: Show) -> str:
    if not waits_min:
        return ""
    whole = show.minutes(sum(waits_min))
    return whole if len(waits_min) == 1 else f"{whole}, {show.minutes(waits_min[0])} of it in clamps"


def _part(part: PlannedPart, plan: Plan, show: Show) -> CardPart:
    return CardPart(
        name=part.name,
        label=label_of(part.name),
        sizes=tuple(
            (name, show.length(mm, unit=True), _beside(part.name, name, plan, show))
            for name, mm in zip(SIZES, sizes_of(part, plan.built), strict=True)
        ),
    )


def _beside(part: str, size: str, plan: Plan, show: Show) -> str:
    """What is told beside a size that is measured, or follows what is."""
    return beside(plan.built, part, size, lambda mm: show.gap(mm, unit=True))
