"""The rack: every board tallied and priced, and what is wrong with it."""

from __future__ import annotations

from scantling.errors import Finding
from scantling.papers.sheets.model import Align, Block, Column, Facts, Sheet, Table, Words
from scantling.papers.sheets.show import Show
from scantling.stock.boards.board import Board, Face
from scantling.stock.boards.tally import BoardTally, tally_boards, tally_stacks
from scantling.stock.racks.rack import Rack
from scantling.units import show_number

__all__ = ["rack_sheet"]

_R = Align.RIGHT
_RULE = (
    "Tally by the yard's rule: width in inches times whole feet of length over 12, rounded to the square "
    "foot, times nominal inches (at least 1). A tapered board is taken at its mean width."
)


def rack_sheet(rack: Rack, *, show: Show, currency: str, findings: tuple[Finding, ...] = ()) -> Sheet:
    """A rack, tallied.

    Parameters
    ----------
    rack
        The boards.
    show
        How lengths are written.
    currency
        Of the prices.
    findings
        What is to be said of the rack as a whole.
    """
    boards = tally_boards(rack.boards)
    blocks: list[Block] = [
        Facts(title="The rack", items=_facts(rack, show, currency)),
        _board_table(boards, show),
    ]
    blocks.append(_stack_table(rack, show))
    if rack.sheets:
        blocks.append(_sheet_table(rack.sheets, show))
    if findings:
        lines = tuple(f"{f.code} {f.message} {f.advice}".strip() for f in findings)
        blocks.append(Words(title="To mend", lines=lines))
    count = len(rack.boards)
    sheets = f" and {len(rack.sheets)} sheet{'s' if len(rack.sheets) != 1 else ''}" if rack.sheets else ""
    lead = f"{count} board{'s' if count != 1 else ''}{sheets}, as tallied in the yard and as measured."
    return Sheet(id="rack", title=_title(rack.name), lead=lead, blocks=tuple(blocks))


def _money(price: float | None) -> str:
    return "no price" if price is None else f"{price:,.2f}"


def _facts(rack: Rack, show: Show, currency: str) -> tuple[tuple[str, str], ...]:
    stacks = tally_stacks(rack.boards)
    prices = [s.price for s in stacks]
    facts = [
        ("Boards", str(len(rack.boards))),
        ("Tally", f"{show_number(sum(s.tally_board_feet for s in stacks), digits=2)} bf"),
        ("As measured", f"{show_number(sum(s.board_feet for s in stacks), digits=2)} bf"),
    ]
    if not show.style.inch:
        facts.append(("Volume", f"{sum(s.volume_m3 for s in stacks):.3f} m³"))
    known = [p for p in prices if p is not None]
    if len(known) == len(prices):
        facts.append(("Price", f"{sum(known):,.2f} {currency}"))
    return tuple(facts)


def _board_table(boards: tuple[BoardTally, ...], show: Show) -> Table:
    rows = tuple(
        (
            t.board.name,
            f"{t.board.nominal} {t.board.species}",
            _size(t.board, show),
            show_number(t.board.tally_board_feet, digits=2),
            show_number(t.board.board_feet, digits=2),
            _money(t.price),
            "" if t.board.moisture_pct is None else f"{show_number(t.board.moisture_pct, digits=1)} %",
            f"{t.free_pct:.0f} %",
            _wrong(t.board, show),
            _kept(t.board),
        )
        for t in boards
    )
    return Table(
        title="Boards",
        columns=(
            Column(title="Board"),
            Column(title="Wood"),
            Column(title=f"Rough {show.unit}", align=_R),
            Column(title="Tally bf", align=_R),
            Column(title="Measured bf", align=_R),
            Column(title="Price", align=_R),
            Column(title="Moisture", align=_R),
            Column(title="Free", align=_R),
            Column(title="Wrong with it"),
            Column(title="Grade, rings, flitch, note"),
        ),
        rows=rows,
        note=f"{_RULE} Free is the share of the face between the end trims that no defect marks.",
    )


def _sheet_table(sheets: tuple[Board, ...], show: Show) -> Table:
    """Sheets of plywood and the like, which nobody tallies in board feet."""
    return Table(
        title="Sheets",
        columns=(
            Column(title="Sheet"),
            Column(title="Material"),
            Column(title=f"Thick {show.unit}", align=_R),
            Column(title=f"Size {show.unit}", align=_R),
            Column(title="Face", align=_R),
            Column(title="Price", align=_R),
            Column(title="Wrong with it"),
            Column(title="Grade, note"),
        ),
        rows=tuple(
            (
                sheet.name,
                sheet.species,
                show.length(sheet.rough_thickness_mm),
                show.by(sheet.length_mm, sheet.width_mm),
                show.area(sheet.length_mm * sheet.width_mm * 1e-6),
                _money(sheet.price_total),
                _wrong(sheet, show),
                _kept(sheet),
            )
            for sheet in sheets
        ),
        note="The first size lies along the grain of the face, where it has one.",
    )


def _size(board: Board, show: Show) -> str:
    size = show.by(board.length_mm, board.width_mm)
    return size if board.far_width_mm is None else f"{size} to {show.length(board.far_width_mm)}"


def _wrong(board: Board, show: Show) -> str:
    """Defects and ends, from the left end and the lower edge."""
    said = [
        f"{d.kind.value} {show.by(d.length_mm, d.width_mm)} at {show.by(d.x_mm, d.y_mm)}"
        + ("" if d.face is Face.THROUGH else f" on the {d.face.value}")
        for d in board.defects
    ]
    ends = [
        f"{show.length(mm)} off the {end} end"
        for mm, end in ((board.left_trim_mm, "left"), (board.right_trim_mm, "right"))
        if mm > 0
    ]
    return "; ".join([*said, *ends]) or "nothing marked"


def _kept(board: Board) -> str:
    """Grade, rings, flitch, note and photo, as they were written."""
    rings = f"{board.rings.word} rings" if board.rings else ""
    flitch = f"flitch {board.flitch}" if board.flitch else ""
    if flitch and board.sequence is not None:
        flitch += f" no. {board.sequence}"
    photo = f"photo {board.photo}" if board.photo else ""
    return "; ".join(filter(None, (board.grade, rings, flitch, board.note, photo)))


def _stack_table(rack: Rack, show: Show) -> Table:
    metric = not show.style.inch
    rows = tuple(
        (
            s.species,
            s.nominal,
            str(s.boards),
            show_number(s.tally_board_feet, digits=2),
            show_number(s.board_feet, digits=2),
            *((f"{s.volume_m3:.3f}",) if metric else ()),
            _money(s.price),
        )
        for s in tally_stacks(rack.boards)
    )
    return Table(
        title="By wood and thickness",
        columns=(
            Column(title="Wood"),
            Column(title="Stock"),
            Column(title="Boards", align=_R),
            Column(title="Tally bf", align=_R),
            Column(title="Measured bf", align=_R),
            *((Column(title="m³", align=_R),) if metric else ()),
            Column(title="Price", align=_R),
        ),
        rows=rows,
    )


def _title(name: str) -> str:
    """The name of a rack, with the word before it unless the name says it."""
    return f"{name[:1].upper()}{name[1:]}" if "rack" in name.casefold() else f"Rack {name}"
