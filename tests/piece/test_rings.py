"""Rings in a piece file: the three names as ever, angles between, and what is wrong told with a way out."""

from __future__ import annotations

import jsonschema
import pytest

from scantling.joinery import load_piece_text, option_models
from scantling.joinery.travel import width_coefficient
from scantling.piece.files import piece_schema
from scantling.piece.model import Part
from scantling.wood.ring import Ring, rings_in_words
from tests.piece.files import SMALL, changed, data_of, fault_of, faults_of, line_of


def with_rings(written: str) -> str:
    """The stool with rings written at its seat."""
    return changed(("  seat:\n", f"  seat:\n    rings: {written}\n"))


def seat(text: str) -> Part:
    """The seat of a file."""
    return load_piece_text(text).parts["seat"]


@pytest.mark.parametrize(
    ("written", "angle", "word"),
    [
        ("flat", 0.0, "flat"),
        ("rift", 45.0, "rift"),
        ("quarter", 90.0, "quarter"),
        ("30 deg", 30.0, "30° rings"),
        ("30", 30.0, "30° rings"),
        ("12 deg + 0.5 deg", 12.5, "12.5° rings"),
        ("45 deg", 45.0, "rift"),
        ("0", 0.0, "flat"),
        ("90 deg", 90.0, "quarter"),
    ],
)
def test_names_and_angles(written: str, angle: float, word: str) -> None:
    """A name means what it did, an angle itself; 0, 45 and 90 have the names."""
    ring = seat(with_rings(written)).ring
    assert ring.ring_angle_deg == pytest.approx(angle)
    assert rings_in_words([ring]) == word


def test_left_out_they_are_flat() -> None:
    """Older files are flat-sawn where they say nothing."""
    assert seat(SMALL).ring == Ring.FLAT


def test_strips_take_angles_too() -> None:
    """Names and angles stand beside each other in a panel's strips."""
    part = seat(changed(("  seat:\n", "  seat:\n    strips: {rings: [flat, 30 deg, quarter]}\n")))
    assert part.strips is not None
    assert part.strips.rings == (Ring.FLAT, Ring(30.0), Ring.QUARTER)
    assert [width for width, _ in part.rings_across] == pytest.approx([100.0] * 3)
    assert rings_in_words(part.strips.rings) == "flat, 30°, quarter"


def test_an_angle_may_be_a_parameter() -> None:
    """A user may try another angle: a parameter gives it."""
    tilt = "  tilt: {default: 20 deg, least: 0 deg, most: 90 deg, about: Rings of the seat.}\n"
    text = changed(("parameters:\n", f"parameters:\n{tilt}"), text=with_rings("tilt"))
    assert seat(text).ring == Ring(20.0)
    tried = load_piece_text(text, given={"tilt": "50 deg"}).parts["seat"]
    assert tried.ring.ring_angle_deg == pytest.approx(50.0)


@pytest.mark.parametrize(
    ("written", "code", "remedy"),
    [
        ("120 deg", "ring_angle_out_of_range", "rings at 120 deg are written 60 deg"),
        ("-30", "ring_angle_out_of_range", "rings at -30 deg are written 30 deg"),
        ("flatt", "unknown_choice", "Did you mean flat?"),
        ("tilt", "unknown_choice", "such as 30 deg"),
        ("true", "unknown_choice", "such as 30 deg"),
        ("[30 deg]", "unknown_choice", "such as 30 deg"),
        ("30 mm", "wrong_dimension", ""),
        ("height", "wrong_dimension", ""),
        ("2 * nope", "unknown_name", ""),
    ],
)
def test_what_is_no_rings_is_told(written: str, code: str, remedy: str) -> None:
    """One fault, at its line, with the rule and a way out."""
    text = with_rings(written)
    fault = fault_of(text)
    assert (fault.code, fault.line) == (code, line_of(text, "rings: "))
    assert fault.field == "parts.seat.rings"
    assert remedy in fault.remedy
    if remedy:
        assert fault.rule == "must be flat, rift, quarter, or an angle from 0 to 90 deg"


def test_all_wrong_strips_are_told_at_once() -> None:
    """A misspelt name and an angle too wide in one list are two faults, beside one elsewhere."""
    strips = "  seat:\n    strips: {rings: [flat, flatt, 120]}\n"
    found = faults_of(changed(("  seat:\n", strips), ("[45, 45]", "[0, 45]")))
    assert [(fault.field, fault.code) for fault in found] == [
        ("parts.seat.strips.rings[2]", "unknown_choice"),
        ("parts.seat.strips.rings[3]", "ring_angle_out_of_range"),
        ("parts.post.section[1]", "section_not_positive"),
    ]


def test_the_schema_lets_names_and_angles_through() -> None:
    """An editor offers the three names, takes an angle and refuses what is neither number nor text."""
    schema = piece_schema(option_models())
    assert schema["$defs"]["PartSpec"]["properties"]["rings"]["default"] == "flat"
    checker = jsonschema.Draft202012Validator(schema)
    assert [list(checker.iter_errors(data_of(with_rings(w)))) for w in ("flat", "30 deg", "30")] == [[]] * 3
    assert all(list(checker.iter_errors(data_of(with_rings(w)))) for w in ("120", "[30]", "true"))


def test_the_seat_moves_by_its_angle() -> None:
    """Red oak at 30 deg: 0.00369 x 3/4 + 0.00158 x 1/4 = 0.0031625, by hand."""
    assert width_coefficient(seat(with_rings("30 deg"))) == pytest.approx(0.0031625)
