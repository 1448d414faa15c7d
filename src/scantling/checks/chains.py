"""Sizes along a line that do not come to the overall size: F63."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding

__all__ = ["check"]


def check(subject: Subject) -> list[Finding]:
    """Findings on every chain of sizes given."""
    allowed = limit("F63", "off_mm")
    found: list[Finding] = []
    for chain in subject.chains:
        total = sum(size for _, size in chain.sizes_mm)
        off = total - chain.overall_mm
        if abs(off) > allowed + 1e-9:
            terms = " + ".join(f"{what} {size:.1f}" for what, size in chain.sizes_mm)
            found.append(
                finding(
                    "F63",
                    where=chain.name,
                    message=f"{chain.name}: {terms} = {total:.1f} mm, and {chain.overall_mm:.1f} mm is given",
                    numbers={"off_mm": off, "total_mm": total, "overall_mm": chain.overall_mm},
                )
            )
    return found
