"""Steps: everything that has to be done, each with its hours, what it waits for, and its cautions."""

from __future__ import annotations

from scantling.plan.steps.edge_steps import caul_steps, edge_steps, late_joint_steps
from scantling.plan.steps.finish_steps import finish_steps, last_steps, surface_steps
from scantling.plan.steps.gluing_steps import assembly_steps, inner_glue_steps
from scantling.plan.steps.joint_steps import (
    fitting_steps,
    joint_steps,
    loose_steps,
    rounding_steps,
    sawing_steps,
    shaping_steps,
)
from scantling.plan.steps.step import Step, Steps, Work
from scantling.plan.steps.timber_steps import milling_steps, sheet_steps, timber_steps

__all__ = ["plan_steps"]


def plan_steps(work: Work) -> tuple[Step, ...]:
    """Every step of the job, in an order that can be done.

    Parameters
    ----------
    work
        The piece and what is known of its making.
    """
    steps = Steps()
    timber_steps(work, steps)
    milling_steps(work, steps)
    sheet_steps(work, steps)
    inner_glue_steps(work, steps)
    edge_steps(work, steps)
    sawing_steps(work, steps)
    rounding_steps(work, steps)
    joint_steps(work, steps)
    shaping_steps(work, steps)
    loose_steps(work, steps)
    caul_steps(work, steps)
    surface_steps(work, steps)
    assembly_steps(work, steps)
    late_joint_steps(work, steps)
    fitting_steps(work, steps)
    finish_steps(work, steps)
    last_steps(work, steps)
    return tuple(steps.all)
