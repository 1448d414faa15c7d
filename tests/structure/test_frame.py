"""The frame solver against closed forms, a published table of beams, and portals worked by hand."""

from __future__ import annotations

from math import inf

import pytest

from scantling.errors import InputError
from scantling.structure.frame import Bar, Node, solve_frame

L, EI, STIFF = 800.0, 2.5e9, 1e13
HELD, PINNED, FREE = (True, True, True), (True, True, False), (False, False, False)


def line(places: list[float], ends: tuple[tuple[bool, bool, bool], tuple[bool, bool, bool]]) -> list[Node]:
    """Nodes along a level line, the outer two held."""
    held = [ends[0], *[FREE] * (len(places) - 2), ends[1]]
    return [Node(x_mm=x, y_mm=0.0, held=each) for x, each in zip(places, held, strict=True)]


def bars(count: int, *, load: float = 0.0, springs: tuple[float, float] = (inf, inf)) -> list[Bar]:
    """Bars in a line, the outer ends on springs."""
    return [
        Bar(
            first=i,
            second=i + 1,
            ea_n=STIFF,
            ei_nmm2=EI,
            load_n_mm=load,
            spring_first=springs[0] if i == 0 else inf,
            spring_second=springs[1] if i == count - 1 else inf,
        )
        for i in range(count)
    ]


@pytest.mark.parametrize(
    ("ends", "spread", "factor"),
    [
        ((PINNED, PINNED), True, 5 / 384),
        ((HELD, HELD), True, 1 / 384),
        ((PINNED, PINNED), False, 1 / 48),
        ((HELD, HELD), False, 1 / 192),
    ],
    ids=["uniform simple", "uniform clamped", "middle simple", "middle clamped"],
)
def test_beams_of_wood_handbook_table_9_1(ends: tuple, spread: bool, factor: float) -> None:  # type: ignore[type-arg]
    """Deflection at the middle is k W L^3 / EI with the factor printed in FPL-GTR-190, table 9-1."""
    total = 300.0
    nodes = line([0.0, L / 2, L], ends)
    if not spread:
        nodes[1] = Node(x_mm=L / 2, y_mm=0.0, lift_n=-total)
    solved = solve_frame(nodes, bars(2, load=-total / L if spread else 0.0))
    assert solved.nodes[1].y_mm == pytest.approx(-factor * total * L**3 / EI, rel=1e-9)


@pytest.mark.parametrize(("spread", "factor"), [(True, 1 / 8), (False, 1 / 3)])
def test_cantilevers_of_wood_handbook_table_9_1(spread: bool, factor: float) -> None:
    """The free end sinks by W L^3 / 8 EI under a spread load, by W L^3 / 3 EI under one at the end."""
    total = 120.0
    nodes = line([0.0, L], (HELD, FREE))
    if not spread:
        nodes[1] = Node(x_mm=L, y_mm=0.0, lift_n=-total)
    solved = solve_frame(nodes, bars(1, load=-total / L if spread else 0.0))
    assert solved.nodes[1].y_mm == pytest.approx(-factor * total * L**3 / EI, rel=1e-9)
    held = total * L / (2.0 if spread else 1.0)
    assert solved.bars[0].first_nmm == pytest.approx(held, rel=1e-9)
    assert solved.bars[0].second_nmm == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("spring", [0.0, 2e6, 2e8, inf])
def test_a_spread_load_between_springs(spring: float) -> None:
    """End moments are q L^2 / 12 over 1 + 2 EI / k L: none at a hinge, all of it at a rigid end."""
    load = 0.5
    solved = solve_frame(line([0.0, L], (HELD, HELD)), bars(1, load=-load, springs=(spring, spring)))
    wanted = load * L**2 / 12.0 / (1.0 + 2.0 * EI / (spring * L)) if spring else 0.0
    assert solved.bars[0].first_nmm == pytest.approx(wanted, rel=1e-9, abs=1e-3)
    assert solved.bars[0].second_nmm == pytest.approx(-wanted, rel=1e-9, abs=1e-3)


def portal(
    *, height: float, span: float, push: float, rail_ei: float, spring: float, foot: tuple[bool, bool, bool]
) -> list[float]:
    """Sway, moment at the rail's end and at the foot of a portal pushed at its rail."""
    nodes = [
        Node(x_mm=0.0, y_mm=0.0, held=foot),
        Node(x_mm=0.0, y_mm=height, push_n=push),
        Node(x_mm=span, y_mm=height, sways_with=1),
        Node(x_mm=span, y_mm=0.0, held=foot),
    ]
    frame = [
        Bar(first=0, second=1, ea_n=STIFF, ei_nmm2=EI),
        Bar(first=1, second=2, ea_n=STIFF, ei_nmm2=rail_ei, spring_first=spring, spring_second=spring),
        Bar(first=2, second=3, ea_n=STIFF, ei_nmm2=EI),
    ]
    solved = solve_frame(nodes, frame)
    return [solved.nodes[1].x_mm, abs(solved.bars[1].first_nmm), abs(solved.bars[0].first_nmm)]


