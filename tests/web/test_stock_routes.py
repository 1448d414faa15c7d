"""The stockroom through the server: the same boards in and out as from the command line."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from starlette.testclient import TestClient

from scantling.stock.racks.rack import parse_rack
from tests.web.records import app_with_records
from tests.web.specimen import DEMO

RACK = (DEMO.parent / "racks" / "reading-table.csv").read_text(encoding="utf-8")
SHOP = (DEMO.parent / "shops" / "reading-table.yaml").read_text(encoding="utf-8")

BOARD = {"name": "Z", "species": "cherry", "thickness": "25 mm", "length": "1000 mm", "width": "100 mm"}
GOING = {"kind": "used", "boards": [1]}
REST = {"board": 1, "length": "1 ft", "width": "3 in", "name": "rest"}
_EARLY = "0001-01-01T00:00:00+14:00"
"""Before there are dates in UTC."""


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[TestClient]:
    """Asks a server with empty records."""
    with (
        app_with_records(tmp_path) as app,
        TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False) as client,
    ):
        yield client


def _posted(kept: TestClient, path: str, body: dict[str, Any], status: int = 201) -> Any:
    answer = kept.post(f"/api{path}", json=body)
    assert answer.status_code == status, answer.text
    return answer.json()


def _filled(kept: TestClient) -> list[str]:
    body = {"rack": {"name": "reading-table.csv", "text": RACK}, "party": "The mill", "note": "for the table"}
    return [board["name"] for board in _posted(kept, "/stockroom/add", body)["boards"]]


def test_a_rack_is_taken_in_and_given_out(kept: TestClient) -> None:
    """Each board with its number, size as shown and figures; as a rack file again."""
    assert _filled(kept) == ["C1", "C2", "C3", "C4", "L1", "L2"]
    first = kept.get("/api/stockroom?units=in").json()["boards"][0]
    assert (first["number"], first["nominal"], first["size"]) == (1, "5/4", "96 × 6 7/8 in")
    assert (first["party"], first["since"], first["moisturePct"]) == ("The mill", "2026-03-01T08:01:00Z", 8.5)
    file = kept.get("/api/stockroom/rack.csv")
    assert (file.headers["content-type"], file.text.splitlines()[0][:12]) == (
        "text/csv; charset=utf-8",
        "name,species",
    )


def test_boards_are_entered_as_they_are_typed(kept: TestClient) -> None:
    """A bare number is in the unit told; every fault of every row is told at once."""
    row = {"name": "A1", "species": "cherry", "thickness": "5/4", "length": "96", "width": "7 1/2"}
    (board,) = _posted(kept, "/stockroom/add", {"rows": [row], "unit": "in"})["boards"]
    assert (board["lengthMm"], board["widthMm"], board["species"]) == (2438.4, 190.5, "black cherry")
    wrong = [row | {"species": "cheery"}, row | {"width": "", "lenght": "3"}]
    told = _posted(kept, "/stockroom/add", {"rows": wrong, "unit": "in"}, 422)["errors"]
    assert {error["code"] for error in told} == {"unknown_species", "missing", "unknown_field"}


def test_boards_go_out_and_offcuts_come_in(kept: TestClient) -> None:
    """In one act, for a piece that is kept; it is taken back whole; the history tells both."""
    _filled(kept)
    _posted(kept, "/pieces", {"form": "reading-table", "name": "Stool"})
    keep = [{"board": 1, "length": "900", "width": "140", "name": "C1a"}]
    going = {"kind": "used", "boards": [1], "party": "Stool", "piece": 1, "keep": keep}
    stock = _posted(kept, "/stockroom/go", going)["boards"]
    assert [(b["name"], b["cameFrom"], b["cameIn"]) for b in stock if b["cameFrom"]] == [("C1a", 1, "kept")]
    later = {"keep": [{"board": 1, "length": "20 in", "width": "5 in"}], "note": "found behind the door"}
    assert _posted(kept, "/stockroom/keep", later)["boards"][-1]["name"] == "C1 offcut"
    read = {"kind": "read", "boards": [2], "figure": 8.1, "at": "2026-02-01T09:00:00+01:00"}
    read_on = _posted(kept, "/stockroom/go", read)["boards"][0]["readings"][-1]
    assert read_on == {"at": "2026-02-01T08:00:00Z", "moisturePct": 8.1}
    for _ in range(3):
        stock = _posted(kept, "/stockroom/take-back", {})["boards"]
    assert [board["name"] for board in stock] == ["C1", "C2", "C3", "C4", "L1", "L2"]
    acts = kept.get("/api/stockroom/history").json()["acts"]
    assert [(act["takesBack"], act["counts"]) for act in acts[:3]] == [(2, False), (3, False), (4, False)]
    assert [event["name"] for event in acts[5]["events"]] == ["C1", "C1a"]
    assert acts[5]["events"][0]["piece"] == 1


def test_a_piece_is_cut_from_the_stockroom(kept: TestClient) -> None:
    """Its plan lays it out on what is there; first it is told, then really done."""
    _filled(kept)
    content = {"piece": DEMO.read_text(encoding="utf-8"), "rack": {"name": "stockroom"}}
    content["shop"] = {"name": "shop.yaml", "text": SHOP}
    _posted(kept, "/pieces", {"content": content})
    told = _posted(kept, "/pieces/1/cut", {})
    assert (told["done"], len(kept.get("/api/stockroom").json()["boards"])) == (False, 6)
    done = _posted(kept, "/pieces/1/cut", {"really": True})
    assert done == told | {"done": True}
    names = [board["name"] for board in kept.get("/api/stockroom").json()["boards"]]
    out = {board["name"] for board in told["out"]}
    assert out
    assert told["before"] == []
    assert {board["name"] for board in _posted(kept, "/pieces/1/cut", {}, 201)["before"]} == out
    assert set(names) == {"C1", "C2", "C3", "C4", "L1", "L2"} - out | {one["name"] for one in told["kept"]}


def test_a_piece_without_boards_cuts_none(kept: TestClient) -> None:
    """Its rack is not the stockroom, and that is said."""
    _filled(kept)
    _posted(kept, "/pieces", {"form": "reading-table"})
    refused = _posted(kept, "/pieces/1/cut", {"really": True}, 422)
    assert refused["errors"][0]["code"] == "nothing_cut"


def test_an_empty_stockroom_is_told_where_it_matters(kept: TestClient) -> None:
    """A piece is then planned with what to buy; there is no rack to take away, nothing to label or cut."""
    content = {"piece": DEMO.read_text(encoding="utf-8"), "rack": {"name": "stockroom"}}
    _posted(kept, "/pieces", {"content": content})
    assert kept.get("/pieces/1/api/shape").status_code == 200
    assert _posted(kept, "/pieces/1/cut", {}, 422)["errors"][0]["code"] == "nothing_cut"
    for path in ("/api/stockroom/rack.csv", "/api/stockroom/labels.pdf"):
        answer = kept.get(path)
        assert (answer.status_code, answer.json()["errors"][0]["code"]) == (422, "stockroom_empty")


def test_labels_are_taken_away(kept: TestClient) -> None:
    """Of the boards named, in their order, or of all."""
    _filled(kept)
    with pdfplumber.open(io.BytesIO(kept.get("/api/stockroom/labels.pdf?board=3&board=1").content)) as pdf:
        words = pdf.pages[0].extract_text()
    assert ("C3" in words, "C1" in words, "C2" in words) == (True, True, False)
    letter = kept.get("/api/stockroom/labels.pdf?paper=letter&units=in")
    assert (letter.status_code, letter.headers["content-type"]) == (200, "application/pdf")


@pytest.mark.parametrize(
    ("path", "body", "status", "code"),
    [
        ("/stockroom/add", {}, 422, "one_of_two"),
        ("/stockroom/add", {"rack": {"name": "x.csv"}}, 422, "file_empty"),
        ("/stockroom/add", {"rack": {"name": "x.csv", "text": RACK}}, 422, "name_taken"),
        ("/stockroom/go", {"kind": "used", "boards": [99]}, 422, "unknown_board"),
        ("/stockroom/go", {"kind": "bought", "boards": [1]}, 422, "body_literal_error"),
        ("/stockroom/go", {"kind": "used", "boards": [1], "figure": 3}, 422, "figure_unwanted"),
        ("/stockroom/go", {"kind": "used", "boards": [1], "piece": 9}, 404, "unknown_piece"),
        ("/stockroom/go", {"kind": "read", "boards": [1]}, 422, "out_of_range"),
        ("/stockroom/keep", {"keep": [{"board": 1, "length": "9", "width": "9"}]}, 422, "still_whole"),
        (
            "/stockroom/go",
            {"kind": "read", "boards": [1], "figure": 8, "at": _EARLY},
            422,
            "body_value_error",
        ),
        ("/stockroom/add", {"rows": [BOARD | {"width": "0.00001 mm"}]}, 422, "not_a_length"),
        ("/stockroom/add", {"rows": [BOARD | {"left_trim": "999.99999999999 mm"}]}, 422, "nothing_left"),
        ("/stockroom/add", {"rows": [BOARD | {"note": "a\0b"}]}, 422, "not_text"),
        ("/stockroom/add", {"rows": [BOARD | {"name": "a\nb"}]}, 422, "not_text"),
        ("/stockroom/go", GOING | {"keep": [REST | {"length": "0.00001 mm"}]}, 422, "not_a_length"),
        ("/stockroom/go", GOING | {"keep": [REST | {"name": "a\7b"}]}, 422, "not_text"),
        ("/pieces/9/cut", {}, 404, "unknown_piece"),
    ],
)
def test_what_will_not_do_is_told_and_changes_nothing(
    kept: TestClient, path: str, body: dict[str, Any], status: int, code: str
) -> None:
    """In the one body, with the status of its kind; the stockroom and its rack file are read as before."""
    _filled(kept)
    before = kept.get("/api/stockroom/history").json()
    assert _posted(kept, path, body, status)["errors"][0]["code"] == code
    assert kept.get("/api/stockroom/history").json() == before
    rack = kept.get("/api/stockroom/rack.csv").text
    assert [board.name for board in parse_rack(rack, file="stockroom.csv").boards] == [
        "C1",
        "C2",
        "C3",
        "C4",
        "L1",
        "L2",
    ]


def test_only_what_was_seen_as_the_last_is_taken_back(kept: TestClient) -> None:
    """Where something else was done since, that is told and stays; the one told last goes."""
    _filled(kept)
    _posted(kept, "/stockroom/go", {"kind": "sold", "boards": [1]})
    refused = _posted(kept, "/stockroom/take-back", {"act": 1}, 409)["errors"]
    assert [(each["code"], each["field"]) for each in refused] == [("not_the_last", "act")]
    assert "No. 2 is the last" in refused[0]["remedy"]
    assert len(kept.get("/api/stockroom").json()["boards"]) == 5
    assert len(_posted(kept, "/stockroom/take-back", {"act": 2})["boards"]) == 6
