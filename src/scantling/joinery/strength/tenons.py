"""Tenons in mortises: bending of the tenon, the glue on its cheeks, and what its end is pressed down by."""

from __future__ import annotations

from dataclasses import replace
from math import pi

from scantling.joinery.bending import lies_flat, turning_way
from scantling.joinery.strength.figure import Figure, JointStrength, Known, none
from scantling.joinery.strength.glue import (
    ACROSS,
    FACTOR,
    SHEAR_PARALLEL,
    crushed,
    lap,
    less,
    line_mpa,
    reckoned,
    sheared,
    woods,
)
from scantling.joinery.work import ConnectorKind, JointWork, Mark, MarkKind
from scantling.piece.model import Part

__all__ = ["bridle", "loose_tenon", "mortise_tenon", "round_tenon", "tusk_tenon"]

BENDING = "section modulus of the tenon times the wood's modulus of rupture (Wood Handbook table 5-3)"
TESTED_OVER = 1.57
"""Mean of tested joints over that sum: 353 N m over 225 for red oak, 358 over 240 for white oak. [1]

References
----------
.. [1] C. A. Eckelman, M. Uysal, E. Haviarova, "Statistical lower tolerance limits for rectangular mortise and
   tenon joints", BioResources 11(3), 2016, 7162-7171: 215 joints of red oak, 140 of white, tenons 9.5 thick,
   38 wide, 32 long, PVA; the lower 95|95 limits are 266 and 240 N m.
"""
TENON_STIFFNESS_NMM_RAD = 8.0e6
"""Turning stiffness of a glued tenon in a leg. [N mm/rad] From memory."""
DOWELS_STIFFNESS_NMM_RAD = (1.892e6, 4.905e6)
"""Of dowel joints of chair frames, least and greatest tested. [N mm/rad]

References
----------
.. [1] A. Kasal, M. B. Ulun, T. Kuskun, Turkish Journal of Forestry 26(3), 2025, 384-394: Scots pine with
   dowels 8 x 40 to Oriental beech with dowels 10 x 35 or 40.
"""
STIFF_TENON = Figure(
    likely=TENON_STIFFNESS_NMM_RAD,
    low=DOWELS_STIFFNESS_NMM_RAD[1],
    high=2.0 * TENON_STIFFNESS_NMM_RAD,
    known=Known.MEMORY,
    source="from memory, as is the upper end of its range; the lower end is the stiffest dowel joint tested "
    "by Kasal and others, Turkish J. of Forestry 26(3), 2025",
)
STIFF_LOOSE = Figure(
    likely=DOWELS_STIFFNESS_NMM_RAD[1],
    low=sum(DOWELS_STIFFNESS_NMM_RAD) / 2.0,
    high=TENON_STIFFNESS_NMM_RAD,
    known=Known.MEMORY,
    source="no test of its stiffness found: taken between dowels', which is tested, and tenons', which is "
    "from memory, as its strength lies between theirs (Aman, West, Cormier, Forest Products J. 58(3), 2008)",
)


def mortise_tenon(work: JointWork, first: Part, second: Part) -> JointStrength:
    """Tenons cut on the end of a rail."""
    return JointStrength(
        pull_n=lap(work.glue, first, second),
        shear_n=_pressed(work, first, second),
        moment_nmm=_bent(work, tested=not _flat(work, first, second)),
        stiffness_nmm_rad=_stiff(STIFF_TENON, work, first, second),
    )


def bridle(work: JointWork, first: Part, second: Part) -> JointStrength:
    """A tongue between two cheeks, glued on both."""
    stiff = STIFF_TENON
    return JointStrength(
        pull_n=lap(work.glue, first, second),
        shear_n=lap(work.glue, first, second),
        moment_nmm=_bent(work),
        stiffness_nmm_rad=Figure(
            likely=stiff.likely,
            low=stiff.low,
            high=stiff.high,
            known=Known.MEMORY,
            source="taken as a tenon's, which is from memory; no test of a bridle's was found",
        ),
    )


def tusk_tenon(work: JointWork, first: Part, second: Part) -> JointStrength:
    """A through tenon held by a wedge."""
    return JointStrength(
        pull_n=none("how a tenon's end shears out behind a wedge is not published for furniture"),
        shear_n=_pressed(work, first, second),
        moment_nmm=_bent(work),
        stiffness_nmm_rad=none("as stiff as its wedge is driven"),
    )


def loose_tenon(work: JointWork, first: Part, second: Part) -> JointStrength:
    """A tenon let into both parts."""
    depths = {name: max(_depths(work.marks, name), default=0.0) for name in (first.name, second.name)}
    both = sum(depths.values())
    pull = none("no glue holds it")
    if work.glue and both > 0.0:
        pull = min(
            (_grip(work, part, depths[part.name] / both) for part in (first, second)),
            key=lambda grip: grip.likely or 0.0,
        )
    return JointStrength(
        pull_n=pull,
        shear_n=_pressed(work, first, second),
        moment_nmm=_bent(work),
        stiffness_nmm_rad=_stiff(STIFF_LOOSE, work, first, second),
    )


