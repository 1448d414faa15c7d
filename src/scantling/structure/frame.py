"""Plane frames of straight bars with springy ends: displacements and end forces by the stiffness method.

First order: the loads act on the frame as drawn. Bars bend and stretch; shear within a bar is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from math import hypot, inf
from typing import TYPE_CHECKING, Any

from scantling.errors import InputError

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
else:
    Array = Any

__all__ = ["Bar", "BarEnds", "Moved", "Node", "Solved", "solve_frame"]

_LEAST_NMM_RAD = 1e-3
"""A spring that counts as a hinge, far softer than any bar. [N mm/rad]"""


_FARTHEST = 1e7
"""What moves farther, in mm or rad, is a mechanism."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """A place where bars meet.

    Parameters
    ----------
    x_mm, y_mm
        Where it is. [mm]
    held
        Whether it is kept from moving along x, along y and from turning.
    push_n, lift_n, turn_nmm
        Loads along x, along y, and turning from x to y. [N], [N], [N mm]
    sways_with
        Number of the node it moves along x with, as legs do under one top; None for none.
    """

    x_mm: float
    y_mm: float
    held: tuple[bool, bool, bool] = (False, False, False)
    push_n: float = 0.0
    lift_n: float = 0.0
    turn_nmm: float = 0.0
    sways_with: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A straight bar between two nodes.

    Parameters
    ----------
    first, second
        Numbers of its nodes.
    ea_n, ei_nmm2
        Stiffness in stretching and in bending. [N], [N mm2]
    spring_first, spring_second
        Turning stiffness of the joint at each end; infinite where it is rigid. [N mm/rad]
    load_n_mm
        Spread load square to the bar, to the left of the way from first to second. [N/mm]
    """

    first: int
    second: int
    ea_n: float
    ei_nmm2: float
    spring_first: float = inf
    spring_second: float = inf
    load_n_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """How far a node moves and turns. [mm], [mm], [rad]"""

    x_mm: float
    y_mm: float
    turn_rad: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BarEnds:
    """Moments that the nodes put on a bar's ends, turning from x to y, and its pull. [N mm], [N mm], [N]"""

    first_nmm: float
    second_nmm: float
    pull_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """What the loads do, node by node and bar by bar."""

    nodes: tuple[Moved, ...]
    bars: tuple[BarEnds, ...]


def solve_frame(nodes: Sequence[Node], bars: Sequence[Bar]) -> Solved:
    r"""Displacements and end moments of a plane frame.

    Parameters
    ----------
    nodes, bars
        The frame, its supports and its loads.

    Raises
    ------
    InputError
        ``frame_moves`` where the frame is a mechanism; ``bar_without_length``, ``not_positive``,
        ``sways_in_a_ring``.

    Notes
    -----
    A bar's ends turn by

    .. math::

        \begin{pmatrix}\theta_1\\\theta_2\end{pmatrix} - \frac{v_2 - v_1}{L} =
        \left[\frac{L}{6EI}\begin{pmatrix}2&-1\\-1&2\end{pmatrix}
        + \begin{pmatrix}1/k_1&0\\0&1/k_2\end{pmatrix}\right]
        \begin{pmatrix}M_1\\M_2\end{pmatrix}
        + \frac{q L^3}{24 EI}\begin{pmatrix}1\\-1\end{pmatrix}

    which holds rigid ends, springs and hinges alike.

    References
    ----------
    .. [1] G. R. Monforton, T. S. Wu, "Matrix analysis of semi-rigidly connected frames", Journal of the
       Structural Division, ASCE, 89(ST6), 1963, 13-42: the same with fixity factors.

    Examples
    --------
    A cantilever 1 000 mm long of EI 1e9 bends by P L^3 / 3 EI under 3 N:

    >>> held = Node(x_mm=0.0, y_mm=0.0, held=(True, True, True))
    >>> tip = Node(x_mm=1000.0, y_mm=0.0, lift_n=-3.0)
    >>> bar = Bar(first=0, second=1, ea_n=1e9, ei_nmm2=1e9)
    >>> round(solve_frame([held, tip], [bar]).nodes[1].y_mm, 6)
    -1.0
    """
    import numpy as np

    places, free = _numbered(nodes)
    stiffness = np.zeros((free, free))
    loads = np.zeros(free)
    for node, own in zip(nodes, places, strict=True):
        for place, load in zip(own, (node.push_n, node.lift_n, node.turn_nmm), strict=True):
            if place >= 0:
                loads[place] += load
    rows = []
    for bar in bars:
        turning, fixed, steps = _bar(nodes, bar)
        ways = [*places[bar.first], *places[bar.second]]
        rows.append((turning, fixed, steps, ways))
        _assemble(stiffness, loads, (steps.T @ turning @ steps, steps.T @ fixed), ways)
        _assemble_spread(loads, nodes, bar, ways)
    moved = _displacements(stiffness, loads)
    ends = []
    for turning, fixed, steps, ways in rows:
        shift = np.array([moved[place] if place >= 0 else 0.0 for place in ways])
        forces = turning @ (steps @ shift) + fixed
        ends.append(BarEnds(first_nmm=float(forces[1]), second_nmm=float(forces[2]), pull_n=float(forces[0])))
    return Solved(
        nodes=tuple(Moved(**_named(own, moved)) for own in places),
        bars=tuple(ends),
    )


