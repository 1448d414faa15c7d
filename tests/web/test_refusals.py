"""What is refused is told as a person reads it: a page where somebody opens one, parts and fields by name."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Browser, expect

from scantling.web.app import create_app
from scantling.web.designs.session import Session
from tests.web.kept_browser import Chromium, kept_server
from tests.web.records import app_with_records
from tests.web.specimen import DEMO

__all__: list[str] = []

PAGE = {"accept": "text/html,application/xhtml+xml,*/*;q=0.8"}
TABLE = (Path(__file__).parents[2] / "examples" / "reading_table.yaml").read_text(encoding="utf-8")


@pytest.fixture
def kept(tmp_path: Path) -> TestClient:
    """A list of pieces, with none on it."""
    with app_with_records(tmp_path) as app:
        yield TestClient(app, base_url="http://127.0.0.1")


@pytest.mark.parametrize(
    ("path", "status", "said"),
    [
        ("/nowhere", 404, "There is no such page"),
        ("/pieces/one/", 404, "There is no such page"),
        ("/api/pieces/1/undo", 405, "There is no such page"),
        ("/pieces/99/", 404, "There is no such piece"),
        ("/pieces/99/api/packet.pdf", 404, "There is no such piece"),
        ("/drafts/none/", 404, "This text is no longer held"),
    ],
)
def test_whoever_opens_a_wrong_address_gets_a_page_and_a_way_home(
    kept: TestClient, path: str, status: int, said: str
) -> None:
    """In a browser a page in the frame of all; for a program the one body, as ever."""
    page = kept.get(path, headers=PAGE)
    assert (page.status_code, page.headers["content-type"]) == (status, "text/html; charset=utf-8")
    assert page.headers["cache-control"] == "no-store"
    assert f"<h1>{said}</h1>" in page.text
    assert 'href="/pieces">Your pieces</a>' in page.text
    assert "{{" not in page.text
    told = kept.get(path).json()
    assert (told["ok"], len(told["errors"])) == (False, 1)


def test_words_of_an_address_never_become_markup(kept: TestClient) -> None:
    """An address is told back as it was asked for, with nothing in it that acts."""
    page = kept.get("/<img src=x onerror=alert(1)>", headers=PAGE)
    assert "<img" not in page.text
    assert "Nothing is at /" in page.text


def test_a_page_of_one_file_leads_back_to_its_piece() -> None:
    """There is no list to go to; sizes that cannot be are told where a paper was to open."""
    client = TestClient(create_app(Session(DEMO)), base_url="http://127.0.0.1")
    assert 'href="/">The piece</a>' in client.get("/nowhere", headers=PAGE).text
    refused = client.get("/api/packet.pdf?length=9+ft", headers=PAGE)
    assert refused.status_code == 422
    assert "<h1>This cannot be shown</h1><p>Length must" in refused.text.replace("\n  ", "")


def test_who_asks_by_another_name_reads_why() -> None:
    """A page that points its own name at this computer is refused in words a person reads."""
    client = TestClient(create_app(Session(DEMO)), base_url="http://elsewhere.test")
    refused = client.get("/", headers=PAGE)
    assert (refused.status_code, refused.headers["content-type"]) == (421, "text/html; charset=utf-8")
    assert "<h1>This page cannot be opened from here</h1>" in refused.text
    assert client.get("/").json()["errors"][0]["code"] == "not_this_computer"


def test_a_board_at_the_yard_is_told_by_its_name(kept: TestClient) -> None:
    """What is wrong with a board that was typed names the board and what of it."""
    assert kept.post("/api/pieces", json={"form": "reading-table"}).status_code == 201
    board = {
        "name": "2",
        "species": "black cherry",
        "thickness": "5/4",
        "length": "banana",
        "width": "180 mm",
    }
    refused = kept.post("/pieces/1/api/yard", json={"pile": [], "lifted": board})
    assert refused.status_code == 422
    assert refused.json()["errors"][0]["place"] == "Board 2, length"


def test_parts_in_what_was_found_are_told_by_name(kept: TestClient) -> None:
    """A joint that finds no wood names its parts as a maker does; what was typed stays as it was typed."""
    text = TABLE.replace("thickness: 10 mm\n    width: 50 mm", "thickness: 10 mm\n    width: 150 mm", 1)
    made = kept.post("/api/pieces", json={"content": {"piece": text}}).json()["piece"]["number"]
    errors = kept.get(f"/pieces/{made}/api/shape").json()["errors"]
    wide = [error for error in errors if error["field"] == "joints.apron_to_leg.width"]
    assert wide
    assert all("apron_" in error["value"] and "apron " in error["found"] for error in wide)
    assert all("_" not in error["found"] for error in wide)
    typed = kept.post(
        "/api/drafts", json={"piece": TABLE.replace("length: field", "length: field_q + 2 mm", 1)}
    )
    (unknown,) = typed.json()["errors"]
    assert unknown["found"] == unknown["value"]
    assert unknown["place"] == "Part top, length"


@pytest.fixture(scope="module")
def browser(chromium: Chromium) -> Iterator[Browser]:
    """A browser for this module."""
    with chromium.windows() as launched:
        yield launched


@pytest.mark.browser
def test_the_text_tells_faults_by_what_they_are_of(browser: Browser, tmp_path: Path) -> None:
    """The list beside a text names the part or size, what is wrong and what was found: no path of a field."""
    with kept_server(tmp_path) as address:
        page = browser.new_page(base_url=address)
        assert page.request.post("/api/pieces", data={"form": "reading-table"}).status == 201
        page.goto("/pieces/1/write")
        field = page.get_by_role("textbox", name="Text of piece")
        expect(field).not_to_have_value("")
        field.fill(TABLE.replace("default: 1370 mm", "default: 1370 furlong", 1))
        fault = page.locator(".faults li")
        expect(fault).to_contain_text("Line 10")
        expect(fault).to_contain_text("Size length, default")
        expect(fault).to_contain_text("1370 furlong")
        expect(fault).not_to_contain_text("parameters.")
        page.close()


@pytest.mark.browser
def test_the_door_is_styled_without_a_file(browser: Browser) -> None:
    """Its own style is the one that the policy lets in."""
    from scantling.web.documents.pages import page_policy
    from scantling.web.guard.door import door_page

    page = browser.new_page()
    page.route(
        "**/*",
        lambda route: route.fulfill(
            status=401,
            headers={"content-security-policy": page_policy(), "content-type": "text/html; charset=utf-8"},
            body=door_page("This page asks for a key", "Scan the code."),
        ),
    )
    page.goto("http://127.0.0.1:9/")
    assert page.evaluate("getComputedStyle(document.querySelector('h1')).borderTopWidth") == "5px"
    page.close()
