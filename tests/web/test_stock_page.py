"""The stockroom on a phone: boards typed in, chosen, used with an offcut kept, and all of it taken back."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from scantling.web.documents.shell import static_folder
from scantling.web.sent import stock_bodies
from tests.web.kept_browser import HOLDING, Chromium, kept_server
from tests.web.specimen import DEMO

TYPES = static_folder() / "js" / "types.js"
RACK = DEMO.parent / "racks" / "reading-table.csv"


@pytest.mark.parametrize(
    "kind", ["BoardBody", "StackBody", "StockBody", "EventBody", "ActBody", "OffcutBody", "CutBody"]
)
def test_types_name_the_fields_that_are_sent(kind: str) -> None:
    """``types.js`` has the same fields in the same order as what the server sends."""
    block = (
        TYPES.read_text(encoding="utf-8").split(f"@typedef {{object}} {kind}", 1)[1].split("@typedef", 1)[0]
    )
    model = getattr(stock_bodies, kind)
    sent = [field.alias for field in model.model_fields.values()]
    assert re.findall(r"@property \{.+\} (\w+)", block) == sent


@pytest.fixture
def page(tmp_path: Path, chromium: Chromium) -> Iterator[Page]:
    """An empty stockroom, on a phone."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        page = browser.new_page(viewport={"width": 360, "height": 740})
        complaints: list[str] = []
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.goto(f"{address}pieces")
        page.get_by_role("link", name="Stockroom").click()
        page.wait_for_selector("stock-room .none")
        yield page
        assert complaints == []


def _type_in(page: Page, **told: str) -> None:
    for label, words in told.items():
        page.get_by_label(label.replace("_", " "), exact=True).fill(words)
    page.get_by_role("button", name="Take it in").click()


@pytest.mark.browser
def test_a_board_is_typed_in_and_what_is_wrong_is_told(page: Page) -> None:
    """The next one is of the same wood; a wood that is not known stays in its field with the way out."""
    _type_in(page, Chalked="A1", Wood="cheery", Thickness="5/4", Length="8 ft", Width="7 1/2 in")
    expect(page.get_by_role("alert")).to_contain_text("cheery")
    assert page.get_by_label("Chalked").input_value() == "A1"
    _type_in(page, Wood="cherry", From="The mill")
    expect(page.get_by_role("status")).to_have_text("Kept: bought A1 from The mill.")
    expect(page.get_by_role("heading", level=2).first).to_have_text(
        "5/4 black cherry 1 board, 6.2 bf, 0.015 m³"
    )
    assert page.get_by_label("Wood").input_value() == "cherry"
    assert page.get_by_label("Chalked").input_value() == ""
    page.get_by_role("button", name="Inches").click()
    expect(page.locator(".size")).to_have_text("96 × 7 1/2 in")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


@pytest.mark.browser
def test_the_stockroom_opens_where_the_browser_keeps_nothing(page: Page) -> None:
    """Storage switched off: its unit is chosen all the same, and lasts as long as the page."""
    page.locator("stock-in input[type=file]").set_input_files(RACK)
    expect(page.locator(".size").first).to_contain_text("mm")
    off = "Object.defineProperty(window, 'localStorage', {get() { throw new Error('SecurityError'); }})"
    page.add_init_script(off)
    page.reload()
    expect(page.locator(".size").first).to_contain_text("mm")
    page.get_by_role("button", name="Inches").click()
    expect(page.locator(".size").first).to_contain_text("in")


@pytest.mark.browser
def test_a_board_is_used_its_offcut_kept_and_all_of_it_taken_back(page: Page) -> None:
    """Chosen from a rack taken in as a file; keys and list do without a mouse; words never become markup."""
    page.locator("stock-in input[type=file]").set_input_files(RACK)
    page.get_by_role("checkbox", name="C1").check()
    page.get_by_role("button", name="Use", exact=True).click()
    page.get_by_label("For", exact=True).fill("<b>Stool</b>")
    page.get_by_label("Offcut kept").fill("900")
    page.get_by_label("by", exact=True).fill("140")
    page.keyboard.press("Enter")
    said = "used C1 for <b>Stool</b>; kept C1 offcut"
    expect(page.get_by_role("status")).to_have_text(f"Kept: {said}.")
    names = page.locator(".stack li b")
    assert sorted(names.all_inner_texts()) == ["C1 offcut", "C2", "C3", "C4", "L1", "L2"]
    assert page.locator(".chosen").count() == 0
    page.evaluate(HOLDING, "take-back")
    back = page.get_by_role("button", name=f"Take back: {said}")
    back.click()
    expect(back).to_be_disabled()  # a second tap would take back what was done before it, too
    page.evaluate("() => window.letGo()")
    expect(names).to_have_text(["C1", "C2", "C3", "C4", "L1", "L2"])
    expect(page.locator(".acts .gone")).to_contain_text("(taken back)")


