"""The head of a piece keeps its lines where there is one key more, and marks only what a maker changed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.web.kept_browser import HOLDING, Chromium, kept_server

__all__: list[str] = []

pytestmark = pytest.mark.browser

_WORKED_OUT = "how much to ask for"
"""Stands in the chapter of the boards once it is known how sure an amount is."""
_TOP_OF = "(name) => Math.round(document.querySelector(name).getBoundingClientRect().top + scrollY)"
_LINES_OF = """(name) => [...document.querySelectorAll(name)].map((each) => {
  const range = document.createRange();
  range.selectNodeContents(each);
  return new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size;
})"""


def _plain(words: str) -> str:
    return " ".join(words.split())


@pytest.fixture
def page(tmp_path: Path, chromium: Chromium) -> Iterator[Page]:
    """The page of a chest that was begun from its form, 1280 wide, worked out."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        page = browser.new_page(
            base_url=address, viewport={"width": 1280, "height": 800}, reduced_motion="reduce"
        )
        page.set_default_timeout(60_000)
        assert page.request.post("/api/pieces", data={"form": "reading-table"}).status == 201
        page.goto("/pieces/1/")
        yield page


def test_only_what_a_maker_changed_is_marked(page: Page) -> None:
    """What is worked out later than the rest is no change; what a size changes stays marked when it is."""
    boards = page.locator("#boards")
    expect(boards).to_contain_text(_WORKED_OUT, timeout=60_000)
    assert page.locator(".changed").count() == 0
    page.get_by_role("textbox", name="Length", exact=True).fill("1600 mm")
    page.wait_for_selector("#parts .changed", state="attached")
    expect(boards).to_contain_text(_WORKED_OUT, timeout=60_000)
    page.wait_for_selector("#boards .changed", state="attached")
    assert page.locator("#parts .changed").count() > 0


def test_a_link_of_the_head_keeps_the_focus_while_what_it_says_stays(page: Page) -> None:
    """A plan that says the same in another unit takes neither links nor focus away; other words are new."""
    expect(page.locator("#boards")).to_contain_text(_WORKED_OUT, timeout=60_000)
    found = page.locator("verdict-line").get_by_role("link")
    found.focus()
    page.evaluate("document.dispatchEvent(new CustomEvent('show-units', { detail: 'in' }))")
    expect(page.locator("glance-facts .first")).to_contain_text(" in")
    expect(found).to_be_focused()
    page.locator("glance-facts").get_by_role("link").last.focus()
    page.get_by_role("textbox", name="Length", exact=True).evaluate(
        """field => { field.value = '9 km'; field.dispatchEvent(new Event('input', { bubbles: true })); }"""
    )
    expect(found).to_have_text("Not planned: what was asked for cannot be so")
    expect(page.locator("glance-facts").get_by_role("link").last).to_be_focused()


def test_a_figure_of_the_head_is_told_whole(page: Page) -> None:
    """What a figure says behind its comma stands below it, smaller: which hours, what the price stands on."""
    expect(page.locator("#boards")).to_contain_text(_WORKED_OUT, timeout=60_000)
    sheets = page.request.get("/pieces/1/api/plan").json()["sheets"]
    overview = next(sheet for sheet in sheets if sheet["id"] == "overview")
    facts = dict(next(block["items"] for block in overview["blocks"] if block["kind"] == "facts"))
    assert facts["Hands on"].endswith(", counted by steps")
    told = [" ".join(words.split()) for words in page.locator("glance-facts dd").all_inner_texts()]
    assert [words.replace(", ", " ") for words in map(_plain, facts.values())] == told


def test_keys_and_figures_of_the_head_keep_their_lines(page: Page) -> None:
    """Tried sizes bring one key more and move nothing; a figure and its label take a line each."""
    expect(page.locator("#boards")).to_contain_text(_WORKED_OUT, timeout=60_000)
    before = page.evaluate(_TOP_OF, "glance-facts")
    page.get_by_role("textbox", name="Length", exact=True).fill("1600 mm")
    expect(page.locator("piece-bar").get_by_role("button", name="Keep these sizes")).to_be_enabled()
    assert page.evaluate(_TOP_OF, "glance-facts") == before
    page.locator("piece-bar").get_by_role("button", name="Keep these sizes").click()
    expect(page.get_by_role("link", name="Versions", exact=True)).to_be_visible()
    expect(page.get_by_role("button", name="Undo", exact=True)).to_be_focused()
    assert page.evaluate(_TOP_OF, "glance-facts") - before < 20  # what was done may take a second line
    assert page.evaluate(_TOP_OF, "piece-bar a[href='write#versions']") == page.evaluate(
        _TOP_OF, "piece-bar > button"
    )
    assert set(page.evaluate(_LINES_OF, "glance-facts dt, glance-facts .whole")) == {1}


def test_sizes_are_kept_where_they_were_tried(page: Page) -> None:
    """Below the sizes stands the key as well, and says there what was done; by keys it is not far."""
    expect(page.locator("#boards")).to_contain_text(_WORKED_OUT, timeout=60_000)
    keep = page.locator("size-form").get_by_role("button", name="Keep these sizes")
    expect(keep).to_be_disabled()
    page.get_by_role("textbox", name="Width", exact=True).fill("700 mm")
    page.wait_for_selector("#parts .changed", state="attached")  # while it is worked out nothing is kept
    expect(keep).to_be_enabled()
    keep.press("Enter")
    expect(page.locator("size-form .said")).to_contain_text("Kept as version 2")
    expect(keep).to_be_disabled()
    assert page.request.get("/api/pieces/1").json()["piece"]["version"] == 2


def test_a_size_tried_while_others_are_kept_stays_tried(page: Page) -> None:
    """The address lets go of what is kept, and of nothing else."""
    page.wait_for_selector("#parts")
    page.get_by_role("textbox", name="Length", exact=True).fill("1600 mm")
    keep = page.locator("piece-bar").get_by_role("button", name="Keep these sizes")
    expect(keep).to_be_enabled()
    page.evaluate(HOLDING, "/versions")
    keep.click()
    page.wait_for_function("() => window.holds")
    page.get_by_role("textbox", name="Height", exact=True).fill("700 mm")
    page.wait_for_url("**height=700+mm**")
    page.evaluate("() => window.letGo()")
    page.wait_for_url(re.compile(r"\?height=700\+mm$"))
    assert page.request.get("/api/pieces/1").json()["content"]["given"] == {"length": "1600 mm"}
