"""The joints a piece file asks for, a request for each pair of parts, and where each stands in the file."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field

from scantling.errors import Fault, InputError
from scantling.piece.files.firsts import first_joint, first_options
from scantling.piece.files.pairs import pairs_of
from scantling.piece.files.remains import block
from scantling.piece.files.spec import PartSpec, PieceSpec
from scantling.piece.model import JointRequest, Part, PartRef, Place
from scantling.reading import Document, faults_for

__all__ = ["AskedJoints", "asked_joints", "key_place", "value_place"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedJoints:
    """Joints asked for.

    Parameters
    ----------
    requests
        Those that can be made: options read, both parts placed.
    faults
        Pairs that name no two parts.
    places
        Where each joint, each of its options and each of its pairs stands.
    """

    requests: tuple[JointRequest, ...]
    faults: tuple[Fault, ...]
    places: Mapping[str, Place] = field(repr=False)


def asked_joints(
    document: Document, spec: PieceSpec, *, parts: Mapping[str, Part], known: Iterable[str]
) -> AskedJoints:
    """The joints of a file; of every joint in it the pairs are looked at, whatever else is wrong with it.

    Parameters
    ----------
    document
        The file.
    spec
        Its entries that could be read.
    parts
        Parts that are placed.
    known
        Names of parts, of those that could not be placed as well.
    """
    names = list(known)
    rings = {name for name, part in spec.parts.items() if _goes_round(part)}
    requests: list[JointRequest] = []
    faults: list[Fault] = []
    places: dict[str, Place] = {}
    for entry in block(document, "joints"):
        pairs, wrong = _pairs(document, entry, names, all_placed=len(names) == len(parts), rings=rings)
        faults += wrong
        places |= _option_places(document, entry)
        options = first_options(spec.joints.get(entry))
        for k, (first, second, number) in enumerate(pairs):
            name = f"{entry}.{k + 1}" if len(pairs) > 1 else entry
            places[f"joints.{name}.pair"] = value_place(document, ("joints", entry, "between", number))
            if options is not None and {first.part, second.part} <= parts.keys():
                asked = JointRequest(
                    name=name,
                    like=entry,
                    family=options.kind,
                    first=first,
                    second=second,
                    options=options,
                    inch=spec.units == "in",
                )
                requests.append(first_joint(asked))
    return AskedJoints(requests=tuple(requests), faults=tuple(faults), places=places)


def _goes_round(part: PartSpec) -> bool:
    """Whether a row comes back to where it began."""
    row = part.repeat
    return row is not None and row.turn is not None and abs(abs(row.turn * row.count) - 360.0) < 1e-6


def _pairs(
    document: Document, entry: str, known: list[str], *, all_placed: bool, rings: Collection[str]
) -> tuple[list[tuple[PartRef, PartRef, int]], list[Fault]]:
    """The pairs of a joint, each with its place in the list.

    How long a row is that could not be placed is not known, nor then whether two rows differ.
    """
    pairs: list[tuple[PartRef, PartRef, int]] = []
    faults: list[Fault] = []
    for number, pair in _written_pairs(document, entry):
        try:
            pairs += [(first, second, number) for first, second in pairs_of(pair, known, rings=rings)]
        except InputError as error:
            if error.code != "rows_differ" or all_placed:
                faults.extend(faults_for(document, ("joints", entry, "between", number), error))
    return pairs, faults


def _written_pairs(document: Document, entry: str) -> list[tuple[int, tuple[str, str]]]:
    """The pairs of a joint that have the form of one, each with its place in the list."""
    written = block(document, "joints", entry).get("between")
    return [
        (number, (pair[0], pair[1]))
        for number, pair in enumerate(written if isinstance(written, list) else ())
        if isinstance(pair, list) and len(pair) == 2 and all(isinstance(ref, str) for ref in pair)
    ]


def _option_places(document: Document, entry: str) -> dict[str, Place]:
    places = {f"joints.{entry}": key_place(document, ("joints", entry))}
    for option in block(document, "joints", entry):
        places[f"joints.{entry}.{option}"] = value_place(document, ("joints", entry, option))
    return places


def key_place(document: Document, path: tuple[str | int, ...]) -> Place:
    """Where an entry's name stands in the file."""
    line, column = document.key_position(path)
    return Place(file=document.file, line=line, column=column)


def value_place(document: Document, path: tuple[str | int, ...]) -> Place:
    """Where a value stands in the file."""
    line, column = document.position(path)
    return Place(file=document.file, line=line, column=column)
