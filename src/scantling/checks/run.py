"""Every rule that reads only a piece and its joints, in one go."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from fnmatch import fnmatchcase

from scantling.checks import (
    blocks,
    chains,
    doors,
    drawbores,
    drawers,
    dusts,
    fits,
    flush,
    glue,
    hands,
    laps,
    legs,
    lids,
    loose,
    mortises,
    movement,
    panels,
    rabbets,
    scoops,
    screws,
    sections,
    sheets,
    shelf_pins,
    short_grain,
    stacked,
    tenons,
    uneven,
    wedge_slots,
    wedges,
)
from scantling.checks.catalogue import finding, rules
from scantling.checks.remedies import with_remedies
from scantling.checks.subject import Subject
from scantling.errors import Finding, Report, Severity
from scantling.piece.model import Piece

__all__ = ["completed", "run"]

_CHECKS = (
    glue.check,
    movement.check,
    fits.check,
    laps.check,
    rabbets.check,
    flush.check,
    mortises.check,
    scoops.check,
    screws.check,
    tenons.check,
    sections.check,
    legs.check,
    hands.check,
    panels.check,
    chains.check,
    loose.check,
    doors.check,
    drawers.check,
    lids.check,
    short_grain.check,
    sheets.check,
    shelf_pins.check,
    stacked.check,
    wedges.check,
    wedge_slots.check,
    uneven.check,
    drawbores.check,
    dusts.check,
    blocks.check,
)


def run(subject: Subject, *, others: Iterable[Finding] = ()) -> Report:
    """All findings on a piece: by these rules, by the joints' own families, and those of others.

    Parameters
    ----------
    subject
        The piece, its joints' work and its year.
    others
        Findings made elsewhere (shop, seasons, structure), put in the same report.
    """
    found = [item for work in subject.works for item in work.findings]
    for check in _CHECKS:
        found += check(subject)
    found = _without_echoes([*found, *others], subject)
    places: dict[str, set[str]] = {}
    for item in found:
        places.setdefault(item.code, set()).add(_stem(item.where))
    known = with_remedies((completed(item) for item in found), subject)
    told = [_accepted(item, subject, places) for item in known]
    return Report.of([*told, *_for_nothing(found, subject)])


_FACETS = 0.01
"""Share by which the volume of round hollows may be off, taken as prisms. [1]"""
_OFFERED = 3
"""Most places offered for one that finds nothing. [1]"""


def _without_echoes(found: list[Finding], subject: Subject) -> list[Finding]:
    """Findings without those that say another's fault in other words.

    Tenons that run into each other (F14) share wood, and that is no overlap of their parts besides (F69);
    what the two share beyond their mortises is.
    """
    if not any(item.code == "F69" for item in found):
        return found
    met = mortises.tenons_that_meet(subject)
    return [item for item in found if item.code != "F69" or not _echoes(item, met)]


def _echoes(item: Finding, met: Mapping[frozenset[str], float]) -> bool:
    """Whether all the wood two parts share may be that of tenons in mortises that meet."""
    shared = met.get(frozenset(item.where.split(", ")), 0.0)
    return item.numbers.get("volume_mm3", 0.0) <= shared * (1.0 + _FACETS) and shared > 0.0


def _stem(where: str) -> str:
    """A place without the number of its copy: ``rail_to_leg.3`` is ``rail to leg``."""
    return re.sub(r"\.\d+$", "", where.replace("_", " "))


def _at(where: str, place: str) -> bool:
    """Whether a place written in ``accept`` is that of a finding.

    It may be its name, the words it is shown by, or the part alone where the finding says what of it.
    """
    wanted = re.sub(r", (both|all( \w+)?)$", "", place.replace("_", " ").replace("/", ": ").casefold())
    here = where.replace("_", " ").replace("/", ": ").casefold()
    return any(fnmatchcase(each, wanted) for each in (here, _stem(here), _part(here)))


def _part(where: str) -> str:
    """The part of a place that says what of it: ``top`` of ``top: last joints``."""
    return where.partition(":")[0].partition("/")[0]


def _for_nothing(found: list[Finding], subject: Subject) -> list[Finding]:
    """Rules set aside where they find nothing while they do elsewhere, or at a place there is none of."""
    notes = []
    piece = subject.piece
    names = [*piece.parts, *(part.like for part in piece.parts.values()), *(item.where for item in found)]
    names += [name for joint in piece.joints for name in (joint.name, joint.like)]
    for key in piece.accept:
        code, _, place = key.partition(" ")
        wheres = [item.where for item in found if item.code == code]
        if not place or any(_at(where, place) for where in wheres):
            continue
        known = any(_at(name, place) for name in names)
        still = [where for where in wheres if not _reason_at(code, where, piece)]
        open_at = sorted({re.sub(r"\.\d+$", "", _part(where)) for where in still})[:_OFFERED]
        if known and not open_at:
            continue
        offers = ", ".join(f"`{code} {where}`" for where in open_at)
        notes.append(
            Finding(
                code=code,
                severity=Severity.NOTE,
                where=place,
                message=f"`accept` sets {code} aside at {place}, where it finds nothing"
                + ("" if known else "; no part or joint is called that"),
                advice=f"Write {offers}." if offers else "Correct the name, or delete the line.",
                source="The piece file.",
            )
        )
    return notes


def _reason_at(code: str, where: str, piece: Piece) -> str:
    """The maker's reason for setting a rule aside at a place; empty where there is none."""
    for key, reason in piece.accept.items():
        of, _, place = key.partition(" ")
        if of == code and place and _at(where, place):
            return reason
    return ""


def _accepted(item: Finding, subject: Subject, places: Mapping[str, set[str]]) -> Finding:
    """A finding the maker has set aside stays in the report as a note, with the maker's reason.

    A rule named without a place is set aside only while it speaks of one place: the reason was given for
    that one, and a fault that comes later somewhere else must not hide behind it.
    """
    accept = subject.piece.accept
    reason = _reason_at(item.code, item.where, subject.piece)
    if not reason and item.code in accept:
        here = sorted(places[item.code])
        if len(here) > 1:
            named = f"`{item.code} {_stem(item.where)}`"
            told = f"`accept` names no place and the rule speaks of {len(here)}; name each: {named}."
            return replace(item, advice=f"{item.advice} {told}")
        reason = accept[item.code]
    if not reason:
        return item
    return replace(item, severity=Severity.NOTE, advice=f"Set aside: {reason} ({item.advice})", remedies=())


def completed(item: Finding) -> Finding:
    """A finding with advice and source from the catalogue where it brought none of its own."""
    if item.code not in rules():
        return item
    known = finding(item.code, where=item.where, message=item.message, numbers=item.numbers)
    source = item.source or known.source
    return replace(item, advice=item.advice or known.advice, source=source)
