"""Parts that touch or cross with no joint between them, and the joints that fit there, with reasons."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from scantling.checks.held import Holds
from scantling.joinery.corner import is_corner
from scantling.joinery.work import JointWork
from scantling.piece.contact import Contact, contacts, overlap
from scantling.piece.convex import body_of, face_direction
from scantling.piece.geometry import Vec, cross, dot, norm, scale, sub, unit
from scantling.piece.model import Direction, End, Part, PartKind, Piece
from scantling.remembering import remembered

__all__ = ["Meets", "Offer", "offers_crossing", "offers_touching", "unjoined"]

_ENDS = frozenset(end.value for end in End)
_WIDE = (PartKind.PANEL, PartKind.SHEET)
_PARALLEL = 0.98
"""Cosine of the angle between two grains up to which parts are glued grain along grain (11 deg). [1]"""
_LEAST_MM2 = 25.0
"""Contacts smaller than this are corners that happen to touch. [mm2]"""
_NEAR_MM = 0.1
_CROSSES = 0.3
"""Sine of the angle between two grains from which on two sticks cross (17 deg). [1]"""
_STIFF = frozenset(
    {
        "mortise_tenon",
        "loose_tenon",
        "dowel_pin",
        "cross_bolt",
        "dovetail",
        "finger_joint",
        "housing",
        "plain_screw",
        "round_tenon",
        "halving",
        "notch",
    }
)
"""Families that let neither part move across its grain."""
_BOARD = 2.0
"""Width over thickness from which on a part is a board, whose corner is cut into tails. [1] (judgement)"""
_CAP_MOST = 1.5
"""Thickness of an end cap over that of its panel, at most; what is deeper is a rail. [1] (judgement)"""
_CAP_LEAST = 0.9
"""Share of the panel's end that lies on its cap, at least. [1] (judgement)"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One joint that fits.

    Parameters
    ----------
    family
        As piece files name it.
    first, second
        The pair as a piece file writes it (``rail.end``, ``post``).
    reason
        Why it fits here.
    """

    family: str
    first: str
    second: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Meets:
    """Two parts that no joint connects with each other, where they touch or stand in each other.

    Parameters
    ----------
    one, other
        The parts, in the order of the piece.
    faces
        Faces that touch, by where they look (or ``start``, ``end``); empty where the parts cross.
    area_mm2
        Of the contact; 0 where the parts cross. [mm2]
    common_mm3
        Wood that both would fill; 0 where they touch. [mm3]
    offers
        Joints that fit, the first choice first; none where the two move past each other in use.
    held
        Why a stiff joint is not among them: what holds them already. Empty where nothing does.
    """

    one: str
    other: str
    faces: tuple[str, ...]
    area_mm2: float
    common_mm3: float
    offers: tuple[Offer, ...]
    held: str = ""


def unjoined(piece: Piece, works: Iterable[JointWork]) -> tuple[Meets, ...]:
    """Every pair of parts that meet with no joint between them, the largest contact first.

    Parameters
    ----------
    piece
        The piece.
    works
        What its joints answered.
    """
    works = tuple(works)
    holds = Holds(piece, works)
    joined = {frozenset((work.first, work.second)) for work in works}
    found = []
    for one, other in _near(tuple(piece.parts.values())):
        if frozenset((one.name, other.name)) not in joined:
            meets = _meets(one, other)
            if meets is not None:
                found.append(_as_held(meets, one, other, holds))
    # rounded, so that contacts alike keep the order of the piece whatever the last digit says
    return tuple(sorted(found, key=lambda meets: (-round(meets.area_mm2, 3), -round(meets.common_mm3, 3))))


def _as_held(meets: Meets, one: Part, other: Part, holds: Holds) -> Meets:
    """Without joints that would stop what other joints let move."""
    passing = holds.passing(one, other)
    if passing:
        return replace(meets, offers=(), held=passing)
    moving = holds.moving(one, other)
    if not moving:
        return meets
    offers = tuple(offer for offer in meets.offers if offer.family not in _STIFF)
    return replace(meets, offers=offers, held=moving)


@remembered(limit=1024)
def _box(part: Part) -> tuple[tuple[float, float], ...]:
    body = body_of(part)
    return tuple(body.extent(axis) for axis in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))


def _near(parts: tuple[Part, ...]) -> list[tuple[Part, Part]]:
    """Pairs whose boxes touch, in the order of the piece."""
    import numpy as np

    boxes = np.array([_box(part) for part in parts]).reshape(-1, 3, 2)
    low, high = boxes[:, :, 0], boxes[:, :, 1] + _NEAR_MM
    meet = ((low[:, None] <= high) & (low <= high[:, None])).all(axis=2)
    return [(parts[i], parts[j]) for i, j in zip(*np.nonzero(np.triu(meet, k=1)), strict=True)]


@remembered(limit=1024)
def _meets(one: Part, other: Part) -> Meets | None:
    touching = [contact for contact in contacts(one, other) if contact.area_mm2 >= _LEAST_MM2]
    if touching:
        widest = touching[0]
        return Meets(
            one=one.name,
            other=other.name,
            faces=(
                _looks(widest.first_face, widest.normal),
                _looks(widest.second_face, scale(widest.normal, -1.0)),
            ),
            area_mm2=widest.area_mm2,
            common_mm3=0.0,
            offers=offers_touching(one, other, widest),
        )
    common = overlap(one, other)
    if common is None:
        return None
    return Meets(
        one=one.name,
        other=other.name,
        faces=(),
        area_mm2=0.0,
        common_mm3=common.volume_mm3,
        offers=offers_crossing(one, other),
    )


def _looks(label: str, normal: Vec) -> str:
    return label if label in _ENDS else face_direction(normal).value


def offers_touching(own: Part, other: Part, contact: Contact) -> tuple[Offer, ...]:
    """Joints for a flat contact, the first choice first.

    An end against a side takes tenons, dowels or a housing, a panel's end with a cap across it a breadboard
    end, the corner of a box dovetails; a broad panel on a rail what lets it move; edges
    and faces of one grain, glue.

    Parameters
    ----------
    own, other
        The two parts.
    contact
        Where they touch, its faces labelled for ``own`` first.
    """
    at_own, at_other = contact.first_face in _ENDS, contact.second_face in _ENDS
    if at_own and at_other:
        pair = (f"{own.name}.{contact.first_face}", other.name)
        return _offered(
            pair,
            dowel_pin="End grain on end grain holds no glue: dowels give it long grain on both sides.",
            loose_tenon="One broad tongue instead of several round ones.",
        )
    if at_own or at_other:
        first, second, end = (own, other, contact.first_face)
        if at_other:
            first, second, end = (other, own, contact.second_face)
        pair = (f"{first.name}.{end}", second.name)
        if _is_box_corner(first, second, contact):
            return _corner(pair, sheet=PartKind.SHEET in (first.kind, second.kind))
        return (*_cap_on(first, second, contact, end), *_end_on_side(first, pair))
    return _side_by_side(own, other, contact)


def _is_box_corner(first: Part, second: Part, contact: Contact) -> bool:
    boards = (first, second)
    if any(part.round is not None or part.width_mm < _BOARD * part.thickness_mm for part in boards):
        return False
    flat = abs(dot(first.frame.width, second.frame.width)) > 1.0 - 1e-6
    return flat and is_corner(first, second, contact)


def _corner(pair: tuple[str, str], *, sheet: bool) -> tuple[Offer, ...]:
    """The corner of a box or drawer; the layers of a sheet would chip from tails."""
    tails = "It cannot be pulled apart one way, and long grain is glued on every flank."
    fingers = "Straight, one cut after the other: strong by their glue."
    dowels = "No cut is seen; weaker."
    cut = {"finger_joint": fingers} if sheet else {"dovetail": tails, "finger_joint": fingers}
    return _offered(pair, **cut, dowel_pin=dowels)


def _cap_on(panel: Part, cap: Part, contact: Contact, end: str) -> tuple[Offer, ...]:
    """A breadboard end, where a stick of about the panel's thickness lies across its whole end."""
    if panel.kind not in _WIDE or cap.kind in _WIDE or cap.round is not None:
        return ()
    if abs(dot(cap.frame.grain, panel.frame.width)) < _PARALLEL:
        return ()
    if abs(dot(contact.normal, panel.frame.grain)) < 1.0 - 1e-6:
        return ()
    low, high = body_of(cap).extent(panel.frame.thickness)
    if high - low > _CAP_MOST * panel.thickness_mm:
        return ()
    if contact.area_mm2 < _CAP_LEAST * panel.width_mm * panel.thickness_mm:
        return ()
    reason = (
        "It keeps the panel flat, and lets it change its width over the year: only the middle is fixed."
        if panel.kind is PartKind.PANEL
        else "It covers the sheet's end and keeps it flat; held in the middle alone, nothing binds."
    )
    return (Offer(family="breadboard_end", first=cap.name, second=f"{panel.name}.{end}", reason=reason),)


