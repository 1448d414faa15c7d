"""What of a plan is for its readers: how the piece is made, nothing of its maker's money, room or days."""

from __future__ import annotations

from dataclasses import replace

from scantling.papers.sheets.all import overview_sheet, sheet_of, sheets_of
from scantling.papers.sheets.model import Block, Facts, Sheet, Table
from scantling.papers.words.step_cards import StepCard, step_cards
from scantling.plan.result import Plan

__all__ = ["STEPS_AFTER", "cards_for_readers", "facts_for_readers", "sheets_for_readers"]

_TITLES = {
    "parts": "Sizes and cutting list",
    "boards": "Boards",
    "hardware": "To buy and make",
    "milling": "Milling",
    "saw": "Saw settings",
    "joints": "Joints",
    "gluing": "Glue-ups",
    "finish": "Finish",
    "faults": "What to mind",
    "strength": "Strength",
    "sources": "Cautions and sources",
}
"""The sheets, in the order a reader takes them, with their headings."""
STEPS_AFTER = "hardware"
"""The sheet after which the steps are told."""
_FACTS = frozenset({"Size", "Weight"})
_WITH_A_CLIENT = frozenset({"design", "delivery"})
"""Phases of the order of work that are between the maker and a client."""


def facts_for_readers(plan: Plan) -> tuple[tuple[str, str], ...]:
    """The few figures at the head, with their labels."""
    blocks = sheet_of(plan, overview_sheet).blocks
    return tuple(
        item for block in blocks if isinstance(block, Facts) for item in block.items if item[0] in _FACTS
    )


def sheets_for_readers(plan: Plan) -> tuple[Sheet, ...]:
    """The sheets for readers, without what names a sum of money.

    Parameters
    ----------
    plan
        The plan.
    """
    made = {sheet.id: sheet for sheet in sheets_of(plan)}
    currency = plan.pricing.currency
    return tuple(
        replace(
            made[name], title=title, blocks=tuple(_unpriced(block, currency) for block in made[name].blocks)
        )
        for name, title in _TITLES.items()
        if name in made
    )


def cards_for_readers(plan: Plan) -> tuple[StepCard, ...]:
    """The steps, without those between the maker and a client."""
    return tuple(card for card in step_cards(plan) if card.phase not in _WITH_A_CLIENT)


def _unpriced(block: Block, currency: str) -> Block:
    """A block without the lines that name a sum of money."""
    if isinstance(block, Facts):
        return replace(block, items=tuple(item for item in block.items if currency not in item[1]))
    if not isinstance(block, Table):
        return block
    kept = [place for place, row in enumerate(block.rows) if not any(currency in cell for cell in row)]
    return replace(
        block,
        rows=tuple(block.rows[place] for place in kept),
        tones=tuple(block.tones[place] for place in kept) if block.tones else (),
        groups=tuple(block.groups[place] for place in kept) if block.groups else (),
        parts=tuple(block.parts[place] for place in kept) if block.parts else (),
    )
