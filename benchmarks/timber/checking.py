"""An independent check of layouts on one plate: bare rectangles and arithmetic, nothing of the solver.

Boxes are (x from, y from, x to, y to); placed rectangles are (x, y, length, width, part).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

__all__ = ["Asked", "faults", "in_strips", "separable"]

Box = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a layout must keep to; parts are (length, width, value, copies or None)."""

    plate: tuple[int, int]
    parts: Sequence[tuple[int, int, int, int | None]]
    kerf: int = 0
    defects: Sequence[tuple[int, int, int, int]] = ()
    turns: bool = False
    strips: str = ""
    """``along`` or ``across``: parts must lie in strips that cuts through the plate part."""


def faults(asked: Asked, placed: Sequence[tuple[int, int, int, int, int]], value: int) -> list[str]:
    """What is wrong with a layout said to be worth a value; empty if nothing."""
    boxes = [(x, y, x + long, y + wide) for x, y, long, wide, _ in placed]
    found = [
        f"part {n} lies off the plate" for (*_, n), b in zip(placed, boxes, strict=True) if _off(asked, b)
    ]
    found += [
        f"part {n} lies on a defect" for (*_, n), b in zip(placed, boxes, strict=True) if _hit(asked, b)
    ]
    for a, b in combinations(boxes, 2):
        if max(b[0] - a[2], a[0] - b[2]) < asked.kerf and max(b[1] - a[3], a[1] - b[3]) < asked.kerf:
            found.append(f"{a} and {b} are no kerf apart")
    for _, _, long, wide, n in placed:
        size = asked.parts[n][:2]
        if (long, wide) != size and not (asked.turns and (wide, long) == size):
            found.append(f"part {n} is {long} x {wide}")
    for n, number in Counter(n for *_, n in placed).items():
        limit = asked.parts[n][3]
        if limit is not None and number > limit:
            found.append(f"part {n} is cut {number} times")
    if sum(asked.parts[n][2] for *_, n in placed) != value:
        found.append("the parts are not worth what was said")
    if not separable(boxes, asked.kerf):
        found.append("edge-to-edge cuts do not part them")
    if asked.strips and not in_strips(boxes, asked.kerf, across=asked.strips == "across"):
        found.append("they do not lie in strips")
    return found


def _off(asked: Asked, box: Box) -> bool:
    return box[0] < 0 or box[1] < 0 or box[2] > asked.plate[0] or box[3] > asked.plate[1]


def _hit(asked: Asked, box: Box) -> bool:
    return any(
        box[0] < x + long and box[2] > x and box[1] < y + wide and box[3] > y
        for x, y, long, wide in asked.defects
    )


def separable(boxes: Sequence[Box], kerf: int) -> bool:
    """Whether edge-to-edge cuts part all boxes from each other."""
    if len(boxes) < 2:
        return True
    for axis in (0, 1):
        rows = _apart(boxes, axis, kerf)
        if len(rows) > 1:
            return all(separable(row, kerf) for row in rows)
    return False


def in_strips(boxes: Sequence[Box], kerf: int, *, across: bool) -> bool:
    """Whether cuts through the plate part strips, and cuts through each strip its parts."""
    strips = _apart(boxes, 0 if across else 1, kerf)
    return all(len(_apart(strip, 1 if across else 0, kerf)) == len(strip) for strip in strips)


def _apart(boxes: Sequence[Box], axis: int, kerf: int) -> list[list[Box]]:
    """Boxes in groups that cuts square to an axis part."""
    groups: list[list[Box]] = []
    reach = 0
    for box in sorted(boxes, key=lambda b: b[axis]):
        if groups and box[axis] < reach + kerf:
            groups[-1].append(box)
        else:
            groups.append([box])
            reach = box[axis + 2]
        reach = max(reach, box[axis + 2])
    return groups
