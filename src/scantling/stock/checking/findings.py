"""What a rack cannot give, named before the search and after it, with the smallest board that would do."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from scantling.errors import Finding, Report, Severity
from scantling.piece.matching import WishKind
from scantling.stock.asked.blank import Blank, FreeWidthPanel, accepts_board, accepts_rings
from scantling.stock.asked.cutting import Cutting
from scantling.stock.asked.homes import homes_for
from scantling.stock.asked.wish import Wish
from scantling.stock.boards.board import QUARTER_MM, Board
from scantling.stock.checking.rings_told import asked_sawn, no_rings, rings_to_look_at
from scantling.stock.layouts.layout import Layout
from scantling.units import show_number, with_article

__all__ = ["findings_after", "findings_before", "findings_of_rack"]

Need = Blank | FreeWidthPanel

_ONE = {
    WishKind.SAME_BOARD: "one board",
    WishKind.SAME_FLITCH: "one flitch",
    WishKind.ALIKE: "one board, or two neighbors of a flitch",
}
_NAMED = 3
"""Boards named in a way out; of more, how many more."""


def _width(need: Need) -> float:
    return need.width_mm if isinstance(need, Blank) else need.least_strip_mm + need.edge_loss_mm


def _room(board: Board, cutting: Cutting) -> tuple[float, float]:
    """Length and width a board has to give. [mm]"""
    length = board.length_mm - board.left_trim_mm - board.right_trim_mm
    widest = max(board.width_mm, board.far_width_mm or 0.0)
    return length, widest - cutting.straight_edge_mm - cutting.far_edge_mm


def _up(mm: float, *, digits: int = 0) -> str:
    """A size that is enough, never rounded down."""
    step = 10.0**-digits
    return show_number(math.ceil(mm / step - 1e-6) * step, digits=digits)


def _smallest_board(need: Need, boards: Sequence[Board], cutting: Cutting) -> str:
    """The board that would do, in words, with the rack's usual end trim."""
    trims = [b.left_trim_mm + b.right_trim_mm for b in boards]
    length = need.length_mm + max(trims, default=0.0)
    width = _width(need) + cutting.straight_edge_mm + cutting.far_edge_mm
    return (
        f"{with_article(need.species)} board at least {_up(length)} mm long, "
        f"{_up(width)} mm wide and {_up(need.thickness_mm, digits=1)} mm thick{_rings(need)}"
    )


def _rings(need: Need) -> str:
    """How it must be sawn, where that is asked for."""
    return f", {asked_sawn(need)}" if need.sawn else ""


def _finding(code: str, need: Need, message: str, *, advice: str, numbers: dict[str, float]) -> Finding:
    return Finding(
        code=code, severity=Severity.HIGH, where=need.name, message=message, advice=advice, numbers=numbers
    )


def _no_wood(need: Need, boards: Sequence[Board], cutting: Cutting) -> Finding:
    """No board of the species, none of the thickness, or none with such rings."""
    sawn = no_rings(need, boards, smallest=_smallest_board(need, boards, cutting))
    if sawn is not None:
        return sawn
    species = [b for b in boards if b.species == need.species]
    remedy = f"Bring {_smallest_board(need, boards, cutting)}."
    if not species:
        there = ", ".join(sorted({b.species for b in boards})) or "nothing"
        message = f"The rack holds no {need.species}; it holds {there}."
        return _finding("T03", need, message, advice=remedy, numbers={})
    wanted = "/4, ".join(f"{q:g}" for q in need.quarters) + "/4" if need.quarters else "any nominal"
    there = ", ".join(sorted({b.nominal for b in species}))
    message = (
        f"Needs {show_number(need.thickness_mm)} mm rough from {wanted} stock; "
        f"the {need.species} here is {there}."
    )
    numbers = {
        "needed_mm": need.thickness_mm,
        "thickest_mm": max(b.rough_thickness_mm for b in species),
    }
    remedy += _thicker(need, species, cutting)
    return _finding("T04", need, message, advice=remedy, numbers=numbers)


def _turned(need: Need) -> bool:
    return isinstance(need, Blank) and not need.grain_fixed


