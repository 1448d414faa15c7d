"""A name may be one long word, or look like markup: it stays a name, and makes no page wider."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext

from tests.web.kept_browser import Chromium, kept_server

__all__: list[str] = []

pytestmark = pytest.mark.browser

NAME = "<img src=x onerror=alert(1)>\"'&{{strip}}" + 60 * "W"
BOARD = "<b>C1" + 30 * "X"
READY = {
    "/pieces": "piece-list .card svg",
    "/pieces/1/": "#parts",
    "/pieces/1/write": "text-desk textarea",
    "/pieces/1/boards": "board-leaf svg",
    "/pieces/1/seasons": "#when table",
    "/pieces/1/yard": "yard-desk button",
    "/pieces/1/bench": ".step",
    "/pieces/1/papers": "paper-desk .files",
    "/stockroom": "main button",
    "/shop": "setting-field",
    "/rooms": "room-desk setting-field",
}
STICKS_OUT = """() => [...document.querySelectorAll('main *')].filter((each) => each.checkVisibility()
  && !each.closest('.frame, svg, .lined') && each.getBoundingClientRect().right > 361)
  .map((each) => each.outerHTML.slice(0, 120))"""


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory, chromium: Chromium) -> Iterator[BrowserContext]:
    """A small phone; a piece, its shop, its room and a board are called so."""
    with kept_server(tmp_path_factory.mktemp("names")) as address, chromium.windows() as browser:
        context = browser.new_context(
            base_url=address, viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True
        )
        context.set_default_timeout(60_000)
        demo = context.request.get("/api/demo").json()
        title, named = "title: Reading table with splayed legs", "name: Two people, small machines"
        assert title in demo["piece"]
        assert named in demo["shop"]["text"]
        demo["piece"] = demo["piece"].replace(title, f"title: {json.dumps(NAME)}")
        demo["shop"]["text"] = demo["shop"]["text"].replace(named, f"name: {json.dumps(NAME)}")
        demo["rack"]["text"] = demo["rack"]["text"].replace("C1", BOARD, 1)
        for what, body in (
            ("pieces", {"content": demo}),
            ("shops", {"text": demo["shop"]["text"]}),
            ("rooms", {"known": "Denver, CO", "name": NAME}),
        ):
            assert context.request.post(f"/api/{what}", data=body).status == 201
        yield context


@pytest.mark.parametrize("address", READY)
def test_it_is_a_name_and_nothing_sticks_out(phone: BrowserContext, address: str) -> None:
    """No markup comes of it, no word of a script is run, and at 360 px the page is 360 px wide."""
    page = phone.new_page()
    said: list[str] = []
    page.on("dialog", lambda dialog: (said.append(dialog.message), dialog.dismiss()))
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(address)
    page.wait_for_selector(READY[address])
    assert page.locator("img[src=x]").count() == 0
    assert page.evaluate(STICKS_OUT) == []
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    assert said == []
    page.close()
