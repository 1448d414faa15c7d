"""Every rule that reads only a piece and its joints, in one go."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from scantling.checks import (
    chains,
    fits,
    flush,
    glue,
    hands,
    legs,
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
    found += others
    return Report.of(_accepted(completed(item, subject), subject) for item in found)


def _accepted(item: Finding, subject: Subject) -> Finding:
    """A finding the maker has set aside stays in the report as a note, with the maker's reason."""
    accept = subject.piece.accept
    reason = accept.get(f"{item.code} {item.where}", accept.get(item.code, ""))
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
