"""What a maker does with a thumb: sizes typed over, remedies, boards marked; and one unit everywhere."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.plan.jobs import EXAMPLES
from tests.web.kept_browser import Chromium, kept_server

__all__: list[str] = []

pytestmark = pytest.mark.browser

_PLANNED_MS = 120_000
"""A plan may take so long on a machine with other work. [ms]"""
_TONGUES = ("tongue_thickness: 8 mm", "tongue_thickness: 14 mm")


@pytest.fixture
def phone(tmp_path: Path, chromium: Chromium) -> Iterator[BrowserContext]:
    """A phone on the demo piece, and on a table with tongues too thick for its top."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        context = browser.new_context(
            viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True, base_url=address
        )
        thick = (EXAMPLES / "reading_table.yaml").read_text(encoding="utf-8").replace(*_TONGUES)
        demo = context.request.get("/api/demo").json()
        for content in (demo, {"piece": thick}):
            assert context.request.post("/api/pieces", data={"content": content}).status == 201
        yield context


def _sizes(phone: BrowserContext) -> Page:
    page = phone.new_page()
    page.goto("/pieces/1/?units=in")
    page.wait_for_selector("size-field")
    return page


def test_what_is_typed_into_a_size_that_is_tapped_takes_its_place(phone: BrowserContext) -> None:
    """One tap and the figure; a fraction joined by a hyphen is that of an inch; its field stays in place."""
    page = _sizes(phone)
    length = page.get_by_role("textbox", name="Length")
    length.tap()
    place = "f => f.getBoundingClientRect().top - f.closest('size-field').getBoundingClientRect().top"
    before = length.evaluate(place)
    page.keyboard.type("54-3/8", delay=60)
    page.wait_for_url("**length=54-3%2F8+in**")
    expect(page.get_by_role("button", name="Back to")).to_be_visible()
    assert length.evaluate(place) == before
    box = page.get_by_role("button", name="Back to").bounding_box()
    assert box is not None
    assert box["height"] >= 44
    length.tap()  # the cursor is set now
    page.keyboard.press("End")
    page.keyboard.type(" in")
    expect(length).to_have_value("54-3/8 in")


_TYPED = """async (field, text) => {
  for (let end = 1; end <= text.length; end += 1) {
    field.value = text.slice(0, end);
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
    await new Promise((done) => setTimeout(done, 120));
  }
}"""
"""Typed at a hand's pace by the page's own clock, however busy the computer is."""


def test_a_figure_half_typed_is_no_fault(phone: BrowserContext) -> None:
    """On the way to 54 1/2 stands 5, which is too short; told is only what the hand rests on."""
    page = _sizes(phone)
    page.evaluate(
        """() => {
          window.told = [];
          const field = document.querySelector('size-field .fault');
          const look = () => field.hidden || told.push(field.textContent);
          new MutationObserver(look).observe(field, { attributes: true });
        }"""
    )
    length = page.get_by_role("textbox", name="Length")
    length.tap()
    with page.expect_response(lambda answer: "length=54+1%2F2+in" in answer.url and answer.ok):
        length.evaluate(_TYPED, "54 1/2")
    assert page.evaluate("told") == []
    length.fill("5")
    expect(page.locator("size-field .fault").first).to_contain_text("Length must be")


def test_a_remedy_is_told_where_its_key_was_and_opens_no_slip(phone: BrowserContext) -> None:
    """The slip of the part would lie over it; what was done is in sight, and has the focus."""
    page = phone.new_page()
    page.goto("/pieces/2/")
    page.locator(".finding").filter(has_text="F17").get_by_role("button").tap(timeout=_PLANNED_MS)
    told = page.locator(".mended")
    expect(told).to_contain_text("kept as version 2. Undo brings it back.", timeout=_PLANNED_MS)
    expect(page.locator(".finding").filter(has_text="F17")).to_have_count(0, timeout=_PLANNED_MS)
    expect(told).to_be_in_viewport()
    expect(told).to_be_focused()
    expect(page.locator("part-slip")).to_be_hidden()
    page.get_by_role("button", name="Undo").tap()
    expect(told).to_have_count(0)


def test_what_was_marked_on_a_board_is_told_beside_it(phone: BrowserContext) -> None:
    """The last board is far below the head of the page: what came of leaving it out is in sight."""
    page = phone.new_page()
    page.goto("/pieces/1/boards")
    page.get_by_role("button", name="Leave out").last.tap(timeout=_PLANNED_MS)
    told = page.locator(".said").first
    expect(told).to_contain_text("left out", timeout=_PLANNED_MS)
    expect(told).to_be_in_viewport()
    assert page.evaluate("scrollY") > 740


@pytest.mark.parametrize("place", ["", "boards", "seasons", "yard", "bench", "papers"])
def test_the_unit_chosen_is_that_of_every_place(phone: BrowserContext, place: str) -> None:
    """Inches chosen once are shown everywhere, also where an address names no unit."""
    page = phone.new_page()
    page.goto("/pieces/1/")
    page.wait_for_selector("size-field")
    page.locator("unit-switch select").select_option("in")
    with page.expect_response(lambda answer: "units=in" in answer.url, timeout=_PLANNED_MS):
        page.goto(f"/pieces/1/{place}")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_the_bench_turns_its_units(phone: BrowserContext) -> None:
    """In the shop as on the page: the key in the head shows the sizes in inches, and asks for them so."""
    page = phone.new_page()
    page.goto("/pieces/1/bench")
    page.locator("unit-switch select").select_option("in", timeout=_PLANNED_MS)
    page.get_by_text("Sizes as planned").first.tap()
    field = page.locator("details.sizes input").first
    expect(field).to_have_attribute("placeholder", "measured, in", timeout=_PLANNED_MS)
    expect(field).to_have_attribute("inputmode", "text")
    expect(page.locator("unit-switch select")).to_have_value("in")


def test_a_file_with_mistakes_is_called_by_its_title_and_leads_to_its_text(phone: BrowserContext) -> None:
    """Not by the name of a file nobody sees; the key below the faults leads to where they are mended."""
    text = (EXAMPLES / "hall_bench.yaml").read_text(encoding="utf-8").replace("white ash", "whiet ash")
    begun = phone.request.post("/api/pieces", data={"content": {"piece": text}})
    assert begun.status == 201
    page = phone.new_page()
    page.goto("/pieces/3/")
    expect(page.locator("h1")).to_have_text("Hall bench on staked legs")
    page.get_by_role("link", name="Mend it in its text").tap(timeout=_PLANNED_MS)
    page.wait_for_url("**/pieces/3/write")
    expect(page.get_by_text("whiet ash").first).to_be_visible()
