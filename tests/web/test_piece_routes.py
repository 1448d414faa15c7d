"""Pieces are kept through the server: begun, saved, stepped back and forth, refused with both versions."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.web.records import STOOL, app_with_records
from tests.web.specimen import DEMO

TEXT = DEMO.read_text(encoding="utf-8")


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[TestClient]:
    """Asks a server with empty records."""
    with (
        app_with_records(tmp_path) as app,
        TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False) as client,
    ):
        yield client


def _begun(kept: TestClient, text: str = TEXT, **more: Any) -> dict[str, Any]:
    answer = kept.post("/api/pieces", json={"content": {"piece": text, **more}})
    assert answer.status_code == 201, answer.text
    return dict(answer.json())


def _saved(kept: TestClient, number: int, text: str, parent: int, **more: Any) -> Any:
    body = {"content": {"piece": text, **more}, "parent": parent, "why": "changed"}
    return kept.post(f"/api/pieces/{number}/versions", json=body)


def _code(answer: Any, status: int) -> str:
    assert answer.status_code == status, answer.text
    body = answer.json()
    assert (body["ok"], body["status"]) == (False, status)
    return str(body["errors"][0]["code"])


def test_a_piece_begun_from_a_form_is_on_the_list(kept: TestClient) -> None:
    """It takes the form's title; a second one gets a number behind it; the newest stands first."""
    first = kept.post("/api/pieces", json={"form": "reading-table"})
    assert (first.status_code, first.json()["piece"]["name"]) == (201, "Reading table with splayed legs")
    assert first.json()["content"]["piece"] == TEXT
    kept.post("/api/pieces", json={"form": "reading-table"})
    kept.post("/api/pieces", json={"form": "reading-table", "name": "Anna's table"})
    listed = kept.get("/api/pieces").json()["pieces"]
    assert [(p["number"], p["name"], p["state"]) for p in listed] == [
        (3, "Anna's table", "drawn"),
        (2, "Reading table with splayed legs 2", "drawn"),
        (1, "Reading table with splayed legs", "drawn"),
    ]
    assert listed[0]["begunAt"] == "2026-03-01T08:03:00Z"
    forms = kept.get("/api/forms").json()["forms"]
    assert {"name", "title", "about"} == set(forms[0])


def test_a_text_is_kept_as_it_was_written(kept: TestClient) -> None:
    """Also one with faults; no space in it is made unbreakable; and it can be taken away as a file."""
    text = STOOL + "# 28 3/4 in — grün\r\n"
    opened = _begun(kept, text, given={"width": "28 3/4 in"}, room={"name": "dry-winter house"})
    assert (opened["piece"]["name"], opened["content"]["piece"]) == ("Forge stool", text)
    again = kept.get("/api/pieces/1").json()
    assert again == opened
    assert again["content"]["given"] == {"width": "28 3/4 in"}
    assert again["content"]["room"] == {"name": "dry-winter house", "text": None}
    file = kept.get("/api/pieces/1/file")
    assert (file.text, file.headers["content-type"]) == (text, "application/yaml")
    refused = kept.get("/pieces/1/api/shape").json()["errors"]
    placed = [error for error in refused if error["field"] != "width"]  # it stands beside the text
    assert {error["file"] for error in placed} == {"piece.yaml"}
    assert all(error["line"] >= 1 for error in placed)


def test_versions_are_saved_and_stepped_along(kept: TestClient) -> None:
    """Save, undo, redo, restore; each tells the piece as it then is."""
    _begun(kept)
    saved = _saved(kept, 1, TEXT + "# two\n", 1)
    assert (saved.status_code, saved.json()["piece"]["version"]) == (201, 2)
    back = kept.post("/api/pieces/1/undo", json={"parent": 2}).json()
    assert (back["piece"]["version"], back["piece"]["redo"], back["content"]["piece"]) == (1, 2, TEXT)
    forth = kept.post("/api/pieces/1/redo", json={"parent": 1}).json()
    assert (forth["piece"]["version"], forth["piece"]["undo"]) == (2, 1)
    restored = kept.post("/api/pieces/1/restore", json={"version": 1, "parent": 2, "why": "Nicer"})
    assert (restored.status_code, restored.json()["content"]["piece"]) == (201, TEXT)
    versions = kept.get("/api/pieces/1/versions").json()["versions"]
    assert [(v["number"], v["parent"], v["restores"], v["why"], v["current"]) for v in versions] == [
        (3, 2, 1, "Nicer", True),
        (2, 1, None, "changed", False),
        (1, None, None, "Begun", False),
    ]
    second = kept.get("/api/pieces/1/versions/2").json()
    assert (second["version"], second["content"]["piece"]) == (versions[1], TEXT + "# two\n")


