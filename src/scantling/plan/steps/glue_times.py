"""Hours between milling and gluing, and between gluing and the next milling, by the timetable: F37, F38."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.checks.catalogue import finding, limit
from scantling.errors import Finding
from scantling.plan.steps.order import Order
from scantling.plan.steps.step import GLUE_UP
from scantling.plan.steps.timber_steps import MILL_TO_SIZE
from scantling.schedule.timetable import Entry
from scantling.shop.gluing.glueup import GlueUp

__all__ = ["glue_time_findings"]


def glue_time_findings(order: Order, inner: Iterable[GlueUp]) -> list[Finding]:
    """Panels and laminations that lie too long before they are glued, or are planed too soon after.

    Hours are the clock's, nights and free days among them: wood moves and glue dries in those too.

    Parameters
    ----------
    order
        The steps and when each is done.
    inner
        Glue-ups of panels and laminations.
    """
    stages = tuple(inner)
    when = {entry.task: entry for entry in order.timetable.entries}
    return [*_too_late(stages, when), *_too_soon(order, stages, when)]


def _too_late(stages: tuple[GlueUp, ...], when: dict[str, Entry]) -> list[Finding]:
    """Glue-ups that wait for nothing but the milling, longer than its faces stay fresh.

    Those that wait for another to cure cannot come sooner; every one is prepared afresh on its day, so this
    is a note on which ones need it.
    """
    allowed = limit("F37", "wait_h")
    milled = when.get(MILL_TO_SIZE)
    if milled is None:
        return []
    waits: dict[str, float] = {}
    for stage in stages:
        if not stage.after:
            hours = (when[f"{GLUE_UP}{stage.name}"].start_min - milled.end_min) / 60.0
            waits[stage.part] = max(hours, waits.get(stage.part, 0.0))
    late = {part: hours for part, hours in waits.items() if hours > allowed}
    if not late:
        return []
    longest = max(late, key=lambda part: late[part])
    more = f", and {len(late) - 1} more wait too long" if len(late) > 1 else ""
    return [
        finding(
            "F37",
            where=", ".join(sorted(late)),
            message=f"{longest} is glued {late[longest]:.1f} h after it was milled, "
            f"at most {allowed:.0f} h{more}",
            advice="Joint the edges, or plane the faces, once more on the day of gluing; or mill these last.",
            numbers={"wait_h": late[longest], "wait_allowed_h": allowed, "parts": float(len(late))},
        )
    ]


def _too_soon(order: Order, stages: tuple[GlueUp, ...], when: dict[str, Entry]) -> list[Finding]:
    """Steps of milling that come upon a glue line before its water has left."""
    least = limit("F38", "wait_h")
    glued: dict[str, int] = {}
    for stage in stages:
        glued[stage.part] = max(glued.get(stage.part, 0), when[f"{GLUE_UP}{stage.name}"].end_min)
    found = []
    for step in order.steps:
        if step.phase != "milling":
            continue
        waits = {
            part: (when[step.title].start_min - glued[part]) / 60.0
            for part in step.parts
            if part in glued and when[step.title].start_min >= glued[part]
        }
        soon = {part: hours for part, hours in waits.items() if hours < least}
        if soon:
            found.append(_soon(step.title, soon, least))
    return found


def _soon(title: str, soon: dict[str, float], least: float) -> Finding:
    shortest = min(soon, key=lambda part: soon[part])
    what = f"{title[0].lower()}{title[1:]}"
    return finding(
        "F38",
        where=", ".join(sorted(soon)),
        message=f"{what}: {shortest} comes to it {soon[shortest]:.1f} h after gluing, at least {least:.0f} h",
        advice=f"Leave it {least - soon[shortest]:.1f} h longer, or the joint sinks when its water has left; "
        "a longer cure in the shop's glue puts it into the order.",
        numbers={"wait_h": soon[shortest], "wait_wanted_h": least},
    )
