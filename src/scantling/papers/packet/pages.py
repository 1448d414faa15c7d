"""Setting sheets of the size of the paper as PDF, one a page, at 1:1."""

from __future__ import annotations

import json
from collections.abc import Sequence
from importlib import resources
from typing import Any

from scantling.papers.drawing import Sheet, to_svg

__all__ = ["compile_pages"]

_LAYOUT = """
#let pages = json("pages.json")
#set document(title: pages.title)
#for one in pages.sheets {
  page(width: one.width * 1mm, height: one.height * 1mm, margin: 0mm, place(top + left, image(
    bytes(one.svg), format: "svg", width: one.width * 1mm, height: one.height * 1mm, alt: one.title,
  )))
}
"""


def compile_pages(sheets: Sequence[Sheet], *, title: str) -> bytes:
    """Set sheets as PDF; the same sheets give the same bytes.

    Parameters
    ----------
    sheets
        Each a page of its own size.
    title
        Of the document.

    Returns
    -------
    bytes
        The PDF.
    """
    import typst

    told = [
        {"svg": to_svg(s), "width": round(s.width_mm, 4), "height": round(s.height_mm, 4), "title": s.title}
        for s in sheets
    ]
    held = json.dumps({"title": title, "sheets": told}, ensure_ascii=False, sort_keys=True)
    # the typesetter takes a folder of virtual files, which its published types leave out
    source: Any = {"main.typ": _LAYOUT.encode(), "pages.json": held.encode()}
    with resources.as_file(resources.files("scantling.papers").joinpath("fonts")) as fonts:
        pdf = typst.compile(
            source, font_paths=[str(fonts)], ignore_system_fonts=True, timestamp=0, pdf_tags=False
        )
    return bytes(pdf)
