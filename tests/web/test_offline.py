"""The page without its server: what was opened once opens again, and what is new is shown while it runs."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, expect
from starlette.testclient import TestClient

from scantling.web.documents.shell import static_folder
from tests.web.kept_browser import Chromium, kept_server

__all__: list[str] = []


def test_every_file_of_the_shell_is_there_and_the_worker_may_answer_for_all(client: TestClient) -> None:
    """Each address answers; the worker is sent with the whole site as its scope, other files are not."""
    shell = client.get("/api/shell").json()
    assert len(shell["files"]) > 60
    assert all(client.head(address).status_code == 200 for address in shell["files"])
    assert client.get("/static/js/worker.js").headers["service-worker-allowed"] == "/"
    assert "service-worker-allowed" not in client.get("/static/js/main.js").headers
    page = client.get("/")
    assert f'content="{shell["version"]}"' in page.text
    assert "worker-src 'self'" in page.headers["content-security-policy"]


def test_the_manifest_names_what_is_there() -> None:
    """What a phone needs to put the page among its programs: a name, a beginning, a picture."""
    manifest = json.loads((static_folder() / "manifest.webmanifest").read_text(encoding="utf-8"))
    assert manifest["name"]
    assert manifest["start_url"] == manifest["scope"] == "/"
    (icon,) = manifest["icons"]
    assert (static_folder() / icon["src"].removeprefix("/static/")).is_file()


@pytest.fixture
def served(tmp_path: Path, chromium: Chromium) -> Iterator[tuple[BrowserContext, ExitStack]]:
    """A browser on one piece that is kept, and its server, to be closed before the browser is."""
    with ExitStack() as server, chromium.windows() as browser:
        address = server.enter_context(kept_server(tmp_path))
        context = browser.new_context(base_url=address, viewport={"width": 360, "height": 740})
        context.set_default_timeout(60_000)
        assert context.request.post("/api/pieces", data={"form": "reading-table"}).status == 201
        yield context, server


@pytest.mark.browser
def test_what_was_opened_opens_without_the_server(served: tuple[BrowserContext, ExitStack]) -> None:
    """Piece, bench, yard and the last packet; one never opened says that it is not kept."""
    context, server = served
    page = context.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.goto("/pieces/1/")
    page.wait_for_selector("#parts")
    page.wait_for_selector("piece-plate[data-ready]")
    page.wait_for_selector("html[data-kept]", state="attached")
    size = "async () => (await (await fetch('api/packet.pdf?paper=a4')).arrayBuffer()).byteLength"
    packet = page.evaluate(size)
    page.goto("/pieces/1/bench")
    page.wait_for_selector(".step")
    step = page.locator(".step h2").inner_text()
    page.goto("/pieces/1/yard")
    page.wait_for_selector("yard-desk button")
    assert said == []

    server.close()
    page.goto("/pieces/1/bench")
    expect(page.locator(".step h2")).to_have_text(step)
    page.goto("/pieces/1/yard")
    page.wait_for_selector("yard-desk button")
    page.goto("/pieces/1/")
    page.wait_for_selector("piece-plate[data-ready]")
    expect(page.locator("#parts h2")).to_be_visible()
    assert page.evaluate(size) == packet > 100_000
    page.goto("/pieces/1/?units=mm")  # the same document, as a strip or a bookmark may ask for it
    page.wait_for_selector("piece-plate")
    missing = page.goto("/pieces/1/write")
    assert missing is not None
    assert missing.status == 503
    expect(page.locator("h1")).to_have_text("This page needs the program")
    assert page.get_by_role("link").count() == 0  # the list was never opened here
    assert page.evaluate("getComputedStyle(document.body).fontFamily").startswith("Barlow")


@pytest.mark.browser
def test_while_the_server_runs_nothing_old_is_shown(served: tuple[BrowserContext, ExitStack]) -> None:
    """A name changed elsewhere is on the page at the next visit."""
    context, _ = served
    page = context.new_page()
    page.goto("/pieces/1/bench")
    page.wait_for_selector("html[data-kept]", state="attached")
    page.reload()
    assert context.request.patch("/api/pieces/1", data={"name": "Oak table"}).status == 200
    page.reload()
    expect(page.locator("h1")).to_have_text("Oak table at the bench")
    names = page.evaluate("caches.keys()")
    assert sorted(name.split(" ")[0] for name in names) == ["opened", "shell"]
