"""The documents of the page: one frame, the own part of each set into it, filled in with names."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from html import escape

from fastapi.responses import HTMLResponse

from scantling.web.documents.answering import FRESH
from scantling.web.documents.leaves import LEAVES, Leaf
from scantling.web.documents.modules import modules_of
from scantling.web.documents.places import Standing, strip
from scantling.web.documents.shell import shell_version, static_folder
from scantling.web.guard.guarding import policy_for

__all__ = ["leaf", "page_policy", "static_folder"]

_NAME = re.compile(r"{{(\w+)}}")
_ALWAYS = ("tokens", "page", "places")
"""Styles of the frame."""
_TYPEFACES = ("Barlow-Regular", "Barlow-SemiBold", "BarlowSemiCondensed-SemiBold")
"""What every document is set in, fetched with it: lines set in another typeface first break elsewhere."""


def page_policy() -> str:
    """The policy of every document in the frame: of inline scripts they have the import map, and no other."""
    return policy_for(_framed("index"))


def leaf(
    name: str, standing: Standing, *, ready: str = "", soon: Iterable[str] = (), **words: str
) -> HTMLResponse:
    """A document in its frame, as the server sends it.

    Parameters
    ----------
    name
        Its name in :data:`scantling.web.documents.leaves.LEAVES`.
    standing
        Where it stands; decides which places its strip leads to.
    ready
        Markup of ours, put in where its own part says ``{{ready}}``.
    soon
        Addresses of answers its modules will ask for; the browser asks for them while it reads the modules.
    words
        What its ``{{names}}`` are filled in with; every word is escaped. A title left empty is what
        the piece is called.
    """
    if words.get("title") == "":
        words["title"] = standing.name or "Piece"
    told = {each: escape(word) for each, word in words.items()}
    told["soon"] = "".join(map(_answer, soon))
    told |= {"strip": strip(LEAVES[name].place, standing), "ready": ready}
    return HTMLResponse(_put(_framed(name), told), headers=FRESH)


@cache
def _framed(name: str) -> str:
    leaf = LEAVES[name]
    skip = f'<a class="skip" href="#{leaf.skip[0]}">{leaf.skip[1]}</a>' if leaf.skip else ""
    wiring = f'<script type="module" src="/static/js/{leaf.wiring}.js"></script>' if leaf.wiring else ""
    parts = {
        "heading": leaf.title,
        "early": "\n    ".join(_early(each) for each in (*_faces(), *leaf.early)),
        "styles": "\n    ".join(_style(each) for each in (*_ALWAYS, *leaf.styles)),
        "modules": "\n    ".join(_early(each) for each in _modules(leaf) if each not in leaf.early),
        "wiring": wiring,
        "look": leaf.look,
        "skip": skip,
        "units": "<unit-switch></unit-switch>" if leaf.units else "",
        "own": _read(f"{name}.html").strip(),
        "importmap": _read("importmap.json"),
        "shell": shell_version(),
    }
    return _put(_read("frame.html"), parts)


def _faces() -> tuple[str, ...]:
    return tuple(f"/fonts/{name}.ttf" for name in _TYPEFACES)


def _modules(leaf: Leaf) -> tuple[str, ...]:
    wired = (leaf.wiring, "frame", "offline") if leaf.wiring else ("frame", "offline")
    return modules_of(*(f"/static/js/{each}.js" for each in wired))


def _answer(address: str) -> str:
    return f'<link rel="preload" href="{escape(address)}" as="fetch" crossorigin />'


def _style(name: str) -> str:
    media = ' media="print"' if name == "print" else ""
    return f'<link rel="stylesheet" href="/static/css/{name}.css"{media} />'


def _early(address: str) -> str:
    if address.endswith(".js"):
        return f'<link rel="modulepreload" href="{address}" />'
    return f'<link rel="preload" href="{address}" as="font" type="font/ttf" crossorigin />'


def _read(name: str) -> str:
    return (static_folder() / name).read_text(encoding="utf-8")


def _put(text: str, parts: dict[str, str]) -> str:
    """Each name filled in once; what is filled in is not looked at again, whatever a piece is called."""
    return _NAME.sub(lambda found: parts.get(found[1], found[0]), text)
