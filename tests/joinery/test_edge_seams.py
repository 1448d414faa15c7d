"""Loose boards side by side: the gap and the lap that their year asks for, and what a glued seam wants."""

from __future__ import annotations

from itertools import pairwise

import pytest

from scantling.checks.laps import check
from scantling.checks.subject import Subject
from scantling.errors import Finding
from tests.joinery.bench import YEAR, Made, made_of
from tests.joinery.samples import SAMPLES
from tests.joinery.test_impossible import faults_of, sample_text

# White oak, flat sawn: C 0.00365 (Wood Handbook table 13-5); boards of 110 and 100 mm, held at their
# middles, so 105 mm across the grain meet at the seam; 8 % at build, 6.5 % driest, 11.5 % wettest.
SHRINK, SWELL = 105.0 * 0.00365 * 1.5, 105.0 * 0.00365 * 3.5


def seam(family: str, **options: object) -> Made:
    """The sample's two boards with options given, the others left out."""
    sample = SAMPLES[family]
    over = {"over": "top"} if family == "shiplap" else {}
    return made_of(sample.parts, {"j": {"kind": family, "between": [["a", "b"]], **over, **options}})


def judged(made: Made) -> list[Finding]:
    """What the rules say of it."""
    return check(Subject(piece=made.piece, works=made.works, moisture=YEAR))


@pytest.mark.parametrize("family", ["tongue_groove", "shiplap"])
def test_a_seam_left_to_the_year_just_shuts_and_stays_covered(family: str) -> None:
    """Gap = swelling + 0.5 mm; 10 mm of lap lose the shrinkage."""
    made = seam(family)
    [freedom] = made.works[0].freedoms
    assert freedom.cut_to_mm == pytest.approx(SWELL + 0.5)
    assert (freedom.shrink_travel_mm, freedom.swell_travel_mm) == (
        pytest.approx(SHRINK),
        pytest.approx(SWELL),
    )
    assert freedom.shrink_room_mm == pytest.approx(10.0)
    assert judged(made) == []


@pytest.mark.parametrize("family", ["tongue_groove", "shiplap"])
def test_a_gap_a_hair_too_small_is_told_what_it_wants(family: str) -> None:
    """A tenth of a millimeter less than the swelling trips the rule; the swelling itself does not."""
    short = judged(seam(family, gap=round(SWELL - 0.1, 4)))
    assert [f.code for f in short] == ["F02"]
    assert short[0].numbers["shortfall_mm"] == pytest.approx(0.1, abs=1e-4)
    assert "1.3 mm apart" in short[0].advice
    assert judged(seam(family, gap=round(SWELL + 1e-4, 4))) == []


@pytest.mark.parametrize(("lap", "codes"), [(3.6, []), (3.5, ["F03"])])
def test_a_lap_that_all_but_opens_is_told(lap: float, codes: list[str]) -> None:
    """Shrinkage 0.57 mm and 3 mm to be left: 3.6 mm of lap are enough, 3.5 are not."""
    sample = SAMPLES["shiplap"]
    narrow = {**sample.parts["b"], "from": [0, 105 - lap, 0], "to": [500, 105 - lap, 0]}
    joint = {"kind": "shiplap", "between": [["a", "b"]], "over": "top"}
    found = judged(made_of({**sample.parts, "b": narrow}, {"j": joint}))
    assert [f.code for f in found] == codes


def test_a_gap_wider_than_may_show_is_told() -> None:
    """2 mm and the shrinkage: 2.57 mm may show, or not."""
    assert [f.code for f in judged(seam("shiplap", gap=2, widest=2.5))] == ["F71"]
    assert judged(seam("shiplap", gap=2, widest=2.6)) == []


def test_a_glued_tongue_moves_nowhere_and_has_its_faces_for_glue() -> None:
    """500 mm of seam, 20 mm thick and twice the 10 mm of tongue."""
    [work] = seam("tongue_groove", glued=True).works
    assert work.freedoms == ()
    assert not work.dry
    assert work.glue[0].area_mm2 == pytest.approx(500.0 * (20.0 + 2.0 * 10.0))
    assert work.clamp is not None
    assert work.clamp.direction == pytest.approx((0.0, 1.0, 0.0))


def test_the_first_board_lies_over_on_the_face_named() -> None:
    """Its lap keeps the upper half, or the lower."""
    for over, level in (("top", -5.05), ("bottom", 5.05)):
        made = seam("shiplap", over=over)
        cut = next(cut for cut in made.works[0].cuts if cut.part == "a")
        middle = made.piece.parts["a"].frame.point(cut.tool.frame.origin)[2]
        assert abs(middle) > 4.0
        assert (middle < 0.0) is (level < 0.0)


