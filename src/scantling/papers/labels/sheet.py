"""A sheet of labels, at 1:1: two columns of six, to cut apart or to print on adhesive paper."""

from __future__ import annotations

import io
import json
from collections.abc import Sequence
from importlib import resources

from scantling.papers.labels.label import Label
from scantling.papers.packet.blocks import Paper
from scantling.papers.typesetting import typeset
from scantling.papers.words.unbroken import unbroken

__all__ = ["COLUMNS", "HEIGHT_MM", "ROWS", "WIDTH_MM", "labels_pdf"]

WIDTH_MM, HEIGHT_MM = 98.0, 44.0
"""Of a label; twelve of them leave a margin that any printer keeps, on either paper. [mm]"""
COLUMNS, ROWS = 2, 6
CODE_MM = 32.0
"""Of the code with its quiet zone. [mm]"""


def labels_pdf(labels: Sequence[Label], *, paper: Paper = Paper.A4) -> bytes:
    """Set labels as PDF; the same labels and paper give the same bytes.

    Parameters
    ----------
    labels
        In the order they are set, row by row.
    paper
        Paper to print on.
    """
    width, height = paper.size_mm
    held = {
        "page": {"width": width, "height": height, "columns": COLUMNS, "rows": ROWS},
        "label": {"width": WIDTH_MM, "height": HEIGHT_MM, "code": CODE_MM},
        "labels": [_set(label) for label in labels],
    }
    layout = resources.files("scantling.papers").joinpath("labels/labels.typ").read_bytes()
    blocks = resources.files("scantling.papers").joinpath("packet/layout/blocks.typ").read_bytes()
    data = json.dumps(held, ensure_ascii=False, sort_keys=True).encode()
    return typeset({"main.typ": layout, "blocks.typ": blocks, "labels.json": data})


def _set(label: Label) -> dict[str, object]:
    return {
        "name": label.name,
        "wood": unbroken(label.wood),
        "size": unbroken(label.size),
        "lines": [unbroken(line) for line in label.lines],
        "code": _code_svg(label.code),
    }


def _code_svg(text: str) -> str:
    """A QR code (ISO/IEC 18004) as SVG: level M, of which a seventh may be scratched; quiet zone of four."""
    import segno

    written = io.BytesIO()
    code = segno.make_qr(text, error="m", boost_error=False)
    code.save(written, kind="svg", border=4, xmldecl=False, omitsize=True)
    return written.getvalue().decode()