def _too_large(need: Need, boards: Sequence[Board], cutting: Cutting) -> Finding | None:
    """Longer or wider than every board of its kind."""
    rooms = [_room(b, cutting) for b in boards]
    length, width = need.length_mm, _width(need)
    sizes = [(length, width), (width, length)] if _turned(need) else [(length, width)]
    if any(room[0] >= s[0] - 1e-6 and room[1] >= s[1] - 1e-6 for room in rooms for s in sizes):
        return None
    remedy = f"The smallest board that would do: {_smallest_board(need, boards, cutting)}."
    longest, widest = max(r[0] for r in rooms), max(r[1] for r in rooms)
    if length > longest:
        message = (
            f"Needs {show_number(length)} mm along the grain; the longest board here gives "
            f"{show_number(longest)} mm between its end trims."
        )
        return _finding(
            "T01", need, message, advice=remedy, numbers={"needed_mm": length, "longest_mm": longest}
        )
    if width > widest:
        message = (
            f"Needs {show_number(width)} mm across; the widest board here gives {show_number(widest)} mm "
            "between its edges."
        )
        remedy += " Or glue it up from two narrower strips."
        return _finding(
            "T02", need, message, advice=remedy, numbers={"needed_mm": width, "widest_mm": widest}
        )
    message = (
        f"Needs {show_number(length)} × {show_number(width)} mm: the boards long enough are too narrow, "
        "and the wide ones too short."
    )
    return _finding("T02", need, message, advice=remedy, numbers={"length_mm": length, "width_mm": width})


def _unpriced(boards: Sequence[Board]) -> Iterator[Finding]:
    bare = [b.name for b in boards if b.price_total is None]
    if bare and len(bare) < len(boards):
        yield Finding(
            code="T07",
            severity=Severity.NOTE,
            where="rack",
            message=f"No price for {', '.join(bare)}: counted at the mean price per board foot of the rest.",
            advice="Write the price beside the board.",
            numbers={"boards": float(len(bare))},
        )


def _together(
    wishes: Sequence[Wish], needs: Sequence[Need], boards: Sequence[Board], cutting: Cutting
) -> Iterator[Finding]:
    """Blanks that must belong together, and no board or flitch has the face for all of them."""
    by_name = {need.name: need for need in needs}
    for wish in wishes:
        members = [by_name[name] for name in wish.members if name in by_name]
        if wish.worth is not None or wish.kind not in _ONE or len(members) < 2:
            continue
        area = sum(m.area_mm2 for m in members)
        by_board = {b.name: b for b in boards}
        rooms = [
            sum(room[0] * room[1] for room in (_room(by_board[name], cutting) for name in home))
            for home in homes_for(wish, members, boards)
        ]
        largest = max(rooms, default=0.0)
        if largest >= area:
            continue
        yield Finding(
            code="T06",
            severity=Severity.HIGH,
            where=wish.name,
            message=(
                f"{len(members)} blanks must come from {_ONE[wish.kind]}, "
                f"{show_number(area / 1e6, digits=3)} m2 in all; the largest they could share gives "
                f"{show_number(largest / 1e6, digits=3)} m2."
            ),
            advice=f"Split the wish, give it a worth, or bring {_large_enough(members, boards, cutting)}.",
            numbers={"needed_m2": area / 1e6, "largest_m2": largest / 1e6},
        )


def _large_enough(members: Sequence[Need], boards: Sequence[Board], cutting: Cutting) -> str:
    """One board with the face for all, as long as the longest here of their kind. [mm]"""
    longest = max(m.length_mm for m in members)
    fit = [b for b in boards if all(accepts_board(m, b) for m in members)]
    length = max([longest, *(_room(b, cutting)[0] for b in fit)])
    trim = max((b.left_trim_mm + b.right_trim_mm for b in fit), default=0.0)
    across = max(sum(m.area_mm2 for m in members) / length, *(_width(m) for m in members))
    width = across + cutting.straight_edge_mm + cutting.far_edge_mm
    return f"one board of {_up(length + trim)} mm that is no narrower than {_up(width)} mm"


def findings_of_rack(boards: Sequence[Board]) -> Report:
    """What is to be said of a rack whatever is made from it (T07)."""
    return Report.of(list(_unpriced(boards)))


