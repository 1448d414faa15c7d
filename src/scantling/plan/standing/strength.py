"""Strength and use: tipping, racking, sag, knee room, places at the table."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf, prod

from scantling.checks.legs import legs_of
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.piece.convex import body_of
from scantling.piece.geometry import dot
from scantling.piece.model import Part, PartKind, Piece, Stands
from scantling.piece.thinnest import thickness_left_mm
from scantling.plan.standing.carried import carried_of, topped_of
from scantling.plan.standing.opened import HungDoor, OpenDrawer, drawers_of, hung_doors, load_kg, open_drawers
from scantling.plan.standing.racked import FLAT_SHARE, FrameCheck, Unframed, frames_of
from scantling.structure import places, sagging, tipping
from scantling.structure.carrying import Carried, Topped, check_carried, check_topped
from scantling.structure.drawer_tipping import DrawerTip, check_drawers
from scantling.structure.gravity import GRAVITY_M_S2
from scantling.structure.hanging import check_hanging
from scantling.structure.legged import check_legged, check_unbraced
from scantling.structure.mass import Mass
from scantling.structure.sagging import Beam, Loading, Sag, of_species, sag
from scantling.structure.tipping import Tip, Use, tip
from scantling.wood.species import find_species

__all__ = ["FrameCheck", "SagCheck", "Strength", "plan_strength"]

_ABOVE_MM = 1.0
"""What stands higher than this above a board does not rest on it. [mm]"""
_OVER_MM = 40.0
"""A board nearer than this under drawers that clear it is a dust panel: nothing lies on it. [mm]"""
_BROAD_MM, _BROAD = 100.0, 3.0
"""A part that lies level, so wide and so many times as wide as thick, is a board and no rail
(common practice: the width of a hand). [mm], [1]"""
_COVERED_SHARE = 0.9
"""Of a board, what drawers must run over for that; beside them something can lie. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SagCheck:
    """One board that spans, and how far it sags."""

    part: str
    beam: Beam
    sag: Sag


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """What holds the piece up. Estimates from clear-wood data with stated factors.

    Parameters
    ----------
    tip
        The edge it tips over most easily; None where it does not stand on three feet.
    drawers
        The piece with every drawer out; None for one without.
    doors
        Its doors on their hinges.
    carried
        Joints that carry a board or a rail, with what lies on it.
    topped
        Its top on clips, buttons or screws; None where it is held otherwise, or there is none.
    unjudged
        What was not looked into, and why, in words: silence would read as approval.
    """

    tip: Tip | None
    drawers: DrawerTip | None
    doors: tuple[HungDoor, ...]
    frames: tuple[FrameCheck, ...]
    carried: tuple[Carried, ...]
    topped: Topped | None
    sags: tuple[SagCheck, ...]
    findings: tuple[Finding, ...]
    unjudged: tuple[str, ...] = ()


def plan_strength(subject: Subject, mass: Mass) -> Strength:
    """The checks a maker would make, where the piece is of the form they hold for.

    Parameters
    ----------
    subject
        The piece and its joints.
    mass
        Of every part.
    """
    findings: list[Finding] = []
    weakest = _tip(subject.piece, mass)
    if weakest is not None:
        use = _use(subject.piece)
        findings += tipping.check(_boards(subject.piece)[0].name, weakest, use=use)
    drawers = open_drawers(subject, mass)
    if drawers is not None:
        findings += check_drawers("drawers", drawers)
    doors = hung_doors(subject, mass)
    for one in doors:
        findings += check_hanging(one.door.work.joint, one.hanging)
    ways = frames_of(subject)
    for way in ways:
        where = f"frame, {way.direction}"
        if isinstance(way, FrameCheck):
            findings += check_legged(where, way.racked)
        elif way.loose:
            findings += check_unbraced(where, way.direction)
    loads = _loads(subject)
    carried = carried_of(subject, loads, mass=mass, carries=_carries)
    for each in carried:
        findings += check_carried(each)
    topped = topped_of(subject, mass=mass, leaned_on=_use(subject.piece) is not Use.LEFT_ALONE)
    if topped is not None:
        findings += check_topped(topped)
    sags = _sags(subject, mass)
    for item in sags:
        findings += sagging.check(item.part, item.beam)
    findings += _room_to_sit(subject)
    return Strength(
        tip=weakest,
        drawers=drawers,
        doors=doors,
        frames=tuple(way for way in ways if isinstance(way, FrameCheck)),
        carried=carried,
        topped=topped,
        sags=sags,
        findings=tuple(findings),
        unjudged=_unjudged(subject, weakest, ways, sags),
    )


