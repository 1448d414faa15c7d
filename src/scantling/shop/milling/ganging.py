"""Short parts at the machines: which length they need, and their milling as part of a longer one."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from scantling.shop.milling.capacity import least_sizes_mm
from scantling.shop.milling.ledger import MillingLedger, Pass, Stage
from scantling.shop.operations.routing import Machine, Operation, machine_for
from scantling.shop.profile.machines import Machines
from scantling.shop.profile.profile import Shop
from scantling.shop.sizes.gang import HAND_LENGTH_MM, INNER_END_MM, SMALL_MM, Gang
from scantling.shop.sizes.size import Size

__all__ = ["IN_ONE_LENGTH", "in_gang", "pieces_milled", "safe_length", "share_mm", "with_gangs"]

IN_ONE_LENGTH = (
    Operation.CROSSCUT_ROUGH,
    Operation.RESAW,
    Operation.FACE,
    Operation.EDGE,
    Operation.PLANE,
    Operation.RIP,
    Operation.REST,
    Operation.SETTLE,
)
"""What is done before a length is crosscut into its parts."""
_MILLS = (Machine.JOINTER, Machine.PLANER, Machine.PLANER_SLED)


def safe_length(ledger: MillingLedger, machines: Machines) -> tuple[float, str]:
    """The least length its machines take, and which asks for it; 0 where the blank is long enough. [mm]

    Alike parts smaller than :data:`~scantling.shop.sizes.gang.SMALL_MM` ask for some length by hand too;
    then no machine is named.

    Parameters
    ----------
    ledger
        Milling of the part on its own.
    machines
        What is owned.
    """
    asked = [
        (least_sizes_mm(one.machine, machines)[0], one.machine.value)
        for one in ledger.passes
        if one.operation in IN_ONE_LENGTH and one.machine in _MILLS
    ]
    least_mm, machine = max(asked, default=(0.0, ""))
    if ledger.rough.length_mm < least_mm:
        return least_mm, machine
    return (HAND_LENGTH_MM, "") if ledger.rough.length_mm < SMALL_MM else (0.0, "")


def pieces_milled(ledgers: Iterable[MillingLedger]) -> int:
    """Blanks that are cut and milled, several parts in one length counted once. [1]"""
    each = tuple(ledgers)
    gangs = {ledger.gang.name: ledger.gang for ledger in each if ledger.gang is not None}
    return sum(ledger.pieces for ledger in each) - sum(len(gang.blanks) - 1 for gang in gangs.values())


def share_mm(ledger: MillingLedger) -> float:
    """Length of a part within one milled together with others. [mm]"""
    return ledger.milled.length_mm + 2.0 * INNER_END_MM


def with_gangs(
    ledgers: tuple[MillingLedger, ...], gangs: tuple[Gang, ...], shop: Shop
) -> tuple[MillingLedger, ...]:
    """The ledgers, those of ganged parts rewritten."""
    of = {part: gang for gang in gangs for part in gang.parts}
    return tuple(in_gang(x, of[x.part], shop) if x.part in of else x for x in ledgers)


def in_gang(ledger: MillingLedger, gang: Gang, shop: Shop) -> MillingLedger:
    """The ledger of a part that is milled within a longer length and crosscut out of it.

    Parameters
    ----------
    ledger
        Its ledger on its own.
    gang
        The length.
    shop
        Its saws.
    """
    share = ledger.rough.length_mm if gang.grain else share_mm(ledger)
    passes: list[Pass] = []
    parted = False
    for one in ledger.passes:
        if one.operation in IN_ONE_LENGTH and not parted:
            before, after = (_long(size, gang.length_mm) for size in (one.before, one.after))
            passes.append(replace(one, stage=Stage.LENGTH, before=before, after=after))
            continue
        if not parted:
            passes.append(_parting(one.before, gang, share, shop))
            parted = True
        if one.operation is Operation.CROSSCUT and not gang.grain:
            before = _long(one.before, share)
            passes.append(replace(one, before=before, removes_length_mm=2.0 * INNER_END_MM))
        else:
            passes.append(one)
    return replace(
        ledger,
        rough=_long(ledger.rough, share),
        passes=tuple(passes),
        notes=(*ledger.notes, _note(gang)),
        gang=gang,
    )


def _long(size: Size, length_mm: float) -> Size:
    return replace(size, length_mm=length_mm)


def _parting(before: Size, gang: Gang, share: float, shop: Shop) -> Pass:
    """The cut between milling and the cut to length: what it takes is the kerf beside the part."""
    whole = _long(before, gang.length_mm)
    return Pass(
        stage=Stage.PIECE,
        operation=Operation.PART,
        machine=machine_for(Operation.PART, whole, shop.machines),
        removes_length_mm=0.0,
        removes_width_mm=0.0,
        removes_thickness_mm=0.0,
        before=whole,
        after=_long(before, share),
        note="the kerf is reckoned between the parts",
    )


def _note(gang: Gang) -> str:
    tail = f", {gang.tail_mm:.0f} mm of it a tail to be sawn off" if gang.tail_mm > 0.05 else ""
    others = len(gang.blanks) - 1
    with_ = "on its own" if not others else "with another" if others == 1 else f"with {others} others"
    return f"milled in a length of {gang.length_mm:.0f} mm {with_}{tail}: {gang.reason}"
