"""Keys pressed while the page changes: a press counts where it began, and once."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Request, expect

from tests.web.kept_browser import HOLDING, Chromium, drawn, kept_page

pytestmark = pytest.mark.browser


@pytest.fixture
def form(tmp_path: Path, chromium: Chromium) -> Iterator[Locator]:
    """The form of a new part of a kept bookcase, as a shelf between its sides is drawn."""
    with kept_page(tmp_path, chromium, "bookcase") as page:
        page.wait_for_selector("#parts", timeout=60_000)  # what comes late moves what is below it
        page.get_by_role("combobox", name="Show a part").select_option("side_left")
        page.get_by_role("button", name="Add a part", exact=True).click()
        form = page.get_by_role("form", name="A new part")
        form.get_by_label("What it is").select_option("panel")
        form.get_by_label("It stands").select_option("between")
        form.get_by_label("Name").fill("Middle shelf")
        form.get_by_label("Above the floor").fill("bottom_z + pitch / 2")
        form.get_by_label("Width", exact=True).fill("shelf_depth")
        form.get_by_label("Width", exact=True).press("Enter")  # drawn at once, and not again after a moment
        expect(form.get_by_role("status")).to_contain_text("It stands in", timeout=30_000)
        yield form


def _middle(of: Locator) -> tuple[float, float]:
    of.scroll_into_view_if_needed()
    box = of.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_a_key_pushed_from_under_the_pointer_is_pressed_all_the_same(form: Locator) -> None:
    """The press leaves a field, what is redrawn for it moves the key, and the button is let go elsewhere."""
    page, behind = form.page, form.get_by_label("Behind the middle")
    page.evaluate(HOLDING, "/parts/try")
    behind.fill("shelf_x")
    expect(form.get_by_role("status")).to_have_text("Drawing it ...")
    key = form.get_by_role("button", name="Keep this part")
    page.mouse.move(*_middle(key))
    page.mouse.down()
    key.evaluate("(key) => { key.style.translate = '0 90px'; }")  # as whatever is redrawn above it does
    page.evaluate("() => window.letGo()")
    expect(form.locator("#new-y-fault")).to_contain_text("shelf_y", timeout=30_000)
    page.mouse.up()
    expect(behind).to_be_focused(timeout=30_000)
    behind.fill("shelf_y")
    expect(form.get_by_role("status")).to_contain_text("It touches", timeout=30_000)
    key.click()
    page.get_by_text("Kept as version 2").wait_for(timeout=30_000)


def test_the_keys_of_the_form_lie_still_while_it_is_drawn_anew(form: Locator) -> None:
    """On a phone too, where what the part touches takes several lines and "Drawing it ..." takes one."""
    page, key = form.page, form.get_by_role("button", name="Keep this part")
    page.set_viewport_size({"width": 360, "height": 740})
    drawn(page)
    assert form.locator(".meets").evaluate("(told) => told.clientHeight") > 40
    before = form.evaluate("(form) => form.clientHeight")
    page.evaluate(HOLDING, "/parts/try")
    form.get_by_label("Behind the middle").fill("1 mm")
    expect(form.get_by_role("status")).to_have_text("Drawing it ...")
    assert form.evaluate("(form) => form.clientHeight") == before
    expect(key).to_be_visible()


def test_a_press_is_taken_back_by_moving_away(form: Locator) -> None:
    """Let go beside the key by hand, it is not pressed; let go on it, it is."""
    page, key = form.page, form.get_by_role("button", name="Put it away")
    x, y = _middle(key)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y + 120, steps=4)
    page.mouse.up()
    expect(form).to_be_visible()
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y + 120, steps=4)
    page.mouse.move(x, y, steps=4)
    page.mouse.up()
    expect(form).to_have_count(0)


def test_a_part_asked_for_anew_while_it_is_kept_is_judged_by_the_last_answer(form: Locator) -> None:
    """Other sizes come while the answer is waited for: the fault is told, and its field can be written in."""
    page, behind = form.page, form.get_by_label("Behind the middle")
    kept: list[Request] = []
    page.on("request", lambda sent: kept.append(sent) if sent.url.endswith("/parts") else None)
    page.evaluate(HOLDING, "/parts/try")
    behind.fill("shelf_x")
    form.get_by_role("button", name="Keep this part").click()
    page.wait_for_function("() => window.holds === 1")
    page.get_by_label("Height", exact=True).first.fill("1700")
    page.wait_for_function("() => window.holds > 1", timeout=30_000)  # asked anew, of the other sizes
    page.evaluate("() => window.letGo()")
    expect(behind).to_be_focused(timeout=30_000)
    assert kept == []


def test_a_part_kept_by_two_taps_is_kept_once(form: Locator) -> None:
    """The second tap comes while the first is answered."""
    page, kept = form.page, list[Request]()
    page.on("request", lambda sent: kept.append(sent) if sent.url.endswith("/parts") else None)
    page.evaluate(HOLDING, "/parts")
    form.get_by_role("button", name="Keep this part").dblclick()
    page.wait_for_function("() => window.holds")
    page.evaluate("() => window.letGo()")
    page.get_by_text("Kept as version 2").wait_for(timeout=30_000)
    assert len(kept) == 1
    page.get_by_role("button", name="Add a part", exact=True).click()
    expect(form.get_by_label("Name")).to_have_value("")
    expect(form.locator(".fault", has_text="elsewhere")).to_have_count(0)


def test_joints_offered_for_a_new_part_take_no_cursor_away(form: Locator) -> None:
    """They come a while after it is kept: where somebody writes elsewhere by then, that goes on."""
    page, kept = form.page, form.get_by_role("button", name="Keep this part")
    form.get_by_label("Behind the middle").fill("shelf_y")
    expect(form.get_by_role("status")).to_have_text(re.compile("^It touches[^.]*[.]$"), timeout=30_000)
    page.evaluate(HOLDING, "/meetings")
    kept.click()
    page.get_by_text("Kept as version 2").wait_for(timeout=30_000)
    height = page.get_by_role("textbox", name="Height", exact=True)
    height.focus()
    page.evaluate("() => window.letGo()")
    expect(page.locator("meeting-list li").first).to_contain_text("iddle shelf", timeout=30_000)
    expect(page.locator("meeting-list details")).to_have_attribute("open", "")
    expect(height).to_be_focused()
