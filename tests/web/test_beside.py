"""The piece file beside the picture: typed it is drawn, changed on the page it is told, nothing is lost."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, expect

from tests.web.kept_browser import HOLDING, Chromium, kept_server
from tests.web.specimen import DEMO

__all__: list[str] = []

pytestmark = pytest.mark.browser

TEXT = DEMO.read_text(encoding="utf-8")


@pytest.fixture
def window(tmp_path: Path, chromium: Chromium) -> Iterator[BrowserContext]:
    """A browser on one piece that is kept."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        context = browser.new_context(viewport={"width": 1440, "height": 900}, base_url=address)
        begun = context.request.post("/api/pieces", data={"form": "reading-table"})
        assert begun.status == 201
        yield context


def _page(window: BrowserContext, *, open_it: bool = True) -> Page:
    page = window.new_page()
    page.goto("/pieces/1/")
    page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
    if open_it:
        page.get_by_role("button", name="Text beside the piece").click()
        expect(_field(page)).to_have_value(re.compile("^scantling: 1"))
        expect(page.locator(".standing")).to_contain_text("Version 1, saved.")
    return page


def _field(page: Page) -> Locator:
    return page.get_by_role("textbox", name="Text of the piece file")


def _write(page: Page, old: str, new: str) -> None:
    text = _field(page).input_value()
    assert old in text
    _field(page).fill(text.replace(old, new, 1))


def _line(text: str, of: str) -> int:
    return text[: text.index(of)].count("\n") + 1


def _kept(page: Page) -> Any:
    return page.request.get("/api/pieces/1").json()


def _marked(page: Page, look: str) -> list[int]:
    return [int(number) for number in page.locator(f".numbers .{look}").all_inner_texts()]


def _cursor_to(page: Page, of: str) -> None:
    """Put the cursor there as a click would."""
    _field(page).evaluate(
        """(field, at) => { field.focus(); field.setSelectionRange(at, at);
        field.dispatchEvent(new KeyboardEvent("keyup", {bubbles: true})); }""",
        _field(page).input_value().index(of),
    )


def _change(page: Page, field: str, value: str) -> None:
    """Write a field of the picked part otherwise, in its slip."""
    if not page.locator("details.entries").evaluate("e => e.open"):
        page.get_by_text("As it is written, to change").click()
    written = page.locator(".entries fieldset").first.get_by_label(field, exact=True)
    written.fill(value)
    written.press("Enter")


def test_what_is_typed_is_drawn_and_saved_only_by_its_key(window: BrowserContext) -> None:
    """Sizes and picture follow; the piece stays as it is until the key is pressed, comments and all."""
    page = _page(window)
    drawn = page.locator("piece-plate").get_attribute("data-ready")
    _write(page, "default: 740 mm", "default: 700 mm # as her desk")
    expect(page.get_by_role("textbox", name="Height")).to_have_value(re.compile("^700"))
    expect(page.locator("piece-plate")).not_to_have_attribute("data-ready", str(drawn))
    assert _kept(page)["piece"]["version"] == 1
    page.get_by_role("button", name="Save the text").click()
    expect(page.locator(".standing")).to_contain_text("Saved.")
    kept = _kept(page)
    assert kept["piece"]["version"] == 2
    assert "default: 700 mm # as her desk" in kept["content"]["piece"]
    page.get_by_role("button", name="Undo").click()
    expect(_field(page)).to_have_value(TEXT)
    expect(page.get_by_role("textbox", name="Height")).to_have_value(re.compile("^740"))


