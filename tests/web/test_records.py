"""The server that tests are lent one after the other is, to each of them, a new one."""

from __future__ import annotations

from pathlib import Path

from starlette.testclient import TestClient

from scantling.store.opening import open_records
from scantling.store.place import Place
from scantling.web.app import create_app
from scantling.web.designs.session import Session
from scantling.web.kept.desk import Desk
from tests.store.clock import Clock
from tests.web.records import app_with_records
from tests.web.specimen import DEMO

__all__: list[str] = []

_ASKED = ("shape", "plan", "year")
_RACK = DEMO.parent / "racks" / "reading-table.csv"


def _used(client: TestClient) -> None:
    """A piece out of the stockroom that is changed, worked at and drafted, in a room of its own."""
    rack = {"name": _RACK.name, "text": _RACK.read_text(encoding="utf-8")}
    boards = {"rack": rack, "party": "", "at": None, "note": ""}
    assert client.post("/api/stockroom/add", json=boards).is_success
    content = {"piece": DEMO.read_text(encoding="utf-8"), "rack": {"name": "stockroom"}}
    assert client.post("/api/pieces", json={"content": content}).is_success
    assert client.get("/pieces/1/api/plan").json()["ok"]
    told = {"kind": "measured", "subject": "top.width", "figure": 655, "unit": "mm"}
    assert client.post("/api/pieces/1/bench", json=told).is_success
    assert client.get("/pieces/1/api/plan").json()["ok"]
    assert client.post("/api/rooms", json={"known": "Denver, CO"}).is_success


def _answers(client: TestClient) -> list[str]:
    """What a piece begun from a form, and then one out of the stockroom, is said to be."""
    assert client.get("/api/pieces").json()["pieces"] == []
    assert client.get("/api/rooms").json() == {"kept": []}
    content = {"piece": DEMO.read_text(encoding="utf-8"), "rack": {"name": "stockroom"}}
    for begun in ({"form": "reading-table"}, {"content": content}):
        assert client.post("/api/pieces", json=begun).is_success
    return [client.get(f"/pieces/{number}/api/{what}").text for number in (1, 2) for what in _ASKED]


def test_what_one_user_left_another_does_not_see(tmp_path: Path) -> None:
    """No piece, board, size or room of before; and word for word the designs of a server made for one."""
    used, lent, own = (tmp_path / name for name in ("used", "lent", "own"))
    with app_with_records(used) as app:
        _used(TestClient(app, base_url="http://127.0.0.1"))
        before = app
    with app_with_records(lent) as app:
        assert app is before
        told = _answers(TestClient(app, base_url="http://127.0.0.1"))
    desk = Desk(lambda: open_records(Place(file=own / "records.db")), now=Clock())
    assert told == _answers(TestClient(create_app(Session(DEMO), desk), base_url="http://127.0.0.1"))


def test_two_at_once_have_one_each(tmp_path: Path) -> None:
    """What is kept on one is not on the other."""
    with app_with_records(tmp_path / "one") as one, app_with_records(tmp_path / "two") as two:
        assert (
            TestClient(one, base_url="http://127.0.0.1").post("/api/pieces", json={"form": "tray"}).is_success
        )
        assert TestClient(two, base_url="http://127.0.0.1").get("/api/pieces").json()["pieces"] == []
