"""How much wood to ask for when there is no rack: net wood over yield, with the reason said."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.boards.board import QUARTER_MM
from scantling.stock.checking.rings_told import sawn_shares
from scantling.units import MM3_PER_BOARD_FOOT, board_feet

__all__ = ["DEFAULT_YIELD", "Purchase", "Yield", "boards_to_buy", "buy_board_feet", "nominal_for"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Yield:
    """How much of bought wood becomes blanks.

    Parameters
    ----------
    yield_pct
        Share of the bought volume that becomes rough blanks. [%]
    reason
        Why this figure.
    """

    yield_pct: float
    reason: str


DEFAULT_YIELD = Yield(
    yield_pct=65.0,
    reason="65 % of rough boards become blanks: knots, end checks, edges, kerfs and odd lengths take the "
    "rest (common practice for random-width hardwood)",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """Wood of one species and nominal thickness to ask for.

    Parameters
    ----------
    species
        Name of the wood.
    quarters
        Nominal thickness. [1/4 in]
    net_board_feet
        Board feet of the blanks themselves, at nominal thickness. [board ft]
    buy_board_feet, buy_m3
        What to ask for. [board ft], [m3]
    allowance_pct
        What is added to the net, in percent of it. [%]
    reason
        Why so much.
    longest_mm, widest_mm
        Every delivery must hold boards of at least this size. [mm]
    sawn
        How much of the net is to be sawn one way, by the way, the most first. [board ft]
    """

    species: str
    quarters: float
    net_board_feet: float
    buy_board_feet: float
    buy_m3: float
    allowance_pct: float
    reason: str
    longest_mm: float
    widest_mm: float
    sawn: tuple[tuple[str, float], ...] = ()


def buy_board_feet(net_board_feet: float, *, yield_pct: float) -> float:
    """Board feet to buy: net over yield, not net plus a percentage.

    Parameters
    ----------
    net_board_feet
        Board feet of the blanks. [board ft]
    yield_pct
        Share that becomes blanks. [%] above 0, at most 100.

    Returns
    -------
    float
        What to ask for. [board ft]

    Examples
    --------
    >>> round(buy_board_feet(62, yield_pct=65), 1)
    95.4
    """
    return net_board_feet * 100.0 / yield_pct


def nominal_for(need: Blank | FreeWidthPanel) -> float:
    """Thinnest nominal allowed that holds the rough thickness. [1/4 in]"""
    enough = [q for q in need.quarters if q * QUARTER_MM >= need.thickness_mm - 1e-6]
    if enough:
        return min(enough)
    if need.quarters:
        return max(need.quarters)
    standard = (4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0)
    return next((q for q in standard if q * QUARTER_MM >= need.thickness_mm - 1e-6), standard[-1])


def _rough_width_mm(need: Blank | FreeWidthPanel) -> float:
    if isinstance(need, Blank):
        return need.width_mm
    strips = max(need.least_count, -int(-need.total_width_mm // need.greatest_strip_mm))
    return need.total_width_mm + strips * need.edge_loss_mm


def _widest_mm(need: Blank | FreeWidthPanel) -> float:
    return need.width_mm if isinstance(need, Blank) else need.least_strip_mm + need.edge_loss_mm


def boards_to_buy(
    blanks: tuple[Blank, ...], panels: tuple[FreeWidthPanel, ...] = (), *, expected: Yield = DEFAULT_YIELD
) -> tuple[Purchase, ...]:
    """What to ask the yard for, by species and nominal thickness.

    Parameters
    ----------
    blanks, panels
        Everything the piece asks for.
    expected
        Yield to reckon with, and why.

    Returns
    -------
    tuple of Purchase
        Sorted by species and thickness.
    """
    groups: dict[tuple[str, float], list[Blank | FreeWidthPanel]] = {}
    every: list[Blank | FreeWidthPanel] = [*blanks, *panels]
    for need in every:
        groups.setdefault((need.species, nominal_for(need)), []).append(need)
    found = []
    for (species, quarters), needs in sorted(groups.items()):
        feet = [
            board_feet(quarters=quarters, width_mm=_rough_width_mm(n), length_mm=n.length_mm) for n in needs
        ]
        net = sum(feet)
        buy = buy_board_feet(net, yield_pct=expected.yield_pct)
        found.append(
            Purchase(
                species=species,
                quarters=quarters,
                net_board_feet=net,
                buy_board_feet=buy,
                buy_m3=buy * MM3_PER_BOARD_FOOT * 1e-9,
                allowance_pct=100.0 * (buy / net - 1.0),
                reason=expected.reason,
                longest_mm=max(n.length_mm for n in needs),
                widest_mm=max(_widest_mm(n) for n in needs),
                sawn=sawn_shares(zip(needs, feet, strict=True)),
            )
        )
    return tuple(found)
