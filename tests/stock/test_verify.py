"""The checker: a sound layout passes, and every single damage to it is caught by name."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from scantling.stock import (
    Blank,
    Board,
    Cutting,
    Defect,
    DefectKind,
    Layout,
    LayoutRequest,
    Price,
    lay_out,
    verify_layout,
)

KNOT = Defect(kind=DefectKind.KNOT, x_mm=900, y_mm=50, length_mm=80, width_mm=60)
BOARDS = (
    Board(
        name="A",
        species="cherry",
        quarters=4,
        width_mm=170,
        length_mm=2000,
        defects=(KNOT,),
        price=Price(amount=40),
    ),
    Board(name="B", species="cherry", quarters=4, width_mm=120, length_mm=900, price=Price(amount=60)),
)
BLANKS = tuple(
    Blank(name=f"rail {n}", part="rail", species="cherry", length_mm=800, width_mm=70, thickness_mm=25)
    for n in range(4)
)
REQUEST = LayoutRequest(boards=BOARDS, blanks=BLANKS)
SOUND = lay_out(REQUEST)


def codes(layout: Layout) -> set[str]:
    """Names of the rules a layout breaks."""
    broken = verify_layout(layout, boards=BOARDS, blanks=BLANKS, cutting=REQUEST.cutting)
    return {b.code for b in broken}


def moved(layout: Layout, **changes: float) -> Layout:
    """The layout with its first blank changed."""
    board = layout.boards[0]
    placed = (replace(board.placed[0], **changes), *board.placed[1:])
    return replace(layout, boards=(replace(board, placed=placed), *layout.boards[1:]))


def recut(layout: Layout, change: Callable[[tuple], tuple]) -> Layout:  # type: ignore[type-arg]
    """The layout with its list of cuts changed."""
    board = layout.boards[0]
    return replace(layout, boards=(replace(board, cuts=change(board.cuts)), *layout.boards[1:]))


def test_the_sound_layout_passes() -> None:
    """Four rails fit the cheap board beside its knot, and the checker has nothing to say."""
    assert codes(SOUND) == set()
    assert (SOUND.complete, SOUND.price, SOUND.bound_price) == (True, 40.0, 40.0)


@pytest.mark.parametrize(
    ("code", "damage"),
    [
        ("outside_length", lambda s: moved(s, x_mm=-1.0)),
        ("outside_width", lambda s: moved(s, y_mm=4.0)),
        ("on_defect", lambda s: moved(s, x_mm=600.0)),
        ("wrong_size", lambda s: moved(s, width_mm=69.0)),
        ("wrong_place", lambda s: moved(s, x_mm=s.boards[0].placed[0].x_mm + 0.5)),
        ("overlap", lambda s: moved(s, y_mm=s.boards[0].placed[1].y_mm - 60.0)),
        ("no_kerf", lambda s: moved(s, y_mm=s.boards[0].placed[1].y_mm - 71.0)),
        ("cut_order", lambda s: recut(s, lambda cuts: cuts[::-1])),
        ("not_freed", lambda s: recut(s, lambda cuts: cuts[:-1])),
        ("price", lambda s: replace(s, price=39.0)),
        ("waste", lambda s: replace(s, waste_pct=1.0)),
        ("short", lambda s: replace(s, short_proven=True)),
        ("bound", lambda s: replace(s, bound_price=41.0)),
        ("missing", lambda s: replace(s, boards=(replace(s.boards[0], placed=s.boards[0].placed[1:]),))),
        ("twice", lambda s: replace(s, unplaced=(BLANKS[0],))),
        ("unasked", lambda s: replace(s, unplaced=(replace(BLANKS[0], name="stray"),))),
        ("boards", lambda s: replace(s, unused=())),
        ("kerf", lambda s: recut(s, lambda c: (replace(c[0], length_mm=1.0), *c[1:]))),
        ("stage", lambda s: recut(s, lambda c: (replace(c[0], stage=2), *c[1:]))),
        ("too_many_stages", lambda s: recut(s, lambda c: (*c[:-1], replace(c[-1], stage=6)))),
    ],
)
def test_every_damage_is_caught(code: str, damage: Callable[[Layout], Layout]) -> None:
    """One thing made wrong is named, whatever else follows from it."""
    assert code in codes(damage(SOUND))


def test_blanks_that_must_share_a_board() -> None:
    """A group on two boards is caught, and the search never makes one."""
    blanks = tuple(replace(b, same_board="set") for b in BLANKS)
    layout = lay_out(LayoutRequest(boards=BOARDS, blanks=blanks))
    assert verify_layout(layout, boards=BOARDS, blanks=blanks, cutting=Cutting()) == ()
    board = layout.boards[0]
    torn = replace(
        layout,
        boards=(
            replace(board, placed=board.placed[1:]),
            replace(board, board=BOARDS[1], placed=board.placed[:1]),
        ),
    )
    broken = verify_layout(torn, boards=BOARDS, blanks=blanks, cutting=Cutting())
    assert "not_together" in {b.code for b in broken}
