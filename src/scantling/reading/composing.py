"""From the events of the YAML parser to plain data with positions, within limits.

Nothing is constructed from tags, and there are no anchors and aliases: a name written twice is what
parameters are for, and without aliases a small file cannot unfold into a huge one.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeAlias

import yaml

from scantling.errors import Fault
from scantling.reading.documents import Mark, Path, Plain, field_name, shown
from scantling.reading.limits import MAX_DEPTH, MAX_FAULTS, MAX_NODES, control_sign
from scantling.reading.scalars import plain_value

__all__ = ["Composer", "StopReadingError", "yaml_events"]

Event: TypeAlias = Any
"""An event of the parser; its published types leave out what the events carry."""
_LOADER: type[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_NODES = (yaml.ScalarEvent, yaml.SequenceStartEvent, yaml.MappingStartEvent, yaml.AliasEvent)


class StopReadingError(Exception):
    """The rest of the file is not worth reading; the faults are kept."""


def yaml_events(text: str) -> Iterator[Event]:
    """The parser's events; may raise :class:`yaml.YAMLError`."""
    loader = _LOADER(text)
    try:
        while loader.check_event():
            yield loader.get_event()
    finally:
        loader.dispose()


class Composer:
    """Builds the data of one document from its events, keeping positions and faults."""

    def __init__(self, events: Iterator[Event], *, file: str) -> None:
        self._events = events
        self._file = file
        self._nodes = 0
        self.faults: list[Fault] = []
        self.values: dict[Path, Mark] = {}
        self.keys: dict[Path, Mark] = {}

    def compose(self) -> Plain:
        """Read the one document of the file.

        Raises
        ------
        StopReadingError
            A limit was reached; see ``faults``.
        """
        data: Plain = None
        documents = 0
        for event in self._events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents == 2:
                    self.blame(
                        event,
                        (),
                        code="several_documents",
                        value="a second one",
                        rule="must hold one document",
                        remedy="Put the part after '---' into a file of its own.",
                    )
                    raise StopReadingError
            elif isinstance(event, _NODES):
                data = self._node(event, ())
        return data

    def blame(self, event: Event, path: Path, *, code: str, value: str, rule: str, remedy: str = "") -> None:
        """Keep one fault at an event."""
        mark = event.start_mark
        self.faults.append(
            Fault(
                code=code,
                field=field_name(path),
                value=value,
                rule=rule,
                remedy=remedy,
                file=self._file,
                line=mark.line + 1,
                column=mark.column + 1,
            )
        )
        if len(self.faults) >= MAX_FAULTS:
            raise StopReadingError

    def _next(self) -> Event:
        return next(self._events)

    def _node(self, event: Event, path: Path) -> Plain:
        self._nodes += 1
        if self._nodes > MAX_NODES:
            self.blame(
                event,
                path,
                code="too_many_values",
                value=f"more than {MAX_NODES}",
                rule=f"must hold at most {MAX_NODES} values",
                remedy="Use repeat for rows of equal things.",
            )
            raise StopReadingError
        if isinstance(event, yaml.AliasEvent):
            self._refuse_alias(event, path, f"*{event.anchor}")
            return None
        self._check_decoration(event, path)
        self.values[path] = Mark(event.start_mark.line + 1, event.start_mark.column + 1, _shift(event))
        if isinstance(event, yaml.ScalarEvent):
            text: str = event.value
            return plain_value(text) if not event.style and event.tag is None else text
        if len(path) >= MAX_DEPTH:
            self.blame(
                event,
                path,
                code="too_deep",
                value=f"level {len(path) + 1}",
                rule=f"must nest at most {MAX_DEPTH} levels",
                remedy="Check the indentation and the brackets above this line.",
            )
            raise StopReadingError
        return self._mapping(path) if isinstance(event, yaml.MappingStartEvent) else self._sequence(path)

    def _check_decoration(self, event: Event, path: Path) -> None:
        sign = control_sign(event.value) if getattr(event, "style", None) == '"' else ""
        if sign:  # the text has none, so it is written as an escape
            self.blame(
                event,
                path,
                code="not_text",
                value=sign,
                rule="must be plain text without control characters",
                remedy="Delete the escape that begins with a backslash.",
            )
        if event.anchor is not None:
            self._refuse_alias(event, path, f"&{event.anchor}")
        if event.tag is not None and event.tag != "!":
            self.blame(
                event,
                path,
                code="tag_not_allowed",
                value=shown(event.tag),
                rule="must be a plain value without a '!' tag",
                remedy="Delete the word that begins with '!', or put the value in quotes.",
            )

    def _refuse_alias(self, event: Event, path: Path, found: str) -> None:
        self.blame(
            event,
            path,
            code="alias_not_allowed",
            value=shown(found),
            rule="must be written out; a value may not begin with '&' or '*'",
            remedy="Define a parameter and use its name, or put the value in quotes.",
        )

    def _sequence(self, path: Path) -> list[Plain]:
        items: list[Plain] = []
        while not isinstance(event := self._next(), yaml.SequenceEndEvent):
            items.append(self._node(event, (*path, len(items))))
        return items

    def _mapping(self, path: Path) -> dict[str, Plain]:
        block: dict[str, Plain] = {}
        while not isinstance(event := self._next(), yaml.MappingEndEvent):
            key = self._key(event, path)
            here: Path = (*path, key if key is not None else "?")
            if key is not None and key in block:
                first = self.keys[here].line
                self.blame(
                    event,
                    here,
                    code="duplicate_key",
                    value="it again",
                    rule=f"must be given once; it is already on line {first}",
                    remedy="Delete or rename one of the two.",
                )
                self._skip()
                continue
            if key is None:
                self._skip()
                continue
            self.keys[here] = Mark(event.start_mark.line + 1, event.start_mark.column + 1)
            block[key] = self._node(self._next(), here)
        return block

    def _key(self, event: Event, path: Path) -> str | None:
        """The key's text; None, with a fault, when it is not a text."""
        if isinstance(event, yaml.ScalarEvent):
            text: str = event.value
            if event.style or (text and isinstance(plain_value(text), str)):
                self._check_decoration(event, (*path, text))
                return text
            found = shown(text)
        else:
            found = f"*{event.anchor}" if isinstance(event, yaml.AliasEvent) else "a block or list"
            self._skip(event)
        self.blame(
            event,
            path,
            code="key_not_text",
            value=found,
            rule="must have names as keys",
            remedy="Begin the name with a letter, or put it in quotes.",
        )
        return None

    def _skip(self, event: Event | None = None) -> None:
        """Pass over one whole value."""
        depth = 0
        event = self._next() if event is None else event
        while True:
            self._nodes += 1
            if isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
                depth += 1
            elif isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
                depth -= 1
            if depth == 0:
                return
            event = self._next()


def _shift(event: Event) -> int:
    if not hasattr(event, "style"):
        return 0
    if event.start_mark.line != event.end_mark.line or event.style in ("|", ">"):
        return -1
    return 1 if event.style in ("'", '"') else 0
