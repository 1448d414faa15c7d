"""Wood left by notches and joints."""

from __future__ import annotations

import math

import pytest

from checks.bench import X, Y, Z, leg, mortise, part, subject, work
from scantling.checks.mortises import hollows_by_part
from scantling.checks.sections import _at_most, _side_planes, _whole_mm2, check, removed_share
from scantling.joinery.work import Box, Cut, Hole
from scantling.piece.geometry import Frame


def notch(of: str, *, depth: float, what: str = "notch", thickness: float = 20.0) -> Cut:
    """A notch 40 long across the full width of a part, down from its upper face."""
    frame = Frame(origin=(300.0, 0.0, thickness / 2.0 - depth / 2.0), grain=X, width=Y, thickness=Z)
    return Cut(part=of, tool=Box(frame=frame, length_mm=40.0, width_mm=92.0, thickness_mm=depth), what=what)


@pytest.mark.parametrize(
    ("what", "depth", "codes"),
    [
        ("notch", 20.0 / 3.0, []),
        ("notch", 6.8, ["F21"]),
        ("halving", 10.0, []),
        ("halving", 10.1, ["F21", "F22"]),
    ],
)
def test_f21_depth_of_a_notch(what: str, depth: float, codes: list[str]) -> None:
    """A third of the depth for a notch, a half for a halving."""
    joint = work("rail/leg", "leg", "rail", cuts=(notch("rail", depth=depth, what=what),))
    assert [f.code for f in check(subject((part("rail"), leg("leg")), (joint,)))] == codes


def test_f21_says_what_is_left() -> None:
    """Half the depth leaves 25 % of the strength and 12.5 % of the stiffness (worked value)."""
    joint = work("j", "leg", "rail", cuts=(notch("rail", depth=10.0),))
    found = check(subject((part("rail"), leg("leg")), (joint,)))[0]
    assert found.numbers["strength_pct"] == pytest.approx(25.0)
    assert found.numbers["stiffness_pct"] == pytest.approx(12.5)


def test_a_notch_in_an_upright_carries_no_load_across() -> None:
    """A leg's notch is judged by the section left only."""
    frame = Frame(origin=(300.0, 0.0, 24.0 - 10.0), grain=X, width=Y, thickness=Z)
    cut = Cut(part="leg", tool=Box(frame=frame, length_mm=40, width_mm=50, thickness_mm=20), what="notch")
    assert check(subject((leg("leg"), part("r")), (work("j", "r", "leg", cuts=(cut,)),))) == []


@pytest.mark.parametrize(("depth", "codes"), [(29.0, ["F22"]), (28.0, [])])
def test_f22_joints_at_one_section(depth: float, codes: list[str]) -> None:
    """Two 20 mm mortises side by side in a 48 leg take half of it at 28.8 deep each."""
    cuts = tuple(
        mortise("leg", at=(600.0, -24.0, w), into=(0, 1, 0), along=X, size=(60, 20, depth))
        for w in (-12.0, 12.0)
    )
    works = (work("j", "a", "leg", cuts=cuts),)
    assert [f.code for f in check(subject((leg("leg"), part("a")), works))] == codes


def test_removed_share_of_a_round_hole_along_the_grain() -> None:
    """A 20 mm hole in a 40 mm square takes pi/16 of it: 0.6 % more by the prism, 1 % by the lines."""
    hole = Hole(frame=Frame(origin=(0, 0, 0), grain=X, width=Y, thickness=Z), diameter_mm=20, depth_mm=100)
    joint = work("j", "a", "leg", cuts=(Cut(part="leg", tool=hole, what="hole"),))
    piece = subject((leg("leg", width=40.0, thickness=40.0), part("a")), (joint,))
    share = removed_share(piece.part("leg"), hollows_by_part(piece)["leg"], at_mm=50.0)
    assert share == pytest.approx(math.pi / 16.0, rel=0.02)


@pytest.mark.parametrize("depth", [5.0, 17.0, 40.0])
@pytest.mark.parametrize("offset", [-20.0, 0.0, 13.0])
def test_the_quick_limit_is_never_below_what_is_measured(depth: float, offset: float) -> None:
    """Outer sizes bound what is taken, so no joint is passed over that should be measured."""
    cut = mortise("leg", at=(600.0, -24.0, offset), into=(0, 1, 0), along=X, size=(60, 12, depth))
    piece = subject((leg("leg"), part("a")), (work("j", "a", "leg", cuts=(cut,)),))
    hollows = hollows_by_part(piece)["leg"]
    measured = removed_share(piece.part("leg"), hollows, at_mm=600.0)
    post = piece.part("leg")
    whole_mm2 = _whole_mm2(post, _side_planes(post), at_mm=600.0)
    assert whole_mm2 == pytest.approx(post.width_mm * post.thickness_mm)
    assert 0.0 < measured <= _at_most(post, hollows, whole_mm2=whole_mm2) + 1e-9
