"""Seasons of the plan: what the room's year does to each part, and what that means for each joint."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.joinery.work import JointWork
from scantling.piece.model import Part, PartKind, Piece
from scantling.plan.cache import Cache
from scantling.plan.making.finishing import finish_or_default
from scantling.plan.year.season_joints import JointTravel, Verdict, joint_travels
from scantling.plan.year.season_parts import SeasonPart, season_part, wood_part
from scantling.remembering import remembered
from scantling.seasons.air import Air, Month, year_between
from scantling.seasons.build_month import BuildAdvice, advise_build
from scantling.seasons.room import Room, moisture_range
from scantling.seasons.year import Built, PartYear, WoodPart, part_years
from scantling.shop.profile.profile import Shop
from scantling.wood.moisture import MoistureRange, emc_pct

__all__ = [
    "JointTravel",
    "RoomMonth",
    "SeasonPart",
    "Seasons",
    "Verdict",
    "moisture_of",
    "plan_seasons",
    "shop_air",
    "shop_rest_pct",
    "wide_part_years",
]

_STILL_MM = 0.05
LEAST_WIDTH_MM = 40.0
"""Narrower parts move less than a joint's own play and are not listed. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomMonth:
    """The room's air in one month, and what wood settles at in it."""

    month: Month
    temperature_c: float
    humidity_pct: float
    emc_pct: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Seasons:
    """The year of the piece.

    Parameters
    ----------
    about, notes
        Where the room's figures come from, and what was left out or bridged in reading them.
    moisture
        Build, driest, wettest, by which the joints are laid out.
    parts
        Parts wide enough to matter, the most moved first.
    joints
        Every place that moves, the tightest first.
    built_month, built_month_assumed
        Month in which the wood is milled, and whether that is January for want of a word in the shop's file.
    """

    room: str
    about: str
    notes: tuple[str, ...]
    months: tuple[RoomMonth, ...]
    moisture: MoistureRange
    parts: tuple[SeasonPart, ...]
    joints: tuple[JointTravel, ...]
    advice: BuildAdvice
    built_month: Month
    built_month_assumed: bool

    @property
    def least_to_spare(self) -> JointTravel | None:
        """Of the places that slide, the one with the least room left; None if none does.

        Glue that holds wood across the grain is none of them: it has a limit, but no room to move in.
        """
        sliding = (j for j in self.joints if not j.is_glue_line)
        moving = (j for j in sliding if j.shrink_travel_mm + j.swell_travel_mm >= _STILL_MM)
        return min(moving, key=lambda j: j.spare_mm, default=None)


@remembered(limit=64)
def moisture_of(shop: Shop, room: Room) -> MoistureRange:
    """Moisture at build, and the driest and wettest of the room.

    At build it is what was measured in the wood the day it was milled, else what the shop's air holds.
    """
    measured = shop.climate.wood_pct
    return moisture_range(room, shop_rest_pct(shop) if measured is None else measured)


def shop_rest_pct(shop: Shop) -> float:
    """Moisture of wood at rest in the shop's air. [%]"""
    return emc_pct(shop.climate.temperature_c, shop.climate.humidity_pct / 100.0)


def plan_seasons(
    piece: Piece,
    works: tuple[JointWork, ...],
    *,
    shop: Shop,
    room: Room,
    cache: Cache,
    strips_mm: Mapping[str, tuple[float, ...]] | None = None,
) -> Seasons:
    """The year of every part and joint.

    Parameters
    ----------
    piece, works
        The piece and its joints, laid out for :func:`moisture_of`.
    shop
        Where it is built.
    room
        Where it stands.
    strips_mm
        Widths of the strips of each panel, where they are known. [mm]
    """
    moisture = moisture_of(shop, room)
    built = Built(mc_pct=moisture.build_pct, month=Month(shop.climate.milled_in or Month.JAN))
    wide = wide_parts(piece)
    years = wide_part_years(piece, shop=shop, room=room, built=built, cache=cache)
    glued = strips_mm or {}
    parts = [season_part(p, years[p.name], moisture, strips_mm=glued.get(p.name, ())) for p in wide]
    return Seasons(
        room=room.name,
        about=room.about,
        notes=room.notes,
        months=tuple(_room_month(room, month) for month in Month),
        moisture=moisture,
        parts=tuple(sorted(parts, key=lambda p: (-(p.widest_mm - p.narrowest_mm), p.part))),
        joints=tuple(joint_travels(works, moisture, parts=piece.parts, seasons=parts)),
        advice=advise_build(shop_air(shop), moisture),
        built_month=built.month,
        built_month_assumed=shop.climate.milled_in is None,
    )


def wide_parts(piece: Piece) -> list[Part]:
    """Parts wide enough to matter."""
    return [p for p in piece.parts.values() if p.kind is not PartKind.SHEET and p.width_mm >= LEAST_WIDTH_MM]


def wide_part_years(
    piece: Piece, *, shop: Shop, room: Room, built: Built, cache: Cache
) -> dict[str, PartYear]:
    """What a room does to each wide part of a piece, by its name; parts alike are followed once.

    Parameters
    ----------
    shop
        Whose finish it has where the piece names none.
    room
        Where it stands.
    built
        When, and how moist.
    """
    finish = finish_or_default(piece, shop)
    woods = {part.name: wood_part(part, finish) for part in wide_parts(piece)}
    distinct = list({_same(w): w for w in woods.values()}.values())
    years = cache.answers(
        "year",
        [(wood, room, built) for wood in distinct],
        lambda missing: part_years([distinct[at] for at in missing], room, built=built),
    )
    by_kind = {_same(w): year for w, year in zip(distinct, years, strict=True)}
    return {name: by_kind[_same(wood)] for name, wood in woods.items()}


@remembered(limit=1024)
def _same(part: WoodPart) -> tuple[object, ...]:
    """What two parts must share to live through the same year."""
    sizes = (round(part.width_mm, 6), round(part.thickness_mm, 6))
    rings = (part.ring_angle_deg, part.strips)
    return (part.species.name, *sizes, *rings, repr(part.front), repr(part.back))


@remembered(limit=256)
def _room_month(room: Room, month: Month) -> RoomMonth:
    air = room.air_in(month)
    return RoomMonth(
        month=month,
        temperature_c=air.temperature_c,
        humidity_pct=100.0 * air.relative_humidity,
        emc_pct=emc_pct(air.temperature_c, air.relative_humidity),
    )


@remembered(limit=64)
def shop_air(shop: Shop) -> Room:
    """The shop's own air as a year, between its driest and wettest."""
    climate = shop.climate
    dry = climate.driest_pct if climate.driest_pct is not None else climate.humidity_pct
    wet = climate.wettest_pct if climate.wettest_pct is not None else climate.humidity_pct
    winter = Air(temperature_c=climate.temperature_c, relative_humidity=dry / 100.0)
    summer = Air(temperature_c=climate.temperature_c, relative_humidity=wet / 100.0)
    return Room(name=shop.name, year=year_between(winter, summer))
