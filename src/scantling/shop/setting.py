"""One setting of a shop profile as a maker sees it: name, what holds, where its default comes from."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum, StrEnum
from types import NoneType
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from scantling.reading import Path, QuantityField
from scantling.units import Dimension, LengthStyle, show_length, show_number

__all__ = [
    "Setting",
    "SettingKind",
    "is_setting",
    "label_of_field",
    "section_in",
    "setting_of",
]

_LABELS = {
    "glue": "Usual glue",
    "finish": "Usual finish",
    "units": "Unit of bare lengths",
    "names": "Thicknesses bought",
    "milled_in": "Month of milling",
    "wood": "Moisture measured in the wood",
    "reads_to": "Reads to",
    "jointer.cut": "Depth of one pass",
    "planer.cut": "Depth of one pass",
    "layout.price": "A unit of money for boards",
    "layout.waste": "A square meter wasted",
    "layout.cut": "Each cut",
    "layout.offcut": "A square meter of the largest offcut",
    "layout.looks": "A unit of a wish",
    "depth_square": "Depth of cut at square",
    "depth_tilted": "Depth of cut tilted",
    "min_rip": "Narrowest rip",
    "stacked_cutter": "Widest stacked cutter",
    "max_width": "Takes a width of",
    "max_height": "Takes a height of",
    "min_length": "Shortest part",
    "min_thickness": "Thinnest part",
    "tilts": "Its table tilts",
    "track": "Length of track",
    "resaw": "Takes a height of",
    "cleanup": "Planed off a sawn face",
    "centers": "Between centers",
    "max_depth": "Deepest cut",
    "max_lift": "Lifts at most",
    "people.count": "How many work here",
    "open": "Open time",
    "working": "Working time",
    "glues.clamp": "Time in clamps",
    "cure": "Time to cure",
    "spacing_most": "Clamps apart, at most",
    "end_distance": "First clamp from the end",
    "open_share": "Share of the working time used",
    "spread_s_per_m": "Spreading, seconds a meter",
    "spread_joint_s": "Spreading a joint, seconds at least",
    "place_s": "Placing a part, seconds",
    "clamp_s": "Setting a clamp, seconds",
    "helped_share": "Share of that time with help",
    "glue_spare": "Glue mixed for each part used",
    "clamping.margin": "Screw travel left",
    "spread_g_m2": "Spread, g per m²",
    "first_l_m2": "First coat, L per m²",
    "next_l_m2": "Next coats, L per m²",
    "minutes_per_m2": "Minutes a square meter",
    "m2_per_sheet": "Square meters a sheet does",
    "recoat_h": "Next coat after, hours",
    "light_use_h": "Light use after, hours",
    "full_cure_h": "Cured after, hours",
    "price_per_l": "Price a liter",
    "price_per_sheet": "Price a sheet",
    "per_board_foot": "A board foot",
    "per_m3": "A cubic meter",
    "per_m2": "A square meter",
    "hourly": "An hour of work",
    "overhead_hourly": "Overhead on an hour",
    "timber_markup": "Added to timber",
    "hardware_markup": "Added to hardware",
    "glue_per": "Glue, a kilogram",
    "finish_per_l": "Finish, a liter",
    "abrasive_per_sheet": "Abrasive, a sheet",
    "strip_least": "Narrowest strip of a panel",
    "strip_most": "Widest strip of a panel",
    "system": "Row of thicknesses",
    "bought_as": "Boards come",
    "end_trim": "At each end",
    "face": "Off the first face",
    "plane": "Off the second face",
    "settle": "While it rests",
    "thicker": "Thicker boards planed down, at most",
    "skim": "Off a surfaced face",
    "edge": "Off the first edge",
    "rip_clean": "Off the second edge",
    "surface": "Scraped and sanded off",
    "panel_reflatten": "Off the faces of a panel",
    "panel_trim_width": "Off the edges of a panel",
    "panel_trim_end": "Off each end of a panel",
    "seam_edge": "Off each edge of a strip",
    "lamination_reflatten": "Off the faces of a lamination",
    "lamination_slip": "Extra width of a lamination",
    "flush_cut": "Left where ends are cut flush",
    "round": "Extra for a round part",
    "sheet_edge": "Off the edges of a sheet",
    "sheet": "Extra on a sheet part",
    "run_out": "Free before and behind machines",
    "climate.driest": "Driest of its year",
    "climate.wettest": "Most humid of its year",
    "accuracy.mark": "A mark",
}


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


def section_in(annotation: Any) -> type[BaseModel] | None:
    """The section a field holds, alone or in a list or a mapping."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for inner in get_args(annotation) if (found := section_in(inner))), None)


def is_setting(info: FieldInfo) -> bool:
    """Whether a field is one value, or a few of a kind, and no section or mapping."""
    return section_in(info.annotation) is None and get_origin(info.annotation) is not dict


def setting_of(
    name: str,
    info: FieldInfo,
    at: Path,
    *,
    standing: Mapping[Path, tuple[str, int]],
    default: Any,
    inch: bool,
) -> Setting:
    """A field of a section as a setting.

    Parameters
    ----------
    name, info
        The field.
    at
        Path of its section.
    standing
        What is written in the file, see :func:`scantling.reading.putting.standing`.
    default
        What holds if nothing is written; ``...`` where something must be.
    inch
        Whether lengths are shown in inches.
    """
    key = info.alias or name
    path = (*at, name) if (*at, name) in standing else (*at, key)
    written, line = standing.get(path, (None, 0))
    section = str(at[-1]) if at and isinstance(at[-1], str) else str(at[-2]) if len(at) > 1 else ""
    return Setting(
        path=path,
        label=label_of_field(key, section),
        about=" ".join((info.description or "").split()).replace("``", ""),
        kind=_kind(info),
        default="" if default is ... else _shown(default, _quantity(info), inch=inch),
        needed=default is ...,
        written=written,
        line=line,
        choices=_choices(info.annotation),
    )


def label_of_field(key: str, section: str = "") -> str:
    """What a field is called.

    Examples
    --------
    >>> label_of_field("bed_length"), label_of_field("recoat_h"), label_of_field("cut", "layout")
    ('Bed length', 'Next coat after, hours', 'Each cut')
    """
    for known in (f"{section}.{key}", key):
        if known in _LABELS:
            return _LABELS[known]
    words = key.replace("_", " ").strip()
    return words[:1].upper() + words[1:]


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
    >>> from scantling.shop.machines import Jointer
    >>> section_words(Jointer)
    'Jointer (surface planer): flattens a face, squares an edge.'
    """
    return re.split(r"(?<=\.)\s", " ".join((model.__doc__ or "").split()), maxsplit=1)[0]
