"""Shops and rooms are kept, set and changed over the routes; pieces take copies of them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from scantling.shop.profile.profile_file import parse_shop
from tests.web.records import STOOL, app_with_records
from tests.web.specimen import DEMO

PLAIN = "# Behind the house.\nname: Mine # and hers\n"


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[TestClient]:
    """A server that keeps one shop."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        assert client.post("/api/shops", json={"text": PLAIN}).status_code == 201
        yield client


def _post(client: TestClient, place: str, status: int = 201, **body: Any) -> Any:
    answer = client.post(place, json=body)
    assert answer.status_code == status, answer.text
    return answer.json()


def _setting(opened: Any, field: str) -> Any:
    return next(
        one
        for chapter in opened["chapters"]
        for section in chapter["sections"]
        for one in section["settings"]
        if one["field"] == field
    )


def test_a_setting_changed_is_a_version_and_comments_stay(kept: TestClient) -> None:
    """What is set is told beside the default and its source; undo takes it back, redo brings it again."""
    opened = _post(
        kept,
        "/api/shops/1/settings",
        changes=[
            {"path": ["machines", "planer", "max_width"], "text": "13 in"},
            {"path": ["climate", "temperature"], "text": "68 F"},
        ],
        parent=1,
    )
    assert opened["text"].startswith(PLAIN)
    width = _setting(opened, "machines.planer.max_width")
    assert (width["written"], width["default"]) == ("13 in", "330 mm")
    assert width["about"] == "Common size of a portable machine, from memory."
    assert _setting(opened, "machines.planer.cut")["written"] is None
    assert kept.get("/api/shops/1/file").text == opened["text"]
    back = _post(kept, "/api/shops/1/undo", 200, parent=2)
    assert (back["text"], back["profile"]["version"]) == (PLAIN, 1)
    assert _post(kept, "/api/shops/1/redo", 200, parent=1)["text"] == opened["text"]
    whys = [each["why"] for each in kept.get("/api/shops/1/versions").json()["versions"]]
    assert whys == ["machines.planer.max_width: 13 in; climate.temperature: 68 F", "Begun"]
    again = _post(kept, "/api/shops/1/restore", version=1, parent=2)
    assert (again["text"], again["profile"]["version"]) == (PLAIN, 3)


def test_everything_wrong_is_told_at_once_and_nothing_is_kept(kept: TestClient) -> None:
    """Each with its field, line, value, rule and remedy, as the file's own faults."""
    told = _post(
        kept,
        "/api/shops/1/settings",
        422,
        changes=[
            {"path": ["machines", "planer", "max_width"], "text": "thirteen"},
            {"path": ["rates", "margin"], "text": "95 %"},
            {"path": ["glue"], "text": "spit"},
        ],
        parent=1,
    )
    assert {each["field"] for each in told["errors"]} == {"machines.planer.max_width", "rates.margin", "glue"}
    assert all(each["line"] and each["rule"] and each["value"] for each in told["errors"])
    assert [each["remedy"] for each in told["errors"] if each["field"] == "machines.planer.max_width"] != [""]
    assert kept.get("/api/shops/1").json()["profile"]["version"] == 1
    faulty = _post(kept, "/api/shops", 422, text="machines: {planer: {max_width: -1}, band_saw: {}}")
    assert [each["line"] for each in faulty["errors"]] == [1, 1]
    assert _post(kept, "/api/shops/1/versions", 422, text="units: miles", parent=1)["errors"]


def test_machines_clamps_and_prices_come_and_go(kept: TestClient) -> None:
    """A machine not here is told; a window that has not seen it is refused with the current version."""
    opened = _post(kept, "/api/shops/1/machines", machine="planer", owned=False, parent=1)
    planer = next(one for one in opened["chapters"][1]["sections"] if one["path"] == ["machines", "planer"])
    assert planer["owned"] is False
    assert planer["settings"] == []
    stale = _post(kept, "/api/shops/1/machines", 409, machine="lathe", owned=True, parent=1)
    assert stale["current"] == 2
    opened = _post(
        kept, "/api/shops/1/entries", path=["clamps"], fields={"reach": "4 ft", "count": "2"}, parent=2
    )
    assert parse_shop(opened["text"]).clamps[-1].count == 2
    opened = _post(kept, "/api/shops/1/entries/remove", path=["clamps", 0], parent=3)
    assert len(parse_shop(opened["text"]).clamps) == 4
    told = _post(kept, "/api/shops/1/entries", 422, path=["clamps"], fields={"reach": "x"}, parent=4)
    assert {each["field"].rpartition(".")[2] for each in told["errors"]} == {"reach", "count"}
    _post(kept, "/api/shops/1/entries/remove", 422, path=["machines", "lathe"], parent=4)


