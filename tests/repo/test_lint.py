"""Lint, format and types are clean: what `make lint` says, as tests."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.repo.sources import ROOT


@pytest.mark.parametrize(
    "arguments",
    [
        ("ruff", "check", "--output-format", "concise", "."),
        ("ruff", "format", "--check", "."),
        ("mypy", "--no-color-output"),
    ],
    ids=["lint", "format", "types"],
)
def test_the_code_is_clean(arguments: tuple[str, ...]) -> None:
    """The tool finds nothing to say."""
    said = subprocess.run(
        [sys.executable, "-m", *arguments], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert said.returncode == 0, said.stdout + said.stderr
