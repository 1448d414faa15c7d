"""The seasons of a piece: over the routes, and in a browser; on a phone too."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from pydantic.alias_generators import to_camel
from starlette.testclient import TestClient

from scantling.web.designs import seasons
from scantling.web.documents.shell import static_folder
from tests.web.kept_browser import Chromium, kept_server
from tests.web.records import app_with_records

TYPES = static_folder() / "js" / "season-types.js"
TRAVEL = "climate: {temperature: 20 C, humidity: 45 %"


@pytest.mark.parametrize("kind", ["OtherRoom", "SeasonsView", "BuildView"])
def test_types_name_the_fields_that_are_sent(kind: str) -> None:
    """``season-types.js`` has the same fields in the same order as what the server sends."""
    text = TYPES.read_text(encoding="utf-8")
    block = text.split(f"@typedef {{object}} {kind}\n", 1)[1].split("@typedef", 1)[0]
    sent = [to_camel(field.name) for field in fields(getattr(seasons, kind))]
    assert re.findall(r"@property \{.+?\} (\w+)", block) == sent


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """The demo as piece 1, its shop's air going from 30 to 60 %, and a damp room of the maker's own."""
    with (
        app_with_records(tmp_path_factory.mktemp("seasons")) as app,
        TestClient(app, base_url="http://127.0.0.1") as client,
    ):
        demo = client.get("/api/demo").json()
        assert TRAVEL in demo["shop"]["text"]
        demo["shop"]["text"] = demo["shop"]["text"].replace(TRAVEL, f"{TRAVEL}, driest: 30 %, wettest: 60 %")
        client.post("/api/pieces", json={"content": demo})
        client.post("/api/rooms", json={"known": "damp-warm-coast"})
        yield client


def test_the_year_in_its_own_room_is_that_of_the_plan(kept: TestClient) -> None:
    """The same months for the slider as the plan has; the joints follow, the tightest first."""
    told = kept.get("/pieces/1/api/seasons").json()
    assert told["year"] == kept.get("/pieces/1/api/plan").json()["year"]
    assert (told["room"], told["elsewhere"], told["binds"]) == (told["own"], "", False)
    assert [sheet["id"] for sheet in told["sheets"]] == ["room", "places"]
    (table,) = told["sheets"][1]["blocks"]
    rooms = [float(row[1].replace("−", "-")) for row in table["rows"]]
    assert rooms == sorted(rooms)
    assert table["rows"][0][2] in {month["label"] for month in told["year"]["months"]}


def test_in_another_room_the_joints_stay_as_they_are_cut(kept: TestClient) -> None:
    """A typical room, a town, and one of the maker's own; the first and the last are the same air."""
    damp = kept.get("/pieces/1/api/seasons", params={"elsewhere": "damp-warm-coast"}).json()
    own = kept.get("/pieces/1/api/seasons", params={"elsewhere": "kept 1"}).json()
    town = kept.get("/pieces/1/api/seasons", params={"elsewhere": "Denver, CO"}).json()
    assert damp["binds"]
    assert "bind" in damp["verdict"]
    assert damp["sheets"][1]["blocks"][0]["tones"][0] == "bad"
    assert own["year"] == damp["year"]
    assert town["room"] == "Heated house in Denver, CO"
    assert not town["binds"]
    assert {room["value"] for room in town["rooms"]} >= {"kept 1", "Denver, CO", "dry-southwest"}
    for wrong in ("Nowhere", "/etc/passwd", "kept 99"):
        assert kept.get("/pieces/1/api/seasons", params={"elsewhere": wrong}).status_code == 422


def test_when_to_build_is_told_by_month_and_by_moisture(kept: TestClient) -> None:
    """Twelve months with the best and the worst named; in inches where they are asked for."""
    (sheet,) = kept.get("/pieces/1/api/seasons/build").json()["sheets"]
    tables = [block for block in sheet["blocks"] if block["kind"] == "table"]
    assert len(tables[0]["rows"]) == 12
    named = [row[0] for row in tables[0]["rows"] if "(" in row[0]]
    assert sorted(re.findall(r"\((\w+)\)", " ".join(named))) == ["best", "worst"]
    best = next(name for name in named if "best" in name).partition(" ")[0]
    assert sheet["lead"].startswith(f"{best} is best")
    inches = kept.get("/pieces/1/api/seasons/build", params={"units": "in"}).json()
    assert "In inches" in inches["sheets"][0]["blocks"][-2]["note"]


