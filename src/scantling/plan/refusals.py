"""What the shop and the room refuse of a piece, told together with what is wrong in its file.

A piece that reads well may still have joints whose parts do not meet, a wood whose weight nothing published
tells, a finish the shop does not have, a shop too cold for it, or a rule set aside that does not exist. The
plan would stop at the first of these.
"""

from __future__ import annotations

from dataclasses import replace

from scantling.checks.catalogue import rules
from scantling.errors import Fault, InputError
from scantling.finish.timetable import drying
from scantling.joinery.joining import OneJoint, join_one, joint_faults
from scantling.piece.files import Reading
from scantling.piece.model import Piece
from scantling.plan.making.finishing import finish_system
from scantling.plan.unpublished import unpublished
from scantling.plan.year.seasons import moisture_of
from scantling.reading import did_you_mean
from scantling.seasons.room import Room
from scantling.seasons.room_file import find_room
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.profile_file import default_shop

__all__ = ["DEFAULT_ROOM", "every_fault"]

DEFAULT_ROOM = "dry-winter-house"
"""Where no room is named: a heated house, the commonest and the hardest on wood."""


def every_fault(
    reading: Reading, *, shop: Shop | None, room: Room | None, one: OneJoint = join_one
) -> tuple[Fault, ...]:
    """Everything wrong with a piece in its shop and room, in the order of the file.

    Parameters
    ----------
    reading
        The piece file, with its faults or without.
    shop, room
        Where it is made and stands; None where these could not be read: joints are then looked at with the
        usual ones, and the finish is not.
    one
        Does one joint; what keeps joints for the plan may stand before :func:`join_one`.
    """
    piece = reading.piece
    faults = [*reading.faults, *_unknown_rules(piece)]
    here = shop or default_shop()
    try:
        moisture = moisture_of(here, room or find_room(DEFAULT_ROOM))
        faults += joint_faults(piece, moisture=moisture, kerf_mm=here.kerf_mm, one=one)
    except InputError as error:
        faults.append(error.fault)
    if shop is not None:
        faults += _finish_faults(piece, shop)
    faults = unpublished(piece, faults)
    return tuple(sorted(dict.fromkeys(faults), key=lambda fault: (fault.line, fault.column)))


def _finish_faults(piece: Piece, shop: Shop) -> list[Fault]:
    if piece.finish is None:
        return []
    try:
        system = finish_system(shop.finish_named(piece.finish.system))
        climate = shop.climate
        drying(system, 1, shop_c=climate.temperature_c, shop_rh=climate.humidity_pct / 100.0)
    except InputError as error:
        return [_placed(error.fault, piece, "finish.system")]
    return []


def _unknown_rules(piece: Piece) -> list[Fault]:
    """Rules set aside that do not exist: the reason given would be for nothing."""
    return [
        _placed(
            Fault(
                code="unknown_rule",
                field=f"accept.{key}",
                value=key,
                rule="must begin with the number of a design rule, such as F07",
                remedy=did_you_mean(key.partition(" ")[0], rules(), otherwise="See the findings for it."),
            ),
            piece,
            f"accept.{key}",
        )
        for key in piece.accept
        if key.partition(" ")[0] not in rules()
    ]


def _placed(fault: Fault, piece: Piece, key: str) -> Fault:
    """A fault where it stands in the piece file."""
    place = piece.places.get(key)
    if place is None:
        return fault
    return replace(fault, field=key, file=place.file, line=place.line, column=place.column)
