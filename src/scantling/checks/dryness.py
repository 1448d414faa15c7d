"""Moisture of the wood as measured, against its fellows, its destination and the shop: F34, F35, F36."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scantling.checks.catalogue import finding, limit, rule
from scantling.errors import Finding
from scantling.wood.moisture import MoistureRange

__all__ = [
    "READ_TO_PCT",
    "MeasuredBoard",
    "settles_at_pct",
    "shop_against_home",
    "too_wet",
    "unequal",
    "wettest_cut_pct",
]

READ_TO_PCT = 0.05
"""Half of the last figure that a moisture meter shows. [%]"""

_SHOWN = 4
"""Boards named where a remark stands; its text names all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredBoard:
    """A board with the moisture measured in it. [%]"""

    name: str
    mc_pct: float


def settles_at_pct(home: MoistureRange) -> float:
    """Moisture that wood swings about in its home: half way between its driest and wettest. [%]"""
    return (home.dry_pct + home.wet_pct) / 2.0


def wettest_cut_pct(home: MoistureRange) -> float:
    """Wettest a board should be cut at, by F35. [%]"""
    return settles_at_pct(home) + limit("F35", "over_pct")


def unequal(glued: Mapping[str, Sequence[MeasuredBoard]]) -> list[Finding]:
    """F34 where one glue-up takes its strips or layers from boards of unequal moisture.

    Parameters
    ----------
    glued
        Boards that go into each panel or lamination, by its name.
    """
    allowed = limit("F34", "spread_pct")
    found: list[Finding] = []
    for part, boards in glued.items():
        if len(boards) < 2:
            continue
        dry, wet = (pick(boards, key=lambda b: b.mc_pct) for pick in (min, max))
        if wet.mc_pct - dry.mc_pct <= allowed + READ_TO_PCT:
            continue
        found.append(
            finding(
                "F34",
                where=part,
                message=f"{part} is glued from {wet.name} at {wet.mc_pct:.1f} % and {dry.name} at "
                f"{dry.mc_pct:.1f} %, {wet.mc_pct - dry.mc_pct:.1f} points apart; at most {allowed:.0f}",
                numbers={
                    "spread_pct": wet.mc_pct - dry.mc_pct,
                    "wettest_pct": wet.mc_pct,
                    "driest_pct": dry.mc_pct,
                    "allowed_pct": allowed,
                },
                severity=rule("F34").severity_at(wet.mc_pct - dry.mc_pct - allowed),
            )
        )
    return found


def too_wet(
    boards: Sequence[MeasuredBoard],
    home: MoistureRange,
    *,
    wait: str = "",
) -> list[Finding]:
    """F35 where boards are wetter than their destination allows, with the mass the wettest has when ready.

    A board of mass m at moisture M has m (100 + M*) / (100 + M) when it has dried to M*.

    Parameters
    ----------
    boards
        Boards that are cut for the piece.
    home
        Driest and wettest where the piece goes. [%]
    wait
        Where and how long the last of them dries, in words, where that is known.
    """
    wanted = wettest_cut_pct(home)
    readings: dict[float, list[str]] = {}
    for board in sorted(boards, key=lambda one: -one.mc_pct):
        if board.mc_pct > wanted + READ_TO_PCT:
            readings.setdefault(board.mc_pct, []).append(board.name)
    if not readings:
        return []
    wettest = max(readings)
    names = [name for group in readings.values() for name in group]
    read = "; ".join(
        f"{', '.join(group)} read{'s' if len(group) == 1 else ''} {mc:.1f} %"
        for mc, group in readings.items()
    )
    drying = f". The last to dry, {wait}" if wait else ""
    return [
        finding(
            "F35",
            where=_few(names),
            message=f"{read}; where the piece goes wood settles at {settles_at_pct(home):.1f} %, and "
            f"{wanted:.1f} % is the wettest it should be cut at{drying}",
            numbers={
                "boards": float(len(names)),
                "mc_pct": wettest,
                "settles_pct": settles_at_pct(home),
                "wanted_pct": wanted,
                "mass_share_pct": 100.0 * (100.0 + wanted) / (100.0 + wettest),
            },
            severity=rule("F35").severity_at(wettest - wanted),
        )
    ]


def _few(names: Sequence[str]) -> str:
    """The first names of many."""
    shown = ", ".join(names[:_SHOWN])
    return shown if len(names) <= _SHOWN else f"{shown} and {len(names) - _SHOWN} more"


def shop_against_home(shop_pct: float, home: MoistureRange) -> list[Finding]:
    """F36 where wood at rest in the shop is far from what it will swing about at home.

    Only a wetter shop stops the job: what is known to have split was glued too wet.

    Parameters
    ----------
    shop_pct
        Moisture of wood at rest in the shop's air. [%]
    home
        Driest and wettest where the piece goes. [%]
    """
    gap = limit("F36", "gap_pct")
    target = settles_at_pct(home)
    off = shop_pct - target
    if abs(off) <= gap + 1e-9:
        return []
    way = "wetter" if off > 0.0 else "drier"
    return [
        finding(
            "F36",
            where="shop",
            message=f"wood at rest in the shop holds {shop_pct:.1f} %, {abs(off):.1f} points {way} than the "
            f"{target:.1f} % it will swing about at home; at most {gap:.0f}",
            numbers={"shop_pct": shop_pct, "home_pct": target, "off_pct": off, "gap_pct": gap},
            severity=rule("F36").severity_at(off),
        )
    ]
