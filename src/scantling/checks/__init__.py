"""Design rules: what will go wrong with a piece, why in figures, and a way out."""

from scantling.checks.catalogue import (
    Override,
    Overrides,
    Provenance,
    Rule,
    Threshold,
    codes,
    finding,
    limit,
    rule,
    rules,
)

__all__ = [
    "Override",
    "Overrides",
    "Provenance",
    "Rule",
    "Threshold",
    "codes",
    "finding",
    "limit",
    "rule",
    "rules",
]
