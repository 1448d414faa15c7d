"""The machines of a shop and what each can take.

The remark behind each default says where it comes from. A machine left out of a profile is not owned, and
its work is planned for hand tools.
"""

from __future__ import annotations

from scantling.reading import AngleDeg, LengthMm
from scantling.shop.section import ProfileSection

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

    max_width_mm: LengthMm = 200.0  # common size of a small shop's machine, from memory
    bed_length_mm: LengthMm = 1800.0  # from memory
    min_length_mm: LengthMm = 300.0  # common practice: 12 in, school and safety leaflets
    min_thickness_mm: LengthMm = 13.0  # common practice: 1/2 in, safety leaflets
    cut_mm: LengthMm = 1.0  # common practice: 1 to 1.5 mm a pass in hardwood


class Planer(ProfileSection):
    """Planer (thicknesser)."""

    max_width_mm: LengthMm = 330.0  # common size of a portable machine, from memory
    max_height_mm: LengthMm = 150.0  # from memory
    min_thickness_mm: LengthMm = 6.0  # common practice: thinner goes on a carrier board
    min_length_mm: LengthMm = 300.0  # from memory: distance between feed rollers plus 50
    snipe_mm: LengthMm = 0.0  # a well set machine with the ends held up; give your own and it is left on
    cut_mm: LengthMm = 1.0  # common practice: 1 to 1.5 mm a pass in hardwood


class TableSaw(ProfileSection):
    """Table saw (circular saw bench)."""

    blade_mm: LengthMm = 254.0  # 10 in blade, common size
    depth_square_mm: LengthMm = 80.0  # from memory, for a 254 blade
    depth_tilted_mm: LengthMm = 55.0  # at 45 deg; from memory, for a 254 blade
    kerf_mm: LengthMm = 3.2  # 1/8 in full-kerf blade, common size
    max_tilt_deg: AngleDeg = 47.0  # from memory: 45 to 48 deg
    max_miter_deg: AngleDeg = 60.0  # gauge or sled either side of square, from memory
    rip_capacity_mm: LengthMm = 700.0  # from memory: 600 to 1300
    min_rip_mm: LengthMm = 40.0  # common practice: narrower wants a sled or jig
    stacked_cutter_mm: LengthMm = 19.0  # widest stacked cutter; 0 where none is owned or allowed
    crosscut_capacity_mm: LengthMm = 600.0  # sled depth, from memory


class MiterSaw(ProfileSection):
    """Miter saw."""

    blade_mm: LengthMm = 254.0  # 10 in blade, common size
    crosscut_mm: LengthMm = 300.0  # widest board at square, sliding saw, from memory
    height_mm: LengthMm = 89.0  # thickest part at square, from memory
    kerf_mm: LengthMm = 2.6  # from memory
    max_miter_deg: AngleDeg = 50.0  # from memory: 47 to 60 deg
    max_bevel_deg: AngleDeg = 45.0  # from memory: 45 to 48 deg
    min_length_mm: LengthMm = 200.0  # common practice: shorter parts are clamped in a jig


class TrackSaw(ProfileSection):
    """Track saw."""

    track_mm: LengthMm = 1400.0  # from memory
    depth_mm: LengthMm = 55.0  # from memory
    kerf_mm: LengthMm = 2.2  # from memory
    max_tilt_deg: AngleDeg = 45.0  # from memory


class Bandsaw(ProfileSection):
    """Bandsaw."""

    throat_mm: LengthMm = 350.0  # from memory
    resaw_mm: LengthMm = 250.0  # from memory
    kerf_mm: LengthMm = 1.2  # from memory
    cleanup_mm: LengthMm = 1.5  # common practice: planed off a sawn face


class DrillPress(ProfileSection):
    """Drill press."""

    travel_mm: LengthMm = 80.0  # from memory
    throat_mm: LengthMm = 200.0  # from memory
    bits_mm: tuple[LengthMm, ...] = (3, 4, 5, 6, 8, 10, 12, 13, 16, 20, 25, 28)  # common metric set
    tilts: bool = True


class Mortiser(ProfileSection):
    """Chisel mortiser."""

    chisels_mm: tuple[LengthMm, ...] = (6, 8, 10, 12)  # common set
    max_depth_mm: LengthMm = 75.0  # from memory


class Router(ProfileSection):
    """Plunge router, by hand or in a table."""

    bits_mm: tuple[LengthMm, ...] = (4, 6, 8, 10, 12)  # common straight and spiral bits
    max_depth_mm: LengthMm = 50.0  # from memory


class LooseTenonCutter(ProfileSection):
    """Loose-tenon cutter."""

    cutters_mm: tuple[LengthMm, ...] = (5, 6, 8, 10)  # common set, from memory
    max_depth_mm: LengthMm = 28.0  # from memory


class DrumSander(ProfileSection):
    """Drum or wide-belt sander."""

    max_width_mm: LengthMm = 400.0  # from memory: 400 to 1000
    min_length_mm: LengthMm = 60.0  # from memory


class Lathe(ProfileSection):
    """Lathe."""

    swing_mm: LengthMm = 350.0  # from memory
    centers_mm: LengthMm = 900.0  # from memory


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