def test_shops_have_names_and_go_by_the_one_in_their_file(kept: TestClient) -> None:
    """A copy gets a number; a name changed in the file is the name on the list; one taken is refused."""
    copy = _post(kept, "/api/shops", like=1)
    assert (copy["profile"]["name"], copy["text"]) == ("Mine 2", PLAIN.replace("name: Mine", "name: Mine 2"))
    named = _post(kept, "/api/shops/2/settings", changes=[{"path": ["name"], "text": "The barn"}], parent=1)
    assert named["profile"]["name"] == "The barn"
    taken = _post(kept, "/api/shops/2/settings", 409, changes=[{"path": ["name"], "text": "Mine"}], parent=2)
    assert taken["errors"][0]["field"] == "name"
    assert [one["name"] for one in kept.get("/api/shops").json()["kept"]] == ["Mine", "The barn"]
    assert kept.patch("/api/shops/2", json={"putAway": True}).json()["putAway"] is True
    assert [one["name"] for one in kept.get("/api/shops").json()["kept"]] == ["Mine"]
    assert _post(kept, "/api/shops", name="New: ours")["text"] == 'name: "New: ours"\n'
    assert kept.get("/api/rooms/1").status_code == 404


def test_a_copy_says_its_own_name(kept: TestClient) -> None:
    """Also where the first said none; one too long for its file is on the list alone; steps follow."""
    _post(kept, "/api/shops", text="glue: hot hide\n")
    assert _post(kept, "/api/shops", like=2)["text"] == "glue: hot hide\nname: A one-person shop 2\n"
    room = "room: Study\nair: {kind: moisture, dry: 6 %, wet: 10 %}\n"
    _post(kept, "/api/rooms", text=room)
    assert _post(kept, "/api/rooms", like=4)["text"] == room.replace("Study", "Study 2")
    long = _post(kept, "/api/rooms", like=4, name="x" * 100)
    assert (long["profile"]["name"], long["text"]) == ("x" * 100, room)
    renamed = _post(kept, "/api/rooms/4/settings", changes=[{"path": ["room"], "text": "Loft"}], parent=1)
    assert renamed["profile"]["name"] == "Loft"
    assert _post(kept, "/api/rooms/4/undo", 200, parent=2)["profile"]["name"] == "Study"
    assert _post(kept, "/api/rooms/4/redo", 200, parent=1)["profile"]["name"] == "Loft"
    assert _post(kept, "/api/rooms/4/restore", version=1, parent=2)["profile"]["name"] == "Study"
    told = _post(
        kept, "/api/shops/1/settings", 422, changes=[{"path": ["name"], "text": "y" * 121}], parent=1
    )
    assert [one["field"] for one in told["errors"]] == ["name"]


def test_a_room_begins_from_a_town_and_is_known_another_way(kept: TestClient) -> None:
    """Its year is drawn and told; from a town's it becomes twelve months that can be typed over."""
    known = kept.get("/api/rooms/known").json()
    assert {"dry-winter-house", "mild-damp-house"} <= {one["name"] for one in known["typical"]}
    denver = next(one for one in known["towns"] if one["name"] == "Denver, CO")
    opened = _post(kept, "/api/rooms", known="Denver, CO")
    assert opened["profile"]["name"] == "House in Denver, CO"
    assert f"{denver['driestPct']:.1f} %" in {row[3] for row in opened["year"]["months"]}
    assert opened["year"]["picture"].startswith("<svg")
    months = _post(kept, "/api/rooms/2/air", kind="months", parent=1)
    assert (months["kind"], len(months["sections"])) == ("months", 13)
    wetter = _post(
        kept,
        "/api/rooms/2/settings",
        changes=[{"path": ["air", "months", "jul", "humidity"], "text": "70 %"}],
        parent=2,
    )
    assert [wetter["year"]["months"][6][0], wetter["year"]["months"][6][2]] == ["July", "70 %"]
    inches = kept.get("/api/rooms/known/year", params={"name": "Denver, CO", "units": "in"}).json()
    assert inches["months"][0][1].endswith("°F")
    for name in ("/etc/passwd", "é" * 150, "a\0b", "rooms/mine.yaml"):
        refused = kept.get("/api/rooms/known/year", params={"name": name})
        assert (refused.status_code, refused.json()["errors"][0]["code"]) == (422, "unknown_room")


