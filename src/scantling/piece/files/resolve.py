"""From a piece file to a resolved piece: names, sections, axes, trims, copies, joints."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from pydantic import TypeAdapter, ValidationError

from scantling.errors import Fault, FileFaults, InputError
from scantling.piece.convex import named_face
from scantling.piece.files.copies import copied, repeated
from scantling.piece.files.fields import FOUND, LOOKUP, UNIT, Length
from scantling.piece.files.names import DEPENDS, Names
from scantling.piece.files.pairs import pairs_of
from scantling.piece.files.placement import place
from scantling.piece.files.spec import BriefSpec, PartSpec, PieceSpec
from scantling.piece.geometry import Plane
from scantling.piece.model import (
    Brief,
    Direction,
    Finish,
    JointRequest,
    Part,
    PartKind,
    PartRef,
    Piece,
    Place,
)
from scantling.reading import Document, did_you_mean, faults_for, validate
from scantling.wood.sheets import find_sheet
from scantling.wood.species import find_species

__all__ = ["Resolver"]

_MAX_PARTS = 400
_ALONE: dict[str, TypeAdapter[Any]] = {
    "length": TypeAdapter(Length),
    "section": TypeAdapter(tuple[Length, Length]),
}
"""Fields of a part that other parts' expressions may ask for before it can be placed."""


