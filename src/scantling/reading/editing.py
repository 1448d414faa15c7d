"""A file changed in one place, everything else left as it was written: comments, order, spaces.

The text is changed, not the data: a value is cut out between where it begins and ends and another is put in.
What comes out is read again, and must hold the change and nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import yaml

from scantling.errors import InputError
from scantling.reading.documents import Path, Plain, field_name
from scantling.reading.nodes import after, node_at, one_line, with_line
from scantling.reading.parsing import parse_on

__all__ = ["Written", "added", "added_entry", "changed", "removed", "written"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A value as it stands in a file.

    Parameters
    ----------
    text
        As it is written, on one line.
    line
        Where, from 1.
    """

    path: Path
    text: str
    line: int


def written(text: str, path: Path) -> tuple[Written, ...]:
    r"""The fields of a block as they are written, those on one line only.

    Raises
    ------
    InputError
        ``no_such_field``.

    Examples
    --------
    >>> [field.text for field in written("leg:\n  width: 48 mm # square\n  at: [0, 1]\n", ("leg",))]
    ['48 mm', '[0, 1]']
    """
    node = node_at(text, path)
    if not isinstance(node, yaml.MappingNode):
        raise _missing(path)
    found = []
    for key, value in node.value:
        source = text[value.start_mark.index : value.end_mark.index]
        if source.strip() and "\n" not in source.strip():
            own = (*path, str(key.value))
            found.append(Written(path=own, text=source.strip(), line=value.start_mark.line + 1))
    return tuple(found)


def changed(text: str, path: Path, new: str) -> str:
    r"""The text with another value at a path.

    Parameters
    ----------
    new
        As it is to be written, on one line.

    Raises
    ------
    InputError
        ``no_such_field``, ``not_one_line``, ``not_a_value``: what would change more than this value.

    Examples
    --------
    >>> changed("leg:\n  width: 48 mm # square\n", ("leg", "width"), "50 mm")
    'leg:\n  width: 50 mm # square\n'
    """
    node = node_at(text, path)
    if node is None:
        raise _missing(path)
    value = one_line(path, new)
    start, end = node.start_mark.index, node.end_mark.index
    source = text[start:end]
    kept = source[len(source.rstrip()) :]
    made = text[:start] + value + kept + text[end:]
    _must_differ_only_at(text, made, path)
    return made


def added(text: str, path: Path, name: str, value: str) -> str:
    r"""The text with one more field at the end of a block.

    Parameters
    ----------
    path
        The block; one that is not there yet is begun at the end of the block above it.
    name, value
        As they are to be written, on one line.

    Raises
    ------
    InputError
        ``no_such_field``, ``in_braces``, ``name_twice``, ``not_one_line``, ``not_a_value``.

    Examples
    --------
    >>> added("joints:\n  a: {kind: notch}\nnotes: x\n", ("joints",), "b", "{kind: halving}")
    'joints:\n  a: {kind: notch}\n  b: {kind: halving}\nnotes: x\n'
    """
    line = f"{one_line(path, name)}: {one_line(path, value)}"
    node = node_at(text, path)
    if node is None and path:
        above = node_at(text, path[:-1])
        if not isinstance(above, yaml.MappingNode) or above.flow_style:
            raise _not_added_to(path[:-1], above) if above is not None else _missing(path)
        indent = " " * (above.value[0][0].start_mark.column if above.value else 0)
        made = with_line(text, _end_of(text, above), f"{indent}{path[-1]}:\n{indent}  {line}")
    elif isinstance(node, yaml.MappingNode) and not node.flow_style and node.value:
        if any(str(key.value) == name for key, _ in node.value):
            raise InputError(
                code="name_twice",
                field=field_name((*path, name)),
                value=name,
                rule="must be a name that is not taken",
                remedy="Choose another name.",
            )
        indent = " " * node.value[0][0].start_mark.column
        made = with_line(text, _end_of(text, node), indent + line)
    else:
        raise _not_added_to(path, node)
    _must_differ_only_at(text, made, path)
    return made


