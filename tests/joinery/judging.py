"""What the design rules say of a small piece."""

from __future__ import annotations

from scantling.checks import Subject, run
from scantling.errors import Finding
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made

__all__ = ["found", "found_codes"]


def found(made: Made, code: str, *, moisture: MoistureRange) -> list[Finding]:
    """Findings of one rule."""
    subject = Subject(piece=made.piece, works=made.works, moisture=moisture)
    return [finding for finding in run(subject).findings if finding.code == code]


def found_codes(made: Made, *, moisture: MoistureRange) -> set[str]:
    """Codes of all that is found."""
    subject = Subject(piece=made.piece, works=made.works, moisture=moisture)
    return {finding.code for finding in run(subject).findings}
