"""The machines of a shop and what each can take.

The text below each field says where its default comes from. A machine left out of a profile is not owned, and
its work is planned for hand tools.
"""

from __future__ import annotations

from scantling.shop.profile.section import AllowanceMm, PositiveMm, ProfileSection, SawAngleDeg, ScaleDeg

__all__ = [
    "HAND_KERF_MM",
    "USUAL_MACHINES",
    "Bandsaw",
    "DrillPress",
    "DrumSander",
    "Jointer",
    "Lathe",
    "LooseTenonCutter",
    "Machines",
    "MiterSaw",
    "Mortiser",
    "Planer",
    "Router",
    "TableSaw",
    "TrackSaw",
]

HAND_KERF_MM = 1.5
"""Kerf of a hand saw, where no other is owned (from memory). [mm]"""


class Jointer(ProfileSection):
    """Jointer (surface planer): flattens a face, squares an edge."""

    max_width_mm: PositiveMm = 200.0
    """Common size of a small shop's machine, from memory."""
    bed_length_mm: PositiveMm = 1800.0
    """From memory. Nothing is computed from it yet."""
    min_length_mm: PositiveMm = 300.0
    """Common practice: 12 in, school and safety leaflets."""
    min_thickness_mm: PositiveMm = 13.0
    """Common practice: 1/2 in, safety leaflets."""
    cut_mm: PositiveMm = 1.0
    """Common practice: 1 to 1.5 mm a pass in hardwood."""


class Planer(ProfileSection):
    """Planer (thicknesser)."""

    max_width_mm: PositiveMm = 330.0
    """Common size of a portable machine, from memory."""
    max_height_mm: PositiveMm = 150.0
    """From memory."""
    min_thickness_mm: PositiveMm = 6.0
    """Common practice: thinner goes on a carrier board."""
    min_length_mm: PositiveMm = 300.0
    """From memory: distance between feed rollers plus 50."""
    snipe_mm: AllowanceMm = 0.0
    """A well set machine with the ends held up; give your own and it is left on."""
    cut_mm: PositiveMm = 1.0
    """Common practice: 1 to 1.5 mm a pass in hardwood."""


class TableSaw(ProfileSection):
    """Table saw (circular saw bench)."""

    blade_mm: PositiveMm = 254.0
    """10 in blade, common size. Nothing is computed from it yet."""
    depth_square_mm: PositiveMm = 80.0
    """From memory, for a 254 blade."""
    depth_tilted_mm: PositiveMm = 55.0
    """At 45 deg; from memory, for a 254 blade."""
    kerf_mm: PositiveMm = 3.2
    """1/8 in full-kerf blade, common size."""
    max_tilt_deg: SawAngleDeg = 47.0
    """From memory: 45 to 48 deg."""
    max_miter_deg: SawAngleDeg = 60.0
    """Gauge or sled either side of square, from memory."""
    rip_capacity_mm: PositiveMm = 700.0
    """From memory: 600 to 1300."""
    min_rip_mm: PositiveMm = 40.0
    """Common practice: narrower wants a sled or jig."""
    stacked_cutter_mm: AllowanceMm = 19.0
    """Widest stacked cutter; 0 where none is owned or allowed."""
    crosscut_capacity_mm: PositiveMm = 600.0
    """Sled depth, from memory."""
    reads_to_deg: ScaleDeg = 0.5
    """Common practice: half of a scale's whole degrees by eye; 0.1 with a digital angle gauge."""


class MiterSaw(ProfileSection):
    """Miter saw."""

    blade_mm: PositiveMm = 254.0
    """10 in blade, common size. Nothing is computed from it yet."""
    crosscut_mm: PositiveMm = 300.0
    """Widest board at square, sliding saw, from memory."""
    height_mm: PositiveMm = 89.0
    """Thickest part at square, from memory."""
    kerf_mm: PositiveMm = 2.6
    """From memory."""
    max_miter_deg: SawAngleDeg = 50.0
    """From memory: 47 to 60 deg."""
    max_bevel_deg: SawAngleDeg = 45.0
    """From memory: 45 to 48 deg."""
    min_length_mm: PositiveMm = 200.0
    """Common practice: shorter parts are clamped in a jig."""
    reads_to_deg: ScaleDeg = 0.5
    """Common practice: half of a scale's whole degrees by eye; 0.1 with a digital angle gauge."""


