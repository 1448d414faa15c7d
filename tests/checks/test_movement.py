"""Places that must move: pins, tenons, screws and clips, each at its limit and just past it."""

from __future__ import annotations

import pytest

from checks.bench import part, subject, work
from scantling.checks.movement import check
from scantling.errors import Finding, Severity
from scantling.joinery.work import Connector, ConnectorKind, Freedom
from scantling.piece.geometry import Frame, Vec

Pair = tuple[float, float]


def judged(what: str, *, family: str, room: Pair, travel: Pair) -> list[Finding]:
    """Findings on one place with that room and travel, shrink then swell."""
    freedom = Freedom(
        part="top",
        what=what,
        at=(0.0, 0.0, 0.0),
        from_fixed_mm=400.0,
        shrink_travel_mm=travel[0],
        swell_travel_mm=travel[1],
        shrink_room_mm=room[0],
        swell_room_mm=room[1],
        cut_to_mm=6.0,
    )
    joint = work("top/end", "top", "end", family=family, freedoms=(freedom,))
    return check(subject((part("top"), part("end")), (joint,)))


@pytest.mark.parametrize(
    ("what", "family", "code"),
    [
        ("pin slot 1", "breadboard_end", "F05"),
        ("tenon 3 in its mortise", "breadboard_end", "F06"),
        ("screw 2", "slotted_screw", "F08"),
    ],
)
def test_what_binds_is_found_by_what_it_is(what: str, family: str, code: str) -> None:
    """A tenth of a millimeter short trips the rule; exactly enough does not."""
    short = judged(what, family=family, room=(1.5, 2.9), travel=(1.5, 3.0))
    assert [f.code for f in short] == [code]
    assert short[0].numbers["shortfall_mm"] == pytest.approx(0.1)
    assert judged(what, family=family, room=(1.5, 3.0), travel=(1.5, 3.0)) == []


def test_a_round_pin_hole_is_told_its_slot() -> None:
    """Cherry at 400 mm, 7.5 to 6 and 10.5 %: a 6 mm hole wants 6 + 1.49 + 2.98, 0.74 mm toward the middle."""
    found = judged("pin slot 1", family="breadboard_end", room=(0.0, 0.0), travel=(1.488, 2.976))
    assert found[0].severity is Severity.STOP
    assert found[0].numbers["slot_wanted_mm"] == pytest.approx(10.464)
    assert found[0].numbers["bias_wanted_mm"] == pytest.approx(0.744)
    assert "10.5 mm" in found[0].advice


@pytest.mark.parametrize(
    ("room", "codes"),
    [
        ((5.0, 5.4), []),  # holds 3.0 when dry, 0.5 left when wet
        ((5.0, 5.3), ["F09"]),
        ((4.9, 5.4), ["F10"]),
        ((4.9, 5.3), ["F09", "F10"]),
    ],
)
def test_clips_keep_some_room_and_some_hold(room: tuple[float, float], codes: list[str]) -> None:
    """F09 below 0.5 mm left behind the tongue, F10 below 3 mm still in the groove."""
    found = judged("clip 2", family="top_clip", room=room, travel=(2.0, 4.9))
    assert [f.code for f in found] == codes


@pytest.mark.parametrize(("out", "codes"), [((0.0, -1.0, 0.0), ["F10"]), ((0.0, 1.0, 0.0), ["F09"])])
def test_a_clip_on_an_outer_face_is_pushed_the_other_way(out: Vec, codes: list[str]) -> None:
    """Shrinking draws a tongue out of an inner face's groove (F10), and deeper into an outer face's (F09)."""
    frame = Frame(origin=(0.0, 300.0, 0.0), grain=out, width=(1.0, 0.0, 0.0), thickness=(0.0, 0.0, 1.0))
    clip = Connector(kind=ConnectorKind.TOP_CLIP, count=1, size_mm=(2.0, 20.0, 38.0), frames=(frame,))
    freedom = Freedom(
        part="top",
        what="clip 1",
        at=(0.0, 300.0, 0.0),
        from_fixed_mm=300.0,
        shrink_travel_mm=2.0,
        swell_travel_mm=2.0,
        shrink_room_mm=2.4,
        swell_room_mm=5.0,
    )
    joint = work("clips", "rail", "top", family="top_clip", connectors=(clip,), freedoms=(freedom,))
    found = check(subject((part("top", width=660.0), part("rail")), (joint,)))
    assert [f.code for f in found] == codes
