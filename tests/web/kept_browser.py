"""A server with empty records for a browser, and the one browser that all tests of a process share."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn
from playwright.sync_api import Browser, Page, Playwright

from scantling.web.guard.network import Network
from scantling.web.serving import bind
from tests.web.records import app_with_records

__all__ = ["FLAGS", "HOLDING", "Chromium", "drawn", "kept_page", "kept_server"]

FLAGS = ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"]
HOLDING = """(part) => {
  const [own, gone] = [window.fetch, new Promise((done) => { window.letGo = done; })];
  window.fetch = async (what, how) => {
    if (String(what).includes(part)) {
      window.holds = (window.holds ?? 0) + 1;
      await gone;
    }
    return own(what, how);
  };
}"""
"""What a page asks of addresses with a part in them is counted, and waits until it is let go."""
_ELSEWHERE = Network("192.0.2.7", 8417)
"""An address for documents (RFC 5737): nobody comes from there."""


class Chromium:
    """The browser, started when it is first wanted, which costs more than most tests do.

    What tests do in it is kept apart by their windows: each context has its own cookies, storage and cache.

    Parameters
    ----------
    playwright
        Drives it.
    path
        The program.
    """

    def __init__(self, playwright: Playwright, path: str) -> None:
        self._playwright, self._path = playwright, path
        self._browser: Browser | None = None

    @contextmanager
    def windows(self) -> Iterator[Browser]:
        """The browser; the contexts that are opened in it meanwhile are closed on leaving."""
        if self._browser is None or not self._browser.is_connected():
            self._browser = self._playwright.chromium.launch(executable_path=self._path, args=FLAGS)
        browser, before = self._browser, self._browser.contexts
        try:
            yield browser
        finally:
            for context in browser.contexts:
                if context not in before:
                    context.close()


@contextmanager
def kept_server(folder: Path) -> Iterator[str]:
    """Where a server of kept pieces is; its records lie in a folder, and a phone could be let in."""
    with app_with_records(folder, _ELSEWHERE) as app, bind(0) as listening:
        listening.listen(16)
        server = uvicorn.Server(uvicorn.Config(app, log_level="error", lifespan="off", timeout_keep_alive=60))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{listening.getsockname()[1]}/"
        server.should_exit = True
        thread.join(timeout=10)


@contextmanager
def kept_page(folder: Path, chromium: Chromium, form: str) -> Iterator[Page]:
    """The page of a piece begun from a form and kept, once it is drawn; no script of it may fail."""
    with kept_server(folder) as address, chromium.windows() as browser:
        context = browser.new_context(viewport={"width": 1280, "height": 900}, base_url=address)
        assert context.request.post("/api/pieces", data={"form": form}).status == 201
        page = context.new_page()
        complaints: list[str] = []
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.goto("/pieces/1/")
        page.wait_for_selector("piece-plate[data-ready]", timeout=60_000)
        yield page
        assert complaints == []


def drawn(page: Page) -> None:
    """Wait until the picture shows what was done, as long as it takes: it is drawn before the next frame."""
    page.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
