"""The saw sheet: every setting once, with all the ends that are cut at it."""

from __future__ import annotations

from scantling.papers.sheets.model import Align, Block, Caution, Column, Sheet, Table, Words
from scantling.papers.sheets.show import Show, names_of, word
from scantling.papers.words.sawing_words import BY_HAND, all_by_hand, ends_words
from scantling.papers.words.scale_words import gap_words
from scantling.plan.result import Plan
from scantling.shop.operations.cautions import cautions_at
from scantling.shop.sawing.saw import PartSawing

__all__ = ["sawing_sheet"]

_R = Align.RIGHT


def sawing_sheet(plan: Plan) -> Sheet:
    """Saw set-ups, lengths, edges out of square, tapers and notches."""
    show = Show.of(plan)
    blocks: list[Block] = [_setups(plan, show)]
    if square := _square_steps(plan):
        blocks.append(Words(title="Square set-ups", lines=square, numbered=True))
    blocks.extend(
        Words(
            title=f"Set-up {s.number}: {word(s.machine.value)}",
            lines=tuple(map(word, (*filter(None, (gap_words(s, show.style),)), *s.steps))),
            numbered=True,
        )
        for s in plan.setups
        if s.angled
    )
    blocks.append(_lengths(plan, show))
    if (rips := _rips(plan, show)) is not None:
        blocks.append(rips)
    tapers = _tapers(plan, show)
    if tapers is not None:
        blocks.append(tapers)
    if plan.notches:
        blocks.append(_notches(plan, show))
    blocks.append(Caution(lines=cautions_at((s.machine for s in plan.setups), "crosscutting", "ripping")))
    angled = sum(1 for s in plan.setups if s.angled)
    return Sheet(
        id="saw",
        title="Saw settings",
        lead=f"{len(plan.setups)} set-ups, {angled} of them at an angle. Angles come from the piece itself.",
        blocks=tuple(blocks),
    )


def _square_steps(plan: Plan) -> tuple[str, ...]:
    """What is done at every square set-up, once; where each part lies is told by the end that is cut."""
    if all_by_hand(plan.setups):
        return ()
    square = (setup for setup in plan.setups if not setup.angled)
    return tuple(dict.fromkeys(word(line) for setup in square for line in setup.general_steps))


def _setups(plan: Plan, show: Show) -> Table:
    rows, parts = [], []
    for setup in plan.setups:
        stop = "to a mark" if setup.stop_mm is None else show.length(setup.stop_mm)
        by_hand = setup.machine.by_hand
        rows.append(
            (
                str(setup.number),
                word(setup.machine.value),
                show.angle(setup.miter_deg),
                show.angle(setup.bevel_deg),
                "—"
                if by_hand
                else f"{show.angle(setup.miter_scale_deg)} / {show.angle(setup.bevel_scale_deg)}",
                stop,
                ends_words(setup, show.ends),
            )
        )
        parts.append(tuple(dict.fromkeys(cut.part for cut in setup.cuts)))
    return Table(
        title="Set-ups in order",
        columns=(
            Column(title="No.", align=_R),
            Column(title="Saw"),
            Column(title="Turn from square", align=_R),
            Column(title="Tilt", align=_R),
            Column(title="Same, read from the blade", align=_R),
            Column(
                title=f"{'Mark' if all_by_hand(plan.setups) else 'Stop'} to long point {show.unit}", align=_R
            ),
            Column(title="Ends"),
        ),
        rows=tuple(rows),
        parts=tuple(parts),
        note=BY_HAND
        if all_by_hand(plan.setups)
        else "Some scales read from square, others from the blade: both are given.",
    )


def _alike(plan: Plan) -> list[list[PartSawing]]:
    groups: dict[tuple[object, ...], list[PartSawing]] = {}
    for sawing in plan.sawing:
        key = (sawing.like, round(sawing.long_mm, 3), round(sawing.short_mm, 3))
        groups.setdefault(key, []).append(sawing)
    return list(groups.values())


