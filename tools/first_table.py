"""The first table of somebody who has never seen the page: every step of it, done in a browser and asserted.

``python tools/first_table.py`` walks it from empty records and takes the pictures of docs/first-table.md;
``tests/web/test_first_table.py`` walks it without them. Needs Chromium (tools/browser.py) and the development
environment.
"""

from __future__ import annotations

import io
import re
import shutil
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import uvicorn
from PIL import Image
from playwright.sync_api import Browser, Locator, Page, ViewportSize, expect, sync_playwright

from scantling.piece.forms import forms
from scantling.store.opening import open_records
from scantling.store.place import Place
from scantling.web.app import create_app
from scantling.web.kept.desk import Desk
from scantling.web.serving import bind

__all__ = ["FLAGS", "NAME", "Taken", "main", "served", "walk"]

PICTURES = Path(__file__).resolve().parent.parent / "docs" / "pictures" / "first-table"
FLAGS = ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"]
NAME = "Kitchen table"
WOOD = "white oak"
ROOM = "House with humidity control"
SIZES = {"Length": "6 ft 2 in", "Width": "32 in", "Height": "2 ft 6 in", "Leg": "2 1/2 in"}
"""What is asked for, as it is typed."""
SHOWN = {"Length": "74 in", "Width": "32 in", "Height": "30 in", "Leg": "2 1/2 in"}
"""The same, as the page shows it."""
_WIDE, _PHONE = ViewportSize(width=1280, height=800), ViewportSize(width=360, height=740)
_COLOURS = 160
_PATIENCE_MS = 120_000
"""How long a step may take on a machine that has other work to do."""

