"""Piece files for the tests: the examples, a small table, and reading a bad one."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from scantling.errors import Fault, FileFaults
from scantling.joinery import join, load_piece_text
from scantling.wood.moisture import MoistureRange

__all__ = ["EXAMPLES", "SMALL", "YEAR", "changed", "data_of", "fault_of", "faults_of", "line_of", "text_of"]

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
YEAR = MoistureRange(build_pct=8.0, dry_pct=6.5, wet_pct=11.5)

SMALL = """\
scantling: 1
title: Small stool
units: mm
parameters:
  height:
    default: 420 mm
    least: 300 mm
    most: 500 mm
    about: Floor to the seat's upper face.
values:
  thick: 24 mm
  rise: height - thick
parts:
  seat:
    kind: panel
    species: red oak
    center: [0, 0, rise + thick / 2]
    along: right
    length: 400
    section: [300, thick]
    width_toward: back
  post:
    kind: stick
    species: red oak
    from: [-150, 0, 0]
    to: [-150, 0, rise]
    section: [45, 45]
    width_toward: right
    trim: {start: floor, end: seat.bottom}
    copies:
      post_right: {mirror: [left-right]}
joints:
  post_to_seat:
    kind: loose_tenon
    between:
      - [post.end, seat]
      - [post_right.end, seat]
    thickness: 12
    width: 30
    depth_first: 40
    depth_second: 16
"""


def changed(*pairs: tuple[str, str], text: str = SMALL) -> str:
    """A text with some of it replaced, each wording once."""
    for old, new in pairs:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    return text


def faults_of(text: str, **given: str) -> tuple[Fault, ...]:
    """Everything wrong with a piece file, read and joined."""
    with pytest.raises(FileFaults) as caught:
        join(load_piece_text(text, given=given), moisture=YEAR)
    return caught.value.faults


def fault_of(text: str, **given: str) -> Fault:
    """The one thing wrong with a piece file."""
    [fault] = faults_of(text, **given)
    return fault


def line_of(text: str, wording: str) -> int:
    """Line on which a wording first stands, from 1."""
    return text[: text.index(wording)].count("\n") + 1


def data_of(text: str) -> Any:
    """A file's content as plain data."""
    return yaml.safe_load(text)


def text_of(data: Any) -> str:
    """Plain data as a file."""
    return yaml.safe_dump(data, sort_keys=False)
