"""Figures of a sentence that are told with a unit each, or in a row the rewriting to inches knows.

`shrinks 12.0 and swells 3.0 mm` would keep its 12 in a sentence told in inches: only what stands before the
unit is rewritten.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

SOURCES = Path(__file__).parents[2] / "src" / "scantling"
_FIGURE = "\x01"
_BARE = re.compile(rf"{_FIGURE} (?:and|or|by|against) [a-z ]*{_FIGURE} mm")
_ROW = re.compile(rf"{_FIGURE} and {_FIGURE} mm")


def sentences(source: str) -> Iterator[str]:
    """Every f-string, its decimal figures as one mark each."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.JoinedStr):
            yield "".join(_shown(piece) for piece in node.values)


def _shown(piece: ast.expr) -> str:
    if isinstance(piece, ast.Constant):
        return str(piece.value)
    spec = piece.format_spec if isinstance(piece, ast.FormattedValue) else None
    return _FIGURE if spec is not None and re.search(r"\.\df", ast.unparse(spec)) else "\x02"


def bare(sentence: str) -> bool:
    """Whether a figure shares a unit with a later one in a way that is not rewritten with it."""
    return bool(_BARE.search(_ROW.sub("", sentence)))


def test_the_rule_finds_what_it_is_for() -> None:
    """The sentence that was wrong, and three that are right."""
    assert any(map(bare, sentences("f'shrinks {a:.1f} and swells {b:.1f} mm'")))
    for right in ("{a:.1f} mm and swells {b:.1f} mm", "{a:.1f} and {b:.1f} mm", "{a:.1f} to {b:.1f} mm"):
        assert not any(map(bare, sentences(f"f'{right}'")))


def test_every_figure_has_its_unit() -> None:
    """In all of the program."""
    found = [
        (path.name, sentence)
        for path in sorted(SOURCES.rglob("*.py"))
        for sentence in sentences(path.read_text(encoding="utf-8"))
        if bare(sentence)
    ]
    assert found == []