def test_a_stale_save_is_told_with_both_and_a_proposal(kept: TestClient) -> None:
    """The proposal, saved on what is current, holds both changes."""
    _begun(kept)
    _saved(kept, 1, TEXT + "# theirs\n", 1)
    stale = _saved(kept, 1, "# yours\n" + TEXT, 1)
    assert _code(stale, 409) == "moved_on"
    body = stale.json()
    assert (body["current"], body["clashes"]) == (2, [])
    assert [body[side]["piece"] for side in ("old", "theirs", "yours")] == [
        TEXT,
        TEXT + "# theirs\n",
        "# yours\n" + TEXT,
    ]
    merged = body["merged"]
    assert merged["piece"] == "# yours\n" + TEXT + "# theirs\n"
    again = kept.post("/api/pieces/1/versions", json={"content": merged, "parent": body["current"]})
    assert (again.status_code, again.json()["piece"]["version"]) == (201, 3)


def test_lines_both_changed_are_told(kept: TestClient) -> None:
    """There is no proposal then; each side's lines stand beside each other, and nothing is kept."""
    _begun(kept, "title: a\n")
    _saved(kept, 1, "title: b\n", 1)
    body = _saved(kept, 1, "title: c\n", 1).json()
    assert body["merged"] is None
    clash = {"where": "piece", "line": 1, "old": ["title: a\n"], "theirs": ["title: b\n"]}
    assert body["clashes"] == [{**clash, "yours": ["title: c\n"]}]
    assert kept.get("/api/pieces/1").json()["piece"]["versions"] == 2


def test_steps_that_cannot_be_are_told(kept: TestClient) -> None:
    """Nothing before the first, nothing undone, and a version left since."""
    _begun(kept)
    assert _code(kept.post("/api/pieces/1/undo", json={"parent": 1}), 409) == "nothing_to_undo"
    assert _code(kept.post("/api/pieces/1/redo", json={"parent": 1}), 409) == "nothing_to_redo"
    _saved(kept, 1, TEXT + "# two\n", 1)
    moved = kept.post("/api/pieces/1/undo", json={"parent": 1})
    assert (_code(moved, 409), moved.json()["current"]) == ("moved_on", 2)


