"""Parts the tests of this folder mill, saw and glue."""

from __future__ import annotations

from scantling.piece.model import PartKind
from scantling.shop.sizes.size import EndCut, FinishedSize, Section

__all__ = ["apron", "bare", "odd_parts", "panel", "post", "sheet"]


def bare(
    kind: PartKind, length_mm: float, width_mm: float, thickness_mm: float, **more: object
) -> FinishedSize:
    """A part of black cherry."""
    return FinishedSize(
        name="part",
        like=str(more.pop("like", "part")),
        kind=kind,
        species="black cherry",
        length_mm=length_mm,
        width_mm=width_mm,
        thickness_mm=thickness_mm,
        **more,  # type: ignore[arg-type]
    )


def apron(**more: object) -> FinishedSize:
    """A stick of 1000 x 90 x 20."""
    return bare(PartKind.STICK, 1000.0, 90.0, 20.0, **more)


def panel(width_mm: float = 660.0, **more: object) -> FinishedSize:
    """A panel of 1220 x 660 x 24."""
    return bare(PartKind.PANEL, 1220.0, width_mm, 24.0, **more)


def post(side_mm: float = 3.5 * 25.4, **more: object) -> FinishedSize:
    """A lamination 3 1/2 in square, 730 long."""
    return bare(PartKind.LAMINATION, 730.0, side_mm, side_mm, **more)


def sheet() -> FinishedSize:
    """A sheet part."""
    return bare(PartKind.SHEET, 600.0, 400.0, 6.0)


def odd_parts() -> tuple[FinishedSize, ...]:
    """One of each kind, and the odd ones."""
    return (
        apron(),
        apron(end_cut=EndCut.FLUSH_AFTER),
        bare(PartKind.STICK, 450.0, 38.0, 38.0, section=Section.ROUND),
        panel(),
        panel(280.0),
        post(),
        sheet(),
    )