def test_a_fault_stands_at_its_line_and_the_picture_stays(window: BrowserContext) -> None:
    """The fault leads to its line; the last piece without faults is shown until it is mended."""
    page = _page(window)
    _write(page, "default: 740 mm", "default: 700 mm")
    expect(page.get_by_role("textbox", name="Height")).to_have_value(re.compile("^700"))
    _write(page, "units: mm", "units: furlong")
    words = f"1 to mend in line {_line(TEXT, 'units: mm')}"
    told = page.locator(".standing").get_by_role("button", name=words)
    expect(told).to_be_in_viewport()  # over the text, where whoever types sees it
    told.click()
    assert _field(page).evaluate("e => e.value.slice(e.selectionStart, e.selectionEnd)") == "units: furlong"
    _cursor_to(page, "coats: 4")
    page.locator(".faults .point").click()
    assert _marked(page, "bad") == [_line(TEXT, "units: mm")]
    picked = _field(page).evaluate("e => e.value.slice(e.selectionStart, e.selectionEnd)")
    assert picked == "units: furlong"
    expect(page.locator(f".numbers span:nth-child({_line(TEXT, 'units: mm')})")).to_be_in_viewport()
    expect(page.get_by_role("textbox", name="Height")).to_have_value(re.compile("^700"))
    expect(page.get_by_text("Until then the piece stays drawn as it was")).to_be_visible()
    _write(page, "units: furlong", "units: mm")
    expect(page.locator(".faults")).to_have_count(0)
    expect(told).to_have_count(0)


def test_a_size_changed_on_the_page_is_written_in_the_text(window: BrowserContext) -> None:
    """At its line, which is marked for a moment; cursor and place stay, and the address does not carry it."""
    page = _page(window)
    _cursor_to(page, "coats: 4")
    page.locator("lined-text").evaluate("e => e.scrollTop = 1000")
    cursor = _field(page).evaluate("e => e.selectionStart")
    page.get_by_role("textbox", name="Height").fill("28 3/4 in")
    page.get_by_role("textbox", name="Height").press("Enter")
    expect(_field(page)).to_have_value(TEXT.replace("default: 740 mm", "default: 28 3/4 in", 1))
    line = _line(TEXT, "default: 740 mm")
    assert _marked(page, "fresh") == [line]
    expect(page.locator(".standing")).to_contain_text(f"Line {line} changed. Not saved yet")
    grown = len("28 3/4 in") - len("740 mm")
    assert _field(page).evaluate("e => e.selectionStart") == cursor + grown
    assert page.locator("lined-text").evaluate("e => e.scrollTop") == 1000
    assert "height" not in page.url
    expect(page.locator(".numbers .fresh")).to_have_count(0, timeout=10_000)
    _change_size_beyond(page)


def _change_size_beyond(page: Page) -> None:
    """A size that cannot be is written too, and told at its line and at its field."""
    page.get_by_role("textbox", name="Height").fill("7 m")
    page.get_by_role("textbox", name="Height").press("Enter")
    expect(page.locator(".numbers .bad")).to_have_count(1)
    expect(page.locator("size-field [aria-invalid=true]")).to_have_count(1)
    page.get_by_role("button", name="Back to what is saved").click()
    expect(_field(page)).to_have_value(TEXT)
    expect(page.locator("size-field [aria-invalid=true]")).to_have_count(0)
    page.get_by_role("button", name="Bring back what I typed").click()
    expect(_field(page)).to_have_value(TEXT.replace("default: 740 mm", "default: 7 m", 1))


def test_sizes_tried_before_are_written_in_when_it_is_opened(window: BrowserContext) -> None:
    """One place holds what is not kept: the address lets go of them."""
    page = window.new_page()
    page.goto("/pieces/1/?height=700+mm")
    page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
    page.get_by_role("button", name="Text beside the piece").click()
    expect(_field(page)).to_have_value(TEXT.replace("default: 740 mm", "default: 700 mm", 1))
    assert "height" not in page.url


def test_a_size_kept_apart_is_told_and_written_in_by_a_key(window: BrowserContext) -> None:
    """It counts before what the text says, which would otherwise be typed over in vain."""
    saved = {"content": {"piece": TEXT, "given": {"height": "700 mm"}}, "parent": 1}
    assert window.request.post("/api/pieces/1/versions", data=saved).status == 201
    page = _page(window, open_it=False)
    page.get_by_role("button", name="Text beside the piece").click()
    expect(page.get_by_text("counting before it: height 700 mm")).to_be_visible()
    page.get_by_role("button", name="Write it in the text").click()
    expect(_field(page)).to_have_value(TEXT.replace("default: 740 mm", "default: 700 mm", 1))
    page.get_by_role("button", name="Save the text").click()
    expect(page.locator(".standing")).to_contain_text("Saved.")
    assert _kept(page)["content"]["given"] == {}


