"""Wood itself: species, moisture, movement, strength. Pure functions and published tables.

Importing it reads no table and no numpy: both wait until a question needs them.
"""

from scantling.wood.density import density_kg_m3, specific_gravity
from scantling.wood.moisture import MoistureRange, emc_pct, relative_humidity_for_emc
from scantling.wood.movement import (
    Movement,
    coefficient,
    coefficient_at,
    movement,
    thickness_coefficient,
    width_change_mm,
)
from scantling.wood.provenance import Provenance
from scantling.wood.ring import Ring
from scantling.wood.species import Species, all_species, find_species

__all__ = [
    "MoistureRange",
    "Movement",
    "Provenance",
    "Ring",
    "Species",
    "all_species",
    "coefficient",
    "coefficient_at",
    "density_kg_m3",
    "emc_pct",
    "find_species",
    "movement",
    "relative_humidity_for_emc",
    "specific_gravity",
    "thickness_coefficient",
    "width_change_mm",
]
