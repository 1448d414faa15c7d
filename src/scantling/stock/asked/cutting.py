"""How boards are cut in this shop: kerfs, edges, and what is worth keeping."""

from __future__ import annotations

import math
from dataclasses import dataclass

__all__ = ["Cutting"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """The saws and the habits of the rough stage.

    Parameters
    ----------
    crosscut_kerf_mm, rip_kerf_mm
        Width each saw turns to dust. [mm]
    straight_edge_mm
        Width lost on the lower edge when it is straightened before the first rip. [mm]
    far_edge_mm
        Width lost on the far edge: wane, bark, handling. [mm]
    resaw_kerf_mm, resaw_most_mm
        Of the saw that parts a thickness into leaves: its kerf, and the widest piece it takes on edge;
        0 where there is none. [mm]
    keep_length_mm, keep_width_mm
        Least size of an offcut worth keeping. [mm]
    """

    crosscut_kerf_mm: float = 3.2
    rip_kerf_mm: float = 3.2
    straight_edge_mm: float = 5.0
    far_edge_mm: float = 3.0
    resaw_kerf_mm: float = 1.5
    resaw_most_mm: float = math.inf
    keep_length_mm: float = 300.0
    keep_width_mm: float = 50.0
