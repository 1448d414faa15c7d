"""Edges ripped out of square before the ends are sawn, and joints cut once the parts are glued."""

from __future__ import annotations

from scantling.joinery.work import JointWork
from scantling.plan.making.pace import rate
from scantling.plan.steps.step import Step, Steps, Work
from scantling.shop.operations.cautions import cautions_for
from scantling.shop.sawing.edgerip import EdgeRip
from scantling.shop.sizes.gang import Gang

__all__ = ["caul_steps", "edge_steps", "late_joint_steps", "ripped_whole"]


def edge_steps(work: Work, steps: Steps) -> None:
    """Edges out of square, ripped while the wood is still long."""
    ripped = [sawing for sawing in work.sawings if sawing.rips]
    if not ripped:
        return
    parts = tuple(sawing.part for sawing in ripped)
    rips = [rip for sawing in ripped for rip in sawing.rips]
    one_of = {sawing.like: sawing for sawing in reversed(ripped)}  # the first of each entry
    gangs = {ledger.gang.name: ledger.gang for ledger in work.ledgers if ledger.gang}
    whole = [
        f"{', '.join(gang.parts)}: ripped in the length of {gang.length_mm:.0f} mm they were milled in, "
        "which is crosscut after"
        for gang in gangs.values()
        if ripped_whole(work, gang)
    ]
    lines = [_line(rip) for sawing in ripped if one_of[sawing.like] is sawing for rip in sawing.rips]
    settings = {(round(rip.tilt_deg, 1), round(rip.sled_deg, 1)) for rip in rips}
    steps.add(
        Step(
            title="Rip the edges out of square",
            phase="joints",
            hands_on_min=rate("saw_setup").minutes(count=len(settings))
            + rate("edge_rip").minutes(count=len(rips)),
            needs=steps.before(parts),
            parts=parts,
            details=(
                *lines,
                *whole,
                "Try the tilt on scrap of the same thickness; rip while the wood is long.",
            ),
            cautions=cautions_for("ripping"),
        )
    )


def ripped_whole(work: Work, gang: Gang) -> bool:
    """Whether short parts milled in one length have their edges ripped in it: all of them, and alike."""
    of = {sawing.part: sawing.rips for sawing in work.sawings}
    kinds = {
        tuple((rip.edge, round(rip.tilt_deg, 2), round(rip.sled_deg, 2)) for rip in of.get(part, ()))
        for part in gang.parts
    }
    tapered = any(rip.sled_deg for part in gang.parts for rip in of.get(part, ()))
    return len(kinds) == 1 and kinds != {()} and not tapered


def _line(rip: EdgeRip) -> str:
    sled = f", on a sled at {rip.sled_deg:.1f}° to the blade" if rip.sled_deg else ""
    return (
        f"{rip.part.replace('_', ' ')}, {rip.edge.value} edge: blade tilted {rip.tilt_deg:.1f}°{sled}, "
        f"{rip.face_down.value} face down"
    )


def caul_steps(work: Work, steps: Steps) -> None:
    """Blocks for the corners of rings, notched before anything is put together dry."""
    cauls = [caul for stage in work.gluing.assembly for caul in stage.cauls]
    if not cauls:
        return
    title = steps.add(
        Step(
            title="Notch the corner blocks",
            phase="joints",
            hands_on_min=rate("saw_setup").minutes(count=len(cauls))
            + rate("caul").minutes(count=sum(caul.count for caul in cauls)),
            needs=("Cut the blanks out of the boards",),
            details=tuple(
                f"{caul.count} of {caul.length_mm:.0f} mm: a notch of {caul.corner_deg:.1f}°, both flanks "
                f"{caul.flank_deg:.1f}° to the face, sawn in a length and crosscut apart"
                for caul in cauls
            ),
            cautions=cautions_for("ripping"),
        )
    )
    steps.loose = (*steps.loose, title)


def _key_minutes(count: int) -> float:
    """Setting the cradle, then marking, one pass, gluing in and planing flush for each. [min]"""
    each = sum(rate(name).minutes(count=count) for name in ("mark_out", "saw_cut", "key"))
    return rate("saw_setup").minutes() + each


def late_joint_steps(work: Work, steps: Steps) -> None:
    """What is cut across a joint when its glue is dry, and glued in."""
    groups: dict[str, list[JointWork]] = {}
    for joint, done in zip(work.piece.joints, work.works, strict=True):
        if done.late_steps:
            groups.setdefault(joint.like, []).append(done)
    for like, members in groups.items():
        names = {name for done in members for name in (done.first, done.second)}
        parts = tuple(name for name in work.piece.parts if name in names)
        closed = {done.joint for done in members}
        stages = [stage for stage in work.gluing.assembly if closed & set(stage.joints)]
        marks = [mark for done in members for mark in done.marks]
        steps.add(
            Step(
                title=f"Cut and glue in the keys: {like.replace('_', ' ')}",
                phase="gluing",
                hands_on_min=_key_minutes(len(marks)),
                wait_min=max((stage.clamp_min for stage in stages), default=0.0),
                needs=(*steps.before(parts), *steps.loose),
                parts=parts,
                details=tuple(dict.fromkeys(line for done in members for line in done.late_steps)),
                cautions=cautions_for("crosscutting", "glue"),
                once=True,
            )
        )
