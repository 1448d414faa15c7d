"""Does it hold, stand and get there: weight, lifting, sag, racking, tipping, places, and the way in."""

from scantling.structure.doorway import Step, Thing, Way, find_way
from scantling.structure.drawer_tipping import Drawer, DrawerTip, drawer_margin_kg_mm
from scantling.structure.lift import Grip, Lift, LiftPlan, Spell, plan_lift, weight_limit_kg
from scantling.structure.mass import Mass, PartMass, weigh
from scantling.structure.passage import Corner, Doorway, Limit, Passage, longest_round_corner_mm
from scantling.structure.places import Seating, seating
from scantling.structure.sagging import Beam, Creep, Loading, Sag, sag
from scantling.structure.tipping import Tip, tip, tip_force_n

__all__ = [
    "Beam",
    "Corner",
    "Creep",
    "Doorway",
    "Drawer",
    "DrawerTip",
    "Grip",
    "Lift",
    "LiftPlan",
    "Limit",
    "Loading",
    "Mass",
    "PartMass",
    "Passage",
    "Sag",
    "Seating",
    "Spell",
    "Step",
    "Thing",
    "Tip",
    "Way",
    "drawer_margin_kg_mm",
    "find_way",
    "longest_round_corner_mm",
    "plan_lift",
    "sag",
    "seating",
    "tip",
    "tip_force_n",
    "weigh",
    "weight_limit_kg",
]
