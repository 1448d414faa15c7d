r"""Values put into a file and taken out of it, wherever they belong; comments and everything else stay.

Beside :mod:`scantling.reading.editing`, which changes what is there, this begins what is missing and ends
what has become empty. What comes out is read again: it must hold the change and nothing else.
"""

from __future__ import annotations

import copy
from typing import Any

import yaml

from scantling.errors import FileFaults, InputError
from scantling.reading.documents import Path, Plain, field_name
from scantling.reading.nodes import after, composed, node_at, one_line, with_line
from scantling.reading.parsing import parse_on

__all__ = ["appended", "put", "standing", "taken_out"]


def standing(text: str) -> dict[Path, tuple[str, int]]:
    r"""Every value of a text that is no block, as it is written, and its line from 1.

    A list on one line or several stands as its values with commas between them.

    Raises
    ------
    FileFaults, InputError
        As :func:`scantling.reading.nodes.composed`.

    Examples
    --------
    >>> standing("a: {b: 13 in}\nc: [3, 4]\n")
    {('a', 'b'): ('13 in', 1), ('c',): ('3, 4', 2)}
    """
    found: dict[Path, tuple[str, int]] = {}
    _stand(composed(text), (), found)
    return found


def _stand(node: yaml.Node | None, path: Path, found: dict[Path, tuple[str, int]]) -> None:
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            _stand(value, (*path, str(key.value)), found)
    elif isinstance(node, yaml.SequenceNode):
        if all(isinstance(item, yaml.ScalarNode) for item in node.value):
            words = ", ".join(str(item.value) for item in node.value)
            found[path] = (words, node.start_mark.line + 1)
            return
        for number, item in enumerate(node.value):
            _stand(item, (*path, number), found)
    elif isinstance(node, yaml.ScalarNode):
        found[path] = (str(node.value), node.start_mark.line + 1)


def put(text: str, path: Path, value: str) -> str:
    r"""The text with a value at a path, where there was another or none.

    Parameters
    ----------
    path
        Names, and places in lists that are there already.
    value
        As it is to be written, on one line; see :func:`scantling.reading.nodes.source_of`.

    Raises
    ------
    InputError
        ``not_one_line``; ``not_a_value`` where it would change more than this value.

    Examples
    --------
    >>> put("name: x # mine\n", ("yard", "widest_board"), "12 in")
    'name: x # mine\nyard:\n  widest_board: 12 in\n'
    >>> put("yard: {system: inch}\n", ("yard", "widest_board"), "12 in")
    'yard: {system: inch, widest_board: 12 in}\n'
    """
    value = one_line(path, value)
    node = node_at(text, path)
    made = _over(text, node, value) if node is not None else _into(text, path, value)
    return _held(text, made, path, _reads(value))


def appended(text: str, path: Path, value: str) -> str:
    r"""The text with one more entry at the end of a list, which is begun where it is missing.

    Raises
    ------
    InputError
        As :func:`put`.

    Examples
    --------
    >>> appended("clamps:\n  - {reach: 900 mm, count: 4}\n", ("clamps",), "{reach: 600 mm, count: 6}")
    'clamps:\n  - {reach: 900 mm, count: 4}\n  - {reach: 600 mm, count: 6}\n'
    """
    value = one_line(path, value)
    node = node_at(text, path)
    held = [*(_at(_data(text), path) or []), _reads(value)]
    if isinstance(node, yaml.SequenceNode) and node.value and not node.flow_style:
        column = " " * _dash(text, node.value[0])
        made = with_line(text, after(text, node), f"{column}- {value}")
    elif isinstance(node, yaml.SequenceNode) and node.value:
        end = node.value[-1].end_mark.index
        made = f"{text[:end]}, {value}{text[end:]}"
    elif len(path) == 1:
        clear = _out(text, path) if node is not None else text
        made = with_line(clear, _root_end(clear), f"{path[0]}:\n  - {value}")
    else:
        return _held(text, put(text, path, f"[{value}]"), path, held)
    return _held(text, made, path, held)


def taken_out(text: str, path: Path, *, keep: tuple[Path, ...] = ()) -> str:
    r"""The text without what stands at a path; a block left empty goes too.

    Parameters
    ----------
    keep
        Blocks that mean something even empty: they stay as ``{}``, and a list as ``[]``.

    Raises
    ------
    InputError
        ``no_such_field``, ``not_a_value``.

    Examples
    --------
    >>> taken_out("yard:\n  system: metric\nname: x\n", ("yard", "system"))
    'name: x\n'
    >>> taken_out("a:\n  b: {c: 12 in}\n", ("a", "b", "c"), keep=(("a", "b"),))
    'a:\n  b: {}\n'
    """
    if not path or node_at(text, path) is None:
        raise InputError(
            code="no_such_field",
            field=field_name(path),
            value="nothing",
            rule="must be there to be taken out",
            remedy="Look at the file: it may have been changed meanwhile.",
        )
    above = node_at(text, path[:-1])
    if isinstance(above, yaml.MappingNode | yaml.SequenceNode) and len(above.value) == 1 and path[:-1]:
        if path[:-1] in keep:
            empty = "{}" if isinstance(above, yaml.MappingNode) else "[]"
            return _held(text, _over(text, above, empty), path[:-1], _reads(empty))
        return taken_out(text, path[:-1], keep=keep)
    return _held(text, _out(text, path), path, None, gone=True)


