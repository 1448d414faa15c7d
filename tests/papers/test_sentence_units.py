"""Findings, setups and notes speak the units that are shown."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from enum import StrEnum

import pytest

from scantling.papers.drawing import Sheet as Drawing
from scantling.papers.words.sentence_units import in_style
from scantling.units import LengthStyle
from scantling.units.sentences import sentence_in_inches
from tests.papers.faces import packet_texts, page_texts
from tests.plan.jobs import SHIPPED


@pytest.mark.parametrize(
    ("metric", "inches"),
    [
        ("19.05 mm bit", "3/4 in bit"),
        ("10 mm cutter, 32 mm deep", "25/64 in cutter, 1 1/4 in deep"),
        ("through the 330 mm planer", "through the 13 in planer"),
        ("center 0.5 mm away", "center 0.02 in away"),
        ("1 to 1.5 mm a cut", "0.04 to 0.06 in a cut"),
        ("41.0 kg each, at most 23 kg", "90.4 lb each, at most 51 lb"),
        ("50 N m on each of 4 joints", "37 lbf ft on each of 4 joints"),
        ("give 0.65 of 1.38 MPa", "give 94 of 200 psi"),
        ("4 of at least 818 mm make 2", "4 of at least 32 7/32 in make 2"),
        ("a corridor of 2 m", "a corridor of 78 3/4 in"),
        ("53 g, 4.5 g, 1 g and 1200 g", "1.9 oz, 0.16 oz, 0.04 oz and 2.65 lb"),
        ("0.5 L, 1 L and 5 L", "16.9 fl oz, 1.06 qt and 1.32 gal"),
        ("2.7 m², 12 cm², 140 cm³", "29.1 ft², 1.9 in², 8.5 in³"),
        ("0.005 m³ of wood, 180 g/m² of glue", "2.1 bf of wood, 0.59 oz/ft² of glue"),
        ("warm it to 20 °C; -10 °C is too cold", "warm it to 68 °F; 14 °F is too cold"),
        ("spread at 18 to 24 °C", "spread at 64 to 75 °F"),
        ("53 g at 9 a kg", "1.9 oz at 4.08 a lb"),
        ("1.5 L at 32 a liter", "1.59 qt at 30.28 a quart"),
        ("the clamps give 3 kN", "the clamps give 674 lbf"),
    ],
)
def test_a_sentence_is_told_in_inches(metric: str, inches: str) -> None:
    """Each by hand: 1 in is 25.4 mm, 1 lb 0.45359 kg, 1 lbf ft 1.3558 N m, 1 psi 6.895 kPa, 1 oz 28.35 g,
    1 qt 0.94635 L, 1 bf 2359.7 cm³; °F is 32 and 1.8 times °C (NIST Special Publication 811, appendix B).
    """
    assert sentence_in_inches(metric) == inches


@pytest.mark.parametrize("text", ["180 mm² of glue", "F29 is 7.0 degrees off", "5/16 in", "2 of 3 joints"])
def test_what_is_no_length_is_left(text: str) -> None:
    """Areas, codes, degrees, counts and inches stay as they are."""
    assert sentence_in_inches(text) == text


class _Kind(StrEnum):
    WIDE = "300 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    lines: tuple[str, ...]
    kind: _Kind = _Kind.WIDE
    inner: _Told | None = None
    drawn: Drawing | None = field(default=None)


def test_every_sentence_of_a_sheet_is_told() -> None:
    """Strings in tuples and in inner blocks, but neither names of kinds nor pictures."""
    svg = '<svg width="3 mm"/>'
    told = in_style(_Told(lines=("6 mm", svg), inner=_Told(lines=("330 mm",))), LengthStyle(inch=True))
    assert told.lines == ("15/64 in", svg)
    assert told.kind is _Kind.WIDE
    assert told.inner is not None
    assert told.inner.lines == ("13 in",)


_METRIC = re.compile(
    r"(?<![\w.,])\d[\d.,]*\s?(°C|[kcm]?m[²³23]?|N m|k?N|[kM]?Pa|[km]?g|m?[lL])(?![\w'])"
    r"|\b([mc]m|kg|m²|m³|°C|[Mm]illimeters?|[Ll]iters?|[Gg]rams?)\b"
)
_MEANT = {
    "200 mm",  # printed on both rulers of a template, beside 8 in and 6 in
    "150 mm",
    "3 mg/m3",  # the limit of a law, as the law has it
}


@pytest.mark.parametrize("piece", SHIPPED)
def test_an_inch_page_shows_no_metric_figure(piece: str) -> None:
    """Every sheet, finding and month of each shipped piece: no mm, g, L, m², °C or other metric unit."""
    shown = page_texts(piece, "in")
    assert len(shown) > 500
    assert _metric(shown) == []


@pytest.mark.parametrize("piece", ["reading_table", "hall_bench"])
def test_an_inch_packet_shows_no_metric_figure(piece: str) -> None:
    """The same of all that is printed, the lettering of its drawings too."""
    shown = packet_texts(piece, "in")
    assert len(shown) > 500
    assert _metric(shown) == []


def test_a_metric_page_shows_metric_figures() -> None:
    """The same search finds hundreds of figures in a metric page, so that it can fail."""
    assert len(_metric(page_texts("reading_table", "mm"))) > 100


def _metric(shown: tuple[str, ...]) -> list[str]:
    told = (re.sub("|".join(_MEANT), "", text) for text in shown)
    return [text for text in told if _METRIC.search(text)]
