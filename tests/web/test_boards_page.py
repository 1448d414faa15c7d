"""The page of the boards: parts dragged or moved by keys, knots drawn with a finger, a search stopped."""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.plan.jobs import EXAMPLES
from tests.web.kept_browser import Chromium, kept_server

pytestmark = pytest.mark.browser

RACK = EXAMPLES / "racks" / "reading-table.csv"
SLOW_MS = 60_000
"""How long the rest may take to be laid out on a busy machine. [ms]"""
Opened = Callable[..., Page]


def _file(path: Path) -> dict[str, str]:
    return {"name": path.name, "text": path.read_text(encoding="utf-8")}


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory, chromium: Chromium) -> Iterator[Opened]:
    """Opens the boards of a reading table of its own, on a screen or on a phone."""
    with (
        kept_server(tmp_path_factory.mktemp("boards")) as address,
        chromium.windows() as browser,
    ):
        complaints: list[str] = []

        def opening(*, phone: bool = False, rack: bool = True) -> Page:
            content = {
                "piece": (EXAMPLES / "reading_table.yaml").read_text(encoding="utf-8"),
                "shop": _file(EXAMPLES / "shops" / "reading-table.yaml"),
                "rack": _file(RACK) if rack else None,
            }
            context = browser.new_context(
                base_url=address,
                viewport={"width": 360, "height": 740} if phone else {"width": 1280, "height": 3400},
                has_touch=phone,
                is_mobile=phone,
            )
            made = context.request.post("/api/pieces", data={"content": content}, timeout=SLOW_MS).json()
            page = context.new_page()
            page.set_default_timeout(SLOW_MS)
            page.on("pageerror", lambda error: complaints.append(str(error)))
            page.goto(f"/pieces/{made['piece']['number']}/boards")
            page.wait_for_selector("board-leaf svg" if rack else "rack-none")
            _at_rest(page)
            return page

        yield opening
        assert complaints == []


def _at_rest(page: Page) -> None:
    """Wait until no board has moved on the page for half a second: what comes late pushes them about."""
    page.evaluate(
        """async () => {
          const where = () => [...document.querySelectorAll('board-leaf')].map(
            (leaf) => leaf.getBoundingClientRect().top).join();
          for (let [last, since] = ['', 0]; performance.now() - since < 500; ) {
            const now = where();
            if (now !== last) [last, since] = [now, performance.now()];
            await new Promise((resolve) => setTimeout(resolve, 50));
          }
        }"""
    )


def _view(page: Page) -> Any:
    return page.evaluate("document.querySelector('boards-desk').state.view")


def _leaf(page: Page, board: str) -> Locator:
    return page.locator("board-leaf", has=page.get_by_role("region", name=f"Board {board}", exact=True))


def _said(page: Page, words: str) -> None:
    """Wait until something is said or refused, and hold that to the words."""
    page.wait_for_function(
        """() => { const { said, faults, laying } = document.querySelector('boards-desk').state;
          return said || (faults.length && !laying); }""",
        timeout=SLOW_MS,
    )
    faults = page.evaluate("document.querySelector('boards-desk').state.faults.map(each => each.message)")
    assert faults == []
    expect(page.locator("p.said[role=status]")).to_contain_text(words, timeout=SLOW_MS)


def _middle(page: Page, board: str, part: str) -> tuple[float, float]:
    """The middle of a part on the screen."""
    seen = next(b for b in _view(page)["boards"] if b["name"] == board)
    left, top, wide, high = next(p["box"] for p in seen["parts"] if p["name"] == part)
    return _on_screen(page, board, left + wide / 2, top + high / 2)


def _on_screen(page: Page, board: str, x: float, y: float) -> tuple[float, float]:
    """A point of a drawing on the screen."""
    seen = next(b for b in _view(page)["boards"] if b["name"] == board)
    frame = _leaf(page, board).locator(".over").bounding_box()
    assert frame is not None
    per_mm = frame["width"] / seen["paper"][0]
    return frame["x"] + x * per_mm, frame["y"] + y * per_mm


