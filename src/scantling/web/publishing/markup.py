"""Sheets and steps as markup: every word escaped, nothing that runs."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from scantling.papers.sheets import Block, Caution, Facts, Picture, Sheet, Table, Words
from scantling.papers.words.step_cards import StepCard
from scantling.papers.words.unbroken import NO_BREAK, unbroken
from scantling.web.publishing.drawing import Drawings

__all__ = ["facts_markup", "sheet_markup", "steps_markup", "word"]

_MANY = 5
"""Columns from which a table is set as paragraphs where it has no room."""


def word(text: str) -> str:
    """Words as markup; no line ends inside a size.

    Examples
    --------
    >>> word("<b>") + word('"')
    '&lt;b&gt;&quot;'
    """
    return escape(unbroken(text))


def sheet_markup(sheet: Sheet, number: int, drawings: Drawings) -> str:
    """A sheet as a chapter with its number; the drawings take theirs in."""
    blocks = "".join(
        _block(block, drawings, name=f"c{number}-{place}") for place, block in enumerate(sheet.blocks, 1)
    )
    lead = f'<p class="lead">{word(sheet.lead)}</p>' if sheet.lead else ""
    return _chapter(number, sheet.title, lead + blocks)


def steps_markup(cards: Iterable[StepCard], number: int) -> str:
    """The order of work as one numbered list, cautions with their steps."""
    return _chapter(number, "Steps", f'<ol class="steps">{"".join(_step(card) for card in cards)}</ol>')


def facts_markup(items: Iterable[tuple[str, str]]) -> str:
    """Labels with their values."""
    told = (f"<div><dt>{word(label)}</dt><dd>{word(value)}</dd></div>" for label, value in items)
    return f'<dl class="facts">{"".join(told)}</dl>'


def _chapter(number: int, title: str, inside: str) -> str:
    return (
        f'<section class="chapter"><h2><span class="no">{number}</span>{word(title)}</h2>{inside}</section>'
    )


def _step(card: StepCard) -> str:
    rest = f"then {card.wait} to dry or rest" if card.wait else ""
    times = "; ".join(each.replace(" ", NO_BREAK) for each in (card.hands_on, rest) if each)
    about = " · ".join(each for each in (card.parts_words, times) if each)
    once = '<p class="once">Happens only once.</p>' if card.once else ""
    lines = "".join(f"<p>{word(line)}</p>" for line in card.lines)
    cautions = "".join(f"<p>{word(line)}</p>" for line in card.cautions)
    cautions = f'<div class="mind" role="note" aria-label="Caution">{cautions}</div>' if cautions else ""
    named = f'<p class="about-step">{word(about)}</p>' if about else ""
    return f"<li><h3>{word(card.title)}</h3>{named}{once}{lines}{cautions}</li>"


def _block(block: Block, drawings: Drawings, *, name: str) -> str:
    match block:
        case Table():
            return _framed(block.title, _table(block, name), name=name)
        case Facts():
            return _framed(block.title, facts_markup(block.items))
        case Words():
            return _framed(block.title, _words(block))
        case Caution():
            lines = "".join(f"<p>{word(line)}</p>" for line in block.lines)
            return f'<div class="block caution" role="note"><h3>Caution</h3>{lines}</div>'
        case Picture():
            drawn = drawings.set(block.svg, block.words or block.title)
            words = f"<figcaption>{word(block.words)}</figcaption>" if block.words else ""
            figure = f'<figure><div class="picture" tabindex="0">{drawn}</div>{words}</figure>'
            return _framed(block.title, figure)


def _framed(title: str, inside: str, *, name: str = "") -> str:
    """A block under its title; a name lets what is inside be called by it."""
    named = f' id="{name}"' if name else ""
    head = f"<h3{named}>{word(title)}</h3>" if title else ""
    return f'<div class="block">{head}{inside}</div>'


def _words(block: Words) -> str:
    if len(block.lines) == 1 and not block.numbered:
        return f'<p class="words">{word(block.lines[0])}</p>'
    kind = "ol" if block.numbered else "ul"
    return f'<{kind} class="words">{"".join(f"<li>{word(line)}</li>" for line in block.lines)}</{kind}>'


def _table(table: Table, name: str) -> str:
    if not table.rows:
        return '<p class="note">Nothing to list.</p>'
    heads = "".join(f'<th scope="col" class="{c.align.value}">{word(c.title)}</th>' for c in table.columns)
    rows = "".join(_row(table, place) for place in range(len(table.rows)))
    many = "many" if len(table.columns) >= _MANY else "few"
    note = f'<p class="note">{word(table.note)}</p>' if table.note else ""
    called = f'aria-labelledby="{name}"' if table.title else 'aria-label="Table"'
    return (
        f'<div class="scroll" tabindex="0" role="region" {called}>'
        f'<table class="{many}"><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>{note}'
    )


def _row(table: Table, place: int) -> str:
    group = table.groups[place] if table.groups else ""
    before = table.groups[place - 1] if table.groups and place else ""
    head = ""
    if group and group != before:
        wide = len(table.columns)
        head = f'<tr class="group"><th scope="rowgroup" colspan="{wide}">{word(group)}</th></tr>'
    parts = " ".join(table.parts[place]) if table.parts else ""
    named = f' data-parts="{escape(parts)}"' if parts else ""
    tone = f' class="{table.tones[place].value}"' if table.tones else ""
    cells = "".join(
        f'<td class="{column.align.value}{"" if number else " first"}" data-label="{word(column.title)}">'
        f"{word(cell)}</td>"
        for number, (column, cell) in enumerate(zip(table.columns, table.rows[place], strict=True))
    )
    return f"{head}<tr{named}{tone}>{cells}</tr>"
