"""Take the pictures of the page anew: page-light.png, piece.png and text-beside.png of docs/pictures.

Needs Chromium (tools/browser.py) and the development environment. Run it when the page has changed.
"""

from __future__ import annotations

import io
import shutil
import sys
import tempfile
from pathlib import Path
from threading import Thread

import uvicorn
from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

from first_table import served
from scantling.web.app import create_app
from scantling.web.designs.session import Session
from scantling.web.serving import bind

__all__ = ["main"]

ROOT = Path(__file__).resolve().parent.parent
EXAMPLES, PICTURES = ROOT / "examples", ROOT / "docs" / "pictures"
FLAGS = ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"]
_ALONE = """() => {
  document.querySelector('thumb-index').hidden = true;
  const plate = document.querySelector('piece-plate');
  plate.style.cssText = 'position:fixed;inset:0;z-index:9;height:100vh;background:var(--paper)';
}"""
_COLOURS = 192


def _pulled(page: Page, address: str, share: int) -> None:
    page.goto(address)
    page.wait_for_selector("piece-plate[data-ready]")
    page.wait_for_selector("#money", timeout=60_000)
    page.fill("#pull", str(share))
    page.evaluate("document.activeElement.blur()")


def _save(page: Page, name: str) -> None:
    page.wait_for_timeout(800)  # the drawing is laid out and drawn anew
    picture = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
    picture.quantize(_COLOURS, dither=Image.Dither.NONE).save(PICTURES / name, optimize=True)


def _beside(browser: Browser) -> None:
    """A piece that is kept, its text beside it, a size changed in it and a leg picked."""
    with tempfile.TemporaryDirectory() as folder, served(Path(folder)) as address:
        page = browser.new_page(viewport={"width": 1280, "height": 800}, reduced_motion="reduce")
        page.request.post(f"{address}api/pieces", data={"form": "reading-table"}, timeout=120_000)
        page.goto(f"{address}pieces/1/")
        page.wait_for_selector("#money", timeout=120_000)
        page.get_by_role("button", name="Text beside the piece").click()
        field = page.get_by_role("textbox", name="Text of the piece file")
        page.get_by_text("Version 1, saved.").wait_for()
        field.fill(field.input_value().replace("default: 740 mm", "default: 730 mm", 1))
        page.get_by_text("Not saved yet").wait_for()
        page.wait_for_selector("piece-plate:not([aria-busy=true])", timeout=120_000)
        page.select_option("plate-controls select", "leg_fl")
        page.wait_for_selector(".numbers .held")
        page.mouse.move(0, 0)
        page.evaluate("() => { document.activeElement.blur(); scrollTo(0, 0); }")
        _save(page, "text-beside.png")
        page.close()


def main() -> int:
    """Run as a command."""
    session = Session(
        EXAMPLES / "reading_table.yaml",
        rack=EXAMPLES / "racks" / "reading-table.csv",
        shop=EXAMPLES / "shops" / "reading-table.yaml",
        room=EXAMPLES / "rooms" / "high-plains-house.yaml",
    )
    with bind(0) as listening, sync_playwright() as play:
        listening.listen(16)
        address = f"http://127.0.0.1:{listening.getsockname()[1]}/"
        server = uvicorn.Server(uvicorn.Config(create_app(session), log_level="error", lifespan="off"))
        thread = Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        page = browser.new_page(viewport={"width": 1240, "height": 860}, reduced_motion="reduce")
        _pulled(page, address, 45)
        _save(page, "page-light.png")
        page.set_viewport_size({"width": 1100, "height": 720})
        _pulled(page, address, 100)
        page.evaluate(_ALONE)
        _save(page, "piece.png")
        _beside(browser)
        browser.close()
        server.should_exit = True
        thread.join(timeout=10)
    return 0


if __name__ == "__main__":
    sys.exit(main())