def test_a_part_dragged_to_another_board_is_held_there_and_undone(opened: Opened) -> None:
    """It goes along with the mouse, its place is told on the way, and dropped it is a version more."""
    page = opened()
    x, y = _middle(page, "C2", "end_left")
    seen = next(b for b in _view(page)["boards"] if b["name"] == "C4")
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 20, y + 20)
    _at_rest(page)
    to = _on_screen(page, "C4", 60.0, seen["box"][1] + seen["box"][3] - 5.0)
    passed = _on_screen(page, "C3", 60.0, 20.0)
    # At once, so that while the board passed over is asked for the place of rest is not lost.
    page.evaluate(
        """(places) => places.forEach(([clientX, clientY]) => dispatchEvent(
          new PointerEvent('pointermove', { pointerId: 1, clientX, clientY })))""",
        [passed, (to[0] - 20, to[1])],
    )
    expect(page.locator(".on-its-way")).to_contain_text("on C4 at")
    expect(_leaf(page, "C4").locator(".ghost")).to_be_visible()
    page.mouse.move(*to)
    page.mouse.up()
    expect(page.locator("p.said[role=status]")).to_contain_text("end left is held on C4 at", timeout=SLOW_MS)
    expect(_leaf(page, "C4").get_by_role("button", name="end left")).to_contain_text("held to its place")
    expect(_leaf(page, "C4 left")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(_leaf(page, "C4 left")).to_have_count(0, timeout=SLOW_MS)
    expect(page.get_by_role("button", name="Redo")).to_be_enabled()


def test_where_it_cannot_lie_the_reason_and_the_way_out_stand_beside_it(opened: Opened) -> None:
    """A leg dropped on a knot stays where it was; the place nearby is one key, and holds it."""
    page = opened()
    x, y = _middle(page, "L1", "leg_fl")
    knot = next(b for b in _view(page)["boards"] if b["name"] == "L2")["marks"][0]["box"]
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 20, y - 20)
    _at_rest(page)
    page.mouse.move(*_on_screen(page, "L2", knot[0] + knot[2] / 2, knot[1] + knot[3] / 2), steps=4)
    page.mouse.up()
    expect(page.locator(".picked .where")).to_contain_text("It cannot lie there: it would lie on the knot")
    expect(_leaf(page, "L2").locator(".ghost.bad")).to_be_visible()
    assert _view(page)["notes"]["text"] == ""
    page.get_by_role("button", name="Put it on L2 at").click()
    page.get_by_role("button", name="Hold it here").click()
    expect(_leaf(page, "L2").get_by_role("button", name="front left leg")).to_contain_text(
        "held", timeout=SLOW_MS
    )
    page.get_by_role("button", name="front left leg").first.click()
    page.get_by_role("button", name="Let go").click()
    _said(page, "front left leg is let go.")


def test_all_of_it_is_done_by_keys(opened: Opened) -> None:
    """Picked in the list, to the next board, along by arrows, held with Enter; put down with Escape."""
    page = opened()
    page.get_by_role("button", name="end right").focus()
    page.keyboard.press("Enter")
    expect(page.locator(".picked")).to_be_focused()
    where = page.locator(".picked .where")
    expect(where).to_contain_text("On C4 at")
    page.keyboard.press("b")
    expect(where).to_contain_text("On C1 at 20")
    expect(page.locator(".picked")).to_be_focused()
    for key, at in (("ArrowRight", "30"), ("ArrowRight", "40"), ("Shift+ArrowRight", "41")):
        page.keyboard.press(key)
        expect(where).to_contain_text(f"On C1 at {at}")
    page.keyboard.press("Escape")
    expect(page.locator(".picked")).to_have_count(0)
    page.get_by_role("button", name="end right").focus()
    page.keyboard.press("Enter")
    expect(where).to_contain_text("On C4 at")
    page.keyboard.press("b")
    expect(where).to_contain_text("On C1 at 20")
    page.keyboard.press("Enter")
    _said(page, "end right is held on C1 at 20 mm, on the lower edge.")


