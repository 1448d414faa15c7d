"""Runs: several copies of several pieces asked of one rack."""

from __future__ import annotations

from scantling.piece.matching import WishKind
from scantling.stock import Blank, Cutting
from scantling.stock.asked.wish import Wish
from scantling.stock.buying.run import RunPiece, run_request, wishes_left
from scantling.stock.buying.yard import Needs


def _needs(*wishes: Wish) -> Needs:
    blanks = tuple(
        Blank(name=name, part=name, species="cherry", length_mm=600.0, width_mm=80.0, thickness_mm=27.0)
        for name in ("left", "right", "shelf")
    )
    return Needs(blanks=blanks, cutting=Cutting(rip_kerf_mm=3.0, crosscut_kerf_mm=3.0), wishes=wishes)


def _wish(kind: WishKind, worth: float | None) -> Wish:
    return Wish(name=kind.value, kind=kind, members=("left", "right"), worth=worth)


def test_every_copy() -> None:
    """Every copy of every piece asks for all its blanks, under names that differ."""
    pieces = (
        RunPiece(name="stool", needs=_needs(), times=3),
        RunPiece(name="box", needs=_needs(), times=2),
    )
    names = [b.name for b in run_request(pieces, ()).blanks]
    assert len(names) == len(set(names)) == 15
    assert "stool 3: shelf" in names
    assert "box 2: left" in names


def test_one_copy_keeps_its_wishes() -> None:
    """One copy of one piece is asked as it is, wishes and all."""
    needs = _needs(_wish(WishKind.SAME_BOARD, None))
    pieces = (RunPiece(name="stool", needs=needs, times=1),)
    assert run_request(pieces, ()) == needs.on(())
    assert wishes_left(pieces) == ()


def test_grain_that_runs_through() -> None:
    """What must be cut as one is cut as one in every copy; a wish for one board is told as not kept."""
    needs = _needs(_wish(WishKind.RUN_THROUGH, None), _wish(WishKind.SAME_BOARD, 5.0))
    pieces = (RunPiece(name="stool", needs=needs, times=2),)
    blanks = {b.name: b for b in run_request(pieces, ()).blanks}
    joined = blanks["stool 2: left + right"]
    assert joined.length_mm == 600.0 + 3.0 + 600.0
    assert [m.name for m in joined.members] == ["stool 2: left", "stool 2: right"]
    assert len(blanks) == 4
    assert wishes_left(pieces) == ("stool: same_board",) or wishes_left(pieces) == (
        f"stool: {WishKind.SAME_BOARD.value}",
    )
