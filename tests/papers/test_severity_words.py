"""One count of what is serious, in the same words on sheets, packet and command line."""

from __future__ import annotations

import pytest

from scantling.errors import Finding, Severity
from scantling.papers.sheets.all import overview_sheet, sheet_of
from scantling.papers.sheets.business import findings_sheet
from scantling.papers.sheets.model import Facts
from scantling.papers.words.severity_words import findings_told, serious_told
from tests.papers.faces import packet_texts
from tests.plan.jobs import demo_plan


def _found(*weights: Severity) -> list[Finding]:
    return [Finding(code="F01", severity=weight, where="top", message="") for weight in weights]


@pytest.mark.parametrize(
    ("weights", "serious", "sentence"),
    [
        ((Severity.HIGH, Severity.NOTE), "1", "2 findings: 1 serious, 1 note."),
        ((Severity.MEDIUM,), "none", "1 finding: none serious, 1 worth a change."),
        (
            (Severity.STOP, Severity.HIGH, Severity.HIGH, Severity.NOTE, Severity.NOTE),
            "3 (1 stops the job)",
            "5 findings: 3 serious (1 stops the job), 2 notes.",
        ),
        ((Severity.STOP, Severity.STOP), "2 (2 stop the job)", "2 findings: 2 serious (2 stop the job)."),
    ],
)
def test_what_stops_the_job_is_serious_and_told_apart(
    weights: tuple[Severity, ...], serious: str, sentence: str
) -> None:
    """Serious counts both weights for which a piece is refused; what stops the job stands in brackets."""
    assert serious_told(_found(*weights)) == serious
    assert findings_told(_found(*weights)) == sentence


def test_all_faces_say_the_same_of_the_demo() -> None:
    """The overview, the sheet of findings and the packet's cover count the plan's serious findings alike."""
    count = len(demo_plan().errors)
    facts = [each for each in sheet_of(demo_plan(), overview_sheet).blocks if isinstance(each, Facts)]
    lead = sheet_of(demo_plan(), findings_sheet).lead
    assert count > 0
    assert ("Serious findings", str(count)) in facts[0].items
    assert f" {count} serious" in lead
    assert f"{count} serious" in packet_texts("reading_table", "mm")
