"""Records of every form there has been open with all that is in them; a copy of what they were is kept."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from scantling.errors import InputError
from scantling.store.bench import BenchEvent, BenchKind
from scantling.store.bench_log import add_bench_event
from scantling.store.migrations import running
from scantling.store.migrations.running import steps
from scantling.store.opening import NEWEST, open_records
from scantling.store.pieces import find_piece, list_pieces
from scantling.store.place import Place
from scantling.store.versions import content_at, list_versions, redo
from tests.store.clock import Clock, content

DATA = Path(__file__).parent / "data"
OLD = [step for step in steps() if step != NEWEST]


def _laid_down(place: Place, form: str) -> Path:
    """Records as a program of that form left them: its tables and rows, as SQL written down then."""
    assert place.file is not None
    place.file.parent.mkdir(parents=True)
    with closing(sqlite3.connect(place.file)) as raw:
        raw.executescript((DATA / f"form-{form}.sql").read_text(encoding="utf-8"))
    return place.file


def _rows(file: Path) -> dict[str, list[tuple[object, ...]]]:
    with closing(sqlite3.connect(file)) as raw:
        names = [name for (name,) in raw.execute("select name from sqlite_master where type='table'")]
        return {name: raw.execute(f"select * from {name}").fetchall() for name in names}  # noqa: S608


def test_every_older_form_is_written_down() -> None:
    """A new step needs the form before it among the data of this test."""
    assert [path.stem for path in sorted(DATA.glob("form-*.sql"))] == [f"form-{form}" for form in OLD]


@pytest.mark.parametrize("form", OLD)
def test_an_older_form_opens_with_all_that_is_in_it(place: Place, form: str) -> None:
    """Pieces, versions, contents and the step forward that was left; and work goes on from there."""
    file = _laid_down(place, form)
    before = _rows(file)
    database, clock = open_records(place), Clock()
    after = _rows(file)
    assert {name: after[name] for name in before if name != "alembic_version"} == {
        name: rows for name, rows in before.items() if name != "alembic_version"
    }
    with database.writing() as records:
        assert [piece.name for piece in list_pieces(records)] == ["Hall chair — Esche", "Bench"]
        bench = find_piece(records, 1)
        assert (bench.current, bench.undo, bench.redo, bench.versions) == (1, None, 2, 2)
        assert content_at(records, 1, 2) == content("b", width="1 m")
        assert [version.why for version in list_versions(records, 1)] == ["Wider", "Begun"]
        assert redo(records, 1, parent=1, now=clock()).current == 2
        done = BenchEvent(kind=BenchKind.STEP_DONE, subject="Plane the legs", at=clock())
        assert add_bench_event(records, 1, done).version == 2
    database.close()


@pytest.mark.parametrize("form", OLD)
def test_a_copy_is_kept_before_an_older_form_is_changed(place: Place, form: str) -> None:
    """It holds the very rows there were, and a second one does not take its place."""
    file = _laid_down(place, form)
    before = _rows(file)
    copy = file.with_name(f"records.before-{NEWEST}.db")
    copy.write_text("another, kept earlier", encoding="utf-8")
    open_records(place).close()
    assert copy.read_text(encoding="utf-8") == "another, kept earlier"
    assert _rows(file.with_name(f"records.before-{NEWEST}-2.db")) == before
    assert _rows(file)["alembic_version"] == [(NEWEST,)]


@pytest.mark.parametrize("form", OLD)
def test_a_step_that_breaks_off_changes_nothing(
    place: Place, form: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The tables made before it broke are gone again, and the next opening does it all."""
    file = _laid_down(place, form)
    before = _rows(file)
    whole = running.upgrade

    def breaks(records: object, **options: str) -> None:
        whole(records, **options)  # type: ignore[arg-type]
        raise RuntimeError("power")

    with monkeypatch.context() as patched:
        patched.setattr(running, "upgrade", breaks)
        with pytest.raises(RuntimeError, match="power"):
            open_records(place)
    assert _rows(file) == before
    open_records(place).close()
    assert _rows(file)["alembic_version"] == [(NEWEST,)]


def test_a_row_that_refers_to_nothing_stops_the_change(place: Place) -> None:
    """Records somebody has taken rows out of by hand are told, not carried on."""
    file = _laid_down(place, "0001")
    with closing(sqlite3.connect(file)) as raw:
        raw.execute("delete from texts where text like '%ü%'")
        raw.commit()
    before = _rows(file)
    with pytest.raises(InputError) as refused:
        open_records(place)
    assert (refused.value.code, "versions" in str(refused.value)) == ("records_damaged", True)
    assert _rows(file) == before