def round_tenon(work: JointWork, first: Part, second: Part) -> JointStrength:
    """A turned tenon in a bored hole."""
    tenons = [mark for mark in work.marks if mark.kind is MarkKind.TENON and mark.part == first.name]
    own = woods(first)
    moment = shear = none("no strength is published for this wood")
    if own is not None and tenons and own[0].mor_mpa is not None:
        modulus = sum(pi * mark.width_mm**3 / 32.0 for mark in tenons)
        moment = reckoned(modulus * own[0].mor_mpa, BENDING)
    if own is not None and tenons:
        area = sum(pi * mark.width_mm**2 / 4.0 for mark in tenons)
        shear = sheared(own[0], area, share=0.75, what="three quarters of its section")
    return JointStrength(
        pull_n=lap(work.glue, first, second),
        shear_n=shear,
        moment_nmm=moment,
        stiffness_nmm_rad=none("no test of its turning stiffness found"),
    )


def _grip(work: JointWork, part: Part, share: float) -> Figure:
    """What holds the tenons in one part, which has its share of the glue. [N]"""
    wood = woods(part)
    if wood is None:
        return none("glue on sheet goods: no published figure")
    crossed = not any(m.on_end for m in work.marks if m.part == part.name and m.kind is MarkKind.MORTISE)
    stress = line_mpa(wood, crossed=crossed)
    if stress is None:
        return none("no shear strength is published for this wood")
    area = sum(face.area_mm2 for face in work.glue) * share
    side = f"across the grain; {ACROSS}" if crossed else "along the grain"
    told = f"the tenon's glue at {stress:.1f} MPa: {SHEAR_PARALLEL}, sheared {side}"
    return reckoned(area * stress, told)


def _bent(work: JointWork, *, tested: bool = False) -> Figure:
    """The family's own breaking moment, a quarter of it counted on. [N mm]"""
    if work.breaking_nmm is None:
        return none("no bending strength is published for what crosses this joint")
    breaks = work.breaking_nmm
    told = (
        "; tested joints of oak broke at 1.5 times this sum on average and hardly any below it "
        "(Eckelman, Uysal, Haviarova, BioResources 11(3), 2016)"
        if tested
        else ""
    )
    return Figure(
        likely=breaks,
        low=breaks,
        high=breaks * (TESTED_OVER if tested else 1.0),
        may=breaks / FACTOR,
        factor=FACTOR,
        known=Known.FORMULA if tested else Known.RECKONED,
        source=f"{BENDING}{told}",
    )


def _flat(work: JointWork, first: Part, second: Part) -> bool:
    """Whether its tenons lie flat in the plane of both grains, as those of a rail laid flat do."""
    way = turning_way(first, second, work.leaves)
    return way is not None and work.tenons_along is not None and lies_flat(work.tenons_along, way)


def _stiff(usual: Figure, work: JointWork, first: Part, second: Part) -> Figure:
    r"""Turning stiffness of glued tenons; of flat ones less, as their section is: times :math:`(t / w)^2`."""
    if not work.glue:
        return none("put together dry")
    if turning_way(first, second, work.leaves) is None:
        return none("no test of tenons turned in the faces that meet was found")
    if not _flat(work, first, second):
        return usual
    thick, wide, _ = min(_sections(work, first, second), key=lambda size: size[1])
    less_by = (thick / wide) ** 2
    return replace(
        usual,
        likely=(usual.likely or 0.0) * less_by,
        low=(usual.low or 0.0) * less_by,
        high=(usual.high or 0.0) * less_by,
        source=f"of tenons laid flat less, as the square of thickness over width is; upright {usual.source}",
    )


def _depths(marks: tuple[Mark, ...], part: str) -> list[float]:
    return [mark.depth_mm for mark in marks if mark.part == part and mark.kind is MarkKind.MORTISE]


def _pressed(work: JointWork, first: Part, second: Part) -> Figure:
    r"""What the tenons bear on edge: shear of their section, and unless glued the denting of their edge. [N]

    .. math:: V = \tfrac23 t w \tau, \quad V = t d \sigma_\perp

    Derived: a rectangle's greatest shear is one and a half times the mean.
    """
    own = woods(first)
    sizes = _sections(work, first, second)
    if own is None or not sizes:
        return none("no published figure for tenons of sheet goods")
    section = sum(t * w for t, w, _ in sizes)
    bears = [sheared(own[0], section, share=2.0 / 3.0, what="two thirds of the tenon's section")]
    if not work.glue:
        bears.append(crushed(own[0], sum(t * d for t, _, d in sizes)))
    return less(*bears)


def _sections(work: JointWork, first: Part, second: Part) -> list[tuple[float, float, float]]:
    """Thickness, width and depth of every tenon in the second part. [mm]"""
    loose = [one for one in work.connectors if one.kind is ConnectorKind.LOOSE_TENON]
    if loose:
        depth = max(_depths(work.marks, second.name), default=0.0)
        return [(one.size_mm[0], one.size_mm[1], depth) for one in loose for _ in range(one.count)]
    return [
        (mark.width_mm, mark.length_mm, mark.depth_mm)
        for mark in work.marks
        if mark.part == first.name and mark.kind is MarkKind.TENON
    ]
