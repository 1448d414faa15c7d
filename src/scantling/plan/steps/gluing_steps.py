"""Steps of gluing: panels and laminations before the joints, the piece after them."""

from __future__ import annotations

from scantling.plan.making.pace import rate
from scantling.plan.steps.step import CURED, GLUE_UP, Step, Steps, Work
from scantling.shop.gluing.glueup import GlueUp, GlueUpKind
from scantling.shop.gluing.pressing import pressing_words
from scantling.shop.operations.cautions import cautions_for

__all__ = ["FLATTEN_PANELS", "MILL_LAMINATIONS", "assembly_steps", "inner_glue_steps"]

FLATTEN_PANELS = "Flatten and trim the panels"
MILL_LAMINATIONS = "Mill the laminations to size again"
"""Titles of the steps that give what was glued up its section."""


def _glue_step(stage: GlueUp, steps: Steps, needs: tuple[str, ...], parts: tuple[str, ...]) -> None:
    """A glue-up in its clamps, and its cure after."""
    title = f"{GLUE_UP}{stage.name}"
    steps.add(
        Step(
            title=title,
            phase="gluing",
            hands_on_min=rate("clean_glue").minutes() + stage.time.total_min,
            wait_min=stage.clamp_min,
            needs=needs,
            parts=parts,
            details=(*stage.prepare, *_pressed(stage)),
            cautions=stage.cautions,
            once=True,
            clamps=stage.clamps.count if stage.clamps else 0,
        )
    )
    cured = f"{stage.name}{CURED}"
    rest = max(0.0, stage.cure_min - stage.clamp_min)
    steps.add(Step(title=cured, phase="gluing", hands_on_min=0.0, wait_min=rest, needs=(title,), parts=parts))
    steps.glued[stage.name] = cured


def _pressed(stage: GlueUp) -> tuple[str, ...]:
    """How the clamps of a panel or a lamination are counted; in an assembly every joint has its own."""
    inner = stage.kind is not GlueUpKind.ASSEMBLY
    return pressing_words(stage.clamps) if inner and stage.clamps is not None else ()


def inner_glue_steps(work: Work, steps: Steps) -> None:
    """Panels and laminations, and the flattening after them."""
    milled = dict(steps.last)  # what one body of a part waits for; its other bodies are glued beside it
    for stage in work.gluing.inner:
        needs = (milled[stage.part], *(steps.glued[name] for name in stage.after))
        _glue_step(stage, steps, tuple(dict.fromkeys(needs)), (stage.part,))
    glued = {stage.part for stage in work.gluing.inner}
    panels = [
        ledger
        for ledger in work.ledgers
        if ledger.part in glued and ledger.strips is not None and ledger.glued
    ]
    area = sum(p.glued.length_mm * p.glued.width_mm * 2e-6 for p in panels if p.glued)
    parts = tuple(p.part for p in panels)
    if parts:
        steps.add(
            Step(
                title=FLATTEN_PANELS,
                phase="milling",
                hands_on_min=rate("flatten_panel").minutes(m2=area),
                needs=steps.before(parts),
                parts=parts,
                details=("Plane across, then along; trim to width with a seam nowhere near an edge.",),
                cautions=cautions_for("hand tools"),
            )
        )
    posts = tuple(ledger.part for ledger in work.ledgers if ledger.lamination is not None)
    if posts:
        steps.add(
            Step(
                title=MILL_LAMINATIONS,
                phase="milling",
                hands_on_min=rate("mill_final").minutes(count=len(posts)),
                needs=steps.before(posts),
                parts=posts,
                details=("Scrape off the glue first; joint one face and one edge, then plane.",),
                cautions=cautions_for("jointing", "planing"),
            )
        )


def assembly_steps(work: Work, steps: Steps) -> None:
    """Dry fits and glue-ups of the piece, in their order."""
    wet = [stage for stage in work.gluing.assembly if stage.kind is not GlueUpKind.DRY]
    joints = sum(len(stage.joints) for stage in wet)
    parts = tuple(dict.fromkeys(part for stage in wet for part in _parts(stage)))
    if wet:
        steps.add(
            Step(
                title="Put everything together dry",
                phase="gluing",
                hands_on_min=rate("dry_fit").minutes(count=joints),
                needs=(*steps.before(parts), *steps.loose),
                parts=parts,
                details=("With every clamp, caul and wedge, by the clock; measure the diagonals.",),
                once=True,
            )
        )
    for stage in wet:
        needs = (*steps.before(_parts(stage)), *(steps.glued[n] for n in stage.after if n in steps.glued))
        _glue_step(stage, steps, tuple(dict.fromkeys(needs)), _parts(stage))


def _parts(stage: GlueUp) -> tuple[str, ...]:
    return tuple(name for body in stage.bodies for name in body)
