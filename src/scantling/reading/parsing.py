"""Reading a YAML file or text into a document, with every fault of its form at once."""

from __future__ import annotations

import re
from pathlib import Path as FilePath

import yaml

from scantling.errors import Fault, FileFaults
from scantling.reading.composing import Composer, StopReadingError, yaml_events
from scantling.reading.documents import Document, shown
from scantling.reading.limits import check_text, read_text

__all__ = ["parse_document", "parse_on", "read_document", "read_on"]

_ADVICE: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed",
        "must have one 'name: value' on a line, indented like its neighbors",
        "Check the indentation of this line, or put a value that contains ': ' in quotes.",
    ),
    (
        "did not find expected key",
        "must have 'name: value' here",
        "Check the indentation and the quotes of this line and the one before.",
    ),
    (
        "could not find expected ':'",
        "must have a ':' and a space after the name",
        "Write 'name: value'.",
    ),
    (
        "did not find expected '-' indicator",
        "must begin with '- ' like the lines of the list before it",
        "Add '- ', or indent the line differently.",
    ),
    (
        "did not find expected ',' or ']'",
        "must have ',' between the items of a list and ']' at its end",
        "Close the bracket opened above.",
    ),
    (
        "did not find expected ',' or '}'",
        "must have ',' between the fields and '}' at the end",
        "Close the brace opened above.",
    ),
    (
        "while scanning a quoted scalar",
        "must close each quote it opens",
        "Add the missing quote; a value with inch or foot marks needs no quotes around it.",
    ),
    (
        "block sequence entries are not allowed",
        "must not begin a list item here",
        "Put '- ' on a line of its own, under the name of the list.",
    ),
    (
        "maximum nesting depth",
        "must nest less deeply",
        "Check the brackets on this line.",
    ),
    (
        "cannot start any token",
        "must not begin a value with this character",
        "Put the value in quotes.",
    ),
)


def read_document(path: str | FilePath) -> Document:
    """Read a YAML file.

    Parameters
    ----------
    path
        The file, at most 1 MB of UTF-8 text.

    Returns
    -------
    Document
        Its data with positions.

    Raises
    ------
    FileFaults
        Those of :func:`parse_document`, and ``file_missing``, ``file_is_folder``,
        ``file_unreadable``.
    """
    return parse_document(read_text(path), file=str(path))


def parse_document(text: str, *, file: str) -> Document:
    r"""Read YAML text.

    Parameters
    ----------
    text
        The whole text.
    file
        Name shown in faults.

    Returns
    -------
    Document
        Its data with positions.

    Raises
    ------
    FileFaults
        ``file_too_big``, ``not_text``, ``file_empty``, ``yaml_form``, ``tab_indent``, ``too_deep``,
        ``too_many_values``, ``alias_not_allowed``, ``tag_not_allowed``, ``duplicate_key``,
        ``key_not_text``, ``several_documents``.

    Examples
    --------
    >>> document = parse_document("units: in\ntop: {length: 28 3/4, legs: 4}\n", file="table.yaml")
    >>> document.data
    {'units': 'in', 'top': {'length': '28 3/4', 'legs': 4}}
    >>> document.position(("top", "legs"))
    (2, 29)
    """
    document = parse_on(text, file=file)
    if document.faults:
        raise FileFaults(document.faults)
    return document


def read_on(path: str | FilePath) -> Document:
    """As :func:`read_document`, past faults of form that leave the rest readable; see :func:`parse_on`."""
    return parse_on(read_text(path), file=str(path))


def parse_on(text: str, *, file: str) -> Document:
    r"""As :func:`parse_document`, but past faults of form that leave the rest of the text readable.

    Such faults (a name given twice, a tag) are kept in the document, and
    :func:`~scantling.reading.validate` tells them together with those of the content.

    Raises
    ------
    FileFaults
        What is wrong with a text whose rest cannot be read.

    Examples
    --------
    >>> parse_on("units: in\nunits: mm\n", file="table.yaml").faults[0].code
    'duplicate_key'
    """
    text = check_text(text, file=file)
    composer = Composer(yaml_events(text), file=file)
    data, read = None, False
    faults = composer.faults
    try:
        data = composer.compose()
        read = isinstance(data, dict)
    except StopReadingError:
        pass
    except yaml.YAMLError as error:
        faults.append(_form_fault(error, text, file))
    if not faults and data is None:
        faults.append(
            Fault(
                code="file_empty",
                field="file",
                value="nothing",
                rule="must hold something beside comments",
                remedy="Is it the file you meant?",
                file=file,
                line=1,
                column=1,
            )
        )
    faults = sorted(faults, key=lambda fault: (fault.line, fault.column))
    if faults and not read:
        raise FileFaults(faults)
    return Document(file=file, data=data, values=composer.values, keys=composer.keys, faults=tuple(faults))


def _form_fault(error: yaml.YAMLError, text: str, file: str) -> Fault:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    problem = f"{getattr(error, 'context', '')} {getattr(error, 'problem', '')}"
    if "quoted scalar" in problem and getattr(error, "context_mark", None) is not None:
        mark = error.context_mark  # type: ignore[attr-defined]
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    lines = re.split("\r\n|[\n\r\x85\u2028\u2029]", text)
    found = lines[line - 1].rstrip() if line <= len(lines) else ""
    tab = _tab_in_indent(lines, line)
    if tab:
        return Fault(
            code="tab_indent",
            field="file",
            value="a tab",
            rule="must be indented with spaces",
            remedy="Replace each tab at the beginning of a line by two spaces.",
            file=file,
            line=tab,
            column=lines[tab - 1].index("\t") + 1,
        )
    rule, remedy = "must be well-formed YAML", "Check indentation, quotes and brackets around this line."
    for sign, better, advice in _ADVICE:
        if sign in problem:
            rule, remedy = better, advice
            break
    return Fault(
        code="yaml_form",
        field="file",
        value=shown(found.strip()) if found.strip() else "the end of the text",
        rule=rule,
        remedy=remedy,
        file=file,
        line=line,
        column=column,
    )


def _tab_in_indent(lines: list[str], line: int) -> int:
    """The line, of this one and the one before, whose indentation holds a tab; 0 for none."""
    for number in (line, line - 1):
        if 1 <= number <= len(lines):
            content = lines[number - 1]
            if "\t" in content[: len(content) - len(content.lstrip())]:
                return number
    return 0
