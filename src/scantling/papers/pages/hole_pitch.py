"""Rows of holes on a face: the first hole from the end, then how many steps of what size to the last."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from scantling.joinery.work import Mark
from scantling.papers.marking.face_view import Distance, MarkedOut
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.mark_rows import runs_of
from scantling.papers.words.chains import FIT, chain_links

__all__ = ["stepped"]


def stepped(
    marks: Sequence[Mark], drawn: Sequence[MarkedOut], *, figures: Figures
) -> tuple[tuple[MarkedOut, ...], tuple[Distance, ...]]:
    """Holes of a row but the first to be drawn without their own figure, and a distance over each row.

    Equally spaced features may be dimensioned so (ISO 129-1). Where the rounded steps miss the rounded whole,
    every hole keeps its own figure.

    Parameters
    ----------
    marks, drawn
        What is marked on a face, and how it is drawn, in the same order.
    figures
        How lengths are written.

    Returns
    -------
    tuple of MarkedOut, tuple of Distance
        The marks in their order; the distances, each once.
    """
    at: Mapping[int, int] = {id(mark): i for i, mark in enumerate(marks)}
    made = list(drawn)
    rows: dict[tuple[float, float], Distance] = {}
    for run in runs_of(marks):
        places = [at[id(mark)] for mark in run]
        low, high = sorted((made[places[0]].x_mm, made[places[-1]].x_mm))
        links = {link.text for link in chain_links([mark.from_end_mm for mark in run], figures=figures)}
        if len(links) != 1 or FIT in links:
            continue
        text = f"{len(run) - 1} × {links.pop()} (= {figures.bare(high - low)})"
        rows[round(low, 1), round(high, 1)] = Distance(low_mm=low, high_mm=high, text=text)
        for place in places[1:]:
            made[place] = replace(made[place], stepped=True)
    return tuple(made), tuple(rows.values())
