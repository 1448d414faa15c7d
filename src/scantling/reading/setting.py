"""One setting of a file as a maker sees it: what it is called, what holds, where its default comes from."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum, StrEnum
from types import NoneType
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from scantling.reading.documents import Path, Plain
from scantling.reading.fields import QuantityField
from scantling.reading.nodes import source_of
from scantling.reading.parsing import parse_on
from scantling.reading.putting import standing
from scantling.units import Dimension, LengthStyle, show_length, show_number

__all__ = [
    "Changed",
    "Setting",
    "SettingKind",
    "WrittenFile",
    "differing",
    "held_by",
    "is_setting",
    "section_in",
    "setting_of",
    "source_for",
]


_BARE = re.compile(r"[\d\s.,/+-]+")
"""Numbers without a unit, as they are written."""


class SettingKind(StrEnum):
    """How a setting is written."""

    QUANTITY = "quantity"
    NUMBER = "number"
    TEXT = "text"
    LIST = "list"
    CHOICE = "choice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One setting.

    Parameters
    ----------
    path
        Where it stands in the file, or would.
    about
        What it is, or where its default comes from.
    default
        As a maker writes it; empty where there is none.
    needed
        Whether it must be given.
    written
        As it stands in the file; None where the default holds.
    line
        Where it stands, from 1; 0 where it does not.
    choices
        What it may be, where that is a few words.
    unit
        Of a bare number; empty where it is none.
    """

    path: Path
    label: str
    about: str
    kind: SettingKind
    default: str
    needed: bool
    written: str | None
    line: int
    choices: tuple[str, ...] = ()
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """A setting that two files have otherwise.

    Parameters
    ----------
    label
        What it is called, with what it belongs to.
    then, now
        As written, or the default; empty where there is none.
    """

    label: str
    then: str
    now: str


def differing(then: Mapping[str, str], now: Mapping[str, str]) -> tuple[Changed, ...]:
    """What two files have otherwise, of what holds in each by its name; in their order.

    Examples
    --------
    >>> [change.label for change in differing({"Kerf": "3 mm", "Blade": "10 in"}, {"Kerf": "2 mm"})]
    ['Kerf', 'Blade']
    """
    return tuple(
        Changed(label=label, then=then.get(label, ""), now=now.get(label, ""))
        for label in dict.fromkeys([*then, *now])
        if then.get(label) != now.get(label)
    )


def held_by(setting: Setting) -> str:
    """What holds for a setting, a bare number with its unit."""
    value = setting.written if setting.written is not None else setting.default
    bare = setting.unit and _BARE.fullmatch(value)
    return f"{value} {setting.unit}" if bare else value


def section_in(annotation: Any) -> type[BaseModel] | None:
    """The section a field holds, alone or in a list or a mapping."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for inner in get_args(annotation) if (found := section_in(inner))), None)


def is_setting(info: FieldInfo) -> bool:
    """Whether a field is one value, or a few of a kind, and no section or mapping."""
    return section_in(info.annotation) is None and get_origin(info.annotation) is not dict


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenFile:
    """A file as it is written.

    Parameters
    ----------
    data
        What is read from it.
    standing
        What is written, by path; see :func:`scantling.reading.putting.standing`.
    inch
        Whether its lengths are inches where nothing else is said.
    """

    data: Plain
    standing: Mapping[Path, tuple[str, int]]
    inch: bool

    @classmethod
    def of(cls, text: str, *, file: str) -> WrittenFile:
        """A text that can be read; raises FileFaults."""
        data = parse_on(text, file=file).data
        units = data.get("units") if isinstance(data, dict) else None
        return cls(data=data, standing=standing(text), inch=units == "in")

    def at(self, path: Path) -> Any:
        """What stands at a path; None where nothing does."""
        found: Any = self.data
        for step in path:
            if isinstance(found, dict):
                found = found.get(str(step))
            elif isinstance(found, list) and isinstance(step, int) and step < len(found):
                found = found[step]
            else:
                return None
        return found

    def has(self, path: Path) -> bool:
        """Whether there is something at a path, be it nothing said."""
        above = self.at(path[:-1])
        return isinstance(above, dict) and path[-1] in above


def setting_of(
    name: str, info: FieldInfo, at: Path, *, file: WrittenFile, label: str, default: Any
) -> Setting:
    """A field of a section as a setting.

    Parameters
    ----------
    name, info
        The field.
    at
        Path of its section.
    file
        Where it may be written.
    default
        What holds if nothing is written; ``...`` where something must be.
    """
    key = info.alias or name
    path = (*at, name) if (*at, name) in file.standing else (*at, key)
    written, line = file.standing.get(path, (None, 0))
    return Setting(
        path=path,
        label=label,
        about=" ".join((info.description or "").split()).replace("``", ""),
        kind=_kind(info),
        default="" if default is ... else _shown(default, _quantity(info), inch=file.inch),
        needed=default is ...,
        written=written,
        line=line,
        choices=_choices(info.annotation),
        unit=_unit(_quantity(info), file.at(("units",))),
    )


def source_for(setting: Setting, typed: str) -> str:
    """What was typed for a setting, as it is written in a file."""
    if setting.kind is SettingKind.LIST:
        words = [word for word in typed.strip().strip("[]").split(",") if word.strip()]
        return f"[{', '.join(source_of(word) for word in words)}]"
    return source_of(typed, text=setting.kind is SettingKind.TEXT)


def _shown(value: Any, quantity: QuantityField | None, *, inch: bool) -> str:
    """A value as a maker writes it; empty for none."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, tuple):
        return ", ".join(_shown(one, quantity, inch=inch) for one in value)
    if isinstance(value, int | float):
        return _figure(float(value), quantity, inch=inch)
    return str(value)


