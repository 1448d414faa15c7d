"""The woods of a piece: listed, and one changed for another in every part that has it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from scantling.piece.forms import find_form
from tests.web.records import app_with_records

__all__: list[str] = []


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    """One sideboard of two woods and plywood."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        assert client.post("/api/pieces", json={"form": "sideboard"}).status_code == 201
        yield client


def test_the_woods_are_listed_with_their_parts(client: TestClient) -> None:
    """That of most parts first; plywood is no wood to change; every wood of the tables is known."""
    told = client.get("/api/pieces/1/woods").json()
    assert [wood["name"] for wood in told["woods"]] == ["white oak", "sugar maple"]
    assert len(told["woods"][0]["parts"]) > len(told["woods"][1]["parts"])
    assert {"black walnut", "white oak"} < set(told["known"])
    assert told["known"] == sorted(told["known"])


def test_a_wood_is_changed_in_all_its_parts_and_nowhere_else(client: TestClient) -> None:
    """The file differs in the lines of that wood alone, and the piece is of the new one."""
    change = {"wood": "white oak", "other": "walnut, black", "parent": 1}
    made = client.post("/api/pieces/1/woods", json=change)
    assert made.status_code == 201
    before, after = find_form("sideboard").text, made.json()["content"]["piece"]
    assert after == before.replace("species: white oak", "species: black walnut") != before
    assert made.json()["piece"]["version"] == 2
    woods = client.get("/api/pieces/1/woods").json()["woods"]
    assert [wood["name"] for wood in woods] == ["black walnut", "sugar maple"]


def test_a_wood_that_is_none_is_refused_with_near_ones(client: TestClient) -> None:
    """Nothing is kept of it; a wood the piece has not is told too."""
    refused = client.post("/api/pieces/1/woods", json={"wood": "white oak", "other": "whit oak", "parent": 1})
    assert refused.status_code == 422
    (error,) = refused.json()["errors"]
    assert error["code"] == "unknown_species"
    assert "white oak" in error["remedy"]
    assert not {
        part for part in (error["remedy"], error["message"]) if "--" in part
    }  # no flag of the command line
    absent = client.post("/api/pieces/1/woods", json={"wood": "ebony", "other": "white oak", "parent": 1})
    assert absent.json()["errors"][0]["code"] == "no_such_wood"
    assert client.get("/api/pieces/1").json()["piece"]["versions"] == 1
