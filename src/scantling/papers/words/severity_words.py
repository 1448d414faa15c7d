"""How much a finding matters, in the same words on every face."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.errors import Finding, Severity

__all__ = ["findings_told", "serious_told", "severity_word"]

_WORDS = {
    Severity.STOP: "stop",
    Severity.HIGH: "serious",
    Severity.MEDIUM: "worth a change",
    Severity.NOTE: "note",
}


def severity_word(severity: Severity) -> str:
    """One finding's weight, to stand in a table."""
    return _WORDS[severity]


def serious_told(findings: Iterable[Finding]) -> str:
    """How many are serious, those that stop the job among them and told apart.

    Parameters
    ----------
    findings
        Of a plan.

    Returns
    -------
    str
        As in ``none``, ``2``, ``3 (1 stops the job)``.
    """
    weights = [finding.severity for finding in findings]
    stops = weights.count(Severity.STOP)
    serious = stops + weights.count(Severity.HIGH)
    apart = f" ({stops} stop{'s' if stops == 1 else ''} the job)" if stops else ""
    return f"{serious or 'none'}{apart}"


def findings_told(findings: Iterable[Finding]) -> str:
    """How many there are of each weight, as a sentence.

    Parameters
    ----------
    findings
        Of a plan.

    Returns
    -------
    str
        As in ``7 findings: 3 serious (1 stops the job), 3 worth a change, 1 note.``
    """
    listed = tuple(findings)
    weights = [finding.severity for finding in listed]
    count, gap, apart = serious_told(listed).partition(" ")
    told = [f"{count} serious{gap}{apart}"]
    if watch := weights.count(Severity.MEDIUM):
        told.append(f"{watch} worth a change")
    if notes := weights.count(Severity.NOTE):
        told.append(f"{notes} note{'s' if notes > 1 else ''}")
    return f"{len(listed)} finding{'s' if len(listed) != 1 else ''}: {', '.join(told)}."