def _figure(value: float, quantity: QuantityField | None, *, inch: bool) -> str:
    if quantity is None:
        return f"{value:.12g}"
    if quantity.dimension is Dimension.LENGTH:
        return show_length(value, LengthStyle(inch=True, denominator=64)) if inch else f"{value:.12g} mm"
    if quantity.dimension is Dimension.TEMPERATURE and inch:
        return f"{show_number(value * 1.8 + 32.0)} F"
    unit = {"deg": "°", "%": " %"}.get(quantity.unit, f" {quantity.unit}")
    return f"{value:.12g}{unit}"


def _unit(quantity: QuantityField | None, units: Any) -> str:
    """Unit of a bare number: a length's is the file's."""
    if quantity is None:
        return ""
    if quantity.dimension is Dimension.LENGTH:
        return str(units or quantity.unit)
    return {"deg": "°", "C": "°C"}.get(quantity.unit, quantity.unit)


def _kind(info: FieldInfo) -> SettingKind:
    if _choices(info.annotation):
        return SettingKind.CHOICE
    kinds = _plain_types(info.annotation)
    if tuple in kinds:
        return SettingKind.LIST
    if _quantity(info) is not None:
        return SettingKind.QUANTITY
    return SettingKind.NUMBER if kinds & {int, float} else SettingKind.TEXT


def _choices(annotation: Any) -> tuple[str, ...]:
    """Words of an enumeration, of a literal, of yes and no."""
    if annotation is bool:
        return ("true", "false")
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return tuple(str(one.value) for one in annotation)
    if get_origin(annotation) is Literal:
        return tuple(str(one) for one in get_args(annotation))
    if get_origin(annotation) is tuple:
        return ()
    return next((found for inner in get_args(annotation) if (found := _choices(inner))), ())


def _plain_types(annotation: Any) -> set[Any]:
    origin = get_origin(annotation)
    if origin is tuple:
        return {tuple}
    inner = [_plain_types(one) for one in get_args(annotation) if isinstance(one, type) or get_args(one)]
    return set().union(*inner) if inner else {annotation} - {NoneType}


def _quantity(info: FieldInfo) -> QuantityField | None:
    return next((mark for mark in info.metadata if isinstance(mark, QuantityField)), None) or _marked(
        info.annotation
    )


def _marked(annotation: Any) -> QuantityField | None:
    """The mark of a quantity anywhere in an annotation."""
    marks = getattr(annotation, "__metadata__", ())
    own = next((mark for mark in marks if isinstance(mark, QuantityField)), None)
    return own or next((found for one in get_args(annotation) if (found := _marked(one))), None)


def section_words(model: type[BaseModel]) -> str:
    """The first sentence about a section.

    Examples
    --------
    >>> from scantling.shop.profile.machines import Jointer
    >>> section_words(Jointer)
    'Jointer (surface planer): flattens a face, squares an edge.'
    """
    return re.split(r"(?<=\.)\s", " ".join((model.__doc__ or "").split()), maxsplit=1)[0]
