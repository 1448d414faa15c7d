"""What is shown lies still while the rest of a page comes; a layout proven best offers no search."""

from __future__ import annotations

import time
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect

from tests.plan.jobs import EXAMPLES
from tests.web.kept_browser import Chromium, kept_server

__all__: list[str] = []

pytestmark = pytest.mark.browser

LATE_S = 0.7
"""How long each typeface keeps the browser waiting. [s]"""
WATCH = """what => {
  window.seen = [];
  const look = () => {
    const found = document.querySelector(what);
    if (found?.checkVisibility()) {
      const top = Math.round(found.getBoundingClientRect().top + scrollY);
      if (seen.at(-1) !== top) seen.push(top);
    }
    requestAnimationFrame(look);
  };
  look();
}"""
BIG_BOARD = "name,species,thickness,length,width,price\nA,black walnut,4/4,2440 mm,300 mm,50\n"


@pytest.fixture(scope="module")
def browser_on(
    tmp_path_factory: pytest.TempPathFactory, chromium: Chromium
) -> Iterator[tuple[Browser, BrowserContext]]:
    """A browser, and one on a server with the demo piece, and the tray on one big board."""
    folder = tmp_path_factory.mktemp("still")
    with kept_server(folder) as address, chromium.windows() as browser:
        context = browser.new_context(base_url=address, viewport={"width": 1280, "height": 900})
        demo = context.request.get("/api/demo").json()
        tray = {"piece": (EXAMPLES / "tray.yaml").read_text(encoding="utf-8")}
        rack = {"name": "one.csv", "text": BIG_BOARD}
        for content in (demo, {**tray, "rack": rack}):
            assert context.request.post("/api/pieces", data={"content": content}).status == 201
        yield browser, context


def _watched(browser: Browser, address: str, *, width: int, what: str) -> Page:
    """A page whose typefaces come late, and where something on it has been since it was first seen."""
    phone = width < 500
    context = browser.new_context(
        viewport={"width": width, "height": 800},
        has_touch=phone,
        is_mobile=phone,
        reduced_motion="reduce",
        service_workers="block",
    )
    page = context.new_page()

    def late(route: Route) -> None:
        time.sleep(LATE_S)
        route.continue_()

    page.route("**/fonts/*", late)
    page.add_init_script(f"addEventListener('DOMContentLoaded', () => ({WATCH})({what!r}))")
    page.goto(address)
    return page


@pytest.mark.parametrize("width", [1280, 360])
@pytest.mark.parametrize(
    ("place", "what", "last", "most_px"),
    [
        pytest.param("/pieces/1/boards", "board-leaf svg", "board-leaf svg", 4, id="boards"),
        pytest.param("/pieces/1/", "glance-facts", "piece-bar a.key", 12, id="head"),
    ],
)
def test_what_is_shown_lies_still_while_the_rest_comes(
    browser_on: tuple[Browser, BrowserContext], width: int, place: str, what: str, last: str, most_px: float
) -> None:
    """Late typefaces push no board from under a hand; the keys of a piece have room before they come."""
    browser, context = browser_on
    opened = context.new_page()
    opened.goto(place)
    page = _watched(browser, opened.url, width=width, what=what)
    page.wait_for_selector(last, timeout=60_000)
    page.evaluate("document.fonts.ready")
    page.wait_for_timeout(1500)
    seen = page.evaluate("seen")
    assert seen
    assert max(seen) - min(seen) <= most_px, seen
    page.context.close()


def test_where_the_layout_is_proven_best_no_search_is_offered(
    browser_on: tuple[Browser, BrowserContext],
) -> None:
    """It says so instead; where better ones may exist, the key is there."""
    _, context = browser_on
    page = context.new_page()
    page.goto("/pieces/2/boards")
    expect(page.locator("board-search")).to_contain_text("Proven best", timeout=60_000)
    expect(page.get_by_role("button", name="Search for a better layout")).to_have_count(0)
    page.goto("/pieces/1/boards")
    expect(page.get_by_role("button", name="Search for a better layout")).to_be_visible(timeout=60_000)
    assert "Proven best" not in page.locator("board-search").inner_text()