def added_entry(text: str, path: Path, name: str, fields: Iterable[tuple[str, str]]) -> str:
    r"""The text with one more entry at the end of a block of entries, a field a line.

    Parameters
    ----------
    path
        The block of entries; where it is not there yet, it is begun with the entry on one line.
    name, fields
        As they are to be written, each value on one line.

    Raises
    ------
    InputError
        As :func:`added`.

    Examples
    --------
    >>> added_entry("parts:\n  a:\n    kind: stick\n\nnote: x\n", ("parts",), "b", [("kind", "panel")])
    'parts:\n  a:\n    kind: stick\n  b:\n    kind: panel\n\nnote: x\n'
    """
    pairs = [(one_line(path, key), one_line((*path, name, key), value)) for key, value in fields]
    made = added(text, path, name, f"{{{', '.join(f'{key}: {value}' for key, value in pairs)}}}")
    node = node_at(text, path)
    if not isinstance(node, yaml.MappingNode):
        return made
    key, first = node.value[0]
    indent = " " * key.start_mark.column
    block = isinstance(first, yaml.MappingNode) and not first.flow_style and bool(first.value)
    inner = " " * first.value[0][0].start_mark.column if block else f"{indent}  "
    lines = [f"{indent}{name}:", *(f"{inner}{key}: {value}" for key, value in pairs)]
    made = with_line(text, _end_of(text, node), "\n".join(lines))
    _must_differ_only_at(text, made, (*path, name))
    return made


def removed(text: str, path: Path) -> str:
    """The text without the field at a path, with the lines it stands on.

    Raises
    ------
    InputError
        ``no_such_field``; ``not_a_value`` where it shares its lines with others, or is the last of its block.
    """
    above = node_at(text, path[:-1])
    pair = None
    if isinstance(above, yaml.MappingNode) and not above.flow_style:
        pair = next(((k, v) for k, v in above.value if str(k.value) == path[-1]), None)
    if pair is None:
        raise _missing(path)
    key, value = pair
    start = text.rfind("\n", 0, key.start_mark.index) + 1
    made = text[:start] + text[after(text, value, column=key.start_mark.column) :]
    _must_differ_only_at(text, made, path[:-1])
    return made


def _end_of(text: str, node: yaml.MappingNode) -> int:
    """Where a block's last field ends, its own comments with it, without the blank lines and others after."""
    return after(text, node)


def _must_differ_only_at(text: str, made: str, path: Path) -> None:
    """Whether two texts read the same but for what stands at a path."""
    old, new = parse_on(text, file="piece.yaml"), parse_on(made, file="piece.yaml")
    if new.faults or _without(old.data, path) != _without(new.data, path):
        raise InputError(
            code="not_a_value",
            field=field_name(path),
            value="what was written",
            rule="must be one value, and change nothing else of the file",
            remedy="Put a text with : or # in it in quotes, and close every bracket.",
        )


def _without(data: Plain, path: Path) -> Plain:
    """The data with nothing at a path."""
    if not path:
        return None
    step, rest = path[0], path[1:]
    if isinstance(data, dict):
        kept = {key: _without(value, rest) if key == step else value for key, value in data.items()}
        return {**kept, **({} if step in data else {str(step): None})}
    if isinstance(data, list) and isinstance(step, int):
        return [_without(value, rest) if i == step else value for i, value in enumerate(data)]
    return data


def _not_added_to(path: Path, node: yaml.Node | None) -> InputError:
    """Why nothing can be added to what stands at a path: it is on one line with others, or is no block."""
    if not isinstance(node, yaml.MappingNode) or not node.flow_style:
        return _missing(path)
    return InputError(
        code="in_braces",
        field=field_name(path),
        value="entries in braces",
        rule="must be written one entry a line, to be added to",
        remedy="Write it so under Text.",
    )


def _missing(path: Path) -> InputError:
    return InputError(
        code="no_such_field",
        field=field_name(path),
        value="nothing",
        rule="must be there to be changed",
        remedy="Look at the file: it may have been changed meanwhile.",
    )
