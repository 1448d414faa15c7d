"""Finish: area, liters and tins, grits and minutes, and when the next coat may go on."""

from scantling.finish.area import Areas, PartArea, areas
from scantling.finish.grits import Sanding, SandingRates, SandingStep, grit_sequence, sanding
from scantling.finish.liters import Coats, coats, tins
from scantling.finish.system import FinishKind, FinishSystem
from scantling.finish.timetable import CoatTime, Drying, cautions, drying

__all__ = [
    "Areas",
    "CoatTime",
    "Coats",
    "Drying",
    "FinishKind",
    "FinishSystem",
    "PartArea",
    "Sanding",
    "SandingRates",
    "SandingStep",
    "areas",
    "cautions",
    "coats",
    "drying",
    "grit_sequence",
    "sanding",
    "tins",
]
