"""Racks: the boards at hand, read from a CSV table or a YAML list.

Both say the same. Lengths carry their unit (``8 ft``, ``7 1/2 in``, ``2440 mm``); bare numbers are
millimetres, unless a CSV heading names another unit (``width (in)``) or a YAML file says ``unit: in`` on top.
"""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scantling.errors import Fault, FileFaults
from scantling.stock.board import Board
from scantling.stock.rackrow import FIELDS, RackRow, board_of_row

__all__ = ["GREATEST_BYTES", "Rack", "parse_rack", "read_rack"]

GREATEST_BYTES = 2_000_000
"""A rack file larger than this is refused. [bytes]"""

_HEADING = re.compile(r"(?P<name>[a-z_ ]+?)\s*(?:\((?P<unit>mm|cm|m|in|ft)\))?")
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
    """

    name: str
    boards: tuple[Board, ...]


def _file_fault(file: str, *, code: str, value: str, rule: str, remedy: str, line: int = 0) -> FileFaults:
    fault = Fault(code=code, field="rack", value=value, rule=rule, remedy=remedy, file=file, line=line)
    return FileFaults([fault])


def _rows_of_csv(text: str, file: str) -> tuple[list[RackRow], list[Fault]]:
    lines = list(csv.reader(io.StringIO(text)))
    head_at = next((n for n, row in enumerate(lines) if row and not row[0].startswith("#")), None)
    if head_at is None:
        return [], []
    columns: list[tuple[str, str]] = []
    faults: list[Fault] = []
    for number, heading in enumerate(lines[head_at], start=1):
        match = _HEADING.fullmatch(heading.strip().lower())
        name = match["name"].strip().replace(" ", "_") if match else heading
        if name not in FIELDS:
            faults.append(_unknown_field(name, file=file, line=head_at + 1, column=number))
        columns.append((name, (match["unit"] if match else None) or "mm"))
    rows: list[RackRow] = []
    units = dict(columns)
    for number, cells in enumerate(lines[head_at + 1 :], start=head_at + 2):
        if not any(cell.strip() for cell in cells) or cells[0].startswith("#"):
            continue
        values = {name: cell for (name, _), cell in zip(columns, cells, strict=False)}
        row = RackRow(values=values, units=units, file=file, number=len(rows) + 1, lines={}, line=number)
        if len(cells) > len(columns):
            row.fault(
                "row",
                ",".join(cells[len(columns) :]),
                code="too_many_cells",
                rule=f"must have {len(columns)} cells",
                remedy='Put a cell that holds a comma in quotes: "knot at 620 x 40, 90 x 50".',
            )
        rows.append(row)
    return rows, faults


def _unknown_field(name: str, *, file: str, line: int, column: int = 0) -> Fault:
    return Fault(
        code="unknown_field",
        field=f"boards.{name}",
        value=name,
        rule=f"must be one of {', '.join(FIELDS)}",
        remedy="Correct or remove it.",
        file=file,
        line=line,
        column=column,
    )


def _load_yaml(text: str, file: str) -> Any:
    from ruamel.yaml import YAML
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    if "&" in text and re.search(r"[\s\[{,]\*\w", text):
        raise _file_fault(
            file, code="yaml_alias", value="an alias (*)", rule="must not use aliases", remedy="Write it out."
        )
    try:
        return YAML(typ="rt").load(text)
    except MarkedYAMLError as error:
        mark = error.problem_mark
        raise _file_fault(
            file,
            code="not_yaml",
            value=str(error.problem),
            rule="must be a YAML file",
            remedy="Mend the line named.",
            line=mark.line + 1 if mark else 0,
        ) from None
    except (YAMLError, ValueError, RecursionError) as error:
        raise _file_fault(
            file, code="not_yaml", value=str(error)[:80], rule="must be a YAML file", remedy="Mend it."
        ) from None


def _rows_of_yaml(text: str, file: str) -> tuple[list[RackRow], list[Fault]]:
    document = _load_yaml(text, file)
    if document is None:
        return [], []
    boards: Any = document.get("boards") if isinstance(document, dict) else None
    if not isinstance(boards, list):
        raise _file_fault(
            file,
            code="no_boards",
            value=type(document).__name__,
            rule="must hold 'boards:', a list",
            remedy="Write boards: and one '- name: ...' for each board.",
        )
    unit = str(document.get("unit", "mm"))
    rows: list[RackRow] = []
    faults: list[Fault] = []
    places: Any = boards
    for number, entry in enumerate(boards, start=1):
        at = places.lc.item(number - 1)[0] + 1
        if not isinstance(entry, dict):
            faults.append(_unknown_field(str(entry), file=file, line=at))
            continue
        keys: Any = entry
        lines = {str(key): keys.lc.key(key)[0] + 1 for key in entry}
        faults += [_unknown_field(k, file=file, line=lines[k]) for k in lines if k not in FIELDS]
        values = {str(key): _written(value) for key, value in entry.items()}
        units = dict.fromkeys(_LENGTHS, unit)
        rows.append(RackRow(values=values, units=units, file=file, number=number, lines=lines, line=at))
    return rows, faults


def _written(value: Any) -> str:
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
        if name and name in first:
            faults.append(
                Fault(
                    code="name_twice",
                    field=f"boards.{name}.name",
                    value=name,
                    rule=f"must be unique; line {first[name]} has it too",
                    remedy="Give each board its own name.",
                    file=row.file,
                    line=row.lines.get("name", row.line),
                )
            )
        first.setdefault(name, row.line)
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
        raise _file_fault(
            file,
            code="empty_rack",
            value="no board",
            rule="must hold at least one board",
            remedy="Write one line for each board.",
        )
    if faults:
        raise FileFaults(sorted(faults, key=lambda f: (f.line, f.field)))
    return Rack(name=Path(file).stem, boards=tuple(boards))


def read_rack(path: Path) -> Rack:
    """Read a rack file.

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
        ``file_missing``, ``file_too_large``, ``not_text``, ``empty_rack`` and one for each fault in the file.
    """
    file = str(path)
    try:
        size = path.stat().st_size
        data = path.read_bytes() if size <= GREATEST_BYTES else b""
    except OSError as error:
        raise _file_fault(
            file,
            code="file_missing",
            value=error.strerror or "nothing",
            rule="must be a file that can be read",
            remedy="Check the path.",
        ) from None
    if size > GREATEST_BYTES:
        raise _file_fault(
            file,
            code="file_too_large",
            value=f"{size} bytes",
            rule=f"must be at most {GREATEST_BYTES} bytes",
            remedy="Is this a rack file?",
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _file_fault(
            file,
            code="not_text",
            value=f"byte {error.start}",
            rule="must be text in UTF-8",
            remedy="Save it as CSV (UTF-8) or YAML.",
        ) from None
    if "\0" in text:
        raise _file_fault(
            file, code="not_text", value="a zero byte", rule="must be text", remedy="Save it as CSV or YAML."
        )
    return parse_rack(text, file=file)
