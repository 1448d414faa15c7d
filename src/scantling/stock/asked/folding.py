"""Blanks cut as one and parted later: grain that runs through, and leaves resawn out of one thickness."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TypeVar

from scantling.piece.matching import Looks, WishKind
from scantling.stock.asked.blank import AND, Blank
from scantling.stock.asked.cutting import Cutting
from scantling.stock.asked.wish import FOLDED, Wish, pairs

__all__ = ["folded", "one_blank", "parted_by", "unfoldable"]

T = TypeVar("T")
_STRICT = (Looks.CLEAR, Looks.SAP_INSIDE, Looks.SHOW_CLEAR, Looks.SOUND)


def parted_by(blank: Blank) -> WishKind | None:
    """How a blank that stands for several is parted later; None for one that is one part.

    Parameters
    ----------
    blank
        The blank; a length with a tail counts as one that is crosscut.
    """
    if not blank.members:
        return None
    if len(blank.members) == 1 or blank.length_mm > max(m.length_mm for m in blank.members) + 1.0:
        return WishKind.RUN_THROUGH
    if blank.width_mm > max(m.width_mm for m in blank.members) + 1.0:
        return WishKind.SIDE_BY_SIDE
    return WishKind.RESAWN


def one_blank(kind: WishKind, members: Sequence[Blank], cutting: Cutting) -> Blank:
    """The blank several are cut out of later.

    Parameters
    ----------
    kind
        One of :data:`~scantling.stock.asked.wish.FOLDED`.
    members
        The blanks, in order.
    cutting
        Kerfs of the saws that part them.
    """
    first, gaps = members[0], len(members) - 1
    length, width = max(b.length_mm for b in members), max(b.width_mm for b in members)
    thickness, quarters = max(b.thickness_mm for b in members), _common(b.quarters for b in members)
    if kind is WishKind.RUN_THROUGH:
        length = sum(b.length_mm for b in members) + gaps * cutting.crosscut_kerf_mm
    elif kind is WishKind.SIDE_BY_SIDE:
        width = sum(b.width_mm for b in members) + gaps * cutting.rip_kerf_mm
    else:
        thickness = sum(b.needed_mm or b.thickness_mm for b in members) + gaps * cutting.resaw_kerf_mm
        quarters = ()
    return replace(
        first,
        name=AND.join(b.name for b in members),
        length_mm=length,
        width_mm=width,
        thickness_mm=thickness,
        needed_mm=thickness,
        quarters=quarters,
        grain_fixed=True,
        same_board="",
        looks=min((b.looks for b in members), key=_STRICT.index),
        boards=_common(b.boards for b in members),
        sawn=_common(b.sawn for b in members),
        members=tuple(members),
    )


def _common(sets: Iterable[tuple[T, ...]]) -> tuple[T, ...]:
    """What all allow, where an empty set allows anything."""
    given = [s for s in sets if s]
    return tuple(v for v in given[0] if all(v in s for s in given)) if given else ()


def unfoldable(wish: Wish, blanks: dict[str, Blank], cutting: Cutting) -> str:
    """Why no board at all could grant a wish, in words; empty where one could."""
    own = [blanks[m] for m in wish.members if m in blanks]
    if len(own) < len(wish.members):
        return "a panel glued up from strips of free width has no grain that runs on into another part"
    for attribute, said in (("quarters", "nominal thickness"), ("boards", "board they are pinned to")):
        given = [set(getattr(b, attribute)) for b in own if getattr(b, attribute)]
        if not wish.kind.leaves and given and not set.intersection(*given):
            return f"they have no {said} in common"
    sawn = [set(b.sawn) for b in own if b.sawn]
    if sawn and not set.intersection(*sawn):
        asked = " and ".join(sorted({one.value for each in sawn for one in each}))
        return f"they are asked for as {asked}, and one board is sawn one way"
    if wish.kind.leaves and len(own) % 2:
        return f"leaves are resawn two out of one thickness, and {len(own)} cannot be told off in pairs"
    if wish.kind.leaves:
        wide = max(b.width_mm for b in own)
        if wide > cutting.resaw_most_mm:
            most = cutting.resaw_most_mm
            return (
                f"the leaves are {wide:.0f} mm wide and the saw takes {most:.0f} mm when resawing"
                if most > 0
                else "the shop has no saw to resaw with"
            )
    return ""


def folded(blanks: Sequence[Blank], wishes: Iterable[Wish], cutting: Cutting) -> tuple[Blank, ...]:
    """The blanks with those of some wishes folded into one; what cannot be folded stays as it is.

    Parameters
    ----------
    blanks
        What the piece asks for.
    wishes
        The wishes to grant so; others are passed over.
    cutting
        Kerfs.
    """
    by_name = {b.name: b for b in blanks}
    heads: dict[str, Blank] = {}
    gone: set[str] = set()
    for wish in wishes:
        if wish.kind not in FOLDED or unfoldable(wish, by_name, cutting) or gone & set(wish.members):
            continue
        if len(wish.members) < 2:
            continue  # nothing to run on into: it is granted wherever it lies
        groups = pairs(wish.members) if wish.kind.leaves else [wish.members]
        for names in groups:
            heads[names[0]] = one_blank(wish.kind, [by_name[n] for n in names], cutting)
            gone.update(names)
    return tuple(heads.get(b.name, b) for b in blanks if b.name in heads or b.name not in gone)
