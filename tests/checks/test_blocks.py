"""Sticks screwed or glued flat across a panel, over more of its width than is usual."""

from __future__ import annotations

import pytest

from checks.test_loose import BROAD, made
from scantling.checks import blocks, glue, movement
from scantling.checks.subject import Subject
from scantling.errors import Finding, Severity
from scantling.joinery.joining import join, load_piece_text
from scantling.wood.moisture import MoistureRange

STEADY = MoistureRange(build_pct=8.0, dry_pct=7.5, wet_pct=8.5)
"""A room that hardly changes: what is fixed hardly pulls. [%]"""


def found(
    block_mm: float, options: str, *, year: MoistureRange = STEADY, way: str = "back"
) -> tuple[Finding, ...]:
    """What is said of a stick of that length under a top; toward the back is across its grain."""
    top = made("top", "0, 0, 112.5", "right", "300, 25", **BROAD)
    stick = {"width_toward": "right" if way == "back" else "back", "length": f"{block_mm} mm"}
    parts = top + made("block", "0, 0, 90", way, "40, 20", **stick)
    joints = f"joints:\n  fixed: {{kind: plain_screw, between: [[block, top]], {options}}}\n"
    piece = load_piece_text(f"scantling: 1\ntitle: t\nunits: mm\nparts:\n{parts}{joints}")
    subject = Subject(piece=piece, works=join(piece, moisture=year), moisture=year)
    return tuple(item for check in (blocks.check, glue.check, movement.check) for item in check(subject))


SCREWS = "screw: [4 mm, 30 mm], count: 2, inset: 20 mm"


def test_screws_farther_apart_than_75_mm_are_told() -> None:
    """A block of 115 mm has its screws 75 mm apart; one of 117 mm has them 77 mm apart."""
    assert found(115, SCREWS) == ()
    [told] = found(117, SCREWS)
    assert (told.code, told.where, told.severity) == ("F39", "fixed", Severity.MEDIUM)
    assert "fixed over 77 mm across the grain of top, at most 75 mm" in told.message
    assert "2 pieces" in told.advice
    assert told.numbers["fixed_mm"] == pytest.approx(77.0)


def test_glue_counts_over_its_whole_length() -> None:
    """75 mm of it is usual, 76 mm is not."""
    assert found(75, f"{SCREWS}, glued: true") == ()
    [told] = found(76, f"{SCREWS}, glued: true")
    assert told.code == "F39"


def test_what_graver_rules_speak_of_is_not_said_twice() -> None:
    """In a room from 6 to 12 % the screws of a long block bind (F08), and glue slips too far (F01)."""
    lively = MoistureRange(build_pct=8.0, dry_pct=6.0, wet_pct=12.0)
    assert {item.code for item in found(250, SCREWS, year=lively)} == {"F08"}
    assert {item.code for item in found(250, f"{SCREWS}, glued: true", year=lively)} == {"F01"}


def test_a_block_along_the_grain_may_be_as_long_as_it_likes() -> None:
    """It moves as the top does."""
    assert found(250, SCREWS, way="right") == ()