@pytest.mark.parametrize(("written", "shown"), [("20 C", "20 °C"), ("68 F", "68 °F"), ("68F", "68 °F")])
def test_a_room_is_shown_in_the_degrees_it_is_written_in(kept: TestClient, written: str, shown: str) -> None:
    """Whatever it is called, and whatever is told about it."""
    air = f"{{kind: moisture, dry: 6 %, wet: 9 %, temperature: {written}}}"
    text = f"# Not in F\nroom: Living Front\nabout: Once 68 F\nair: {air}\n"
    assert _post(kept, "/api/rooms", text=text)["year"]["months"][0][1] == shown


def test_a_piece_takes_a_copy_and_keeps_it_until_it_is_told_otherwise(kept: TestClient) -> None:
    """The shop changes, the piece does not; what changed is told; one key takes the shop as it is now."""
    _post(kept, "/api/pieces", content={"piece": DEMO.read_text(encoding="utf-8")})
    told = kept.get("/api/pieces/1/setting").json()
    assert (told["shop"]["kept"], told["shop"]["own"], told["room"]["known"]) == (
        None,
        False,
        "dry-winter-house",
    )
    opened = _post(kept, "/api/pieces/1/setting", what="shop", kept=1, parent=1)
    assert opened["content"]["shop"] == {"name": "Mine.yaml", "text": PLAIN}
    _post(
        kept,
        "/api/shops/1/settings",
        changes=[{"path": ["rates", "hourly"], "text": "60"}],
        parent=1,
    )
    told = kept.get("/api/pieces/1/setting").json()["shop"]
    assert (told["kept"], told["now"]) == (1, False)
    assert told["changes"] == [{"label": "An hour of work", "then": "48", "now": "60"}]
    assert kept.get("/api/pieces/1").json()["content"]["shop"]["text"] == PLAIN
    opened = _post(kept, "/api/pieces/1/setting", what="shop", kept=1, parent=2)
    assert "hourly: 60" in opened["content"]["shop"]["text"]
    assert kept.get("/api/pieces/1/setting").json()["shop"]["now"] is True
    assert _post(kept, "/api/pieces/1/undo", 200, parent=3)["content"]["shop"]["text"] == PLAIN


def test_a_room_is_chosen_by_name_or_among_those_kept(kept: TestClient) -> None:
    """A town by its name alone, a kept one with its text; what is no room, or a shop's name, is refused."""
    _post(kept, "/api/rooms", known="dry-southwest")
    begun = _post(
        kept,
        "/api/pieces",
        content={"piece": DEMO.read_text(encoding="utf-8")},
        plannedFor=[{"what": "shop", "kept": 1}, {"what": "room", "known": "Denver, CO"}],
    )
    assert begun["content"]["room"] == {"name": "Denver, CO", "text": None}
    opened = _post(kept, "/api/pieces/1/setting", what="room", kept=2, parent=1)
    assert opened["content"]["room"]["text"].startswith("room: Interior")
    assert kept.get("/api/pieces/1/setting").json()["room"]["kept"] == 2
    opened = _post(kept, "/api/pieces/1/setting", what="room", parent=2)
    assert opened["content"]["room"] is None
    _post(kept, "/api/pieces/1/setting", 422, what="room", known="Nowhere", parent=3)
    _post(kept, "/api/pieces/1/setting", 422, what="shop", known="Denver, CO", parent=3)
    _post(kept, "/api/pieces/1/setting", 404, what="shop", kept=99, parent=3)


def test_a_shop_the_piece_cannot_be_planned_with_is_refused(kept: TestClient) -> None:
    """Too cold for the piece's finish: the fault is told, the piece stays; its own faults are no bar."""
    _post(kept, "/api/pieces", content={"piece": DEMO.read_text(encoding="utf-8")})
    _post(kept, "/api/pieces", content={"piece": STOOL})
    _post(kept, "/api/shops", text="name: Shed\nclimate: {temperature: 2 C}\n")
    told = _post(kept, "/api/pieces/1/setting", 422, what="shop", kept=2, parent=1)
    assert told["errors"][0]["field"] == "finish.system"
    assert kept.get("/api/pieces/1").json()["piece"]["version"] == 1
    _post(kept, "/api/pieces/2/setting", what="shop", kept=1, parent=1)
