"""Solidity: parts that stand in each other's wood, and parts their own joints cut in two."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from scantling.checks.catalogue import finding, limit
from scantling.errors import Finding
from scantling.piece.model import Piece
from scantling.plan.cache import Cache
from scantling.solids.interference import Overlap, overlaps
from scantling.solids.mesh import PartMesh

__all__ = ["solidity_findings"]


def solidity_findings(piece: Piece, meshes: Mapping[str, PartMesh], cache: Cache) -> tuple[Finding, ...]:
    """F69 where two parts overlap once their joints are cut, F70 where one falls apart.

    Parameters
    ----------
    piece
        Where the parts stand.
    meshes
        The parts with their joints cut.
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
            message=f"{one.first} and {one.second} share {one.volume_mm3:.0f} mm3 of wood, "
            f"{one.thickness_mm:.1f} mm thick",
            numbers={"volume_mm3": one.volume_mm3, "thickness_mm": one.thickness_mm},
        )
        for one in found
        if one.volume_mm3 > least and one.thickness_mm > thin
    ]
    apart = [
        finding(
            "F70",
            where=name,
            message=f"its joints cut {name} into {mesh.pieces} pieces",
            numbers={"pieces": float(mesh.pieces)},
        )
        for name, mesh in meshes.items()
        if mesh.pieces > 1
    ]
    return (*shared, *apart)