@pytest.mark.parametrize(
    ("method", "path", "body", "status", "code"),
    [
        ("GET", "/api/pieces/9", None, 404, "unknown_piece"),
        ("GET", "/pieces/9/api/plan", None, 404, "unknown_piece"),
        ("GET", "/api/pieces/1/versions/9", None, 404, "unknown_version"),
        ("GET", "/pieces/1/versions/9/api/shape", None, 404, "unknown_version"),
        ("GET", "/api/pieces/none", None, 422, "path_int_parsing"),
        ("GET", f"/api/pieces/{10**30}", None, 422, "path_less_than_equal"),
        ("GET", f"/pieces/{10**30}/api/plan", None, 404, "unknown_piece"),
        ("GET", f"/pieces/1/versions/{10**30}/api/plan", None, 404, "unknown_version"),
        ("GET", f"/pieces/{'9' * 5000}/api/plan", None, 404, "not_found"),
        ("GET", f"/pieces/1/versions/{'9' * 5000}/", None, 404, "not_found"),
        ("GET", "/drafts/none/api/shape", None, 404, "unknown_draft"),
        ("POST", "/api/pieces", {}, 422, "one_of_two"),
        ("POST", "/api/pieces", {"form": "boat"}, 422, "unknown_form"),
        ("POST", "/api/pieces", {"form": "reading-table", "name": ""}, 422, "name_missing"),
        ("POST", "/api/pieces", {"form": "reading-table", "name": "Stool"}, 409, "name_taken"),
        ("POST", "/api/pieces", {"content": {"piece": " "}}, 422, "file_empty"),
        ("POST", "/api/pieces", {"content": {"piece": "a\x00b"}}, 422, "not_text"),
        ("POST", "/api/pieces", {"content": {"piece": "a", "given": {"a": "\x01"}}}, 422, "not_text"),
        ("POST", "/api/pieces", {"content": {"piece": "\ud800"}}, 422, "body_string_unicode"),
        ("POST", "/api/pieces", {"piece": "a"}, 422, "body_extra_forbidden"),
        ("PATCH", "/api/pieces/9", {"name": "Chair"}, 404, "unknown_piece"),
        ("POST", "/api/pieces/1/bench", {"kind": "danced"}, 422, "body_enum"),
        ("POST", "/api/pieces/1/bench", {"kind": "step done"}, 422, "subject_missing"),
        ("POST", "/api/pieces/1/bench/take-back", {}, 409, "nothing_to_take_back"),
        ("POST", "/api/pieces/1/bench/take-back", {"event": 7}, 404, "unknown_event"),
        ("POST", "/api/pieces/1/bench/take-back", {"event": 1, "subject": "a.b"}, 422, "event_unwanted"),
        ("POST", "/api/pieces/1/bench/take-back", {"key": "a"}, 422, "body_value_error"),
    ],
)
def test_what_will_not_do_is_told_in_the_one_body(
    kept: TestClient, method: str, path: str, body: object, status: int, code: str
) -> None:
    """With the status of its kind; nothing is changed."""
    kept.post("/api/pieces", json={"form": "reading-table", "name": "Stool"})
    before = kept.get("/api/pieces").json()
    content = None if body is None else json.dumps(body).encode()
    headers = {"content-type": "application/json"}
    assert _code(kept.request(method, path, content=content, headers=headers), status) == code
    assert kept.get("/api/pieces").json() == before


def test_neither_an_event_nor_a_measure_is_taken_back_where_both_are_named(kept: TestClient) -> None:
    """Either could be meant: it is said what to leave out, and both stand."""
    _begun(kept)
    measured = {"kind": "measured", "subject": "leg_fl.width", "written": "44.5 mm"}
    stands = kept.post("/api/pieces/1/bench", json=measured).json()
    both = {"event": stands["events"][0]["number"], "subject": "leg_fl.width"}
    answer = kept.post("/api/pieces/1/bench/take-back", json=both)
    assert _code(answer, 422) == "event_unwanted"
    (fault,) = answer.json()["errors"]
    assert (fault["field"], fault["value"]) == ("event", str(both["event"]))
    assert "Leave out the event" in fault["remedy"]
    assert kept.get("/api/pieces/1/bench").json() == stands


def test_a_piece_is_renamed_and_put_away(kept: TestClient) -> None:
    """It then stands on the other list, and comes back from there."""
    _begun(kept)
    changed = kept.patch("/api/pieces/1", json={"name": "Hall table", "putAway": True}).json()
    assert (changed["name"], changed["state"]) == ("Hall table", "put away")
    assert kept.get("/api/pieces").json() == {"pieces": []}
    assert [p["name"] for p in kept.get("/api/pieces?putAway=true").json()["pieces"]] == ["Hall table"]
    assert kept.patch("/api/pieces/1", json={"putAway": False}).json()["state"] == "drawn"


def test_a_kept_piece_is_designed_like_a_file(kept: TestClient) -> None:
    """Shape and scene of the current version, of an older one, and with a size of its own."""
    alone = kept.get("/api/shape").json()
    _begun(kept)
    _saved(kept, 1, TEXT, 1, given={"length": "1300 mm"})

    def length(address: str) -> str:
        (found,) = [p["shown"] for p in kept.get(address).json()["parameters"] if p["name"] == "length"]
        return str(found)

    assert kept.get("/pieces/1/versions/1/api/shape").json()["parts"] == alone["parts"]
    assert length("/pieces/1/versions/1/api/shape") == "1370 mm"
    assert length("/pieces/1/api/shape") == "1300 mm"
    assert length("/pieces/1/api/shape?length=1350+mm") == "1350 mm"
    scene = kept.get("/pieces/1/api/scene.glb")
    assert (scene.headers["content-type"], scene.content[:4]) == ("model/gltf-binary", b"glTF")
    again = kept.get("/pieces/1/api/scene.glb", headers={"if-none-match": scene.headers["etag"]})
    assert again.status_code == 304


