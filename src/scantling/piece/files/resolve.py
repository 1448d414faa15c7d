"""From a piece file to a resolved piece: names, sections, axes, trims, copies, joints."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from pydantic import TypeAdapter, ValidationError

from scantling.errors import Fault, InputError
from scantling.piece.expressions import parse
from scantling.piece.files.asked import asked_joints, key_place, value_place
from scantling.piece.files.copies import copied, repeated
from scantling.piece.files.fields import FOUND, LOOKUP, UNIT, WORK_OUT, Length
from scantling.piece.files.firsts import first_finish, first_part
from scantling.piece.files.fixed import NOTHING_FIXED, Fixed, FixedSizes
from scantling.piece.files.matching import matchings_of
from scantling.piece.files.materials import materials
from scantling.piece.files.names import DEPENDS, Names
from scantling.piece.files.placement import NO_SHIFT, place
from scantling.piece.files.remains import Remains, block, part_remains, remains
from scantling.piece.files.spec import BriefSpec, PartSpec, PieceSpec
from scantling.piece.files.trimming import PLAIN, Followed
from scantling.piece.model import (
    Brief,
    Finish,
    Part,
    Piece,
    Place,
)
from scantling.reading import Document, did_you_mean
from scantling.units import Dimension
from scantling.units.sentences import sentence_in_inches

__all__ = ["Form", "Reading", "Resolver"]

_MAX_PARTS = 400
_ALONE: dict[str, TypeAdapter[Any]] = {
    "length": TypeAdapter(Length),
    "section": TypeAdapter(tuple[Length, Length]),
}
"""Fields of a part that other parts' expressions may ask for before it can be placed."""
_OF_SIZE = frozenset(
    {
        "axis_too_short",
        "fraction_of_millimeter",
        "no_length_left",
        "out_of_range",
        "round_not_positive",
        "round_over_section",
        "section_not_positive",
        "shape_not_possible",
        "strips_crossed",
        "taper_not_possible",
        "trim_along_part",
        "trim_wrong_side",
    }
)
"""Faults that sizes in the wrong unit would give: not told while the file's unit is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A piece file, read.

    Parameters
    ----------
    piece
        The piece; where there are faults, what could be made of it: a basis for looking further, no more.
    faults
        Everything wrong with the file, in its order.
    lengths_mm
        Its parameters and values that are lengths. [mm]
    """

    piece: Piece
    faults: tuple[Fault, ...]
    lengths_mm: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A piece file before any size of it is worked out: what is read of it whatever is asked for.

    Parameters
    ----------
    document
        The file.
    model
        The shape with its joint families, as :func:`~scantling.piece.files.shape.piece_model` makes it.
    read
        What the shape takes of the file.
    """

    document: Document
    model: type[PieceSpec]
    read: Remains

    @classmethod
    def of(cls, document: Document, model: type[PieceSpec]) -> Form:
        """The form of a file."""
        units = {UNIT: "in" if document.get(("units",)) == "in" else "mm"}
        return cls(document=document, model=model, read=remains(document, model, context=units))


class Resolver:
    """Resolves one piece file.

    Parameters
    ----------
    form
        The file.
    given
        Parameter values asked for, as written.
    fixed
        Names and sizes that are facts, whatever the file computes.
    """

    def __init__(self, form: Form, *, given: Mapping[str, str], fixed: Fixed = NOTHING_FIXED) -> None:
        document = form.document
        self._document, self._model, self._fixed = document, form.model, fixed
        self._shape, self._form = form.read.spec, form.read.faults
        self._entries = block(document, "parts")
        names = {*block(document, "parameters"), *block(document, "values")}
        unread = frozenset(names - self._shape.parameters.keys() - self._shape.values.keys())
        self._names = Names(
            document, self._shape, given=given, size_of=self._size, unread=unread, fixed=fixed.names_mm
        )
        self._context: dict[str, Any] = {
            FOUND: {},
            LOOKUP: self._names,
            WORK_OUT: self._names.value_of,
            UNIT: self._shape.units,
        }
        self._bases: dict[str, Part] = {}
        self._specs: dict[str, PartSpec] = {}
        self._not_placed: dict[str, InputError] = {}
        self._placing: list[str] = []
        self._places: dict[str, Place] = {}
        self._early: list[Fault] = []
        self._base_of = self._all_names()
        self._names.parts.update(self._base_of)
        self._followed = Followed(
            self._base_of,
            spec_of=self._part_spec,
            base_of=self._base_for,
            length_of=self.length_mm,
            moved={name: sizes.moved_mm for name, sizes in fixed.sizes.items()},
        )
        self._woods, unknown_woods = materials(document)
        self._early += unknown_woods

    def _all_names(self) -> dict[str, str]:
        """Which entry each part's name comes from, copies included."""
        owner: dict[str, str] = dict(zip(self._entries, self._entries, strict=True))
        for entry in self._entries:
            copies = block(self._document, "parts", entry, "copies")
            for name in copies:
                if name in owner:
                    self._early.append(self._taken(("parts", entry, "copies", name), name, owner[name]))
                else:
                    owner[name] = entry
            if copies and self._document.get(("parts", entry, "repeat")) is not None:
                self._early.append(
                    self._document.fault(
                        ("parts", entry, "repeat"),
                        code="copies_and_repeat",
                        value=f"{len(copies)} {'copy' if len(copies) == 1 else 'copies'} and a row",
                        rule="must be either copied or repeated",
                        remedy="Write the row's other side as a part of its own.",
                    )
                )
        return owner

    def _taken(self, path: tuple[str, ...], name: str, owner: str) -> Fault:
        line, _ = self._document.key_position(("parts", owner))
        return self._document.fault(
            path,
            code="name_taken",
            value=name,
            rule="must be a name no other part has",
            remedy=f"It belongs to parts.{owner}, line {line}; choose another.",
        )

    def read(self) -> Reading:
        """The piece as far as it can be resolved, and every fault of the file.

        Of a file with faults, the piece holds the parts that could be placed and the joints between those.
        """
        parameters = self._names.settle()
        faults = [*self._early]
        worked = remains(self._document, self._model, context=self._context)
        if not worked.faults:
            self._specs = {**worked.spec.parts, **self._specs}
        told = {(fault.field, fault.code, fault.line, fault.column) for fault in self._form}
        faults += [
            self._with_result(fault)
            for fault in worked.faults
            if (fault.field, fault.code, fault.line, fault.column) not in told
        ]
        faults += self._bad_trims()
        parts = self._all_parts(faults)
        known = self._all_known(parts)
        asked = asked_joints(self._document, worked.spec, parts=parts, known=known)
        faults += asked.faults
        joints = asked.requests
        self._places |= asked.places
        self._check_carried(worked.spec, known, faults)
        matching, wrong = matchings_of(
            worked.spec.matching, parts, [*known, *self._entries], document=self._document
        )
        faults += wrong
        if any(fault.field == "units" for fault in self._form):
            joints = ()
            faults = [fault for fault in faults if fault.code not in _OF_SIZE]
        every = [*self._form, *self._names.faults, *faults]
        for name in block(self._document, "accept"):
            self._places[f"accept.{name}"] = key_place(self._document, ("accept", name))
        self._places["finish.system"] = value_place(self._document, ("finish", "system"))
        return Reading(
            piece=Piece(
                title=worked.spec.title,
                about=worked.spec.about,
                units=worked.spec.units,
                fractions=worked.spec.fractions,
                both_units=worked.spec.both_units,
                parameters=parameters,
                parts=parts,
                joints=joints,
                finish=_finish(worked.spec),
                brief=_brief(worked.spec.brief),
                matching=matching,
                accept=dict(worked.spec.accept),
                places=self._places,
            ),
            faults=tuple(_once(_telling(every) or every)),
            lengths_mm=self._names.lengths_mm(),
        )

    def _bad_trims(self) -> list[Fault]:
        """Ends that follow a face there is none of, told even where the part has other faults."""
        faults: list[Fault] = []
        refs = [(entry, ref) for entry in self._entries for ref in self._written_refs(entry)]
        for entry, ref in refs:
            try:
                self._followed.check(entry, ref)
            except InputError as error:
                faults.extend(self._place_fault(entry, error))
        return faults

    def _written_refs(self, entry: str) -> list[str]:
        """The faces an entry's ends and edges follow, as written."""
        trim = block(self._document, "parts", entry, "trim")
        edges = block(self._document, "parts", entry, "edges")
        ends = [trim.get("start"), trim.get("end"), *edges.values()]
        refs = [ref for end in ends for ref in (end if isinstance(end, list) else [end])]
        return [ref for ref in refs if isinstance(ref, str) and ref not in PLAIN]

    def _all_known(self, parts: Mapping[str, Part]) -> list[str]:
        """Names a joint may use; of parts that could not be placed, those the file gives away."""
        placed = {part.like for part in parts.values()}
        names = list(parts)
        for entry in self._entries:
            if entry not in placed:
                raw = block(self._document, "parts", entry)
                rows = [f"{entry}_{k + 1}" for k in range(_MAX_PARTS)] if raw.get("repeat") else []
                names += rows or [entry, *block(self._document, "parts", entry, "copies")]
        return names

    def _check_carried(self, spec: PieceSpec, known: Iterable[str], faults: list[Fault]) -> None:
        names = list(known)
        for load, members in spec.brief.carried.items():
            for number, name in enumerate(members):
                if name not in names:
                    faults.append(
                        self._document.fault(
                            ("brief", "carried", load, number),
                            code="unknown_part",
                            rule="must name a part",
                            remedy=did_you_mean(name, names),
                        )
                    )

    def _with_result(self, fault: Fault) -> Fault:
        """A fault of range says what the expression came to, not only how it is written."""
        result = self._context[FOUND].get(fault.value)
        if fault.code != "out_of_range" or result is None or result == fault.value:
            return fault
        return replace(fault, value=f"{fault.value} = {result}")

    def _all_parts(self, faults: list[Fault]) -> dict[str, Part]:
        parts: dict[str, Part] = {}
        for entry in self._entries:
            try:
                base = self._base(entry)
                spec = self._part_spec(entry)
            except InputError as error:
                if error.field.split(".")[:2] == ["parts", entry]:
                    faults.extend(self._place_fault(entry, error))
                continue
            for drawn in _copies(base, spec):
                try:
                    part = self._as_fixed(drawn)
                except InputError as error:
                    faults.extend(self._place_fault(entry, error))
                    continue
                taken = self._base_of.get(part.name, entry)
                if taken != entry and spec.repeat is not None:
                    faults.append(self._taken(("parts", entry, "repeat"), part.name, taken))
                parts.setdefault(part.name, first_part(part))
            self._places[f"parts.{entry}"] = key_place(self._document, ("parts", entry))
            for number in range(len(spec.shape)):
                field = ("parts", entry, "shape", number)
                self._places[f"parts.{entry}.shape.{number}"] = value_place(self._document, field)
        if len(parts) > _MAX_PARTS:
            faults.append(
                self._document.fault(
                    ("parts",),
                    code="too_many_parts",
                    value=str(len(parts)),
                    rule=f"must be at most {_MAX_PARTS} parts",
                    remedy="Make it as two pieces, or repeat fewer.",
                )
            )
        return parts

    def _as_fixed(self, drawn: Part) -> Part:
        """A part with what is a fact about it."""
        return self._followed.named(drawn.name) if drawn.name in self._fixed.sizes else drawn

    def _place_fault(self, entry: str, error: InputError) -> tuple[Fault, ...]:
        """A placing error at the field it names, which is a path below ``parts``."""
        path: tuple[str | int, ...] = ("parts", entry)
        if error.field.startswith(f"parts.{entry}"):
            path = tuple(int(s) if s.isdigit() else s for s in error.field.split("."))
        fault = error.fault
        told = sentence_in_inches if self._shape.units == "in" else str
        placed = self._document.fault(
            path,
            code=fault.code,
            rule=told(fault.rule),
            remedy=told(fault.remedy),
            value=told(fault.value),
        )
        if len(path) == 2:
            line, column = self._document.key_position(path)
            placed = replace(placed, line=line, column=column)
        return (placed,)

    def _part_spec(self, entry: str) -> PartSpec:
        """An entry with its expressions worked out, once."""
        if entry in self._specs:
            return self._specs[entry]
        raw: object = self._document.get(("parts", entry))
        for form in (raw, part_remains(raw)):
            try:
                self._specs[entry] = PartSpec.model_validate(form, context=self._context)
            except ValidationError:
                continue
            return self._specs[entry]
        raise self._depends(entry)

    def _size(self, name: str, size: str) -> float:
        """A part's length, width or thickness as designed, before joints lengthen it. [mm]"""
        entry = self._base_of.get(name, name)
        fixed = self._fixed.size_mm(name, size)
        if fixed is not None:
            return fixed
        raw = self._document.get(("parts", entry))
        if size != "length":
            axis = 0 if size == "width" else 1
            return float(self._alone(entry, "section")[axis])
        if isinstance(raw, dict) and "length" in raw and "trim" not in raw:
            return float(self._alone(entry, "length"))
        try:
            return self._base(entry).length_mm
        except InputError as error:
            raise self._depends(entry) from error  # the part's own fault is told at the part

    def length_mm(self, text: str) -> float:
        """A length written inside another field, or to be; raises InputError or FileFaults. [mm]"""
        return float(self._names.value_of(parse(text), want=Dimension.LENGTH).value)

    def _depends(self, entry: str) -> InputError:
        return InputError(
            code=DEPENDS, field=f"parts.{entry}", value=entry, rule="depends on a part that has a fault"
        )

    def _alone(self, entry: str, field: str) -> Any:
        """One field of a part, worked out without the rest of it."""
        raw = self._document.get(("parts", entry, field))
        try:
            return _ALONE[field].validate_python(raw, context=self._context)
        except ValidationError as error:
            raise self._depends(entry) from error

    def _base(self, entry: str) -> Part:
        """The part an entry places, once."""
        return self._base_for(entry)

    def _base_for(self, entry: str, name: str = "") -> Part:
        """The part an entry places, as it is before it is copied for one of its names."""
        fixed = self._fixed.sizes.get(name)
        key = entry if fixed is None else f"{entry} for {name}"
        if key not in self._bases:
            self._bases[key] = first_part(self._placed(entry, fixed))
        return self._bases[key]

    def _placed(self, entry: str, fixed: FixedSizes | None) -> Part:
        """A part placed anew."""
        if entry in self._not_placed:
            raise self._not_placed[entry]
        if entry in self._placing:
            chain = " -> ".join([*self._placing[self._placing.index(entry) :], entry])
            raise InputError(
                code="cycle",
                field=f"parts.{entry}",
                value=chain,
                rule="must not be placed by itself",
                remedy="Place one of these by plain sizes.",
            )
        self._placing.append(entry)
        try:
            spec = self._part_spec(entry)
            if fixed is not None:
                spec = fixed.put_into(spec)
            return place(
                self._followed.spelled(entry, spec),
                name=entry,
                species=self._woods[entry],
                plane_of=self._followed.plane_of(entry),
                shifts_mm=NO_SHIFT if fixed is None else fixed.trims_mm,
            )
        except InputError as error:
            self._not_placed[entry] = error
            raise
        finally:
            self._placing.pop()