def _unjudged(
    subject: Subject,
    weakest: Tip | None,
    ways: tuple[FrameCheck | Unframed, ...],
    sags: tuple[SagCheck, ...],
) -> tuple[str, ...]:
    """What these sums say nothing about for this piece."""
    said = []
    boards = _boards(subject.piece)
    if subject.piece.brief.stands is Stands.WALL:
        said.append(
            "Tipping: hung on the wall: not judged here; have the fixing judged by someone licensed where it "
            "can fall on people."
        )
    elif weakest is None:
        why = "it does not stand on three feet or more" if boards else "it has no level board to press on"
        said.append(f"Tipping: {why}.")
    said += _unracked([way for way in ways if isinstance(way, Unframed)])
    if boards and subject.piece.brief.load_kg is None:
        said.append("Sag: the brief names no load. Write one under `brief`, such as `load: 40 kg`.")
    else:
        judged = {item.part for item in sags}
        drawers = drawers_of(subject.piece, subject.works)
        laden = _laden(subject.piece)
        over = [board.name for board in laden if _run_over(subject, board, drawers)]
        if over:
            said.append(f"Sag of {', '.join(over)}: a drawer runs right over, so that nothing lies there.")
        judged |= set(over)
        left = [board for board in laden if board.name not in judged]
        whys = {board.name: _why_no_sag(subject, board) for board in left}
        for why in dict.fromkeys(whys.values()):
            said.append(f"Sag of {', '.join(name for name in whys if whys[name] == why)}: {why}.")
        if boards and boards[0].kind is PartKind.SHEET:
            said.append(f"Sag of {boards[0].name}: of sheet material, which is not judged here.")
    return tuple(said)


def _why_no_sag(subject: Subject, board: Part) -> str:
    """Why a board's sag is not judged."""
    if find_species(board.species).moe_mpa is None:
        return "of a wood without a published stiffness"
    rests = _rests(subject, board)
    if len(rests) < 2:
        return "carried in fewer than two places along its grain"
    return "what carries it runs along it and leaves no length free; across its grain it is not judged"


def _unracked(ways: list[Unframed]) -> list[str]:
    """Every way the piece was not pushed, with the reason; one line where all ways have the same."""
    if len(ways) > 1 and len({way.reason for way in ways}) == 1:
        return [f"Racking: {ways[0].reason}."]
    return [f"Racking {way.direction}: {way.reason}." for way in ways]


def _use(piece: Piece) -> Use:
    """How people press on the piece, by its brief."""
    if piece.brief.holds_people:
        return Use.SAT_ON
    return Use.LEANED_ON if piece.brief.leaned_on else Use.LEFT_ALONE


def _feet(piece: Piece) -> list[tuple[float, float]]:
    """Where the piece stands: corners of every part that lie on the floor. [mm]"""
    return [
        (corner[0], corner[1])
        for part in piece.parts.values()
        for corner in body_of(part).corners
        if abs(corner[2]) < 0.5
    ]


def _boards(piece: Piece) -> list[Part]:
    """Level boards, highest first: panels, and what is as broad, of one board, layers or sheet."""
    flat = [
        part
        for part in piece.parts.values()
        if abs(part.frame.thickness[2]) > FLAT_SHARE and (part.kind is PartKind.PANEL or _is_broad(part))
    ]
    return sorted(flat, key=lambda part: -part.middle[2])


def _is_broad(part: Part) -> bool:
    return part.width_mm >= max(_BROAD_MM, _BROAD * part.thickness_mm)


def _laden(piece: Piece) -> list[Part]:
    """Level boards of wood on which things are laid: panels, and the top, whatever it is glued from."""
    boards = _boards(piece)
    return [
        board
        for board in boards
        if board.kind is PartKind.PANEL
        or (board.kind is not PartKind.SHEET and boards[0].middle[2] - board.middle[2] < _ABOVE_MM)
    ]


def _tip(piece: Piece, mass: Mass) -> Tip | None:
    boards = _boards(piece)
    if not boards or piece.brief.stands is Stands.WALL:
        return None
    height = boards[0].middle[2]
    outline = [
        (corner[0], corner[1])
        for part in piece.parts.values()
        if abs(part.middle[2] - height) < 1.0
        for corner in body_of(part).corners
    ]
    feet = _feet(piece)
    if len(tipping.hull(feet)) < 3:
        return None
    center = mass.center_mm
    return tip(mass.total_kg, (center[0], center[1]), feet_mm=feet, top_mm=outline)


