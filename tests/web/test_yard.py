"""The yard on the page: boards typed, judged against the pile, and kept by the browser."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from starlette.testclient import TestClient

from tests.web.kept_browser import HOLDING, Chromium

__all__: list[str] = []


def _board(name: str, **more: str) -> dict[str, str]:
    return {
        "name": name,
        "species": "black cherry",
        "thickness": "5/4",
        "length": "2440",
        "width": "190",
        **more,
    }


Typed = dict[str, str]


def _ask(client: TestClient, pile: list[Typed], lifted: Typed | None, status: int = 200) -> Any:
    answer = client.post("/api/yard?units=mm", json={"pile": pile, "lifted": lifted})
    assert answer.status_code == status
    return answer.json()


def test_the_first_board_of_the_right_wood_is_taken(client: TestClient) -> None:
    """It covers part of what is missing, and what it is good for is named in words."""
    bare = _ask(client, [], None)
    assert (bare["verdict"], bare["coveredPct"], bare["enough"]) == ("", 0.0, False)
    assert "5/4" in {each["thickness"] for each in bare["asked"]}
    taken = _ask(client, [], _board("1"))
    assert taken["verdict"] == "take"
    assert 0 < taken["coveredPct"] < 100
    assert taken["gains"]
    missing = lambda told: sum(each["count"] for each in told["missing"])  # noqa: E731 - said once
    assert missing(taken) < missing(bare)


def test_a_wood_nothing_is_cut_from_is_put_back(client: TestClient) -> None:
    """The reason names what was in hand."""
    told = _ask(client, [_board("1")], _board("2", species="walnut"))
    assert told["verdict"] == "put back"
    assert "walnut" in told["reason"]


def test_a_pile_that_holds_the_piece_is_enough(client: TestClient) -> None:
    """Enough is said only when nothing is missing, and then the next board goes back."""
    asked = {each["thickness"] for each in _ask(client, [], None)["asked"]}
    pile = [
        _board(f"{thickness} {n}", thickness=thickness, length="3050", width="240")
        for thickness in sorted(asked)
        for n in range(5)
    ]
    told = _ask(client, pile, None)
    assert told["enough"]
    assert told["missing"] == []
    assert _ask(client, pile, _board("more"))["verdict"] == "put back"


def test_every_fault_of_the_boards_is_told_with_its_field(client: TestClient) -> None:
    """A width of nothing, a wood nobody knows and a knot off the board, all in one answer."""
    told = _ask(
        client,
        [_board("1", width="0"), _board("2", species="plastic")],
        _board("3", defects="knot at 5000 mm x 0 mm, 50 mm x 50 mm"),
        422,
    )
    assert [each["field"] for each in told["errors"]] == [
        "boards.1.width",
        "boards.2.species",
        "boards.3.defects",
    ]


@pytest.mark.parametrize(
    "body",
    [
        {"pile": "all"},
        {"pile": [{"name": ""}]},
        {"pile": [_board("1", color="red")]},
        {"lifted": _board("x" * 50)},
        {"pile": [_board("1")] * 121},
    ],
    ids=["no list", "no name", "an unknown field", "an endless name", "too many boards"],
)
def test_a_body_of_another_form_is_refused_with_the_field(
    client: TestClient, body: dict[str, object]
) -> None:
    """The one body of every error, with where it is wrong."""
    answer = client.post("/api/yard", json=body)
    assert answer.status_code == 422
    (first, *_) = answer.json()["errors"]
    assert first["field"].startswith("body.")
    assert first["code"].startswith("body_")


def test_rings_are_judged_and_kept(client: TestClient) -> None:
    """A flat-sawn board goes back where the legs are rift-sawn; words that are no rings are refused."""
    asked = {each["thickness"]: each["amount"] for each in _ask(client, [], None)["asked"]}
    thick = next(name for name, amount in asked.items() if amount.endswith("net, rift-sawn"))
    leg = {"thickness": thick, "length": "1830", "width": "150"}
    told = _ask(client, [], _board("1", **leg, rings="flat"))
    assert (told["verdict"], "this board is flat-sawn" in told["reason"]) == ("put back", True)
    assert _ask(client, [], _board("1", **leg, rings="rift"))["verdict"] == "take"
    unseen = _ask(client, [], _board("1", **leg))
    assert (unseen["verdict"], "Look at its end first" in unseen["reason"]) == ("take", True)
    wrong = _ask(client, [], _board("1", rings="sideways"), 422)
    assert [each["field"] for each in wrong["errors"]] == ["boards.1.rings"]
    answer = client.post("/api/yard/rack.csv", json={"pile": [_board("1", rings="rift")]})
    assert [row["rings"] for row in csv.DictReader(io.StringIO(answer.text))] == ["rift"]


def test_a_pile_that_is_enough_names_what_may_go_back(client: TestClient) -> None:
    """Boards nothing is cut from, with their price; before that nothing is named."""
    asked = {each["thickness"] for each in _ask(client, [], None)["asked"]}
    pile = [
        _board(f"{thickness} {n}", thickness=thickness, length="3050", width="240", price="30")
        for thickness in sorted(asked)
        for n in range(5)
    ]
    told = _ask(client, pile, None)
    assert told["enough"]
    assert told["spare"].endswith(" saved.")
    assert "may go back: " in told["spare"]
    assert _ask(client, pile[:1], None)["spare"] == ""


def test_the_pile_is_kept_as_a_rack(client: TestClient) -> None:
    """The file has a line for each board, readable as a rack."""
    pile = [_board("1", price="38"), _board("2", defects="knot at 620 mm x 40 mm, 90 mm x 50 mm on face")]
    answer = client.post("/api/yard/rack.csv", json={"pile": pile})
    assert 'filename="pile.csv"' in answer.headers["content-disposition"]
    rows = list(csv.DictReader(io.StringIO(answer.text)))
    assert [row["name"] for row in rows] == ["1", "2"]


@pytest.fixture
def phone(address: str, chromium: Chromium) -> Any:
    """The page for the yard on a screen the size of a phone."""
    with chromium.windows() as browser:
        page = browser.new_page(viewport={"width": 360, "height": 740}, has_touch=True)
        page.goto(f"{address}yard?units=in")
        page.wait_for_selector("yard-desk .board", timeout=60_000)
        yield page


def _type(page: Page, field: str, *keys: str) -> None:
    page.locator(f"yard-desk input[name={field}]").tap()
    for key in keys:
        page.get_by_role("group", name="Keys for").get_by_label(key, exact=True).tap()


@pytest.mark.browser
def test_a_board_is_typed_with_the_thumb_judged_and_kept(phone: Page) -> None:
    """Keys write the sizes, the answer stands on top, a reload finds the pile, and it can be put back."""
    _type(phone, "length", "8", "ft")
    _type(phone, "width", "7", "1/2", "in")
    assert phone.locator("input[name=width]").input_value() == "7 1/2 in"
    phone.get_by_role("button", name="Judge this board").tap()
    phone.wait_for_selector(".pile li b")
    assert phone.locator(".verdict .word").inner_text() == "Take it: board 1"
    assert phone.evaluate("document.documentElement.scrollWidth") <= 360
    phone.reload()
    phone.wait_for_selector(".pile li b")
    phone.get_by_role("button", name="Put back 1").tap()
    phone.wait_for_selector(".pile", state="detached")


@pytest.mark.browser
def test_the_advice_can_be_gone_against_and_followed_after_all(phone: Page) -> None:
    """The other way puts the board back, once more takes it."""
    _type(phone, "length", "8", "ft")
    _type(phone, "width", "7", "in")
    phone.get_by_role("button", name="Judge this board").tap()
    phone.get_by_role("button", name="Put it back all the same").tap()
    phone.wait_for_selector(".pile", state="detached")
    phone.get_by_role("button", name="As advised after all").tap()
    phone.wait_for_selector(".pile li b")


@pytest.mark.browser
def test_a_knot_is_marked_and_goes_with_the_board(phone: Page) -> None:
    """The mark is told in the words a rack file takes."""
    _type(phone, "length", "8", "ft")
    _type(phone, "width", "7", "in")
    phone.get_by_role("button", name="Knot, check or sapwood").tap()
    for name, value in {"x": "24", "y": "2", "l": "3", "w": "2"}.items():
        phone.locator(f".mark [name={name}]").fill(value)
    phone.get_by_role("button", name="Mark it").tap()
    phone.get_by_role("button", name="Judge this board").tap()
    phone.wait_for_selector(".pile li b")
    assert "knot at 24 in × 2 in, 3 in × 2 in through" in phone.locator(".pile").inner_text()


@pytest.mark.browser
def test_every_key_of_the_yard_is_large_enough_for_a_thumb(phone: Page) -> None:
    """No key is smaller than 44 px either way."""
    small = phone.evaluate(
        """() => [...document.querySelectorAll("button, .woods label, .sizes input, summary")]
            .map((each) => [each.textContent.trim(), each.getBoundingClientRect()])
            .filter(([, box]) => box.width < 44 || box.height < 44)
            .map(([text, box]) => `${text} ${box.width} x ${box.height}`)"""
    )
    assert small == []


@pytest.mark.browser
def test_a_rack_file_that_cannot_be_had_is_not_told_as_kept(phone: Page) -> None:
    """Without a signal it is said that nobody answers, and nothing of a file."""
    _type(phone, "length", "8", "ft")
    _type(phone, "width", "7", "1/2", "in")
    phone.get_by_role("button", name="Judge this board").tap()
    phone.wait_for_selector(".pile li b")
    phone.evaluate(
        """() => {
          const own = window.fetch;
          const away = (what) => String(what).includes("rack.csv");
          window.fetch = (what, how) => (away(what) ? Promise.reject(new TypeError("away")) : own(what, how));
        }"""
    )
    phone.get_by_role("button", name="Keep the pile as a rack file").tap()
    expect(phone.locator(".verdict .fault")).to_have_count(1)
    expect(phone.get_by_text("where your downloads go")).to_have_count(0)


@pytest.mark.browser
def test_what_is_typed_while_a_board_is_judged_stays(phone: Page) -> None:
    """Only what stands as it was sent is emptied; nothing is put back while an answer is on its way."""
    phone.emulate_media(reduced_motion="reduce")
    _type(phone, "length", "8", "ft")
    _type(phone, "width", "7", "in")
    phone.get_by_role("button", name="Judge this board").tap()
    back = phone.get_by_role("button", name="Put back 1")
    expect(back).to_be_enabled(timeout=60_000)
    expect(phone.locator("input[name=length]")).to_have_value("")
    _type(phone, "length", "9", "ft")
    _type(phone, "width", "6", "in")
    phone.evaluate(HOLDING, "api/yard")
    phone.get_by_role("button", name="Judge this board").tap()
    phone.wait_for_function("() => window.holds")
    expect(back).to_be_disabled()
    phone.locator("input[name=width]").fill("5 in")
    phone.evaluate("() => window.letGo()")
    expect(phone.locator("input[name=length]")).to_have_value("", timeout=60_000)
    expect(phone.locator("input[name=width]")).to_have_value("5 in")
    expect(phone.get_by_role("group", name="Keys for Width")).to_be_visible()
    expect(back).to_be_enabled()
