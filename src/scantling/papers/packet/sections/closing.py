"""Sheets that keep the rest honest: findings, full-size templates, sources and cautions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from scantling.errors import Severity
from scantling.papers.packet.blocks import (
    Block,
    Caution,
    Column,
    Figure,
    Heading,
    Paper,
    Paragraph,
    Row,
    Section,
    Table,
)
from scantling.papers.templates.template import Template
from scantling.papers.templates.template_sheets import template_sheets

__all__ = ["FindingRow", "SourceRow", "findings_section", "sources_section", "templates_section"]

_ESTIMATES = (
    "The figures are computed from published data and common practice. The maker decides; machine manuals, "
    "product labels, safety data sheets and local codes come first."
)
_OFTEN = 3
"""A source cited so often stands once, with a number. [1]"""
_WORDS = {
    Severity.STOP: "Stop: do not build it like this",
    Severity.HIGH: "Serious",
    Severity.MEDIUM: "Worth a change",
    Severity.NOTE: "Note",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingRow:
    """One finding, as the rules gave it."""

    code: str
    severity: Severity
    where: str
    message: str
    advice: str
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceRow:
    """Where a figure comes from.

    Parameters
    ----------
    source
        The source and the place in it.
    standing
        Whether it was read there.
    cited
        The source alone, where it is published: what ``source`` begins with.
    """

    figure: str
    value: str
    source: str
    standing: str = ""
    cited: str = ""


def findings_section(rows: tuple[FindingRow, ...]) -> Section:
    """What the design rules found, worst first.

    Parameters
    ----------
    rows
        The findings.

    Returns
    -------
    Section
        The sheet; it says so where nothing was found.
    """
    blocks: list[Block] = []
    columns = (
        Column(title="Rule"),
        Column(title="Where", share=0.9, strong=True),
        Column(title="What was found", share=1.8),
        Column(title="A way out", share=1.8),
    )
    for severity in Severity:
        chosen = [r for r in rows if r.severity is severity]
        if not chosen:
            continue
        lines = tuple(Row(cells=(r.code, r.where, r.message, r.advice)) for r in chosen)
        blocks += [Heading(text=_WORDS[severity]), Table(columns=columns, rows=lines, small=True)]
    if not rows:
        blocks.append(
            Paragraph(text="The rules found nothing. That is no proof: they know only what they test.")
        )
    return Section(
        title="Findings",
        lead="What the design rules say of this piece, each with its figures and a way out.",
        blocks=tuple(blocks),
    )


def templates_section(templates: tuple[Template, ...], *, paper: Paper, title: str) -> Section:
    """Full-size templates on bare sheets.

    Parameters
    ----------
    templates
        The templates.
    paper
        Paper to print on.
    title
        Over every sheet: the piece and its plan.

    Returns
    -------
    Section
        The sheets.
    """
    sheets = template_sheets(templates, paper=paper, title=title)
    return Section(
        title="Full-size templates",
        lead="",
        blocks=tuple(Figure(sheet=sheet, full_page=True) for sheet in sheets),
    )


def sources_section(rows: tuple[SourceRow, ...], *, cautions: tuple[tuple[str, str], ...]) -> Section:
    """Where the numbers come from, and the usual cautions.

    Parameters
    ----------
    rows
        Figures and sources.
    cautions
        Operation and caution.

    Returns
    -------
    Section
        The sheet.
    """
    columns = (
        Column(title="Figure", share=1.3, strong=True),
        Column(title="Value", share=0.9),
        Column(title="Source", share=2.2),
        Column(title="Standing", share=0.8),
    )
    numbers = _numbered(rows)
    lines = tuple(Row(cells=(r.figure, r.value, _short(r, numbers), r.standing)) for r in rows)
    blocks: list[Block] = [
        Caution(
            title="Estimates",
            text=_ESTIMATES,
        )
    ]
    if cautions:
        caution_columns = (
            Column(title="Operation", share=0.6, strong=True),
            Column(title="Usual caution", share=2.6),
        )
        caution_rows = tuple(Row(cells=c) for c in cautions)
        blocks += [Heading(text="Cautions"), Table(columns=caution_columns, rows=caution_rows, small=True)]
    named = [Paragraph(text=f"{number} {cited}") for cited, number in numbers.items()]
    blocks += [Heading(text="Sources"), *named, Table(columns=columns, rows=lines, small=True)]
    return Section(
        title="Sources and cautions",
        lead="Where the numbers come from, and how far to trust them.",
        blocks=tuple(blocks),
    )


def _numbered(rows: tuple[SourceRow, ...]) -> dict[str, str]:
    """A number for each source that many rows cite, so that its title stands once."""
    times = Counter(row.cited for row in rows if row.cited)
    often = (cited for cited, count in times.items() if count >= _OFTEN)
    return {cited: f"[{number}]" for number, cited in enumerate(often, start=1)}


def _short(row: SourceRow, numbers: Mapping[str, str]) -> str:
    number = numbers.get(row.cited)
    return f"{number}{row.source.removeprefix(row.cited)}" if number else row.source