def _sags(subject: Subject, mass: Mass) -> tuple[SagCheck, ...]:
    """Every horizontal board under its share of the load and itself, over the span between what carries it.

    A drawer's bottom carries what lies in the drawer. People sit between the legs, so a board that holds
    people has its whole share on the span. Things are spread over the board, and the span carries what lies
    on it. A board that is scooped or arched bends as if it were as thin all along as where it is thinnest.
    """
    weights = {one.part: one.mass_kg for one in mass.parts}
    checks = []
    for board, share in _loads(subject).items():
        span = _span(subject, board)
        if span is None or find_species(board.species).moe_mpa is None:
            continue
        moe, shear = of_species(find_species(board.species))
        free = span / board.length_mm
        on_span = 1.0 if subject.piece.brief.holds_people else free
        own_n = weights.get(board.name, 0.0) * free * GRAVITY_M_S2
        beam = Beam(
            span_mm=span,
            width_mm=board.width_mm,
            depth_mm=thickness_left_mm(board),
            moe_mpa=moe,
            shear_modulus_mpa=shear,
            load_n=share * on_span * GRAVITY_M_S2 + own_n,
            own_n=own_n,
            loading=Loading.UNIFORM_SIMPLE,
        )
        checks.append(SagCheck(part=board.name, beam=beam, sag=sag(beam)))
    return tuple(checks)


def _loads(subject: Subject) -> dict[Part, float]:
    """What lies on each level board: a drawer's load on its bottom, the brief's load on the others. [kg]

    None lies on a board that drawers run over; one that a drawer rests on bears what lies in it as well.
    """
    drawers = drawers_of(subject.piece, subject.works)
    inside = {drawer.bottom: load_kg(subject, drawer) for drawer in drawers}
    boards = _laden(subject.piece)
    others = [b for b in boards if b.name not in inside and not _run_over(subject, b, drawers)]
    area = sum(b.length_mm * b.width_mm for b in others)
    load = subject.piece.brief.load_kg
    loads = {b: inside[b.name] for b in boards if b.name in inside}
    if load is not None:
        loads |= {b: load * b.length_mm * b.width_mm / area for b in others}
    for board in others:
        resting = [drawer for drawer in drawers if abs(_clear_mm(subject, board, drawer)) <= _ABOVE_MM]
        if resting:
            loads[board] = loads.get(board, 0.0) + sum(load_kg(subject, drawer) for drawer in resting)
    return {b: loads[b] for b in boards if b in loads}


def _run_over(subject: Subject, board: Part, drawers: Iterable[OpenDrawer]) -> bool:
    """Whether drawers run so close over nearly all of a board that nothing lies there, as on a dust panel."""
    clear = [drawer for drawer in drawers if _ABOVE_MM < _clear_mm(subject, board, drawer) < _OVER_MM]
    under = _plan_of(subject, (board.name,))
    covered = sum(_shared_mm2(under, _plan_of(subject, drawer.parts)) for drawer in clear)
    return covered >= _COVERED_SHARE * _shared_mm2(under, under)


def _clear_mm(subject: Subject, board: Part, drawer: OpenDrawer) -> float:
    """How far a drawer runs above a board; infinite where its middle is not over it. [mm]"""
    x, y, _ = subject.part(drawer.bottom).middle
    (left, right), (front, back) = _plan_of(subject, (board.name,))
    if not (left < x < right and front < y < back):
        return inf
    lowest = min(body_of(subject.part(name)).extent((0.0, 0.0, 1.0))[0] for name in drawer.parts)
    return lowest - body_of(board).extent((0.0, 0.0, 1.0))[1]


_Plan = tuple[tuple[float, float], tuple[float, float]]
"""Left to right, and front to back, seen from above. [mm]"""


