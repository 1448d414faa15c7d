"""Rabbets, screws and cross bolts: what they hold, what the year does to them, and what cannot be made."""

from __future__ import annotations

import pytest

from scantling.checks import mortises, movement, rabbets
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.fastening import Driven, pilot_share, pull_n
from scantling.joinery.plowing import plowed
from scantling.joinery.work import ConnectorKind, MarkKind
from scantling.piece.geometry import dot
from scantling.solids.exact import build_exact, exact_volume_mm3
from tests.joinery.bench import YEAR, Made, made_of
from tests.joinery.edge_samples import crossing_bores_mm3
from tests.joinery.samples import SAMPLES
from tests.joinery.test_impossible import faults_of, sample_text

PANEL_SWELL, PANEL_SHRINK = 100.0 * 0.00365 * 3.5, 100.0 * 0.00365 * 1.5
"""Half of a 200 mm panel of flat-sawn white oak, by Wood Handbook table 13-5. [mm]"""


def made(family: str, **options: object) -> Made:
    """The sample with other options."""
    sample = SAMPLES[family]
    given = {name: value for name, value in sample.asked("back", **options).items() if value is not None}
    return made_of(sample.parts, {"j": {"kind": family, "between": [list(sample.between)], **given}})


def judged(piece: Made) -> list[Finding]:
    """What the rules on movement say."""
    subject = Subject(piece=piece.piece, works=piece.works, moisture=YEAR)
    return [*rabbets.check(subject), *movement.check(subject)]


def test_a_loose_edge_has_room_for_its_swelling() -> None:
    """The rabbet is as much wider as the half of the panel swells, and 0.5 mm; nothing is said."""
    piece = made("rabbet", fastened="loose")
    [freedom] = piece.works[0].freedoms
    assert freedom.swell_room_mm == pytest.approx(PANEL_SWELL + 0.5)
    assert freedom.shrink_travel_mm == pytest.approx(PANEL_SHRINK)
    assert judged(piece) == []


def test_a_wide_panel_nailed_at_its_edges_is_told() -> None:
    """1.28 mm over the year, and nails give half a millimeter; a 70 mm board moves 0.45 and is let be."""
    found = judged(made("rabbet", fastened="nailed", fastener=[2, 20]))
    assert [f.code for f in found] == ["F08"]
    assert found[0].numbers["shortfall_mm"] == pytest.approx(PANEL_SWELL - 0.5)
    board = {**SAMPLES["rabbet"].parts["a"], "from": [0, 55, 7], "to": [500, 55, 7], "section": [70, 8]}
    joint = {"kind": "rabbet", "between": [["a", "b"]], "fastened": "nailed", "fastener": [2, 20]}
    assert judged(made_of({**SAMPLES["rabbet"].parts, "a": board}, {"j": joint})) == []


@pytest.mark.parametrize(("into", "codes"), [(3.7, []), (3.4, ["F03"])])
def test_an_edge_that_all_but_leaves_its_rabbet_is_told(into: float, codes: list[str]) -> None:
    """It shrinks 0.55 mm and 3 mm are to be left."""
    middle = 30.0 - into + 100.0
    panel = {**SAMPLES["rabbet"].parts["a"], "from": [0, middle, 7], "to": [500, middle, 7]}
    joint = {"kind": "rabbet", "between": [["a", "b"]], "fastened": "loose"}
    assert [f.code for f in judged(made_of({**SAMPLES["rabbet"].parts, "a": panel}, {"j": joint}))] == codes


def test_the_corner_of_a_box_glued_in_a_rabbet_is_mostly_end_grain_and_says_so() -> None:
    """An end 20 thick let 8 into a side 22 thick: its 8 mm of floor is long grain to end grain, too."""
    board = {"kind": "stick", "species": "white oak", "width_toward": "top"}
    parts = {
        "a": {**board, "from": [0, 0, 0], "to": [300, 0, 0], "section": [100, 20]},
        "b": {**board, "from": [303, -190, 0], "to": [303, 10, 0], "section": [100, 22]},
    }
    [work] = made_of(parts, {"j": {"kind": "rabbet", "between": [["a", "b"]]}}).works
    assert work.leaves == pytest.approx((0.0, 1.0, 0.0))
    assert work.glue[0].area_mm2 == pytest.approx(100.0 * (8.0 + 20.0))
    assert work.glue[0].end_grain_share == pytest.approx(1.0)
    assert work.glue[0].cross_span_mm == 0.0  # both widths run the same way