def test_a_thumb_marks_a_knot_on_a_phone_and_the_parts_move_away_from_it(opened: Opened) -> None:
    """Drawn round with one finger, corrected, kept; nothing sticks out of 360 px; it can be taken off."""
    page = opened(phone=True)
    page.get_by_role("button", name="Mark a knot on C3").tap()
    over = _leaf(page, "C3").locator(".over")
    over.scroll_into_view_if_needed()
    frame = _leaf(page, "C3").locator(".frame").bounding_box()
    assert frame is not None
    x, y = frame["x"] + 150, frame["y"] + 95
    touch = page.context.new_cdp_session(page)
    for kind, dx, dy in (("touchStart", 0, 0), ("touchMove", 14, 8), ("touchMove", 34, 22)):
        told = {"type": kind, "touchPoints": [{"x": x + dx, "y": y + dy}]}
        touch.send("Input.dispatchTouchEvent", told)
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    form = page.locator("board-mark form")
    expect(form.get_by_label("Length along the grain")).not_to_have_value("")
    expect(_leaf(page, "C3").locator(".drawing-mark")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    form.get_by_label("Length along the grain").fill("90")
    form.locator("[name=face]").select_option("back")
    form.get_by_role("button", name="Mark it").tap()
    _said(page, "A knot is marked on C3.")
    found = _leaf(page, "C3").get_by_role("list", name="Marks found on it")
    expect(found).to_contain_text("90 ×")
    expect(found).to_contain_text("on the back")
    (mark,) = [m for b in _view(page)["boards"] if b["name"] == "C3" for m in b["marks"]]
    for part in (p for b in _view(page)["boards"] if b["name"] == "C3" for p in b["parts"]):
        assert not _meet(part["box"], mark["box"])
    found.get_by_role("button", name="Take it off").tap()
    _said(page, "The mark on C3 is taken off.")


def _meet(one: list[float], other: list[float]) -> bool:
    return (
        one[0] < other[0] + other[2] - 0.1
        and other[0] < one[0] + one[2] - 0.1
        and one[1] < other[1] + other[3] - 0.1
        and other[1] < one[1] + one[3] - 0.1
    )


def test_a_board_is_left_out_and_what_is_cut_stays(opened: Opened) -> None:
    """C2 left out is drawn faint and empty; a leg ticked as cut keeps its board as it is."""
    page = opened()
    page.get_by_role("button", name="Leave out C2").click()
    _said(page, "C2 is left out.")
    expect(_leaf(page, "C2")).to_contain_text("Left out: nothing comes from it.")
    assert next(b for b in _view(page)["boards"] if b["name"] == "C2")["parts"] == []
    page.get_by_role("button", name="front left leg").click()
    page.get_by_role("button", name="Cut", exact=True).click()
    _said(page, "front left leg is cut; L1 stays as it is laid out.")
    expect(_leaf(page, "L1")).to_contain_text("Begun: what is on it stays where it is.")
    expect(_leaf(page, "L1").get_by_role("button", name="front left leg")).to_contain_text("cut")
    expect(page.get_by_role("button", name="Leave out L1")).to_have_count(0)


def test_a_mark_made_in_a_window_that_is_behind_is_made_on_what_the_other_left(opened: Opened) -> None:
    """Two windows of one piece: both marks are kept, none is asked for twice."""
    page = opened()
    other = page.context.new_page()
    other.set_default_timeout(SLOW_MS)
    other.goto(page.url)
    other.wait_for_selector("board-leaf svg")
    page.get_by_role("button", name="Leave out L2").click()
    _said(page, "L2 is left out.")
    other.evaluate("dispatchEvent(new Event('blur'))")
    other.get_by_role("button", name="Let C3 stay so").click()
    _said(other, "C3 stays as it is laid out.")
    text = _view(other)["notes"]["text"]
    assert "leave: [L2]" in text
    assert "laid:" in text


def test_the_notes_stand_among_the_texts_of_the_piece(opened: Opened) -> None:
    """What is marked is read, and can be written, where the piece's other files are."""
    page = opened()
    page.get_by_role("button", name="Leave out L2").click()
    _said(page, "L2 is left out.")
    page.get_by_role("link", name="Text").click()
    page.get_by_role("button", name="Bench notes").click()
    expect(page.get_by_label("Text of bench")).to_have_value("leave: [L2]\n")


def _searching() -> bool:
    """Whether a search runs in a process of its own; the server of these tests is this program."""
    return any(child.is_alive() for child in multiprocessing.active_children())


def test_a_search_tells_what_it_finds_stops_by_key_and_ends_with_the_page(opened: Opened) -> None:
    """Begun and stopped it leaves no process behind, and neither does a page that is closed meanwhile."""
    page = opened()
    page.get_by_role("button", name="Let C1 stay so").click()
    _said(page, "C1 stays as it is laid out.")
    page.get_by_role("button", name="Search for a better layout").click()
    search = page.get_by_role("region", name="Search for a better layout")
    expect(search.get_by_role("status")).to_contain_text("without wood", timeout=SLOW_MS)
    assert _searching()
    search.get_by_role("button", name="Stop").click()
    expect(search.get_by_role("status")).to_contain_text("Stopped.")
    _gone(page)
    page.get_by_role("button", name="Search for a better layout").click()
    expect(search.get_by_role("status")).to_contain_text("without wood", timeout=SLOW_MS)
    page.close()
    keeper = opened()
    _gone(keeper)


def _gone(page: Page) -> None:
    for _ in range(300):
        if not _searching():
            return
        page.wait_for_timeout(100)
    raise AssertionError("a search goes on that nobody listens to")


def test_without_a_rack_the_ways_to_one_are_keys(opened: Opened) -> None:
    """An empty stockroom is told; a rack file is laid out on at once and is a version of the piece."""
    page = opened(rack=False)
    expect(page.get_by_role("link", name="What to ask the yard for")).to_have_attribute("href", "./#boards")
    page.get_by_role("button", name="Plan with the stockroom").click()
    expect(page.get_by_text("The stockroom holds no boards yet")).to_be_visible()
    page.get_by_label("Take a rack file").set_input_files(RACK)
    page.wait_for_selector("board-leaf svg")
    number = page.url.split("/pieces/")[1].split("/")[0]
    content = page.request.get(f"/api/pieces/{number}").json()["content"]
    assert content["rack"]["name"] == RACK.name


def test_a_mark_that_was_not_made_is_told_where_the_finger_is(opened: Opened) -> None:
    """Far down the page and with no signal: told in sight, the mark still to be made; it is made then."""
    page = opened(phone=True)
    leaf = _leaf(page, "L2")
    leaf.get_by_role("button", name="Mark a knot on L2").tap()
    for name, size in (("x", "300"), ("y", "20"), ("length", "40"), ("width", "30")):
        leaf.locator(f"input[name={name}]").fill(size)
    page.route("**/api/boards", lambda route: route.abort())
    leaf.get_by_role("button", name="Mark it").tap()
    expect(page.get_by_role("alert")).to_contain_text("does not answer")
    expect(page.get_by_role("alert")).to_be_in_viewport(ratio=1)
    expect(leaf.locator("input[name=x]")).to_have_value("300")
    page.unroute("**/api/boards")
    leaf.get_by_role("button", name="Mark it").tap()
    _said(page, "A knot is marked on L2.")
    expect(page.get_by_role("alert")).to_have_count(0)
