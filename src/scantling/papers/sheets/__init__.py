"""What is shown of a plan, one subject a sheet."""

from scantling.papers.sheets.model import (
    Align,
    Block,
    Caution,
    Column,
    Facts,
    Picture,
    Sheet,
    Table,
    Tone,
    Words,
)

__all__ = ["Align", "Block", "Caution", "Column", "Facts", "Picture", "Sheet", "Table", "Tone", "Words"]
