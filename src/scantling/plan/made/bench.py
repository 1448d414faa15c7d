"""What has happened at the bench: boards begun, parts cut, and names nobody knows."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.errors import Finding, Severity
from scantling.stock.layouts.layout import BoardLayout, Layout
from scantling.stock.racks.benchnotes import Begun, BenchNotes, CutPart
from scantling.stock.racks.laid import KeptBoards

__all__ = ["BenchState", "bench_findings", "bench_state", "with_begun"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchState:
    """The notes in force.

    Parameters
    ----------
    file
        Where they are written.
    cut
        Parts that are cut.
    begun
        Boards they came from.
    price
        What those cost; None where one has no price. [money]
    leave
        Boards left alone.
    pinned
        What is to be cut first, a sentence each.
    parted
        The same as boards laid out.
    marks
        How many defects were found.
    stays
        Boards that stay as they were laid out, and are not begun.
    roots
        Pieces that pins have parted off, each with the board of the rack it is of.
    """

    file: str
    cut: tuple[CutPart, ...]
    begun: tuple[str, ...]
    price: float | None
    leave: tuple[str, ...]
    pinned: tuple[str, ...]
    parted: tuple[BoardLayout, ...]
    marks: int
    stays: tuple[str, ...] = ()
    roots: tuple[tuple[str, str], ...] = ()


def bench_state(notes: BenchNotes, begun: Begun, *, kept: KeptBoards | None = None) -> BenchState | None:
    """What is shown of the notes; None where there are none."""
    if not notes.file:
        return None
    ticked = {board for board, _ in notes.ticked}
    return BenchState(
        file=notes.file,
        cut=notes.cut,
        begun=begun.boards,
        price=begun.price,
        leave=notes.leave,
        pinned=begun.pinned,
        parted=begun.parted,
        marks=len(notes.found),
        roots=tuple((name, root) for name, (root, _, _) in begun.pieces.items()),
        stays=tuple(
            b.board.name for b in (kept.boards if kept else ()) if notes.root(b.board.name) not in ticked
        ),
    )


def bench_findings(begun: Begun, notes: BenchNotes) -> tuple[Finding, ...]:
    """Notes that could not be followed (T11)."""
    return tuple(
        Finding(
            code="T11",
            severity=Severity.HIGH,
            where=name,
            message=f"The bench notes name {name}, and it was not taken: {reason}.",
            advice="Correct the bench notes; names are those of the parts and of the rough list.",
        )
        for name, reason in (*begun.unknown, *notes.gone)
    )


def with_begun(layout: Layout, begun: Begun) -> Layout:
    """The layout with the price of the boards begun in it."""
    if not begun.boards:
        return layout
    paid = begun.price

    def both(price: float | None) -> float | None:
        return None if paid is None or price is None else paid + price

    return replace(layout, price=both(layout.price), bound_price=both(layout.bound_price))
