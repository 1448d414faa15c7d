"""Woods of a piece of which a figure is not published that no plan can do without."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from scantling.errors import Fault, InputError
from scantling.joinery.travel import width_coefficient
from scantling.piece.model import Part, PartKind, Piece
from scantling.wood.density import basic_specific_gravity
from scantling.wood.species import Species, all_species, find_species

__all__ = ["unpublished"]

_KIN = 3
"""Woods of the same genus that a remedy names at most. [1]"""

_Want = tuple[str, str, str]
"""Code, wood and rule of a fault."""


def unpublished(piece: Piece, faults: Sequence[Fault]) -> list[Fault]:
    """The faults of a piece, those for want of a published figure told once for each wood.

    Everything is weighed, dried and lives through a year: without a specific gravity, or a movement across
    its width, nothing of the plan can be told. One fault a figure stands where the first part of the wood
    does, and says how many parts and joints need it.

    Parameters
    ----------
    piece
        The resolved piece.
    faults
        What else is wrong with it; those of joints that want the movement of a wood are gathered too.
    """
    parts: dict[_Want, list[Part]] = {}
    for part in piece.parts.values():
        for want in _wants(part):
            parts.setdefault(want, []).append(part)
    joints: dict[_Want, int] = {}
    others: list[Fault] = []
    for fault in faults:
        want = (fault.code, fault.value, fault.rule)
        if fault.code == "movement_unknown":
            joints[want] = joints.get(want, 0) + 1
        else:
            others.append(fault)
    gathered = dict.fromkeys((*parts, *joints))
    return others + [_told(piece, want, len(parts.get(want, ())), joints.get(want, 0)) for want in gathered]


def _gravity(part: Part) -> float:
    return basic_specific_gravity(find_species(part.species))


_NEEDED: tuple[Callable[[Part], float], ...] = (_gravity, width_coefficient)


def _wants(part: Part) -> list[_Want]:
    """What is not published of a part's wood and needed of every part."""
    wants: list[_Want] = []
    if part.kind is PartKind.SHEET:
        return wants
    for needed in _NEEDED:
        try:
            needed(part)
        except InputError as error:
            wants.append((error.fault.code, error.fault.value, error.fault.rule))
    return wants


def _told(piece: Piece, want: _Want, parts: int, joints: int) -> Fault:
    code, value, rule = want
    of_wood = [part for part in piece.parts.values() if part.species == value]
    places = {part.like: piece.places.get(f"parts.{part.like}") for part in of_wood}
    placed = {like: place for like, place in places.items() if place is not None}
    first = min(placed, key=lambda like: (placed[like].line, placed[like].column), default="")
    counts = ((parts, "part"), (joints, "joint"))
    needed = " and ".join(f"{many} {one}{'s' if many > 1 else ''}" for many, one in counts if many)
    verb = "need" if parts + joints > 1 else "needs"
    fault = Fault(
        code=code,
        field=f"parts.{first}.species" if first else "species",
        value=value,
        rule=f"{rule}, which {needed} {verb}",
        remedy=_remedy(find_species(value), code, rule, of_wood),
    )
    place = placed.get(first)
    return fault if place is None else replace(fault, file=place.file, line=place.line, column=place.column)


def _remedy(wood: Species, code: str, rule: str, of_wood: Sequence[Part]) -> str:
    kin = ", ".join(_kin(wood, of_wood)[:_KIN])
    movement = "radial_pct" if "radial" in rule else "tangential_pct"
    figure = movement if code == "movement_unknown" else "specific_gravity_12"
    other = f"Choose another wood (of its genus: {kin})" if kin else "Choose another wood"
    return f"{other}, or give its {figure} in a file of your own woods, named with --woods at the start."


def _kin(wood: Species, of_wood: Sequence[Part]) -> list[str]:
    """Woods of the same genus of which the parts want nothing, the best known first."""
    genus = wood.botanical.partition(" ")[0]
    same = [
        other
        for other in sorted(all_species(), key=lambda one: -len(one.sources))
        if genus and other.name != wood.name and other.botanical.partition(" ")[0] == genus
    ]
    return [one.name for one in same if not any(_wants(replace(part, species=one.name)) for part in of_wood)]
