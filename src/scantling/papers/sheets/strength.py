"""The strength sheet: tipping, racking, sag, what the joints carry and bear, with what stands behind it."""

from __future__ import annotations

from scantling.papers.sheets.model import Align, Block, Column, Sheet, Table, Words
from scantling.papers.sheets.show import Show, joints_words, label_of, names_of, word
from scantling.papers.words.strength_words import bearing_rows, bearing_sources, moment_words, unpublished
from scantling.plan.result import Plan
from scantling.plan.standing.opened import HungDoor
from scantling.plan.standing.racked import FrameCheck
from scantling.plan.standing.strength import SagCheck, Strength
from scantling.structure.carrying import Carried, CarriedKind, Topped
from scantling.structure.drawer_tipping import DrawerTip
from scantling.structure.gravity import GRAVITY_M_S2

__all__ = ["BEHIND", "check_rows", "strength_sheet"]

_R = Align.RIGHT

BEHIND = (
    "Strength and stiffness are those of clear wood at 12 % moisture; joints are counted on for a quarter of "
    "what breaks them, screws for a fifth.",
    "How stiffly a joint turns is tested for dowels and from memory for tenons, and joints that look alike "
    "differ several times: the sway is told from the stiffest to the softest of them; no panel, drawer or "
    "back is counted on.",
    "Anything that holds people up is for the published standard and a test house to judge, not for a sum.",
)
"""What stands behind every figure."""


def strength_sheet(plan: Plan) -> Sheet:
    """Tipping, racking, sag, and what the joints bear: estimates with their assumptions."""
    show, strength = Show.of(plan), plan.strength
    blocks: list[Block] = [
        Table(
            title="Checks",
            columns=(Column(title="Check"), Column(title="How"), Column(title="Result", align=_R)),
            rows=check_rows(strength, show),
        )
    ]
    if strength.unjudged:
        blocks.append(Words(title="Not judged here", lines=tuple(map(word, strength.unjudged))))
    blocks += _bearing(plan, show)
    blocks.append(Words(title="What stands behind it", lines=BEHIND))
    return Sheet(
        id="strength", title="Strength", lead="Estimates, with what they assume.", blocks=tuple(blocks)
    )


def check_rows(strength: Strength, show: Show) -> tuple[tuple[str, str, str], ...]:
    """What was checked, how, and what came of it."""
    rows = []
    if strength.tip is not None:
        tip = strength.tip
        force = "cannot tip that way" if tip.force_n == float("inf") else show.force(tip.force_n)
        rows.append(
            (
                "Tips over its feet",
                f"pressed at the far edge, {show.length(tip.overhang_mm, unit=True)} out",
                force,
            )
        )
    if strength.drawers is not None:
        rows.append(_drawers_row(strength.drawers, show))
    rows += [_door_row(door, show) for door in strength.doors]
    rows += [_frame_row(frame, show) for frame in strength.frames]
    rows += _carried_rows(strength.carried, show)
    if strength.topped is not None:
        rows.append(_topped_row(strength.topped, show))
    rows += [_sag_row(item, show) for item in strength.sags]
    return tuple(rows)


def _bearing(plan: Plan, show: Show) -> list[Block]:
    """What each joint may be counted on for, and where the figures are from."""
    rows = bearing_rows(plan.joints, force=show.force, inch=show.style.inch)
    if not rows:
        return []
    missing = unpublished(plan.joints)
    said = f" No published figure: {names_of(missing)}." if missing else ""
    table = Table(
        title="What the joints bear",
        columns=(
            Column(title="Joint"),
            Column(title="Drawn apart", align=_R),
            Column(title="Pressed across", align=_R),
            Column(title="Turned", align=_R),
            Column(title="Turns 1° at", align=_R),
            Column(title="Known by"),
        ),
        rows=tuple((joints_words(r.joints), r.pull, r.shear, r.moment, r.turns, r.known) for r in rows),
        parts=tuple(row.parts for row in rows),
        note=f"What may be counted on for good; a dash where nothing is published.{said}",
    )
    return [table, Words(title="Where these are from", lines=bearing_sources(plan.joints))]


