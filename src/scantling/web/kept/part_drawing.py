"""A new part drawn before it is kept: its slots filled, its entry written into the file, its faults told."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar

from scantling.checks.offers import Meets, unjoined
from scantling.errors import Fault, FileFaults, InputError, ScantlingError
from scantling.joinery import lengths_in
from scantling.papers.words.naming import knowing, label_of, listed
from scantling.piece.adding import (
    Asked,
    Filled,
    Slot,
    WrittenPlaces,
    filled_up,
    part_name,
    size_fault,
    spare_name,
    usual_wood,
)
from scantling.piece.contact import contacts
from scantling.piece.convex import body_of
from scantling.piece.model import Piece
from scantling.reading import field_name, parse_on
from scantling.reading.editing import added_entry
from scantling.store.content import Content
from scantling.units import show_length
from scantling.web.designs.designing import Shape
from scantling.web.kept.desk import Desk
from scantling.web.sent.bodies import FaultBody
from scantling.web.sent.part_bodies import ChoiceBody, PartNew, PartTried, SlotBody
from scantling.web.sent.refusing import faults_of

__all__ = ["Drawn", "drawn_part", "places_of", "tried_part"]

Answer = TypeVar("Answer")
_OF_PARTS = frozenset({"part", "other"})
"""Slots whose choices are parts."""
_ENDS = frozenset({"start", "end"})
_WHOLE = 0.98
"""Share of an end from which on it counts as lying whole on a part: faces of a splay leave slivers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A new part in its piece.

    Parameters
    ----------
    name, species
        As they are written.
    filled
        Its slots and its entry; None where what was chosen is not there.
    results
        What each length comes to, by its slot.
    content
        The piece with it, as far as it could be written.
    shape
        The piece drawn with it; None where there are faults.
    faults
        Each at its slot.
    """

    name: str
    species: str
    filled: Filled | None
    content: Content
    shape: Shape | None
    faults: tuple[Fault, ...]
    results: Mapping[str, str] = field(default_factory=dict)


def places_of(content: Content, piece: Piece) -> WrittenPlaces:
    """Where the parts of a piece lie, in the words of its file."""
    length_of = lengths_in(content.piece, given=content.given)
    return WrittenPlaces(parse_on(content.piece, file="piece.yaml"), piece, length_of=length_of)


def drawn_part(desk: Desk, content: Content, new: PartNew) -> Drawn:
    """A new part drawn in a piece.

    Parameters
    ----------
    desk
        Draws it.
    content
        The piece it is to be a part of; raises FileFaults where that cannot be drawn.
    new
        What is said of the part.
    """
    piece = desk.session(content).shape({}).piece
    taken = {*piece.parts, *(part.like for part in piece.parts.values())}
    faults: list[Fault] = []
    name = spare_name(f"new_{new.kind.value}", taken=taken)
    if new.name.strip():
        name = _tried(lambda: part_name(new.name, taken=taken), faults) or name
    species = new.species.strip() or usual_wood(piece, at=new.at, kind=new.kind)
    asked = Asked(kind=new.kind, species=species, way=new.way, at=new.at, typed=new.typed)
    filled = _tried(lambda: filled_up(asked, piece, places_of(content, piece)), faults)
    if filled is None:
        return Drawn(
            name=name, species=species, filled=None, content=content, shape=None, faults=tuple(faults)
        )
    results = _results(content, filled, piece, faults)
    fresh, shape = content, None
    try:
        text = added_entry(content.piece, ("parts",), name, filled.entry)
        fresh = replace(content, piece=text)
        shape = desk.session(fresh).shape({})
    except ScantlingError as error:
        known = {fault.field for fault in faults}
        placed = (_placed(fault, name, filled) for fault in faults_of(error))
        faults += [fault for fault in placed if not fault.field or fault.field not in known]
    return Drawn(
        name=name,
        species=species,
        filled=filled,
        content=fresh,
        shape=None if faults else shape,
        faults=tuple(dict.fromkeys(faults)),
        results=results,
    )


def tried_part(desk: Desk, content: Content, new: PartNew) -> PartTried:
    """A new part as the page shows it before it is kept; raises as :func:`drawn_part`."""
    drawn = drawn_part(desk, content, new)
    piece = desk.session(content).shape({}).piece
    filled = drawn.filled
    with knowing(piece.parts):
        slots = [] if filled is None else [_slot(slot, drawn.results) for slot in filled.slots]
    lines = [] if filled is None else [f"{drawn.name}:", *(f"  {key}: {text}" for key, text in filled.entry)]
    return PartTried(
        name=drawn.name,
        species=drawn.species,
        slots=slots,
        entry="\n".join(lines),
        draft=desk.lay_down(drawn.content) if drawn.shape is not None else "",
        meets="" if drawn.shape is None else _meets(drawn.shape, drawn.name),
        errors=[FaultBody.of(fault) for fault in drawn.faults],
    )


def _tried(work: Callable[[], Answer], faults: list[Fault]) -> Answer | None:
    try:
        return work()
    except InputError as error:
        faults.append(error.fault)
        return None


def _slot(slot: Slot, results: Mapping[str, str]) -> SlotBody:
    choices = [
        ChoiceBody(value=each.value, label=label_of(each.value) if slot.name in _OF_PARTS else each.label)
        for each in slot.choices
    ]
    return SlotBody(
        name=slot.name,
        label=slot.label,
        text=slot.text,
        choices=choices,
        group=slot.group,
        result=results.get(slot.name, ""),
    )


def _results(content: Content, filled: Filled, piece: Piece, faults: list[Fault]) -> dict[str, str]:
    """What each length comes to; what is wrong with one is put to the faults."""
    length_of = lengths_in(content.piece, given=content.given)
    found: dict[str, str] = {}
    for slot in filled.slots:
        if slot.choices:
            continue
        try:
            mm = length_of(slot.text)
            found[slot.name] = show_length(mm, piece.style)
            faults += [wrong] if (wrong := size_fault(slot, mm)) is not None else []
        except (InputError, FileFaults) as error:
            faults += [replace(fault, field=slot.name) for fault in faults_of(error)]
    return found


def _placed(fault: Fault, name: str, filled: Filled) -> Fault:
    """A fault of the file at the slot it came from; of what no slot is to blame for, at none."""
    whole = field_name(("parts", name))
    if fault.field != whole and not fault.field.startswith(f"{whole}."):
        return replace(fault, field="")
    own = fault.field[len(whole) :].lstrip(".")
    slot = filled.told_at.get(own, filled.told_at.get(own.partition("[")[0], ""))
    if slot == "other_face" and fault.code == "axis_too_short":
        rule, remedy = "must lie across from the other face", "Choose a face that looks back at it."
        fault = replace(fault, value="no room between them", rule=rule, remedy=remedy)
    return replace(fault, field=slot, file="", line=0, column=0)


def _meets(shape: Shape, name: str) -> str:
    """What a part touches and what it stands in, in words."""
    found = [meets for meets in unjoined(shape.piece, shape.works) if name in (meets.one, meets.other)]
    with knowing(shape.piece.parts):
        crossed, touched = (
            [
                label_of(meets.other if meets.one == name else meets.one).lower()
                for meets in found
                if (meets.common_mm3 > 0.0) is crosses
            ]
            for crosses in (True, False)
        )
    said = [f"It touches {listed(touched)}." if touched else ""]
    said += [_beside(shape.piece, name, [meets for meets in found if not meets.common_mm3])]
    said += [f"It stands in {listed(crossed)}: move it, or join it there." if crossed else ""]
    return " ".join(each for each in said if each) or "It touches nothing yet."


def _beside(piece: Piece, name: str, touched: Sequence[Meets]) -> str:
    """What of its ends lies beside the parts they touch, in words; empty where they lie on them whole."""
    part, said = piece.parts[name], []
    for meets in touched:
        other = piece.parts[meets.other if meets.one == name else meets.one]
        contact = contacts(part, other)[0]
        if contact.first_face not in _ENDS:
            continue
        whole = sum(face.area_mm2 for face in body_of(part).faces if face.label == contact.first_face)
        share = contact.area_mm2 / whole
        if share < _WHOLE:
            with knowing(piece.parts):
                said.append(
                    f"{math.floor(100.0 * share)} % of its end lies on {label_of(other.name).lower()}"
                )
    return f"Only {listed(said)}: move it until a joint finds wood there." if said else ""