def _plan_of(subject: Subject, names: Iterable[str]) -> _Plan:
    bodies = [body_of(subject.part(name)) for name in names]
    across, deep = ([body.extent(axis) for body in bodies] for axis in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    return (
        (min(low for low, _ in across), max(high for _, high in across)),
        (min(low for low, _ in deep), max(high for _, high in deep)),
    )


def _shared_mm2(one: _Plan, other: _Plan) -> float:
    """What two oblongs have in common. [mm2]"""
    sides = (min(a[1], b[1]) - max(a[0], b[0]) for a, b in zip(one, other, strict=True))
    return prod(max(side, 0.0) for side in sides)


def _span(subject: Subject, board: Part) -> float | None:
    """Longest clear length along the grain between supports joined to a board. [mm]"""
    longest = _longest_gap(_rests(subject, board))
    return longest if longest > board.thickness_mm else None


def _rests(subject: Subject, board: Part) -> list[tuple[float, float]]:
    """Stretches along its grain in which what is joined to a board carries it. [mm]"""
    rests: list[tuple[float, float]] = []
    for work in subject.works:
        if work.passes or board.name not in (work.first, work.second):
            continue  # what moves in use is not carried by what it moves past
        other = subject.part(work.second if work.first == board.name else work.first)
        if not _carries(other, board):
            continue
        low, high = body_of(other).extent(board.frame.grain)
        base = dot(board.frame.origin, board.frame.grain)
        rests.append((low - base, high - base))
    return rests


def _longest_gap(rests: Iterable[tuple[float, float]]) -> float:
    """Longest stretch between stretches that carry; one may lie within another. [mm]"""
    longest, reached = 0.0, inf
    for low, high in sorted(rests):
        longest = max(longest, low - reached)
        reached = high if reached == inf else max(reached, high)
    return longest


def _lies_under(other: Part, board: Part) -> bool:
    """Whether the other part is lower, and no back that stands along the board's edge and beside it."""
    up = (0.0, 0.0, 1.0)
    reaches = body_of(other).extent(up)[1] > body_of(board).extent(up)[0] + _ABOVE_MM
    along_edge = abs(dot(other.frame.thickness, board.frame.width)) > FLAT_SHARE
    return other.middle[2] <= board.middle[2] and not (reaches and along_edge)


def _carries(other: Part, board: Part) -> bool:
    """Whether a part joined to a board carries it."""
    return _carries_ends(other, board) or _lies_under(other, board)


def _carries_ends(other: Part, board: Part) -> bool:
    """Whether the other part stands upright at the board's end, as a side carries a shelf."""
    return abs(dot(other.frame.thickness, board.frame.grain)) > FLAT_SHARE


def _room_to_sit(subject: Subject) -> list[Finding]:
    """Knee room and places, where people are to sit at it and not on it."""
    brief = subject.piece.brief
    boards = _boards(subject.piece)
    if not brief.seats or brief.holds_people or not boards:
        return []
    top = boards[0]
    legs = legs_of(subject)
    ends, side = 0, None
    if len(legs) >= 4:
        side = _between(legs, 0)
        ends = places.at_ends(brief.seats, side, _between(legs, 1))
    ways = (0, 1) if ends else (0,)
    rails = [
        part
        for part in subject.piece.parts.values()
        if part.name != top.name
        and max(abs(part.frame.grain[way]) for way in ways) > FLAT_SHARE
        and part.middle[2] < top.middle[2]
    ]
    high = [r for r in rails if body_of(r).extent((0.0, 0.0, 1.0))[1] > top.middle[2] - top.thickness_mm]
    under = min([body_of(r).extent((0.0, 0.0, 1.0))[0] for r in high], default=top.middle[2])
    found = places.check_knees("apron", under)
    if brief.chair_arms_mm is not None:
        arms = brief.chair_arms_mm
        found += places.check_arms("apron", under, arm_height_mm=arms)
    wanted = -(-(brief.seats - ends) // 2)
    if side is not None:
        found += places.check_places("long side", side, wanted=wanted, ends=ends)
    return found + _legs_at_places(top, legs, wanted=wanted)


def _between(legs: list[Part], way: int) -> places.Seating:
    """Room between the legs along the piece (0) or across it (1)."""
    axis = (1.0, 0.0, 0.0) if way == 0 else (0.0, 1.0, 0.0)
    spans = [body_of(leg).extent(axis) for leg in legs]
    above, below = [s[0] for s in spans if s[0] > 0], [s[1] for s in spans if s[1] < 0]
    clear = min(above) - max(below) if above and below else 0.0
    return places.seating(clear, leg_mm=0.0, inset_mm=0.0)


KNEES_MM = 450.0
"""How far under a top a sitter's knees and shins reach (common practice). [mm]"""


def _legs_at_places(top: Part, legs: list[Part], *, wanted: int) -> list[Finding]:
    """Legs between the outer ones that stand where someone's knees are, on either long side."""
    found: list[Finding] = []
    front, back = body_of(top).extent((0.0, 1.0, 0.0))
    for side, inside in (("front", (front, front + KNEES_MM)), ("back", (back - KNEES_MM, back))):
        spans = {
            leg.name: body_of(leg).extent((1.0, 0.0, 0.0))
            for leg in legs
            if body_of(leg).extent((0.0, 1.0, 0.0))[0] < inside[1]
            and body_of(leg).extent((0.0, 1.0, 0.0))[1] > inside[0]
        }
        if len(spans) < 3:
            continue
        first = min(spans.values(), key=lambda span: span[0])
        last = max(spans.values(), key=lambda span: span[1])
        inner = {name: span for name, span in spans.items() if first[1] < span[0] and span[1] < last[0]}
        found += places.check_legs(
            f"{side} side",
            (first[1], last[0]),
            wanted=wanted,
            legs_mm=inner,
        )
    return found