def test_a_portal_on_pinned_feet_with_springy_joints() -> None:
    """Sway = P h^3 / 6 EI + h M (L / 6 EI' + 1 / k), M = P h / 2 (virtual work, by hand)."""
    h, span, push, rail, k = 650.0, 900.0, 300.0, 6.0e9, 8.0e6
    sway, moment, foot = portal(height=h, span=span, push=push, rail_ei=rail, spring=k, foot=PINNED)
    by_hand = push * h**3 / (6.0 * EI) + h * push * h / 2.0 * (span / (6.0 * rail) + 1.0 / k)
    assert sway == pytest.approx(by_hand, rel=1e-5)
    assert moment == pytest.approx(push * h / 2.0, rel=1e-5)
    assert foot == pytest.approx(0.0, abs=1e-3)


def test_a_portal_on_clamped_feet() -> None:
    """Corner P h / 2 x 3 k / (6 k + 1), foot P h / 2 x (3 k + 1) / (6 k + 1), k = I' h / I L.

    A. Kleinlogel, *Rigid Frame Formulas*, recalled; that the two sum to P h / 2 is statics.
    """
    h, span, push, rail = 650.0, 900.0, 300.0, 6.0e9
    k = rail * h / (EI * span)
    _, moment, foot = portal(height=h, span=span, push=push, rail_ei=rail, spring=inf, foot=HELD)
    assert moment == pytest.approx(push * h / 2.0 * 3.0 * k / (6.0 * k + 1.0), rel=1e-5)
    assert foot == pytest.approx(push * h / 2.0 * (3.0 * k + 1.0) / (6.0 * k + 1.0), rel=1e-5)


def swaying(*leads: int | None) -> list[float]:
    """How far three legs move at their tops, 10 N on each, each swaying with the one told."""
    nodes, bars_ = [], []
    for number, lead in enumerate(leads):
        nodes += [
            Node(x_mm=500.0 * number, y_mm=0.0, held=HELD),
            Node(
                x_mm=500.0 * number,
                y_mm=L,
                push_n=10.0,
                sways_with=None if lead is None else 2 * lead + 1,
            ),
        ]
        bars_.append(Bar(first=2 * number, second=2 * number + 1, ea_n=STIFF, ei_nmm2=EI))
    return [node.x_mm for node in solve_frame(nodes, bars_).nodes[1::2]]


@pytest.mark.parametrize("leads", [(None, 0, 0), (1, 2, None), (2, 0, None), (None, 0, 1)])
def test_nodes_that_sway_with_one_another_go_as_far_in_any_order(leads: tuple[int | None, ...]) -> None:
    """A chain is followed to its end: 30 N on three like legs move all as 10 N move one."""
    assert swaying(*leads) == pytest.approx([10.0 * L**3 / (3.0 * EI)] * 3, rel=1e-9)


def test_nodes_that_sway_in_a_ring_are_refused() -> None:
    """None of them leads."""
    with pytest.raises(InputError) as refused:
        swaying(1, 0, None)
    assert refused.value.code == "sways_in_a_ring"


def test_a_turned_frame_bears_the_same() -> None:
    """A cantilever upright sways as a level one sinks."""
    nodes = [Node(x_mm=0.0, y_mm=0.0, held=HELD), Node(x_mm=0.0, y_mm=L, push_n=10.0)]
    solved = solve_frame(nodes, bars(1))
    assert solved.nodes[1].x_mm == pytest.approx(10.0 * L**3 / (3.0 * EI), rel=1e-9)
    assert solved.bars[0].first_nmm == pytest.approx(10.0 * L, rel=1e-9)


def test_a_mechanism_is_refused() -> None:
    """Two legs hinged at the floor and at the rail fall over."""
    with pytest.raises(InputError, match="without moving freely"):
        portal(height=600.0, span=800.0, push=100.0, rail_ei=1e9, spring=0.0, foot=PINNED)


@pytest.mark.parametrize(("ei", "x", "code"), [(0.0, 10.0, "not_positive"), (1.0, 0.0, "bar_without_length")])
def test_a_bar_without_substance_is_refused(ei: float, x: float, code: str) -> None:
    """No length, or no stiffness."""
    nodes = [Node(x_mm=0.0, y_mm=0.0, held=HELD), Node(x_mm=x, y_mm=0.0)]
    with pytest.raises(InputError) as caught:
        solve_frame(nodes, [Bar(first=0, second=1, ea_n=1.0, ei_nmm2=ei)])
    assert caught.value.fault.code == code