def _end_on_side(first: Part, pair: tuple[str, str]) -> tuple[Offer, ...]:
    if first.kind in _WIDE:
        return _offered(
            pair,
            housing="It carries the whole end of a broad part, and glue on end grain alone would not.",
            dowel_pin="No channel shows on the other side's edges.",
            loose_tenon="Stronger against being pulled out than a housing.",
        )
    return _offered(
        pair,
        mortise_tenon="An end has only end grain to glue; a tenon brings long grain into the mortise.",
        loose_tenon="As strong, with both ends sawn square and the tenon made apart.",
        dowel_pin="The least to set up, and the least glue area.",
        cross_bolt="It comes apart again.",
    )


def _side_by_side(own: Part, other: Part, contact: Contact) -> tuple[Offer, ...]:
    edges = [label.startswith("width") for label in (contact.first_face, contact.second_face)]
    along = abs(dot(own.frame.grain, other.frame.grain)) > _PARALLEL
    broad = [part.kind in _WIDE and not edge for part, edge in zip((own, other), edges, strict=True)]
    if along and all(edges):
        return _offered(
            (own.name, other.name),
            edge_glue="Long grain on long grain along the whole edge: the seam is as strong as the wood.",
            spline="The same seam, lined up by a strip.",
        )
    if along and not any(edges) and not any(broad):
        return _offered(
            (own.name, other.name),
            face_lamination="Long grain on long grain over the whole face; both move alike.",
        )
    first, second = (other, own) if broad[0] else (own, other)
    if not any(broad):
        return _offered(
            (first.name, second.name),
            slotted_screw="The two move different ways over the year: slots let them.",
            plain_screw="Where they are narrow enough that they hardly do.",
        )
    face = _inner_face(first, second, contact.normal).value
    slots = Offer(
        family="slotted_screw",
        first=first.name,
        second=second.name,
        reason="A broad part changes its width over the year: slots let it, and hold it down.",
    )
    fasteners = _offered(
        (f"{first.name}.{face}", second.name),
        top_button="Wood alone, in mortises that let it move.",
        top_clip="The quickest: one saw kerf along the rail.",
        figure_eight="Nothing stands out below.",
    )
    return (slots, *fasteners)


