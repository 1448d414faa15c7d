"""The timber there is follows from what happened to it; nothing is written over, the last act taken back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import FileFaults, InputError
from scantling.stock.boards.board import Board, Defect, DefectKind, Face, FirstCut, Price, PriceBasis
from scantling.stock.layouts.leftover import offcut_board
from scantling.store.database import Database
from scantling.store.opening import open_records
from scantling.store.place import Place
from scantling.store.stock_log import Change, add_act, list_acts, stockroom, take_back_act
from scantling.store.stockroom import StockKind
from scantling.store.versions import begin_piece
from tests.store.clock import Clock, content

CHERRY = Board(
    name="C1",
    species="black cherry",
    quarters=5.0,
    width_mm=190.5,
    far_width_mm=180.0,
    length_mm=2438.4,
    left_trim_mm=50.0,
    defects=(
        Defect(kind=DefectKind.KNOT, x_mm=620.0, y_mm=40.0, length_mm=90.0, width_mm=50.0, face=Face.BACK),
    ),
    moisture_pct=8.5,
    price=Price(amount=11.5, basis=PriceBasis.BOARD_FOOT),
    first_cut=FirstCut.RIP,
    flitch="A",
    sequence=3,
    grade="FAS",
    note="from the barn; dry",
    photo="c1.jpg",
)


def _bought(database: Database, clock: Clock, *names: str) -> list[int]:
    changes = [
        Change(kind=StockKind.BOUGHT, row=replace(CHERRY, name=name), party="The mill") for name in names
    ]
    with database.writing() as records:
        return [event.board for event in add_act(records, changes, now=clock()).events]


def _there(database: Database) -> list[str]:
    with database.reading() as records:
        return [kept.board.name for kept in stockroom(records).present]


def test_a_board_comes_back_as_it_was_entered(database: Database) -> None:
    """Every figure and word of it, and what the log adds: number, whom it came from, moisture read."""
    clock = Clock()
    _bought(database, clock, "C1")
    with database.reading() as records:
        (kept,) = stockroom(records).present
        assert stockroom(records).rack().boards == (CHERRY,)
    assert (kept.number, kept.board, kept.party, kept.came_in) == (1, CHERRY, "The mill", StockKind.BOUGHT)
    assert [figure for _, figure in kept.readings] == [8.5]


def test_used_sold_and_thrown_boards_are_gone_and_still_told(database: Database) -> None:
    """A board used for a piece that is kept names it; the log tells everything."""
    clock = Clock()
    one, two, three, _ = _bought(database, clock, "C1", "C2", "C3", "C4")
    with database.writing() as records:
        piece = begin_piece(records, "Hall table", content("a"), now=clock()).number
        add_act(
            records,
            [Change(kind=StockKind.USED, board=one, party="Hall table", piece=piece)],
            now=clock(),
        )
        add_act(records, [Change(kind=StockKind.SOLD, board=two, figure=40.0, party="Anna")], now=clock())
        add_act(records, [Change(kind=StockKind.THROWN, board=three)], now=clock(), note="rotten")
        room = stockroom(records)
    assert [kept.board.name for kept in room.present] == ["C4"]
    assert [(kept.went, kept.went_to) for kept in room.boards.values()] == [
        (StockKind.USED, "Hall table"),
        (StockKind.SOLD, "Anna"),
        (StockKind.THROWN, ""),
        (None, ""),
    ]
    assert [act.note for act in room.acts] == ["", "", "", "rotten"]
    assert room.acts[2].events[0].figure == 40.0


def test_an_offcut_knows_its_board(database: Database) -> None:
    """It goes in as the board goes out, in one act, under its name; it is paid for and unmarked."""
    clock = Clock()
    (number,) = _bought(database, clock, "C1")
    rest = offcut_board(CHERRY, name="C1 rest", length_mm=900.0, width_mm=140.0)
    with database.writing() as records:
        add_act(
            records,
            [
                Change(kind=StockKind.USED, board=number, party="Stool"),
                Change(kind=StockKind.KEPT, row=rest, came_from=number),
                Change(kind=StockKind.KEPT, row=rest, came_from=number),
            ],
            now=clock(),
        )
        first, second = stockroom(records).present
    assert (first.board.name, second.board.name) == ("C1 rest", "C1 rest 2")
    assert (first.came_from, first.came_in, first.board.price) == (number, StockKind.KEPT, Price(amount=0.0))
    assert (first.board.defects, first.board.quarters, first.board.moisture_pct) == ((), 5.0, 8.5)
    assert first.readings == ()


def test_moisture_is_read_again_and_every_reading_stays(database: Database) -> None:
    """The last one counts for the plan."""
    clock = Clock()
    (number,) = _bought(database, clock, "C1")
    with database.writing() as records:
        for figure in (8.0, 7.4):
            add_act(records, [Change(kind=StockKind.READ, board=number, figure=figure)], now=clock())
        (kept,) = stockroom(records).present
    assert [figure for _, figure in kept.readings] == [8.5, 8.0, 7.4]
    assert kept.board == replace(CHERRY, moisture_pct=7.4)


def test_a_board_entered_wrongly_is_corrected(database: Database) -> None:
    """Its number, its seller and what was read since stay."""
    clock = Clock()
    (number,) = _bought(database, clock, "C1")
    with database.writing() as records:
        add_act(records, [Change(kind=StockKind.READ, board=number, figure=7.0)], now=clock())
        right = replace(CHERRY, width_mm=200.0, far_width_mm=None)
        add_act(records, [Change(kind=StockKind.CORRECTED, board=number, row=right)], now=clock())
        (kept,) = stockroom(records).present
    assert (kept.number, kept.party, kept.board) == (number, "The mill", replace(right, moisture_pct=7.0))


def test_the_last_act_is_taken_back_whole(database: Database) -> None:
    """Then the one before it; what was taken back stays told, and a board's number is not given again."""
    clock = Clock()
    (number,) = _bought(database, clock, "C1")
    rest = offcut_board(CHERRY, name="C1 rest", length_mm=900.0, width_mm=140.0)
    with database.writing() as records:
        add_act(
            records,
            [
                Change(kind=StockKind.USED, board=number),
                Change(kind=StockKind.KEPT, row=rest, came_from=number),
            ],
            now=clock(),
        )
        assert len(take_back_act(records, now=clock()).events) == 2
    assert _there(database) == ["C1"]
    with database.writing() as records:
        take_back_act(records, now=clock())
        assert stockroom(records).boards == {}
        with pytest.raises(InputError) as refused:
            take_back_act(records, now=clock())
        assert refused.value.code == "nothing_to_take_back"
        assert len(list_acts(records)) == 4
    assert _bought(database, clock, "C1") == [3]


