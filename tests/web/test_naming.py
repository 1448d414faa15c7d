"""A piece has one name: on the list, at its head, in its file and on its papers."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.web.records import STOOL, app_with_records

__all__: list[str] = []


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    """The routes of kept pieces, empty."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        yield client


def test_a_piece_called_something_else_has_that_title(client: TestClient) -> None:
    """The file is titled so as a version, comments left; undone, the piece has its old name again."""
    assert (
        client.post("/api/pieces", json={"content": {"piece": STOOL}}).json()["piece"]["name"]
        == "Forge stool"
    )
    assert client.patch("/api/pieces/1", json={"name": "Stool: low"}).json()["name"] == "Stool: low"
    text = client.get("/api/pieces/1/file").text
    assert text == STOOL.replace("title: Forge stool", 'title: "Stool: low"')
    versions = client.get("/api/pieces/1/versions").json()["versions"]
    assert [version["why"] for version in versions] == ["Called Stool: low", "Begun"]
    undone = client.post("/api/pieces/1/undo", json={"parent": 2}).json()["piece"]
    assert (undone["name"], undone["version"]) == ("Forge stool", 1)
    assert client.post("/api/pieces/1/redo", json={"parent": 1}).json()["piece"]["name"] == "Stool: low"


def test_a_title_written_otherwise_is_the_name(client: TestClient) -> None:
    """Saved with another title it is called so, with a number if another is; a fault changes nothing."""
    for name in ("Stool", "Bench"):
        client.post("/api/pieces", json={"content": {"piece": STOOL}, "name": name})
    assert "title: Bench\n" in client.get("/api/pieces/2/file").text
    body = {"content": {"piece": STOOL.replace("Forge stool", "Stool")}, "parent": 1, "why": ""}
    saved = client.post("/api/pieces/2/versions", json=body).json()
    assert saved["piece"]["name"] == "Stool 2"
    broken = {"content": {"piece": "title: [\n"}, "parent": 2, "why": ""}
    assert client.post("/api/pieces/2/versions", json=broken).json()["piece"]["name"] == "Stool 2"


def test_a_piece_that_cannot_be_read_keeps_its_name_on_all_its_pages(client: TestClient) -> None:
    """A kept text that is no piece is titled as on the list; a text that is being written, as a piece."""
    client.post("/api/pieces", json={"content": {"piece": STOOL}, "name": "Stool"})
    broken = {"content": {"piece": "title: [\n"}, "parent": 1, "why": ""}
    client.post("/api/pieces/1/versions", json=broken)
    for place in ("", "yard", "papers", "seasons", "boards", "bench", "write", "versions/2/"):
        page = client.get(f"/pieces/1/{place}").text
        assert "Stool</title>" in page, place
        assert "piece.yaml" not in page, place
    draft = client.post("/api/drafts", json={"piece": "title: [\n"}).json()
    assert "<title>Piece" in client.get(f"/drafts/{draft['draft']}/").text


def test_a_step_on_the_page_of_the_boards_takes_the_name_along(client: TestClient) -> None:
    """Undone there, a piece that was called otherwise has its old name again."""
    client.post("/api/pieces", json={"content": {"piece": STOOL}})
    client.patch("/api/pieces/1", json={"name": "Low stool"})
    assert client.post("/pieces/1/api/boards/undo", json={"parent": 2}).status_code == 200
    assert client.get("/api/pieces/1").json()["piece"]["name"] == "Forge stool"


def test_an_older_version_says_that_it_is(client: TestClient) -> None:
    """Its page has the notice with its number; the page of the piece has none."""
    client.post("/api/pieces", json={"form": "hall-bench"})
    assert '<old-version version="1">' in client.get("/pieces/1/versions/1/").text
    assert "<old-version" not in client.get("/pieces/1/").text
