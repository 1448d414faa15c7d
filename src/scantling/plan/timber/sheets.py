"""Parts from sheet material, laid out on the sheets of the rack by cuts from edge to edge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Set
from dataclasses import dataclass, replace
from typing import Protocol

from scantling.errors import Finding, Severity
from scantling.plan.cache import Cache
from scantling.plan.made.bench import bench_findings, with_begun
from scantling.plan.timber.laying_out import kept_findings, settle
from scantling.plan.timber.needs import SheetNeed, aim_of
from scantling.shop.profile.machines import HAND_KERF_MM
from scantling.shop.profile.profile import Shop
from scantling.stock.asked.blank import Blank
from scantling.stock.asked.cutting import Cutting
from scantling.stock.boards.board import Board
from scantling.stock.layouts.layout import Layout, Placed
from scantling.stock.racks.benchnotes import notes_about
from scantling.stock.racks.laid import with_kept
from scantling.stock.racks.rack import Rack
from scantling.stock.solving.solve import LayoutRequest, lay_out
from scantling.units import show_number
from scantling.wood.sheets import find_sheet

__all__ = ["SheetPlan", "holds_part", "plan_sheets", "sheet_cutting", "sheet_request"]

_ROUNDS = 12
_SEED = 1
_SAME_MM = 0.8
"""A sheet called 18 mm may be 17.5, and one of 3/4 in 18.3 (common practice). [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlan:
    """Parts on sheets.

    Parameters
    ----------
    layout
        The layout.
    without
        Parts no sheet is there for, or has a place for.
    findings
        What is to be said of those.
    """

    layout: Layout
    without: tuple[SheetNeed, ...]
    findings: tuple[Finding, ...]


def sheet_cutting(shop: Shop) -> Cutting:
    """How this shop cuts sheets: with the track saw if there is one, every factory edge trimmed."""
    owned = shop.machines
    saw = owned.track_saw or owned.table_saw or owned.bandsaw
    kerf_mm = saw.kerf_mm if saw else HAND_KERF_MM
    edge_mm = shop.allowances.sheet_edge_mm
    return Cutting(
        crosscut_kerf_mm=kerf_mm,
        rip_kerf_mm=kerf_mm,
        straight_edge_mm=edge_mm,
        far_edge_mm=edge_mm,
        resaw_most_mm=0.0,
    )


def sheet_request(needs: Iterable[SheetNeed], sheets: Iterable[Board], shop: Shop) -> LayoutRequest:
    """What sheet parts ask of the sheets of their material and thickness; those without any are left out.

    A part lies with its length along the grain, and either way on a material that has none.
    """
    edge_mm = shop.allowances.sheet_edge_mm
    trimmed = tuple(
        replace(s, left_trim_mm=max(s.left_trim_mm, edge_mm), right_trim_mm=max(s.right_trim_mm, edge_mm))
        for s in sheets
    )
    blanks = [
        Blank(
            name=need.part,
            part=need.part,
            species=need.material,
            length_mm=need.length_mm,
            width_mm=need.width_mm,
            thickness_mm=min(board.rough_thickness_mm for board in right),
            grain_fixed=find_sheet(need.material).grain,
            boards=tuple(board.name for board in right),
        )
        for need in needs
        if (right := _right(need, trimmed))
    ]
    return LayoutRequest(boards=trimmed, blanks=tuple(blanks), cutting=sheet_cutting(shop), aim=aim_of(shop))


def _right(need: SheetNeed, sheets: Iterable[Board]) -> list[Board]:
    """Sheets of the material and thickness of a part."""
    return [
        sheet
        for sheet in sheets
        if sheet.species == need.material and abs(sheet.rough_thickness_mm - need.thickness_mm) <= _SAME_MM
    ]


def plan_sheets(
    needs: tuple[SheetNeed, ...], rack: Rack | None, shop: Shop, *, cache: Cache
) -> SheetPlan | None:
    """Sheet parts on the sheets of a rack; None without sheets there, or without such parts.

    Parameters
    ----------
    needs
        The parts, cut out over size.
    rack
        The rack.
    shop
        Its saws.
    cache
        Keeps layouts.
    """
    if rack is None or not rack.sheets or not needs:
        return None
    notes = replace(notes_about(rack.notes, rack.sheets), gone=())
    begun, whole, kept = settle(sheet_request(needs, rack.sheets, shop), notes)
    request = kept.request
    layout = cache.answer(
        "sheets", (request, _ROUNDS, _SEED), lambda: lay_out(request, rounds=_ROUNDS, seed=_SEED)
    )
    layout = with_kept(layout, kept.boards, whole)
    unplaced = {blank.name for blank in layout.unplaced}
    done = {cut.name for cut in rack.notes.cut}
    asked = {blank.name for blank in whole.blanks}
    without = tuple(n for n in needs if n.part in unplaced or n.part not in asked | done)
    return SheetPlan(
        layout=with_begun(_as_asked(layout, {pin.name for pin in rack.notes.pins}), begun),
        without=without,
        findings=(
            *bench_findings(begun, notes),
            *kept_findings(kept, notes),
            *_findings(without, rack.sheets, shop),
        ),
    )


def _as_asked(layout: Layout, pinned: Set[str]) -> Layout:
    """The layout with parts that nobody has pinned free of the sheets of their thickness."""

    def free(placed: Placed) -> Placed:
        if placed.blank.name in pinned:
            return placed
        return replace(placed, blank=replace(placed.blank, boards=()))

    boards = tuple(replace(b, placed=tuple(free(p) for p in b.placed)) for b in layout.boards)
    return replace(layout, boards=boards)


def _findings(without: Iterable[SheetNeed], sheets: tuple[Board, ...], shop: Shop) -> Iterator[Finding]:
    """Parts with no sheet of their kind (T13), larger than every one (T14), or with no place left (T15)."""
    lost_mm = 2.0 * shop.allowances.sheet_edge_mm
    for need in without:
        right = _right(need, sheets)
        what = f"{need.material} {show_number(need.thickness_mm)} mm"
        smallest = (
            f"a sheet of {what}, at least {show_number(need.length_mm + lost_mm, digits=0)} mm "
            f"{'along the grain' if find_sheet(need.material).grain else 'long'} and "
            f"{show_number(need.width_mm + lost_mm, digits=0)} mm wide"
        )
        size = f"{show_number(need.length_mm, digits=0)} × {show_number(need.width_mm, digits=0)} mm"
        if not right:
            there = ", ".join(sorted({f"{s.species} {s.nominal}" for s in sheets}))
            code, said = "T13", f"The rack holds no {what}; its sheets are {there}."
        elif not any(holds_part(need, sheet, lost_mm) for sheet in right):
            most = ", ".join(f"{s.length_mm:g} × {s.width_mm:g}" for s in right)
            code, said = (
                "T14",
                f"Needs {size} of {what}; the sheets here are {most} mm before their edges are trimmed.",
            )
        else:
            code, said = "T15", f"No place left for {size} of {what}."
        yield Finding(
            code=code,
            severity=Severity.HIGH,
            where=need.part,
            message=said,
            advice=f"Bring {smallest}.",
            numbers={"length_mm": need.length_mm, "width_mm": need.width_mm},
        )


class _Sized(Protocol):
    """What has a length along the grain and a width. [mm]"""

    @property
    def length_mm(self) -> float: ...
    @property
    def width_mm(self) -> float: ...


def holds_part(need: SheetNeed, sheet: _Sized, lost_mm: float) -> bool:
    """Whether a part fits a sheet once its edges are trimmed by so much in all each way. [mm]"""
    room = (sheet.length_mm - lost_mm, sheet.width_mm - lost_mm)
    sizes = [(need.length_mm, need.width_mm)]
    if not find_sheet(need.material).grain:
        sizes.append((need.width_mm, need.length_mm))
    return any(room[0] >= a - 1e-6 and room[1] >= b - 1e-6 for a, b in sizes)
