"""Chains of sizes add up as they are shown, in every unit a maker may choose, for every shipped piece."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.papers.drawing import Side
from scantling.papers.marking.piece_views import PieceView
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.view_pages import hung_parts, three_views
from scantling.papers.words.chains import FIT, ChainLink, chain_links
from scantling.solids.exact import exact_parts
from scantling.units import LengthStyle
from tests.papers.drawn import projected_once, source_of
from tests.plan.jobs import SHIPPED

STYLES = {
    "mm": LengthStyle(inch=False, step_mm=0.5),
    "1/16": LengthStyle(inch=True, denominator=16),
    "1/32": LengthStyle(inch=True, denominator=32),
    "1/64": LengthStyle(inch=True, denominator=64),
}


def _value(text: str) -> Fraction:
    """A figure as it is read: whole and fraction, or a decimal."""
    return sum((Fraction(word) for word in text.split()), Fraction(0))


def _closes(links: tuple[ChainLink, ...], whole_mm: float, figures: Figures) -> bool:
    """Whether the figures add up to the figure of the whole, or one of them is to be fitted."""
    texts = [link.text for link in links]
    if texts.count(FIT) == 1:
        return True
    return sum(map(_value, texts), Fraction(0)) == _value(figures.bare(whole_mm))


@given(
    st.lists(st.floats(min_value=1.0, max_value=900.0), min_size=1, max_size=9),
    st.sampled_from(sorted(STYLES)),
)
def test_any_chain_closes_or_says_which_size_is_fitted(spans: list[float], style: str) -> None:
    """No chain shows figures that add up to something else; one that closes by itself has nothing to fit."""
    figures = Figures(style=STYLES[style])
    breaks = [0.0]
    for span in spans:
        breaks.append(breaks[-1] + span)
    links = chain_links(breaks, figures=figures)
    assert [link.low_mm for link in links] == breaks[:-1]
    assert _closes(links, breaks[-1], figures)
    if any(link.text == FIT for link in links):
        longest = max(high - low for low, high in pairwise(breaks))
        (fitted,) = (link for link in links if link.text == FIT)
        assert fitted.high_mm - fitted.low_mm == pytest.approx(longest, abs=1e-5)
        bare = [figures.bare(link.high_mm - link.low_mm) for link in links]
        assert sum(map(_value, bare), Fraction(0)) != _value(figures.bare(breaks[-1]))


def _on(view: PieceView, side: Side) -> tuple[ChainLink, ...]:
    """The sizes along one side of a view, as a chain."""
    sizes = (s for s in view.sizes if s.side is side)
    return tuple(ChainLink(low_mm=s.low_mm, high_mm=s.high_mm, text=s.text) for s in sizes)


@pytest.mark.parametrize("piece", SHIPPED)
def test_chains_of_the_views_add_up_in_every_unit(piece: str) -> None:
    """Sizes that stand one over the other beside the front view, in mm, 1/16, 1/32 and 1/64 in."""
    source = source_of(piece)
    bodies = exact_parts(source.shapes)
    for style in STYLES.values():
        figures = Figures(style=style)
        hung = hung_parts(source.piece, source.meshes, source.plan.joints)
        with projected_once():
            front = three_views(source.piece, source.shapes, bodies, figures=figures, hung=hung).front
        chain, (whole, *across) = _on(front, Side.RIGHT), _on(front, Side.BELOW)
        if across and across[0].low_mm > whole.low_mm + 0.5:
            across = across[1:]  # the spread of the feet
        for links in filter(None, (chain, across)):
            assert [link.high_mm for link in links[:-1]] == [link.low_mm for link in links[1:]]
            assert _closes(tuple(links), links[-1].high_mm - links[0].low_mm, figures)
    if piece == "sideboard":
        assert [link.high_mm - link.low_mm for link in across] == pytest.approx(
            [20.0, 45.0, 422.0, 22.0, 866.0, 45.0, 20.0]
        ), "overhang, leg, drawers, divider, doors, leg, overhang"
        assert len(chain) == 5, "feet, three drawers, top: no rail that is not seen"
    if piece == "bookcase":
        assert [link.high_mm - link.low_mm for link in across] == pytest.approx([22.0, 856.0, 22.0])
        assert len(chain) == 8, "plinth, six openings, top"
        boards = [0.0, *(z - 11.0 for z in (101, 439, 743, 1047, 1351, 1655, 1959)), 2000.0]
        assert [link.low_mm for link in chain] + [chain[-1].high_mm] == pytest.approx(boards)
