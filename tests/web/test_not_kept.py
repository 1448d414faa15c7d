"""Where a browser keeps nothing, as in a private window or with its room used up, every page says so."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from tests.web.kept_browser import HOLDING, Chromium, kept_server
from tests.web.specimen import DEMO

__all__: list[str] = []

pytestmark = pytest.mark.browser

NO_ROOM = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };"
LOST = "lost when this page is closed, for this browser keeps nothing"


@pytest.fixture
def page(tmp_path_factory: pytest.TempPathFactory, chromium: Chromium) -> Iterator[Page]:
    """A phone on a piece without a rack."""
    with kept_server(tmp_path_factory.mktemp("kept")) as address, chromium.windows() as browser:
        context = browser.new_context(
            base_url=address, viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True
        )
        context.set_default_timeout(60_000)
        demo = context.request.get("/api/demo").json()
        piece = {"content": {"piece": DEMO.read_text(encoding="utf-8")}}
        assert context.request.post("/api/pieces", data=piece).status == 201
        assert context.request.post("/api/shops", data={"text": demo["shop"]["text"]}).status == 201
        yield context.new_page()


def _judge(page: Page, length: str, width: str) -> None:
    page.goto("/pieces/1/yard")
    page.locator("input[name=length]").fill(length)
    page.locator("input[name=width]").fill(width)
    page.get_by_role("button", name="Judge this board").tap()
    page.wait_for_selector(".pile li b")


def test_a_page_says_when_what_is_typed_on_it_is_not_kept(page: Page) -> None:
    """The yard of its pile, the text of the piece, a shop of its settings; each with what is lost."""
    page.context.add_init_script(NO_ROOM)
    _judge(page, "2440 mm", "175 mm")
    expect(page.locator(".pile .fault")).to_have_text(f"The pile is {LOST}.")
    page.goto("/pieces/1/write")
    field = page.locator("textarea")
    field.fill(field.input_value().replace("rings: rift", "rings: flat", 1))
    expect(page.locator("text-desk .bar [role=status]")).to_have_text(f"Not saved yet; {LOST}.")
    page.goto("/shop")
    page.locator("setting-field input[type=text], setting-field input:not([type])").first.fill("17")
    expect(page.locator(".typed-bar [role=status]")).to_contain_text(f"not kept yet; {LOST}")
    page.goto("/pieces/1/")
    page.get_by_role("button", name="Text beside the piece").tap()
    beside = page.locator("lined-text textarea")
    beside.fill(beside.input_value().replace("rings: rift", "rings: flat", 1))
    expect(page.locator("text-beside .standing")).to_contain_text(f"Not saved yet; {LOST}.")


def test_a_setting_typed_while_the_rest_is_on_its_way_stays(page: Page) -> None:
    """The versions of a shop come after its settings, and take nothing away that was typed meanwhile."""
    page.context.add_init_script(NO_ROOM)
    page.context.add_init_script(f"({HOLDING})('/versions')")
    page.goto("/shop")
    field = page.locator("setting-field input[type=text], setting-field input:not([type])").first
    field.fill("17")
    page.wait_for_function("() => window.holds")
    page.evaluate("() => window.letGo()")
    page.get_by_text("Files, versions, another shop").tap()
    expect(page.locator("profile-bar")).to_contain_text("Version 1")
    expect(field).to_have_value("17")
    expect(page.locator(".typed-bar [role=status]")).to_contain_text("not kept yet")


def test_where_it_is_kept_nothing_is_said_to_be_lost(page: Page) -> None:
    """As in most browsers."""
    _judge(page, "2440 mm", "175 mm")
    assert LOST not in page.locator("main").inner_text()
    page.goto("/pieces/1/write")
    field = page.locator("textarea")
    field.fill(field.input_value().replace("rings: rift", "rings: flat", 1))
    expect(page.locator("text-desk .bar [role=status]")).to_have_text("Not saved yet; kept in this browser.")


def test_one_key_takes_the_pile_as_the_rack_of_the_piece(page: Page) -> None:
    """The boards are shown with the piece on them; it is a version that can be undone."""
    _judge(page, "2440 mm", "175 mm")
    page.get_by_role("button", name="Lay the piece out on this pile").tap()
    page.wait_for_url("**/pieces/1/boards")
    expect(page.locator("board-leaf h3").first).to_contain_text("1")
    opened = page.request.get("/api/pieces/1").json()
    assert opened["piece"]["version"] == 2
    assert opened["content"]["rack"]["name"] == "pile.csv"
    assert "2440" in opened["content"]["rack"]["text"]
    page.get_by_role("button", name="Undo").tap()
    page.wait_for_selector("rack-none")


def test_a_rack_the_piece_has_is_replaced_only_when_that_is_agreed_to(page: Page) -> None:
    """What is marked on boards that are not there any more goes with them; undone, both are back."""
    opened = page.request.get("/api/pieces/1").json()
    demo = page.request.get("/api/demo").json()
    content = {**opened["content"], "rack": demo["rack"], "bench": {"name": "notes", "text": "leave: [C1]\n"}}
    saved = page.request.post("/api/pieces/1/versions", data={"content": content, "parent": 1, "why": ""})
    assert saved.status == 201
    _judge(page, "2440 mm", "175 mm")
    page.get_by_role("button", name="Lay the piece out on this pile").tap()
    expect(page.locator(".pile")).to_contain_text("what was marked and cut on its boards goes with it")
    assert page.request.get("/api/pieces/1").json()["piece"]["version"] == 2
    page.get_by_role("button", name="Take the pile in its place").tap()
    page.wait_for_url("**/pieces/1/boards")
    expect(page.locator("board-leaf h3").first).to_be_attached()
    assert page.request.get("/api/pieces/1").json()["content"]["bench"] is None
    page.get_by_role("button", name="Undo").tap()
    expect(page.locator("boards-desk")).to_contain_text("C1")
    assert page.request.get("/api/pieces/1").json()["content"]["bench"]["text"] == "leave: [C1]\n"
