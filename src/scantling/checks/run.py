"""Every rule that reads only a piece and its joints, in one go."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from fnmatch import fnmatchcase

from scantling.checks import (
    chains,
    fits,
    flush,
    glue,
    hands,
    legs,
    loose,
    mortises,
    movement,
    panels,
    sections,
    tenons,
)
from scantling.checks.catalogue import finding, rules
from scantling.checks.subject import Subject
from scantling.errors import Finding, Report, Severity

__all__ = ["completed", "run"]

_CHECKS = (
    glue.check,
    movement.check,
    fits.check,
    flush.check,
    mortises.check,
    tenons.check,
    sections.check,
    legs.check,
    hands.check,
    panels.check,
    chains.check,
    loose.check,
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
    return Report.of(_accepted(completed(item, subject), subject, places) for item in found)


def _without_echoes(found: list[Finding], subject: Subject) -> list[Finding]:
    """Findings without those that say another's fault in other words.

    Tenons that run into each other (F14) share wood, and that is no overlap of their parts besides (F69).
    """
    if not any(item.code == "F69" for item in found):
        return found
    met = mortises.tenons_that_meet(subject)
    return [item for item in found if item.code != "F69" or frozenset(item.where.split(", ")) not in met]


def _stem(where: str) -> str:
    """A place without the number of its copy: ``rail_to_leg.3`` is ``rail to leg``."""
    return re.sub(r"\.\d+$", "", where.replace("_", " "))


def _reason(item: Finding, accept: Mapping[str, str]) -> str:
    """The maker's reason for setting a finding aside at its place; empty where there is none."""
    for key, reason in accept.items():
        code, _, place = key.partition(" ")
        wanted = place.replace("_", " ")
        where = item.where.replace("_", " ")
        if code == item.code and place and (fnmatchcase(where, wanted) or fnmatchcase(_stem(where), wanted)):
            return reason
    return ""


def _accepted(item: Finding, subject: Subject, places: Mapping[str, set[str]]) -> Finding:
    """A finding the maker has set aside stays in the report as a note, with the maker's reason.

    A rule named without a place is set aside only while it speaks of one place: the reason was given for
    that one, and a fault that comes later somewhere else must not hide behind it.
    """
    accept = subject.piece.accept
    reason = _reason(item, accept)
    if not reason and item.code in accept:
        here = sorted(places[item.code])
        if len(here) > 1:
            named = f"`{item.code} {_stem(item.where)}`"
            told = f"`accept` names no place and the rule speaks of {len(here)}; name each: {named}."
            return replace(item, advice=f"{item.advice} {told}")
        reason = accept[item.code]
    if not reason:
        return item
    return replace(item, severity=Severity.NOTE, advice=f"Set aside: {reason} ({item.advice})")


def completed(item: Finding, subject: Subject) -> Finding:
    """A finding with advice and source from the catalogue where it brought none of its own."""
    if item.code not in rules():
        return item
    known = finding(item.code, where=item.where, message=item.message, numbers=item.numbers)
    source = (item.source or known.source) + subject.overrides.reasons(item.code)
    return replace(item, advice=item.advice or known.advice, source=source)
