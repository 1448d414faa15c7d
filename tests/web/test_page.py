"""The page in a browser: what a maker does with it, and what it must never do."""

from __future__ import annotations

import re
from collections.abc import Iterator
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from scantling.papers.words.unbroken import NO_BREAK
from tests.web.kept_browser import Chromium, drawn

__all__: list[str] = []

pytestmark = pytest.mark.browser

_READY = "piece-plate[data-ready]"


def said(place: Locator) -> str:
    """What is read there; the spaces at which no line ends are spaces."""
    return place.inner_text().replace(NO_BREAK, " ")


@pytest.fixture(scope="module")
def browser(chromium: Chromium) -> Iterator[Browser]:
    """One browser for all tests of this file."""
    with chromium.windows() as browser:
        yield browser


class Visit:
    """One visit of the page, with all it said and asked for."""

    def __init__(self, browser: Browser, address: str, *, width: int, height: int, scheme: str) -> None:
        self.page = browser.new_page(
            viewport={"width": width, "height": height}, color_scheme=scheme, reduced_motion="reduce"
        )
        self.page.set_default_timeout(45_000)  # a machine with other work draws slowly
        self.said: list[str] = []
        self.asked: list[str] = []
        self.page.on("console", lambda message: self.said.append(f"{message.type}: {message.text}"))
        self.page.on("pageerror", lambda error: self.said.append(f"error: {error}"))
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.goto(address)
        self.page.wait_for_selector(_READY)
        self.page.wait_for_selector("#parts")


@pytest.fixture(scope="module")
def desk(browser: Browser, address: str) -> Iterator[Visit]:
    """The page on a laptop, shared by the tests that leave it as they found it."""
    visit = Visit(browser, address, width=1280, height=900, scheme="light")
    yield visit
    visit.page.close()


@pytest.fixture(scope="module")
def phone(browser: Browser, address: str) -> Iterator[Visit]:
    """The page on a small phone, at night, shared likewise."""
    visit = Visit(browser, address, width=360, height=740, scheme="dark")
    yield visit
    visit.page.close()


def _sizes_of(page: Page, part: str) -> dict[str, str]:
    """Sizes on the slip of a part chosen from the list."""
    page.select_option("plate-controls select", part)
    pairs = page.locator("part-slip .sizes div").all()
    return {said(pair.locator("dt")): said(pair.locator("dd")) for pair in pairs}


def _open(page: Page, chapter: str) -> None:
    """Open what is folded in a chapter."""
    page.eval_on_selector_all(f"{chapter} details", "folds => folds.forEach(each => { each.open = true })")


def _settled(page: Page) -> None:
    """Wait until the plan of what is asked for is on show."""
    page.wait_for_selector("piece-plate[aria-busy='false']")


def _place(page: Page, part: str) -> tuple[float, float]:
    """Where a part is drawn, once the picture has taken the size the page leaves it."""
    at = page.evaluate(
        """name => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() =>
          done(document.querySelector('piece-plate').placeOf(name)))))""",
        part,
    )
    return at["x"], at["y"]


def test_the_page_opens_without_a_complaint_and_asks_nobody_else(desk: Visit) -> None:
    """No error or warning on the console, and not one request that leaves this computer."""
    assert desk.said == []
    strangers = [url for url in desk.asked if urlsplit(url).hostname not in {"127.0.0.1", None}]
    assert strangers == []
    assert any(url.endswith("/api/scene.glb") for url in desk.asked)


def test_a_drawing_takes_the_ink_of_the_page_and_brings_no_script(desk: Visit) -> None:
    """The picture of the specimen board is filled from the page's variables; what else it carried is gone."""
    figure = desk.page.locator("#boards .picture svg")
    assert figure.locator("script").count() == 0
    assert "--sheet-tint" in figure.locator("path").first.evaluate("path => path.style.fill")
    assert desk.page.evaluate("window.scriptRan") is None


