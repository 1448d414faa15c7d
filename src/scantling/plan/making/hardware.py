"""Hardware: every loose tenon, pin, dowel, clip, screw and wedge, with what to drill."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from scantling.joinery.work import Connector, ConnectorKind, JointWork

__all__ = ["HardwareLine", "counted", "fastenings", "hardware_of", "number_to_get", "to_get"]

SPARE_SHARE = 0.1
"""One in ten more than needed is bought or made, one at least (common practice). [1]"""
MADE = (
    ConnectorKind.LOOSE_TENON,
    ConnectorKind.PIN,
    ConnectorKind.WEDGE,
    ConnectorKind.TOP_BUTTON,
    ConnectorKind.SPLINE,
    ConnectorKind.PLUG,
    ConnectorKind.KEY,
)
"""Usually made in the shop, from offcuts."""
EXACT = (
    ConnectorKind.BUTT_HINGE,
    ConnectorKind.STRAP_HINGE,
    ConnectorKind.LID_STAY,
    ConnectorKind.DRAWER_SLIDE,
)
"""Bought as many as are needed: they do not split or get lost like screws and pins."""
_HELD_BY_SCREWS = (
    *EXACT,
    ConnectorKind.TOP_CLIP,
    ConnectorKind.TOP_BUTTON,
    ConnectorKind.FIGURE_EIGHT,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareLine:
    """One size of one thing.

    Parameters
    ----------
    needed, get
        How many the joints take, and how many to get with spares.
    size_mm
        Thickness, width, length; or diameter, length. [mm]
    drill_mm
        Diameter and depth to drill. [mm]
    joints
        Joints that take it.
    made_here
        Whether it is usually made in the shop rather than bought.
    """

    kind: ConnectorKind
    needed: int
    get: int
    size_mm: tuple[float, ...]
    drill_mm: tuple[float, ...]
    joints: tuple[str, ...]
    made_here: bool
    note: str = ""


def hardware_of(works: Iterable[JointWork]) -> tuple[HardwareLine, ...]:
    """Everything loose, alike things together."""
    groups: dict[tuple[object, ...], list[tuple[str, Connector]]] = {}
    for work in works:
        for connector in work.connectors:
            sizes = tuple(round(s, 2) for s in connector.size_mm)
            drill = tuple(round(s, 2) for s in connector.drill_mm)
            groups.setdefault((connector.kind, sizes, drill), []).append((work.joint, connector))
    lines = []
    for members in groups.values():
        first = members[0][1]
        needed = sum(c.count for _, c in members)
        spare = 0 if first.kind in EXACT else max(1, math.ceil(needed * SPARE_SHARE))
        lines.append(
            HardwareLine(
                kind=first.kind,
                needed=needed,
                get=needed + spare,
                size_mm=first.size_mm,
                drill_mm=first.drill_mm,
                joints=tuple(joint for joint, _ in members),
                made_here=first.kind in MADE,
                note=first.note,
            )
        )
    return tuple(sorted(lines, key=lambda line: (list(ConnectorKind).index(line.kind), line.size_mm)))


def counted(count: int, kind: ConnectorKind) -> str:
    """How many of a thing, in words.

    Examples
    --------
    >>> counted(9, ConnectorKind.LOOSE_TENON), counted(1, ConnectorKind.WEDGE)
    ('9 loose tenons', '1 wedge')
    """
    return f"{count} {kind.value}" if count == 1 else f"{count} {kind.value}s"


def number_to_get(line: HardwareLine) -> str:
    """How many the joints take, and how many more are to spare.

    Examples
    --------
    >>> line = HardwareLine(kind=ConnectorKind.PIN, needed=8, get=9, size_mm=(), drill_mm=(), joints=(),
    ...     made_here=True)
    >>> number_to_get(line), to_get(line)
    ('8 and 1 to spare', '8 pins and 1 to spare')
    """
    return f"{line.needed}{_spare(line)}"


def to_get(line: HardwareLine) -> str:
    """How many of what the joints take, and how many more are to spare."""
    return f"{counted(line.needed, line.kind)}{_spare(line)}"


def _spare(line: HardwareLine) -> str:
    return f" and {line.get - line.needed} to spare" if line.get > line.needed else ""


def fastenings(works: Iterable[JointWork]) -> int:
    """Clips, buttons and lone screws that are put on: a clip and the screws that hold it are one. [1]

    Parameters
    ----------
    works
        The joints put together without glue.
    """
    total = 0
    for work in works:
        held = sum(one.count for one in work.connectors if one.kind in _HELD_BY_SCREWS)
        total += held or sum(one.count for one in work.connectors if one.kind is ConnectorKind.SCREW)
    return total