def test_everything_wrong_with_an_act_is_told_at_once_and_none_of_it_kept(database: Database) -> None:
    """Two names that are taken, a board that is not there, a moisture that cannot be."""
    clock = Clock()
    one, two = _bought(database, clock, "C1", "C2")
    changes = [
        Change(kind=StockKind.BOUGHT, row=CHERRY),
        Change(kind=StockKind.BOUGHT, row=replace(CHERRY, name="C9")),
        Change(kind=StockKind.BOUGHT, row=replace(CHERRY, name="C9")),
        Change(kind=StockKind.USED, board=77),
        Change(kind=StockKind.USED, board=two),
        Change(kind=StockKind.SOLD, board=two),
        Change(kind=StockKind.READ, board=one, figure=-3.0),
    ]
    with database.writing() as records, pytest.raises(FileFaults) as refused:
        add_act(records, changes, now=clock())
    assert [(fault.code, fault.value) for fault in refused.value.faults] == [
        ("name_taken", "C1"),
        ("name_taken", "C9"),
        ("unknown_board", "#77"),
        ("unknown_board", f"#{two}"),
        ("out_of_range", "-3.0 %"),
    ]
    assert _there(database) == ["C1", "C2"]


def test_a_name_is_free_again_once_its_board_is_gone(database: Database) -> None:
    """Chalk names come back; a board is found by its name while it is there, and by its number for ever."""
    clock = Clock()
    (old,) = _bought(database, clock, "C1")
    with database.writing() as records:
        add_act(records, [Change(kind=StockKind.THROWN, board=old)], now=clock())
        with pytest.raises(InputError) as refused:
            stockroom(records).find("C1")
        assert refused.value.code == "unknown_board"
        assert "which was thrown on 2026-03-01" in str(refused.value)
    (new,) = _bought(database, clock, "C1")
    with database.reading() as records:
        room = stockroom(records)
    assert (room.find("C1").number, room.find(f"#{new}").number) == (new, new)
    assert room.find(f"#{old}", gone=True).number == old
    with pytest.raises(InputError):
        room.find(f"#{old}")


def test_an_empty_stockroom_is_no_rack(database: Database) -> None:
    """It says to take boards in."""
    with database.reading() as records, pytest.raises(InputError) as refused:
        stockroom(records).rack()
    assert (refused.value.code, refused.value.hint) == ("stockroom_empty", "Take boards in first.")


def test_a_wood_that_is_not_known_here_keeps_its_name(database: Database) -> None:
    """A board of a maker's own wood can be listed also where that wood's file is not at hand."""
    clock = Clock()
    with database.writing() as records:
        own = replace(CHERRY, species="yard walnut")
        add_act(records, [Change(kind=StockKind.BOUGHT, row=own)], now=clock())
        (kept,) = stockroom(records).present
    assert kept.board.species == "yard walnut"


KINDS = [StockKind.BOUGHT, StockKind.KEPT, StockKind.USED, StockKind.SOLD, StockKind.THROWN, StockKind.READ]


STEPS = st.lists(st.tuples(st.sampled_from([*KINDS, None]), st.integers(0, 5)), max_size=15)


@given(steps=STEPS)
@settings(max_examples=25)
def test_taking_back_leaves_what_there_was(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[StockKind | None, int]]
) -> None:
    """After any acts and taking back, the timber there is equals what it was after the acts that count."""
    database = open_records(Place(file=tmp_path_factory.mktemp("walk") / "records.db"))
    clock = Clock()
    with database.writing() as records:
        states = [stockroom(records).boards]
        for number, (kind, which) in enumerate(steps):
            there = stockroom(records).present
            if kind is not None and (kind.comes_in or there):
                change = _change(kind, number, there[which % len(there)].number if there else None)
                add_act(records, [change], now=clock())
                states.append(stockroom(records).boards)
            elif kind is None and len(states) > 1:
                take_back_act(records, now=clock())
                states.pop()
            assert stockroom(records).boards == states[-1]
    database.close()


def _change(kind: StockKind, number: int, board: int | None) -> Change:
    if kind.comes_in:
        return Change(kind=kind, row=replace(CHERRY, name=f"B{number}"))
    return Change(kind=kind, board=board, figure=9.0 if kind is StockKind.READ else None)