Shoot = Callable[[Page, str], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What the walk brings home."""

    packet: bytes
    published: bytes
    steps_done: int


def walk(browser: Browser, address: str, shoot: Shoot) -> Taken:
    """Walk from the empty list to two steps ticked at the bench.

    Parameters
    ----------
    browser
        A browser.
    address
        Where a server with empty records is.
    shoot
        Called with the page and a name wherever there is something to see.
    """
    context = browser.new_context(base_url=address, viewport=_WIDE, reduced_motion="reduce")
    context.set_default_timeout(_PATIENCE_MS)
    expect.set_options(timeout=_PATIENCE_MS)
    page = context.new_page()
    _begin(page, shoot)
    _size(page, shoot)
    _change_wood(page)
    _mend(page, shoot)
    _outfit(page, shoot)
    _read(page, shoot)
    _step_back(page, shoot)
    packet, published = _take_away(page, shoot)
    done = _tick(page, shoot)
    context.close()
    return Taken(packet=packet, published=published, steps_done=done)


def _begin(page: Page, shoot: Shoot) -> None:
    """From a form with its picture, called by its own name."""
    page.goto("/")
    expect(page.get_by_text("None yet.")).to_be_visible()
    expect(page.locator("piece-new .card .picture svg").nth(len(forms()) - 1)).to_be_attached()
    shoot(page, "1-begin")
    page.get_by_role("button", name="Begin this one: Reading table").click()
    page.get_by_role("button", name="Rename").click()
    page.get_by_label("Name", exact=True).fill(NAME)
    page.get_by_role("button", name="Call it so").click()
    expect(page.get_by_role("heading", level=1)).to_have_text(NAME)


def _size(page: Page, shoot: Shoot) -> None:
    """Sizes as one says them; one that cannot be is told at its field."""
    page.get_by_role("button", name="Inches, in").click()
    page.get_by_text(re.compile(r"^\d more$")).click()
    _type(page, "Length", "12 ft")
    expect(page.get_by_role("alert").filter(has_text="Length must be")).to_be_visible()
    expect(page.locator("piece-bar").get_by_role("button", name="Keep these sizes")).to_be_disabled()
    shoot(page, "2-too-long")
    for label, text in SIZES.items():
        _type(page, label, text)
    for label, text in SHOWN.items():
        expect(_field(page, label)).to_have_value(text)
    page.locator("piece-bar").get_by_role("button", name="Keep these sizes").click()
    expect(page.get_by_text("Kept as version")).to_be_visible()
    page.evaluate("scrollTo(0, 0)")
    shoot(page, "3-sized")


def _change_wood(page: Page) -> None:
    """Another wood in every part, by one key."""
    page.get_by_label("Wood", exact=True).fill(WOOD)
    page.get_by_role("button", name="Take this wood").click()
    expect(page.locator("#parts td").filter(has_text=re.compile(f"^{WOOD}$")).first).to_be_visible()
    expect(page.locator("#parts td").filter(has_text="cherry")).to_have_count(0)


def _mend(page: Page, shoot: Shoot) -> None:
    """The base does not pass the form's door; the own one is wider."""
    page.locator("verdict-line a.bad").click()
    fault = page.locator("#faults").get_by_text("does not pass the door")
    expect(fault).to_be_visible()
    shoot(page, "4-fault")
    _type(page, "Door", "36 in")
    expect(fault).to_have_count(0)
    page.locator("piece-bar").get_by_role("button", name="Keep these sizes").click()
    expect(page.get_by_text("Kept as version")).to_be_visible()


def _outfit(page: Page, shoot: Shoot) -> None:
    """An own shop, whose clamps reach across this table, and the room it will stand in."""
    faults = page.locator("#faults")
    expect(faults).to_contain_text("the longest clamp opens")
    page.get_by_role("link", name="Shop", exact=True).click()
    page.get_by_role("button", name="Begin with the usual shop").click()
    page.locator("summary").filter(has_text="Bar clamp 1200 mm \u00b7").click()
    page.locator("summary").filter(has_text="reach 1200 mm").click()
    reach = page.locator("#set-clamps-1-reach")
    reach.fill("7 ft")
    reach.press("Enter")
    expect(page.locator("summary").filter(has_text="reach 7 ft")).to_be_visible()
    shoot(page, "5-shop")
    page.get_by_role("link", name="Pieces", exact=True).click()
    page.get_by_role("link", name=NAME, exact=True).first.click()
    page.get_by_label("Shop", exact=True).select_option(label="My shop")
    expect(faults).not_to_contain_text("the longest clamp opens")
    page.get_by_label("Room", exact=True).select_option(label=ROOM)
    expect(page.locator("#seasons")).to_contain_text(ROOM)


def _read(page: Page, shoot: Shoot) -> None:
    """What to buy, what it costs and how long it takes."""
    expect(page.locator("#boards")).to_contain_text("Ask for")
    glance = page.locator("glance-facts")
    expect(glance).to_contain_text("From first to last day")
    glance.locator("div", has_text="Price").get_by_role("link").click()
    expect(page.locator("#money")).to_be_in_viewport()
    expect(page.locator("#money")).to_contain_text("Left over")
    shoot(page, "6-money")


def _step_back(page: Page, shoot: Shoot) -> None:
    """Undone and done again; the first version looked at."""
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Undone: it is at version")).to_be_visible()
    page.get_by_role("button", name="Redo").click()
    expect(page.get_by_text("Done again: it is at version")).to_be_visible()
    page.get_by_role("link", name="Versions").click()
    page.get_by_role("link", name="Look").last.click()
    expect(page.get_by_text("This is version 1, not the current one")).to_be_visible()
    expect(page.locator("glance-facts")).to_contain_text("USD")
    page.wait_for_selector("piece-plate[data-ready]")
    shoot(page, "7-older")
    page.get_by_role("link", name="The piece as it is now").click()
    expect(_field(page, "Width")).to_have_value(SHOWN["Width"])


def _take_away(page: Page, shoot: Shoot) -> tuple[bytes, bytes]:
    """The packet on Letter, since lengths are in inches; the plan to publish as a file."""
    page.get_by_role("link", name="Papers").click()
    expect(page.get_by_role("radio", name="Letter")).to_be_checked()
    shoot(page, "8-papers")
    href = page.get_by_role("link", name="Print the packet").get_attribute("href")
    packet = page.request.get(f"{page.url.rpartition('/')[0]}/{href}")
    assert packet.ok
    with page.expect_download() as downloading:
        page.get_by_role("link", name="Plan to publish").click()
    return packet.body(), Path(downloading.value.path()).read_bytes()


def _tick(page: Page, shoot: Shoot) -> int:
    """Two steps ticked at the bench, on a phone."""
    page.set_viewport_size(_PHONE)
    page.get_by_role("link", name="Bench", exact=True).click()
    for done in (1, 2):
        page.get_by_role("button", name="Done", exact=True).click()
        expect(page.locator(".progress")).to_contain_text(f"{done} of ")
    shoot(page, "9-bench")
    page.get_by_role("link", name="Pieces").click()
    expect(page.locator(".card").first).to_contain_text("2 steps done")
    return int(page.request.get("/api/pieces/1").json()["piece"]["stepsDone"])


def _field(page: Page, label: str) -> Locator:
    return page.get_by_role("textbox", name=label, exact=True)


def _type(page: Page, label: str, text: str) -> None:
    field = _field(page, label)
    field.fill(text)
    field.press("Enter")
    field.blur()


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Where a server with empty records is, kept in a folder."""
    place = Place(file=folder / "records.db")
    app = create_app(None, Desk(lambda: open_records(place), now=lambda: datetime.now(UTC)))
    with bind(0) as listening:
        listening.listen(16)
        server = uvicorn.Server(uvicorn.Config(app, log_level="error", lifespan="off"))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{listening.getsockname()[1]}/"
        server.should_exit = True
        thread.join(timeout=10)


def _save(page: Page, name: str) -> None:
    """A picture of what is in sight, in few inks."""
    page.wait_for_timeout(900)  # the drawing is laid out and drawn anew
    picture = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
    PICTURES.mkdir(parents=True, exist_ok=True)
    picture.quantize(_COLOURS, dither=Image.Dither.NONE).save(PICTURES / f"{name}.png", optimize=True)


def main() -> int:
    """Run as a command."""
    with tempfile.TemporaryDirectory() as folder, served(Path(folder)) as address, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        taken = walk(browser, address, _save)
        browser.close()
    print(f"{len(taken.packet)} bytes of packet, {taken.steps_done} steps done; pictures in {PICTURES}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