def test_a_spline_is_made_as_wide_as_both_grooves_less_room() -> None:
    """2 (10 - 0.5) wide, 6 thick, as long as the seam; glue on the seam and both faces of the strip."""
    [work] = made_of(
        SAMPLES["spline"].parts,
        {"j": {"kind": "spline", "between": [["a", "b"]], "depth": 10, "thickness": 6}},
    ).works
    assert work.connectors[0].size_mm == pytest.approx((6.0, 19.0, 500.0))
    assert work.glue[0].area_mm2 == pytest.approx(500.0 * 22.0 + 19.0 * 500.0)


def test_stopped_grooves_and_spline_stop_alike() -> None:
    """40 mm short of both ends: 420 mm of groove and of spline."""
    options = {"depth": 10, "thickness": 6, "stopped": 40}
    made = made_of(SAMPLES["spline"].parts, {"j": {"kind": "spline", "between": [["a", "b"]], **options}})
    assert made.works[0].connectors[0].size_mm[2] == pytest.approx(420.0)
    assert made.removed_mm3("a") == pytest.approx(420.0 * 6.1 * 10.0, rel=1e-6)


@pytest.mark.parametrize(
    ("family", "options", "code", "field", "value"),
    [
        ("tongue_groove", {"tongue": 16.4}, "wall_too_thin", "tongue", "1.7 mm beside a 16.4 mm tongue"),
        ("tongue_groove", {"shift": 4.5}, "wall_too_thin", "tongue", "1.4 mm beside"),
        ("shiplap", {"over": "left"}, "not_a_face", "over", "left of a"),
        ("spline", {"thickness": 18.5}, "wall_too_thin", "thickness", "1.7 mm beside a 18.5 mm spline"),
        ("spline", {"depth": 120}, "deeper_than_part", "depth", "120.0 mm deep in"),
        ("spline", {"depth": 3}, "spline_too_narrow", "depth", "5.0 mm wide and 6.0 mm thick"),
        ("spline", {"stopped": 250}, "nothing_left", "stopped", "0.0 mm of groove"),
    ],
)
def test_what_cannot_be_cut_is_refused(
    family: str, options: dict[str, object], code: str, field: str, value: str
) -> None:
    """With the figure, at the option."""
    [fault] = faults_of(sample_text(family, **options))
    assert (fault.code, fault.field) == (code, f"joints.j.{field}")
    assert value in fault.value


def test_thin_laps_are_refused() -> None:
    """8 mm boards halved leave 3.9 mm."""
    parts = {
        name: {**block, "section": [block["section"][0], 8]}
        for name, block in SAMPLES["shiplap"].parts.items()
    }
    [fault] = faults_of(sample_text("shiplap", parts))
    assert (fault.code, fault.value) == ("lap_too_thin", "3.9 mm of 8.0 mm")


@pytest.mark.parametrize("family", ["tongue_groove", "shiplap"])
def test_boards_that_are_not_flush_are_refused(family: str) -> None:
    """The second 3 mm thicker than the first."""
    thick = {**SAMPLES[family].parts["b"], "section": [100, 23]}
    [fault] = faults_of(sample_text(family, {"b": thick}))
    assert fault.code == "boards_not_side_by_side"
    assert fault.value == "a and b, whose faces are not flush"


def ledged(boards: int, *, screws: int) -> Made:
    """A door of shiplapped boards 110 wide, each screwed to two battens across them."""
    parts: dict[str, dict[str, object]] = {}
    pitch = 100.0
    for k in range(boards):
        y = k * pitch
        parts[f"board_{'abcdef'[k]}"] = {
            **SAMPLES["shiplap"].parts["a"],
            "from": [0, y, 0],
            "to": [800, y, 0],
        }
    for name, x in (("upper", 120), ("lower", 680)):
        ends = {"from": [x, -45, 25], "to": [x, pitch * (boards - 1) + 45, 25]}
        batten = {"kind": "stick", "species": "white oak", "section": [70, 30], "width_toward": "right"}
        parts[name] = {**batten, **ends}
    names = [name for name in parts if name.startswith("board")]
    joints = {
        "seam": {"kind": "shiplap", "between": [list(p) for p in pairwise(names)], "over": "top"},
        "ledge": {
            "kind": "slotted_screw",
            "between": [[batten, board] for batten in ("upper", "lower") for board in names],
            "screw": [4.5, 40],
            "count": screws,
            "inset": 25,
        },
    }
    return made_of(parts, joints)


def test_battens_across_boards_let_each_board_move_about_its_own_middle() -> None:
    """One screw in the middle of each board wants no slot; of two, one is slotted by what 50 mm move."""
    one, two = ledged(4, screws=1), ledged(4, screws=2)
    slots = [f for w in one.works if w.family == "slotted_screw" for f in w.freedoms]
    assert slots == []
    moving = [f for w in two.works if w.family == "slotted_screw" for f in w.freedoms]
    assert moving
    assert not any(f.binds for f in moving)
    assert judged(one) == []
