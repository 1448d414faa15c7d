"""A size measured at the bench changes what is to be made, also after a reload; emptied, it is gone."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.web.kept_browser import Chromium, kept_server

__all__: list[str] = []

_PLANNED_MS = 90_000
"""A plan may take so long on a machine with other work. [ms]"""


@pytest.fixture
def bench(tmp_path: Path, chromium: Chromium) -> Iterator[Page]:
    """A phone at the bench of a reading table."""
    with kept_server(tmp_path) as address, chromium.windows() as browser:
        phone = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, base_url=address)
        assert phone.request.post("/api/pieces", data={"form": "reading-table"}).status == 201
        page = phone.new_page()
        page.goto("/pieces/1/bench")
        page.wait_for_selector(".step", timeout=_PLANNED_MS)
        yield page


def _open(page: Page, step: str) -> None:
    if page.locator(".all:not([open])").count():
        page.get_by_text("All steps").tap()
    page.locator(".all").get_by_role("button", name=step, exact=True).tap()
    expect(page.locator(".step h2")).to_have_text(step)
    if page.locator(".step .sizes:not([open])").count():
        page.get_by_text("Sizes as planned").tap()


def _size(page: Page, label: str) -> Locator:
    return page.locator(".step .sizes label").filter(has=page.get_by_label(f"{label} as measured"))


@pytest.mark.browser
def test_a_size_measured_changes_the_next_step_and_stays_after_a_reload(bench: Page) -> None:
    """The top is 657 mm wide in place of 660: the ends sawn next are as long, beside what was drawn."""
    _open(bench, "Flatten and trim the panels")
    field = bench.get_by_label("Top, width as measured")
    field.fill("657")
    field.blur()
    expect(_size(bench, "Top, width")).to_contain_text("measured; drawn 660", timeout=_PLANNED_MS)
    _open(bench, "Saw set-up 1")
    expect(_size(bench, "End left, length")).to_contain_text("657", timeout=_PLANNED_MS)
    expect(_size(bench, "End left, length")).to_contain_text("drawn 660", timeout=_PLANNED_MS)
    bench.reload()
    _open(bench, "Saw set-up 1")
    expect(_size(bench, "End left, length")).to_contain_text("drawn 660", timeout=_PLANNED_MS)
    assert bench.evaluate("document.documentElement.scrollWidth") <= 360
    _open(bench, "Flatten and trim the panels")
    emptied = bench.get_by_label("Top, width as measured")
    expect(emptied).to_have_value("657")
    emptied.fill("")
    emptied.blur()
    expect(_size(bench, "Top, width")).not_to_contain_text("drawn", timeout=_PLANNED_MS)


@pytest.mark.browser
def test_what_no_longer_fits_is_told_with_a_way_out_and_what_cannot_be_is_refused(bench: Page) -> None:
    """An apron 2 mm short: shim, anew, or a shorter table. One of 96 mm is refused, and not kept."""
    _open(bench, "Saw set-up 7")
    field = bench.get_by_label("Apron front, length as measured")
    field.fill("96")
    field.blur()
    expect(bench.get_by_role("alert")).to_contain_text("Measure it again", timeout=_PLANNED_MS)
    expect(field).to_have_value("", timeout=_PLANNED_MS)
    field.fill("962")
    field.blur()
    told = bench.locator(".misfits")
    expect(told).to_contain_text("2.0 mm too short", timeout=_PLANNED_MS)
    expect(told).to_contain_text("let length be 1368.0 mm")
    assert bench.evaluate("document.documentElement.scrollWidth") <= 360


@pytest.mark.browser
def test_a_key_beside_what_no_longer_fits_mends_it(bench: Page) -> None:
    """Made anew: its measure is gone, and so is the finding. Measured again: a longer table is a version."""
    _open(bench, "Saw set-up 7")
    field, told = bench.get_by_label("Apron front, length as measured"), bench.locator(".misfits")
    for key, said in (
        ("Make apron front anew: take back its length as measured", "Write it again where it was"),
        ("Set length to 1368 mm", "kept as version 2"),
    ):
        field.fill("962")
        field.blur()
        button = told.get_by_role("button", name=key, exact=True)
        button.wait_for(timeout=_PLANNED_MS)
        box = button.bounding_box()
        assert box is not None
        assert box["height"] >= 44
        assert bench.evaluate("document.documentElement.scrollWidth") <= 360
        button.tap()
        expect(bench.locator(".said")).to_contain_text(said, timeout=_PLANNED_MS)
        expect(told).to_have_count(0, timeout=_PLANNED_MS)
        expect(field).to_have_value("" if "anew" in key else "962")
    bench.goto("/pieces/1/")
    expect(bench.locator("piece-bar")).to_contain_text("Version 2 of 2", timeout=_PLANNED_MS)


@pytest.mark.browser
def test_on_the_page_of_the_piece_the_key_takes_the_measure_back_too(bench: Page) -> None:
    """The same finding, the same key; it makes no version."""
    size = {"kind": "measured", "subject": "apron_front.length", "figure": 962.0, "unit": "mm"}
    assert bench.request.post("/api/pieces/1/bench", data=size).status == 201
    bench.goto("/pieces/1/")
    found = bench.locator(".finding").filter(has_text="M01")
    found.wait_for(timeout=_PLANNED_MS)
    keys = found.get_by_role("button").all()
    assert len(keys) == 2
    left = found.locator(".advice").evaluate("each => each.getBoundingClientRect().left")
    assert [key.evaluate("each => each.getBoundingClientRect().left") for key in keys] == [left] * 2
    found.get_by_role("button", name="Make apron front anew").tap()
    expect(found).to_have_count(0, timeout=_PLANNED_MS)
    expect(bench.locator("piece-bar")).to_contain_text("The bench has a field to write it again")
    expect(bench.locator("piece-bar")).not_to_contain_text("Version 2")
