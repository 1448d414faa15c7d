"""The clamps a shop owns."""

from __future__ import annotations

from enum import StrEnum

from pydantic import Field

from scantling.reading import ForceN
from scantling.shop.profile.section import AllowanceMm, PositiveMm, ProfileSection

__all__ = ["USUAL_CLAMPS", "Clamp", "ClampKind", "Clamping"]


class ClampKind(StrEnum):
    """Kinds of clamp."""

    BAR = "bar clamp"
    PIPE = "pipe clamp"
    PARALLEL = "parallel-jaw clamp"
    SCREW = "C-clamp"
    HAND_SCREW = "hand screw"
    BAND = "band clamp"
    SPRING = "spring clamp"


class Clamp(ProfileSection):
    """Clamps of one kind and length."""

    kind: ClampKind = ClampKind.BAR
    reach_mm: PositiveMm
    """Widest opening between the jaws."""
    count: int = Field(ge=0)
    force_n: ForceN = Field(default=4000.0, gt=0)
    """A screw bar clamp: a test of hands gave 3.0 kN on an aluminum bar, 4.7 on pipe and 6.0 on an I-beam
    (Fine Woodworking, 2010). Parallel jaws gave 1.6 there: write yours."""
    throat_mm: PositiveMm = 80.0
    """From memory: 80 to 150. Nothing is computed from it yet."""


class Clamping(ProfileSection):
    """How clamps are used here."""

    caul_mm: AllowanceMm = 45.0
    """Common practice: straight cauls 40 to 50 deep, one each side."""
    margin_mm: AllowanceMm = 25.0
    """Common practice: screw travel left when the joint is home."""
    spacing_most_mm: PositiveMm = 300.0
    """A PVA maker's guide: 8 to 12 in apart."""
    end_distance_mm: AllowanceMm = 50.0
    """A PVA maker's guide: first clamp 1 1/2 to 2 in from the end."""
    open_share: float = Field(default=0.7, gt=0, le=1)
    """Share of the glue's working time a stage may use; the rest is for what goes wrong (common practice)."""
    spread_s_per_m: float = Field(default=23.7, ge=0)
    """Common practice: 45 s for a joint of 1.9 m."""
    spread_joint_s: float = Field(default=30.0, ge=0)
    """Common practice: at least, for one joint."""
    place_s: float = Field(default=20.0, ge=0)
    """Each part, common practice."""
    clamp_s: float = Field(default=25.0, ge=0)
    """Each clamp, common practice."""
    helped_share: float = Field(default=0.65, gt=0, le=1)
    """Share of the time that two need (from memory)."""
    glue_spare: float = Field(default=1.25, ge=1)
    """Glue mixed or poured for each part that stays in the joint (common practice)."""


USUAL_CLAMPS = (
    Clamp(kind=ClampKind.BAR, reach_mm=1200.0, count=6),
    Clamp(kind=ClampKind.BAR, reach_mm=900.0, count=8),
    Clamp(kind=ClampKind.BAR, reach_mm=600.0, count=6),
    Clamp(kind=ClampKind.SCREW, reach_mm=200.0, count=8),
)
"""Those of a usual one-person shop (common practice); taken where a profile has no ``clamps`` section."""
