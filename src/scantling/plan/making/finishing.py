"""Finishing: areas, sanding, coats, liters, and when the next coat may go on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.finish.area import Areas, areas
from scantling.finish.grits import Sanding, SandingRates, grit_sequence, sanding_with
from scantling.finish.liters import Coats, coats
from scantling.finish.system import FinishKind, FinishSystem
from scantling.finish.timetable import Drying, cautions, drying
from scantling.joinery.work import JointWork
from scantling.piece.model import Finish, Piece
from scantling.plan.making.pace import rate
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.surfacing import Chemistry, FinishProduct
from scantling.solids.mesh import PartMesh

__all__ = ["Finishing", "finish_or_default", "finish_system", "plan_finishing"]

FIRST_GRIT = 80
"""Coarsest grit on a planed surface (common practice). [grit]"""
LAST_GRIT = 180
"""Finer does nothing that shows under a film (common practice). [grit]"""
_KINDS = {
    Chemistry.OIL: FinishKind.DRYING_OIL,
    Chemistry.OIL_VARNISH: FinishKind.OIL_VARNISH,
    Chemistry.FILM: FinishKind.FILM_VARNISH,
    Chemistry.HARD_WAX_OIL: FinishKind.HARD_WAX_OIL,
    Chemistry.SHELLAC: FinishKind.SHELLAC,
    Chemistry.LACQUER: FinishKind.LACQUER,
    Chemistry.WATER_BORNE: FinishKind.WATER_BORNE,
    Chemistry.SOAP: FinishKind.SOAP,
    Chemistry.WAX: FinishKind.WAX,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Finishing:
    """The finish.

    Parameters
    ----------
    coats_min
        Hands-on time of each coat; from the second on with the rubbing down before it. [min]
    by_hand_min
        The last grit once more along the grain, and every edge of what shows broken. [min]
    before_assembly
        Parts whose faces no tool reaches once the piece is together: sand and finish them first.
    """

    system: str
    areas: Areas
    sanding: Sanding
    by_hand_min: float
    coats: Coats
    drying: Drying
    coats_min: tuple[float, ...]
    cautions: tuple[str, ...]
    before_assembly: tuple[str, ...]
    source: str

    @property
    def surface_min(self) -> float:
        """Sanding with the machine and by hand. [min]"""
        return self.sanding.minutes + self.by_hand_min


def plan_finishing(
    piece: Piece, works: tuple[JointWork, ...], meshes: Mapping[str, PartMesh], shop: Shop
) -> Finishing:
    """The finish the piece asks for, or the shop's usual one.

    Parameters
    ----------
    piece, works, meshes
        The piece, its joints and its parts with the joints cut.
    shop
        Its finishes and its air.

    Raises
    ------
    InputError
        ``unknown_finish``, ``too_cold_to_finish``, ``too_hot_to_finish``.
    """
    wanted = piece.finish
    product = shop.finish_named(wanted.system if wanted else "")
    shown = wanted.coats if wanted else product.coats
    hidden = wanted.hidden_coats if wanted else product.coats
    system = finish_system(product)
    surface = areas(
        piece,
        masked_mm2=_masked(works),
        surfaces_mm2={name: mesh.surface_area_mm2 for name, mesh in meshes.items()},
    )
    return Finishing(
        system=product.name,
        areas=surface,
        sanding=sanding_with(
            max(0.0, surface.shown_m2 - surface.slow_m2), paces=_paces(shop), edge_m2=surface.slow_m2
        ),
        by_hand_min=rate("last_by_hand").minutes(m2=surface.shown_m2)
        + rate("break_edge").minutes(meters=surface.arrises_m),
        coats=coats(
            system, surface.shown_m2, shown_coats=shown, hidden_m2=surface.hidden_m2, hidden_coats=hidden
        ),
        drying=drying(
            system,
            max(shown, hidden),
            shop_c=shop.climate.temperature_c,
            shop_rh=shop.climate.humidity_pct / 100.0,
        ),
        coats_min=tuple(
            product.minutes_per_m2 * surface.finished_m2
            + (rate("denib").minutes(m2=surface.finished_m2) if k else 0.0)
            for k in range(max(shown, hidden))
        ),
        cautions=cautions(system),
        before_assembly=_hard_to_reach(piece, works),
        source=product.source,
    )


def finish_system(product: FinishProduct) -> FinishSystem:
    """A finish of the shop as its label describes it."""
    return FinishSystem(
        name=product.name,
        kind=_KINDS[product.kind],
        first_l_m2=product.first_l_m2,
        next_l_m2=product.next_l_m2,
        recoat_h=product.recoat_h,
        light_use_h=product.light_use_h,
        full_use_h=product.full_cure_h,
        least_c=product.min_temperature_c,
        damp_rh=product.max_humidity_pct / 100.0,
        oily_rags=product.oily_rags,
        flammable=product.flammable,
        source=product.source,
    )


def _paces(shop: Shop) -> dict[int, SandingRates]:
    """The grits a shop lists of its own are the ones it sands with; else the usual sequence."""
    chosen = None if shop.abrasives else grit_sequence(FIRST_GRIT, LAST_GRIT)
    return {
        one.grit: SandingRates(
            flat_min_m2=one.minutes_per_m2, edge_min_m2=2.0 * one.minutes_per_m2, disc_m2=one.m2_per_sheet
        )
        for one in shop.grits()
        if chosen is None or one.grit in chosen
    }


def _masked(works: tuple[JointWork, ...]) -> dict[str, float]:
    masked: dict[str, float] = {}
    for work in works:
        for face in work.glue:
            for part in face.parts:
                masked[part] = masked.get(part, 0.0) + face.area_mm2
    return masked


def _hard_to_reach(piece: Piece, works: tuple[JointWork, ...]) -> tuple[str, ...]:
    """Parts glued at both ends between others: their inner faces meet corners no sander gets into."""
    joined: dict[str, int] = {}
    for work in works:
        if not work.dry and work.glue:
            joined[work.first] = joined.get(work.first, 0) + 1
    return tuple(name for name in piece.parts if joined.get(name, 0) >= 2)


def finish_or_default(piece: Piece, shop: Shop) -> Finish:
    """The finish asked for, or the shop's usual one."""
    if piece.finish is not None:
        return piece.finish
    product = shop.finish_named()
    return Finish(system=product.name, coats=product.coats, hidden_coats=product.coats)
