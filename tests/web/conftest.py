"""The demo piece, ready to be asked for: in-process, and served to a browser."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest
import uvicorn
from playwright.sync_api import expect, sync_playwright
from starlette.testclient import TestClient

from scantling.web.app import create_app
from scantling.web.designs.session import Session
from scantling.web.serving import bind
from tests.web.kept_browser import Chromium
from tests.web.specimen import DEMO, SpecimenDesigner

__all__: list[str] = []

expect.set_options(timeout=30_000)
"""A plan may be worked out meanwhile, on a computer that is busy. [ms]"""


@pytest.fixture(scope="package", name="chromium")
def shared_chromium(chromium: str) -> Iterator[Chromium]:
    """The browser of all tests of this folder, in windows of their own."""
    with sync_playwright() as playwright:
        yield Chromium(playwright, chromium)


@pytest.fixture(scope="session")
def session() -> Session:
    """The demo piece with specimen sheets."""
    return Session(DEMO, designer=SpecimenDesigner(DEMO))


@pytest.fixture(scope="session")
def client(session: Session) -> Iterator[TestClient]:
    """Asks the routes without a network."""
    app = create_app(session)
    with TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False) as client:
        yield client


@pytest.fixture(scope="session")
def address(session: Session) -> Iterator[str]:
    """Where the page is served, for a browser."""
    with bind(0) as listening:
        listening.listen(16)
        server = uvicorn.Server(
            uvicorn.Config(create_app(session), log_level="error", lifespan="off", timeout_keep_alive=60)
        )
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{listening.getsockname()[1]}/"
        server.should_exit = True
        thread.join(timeout=10)
