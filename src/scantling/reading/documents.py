"""A file's plain data, with the line and column of every key and value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from scantling.errors import Fault, FileFaults, InputError

__all__ = ["Document", "Mark", "Path", "Plain", "faults_for", "field_name", "shown"]

Plain: TypeAlias = "dict[str, Plain] | list[Plain] | str | int | float | bool | None"
"""What a file holds once read. Nothing else is ever made from it."""
Path: TypeAlias = tuple[str | int, ...]
"""Way to a value: keys of blocks and places in lists (from 0), ``("parts", "leg", "section", 0)``."""

_SHOWN = 80


@dataclass(frozen=True, slots=True)
class Mark:
    """Where a key or value begins.

    Parameters
    ----------
    line, column
        Counted from 1.
    shift
        Characters from there to the first character of the text: 1 when quoted, -1 when the text is
        folded over lines, so that places inside it are not known.
    """

    line: int
    column: int
    shift: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """One file, read.

    Parameters
    ----------
    file
        Name of the file, as given.
    data
        Its content: dicts, lists, texts, numbers, truth values, None.
    values, keys
        Where each value, and each key, begins.
    faults
        Faults of form that left the rest of the file readable.
    """

    file: str
    data: Plain
    values: Mapping[Path, Mark] = field(repr=False)
    keys: Mapping[Path, Mark] = field(repr=False)
    faults: tuple[Fault, ...] = ()

    def get(self, path: Path) -> Plain:
        """The value at a path; None where there is none."""
        node: Plain = self.data
        for step in path:
            if isinstance(node, dict) and isinstance(step, str):
                node = node.get(step)
            elif isinstance(node, list) and isinstance(step, int) and 0 <= step < len(node):
                node = node[step]
            else:
                return None
        return node

    def position(self, path: Path) -> tuple[int, int]:
        """Line and column of the value at a path, from 1.

        Where the path leads nowhere (a field that is missing), the place of the nearest key above it.
        """
        mark = self.values.get(path)
        while mark is None and path:
            path = path[:-1]
            mark = self.keys.get(path) or self.values.get(path)
        return (mark.line, mark.column) if mark else (1, 1)

    def key_position(self, path: Path) -> tuple[int, int]:
        """Line and column of the key at a path, or of the value where it has no key (in a list)."""
        mark = self.keys.get(path)
        return (mark.line, mark.column) if mark else self.position(path)

    def fault(
        self,
        path: Path,
        *,
        code: str,
        rule: str,
        remedy: str = "",
        value: str | None = None,
        offset: int | None = None,
    ) -> Fault:
        """A fault at a path of this document, with file, line, column, field and value filled in.

        Parameters
        ----------
        path
            Way to the value that is wrong.
        code, rule, remedy
            As in :class:`~scantling.errors.Fault`.
        value
            What was found, where it is not simply the value at the path.
        offset
            Place inside a text, counted from 0: the column then points at it.
        """
        line, column = self.position(path)
        mark = self.values.get(path)
        if offset is not None and mark is not None and mark.shift >= 0:
            column += mark.shift + offset
        return Fault(
            code=code,
            field=field_name(path),
            value=shown(self.get(path)) if value is None else value,
            rule=rule,
            remedy=remedy,
            file=self.file,
            line=line,
            column=column,
        )


def faults_for(document: Document, path: Path, error: InputError | FileFaults | Fault) -> tuple[Fault, ...]:
    r"""The faults of an error raised over a value, placed where that value stands in its file.

    A fault that has a column but no line of its own (an expression's) keeps pointing into the text; one
    that has a line already is left as it is.

    Parameters
    ----------
    document
        The file the value came from.
    path
        Way to the value.
    error
        What was raised, or one fault.

    Examples
    --------
    >>> from scantling.reading import parse_document
    >>> from scantling.units import parse_length_mm
    >>> document = parse_document("top:\n  length: 12 parsecs\n", file="table.yaml")
    >>> try:
    ...     parse_length_mm("12 parsecs")
    ... except InputError as error:
    ...     [fault] = faults_for(document, ("top", "length"), error)
    >>> fault.field, fault.line, fault.column
    ('top.length', 2, 11)
    """
    if isinstance(error, FileFaults):
        faults = error.faults
    elif isinstance(error, InputError):
        faults = (error.fault,)
    else:
        faults = (error,)
    return tuple(
        fault
        if fault.line
        else document.fault(
            path,
            code=fault.code,
            rule=fault.rule,
            remedy=fault.remedy,
            value=shown(fault.value),
            offset=fault.column - 1 if fault.column else None,
        )
        for fault in faults
    )


def field_name(path: Path) -> str:
    """A path as shown to a person; places in lists count from 1, as lines do.

    Examples
    --------
    >>> field_name(("parts", "leg", "section", 0))
    'parts.leg.section[1]'
    """
    text = ""
    for step in path:
        if isinstance(step, int):
            text += f"[{step + 1}]"
        else:
            text += f".{_short(step)}" if text else _short(step)
    return text or "file"


def shown(value: object) -> str:
    """A value found, in few words.

    Examples
    --------
    >>> shown({"a": 1, "b": 2}), shown([1]), shown(None), shown(True), shown(730)
    ('a block of 2 fields', 'a list of 1', 'nothing', 'true', '730')
    """
    if value is None or value == "":
        return "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return f"a block of {len(value)} field{'' if len(value) == 1 else 's'}"
    if isinstance(value, list):
        return f"a list of {len(value)}"
    return _short(value if isinstance(value, str) else repr(value))


def _short(text: str) -> str:
    line = " ".join(text.split()) if text.split() else repr(text)
    return line if len(line) <= _SHOWN else line[: _SHOWN - 1] + "…"
