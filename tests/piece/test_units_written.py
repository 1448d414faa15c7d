"""Limits are compared in one unit and told in the one written; a missing unit is told where it is missing."""

from __future__ import annotations

import pytest

from scantling.errors import FileFaults
from scantling.joinery import load_piece_text
from scantling.piece.model import Piece
from tests.piece.files import SMALL, changed, fault_of, faults_of, line_of

BOX = """\
scantling: 1
title: Small box
units: in
parameters:
  long: {default: 12 in, least: 9 in, most: 16 in, about: Outside length.}
  deep: {default: 7 in, least: 5 in, most: 9 in, about: Outside depth.}
values:
  side: 1/2 in
  share: 1/2
parts:
  front:
    kind: stick
    species: black walnut
    center: [0, 0, 3 in]
    along: right
    length: long - 2*side
    section: [5, side]
    width_toward: top
    trim: {start: left.right, end: right.left}
  left:
    kind: stick
    species: black walnut
    center: [-(long - side)/2, (deep - side) * share, 3 in]
    along: back
    length: deep
    section: [5, side]
    width_toward: top
    copies:
      right: {mirror: [left-right]}
joints:
  corners:
    kind: dovetail
    between:
      - [front.start, left]
      - [front.end, right]
    pin: 1/4
"""


def box(*pairs: tuple[str, str]) -> Piece:
    """The box with some wording changed."""
    return load_piece_text(changed(*pairs, text=BOX))


@pytest.mark.parametrize(
    ("written", "pin_mm"), [("1/4", 6.35), ("1/4 in", 6.35), ("6 mm", 6.0), ("side/2", 6.35), (0.25, 6.35)]
)
def test_a_limit_in_millimeters_lets_inches_through_that_are_within_it(
    written: object, pin_mm: float
) -> None:
    """A limit in millimeters lets inches through that are within it."""
    [first, _] = box(("pin: 1/4", f"pin: {written}")).joints
    assert first.options.pin == pytest.approx(pin_mm)


@pytest.mark.parametrize(
    ("option", "rule", "value"),
    [
        ("pin: 1/16", "must be at least 1/8 in (3 mm)", "1/16"),
        ("pin: 0.1", "must be at least 1/8 in (3 mm)", "0.1"),
        ("pin: 1 mm", "must be at least 3 mm", "1 mm"),
        ("pin: side/8", "must be at least 1/8 in (3 mm)", "side/8 = 1/16 in"),
        ("half_pin: 1/32", "must be at least 3/32 in (2 mm)", "1/32"),
        ("slope: long/deep", "must be at least 4", "long/deep = 1.71429"),
        ("tails: 99", "must be at most 60", "99"),
    ],
)
def test_a_limit_of_an_option_is_told_in_the_unit_written(option: str, rule: str, value: str) -> None:
    """A limit of an option is told in the unit written."""
    fault = fault_of(changed(("pin: 1/4", option), text=BOX))
    assert (fault.code, fault.rule, fault.value) == ("out_of_range", rule, value)


def test_names_are_held_against_no_limit_until_they_stand_for_something() -> None:
    """Names are held against no limit until they stand for something."""
    [first, _] = box(("pin: 1/4", "pin: side/2\n    slope: long/1.5 in")).joints
    assert first.options.slope == pytest.approx(8.0)


def test_an_option_left_out_has_its_usual_size_whatever_the_unit() -> None:
    """An option left out has its usual size whatever the unit."""
    [first, _] = box(("    pin: 1/4\n", "")).joints
    assert first.options.pin == 6.0


def test_a_way_in_is_told_in_inches() -> None:
    """A way in is told in inches."""
    fault = fault_of(changed(("joints:", "brief: {door_width: 3}\njoints:"), text=BOX))
    assert fault.rule == "must lie in 7 7/8 in (200 mm) .. 1968 1/2 in (50000 mm)"


@pytest.mark.parametrize(
    ("given", "rule"),
    [
        ("8", "must be 9 in to 16 in"),
        ("8 in", "must be 9 in to 16 in"),
        ("200 mm", "must be 228.6 mm to 406.4 mm"),
    ],
)
def test_the_range_of_a_parameter_is_told_in_the_unit_asked_for(given: str, rule: str) -> None:
    """The range of a parameter is told in the unit asked for."""
    assert fault_of(BOX, long=given).rule == rule


def test_a_range_in_millimeters_is_told_in_inches_to_who_asks_in_inches() -> None:
    """A range in millimeters is told in inches to who asks in inches."""
    fault = fault_of(SMALL, height="9 in")
    assert fault.rule == "must be 11 13/16 in (300 mm) to 19 43/64 in (500 mm)"


def test_limits_of_a_parameter_without_a_unit_are_in_the_files() -> None:
    """Limits of a parameter without a unit are in the files."""
    [long, _] = box(("least: 9 in, most: 16 in", "least: 9, most: 16")).parameters
    assert (long.least, long.most) == (pytest.approx(228.6), pytest.approx(406.4))


