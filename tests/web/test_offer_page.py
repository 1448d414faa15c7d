"""The offer is asked for on the papers of the page, with the client and the price the maker says."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.web.kept_browser import Chromium

__all__: list[str] = []


@pytest.mark.browser
def test_the_offer_takes_client_and_price_along(chromium: Chromium, address: str) -> None:
    """They go into its address; the price reckoned is shown; one that is none takes the key and says why."""
    with chromium.windows() as browser:
        _ask(browser.new_page(), address)


def _ask(page: Page, address: str) -> None:
    overview = {"id": "overview", "blocks": [{"kind": "facts", "items": [["Price", "4,712 USD"]]}]}
    page.route("**/api/plan", lambda route: route.fulfill(json={"sheets": [overview]}))
    page.goto(f"{address}papers")
    offer = page.get_by_role("link", name="Print the offer")
    expect(offer).to_have_attribute("href", "api/offer.pdf?paper=a4")
    expect(page.get_by_label("Price, where")).to_have_accessible_name(
        "Price, where it is not the one reckoned 4,712 USD"
    )
    page.get_by_label("Client").fill("A reader")
    page.get_by_label("Price, where it is not the one reckoned").fill("4,900")
    expect(offer).to_have_attribute("href", "api/offer.pdf?client=A+reader&paper=a4&price=4%2C900")
    page.get_by_label("Price, where it is not the one reckoned").fill("much")
    expect(offer).to_have_count(0)
    expect(page.get_by_text("A price is a sum of money above 0")).to_be_visible()
