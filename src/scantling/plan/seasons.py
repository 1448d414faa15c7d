"""Seasons of the plan: what the room's year does to each part, and what that means for each joint."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import InputError
from scantling.joinery.mid_travel import mid_travel_mc_pct
from scantling.joinery.travel import width_coefficient
from scantling.joinery.work import JointWork
from scantling.piece.model import Finish, Part, PartKind, Piece
from scantling.plan.cache import Cache
from scantling.seasons.air import Air, Month, year_between
from scantling.seasons.build_month import BuildAdvice, advise_build
from scantling.seasons.room import Room, moisture_range
from scantling.seasons.year import Built, PartMonth, PartYear, WoodPart, part_years
from scantling.shop.profile import Shop
from scantling.wood.moisture import MoistureRange, emc_pct
from scantling.wood.moisture_exclusion import BARE, Exclusion, find_exclusion
from scantling.wood.movement import movement
from scantling.wood.species import find_species

__all__ = ["JointTravel", "RoomMonth", "SeasonPart", "Seasons", "moisture_of", "plan_seasons"]

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
class SeasonPart:
    """What the year does to the width of one part.

    Parameters
    ----------
    coefficient
        Movement of its width. [1 per % MC]
    narrowest_mm, widest_mm
        Change of width since build if the wood came to rest with the driest and wettest month. [mm]
    narrowest_low_mm, widest_high_mm
        The same at the edge of the species' spread. [mm]
    lag_days
        How long its moisture comes after the room's. [days]
    swing_share
        Its swing over that of a bare thin sheet. [1]
    months
        Month by month, late and damped by thickness and finish.
    largest_cup_mm
        If it were free to bend. [mm]
    """

    part: str
    like: str
    width_mm: float
    coefficient: float
    narrowest_mm: float
    widest_mm: float
    narrowest_low_mm: float
    widest_high_mm: float
    lag_days: float
    swing_share: float
    months: tuple[PartMonth, ...]
    largest_cup_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class JointTravel:
    """One place that must be free to move: what it needs over the year and what it has.

    Parameters
    ----------
    spare_mm
        Room left on the tighter side. [mm] negative where it binds
    tight_when
        ``dry`` or ``damp``: the season it is tightest in.
    mid_travel_mc_pct
        Moisture of the wood at which it would stand in the middle of its room. [%] None where nothing moves
        or no such moisture is likely
    """

    joint: str
    part: str
    what: str
    from_fixed_mm: float
    shrink_travel_mm: float
    swell_travel_mm: float
    shrink_room_mm: float
    swell_room_mm: float
    cut_to_mm: float
    bias_mm: float
    spare_mm: float
    tight_when: str
    mid_travel_mc_pct: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Seasons:
    """The year of the piece.

    Parameters
    ----------
    moisture
        Build, driest, wettest, by which the joints are laid out.
    parts
        Parts wide enough to matter, the most moved first.
    joints
        Every place that moves, the tightest first.
    """

    room: str
    about: str
    months: tuple[RoomMonth, ...]
    moisture: MoistureRange
    parts: tuple[SeasonPart, ...]
    joints: tuple[JointTravel, ...]
    advice: BuildAdvice
    built_month: Month


def moisture_of(shop: Shop, room: Room) -> MoistureRange:
    """Moisture at build from the shop's air, and the driest and wettest of the room."""
    return moisture_range(room, emc_pct(shop.climate.temperature_c, shop.climate.humidity_pct / 100.0))