def test_one_limit_alone_is_told_alone() -> None:
    """One limit alone is told alone."""
    text = changed((", least: 9 in, most: 16 in", ", least: 9 in"), text=BOX)
    assert fault_of(text, long="8 in").rule == "must be at least 9 in"


def test_what_a_joint_refuses_is_told_in_inches_and_says_what_the_file_leaves_out() -> None:
    """What a joint refuses is told in inches and says what the file leaves out."""
    fault = faults_of(changed(("pin: 1/4", "pin: 3"), text=BOX))[0]
    assert "mm" not in f"{fault}"
    assert fault.value.endswith("the pins fill it (tails is not written: this is the computed one)")


def test_bare_numbers_used_as_lengths_are_told_once_each_where_they_stand() -> None:
    """Bare numbers used as lengths are told once each where they stand."""
    text = changed(
        ("default: 12 in, least: 9 in, most: 16 in", "default: 12, least: 9, most: 16"),
        ("default: 7 in, least: 5 in, most: 9 in", "default: 7, least: 5, most: 9"),
        ("side: 1/2 in", "side: 1/2"),
        text=BOX,
    )
    told = [(fault.field, fault.value, fault.remedy) for fault in faults_of(text)]
    assert told == [
        ("parameters.long.default", "12", "Write 12 in, least: 9 in, most: 16 in."),
        ("parameters.deep.default", "7", "Write 7 in, least: 5 in, most: 9 in."),
        ("values.side", "1/2", "Write 1/2 in."),
    ]


def test_a_bare_number_that_is_a_share_is_not_blamed_for_a_length_without_a_unit() -> None:
    """A bare number that is a share is not blamed for a length without a unit."""
    text = changed(
        ("default: 7 in, least: 5 in, most: 9 in", "default: 7, least: 5, most: 9"),
        ("length: deep", "length: share * deep + deep / 2"),
        text=BOX,
    )
    assert [fault.field for fault in faults_of(text)] == ["parameters.deep.default"]


def test_a_name_of_a_bare_number_behind_another_is_found() -> None:
    """A name of a bare number behind another is found."""
    text = changed(("side: 1/2 in", "half: 1/4\n  side: half * 2"), text=BOX)
    assert fault_of(text).field == "values.half"


def test_a_bare_number_used_as_an_angle_is_told_where_it_stands() -> None:
    """A bare number used as an angle is told where it stands."""
    text = changed(("side: 1/2 in", "lean: 4\n  side: 1/2 in\n  out: long * tan(lean)"), text=BOX)
    fault = fault_of(text)
    assert (fault.field, fault.line, fault.remedy) == (
        "values.lean",
        line_of(text, "lean: 4"),
        "Write 4 deg.",
    )


def test_a_bare_default_beside_limits_with_units_is_told_at_the_default() -> None:
    """A bare default beside limits with units is told at the default."""
    fault = fault_of(changed(("default: 12 in", "default: 12"), text=BOX))
    assert (fault.field, fault.remedy) == ("parameters.long.default", "Write 12 in.")


@pytest.mark.parametrize("written", ["1 1/2", "thick - 1/2", "½"])
def test_a_bare_fraction_is_no_length_in_millimeters(written: str) -> None:
    """A bare fraction is no length in millimeters."""
    fault = fault_of(changed(("length: 400", f"length: {written}")))
    assert fault.code == "fraction_of_millimeter"
    assert "Did you mean" in fault.remedy


def test_a_fraction_that_is_a_share_is_one_in_millimeters_too() -> None:
    """A fraction that is a share is one in millimeters too."""
    piece = load_piece_text(changed(("length: 400", "length: 1/2 * 800 mm")))
    assert piece.parts["seat"].length_mm == pytest.approx(400.0)


def test_a_file_with_bare_fractions_reads_in_inches() -> None:
    """A file with bare fractions reads in inches."""
    with pytest.raises(FileFaults, match="Did you mean 1/4 in"):
        load_piece_text(changed(("units: in", "units: mm"), text=BOX))


@pytest.mark.parametrize(
    ("old", "new", "field", "told"),
    [
        ("scantling: 1\n", "", "scantling", "scantling: 1"),
        ("pin: 1/4", "pin:", "joints.corners.pin", "got nothing"),
        ("[front.start, left]", "[front.start left]", "joints.corners.between[1][2]", "comma"),
        ("black walnut", "blackwalnut", "parts.front.species", "one of: black walnut"),
        ("black walnut", "whiteoak", "parts.front.species", "one of: white oak"),
        ("black walnut", "maple", "parts.front.species", "sugar maple"),
    ],
)
def test_a_common_slip_is_told_with_what_to_write(old: str, new: str, field: str, told: str) -> None:
    """The remedy has the words that mend it."""
    fault = fault_of(changed((old, new), text=BOX))
    assert fault.field == field
    assert told in str(fault)