@pytest.mark.browser
def test_labels_of_those_chosen_are_offered(page: Page) -> None:
    """Their address names the boards, and answers with a PDF."""
    page.locator("stock-in input[type=file]").set_input_files(RACK)
    page.get_by_role("checkbox", name="C2").check()
    page.get_by_role("checkbox", name="L1").check()
    address = page.get_by_role("link", name="Labels", exact=True).get_attribute("href")
    assert address == "/api/stockroom/labels.pdf?units=mm&paper=a4&board=2&board=5"
    assert (
        page.request.get(page.url.replace("/stockroom", address)).headers["content-type"] == "application/pdf"
    )


@pytest.mark.browser
def test_a_piece_is_cut_from_what_is_there(page: Page) -> None:
    """Laid out on the stockroom first, told, then done; a second time it asks whether it is another one."""
    begun = page.request.post(page.url.replace("/stockroom", "/api/pieces"), data={"form": "reading-table"})
    assert begun.status == 201
    page.locator("stock-in input[type=file]").set_input_files(RACK)
    page.get_by_role("button", name="Show what it takes").click()
    page.get_by_role("button", name="Lay it out on the stockroom").click()
    out = page.locator(".cut p", has_text="Goes out:")
    out.wait_for(timeout=60_000)
    assert "C1 (2440 × 175 mm)" in out.inner_text()
    before = page.locator(".stack li b").all_inner_texts()
    page.get_by_role("button", name="It is sawn, take it out").click()
    page.locator(".cut p", has_text="Out of the stockroom:").wait_for(timeout=60_000)
    expect(page.locator(".stack li b", has_text="C1 offcut").first).to_be_visible()
    assert "C1" in before
    assert "C1" not in page.locator(".stack li b").all_inner_texts()
    page.get_by_role("button", name="Show what it takes").click()
    page.locator(".cut .fault, stock-cut .notice").first.wait_for(timeout=60_000)


@pytest.mark.browser
def test_a_piece_can_be_written_down_to_be_planned_with_the_stockroom(page: Page) -> None:
    """By a key beside its rack; the words say what that means."""
    page.request.post(page.url.replace("/stockroom", "/api/pieces"), data={"form": "reading-table"})
    page.goto(page.url.replace("/stockroom", "/pieces/1/write"))
    page.get_by_role("button", name="Rack", exact=True).click()
    page.get_by_role("button", name="Plan with the stockroom").click()
    expect(page.locator(".notice", has_text="The timber in the stockroom")).to_be_visible()
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.get_by_role("status").first).to_have_text("Saved.")
    kept = page.request.get(page.url.replace("/pieces/1/write", "/api/pieces/1")).json()
    assert kept["content"]["rack"] == {"name": "stockroom", "text": None}


@pytest.mark.browser
def test_what_is_written_while_a_board_comes_in_stays(page: Page) -> None:
    """The name of the next one is not emptied with what was sent."""
    page.evaluate(HOLDING, "/stockroom/add")
    _type_in(page, Chalked="A1", Wood="cherry", Thickness="5/4", Length="8 ft", Width="7 1/2 in")
    page.wait_for_function("() => window.holds")
    page.get_by_label("Chalked").fill("A2")
    page.evaluate("() => window.letGo()")
    expect(page.get_by_label("Length", exact=True)).to_have_value("")
    expect(page.get_by_label("Chalked")).to_have_value("A2")


@pytest.mark.browser
def test_what_another_window_did_is_not_taken_back_unseen(page: Page) -> None:
    """It is told, and the key names what is the last by now."""
    _type_in(page, Chalked="A1", Wood="cherry", Thickness="5/4", Length="8 ft", Width="7 1/2 in")
    back = page.get_by_role("button", name="Take back:")
    expect(back).to_have_text("Take back: bought A1")
    sold = {"kind": "sold", "boards": [1]}
    origin = page.url.split("/stockroom")[0]
    assert page.request.post(f"{origin}/api/stockroom/go", data=sold).status == 201
    back.click()
    expect(page.get_by_role("alert")).to_contain_text("No. 2 is the last that counts by now")
    expect(back).to_have_text("Take back: sold A1")
    back.click()
    expect(back).to_have_text("Take back: bought A1")
    expect(page.get_by_role("alert")).to_have_count(0)
