"""What a plane cuts of a part: areas against closed forms, mirrored and raked parts, planes that miss."""

from __future__ import annotations

import math

import pytest

from scantling.papers.drawing import Fill, Hatch, Polygon, Window
from scantling.papers.marking.joint_section import ACROSS, draw_sections
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.section_pages import joint_sections
from scantling.plan.planner import Planner
from scantling.solids.section import Loop, section_loops
from scantling.solids.view import FRONT, PLAN
from scantling.units import LengthStyle
from tests.plan.jobs import demo_job, shipped_job

FIGURES = Figures(style=LengthStyle(inch=False))


def _area(loops: tuple[Loop, ...]) -> float:
    """Holes count against, for they run the other way round (the surveyor's rule)."""
    return sum(
        (a[0] * b[1] - b[0] * a[1]) / 2.0
        for loop in loops
        for a, b in zip(loop, (*loop[1:], loop[0]), strict=True)
    )


@pytest.fixture(scope="module")
def bookcase():
    """The shipped bookcase, its joints' work and its solids."""
    job, planner = shipped_job("bookcase", rack=False), Planner()
    return job.piece, planner.works(job), planner.solids(job)


def test_a_housing_takes_its_depth_times_its_width_from_the_side(bookcase) -> None:
    """Through a side at the bottom: 120 mm of it less what the housing takes, depth times width."""
    piece, works, meshes = bookcase
    work = next(w for w in works if w.family == "housing" and w.first == "bottom")
    side = piece.parts[work.second]
    mark = next(m for m in work.marks if m.part == side.name)
    loops = section_loops(side, meshes[side.name], view=FRONT, at=work.at, half_mm=60.0)
    whole = 120.0 * side.thickness_mm
    assert _area(loops) == pytest.approx(whole - mark.depth_mm * mark.width_mm, abs=0.01)


def test_what_is_loose_in_a_joint_is_drawn_and_not_hatched_along_its_length() -> None:
    """The demo's loose tenon is 10 by 52: a rectangle on bare paper in the middle of the mortise."""
    job, planner = demo_job(), Planner()
    sections = joint_sections(job.piece, planner.works(job), planner.solids(job), figures=FIGURES)
    section = next(s for s in sections if s.title == "Apron front into Front left leg")
    (tenon,) = section.loose
    (loop,) = tenon.loops
    xs, ys = [x for x, _ in loop], [y for _, y in loop]
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((10.0, 52.0), abs=0.1)
    assert tenon.lengthwise
    assert not tenon.axis
    drawn = list(draw_sections([section], room_mm=173.0).items)
    (window,) = [item for item in drawn if isinstance(item, Window)]
    hatches = [item for item in window.items if isinstance(item, Hatch)]
    assert len(hatches) == len(section.pieces) == 2
    bare = [item for item in window.items if isinstance(item, Polygon) and item.fill is Fill.PAPER]
    assert len(bare) == 1
    assert window.items.index(bare[0]) > max(window.items.index(hatch) for hatch in hatches)


def test_a_section_goes_through_a_screw_that_lies_beside_the_middle() -> None:
    """The chest's batten is screwed to the lid in slots; its screw has its axis, and no thread."""
    job, planner = shipped_job("blanket_chest", rack=False), Planner()
    sections = joint_sections(job.piece, planner.works(job), planner.solids(job), figures=FIGURES)
    section = next(s for s in sections if s.title == "Batten left into Lid")
    assert [len(thing.axis) for thing in section.loose] == [2]


def test_mirrored_and_raked_legs_are_cut_alike() -> None:
    """A level plane cuts all four legs of the demo, two of them mirrored, in one area."""
    job, planner = demo_job(), Planner()
    piece, meshes = job.piece, planner.solids(job)
    areas = [
        _area(section_loops(piece.parts[n], meshes[n], view=PLAN, at=(0.0, 0.0, 600.0), half_mm=900.0))
        for n in ("leg_fl", "leg_fr", "leg_bl", "leg_br")
    ]
    assert areas == pytest.approx([areas[0]] * 4, rel=1e-6)
    lean = abs(piece.parts["leg_fl"].frame.grain[2])
    assert math.degrees(math.acos(lean)) == pytest.approx(8.57, abs=0.01)
    assert 30.0**2 / lean < areas[0] < 48.0**2 / lean


def test_a_plane_beside_a_part_cuts_nothing(bookcase) -> None:
    """No loops where the plane misses, nor where the square does."""
    piece, _, meshes = bookcase
    side = piece.parts["side_left"]
    assert section_loops(side, meshes["side_left"], view=FRONT, at=(0.0, 5000.0, 0.0), half_mm=50.0) == ()
    assert section_loops(side, meshes["side_left"], view=FRONT, at=(5000.0, 0.0, 500.0), half_mm=50.0) == ()


def test_each_way_parts_are_joined_is_cut_open_once(bookcase) -> None:
    """Housed bottom, fixed and loose shelf are told apart; copies are not told twice; no section is blank.

    The fixed shelf is slid in from behind and the loose ones from in front; both are cut along the case.
    """
    piece, works, meshes = bookcase
    sections = joint_sections(piece, works, meshes, figures=FIGURES)
    titles = [s.title for s in sections]
    for board in ("Bottom", "Mid shelf", "Lower shelf 1"):
        assert f"{board} into Side left" in titles
    assert len(titles) == len(set(titles))
    assert not any("shelf 2" in title for title in titles)
    for section in sections:
        assert all(abs(_area(p.loops)) > 1.0 for p in section.pieces)
    sheet = draw_sections(sections[:ACROSS], room_mm=173.0)
    assert sheet.height_mm < 75.0
    pinned = next(s for s in sections if s.title == "Lower shelf 1 into Side left")
    (pin,) = pinned.loose
    assert pin.lengthwise
    assert len(pin.axis) == 2


def test_a_sliding_dovetail_is_seen_to_flare(bookcase) -> None:
    """8 deep at 1 in 8: the shelf's end is 22 thick, its neck 2 thinner."""
    piece, works, meshes = bookcase
    section = next(
        s for s in joint_sections(piece, works, meshes, figures=FIGURES) if s.title.startswith("Mid shelf")
    )
    levels: dict[float, list[float]] = {}
    for x, y in section.pieces[0].loops[0]:
        levels.setdefault(round(y, 2), []).append(x)
    wide = [max(xs) - min(xs) for _, xs in sorted(levels.items())][:2]
    assert wide == pytest.approx([22.0, 22.0], abs=1e-6)
    necks = [sorted(xs) for xs in levels.values() if len(xs) == 4]
    assert [(xs[2] - xs[1]) for xs in necks] == pytest.approx([20.0])


def test_a_section_of_the_other_hand_is_not_drawn_again() -> None:
    """The tray's corners are one miter in four hands, and its bottom goes alike into front and back."""
    job, planner = shipped_job("tray", rack=False), Planner()
    sections = joint_sections(job.piece, planner.works(job), planner.solids(job), figures=FIGURES)
    titles = [section.title for section in sections]
    assert titles == ["Front into Right side 1", "Bottom into Front", "Bottom into Right side 1"]
