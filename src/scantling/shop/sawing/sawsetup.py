"""Saw set-ups over the whole piece: one setting, one stop, every part that needs it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.piece.miter import MITER
from scantling.shop.operations.routing import Machine
from scantling.shop.profile.profile import Shop
from scantling.shop.sawing.saw import CutOrder, PartSawing, SawCut
from scantling.shop.sawing.sawplane import Turn
from scantling.shop.sawing.settable import Setting, setting_of, trial_words

__all__ = ["SawSetup", "saw_setups"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SawSetup:
    """Cuts made with one setting and one stop.

    Parameters
    ----------
    number
        In the order they are set: every first end is cut before its second.
    miter_deg, bevel_deg
        Blade turned from square; tilted from upright. [deg]
    turn
        Which way the far end of the blade is turned; its top always leans to the left.
    miter_scale_deg, bevel_scale_deg
        The same read from the blade. [deg]
    stop_mm
        From the stop to the long point; None for first ends and second cuts, sawn to a mark. [mm]
    cuts
        The ends sawn.
    scale
        What the scale is set to, and what that leaves open at the worst of the joints.
    steps
        What to do, in order.
    """

    number: int
    machine: Machine
    miter_deg: float
    bevel_deg: float
    turn: Turn
    miter_scale_deg: float
    bevel_scale_deg: float
    order: CutOrder
    stop_mm: float | None
    cuts: tuple[SawCut, ...]
    scale: Setting
    steps: tuple[str, ...]

    @property
    def title(self) -> str:
        """Its name in the order of work."""
        return f"Saw set-up {self.number}"

    @property
    def angled(self) -> bool:
        """Whether anything is off square."""
        return bool(self.miter_deg or self.bevel_deg)

    @property
    def general_steps(self) -> tuple[str, ...]:
        """What to do at this setting whatever part is cut."""
        return self.steps if self.machine.by_hand else self.steps[: -len(self.cuts)]


def saw_setups(sawings: Iterable[PartSawing], shop: Shop) -> tuple[SawSetup, ...]:
    """Group every cut of the piece by setting and stop, lesser angles first.

    Parameters
    ----------
    sawings
        The parts.
    shop
        How finely its saws are set.
    """
    groups: dict[tuple[object, ...], list[SawCut]] = {}
    for sawing in sawings:
        for cut in sawing.cuts:
            groups.setdefault(_key(cut), []).append(cut)
    ordered = [groups[key] for key in sorted(groups, key=_in_order)]
    return tuple(_setup(number, cuts, shop) for number, cuts in enumerate(ordered, start=1))


def _key(cut: SawCut) -> tuple[object, ...]:
    stop = None if cut.stop_long_mm is None else round(cut.stop_long_mm, 1)
    return (*cut.lay.setting, cut.order, stop)


def _in_order(key: tuple[object, ...]) -> tuple[object, ...]:
    *setting, order, stop = key
    return (*setting, list(CutOrder).index(CutOrder(str(order))), stop or 0.0)


def _setup(number: int, cuts: list[SawCut], shop: Shop) -> SawSetup:
    lay = cuts[0].lay
    return SawSetup(
        number=number,
        machine=lay.machine,
        miter_deg=lay.miter_deg,
        bevel_deg=lay.bevel_deg,
        turn=lay.turn,
        miter_scale_deg=lay.miter_scale_deg,
        bevel_scale_deg=lay.bevel_scale_deg,
        order=cuts[0].order,
        stop_mm=cuts[0].stop_long_mm,
        cuts=tuple(cuts),
        scale=max(
            (setting_of(cut.lay, shop.machines, mitered=_mitered(cut)) for cut in cuts),
            key=lambda setting: setting.gap_mm,
        ),
        steps=_steps(cuts),
    )


def _steps(cuts: list[SawCut]) -> tuple[str, ...]:
    lay, order = cuts[0].lay, cuts[0].order
    if lay.machine is Machine.HAND_SAW:
        return _hand_steps(lay.angles > 0, order)
    steps = [_set_words(lay.turn, lay.bevel_deg)]
    if lay.bevel_deg:
        steps.append(
            "on a saw that tilts to the right: turn each part end for end on the same face, on the other "
            "side of the blade"
        )
    if trial := trial_words(lay, mitered=any(map(_mitered, cuts))):
        steps.append(trial)
    if order is CutOrder.SECOND:
        steps.append(
            "set the stop so that the long point comes out at the length given; first ends to the stop"
        )
        steps.append("keep the offcut free: never trap it between blade and stop")
    elif order is CutOrder.FIRST:
        steps.append("saw the first end just inside the rough end, past any check")
    else:
        steps.append("saw to the line marked on the part")
    steps += [_lay_words(cut) for cut in cuts]
    return tuple(steps)


def _mitered(cut: SawCut) -> bool:
    """Whether what it meets is cut at the same angles."""
    return cut.by.startswith(MITER)


def _hand_steps(angled: bool, order: CutOrder) -> tuple[str, ...]:
    """By hand nothing is set: the line decides, and the plane brings the end to it."""
    square = "the sliding bevel, set by the drawing," if angled else "the square"
    where = {
        CutOrder.FIRST: "just inside the rough end, past any check",
        CutOrder.SECOND: "at the length given, parts of one length side by side so that they come out alike",
        CutOrder.TRIM: "as marked on the part",
    }[order]
    return (
        f"knife the line all round with {square} against the face side and the face edge, {where}",
        "saw a hair outside the line and shoot the end down to it",
    )


def _set_words(turn: Turn, bevel_deg: float) -> str:
    words = []
    if turn is not Turn.NONE:
        words.append(f"turn the far end of the blade to the {turn.value}")
    if bevel_deg:
        words.append("tilt the top of the blade to the left")
    return " and ".join(words) or "set the blade square both ways"


def _lay_words(cut: SawCut) -> str:
    lay = cut.lay
    return (
        f"{cut.part}, {cut.end.value}: {lay.face_down.value} face down, {lay.fence_edge.value} edge to the "
        f"fence, part on the {lay.kept.value} of the blade"
    )
