"""Which joint families fit where two parts touch or cross, for parts that are not joined yet."""

from __future__ import annotations

from scantling.piece.contact import Contact
from scantling.piece.convex import face_direction
from scantling.piece.geometry import Vec, dot, scale, sub
from scantling.piece.model import Direction, End, Part, PartKind

__all__ = ["crossing_families", "touching_families"]

_ENDS = frozenset(end.value for end in End)
_WIDE = (PartKind.PANEL, PartKind.SHEET)
_CUT_SQUARE = 0.9998
"""Cosine of the angle up to which an end counts as cut square (about 1 deg). [1]"""
_PARALLEL = 0.98
"""Cosine of the angle between two grains up to which parts are glued grain along grain (11 deg). [1]"""


def touching_families(own: Part, other: Part, contact: Contact) -> str:
    """The families for a flat contact, with the part that comes first in the pair.

    An end against a side takes tenons, dowels or a housing; a broad panel on a rail what lets it move; edges
    and faces of one grain, glue.

    Parameters
    ----------
    own, other
        The two parts.
    contact
        Where they touch, its faces labelled for ``own`` first.
    """
    at_own, at_other = contact.first_face in _ENDS, contact.second_face in _ENDS
    if at_own and at_other and abs(dot(contact.normal, own.frame.grain)) < _CUT_SQUARE:
        return (
            f"miter, dowel_pin or loose_tenon fit, from {own.name} (its {contact.first_face}) to {other.name}"
        )
    if at_own and at_other:
        return f"dowel_pin or loose_tenon fit, from {own.name} (its {contact.first_face}) to {other.name}"
    if at_own or at_other:
        first, second, end = (own, other, contact.first_face)
        if at_other:
            first, second, end = (other, own, contact.second_face)
        housed = first.kind in _WIDE or second.kind in _WIDE
        names = "housing, dowel_pin or loose_tenon" if housed else "mortise_tenon, loose_tenon or dowel_pin"
        return f"{names} fit, from {first.name} (its {end}) to {second.name}"
    return _side_by_side(own, other, contact)


def _side_by_side(own: Part, other: Part, contact: Contact) -> str:
    edges = [label.startswith("width") for label in (contact.first_face, contact.second_face)]
    along = abs(dot(own.frame.grain, other.frame.grain)) > _PARALLEL
    broad = [part.kind in _WIDE and not edge for part, edge in zip((own, other), edges, strict=True)]
    if along and all(edges):
        return "edge_glue fits"
    if along and not any(edges) and not any(broad):
        return "face_lamination fits"
    first, second = (other, own) if broad[0] else (own, other)
    if not any(broad):
        return f"slotted_screw fits, from {first.name} to {second.name}"
    face = _inner_face(first, second, contact.normal).value
    return (
        f"slotted_screw fits, from {first.name} to {second.name}; so do top_button, top_clip and "
        f"figure_eight, from its {face} face"
    )


def _inner_face(rail: Part, top: Part, normal: Vec) -> Direction:
    """The upright side of a rail along its grain that looks toward the middle of the top over it."""
    across = min((rail.frame.width, rail.frame.thickness), key=lambda axis: abs(dot(axis, normal)))
    toward = dot(sub(top.middle, rail.middle), across)
    return face_direction(across if toward >= 0.0 else scale(across, -1.0))


def crossing_families(own: Part, other: Part) -> str:
    """The families for two parts drawn one in the other, with the part that comes first in the pair."""
    if own.kind in _WIDE or other.kind in _WIDE:
        first, second = (own, other) if own.kind in _WIDE else (other, own)
        return f"panel_groove fits, from {first.name} to {second.name}"
    if own.round is not None or other.round is not None:
        first, second = (own, other) if own.round is not None else (other, own)
        return f"round_tenon fits where an end of {first.name} stands in {second.name}"
    return f"halving or notch fit, from {own.name} to {other.name}"