def test_a_part_changed_on_the_page_shows_in_the_text_beside_what_is_typed(window: BrowserContext) -> None:
    """On other lines both stand in the text, the changed ones marked; saved, the version holds both."""
    page = _page(window)
    _write(page, "coats: 4", "coats: 5 # one more")
    page.select_option("plate-controls select", "leg_fl")
    _change(page, "rings", "flat")
    both = TEXT.replace("coats: 4", "coats: 5 # one more", 1).replace("rings: rift", "rings: flat", 1)
    expect(_field(page)).to_have_value(both)
    assert _marked(page, "fresh") == [_line(TEXT, "rings: rift")]
    expect(page.locator(".standing")).to_contain_text("brought together with what you typed")
    assert "coats: 5" not in _kept(page)["content"]["piece"]
    page.get_by_role("button", name="Save the text").click()
    expect(page.locator(".standing")).to_contain_text("Saved.")
    assert _kept(page)["content"]["piece"] == both


@pytest.mark.parametrize(("key", "rings"), [("Keep mine", "quarter"), ("Take the other", "flat")])
def test_of_one_line_changed_twice_whoever_types_chooses(
    window: BrowserContext, key: str, rings: str
) -> None:
    """Both ways are told; what is not taken can be brought back, and nothing is saved by that."""
    page = _page(window)
    _write(page, "rings: rift", "rings: quarter")
    page.select_option("plate-controls select", "leg_fl")
    _change(page, "rings", "flat")
    expect(page.get_by_role("heading", name="Changed on the page meanwhile")).to_be_visible()
    assert "rings: flat" in page.locator(".pair pre").first.inner_text()
    assert "rings: quarter" in page.locator(".pair pre").last.inner_text()
    page.get_by_role("button", name=key).click()
    expect(_field(page)).to_have_value(TEXT.replace("rings: rift", f"rings: {rings}", 1))
    assert "rings: flat" in _kept(page)["content"]["piece"]
    if key == "Take the other":
        page.get_by_role("button", name="Bring back what I typed").click()
        expect(_field(page)).to_have_value(TEXT.replace("rings: rift", "rings: quarter", 1))
    page.get_by_role("button", name="Save the text").click()
    expect(page.locator(".standing")).to_contain_text("Saved.")
    assert "rings: quarter" in _kept(page)["content"]["piece"]


def test_what_is_being_written_of_a_part_goes_on_while_the_text_is_drawn(window: BrowserContext) -> None:
    """The slip of the part is laid anew then; its field keeps what is in it, and the cursor."""
    page = _page(window)
    page.evaluate(HOLDING, "/drafts/")
    _write(page, "default: 740 mm", "default: 700 mm")
    page.select_option("plate-controls select", "leg_fl")
    page.get_by_text("As it is written, to change").click()
    written = page.locator(".entries fieldset").first.get_by_label("rings", exact=True)
    written.click(click_count=3)
    page.keyboard.type("fl")
    page.wait_for_function("() => window.holds")
    page.evaluate("() => window.letGo()")
    expect(page.get_by_role("textbox", name="Height")).to_have_value(re.compile("^700"))
    expect(page.locator("part-slip .sizes dd").first).to_have_text(re.compile("^693.5"))
    page.keyboard.type("at")
    expect(written).to_have_value("flat")
    page.keyboard.press("Enter")
    expect(page.locator(".standing")).to_contain_text("brought together with what you typed")
    assert "rings: flat" in _kept(page)["content"]["piece"]


