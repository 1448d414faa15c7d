"""How soon the page is there: first byte, document ready, piece drawn, a changed size followed."""

from __future__ import annotations

import shutil
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Thread

from timing import Timing, measure

__all__ = ["timings"]

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
FLAGS = [
    "--no-sandbox",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--disable-background-networking",
]
_DRAWN = "piece-plate[data-ready]"
_LENGTHS_MM = iter(range(1300, 1800))
"""Each used once, so that no answer is at hand."""


@contextmanager
def _served() -> Iterator[str]:
    """The demo piece with its rack, shop and room, its plan at hand as after the first look."""
    import uvicorn

    from scantling.web.app import create_app
    from scantling.web.designs.session import Session
    from scantling.web.serving import bind

    session = Session(
        EXAMPLES / "reading_table.yaml",
        rack=EXAMPLES / "racks" / "reading-table.csv",
        shop=EXAMPLES / "shops" / "reading-table.yaml",
        room=EXAMPLES / "rooms" / "high-plains-house.yaml",
    )
    session.design({})
    with bind(0) as listening:
        listening.listen(16)
        server = uvicorn.Server(uvicorn.Config(create_app(session), log_level="error", lifespan="off"))
        thread = Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{listening.getsockname()[1]}/"
        server.should_exit = True
        thread.join(timeout=10)


def timings() -> list[Timing]:
    """Time the server alone, and the page in Chromium where there is one (drawn by the processor)."""
    with _served() as address:
        done = [
            measure("page: first byte", lambda: _read(address), limit_s=0.1),
            measure(
                "page: shape of a new size, from the server",
                lambda: _read(_changed(f"{address}api/shape")),
                limit_s=0.5,
            ),
            measure(
                "page: plan of a new size, from the server",
                lambda: _read(_changed(f"{address}api/plan")),
                limit_s=2.0,
            ),
        ]
        chromium = shutil.which("chromium")
        if chromium is not None:
            done += _in_browser(address, chromium)
    return done


def _read(address: str) -> None:
    with urllib.request.urlopen(address) as answer:  # noqa: S310 - our own server
        answer.read()


def _changed(route: str) -> str:
    return f"{route}?length={next(_LENGTHS_MM)}+mm"


def _in_browser(address: str, chromium: str) -> list[Timing]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=chromium, headless=True, args=FLAGS)
        page = browser.new_page(viewport={"width": 1280, "height": 900})

        def opened(until: Callable[[], object]) -> Callable[[], None]:
            def action() -> None:
                page.goto("about:blank")
                page.goto(address, wait_until="commit")
                until()

            return action

        def followed() -> None:
            before = page.get_attribute("piece-plate", "data-ready")
            page.fill("#size-length", f"{next(_LENGTHS_MM)} mm")
            page.wait_for_function(
                f"was => document.querySelector('{_DRAWN}').dataset.ready !== was", arg=before
            )

        done = [
            measure(
                "page: document ready, in Chromium",
                opened(lambda: page.wait_for_load_state("domcontentloaded")),
            ),
            measure("page: piece drawn, in Chromium", opened(lambda: page.wait_for_selector(_DRAWN))),
            measure("page: sheets there, in Chromium", opened(lambda: page.wait_for_selector("#money"))),
            measure("page: new size drawn, in Chromium", followed),
        ]
        browser.close()
    return done


if __name__ == "__main__":
    start = time.perf_counter()
    for timing in timings():
        print(f"{timing.name:<48}{timing.median_s:9.3f} s  ({timing.least_s} .. {timing.most_s})")
    print(f"{time.perf_counter() - start:.0f} s in all")
