"""The 3D picture draws equal parts together, and each can still be told from the others."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.web.kept_browser import Chromium, drawn, kept_server

__all__: list[str] = []

pytestmark = pytest.mark.browser

_COUNTING = """
(() => {
  window.calls = 0;
  for (const name of ["drawArrays", "drawElements", "drawArraysInstanced", "drawElementsInstanced"]) {
    const own = WebGL2RenderingContext.prototype[name];
    WebGL2RenderingContext.prototype[name] = function (...given) {
      window.calls += 1;
      own.apply(this, given);
    };
  }
})();
"""
_SOLID = """() => {
  const drawn = document.querySelector("piece-plate canvas");
  const flat = new OffscreenCanvas(drawn.width, drawn.height).getContext("2d");
  flat.drawImage(drawn, 0, 0);
  const { data } = flat.getImageData(0, 0, drawn.width, drawn.height);
  let solid = 0;
  for (let i = 3; i < data.length; i += 4) if (data[i] > 250) solid += 1;
  return solid;
}"""
"""Pixels that nothing shines through."""
_DARKEST = """() => {
  const drawn = document.querySelector("piece-plate canvas");
  const [wide, high] = [drawn.width, drawn.height];
  const flat = new OffscreenCanvas(wide, high).getContext("2d");
  flat.drawImage(drawn, 0, 0);
  const { data } = flat.getImageData(wide * 0.1, high * 0.36, wide * 0.8, high * 0.28);
  let darkest = 255;
  for (let i = 0; i < data.length; i += 4) {
    darkest = Math.min(darkest, (data[i] + data[i + 1] + data[i + 2]) / 3);
  }
  return darkest;
}"""
"""The darkest place of the middle of the picture, 0 to 255."""

_INKED = """(at) => {
  const drawn = document.querySelector("piece-plate canvas");
  const box = drawn.getBoundingClientRect();
  const scale = drawn.width / box.width;
  const flat = new OffscreenCanvas(drawn.width, drawn.height).getContext("2d");
  flat.drawImage(drawn, 0, 0);
  const [x, y] = [Math.round((at.x - box.x) * scale), Math.round((at.y - box.y) * scale)];
  let inked = 0;
  for (let row = y - 30; row < y + 30; row += 1) {
    const { data } = flat.getImageData(0, row, drawn.width, 1);
    const wood = (column) => data[4 * column + 3] > 250;
    let [left, right] = [x, x];
    while (wood(left)) left -= 1;
    while (wood(right)) right += 1;
    const light = [];
    for (let column = left + 4; column < right - 3; column += 1) {
      light.push(data[4 * column] + data[4 * column + 1] + data[4 * column + 2]);
    }
    light.sort((a, b) => a - b);
    if (light[0] < 0.8 * light[light.length >> 1]) inked += 1;
  }
  return inked / 60;
}"""
"""Share of sixty rows across a part that have ink between its two outer edges."""

_INK = 110
"""Wood is lighter than this from above, and ink of an arris darker, 0 to 255."""


@pytest.fixture(scope="module")
def page(address: str, chromium: Chromium) -> Iterator[Page]:
    """The page of the demo piece, its draw calls counted."""
    with chromium.windows() as browser:
        page = browser.new_page(viewport={"width": 1280, "height": 800}, reduced_motion="reduce")
        page.set_default_timeout(60_000)
        page.add_init_script(_COUNTING)
        page.goto(address)
        page.wait_for_selector("piece-plate[data-ready]")
        page.wait_for_selector("#parts")
        page.wait_for_selector("piece-plate[aria-busy='false']")  # it draws shadows anew until then
        page.wait_for_timeout(400)
        yield page


def _at_rest(page: Page, part: str) -> dict[str, float]:
    """Where a part is on the page, once the picture and the page around it hold still."""
    place: dict[str, float] = page.evaluate(
        """async (name) => {
            const plate = document.querySelector("piece-plate");
            const frame = () => new Promise((done) => requestAnimationFrame(done));
            let [was, still] = [plate.placeOf(name), 0];
            while (still < 5) {
                await frame();
                const is = plate.placeOf(name);
                still = Math.hypot(is.x - was.x, is.y - was.y) < 0.5 ? still + 1 : 0;
                was = is;
            }
            return was;
        }""",
        part,
    )
    return place


def _calls_of_a_turn(page: Page) -> int:
    page.evaluate("() => { window.calls = 0; }")
    page.locator("piece-plate").press("ArrowLeft")
    drawn(page)
    count: Any = page.evaluate("() => window.calls")
    return int(count)


def test_equal_parts_are_drawn_in_one_call(page: Page) -> None:
    """Faces and arrises of eleven parts take fewer calls than one each; at rest nothing is drawn."""
    parts = page.locator("plate-controls option").count() - 1
    assert parts == 11
    assert 0 < _calls_of_a_turn(page) < 2 * parts
    page.evaluate("() => { window.calls = 0; }")
    page.wait_for_timeout(400)
    assert page.evaluate("() => window.calls") == 0


def test_each_of_four_legs_is_picked_where_it_stands(page: Page) -> None:
    """They share one form; the one tapped is the one told, pulled apart as well."""
    for apart in (0, 80):
        page.evaluate(
            "value => { const pull = document.querySelector('#pull'); pull.value = value; "
            "pull.dispatchEvent(new Event('input', { bubbles: true })); }",
            apart,
        )
        page.locator("piece-plate").press("0")
        drawn(page)
        for leg in ("leg_fl", "leg_fr"):
            at = _at_rest(page, leg)
            page.mouse.click(at["x"], at["y"])
            expect(page.locator("plate-controls select")).to_have_value(leg)
    page.locator("piece-plate").press("Escape")


def test_an_arris_is_drawn_all_along(page: Page) -> None:
    """Where two faces of a leg meet, seen from the corner, every row has ink: dashes would hide it."""
    page.mouse.move(0, 0)  # the part under the mouse is tinted, and its arrises with it
    page.evaluate(
        "() => { const pull = document.querySelector('#pull'); pull.value = 0; "
        "pull.dispatchEvent(new Event('input', { bubbles: true })); }"
    )
    page.locator("piece-plate").press("Escape")
    page.locator("piece-plate").press("0")
    expect(page.locator("piece-plate .name")).to_be_hidden()
    inked = 0.0
    for _ in range(50):  # until the picture is drawn from the corner
        drawn(page)
        inked = page.evaluate(_INKED, _at_rest(page, "leg_fr"))
        if inked > 0.95:
            break
    assert inked > 0.95


def test_the_part_chosen_stays_whole_among_those_seen_through(page: Page) -> None:
    """Seen through, few pixels are solid; with the top chosen, those of the top are."""
    page.get_by_role("button", name="See through").click()
    drawn(page)
    through = page.evaluate(_SOLID)
    page.select_option("plate-controls select", "top")
    drawn(page)
    chosen = page.evaluate(_SOLID)
    page.get_by_role("button", name="See through").click()
    page.locator("piece-plate").press("Escape")
    assert chosen > 2 * through


def test_the_browser_is_told_of_every_module_before_it_reads_one(page: Page) -> None:
    """All are named in the document, and what the piece is drawn from is asked for once."""
    told = page.evaluate(
        """() => {
          const named = [...document.querySelectorAll("link[rel=modulepreload], script[src]")];
          const known = new Set(named.map((each) => each.href || each.src));
          const asked = performance.getEntriesByType("resource").map((each) => each.name);
          return {
            late: asked.filter((each) => each.endsWith(".js") && !known.has(each)),
            shapes: asked.filter((each) => /api.(shape|scene.glb)$/.test(each)).length,
          };
        }"""
    )
    assert told["late"] == []
    assert told["shapes"] in {2, 4}  # and once more by what keeps the page, where that is there already


def test_what_lies_under_a_top_does_not_show_through_it(page: Page, tmp_path: Path) -> None:
    """From above, arrises of legs and drawers are seen on their ends: none comes to lie over the top."""
    browser = page.context.browser
    assert browser is not None
    with kept_server(tmp_path) as address:
        above = browser.new_page(
            base_url=address, viewport={"width": 1280, "height": 800}, reduced_motion="reduce"
        )
        above.set_default_timeout(60_000)
        assert above.request.post("/api/pieces", data={"form": "sideboard"}).status == 201
        above.goto("/pieces/1/")
        above.wait_for_selector("piece-plate[data-ready]")
        above.get_by_role("button", name="Above", exact=True).click()
        drawn(above)
        assert above.evaluate(_DARKEST) > _INK
        above.close()
