"""Racks: the boards at hand, read from a CSV table or a YAML list.

Both say the same. Lengths carry their unit (``8 ft``, ``7 1/2 in``, ``2440 mm``); bare numbers are
millimeters, unless a CSV heading names another unit (``width (in)``) or a YAML file says ``unit: in`` on top.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from pathlib import Path

from scantling.errors import Fault, FileFaults
from scantling.reading import Document, did_you_mean, parse_on, parse_table, read_text
from scantling.reading.limits import MAX_FAULTS
from scantling.stock.boards.board import Board
from scantling.stock.boards.rackrow import FIELDS, RackRow, board_of_row
from scantling.stock.racks.benchnotes import BenchNotes
from scantling.stock.racks.notes_file import notes_path, parse_notes
from scantling.wood.sheets import is_sheet

__all__ = ["Rack", "parse_rack", "read_notes", "read_rack"]

_HEADING = re.compile(r"(?P<name>[a-z_ ]+?)\s*(?:\((?P<unit>mm|cm|m|in|ft)\))?")
_TOPS = ("name", "unit", "boards")
_PIECE_FILE = "This is a piece: give it where the piece belongs, and here the file of your boards."
_UNITS = ("mm", "cm", "m", "in", "ft")
_LENGTHS = ("width", "length", "far_width", "left_trim", "right_trim", "defects", "thickness")


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """The boards at hand.

    Parameters
    ----------
    name
        Name of the rack.
    boards
        In the order of the file.
    notes
        What has happened at the bench since.
    sheets
        Sheets of plywood and the like, as boards whose length lies along the grain of their face.
    """

    name: str
    boards: tuple[Board, ...]
    notes: BenchNotes = field(default_factory=BenchNotes)
    sheets: tuple[Board, ...] = ()


def _unknown_field(name: str, *, file: str, place: tuple[int, int]) -> Fault:
    return Fault(
        code="unknown_field",
        field=f"boards.{name}",
        value=name,
        rule=f"must be one of {', '.join(FIELDS)}",
        remedy=did_you_mean(name, FIELDS, otherwise="Correct or remove it."),
        file=file,
        line=place[0],
        column=place[1],
    )


def _rows_of_csv(text: str, file: str) -> tuple[list[RackRow], list[Fault]]:
    table = parse_table(text, file=file)
    faults: list[Fault] = []
    fields: dict[str, str] = {}
    units: dict[str, str] = {}
    for heading, cell in table.header.items():
        match = _HEADING.fullmatch(heading.strip().lower())
        name = match["name"].strip().replace(" ", "_") if match else heading
        if name not in FIELDS:
            faults.append(_unknown_field(heading, file=file, place=(cell.line, cell.column)))
        fields[heading] = name
        units[name] = (match["unit"] if match else None) or "mm"
    rows = [
        RackRow(
            values={fields[heading]: cell.text for heading, cell in row.cells.items()},
            units=units,
            file=file,
            number=number,
            places={fields[heading]: (cell.line, cell.column) for heading, cell in row.cells.items()},
            place=(row.line, 1),
        )
        for number, row in enumerate(table.rows, start=1)
    ]
    return rows, faults


def _rows_of_yaml(text: str, file: str) -> tuple[list[RackRow], list[Fault]]:
    document = parse_on(text, file=file)
    boards = document.get(("boards",)) if isinstance(document.data, dict) else None
    if not isinstance(boards, list):
        rule = "must hold 'boards:', a list of boards"
        remedy = "Write boards: and one '- name: ...' for each board."
        none = document.fault((), code="no_boards", rule=rule, remedy=remedy)
        if isinstance(document.data, dict) and "parts" in document.data:
            raise FileFaults([replace(none, remedy=_PIECE_FILE)])
        raise FileFaults(document.faults or [none, *_unknown_tops(document)])
    unit = str(document.get(("unit",)) or "mm")
    rows: list[RackRow] = []
    faults = [*document.faults, *_unknown_tops(document)]
    if unit not in _UNITS:
        rule = f"must be one of {', '.join(_UNITS)}"
        faults.append(document.fault(("unit",), code="unknown_unit", rule=rule, remedy="Correct the unit."))
        unit = "mm"
    units = dict.fromkeys(_LENGTHS, unit)
    for number, entry in enumerate(boards):
        if not isinstance(entry, dict):
            rule = "must be a board: name, species, thickness, width, length"
            faults.append(
                document.fault(("boards", number), code="not_a_board", rule=rule, remedy="Write its fields.")
            )
            continue
        places = {key: document.position(("boards", number, key)) for key in entry}
        for key in entry:
            if key not in FIELDS:
                place = document.key_position(("boards", number, key))
                faults.append(_unknown_field(key, file=file, place=place))
        rows.append(
            RackRow(
                values={key: _written(value) for key, value in entry.items()},
                units=units,
                file=file,
                number=number + 1,
                places=places,
                place=document.position(("boards", number)),
            )
        )
    return rows, faults


def _unknown_tops(document: Document) -> list[Fault]:
    """Fields beside the boards that mean nothing: ``units: in`` would leave every size in millimeters."""
    faults: list[Fault] = []
    for key in document.data if isinstance(document.data, dict) else ():
        if key not in _TOPS:
            line, column = document.key_position((key,))
            fault = document.fault(
                (key,),
                code="unknown_field",
                rule=f"is not a known field; known here: {', '.join(_TOPS)}",
                remedy=did_you_mean(key, _TOPS, otherwise="Delete it or correct its name."),
            )
            faults.append(replace(fault, line=line, column=column))
    return faults


def _written(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, list):
        return "; ".join(str(v) for v in value)
    return str(value)


def _doubles(rows: list[RackRow]) -> list[Fault]:
    faults: list[Fault] = []
    first: dict[str, int] = {}
    for row in rows:
        name = row.values.get("name", "").strip()
        line, column = row.places.get("name", row.place)
        if name and name in first:
            faults.append(
                Fault(
                    code="name_twice",
                    field=f"boards.{name}.name",
                    value=name,
                    rule=f"must be unique; line {first[name]} has it too",
                    remedy="Give each board its own name.",
                    file=row.file,
                    line=line,
                    column=column,
                )
            )
        first.setdefault(name, line)
    return faults


def parse_rack(text: str, *, file: str) -> Rack:
    """Read a rack from text; ``file`` names it in faults and its ending tells CSV from YAML.

    Raises
    ------
    FileFaults
        Every fault at once, each with line, field, value, rule and remedy.
    """
    as_csv = file.lower().endswith(".csv")
    rows, faults = _rows_of_csv(text, file) if as_csv else _rows_of_yaml(text, file)
    boards = [board_of_row(row) for row in rows]
    faults += [fault for row in rows for fault in row.faults] + _doubles(rows)
    if not rows and not faults:
        faults = [
            Fault(
                code="empty_rack",
                field="boards",
                value="no board",
                rule="must hold at least one board",
                remedy="Write one line for each board.",
                file=file,
            )
        ]
    if faults:
        raise FileFaults(sorted(faults, key=lambda f: (f.line, f.field))[:MAX_FAULTS])
    return Rack(
        name=Path(file).stem,
        boards=tuple(b for b in boards if not is_sheet(b.species)),
        sheets=tuple(b for b in boards if is_sheet(b.species)),
    )


def read_rack(path: Path) -> Rack:
    """Read a rack file, and the bench notes beside it where there are any.

    Parameters
    ----------
    path
        A ``.csv``, ``.yaml`` or ``.yml`` file.

    Returns
    -------
    Rack
        Its boards in order.

    Raises
    ------
    FileFaults
        ``empty_rack``, one for each fault in the file, and those of :mod:`scantling.reading`.
    """
    return read_notes(parse_rack(read_text(path), file=str(path)), notes_path(path))


def read_notes(rack: Rack, path: Path, *, gone: bool = False) -> Rack:
    """The rack with the bench notes in a file, where it is there.

    Parameters
    ----------
    rack
        Without notes.
    path
        Of the notes.
    gone
        Whether its boards may have left it since the notes were written, as they leave a stockroom.

    Raises
    ------
    FileFaults
        One for each fault in the notes.
    """
    if not path.exists():
        return rack
    boards = (*rack.boards, *rack.sheets)
    return replace(rack, notes=parse_notes(read_text(path), file=str(path), boards=boards, gone=gone))
