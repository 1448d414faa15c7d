"""A glue-up: one batch of glue, spread, closed and clamped before it sets."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from scantling.piece.geometry import Vec
from scantling.shop.gluing.pressing import ClampPlan
from scantling.shop.gluing.spreading import StageTime

__all__ = ["Caul", "GlueUp", "GlueUpKind", "Wedge"]


class GlueUpKind(StrEnum):
    """What is glued."""

    STRIPS = "strips to a panel"
    LAYERS = "layers to a lamination"
    ASSEMBLY = "parts to each other"
    DRY = "parts put together without glue"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wedge:
    """Wedges under clamp pads, where the faces clamped are out of parallel.

    Parameters
    ----------
    joint
        Where.
    angle_deg
        Angle of the wedge: that of the slope. [deg]
    count
        Wedges to cut.
    needed
        Whether the clamp would slip without; else they only spare the faces.
    offcut
        Name of the offcut they are cut from; empty for any scrap of their size.
    """

    joint: str
    angle_deg: float
    count: int
    needed: bool
    offcut: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caul:
    """Blocks laid on the corners of a ring, notched to them, so that a band presses both faces of each.

    Parameters
    ----------
    corner_deg
        The angle of the notch: between the two outer faces. [deg]
    flank_deg
        Each side of the notch out of the block's own face: the tilt of the blade. [deg]
    count
        Blocks to cut.
    length_mm
        Along the corner. [mm]
    offcut
        Name of the offcut they are cut from; empty for any scrap of their size.
    """

    corner_deg: float
    flank_deg: float
    count: int
    length_mm: float
    offcut: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueUp:
    """One stage of gluing (or of putting together dry).

    Parameters
    ----------
    name
        Unique; ``after`` of other stages names it.
    part
        The panel or lamination glued up; empty for an assembly.
    like
        Entry of that part; stages of equal parts can be set up together.
    bodies
        What is brought: each a part, or the parts of a body glued before.
    joints
        Joints closed, in the order they are spread.
    dry_joints
        Joints put together without glue in the same go.
    open_joints
        How many of ``joints`` are closed before what is put in dry goes in; those after it shut it in.
    area_mm2, glue_g
        Glue lines, one side; wet glue to pour. [mm2] [g]
    clamp_min, cure_min
        In clamps; before it is machined or loaded. [min]
    prepare
        What must be done before.
    surface_first
        Parts to sand, and finish where they cannot be reached after, before this stage.
    after
        Stages that must be cured, at least out of clamps, before.
    direction
        World direction in which it closes; None for a part by itself.
    """

    name: str
    kind: GlueUpKind
    part: str
    like: str
    bodies: tuple[tuple[str, ...], ...]
    joints: tuple[str, ...]
    dry_joints: tuple[str, ...]
    glue: str
    area_mm2: float
    glue_g: float
    clamps: ClampPlan | None
    time: StageTime
    clamp_min: float
    cure_min: float
    wedges: tuple[Wedge, ...] = ()
    cauls: tuple[Caul, ...] = ()
    prepare: tuple[str, ...] = ()
    surface_first: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    direction: Vec | None = None
    note: str = ""
    open_joints: int = 0

    @property
    def parts(self) -> tuple[str, ...]:
        """Every part in the body that results."""
        return tuple(name for body in self.bodies for name in body)
