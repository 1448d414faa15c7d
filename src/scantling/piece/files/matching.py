"""The wishes of a piece file: entries become lists of parts, and what cannot be meant is told."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from scantling.errors import Fault
from scantling.piece.files.spec import MatchingSpec
from scantling.piece.matching import Matching, WishKind
from scantling.piece.model import Part, PartKind
from scantling.reading import Document, did_you_mean

__all__ = ["matchings_of"]


class _Tell(Protocol):
    def __call__(self, code: str, *, value: str, rule: str, remedy: str) -> Fault: ...


_ALIKE_MM = 0.01
"""Sizes nearer than this are the same. [mm]"""


def matchings_of(
    specs: Mapping[str, MatchingSpec], parts: Mapping[str, Part], known: Sequence[str], *, document: Document
) -> tuple[tuple[Matching, ...], list[Fault]]:
    """The wishes, and everything wrong with them.

    Parameters
    ----------
    specs
        As read.
    parts
        The parts that could be placed.
    known
        Every name a wish may use: parts, and entries that stand for all their copies.
    document
        The file, for the lines of faults.
    """
    found: list[Matching] = []
    faults: list[Fault] = []
    for name, spec in specs.items():
        members: list[str] = []
        for number, part in enumerate(spec.parts):
            copies = [p.name for p in parts.values() if p.like == part]
            own = [part] if part in parts and len(spec.parts) > 1 else copies or [part] * (part in parts)
            if not own and part not in known:
                faults.append(
                    document.fault(
                        ("matching", name, "parts", number),
                        code="unknown_part",
                        rule="must name a part, or the entry of a row",
                        remedy=did_you_mean(part, known),
                    )
                )
            members += own
        faults += _wrong(name, spec.wish, members, parts, document=document)
        worth = None if spec.worth == "must" else float(spec.worth)
        found.append(Matching(name=name, kind=spec.wish, parts=tuple(members), worth=worth))
    return tuple(found), faults


def _wrong(
    name: str, kind: WishKind, members: list[str], parts: Mapping[str, Part], *, document: Document
) -> list[Fault]:
    """What keeps a wish from being granted by any board."""
    if not members:
        return []

    def fault(code: str, *, value: str, rule: str, remedy: str) -> Fault:
        return document.fault(("matching", name, "parts"), code=code, value=value, rule=rule, remedy=remedy)

    twice = sorted({m for m in members if members.count(m) > 1})
    if twice:
        return [
            fault(
                "part_twice",
                value=", ".join(twice),
                rule="must name each part once",
                remedy="An entry that stands alone means all its copies; among others, itself.",
            )
        ]
    own = [parts[m] for m in members]
    sheets = [p.name for p in own if p.kind is PartKind.SHEET]
    if sheets:
        return [
            fault(
                "no_boards_asked",
                value=", ".join(sheets),
                rule="must be parts cut from boards",
                remedy="Sheet material has no board to share; leave these parts out.",
            )
        ]
    species = sorted({p.species for p in own})
    if len(species) > 1:
        return [
            fault(
                "several_woods",
                value=", ".join(species),
                rule="must be parts of one wood",
                remedy="Split the wish by wood.",
            )
        ]
    return _wrong_in_kind(kind, own, fault)


def _wrong_in_kind(kind: WishKind, own: list[Part], fault: _Tell) -> list[Fault]:
    single = len(own) == 1
    glued = [p.name for p in own if p.kind is not PartKind.STICK]
    if kind.leaves:
        if single and own[0].kind is PartKind.PANEL and own[0].strips and own[0].strips.count == 2:
            return []
        odd = [f"{a.name} and {b.name}" for a, b in _pairs(own) if not _same(a, b)]
        if len(own) % 2 or odd or glued:
            return [
                fault(
                    "no_pairs",
                    value=", ".join(odd or glued or [p.name for p in own]),
                    rule="must be pairs of equal sticks, or one panel of two strips",
                    remedy="Name the two leaves of each pair one after the other, or give the panel "
                    "strips: {count: 2}.",
                )
            ]
        return []
    if kind in (WishKind.RUN_THROUGH, WishKind.SIDE_BY_SIDE) and glued:
        return [
            fault(
                "not_one_blank",
                value=", ".join(glued),
                rule="must be sticks, each of one blank",
                remedy="A part glued up from strips or layers has no grain that runs on into another; wish "
                "for the same board or flitch instead.",
            )
        ]
    if single and own[0].kind is PartKind.STICK:
        return [
            fault(
                "one_part",
                value=own[0].name,
                rule="must name at least two parts, or an entry with copies",
                remedy="Add the parts it belongs with.",
            )
        ]
    return []


def _pairs(own: list[Part]) -> list[tuple[Part, Part]]:
    return list(zip(own[::2], own[1::2], strict=False))


def _same(a: Part, b: Part) -> bool:
    sizes = ((p.length_mm, p.width_mm, p.thickness_mm) for p in (a, b))
    return all(abs(x - y) <= _ALIKE_MM for x, y in zip(*sizes, strict=True))
