"""A part more: what a maker says of it, filled up from the piece, as an entry of the piece file."""

from scantling.piece.adding.mirroring import copy_of, same_place
from scantling.piece.adding.new_part import Asked, Filled, Way, filled_up, usual_wood
from scantling.piece.adding.part_name import part_name, spare_name
from scantling.piece.adding.slots import Choice, Slot, size_fault
from scantling.piece.adding.written_places import WrittenPlaces

__all__ = [
    "Asked",
    "Choice",
    "Filled",
    "Slot",
    "Way",
    "WrittenPlaces",
    "copy_of",
    "filled_up",
    "part_name",
    "same_place",
    "size_fault",
    "spare_name",
    "usual_wood",
]
