"""Four feet on an uneven floor: told until as much is left on them, or they are three."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from scantling.checks import Subject
from scantling.checks import run as run_rules
from scantling.errors import Fault, FileFaults, Finding, Severity
from scantling.piece.model import Brief, Stands
from tests.checks.bench import leg, subject
from tests.joinery.bench import file_text, made

__all__: list[str] = []


def standing(feet: int = 4, **brief: float | Stands) -> Subject:
    """Legs that lean 12 and 8 degrees."""
    legs = tuple(leg(f"leg_{n}", front_deg=12.0, side_deg=8.0) for n in range(feet))
    plain = subject(legs)
    return replace(plain, piece=replace(plain.piece, brief=Brief(**brief)))  # type: ignore[arg-type]


def told(one: Subject) -> list[Finding]:
    """What the rule says."""
    return [f for f in run_rules(one).findings if f.code == "F81"]


def test_four_feet_on_flags_rock() -> None:
    """5 out of flat; along a leg 5 x sqrt(1 + tan2 12 + tan2 8) = 5.16."""
    [found] = told(standing(floor_uneven_mm=5.0))
    assert found.severity is Severity.MEDIUM
    assert found.numbers["along_mm"] == pytest.approx(
        5.0 * math.hypot(1.0, math.tan(math.radians(12.0)), math.tan(math.radians(8.0)))
    )
    assert "4 feet, on a floor 5 mm out of flat" in found.message
    assert "Draw it 5 mm taller, write `feet_trim: 5 mm`" in found.advice
    assert "5.2 mm along a leg" in found.advice


def test_what_is_left_on_the_feet_counts() -> None:
    """4 of 5 are too few, 5 will do."""
    [found] = told(standing(floor_uneven_mm=5.0, feet_trim_mm=4.0))
    assert "Draw it 1 mm taller" in found.advice
    assert "4 mm are left" in found.message
    assert told(standing(floor_uneven_mm=5.0, feet_trim_mm=5.0)) == []


def test_a_pad_three_feet_and_a_wall_take_it_up() -> None:
    """A millimeter goes into pads, 1.1 does not; three feet stand anywhere; what hangs has none."""
    assert told(standing(floor_uneven_mm=1.0)) == []
    assert told(standing(floor_uneven_mm=1.1))
    assert told(standing(3, floor_uneven_mm=5.0)) == []
    assert told(standing(floor_uneven_mm=5.0, stands=Stands.WALL)) == []


def case(**brief: float | Stands) -> Subject:
    """Two sides and a plinth that stand on the floor by their lower edges, and a shelf that does not."""
    board = {"kind": "panel", "species": "white oak", "rings": "flat"}
    side = {**board, "from": [0, 0, 0], "to": [0, 0, 900], "section": [300, 20], "width_toward": "back"}
    parts = {
        "side_left": side,
        "side_right": {**side, "from": [800, 0, 0], "to": [800, 0, 900]},
        "shelf": {
            **board,
            "from": [10, 0, 400],
            "to": [790, 0, 400],
            "section": [300, 20],
            "width_toward": "back",
        },
        "plinth": {
            **board,
            "from": [10, -140, 45],
            "to": [790, -140, 45],
            "section": [90, 20],
            "width_toward": "top",
        },
    }
    plain = subject(())
    piece = made(file_text(parts, {})).piece
    return replace(plain, piece=replace(piece, brief=Brief(**brief)))  # type: ignore[arg-type]


def test_a_case_rocks_and_twists_on_its_edges() -> None:
    """Sides and plinth stand on the floor, the shelf does not; what is left on them counts."""
    [found] = told(case(floor_uneven_mm=6.0))
    assert "it stands on side_left, side_right and plinth, on a floor 6 mm out of flat" in found.message
    assert "Draw it 6 mm taller at the floor" in found.advice
    [short] = told(case(floor_uneven_mm=6.0, feet_trim_mm=5.0))
    assert short.numbers["shortfall_mm"] == pytest.approx(1.0)
    assert told(case(floor_uneven_mm=6.0, feet_trim_mm=6.0)) == []
    assert told(case(floor_uneven_mm=1.0)) == []
    assert told(case(floor_uneven_mm=6.0, stands=Stands.WALL)) == []


def _fault(line: str, units: str = "mm") -> Fault:
    stick = {"kind": "stick", "species": "white oak", "section": [2, 2], "width_toward": "right"}
    text = file_text({"a": {**stick, "from": [0, 0, 0], "to": [0, 0, 20]}}, {})
    with pytest.raises(FileFaults) as caught:
        made(text.replace("units: mm", f"units: {units}") + f"brief:\n  {line}\n")
    [fault] = caught.value.faults
    return fault


def test_a_step_in_the_floor_is_refused() -> None:
    """With field, value, range and what to write."""
    fault = _fault("floor_uneven: 61 mm")
    assert (fault.code, fault.field, fault.value) == ("out_of_range", "brief.floor_uneven", "61 mm")
    assert fault.rule == "must lie in 0 mm .. 60 mm"
    assert fault.remedy.startswith("Write from the lowest to the highest place under its feet")
    assert fault.line > 0
    assert _fault("feet_trim: -1 mm").code == "out_of_range"