def test_a_text_being_written_is_designed_before_it_is_saved(kept: TestClient) -> None:
    """Its faults come with their lines; without any, its designs can be asked for."""
    wrong = TEXT.replace("black cherry", "black cheery")
    told = kept.post("/api/drafts", json={"piece": wrong}).json()
    assert told["errors"]
    lines = wrong.splitlines()
    assert all("cheery" in lines[error["line"] - 1] for error in told["errors"])
    right = kept.post("/api/drafts", json={"piece": TEXT}).json()
    assert right["errors"] == []
    assert kept.get(f"/drafts/{right['draft']}/api/shape").json()["ok"] is True
    assert kept.get("/api/pieces").json() == {"pieces": []}


def test_the_picture_is_drawn_once_and_kept(kept: TestClient) -> None:
    """Its address changes with the content; a piece with faults has none and says why."""
    address = _begun(kept)["piece"]["picture"]
    drawn = kept.get(address)
    assert (drawn.status_code, drawn.headers["content-type"]) == (200, "image/svg+xml")
    assert drawn.text.startswith("<svg")
    assert drawn.text.count("<path") > 0
    assert kept.get(address).text == drawn.text
    assert _saved(kept, 1, STOOL, 1).json()["piece"]["picture"] != address
    assert kept.get("/api/pieces/1/versions/2/picture.svg").status_code == 422


def test_the_bench_tells_how_things_stand(kept: TestClient) -> None:
    """A step ticked, a size measured; the list says the piece is begun; the last is taken back."""
    _begun(kept)
    kept.post("/api/pieces/1/bench", json={"kind": "step done", "subject": "Plane the legs", "key": "a"})
    kept.post("/api/pieces/1/bench", json={"kind": "step done", "subject": "Plane the legs", "key": "a"})
    size = {"kind": "measured", "subject": "leg_fl.width", "figure": 44.5, "unit": "mm"}
    stands = kept.post("/api/pieces/1/bench", json=size).json()
    assert list(stands["done"]) == ["Plane the legs"]
    assert stands["measured"]["leg_fl.width"]["figure"] == 44.5
    assert len(stands["events"]) == 2
    listed = kept.get("/api/pieces").json()["pieces"][0]
    assert (listed["state"], listed["stepsDone"]) == ("begun", 1)
    assert kept.post("/api/pieces/1/bench/take-back", json={}).json()["measured"] == {}
    finished = kept.post("/api/pieces/1/bench", json={"kind": "finished"}).json()
    assert finished["finishedAt"] is not None
    assert kept.get("/api/pieces").json()["pieces"][0]["state"] == "finished"


def test_what_is_told_of_one_piece_is_read_from_its_own_events(kept: TestClient, tmp_path: Path) -> None:
    """A row of another piece that cannot be read keeps this one neither from opening nor from its steps."""
    _begun(kept)
    _begun(kept)
    done = {"kind": "step done", "subject": "Plane the legs"}
    for number in (1, 2):
        assert kept.post(f"/api/pieces/{number}/bench", json=done).status_code == 201
    with closing(sqlite3.connect(tmp_path / "records.db")) as file, file:
        file.execute("update bench_events set kind = 'danced' where piece_id = 2")
    opened = kept.get("/api/pieces/1")
    assert (opened.status_code, opened.json()["piece"]["stepsDone"]) == (200, 1)
    assert _saved(kept, 1, TEXT + "# two\n", 1).json()["piece"]["stepsDone"] == 1
    assert kept.patch("/api/pieces/1", json={"name": "Hall table"}).json()["stepsDone"] == 1
    assert kept.get("/api/pieces/2").status_code == 500


