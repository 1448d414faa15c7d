"""Where a value stands in a text, the end of its lines, and how what was typed is written as a value."""

from __future__ import annotations

import json
import re

import yaml

from scantling.errors import InputError
from scantling.reading.documents import Path, field_name
from scantling.reading.parsing import parse_on
from scantling.reading.scalars import plain_value

__all__ = ["after", "composed", "node_at", "one_line", "source_of", "with_line"]

_LINE = re.compile(r"[^\n]*\n|[^\n]+")


def composed(text: str) -> yaml.Node | None:
    """A text as nodes with their places; None where it holds nothing.

    Raises
    ------
    FileFaults, InputError
        ``yaml_form`` and the like for a text that cannot be read, as :func:`scantling.reading.parse_on`.
    """
    try:
        node: yaml.Node | None = yaml.compose(text, Loader=yaml.SafeLoader)
    except (yaml.YAMLError, RecursionError) as error:
        parse_on(text, file="text")  # says what is wrong with it, and at which line
        raise InputError(
            code="yaml_form",
            field="file",
            value="what is written",
            rule="must be well-formed YAML",
            remedy="Check the indentation, quotes and brackets of the file.",
        ) from error
    return node


def node_at(text: str, path: Path) -> yaml.Node | None:
    """What stands at a path; None where nothing does. Raises as :func:`composed`."""
    node = composed(text)
    for step in path:
        if isinstance(node, yaml.MappingNode):
            node = next((value for key, value in node.value if str(key.value) == str(step)), None)
        elif isinstance(node, yaml.SequenceNode) and isinstance(step, int) and 0 <= step < len(node.value):
            node = node.value[step]
        else:
            return None
    return node


def after(text: str, value: yaml.Node, *, column: int | None = None) -> int:
    r"""The place after the line a value ends on, and after the comments that stand deeper than it.

    Parameters
    ----------
    column
        What is indented deeper is the value's; left out, where the block's own names stand.

    Examples
    --------
    >>> text = "parts:\n  a:\n    kind: stick\n    # glued in last\n  # to come\n"
    >>> text[after(text, node_at(text, ("parts",))) :]
    '  # to come\n'
    """
    end = value.end_mark.index
    if isinstance(value, yaml.MappingNode | yaml.SequenceNode) and not value.flow_style and value.value:
        last = value.value[-1]
        at = after(text, last[1] if isinstance(last, tuple) else last)
        return _after_comments(text, at, deeper=value.start_mark.column if column is None else column)
    end = len(text[:end].rstrip()) if end > value.start_mark.index else end
    at = text.find("\n", end)
    at = len(text) if at < 0 else at + 1
    return at if column is None else _after_comments(text, at, deeper=column)


def _after_comments(text: str, at: int, *, deeper: int) -> int:
    """The place after the comments that follow a line and are indented deeper; blank lines only between."""
    place = at
    while (found := _LINE.match(text, place)) is not None:
        line, place = found[0], found.end()
        if not line.strip():
            continue
        if not line.lstrip().startswith("#") or len(line) - len(line.lstrip()) <= deeper:
            break
        at = place
    return at


def with_line(text: str, at: int, line: str) -> str:
    """The text with one more line, or several, at a place where a line begins or the text ends.

    They end as the first line of the text does.
    """
    end = "\r\n" if text.partition("\n")[0].endswith("\r") else "\n"
    before = text[:at]
    between = "" if before.endswith("\n") or not before else end
    return f"{before}{between}{line.replace(chr(10), end)}{end}{text[at:]}"


def one_line(path: Path, value: str) -> str:
    """A value that stands on one line; raises InputError ``not_one_line``."""
    if not value.strip() or "\n" in value or "\r" in value:
        raise InputError(
            code="not_one_line",
            field=field_name(path),
            value=value[:40],
            rule="must be one line that is not empty",
            remedy="Write longer things in the file itself.",
        )
    return value.strip()


def source_of(word: str, *, text: bool = False) -> str:
    """One value as it may stand anywhere in a file: as it is where it reads so, else in quotes.

    Parameters
    ----------
    word
        As a maker typed it.
    text
        Whether it is a text even where it looks like a number.

    Examples
    --------
    >>> source_of("-")  # at a line's beginning it would begin a list
    '"-"'
    >>> source_of("13 in"), source_of("Ash, air-dried"), source_of("12", text=True)
    ('13 in', '"Ash, air-dried"', '"12"')
    """
    word = word.strip()
    quoted = json.dumps(word, ensure_ascii=False)
    if word in {"", "-"} or (text and not isinstance(plain_value(word), str)):
        return quoted
    try:
        node = yaml.compose(f"{{x: {word}}}", Loader=yaml.SafeLoader)
    except yaml.YAMLError:
        return quoted
    pairs = node.value if isinstance(node, yaml.MappingNode) else []
    alone = len(pairs) == 1 and isinstance(pairs[0][1], yaml.ScalarNode)
    plain = alone and pairs[0][1].style is None and pairs[0][1].value == word and pairs[0][1].tag[0] != "!"
    return word if plain else quoted
