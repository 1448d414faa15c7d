"""Which steps of the work give a part its sizes: once they are done, it is cut and stays as it is."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.plan.steps.gluing_steps import FLATTEN_PANELS, MILL_LAMINATIONS
from scantling.plan.steps.step import Step
from scantling.plan.steps.timber_steps import CUT_SHEETS, MILL_TO_SIZE
from scantling.shop.sawing.sawsetup import SawSetup

__all__ = ["sizes_fixed"]

_ACROSS = ("width", "thickness")
_SECTION = (MILL_TO_SIZE, FLATTEN_PANELS, MILL_LAMINATIONS, CUT_SHEETS)


def sizes_fixed(steps: Iterable[Step], setups: Iterable[SawSetup]) -> dict[str, frozenset[str]]:
    """Sizes of parts (``top.width``), each with the titles of the steps after which it is cut.

    Parameters
    ----------
    steps
        Of the plan, in order.
    setups
        Settings of the saw, which cut the ends.
    """
    sawing = {setup.title for setup in setups}
    section: dict[str, str] = {}
    ends: dict[str, set[str]] = {}
    for step in steps:
        for part in step.parts:
            if step.title in _SECTION:
                section[part] = step.title
            if step.title in sawing or step.title == CUT_SHEETS:
                ends.setdefault(part, set()).add(step.title)
    return {
        **{f"{part}.{size}": frozenset({title}) for part, title in section.items() for size in _ACROSS},
        **{f"{part}.length": frozenset(titles) for part, titles in ends.items()},
    }
