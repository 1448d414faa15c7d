"""How much wood to ask for, in words: the amount to buy by, and beside it what it takes on average."""

from __future__ import annotations

import math
from collections.abc import Sequence

from scantling.plan.timber.buying import WoodToAskFor
from scantling.stock.checking.rings_told import sawn_words
from scantling.units import show_number

__all__ = [
    "ask_amount",
    "average_amount",
    "one_board_words",
    "priced_words",
    "whole_feet",
    "why_so_much",
    "wood_words",
]

_STEP_M3 = 0.001


def whole_feet(board_feet: float) -> str:
    """An amount that is enough: whole board feet, never rounded down."""
    return f"{math.ceil(board_feet - 1e-6)}"


def ask_amount(wood: WoodToAskFor, *, inch: bool) -> str:
    """The amount to ask for, never rounded down: whole board feet, with cubic meters where those are sold."""
    feet = f"{whole_feet(wood.ask_board_feet)} bf"
    cubic = math.ceil(wood.ask_m3 / _STEP_M3 - 1e-6) * _STEP_M3
    return feet if inch else f"{feet} ({cubic:.3f} m³)"


def average_amount(wood: WoodToAskFor, *, inch: bool) -> str:
    """What the piece takes on average."""
    feet = f"{show_number(wood.average_board_feet, digits=1)} bf"
    return feet if inch else f"{feet} ({wood.average_m3:.3f} m³)"


def priced_words(woods: Sequence[WoodToAskFor]) -> str:
    """That the price counts less wood than the buying list asks for, with both amounts; empty where not."""
    asked = sum(math.ceil(wood.ask_board_feet - 1e-6) for wood in woods)
    average = sum(wood.average_board_feet for wood in woods)
    if asked <= average + 1.0:  # no more than whole feet make of it
        return ""
    return (
        f"Wood to buy is in the price with what it takes on average, {show_number(average, digits=1)} bf; "
        f"{asked} bf are asked for, to be sure of enough. What is left of them stays in the shop."
    )


def wood_words(wood: WoodToAskFor) -> str:
    """The wood, with how it must be sawn."""
    sawn = sawn_words(wood.sawn, wood.net_board_feet)
    return f"{wood.species}, {sawn}" if sawn else wood.species


def one_board_words(wood: WoodToAskFor) -> str:
    """The one board that would do, where yards would sell much more than is wanted; else nothing."""
    if wood.one_board_mm is None:
        return ""
    length, width = wood.one_board_mm
    return (
        f"{wood.species} {wood.quarters:g}/4: a yard sells whole boards; one sound board, or an offcut, of "
        f"{length:.0f} × {width:.0f} mm or more holds all of it"
    )


def why_so_much(wood: WoodToAskFor) -> str:
    """Where the amount to ask for comes from, and what the average is."""
    if wood.chance_short is None:
        return f"the average, so it may not be enough; {wood.reason}"
    often = f"{100.0 * wood.chance_short:.0f} times in 100"
    return f"what is asked for falls short at most {often}; the average is {wood.reason}"
