"""What a plan is made of: the piece, the shop, the rack and the room."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.model import Piece
from scantling.seasons.room import Room
from scantling.shop.profile.profile import Shop
from scantling.stock.racks.rack import Rack

__all__ = ["Job"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A piece to be made in a shop, from a rack, for a room.

    Parameters
    ----------
    rack
        Boards at hand; None plans what to buy.
    layout_s
        Time to lay out the boards; None keeps to a number of rounds, which is repeatable. [s]
    layout_workers
        Processes that may work at that at once.
    """

    piece: Piece
    shop: Shop
    room: Room
    rack: Rack | None = None
    layout_s: float | None = None
    layout_workers: int = 1
