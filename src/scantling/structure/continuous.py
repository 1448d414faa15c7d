"""A board over several supports: the most of a spread load that may come on each of them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from scantling.structure.frame import Bar, Node, solve_frame

__all__ = ["worst_shares"]

_STIFF = 1.0
"""Any stiffness will do: on supports that do not give it cancels. [N mm2], [N]"""


@lru_cache(maxsize=512)
def worst_shares(length_mm: float, places_mm: tuple[float, ...]) -> tuple[float, ...]:
    """The most of an evenly spread load on each support, whichever stretches of the board are filled. [1]

    Parameters
    ----------
    length_mm
        Of the board. [mm]
    places_mm
        Of its supports along it, rising; two at least. [mm]

    Notes
    -----
    The board is one elastic beam on supports that do not give. Each stretch between supports, and each
    overhang, is filled by itself; what presses a support down is added up, what lifts it is left out.

    References
    ----------
    .. [1] American Wood Council, *Beam Formulas with Shear and Moment Diagrams* (Design Aid 6), for the cases
       of equal spans.

    Examples
    --------
    >>> [round(share, 4) for share in worst_shares(800.0, (0.0, 400.0, 800.0))]
    [0.2188, 0.625, 0.2188]
    """
    stations = sorted({0.0, length_mm, *places_mm})
    nodes = [Node(x_mm=at, y_mm=0.0, held=(True, at in places_mm, False)) for at in stations]
    worst = dict.fromkeys(places_mm, 0.0)
    for filled in range(len(stations) - 1):
        for place, share in _pressed(nodes, filled, length_mm).items():
            worst[place] += max(share, 0.0)
    return tuple(worst[place] for place in places_mm)


def _pressed(nodes: Sequence[Node], filled: int, length_mm: float) -> dict[float, float]:
    """What presses each support down with one stretch filled, over the load of the whole board. [1]"""
    loads = [-1.0 / length_mm if number == filled else 0.0 for number in range(len(nodes) - 1)]
    bars = [
        Bar(first=number, second=number + 1, ea_n=_STIFF, ei_nmm2=_STIFF * length_mm**3, load_n_mm=load)
        for number, load in enumerate(loads)
    ]
    pressed = [0.0] * len(nodes)
    for bar, load, ends in zip(bars, loads, solve_frame(nodes, bars).bars, strict=True):
        span = nodes[bar.second].x_mm - nodes[bar.first].x_mm
        turned = (ends.first_nmm + ends.second_nmm) / span
        pressed[bar.first] += -load * span / 2.0 + turned
        pressed[bar.second] += -load * span / 2.0 - turned
    return {node.x_mm: press for node, press in zip(nodes, pressed, strict=True) if node.held[1]}
