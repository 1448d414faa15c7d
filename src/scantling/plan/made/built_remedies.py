"""What makes a finding about the making go away: a parameter set to what is made, a measure taken back."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.errors import Remedy
from scantling.piece.built import SHOULDERS, AsBuilt
from scantling.piece.model import Piece

__all__ = ["BUILT_REMEDIED", "back_again", "fitting", "made_anew", "measures_of", "openings", "remade_for"]

BUILT_REMEDIED: dict[str, str] = {
    "M01": "Made too short or too long: the parameter that makes it fit; too short, its length taken back, "
    "for it is made anew",
    "M04": "A part done and an opening measured that cannot both be right: the opening taken back",
    "M05": "Measured of what the piece no longer has: the measure taken back",
    "M06": "Larger than its rough blank was: the measure taken back",
    "M07": "A joint that cannot be made with what is made: the measure taken back, where one size was "
    "measured of the parts it joins, for that part is made anew",
}
"""Findings about the making with a remedy that one key sets, and what it does."""
_SAID = {SHOULDERS: "length between the shoulders"}


def fitting(part: str, built: AsBuilt, units: str) -> tuple[Remedy, ...]:
    """Parameters set to what is made of a part, in ``mm`` or ``in``."""
    found = []
    for way in (each for each in built.ways if each.part == part):
        text = f"{way.value_mm / 25.4:.3f} in" if units == "in" else f"{way.value_mm:g} mm"
        words = f"Set {way.parameter.replace('_', ' ')} to {text}"
        found.append(Remedy(words=words, path=("parameters", way.parameter, "default"), text=text))
    return tuple(found)


def measures_of(part: str, size: str, built: AsBuilt) -> list[str]:
    """Under what names a size of a part was measured."""
    names = (f"{part}.{told}" for told in ((size, SHOULDERS) if size == "length" else (size,)))
    return [name for name in names if name in built.measured]


def openings(built: AsBuilt) -> tuple[Remedy, ...]:
    """Names that were measured themselves taken back."""
    return back_again(name.name for name in built.names if not name.because)


def remade_for(joint: str, piece: Piece, built: AsBuilt) -> tuple[Remedy, ...]:
    """The one part that was measured of those that an entry of joints joins, made anew."""
    own = [each for each in piece.joints if each.like == joint]
    parts = {side.part for each in own for side in (each.first, each.second)}
    return made_anew([name for name in built.measured if name.partition(".")[0] in parts])


def made_anew(measures: list[str]) -> tuple[Remedy, ...]:
    """A part made anew, so that what was measured of it no longer counts; none but for one measure."""
    if len(measures) != 1:
        return ()
    part, _, size = measures[0].partition(".")
    return (_back(measures[0], f"Make {part} anew: take back its {_SAID.get(size, size)} as measured"),)


def back_again(measures: Iterable[str]) -> tuple[Remedy, ...]:
    """Measures taken back, by the names they were told under."""
    found = []
    for name in measures:
        part, dot, size = name.partition(".")
        told = f"the {_SAID.get(size, size)} of {part}" if dot else part
        found.append(_back(name, f"Take back {told} as measured"))
    return tuple(found)


def _back(name: str, words: str) -> Remedy:
    return Remedy(words=words, path=("measured", *name.split(".")), text="")
