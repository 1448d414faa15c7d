"""The published plan as its readers open it: from a disk, with no network."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from scantling.web.designs.session import Session
from tests.web.kept_browser import Chromium, drawn
from tests.web.specimen import DEMO

__all__: list[str] = []

pytestmark = pytest.mark.browser
_SIZE = {
    "Both": "1370 × 660 × 740 mm [53 15/16 × 25 31/32 × 29 1/8 in]",
    "Inches": "53 15/16 × 25 31/32 × 29 1/8 in",
    "Millimeters": "1370 × 660 × 740 mm",
}
"""Size of the demo piece, by the key that shows lengths so."""


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Where the demo piece is published."""
    target = tmp_path_factory.mktemp("published") / "plan.html"
    rack = DEMO.parent / "racks" / "reading-table.csv"
    target.write_bytes(Session(DEMO, rack=rack).published({}).content)
    return target.as_uri()


@pytest.fixture(scope="module")
def browser(chromium: Chromium) -> Iterator[Browser]:
    """One browser for the file."""
    with chromium.windows() as browser:
        yield browser


def _opened(
    browser: Browser, file: str, *, width: int = 1100, scheme: str = "light"
) -> tuple[Page, list[str]]:
    """The file in a browser without a network; with everything it complained of or asked for."""
    context = browser.new_context(
        viewport={"width": width, "height": 900}, color_scheme=scheme, reduced_motion="reduce", offline=True
    )
    page, said = context.new_page(), []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("request", lambda request: said.append(request.url))
    page.goto(file)
    page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
    return page, said


_BLUE = """() => {
  const drawn = document.querySelector("piece-plate canvas");
  const flat = new OffscreenCanvas(drawn.width, drawn.height).getContext("2d");
  flat.drawImage(drawn, 0, 0);
  const { data } = flat.getImageData(0, 0, drawn.width, drawn.height);
  let blue = 0;
  for (let i = 0; i < data.length; i += 4) if (data[i + 3] > 250 && data[i + 2] > data[i] + 20) blue += 1;
  return blue / (drawn.width * drawn.height);
}"""
"""Share of the picture that is bluer than red."""


def test_the_first_part_picked_is_marked_at_once(browser: Browser, file: str) -> None:
    """Its faces turn blue with the one drawing that follows, though shadows were drawn in the one before."""
    page, _ = _opened(browser, file)
    page.wait_for_timeout(1000)  # until it is drawn for the last time unasked
    before = page.evaluate(_BLUE)
    page.select_option("plate-controls select", "top")
    drawn(page)
    assert page.evaluate(_BLUE) - before > 0.02
    page.context.close()


def test_it_opens_from_a_disk_and_asks_for_nothing(browser: Browser, file: str) -> None:
    """The piece is drawn; only the file itself was asked for; a part tells its sizes in either unit."""
    page, said = _opened(browser, file)
    assert said == [file]
    whole = page.locator("canvas").evaluate("canvas => canvas.toDataURL()")
    page.locator("#pull").fill("100")
    expect(page.locator(".caption")).to_have_text("Pulled apart along its joints.")
    drawn(page)
    assert page.locator("canvas").evaluate("canvas => canvas.toDataURL()") != whole
    page.select_option("plate-controls select", "top")
    expect(page.locator(".part-told")).to_contain_text("Length 1316\u00a0mm")
    assert page.locator(".told tr.about-part").count() >= 1
    page.get_by_text("Inches", exact=True).click()
    expect(page.locator(".part-told")).to_contain_text("Length 51\u00a013/16\u00a0in")
    page.get_by_text("Both", exact=True).click()
    expect(page.locator(".part-told")).to_contain_text("Length 1316\u00a0mm [51\u00a013/16\u00a0in]")
    page.get_by_role("button", name="See through").click()
    expect(page.get_by_role("button", name="See through")).to_have_attribute("aria-pressed", "true")
    page.context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_fits_a_small_phone_in_light_and_dark(browser: Browser, file: str, scheme: str) -> None:
    """Nothing sticks out at 360 px in either unit, keys are 44 px, the ground is the reader's choice."""
    page, _ = _opened(browser, file, width=360, scheme=scheme)
    for units in ("Both", "Inches", "Millimeters"):
        page.get_by_text(units, exact=True).click()
        assert page.evaluate("document.documentElement.scrollWidth") == 360
    small = page.evaluate(
        """() => [...document.querySelectorAll("button, select, label:not([for=pull]), input[type=range]")]
            .filter((each) => each.checkVisibility() && each.getBoundingClientRect().height < 44)
            .map((each) => each.outerHTML)"""
    )
    assert small == []
    ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert (ground == "rgb(20, 25, 21)") == (scheme == "dark")
    page.context.close()


def test_without_a_script_every_word_is_there(browser: Browser, file: str) -> None:
    """No empty picture stands over it, and the unit is still to be chosen."""
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto(file)
    expect(page.locator(".plate")).to_be_hidden()
    expect(page.locator(".steps > li").first).to_be_visible()
    size = page.locator(".told > .facts dd").first
    for units, told in _SIZE.items():
        page.get_by_text(units, exact=True).click()
        assert size.inner_text().replace("\u00a0", " ") == told
    context.close()


def test_it_prints_in_one_unit(browser: Browser, file: str) -> None:
    """On paper the keys are gone and the ground is white, whatever the screen has."""
    page, _ = _opened(browser, file, scheme="dark")
    page.emulate_media(media="print")
    expect(page.locator(".switches")).to_be_hidden()
    assert page.locator(".told > .facts dd").first.inner_text().replace("\u00a0", " ") == _SIZE["Millimeters"]
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    page.context.close()
