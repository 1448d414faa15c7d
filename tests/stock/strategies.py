"""Random small racks and needs."""

from hypothesis import strategies as st

from scantling.piece.matching import Looks, WishKind
from scantling.stock import (
    Blank,
    Board,
    Cutting,
    Defect,
    DefectKind,
    Face,
    FirstCut,
    FreeWidthPanel,
    LayoutRequest,
    Price,
)
from scantling.stock.asked.wish import FOLDED, Wish
from scantling.wood.ring import RING_NAMES, Ring, Sawn

SPECIES = "cherry"
SAWN = ((), (), (), (Sawn.RIFT,), (Sawn.QUARTER,), (Sawn.FLAT, Sawn.QUARTER))


@st.composite
def boards(draw: st.DrawFn, number: int) -> Board:
    """A board of any shape the rack reader lets through."""
    length = draw(st.integers(600, 2600))
    width = draw(st.integers(90, 260))
    defects = []
    for _ in range(draw(st.integers(0, 3))):
        x, y = draw(st.integers(0, length - 20)), draw(st.integers(0, width - 20))
        defects.append(
            Defect(
                kind=draw(st.sampled_from(DefectKind)),
                x_mm=x,
                y_mm=y,
                length_mm=draw(st.integers(5, min(200, length - x))),
                width_mm=draw(st.integers(5, width - y)),
                face=draw(st.sampled_from(Face)),
            )
        )
    return Board(
        name=f"B{number}",
        species=SPECIES,
        quarters=draw(st.sampled_from((4.0, 5.0, 8.0))),
        length_mm=length,
        width_mm=width,
        far_width_mm=draw(st.one_of(st.none(), st.integers(80, 260))),
        left_trim_mm=draw(st.sampled_from((0.0, 2.0, 20.0))),
        right_trim_mm=draw(st.sampled_from((0.0, 2.0, 30.0))),
        defects=tuple(defects),
        price=Price(amount=draw(st.integers(10, 90))),
        first_cut=draw(st.sampled_from(FirstCut)),
        flitch=draw(st.sampled_from(("", "P", "Q"))),
        sequence=number,
        rings=draw(st.sampled_from((None, None, *RING_NAMES.values(), Ring(60.0)))),
    )


@st.composite
def requests(draw: st.DrawFn) -> LayoutRequest:
    """One to four boards, one to ten blanks and sometimes a panel."""
    rack = tuple(draw(boards(number)) for number in range(draw(st.integers(1, 4))))
    blanks = tuple(
        Blank(
            name=f"blank {number}",
            part="part",
            species=SPECIES,
            length_mm=draw(st.integers(80, 1500)),
            width_mm=draw(st.sampled_from((25.0, 40.0, 52.5, 70.0, 88.8, 130.0))),
            thickness_mm=20.0,
            quarters=draw(st.sampled_from(((), (4.0,), (4.0, 5.0), (8.0,)))),
            looks=draw(st.sampled_from(Looks)),
            grain_fixed=draw(st.booleans()),
            same_board=draw(st.sampled_from(("", "", "", "pair"))),
            sawn=draw(st.sampled_from(SAWN)),
        )
        for number in range(draw(st.integers(1, 10)))
    )
    panels = ()
    if draw(st.booleans()):
        panels = (
            FreeWidthPanel(
                name="top",
                part="top",
                species=SPECIES,
                length_mm=draw(st.integers(200, 1200)),
                total_width_mm=draw(st.integers(80, 500)),
                thickness_mm=20.0,
                least_strip_mm=draw(st.integers(30, 80)),
                greatest_strip_mm=draw(st.integers(80, 160)),
                edge_loss_mm=draw(st.sampled_from((0.0, 6.0))),
                least_count=draw(st.integers(1, 2)),
                greatest_count=draw(st.integers(2, 8)),
                sawn=draw(st.sampled_from(SAWN)),
            ),
        )
    cutting = Cutting(
        crosscut_kerf_mm=draw(st.sampled_from((0.0, 2.2, 3.175, 5.0))),
        rip_kerf_mm=draw(st.sampled_from((0.0, 1.0, 3.2))),
        straight_edge_mm=draw(st.sampled_from((0.0, 5.0))),
        far_edge_mm=draw(st.sampled_from((0.0, 3.0))),
    )
    wishes = draw(wishes_between([b.name for b in blanks], [p.name for p in panels]))
    return LayoutRequest(boards=rack, blanks=blanks, panels=panels, cutting=cutting, wishes=wishes)


@st.composite
def wishes_between(draw: st.DrawFn, blanks: list[str], panels: list[str]) -> tuple[Wish, ...]:
    """None to two wishes, musts and others."""
    found = []
    for number in range(draw(st.sampled_from((0, 0, 0, 1, 2)))):
        kind = draw(st.sampled_from(WishKind))
        names = blanks if kind in FOLDED else [*blanks, *panels]
        members = draw(st.lists(st.sampled_from(names), unique=True, min_size=1, max_size=4))
        if kind is WishKind.BOOK:
            members = members[: len(members) // 2 * 2]
        if members:
            worth = draw(st.sampled_from((None, 5.0, 60.0)))
            found.append(Wish(name=f"wish {number}", kind=kind, members=tuple(members), worth=worth))
    return tuple(found)
