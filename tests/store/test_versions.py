"""Every version is kept; going back and forth and bringing back lose none; nobody saves over another."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.store.content import Attached, Content
from scantling.store.database import Database
from scantling.store.opening import open_records
from scantling.store.pieces import find_piece, list_pieces, put_away, rename, take_out
from scantling.store.place import Place
from scantling.store.stale import MovedOnError, StaleParentError
from scantling.store.versions import begin_piece, content_at, list_versions, redo, restore, save, undo
from tests.store.clock import Clock, content


def _begun(database: Database, clock: Clock, *texts: str) -> int:
    """A piece with a version for each text."""
    with database.writing() as records:
        piece = begin_piece(records, "Bench", content(texts[0]), now=clock())
        for text in texts[1:]:
            piece = save(records, piece.number, content(text), parent=piece.current, now=clock(), why=text)
    return piece.number


def _text(database: Database, number: int) -> str:
    with database.reading() as records:
        return content_at(records, number).piece


def test_a_content_comes_back_as_it_was(database: Database) -> None:
    """Comments, line ends, signs of every alphabet, parameters and what goes with it."""
    kept = Content(
        piece="# für die Küche — 椅子\r\ntitle: x\n\n  # end",
        given={"width": "28 3/4 in", "höhe": "73 cm"},
        shop=Attached(name="shop.yaml", text="machines: {}\n"),
        rack=Attached(name="stockroom"),
        room=Attached(name="dry-winter house"),
    )
    with database.writing() as records:
        number = begin_piece(records, "Chair", kept, now=Clock()()).number
    with database.reading() as records:
        assert content_at(records, number) == kept
        assert find_piece(records, number).digest == kept.digest


def test_undo_and_redo_go_along_the_versions_without_end(database: Database) -> None:
    """Five versions back to the first and forth to the last, each telling where it leads."""
    clock = Clock()
    number = _begun(database, clock, *"abcde")
    seen = []
    for step, count in ((undo, 4), (redo, 4)):
        for _ in range(count):
            with database.writing() as records:
                step(records, number, parent=find_piece(records, number).current, now=clock())
            seen.append(_text(database, number)[-2])
    assert "".join(seen) == "dcbabcde"
    with database.writing() as records:
        with pytest.raises(InputError) as refused:
            redo(records, number, parent=5, now=clock())
        assert refused.value.code == "nothing_to_redo"
        for version in (5, 4, 3, 2):
            undo(records, number, parent=version, now=clock())
        with pytest.raises(InputError) as refused:
            undo(records, number, parent=1, now=clock())
        assert (refused.value.code, refused.value.value) == ("nothing_to_undo", "version 1")


def test_saving_after_an_undo_keeps_what_was_undone(database: Database) -> None:
    """The new version hangs on the one gone back to; redo leads the newest way; the other can be restored."""
    clock = Clock()
    number = _begun(database, clock, "a", "b", "c")
    with database.writing() as records:
        undo(records, number, parent=3, now=clock())
        piece = save(records, number, content("d"), parent=2, now=clock())
        assert (piece.current, piece.undo, piece.redo) == (4, 2, None)
        piece = undo(records, number, parent=4, now=clock())
        assert (piece.current, piece.redo) == (2, 4)
        piece = restore(records, number, 3, parent=2, now=clock())
        assert (piece.current, piece.undo) == (5, 2)
        newest, *_ = list_versions(records, number)
        assert (newest.restores, newest.why) == (3, "Version 3 again")
        assert [v.parent for v in list_versions(records, number)] == [2, 2, 2, 1, None]
    assert _text(database, number) == content("c").piece


def test_a_content_that_is_as_it_was_makes_no_version(database: Database) -> None:
    """Saving twice what was saved once keeps one version."""
    clock = Clock()
    number = _begun(database, clock, "a")
    with database.writing() as records:
        assert save(records, number, content("a"), parent=1, now=clock()).versions == 1
        assert restore(records, number, 1, parent=1, now=clock()).versions == 1


def test_a_stale_save_is_refused_with_both_versions(database: Database) -> None:
    """Nothing is changed; the refusal holds what was begun from, what is kept and what was to be kept."""
    clock = Clock()
    number = _begun(database, clock, "a", "b")
    with database.writing() as records, pytest.raises(StaleParentError) as refused:
        save(records, number, content("z"), parent=1, now=clock())
    stale = refused.value
    assert (stale.code, stale.parent, stale.current) == ("moved_on", 1, 2)
    assert [side.piece[-2] for side in (stale.old, stale.theirs, stale.yours)] == ["a", "b", "z"]
    (clash,) = stale.merged.clashes
    assert (stale.merged.content, clash.where, clash.clash.line) == (None, "piece", 2)
    assert clash.clash.theirs == ("# b\n",)
    with database.reading() as records:
        assert find_piece(records, number).versions == 2


def test_changes_that_do_not_touch_are_offered_as_one(database: Database) -> None:
    """One changed the text, the other a parameter and the rack; the proposal holds all, and can be saved."""
    clock = Clock()
    number = _begun(database, clock, "a", "b")
    yours = Content(piece=content("a").piece, given={"width": "1 m"}, rack=Attached(name="stockroom"))
    with database.writing() as records:
        with pytest.raises(StaleParentError) as refused:
            save(records, number, yours, parent=1, now=clock())
        proposal = refused.value.merged.content
        assert proposal is not None
        assert (proposal.piece, proposal.given, proposal.rack) == (
            content("b").piece,
            {"width": "1 m"},
            Attached(name="stockroom"),
        )
        assert save(records, number, proposal, parent=refused.value.current, now=clock()).current == 3


@pytest.mark.parametrize("step", [undo, redo])
def test_a_step_from_a_version_left_since_is_refused(database: Database, step: object) -> None:
    """The key pressed twice by two people goes back once."""
    clock = Clock()
    number = _begun(database, clock, "a", "b", "c")
    with database.writing() as records:
        undo(records, number, parent=3, now=clock())
        with pytest.raises(MovedOnError) as refused:
            step(records, number, parent=3, now=clock())  # type: ignore[operator]
        assert (refused.value.parent, refused.value.current) == (3, 2)


def test_names_are_one_pieces_own(database: Database) -> None:
    """Also where a piece is put away; a free name is told."""
    clock = Clock()
    number = _begun(database, clock, "a")
    with database.writing() as records:
        put_away(records, number, now=clock())
        for name in ("Bench", "  Bench "):
            with pytest.raises(InputError) as refused:
                begin_piece(records, name, content("a"), now=clock())
            assert (refused.value.code, refused.value.hint) == ("name_taken", "Call it Bench 2, for example.")
        assert list_pieces(records) == ()
        assert [p.name for p in list_pieces(records, put_away=True)] == ["Bench"]
        assert take_out(records, number).put_away_at is None
        assert rename(records, number, "Hall bench", now=clock()).name == "Hall bench"
        assert begin_piece(records, "Bench", content("a"), now=clock()).number == number + 1
        assert [p.name for p in list_pieces(records)] == ["Bench", "Hall bench"]


@pytest.mark.parametrize(
    ("name", "code"),
    [("", "name_missing"), (" \t ", "name_missing"), ("x" * 201, "too_long"), ("a\x00", "not_text")],
)
def test_names_that_will_not_do_are_refused(database: Database, name: str, code: str) -> None:
    """Nothing said, too much, and what is no text."""
    with database.writing() as records:
        with pytest.raises(InputError) as refused:
            begin_piece(records, name, content("a"), now=Clock()())
        assert refused.value.code == code
        assert list_pieces(records) == ()


def test_pieces_and_versions_that_are_not_there_are_told(database: Database) -> None:
    """By their numbers."""
    clock = Clock()
    number = _begun(database, clock, "a")
    with database.writing() as records:
        for asked, code in (
            (lambda: find_piece(records, 99), "unknown_piece"),
            (lambda: content_at(records, number, 9), "unknown_version"),
            (lambda: save(records, number, content("b"), parent=9, now=clock()), "unknown_version"),
            (lambda: restore(records, number, 9, parent=1, now=clock()), "unknown_version"),
        ):
            with pytest.raises(InputError) as refused:
                asked()
            assert refused.value.code == code


def test_what_breaks_off_leaves_nothing(database: Database) -> None:
    """A piece begun in a transaction that fails is not there."""

    def breaking() -> None:
        with database.writing() as records:
            begin_piece(records, "Bench", content("a"), now=Clock()())
            raise RuntimeError("power")

    with pytest.raises(RuntimeError, match="power"):
        breaking()
    with database.reading() as records:
        assert list_pieces(records) == ()


def test_the_records_are_there_when_opened_again(place: Place, database: Database) -> None:
    """Another opening sees the pieces, and undo goes on where it was."""
    clock = Clock()
    number = _begun(database, clock, "a", "b")
    again = open_records(place)
    with again.writing() as records:
        assert undo(records, number, parent=2, now=clock()).current == 1
    again.close()
    assert _text(database, number) == content("a").piece


def test_it_is_called_as_its_file_is_titled_whichever_way_it_comes_to_it(database: Database) -> None:
    """By a save, a step or an old version; its own name is free to it; what is no title counts not."""
    clock = Clock()
    texts = (
        "title: Bench 2 # ours\n",
        "title: Stool\n",
        "title: Bench\n",
        f"title: {'x' * 121}\n",
        "title: [\n",
    )
    with database.writing() as records:
        begin_piece(records, "Bench", Content(piece="title: Bench\n"), now=clock())
        number = begin_piece(records, "Bench 2", Content(piece=texts[0]), now=clock()).number
        seen = []
        for at, text in enumerate(texts[1:], 1):
            seen.append(save(records, number, Content(piece=text), parent=at, now=clock()).name)
        assert seen == ["Stool", "Bench 2", "Bench 2", "Bench 2"]
        assert [undo(records, number, parent=at, now=clock()).name for at in (5, 4, 3)] == [
            "Bench 2",
            "Bench 2",
            "Stool",
        ]
        assert redo(records, number, parent=2, now=clock()).name == "Bench 2"
        assert restore(records, number, 2, parent=3, now=clock()).name == "Stool"
        assert save(records, number, Content(piece='title: "a\\0b"\n'), parent=6, now=clock()).name == "Stool"


@given(moves=st.lists(st.sampled_from(["save", "undo", "redo", "restore"]), max_size=25), data=st.data())
def test_any_walk_keeps_every_version(
    tmp_path_factory: pytest.TempPathFactory, moves: list[str], data: st.DataObject
) -> None:
    """Versions are only added; each keeps its content; undo then redo comes back to the same one."""
    database = open_records(Place(file=tmp_path_factory.mktemp("walk") / "records.db"))
    clock = Clock()
    number = _begun(database, clock, "0")
    texts = {1: content("0").piece}
    with database.writing() as records:
        for step, move in enumerate(moves):
            piece = find_piece(records, number)
            if move == "save":
                piece = save(records, number, content(str(step + 1)), parent=piece.current, now=clock())
                texts[piece.current] = content(str(step + 1)).piece
            elif move == "restore":
                old = data.draw(st.sampled_from(sorted(texts)))
                piece = restore(records, number, old, parent=piece.current, now=clock())
                texts[piece.current] = texts[old]
            elif move == "undo" and piece.undo is not None:
                back = undo(records, number, parent=piece.current, now=clock())
                assert (back.current, back.redo) == (piece.undo, piece.current)
            elif move == "redo" and piece.redo is not None:
                forth = redo(records, number, parent=piece.current, now=clock())
                assert (forth.current, forth.undo) == (piece.redo, piece.current)
            assert content_at(records, number).piece == texts[find_piece(records, number).current]
        listed = list_versions(records, number)
        assert {v.number: content_at(records, number, v.number).piece for v in listed} == texts
        assert all(later.made_at >= earlier.made_at for later, earlier in pairwise(listed))
    database.close()