def test_a_size_stepped_there_and_back_is_written_back_too(window: BrowserContext) -> None:
    """Before its draft is drawn the size as drawn is still the old one; the text has what the field shows."""
    page = _page(window)
    page.evaluate(HOLDING, "/drafts/")
    height = page.locator("size-field", has=page.get_by_role("textbox", name="Height"))
    height.get_by_role("button", name="more").click()
    expect(_field(page)).not_to_have_value(TEXT)
    height.get_by_role("button", name="less").click()
    expect(_field(page)).to_have_value(TEXT)
    page.evaluate("() => window.letGo()")
    expect(page.get_by_role("textbox", name="Height")).to_have_value(re.compile("^740"))


def test_a_part_picked_in_the_picture_is_found_in_the_text(window: BrowserContext) -> None:
    """Its entry is marked and in sight; of a copy, the line that makes it."""
    page = _page(window)
    page.select_option("plate-controls select", "leg_fl")
    first = _line(TEXT, "  leg_fl:")
    expect(page.locator(".numbers .held").first).to_have_text(str(first))
    expect(page.locator(".numbers .held").first).to_be_in_viewport()
    page.select_option("plate-controls select", "end_right")
    expect(page.locator(".numbers .held")).to_have_text([str(_line(TEXT, "end_right:"))])


def test_the_entry_the_cursor_is_in_is_marked_in_the_picture(window: BrowserContext) -> None:
    """The part is named over the picture; out of every entry nothing is."""
    page = _page(window)
    _cursor_to(page, "section: [end_width, top_thickness]")
    name = page.locator("piece-plate .name")
    expect(page.locator(".numbers .held").first).to_have_text(str(_line(TEXT, "  end_left:")))
    _cursor_to(page, "end_right: {mirror")
    expect(name).to_have_text("End right")
    _cursor_to(page, "units: mm")
    expect(name).to_be_hidden()
    expect(page.locator(".numbers .held")).to_have_count(0)


def test_it_is_remembered_and_what_is_typed_outlives_a_save_made_elsewhere(window: BrowserContext) -> None:
    """Opened again it is there with what was typed, brought together with what was saved meanwhile."""
    page = _page(window)
    _write(page, "coats: 4", "coats: 5")
    expect(page.locator(".standing")).to_contain_text("Not saved yet")
    page.close(run_before_unload=False)
    change = {"path": ["parts", "leg_fl", "rings"], "text": "flat", "parent": 1}
    assert window.request.post("/api/pieces/1/entries", data=change).status == 201
    again = _page(window, open_it=False)
    both = TEXT.replace("coats: 4", "coats: 5", 1).replace("rings: rift", "rings: flat", 1)
    expect(_field(again)).to_have_value(both)
    again.get_by_role("button", name="Put the text away").click()
    expect(again.get_by_role("button", name="Text beside the piece not saved")).to_be_visible()
    expect(_field(again)).to_have_count(0)
    again.reload()
    expect(again.get_by_role("button", name="Text beside the piece not saved")).to_be_visible()
    assert _kept(again)["piece"]["version"] == 2


def test_it_is_worked_by_keys_alone(window: BrowserContext) -> None:
    """Opened, typed in, left by Tab, saved, and from the text to the picture."""
    page = _page(window, open_it=False)
    page.get_by_role("button", name="Text beside the piece").focus()
    page.keyboard.press("Enter")
    expect(_field(page)).to_have_value(TEXT)
    _field(page).focus()
    page.keyboard.press("Control+Home")
    page.keyboard.type("# a table\n")
    expect(page.locator(".standing")).to_contain_text("Not saved yet")
    page.keyboard.press("Control+s")
    expect(page.locator(".standing")).to_contain_text("Saved.")
    assert _kept(page)["content"]["piece"] == f"# a table\n{TEXT}"
    page.keyboard.press("Tab")
    expect(_field(page)).not_to_be_focused()
    _field(page).focus()
    page.keyboard.press("Escape")
    expect(page.locator("piece-plate")).to_be_focused()


def test_what_is_not_kept_has_no_text_beside_it(window: BrowserContext) -> None:
    """An older version is looked at, not written."""
    page = window.new_page()
    page.goto("/pieces/1/versions/1/")
    page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
    assert page.locator("text-beside").count() == 0
