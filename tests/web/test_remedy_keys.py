"""A remedy is one key beside its finding: on a kept piece it writes a version, which undo takes back."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from tests.web.kept_browser import Chromium, kept_server
from tests.web.records import app_with_records

__all__: list[str] = []

EXAMPLES = Path(__file__).parents[2] / "examples"
_PLANNED_MS = 120_000
"""A plan may take so long on a machine with other work. [ms]"""
THICK = (
    (EXAMPLES / "reading_table.yaml").read_text().replace("tongue_thickness: 8 mm", "tongue_thickness: 14 mm")
)


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[TestClient]:
    """A table with tongues too thick for its top, that is kept."""
    with app_with_records(tmp_path) as app:
        client = TestClient(app, base_url="http://127.0.0.1")
        assert client.post("/api/pieces", json={"content": {"piece": THICK}}).status_code == 201
        yield client


def remedies(client: TestClient) -> list[dict[str, Any]]:
    """What the plan offers, of the rule on the thickness of tenons."""
    findings = client.get("/pieces/1/api/plan").json()["findings"]
    return [remedy for found in findings if found["code"] == "F17" for remedy in found["remedies"]]


def test_a_remedy_is_written_as_a_version_and_undone(kept: TestClient) -> None:
    """The finding goes with the key; the step back brings both back."""
    (remedy,) = remedies(kept)
    assert remedy["text"] == "12 mm"
    assert remedy["line"] == "joints.breadboard: tongue_thickness: 12 mm"
    change = {"path": remedy["path"], "text": remedy["text"], "parent": 1}
    answer = kept.post("/api/pieces/1/remedies", json=change)
    assert answer.status_code == 201
    assert "tongue_thickness: 12 mm" in answer.json()["content"]["piece"]
    assert remedies(kept) == []
    kept.post("/api/pieces/1/undo", json={"parent": 2})
    assert len(remedies(kept)) == 1


def test_shown_in_inches_it_is_written_in_inches(kept: TestClient) -> None:
    """To the sixteenth below 12 mm, 7/16 in; a file in millimeters takes it with its unit."""
    findings = kept.get("/pieces/1/api/plan?units=in").json()["findings"]
    (found,) = [found for found in findings if found["code"] == "F17"]
    (remedy,) = found["remedies"]
    assert remedy["text"] == "7/16 in"
    change = {"path": remedy["path"], "text": remedy["text"], "parent": 1}
    assert kept.post("/api/pieces/1/remedies", json=change).status_code == 201
    assert remedies(kept) == []


def test_a_field_that_is_not_there_yet_is_added(kept: TestClient) -> None:
    """Coats on the hidden faces, in a file that says nothing of them."""
    change = {"path": ["finish", "hidden_coats"], "text": "2", "parent": 1}
    answer = kept.post("/api/pieces/1/remedies", json=change)
    assert answer.status_code == 201
    assert "hidden_coats: 2" in answer.json()["content"]["piece"]


def test_a_parameter_kept_apart_gives_way_to_the_remedy(kept: TestClient) -> None:
    """A length kept beside the file would hide what is written into it."""
    content = {"piece": THICK, "given": {"length": "1400 mm"}}
    kept.post("/api/pieces/1/versions", json={"content": content, "parent": 1})
    change = {"path": ["parameters", "length", "default"], "text": "1368 mm", "parent": 2}
    answer = kept.post("/api/pieces/1/remedies", json=change).json()
    assert answer["content"]["given"] == {}
    assert "default: 1368 mm" in answer["content"]["piece"]


@pytest.fixture
def page(tmp_path: Path, chromium: Chromium) -> Iterator[Page]:
    """The page of that table in a browser."""
    with kept_server(tmp_path) as address, chromium.windows() as opened:
        page = opened.new_page(viewport={"width": 1280, "height": 800}, base_url=address)
        assert page.request.post("/api/pieces", data={"content": {"piece": THICK}}).status == 201
        page.goto("/pieces/1/")
        yield page


def _findings(page: Page) -> Any:
    page.wait_for_selector(".finding", timeout=_PLANNED_MS)
    return page.locator(".finding").filter(has_text="F17")


@pytest.mark.browser
def test_the_key_of_a_refused_remedy_can_be_pressed_again(page: Page) -> None:
    """Another window made a version meanwhile: it is told, and the next press mends what stands by now."""
    key = _findings(page).get_by_role("button", name="Set tongue thickness of breadboard to 12 mm")
    content = {"piece": f"{THICK}\n# Looked over.\n"}
    change = {"content": content, "parent": 1, "why": "Written by hand"}
    assert page.request.post("/api/pieces/1/versions", data=change).status == 201
    key.click()
    expect(page.locator("piece-bar [role=status]")).to_contain_text("Another window saved")
    expect(key).to_be_enabled()
    key.click()
    expect(page.locator(".finding").filter(has_text="F17")).to_have_count(0, timeout=_PLANNED_MS)
    text = page.request.get("/api/pieces/1/file").text()
    assert "tongue_thickness: 12 mm" in text
    assert text.endswith("# Looked over.\n")


@pytest.mark.browser
def test_coming_back_to_a_page_it_goes_on_from_what_another_window_made(page: Page) -> None:
    """Told, and undo takes back that version, which is on show by now."""
    status = page.locator("piece-bar [role=status]")
    expect(status).to_have_text("Version 1 of 1.", timeout=_PLANNED_MS)
    change = {"content": {"piece": f"{THICK}\n# Looked over.\n"}, "parent": 1, "why": "Written by hand"}
    assert page.request.post("/api/pieces/1/versions", data=change).status == 201
    page.evaluate("() => dispatchEvent(new Event('focus'))")
    expect(status).to_have_text("Changed in another window: it is at version 2 of 2 now.")
    page.get_by_role("button", name="Undo").click()
    expect(status).to_have_text("Undone: it is at version 1 of 2.")


@pytest.mark.browser
def test_the_key_mends_and_undo_brings_back(page: Page) -> None:
    """One press: the finding is gone, the version is told; undo, and it is there again."""
    page.set_viewport_size({"width": 360, "height": 740})
    key = _findings(page).get_by_role("button", name="Set tongue thickness of breadboard to 12 mm")
    box = key.bounding_box()
    assert box is not None
    assert box["height"] >= 44
    key.click()
    expect(page.locator(".finding").filter(has_text="F17")).to_have_count(0, timeout=_PLANNED_MS)
    expect(page.locator("piece-bar")).to_contain_text("version 2")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".finding").filter(has_text="F17")).to_have_count(1, timeout=_PLANNED_MS)
