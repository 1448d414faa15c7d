"""The work of all joints of a piece, with every fault told at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

from scantling.errors import Fault, FileFaults, InputError
from scantling.joinery.families import joint_families, option_models
from scantling.joinery.scooped import scoop_faults
from scantling.joinery.work import JointContext, JointWork
from scantling.piece.files import (
    BuiltSource,
    Reading,
    TriedJoints,
    lengths_of,
    look_at_piece,
    look_at_piece_text,
    parse_piece,
    read_piece,
)
from scantling.piece.model import JointRequest, Piece
from scantling.units.sentences import sentence_in_inches
from scantling.wood.moisture import MoistureRange

__all__ = [
    "OneJoint",
    "join",
    "joint_faults",
    "lengths_in",
    "load_piece",
    "load_piece_text",
    "look_at",
    "look_at_text",
    "tried_joints",
]

OneJoint = Callable[[JointRequest, JointContext], JointWork]


def load_piece(path: str | Path, *, given: Mapping[str, str] | None = None) -> Piece:
    """Read a piece file with all joint families; see :func:`scantling.piece.files.read_piece`."""
    return read_piece(path, families=option_models(), given=given)


def load_piece_text(text: str, *, file: str = "piece.yaml", given: Mapping[str, str] | None = None) -> Piece:
    """As :func:`load_piece`, from a text."""
    return parse_piece(text, families=option_models(), file=file, given=given)


def lengths_in(text: str, *, given: Mapping[str, str] | None = None) -> Callable[[str], float]:
    """What works out lengths in a piece's text; see :func:`scantling.piece.files.lengths_of`."""
    return lengths_of(text, families=option_models(), given=given)


def look_at(
    path: str | Path, *, given: Mapping[str, str] | None = None, built: BuiltSource | None = None
) -> Reading:
    """As :func:`load_piece`, as far as the file can be read: the faults are given and not raised."""
    return look_at_piece(path, families=option_models(), given=given, built=built, tried=tried_joints)


def look_at_text(
    text: str,
    *,
    file: str = "piece.yaml",
    given: Mapping[str, str] | None = None,
    built: BuiltSource | None = None,
) -> Reading:
    """As :func:`look_at`, from a text."""
    return look_at_piece_text(
        text, families=option_models(), file=file, given=given, built=built, tried=tried_joints
    )


_USUAL_AIR = MoistureRange(build_pct=8.0, dry_pct=6.0, wet_pct=12.0)
"""Tenons and tongues are as long in any air: this one only lets the joints be laid out. [%]"""


def tried_joints(piece: Piece) -> TriedJoints:
    """What tenons and tongues add to the length of parts, and which joints cannot be made."""
    context = JointContext(moisture=_USUAL_AIR, parts=piece.parts, kerf_mm=3.2)
    longest: dict[tuple[str, object], float] = {}
    works: list[JointWork] = []
    faults: list[Fault] = []
    for joint in piece.joints:
        try:
            work = join_one(joint, context)
        except InputError as error:
            faults.append(_placed(error, joint, piece))
            continue
        works.append(work)
        for each in work.extensions:
            key = (each.part, each.end)
            longest[key] = max(longest.get(key, 0.0), each.length_mm)
    faults += scoop_faults(piece, works)
    over: dict[str, float] = {}
    for (part, _), length_mm in longest.items():
        over[part] = over.get(part, 0.0) + length_mm
    return TriedJoints(over_mm=over, faults=tuple(faults))


def join_one(joint: JointRequest, context: JointContext) -> JointWork:
    """The work of one joint, with what it bears; raises InputError where its parts do not suit it."""
    family, parts = joint_families()[joint.family], context.parts
    work = family.work(joint, context)
    return replace(work, strength=family.strength(work, parts[work.first], parts[work.second]))


def joint_faults(
    piece: Piece, *, moisture: MoistureRange, kerf_mm: float = 3.2, one: OneJoint = join_one
) -> tuple[Fault, ...]:
    """What :func:`join` would refuse, for a piece that is looked at and not made."""
    try:
        join(piece, moisture=moisture, kerf_mm=kerf_mm, one=one)
    except FileFaults as error:
        return error.faults
    return ()


def join(
    piece: Piece,
    *,
    moisture: MoistureRange,
    kerf_mm: float = 3.2,
    one: OneJoint = join_one,
) -> tuple[JointWork, ...]:
    """The work of every joint, in the order of the file.

    Parameters
    ----------
    piece
        The resolved piece.
    moisture
        Build, driest and wettest. [%]
    kerf_mm
        Saw kerf. [mm]
    one
        Does one joint; a cache may stand before :func:`join_one`.

    Raises
    ------
    FileFaults
        Every joint whose parts do not meet as it needs, and every scoop that runs into a joint, each with its
        place in the file.
    """
    context = JointContext(moisture=moisture, parts=piece.parts, kerf_mm=kerf_mm)
    works: list[JointWork] = []
    faults: list[Fault] = []
    for joint in piece.joints:
        try:
            works.append(one(joint, context))
        except InputError as error:
            faults.append(_placed(error, joint, piece))
    faults += scoop_faults(piece, works)
    if faults:
        raise FileFaults(faults)
    return tuple(works)


def _placed(error: InputError, joint: JointRequest, piece: Piece) -> Fault:
    """The fault where it stands: at the option it names, else at the pair of parts."""
    fault = error.fault
    keys = [fault.field, f"joints.{joint.name}.pair", f"joints.{joint.like}"]
    if fault.field == f"joints.{joint.like}":
        del keys[0]
    place = next((piece.places[key] for key in keys if key in piece.places), None)
    told = sentence_in_inches if piece.units == "in" else str
    return Fault(
        code=fault.code,
        field=fault.field,
        value=told(fault.value) + _not_written(fault.field, joint, piece),
        rule=told(fault.rule),
        remedy=told(fault.remedy),
        file=place.file if place else "",
        line=place.line if place else 0,
        column=place.column if place else 0,
    )


def _not_written(field: str, joint: JointRequest, piece: Piece) -> str:
    """A word on where an option's size comes from, for a fault of one that the file leaves out."""
    option = field.removeprefix(f"joints.{joint.like}.")
    if field in piece.places or option == field or not hasattr(joint.options, option):
        return ""
    computed = getattr(joint.options, option) is None
    return f" ({option} is not written: this is the {'computed' if computed else 'usual'} one)"