def plan_seasons(
    piece: Piece, works: tuple[JointWork, ...], *, shop: Shop, room: Room, cache: Cache
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
    """
    moisture = moisture_of(shop, room)
    wide = [p for p in piece.parts.values() if p.kind is not PartKind.SHEET and p.width_mm >= LEAST_WIDTH_MM]
    built = Built(mc_pct=moisture.build_pct)
    woods = {part.name: _wood_part(part, piece.finish) for part in wide}
    distinct = list({_same(w): w for w in woods.values()}.values())
    years = cache.answer("year", (distinct, room, built), lambda: part_years(distinct, room, built=built))
    by_kind = {_same(w): year for w, year in zip(distinct, years, strict=True)}
    parts = [_season_part(p, by_kind[_same(woods[p.name])], moisture) for p in wide]
    return Seasons(
        room=room.name,
        about=room.about,
        months=tuple(_room_month(room, month) for month in Month),
        moisture=moisture,
        parts=tuple(sorted(parts, key=lambda p: (-(p.widest_mm - p.narrowest_mm), p.part))),
        joints=tuple(sorted(_travels(works, moisture), key=lambda t: (t.spare_mm, t.joint, t.what))),
        advice=advise_build(_shop_room(shop), moisture),
        built_month=built.month,
    )


def _same(part: WoodPart) -> tuple[object, ...]:
    """What two parts must share to live through the same year."""
    sizes = (round(part.width_mm, 6), round(part.thickness_mm, 6))
    return (part.species.name, *sizes, part.ring_angle_deg, repr(part.front), repr(part.back))


def _wood_part(part: Part, finish: Finish | None) -> WoodPart:
    shown = hidden = BARE
    if finish is not None:
        shown = _exclusion(finish.system, finish.coats)
        hidden = _exclusion(finish.system, finish.hidden_coats)
    return WoodPart(
        name=part.like,
        species=find_species(part.species),
        width_mm=part.width_mm,
        thickness_mm=part.thickness_mm,
        ring_angle_deg=part.ring.ring_angle_deg,
        front=shown,
        back=hidden,
    )


def _exclusion(system: str, coats: int) -> Exclusion:
    """Moisture-excluding effect of a finish; bare wood, the safe side, where none is published for it."""
    try:
        return find_exclusion(system, coats=coats)
    except InputError:
        return BARE


def _season_part(part: Part, year: PartYear, moisture: MoistureRange) -> SeasonPart:
    species = find_species(part.species)
    angle = part.ring.ring_angle_deg
    dry, wet = (
        movement(
            part.width_mm,
            species=species,
            ring_angle_deg=angle,
            mc_from_pct=moisture.build_pct,
            mc_to_pct=to,
        )
        for to in (moisture.dry_pct, moisture.wet_pct)
    )
    return SeasonPart(
        part=part.name,
        like=part.like,
        width_mm=part.width_mm,
        coefficient=width_coefficient(part),
        narrowest_mm=dry.change_mm,
        widest_mm=wet.change_mm,
        narrowest_low_mm=dry.high_mm,
        widest_high_mm=wet.high_mm,
        lag_days=year.lag_days,
        swing_share=year.swing_share,
        months=year.months,
        largest_cup_mm=year.largest_cup_mm,
    )


def _room_month(room: Room, month: Month) -> RoomMonth:
    air = room.air_in(month)
    return RoomMonth(
        month=month,
        temperature_c=air.temperature_c,
        humidity_pct=100.0 * air.relative_humidity,
        emc_pct=emc_pct(air.temperature_c, air.relative_humidity),
    )


def _travels(works: tuple[JointWork, ...], moisture: MoistureRange) -> list[JointTravel]:
    found = []
    for work in works:
        for f in work.freedoms:
            dry = f.shrink_room_mm - f.shrink_travel_mm
            damp = f.swell_room_mm - f.swell_travel_mm
            found.append(
                JointTravel(
                    joint=work.joint,
                    part=f.part,
                    what=f.what,
                    from_fixed_mm=f.from_fixed_mm,
                    shrink_travel_mm=f.shrink_travel_mm,
                    swell_travel_mm=f.swell_travel_mm,
                    shrink_room_mm=f.shrink_room_mm,
                    swell_room_mm=f.swell_room_mm,
                    cut_to_mm=f.cut_to_mm,
                    bias_mm=f.bias_mm,
                    spare_mm=min(dry, damp),
                    tight_when="dry" if dry <= damp else "damp",
                    mid_travel_mc_pct=mid_travel_mc_pct(f, moisture),
                )
            )
    return found


def _shop_room(shop: Shop) -> Room:
    """The shop's own air as a year, between its driest and wettest."""
    climate = shop.climate
    dry = climate.driest_pct if climate.driest_pct is not None else climate.humidity_pct
    wet = climate.wettest_pct if climate.wettest_pct is not None else climate.humidity_pct
    winter = Air(temperature_c=climate.temperature_c, relative_humidity=dry / 100.0)
    summer = Air(temperature_c=climate.temperature_c, relative_humidity=wet / 100.0)
    return Room(name=shop.name, year=year_between(winter, summer))
