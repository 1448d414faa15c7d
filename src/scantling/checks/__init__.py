"""Design rules: what will go wrong with a piece, why in figures, and a way out."""

from scantling.checks.catalogue import (
    Grade,
    Provenance,
    Rule,
    Threshold,
    codes,
    finding,
    limit,
    rule,
    rules,
)
from scantling.checks.run import run
from scantling.checks.subject import Chain, FaceCoats, Subject

__all__ = [
    "Chain",
    "FaceCoats",
    "Grade",
    "Provenance",
    "Rule",
    "Subject",
    "Threshold",
    "codes",
    "finding",
    "limit",
    "rule",
    "rules",
    "run",
]