def test_a_screw_holds_by_the_handbooks_form() -> None:
    """White oak at 12 %: G 0.68; 4.5 mm, 21 mm in the wood: 108.25 G2 D L over five; in end grain 3/4."""
    piece = made("plain_screw")
    gravity = 0.68
    each = 108.25 * gravity**2 * 4.5 * 21.0 / 5.0
    assert piece.works[0].pull_n == pytest.approx(3.0 * each)
    post = piece.piece.parts["b"]
    endwise = Driven(
        at=(0.0, 0.0, 24.0), into=(1.0, 0.0, 0.0), along=(0.0, 1.0, 0.0), size_mm=(4.5, 31.0), through_mm=10.0
    )
    assert pull_n(post, endwise) == pytest.approx(0.75 * each)


def test_pilot_holes_are_by_the_wood() -> None:
    """Nine tenths of the root in oak, seven tenths in pine."""
    pine = {
        name: {**block, "species": "eastern white pine"}
        for name, block in SAMPLES["plain_screw"].parts.items()
    }
    oak, soft = made("plain_screw").piece.parts["b"], made_of(pine, {}).piece.parts["b"]
    assert (pilot_share(oak), pilot_share(soft)) == (pytest.approx(0.63), pytest.approx(0.49))


def test_plugs_are_as_many_and_as_wide_as_their_holes() -> None:
    """Three of 10 mm, 9 long: 7 in over the head, 2 proud."""
    [_, plugs] = made("plain_screw").works[0].connectors
    assert (plugs.kind, plugs.count, plugs.size_mm) == (ConnectorKind.PLUG, 3, (10.0, 9.0))


def test_screws_through_a_batten_across_wide_boards_are_told() -> None:
    """Three in 340 mm of panel: the outer two 140 mm from the middle one, 1.8 mm over the year."""
    sample = SAMPLES["slotted_screw"]
    joint = {"kind": "plain_screw", "between": [["a", "b"]], "screw": [5, 60], "count": 3}
    found = judged(made_of(sample.parts, {"j": joint}))
    assert {f.code for f in found} == {"F08"}
    few = {**joint, "count": 1}
    assert judged(made_of(sample.parts, {"j": few})) == []


def test_a_bolts_holes_leave_the_volume_of_the_closed_form_in_exact_bodies() -> None:
    """Blank less bolt, nut and dowel holes; two bores crossing share their common volume once."""
    piece = made("cross_bolt")
    blank = 400.0 * 90.0 * 24.0
    taken, _ = SAMPLES["cross_bolt"].removed(SAMPLES["cross_bolt"].options)
    assert exact_volume_mm3(build_exact(piece.shapes["a"])) == pytest.approx(blank - taken, rel=1e-7)


def test_common_volume_of_equal_bores_is_two_thirds_of_a_cube() -> None:
    """Archimedes: 16 r^3 / 3."""
    assert crossing_bores_mm3(10.0, 10.0 + 1e-9) == pytest.approx(16.0 * 125.0 / 3.0, rel=1e-4)


def test_the_bolt_ends_past_its_nut_and_its_head_lies_in_the_recess() -> None:
    """100 long, 40 under the head, nut at 55 from the shoulder: it ends 5 past the nut's middle."""
    work = made("cross_bolt").works[0]
    bolt, nut, dowels = work.connectors
    assert (bolt.kind, nut.kind, dowels.count) == (ConnectorKind.BOLT, ConnectorKind.BARREL_NUT, 2)
    shoulder = 400.0
    assert shoulder - dot(nut.frames[0].origin, (1.0, 0.0, 0.0)) == pytest.approx(55.0)
    assert dot(bolt.frames[0].origin, (1.0, 0.0, 0.0)) == pytest.approx(shoulder + 40.0 - 50.0)
    assert work.dry


def test_a_bolt_carries_what_its_nut_presses_into_the_end_grain() -> None:
    """White oak, 51.3 MPa along the grain (Wood Handbook 5-3a), on 10 x 14 mm, arm 45: a quarter counts."""
    work = made("cross_bolt").works[0]
    assert work.breaking_nmm == pytest.approx(51.3 * 10.0 * 14.0 * 45.0, rel=1e-3)
    assert work.strength.moment_nmm.may == pytest.approx(51.3 / 4.0 * 10.0 * 14.0 * 45.0, rel=1e-3)


def test_the_mark_of_the_nut_is_where_the_hole_is_cut() -> None:
    """On the face it is put in from, 55 mm from the end and in the middle of the width."""
    nut = next(mark for mark in made("cross_bolt").works[0].marks if mark.note.startswith("for the nut"))
    assert (nut.face.value, nut.from_end_mm, nut.from_face_mm) == (
        "back",
        pytest.approx(55.0),
        pytest.approx(45.0),
    )


