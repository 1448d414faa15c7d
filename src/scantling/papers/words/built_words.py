"""What is measured and made, in words: the old figure beside the new."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from scantling.papers.sheets.model import Align, Column, Table
from scantling.papers.words.naming import label_of, names_of
from scantling.piece.built import SIZES, AsBuilt, SizeStands
from scantling.plan.parts import PlannedPart
from scantling.shop.sizes.size import FinishedSize

__all__ = [
    "MARK",
    "MARK_NOTE",
    "beside",
    "built_line",
    "built_names",
    "built_table",
    "is_off",
    "sizes_of",
    "with_mark",
]

MARK = "*"
"""Stands behind a size that is not as the piece file draws it."""
MARK_NOTE = f"{MARK} measured, or following what was measured; as drawn in the piece file it stands below."
_SAME_MM = 0.1

Shown = Callable[[float], str]
"""Writes a length in mm as it is shown."""


def is_off(found: SizeStands) -> bool:
    """Whether a size is worth telling: measured, or not as drawn."""
    return found.measured or abs(found.stands_mm - found.drawn_mm) > _SAME_MM or abs(found.off_mm) > _SAME_MM


def sizes_of(part: PlannedPart | FinishedSize, built: AsBuilt | None) -> tuple[float, float, float]:
    """Length, width and thickness of a part as it is, or is to be made. [mm]"""
    length, width, thickness = (
        drawn if built is None or (found := built.size(part.name, size)) is None else found.stands_mm
        for size, drawn in zip(SIZES, (part.length_mm, part.width_mm, part.thickness_mm), strict=True)
    )
    return length, width, thickness


def with_mark(text: str, built: AsBuilt | None, parts: Iterable[str], size: str) -> str:
    """A shown size with a mark, if it is not as drawn for one of these parts."""
    found = [built.size(part, size) for part in parts] if built is not None else []
    return f"{text} {MARK}" if any(each is not None and is_off(each) for each in found) else text


def beside(built: AsBuilt | None, part: str, size: str, shown: Shown) -> str:
    """What is told beside one size: ``measured; drawn 660 mm``; empty for one that is as drawn."""
    found = None if built is None else built.size(part, size)
    if found is None or not is_off(found):
        return ""
    words = [_how(found)] if _how(found) else []
    if abs(found.stands_mm - found.drawn_mm) > _SAME_MM:
        words.append(f"drawn {shown(found.drawn_mm)}")
    return "; ".join(words)


def built_line(built: AsBuilt | None, parts: Iterable[str], shown: Shown) -> str:
    """All that is told of some parts alike, on one line; empty where they are as drawn."""
    if built is None:
        return ""
    told = dict.fromkeys(
        f"{each.size} {shown(each.stands_mm)} ({beside(built, part, each.size, shown)})"
        for part in parts
        for each in built.sizes
        if each.part == part and is_off(each)
    )
    return "; ".join(told)


def built_names(built: AsBuilt, shown: Shown) -> tuple[str, ...]:
    """The names of the piece file that are facts, a sentence each."""
    return tuple(
        f"{name.name} counts as {shown(name.stands_mm)} for all that is not made yet, "
        f"drawn {shown(name.drawn_mm)}: " + (_because(name.because) if name.because else "it was measured.")
        for name in built.names
    )


def built_table(built: AsBuilt, shown: Shown, *, unit: str) -> Table | None:
    """What is measured and made and not as drawn; None where there is nothing of it."""
    groups: dict[tuple[str, ...], list[SizeStands]] = {}
    for each in built.sizes:
        if is_off(each):
            figures = (shown(each.drawn_mm), shown(each.stands_mm), shown(each.needed_mm))
            groups.setdefault((each.size, *figures, _how(each)), []).append(each)
    if not groups:
        return None
    rows = [
        (names_of(each.part for each in members), size.capitalize(), drawn, stands, how or "follows", needed)
        for (size, drawn, stands, needed, how), members in groups.items()
    ]
    return Table(
        title="As measured and made",
        columns=(
            Column(title="Part"),
            Column(title="Size"),
            Column(title=f"Drawn {unit}", align=Align.RIGHT),
            Column(title="Now", align=Align.RIGHT),
            Column(title="Why"),
            Column(title="Asked for", align=Align.RIGHT),
        ),
        rows=tuple(rows),
        parts=tuple(tuple(each.part for each in members) for members in groups.values()),
        note="What is made stays; the rest follows it. Where more or less is asked for, see the findings.",
    )


def _how(found: SizeStands) -> str:
    return "measured" if found.measured else "made" if found.cut else ""


def _because(size: str) -> str:
    part, _, which = size.partition(".")
    return f"the {which} of {label_of(part).lower()} was measured."
