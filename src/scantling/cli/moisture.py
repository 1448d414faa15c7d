"""Small direct questions of moisture: what air holds wood at, and how far a width moves."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator, Mapping
from contextlib import contextmanager

from scantling.errors import FileFaults, InputError, Telling
from scantling.units import Dimension, LengthStyle, parse_length_mm, parse_quantity, show_length, show_number

__all__ = ["emc", "move"]

_EQUATION = (
    "Hailwood and Horrobin's equation with the coefficients of the Wood Handbook, FPL-GTR-190, eq. 4-5"
)


@contextmanager
def _as_written(written: Mapping[str, tuple[str, str]]) -> Iterator[None]:
    """Tell what is wrong with an option by its own name and as it was written.

    Parameters
    ----------
    written
        By the name the computation has for it: the option's name, and its text.
    """
    try:
        yield
    except InputError as error:
        if error.field not in written:
            raise
        name, text = written[error.field]
        fault = error.fault
        raise InputError(
            code=fault.code, field=name, value=text, rule=fault.rule, remedy=fault.remedy
        ) from error


def _temperature(text: str) -> float:
    """A temperature the equation holds for. [degC]"""
    from scantling.wood.moisture import emc_pct

    temperature = parse_quantity(text, Dimension.TEMPERATURE, field="temperature")
    with _as_written({"temperature_c": ("temperature", text)}):
        emc_pct(temperature, 0.5)
    return temperature


def _humidity(text: str) -> float:
    """A relative humidity. [%]"""
    humidity = parse_quantity(text, Dimension.PERCENT, default_unit="%", field="humidity")
    if not 1.0 <= humidity <= 100.0:
        raise InputError(
            code="not_a_humidity",
            field="humidity",
            value=text,
            rule="must lie in 1..100 %",
            remedy=f"Write {show_number(humidity * 100.0)} % for a relative humidity of {humidity:g}."
            if 0.0 < humidity < 1.0
            else "Air holds at most 100 %; a hygrometer shows the figure to give.",
        )
    return humidity


def _held(text: str) -> float:
    """A moisture content that some air may hold. [%]"""
    content = parse_quantity(text, Dimension.PERCENT, default_unit="%", field="moisture")
    if 0.0 < content < 1.0:
        raise InputError(
            code="mc_out_of_range",
            field="moisture",
            value=text,
            rule="must be 1 % or more",
            remedy=f"Moisture content is in percent: write {content * 100:g}, not {content:g}.",
        )
    return content


def _asked(options: argparse.Namespace) -> float:
    """The humidity asked about, or the moisture. [%]"""
    if (options.humidity is None) == (options.moisture is None):
        raise InputError(
            code="one_of_two",
            field="humidity",
            value="neither" if options.humidity is None else "both",
            rule="must be given, or --moisture instead of it",
            remedy="Write scantling emc '20 C' '45 %', or scantling emc '20 C' --moisture '8 %'.",
        )
    return _humidity(options.humidity) if options.moisture is None else _held(options.moisture)


def emc(options: argparse.Namespace) -> int:
    """Print the moisture content wood settles at in air, or the humidity that holds it at one."""
    from scantling.wood.moisture import emc_pct, relative_humidity_for_emc

    telling = Telling()
    temperature = telling.tried(lambda: _temperature(options.temperature))
    asked = telling.tried(lambda: _asked(options))
    if temperature is None or asked is None:
        raise FileFaults(telling.faults)
    if options.moisture is None:
        humidity, content = asked, emc_pct(temperature, asked / 100.0)
    else:
        with _as_written({"mc_pct": ("moisture", options.moisture)}):
            humidity, content = 100.0 * relative_humidity_for_emc(temperature, asked), asked
    if options.json:
        air = {"temperature_c": temperature, "relative_humidity": humidity / 100.0}
        print(json.dumps({**air, "emc_pct": content}, indent=1))
        return 0
    fahrenheit = options.temperature.strip().casefold().endswith("f")
    degrees = temperature * 1.8 + 32.0 if fahrenheit else temperature
    shown = f"{show_number(degrees, digits=1)} °{'F' if fahrenheit else 'C'}"
    if options.moisture is None:
        print(f"{content:.1f} % at {shown} and {show_number(humidity)} % humidity")
    else:
        print(f"{humidity:.0f} % humidity holds wood at {show_number(content)} % at {shown}")
    print(f"  {_EQUATION}")
    return 0


def _ring_angle(text: str) -> tuple[float, str]:
    """Angle between width and rings [deg], and what to call it."""
    from scantling.wood.ring import RING_NAMES, ring_at

    if text in RING_NAMES:
        return RING_NAMES[text].ring_angle_deg, f"{text}-sawn"
    angle = parse_quantity(text, Dimension.ANGLE, default_unit="deg", field="rings")
    return ring_at(angle, written=text).ring_angle_deg, f"rings at {show_number(angle)}° to the face"


def _width(text: str) -> float:
    """A width. [mm]"""
    from scantling.wood.movement import check_width

    width = parse_length_mm(text, field="width")
    with _as_written({"width": ("width", text)}):
        check_width("width", width)
    return width


def _moisture(name: str, text: str) -> float:
    """A moisture content at which wood moves. [%]"""
    from scantling.wood.movement import check_moisture

    moisture = parse_quantity(text, Dimension.PERCENT, default_unit="%", field=name)
    with _as_written({name: (name, text)}):
        check_moisture(name, moisture)
    return moisture


def move(options: argparse.Namespace) -> int:
    """Print how far a width moves."""
    from scantling.wood.movement import SPREAD_SHARE, MovementMethod, movement
    from scantling.wood.species import find_species

    telling = Telling()
    species = telling.tried(lambda: find_species(options.wood))
    width = telling.tried(lambda: _width(options.width))
    start = telling.tried(lambda: _moisture("from", options.start))
    end = telling.tried(lambda: _moisture("to", options.end))
    turned = telling.tried(lambda: _ring_angle(options.rings))
    if species is None or width is None or start is None or end is None or turned is None:
        raise FileFaults(telling.faults)
    angle, rings = turned
    moved = movement(width, species=species, ring_angle_deg=angle, mc_from_pct=start, mc_to_pct=end)
    if options.json:
        answer = {
            "species": species.name,
            "width_mm": width,
            "ring_angle_deg": angle,
            "change_mm": moved.change_mm,
            "low_mm": moved.low_mm,
            "high_mm": moved.high_mm,
            "method": moved.method.value,
            "note": moved.note,
        }
        print(json.dumps(answer, indent=1))
        return 0
    inch, mm = LengthStyle(inch=True, denominator=64), LengthStyle(step_mm=0.1)
    sizes = f"{species.name}, {rings}, {show_length(width, mm)} ({show_length(width, inch)})"
    if moved.change_mm == 0.0:
        print(f"{sizes}: as wide as before")
        return 0
    word = "wider" if moved.change_mm > 0 else "narrower"
    print(
        f"{sizes}: {show_length(abs(moved.change_mm), mm)} "
        f"({show_length(abs(moved.change_mm), inch)}) {word}; between {show_length(abs(moved.low_mm), mm)} "
        f"and {show_length(abs(moved.high_mm), mm)}"
    )
    linear, full = MovementMethod.LINEAR, MovementMethod.FULL_SHRINKAGE
    other = full if moved.method is linear else linear
    print(
        f"  the band is the spread of the species, {SPREAD_SHARE:.0%} either way, about this and about "
        f"{show_length(abs(moved.other_mm), mm)} by {other.value}"
    )
    print(
        f"  by {moved.method.value}; Wood Handbook, FPL-GTR-190, ch. 13"
        + (f"; {moved.note}" if moved.note else "")
    )
    return 0
