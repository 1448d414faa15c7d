"""One line of a rack: from written values to a board, with every fault in it told."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

from scantling.errors import Fault, InputError
from scantling.reading.limits import control_sign
from scantling.stock.boards.board import (
    QUARTER_MM,
    Board,
    Defect,
    DefectKind,
    Face,
    FirstCut,
    Price,
    PriceBasis,
)
from scantling.units import Dimension, parse_length_mm, parse_quantity
from scantling.wood.ring import RING_NAMES, RING_RULE, Ring, ring_at
from scantling.wood.sheets import find_sheet, is_sheet
from scantling.wood.species import find_species

__all__ = ["FIELDS", "RackRow", "board_of_row", "read_defect"]

FIELDS = (
    "name",
    "species",
    "thickness",
    "width",
    "length",
    "far_width",
    "left_trim",
    "right_trim",
    "moisture",
    "price",
    "price_per",
    "first_cut",
    "rings",
    "flitch",
    "sequence",
    "grade",
    "defects",
    "note",
    "photo",
)
"""Columns of a CSV rack and keys of a YAML board."""

T = TypeVar("T")
_QUARTERS = re.compile(r"(\d{1,2}(?:\.\d)?)\s*/\s*4")
_DEFECT = re.compile(
    r"(?P<kind>[a-z-]+)\s+at\s+(?P<x>.+?)\s*[x×]\s*(?P<y>.+?)\s*,\s*(?P<l>.+?)\s*[x×]\s*(?P<w>.+?)"
    r"(?:\s+on\s+(?P<face>\w+)|\s+(?P<bare>face|back|through))?"
)
_LONGEST_DEFECT = 300
"""Characters; a longer one is none, and takes long to look at. [1]"""
_PER = {
    "board": PriceBasis.BOARD,
    "board foot": PriceBasis.BOARD_FOOT,
    "bf": PriceBasis.BOARD_FOOT,
    "tallied board foot": PriceBasis.TALLIED_FOOT,
    "m3": PriceBasis.CUBIC_METER,
}


@dataclass(slots=True)
class RackRow:
    """Written values of one board, where they stand, and the faults found so far."""

    values: dict[str, str]
    units: dict[str, str]
    file: str
    number: int
    """Number of the board in the file, from 1."""
    places: dict[str, tuple[int, int]]
    """Line and column of each value."""
    place: tuple[int, int]
    faults: list[Fault] = field(default_factory=list)

    def fault(self, name: str, value: str, *, code: str, rule: str, remedy: str) -> None:
        """Keep one more fault."""
        named = self.values.get("name", "")
        who = named if named and not _odd_sign(named, one_line=True) else str(self.number)
        line, column = self.places.get(name, self.place)
        self.faults.append(
            Fault(
                code=code,
                field=f"boards.{who}.{name}",
                value=value or "nothing",
                rule=rule,
                remedy=remedy,
                file=self.file,
                line=line,
                column=column,
            )
        )

    def read(self, name: str, reader: Callable[[str], T], *, default: T) -> T:
        """Read one value; a fault is kept and the default returned."""
        text = self.values.get(name, "").strip()
        if not text:
            return default
        try:
            return reader(text)
        except InputError as error:
            self.fault(name, text, code=error.code, rule=error.fault.rule, remedy=error.fault.remedy)
            return default

    def length_mm(self, name: str, *, default: float) -> float:
        """A length that must be above zero, or the default where nothing is written. [mm]"""
        unit = self.units.get(name, "mm")
        found = self.read(
            name, lambda text: parse_length_mm(text, default_unit=unit, field=name), default=default
        )
        if found < 0 or (found == 0 and self.values.get(name, "").strip() and not name.endswith("trim")):
            rule = "must be above 0 mm" if not name.endswith("trim") else "must not be below 0 mm"
            self.fault(
                name, self.values[name], code="not_positive", rule=rule, remedy="Measure the board again."
            )
            return default
        return found

    def required(self, name: str) -> str:
        """A word that must be there."""
        text = self.values.get(name, "").strip()
        if not text:
            self.fault(name, "", code="missing", rule="must be given", remedy=f"Write the board's {name}.")
        return text

    def number_of(self, name: str, *, low: float, high: float, unit: str) -> float | None:
        """A plain number within limits, or None where nothing is written."""
        text = self.values.get(name, "").strip().removesuffix("%").strip()
        if not text:
            return None
        try:
            value = float(text)
        except ValueError:
            value = float("nan")
        if not low <= value <= high:
            self.fault(
                name,
                text,
                code="number_out_of_range",
                rule=f"must be a number from {low:g} to {high:g} {unit}".rstrip(),
                remedy="Write the number alone.",
            )
            return None
        return value


def _choice(words: dict[str, T], field_name: str) -> Callable[[str], T]:
    def pick(text: str) -> T:
        found = words.get(text.strip().lower())
        if found is None:
            raise InputError(
                code="unknown_word",
                field=field_name,
                value=text,
                rule=f"must be one of {', '.join(words)}",
                remedy="Correct the word.",
            )
        return found

    return pick


def _thickness(row: RackRow) -> tuple[float | None, float | None]:
    """Nominal quarters and rough thickness [mm]."""
    text = row.required("thickness")
    if not text:
        return 4.0, None
    match = _QUARTERS.fullmatch(text)
    if match and is_sheet(row.values.get("species", "")):
        rule = "must be a length: sheets are sold by their thickness"
        row.fault("thickness", text, code="not_a_length", rule=rule, remedy="Write 18 mm, or 3/4 in.")
        return 4.0, None
    if match and float(match[1]) >= 1:
        return float(match[1]), None
    if match:
        row.fault("thickness", text, code="not_positive", rule="must be above 0", remedy="Write 4/4, 5/4...")
        return 4.0, None
    try:
        parse_length_mm(text, default_unit="mm")
    except InputError:
        row.fault(
            "thickness",
            text,
            code="not_a_length",
            rule="must be quarters of an inch or a length",
            remedy="Write 5/4 for five quarters, or a size such as 34 mm or 1 1/4 in.",
        )
        return 4.0, None
    found = row.length_mm("thickness", default=4 * QUARTER_MM)
    return None, found


def _species(row: RackRow) -> str:
    """Full name of the wood, however it was written."""
    text = row.required("species")
    if is_sheet(text):
        return find_sheet(text).name
    return row.read("species", lambda name: find_species(name).name, default=text.lower())


def read_defect(text: str, *, unit: str, board: Board) -> Defect:
    """A defect as it is written in a rack, that must lie on its board.

    Raises
    ------
    InputError
        ``not_a_defect``, ``not_positive``, ``unknown_word``, ``defect_outside_board``, or that of a length.
    """
    defect = _defect(text, unit=unit)
    _on_board(
        defect, text, length_mm=board.length_mm, width_mm=max(board.width_mm, board.far_width_mm or 0.0)
    )
    return defect


def _on_board(defect: Defect, text: str, *, length_mm: float, width_mm: float) -> None:
    if defect.x_mm + defect.length_mm > length_mm + 1e-6 or defect.y_mm + defect.width_mm > width_mm + 1e-6:
        raise InputError(
            code="defect_outside_board",
            field="defects",
            value=text,
            rule=f"must lie on the board, {length_mm:g} × {width_mm:g} mm",
            remedy="Measure the defect from the left end and the lower edge.",
        )


def _defect(text: str, *, unit: str) -> Defect:
    match = _DEFECT.fullmatch(text.strip()) if len(text) <= _LONGEST_DEFECT else None
    if match is None:
        raise InputError(
            code="not_a_defect",
            field="defects",
            value=text,
            rule="must read like 'knot at 620 x 40, 90 x 50 on face'",
            remedy="Write kind, distance from the left end x from the lower edge, then length x width.",
        )
    x, y, length, width = (
        parse_length_mm(match[key], default_unit=unit, field="defects") for key in ("x", "y", "l", "w")
    )
    if min(length, width) <= 0 or min(x, y) < 0:
        raise InputError(
            code="not_positive",
            field="defects",
            value=text,
            rule="must have a length and width above 0 and lie at 0 or more from end and edge",
            remedy="Measure from the left end and the lower edge.",
        )
    kind = _choice({k.value: k for k in DefectKind}, "defects")(match["kind"])
    face = _choice({f.value: f for f in Face}, "defects")(match["face"] or match["bare"] or "through")
    return Defect(kind=kind, x_mm=x, y_mm=y, length_mm=length, width_mm=width, face=face)


def _defects(row: RackRow, board_length_mm: float, board_width_mm: float) -> tuple[Defect, ...]:
    found: list[Defect] = []
    for text in filter(None, (t.strip() for t in row.values.get("defects", "").split(";"))):
        try:
            defect = _defect(text, unit=row.units.get("defects", "mm"))
            _on_board(defect, text, length_mm=board_length_mm, width_mm=board_width_mm)
        except InputError as error:
            row.fault("defects", text, code=error.code, rule=error.fault.rule, remedy=error.fault.remedy)
            continue
        found.append(defect)
    return tuple(found)


def _rings(text: str) -> Ring:
    """Rings by the yard's name for them, or by the angle seen in the end of the board."""
    name = text.strip().lower()
    if name in RING_NAMES:
        return RING_NAMES[name]
    try:
        angle = parse_quantity(text, Dimension.ANGLE, default_unit="deg", field="rings")
    except InputError as error:
        raise InputError(
            code="unknown_choice",
            field="rings",
            value=text,
            rule=RING_RULE,
            remedy="Write a name, or the smaller angle between the wide face and the rings, such as 30.",
        ) from error
    return ring_at(angle, written=text)