def test_a_drawing_can_be_enlarged_and_put_away(desk: Visit) -> None:
    """It fills the window, wider than in its column; Escape closes it and leaves nothing behind."""
    column = desk.page.locator("#boards .picture svg").bounding_box()
    desk.page.click("#boards .under-picture button")
    large = desk.page.locator("dialog svg").bounding_box()
    assert column is not None
    assert large is not None
    assert large["width"] > 1.5 * column["width"]
    desk.page.keyboard.press("Escape")
    desk.page.wait_for_selector("dialog", state="detached")


def test_clicking_a_part_shows_its_sizes_and_what_concerns_it(desk: Visit) -> None:
    """A click on the leg in the picture opens its slip, and marks the rows about it; Escape puts it away."""
    x, y = _place(desk.page, "leg_fl")
    desk.page.mouse.click(x, y)
    slip = desk.page.locator("part-slip")
    expect(slip.locator("h2")).to_have_text("Front left leg")
    assert "48 mm" in said(slip.locator(".sizes"))
    assert "clamp faces" in said(slip)
    assert "Finished sizes" in said(slip)
    expect(desk.page.locator(".row.about-part")).to_have_count(1)
    desk.page.keyboard.press("Escape")
    expect(slip).to_be_hidden()


def test_the_picture_keeps_its_height_beside_a_slip_and_the_month_its_line(
    browser: Browser, address: str
) -> None:
    """With a part chosen the picture has two fifths of the window, and no month wraps."""
    visit = Visit(browser, address, width=1400, height=900, scheme="light")
    visit.page.locator("piece-plate").press("n")
    visit.page.wait_for_selector("part-slip:not([hidden])")
    assert visit.page.locator("piece-plate").evaluate("e => e.clientHeight") >= 0.4 * 900 - 1
    assert visit.page.locator(".plate").evaluate("e => e.scrollHeight") <= 900
    month = visit.page.locator(".beside .month")
    one_line = month.evaluate("e => e.clientHeight")
    visit.page.locator(".beside input").press("End")
    for _ in range(3):
        visit.page.locator(".beside input").press("ArrowLeft")
    expect(month).to_have_text("September")
    assert month.evaluate("e => e.clientHeight") == one_line
    visit.page.close()


def test_keys_turn_the_piece_and_go_from_part_to_part(desk: Visit) -> None:
    """With the picture focused, an arrow moves what is seen, N chooses the first part and Escape lets go."""
    desk.page.focus("piece-plate")
    before = _place(desk.page, "leg_fr")
    desk.page.keyboard.press("ArrowLeft")
    assert abs(_place(desk.page, "leg_fr")[0] - before[0]) > 5
    desk.page.keyboard.press("0")
    assert _place(desk.page, "leg_fr") == pytest.approx(before, abs=0.5)
    desk.page.keyboard.press("n")
    expect(desk.page.locator("part-slip h2")).to_have_text("Top")
    desk.page.keyboard.press("Escape")


def test_the_slider_pulls_the_piece_apart(desk: Visit) -> None:
    """The end of the top goes away from the leg, and comes back."""
    rest = _place(desk.page, "end_left")
    desk.page.fill("#pull", "100")
    apart = _place(desk.page, "end_left")
    assert abs(apart[0] - rest[0]) + abs(apart[1] - rest[1]) > 5
    expect(desk.page.locator(".caption")).to_have_text("Pulled apart along its joints.")
    desk.page.fill("#pull", "0")
    assert _place(desk.page, "end_left") == pytest.approx(rest, abs=0.5)


def test_a_row_points_at_its_parts(desk: Visit) -> None:
    """Going over the row of the legs names none, since there are four; over that of the top, the top."""
    _open(desk.page, "#parts")
    desk.page.locator("#parts .row").first.hover()
    expect(desk.page.locator("piece-plate .name")).to_have_text("Top")
    desk.page.mouse.move(5, 5)
    expect(desk.page.locator("piece-plate .name")).to_be_hidden()


