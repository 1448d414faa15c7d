"""How soon the command answers a question that needs no computing."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from timing import Timing, measure

__all__ = ["timings"]

COMMAND = Path(sys.executable).with_name("scantling")


def timings() -> list[Timing]:
    """Time the command from the start of its process to its end."""
    return [
        measure("scantling --help", lambda: _run("--help"), limit_s=0.5),
        measure("python -c pass", _floor),
    ]


def _run(*arguments: str) -> None:
    subprocess.run([COMMAND, *arguments], check=True, stdin=subprocess.DEVNULL, capture_output=True)


def _floor() -> None:
    subprocess.run([sys.executable, "-c", "pass"], check=True)