def _lengths(plan: Plan, show: Show) -> Table:
    rows, parts = [], []
    for members in _alike(plan):
        one = members[0]
        lead = max((cut.lead_width_mm for cut in one.cuts), default=0.0)
        through = max((cut.lead_thickness_mm for cut in one.cuts), default=0.0)
        check = "square"
        if lead > 0.05 or through > 0.05:
            check = f"{show.gap(lead)} across the width, {show.gap(through)} through the thickness"
        rows.append(
            (
                names_of(s.part for s in members),
                show.length(one.long_mm),
                show.length(one.short_mm),
                one.sense.value,
                check,
                " ".join(one.notes),
            )
        )
        parts.append(tuple(s.part for s in members))
    return Table(
        title="Lengths",
        columns=(
            Column(title="Part"),
            Column(title=f"Long to long point {show.unit}", align=_R),
            Column(title="Short to short", align=_R),
            Column(title="Ends"),
            Column(title="To check: long side leads by"),
            Column(title="Note"),
        ),
        rows=tuple(rows),
        parts=tuple(parts),
    )


def _rips(plan: Plan, show: Show) -> Table | None:
    """Edges out of square: alike ones of one part in one row."""
    rows: list[tuple[str, ...]] = []
    parts = []
    for members in _alike(plan):
        groups: dict[tuple[str, ...], list[str]] = {}
        for rip in members[0].rips:
            cells: tuple[str, ...] = (
                show.angle(rip.tilt_deg),
                show.angle(rip.sled_deg) if rip.sled_deg else "—",
                word(rip.face_down),
                show.gap(rip.narrow_mm),
                show.gap(rip.wide_mm),
                word(rip.machine.value),
            )
            groups.setdefault(cells, []).append(word(rip.edge))
        for rest, edges in groups.items():
            rows.append((names_of(s.part for s in members), " and ".join(edges), *rest))
            parts.append(tuple(s.part for s in members))
    if not rows:
        return None
    return Table(
        title="Edges ripped out of square",
        columns=(
            Column(title="Part"),
            Column(title="Edge"),
            Column(title="Tilt", align=_R),
            Column(title="Sled", align=_R),
            Column(title="Face down"),
            Column(title=f"Width left on it {show.unit}", align=_R),
            Column(title="On the other face", align=_R),
            Column(title="Saw"),
        ),
        rows=tuple(rows),
        parts=tuple(parts),
        note="The blade's top leans away from the fence. Rip while the wood is long, before it is crosscut.",
    )


def _tapers(plan: Plan, show: Show) -> Table | None:
    rows, parts = [], []
    for members in _alike(plan):
        for taper in members[0].tapers:
            rows.append(
                (
                    names_of(s.part for s in members),
                    word(taper.face)
                    if len(members) == 1
                    else f"{word(taper.face)} on {word(members[0].part)}, and alike",
                    show.angle(taper.angle_deg),
                    show.length(taper.begin_mm),
                    show.length(taper.run_mm),
                    show.gap(taper.loss_mm),
                    show.length(taper.left_mm),
                )
            )
            parts.append(tuple(s.part for s in members))
    if not rows:
        return None
    return Table(
        title="Tapers",
        columns=(
            Column(title="Part"),
            Column(title="Face"),
            Column(title="Sled", align=_R),
            Column(title=f"Begins at {show.unit}", align=_R),
            Column(title="Runs", align=_R),
            Column(title="Takes off", align=_R),
            Column(title="Leaves", align=_R),
        ),
        rows=tuple(rows),
        parts=tuple(parts),
    )


def _notches(plan: Plan, show: Show) -> Table:
    return Table(
        title="Notches by the saw",
        columns=(
            Column(title="Part"),
            Column(title=f"Width {show.unit}", align=_R),
            Column(title="Depth", align=_R),
            Column(title="Cheeks lean", align=_R),
            Column(title="Passes", align=_R),
            Column(title="Passes, slivers left", align=_R),
            Column(title="To chisel", align=_R),
            Column(title="Strength left", align=_R),
        ),
        rows=tuple(
            (
                word(n.part),
                show.gap(n.width_mm),
                show.gap(n.depth_mm),
                show.angle(n.tilt_deg),
                str(n.passes_side_by_side),
                str(n.passes_slivers),
                f"{n.waste_to_chisel_mm3 / 1000:.0f} cm³",
                f"{100 * n.strength_share:.0f} %",
            )
            for n in plan.notches
        ),
        parts=tuple((n.part,) for n in plan.notches),
        note="Slivers are left between passes one kerf apart, snapped off and pared.",
    )
