"""The files of a piece written on the page: faults at their line, versions, and two windows on one piece."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.web.kept_browser import Chromium, kept_server
from tests.web.specimen import DEMO

__all__: list[str] = []


@pytest.fixture
def window(tmp_path: Path, chromium: Chromium) -> Iterator[BrowserContext]:
    """A browser on one piece that is kept."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        context = browser.new_context(viewport={"width": 1280, "height": 900}, base_url=address)
        begun = context.request.post("/api/pieces", data={"form": "reading-table"})
        assert begun.status == 201
        yield context


def _open(window: BrowserContext) -> Page:
    page = window.new_page()
    page.goto("/pieces/1/write")
    page.wait_for_selector("text-desk textarea")
    page.get_by_text("Nothing wrong with it").wait_for()
    return page


def _write(page: Page, old: str, new: str) -> None:
    field = page.locator("textarea")
    text = field.input_value()
    assert old in text
    field.fill(text.replace(old, new, 1))


def _said(page: Page) -> str:
    return page.locator(".bar p").first.inner_text()


@pytest.mark.browser
def test_a_fault_is_told_at_its_line_while_it_is_typed(window: BrowserContext) -> None:
    """The number of the line is marked, the fault leads to it, and mended it is gone."""
    page = _open(window)
    _write(page, "units: mm", "units: furlong")
    page.locator(".faults .point").click()
    line = DEMO.read_text(encoding="utf-8").splitlines().index("units: mm") + 1
    expect(page.locator(".numbers .bad")).to_have_text(str(line))
    picked = page.locator("textarea").evaluate("e => e.value.slice(e.selectionStart, e.selectionEnd)")
    assert picked == "units: furlong"
    _write(page, "units: furlong", "units: in")
    page.get_by_text("Nothing wrong with it").wait_for()


@pytest.mark.browser
def test_what_is_typed_outlives_a_closed_window_and_comments_are_kept(window: BrowserContext) -> None:
    """Another window finds it again; saved, it is a version, and the comment stands where it was written."""
    page = _open(window)
    _write(page, "units: mm", "units: mm # as the client has it")
    page.get_by_text("Not saved yet").wait_for()
    page.close(run_before_unload=False)
    again = window.new_page()
    again.goto("/pieces/1/write")
    again.get_by_text("Not saved yet").wait_for()
    again.keyboard.press("Control+s")
    again.get_by_text("Saved.").wait_for()
    assert "units: mm # as the client has it" in again.request.get("/api/pieces/1/file").text()
    again.get_by_role("button", name="Undo").click()
    again.get_by_text("Version 1 is the current one.").wait_for()
    assert "as the client has it" not in again.locator("textarea").input_value()
    again.get_by_role("button", name="Bring back version 2").click()
    again.get_by_text("Version 2 is back.").wait_for()
    assert "as the client has it" in again.locator("textarea").input_value()


@pytest.mark.browser
def test_two_windows_on_other_lines_keep_both_changes(window: BrowserContext) -> None:
    """The second to save is told, and one key brings both together."""
    one, other = _open(window), _open(window)
    _write(one, "coats: 4", "coats: 5")
    one.get_by_role("button", name="Save").click()
    one.get_by_text("Saved.").wait_for()
    _write(other, "seats: 2", "seats: 1")
    other.get_by_role("button", name="Save").click()
    other.get_by_role("button", name="Keep both changes").click()
    other.get_by_text("Saved.").wait_for()
    text = other.locator("textarea").input_value()
    assert "coats: 5" in text
    assert "seats: 1" in text


@pytest.mark.browser
def test_two_windows_on_one_line_have_a_clear_choice(window: BrowserContext) -> None:
    """Both lines stand beside each other; mine is kept, the other stays among the versions."""
    one, other = _open(window), _open(window)
    _write(one, "coats: 4", "coats: 5")
    one.get_by_role("button", name="Save").click()
    one.get_by_text("Saved.").wait_for()
    _write(other, "coats: 4", "coats: 3")
    other.get_by_role("button", name="Save").click()
    other.get_by_role("button", name="Keep mine").wait_for()
    assert "coats: 5" in other.locator(".pair pre").first.inner_text()
    assert "coats: 3" in other.locator(".pair pre").last.inner_text()
    assert other.get_by_role("button", name="Keep both changes").count() == 0
    other.get_by_role("button", name="Keep mine").click()
    other.get_by_text("Saved.").wait_for()
    kept = other.request.get("/api/pieces/1/versions").json()["versions"]
    texts = [
        other.request.get(f"/api/pieces/1/versions/{v['number']}").json()["content"]["piece"] for v in kept
    ]
    assert ["coats: 3" in text for text in texts] == [True, False, False]
    assert "coats: 5" in texts[1]


@pytest.mark.browser
def test_sizes_tried_on_the_page_are_kept_and_stepped_back(window: BrowserContext) -> None:
    """The address carries them until they are kept; undo shows the piece as it was drawn."""
    page = window.new_page()
    page.goto("/pieces/1/?height=700+mm")
    page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
    page.locator("piece-bar").get_by_role("button", name="Keep these sizes").click()
    page.get_by_text("Kept as version 2").wait_for()
    assert "height" not in page.url
    opened = page.request.get("/api/pieces/1").json()
    assert opened["content"]["given"] == {"height": "700 mm"}
    expect(page.get_by_role("textbox", name="Height")).to_have_value(re.compile("^700"))
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("textbox", name="Height")).to_have_value(re.compile("^740"))


def test_sizes_kept_in_two_windows_are_both_kept_and_one_size_is_a_clear_choice(
    window: BrowserContext,
) -> None:
    """Other sizes are brought together; where both changed the same, the second is told and loses nothing."""
    one, two = window.new_page(), window.new_page()
    one.goto("/pieces/1/?height=700+mm")
    two.goto("/pieces/1/?width=640+mm")
    for page in (one, two):
        page.wait_for_selector("piece-bar a.key", timeout=60_000)
        page.locator("piece-bar").get_by_role("button", name="Keep these sizes").click()
        page.get_by_text("Kept as version").wait_for()
    assert "together with what was saved elsewhere" in two.locator("piece-bar [role=status]").inner_text()
    both = {"height": "700 mm", "width": "640 mm"}
    assert two.request.get("/api/pieces/1").json()["content"]["given"] == both
    expect(two.get_by_role("textbox", name="Height")).to_have_value(re.compile("^700"))
    width = one.get_by_role("textbox", name="Width", exact=True)
    width.fill("600 mm")
    width.press("Enter")
    one.locator("piece-bar").get_by_role("button", name="Keep these sizes").click()
    expect(one.locator("piece-bar [role=status]")).to_contain_text(
        "Another window saved other sizes meanwhile"
    )
    assert one.request.get("/api/pieces/1").json()["content"]["given"] == both
    one.reload()
    one.locator("piece-bar").get_by_role("button", name="Keep these sizes").click()
    one.get_by_text("Kept as version 4").wait_for()
    assert one.request.get("/api/pieces/1").json()["content"]["given"] == {**both, "width": "600 mm"}
