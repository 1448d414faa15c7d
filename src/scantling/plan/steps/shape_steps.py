"""The steps of shaping: scooped faces; then arrises and other faces, cut-outs and turned lengths."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.piece.model import Part
from scantling.piece.shaping import Shaping, ShapingKind
from scantling.piece.thinnest import thickness_left_mm
from scantling.plan.making.pace import rate
from scantling.plan.steps.step import Step, Steps, Work
from scantling.shop.operations.cautions import cautions_for

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
    """One step for what is scooped and one for all else that is shaped, once its joints are cut and fit."""
    _scoop_step(work, steps)
    each = [
        (part, shaping)
        for part in work.piece.parts.values()
        for shaping in part.shaping
        if shaping.kind is not ShapingKind.SCOOP
    ]
    shaped = tuple(dict.fromkeys(part.name for part, _ in each))
    if not shaped:
        return
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


def _scoop_step(work: Work, steps: Steps) -> None:
    """Hollowing what is sat on, while it can still be held flat on the bench."""
    each = [
        (part, scoop)
        for part in work.piece.parts.values()
        for scoop in part.shaping
        if scoop.kind is ShapingKind.SCOOP
    ]
    if not each:
        return
    parts = tuple(dict.fromkeys(part.name for part, _ in each))
    area = sum((scoop.end_mm - scoop.start_mm) * _across_mm(part, scoop) for part, scoop in each) / 1e6
    steps.add(
        Step(
            title=f"Scoop the {', '.join(parts).replace('_', ' ')}",
            phase="joints",
            hands_on_min=sum(rate("scoop").minutes() for _ in parts) + rate("scoop").per_m2 * area,
            needs=steps.before(parts),
            parts=parts,
            details=(
                *_told(each),
                *(_left(part, scoop) for part, scoop in each),
                "After its joints are bored and fit dry, and before it is glued to what carries it: it lies "
                "flat on the bench then. Square the two rims across, and draw the arc on both edges along "
                "the template.",
                "Bore a few depth holes on the middle line, a stop on the bit, 1 mm short of the depth: "
                "where they vanish the hollow is nearly deep enough.",
                "Hollow it with strokes across the grain, in from both edges, or the far one splinters. Then "
                "along it with a curved sole or a scraper, always downhill from a rim to the middle: up out "
                "of it the fibers lift. A straightedge across and the template along tell where.",
            ),
            cautions=(
                *cautions_for("drilling", "hand tools", "sanding"),
                "Clamp it down, with both hands behind the tool: it is pushed across toward the far edge, "
                "and nothing of you is beyond it.",
            ),
        )
    )


def _across_mm(part: Part, scoop: Shaping) -> float:
    """Width of a scooped face. [mm]"""
    return part.width_mm if scoop.side[1] else part.thickness_mm


def _left(part: Part, scoop: Shaping) -> str:
    """The arc of a scoop, and what is left under it."""
    chord = scoop.end_mm - scoop.start_mm
    high = part.thickness_mm if scoop.side[1] else part.width_mm
    left = thickness_left_mm(part) if scoop.side[1] else high - scoop.size_mm
    return (
        f"{part.name}: an arc {chord:.0f} mm long and {scoop.size_mm:g} mm deep, its radius on the sheet; "
        f"{left:.1f} mm of {high:g} mm are left in its middle"
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
    deep = " deep" if shaping.kind is ShapingKind.SCOOP else ""
    told = f"{shaping.kind.value} {shaping.size_mm:g} mm{deep}, {shaping.where}"
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
