"""Marks alike stand in one line of a sheet's list, with where each of them is."""

from __future__ import annotations

from dataclasses import replace

from scantling.joinery.work import Fit, Mark, MarkKind
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.mark_rows import in_rows, mirrored
from scantling.papers.pages.marking_pages import joint_sheets, marked_parts
from scantling.piece.model import Direction, End
from scantling.units import LengthStyle
from tests.joinery.test_shelf_pin import case


def hole(from_end: float, *, from_face: float = 50.0, setup: str = "bit") -> Mark:
    """A hole of 5, 10 deep."""
    return Mark(
        part="side",
        kind=MarkKind.HOLE,
        on_end=False,
        end=End.START,
        face=Direction.RIGHT,
        reference_face=Direction.FRONT,
        from_end_mm=from_end,
        from_face_mm=from_face,
        length_mm=5.0,
        width_mm=5.0,
        depth_mm=10.0,
        fit=Fit.TIGHT,
        setup=setup,
    )


def lengths(*marks: Mark) -> list[list[float]]:
    """Places of each line of the list."""
    return [[mark.from_end_mm for mark in row] for row in in_rows(marks)]


def test_a_row_ends_where_the_distance_changes() -> None:
    """Three of 32 apart, then 100 to the next three."""
    places = [100.0, 132.0, 164.0, 264.0, 296.0, 328.0]
    assert lengths(*map(hole, places)) == [places[:3], places[3:]]


def test_rows_beside_each_other_and_other_bits_are_told_apart() -> None:
    """Front and back row in turn; a hole of another set-up among them has its own line."""
    both = [hole(at, from_face=face) for at in (10.0, 20.0, 30.0) for face in (50.0, 70.0)]
    assert [len(row) for row in in_rows(both)] == [3, 3]
    assert lengths(hole(10.0), hole(20.0, setup="other"), hole(30.0)) == [[10.0, 30.0], [20.0]]


def test_what_lies_alike_from_both_ends_is_one_line() -> None:
    """70 and 460 from either end are one line; another place, depth or note at one end is not."""
    near = [hole(70.0), hole(460.0)]
    far = [replace(mark, end=End.END) for mark in near]
    assert lengths(*near, *far) == [[70.0, 460.0, 70.0, 460.0]]
    assert mirrored([*near, *far])
    assert not mirrored(near)
    assert lengths(*near, far[0]) == [[70.0, 460.0], [70.0]]
    assert lengths(near[0], replace(far[0], depth_mm=12.0)) == [[70.0], [70.0]]
    assert lengths(near[0], replace(far[0], note="bored in place")) == [[70.0], [70.0]]


def test_tails_of_an_end_are_told_from_its_edges() -> None:
    """Four tails, two from each edge, are one line, from small to large; those of the other end another."""
    tails = [
        replace(hole(at), kind=MarkKind.TAIL, on_end=True, face=face, reference_face=Direction.LEFT, end=end)
        for end in End
        for face in (Direction.TOP, Direction.BOTTOM)
        for at in (88.0, 31.5)
    ]
    assert lengths(*tails) == [[31.5, 88.0, 31.5, 88.0]] * 2
    leaning = [replace(hole(at), tilt_deg=8.0) for at in (10.0, 20.0)]
    assert lengths(*leaning) == [[10.0], [20.0]]


def test_a_side_with_rows_has_a_line_for_each() -> None:
    """Five holes in either row: 437 to 557 from the foot, letters in order, the one in use named."""
    made = case()
    figures = Figures(style=LengthStyle(inch=False, step_mm=0.5))
    sheets = joint_sheets(marked_parts(made.piece, made.works, figures=figures), figures=figures)
    side = next(sheet for sheet in sheets if "eft" in sheet.title)
    rows = [row for row in side.marks if row.what.startswith("5 holes")]
    assert [row.from_end for row in rows] == ["437, 467, 497, 527, 557 bottom end"] * 2
    assert [row.from_face for row in rows] == ["70 front", "70 back"]
    assert [row.tag for row in rows] == ["B–F", "G–K"]
    assert "D carries shelf as drawn" in rows[0].what
