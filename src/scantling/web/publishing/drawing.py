"""Drawings set into a document whose policy allows no style of their own: built anew, styles as classes."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from html import escape

__all__ = ["Drawings"]

_DRAWN = frozenset(
    {"svg", "g", "path", "circle", "rect", "line", "text", "tspan", "clipPath", "defs", "title"}
)
"""Elements a drawing may hold."""
_OURS = frozenset({"class", "style", "id", "clip-path", "role", "xmlns"})
"""Attributes that are written another way, or not at all."""
_WORD = re.compile(r"[a-z][a-zA-Z-]*")
_STYLE = re.compile(r"[\w\s(),.:;#%-]*")


class Drawings:
    """The drawings of one document, with the rules of style they need together."""

    def __init__(self) -> None:
        self._rules: dict[str, None] = {}
        self._classes: dict[str, str] = {}
        self._count = 0

    def begin(self) -> None:
        """Count drawings from one again: what follows is the same document told another way."""
        self._count = 0

    def styles(self) -> str:
        """Rules for all drawings set so far."""
        own = (f".{name}{{{rules}}}" for rules, name in self._classes.items())
        return "\n".join([*self._rules, *own])

    def set(self, svg: str, words: str) -> str:
        """A drawing as markup.

        Parameters
        ----------
        svg
            As it was drawn by us; what a drawing does not hold is left out all the same.
        words
            For who cannot see it.
        """
        self._count += 1
        root = ET.fromstring(svg)  # noqa: S314 - drawn by this program a moment ago
        label = f' role="img" aria-label="{escape(words)}"'
        return self._rebuilt(root, label)

    def _rebuilt(self, element: ET.Element, more: str = "") -> str:
        name = _local(element.tag)
        if name == "style":
            self._take_rules(element.text or "")
        if name not in _DRAWN:
            return ""
        inside = escape(element.text or "")
        for child in element:
            inside += self._rebuilt(child) + escape(child.tail or "")
        return f"<{name}{more}{self._attributes(element)}>{inside}</{name}>"

    def _take_rules(self, rules: str) -> None:
        if "<" in rules or "@" in rules or "url" in rules:
            raise ValueError("a drawing brings a rule that is not of style alone")
        self._rules[rules] = None

    def _attributes(self, element: ET.Element) -> str:
        classes = element.get("class", "").split()
        if style := element.get("style"):
            if not _STYLE.fullmatch(style) or "url" in style:
                raise ValueError(f"a drawing has the style {style[:40]!r}")
            classes.append(self._classes.setdefault(style, f"d{len(self._classes)}"))
        told = {name: value for name, value in element.attrib.items() if name not in _OURS}
        told = {name: value for name, value in told.items() if _WORD.fullmatch(name) and name[:2] != "on"}
        told = {name: value for name, value in told.items() if name != "href"}
        if classes:
            told["class"] = " ".join(classes)
        if "id" in element.attrib:
            told["id"] = f"p{self._count}-{element.attrib['id']}"
        if clip := re.fullmatch(r"url\(#([\w-]+)\)", element.get("clip-path", "")):
            told["clip-path"] = f"url(#p{self._count}-{clip[1]})"
        return "".join(f' {name}="{escape(value)}"' for name, value in told.items())


def _local(tag: str) -> str:
    return tag.rpartition("}")[2]
