"""What is carried in, from the plan's loads."""

from __future__ import annotations

from scantling.papers.packet.sections import LoadRow
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.show import word
from scantling.papers.words.moving_words import alone_words, way_words
from scantling.plan.standing.moving import Moving

__all__ = ["load_rows"]


def load_rows(moving: Moving, *, figures: Figures) -> tuple[LoadRow, ...]:
    """The whole piece, then what it comes apart into.

    Parameters
    ----------
    moving
        Of the plan.
    figures
        How figures are written.
    """
    rows = []
    for load in (moving.whole, *moving.apart):
        name = word(load.name)
        rows.append(
            LoadRow(
                load=name[:1].upper() + name[1:],
                weight=figures.mass(load.mass_kg),
                box=figures.sizes(*load.size_mm),
                people=str(load.lift.people),
                alone=alone_words(load),
                way=way_words(load, figures.length),
            )
        )
    return tuple(rows)
