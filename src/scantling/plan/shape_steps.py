"""The step of shaping edges and faces: chamfers, round-overs, arches, cut-outs and turned lengths."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.piece.model import Part
from scantling.piece.shaping import Shaping, ShapingKind
from scantling.plan.pace import rate
from scantling.plan.step import Step, Steps, Work
from scantling.shop.cautions import cautions_for

__all__ = ["shape_step", "shape_words"]

_RATE = {
    ShapingKind.CHAMFER: "arris",
    ShapingKind.ROUND_OVER: "arris",
    ShapingKind.HOLLOW: "arch",
    ShapingKind.CROWN: "arch",
    ShapingKind.TURNED: "round",
    ShapingKind.CUT_OUT: "cut_out",
}


def shape_step(work: Work, steps: Steps) -> None:
    """One step for all that is shaped, once its joints are cut and fit."""
    shaped = tuple(name for name, part in work.piece.parts.items() if part.shaping)
    if not shaped:
        return
    each = [
        (part, shaping) for name in shaped for part in (work.piece.parts[name],) for shaping in part.shaping
    ]
    kinds = {_RATE[shaping.kind] for _, shaping in each}
    steps.add(
        Step(
            title="Shape edges and faces",
            phase="joints",
            hands_on_min=sum(rate(_RATE[shaping.kind]).minutes() for _, shaping in each),
            needs=steps.before(shaped),
            parts=shaped,
            details=(
                *_told(each),
                "After the joints are cut and fit, while there are straight faces left to mark from.",
            ),
            cautions=cautions_for(*(("routing",) if "arris" in kinds else ()), "hand tools"),
        )
    )


def _told(each: Iterable[tuple[Part, Shaping]]) -> tuple[str, ...]:
    """Each shaping once, with all parts that get it, arrises of one part together."""
    parts: dict[str, list[str]] = {}
    for part, shaping in each:
        names = parts.setdefault(shape_words(part, shaping), [])
        if part.name not in names:
            names.append(part.name)
    return tuple(f"{', '.join(names)}: {words}" for words, names in parts.items())


def shape_words(part: Part, shaping: Shaping) -> str:
    """One shaping in words: what, how much, where and how far. [mm]"""
    before, after = shaping.start_mm - part.start_mm, part.end_mm - shaping.end_mm
    told = f"{shaping.kind.value} {shaping.size_mm:g} mm, {shaping.where}"
    if shaping.kind is ShapingKind.CUT_OUT:
        told = _opening_words(shaping)
    if max(before, after) < 0.05:
        return told
    if abs(before - after) < 0.05:
        stopped = "" if shaping.kind is ShapingKind.CUT_OUT else "stopped "
        return f"{told}, {stopped}{before:g} mm from both ends"
    return f"{told}, beginning {before:g} mm from its start and ending {after:g} mm from its end"


def _opening_words(shaping: Shaping) -> str:
    """A cut-out by its length, its height and its corners. [mm]"""
    size = f"{shaping.end_mm - shaping.start_mm:g} × {shaping.size_mm:g} mm"
    corners = f", corners of {shaping.corner_mm:g} mm radius" if shaping.corner_mm else ""
    return f"{shaping.kind.value} {size}{corners}, {shaping.where}"
