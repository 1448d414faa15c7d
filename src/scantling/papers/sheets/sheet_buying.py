"""The table of sheets to buy, on the boards sheet."""

from __future__ import annotations

from scantling.papers.sheets.model import Align, Column, Table
from scantling.papers.sheets.show import Show, names_of
from scantling.plan.timber.sheets_to_buy import BoughtSheets

__all__ = ["buying_words", "sheets_to_buy_table"]

_SHOWN_M2 = 0.01
"""Areas are shown to this; sheets usually sold differ by far more."""


def sheets_to_buy_table(bought: BoughtSheets, *, show: Show) -> Table:
    """Sheets by material, thickness and size, with what comes out of them.

    Parameters
    ----------
    bought
        What to buy.
    show
        How sizes are written.
    """
    return Table(
        title="Sheets to buy",
        columns=(
            Column(title="Material"),
            Column(title=f"Size {show.unit}, along the grain first", align=Align.RIGHT),
            Column(title="Sheets", align=Align.RIGHT),
            Column(title="Called"),
            Column(title="For"),
        ),
        rows=tuple(
            (
                p.material,
                show.by(p.length_mm, p.width_mm, p.thickness_mm),
                str(p.count),
                ", ".join(p.sheets),
                names_of(dict.fromkeys(p.parts)),
            )
            for p in bought.purchases
        ),
        parts=tuple(tuple(dict.fromkeys(p.parts)) for p in bought.purchases),
        note=buying_words(bought),
    )


def buying_words(bought: BoughtSheets) -> str:
    """How much is bought, how much of it is waste, and how much less any choice could have been."""
    sizes = "sizes of your yard" if bought.own_sizes else "usual sizes"
    exact = bought.area_m2 - bought.least_m2 < _SHOWN_M2
    least = (
        f"no choice of {sizes} has less"
        if exact
        else f"no choice of {sizes} has less than {bought.least_m2:.2f} m²"
    )
    which = (
        "Sizes are those of the shop profile, usual ones (common practice) for other materials: list what "
        if bought.own_sizes
        else "Sizes are those usually sold (common practice): ask which of them your yard has, and list what "
    )
    return (
        f"{bought.area_m2:.2f} m² in all, {bought.waste_pct:.0f} % of it waste; {least}. {which}"
        "you buy in the rack."
    )
