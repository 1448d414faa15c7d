"""The list of pieces: begun from a form, a file and the demo, renamed, put away and taken out."""

from __future__ import annotations

import re
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect
from starlette.testclient import TestClient

from tests.web.kept_browser import Chromium, kept_server
from tests.web.records import app_with_records
from tests.web.specimen import DEMO

__all__: list[str] = []


def test_a_form_has_a_picture_and_the_demo_all_that_goes_with_it(tmp_path: Path) -> None:
    """The picture is a drawing; the demo comes with shop, rack and room; an unknown form is refused."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        drawn = client.get("/api/forms/hall-bench/picture.svg")
        assert drawn.headers["content-type"] == "image/svg+xml"
        assert drawn.text.startswith("<svg")
        demo = client.get("/api/demo").json()
        assert demo["piece"] == DEMO.read_text(encoding="utf-8")
        assert all(demo[what]["text"] for what in ("shop", "rack", "room"))
        assert client.get("/api/forms/no-such/picture.svg").status_code in {404, 422}
        begun = client.post("/api/pieces", json={"content": demo}).json()["piece"]
        assert client.get(f"/pieces/{begun['number']}/api/shape").json()["ok"]


@pytest.fixture
def page(tmp_path: Path, chromium: Chromium) -> Iterator[Page]:
    """The list of pieces, empty, on a phone."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        page = browser.new_page(viewport={"width": 360, "height": 740})
        page.goto(address)
        page.wait_for_selector("piece-list .none")
        yield page


@pytest.mark.browser
def test_a_piece_is_begun_called_something_else_and_put_away(page: Page) -> None:
    """From a form to its page, back to the list, and out of it and in again."""
    assert page.url.endswith("/pieces")
    page.get_by_role("button", name="Begin this one: Hall bench on staked legs").click()
    page.wait_for_url("**/pieces/1/")
    page.go_back()
    page.get_by_role("button", name="Rename").click()
    page.get_by_label("Name").fill("Bench <b>for</b> Anna")
    page.get_by_role("button", name="Call it so").click()
    page.get_by_role("link", name="Bench <b>for</b> Anna", exact=True).wait_for()
    page.locator("piece-list .picture svg").wait_for()
    page.get_by_role("button", name="Put away", exact=True).click()
    page.wait_for_selector("piece-list .none")
    page.get_by_role("button", name="What is put away").click()
    page.get_by_role("button", name="Take out").click()
    page.get_by_role("button", name="Back to my pieces").click()
    page.get_by_role("link", name="Bench <b>for</b> Anna", exact=True).wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


@pytest.mark.browser
def test_a_list_asked_for_before_does_not_replace_the_one_asked_for_last(page: Page) -> None:
    """Turned to and fro while the first answer is on its way: that one says of no piece, and comes last."""
    page.get_by_role("button", name="Begin this one: Hall bench on staked legs").click()
    page.wait_for_url("**/pieces/1/")
    page.go_back()
    page.get_by_role("button", name="Put away", exact=True).click()
    page.get_by_role("button", name="What is put away").click()
    page.get_by_role("button", name="Take out").click()
    page.wait_for_selector("piece-list .none")
    page.evaluate(
        """() => {
            const ask = window.fetch;
            const late = new Promise((done) => (window.answerLate = done));
            let first = true;
            window.fetch = (...asked) => {
                const held = first && String(asked[0]?.url ?? asked[0]).endsWith("/api/pieces");
                if (!held) return ask(...asked);
                first = false;
                const headers = { "content-type": "application/json" };
                return late.then(() => new Response('{"pieces": []}', { headers }));
            };
        }"""
    )
    page.get_by_role("button", name="Back to my pieces").click()
    page.get_by_role("button", name="What is put away").click()
    page.get_by_role("button", name="Back to my pieces").click()
    bench = page.get_by_role("link", name="Hall bench on staked legs", exact=True)
    bench.wait_for()
    page.evaluate("window.answerLate()")
    page.wait_for_timeout(500)
    expect(bench).to_be_visible()


@pytest.mark.browser
def test_a_piece_is_begun_from_a_file(page: Page) -> None:
    """The file's title is its name."""
    page.locator("input[type=file]").set_input_files(DEMO)
    page.wait_for_url("**/pieces/1/", wait_until="commit")
    page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
    assert page.locator("h1").inner_text() == "Reading table with splayed legs"


@pytest.mark.browser
def test_a_page_that_is_gone_back_to_shows_the_piece_as_it_is_now(page: Page) -> None:
    """Not as the browser kept it: what was changed since, elsewhere, is there, and can be undone."""
    page.get_by_role("button", name="Begin this one: Hall bench on staked legs").click()
    page.wait_for_url("**/pieces/1/")
    expect(page.locator("piece-bar [role=status]")).to_have_text("Version 1 of 1.", timeout=60_000)
    page.get_by_role("link", name="Bench", exact=True).click()
    page.wait_for_url("**/pieces/1/bench")
    kept = page.url.replace("/pieces/1/bench", "/api/pieces/1")
    content = page.request.get(kept).json()["content"]
    content["piece"] += "\n# Looked over.\n"
    change = {"content": content, "parent": 1, "why": "Written by hand"}
    assert page.request.post(f"{kept}/versions", data=change).status == 201
    page.go_back()
    expect(page.locator("piece-bar [role=status]")).to_have_text("Version 2 of 2.", timeout=60_000)
    expect(page.get_by_role("button", name="Undo")).to_be_enabled()


@pytest.mark.browser
def test_what_is_said_of_the_packet_goes_when_the_piece_is_changed(page: Page) -> None:
    """The packet was opened; the wood changed after it says so, not the packet."""
    page.get_by_role("button", name="Begin this one: Hall bench on staked legs").click()
    page.wait_for_url("**/pieces/1/")
    with page.expect_popup(timeout=60_000):
        page.get_by_role("link", name="Print the packet").click()
    status = page.locator("piece-bar [role=status]")
    expect(status).to_contain_text("The packet opens")
    page.get_by_role("combobox", name="Wood").first.fill("white oak")
    page.get_by_role("button", name="Take this wood").first.click()
    expect(status).to_contain_text("Kept as version 2", timeout=30_000)


@pytest.mark.browser
def test_the_packet_is_of_the_sizes_typed_while_their_plan_is_on_its_way(page: Page) -> None:
    """Not of those before, whose figures still stand; that they follow is said."""
    page.get_by_role("button", name="Begin this one: Hall bench on staked legs").click()
    page.wait_for_url("**/pieces/1/")
    printed = page.get_by_role("link", name="Print the packet")
    printed.wait_for(timeout=60_000)
    held: list[Route] = []
    through = threading.Event()
    page.route(
        re.compile(r"/api/(figures|plan)\?.*length="),
        lambda route, _request: route.continue_() if through.is_set() else held.append(route),
    )
    length = page.get_by_role("textbox", name="Length", exact=True)
    length.fill("1180 mm")
    length.press("Enter")
    expect(printed).to_have_attribute("href", re.compile(r"[?&]length=1180(\+|%20)mm"))
    status = page.locator("piece-bar [role=status]")
    expect(status).to_have_text("Sizes tried, not kept yet. Working out what follows ...")
    page.wait_for_timeout(300)
    through.set()
    for route in held:
        route.continue_()
    expect(status).to_have_text("Sizes tried, not kept yet.", timeout=60_000)
    length.fill("9 km")
    length.press("Enter")
    expect(status).to_contain_text("mend it")
    expect(printed).to_have_attribute("href", re.compile(r"[?&]length=1180(\+|%20)mm"))
