"""Saw cards: one for each setting, from the set-ups of the plan."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from scantling.papers.packet import Fact
from scantling.papers.packet.sections import CutRow, RipRow, SetupCard, SquareRow
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.show import names_of
from scantling.papers.words.scale_words import gap_words
from scantling.piece.model import End
from scantling.shop.operations.cautions import cautions_for, operation_of
from scantling.shop.sawing.saw import CutOrder, PartSawing, SawCut
from scantling.shop.sawing.sawplane import Turn
from scantling.shop.sawing.sawsetup import SawSetup

__all__ = ["rip_rows", "setup_cards", "square_rows"]


def _settings(setup: SawSetup, figures: Figures) -> tuple[Fact, ...]:
    turned = "" if setup.turn is Turn.NONE else f"far end of the blade to the {setup.turn.value}"
    tilted = "top of the blade to the left" if setup.bevel_deg > 0.05 else ""
    facts = [
        Fact(label="Miter, from square", value=figures.angle(setup.miter_deg), note=turned),
        Fact(
            label="Bevel, from upright",
            value=figures.angle(setup.bevel_deg),
            note=tilted,
        ),
        Fact(
            label="Stop, to the long point",
            value="to a line" if setup.stop_mm is None else figures.length(setup.stop_mm),
        ),
        Fact(label="Cuts", value=str(len(setup.cuts)), note=_order_words(setup)),
    ]
    return tuple(facts)


def _proof(setup: SawSetup, figures: Figures, told: set[str]) -> tuple[str, ...]:
    """What the scale leaves open and the trial cut, each where it is first wanted."""
    trials = [step[:1].upper() + step[1:] + "." for step in setup.steps if step.startswith("trial: ")]
    lines = [line for line in (gap_words(setup, figures.style), *trials) if line]
    fresh = tuple(line for line in lines if line not in told)
    told.update(lines)
    return fresh


def _order_words(setup: SawSetup) -> str:
    """Which end it is; by hand there is no stop."""
    return setup.order.value.partition(",")[0] if setup.machine.by_hand else setup.order.value


def _check(cut: SawCut, figures: Figures) -> str:
    if cut.stop_short_mm is not None and cut.stop_long_mm is not None:
        if abs(cut.stop_long_mm - cut.stop_short_mm) < 0.05:
            return f"{figures.bare(cut.stop_long_mm)} long, square"
        return f"short point {figures.bare(cut.stop_short_mm)} from the tip of the first end"
    leads = ((cut.lead_width_mm, "width"), (cut.lead_thickness_mm, "thickness"))
    words = [
        f"{figures.tenths(abs(value), unit=True)} across the {name}"
        for value, name in leads
        if abs(value) > 0.05
    ]
    return "leads " + " and ".join(words) if words else "square both ways"


def _cut_rows(
    setup: SawSetup, senses: dict[str, str], *, ends: Mapping[tuple[str, End], str], figures: Figures
) -> tuple[CutRow, ...]:
    groups: dict[tuple[str, ...], list[SawCut]] = {}
    for cut in setup.cuts:
        lay = cut.lay
        key = (
            ends[cut.part, cut.end],
            lay.face_down.value,
            lay.fence_edge.value,
            lay.kept.value,
            _check(cut, figures),
            senses.get(cut.part, ""),
            cut.like,
        )
        groups.setdefault(key, []).append(cut)
    rows = []
    for (end, down, fence, kept, check, sense, _), cuts in groups.items():
        rows.append(
            CutRow(
                part=names_of(cut.part for cut in cuts),
                count=len(cuts),
                end=f"{end}; {sense}" if sense else end,
                down=f"{down} down, {fence} to the fence",
                blade=f"part on the {kept}",
                check=check,
            )
        )
    return tuple(rows)


def _is_square(setup: SawSetup) -> bool:
    return setup.miter_deg < 0.05 and setup.bevel_deg < 0.05


def square_rows(setups: Iterable[SawSetup], *, figures: Figures) -> tuple[SquareRow, ...]:
    """Cuts without an angle.

    Parameters
    ----------
    setups
        Cuts grouped by setting.
    figures
        How lengths are written.

    Returns
    -------
    tuple of SquareRow
        One for each stop.
    """
    return tuple(
        SquareRow(
            number=str(setup.number),
            machine=setup.machine.value,
            parts=names_of(dict.fromkeys(cut.part for cut in setup.cuts)),
            count=len(setup.cuts),
            end=_order_words(setup),
            stop="to a line" if setup.stop_mm is None else figures.length(setup.stop_mm),
        )
        for setup in setups
        if _is_square(setup)
    )


def rip_rows(sawing: Sequence[PartSawing], *, figures: Figures) -> tuple[RipRow, ...]:
    """Edges ripped out of square, parts and edges alike in one row.

    Parameters
    ----------
    sawing
        Of every part.
    figures
        How lengths and angles are written.
    """
    groups: dict[tuple[str, ...], dict[str, list[str]]] = {}
    fine = figures.fine
    for sawn in sawing:
        for rip in sawn.rips:
            key: tuple[str, ...] = (
                figures.angle(rip.tilt_deg),
                figures.angle(rip.sled_deg) if rip.sled_deg else "—",
                rip.face_down.value,
                fine.bare(rip.narrow_mm),
                fine.bare(rip.wide_mm),
            )
            groups.setdefault(key, {}).setdefault(sawn.part, []).append(rip.edge.value)
    rows: dict[tuple[str, ...], list[str]] = {}
    order = [sawn.part for sawn in sawing]
    for cells, found in groups.items():
        for part, edges in found.items():
            rows.setdefault((*cells, " and ".join(edges)), []).append(part)
    return tuple(
        RipRow(parts=names_of(parts), edges=edges, tilt=tilt, sled=sled, down=down, narrow=narrow, wide=wide)
        for (tilt, sled, down, narrow, wide, edges), parts in sorted(
            rows.items(), key=lambda row: order.index(row[1][0])
        )
    )


def setup_cards(
    setups: Iterable[SawSetup],
    sawing: Iterable[PartSawing],
    *,
    ends: Mapping[tuple[str, End], str],
    figures: Figures,
) -> tuple[SetupCard, ...]:
    """The cards in the order they are set.

    Parameters
    ----------
    setups
        Cuts grouped by setting.
    sawing
        Says how the two ends of each part lean toward each other.
    ends
        Each end of each part by where it looks.
    figures
        How lengths and angles are written.

    Returns
    -------
    tuple of SetupCard
        One for each setting with an angle.
    """
    senses = {sawn.part: sawn.sense.value for sawn in sawing}
    cards = []
    cautioned: set[str] = set()
    told: set[str] = set()
    for setup in setups:
        if _is_square(setup):
            continue
        texts = cautions_for(operation_of(setup.machine)) if operation_of(setup.machine) else ()
        text = " ".join(t for t in texts if t not in cautioned)
        cautioned.update(texts)
        sense = senses if setup.order is not CutOrder.TRIM else {}
        cards.append(
            SetupCard(
                number=str(setup.number),
                machine=setup.machine.value,
                settings=_settings(setup, figures),
                cuts=_cut_rows(setup, sense, ends=ends, figures=figures),
                caution=text,
                proof=_proof(setup, figures, told),
            )
        )
    return tuple(cards)