def findings_before(
    boards: Sequence[Board],
    blanks: Sequence[Blank],
    panels: Sequence[FreeWidthPanel] = (),
    *,
    cutting: Cutting,
    wishes: Sequence[Wish] = (),
) -> Report:
    """What can be said before any search: blanks no board can give, impossible wishes, missing prices.

    Codes: T01 too long, T02 too wide, T03 no such wood, T04 no such thickness, T06 members of a must that no
    board or flitch has the face for, T07 board without a price, T17 no board sawn as asked for.
    """
    found: list[Finding] = []
    needs: list[Need] = [*blanks, *panels]
    for need in needs:
        right = [b for b in boards if accepts_board(need, b)]
        if not right:
            found.append(_no_wood(need, boards, cutting))
            continue
        large = _too_large(need, right, cutting)
        if large is not None:
            found.append(large)
    found += _together(wishes, needs, boards, cutting)
    found += _unpriced(boards)
    return Report.of(found)


def findings_after(
    layout: Layout, *, panels: Sequence[FreeWidthPanel] = (), boards: Sequence[Board], cutting: Cutting
) -> Report:
    """What a layout leaves wanting (T05), with the smallest board that would do; rings to look at (T18)."""
    sure = (
        "No layout of this rack holds everything: the wood is not there."
        if layout.short_proven
        else "The search found no place; a better layout may exist."
    )
    found = [
        _finding(
            "T05",
            blank,
            f"No place left for {show_number(blank.length_mm)} × {show_number(blank.width_mm)} mm of "
            f"{blank.species}. {sure}",
            advice=f"Add {_smallest_board(blank, boards, cutting)}.{_thicker(blank, layout.unused, cutting)}",
            numbers={"length_mm": blank.length_mm, "width_mm": blank.width_mm},
        )
        for blank in layout.unplaced
    ]
    by_name = {panel.name: panel for panel in panels}
    for strips in layout.strips:
        if strips.missing_mm > 1e-6:
            panel = by_name[strips.panel]
            found.append(
                _finding(
                    "T05",
                    panel,
                    f"Lacks {show_number(strips.missing_mm)} mm of its "
                    f"{show_number(panel.total_width_mm)} mm width, {show_number(panel.length_mm)} mm "
                    f"long. {sure}",
                    advice=f"Add {_missing_board(panel, strips.missing_mm, boards, cutting)}."
                    f"{_thicker(panel, layout.unused, cutting)}",
                    numbers={"missing_mm": strips.missing_mm, "length_mm": panel.length_mm},
                )
            )
    return Report.of([*found, *rings_to_look_at(layout)])


def _thicker(need: Need, unused: Sequence[Board], cutting: Cutting) -> str:
    """Boards that lie unused and are too thick for the stock asked for, but could be planed down to it."""
    length, width = need.length_mm, _width(need)
    sizes = [(length, width), (width, length)] if _turned(need) else [(length, width)]
    there = [
        board
        for board in unused
        if need.quarters
        and board.species == need.species
        and board.nominal_quarters > max(need.quarters)
        and accepts_rings(need, board)
        and (not need.boards or board.name in need.boards)
        and any(
            all(r >= x - 1e-6 for r, x in zip(_room(board, cutting), size, strict=True)) for size in sizes
        )
    ]
    if not there:
        return ""
    there.sort(key=lambda board: board.nominal_quarters)
    told = ", ".join(f"{board.name} ({board.nominal})" for board in there[:_NAMED])
    more = f" and {len(there) - _NAMED} more" if len(there) > _NAMED else ""
    way = f" Or plane down thicker stock that lies there: {told}{more}, long and wide enough"
    if isinstance(need, Blank):
        return f"{way}; write quarters: {there[0].nominal_quarters:g} at {need.part}."
    return f"{way} for a strip."


def _missing_board(
    panel: FreeWidthPanel, missing_mm: float, boards: Sequence[Board], cutting: Cutting
) -> str:
    trims = [b.left_trim_mm + b.right_trim_mm for b in boards]
    strip = min(max(missing_mm, panel.least_strip_mm), panel.greatest_strip_mm)
    width = strip + panel.edge_loss_mm + cutting.straight_edge_mm + cutting.far_edge_mm
    quarters = min(panel.quarters, default=panel.thickness_mm / QUARTER_MM)
    length = panel.length_mm + max(trims, default=0.0)
    return (
        f"{with_article(panel.species)} board at least {_up(length)} mm long "
        f"and {_up(width)} mm wide, {quarters:g}/4 or thicker if allowed{_rings(panel)}"
    )