def test_a_changed_size_is_followed_and_carried_by_the_address(
    desk: Visit, browser: Browser, address: str
) -> None:
    """Length 1300 mm makes the top 70 mm shorter; the address opens the same page again."""
    page = desk.page
    drawn = _sizes_of(page, "top")
    _open(page, "#parts")
    page.fill("#size-length", "130 cm")
    page.wait_for_function(
        "was => document.querySelector('part-slip .sizes dd').innerText.replaceAll('\\u00a0', ' ') !== was",
        arg=drawn["Length"],
    )
    changed = _sizes_of(page, "top")
    assert float(drawn["Length"].split()[0]) - float(changed["Length"].split()[0]) == 70.0
    page.wait_for_selector("td.changed")
    expect(page).to_have_url(f"{address}?length=130+cm")
    again = Visit(browser, page.url, width=1280, height=900, scheme="light")
    assert _sizes_of(again.page, "top") == changed
    again.page.close()
    page.click("text=All as drawn")
    page.wait_for_function(
        "was => document.querySelector('part-slip .sizes dd').innerText.replaceAll('\\u00a0', ' ') === was",
        arg=drawn["Length"],
    )
    expect(page).to_have_url(address)
    page.keyboard.press("Escape")
    _settled(page)


def test_a_fault_is_told_at_its_field_and_the_last_good_plan_stays(desk: Visit) -> None:
    """Three meters is refused in words beside the field; picture and tables stay; going back clears it."""
    page = desk.page
    before = len(desk.said)
    rows = said(page.locator("#parts table"))
    page.fill("#size-length", "3 m")
    fault = page.locator("#size-length-fault")
    fault.wait_for(state="visible")
    assert said(fault).startswith("Length must be 1000 mm to 2400 mm. ")
    assert page.get_attribute("#size-length", "aria-invalid") == "true"
    assert said(page.locator("#parts table")) == rows
    assert page.input_value("#size-length") == "3 m"
    page.click("size-field[data-faulty] .back")
    fault.wait_for(state="hidden")
    _settled(page)
    assert [line for line in desk.said[before:] if "422" not in line] == []


def test_steps_count_that_are_faster_than_the_plan(desk: Visit) -> None:
    """Three presses at once are three steps, though no answer came between; another goes on from there."""
    page = desk.page
    field = page.locator("size-field", has=page.locator("#size-length"))
    step = float(field.locator("input[type=range]").get_attribute("step") or "")
    field.get_by_role("button", name="More").evaluate("key => { key.click(); key.click(); key.click(); }")
    expect(page.locator("#size-length")).to_have_value(f"{1370 + 3 * step:g} mm")
    page.wait_for_url(f"**length={1370 + 3 * step:g}+mm**")
    _settled(page)
    field.get_by_role("button", name="Less").click()
    expect(page.locator("#size-length")).to_have_value(f"{1370 + 2 * step:g} mm")
    field.locator(".back").click()
    _settled(page)
    expect(page.locator("#size-length")).to_have_value("1370 mm")


def test_inches_are_shown_and_a_bare_number_is_read_in_them(desk: Visit, address: str) -> None:
    """The key shows every length in inches; 51 written there is 51 in, and the address says so."""
    page = desk.page
    page.click("unit-switch [data-units=in]")
    page.wait_for_function("() => document.querySelector('#size-length').value === '53 15/16 in'")
    assert "A bare number is inches" in said(page.locator("#sizes .lead"))
    page.fill("#size-length", "51")
    page.wait_for_function("() => document.querySelector('size-field .back').checkVisibility()")
    expect(page).to_have_url(f"{address}?length=51+in&units=in")
    page.click("text=All as drawn")
    page.click("unit-switch [data-units=mm]")
    page.wait_for_function("() => document.querySelector('#size-length').value === '1370 mm'")
    _settled(page)


def test_both_units_are_shown_and_a_bare_number_is_in_the_one_that_leads(desk: Visit, address: str) -> None:
    """The field stays in the file's unit, the other stands beside it."""
    page = desk.page
    page.click("unit-switch [data-units=both]")
    page.wait_for_function("() => document.querySelector('size-field .other-unit')?.checkVisibility()")
    assert page.input_value("#size-length") == "1370 mm"
    assert said(page.locator("size-field .other-unit").first) == "[53 15/16 in]"
    assert page.get_attribute("unit-switch [data-units=both]", "aria-pressed") == "true"
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    expect(page).to_have_url(f"{address}?units=both")
    page.click("unit-switch [data-units=mm]")
    page.wait_for_function("() => !document.querySelector('size-field .other-unit').checkVisibility()")
    _settled(page)


