"""Take the picture of a page of the packet anew: docs/pictures/packet-page.png, the legs of the demo piece.

Needs ``pdftotext`` and ``pdftoppm``. Run it when the packet has changed.
"""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image

from scantling.cli.job import job_from_files
from scantling.papers.pages.packet_pdf import packet_pdf
from scantling.piece.forms import demo_files
from scantling.plan.planner import Planner

__all__ = ["main"]

PICTURE = Path(__file__).resolve().parent.parent / "docs" / "pictures" / "packet-page.png"
_SHOWN = ("Front left leg and 3 alike", "Marking out", "Set-up")
"""What stands on the page that is shown, and on no other before it."""
_DPI, _COLORS = 90, 64


def _page_of(packet: Path) -> int:
    """The number of the page, from 1."""
    pages = subprocess.run(["pdftotext", packet, "-"], check=True, capture_output=True, text=True).stdout
    return next(n for n, page in enumerate(pages.split("\f"), 1) if all(words in page for words in _SHOWN))


def main() -> int:
    """Run as a command."""
    paths = demo_files()
    job = job_from_files(paths["piece"], shop=paths["shop"], rack=paths["rack"], room=str(paths["room"]))
    with TemporaryDirectory() as folder:
        packet = Path(folder) / "packet.pdf"
        packet.write_bytes(packet_pdf(job, Planner()))
        page = str(_page_of(packet))
        drawn = subprocess.run(
            ["pdftoppm", "-r", str(_DPI), "-f", page, "-l", page, "-png", packet],
            check=True,
            capture_output=True,
        ).stdout
    picture = Image.open(io.BytesIO(drawn)).convert("RGB")
    picture.quantize(_COLORS, dither=Image.Dither.NONE).save(PICTURE, optimize=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
