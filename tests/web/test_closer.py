"""A closer look on the page: the piece cut open, and measured between two edges."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from starlette.testclient import TestClient

from tests.web.kept_browser import Chromium, drawn

__all__: list[str] = []

_FRONT_EDGE = [[0.0, 0.74, 0.33], [1.37, 0.74, 0.33]]
_BACK_EDGE = [[0.0, 0.74, -0.33], [1.37, 0.74, -0.33]]


def test_the_top_is_measured_across(client: TestClient) -> None:
    """Two parallel edges 660 mm apart, front to back, in the unit asked for."""
    asked = {"first": _FRONT_EDGE, "second": _BACK_EDGE}
    told = client.post("/api/measure?units=mm", json=asked).json()
    assert told["words"].replace("\N{NO-BREAK SPACE}", " ") == "660 mm"
    steps = [[name, size.replace("\N{NO-BREAK SPACE}", " ")] for name, size in told["steps"]]
    assert steps == [["Along", "0 mm"], ["Front to back", "660 mm"], ["Up", "0 mm"]]
    assert told["startM"][2] - told["endM"][2] == pytest.approx(0.66)
    inches = client.post("/api/measure?units=in", json=asked).json()["words"]
    assert inches.replace("\N{NO-BREAK SPACE}", " ") == "25 63/64 in"


@pytest.mark.parametrize(
    ("first", "code"),
    [
        ([[0, 0, 0], [0, 0, 0]], "no_edge"),
        ([[0, 0, 0]], "body_missing"),
        ([[0, 0], [0, 0, 1]], "body_missing"),
        ([[0, 0, 0], [0, 0, 1e9]], "body_less_than_equal"),
    ],
    ids=["no length", "one end", "a flat place", "another country"],
)
def test_what_is_no_edge_is_refused(client: TestClient, first: list[list[float]], code: str) -> None:
    """Nothing is measured from it."""
    answer = client.post("/api/measure", json={"first": first, "second": _BACK_EDGE})
    assert answer.status_code == 422
    assert answer.json()["errors"][0]["code"] == code


@pytest.fixture
def desk(address: str, chromium: Chromium) -> Iterator[Page]:
    """The page of the piece, drawn."""
    with chromium.windows() as browser:
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        page.goto(f"{address}?units=mm")
        page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
        page.wait_for_selector("#parts", timeout=60_000)
        yield page


def _picked(page: Page) -> int:
    count: Any = page.evaluate("document.querySelector('plate-tools').state.picked.length")
    return int(count)


def _wooden_pixels(page: Page) -> int:
    """Pixels of the picture that are neither ground nor shadow: red well over blue."""
    count: Any = page.evaluate(
        """async () => {
          const drawn = document.querySelector("piece-plate canvas");
          const flat = new OffscreenCanvas(drawn.width, drawn.height).getContext("2d");
          flat.drawImage(drawn, 0, 0);
          const { data } = flat.getImageData(0, 0, drawn.width, drawn.height);
          let wood = 0;
          for (let i = 0; i < data.length; i += 4) {
            if (data[i + 3] > 200 && data[i] > data[i + 2] + 25) wood += 1;
          }
          return wood;
        }"""
    )
    return int(count)


def _settled(page: Page) -> int:
    """The wooden pixels once two readings agree: the picture gives room to what is laid out beside it."""
    before, now = -1, -2
    while before != now:
        page.wait_for_timeout(300)
        drawn(page)
        before, now = now, _wooden_pixels(page)
    return now


@pytest.mark.browser
def test_a_cut_takes_half_the_piece_away_and_gives_it_back(desk: Page) -> None:
    """Less wood is seen when cut across, less still further on, and all of it when whole again."""
    whole = _settled(desk)
    desk.get_by_role("button", name="Across", exact=True).click()
    half = _settled(desk)
    desk.get_by_label("Where").fill("20")
    little = _settled(desk)
    desk.get_by_role("button", name="Whole").click()
    assert 0.3 * whole < half < 0.8 * whole
    assert little < 0.7 * half
    assert _settled(desk) == pytest.approx(whole, rel=0.01)


@pytest.mark.browser
def test_two_edges_tapped_tell_their_distance(desk: Page) -> None:
    """Sweeping down the middle of the picture finds two edges; the figure is told with its three steps."""
    desk.get_by_role("button", name="Measure").click()
    box = desk.locator("piece-plate").bounding_box()
    assert box is not None
    for step in range(12, int(box["height"]) - 12, 6):
        desk.mouse.click(box["x"] + box["width"] * 0.55, box["y"] + step)
        if _picked(desk) == 2:
            break
    desk.wait_for_selector(".measured b")
    assert desk.locator(".measured b").inner_text().replace("\N{NO-BREAK SPACE}", " ").split()[1] == "mm"
    assert desk.locator(".measured span").count() == 3


@pytest.fixture
def phone(address: str, chromium: Chromium) -> Iterator[Page]:
    """The page of the piece on a small phone, touched with a thumb."""
    with chromium.windows() as browser:
        context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
        page = context.new_page()
        page.goto(f"{address}?units=mm")
        page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
        page.wait_for_selector("#parts", timeout=60_000)
        yield page


@pytest.mark.browser
def test_a_thumb_cuts_the_piece_open_and_measures_it(phone: Page) -> None:
    """Behind one key: a cut takes wood away, two edges tell their distance, and put away all is whole."""
    whole = _settled(phone)
    closer = phone.get_by_role("button", name="Closer")
    assert phone.get_by_role("button", name="Across").count() == 0
    closer.tap()
    phone.get_by_role("button", name="Across").tap()
    assert _settled(phone) < 0.9 * whole
    phone.get_by_role("button", name="Whole").tap()
    phone.get_by_role("button", name="Measure").tap()
    box = phone.locator("piece-plate").bounding_box()
    assert box is not None
    for step in range(20, int(box["height"]) - 20, 8):
        phone.touchscreen.tap(box["x"] + box["width"] * 0.5, box["y"] + step)
        if _picked(phone) == 2:
            break
    phone.wait_for_selector(".measured b")
    assert phone.evaluate("document.documentElement.scrollWidth") == 360
    closer.tap()
    expect(phone.locator(".measured")).to_have_count(0)
    expect(phone.locator("plate-tools .cuts")).to_be_hidden()