def test_two_windows_with_one_queue_and_a_late_phone_lose_no_measure(kept: TestClient) -> None:
    """Taken back and 658 mm, each sent twice; then a taking back told before 658 was measured."""
    _begun(kept)
    size = {"kind": "measured", "subject": "leg_fl.width", "unit": "mm"}
    told = {**size, "figure": 44.5, "at": "2026-03-05T12:00:00Z", "key": "a"}
    back = {"subject": "leg_fl.width", "at": "2026-03-05T12:01:00Z", "key": "b"}
    anew = {**size, "figure": 44.2, "at": "2026-03-05T12:02:00Z", "key": "c"}
    assert kept.post("/api/pieces/1/bench", json=told).status_code == 201
    late = {**back, "at": "2026-03-05T12:01:30Z", "key": "d"}
    for where, body, status in (
        ("/take-back", back, 201),
        ("", anew, 201),
        ("/take-back", back, 201),
        ("", anew, 201),
        ("/take-back", late, 409),
    ):
        assert kept.post(f"/api/pieces/1/bench{where}", json=body).status_code == status
    stands = kept.get("/api/pieces/1/bench").json()
    assert stands["measured"]["leg_fl.width"]["figure"] == 44.2
    assert len(stands["events"]) == 3


def test_a_page_elsewhere_changes_nothing(kept: TestClient) -> None:
    """A form another site sends here is refused before it is read."""
    headers = {"sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate"}
    answer = kept.post("/api/pieces", json={"form": "reading-table"}, headers=headers)
    assert _code(answer, 421) == "not_this_page"
    assert kept.get("/api/pieces").json() == {"pieces": []}


def test_a_body_without_an_end_is_refused(kept: TestClient) -> None:
    """However it is sent: told beforehand, or piece by piece."""
    endless = b"x" * 6_000_001
    headers = {"content-type": "application/json"}
    assert _code(kept.post("/api/pieces", content=endless, headers=headers), 413) == "too_big"
    parts = (endless[at : at + 500_000] for at in range(0, len(endless), 500_000))
    assert _code(kept.post("/api/pieces", content=parts, headers=headers), 413) == "too_big"


def test_records_that_cannot_be_read_are_told(tmp_path: Path) -> None:
    """A damaged file does not take the page down: each question says what is wrong and what to do."""
    (tmp_path / "records.db").write_bytes(b"no database" * 100)
    with (
        app_with_records(tmp_path) as app,
        TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False) as client,
    ):
        assert _code(client.get("/api/pieces"), 503) == "records_damaged"
        assert _code(client.post("/api/pieces", json={"form": "reading-table"}), 503) == "records_damaged"
        assert client.get("/api/health").status_code == 200
    assert (tmp_path / "records.db").read_bytes() == b"no database" * 100


@pytest.mark.parametrize("body", ["[" * 100_000, '{"parent": ' + "9" * 10_000 + "}"], ids=["deep", "long"])
def test_what_cannot_be_read_as_json_is_told_so(kept: TestClient, body: str) -> None:
    """Nested without end, or a number of thousands of figures: no page is missing, and nothing breaks."""
    _begun(kept)
    answer = kept.post("/api/pieces/1/undo", content=body, headers={"content-type": "application/json"})
    assert _code(answer, 400) == "not_json"


def test_times_that_no_calendar_holds_are_refused(kept: TestClient) -> None:
    """They could not be told in UTC."""
    _begun(kept)
    for at in ("0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-14:00"):
        body = {"kind": "noted", "note": "x", "at": at}
        assert _code(kept.post("/api/pieces/1/bench", json=body), 422) == "body_value_error"


def test_a_title_with_a_control_character_is_a_fault_of_the_file(kept: TestClient) -> None:
    """Papers could not show it: it is told with its line, and the packet with the same."""
    _begun(kept, TEXT.replace("title: Reading table", 'title: "\\0" # Reading table'))
    (fault,) = kept.get("/pieces/1/api/packet.pdf").json()["errors"]
    assert (fault["code"], fault["field"], fault["line"]) == ("not_text", "title", 2)
    assert kept.get("/api/pieces/1").json()["piece"]["name"] == "Piece"


def test_the_form_of_an_early_version_is_told_by_its_title(kept: TestClient) -> None:
    """Records of before name the form by its file; one that is no form any more stays as it was written."""
    for form in ("reading-table", "no-longer-there"):
        kept.post("/api/pieces", json={"form": "reading-table", "why": f"Begun from the form {form}"})
    whys = [kept.get(f"/api/pieces/{n}/versions").json()["versions"][0]["why"] for n in (1, 2)]
    assert whys == [
        "Begun from the form Reading table with splayed legs",
        "Begun from the form no-longer-there",
    ]
