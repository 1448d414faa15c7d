"""Room files, and the typical rooms that come with the program."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, model_validator

from scantling.errors import FileFaults, InputError
from scantling.reading import (
    Document,
    FileModel,
    LengthMm,
    Percent,
    TemperatureC,
    custom_error,
    faults_for,
    parse_document,
    read_on,
    validate,
)
from scantling.seasons.air import Air, AirYear, Month, year_between
from scantling.seasons.hygrometer import read_log
from scantling.seasons.indoors import House, indoor_year
from scantling.seasons.places import SOURCE as PLACES_SOURCE
from scantling.seasons.places import find_place
from scantling.seasons.room import Room
from scantling.wood.moisture import relative_humidity_for_emc

__all__ = ["RoomFile", "find_room", "known_room", "read_room", "room_from_document", "typical_rooms"]


def _humidity(value: float) -> float:
    if not 1.0 <= value <= 100.0:
        raise InputError(
            code="humidity_out_of_range",
            field="humidity",
            value=f"{value:g} %",
            rule="must lie in 1..100 %",
            remedy=f"Write {value * 100:g} %, not {value:g}."
            if 0.0 < value < 1.0
            else "Air holds at most 100 %.",
        )
    return value


def _temperature(value: float) -> float:
    Air(temperature_c=value, relative_humidity=0.5)
    return value


def _moisture(value: float) -> float:
    if not 2.0 <= value <= 25.0:
        raise InputError(
            code="mc_out_of_range",
            field="moisture",
            value=f"{value:g} %",
            rule="must lie in 2..25 %",
            remedy=f"Write {value * 100:g} %." if 0.0 < value < 0.25 else "No room holds wood outside that.",
        )
    return value


Humidity = Annotated[Percent, AfterValidator(_humidity)]
Temperature = Annotated[TemperatureC, AfterValidator(_temperature)]
Moisture = Annotated[Percent, AfterValidator(_moisture)]


class AirFields(FileModel):
    """Temperature and humidity."""

    temperature: Temperature = Field(description="Air temperature, such as 20 C or 68 F.")
    humidity: Humidity = Field(description="Relative humidity, such as 45 %.")

    def air(self) -> Air:
        """The air. Percent becomes a share of 1."""
        return Air(temperature_c=self.temperature, relative_humidity=self.humidity / 100.0)


class MonthsFields(FileModel):
    """Twelve months of air."""

    jan: AirFields
    feb: AirFields
    mar: AirFields
    apr: AirFields
    may: AirFields
    jun: AirFields
    jul: AirFields
    aug: AirFields
    sep: AirFields
    oct: AirFields
    nov: AirFields
    dec: AirFields

    def year(self) -> AirYear:
        """The months in order."""
        named: list[AirFields] = [getattr(self, month.value) for month in Month]
        return AirYear(months=tuple(fields.air() for fields in named))


class RangeAir(FileModel):
    """A winter and a summer, as measured or expected; the months between swing smoothly."""

    kind: Literal["range"]
    winter: AirFields
    summer: AirFields
    winter_month: Month = Field(default=Month.JAN, description="Month of the winter extreme.")

    def year(self) -> AirYear:
        """The year."""
        return year_between(self.winter.air(), self.summer.air(), winter_month=self.winter_month)


class MoistureAir(FileModel):
    """Driest and wettest moisture content, as a meter reads in furniture that stands there."""

    kind: Literal["moisture"]
    dry: Moisture
    wet: Moisture
    temperature: Temperature = Field(default=20.0, description="Temperature of the room all year.")
    dry_month: Month = Field(default=Month.JAN, description="Month in which wood is driest.")

    def year(self) -> AirYear:
        """The year."""
        dry, wet = (
            Air(
                temperature_c=self.temperature,
                relative_humidity=relative_humidity_for_emc(self.temperature, moisture),
            )
            for moisture in (self.dry, self.wet)
        )
        return year_between(dry, wet, winter_month=self.dry_month)


class MonthsAir(FileModel):
    """Indoor air month by month, as a hygrometer showed it."""

    kind: Literal["months"]
    months: MonthsFields

    def year(self) -> AirYear:
        """The year."""
        return self.months.year()


class HouseFields(FileModel):
    """Heating, ventilation and moisture of the house."""

    heating: Temperature = Field(default=20.0, description="Temperature the heating keeps.")
    cooling: Temperature | None = Field(default=None, description="Temperature the air conditioning keeps.")
    gain: float = Field(default=2.0, ge=0, le=15, description="Kelvin warmer than outdoors, unheated.")
    volume: float = Field(default=250.0, gt=0, le=100_000, description="Volume of air in cubic meters.")
    air_changes: float = Field(default=0.5, gt=0, le=20, description="Volumes of fresh air an hour.")
    window_air_changes: float = Field(
        default=3.0, gt=0, le=50, description="The same in months neither heated nor cooled, windows open."
    )
    moisture: float = Field(default=8.0, ge=0, le=200, description="Kilograms of water given off a day.")
    humidify_to: Humidity | None = Field(default=None, description="Humidity a humidifier keeps at least.")
    dehumidify_to: Humidity | None = Field(default=None, description="Humidity a dehumidifier keeps at most.")

    def house(self, altitude_mm: float) -> House:
        """The house, at an altitude."""
        return House(
            heating_c=self.heating,
            cooling_c=self.cooling,
            gain_k=self.gain,
            volume_m3=self.volume,
            air_changes_per_h=self.air_changes,
            window_air_changes_per_h=self.window_air_changes,
            moisture_kg_per_day=self.moisture,
            humidify_to=None if self.humidify_to is None else self.humidify_to / 100.0,
            dehumidify_to=None if self.dehumidify_to is None else self.dehumidify_to / 100.0,
            altitude_m=altitude_mm / 1000.0,
        )


class ClimateAir(FileModel):
    """The climate outdoors, by place or month by month, and what the house makes of it."""

    kind: Literal["climate"]
    place: str = Field(default="", max_length=80, description="A town of the table, such as Denver, CO.")
    outdoors: MonthsFields | None = Field(default=None, description="Or the air outdoors, month by month.")
    house: HouseFields = Field(default_factory=HouseFields)
    altitude: LengthMm | None = Field(
        default=None,
        ge=-500_000,
        le=6_000_000,
        description="Height above the sea; the place's own without it.",
    )

    @model_validator(mode="after")
    def _one_climate(self) -> ClimateAir:
        if bool(self.place) == (self.outdoors is not None):
            raise custom_error(
                code="one_of_two",
                rule="must have either place or outdoors",
                remedy="Name a town of the table, or give the air outdoors month by month.",
            )
        if self.place:
            find_place(self.place)
        return self

    def year(self) -> AirYear:
        """The year indoors."""
        altitude_mm = self.altitude
        if self.outdoors is None:
            place = find_place(self.place)
            outdoors = place.outdoors
            altitude_mm = place.altitude_m * 1000.0 if altitude_mm is None else altitude_mm
        else:
            outdoors = self.outdoors.year()
        return indoor_year(outdoors, self.house.house(altitude_mm or 0.0))


class LogAir(FileModel):
    """A log from a hygrometer, in a file of its own beside the room file."""

    kind: Literal["log"]
    file: str = Field(
        pattern=r"^[^/\\:]+\.csv$", max_length=120, description="Name of the CSV file, in the same folder."
    )


class RoomFile(FileModel):
    """A room file."""

    room: str = Field(min_length=1, max_length=80, description="What the room is called.")
    about: str = Field(default="", max_length=600, description="Where the figures come from.")
    units: Literal["mm", "cm", "in"] = Field(default="mm", description="Unit of lengths given without one.")
    air: RangeAir | MoistureAir | MonthsAir | ClimateAir | LogAir = Field(discriminator="kind")


def room_from_document(document: Document) -> Room:
    """The room of a document.

    Raises
    ------
    FileFaults
        Every fault of the document at once.
    """
    fields = validate(document, RoomFile)
    if not isinstance(fields.air, LogAir):
        return Room(name=fields.room, about=fields.about, year=fields.air.year())
    try:
        log = read_log(Path(document.file).parent / fields.air.file)
        year, repairs = log.year()
    except InputError as error:
        raise FileFaults(faults_for(document, ("air", "file"), error)) from error
    return Room(name=fields.room, about=fields.about, year=year, notes=(*log.notes, *repairs))


def read_room(path: str | Path) -> Room:
    """Read a room file.

    Parameters
    ----------
    path
        A YAML file: ``room``, ``about`` and ``air`` of kind ``range``, ``moisture``, ``months``,
        ``climate`` or ``log``. See ``docs/seasons-in-detail.md``.

    Raises
    ------
    FileFaults
        Every fault of the file at once, each with its line.
    """
    return room_from_document(read_on(path))


@cache
def typical_rooms() -> dict[str, str]:
    """The typical rooms that come with the program: name and content of the file."""
    folder = files("scantling.seasons") / "data" / "rooms"
    found = {
        entry.name.removesuffix(".yaml"): entry.read_text(encoding="utf-8")
        for entry in folder.iterdir()
        if entry.name.endswith(".yaml")
    }
    return dict(sorted(found.items()))


def find_room(name: str) -> Room:
    """A room by the path of its file, by the name of a typical room, or by a town; see :func:`known_room`.

    Raises
    ------
    FileFaults
        What is wrong in the file.
    InputError
        ``unknown_room``, naming the typical ones.

    Examples
    --------
    >>> find_room("dry-winter house").name
    'House with dry winters'
    """
    if _slug(name) not in typical_rooms() and (
        name.casefold().endswith((".yaml", ".yml")) or _is_there(name)
    ):
        return read_room(name)
    return known_room(name)


def _slug(name: str) -> str:
    return "-".join(name.casefold().replace("_", "-").replace(" ", "-").split())


def _is_there(name: str) -> bool:
    try:
        return Path(name).exists()
    except (OSError, ValueError):  # longer than any file's name, or with a character none has
        return False


def known_room(name: str) -> Room:
    """A room by the name of a typical room, or by a town; whatever it is called, no file is looked for.

    A town stands for a heated house there without air conditioning, see
    :class:`~scantling.seasons.indoors.House`.

    Raises
    ------
    InputError
        ``unknown_room``, naming the typical ones.

    Examples
    --------
    >>> known_room("Denver").name
    'Heated house in Denver, CO'
    """
    slug = _slug(name)
    text = typical_rooms().get(slug)
    if text is not None:
        return room_from_document(parse_document(text, file=f"{slug}.yaml"))
    try:
        place = find_place(name)
    except InputError as error:
        raise InputError(
            code="unknown_room",
            field="room",
            value=name[:80],
            rule="must be a room file (.yaml), a typical room or a town of the table",
            remedy=f"{error.hint} Typical rooms: {', '.join(typical_rooms())}.",
        ) from error
    house = House(altitude_m=place.altitude_m)
    return Room(
        name=f"Heated house in {place.name}", about=PLACES_SOURCE, year=indoor_year(place.outdoors, house)
    )
