"""The bench on a phone: steps ticked, clocks, sizes measured, nothing lost without a server or a reload."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Response, expect

from tests.web.kept_browser import Chromium, kept_server

__all__: list[str] = []


@pytest.fixture
def phone(tmp_path: Path, chromium: Chromium) -> Iterator[BrowserContext]:
    """A phone on one piece that is kept."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        context = browser.new_context(
            viewport={"width": 360, "height": 740}, has_touch=True, base_url=address
        )
        assert context.request.post("/api/pieces", data={"form": "reading-table"}).status == 201
        yield context


def _open(phone: BrowserContext) -> Page:
    page = phone.new_page()
    page.goto("/pieces/1/bench")
    page.wait_for_selector(".step", timeout=60_000)
    return page


def _step(page: Page) -> str:
    return page.locator(".step h2").inner_text()


@pytest.mark.browser
def test_steps_are_ticked_and_found_again(phone: BrowserContext) -> None:
    """Done leads to the next; another window has it too; and it can be taken back."""
    page = _open(phone)
    first = _step(page)
    page.get_by_role("button", name="Done", exact=True).tap()
    expect(page.locator(".step h2")).not_to_have_text(first)
    page.get_by_text("1 of", exact=False).first.wait_for()
    page.reload()
    page.get_by_text("1 of", exact=False).first.wait_for()
    page.get_by_text("All steps").tap()
    page.locator(".all").get_by_role("button", name=first).tap()
    page.get_by_role("button", name="Not done after all").tap()
    page.get_by_text("0 of", exact=False).first.wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


@pytest.mark.browser
def test_what_rests_is_counted_down_and_other_work_offered(phone: BrowserContext) -> None:
    """The boards are stacked: their week runs, and it says what can be done meanwhile."""
    page = _open(phone)
    for _ in range(3):
        before = _step(page)
        page.get_by_role("button", name="Done", exact=True).tap()
        expect(page.locator(".step h2")).not_to_have_text(before)
    expect(page.locator(".drying b")).to_have_text(re.compile(r"^(7 d 0 h|6 d 23 h)$"))
    for _ in range(42):  # all that need not wait is done, one after another
        if page.locator(".step .before").count():
            break
        before = _step(page)
        page.get_by_role("button", name="Done", exact=True).tap()
        expect(page.locator(".step h2")).not_to_have_text(before)
    left = re.compile(r"^Not yet: \d d \d+ h left to dry or rest after “.+”\.$")
    expect(page.locator(".step .before")).to_have_text(left)
    expect(page.get_by_role("heading", name="What can be done as well")).to_have_count(0)


@pytest.mark.browser
def test_a_clock_runs_through_a_reload_and_a_size_is_kept(phone: BrowserContext) -> None:
    """The clock goes on, the figure stands in its field, one that is none is marked."""
    page = _open(phone)
    page.get_by_role("button", name="Start the clock").tap()
    page.wait_for_timeout(1100)
    page.reload()
    page.get_by_role("button", name="Stop the clock").wait_for()
    page.get_by_text("Sizes as planned").tap()
    field = page.get_by_label("Front left leg, width as measured")
    field.fill("wide")
    field.blur()
    expect(field).to_have_attribute("aria-invalid", "true")
    field.fill("47.6")
    with page.expect_response(_is_told, timeout=60_000) as told:  # drawn as measured, and kept then
        field.blur()
    expect(field).to_have_attribute("aria-invalid", "false")
    assert told.value.status == 201
    bench = page.request.get("/api/pieces/1/bench").json()
    assert bench["measured"]["leg_fl.width"]["figure"] == 47.6


def _is_told(response: Response) -> bool:
    return response.request.method == "POST" and response.url.endswith("/bench")


@pytest.mark.browser
def test_a_size_in_another_unit_counts_and_stands_as_it_was_typed(phone: BrowserContext) -> None:
    """Typed with no signal too: the server reads it, and what it cannot read is told by its size."""
    page = _open(phone)
    page.get_by_text("Sizes as planned").tap()
    field = page.get_by_label("Front left leg, width as measured")
    asked = re.compile("/api/(pieces/|work)")
    page.route(asked, lambda route: route.abort())
    field.fill("1 7/8 in")
    field.blur()
    page.get_by_text("1 not sent yet").wait_for()
    page.reload()
    page.get_by_text("Sizes as planned").tap()
    expect(field).to_have_value("1 7/8 in")
    page.unroute(asked)
    with page.expect_response(_is_told, timeout=60_000) as told:
        page.reload()
    assert told.value.status == 201
    assert told.value.json()["measured"]["leg_fl.width"]["written"] == "1 7/8 in"
    page.get_by_text("Sizes as planned").tap()
    expect(field).to_have_value("1 7/8 in", timeout=60_000)
    field.fill("47 sticks")
    field.blur()
    expect(page.get_by_role("alert")).to_contain_text(
        "Front left leg, width must be a length such as 730 mm", timeout=60_000
    )
    expect(field).to_have_attribute("aria-invalid", "true")
    assert page.request.get("/api/pieces/1/bench").json()["measured"]["leg_fl.width"]["figure"] == 1.875


