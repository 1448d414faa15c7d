"""Steps from the parts as cut to the piece delivered: sanding, coats, and the last things."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.checks.uneven import along_leg_mm, footing_of
from scantling.joinery.work import ConnectorKind
from scantling.piece.convex import body_of
from scantling.piece.model import Part, Stands
from scantling.plan.making.hardware import fastenings
from scantling.plan.making.pace import rate
from scantling.plan.steps.step import Step, Steps, Work
from scantling.shop.gluing.glueup import GlueUpKind
from scantling.shop.operations.cautions import cautions_for

__all__ = ["finish_steps", "last_steps", "surface_steps"]

_ANCHORED = (
    "Anchor it to the wall before anything is put in, with fixings for that wall, by someone who knows it.",
)
"""A piece with drawers is not left standing free (common practice)."""
_HUNG = (
    "Hang it with fixings for that wall, into framing or masonry, chosen and set by someone who knows it, "
    "and licensed where it can fall on people."
)
"""What hangs on a wall is no stronger than the wall (common practice)."""


def surface_steps(work: Work, steps: Steps) -> None:
    """Sanding, and what is finished before assembly."""
    parts = tuple(work.piece.parts)
    grits = ", ".join(str(step.grit) for step in work.finishing.sanding.steps)
    steps.add(
        Step(
            title="Prepare the surfaces",
            phase="surface",
            hands_on_min=work.finishing.surface_min,
            needs=steps.before(parts),
            parts=parts,
            details=(
                f"Grits {grits}, the last once more by hand along the grain; break every edge.",
                "Leave glue faces as planed.",
            ),
            cautions=cautions_for("sanding"),
        )
    )


def finish_steps(work: Work, steps: Steps) -> None:
    """Coats, each with its wait, and the rest until use."""
    parts = tuple(work.piece.parts)
    finishing = work.finishing
    count = len(finishing.drying.coats)
    cure = (finishing.drying.light_use_h - finishing.drying.recoat_h * max(count - 1, 0)) * 60.0
    for coat in finishing.drying.coats:
        last = coat.number == count
        steps.add(
            Step(
                title=f"Coat {coat.number} of {finishing.system}",
                phase="finish",
                hands_on_min=finishing.coats_min[coat.number - 1],
                wait_min=cure if last else finishing.drying.recoat_h * 60.0,
                needs=steps.before(parts),
                parts=parts,
                details=("Both faces alike, or the wood cups.",) if coat.number == 1 else (),
                cautions=finishing.cautions,
                once=coat.number == 1,
            )
        )


def last_steps(work: Work, steps: Steps) -> None:
    """What goes together dry, the photographs if asked for, delivery, and the feet on the floor there."""
    parts = tuple(work.piece.parts)
    dry = [stage for stage in work.gluing.assembly if stage.kind is GlueUpKind.DRY]
    pieces = fastenings(done for done in work.works if done.dry)
    if dry:
        steps.add(
            Step(
                title="Put on what goes without glue",
                phase="finish",
                hands_on_min=rate("fit_top").minutes(count=pieces),
                needs=steps.before(parts),
                parts=parts,
                details=tuple(line for stage in dry for line in _by_entry(stage.dry_joints or stage.joints)),
            )
        )
    if work.piece.brief.photographs:
        once = sum(1 for step in steps.all if step.once)
        steps.add(
            Step(
                title="Sort the photographs and write the work up",
                phase="delivery",
                hands_on_min=rate("record").minutes(count=once),
                needs=steps.before(parts),
            )
        )
    steps.add(
        Step(
            title="Wrap, deliver and set up",
            phase="delivery",
            hands_on_min=rate("wrap_and_deliver").minutes(count=work.mass_kg),
            needs=steps.before(parts),
            parts=parts,
            details=_held_by_the_wall(work),
            cautions=cautions_for("lifting"),
        )
    )

    _feet_step(work, steps)


def _held_by_the_wall(work: Work) -> tuple[str, ...]:
    """An anchor for what may tip; for what hangs, what its fixings bear and who is to choose them."""
    piece = work.piece
    if piece.brief.stands is not Stands.WALL:
        return _ANCHORED if any(x.kind is ConnectorKind.WALL_ANCHOR for x in work.hardware) else ()
    spans = [body_of(part).extent((0.0, 1.0, 0.0)) for part in piece.parts.values()]
    out_mm = max(high for _, high in spans) - min(low for low, _ in spans)
    load = piece.brief.load_kg
    bears = f"and {load:.0f} kg on it" if load else "and whatever is put on it, for the brief names no load"
    return (
        f"Its fixings bear its own {work.mass_kg:.1f} kg {bears}; "
        f"it stands {out_mm:.0f} mm out from the wall.",
        _HUNG,
    )


def _feet_step(work: Work, steps: Steps) -> None:
    """Trimming what it stands on to an uneven floor, where it stands."""
    brief, footing = work.piece.brief, footing_of(work.piece)
    if brief.floor_uneven_mm <= 0.0 or not footing.rocks:
        return
    standing = (*footing.legs, *footing.edges)
    steps.add(
        Step(
            title=_SCRIBED if footing.edges else "Trim the feet where it stands",
            phase="delivery",
            hands_on_min=rate("trim_foot").minutes(count=len(standing)),
            needs=("Wrap, deliver and set up",),
            parts=tuple(part.name for part in standing),
            details=_edge_words(brief.floor_uneven_mm)
            if footing.edges
            else _leg_words(footing.legs, brief.floor_uneven_mm),
            cautions=(
                *cautions_for("hand tools", "lifting"),
                "Saw with it laid on its side on a blanket and held by someone else.",
            ),
        )
    )


_SCRIBED = "Scribe it to the floor where it stands"
_SEAL = "Seal the end grain anew: stone and tile are damp."


def _leg_words(legs: Sequence[Part], uneven_mm: float) -> tuple[str, ...]:
    most = max(along_leg_mm(leg, uneven_mm) for leg in legs)
    return (
        "Set it where it is to stand, and wedge up under the feet until its top is level both "
        "ways and nothing rocks.",
        f"Find the widest gap under a foot, some {uneven_mm:g} mm by the brief. With a "
        "pencil on a block as thick as that gap, scribe round every foot, the block flat on the "
        "floor.",
        f"Mark which foot stood where. Saw to the lines, up to {most:.1f} mm along a leg, and bevel "
        "the arris so that it does not splinter.",
        _SEAL,
    )


def _edge_words(uneven_mm: float) -> tuple[str, ...]:
    return (
        "Set it where it is to stand, and wedge it up from below until it is level both ways; then look at "
        "the gaps round its doors and drawers: only where they run even is it also out of twist.",
        f"Find the widest gap under it, some {uneven_mm:g} mm by the brief. With a pencil on a block as "
        "thick as that gap, scribe along every edge that meets the floor, the block flat on the floor.",
        "Saw and plane to the lines, hollow a hair behind them, so that the face sits tight; try it again "
        "before you go.",
        _SEAL,
    )


def _by_entry(joints: tuple[str, ...]) -> tuple[str, ...]:
    """Joints under the name of their entry, the way a maker goes round: ``clips: clips.1, clips.2``."""
    groups: dict[str, list[str]] = {}
    for joint in joints:
        groups.setdefault(joint.partition(".")[0], []).append(joint)
    return tuple(f"{entry.replace('_', ' ')}: {', '.join(own)}" for entry, own in groups.items())