class TrackSaw(ProfileSection):
    """Track saw."""

    track_mm: PositiveMm = 1400.0
    """From memory. Nothing is computed from it yet."""
    depth_mm: PositiveMm = 55.0
    """From memory."""
    kerf_mm: PositiveMm = 2.2
    """From memory."""
    max_tilt_deg: SawAngleDeg = 45.0
    """From memory."""
    reads_to_deg: ScaleDeg = 0.5
    """Common practice: half of a scale's whole degrees by eye; 0.1 with a digital angle gauge."""


class Bandsaw(ProfileSection):
    """Bandsaw."""

    throat_mm: PositiveMm = 350.0
    """From memory."""
    resaw_mm: PositiveMm = 250.0
    """From memory."""
    kerf_mm: PositiveMm = 1.2
    """From memory."""
    cleanup_mm: AllowanceMm = 1.5
    """Common practice: planed off a sawn face. Nothing is computed from it yet."""


class DrillPress(ProfileSection):
    """Drill press."""

    travel_mm: PositiveMm = 80.0
    """From memory."""
    throat_mm: PositiveMm = 200.0
    """From memory. Nothing is computed from it yet."""
    bits_mm: tuple[PositiveMm, ...] = (3, 4, 5, 6, 8, 10, 12, 13, 16, 20, 25, 28)
    """Common metric set."""
    tilts: bool = True
    """Nothing is computed from it yet."""


class Mortiser(ProfileSection):
    """Chisel mortiser."""

    chisels_mm: tuple[PositiveMm, ...] = (6, 8, 10, 12)
    """Common set."""
    max_depth_mm: PositiveMm = 75.0
    """From memory."""


class Router(ProfileSection):
    """Plunge router, by hand or in a table."""

    bits_mm: tuple[PositiveMm, ...] = (4, 6, 8, 10, 12)
    """Common straight and spiral bits."""
    max_depth_mm: PositiveMm = 50.0
    """From memory."""


class LooseTenonCutter(ProfileSection):
    """Loose-tenon cutter."""

    cutters_mm: tuple[PositiveMm, ...] = (5, 6, 8, 10)
    """Common set, from memory."""
    max_depth_mm: PositiveMm = 28.0
    """From memory."""


class DrumSander(ProfileSection):
    """Drum or wide-belt sander."""

    max_width_mm: PositiveMm = 400.0
    """From memory: 400 to 1000."""
    min_length_mm: PositiveMm = 60.0
    """From memory."""


class Lathe(ProfileSection):
    """Lathe."""

    swing_mm: PositiveMm = 350.0
    """From memory."""
    centers_mm: PositiveMm = 900.0
    """From memory."""


class Machines(ProfileSection):
    """What is owned; None where it is not."""

    jointer: Jointer | None = None
    planer: Planer | None = None
    table_saw: TableSaw | None = None
    miter_saw: MiterSaw | None = None
    track_saw: TrackSaw | None = None
    bandsaw: Bandsaw | None = None
    drill_press: DrillPress | None = None
    mortiser: Mortiser | None = None
    router: Router | None = None
    loose_tenon_cutter: LooseTenonCutter | None = None
    drum_sander: DrumSander | None = None
    lathe: Lathe | None = None


USUAL_MACHINES = Machines(
    jointer=Jointer(),
    planer=Planer(),
    table_saw=TableSaw(),
    miter_saw=MiterSaw(),
    track_saw=TrackSaw(),
    bandsaw=Bandsaw(),
    drill_press=DrillPress(),
    router=Router(),
    loose_tenon_cutter=LooseTenonCutter(),
)
"""Those of a usual one-person shop (common practice); taken where a profile has no ``machines`` section."""
