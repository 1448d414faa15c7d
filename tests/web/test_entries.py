"""A part changed in place on the page, copied, taken out, and joined as offered."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from starlette.testclient import TestClient

from tests.web.kept_browser import HOLDING, Chromium, kept_page
from tests.web.records import app_with_records
from tests.web.specimen import DEMO

__all__: list[str] = []

TEXT = DEMO.read_text(encoding="utf-8")


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[TestClient]:
    """Asks a server that keeps the demo piece as number 1."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        client.post("/api/pieces", json={"content": {"piece": TEXT}})
        yield client


def _post(kept: TestClient, what: str, status: int = 201, **body: Any) -> Any:
    answer = kept.post(f"/api/pieces/1/{what}", json={"parent": 1, **body})
    assert answer.status_code == status, answer.text
    return answer.json()


def test_a_part_is_told_as_it_is_written_with_its_joints(kept: TestClient) -> None:
    """A copy leads to the entry it is a copy of."""
    told = kept.get("/api/pieces/1/entries/leg_br").json()
    assert [entry["path"] for entry in told["entries"]][:2] == [
        ["parts", "leg_fl"],
        ["joints", "apron_to_leg"],
    ]
    fields = {field["name"]: field["text"] for field in told["entries"][0]["fields"]}
    assert fields["section"] == "[leg, leg]"
    assert kept.get("/api/pieces/1/entries/arm").status_code == 422


def test_a_field_changed_is_a_version_and_nothing_else_changes(kept: TestClient) -> None:
    """The text differs in that value alone; from an older version it is refused with both."""
    opened = _post(kept, "entries", path=["parts", "leg_fl", "rings"], text="flat")
    assert opened["piece"]["version"] == 2
    assert opened["content"]["piece"] == TEXT.replace("    rings: rift\n", "    rings: flat\n", 1)
    stale = _post(kept, "entries", 409, path=["parts", "leg_fl", "species"], text="hard maple")
    assert stale["current"] == 2
    assert stale["merged"] is not None


def test_what_cannot_be_drawn_is_refused_and_not_kept(kept: TestClient) -> None:
    """With the rule; the piece stays at its version."""
    refused = _post(kept, "entries", 422, path=["parts", "leg_fl", "section"], text="[leg, no_such]")
    assert refused["errors"][0]["rule"]
    assert kept.get("/api/pieces/1").json()["piece"]["version"] == 1


def test_a_part_is_made_once_more(kept: TestClient) -> None:
    """Moved by sizes as they are written; in its place or under a name that is taken it is refused."""
    opened = _post(kept, "copies", part="apron_front", name="rail", move=["0", "200 mm", "0"])
    assert "rail: {move: [0, 200 mm, 0]}" in opened["content"]["piece"]
    assert any(part["name"] == "rail" for part in kept.get("/pieces/1/api/shape").json()["parts"])
    assert (
        _post(kept, "copies", 422, part="apron_front", name="other")["errors"][0]["code"] == "copy_in_place"
    )


def test_what_is_sent_as_one_value_is_written_as_one(kept: TestClient) -> None:
    """Signs that mean something in the file cannot end a value, and so write what nobody asked for."""
    moved = _post(kept, "copies", 422, part="apron_front", name="rail", move=["0, 200 mm, 0"])["errors"]
    assert {error["field"].partition("[")[0] for error in moved} == {"parts.apron_front.copies.rail.move"}
    names = {"family": "mortise_tenon, depth: 9 mm", "first": "apron_front.start", "second": "leg_fl"}
    joined = _post(kept, "joints", 422, **names)["errors"]
    assert [error["code"] for error in joined] == ["unknown_choice"]
    assert kept.get("/api/pieces/1").json()["piece"]["version"] == 1


