"""Joints of boards and laps: housings, corners, seams, halvings."""

from __future__ import annotations

from scantling.joinery.strength.figure import Figure, JointStrength, none, nothing
from scantling.joinery.strength.glue import (
    CROSSED_DEG,
    SHEAR_PARALLEL,
    crushed,
    lap,
    less,
    line_mpa,
    reckoned,
    sheared,
    torsion_nmm,
    woods,
)
from scantling.joinery.strength.metal import fastened
from scantling.joinery.work import ConnectorKind, JointWork, MarkKind
from scantling.piece.model import Part

__all__ = ["breadboard", "corner", "floating", "halving", "housed", "miter", "pinned", "seam"]

_MARKED = (MarkKind.HOUSING, MarkKind.NOTCH)


def seam(work: JointWork, first: Part, second: Part) -> JointStrength:
    """Boards glued side by side or face to face: as strong as the wood.

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 10: edge-grain joints can be almost as strong as the wood in
       shear parallel to the grain, tension across the grain, and cleavage.
    """
    counts = _plain_mm2(work, first, second) / sum(face.area_mm2 for face in work.glue) if work.glue else 1.0
    return JointStrength(
        pull_n=_apart(work, first, second),
        shear_n=lap(work.glue, first, second, share=counts),
        moment_nmm=none("as the wood beside it"),
        stiffness_nmm_rad=none("as the wood beside it"),
    )


def _apart(work: JointWork, first: Part, second: Part) -> Figure:
    """Drawn apart square to the glue. [N]"""
    both = woods(first, second)
    if both is None or not work.glue:
        return none("no published figure for sheet goods")
    across = [wood.tension_perp_mpa for wood in both]
    if None in across:
        return none("no tension across the grain is published for this wood")
    area = _plain_mm2(work, first, second)
    return reckoned(
        area * min(value for value in across if value is not None),
        "tension across the grain by Wood Handbook table 5-3, nearly reached by a good edge joint (ch. 10)",
    )


def _plain_mm2(work: JointWork, first: Part, second: Part) -> float:
    """The plain area of a seam: a spline's cheeks are glued besides, and break with the seam. [mm2]"""
    face = work.glue[0]
    plain = face.area_mm2 * (1.0 - face.end_grain_share)
    loose = any(one.kind is ConnectorKind.SPLINE for one in work.connectors)
    return min(plain, face.length_mm * min(first.thickness_mm, second.thickness_mm)) if loose else plain


def halving(work: JointWork, first: Part, second: Part) -> JointStrength:
    """Two sticks that cross, half of each cut away: the glued lap holds."""
    both = woods(first, second)
    notch = next((mark for mark in work.marks if mark.kind is MarkKind.NOTCH), None)
    if both is None or notch is None or not work.glue:
        why = (
            "put together dry: its shoulders alone hold it" if not work.glue else "no figure for sheet goods"
        )
        return nothing(why)
    stress = line_mpa(both, crossed=max(face.grain_angle_deg for face in work.glue) >= CROSSED_DEG)
    moment = none("no shear strength is published for this wood")
    if stress is not None:
        moment = reckoned(
            torsion_nmm(notch.length_mm, notch.width_mm, stress_mpa=stress),
            f"the glued lap twisted, at {stress:.1f} MPa; {SHEAR_PARALLEL}; its shoulders are not counted",
        )
    return JointStrength(
        pull_n=_apart(work, first, second),
        shear_n=lap(work.glue, first, second),
        moment_nmm=moment,
        stiffness_nmm_rad=none("no test of its turning stiffness found"),
    )


def housed(work: JointWork, first: Part, _second: Part) -> JointStrength:
    r"""A board's end in a groove across another: it bears on the groove's lower wall.

    .. math:: V = \min(\tfrac23 b t \tau, b d \sigma_\perp)
    """
    why = "mostly end grain: a shelf is drawn out of its housing by little (Wood Handbook ch. 10)"
    stiff = none("no test of its turning stiffness found")
    own, mark = woods(first), next((m for m in work.marks if m.kind in _MARKED), None)
    shear = none("no published figure for sheet goods")
    if own is not None and mark is not None:
        width, thick = max(mark.length_mm, mark.width_mm), min(mark.length_mm, mark.width_mm)
        end = sheared(own[0], width * thick, share=2.0 / 3.0, what="two thirds of the board's end")
        shear = less(end, crushed(own[0], width * mark.depth_mm))
    return JointStrength(pull_n=none(why), shear_n=shear, moment_nmm=none(why), stiffness_nmm_rad=stiff)


def corner(work: JointWork, first: Part, second: Part) -> JointStrength:
    """Dovetails or fingers at a corner: the glued cheeks; what the tails lock is not counted."""
    return JointStrength(
        pull_n=lap(work.glue, first, second),
        shear_n=lap(work.glue, first, second),
        moment_nmm=none("no test of such corners in solid wood was found with its sizes"),
        stiffness_nmm_rad=none("no test of its turning stiffness found"),
    )


def miter(work: JointWork, first: Part, second: Part) -> JointStrength:
    """A miter with what crosses it: the spline, key or dowels carry the turning."""
    crossing = tuple(face for face in work.glue if face.end_grain_share < 0.5)
    moment = none("a plain miter is mostly end grain: no published figure")
    if work.breaking_nmm is not None:
        moment = reckoned(
            work.breaking_nmm, "section modulus of what crosses it times the wood's modulus of rupture"
        )
    return JointStrength(
        pull_n=lap(crossing, first, second, share=0.5) if crossing else none("end grain alone"),
        shear_n=none("nothing is published across a miter; what crosses it keeps it from sliding"),
        moment_nmm=moment,
        stiffness_nmm_rad=none("no test of its turning stiffness found"),
    )


def breadboard(work: JointWork, first: Part, second: Part) -> JointStrength:
    """An end on a panel: the glued tenon holds it; how flat it keeps the panel is not published."""
    flat = none("how flat an end keeps a panel is not published")
    return JointStrength(
        pull_n=lap(work.glue, first, second),
        shear_n=none("the panel's tongue keeps it level; it carries nothing else"),
        moment_nmm=flat,
        stiffness_nmm_rad=flat,
    )


def floating(work: JointWork, first: Part, second: Part) -> JointStrength:
    """A part that lies or slides in another: what glue or fasteners there are hold it."""
    if work.connectors:
        return fastened(work, first, second)
    if work.glue:
        held = lap(work.glue, first, second)
        turns = none("no test of its turning was found")
        return JointStrength(pull_n=held, shear_n=held, moment_nmm=turns, stiffness_nmm_rad=turns)
    return nothing("it lies or slides there and holds nothing together")


def pinned(work: JointWork, first: Part, second: Part) -> JointStrength:
    """A small lid that turns on its pins: a sliding fit, which carries the lid and no more."""
    del work, first, second
    return nothing("it turns there on a pin that slides in its hole, and holds nothing together")
