"""What the page is sent: shown values only, as frozen dataclasses; ``types.js`` names the same fields."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from enum import Enum
from functools import lru_cache

from scantling.papers.sheets import Sheet
from scantling.papers.sheets.model import Block, Caution, Facts, Table, Words
from scantling.papers.words.step_cards import StepCard
from scantling.papers.words.unbroken import unbroken

__all__ = [
    "FaultView",
    "FindingView",
    "MonthView",
    "ParameterView",
    "PartView",
    "PartYearView",
    "PieceView",
    "PlanView",
    "Refusal",
    "RemedyView",
    "ShapeView",
    "WorkView",
    "YearView",
    "as_json",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class ParameterView:
    """A size that may be changed.

    Parameters
    ----------
    label
        Its name as words.
    shown, shown_default, shown_least, shown_most
        As a maker writes them, with the unit; empty where there is no limit.
    shown_other
        The value in the other unit, where both are shown; else empty.
    unit
        Unit of the numbers below, as it is written behind them.
    value, default, least, most, step
        For a slider, in ``unit``.
    """

    name: str
    label: str
    about: str
    dimension: str
    shown: str
    shown_default: str
    shown_least: str
    shown_most: str
    shown_other: str
    unit: str
    value: float
    default: float
    least: float | None
    most: float | None
    step: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceView:
    """What is known of a piece before it is planned."""

    ok: bool
    title: str
    about: str
    units: str
    parameters: tuple[ParameterView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartView:
    """One part, as the 3D picture needs it.

    Parameters
    ----------
    label
        Its name as words.
    sizes
        Label and shown value.
    explode_m
        Where it goes when the piece is pulled apart, in the axes of the glTF file. [m]
    tone
        Color of its wood, ``#rrggbb``.
    """

    name: str
    label: str
    like: str
    species: str
    sizes: tuple[tuple[str, str], ...]
    explode_m: tuple[float, float, float]
    tone: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeView:
    """What the picture needs; it comes before the plan, which takes longer.

    Parameters
    ----------
    units, both_units
        The unit that leads, and whether the other follows in square brackets.
    """

    ok: bool
    title: str
    about: str
    units: str
    both_units: bool
    key: str
    parameters: tuple[ParameterView, ...]
    parts: tuple[PartView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RemedyView:
    """One change of the piece file, or of what was measured, that mends a finding.

    Parameters
    ----------
    words
        What it does.
    path, text
        Where it is written, and what; text empty where it is taken out.
    parameter
        The parameter it sets; empty where it changes something else.
    taken_back
        What was measured and is taken back; empty where it changes the piece file.
    line
        What to write in the file, or to take out of the notes, and where.
    here
        Whether the server can do it to a piece that is kept; not where it is told in bench notes.
    """

    words: str
    path: tuple[str, ...]
    text: str
    parameter: str
    taken_back: str
    line: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingView:
    """What a design rule found, the parts it speaks of, and what would mend it."""

    code: str
    severity: str
    where: str
    message: str
    advice: str
    source: str
    parts: tuple[str, ...]
    remedies: tuple[RemedyView, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthView:
    """One month of the year, or the day of building.

    Parameters
    ----------
    goes_in
        Whether it is the month in which the piece goes into its room.
    words
        Air, and what the part that moves most does.
    tight, room
        Where there is least room to move, and how much; empty where nothing moves.
    tight_at_m
        That place, in the axes of the glTF file. [m]
    binds
        Whether there is none.
    """

    label: str
    short: str
    goes_in: bool
    words: str
    tight: str
    room: str
    tight_part: str
    tight_at_m: tuple[float, float, float] | None
    binds: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PartYearView:
    """How the picture stretches one part.

    Parameters
    ----------
    fixed_m
        The line that stays, across from the part's middle. [m]
    stretches
        Change of width over width, at build and by month. [1]
    """

    name: str
    fixed_m: float
    stretches: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class YearView:
    """The year of the piece: as built, then January to December."""

    months: tuple[MonthView, ...]
    parts: tuple[PartYearView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """Everything the page shows of a plan; the first fields as in :class:`ShapeView`.

    Parameters
    ----------
    whole
        Whether nothing is left out that would take long.
    """

    ok: bool
    title: str
    about: str
    units: str
    both_units: bool
    key: str
    parameters: tuple[ParameterView, ...]
    parts: tuple[PartView, ...]
    sheets: tuple[Sheet, ...]
    findings: tuple[FindingView, ...]
    year: YearView
    whole: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkView:
    """The order of work as cards, and the unit its sizes are shown in.

    Parameters
    ----------
    both_units
        Whether the other unit stands beside it.
    findings
        What of the parts made no longer fits.
    names
        Lengths the piece file names, which can be measured: name, label, and as they are shown.
    """

    ok: bool
    units: str
    both_units: bool
    key: str
    steps: tuple[StepCard, ...]
    findings: tuple[FindingView, ...] = ()
    names: tuple[tuple[str, str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultView:
    """One thing wrong with what was asked; file, line and column as in :class:`~scantling.errors.Fault`.

    Parameters
    ----------
    place
        The field in words: the part or joint by its name, and what of it.
    found
        The value as a maker reads it: parts named in a sentence as words.
    """

    code: str
    field: str
    place: str
    message: str
    rule: str
    remedy: str
    value: str
    found: str
    file: str
    line: int
    column: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """The one body of every error."""

    ok: bool
    errors: tuple[FaultView, ...]
    status: int


_NAMES = frozenset({"key", "name", "root", "held_by", "drawing"})
"""Fields that come back as they were sent."""


def as_json(value: object) -> object:
    """A value as JSON takes it: fields in camel case, and for a block of a sheet the kind of it.

    Words are sent so that no line ends inside a size; what goes into a field to be changed, and what refuses
    it, stays as typed.

    Examples
    --------
    >>> as_json(Refusal(ok=False, errors=(), status=404))
    {'ok': False, 'errors': [], 'status': 404}
    """
    if value is None or type(value) in _PLAIN:
        return value
    if isinstance(value, str):
        return value.value if isinstance(value, Enum) else _sent(value)
    if isinstance(value, tuple):
        return _line(value) if set(map(type, value)) == _TEXTS else [as_json(item) for item in value]
    if isinstance(value, Enum):
        return value.value
    if is_dataclass(type(value)):
        return _block(value) if isinstance(value, _WORDED) else _fields(value)
    if isinstance(value, Mapping):
        return {str(key): as_json(item) for key, item in value.items()}
    if isinstance(value, list):
        return [as_json(item) for item in value]
    return value


def _fields(value: object) -> dict[str, object]:
    kind: type = type(value)
    typed = issubclass(kind, ParameterView | FaultView | RemedyView)
    named: dict[str, object] = {"kind": kind.__name__.lower()} if isinstance(value, Block) else {}
    for name, key in _keys(kind):
        told = getattr(value, name)
        kept = typed or (name in _NAMES and isinstance(told, str))
        named[key] = told if kept else as_json(told)
    return named


_PLAIN = (bool, float, int)
_WORDED = (Table, Facts, Words, Caution)
"""Blocks that are words and nothing else, and not long ones."""


@lru_cache(maxsize=512)
def _block(value: Table | Facts | Words | Caution) -> dict[str, object]:
    """A block as sent; most are as they were before a size was changed."""
    return _fields(value)


_TEXTS = {str}


@lru_cache(maxsize=8192)
def _line(texts: tuple[str, ...]) -> list[str]:
    """Texts as sent, such as a row of a block that did change."""
    return [_sent(text) for text in texts]


def _sent(text: str) -> str:
    return text if text.startswith("<svg") else unbroken(text)


@lru_cache(maxsize=256)
def _keys(kind: type) -> tuple[tuple[str, str], ...]:
    """The fields of a dataclass, each with its key."""
    return tuple((each.name, _camel(each.name)) for each in fields(kind))


def _camel(name: str) -> str:
    return re.sub(r"_([a-z])", lambda found: found[1].upper(), name)