def test_parts_that_touch_are_offered_joints_that_go_in_as_they_are(kept: TestClient) -> None:
    """A leg touches the top that its aprons hold; a joint taken out leaves its parts touching."""
    told = kept.get("/api/pieces/1/meetings").json()
    assert {meeting["one"] for meeting in told["meetings"]} == {"top"}
    assert all("held already" in m["held"] and not m["offers"] for m in told["meetings"])
    _post(kept, "entries/remove", path=["joints", "breadboard"])
    after = kept.get("/api/pieces/1/meetings").json()
    assert after["version"] == 2
    assert {m["other"] for m in after["meetings"]} - {m["other"] for m in told["meetings"]} == {
        "end_left",
        "end_right",
    }
    offers = [offer for meeting in after["meetings"] for offer in meeting["offers"]]
    offer = offers[0]
    assert offer["family"] == "breadboard_end"
    names = {key: offer[key] for key in ("family", "first", "second")}
    answer = kept.post("/api/pieces/1/joints", json={"parent": 2, **names})
    assert answer.status_code == 201, answer.text
    assert "{kind: breadboard_end, between: [[" in answer.json()["content"]["piece"]


@pytest.fixture
def page(tmp_path: Path, chromium: Chromium) -> Iterator[Page]:
    """The page of a piece that is kept."""
    with kept_page(tmp_path, chromium, "reading-table") as page:
        yield page


@pytest.mark.browser
def test_a_part_is_changed_where_it_is_picked(page: Page) -> None:
    """A wrong value is told and not kept; a right one is, and undo takes it back."""
    page.get_by_role("combobox", name="Show a part").select_option("top")
    page.get_by_text("As it is written, to change").click()
    field = page.locator("entry-form label", has_text="rings").first.locator("input")
    field.fill("spiral")
    field.blur()
    page.locator("entry-form .fault").wait_for()
    expect(field).to_have_value("spiral")  # what is refused stays, to be mended
    assert page.request.get("/api/pieces/1").json()["piece"]["version"] == 1
    field.fill("quarter")
    with page.expect_response(re.compile("/entries")):
        page.locator("entry-form").evaluate("e => { e.version = -1; }")  # changed elsewhere: fetched anew
    page.locator("entry-form").evaluate("e => e.updateComplete")
    field.blur()
    page.get_by_text("Kept as version 2").wait_for()
    assert "rings: quarter" in page.request.get("/api/pieces/1/file").text()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Version 1 of 2")).to_be_visible()


@pytest.mark.browser
def test_fields_changed_one_after_the_other_are_all_kept(page: Page) -> None:
    """The second is made from the version the first left; what is typed on since is not wiped."""
    page.get_by_role("combobox", name="Show a part").select_option("leg_fl")
    page.get_by_text("As it is written, to change").click()
    part = page.locator("entry-form fieldset").first
    rings, shown = part.get_by_label("rings", exact=True), part.get_by_label("show", exact=True)
    page.evaluate(HOLDING, "/entries")
    rings.fill("flat")
    rings.press("Tab")
    shown.fill("[front]")
    shown.press("Tab")
    rings.fill("quarte")
    page.wait_for_function("() => window.holds")
    page.evaluate("() => window.letGo()")
    expect(page.locator("piece-bar")).to_contain_text("Kept as version 3.")
    expect(rings).to_have_value("quarte")
    expect(page.locator("entry-form .fault")).to_have_count(0)
    text = page.request.get("/api/pieces/1/file").text()
    assert "    rings: flat" in text
    assert "    show: [front]" in text


@pytest.mark.browser
def test_a_joint_that_is_refused_is_told_by_its_name_and_what_of_it(page: Page) -> None:
    """No path in the file: the joint in words, the field, what was got and what to do; alike ones once."""
    page.get_by_role("combobox", name="Show a part").select_option("leg_fl")
    page.get_by_text("As it is written, to change").click()
    joint = page.locator("entry-form fieldset", has_text="apron to leg").first
    field = joint.locator("label", has_text="width").first.locator("input")
    field.fill("400 mm")
    field.blur()
    fault = page.locator("entry-form .fault")
    expect(fault).to_contain_text("Not changed. Joint apron to leg, width (line ")
    told = fault.inner_text()
    assert told.count("must lie inside the face it is cut in") == 1
    assert all(f"pron {side}" in told for side in ("front", "back", "left", "right")), told
    assert "yaml" not in told
    assert "joints." not in told
