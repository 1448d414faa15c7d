"""A file with many faults tells them all in one run: each once, at its line, and none that only follows."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cli.job import job_from_files
from scantling.errors import Fault, FileFaults

GOOD = """\
scantling: 1
title: Two posts and three rails
units: mm
parameters:
  height: {default: 420 mm, least: 300 mm, most: 500 mm, about: Floor to the seat.}
  depth: {default: 300 mm, least: 200 mm, most: 500 mm, about: Front to back of the seat.}
values:
  thick: 24 mm
  rise: height - thick
  reach: 2 * 45 mm
  spare: reach + 1 mm
  first: 10 mm
  second: first + 1 mm
parts:
  seat:
    kind: panel
    species: red oak
    center: [0, 0, rise + thick / 2]
    along: right
    length: 400
    section: [depth, thick]
    width_toward: back
  post:
    kind: stick
    species: white ash
    from: [-150, 0, 0]
    to: [-150, 0, rise]
    section: [45, 46]
    width_toward: right
    trim: {start: floor, end: seat.bottom}
    copies:
      post_right: {mirror: [left-right]}
  rail_a: {kind: stick, species: ash, from: [0, 900, 0], to: [0, 900, 300], section: [40, 20],
    width_toward: right}
  rail_b: {kind: stick, species: white ash, from: [0, 950, 0], to: [0, 950, 301], section: [41, 20],
    width_toward: right}
  rail_c: {kind: stick, species: white ash, from: [0, 1000, 0], to: [0, 1000, 302], section: [42, 20],
    width_toward: right}
  rail_d:
    kind: stick
    species: white ash
    from: [0, 1100, 0]
    to: [0, 1100, 303]
    section: [43, 20]
    width_toward: right
  rail_e:
    kind: stick
    species: white ash
    from: [0, 1200, 0]
    to: [0, 1200, 304]
    section: [44, 20]
    width_toward: right
    trim: {end: square}
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
  second_pair:
    kind: loose_tenon
    between:
      - [post_right.end, seat]
    thickness: 10
    width: 20
    depth_first: 35
    depth_second: 15
finish:
  system: film varnish
  coats: 3
brief:
  load: 40 kg
  ceiling: 2400
  carried: {all: [seat, post]}
accept:
  F07: the step is wanted
"""


@dataclass(frozen=True)
class Spoil:
    """One thing to spoil: what is replaced, by what, the line's wording then, and the fault's code."""

    old: str
    new: str
    where: str
    code: str


SPOILS = (
    Spoil("title: Two posts and three rails\n", "tilte: Two posts\ntitle: x\n", "tilte", "unknown_field"),
    Spoil("default: 420 mm", "default: 520 mm", "520", "out_of_range"),
    Spoil("spare: reach + 1 mm", "spare: reach + nought + 1 mm", "nought", "unknown_name"),
    Spoil("spare: reach + 1 mm", "spare: 700 kg", "700 kg", "expression_form"),
    Spoil("first: 10 mm", "first: second - 1 mm", "first: second", "cycle"),
    Spoil("species: red oak", "species: red oka", "red oka", "unknown_species"),
    Spoil("length: 400\n", "length: 400\n    note: [1]\n", "note: [1]", "wrong_type"),
    Spoil("section: [40, 20]", "section: [40, 2 kg]", "2 kg", "expression_form"),
    Spoil("section: [41, 20]", "section: [41, -20]", "[41", "section_not_positive"),
    Spoil("section: [42, 20]", "section: [42, thik]", "thik", "unknown_name"),
    Spoil("to: [0, 1100, 303]", "too: [0, 1100, 303]\n    to: [0, 1100, 303]", "too:", "unknown_field"),
    Spoil("    section: [43, 20]\n", "", "rail_d:", "field_missing"),
    Spoil("section: [44, 20]", "section: [44, 20]\n    length: -5", "-5", "out_of_range"),
    Spoil("trim: {end: square}", "trim: {end: saet.bottom}", "saet", "unknown_face"),
    Spoil("[post.end, seat]", "[post.end, seet]", "seet", "unknown_part"),
    Spoil(
        "[post_right.end, seat]\n    thickness: 10",
        "[post_right.end, rail_e]\n    thickness: 10",
        "rail_e]",
        "",
    ),
    Spoil("    depth_first: 35", "    depth_firts: 1\n    depth_first: 35", "depth_firts", "unknown_field"),
    Spoil("film varnish", "plastic", "plastic", "unknown_finish"),
    Spoil("coats: 3", "coats: many", "many", "wrong_type"),
    Spoil("load: 40 kg", "load: 40 mm", "40 mm", ""),
    Spoil("ceiling: 2400", "ceiling: 10", "ceiling: 10", "out_of_range"),
    Spoil("[seat, post]", "[seat, pots]", "pots", "unknown_part"),
    Spoil("load: 40 kg", "load: 40 kg\n  stands: cieling", "cieling", "unknown_choice"),
    Spoil("F07:", "F00:", "F00:", "unknown_rule"),
    Spoil("accept:", "title: again\naccept:", "title: again", "duplicate_key"),
)
APART: dict[int, set[int]] = {12: {15}, 13: {15}}
"""Spoils of which one hides the other, since both are of one joint or one part's place."""