def _price(row: RackRow) -> Price | None:
    amount = row.number_of("price", low=0.0, high=1e7, unit="")
    if amount is None:
        return None
    basis = row.read("price_per", _choice(_PER, "price_per"), default=PriceBasis.BOARD)
    return Price(amount=amount, basis=basis)


def _odd_sign(text: str, *, one_line: bool) -> str:
    """What no rack file could hold, or no label show, as it is told; empty where there is none."""
    return control_sign(text) or ("a line end" if one_line and len(text.splitlines()) > 1 else "")


def _check_signs(row: RackRow) -> None:
    for name, text in row.values.items():
        if sign := _odd_sign(text, one_line=name == "name"):
            rule = "must be plain text without control characters"
            row.fault(name, sign, code="not_text", rule=rule, remedy="Delete that character.")


def board_of_row(row: RackRow) -> Board:
    """Read one board; look at ``row.faults`` before using it."""
    _check_signs(row)
    quarters, thickness_mm = _thickness(row)
    for name in ("width", "length"):
        row.required(name)
    width = row.length_mm("width", default=100.0)
    length = row.length_mm("length", default=1000.0)
    far = row.length_mm("far_width", default=width)
    left, right = row.length_mm("left_trim", default=0.0), row.length_mm("right_trim", default=0.0)
    if left + right >= length and not any(fault.field.endswith(".length") for fault in row.faults):
        row.fault(
            "left_trim",
            f"{left:g} + {right:g} mm",
            code="nothing_left",
            rule=f"end trims must leave some of the {length:g} mm",
            remedy="Correct the trims or the length.",
        )
    sequence = row.number_of("sequence", low=0, high=100000, unit="")
    cuts = {c.value: c for c in FirstCut}
    return Board(
        name=row.required("name"),
        species=_species(row),
        width_mm=width,
        length_mm=length,
        quarters=quarters,
        thickness_mm=thickness_mm,
        far_width_mm=None if far == width else far,
        defects=_defects(row, length, max(width, far)),
        left_trim_mm=left,
        right_trim_mm=right,
        moisture_pct=row.number_of("moisture", low=0.0, high=200.0, unit="%"),
        price=_price(row),
        first_cut=row.read("first_cut", _choice(cuts, "first_cut"), default=FirstCut.CROSSCUT),
        rings=row.read("rings", _rings, default=None),
        flitch=row.values.get("flitch", "").strip(),
        sequence=None if sequence is None else int(sequence),
        grade=row.values.get("grade", "").strip(),
        note=row.values.get("note", "").strip(),
        photo=row.values.get("photo", "").strip(),
    )
