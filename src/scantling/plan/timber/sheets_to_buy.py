"""Which sheets to buy for parts no sheet is there for: sizes sold, the least area that holds them all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import count

from scantling.errors import Finding, Severity
from scantling.plan.cache import Cache
from scantling.plan.timber.needs import SheetNeed
from scantling.plan.timber.sheets import holds_part, sheet_request
from scantling.shop.profile.profile import Shop
from scantling.stock.boards.board import Board, Price, PriceBasis
from scantling.stock.layouts.layout import BoardLayout, Layout
from scantling.stock.solving.solve import LayoutRequest, lay_out
from scantling.units import show_number
from scantling.wood.sheets import SheetSize, find_sheet, usual_sizes

__all__ = ["BoughtSheets", "SheetPurchase", "plan_sheets_to_buy"]

_ROUNDS = 12
_MANY_ROUNDS = 4
_MANY = 40
"""So many parts of one material and thickness are laid out in fewer rounds, within a few seconds."""
_SEED = 1
_SHEET_M2 = 1e-4
"""What one more sheet counts, so that of equal areas the fewest sheets are bought. [m2]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPurchase:
    """Sheets of one material, thickness and size to buy.

    Parameters
    ----------
    material
        Its full name.
    thickness_mm, length_mm, width_mm
        As sold, the length along the grain of the face. [mm]
    count
        How many.
    sheets
        What they are called on the pictures and in the chalk list.
    parts
        What comes out of them.
    """

    material: str
    thickness_mm: float
    length_mm: float
    width_mm: float
    count: int
    sheets: tuple[str, ...]
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoughtSheets:
    """Sheets to buy, and how the parts lie on them.

    Parameters
    ----------
    purchases
        By material, thickness and size.
    boards
        The layouts; sheets without a price.
    area_m2, least_m2
        Area bought, and what no choice of the sizes sold, cut in the stages of a board, has less than. [m2]
    waste_pct
        Share of the area bought that is no part. [%]
    too_large
        Parts larger than any size sold.
    own_sizes
        Whether sizes of the shop's own yard are among those chosen from.
    """

    purchases: tuple[SheetPurchase, ...]
    boards: tuple[BoardLayout, ...]
    area_m2: float
    least_m2: float
    waste_pct: float
    too_large: tuple[SheetNeed, ...]
    own_sizes: bool = False
    findings: tuple[Finding, ...] = ()


def plan_sheets_to_buy(
    needs: Iterable[SheetNeed], shop: Shop, *, taken: Iterable[str] = (), cache: Cache
) -> BoughtSheets | None:
    """What to buy for sheet parts; None where there are none.

    Parameters
    ----------
    needs
        The parts, cut out over size, that no sheet of the rack gives.
    shop
        Its saws, and the trade it buys from.
    taken
        Names of sheets there already.
    cache
        Keeps layouts.
    """
    needs = tuple(needs)
    if not needs:
        return None
    lost_mm = 2.0 * shop.allowances.sheet_edge_mm
    sizes = {n.material: _sold(n.material, shop) for n in needs}
    fits = [n for n in needs if any(holds_part(n, s, lost_mm) for s in sizes[n.material])]
    layouts = []
    for material, thickness_mm in sorted({(n.material, n.thickness_mm) for n in fits}):
        group = [n for n in fits if (n.material, n.thickness_mm) == (material, thickness_mm)]
        layouts.append(_layout(group, sizes[material], shop, cache=cache))
    boards = tuple(_named((b for layout in layouts for b in layout.boards), set(taken)))
    area = sum(_area_m2(b.board) for b in boards)
    used = sum(p.length_mm * p.width_mm for b in boards for p in b.placed) * 1e-6
    too_large = tuple(n for n in needs if n not in fits)
    return BoughtSheets(
        purchases=_purchases(boards, fits),
        boards=boards,
        area_m2=area,
        least_m2=min(area, sum(_least_m2(layout) for layout in layouts)),
        waste_pct=100.0 * (1.0 - used / area) if area else 0.0,
        too_large=too_large,
        own_sizes=any(find_sheet(s.material).name in sizes for s in shop.yard.sheets),
        findings=tuple(_findings(too_large, sizes, lost_mm)),
    )


def _sold(material: str, shop: Shop) -> tuple[SheetSize, ...]:
    """Sizes in which the shop's own yard sells a material, largest first; else the usual ones."""
    own = {
        SheetSize(length_mm=s.length_mm, width_mm=s.width_mm)
        for s in shop.yard.sheets
        if find_sheet(s.material).name == material
    }
    if not own:
        return usual_sizes(material, shop.yard.system.value)
    return tuple(sorted(own, key=lambda s: (-_size_m2(s), -s.length_mm)))


