"""Whoever has never seen the page plans a table of his own size and prints it: docs/first-table.md."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pdfplumber
import pytest

from first_table import NAME, WOOD, served, walk
from tests.web.kept_browser import Chromium

__all__: list[str] = []

ROOT = Path(__file__).resolve().parents[2]
LETTER_PT = (612.0, 792.0)


@pytest.mark.browser
def test_the_walk_ends_with_a_packet_of_the_sizes_asked(tmp_path: Path, chromium: Chromium) -> None:
    """Every step asserts what it sees; the packet is a PDF on Letter of what was asked for."""
    with served(tmp_path) as address, chromium.windows() as browser:
        taken = walk(browser, address, lambda _page, _name: None)
    assert taken.steps_done == 2
    with pdfplumber.open(io.BytesIO(taken.packet)) as packet:
        assert (packet.pages[0].width, packet.pages[0].height) == LETTER_PT
        cover = packet.pages[0].extract_text()
        words = "\n".join(page.extract_text() for page in packet.pages)
    assert NAME in cover
    assert re.search(r"74\s×\s32\s×\s30\s", cover)
    assert "in, length, depth, height" in cover
    assert WOOD in words
    assert "cherry" not in words
    published = taken.published.decode()
    assert f"<title>{NAME}</title>" in published
    words_of_it = re.sub(r"[A-Za-z0-9+/=]{400,}", "", published)  # a picture's letters may say anything
    assert len(words_of_it) > 100_000
    assert "USD" not in words_of_it


def test_the_pages_of_the_walk_have_their_pictures() -> None:
    """Every picture the page shows is there, is no larger than 200 kB, and none lies there unshown."""
    text = (ROOT / "docs" / "first-table.md").read_text(encoding="utf-8")
    shown = set(re.findall(r"\]\((pictures/first-table/[^)]+)\)", text))
    there = {
        f"pictures/first-table/{p.name}" for p in (ROOT / "docs" / "pictures" / "first-table").glob("*.png")
    }
    assert shown == there
    assert len(shown) > 5
    assert all((ROOT / "docs" / name).stat().st_size < 200_000 for name in shown)
