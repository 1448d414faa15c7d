"""The strip of places: the same on every document, leading where something is, and nowhere else."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from starlette.testclient import TestClient

from scantling.web.documents.leaves import LEAVES
from scantling.web.documents.places import PLACES, Of
from scantling.web.documents.shell import static_folder
from tests.web.kept_browser import Chromium, kept_server
from tests.web.records import app_with_records

__all__: list[str] = []


class _Strip(HTMLParser):
    """Reads the links of the strip: address, label, and which is current."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: list[tuple[str, str]] = []
        self.current: list[str] = []
        found = re.search(r'<nav class="places".*?</nav>', text, re.DOTALL)
        self.feed(found[0] if found else "")

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "a":
            told = dict(attrs)
            self.links.append((told["href"] or "", ""))
            if "aria-current" in told:
                self.current.append(told["href"] or "")

    def handle_data(self, data: str) -> None:
        address, label = self.links[-1]
        self.links[-1] = (address, label + data)


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """The routes of kept pieces, with one in them that is called like a name to fill in."""
    with (
        app_with_records(tmp_path_factory.mktemp("places")) as app,
        TestClient(app, base_url="http://127.0.0.1") as client,
    ):
        asked = {"form": "hall-bench", "name": "{{strip}} <b>"}
        assert client.post("/api/pieces", json=asked).status_code == 201
        yield client


def test_every_place_of_a_kept_piece_is_reached_from_every_other(kept: TestClient) -> None:
    """Each document has all places, in one order, with itself as the current one; each of them answers."""
    links = _Strip(kept.get("/pieces/1/").text).links
    assert [label for _, label in links] == [place.label for place in PLACES]
    for address, _ in links:
        answer = kept.get(address)
        assert answer.status_code == 200
        strip = _Strip(answer.text)
        assert strip.current == [address]
        whole = links if address.startswith("/pieces/1/") else links[: len(strip.links)]
        assert strip.links == whole


def test_a_page_of_one_file_leads_only_to_what_it_has(client: TestClient) -> None:
    """No list, no bench: a file alone has its page and the yard, and each answers."""
    strip = _Strip(client.get("/").text)
    wanted = [place.label for place in PLACES if place.of is Of.PIECE]
    assert [label for _, label in strip.links] == wanted
    assert all(client.get(address).status_code == 200 for address, _ in strip.links)


def test_an_older_version_leads_to_the_piece_as_it_is(kept: TestClient) -> None:
    """Its places are those of the current version, and it is none of them."""
    strip = _Strip(kept.get("/pieces/1/versions/1/").text)
    assert strip.current == []
    assert ("/pieces/1/bench", "Bench") in strip.links


def test_a_name_is_a_name_whatever_it_holds(kept: TestClient) -> None:
    """A piece called like a name to fill in, or like markup, is shown so."""
    text = kept.get("/pieces/1/bench").text
    assert "<title>Bench: {{strip}} &lt;b&gt;</title>" in text
    assert text.count('<nav class="places"') == 1


def test_every_part_is_in_its_frame_and_nothing_is_left_to_fill_in(kept: TestClient) -> None:
    """All parts beside the frame and the published file are leaves; what they name is there."""
    parts = {path.stem for path in static_folder().glob("*.html")} - {"frame", "published"}
    assert parts == set(LEAVES)
    for name, leaf in LEAVES.items():
        assert "<main" in (static_folder() / f"{name}.html").read_text(encoding="utf-8")
        for style in leaf.styles:
            assert (static_folder() / "css" / f"{style}.css").is_file()
        assert not leaf.wiring or (static_folder() / "js" / f"{leaf.wiring}.js").is_file()
    for address in ("/pieces", "/pieces/1/yard", "/stockroom"):
        answer = kept.get(address)
        assert "{{" not in answer.text.replace("{{strip}}", "")
        assert "sha256-" in answer.headers["content-security-policy"]


@pytest.mark.browser
def test_sizes_that_were_tried_go_along(tmp_path: Path, chromium: Chromium) -> None:
    """From the yard to the piece with the address's sizes; not to the bench, which is of what is kept."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        page: Page = browser.new_page(viewport={"width": 360, "height": 740}, base_url=address)
        assert page.request.post("/api/pieces", data={"form": "hall-bench"}).status == 201
        page.goto("/pieces/1/yard?length=1200+mm")
        page.get_by_role("navigation", name="Places").get_by_role("link", name="Piece", exact=True).click()
        page.wait_for_url("**/pieces/1/?length=1200+mm")
        expect(page.locator("#size-length")).to_have_value("1200 mm", timeout=60_000)
        page.get_by_role("link", name="Bench", exact=True).press("Enter")
        page.wait_for_url("**/pieces/1/bench")


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory, chromium: Chromium) -> Iterator[Page]:
    """A small phone on a kept piece whose boards can be marked, so that it has every place there is."""
    with kept_server(tmp_path_factory.mktemp("phone")) as address, chromium.windows() as browser:
        context = browser.new_context(
            base_url=address, viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True
        )
        demo = context.request.get("/api/demo").json()
        assert context.request.post("/api/pieces", data={"content": demo}).status == 201
        yield context.new_page()


@pytest.mark.browser
@pytest.mark.parametrize("own", ["", "boards", "seasons", "bench"])
def test_on_a_phone_every_place_is_in_sight_on_two_lines(phone: Page, own: str) -> None:
    """The places of all pieces with the keys beside them, those of the piece below; each a thumb wide."""
    phone.goto(f"/pieces/1/{own}")
    if own != "bench":
        expect(phone.get_by_role("combobox", name="Show lengths in")).to_be_visible()
    boxes = [link.bounding_box() for link in phone.locator(".places a").all()]
    assert len(boxes) == len(PLACES)
    assert all(box and box["x"] >= 0 and box["x"] + box["width"] <= 360 for box in boxes)
    assert all(box and box["width"] >= 44 and box["height"] >= 44 for box in boxes)
    assert len({round(box["y"]) for box in boxes if box}) == 2
    strip, last = phone.locator(".top").bounding_box(), boxes[-1]
    assert strip
    assert last
    assert strip["height"] <= last["y"] + last["height"] + 3  # nothing stands on a third line


@pytest.mark.browser
def test_on_a_phone_the_unit_is_chosen_from_a_list(phone: Page) -> None:
    """Three keys have no room there: one list, which says what is on show."""
    phone.goto("/pieces/1/")
    units = phone.get_by_role("combobox", name="Show lengths in")
    expect(units).to_have_value("mm")
    units.select_option("in")
    expect(phone.locator("#size-length")).to_have_value("53 15/16 in")
    units.select_option("mm")
    expect(phone.locator("#size-length")).to_have_value("1370 mm")