def _finish(spec: PieceSpec) -> Finish | None:
    if spec.finish is None:
        return None
    hidden = spec.finish.coats if spec.finish.hidden_coats is None else spec.finish.hidden_coats
    return first_finish(Finish(system=spec.finish.system, coats=spec.finish.coats, hidden_coats=hidden))


def _brief(spec: BriefSpec) -> Brief:
    return Brief(
        seats=None if spec.seats is None else int(spec.seats),
        chair_arms_mm=spec.chair_arms,
        door_width_mm=spec.door_width,
        door_height_mm=spec.door_height,
        corridor_mm=spec.corridor,
        ceiling_mm=spec.ceiling,
        largest_mm=spec.largest,
        load_kg=spec.load,
        drawer_load_kg=spec.drawer_load,
        vents=None if spec.vents is None else (int(spec.vents[0]), spec.vents[1]),
        holds_people=spec.holds_people,
        leaned_on=spec.leaned_on,
        floor_uneven_mm=spec.floor_uneven,
        feet_trim_mm=spec.feet_trim,
        photographs=spec.photographs,
        stands=spec.stands,
        carried=spec.carried,
    )


def _telling(faults: list[Fault]) -> list[Fault]:
    """Faults without those that only repeat another."""
    return [fault for fault in faults if fault.code != DEPENDS]


def _once(faults: list[Fault]) -> list[Fault]:
    """Faults in the order of the file, none twice."""
    return sorted(dict.fromkeys(faults), key=lambda fault: (fault.line, fault.column))


def _copies(base: Part, spec: PartSpec) -> list[Part]:
    if spec.repeat is not None:
        return repeated(base, spec.repeat)
    return [base, *(copied(base, name, copy) for name, copy in spec.copies.items())]