def test_what_is_folded_says_what_is_inside_and_is_opened_by_a_link(desk: Visit) -> None:
    """The table of parts tells its rows in a line; the slip of the top leads to its row."""
    page = desk.page
    page.eval_on_selector_all("details", "folds => folds.forEach(each => { each.open = false })")
    assert "5 lines" in said(page.locator("#parts summary"))
    page.select_option("plate-controls select", "top")
    page.click("part-slip a")
    row = page.locator("#parts .row").first
    row.wait_for(state="visible")
    assert row.evaluate("row => row.contains(document.activeElement)")
    page.keyboard.press("Escape")


def test_folds_stay_open_over_a_reload_and_all_open_to_print(desk: Visit) -> None:
    """What was opened in this tab is open again; the packet's sheets are whole on paper."""
    page = desk.page
    page.eval_on_selector_all("details", "folds => folds.forEach(each => { each.open = false })")
    page.click("#parts summary")
    # the browser tells of the fold a moment after it is drawn open: a reload before that forgets it
    page.wait_for_function("() => sessionStorage.getItem('open-folds')?.includes('parts')")
    page.reload()
    page.wait_for_selector("#parts details[open]")
    page.wait_for_selector(_READY)
    assert page.locator("details[open]").count() == 1
    page.evaluate("() => dispatchEvent(new Event('beforeprint'))")
    assert page.locator("details:not([open])").count() == 0
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    assert page.locator("details[open]").count() == 1


def test_the_year_moves_the_piece_and_marks_the_tightest_place(desk: Visit) -> None:
    """From as built to February with the keys: words, room left beside its mark, and the pixels change."""
    page = desk.page
    plate, slider = page.locator("piece-plate canvas"), page.locator(".beside input")
    built = plate.evaluate("canvas => canvas.toDataURL()")
    slider.focus()
    for _ in range(2):
        page.keyboard.press("ArrowRight")
    page.wait_for_function("() => !document.querySelector('.tight-room').hidden")
    assert said(page.locator(".beside .month")) == "February"
    assert re.fullmatch(r"Room left [\d.]+ mm", said(page.locator(".tight-room")))
    assert "in February, movement drawn 10 times larger" in said(page.locator(".caption"))
    drawn(page)
    assert plate.evaluate("canvas => canvas.toDataURL()") != built
    page.keyboard.press("Home")
    page.wait_for_function("() => document.querySelector('.tight-room').hidden")


def test_an_address_with_a_bad_size_still_shows_the_piece(browser: Browser, address: str) -> None:
    """The file as drawn is shown, with the fault at the field the address spoilt."""
    visit = Visit(browser, f"{address}?length=7+m&nonsense=1", width=1280, height=900, scheme="light")
    assert visit.page.locator("#size-length-fault").is_visible()
    assert "Nonsense must" in said(visit.page.locator("size-form .notice"))
    assert visit.page.locator("#parts").is_visible()
    visit.page.close()


def test_the_page_fits_a_small_phone(phone: Visit) -> None:
    """At 360 px nothing sticks out to the right, and what is touched is at least 44 px high."""
    page = phone.page
    page.fill("#pull", "100")
    _place(page, "top")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    small = page.evaluate(
        """() => [...document.querySelectorAll('button.key, a.key, select, input, thumb-index a')]
          .filter(each => each.offsetParent && each.getBoundingClientRect().height < 40)
          .map(each => each.outerHTML.slice(0, 80))"""
    )
    assert small == []
    assert phone.said == []


def test_dark_is_followed_and_can_be_turned(phone: Visit) -> None:
    """A computer that prefers dark gets it; the key turns it to light, and a reload keeps that."""
    page = phone.page

    def paper() -> int:
        shade = page.evaluate("getComputedStyle(document.body).backgroundColor")
        return sum(int(value) for value in re.findall(r"\d+", shade)[:3])

    assert paper() < 150
    page.click("theme-switch button")
    assert paper() > 600
    page.reload()
    page.wait_for_selector(_READY)
    assert paper() > 600
