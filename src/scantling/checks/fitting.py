"""Which joint families fit where two parts touch or cross, in words, for parts that are not joined yet."""

from __future__ import annotations

from scantling.checks.offers import Offer, offers_crossing, offers_touching
from scantling.piece.contact import Contact
from scantling.piece.model import Part

__all__ = ["crossing_families", "touching_families"]

_NAMED = 3
"""Families named at most; the rest is in the list of what touches."""
_AT_FACE = ("top_button", "top_clip", "figure_eight")


def touching_families(own: Part, other: Part, contact: Contact) -> str:
    """The families for a flat contact, with the part that comes first in the pair.

    Parameters
    ----------
    own, other
        The two parts.
    contact
        Where they touch, its faces labelled for ``own`` first.
    """
    offers = offers_touching(own, other, contact)
    at_face = [offer for offer in offers if offer.family in _AT_FACE]
    if at_face:
        face = at_face[0].first.partition(".")[2]
        named = _listed([offer.family for offer in at_face], last="and")
        return f"{_told(offers[:1])}; so do {named}, from its {face} face"
    return _told(offers[:_NAMED])


def crossing_families(own: Part, other: Part) -> str:
    """The families for two parts drawn one in the other, with the part that comes first in the pair."""
    offers = offers_crossing(own, other)
    if offers[0].family == "round_tenon":
        return f"round_tenon fits where an end of {offers[0].first} stands in {offers[0].second}"
    first = offers[0].first
    return _told(tuple(offer for offer in offers if offer.first == first))


def _told(offers: tuple[Offer, ...]) -> str:
    """Families and pair, as a maker reads them; none that names the pair otherwise than the first."""
    offers = tuple(offer for offer in offers if offer.first == offers[0].first)
    names = _listed([offer.family for offer in offers], last="or")
    first, _, end = offers[0].first.partition(".")
    second, _, other_end = offers[0].second.partition(".")
    place, other_place = (f" (its {each})" if each else "" for each in (end, other_end))
    fits = "fits" if len(offers) == 1 else "fit"
    return f"{names} {fits}, from {first}{place} to {second}{other_place}"


def _listed(names: list[str], *, last: str) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}"
