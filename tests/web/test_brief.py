"""What a piece is for and what was asked for is said on its page, and written into its file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from tests.web.kept_browser import HOLDING, Chromium, kept_server
from tests.web.records import app_with_records

__all__: list[str] = []


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[TestClient]:
    """A kept reading table."""
    with app_with_records(tmp_path) as app:
        client = TestClient(app, base_url="http://127.0.0.1")
        assert client.post("/api/pieces", json={"form": "reading-table"}).status_code == 201
        yield client


def _fields(client: TestClient) -> dict[str, dict[str, Any]]:
    return {field["name"]: field for field in client.get("/api/pieces/1/brief").json()["fields"]}


def _say(client: TestClient, name: str, text: str, parent: int) -> Any:
    return client.post("/api/pieces/1/brief", json={"name": name, "text": text, "parent": parent})


def test_the_brief_is_told_as_it_is_written(kept: TestClient) -> None:
    """What stands in the file, with what it means; what is left out has what is usual to choose from."""
    fields = _fields(kept)
    assert fields["about"]["text"].startswith("A table to read and write at")
    assert (fields["seats"]["text"], fields["seats"]["about"]) == ("2", "People to sit at it.")
    assert (fields["door_width"]["text"], fields["door_width"]["label"]) == ("door", "Door width")
    assert (fields["leaned_on"]["text"], fields["leaned_on"]["usual"]) == ("", "true")
    assert [choice["value"] for choice in fields["stands"]["choices"]] == ["floor", "wall"]
    assert "carried" not in fields


def test_a_file_that_cannot_be_read_is_told_and_not_written_into(tmp_path: Path) -> None:
    """A bracket left open is refused with its line by whatever reads the file or would write into it."""
    with app_with_records(tmp_path) as app:
        client = TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False)
        content = {"piece": "scantling: 1\ntitle: [Bench\nparts: 3\n"}
        assert client.post("/api/pieces", json={"content": content}).status_code == 201
        field = {"path": ["parts", "leg"], "text": "flat", "parent": 1}
        answers = (
            client.get("/api/pieces/1/brief"),
            _say(client, "seats", "4", 1),
            client.post("/api/pieces/1/entries", json=field),
            client.post("/api/pieces/1/entries/remove", json={"path": ["parts", "leg"], "parent": 1}),
            client.post("/api/pieces/1/remedies", json=field),
            client.post("/api/pieces/1/woods", json={"wood": "cherry", "other": "walnut", "parent": 1}),
            client.post(
                "/api/pieces/1/parts", json={"kind": "stick", "name": "leg", "way": "middle", "parent": 1}
            ),
        )
        for answer in answers:
            assert answer.status_code == 422, (answer.url, answer.text)
            assert [(each["code"], each["line"]) for each in answer.json()["errors"]] == [("yaml_form", 3)]


def test_a_field_is_written_taken_out_and_stepped_back_from(kept: TestClient) -> None:
    """Each is a version that changes this field alone; one that is emptied goes from the file."""
    was = kept.get("/api/pieces/1/file").text
    assert _say(kept, "seats", "4", 1).status_code == 201
    assert kept.get("/api/pieces/1/file").text == was.replace("seats: 2", "seats: 4")
    assert _say(kept, "load", "40 kg", 2).status_code == 201
    assert _fields(kept)["load"]["text"] == "40 kg"
    assert _say(kept, "load", "", 3).status_code == 201
    assert "load:" not in kept.get("/api/pieces/1/file").text
    assert kept.post("/api/pieces/1/undo", json={"parent": 4}).status_code == 200
    assert _fields(kept)["load"]["text"] == "40 kg"


def test_what_it_is_for_is_written_as_it_is_said(kept: TestClient) -> None:
    """Signs of the file's language in it are signs of the sentence, and its lines are one."""
    said = 'For two: "lamps" # and\nbooks'
    assert _say(kept, "about", said, 1).status_code == 201
    assert _fields(kept)["about"]["text"] == 'For two: "lamps" # and books'
    assert kept.get("/pieces/1/api/piece").json()["about"] == 'For two: "lamps" # and books'


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        ("seats", "many", "unknown_name"),
        ("seats", "2\nload: 9", "not_a_value"),
        ("title", "Mine", "unknown_field"),
        ("carried", "{}", "unknown_field"),
    ],
)
def test_what_cannot_be_is_refused_and_not_kept(kept: TestClient, name: str, text: str, code: str) -> None:
    """Nothing is written, and the field is named."""
    refused = _say(kept, name, text, 1)
    assert refused.status_code == 422
    assert refused.json()["errors"][0]["code"] == code
    assert kept.get("/api/pieces/1").json()["piece"]["version"] == 1


@pytest.fixture
def page(chromium: Chromium, tmp_path: Path) -> Iterator[Page]:
    """The page of a kept reading table, with what was asked for unfolded."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        page = browser.new_page(base_url=address)
        page.set_default_timeout(60_000)
        assert page.request.post("/api/pieces", data={"form": "reading-table"}).status == 201
        page.goto("/pieces/1/")
        page.locator("piece-brief summary").press("Enter")
        yield page


@pytest.mark.browser
def test_seats_are_changed_on_the_page(page: Page) -> None:
    """By keys: a number typed; the text above the sizes follows what it is for."""
    seats = page.get_by_label("Seats", exact=True)
    seats.fill("none at all")
    seats.press("Enter")
    expect(page.locator("piece-brief .fault")).to_contain_text("Brief, seats")
    seats.fill("6")
    seats.press("Enter")
    expect(page.locator("piece-bar")).to_contain_text("Versions")
    expect(page.locator("piece-brief .fault")).to_have_count(0)
    assert "seats: 6" in page.request.get("/api/pieces/1/file").text()
    page.get_by_label("What it is for").fill("A table for six.")
    page.get_by_label("What it is for").blur()
    expect(page.locator("p.about")).to_have_text("A table for six.")


@pytest.mark.browser
def test_what_is_typed_goes_on_while_the_field_before_it_is_kept(page: Page) -> None:
    """Two fields said one after the other are both kept, and what is typed on in the first is not wiped."""
    page.evaluate(HOLDING, "/brief")
    seats, about = page.get_by_label("Seats", exact=True), page.get_by_label("What it is for")
    about.fill("A table for six.")
    about.press("Tab")
    seats.fill("6")
    seats.press("Tab")
    about.fill("A table for six, and")
    page.wait_for_function("() => window.holds")
    page.evaluate("() => window.letGo()")
    expect(page.locator("piece-bar")).to_contain_text("Kept as version 3.")
    expect(page.locator("p.about")).to_have_text("A table for six.")
    expect(about).to_have_value("A table for six, and")
    expect(page.locator("piece-brief .fault")).to_have_count(0)
    assert "seats: 6" in page.request.get("/api/pieces/1/file").text()
