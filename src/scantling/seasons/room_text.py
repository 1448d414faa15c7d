"""A room's file changed as a form changes it: how its air is known, and each figure of it; comments stay."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from pydantic import BaseModel

from scantling.errors import FileFaults, InputError
from scantling.reading import Path, field_name, parse_document, parse_on
from scantling.reading.nodes import source_of
from scantling.reading.putting import put, standing, taken_out
from scantling.reading.setting import (
    Changed,
    Setting,
    WrittenFile,
    differing,
    held_by,
    is_setting,
    setting_of,
    source_for,
)
from scantling.seasons.air import Month
from scantling.seasons.places import find_place
from scantling.seasons.room import Room
from scantling.seasons.room_file import (
    AirFields,
    ClimateAir,
    HouseFields,
    MoistureAir,
    RangeAir,
    RoomFile,
    room_from_document,
    typical_rooms,
)

__all__ = [
    "AirKind",
    "RoomSection",
    "air_kind",
    "begin_room",
    "changes_of_room",
    "in_fahrenheit",
    "parse_room",
    "room_sections",
    "with_air",
    "with_figures",
]

_LABELS = {
    "about": "Where its figures come from",
    "gain": "Warmer than outdoors, kelvin",
    "volume": "Volume, cubic meters",
    "air_changes": "Air changes an hour",
    "window_air_changes": "Air changes an hour, windows open",
    "moisture": "Water given off, kg a day",
    "humidify_to": "A humidifier keeps at least",
    "dehumidify_to": "A dehumidifier keeps at most",
    "heating": "The heating keeps",
    "cooling": "The air conditioning keeps",
    "dry": "Driest wood",
    "wet": "Wettest wood",
    "place": "Town",
    "altitude": "Height above the sea",
    "units": "Unit of bare lengths",
    "room": "Name",
}
_TOLD = {"place", "altitude", "window_air_changes", "temperature", "humidity", "dry_month"}
"""Fields whose description says more than their label."""
_AIR: Path = ("air",)
_DEGREES = frozenset({"temperature", "heating", "cooling"})
"""Fields of a room that are temperatures."""


class AirKind(StrEnum):
    """How the air of a room is known."""

    RANGE = "range"
    MONTHS = "months"
    MOISTURE = "moisture"
    CLIMATE = "climate"
    LOG = "log"

    @property
    def words(self) -> str:
        """For a maker to choose by."""
        return {
            AirKind.RANGE: "A winter and a summer",
            AirKind.MONTHS: "Month by month",
            AirKind.MOISTURE: "A meter's reading in wood that stands there",
            AirKind.CLIMATE: "A town, and the house's heating and damp",
            AirKind.LOG: "A hygrometer's log",
        }[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomSection:
    """Figures that belong together."""

    label: str
    about: str
    settings: tuple[Setting, ...]


def parse_room(text: str, *, file: str = "room") -> Room:
    r"""The room a text describes.

    Raises
    ------
    FileFaults
        Every fault of the text; ``log_apart`` for a log, which is a file of its own.

    Examples
    --------
    >>> parse_room("room: Study\nair: {kind: moisture, dry: 6 %, wet: 10 %}").name
    'Study'
    """
    document = parse_document(text, file=file)
    if document.get((*_AIR, "kind")) == AirKind.LOG:
        fault = document.fault(
            (*_AIR, "file"),
            code="log_apart",
            rule="cannot be read for a room that is kept as a text: the log is a file of its own",
            remedy="Write the months it shows (air: {kind: months, ...}); "
            "scantling rooms ROOM.yaml tells them.",
        )
        raise FileFaults([fault])
    return room_from_document(document)


def begin_room(name: str) -> str:
    """The text of a room to begin with: a typical one's as it is, a town's as a house there.

    Raises
    ------
    InputError
        ``unknown_room``, ``unknown_place``.
    """
    slug = "-".join(name.casefold().split())
    if slug in typical_rooms():
        return typical_rooms()[slug]
    place = find_place(name)
    return f"room: House in {place.name}\nair:\n  kind: climate\n  place: {source_of(place.name)}\n"


def air_kind(text: str) -> AirKind:
    """How the air of a room that can be read is known."""
    found = parse_on(text, file="room").get((*_AIR, "kind"))
    return AirKind(str(found))


def in_fahrenheit(text: str) -> bool:
    r"""Whether a room's own temperatures are written in degrees Fahrenheit, any of them.

    Examples
    --------
    >>> in_fahrenheit("room: Living Front\nair: {kind: moisture, dry: 6 %, wet: 9 %, temperature: 20 C}\n")
    False
    >>> in_fahrenheit("room: Study\nair: {kind: moisture, dry: 6 %, wet: 9 %, temperature: 68 F}\n")
    True
    """
    return any(
        path[0] == "air" and path[-1] in _DEGREES and words.rstrip().endswith("F")
        for path, (words, _) in standing(text).items()
    )


def room_sections(text: str) -> tuple[RoomSection, ...]:
    """The figures of a room, as far as its kind has them.

    Raises
    ------
    FileFaults
        What keeps it from being read at all.
    """
    file = WrittenFile.of(text, file="room")
    kind = air_kind(text)
    head = RoomSection(label="", about="", settings=_leaves(file, RoomFile, (), but={"units", "air"}))
    return (head, *_air_sections(file, kind))


def _air_sections(file: WrittenFile, kind: AirKind) -> tuple[RoomSection, ...]:
    if kind is AirKind.RANGE:
        return (
            *(_air(file, (*_AIR, season), season.capitalize()) for season in ("winter", "summer")),
            RoomSection(label="", about="", settings=_leaves(file, RangeAir, _AIR, but={"kind"})),
        )
    if kind is AirKind.MONTHS:
        return tuple(_air(file, (*_AIR, "months", month.value), month.full_name) for month in Month)
    if kind is AirKind.MOISTURE:
        return (RoomSection(label="", about="", settings=_leaves(file, MoistureAir, _AIR, but={"kind"})),)
    if kind is AirKind.CLIMATE:
        outdoors = file.at((*_AIR, "outdoors"))
        months = (_air(file, (*_AIR, "outdoors", m.value), f"{m.full_name}, outdoors") for m in Month)
        return (
            RoomSection(label="", about="", settings=_leaves(file, ClimateAir, _AIR, but={"kind"})),
            RoomSection(
                label="The house",
                about="What it makes of the air it takes in.",
                settings=_leaves(file, HouseFields, (*_AIR, "house")),
            ),
            *(months if outdoors is not None else ()),
        )
    return ()


def _air(file: WrittenFile, at: Path, label: str) -> RoomSection:
    return RoomSection(label=label, about="", settings=_leaves(file, AirFields, at))


def _leaves(
    file: WrittenFile, model: type[BaseModel], at: Path, *, but: set[str] | None = None
) -> tuple[Setting, ...]:
    found = []
    for name, info in model.model_fields.items():
        if not is_setting(info) or name in (but or set()):
            continue
        default = ... if info.is_required() else info.get_default(call_default_factory=True)
        words = _LABELS.get(name, name.replace("_", " "))
        label = words[:1].upper() + words[1:]
        setting = setting_of(name, info, at, file=file, label=label, default=default)
        found.append(setting if name in _TOLD else replace(setting, about=""))
    return tuple(found)


def with_figures(text: str, changes: Mapping[Path, str]) -> str:
    r"""The room with figures written otherwise; nothing typed puts a default back.

    Raises
    ------
    InputError
        ``unknown_setting``, ``not_a_value``. Whether the figures will do is told by :func:`parse_room`.

    Examples
    --------
    >>> with_figures("room: Study\nair: {kind: moisture, dry: 6 %, wet: 10 %}", {("air", "wet"): "11 %"})
    'room: Study\nair: {kind: moisture, dry: 6 %, wet: 11 %}'
    """
    known = {one.path: one for section in room_sections(text) for one in section.settings}
    for path, typed in changes.items():
        setting = known.get(path)
        if setting is None:
            raise InputError(
                code="unknown_setting",
                field=field_name(path),
                value=field_name(path)[:80],
                rule="must be a figure of this room, the way its air is known",
                remedy="Look at the room as it is now.",
            )
        if typed.strip():
            text = put(text, path, source_for(setting, typed))
        elif setting.written is not None:
            text = taken_out(text, path)
    return text


def changes_of_room(then: str, now: str) -> tuple[Changed, ...]:
    """The figures two rooms have otherwise; raises FileFaults where either cannot be read."""
    return differing(_all_of(then), _all_of(now))


def _all_of(text: str) -> dict[str, str]:
    held = {"Air": air_kind(text).words}
    for section in room_sections(text):
        where = f"{section.label}: " if section.label else ""
        for one in section.settings:
            held[f"{where}{one.label.lower() if where else one.label}"] = held_by(one)
    return held


def with_air(text: str, kind: AirKind, *, place: str = "") -> str:
    """The room with its air known another way, beginning from the year it has.

    Parameters
    ----------
    kind
        How it is to be known. Its figures are those of the room as it was, rounded to a degree and a percent;
        a town and house begin from the house's defaults.
    place
        The town, for one.

    Raises
    ------
    FileFaults
        The room as it is cannot be read.
    InputError
        ``unknown_place``; ``not_a_value`` for a log.
    """
    room = parse_room(text)
    if kind is air_kind(text):
        return text
    lines = [f"kind: {kind.value}", *_carried(room, kind, place)]
    rest = taken_out(text, _AIR).rstrip("\n")
    return "\n".join([rest, "air:", *(f"  {line}" for line in lines), ""])


def _carried(room: Room, kind: AirKind, place: str) -> list[str]:
    """The figures of a room's year as another kind of file has them, line by line."""
    if kind is AirKind.CLIMATE:
        return [f"place: {source_of(find_place(place).name)}"]
    year = dict(zip(Month, room.year.months, strict=True))
    air = {
        m: f"{{temperature: {a.temperature_c:.0f} C, humidity: {100.0 * a.relative_humidity:.0f} %}}"
        for m, a in year.items()
    }
    if kind is AirKind.MONTHS:
        return ["months:", *(f"  {month.value}: {words}" for month, words in air.items())]
    if kind is AirKind.MOISTURE:
        dry, wet = min(room.year.emc_pct), max(room.year.emc_pct)
        return [f"dry: {dry:.1f} %", f"wet: {wet:.1f} %", f"dry_month: {room.driest.value}"]
    if kind is AirKind.RANGE:
        return [
            f"winter: {air[room.driest]}",
            f"summer: {air[room.wettest]}",
            f"winter_month: {room.driest.value}",
        ]
    raise InputError(
        code="log_apart",
        field="air.kind",
        value=kind.value,
        rule="cannot be typed: a log is a file of its own",
        remedy="Write the months it shows.",
    )