def _over(text: str, node: yaml.Node, value: str) -> str:
    """Another value in place of a node; a block's moves up behind its name."""
    start, end = node.start_mark.index, node.end_mark.index
    block = isinstance(node, yaml.MappingNode | yaml.SequenceNode) and not node.flow_style
    if block:
        start, end = len(text[:start].rstrip()), after(text, node)
        if text[start - 1] == "-" or "\n" not in text[start : node.start_mark.index]:
            start = node.start_mark.index
        rest = "\n" if text[:end].endswith("\n") else ""
        return f"{text[:start]}{'' if text[start - 1 : start].isspace() else ' '}{value}{rest}{text[end:]}"
    source = text[start:end]
    kept = source[len(source.rstrip()) :]
    between = "" if not start or text[start - 1].isspace() or text[start - 1] in "[{,(" else " "
    return f"{text[:start]}{between}{value}{kept}{text[end:]}"


def _into(text: str, path: Path, value: str) -> str:
    """A value where there is none: into the innermost block that is there."""
    depth = len(path) - 1
    while depth and node_at(text, path[:depth]) is None:
        depth -= 1
    node, rest = node_at(text, path[:depth]), [str(step) for step in path[depth:]]
    nested = value
    for step in reversed(rest[1:]):
        nested = f"{{{step}: {nested}}}"
    if isinstance(node, yaml.MappingNode) and node.flow_style:
        end = node.value[-1][1].end_mark.index if node.value else node.start_mark.index + 1
        end = len(text[:end].rstrip())
        return f"{text[:end]}{', ' if node.value else ''}{rest[0]}: {nested}{text[end:]}"
    if isinstance(node, yaml.MappingNode):
        column = " " * node.value[0][0].start_mark.column
        return with_line(text, after(text, node), _lines(rest, value, column, root=not depth))
    if node is None:
        return with_line(text, len(text), _lines(rest, value, "", root=True))
    if isinstance(node, yaml.ScalarNode) and not node.value:
        return _over(text, node, f"{{{rest[0]}: {nested}}}")
    raise _not_a_value(path)


def _lines(rest: list[str], value: str, column: str, *, root: bool) -> str:
    """A field with the blocks it needs: one line, or a section of the file with a line in it."""
    if not root or len(rest) == 1:
        nested = value
        for step in reversed(rest[1:]):
            nested = f"{{{step}: {nested}}}"
        return f"{column}{rest[0]}: {nested}"
    return f"{column}{rest[0]}:\n{_lines(rest[1:], value, column + '  ', root=False)}"


def _out(text: str, path: Path) -> str:
    """The text without one entry of a block or list that has others."""
    above = node_at(text, path[:-1])
    assert isinstance(above, yaml.MappingNode | yaml.SequenceNode), "it has an entry"
    entries = [entry if isinstance(entry, tuple) else (entry, entry) for entry in above.value]
    if isinstance(above, yaml.MappingNode):
        place = next(i for i, (key, _) in enumerate(entries) if str(key.value) == str(path[-1]))
    else:
        place = int(path[-1])
    first, last = entries[place]
    if above.flow_style:
        if place + 1 < len(entries):
            return text[: first.start_mark.index] + text[entries[place + 1][0].start_mark.index :]
        start = entries[place - 1][1].end_mark.index if place else first.start_mark.index
        return text[: len(text[:start].rstrip())] + text[last.end_mark.index :]
    start = text.rfind("\n", 0, first.start_mark.index) + 1
    column = first.start_mark.column - (1 if isinstance(above, yaml.SequenceNode) else 0)
    return text[:start] + text[after(text, last, column=column) :]


def _dash(text: str, item: yaml.Node) -> int:
    """Column of the dash before an entry of a list."""
    start = text.rfind("\n", 0, item.start_mark.index) + 1
    return text.index("-", start) - start


def _root_end(text: str) -> int:
    root = node_at(text, ())
    return after(text, root) if isinstance(root, yaml.MappingNode) and root.value else len(text)


def _reads(value: str) -> Plain:
    """What a value written on one line is read as; None where it cannot be read alone."""
    try:
        found = parse_on(f"x: {value}\n", file="text")
    except FileFaults:
        return None
    return None if found.faults or not isinstance(found.data, dict) else found.data.get("x")


def _at(data: Plain, path: Path) -> Any:
    for step in path:
        if isinstance(data, dict):
            data = data.get(str(step))
        elif isinstance(data, list) and isinstance(step, int) and step < len(data):
            data = data[step]
        else:
            return None
    return data


def _held(text: str, made: str, path: Path, value: Plain, *, gone: bool = False) -> str:
    """The new text, if it reads as the old one with this value at the path and nothing else."""
    try:
        new = parse_on(made, file="text")
    except FileFaults as error:
        raise _not_a_value(path) from error
    wanted = _with(_data(text), path, value, gone=gone)
    if new.faults or new.data != wanted:
        raise _not_a_value(path)
    return made


def _data(text: str) -> Plain:
    """What a text is read as; an empty block where it holds nothing."""
    return parse_on(text, file="text").data if node_at(text, ()) is not None else {}


def _with(data: Plain, path: Path, value: Plain, *, gone: bool) -> Plain:
    """Data with a value at a path, or without it."""
    data = copy.copy(data) if data is not None else {}
    step, rest = path[0], path[1:]
    if isinstance(data, list) and isinstance(step, int):
        if gone and not rest:
            del data[step]
        else:
            data[step] = _with(data[step], rest, value, gone=gone) if rest else value
        return data
    if not isinstance(data, dict):
        return data
    if gone and not rest:
        data.pop(str(step), None)
    else:
        data[str(step)] = _with(data.get(str(step)), rest, value, gone=gone) if rest else value
    return data


def _not_a_value(path: Path) -> InputError:
    return InputError(
        code="not_a_value",
        field=field_name(path),
        value="what was written",
        rule="must be one value, and change nothing else of the file",
        remedy="Write this one in the text of the file.",
    )
