"""Reading a user's files, so that every error names file, line, field, what was found, what is allowed.

All faults of a file come at once, in one :class:`~scantling.errors.FileFaults`. This is the lowest
package beside ``units`` and ``errors``: it knows nothing of wood or furniture.

A YAML file becomes a :class:`Document` (plain data with the line and column of each key and value),
which a pydantic model checks::

    from scantling.reading import FileModel, LengthMm, Percent, read_document, validate

    class Room(FileModel):                    # immutable, refuses unknown fields
        units: Literal["mm", "cm", "in"] = "mm"
        ceiling: LengthMm = Field(gt=0)       # 2400, "2.4 m", "7' 10 1/2 in": always mm inside
        humidity: Percent = Field(ge=0, le=100)

    document = read_document("room.yaml")     # or parse_document(text, file="room.yaml")
    room = validate(document, Room)           # or FileFaults with every fault

A number without a unit is in the file's ``units`` (mm where it has none) if it is a length, else in
degrees, percent, degrees Celsius, minutes, kilograms, newtons. ``730`` is a number; ``7/8``,
``28 3/4 in``, dates, ``yes`` and ``no`` are texts. Anchors, aliases and tags are refused.

Faults of meaning, which need more than one field, are placed by path::

    faults = []
    if not fits:
        faults.append(document.fault(("parts", "leg", "section"), code="leg_too_wide",
                                     rule="must be at most 90 mm", remedy="Glue it up from layers."))
    try:
        expression = parse(text)
    except InputError as error:               # keeps pointing into the text
        faults.extend(faults_for(document, ("parameters", "reach", "value"), error))
    if faults:
        raise FileFaults(faults)

Inside a model's own validators raise :class:`~scantling.errors.InputError` (or ``FileFaults``); code,
rule and remedy are kept, and file, line and field are filled in. ``info.context[LENGTH_UNIT]`` is the
file's unit. Blocks of several kinds are told apart by a discriminator (``kind: stick``).

A CSV file becomes a :class:`Table`::

    table = read_table("rack.csv")            # comma, semicolon or tab; names trimmed; '#' comments
    boards = validate_rows(table, Board, length_unit="in")
    table.fault(table.rows[3], "width", code=..., rule=...)
"""

from scantling.reading.documents import Document, Mark, Path, Plain, faults_for, field_name, shown
from scantling.reading.fields import (
    LENGTH_UNIT,
    AngleDeg,
    ForceN,
    LengthMm,
    MassKg,
    Minutes,
    Percent,
    QuantityField,
    TemperatureC,
)
from scantling.reading.limits import MAX_BYTES, MAX_DEPTH, MAX_FAULTS, MAX_NODES, read_text
from scantling.reading.parsing import parse_document, parse_on, read_document, read_on
from scantling.reading.tables import Cell, Row, Table, parse_table, read_table, validate_rows
from scantling.reading.validating import FileModel, custom_error, length_unit, validate
from scantling.reading.wording import did_you_mean, nearest

__all__ = [
    "LENGTH_UNIT",
    "MAX_BYTES",
    "MAX_DEPTH",
    "MAX_FAULTS",
    "MAX_NODES",
    "AngleDeg",
    "Cell",
    "Document",
    "FileModel",
    "ForceN",
    "LengthMm",
    "Mark",
    "MassKg",
    "Minutes",
    "Path",
    "Percent",
    "Plain",
    "QuantityField",
    "Row",
    "Table",
    "TemperatureC",
    "custom_error",
    "did_you_mean",
    "faults_for",
    "field_name",
    "length_unit",
    "nearest",
    "parse_document",
    "parse_on",
    "parse_table",
    "read_document",
    "read_on",
    "read_table",
    "read_text",
    "shown",
    "validate",
    "validate_rows",
]
