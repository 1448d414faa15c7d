"""The documents of the page: written once, filled in with the names of the piece."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from html import escape

from scantling.web.guarding import policy_for
from scantling.web.shell import shell_version, static_folder

__all__ = ["Document", "document", "static_folder"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """One document as it is kept, and the policy it is sent with."""

    text: str
    policy: str

    def filled(self, **words: str) -> str:
        """The document with its ``{{names}}`` filled in; every word is escaped.

        Examples
        --------
        >>> Document(text="<h1>{{title}}</h1>", policy="").filled(title="Oak & ash")
        '<h1>Oak &amp; ash</h1>'
        """
        text = self.text
        for name, word in words.items():
            text = text.replace("{{" + name + "}}", escape(word))
        return text


@cache
def document(name: str) -> Document:
    """A document by its file name, with the one import map of all."""
    shared = (static_folder() / "importmap.json").read_text(encoding="utf-8")
    text = (static_folder() / name).read_text(encoding="utf-8").replace("{{importmap}}", shared)
    text = text.replace("{{shell}}", shell_version())
    return Document(text=text, policy=policy_for(text))
