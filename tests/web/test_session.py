"""Designs are drawn up once, kept, and made anew when a file changes."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from scantling.errors import FileFaults, InputError
from scantling.solids.tones import tone_of
from scantling.web.designs.coalescing import Coalescing
from scantling.web.designs.session import Session
from scantling.wood import find_species
from tests.web.specimen import DEMO


def test_those_who_ask_together_share_one_answer() -> None:
    """Eight threads ask at once; the work is done once and all get the same."""
    kept: Coalescing[object] = Coalescing()
    gate = threading.Event()

    def work() -> object:
        gate.wait(5)
        return object()

    with ThreadPoolExecutor(8) as pool:
        asked = [pool.submit(kept.answer, "length=1", work) for _ in range(8)]
        gate.set()
        answers = {id(one.result(5)) for one in asked}
    assert (len(answers), kept.worked) == (1, 1)


def test_a_failure_is_told_to_all_who_wait_and_not_kept() -> None:
    """The next to ask tries again."""
    kept: Coalescing[int] = Coalescing()

    def fails() -> int:
        raise InputError(code="x", field="y", value="z", rule="must not")

    with pytest.raises(InputError, match="y: must not, got z"):
        kept.answer("q", fails)
    assert kept.answer("q", lambda: 3) == 3


def test_the_oldest_unused_answer_goes_first() -> None:
    """With room for two, the one asked for again stays."""
    kept: Coalescing[int] = Coalescing(limit=2)
    for question in ("a", "b", "a", "c"):
        kept.answer(question, lambda: 1)
    worked = kept.worked
    kept.answer("a", lambda: 1)
    assert kept.worked == worked
    kept.answer("b", lambda: 1)
    assert kept.worked == worked + 1


def test_the_same_sizes_are_planned_once(tmp_path: Path) -> None:
    """In whatever order they are given; a changed file makes the plan new."""
    piece = tmp_path / "table.yaml"
    piece.write_text(DEMO.read_text(encoding="utf-8"), encoding="utf-8")
    session = Session(piece)
    session.design({"length": "1300 mm", "width": "600 mm"})
    session.design({"width": "600 mm", "length": "1300 mm"})
    assert session.worked == 1
    piece.write_text(
        piece.read_text(encoding="utf-8").replace("Reading table", "Writing table"), encoding="utf-8"
    )
    assert session.heading()[0] == "Writing table with splayed legs"
    session.design({"width": "600 mm", "length": "1300 mm"})
    assert session.worked == 2


def test_a_changed_rack_makes_the_plan_new(tmp_path: Path) -> None:
    """Also the files beside the piece count for the key."""
    rack = tmp_path / "rack.csv"
    rack.write_text(
        (DEMO.parent / "racks" / "reading-table.csv").read_text(encoding="utf-8"), encoding="utf-8"
    )
    session = Session(DEMO, rack=rack)
    key = session.key({})
    rack.write_text(rack.read_text(encoding="utf-8") + "\n", encoding="utf-8")
    assert session.key({}) != key


@pytest.mark.parametrize(
    "species", ["black cherry", "white ash", "sugar maple", "white oak", "yellow-poplar"]
)
def test_woods_of_the_examples_have_a_color_of_their_own(species: str) -> None:
    """The name is one of the species table, and its color is not the one for all others."""
    assert find_species(species).name == species
    assert tone_of(species) != tone_of("no such wood")


def test_what_is_wrong_with_piece_shop_and_rack_is_told_together(tmp_path: Path) -> None:
    """Mending one file does not bring up the faults of the next."""
    piece, shop, rack = tmp_path / "piece.yaml", tmp_path / "shop.yaml", tmp_path / "rack.yaml"
    piece.write_text(DEMO.read_text(encoding="utf-8").replace("black cherry", "black chery"), "utf-8")
    shop.write_text("glue: PAV\n", "utf-8")
    rack.write_text("boards: []\n", "utf-8")
    with pytest.raises(FileFaults) as caught:
        Session(piece, shop=shop, rack=rack).shape({})
    codes = {fault.code for fault in caught.value.faults}
    assert codes == {"unknown_species", "unknown_glue", "empty_rack"}


def test_the_figures_come_before_what_takes_longest_and_stay_as_they_are() -> None:
    """Without a rack all but the curves is there at first; with them comes how much to ask for."""
    session = Session(DEMO)
    first = session.plan_view({}, whole=False)
    assert session.worked == 0
    whole = session.plan_view({})
    assert (first.whole, whole.whole) == (False, True)
    assert first.findings == whole.findings
    assert first.year == whole.year
    changed = [one.id for one, other in zip(first.sheets, whole.sheets, strict=True) if one != other]
    assert changed == ["boards"]
    (sooner,), (later,) = ([s for s in view.sheets if s.id == "boards"] for view in (first, whole))
    told = [block for block in sooner.blocks if block not in later.blocks]
    assert [block.title for block in told] == ["To buy"]
    assert [b.title for b in later.blocks if b.title in {s.title for s in sooner.blocks}] == [
        b.title for b in sooner.blocks
    ]
    assert len(later.blocks) > len(sooner.blocks)


def test_with_boards_at_hand_the_figures_are_the_whole_plan() -> None:
    """There is nothing to ask for, and nothing that takes so long."""
    session = Session(DEMO, rack=DEMO.parent / "racks" / "reading-table.csv")
    assert session.plan_view({}, whole=False) == session.plan_view({})