def spoiled(chosen: list[Spoil]) -> str:
    """The good file with some of it spoiled."""
    text = GOOD
    for spoil in chosen:
        assert spoil.old in text, spoil
        text = text.replace(spoil.old, spoil.new, 1)
    return text


def told(text: str, folder: Path) -> tuple[Fault, ...]:
    """What a run of the program tells of a file."""
    path = folder / "piece.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(FileFaults) as caught:
        job_from_files(path)
    return caught.value.faults


def independent(chosen: list[Spoil]) -> list[Spoil]:
    """Those of a choice that are of different entries."""
    kept: list[Spoil] = []
    for spoil in chosen:
        hidden = APART.get(SPOILS.index(spoil), set())
        apart = all(
            SPOILS.index(other) not in hidden
            and SPOILS.index(spoil) not in APART.get(SPOILS.index(other), set())
            for other in kept
        )
        if apart and all(spoil.old != other.old for other in kept):
            kept.append(spoil)
    return kept


def check_told(chosen: list[Spoil], folder: Path) -> None:
    """Every spoil is one fault, at its line, and there is no other."""
    text = spoiled(chosen)
    faults = told(text, folder)
    for spoil in chosen:
        line = text[: text.index(spoil.where)].count("\n") + 1
        found = [f for f in faults if f.line == line and spoil.code in ("", f.code)]
        assert len(found) == 1, (spoil, [str(f) for f in faults])
        assert found[0].rule
        assert found[0].field
        assert found[0].file.endswith("piece.yaml")
    assert len(faults) == len(chosen), [str(f) for f in faults]
    assert [f.line for f in faults] == sorted(f.line for f in faults)


def test_the_file_that_is_spoiled_is_good(tmp_path: Path) -> None:
    """Otherwise the tests below would count faults of its own."""
    path = tmp_path / "piece.yaml"
    path.write_text(GOOD, encoding="utf-8")
    assert len(job_from_files(path).piece.parts) == 8


@pytest.mark.parametrize("spoil", SPOILS, ids=[spoil.new.strip().replace("\n", " ")[:30] for spoil in SPOILS])
def test_one_spoil_is_one_fault(spoil: Spoil, tmp_path: Path) -> None:
    """Neither none nor a second one that only follows from it."""
    check_told([spoil], tmp_path)


def test_all_spoils_that_hide_none_are_told_in_one_run(tmp_path: Path) -> None:
    """Some twenty kinds of fault in one file."""
    chosen = independent(list(SPOILS))
    assert len(chosen) >= 18
    check_told(chosen, tmp_path)


@settings(max_examples=60)
@given(chosen=st.lists(st.sampled_from(SPOILS), min_size=2, max_size=12, unique=True))
def test_any_spoils_together_are_told_one_by_one(
    chosen: list[Spoil], tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Whichever are picked, and in whichever order they came in."""
    check_told(independent(chosen), tmp_path_factory.mktemp("spoiled"))
