"""Usual cautions by operation. They remind; the manual, the label and the law decide."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from scantling.errors import ModelError
from scantling.shop.operations.routing import Machine
from scantling.shop.profile.tables import table

__all__ = ["Caution", "caution", "cautions", "cautions_at", "cautions_for", "operation_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """The usual caution for one operation, and whom to defer to."""

    operation: str
    text: str
    defer_to: str


@cache
def cautions() -> dict[str, Caution]:
    """Every caution by its operation."""
    return {
        row["operation"]: Caution(
            operation=row["operation"], text=row["caution"], defer_to=row["defer_to"] or ""
        )
        for row in table("cautions")
    }


def caution(operation: str) -> Caution:
    """The caution for an operation; an unknown operation is our own defect."""
    try:
        return cautions()[operation]
    except KeyError:
        raise ModelError(f"no caution for {operation}") from None


def cautions_for(*operations: str) -> tuple[str, ...]:
    """Texts of the cautions for operations, each once, in that order."""
    return tuple(dict.fromkeys(caution(operation).text for operation in operations))


def cautions_at(machines: Iterable[Machine], *operations: str) -> tuple[str, ...]:
    """Texts of the cautions for operations at machines, and for hand tools where some of it is done by hand.

    Parameters
    ----------
    machines
        With which the operations are done; of hand tools alone, only theirs is given.
    operations
        What is done at the machines among them.
    """
    by_hand = {machine.by_hand for machine in machines if machine is not Machine.NONE}
    at_machines = () if by_hand == {True} else operations
    return cautions_for(*at_machines, *(("hand tools",) if True in by_hand else ()))


def operation_of(machine: Machine) -> str:
    """The operation whose caution goes with a machine; empty where nothing is done."""
    return _OPERATION.get(machine, "")


_OPERATION: dict[Machine, str] = {
    Machine.JOINTER: "jointing",
    Machine.PLANER: "planing",
    Machine.PLANER_SLED: "planing",
    Machine.TABLE_SAW: "ripping",
    Machine.MITER_SAW: "crosscutting",
    Machine.TRACK_SAW: "ripping",
    Machine.BANDSAW: "bandsawing",
    Machine.DRUM_SANDER: "sanding",
    Machine.LATHE: "turning",
    Machine.HAND_PLANE: "hand tools",
    Machine.HAND_SAW: "hand tools",
    Machine.HAND_SAW_PLANE: "hand tools",
    Machine.SCRAPER: "sanding",
    Machine.CLAMPS: "clamps",
}
