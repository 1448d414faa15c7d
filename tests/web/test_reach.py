"""Every document can be read, reached and touched by everybody: names, contrast, keys, fingers."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page

from scantling.web.designs.session import Session
from tests.web.kept_browser import Chromium, drawn, kept_server
from tests.web.specimen import DEMO

__all__: list[str] = []

pytestmark = pytest.mark.browser

_ASKED = Path(__file__).with_name("reach.js")
_CHECKER = Path(__file__).resolve().parents[2] / "node_modules" / "axe-core" / "axe.min.js"
_RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
"""Success criteria of WCAG 2.0 to 2.2, levels A and AA, as the checker tags its rules."""
_ADDRESSES = {
    "piece": "/pieces/1/",
    "both": "/pieces/1/?units=both",
    "beside": "/pieces/1/",
    "yard": "/pieces/1/yard",
    "list": "/pieces",
    "write": "/pieces/1/write",
    "bench": "/pieces/1/bench",
    "boards": "/pieces/1/boards",
    "papers": "/pieces/1/papers",
    "stockroom": "/stockroom",
    "shop": "/shop",
    "rooms": "/rooms",
    "seasons": "/pieces/1/seasons",
    "phone": "/phone",
    "refusal": "/pieces/99/",
}
_READY = {
    "piece": "piece-plate[data-ready]",
    "both": "piece-plate[data-ready]",
    "beside": "piece-plate[data-ready]",
    "yard": "yard-desk button",
    "list": "piece-list .card svg",
    "write": "text-desk textarea",
    "bench": ".step",
    "boards": "board-leaf svg",
    "papers": "paper-desk .files",
    "stockroom": "main button",
    "shop": "setting-field",
    "rooms": "room-desk setting-field",
    "seasons": "#when table",
    "phone": ".code svg",
    "refusal": "main .key",
    "published": "piece-plate[data-ready]",
}
Opened = Callable[[str, int, str], Page]


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory, chromium: Chromium) -> Iterator[Opened]:
    """Opens a document of a kept piece, or the published file, at a width and in a scheme."""
    folder = tmp_path_factory.mktemp("reach")
    published = folder / "plan.html"
    published.write_bytes(Session(DEMO).published({}).content)
    with kept_server(folder) as address, chromium.windows() as browser:
        with_piece = browser.new_context(base_url=address)
        demo = with_piece.request.get("/api/demo").json()
        assert with_piece.request.post("/api/pieces", data={"content": demo}).status == 201
        assert with_piece.request.post("/api/shops", data={"text": demo["shop"]["text"]}).status == 201
        assert with_piece.request.post("/api/rooms", data={"known": "Denver, CO"}).status == 201
        contexts: list[BrowserContext] = []

        def opening(name: str, width: int, scheme: str) -> Page:
            while contexts:
                contexts.pop().close()
            context = browser.new_context(
                base_url=address,
                viewport={"width": width, "height": 800},
                color_scheme="dark" if scheme == "dark" else "light",
                reduced_motion="reduce",
                has_touch=width < 500,
                is_mobile=width < 500,
            )
            contexts.append(context)
            page = context.new_page()
            page.goto(_ADDRESSES.get(name, published.as_uri()))
            page.wait_for_selector(_READY[name], timeout=60_000)
            if name in ("piece", "both"):
                page.wait_for_selector("#parts")
            page.evaluate(_ASKED.read_text(encoding="utf-8"))
            return page

        yield opening


def _write_beside(page: Page) -> None:
    """The text beside the piece, with a fault in it, an entry looked at, and something to be saved."""
    page.get_by_role("button", name="Text beside the piece").click()
    page.wait_for_selector("lined-text textarea")
    page.get_by_text("saved.").wait_for()
    field = page.get_by_role("textbox", name="Text of the piece file")
    field.fill(field.input_value().replace("units: mm", "units: furlong", 1))
    page.wait_for_selector("text-beside .faults")


def _work_on_boards(page: Page) -> None:
    """A part picked, with its keys; before that a knot is being marked."""
    page.get_by_role("button", name="Mark a knot on C2").click()
    page.wait_for_selector("board-mark input")
    assert page.evaluate("reach.small()") == []
    page.get_by_role("button", name="apron back").first.click()
    page.wait_for_selector(".picked .arrows")
    page.evaluate(
        "scrollTo(0, 0)"
    )  # so that the strip of places, which stays in sight, covers half of nothing


def _add_a_part(page: Page) -> None:
    """What was asked for is open; a new part is asked for, with a fault at one of its fields."""
    page.locator("piece-brief summary").click()
    page.get_by_role("button", name="Add a part", exact=True).click()
    page.locator("part-new summary").click()
    page.locator("#new-width").fill("nothing known")
    page.keyboard.press("Enter")
    page.wait_for_selector("part-new [data-faulty]")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("name", _READY)
def test_no_success_criterion_is_broken_that_a_program_can_check(
    opened: Opened, name: str, scheme: str
) -> None:
    """Names, contrast, roles and structure, wide and on a phone, with a part or a step looked at."""
    page = opened(name, 1280, scheme)
    if name in {"piece", "published"}:
        page.select_option("plate-controls select", "top")
    if name == "piece":
        _add_a_part(page)
    if name == "bench":
        page.get_by_text("All steps").click()
    if name == "boards":
        _work_on_boards(page)
    if name == "beside":
        _write_beside(page)
        page.select_option("plate-controls select", "top")
        page.wait_for_selector(".numbers .held")
    page.evaluate(_CHECKER.read_text(encoding="utf-8"))
    for width in (1280, 360):
        page.set_viewport_size({"width": width, "height": 800})
        drawn(page)  # what is wider than its frame can be reached by keys once the frame is drawn
        asked = {"runOnly": {"type": "tag", "values": _RULES}, "resultTypes": ["violations"]}
        found = page.evaluate("asked => axe.run(document, asked)", asked)
        assert len(found["passes"]) > 10  # it has looked
        told = [
            f"{each['id']}: {node['html'][:150]}" for each in found["violations"] for node in each["nodes"]
        ]
        assert told == []


@pytest.mark.parametrize("name", _READY)
def test_it_fits_a_small_phone_and_a_thumb(opened: Opened, name: str) -> None:
    """At 360 px nothing sticks out, and what is touched is 44 px; a row or a label is touched whole."""
    page = opened(name, 360, "light")
    if name in {"piece", "published"}:
        page.select_option("plate-controls select", "top", force=True)
    if name == "bench":
        page.get_by_text("All steps").click()
    if name == "boards":
        _work_on_boards(page)
    if name == "beside":
        _write_beside(page)
    if name in {"piece", "both"}:
        page.keyboard.press("Escape")  # the part's slip would lie over it
        _add_a_part(page)
        page.get_by_role("button", name="Closer").click()
        page.get_by_role("button", name="Across").click()
        page.get_by_role("button", name="Measure").click()
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    small = page.evaluate("reach.small()")
    assert small == []


@pytest.mark.parametrize("width", [1280, 360])
@pytest.mark.parametrize("name", ["piece", "both"])
def test_no_size_in_the_head_is_parted_at_the_end_of_a_line(opened: Opened, name: str, width: int) -> None:
    """Each stands in one line, wide or on a phone; of both units, one may stand below the other."""
    page = opened(name, width, "light")
    sizes = page.locator("glance-facts dd").first.locator(".whole")
    assert [each.count("×") for each in sizes.all_inner_texts()] == [2] * (2 if name == "both" else 1)
    line = 1.4 * page.evaluate(
        "parseFloat(getComputedStyle(document.querySelector('glance-facts dd')).fontSize)"
    )
    for box in (each.bounding_box() for each in sizes.all()):
        assert box
        assert box["height"] <= line
        assert box["x"] + box["width"] <= width


@pytest.mark.parametrize("name", _READY)
def test_the_tab_key_reaches_everything_in_the_order_it_is_read(opened: Opened, name: str) -> None:
    """From the top, each stop in the order of the document, none left out, each with a ring round it."""
    page = opened(name, 1280, "light")
    page.evaluate(
        "() => { getSelection().removeAllRanges(); document.activeElement.blur(); scrollTo(0, 0); }"
    )
    left, stopped = 1, 0
    while left:
        page.keyboard.press("Tab")
        faults, left = page.evaluate("reach.step()")
        stopped += 1
        assert faults == []
    assert stopped > 3


@pytest.mark.parametrize("name", ["piece", "boards", "stockroom", "shop", "rooms", "bench", "papers"])
def test_on_paper_ink_is_dark_and_paper_white_where_the_screen_is_dark(opened: Opened, name: str) -> None:
    """What is printed from a dark screen can be read: its ink and that of its drawings is black."""
    page = opened(name, 1280, "dark")
    page.emulate_media(media="print")
    inks = page.evaluate(
        """() => {
          const told = getComputedStyle(document.body);
          return [told.color, told.backgroundColor, told.getPropertyValue("--sheet-ink").trim()];
        }"""
    )
    assert inks == ["rgb(0, 0, 0)", "rgb(255, 255, 255)", "#000"]


@pytest.mark.parametrize("name", _READY)
def test_nothing_moves_for_who_asked_for_no_motion(opened: Opened, name: str) -> None:
    """No transition or animation runs on the page, and jumping to a place does not glide."""
    page = opened(name, 1280, "light")
    assert page.evaluate("document.getAnimations().map((each) => each.effect.target.outerHTML)") == []
    assert page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == "auto"
    assert page.evaluate("reach.moving()") == []