def _layout(needs: list[SheetNeed], sizes: tuple[SheetSize, ...], shop: Shop, *, cache: Cache) -> Layout:
    """The parts of one material and thickness on the least area of the sheets sold."""
    request = _request(needs, sizes, shop)
    rounds = _ROUNDS if len(needs) < _MANY else _MANY_ROUNDS
    layout: Layout = cache.answer(
        "sheets to buy", (request, rounds, _SEED), lambda: lay_out(request, rounds=rounds, seed=_SEED)
    )
    return layout


def _least_m2(layout: Layout) -> float:
    """The bound without what the sheets count: no choice cuts more of them than there are parts. [m2]"""
    parts = sum(len(laid.placed) for laid in layout.boards) + len(layout.unplaced)
    return max(0.0, (layout.bound_price or 0.0) - _SHEET_M2 * parts)


def _request(needs: list[SheetNeed], sizes: tuple[SheetSize, ...], shop: Shop) -> LayoutRequest:
    """Of each size a sheet for every part it holds, more no choice cuts; at the price of their area alone."""
    lost_mm = 2.0 * shop.allowances.sheet_edge_mm
    sheets = []
    for number, size in enumerate(sizes):
        able = sum(holds_part(n, size, lost_mm) for n in needs)
        sheets += [
            Board(
                name=f"{number}.{k}",
                species=needs[0].material,
                length_mm=size.length_mm,
                width_mm=size.width_mm,
                thickness_mm=needs[0].thickness_mm,
                price=Price(amount=_size_m2(size) + _SHEET_M2, basis=PriceBasis.BOARD),
            )
            for k in range(able)
        ]
    request = sheet_request(needs, sheets, shop)
    return replace(request, aim=replace(request.aim, price=1.0, waste=0.0, cut=0.0, offcut=0.0))


def _named(boards: Iterable[BoardLayout], taken: set[str]) -> Iterator[BoardLayout]:
    """Sheets called 'new 1' and on, without the price that stood for their area."""
    names = (name for k in count(1) if (name := f"new {k}") not in taken)
    for laid in sorted(boards, key=lambda b: _by_kind(b.board)):
        yield _called(laid, next(names))


def _called(laid: BoardLayout, name: str) -> BoardLayout:
    """A sheet by another name, which its pieces and offcuts on the list of cuts are called by too."""
    old = laid.board.name

    def new(piece: str) -> str:
        own = piece.startswith(old) and piece[len(old) :][:1] in ("", "-", " ")
        return name + piece[len(old) :] if own else piece

    return replace(
        laid,
        board=replace(laid.board, name=name, price=None),
        placed=tuple(replace(p, blank=replace(p.blank, boards=())) for p in laid.placed),
        cuts=tuple(
            replace(c, piece=new(c.piece), yields=(new(c.yields[0]), new(c.yields[1]))) for c in laid.cuts
        ),
        offcuts=tuple(replace(o, name=new(o.name)) for o in laid.offcuts),
    )


def _by_kind(board: Board) -> tuple[str, float, float]:
    return board.species, board.rough_thickness_mm, -_area_m2(board)


def _area_m2(board: Board) -> float:
    return board.length_mm * board.width_mm * 1e-6


def _size_m2(size: SheetSize) -> float:
    return size.length_mm * size.width_mm * 1e-6


def _purchases(boards: tuple[BoardLayout, ...], needs: list[SheetNeed]) -> tuple[SheetPurchase, ...]:
    thick = {n.part: n.thickness_mm for n in needs}
    groups: dict[tuple[str, float, float, float], list[BoardLayout]] = {}
    for laid in boards:
        b = laid.board
        key = (b.species, thick[laid.placed[0].blank.part], b.length_mm, b.width_mm)
        groups.setdefault(key, []).append(laid)
    return tuple(
        SheetPurchase(
            material=material,
            thickness_mm=thickness,
            length_mm=length,
            width_mm=width,
            count=len(group),
            sheets=tuple(laid.board.name for laid in group),
            parts=tuple(p.blank.part for laid in group for p in laid.placed),
        )
        for (material, thickness, length, width), group in groups.items()
    )


def _findings(
    too_large: Iterable[SheetNeed], sizes: dict[str, tuple[SheetSize, ...]], lost_mm: float
) -> Iterator[Finding]:
    """Parts larger than every sheet sold (T14)."""
    for need in too_large:
        usual = ", ".join(f"{s.length_mm:g} × {s.width_mm:g}" for s in sizes[need.material])
        along = "along the grain" if find_sheet(need.material).grain else "long"
        yield Finding(
            code="T14",
            severity=Severity.HIGH,
            where=need.part,
            message=f"Needs {_whole(need.length_mm)} × {_whole(need.width_mm)} mm of {need.material}; "
            f"sheets are sold as {usual} mm before their edges are trimmed.",
            advice=f"Ask for a sheet of at least {_whole(need.length_mm + lost_mm)} mm {along} "
            f"and {_whole(need.width_mm + lost_mm)} mm wide, or make the part of two.",
            numbers={"length_mm": need.length_mm, "width_mm": need.width_mm},
        )


def _whole(length_mm: float) -> str:
    return show_number(length_mm, digits=0)
