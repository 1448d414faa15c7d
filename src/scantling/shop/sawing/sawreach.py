"""Which saw reaches a cut: its turn, its tilt, and the height it cuts through."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.shop.operations.routing import Machine
from scantling.shop.profile.machines import Machines, MiterSaw, TableSaw, TrackSaw

__all__ = ["Reach", "reach"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """The saw for one cut.

    Parameters
    ----------
    machine
        The saw; the hand saw where no other is owned or reaches.
    reaches
        Whether a saw that is owned reaches it, or all is hand work anyway.
    why_not
        What each saw lacks, where none reaches.
    """

    machine: Machine
    reaches: bool
    why_not: tuple[str, ...] = ()


def reach(
    machines: Machines, *, miter_deg: float, bevel_deg: float, height_mm: float, across_mm: float
) -> Reach:
    """The first saw that reaches a cut: miter saw, table saw, track saw.

    A square cut may be sawn from two faces, so half the height is enough. A part that is only too wide is
    sawn by hand along a straightedge, which is no fault.

    Parameters
    ----------
    machines
        What is owned.
    miter_deg, bevel_deg
        Turn and tilt. [deg]
    height_mm
        Height of the part as it lies. [mm]
    across_mm
        Its width on the table. [mm]
    """
    lacks: list[str] = []
    square = miter_deg == 0.0 and bevel_deg == 0.0
    if square:
        height_mm /= 2.0
    for machine, lack in (
        (Machine.MITER_SAW, _miter(machines.miter_saw, miter_deg, bevel_deg, height_mm, across_mm)),
        (Machine.TABLE_SAW, _table(machines.table_saw, miter_deg, bevel_deg, height_mm, across_mm)),
        (Machine.TRACK_SAW, _track(machines.track_saw, bevel_deg, height_mm)),
    ):
        if lack == "":
            return Reach(machine=machine, reaches=True)
        if lack is not None:
            lacks.append(f"{machine.value}: {lack}")
    only_wide = all(": width " in lack for lack in lacks)
    return Reach(machine=Machine.HAND_SAW, reaches=only_wide, why_not=tuple(lacks))


def _past(what: str, found: float, most: float, unit: str) -> str:
    return "" if found <= most + 1e-6 else f"{what} {found:.1f}{unit} is past its {most:.1f}{unit}"


def _miter(saw: MiterSaw | None, miter: float, bevel: float, height: float, across: float) -> str | None:
    if saw is None:
        return None
    return (
        _past("turn", miter, saw.max_miter_deg, "°")
        or _past("tilt", bevel, saw.max_bevel_deg, "°")
        or _past("height", height, saw.height_mm * (1.0 - bevel / 90.0), " mm")
        or _past("width", across, saw.crosscut_mm, " mm")
    )


def _table(saw: TableSaw | None, miter: float, bevel: float, height: float, across: float) -> str | None:
    if saw is None:
        return None
    depth = saw.depth_square_mm + (saw.depth_tilted_mm - saw.depth_square_mm) * min(bevel, 45.0) / 45.0
    return (
        _past("turn", miter, saw.max_miter_deg, "°")
        or _past("tilt", bevel, saw.max_tilt_deg, "°")
        or _past("height", height, depth, " mm")
        or _past("width", across, saw.crosscut_capacity_mm, " mm")
    )


def _track(saw: TrackSaw | None, bevel: float, height: float) -> str | None:
    if saw is None:
        return None
    return _past("tilt", bevel, saw.max_tilt_deg, "°") or _past("depth", height, saw.depth_mm, " mm")
