"""All findings of a plan, alike ones told once."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from scantling.errors import Finding, Report
from scantling.piece.model import Piece

__all__ = ["told_once"]


def told_once(findings: Iterable[Finding], piece: Piece) -> Report:
    """Findings with those that say the same of like parts or joints made one.

    Four legs with the same fault give one finding whose ``where`` names all four; so do five drawers that are
    entries of their own and differ in name by a number.

    Parameters
    ----------
    findings
        As the rules gave them.
    piece
        Says which parts and joints are alike.
    """
    like = {name: _unnumbered(part.like) for name, part in piece.parts.items()}
    like |= {joint.name: _unnumbered(joint.like) for joint in piece.joints}
    pattern = re.compile(
        r"(?<![\w.])(" + "|".join(map(re.escape, sorted(like, key=len, reverse=True))) + r")(?!\w)"
    )
    groups: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in findings:
        same = tuple(pattern.sub(lambda m: like[m[1]], text) for text in (finding.where, finding.message))
        groups.setdefault((finding.code, _numberless(same[0]), _numberless(same[1])), []).append(finding)
    return Report.of(_joined(members) for members in groups.values())


def _unnumbered(entry: str) -> str:
    """An entry's name without its running number: ``drawer_3_front`` and ``drawer_4_front`` are one thing."""
    return re.sub(r"_\d+(?=_|$)", "_", entry)


def _numberless(text: str) -> str:
    """A text with the running numbers of clips, slots, tenons and a panel's glue-ups left out."""
    return re.sub(r"\b(clip|slot|tenon|screw slot|pin slot|sub-panel|group) \d+", r"\1", text)


def _joined(members: list[Finding]) -> Finding:
    if len(members) == 1:
        return members[0]
    places = dict.fromkeys(place for member in members for place in member.where.split(", "))
    remedies = tuple(dict.fromkeys(each for member in members for each in member.remedies))
    return replace(members[0], where=", ".join(places), remedies=remedies)