@pytest.mark.browser
def test_without_a_server_nothing_ticked_is_lost(phone: BrowserContext) -> None:
    """Ticked with no signal, reopened, sent when there is one again, and counted once."""
    page = _open(phone)
    page.get_by_role("button", name="Done", exact=True).tap()
    page.get_by_text(re.compile(r"1 of \d+ steps done")).wait_for()
    expect(page.get_by_text("not sent yet")).to_have_count(0)  # the first one is sent
    asked = re.compile("/api/(pieces/|work)")
    page.route(asked, lambda route: route.abort())
    page.get_by_role("button", name="Done", exact=True).tap()
    page.get_by_text("1 not sent yet").wait_for()
    page.reload()
    page.get_by_text(re.compile(r"2 of \d+ steps done")).wait_for()
    page.unroute(asked)
    page.reload()
    expect(page.get_by_text("not sent yet")).to_have_count(0)
    events = page.request.get("/api/pieces/1/bench").json()["events"]
    assert [event["kind"] for event in events] == ["step done", "step done"]


@pytest.mark.browser
def test_two_windows_without_a_server_lose_nothing_of_each_other(phone: BrowserContext) -> None:
    """One ticks, the other starts its clock and is closed: all is sent by whichever is there."""
    asked = re.compile("/api/(pieces/|work)")
    page, other = _open(phone), _open(phone)
    phone.route(asked, lambda route: route.abort())
    page.get_by_role("button", name="Done", exact=True).tap()
    page.get_by_text("1 not sent yet, kept on this device").wait_for()
    other.get_by_text("1 not sent yet").wait_for()
    other.get_by_role("button", name="Start the clock").tap()
    page.get_by_text("2 not sent yet").wait_for()
    other.close()
    phone.unroute(asked)
    page.reload()
    expect(page.get_by_text("not sent yet")).to_have_count(0)
    events = page.request.get("/api/pieces/1/bench").json()["events"]
    assert [event["kind"] for event in events] == ["step done", "timer started"]


@pytest.mark.browser
def test_what_was_not_taken_stays_told_until_it_is_seen(phone: BrowserContext) -> None:
    """Told at the next step and after a reload; a field emptied with no signal is empty after one too."""
    page = _open(phone)
    page.get_by_text("Sizes as planned").tap()
    field = page.get_by_label("Front left leg, width as measured")
    field.fill("4.76")
    field.blur()
    alert = page.get_by_role("alert")
    expect(alert).to_contain_text("Not taken: Front left leg, width", timeout=60_000)
    page.get_by_role("button", name="Start the clock").tap()
    page.reload()
    expect(alert).to_contain_text("got 4.76 mm")
    page.get_by_role("button", name="I have seen it").tap()
    expect(alert).to_have_count(0)
    page.get_by_text("Sizes as planned").tap()
    with page.expect_response(_is_told, timeout=60_000):
        field.fill("47.6")
        field.blur()
    asked = re.compile("/api/(pieces/|work)")
    page.route(asked, lambda route: route.abort())
    field.fill("")
    field.blur()
    page.get_by_text("1 not sent yet").wait_for()
    page.reload()
    page.get_by_text("Sizes as planned").tap()
    expect(field).to_have_value("")
    page.unroute(asked)
    page.reload()
    expect(page.get_by_text("not sent yet")).to_have_count(0)
    assert page.request.get("/api/pieces/1/bench").json()["measured"] == {}


@pytest.mark.browser
def test_over_a_network_without_encryption_a_step_is_ticked_all_the_same(phone: BrowserContext) -> None:
    """Browsers then offer no names made at random and no clipboard; ticking needs neither."""
    phone.add_init_script(
        "delete Crypto.prototype.randomUUID; delete Navigator.prototype.clipboard;"
        "delete Navigator.prototype.serviceWorker;"
    )
    page = _open(phone)
    assert page.evaluate("typeof crypto.randomUUID") == "undefined"
    page.get_by_role("button", name="Done", exact=True).tap()
    page.get_by_text("1 of", exact=False).first.wait_for()
    expect(page.get_by_text("not sent yet")).to_have_count(0)


@pytest.mark.browser
def test_every_key_of_the_bench_is_large_enough_for_a_thumb(phone: BrowserContext) -> None:
    """No key is smaller than 44 px either way."""
    page = _open(phone)
    page.get_by_text("All steps").tap()
    small = page.evaluate(
        """() => [...document.querySelectorAll("button, summary, input")]
            .filter((each) => each.checkVisibility())
            .map((each) => [each.textContent.trim(), each.getBoundingClientRect()])
            .filter(([, box]) => box.width < 44 || box.height < 44)
            .map(([text, box]) => `${text} ${box.width} x ${box.height}`)"""
    )
    assert small == []


@pytest.mark.browser
def test_the_second_of_two_quick_taps_ticks_nothing(phone: BrowserContext) -> None:
    """It hits the key of the step that came meanwhile; once that was on show for a moment, its key counts."""
    page = phone.new_page()
    began = datetime.now(UTC) - timedelta(hours=2)
    page.clock.install(time=began)
    page.goto("/pieces/1/bench")
    page.wait_for_selector(".step", timeout=60_000)
    page.clock.pause_at(began + timedelta(hours=1))
    first = _step(page)
    page.evaluate(
        """async () => {
          document.querySelector(".step .done").click();
          await document.querySelector("bench-desk").updateComplete;
          document.querySelector(".step .done").click();
        }"""
    )
    expect(page.locator(".step h2")).not_to_have_text(first)
    second = _step(page)
    expect(page.locator(".progress")).to_contain_text("1 of")
    expect(page.locator(".all li.is-done")).to_have_count(1)
    done = page.get_by_role("button", name="Done", exact=True)
    expect(done).to_be_disabled()
    page.clock.run_for(1000)
    expect(done).to_be_enabled()
    done.tap()
    expect(page.locator(".step h2")).not_to_have_text(second)
    expect(page.locator(".all li.is-done")).to_have_count(2)
