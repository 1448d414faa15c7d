"""Solidity: parts that stand in each other's wood, and parts their own joints cut in two."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from scantling.checks.catalogue import finding, limit
from scantling.errors import Finding
from scantling.joinery.work import JointWork
from scantling.piece.model import Part, Piece
from scantling.plan.cache import Cache
from scantling.solids.interference import Overlap, overlaps
from scantling.solids.mesh import PartMesh
from scantling.units.show import show_number

__all__ = ["solidity_findings"]


def solidity_findings(
    piece: Piece, meshes: Mapping[str, PartMesh], cache: Cache, *, works: Sequence[JointWork] = ()
) -> tuple[Finding, ...]:
    """F69 where two parts overlap once their joints are cut, F70 where one falls apart.

    Parameters
    ----------
    piece
        Where the parts stand.
    meshes
        The parts with their joints cut.
    works
        The joints, to name those that meet or cut through.
    """

    def kept(pair: tuple[object, ...], work: Callable[[], Overlap | None]) -> Overlap | None:
        return cache.answer("overlap", pair, work)

    keys = tuple((name, mesh.key, piece.parts[name].frame) for name, mesh in meshes.items())
    found = cache.answer("overlaps", keys, lambda: overlaps(piece.parts, meshes, one=kept))
    least, thin = limit("F69", "volume_mm3"), limit("F69", "thickness_mm")
    shared = [
        finding(
            "F69",
            where=f"{one.first}, {one.second}",
            message=f"{one.first} and {one.second} share "
            f"{show_number(1e-3 * one.volume_mm3, digits=2)} cm³ of wood, {one.thickness_mm:.1f} mm thick",
            advice=_both_enter(one, works) or None,
            numbers={"volume_mm3": one.volume_mm3, "thickness_mm": one.thickness_mm},
        )
        for one in found
        if one.volume_mm3 > least and one.thickness_mm > thin
    ]
    apart = [
        finding(
            "F70",
            where=name,
            message=f"its joints cut {name} into {mesh.pieces} pieces{_deepest(piece.parts[name], works)}",
            numbers={"pieces": float(mesh.pieces)},
        )
        for name, mesh in meshes.items()
        if mesh.pieces > 1
    ]
    return (*shared, *apart)


def _both_enter(one: Overlap, works: Sequence[JointWork]) -> str:
    """The way out where the ends of both enter one part and meet in it; empty elsewhere."""
    entered = [{w.second for w in works if w.first == name and not w.dry} for name in (one.first, one.second)]
    shared = sorted(entered[0] & entered[1])
    if not shared:
        return ""
    return (
        f"Both enter {' and '.join(shared)}: if it is their tenons that meet, shorten one, set one higher, "
        "or miter their ends, where `mitered` is the outer face of each rail itself."
    )


def _deepest(part: Part, works: Sequence[JointWork]) -> str:
    """The deepest cut into a part's side, where it goes through; a tongue, a tenon or an end is none."""
    cuts = [
        (mark.depth_mm, work.joint)
        for work in works
        for mark in work.marks
        if mark.part == part.name and not mark.on_end and mark.depth_mm >= part.thickness_mm - 1e-6
    ]
    if not cuts:
        return ""
    depth_mm, joint = max(cuts)
    return f"; {joint} goes {depth_mm:.1f} mm deep where it is {part.thickness_mm:.1f} mm thick"