def _carried_rows(carried: tuple[Carried, ...], show: Show) -> list[tuple[str, str, str]]:
    """Of the ends of boards, and of the ends of rails under a top, the one nearest its limit."""
    told = [one for one in carried if one.may_n is not None]
    rows = []
    for kind in CarriedKind:
        ends = [one for one in told if one.kind is kind]
        if not ends:
            continue
        worst = max(ends, key=lambda one: one.asked_n / (one.may_n or 1.0))
        many = f", the most asked of {len(ends)} ends" if len(ends) > 1 else ""
        rows.append(
            (
                f"{label_of(worst.part)} in {word(worst.by)}",
                f"{show.force(worst.asked_n)} of what it carries{many}",
                f"may carry {show.force(worst.may_n or 0.0)}",
            )
        )
    return rows


def _topped_row(topped: Topped, show: Show) -> tuple[str, str, str]:
    return (
        f"Lifted by {word(topped.top)}",
        f"{show.mass(topped.below_kg)} hang on {len(topped.fasteners)} rows of fasteners",
        f"they may carry {show.force(topped.holds_n)}",
    )


def _drawers_row(case: DrawerTip, show: Show) -> tuple[str, str, str]:
    margin = case.margin_kg_mm
    doors = ", its doors open" if case.doors else ""
    filled = show.mass(sum(one.mass_kg for one in case.drawers))
    out = f"{len(case.drawers)} drawer{'s' if len(case.drawers) > 1 else ''} out"
    child = f"{show.mass(case.child_kg)} pressing {show.length(case.child_arm_mm, unit=True)}"
    return (
        "Tips with its drawers open",
        f"{out}, {filled} filled{doors}, {child} in front of the feet",
        f"{'stands' if margin >= 0.0 else 'tips'}, {abs(margin) * GRAVITY_M_S2 * 1e-3:.1f} N m "
        f"{'to spare' if margin >= 0.0 else 'too much'}",
    )


def _door_row(door: HungDoor, show: Show) -> tuple[str, str, str]:
    hanging = door.hanging
    return (
        f"Hinges of {word(door.name)}",
        f"{show.mass(hanging.mass_kg)}, hinges {show.length(hanging.apart_mm, unit=True)} apart, "
        f"{hanging.screws} screws a leaf",
        f"pulls {show.force(hanging.pull_n())} at the upper one, held to {show.force(hanging.holds_n)}",
    )


def _frame_row(frame: FrameCheck, show: Show) -> tuple[str, str, str]:
    racked = frame.racked
    use = "" if racked.use is None else f", {100 * racked.use:.0f} % of what it may carry"
    sways = f"sways {show.gap(racked.sway_mm, unit=True)}"
    if racked.untold:
        sways = f"sways at least {show.gap(racked.rigid_sway_mm, unit=True)}"
    elif racked.sway_most_mm > racked.sway_least_mm:
        sways += f" ({show.gap(racked.sway_least_mm)} to {show.gap(racked.sway_most_mm, unit=True)})"
    return (
        f"Pushed {frame.direction} with {show.force(racked.push_n)}",
        f"{moment_words(racked.moment_nmm, inch=show.style.inch)} on {word(racked.joint)}, "
        f"the most loaded of {racked.joints} joints{use}",
        sways,
    )


def _sag_row(item: SagCheck, show: Show) -> tuple[str, str, str]:
    first, later = show.gap(item.sag.first_mm), show.gap(item.sag.long_term_mm, unit=True)
    return (
        f"{label_of(item.part)} under {show.mass(item.beam.load_n / GRAVITY_M_S2)}",
        f"spread over a span of {show.length(item.beam.span_mm, unit=True)}, itself included",
        f"sags {first}, after years {later}",
    )