_LETTERING = """() => Math.min(...[...document.querySelectorAll('.picture svg text')].map(
    (each) => each.getBoundingClientRect().height))"""


@pytest.fixture
def page(tmp_path: Path, chromium: Chromium) -> Iterator[Page]:
    """A phone, with the demo kept as piece 1."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        context = browser.new_context(
            base_url=address, viewport={"width": 360, "height": 740}, reduced_motion="reduce"
        )
        page = context.new_page()
        complaints: list[str] = []
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.request.post("/api/pieces", data={"content": page.request.get("/api/demo").json()})
        yield page
        assert complaints == []


@pytest.mark.browser
def test_the_piece_goes_through_the_months_and_into_another_room(page: Page) -> None:
    """The slider tells each month, another room binds where this one does not, and a key leads back."""
    page.goto("/pieces/1/")
    page.get_by_role("link", name="Seasons", exact=True).click()
    page.wait_for_selector("#when", timeout=90_000)
    page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
    assert page.evaluate(_LETTERING) > 8.0  # px: a drawing is read along under a finger, not with a glass
    assert page.evaluate("getComputedStyle(document.querySelector('.plate')).position") == "static"
    slider = page.get_by_label("Month of the year")
    slider.press("End")
    expect(page.locator("year-slider .month")).to_have_text("December")
    expect(page.locator("verdict-room")).to_contain_text("Nothing binds")
    before = page.locator("year-slider .told").text_content() or ""
    page.get_by_label("It stands in").select_option("damp-warm-coast")
    expect(page.locator("verdict-room .bad")).to_contain_text(
        "with the joints as they are cut", timeout=60_000
    )
    expect(page.locator("year-slider .told")).not_to_have_text(before)
    assert "elsewhere=damp-warm-coast" in page.url
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    page.get_by_role("button", name="Back to High-plains house").click()
    expect(page.locator("verdict-room .good")).to_be_visible(timeout=60_000)
    expect(page.locator("year-slider .told")).to_have_text(before or "")


@pytest.mark.browser
def test_a_link_opens_in_the_room_it_was_sent_from(page: Page) -> None:
    """Its address carries the room; lines of the sheets choose their part in the picture."""
    page.goto("/pieces/1/seasons?elsewhere=damp-warm-coast")
    expect(page.get_by_label("It stands in")).to_have_value("damp-warm-coast", timeout=90_000)
    page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
    page.locator("#places .point").first.click()
    expect(page.locator("piece-plate .name")).to_have_text("Top")


@pytest.mark.browser
def test_what_keeps_the_best_month_from_being_told_is_told(page: Page) -> None:
    """In place of the wait for it, in whichever room it is looked at; the year is told all the same."""
    page.route("**/api/seasons/build*", lambda route: route.abort())
    page.goto("/pieces/1/seasons")
    waiting = page.locator("season-sheets > p")
    expect(waiting).to_contain_text("does not answer", timeout=90_000)
    expect(page.locator("verdict-room")).to_contain_text("Nothing binds")
    page.get_by_label("It stands in").select_option("damp-warm-coast")
    expect(page.locator("verdict-room .bad")).to_contain_text(
        "with the joints as they are cut", timeout=60_000
    )
    expect(waiting).to_contain_text("does not answer")


@pytest.mark.browser
def test_how_the_piece_fares_is_written_when_it_changes(page: Page) -> None:
    """The same again is not: whoever hears the page would hear it again."""
    page.goto("/pieces/1/seasons")
    expect(page.locator("verdict-room")).to_contain_text("Nothing binds", timeout=90_000)
    written = page.locator("verdict-room").evaluate(
        """(room) => {
          const seen = new MutationObserver(() => {});
          seen.observe(room, { childList: true, subtree: true, characterData: true });
          const told = (verdict) => {
            room.state = { seasons: { verdict, binds: false }, faults: [], busy: false };
            return seen.takeRecords().length > 0;
          };
          return [told("It fits."), told("It fits."), told("It binds.")];
        }"""
    )
    assert written == [True, False, True]