@pytest.mark.parametrize(
    ("family", "options", "code", "field", "value"),
    [
        ("plain_screw", {"screw": [4.5, 41]}, "screw_too_long", "screw", "27.0 mm into 26.0 mm of b"),
        ("plain_screw", {"screw": [4.5, 14]}, "screw_too_short", "screw", "14.0 mm through 14.0 mm"),
        ("plain_screw", {"counterbore": 22}, "deeper_than_part", "counterbore", "22.0 mm in 22.0 mm"),
        ("plain_screw", {"counterbore": 0}, "plug_without_hole", "counterbore", "0.0 mm for plugs"),
        ("rabbet", {"fastener": [3, 30]}, "screw_too_long", "fastener", "a screw 22.0 mm into 14.0 mm of b"),
        ("rabbet", {"fastener": [3, 8]}, "screw_too_short", "fastener", "8.0 mm through 8.0 mm"),
        ("rabbet", {"clearance": 46}, "nothing_left", "", "2.7 mm of b beside 57.3 mm of it"),
        ("cross_bolt", {"bolt": [6, 60]}, "bolt_too_short", "bolt", "nut lies 15.0 mm from the end"),
        ("cross_bolt", {"nut": [10, 25]}, "deeper_than_part", "nut", "nut hole 24.5 mm deep in 24.0 mm of a"),
        ("cross_bolt", {"recess": [46, 18]}, "deeper_than_part", "recess", "2.0 mm of b left under the head"),
        ("cross_bolt", {"dowel_inset": 38}, "row_too_close", "dowel_inset", "0.0 mm of wood between"),
        ("cross_bolt", {"nut_face": "top"}, "not_a_face", "nut_face", "top of a"),
        ("cross_bolt", {"dowel": [8, 96]}, "deeper_than_part", "dowel", "49.0 mm deep in 48.0 mm of b"),
    ],
)
def test_what_cannot_be_made_is_refused(
    family: str, options: dict[str, object], code: str, field: str, value: str
) -> None:
    """With the figure, at the option."""
    [fault] = faults_of(sample_text(family, **options))
    assert (fault.code, fault.field) == (code, f"joints.j.{field}" if field else "joints.j")
    assert value in fault.value


def test_the_screw_that_is_advised_will_do() -> None:
    """Through 14 mm into 26: 41 is too long and 39 will do; 14 is too short and 15 will do."""
    for length, says, will_do in (
        (41, "at most 39 mm, or sink its head less", 39),
        (14, "longer than 14 mm", 15),
    ):
        [fault] = faults_of(sample_text("plain_screw", screw=[4.5, length]))
        assert says in fault.remedy
        assert made("plain_screw", screw=[4.5, will_do]).works
    assert "sink its head deeper" in fault.remedy


def test_a_rabbet_in_the_middle_of_a_face_is_refused() -> None:
    """The panel 3 mm under the face it should be flush with."""
    sunk = {**SAMPLES["rabbet"].parts["a"], "from": [0, 120, 4], "to": [500, 120, 4]}
    [fault] = faults_of(sample_text("rabbet", {"a": sunk}))
    assert (fault.code, fault.value) == ("rabbet_not_at_edge", "a in b")


def test_boards_side_by_side_lie_in_one_rabbet() -> None:
    """Three of 100 mm, each screwed: one rabbet of 300 mm, marked once, and no rule against its holes."""
    base = SAMPLES["rabbet"].parts
    parts: dict[str, dict[str, object]] = {"b": base["b"]}
    for k in range(3):
        ends = {"from": [50 + 100 * k, 20, 7], "to": [50 + 100 * k, 220, 7]}
        lies = {"kind": "stick", "section": [100, 8], "width_toward": "right"}
        parts[f"board_{k}"] = {**base["a"], **ends, **lies}
    pairs = [[f"board_{k}", "b"] for k in range(3)]
    joint = {"kind": "rabbet", "between": pairs, "fastened": "screwed", "fastener": [3, 20], "count": 1}
    piece = made_of(parts, {"j": joint})
    works = plowed(piece.works, piece.piece.parts)
    marks = [mark for work in works for mark in work.marks if mark.kind is MarkKind.RABBET]
    assert [mark.length_mm for mark in marks] == pytest.approx([300.0])
    assert marks[0].note.startswith("one rabbet for 3 parts")
    whole = Made(piece.piece, works)
    assert whole.removed_mm3("b") == pytest.approx(piece.removed_mm3("b"), rel=1e-6)
    assert mortises.check(Subject(piece=piece.piece, works=works, moisture=YEAR)) == []