def _offered(pair: tuple[str, str], **reasons: str) -> tuple[Offer, ...]:
    return tuple(
        Offer(family=family, first=pair[0], second=pair[1], reason=reason)
        for family, reason in reasons.items()
    )


def _inner_face(rail: Part, top: Part, normal: Vec) -> Direction:
    """The upright side of a rail along its grain that looks toward the middle of the top over it."""
    across = min((rail.frame.width, rail.frame.thickness), key=lambda axis: abs(dot(axis, normal)))
    toward = dot(sub(top.middle, rail.middle), across)
    return face_direction(across if toward >= 0.0 else scale(across, -1.0))


def offers_crossing(own: Part, other: Part) -> tuple[Offer, ...]:
    """Joints for two parts drawn one in the other, the first choice first."""
    if own.kind in _WIDE or other.kind in _WIDE:
        first, second = (own, other) if own.kind in _WIDE else (other, own)
        return _offered(
            (first.name, second.name),
            panel_groove="A broad part drawn into another stands in a groove, and moves in it.",
        )
    if own.round is not None or other.round is not None:
        first, second = (own, other) if own.round is not None else (other, own)
        return _offered(
            (first.name, second.name),
            round_tenon="A round stick drawn into another part is turned to fit a bored hole.",
        )
    notch = _offered(
        (own.name, other.name),
        notch="One stays whole: for the part that must keep its strength.",
    )
    upper = _upper(own, other)
    if upper is None:
        return notch
    halving = _offered(
        (upper.name, other.name if upper is own else own.name),
        halving="Both lose half: their faces come flush and both keep the same strength.",
    )
    return (*halving, *notch)


def _upper(own: Part, other: Part) -> Part | None:
    """Of two sticks that cross, the one that lies over the other; None where neither is open to the other."""
    common = overlap(own, other)
    up = cross(own.frame.grain, other.frame.grain)
    if common is None or norm(up) < _CROSSES:
        return None
    up = unit(up)
    if up[2] < -1e-9 or (abs(up[2]) <= 1e-9 and up[0] + up[1] < 0.0):
        up = scale(up, -1.0)
    low, high = common.extent(up)
    for over, under in ((own, other), (other, own)):
        if low - body_of(over).extent(up)[0] < _NEAR_MM and body_of(under).extent(up)[1] - high < _NEAR_MM:
            return over
    return None