class Resolver:
    """Resolves one piece file.

    Parameters
    ----------
    document
        The file.
    model
        The shape with its joint families, as :func:`~scantling.piece.files.shape.piece_model` makes it.
    given
        Parameter values asked for, as written.
    """

    def __init__(self, document: Document, model: type[PieceSpec], *, given: Mapping[str, str]) -> None:
        self._document, self._model = document, model
        self._shape = validate(document, model, context={UNIT: "mm"})
        self._names = Names(document, self._shape, given=given, size_of=self._size)
        self._context: dict[str, Any] = {FOUND: {}, LOOKUP: self._names, UNIT: self._shape.units}
        self._bases: dict[str, Part] = {}
        self._not_placed: dict[str, InputError] = {}
        self._placing: list[str] = []
        self._places: dict[str, Place] = {}
        self._early: list[Fault] = []
        self._base_of = self._all_names()
        self._names.parts.update(self._base_of)

    def _all_names(self) -> dict[str, str]:
        """Which entry each part's name comes from, copies included."""
        owner: dict[str, str] = dict(zip(self._shape.parts, self._shape.parts, strict=True))
        for entry, spec in self._shape.parts.items():
            for name in spec.copies:
                if name in owner:
                    self._early.append(self._taken(("parts", entry, "copies", name), name, owner[name]))
                else:
                    owner[name] = entry
            if spec.copies and spec.repeat is not None:
                self._early.append(
                    self._document.fault(
                        ("parts", entry, "repeat"),
                        code="copies_and_repeat",
                        value=f"{len(spec.copies)} copies and a row",
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

    def piece(self) -> Piece:
        """The resolved piece.

        Raises
        ------
        FileFaults
            Every fault of the file.
        """
        parameters = self._names.settle()
        faults = [*self._early, *self._names.faults]
        spec = self._evaluated_spec(faults)
        for entry, part_spec in self._shape.parts.items():
            try:
                self._material(entry, part_spec)
            except InputError as error:
                faults.extend(self._place_fault(entry, error))
        parts = self._all_parts(faults)
        shape = self._shape if spec is None else spec
        joints = self._joints(shape, self._all_known(parts), faults)
        self._check_carried(shape, self._all_known(parts), faults)
        if spec is None or faults:
            raise FileFaults(_once(_telling(faults) or faults))
        return Piece(
            title=spec.title,
            about=spec.about,
            units=spec.units,
            parameters=parameters,
            parts=parts,
            joints=joints,
            finish=_finish(spec),
            brief=_brief(spec.brief),
            accept=dict(spec.accept),
            places=self._places,
        )

    def _all_known(self, parts: Mapping[str, Part]) -> list[str]:
        """Names a joint may use; of parts that could not be placed, those the file gives away."""
        placed = {part.like for part in parts.values()}
        names = list(parts)
        for entry, spec in self._shape.parts.items():
            if entry not in placed:
                rows = [f"{entry}_{k + 1}" for k in range(_MAX_PARTS)] if spec.repeat else []
                names += rows or [entry, *spec.copies]
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

    def _evaluated_spec(self, faults: list[Fault]) -> PieceSpec | None:
        try:
            return validate(self._document, self._model, context=self._context)
        except FileFaults as error:
            faults.extend(map(self._with_result, error.faults))
            return None

    def _with_result(self, fault: Fault) -> Fault:
        """A fault of range says what the expression came to, not only how it is written."""
        result = self._context[FOUND].get(fault.value)
        if fault.code != "out_of_range" or result is None or result == fault.value:
            return fault
        return replace(fault, value=f"{fault.value} = {result}")

    def _all_parts(self, faults: list[Fault]) -> dict[str, Part]:
        parts: dict[str, Part] = {}
        told = {fault.field for fault in faults}
        for entry in self._shape.parts:
            try:
                base = self._base(entry)
                spec = self._part_spec(entry)
            except InputError as error:
                elsewhere = error.field.startswith("parts.") and error.field.split(".")[1] != entry
                if not elsewhere and not any(field.startswith(f"parts.{entry}.") for field in told):
                    faults.extend(self._place_fault(entry, error))
                continue
            except (ValidationError, FileFaults):
                continue
            for part in _copies(base, spec):
                taken = self._base_of.get(part.name, entry)
                if taken != entry and spec.repeat is not None:
                    faults.append(self._taken(("parts", entry, "repeat"), part.name, taken))
                parts.setdefault(part.name, part)
            self._stands(("parts", entry), f"parts.{entry}")
        if len(parts) > _MAX_PARTS:
            raise FileFaults(
                [
                    self._document.fault(
                        ("parts",),
                        code="too_many_parts",
                        value=str(len(parts)),
                        rule=f"at most {_MAX_PARTS} parts",
                    )
                ]
            )
        return parts

    def _place_fault(self, entry: str, error: InputError) -> tuple[Fault, ...]:
        """A placing error at the field it names, which is a path below ``parts``."""
        path: tuple[str | int, ...] = ("parts", entry)
        if error.field.startswith(f"parts.{entry}"):
            path = tuple(int(s) if s.isdigit() else s for s in error.field.split("."))
        fault = error.fault
        placed = self._document.fault(
            path, code=fault.code, rule=fault.rule, remedy=fault.remedy, value=fault.value
        )
        if len(path) == 2:
            line, column = self._document.key_position(path)
            placed = replace(placed, line=line, column=column)
        return (placed,)

    def _part_spec(self, entry: str) -> PartSpec:
        raw = self._document.get(("parts", entry))
        try:
            return PartSpec.model_validate(raw, context=self._context)
        except ValidationError as error:
            raise self._depends(entry) from error

    def _size(self, name: str, size: str) -> float:
        """A part's length, width or thickness as designed, before joints lengthen it. [mm]"""
        entry = self._base_of.get(name, name)
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
        if entry in self._bases:
            return self._bases[entry]
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
            self._bases[entry] = place(
                spec, name=entry, species=self._material(entry, spec), plane_of=self._plane_of(entry)
            )
        except InputError as error:
            self._not_placed[entry] = error
            raise
        finally:
            self._placing.pop()
        return self._bases[entry]

    def _material(self, entry: str, spec: PartSpec) -> str:
        try:
            if spec.kind is PartKind.SHEET:
                return find_sheet(spec.species).name
            return find_species(spec.species).name
        except InputError as error:
            fault = error.fault
            raise InputError(
                code=error.code,
                field=f"parts.{entry}.species",
                value=spec.species,
                rule=fault.rule,
                remedy=fault.remedy,
            ) from error

    def _plane_of(self, entry: str) -> Any:
        def plane(ref: str) -> Plane:
            name, _, face = ref.partition(".")
            if name not in self._base_of:
                raise self._bad_ref(entry, ref, did_you_mean(name, self._base_of))
            if face not in set(Direction):
                raise self._bad_ref(entry, ref, f"Name a face: {name}.left, {name}.top and so on.")
            part = self._named_part(name)
            found = named_face(part, Direction(face))
            if found is None:
                raise self._bad_ref(entry, ref, f"{name} has no face that looks that way.")
            return found.plane

        return plane

    def _bad_ref(self, entry: str, ref: str, remedy: str) -> InputError:
        return InputError(
            code="unknown_face",
            field=f"parts.{entry}.trim",
            value=ref,
            rule="must be floor, square, or PART.FACE",
            remedy=remedy,
        )

    def _named_part(self, name: str) -> Part:
        entry = self._base_of[name]
        base = self._base(entry)
        if name == entry:
            return base
        return copied(base, name, self._part_spec(entry).copies[name])

    def _joints(self, spec: PieceSpec, known: list[str], faults: list[Fault]) -> tuple[JointRequest, ...]:
        requests: list[JointRequest] = []
        for entry, options in spec.joints.items():
            pairs: list[tuple[PartRef, PartRef, int]] = []
            for number, pair in enumerate(options.between):
                path = ("joints", entry, "between", number)
                try:
                    pairs += [(first, second, number) for first, second in pairs_of(pair, known)]
                except InputError as error:
                    faults.extend(faults_for(self._document, path, error))
            self._joint_stands(entry)
            for k, (first, second, number) in enumerate(pairs):
                name = f"{entry}.{k + 1}" if len(pairs) > 1 else entry
                self._stands(("joints", entry, "between", number), f"joints.{name}.pair")
                requests.append(
                    JointRequest(
                        name=name,
                        like=entry,
                        family=options.kind,
                        first=first,
                        second=second,
                        options=options,
                    )
                )
        return tuple(requests)

    def _joint_stands(self, entry: str) -> None:
        self._stands(("joints", entry), f"joints.{entry}")
        written = self._document.get(("joints", entry))
        for option in written if isinstance(written, dict) else ():
            self._stands(("joints", entry, option), f"joints.{entry}.{option}")

    def _stands(self, path: tuple[str | int, ...], key: str) -> None:
        """Keep where something stands in the file: an entry's name, or an option's value."""
        entry = len(path) == 2
        line, column = self._document.key_position(path) if entry else self._document.position(path)
        self._places[key] = Place(file=self._document.file, line=line, column=column)


def _finish(spec: PieceSpec) -> Finish | None:
    if spec.finish is None:
        return None
    hidden = spec.finish.coats if spec.finish.hidden_coats is None else spec.finish.hidden_coats
    return Finish(system=spec.finish.system, coats=spec.finish.coats, hidden_coats=hidden)


def _brief(spec: BriefSpec) -> Brief:
    return Brief(
        seats=None if spec.seats is None else int(spec.seats),
        door_width_mm=spec.door_width,
        door_height_mm=spec.door_height,
        corridor_mm=spec.corridor,
        ceiling_mm=spec.ceiling,
        load_kg=spec.load,
        holds_people=spec.holds_people,
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
