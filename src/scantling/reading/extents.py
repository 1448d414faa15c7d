"""Which lines of a text each of its blocks stands on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import yaml

from scantling.errors import FileFaults
from scantling.reading.parsing import parse_on

__all__ = ["Extent", "extents"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """The lines a value stands on with its key.

    Parameters
    ----------
    path
        Names, from the outermost.
    first, last
        Lines, from 1; blank lines and comments after it are not of it.
    """

    path: tuple[str, ...]
    first: int
    last: int


def extents(text: str, *, deepest: int) -> tuple[Extent, ...]:
    r"""Where everything that has a name stands; nothing where the text cannot be read as a whole.

    Parameters
    ----------
    deepest
        Names a path may have. [1]

    Examples
    --------
    >>> [(e.path, e.first, e.last) for e in extents("a:\n  b: 1\n  # then\nc: {d: 2}\n", deepest=1)]
    [(('a',), 1, 2), (('c',), 4, 4)]
    """
    try:
        parse_on(text, file="text")  # which bounds how deep it nests
        node = yaml.compose(text, Loader=yaml.SafeLoader)
    except (FileFaults, yaml.YAMLError):
        return ()
    return tuple(_within(node, (), text.split("\n"), deepest))


def _within(
    node: yaml.Node | None, path: tuple[str, ...], lines: Sequence[str], deepest: int
) -> Iterator[Extent]:
    if not isinstance(node, yaml.MappingNode) or len(path) == deepest:
        return
    for key, value in node.value:
        own = (*path, str(key.value))
        first = key.start_mark.line
        yield Extent(path=own, first=first + 1, last=_last(value, lines, first) + 1)
        yield from _within(value, own, lines, deepest)


def _last(value: yaml.Node, lines: Sequence[str], first: int) -> int:
    """The last line of a value, from 0; a block ends where the next begins, so stepped back."""
    at = min(value.end_mark.line, len(lines) - 1)
    if at > first and not lines[at][: value.end_mark.column].strip():
        at -= 1
    while at > first and (not lines[at].strip() or lines[at].lstrip().startswith("#")):
        at -= 1
    return at
