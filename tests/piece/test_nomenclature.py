"""The page that fixes one name for each quantity names what the program has."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in (ROOT / "docs" / "nomenclature.md").read_text(encoding="utf-8").splitlines()
    if line.startswith("| ") and not line.startswith("| term")
]
UNITS = {"mm": "_mm", "mm²": "_mm2", "mm³": "_mm3", "deg": "_deg", "%": "_pct", "N": "_n", "MPa": "_mpa"}


def _names(row: list[str]) -> list[str]:
    return [] if "in files" in row[3] else re.findall(r"`([a-z][a-z_0-9]*)`", row[3])


def test_every_name_on_the_page_is_in_the_code() -> None:
    """A name that was changed in the code is changed on the page."""
    code = " ".join(path.read_text(encoding="utf-8") for path in (ROOT / "src" / "scantling").rglob("*.py"))
    words = set(re.findall(r"\b[a-z][a-z_0-9]*\b", code))
    assert [name for row in ROWS for name in _names(row) if name not in words] == []


def test_names_end_in_their_unit() -> None:
    """The unit stands in the name."""
    wrong = [n for row in ROWS if row[2] in UNITS for n in _names(row) if not n.endswith(UNITS[row[2]])]
    assert wrong == []


def test_no_quantity_is_named_twice() -> None:
    """One name, one row."""
    names = [name for row in ROWS for name in _names(row)]
    assert len(names) == len(set(names))