def _named(own: Sequence[int], moved: Array) -> dict[str, float]:
    x, y, turn = (float(moved[place]) if place >= 0 else 0.0 for place in own)
    return {"x_mm": x, "y_mm": y, "turn_rad": turn}


def _numbered(nodes: Sequence[Node]) -> tuple[list[tuple[int, int, int]], int]:
    """Number of every node's three movements; -1 where it is held."""
    free = 0
    places: list[list[int]] = []
    for node in nodes:
        own = []
        for way, held in enumerate(node.held):
            if held:
                own.append(-1)
            elif way == 0 and node.sways_with is not None:
                own.append(-2)
            else:
                own.append(free)
                free += 1
        places.append(own)
    for number, own in enumerate(places):
        if own[0] == -2:
            own[0] = places[_leader(nodes, number)][0]
    return [(own[0], own[1], own[2]) for own in places], free


def _leader(nodes: Sequence[Node], number: int) -> int:
    """The node whose sway this one follows in the end; one that is held keeps all that follow it."""
    seen = {number}
    node = nodes[number]
    while not node.held[0] and node.sways_with is not None:
        number = node.sways_with
        if number in seen:
            raise InputError(
                code="sways_in_a_ring",
                field="sways_with",
                value=number,
                rule="must lead to a node that sways by itself or is held",
                remedy="Let one of them sway with none.",
            )
        seen.add(number)
        node = nodes[number]
    return number


def _bar(nodes: Sequence[Node], bar: Bar) -> tuple[Array, Array, Array]:
    """Stiffness in stretching and in turning the ends, fixed-end moments, and the bar's geometry."""
    import numpy as np

    one, other = nodes[bar.first], nodes[bar.second]
    dx, dy = other.x_mm - one.x_mm, other.y_mm - one.y_mm
    span = hypot(dx, dy)
    if span <= 0.0:
        raise InputError(
            code="bar_without_length", field="bars", value=bar.first, rule="must join two different places"
        )
    for field, value in (("ea_n", bar.ea_n), ("ei_nmm2", bar.ei_nmm2)):
        if not value > 0.0:
            raise InputError(code="not_positive", field=field, value=value, rule="must be greater than 0")
    springs = [1.0 / max(each, _LEAST_NMM_RAD) for each in (bar.spring_first, bar.spring_second)]
    give = span / (6.0 * bar.ei_nmm2) * np.array([[2.0, -1.0], [-1.0, 2.0]]) + np.diag(springs)
    turning = np.zeros((3, 3))
    turning[0, 0] = bar.ea_n / span
    turning[1:, 1:] = np.linalg.inv(give)
    free_turn = bar.load_n_mm * span**3 / (24.0 * bar.ei_nmm2)
    fixed = np.zeros(3)
    fixed[1:] = -turning[1:, 1:] @ np.array([free_turn, -free_turn])
    c, s = dx / span, dy / span
    lean = [s / span, -c / span, 0.0, -s / span, c / span, 0.0]  # chord's turning
    steps = np.array(
        [
            [-c, -s, 0.0, c, s, 0.0],
            [-lean[0], -lean[1], 1.0, -lean[3], -lean[4], 0.0],
            [-lean[0], -lean[1], 0.0, -lean[3], -lean[4], 1.0],
        ]
    )
    return turning, fixed, steps


def _assemble(stiffness: Array, loads: Array, part: tuple[Array, Array], own: Sequence[int]) -> None:
    matrix, fixed = part
    for i, row in enumerate(own):
        if row < 0:
            continue
        loads[row] -= fixed[i]
        for j, column in enumerate(own):
            if column >= 0:
                stiffness[row, column] += matrix[i, j]


def _assemble_spread(loads: Array, nodes: Sequence[Node], bar: Bar, own: Sequence[int]) -> None:
    """Half of a spread load at each end, square to the bar."""
    one, other = nodes[bar.first], nodes[bar.second]
    dx, dy = other.x_mm - one.x_mm, other.y_mm - one.y_mm
    for place, share in zip((own[0], own[1], own[3], own[4]), (-dy, dx, -dy, dx), strict=True):
        if place >= 0:
            loads[place] += bar.load_n_mm * share / 2.0


def _displacements(stiffness: Array, loads: Array) -> Array:
    """Solve, or say that the frame is a mechanism."""
    import numpy as np

    if not len(loads):
        return loads
    solved: Array = np.full(len(loads), inf)
    with suppress(np.linalg.LinAlgError):
        solved = np.linalg.solve(stiffness, loads).astype(float)
    if not np.all(np.abs(solved) < _FARTHEST):
        raise InputError(
            code="frame_moves",
            field="bars",
            value=len(loads),
            rule="must stand without moving freely",
            remedy="Hold more nodes, or make a joint stiffer than a hinge.",
        )
    return solved
