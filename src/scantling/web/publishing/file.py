"""The file itself: everything it needs is in it, and its policy lets it load nothing more."""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from scantling.papers.sheets import Sheet
from scantling.papers.sheets.readers import STEPS_AFTER
from scantling.papers.words.step_cards import StepCard
from scantling.web.documents.pages import static_folder
from scantling.web.publishing.drawing import Drawings
from scantling.web.publishing.linking import link
from scantling.web.publishing.markup import facts_markup, sheet_markup, steps_markup, word
from scantling.web.publishing.merging import UNIT, merged
from scantling.web.sent.views import ShapeView, as_json

__all__ = ["Edition", "published_file"]

_UNITS = {"mm": "Millimeters", "in": "Inches", "both": "Both"}
_ENTRY = "/static/js/published.js"


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """The plan in one unit of length, or in both.

    Parameters
    ----------
    units
        ``mm``, ``in`` or ``both``.
    shape
        Parts with their sizes as shown.
    facts
        Label and value of the figures at the head.
    sheets, cards
        What is told of it, for readers.
    """

    units: str
    shape: ShapeView
    facts: tuple[tuple[str, str], ...]
    sheets: tuple[Sheet, ...]
    cards: tuple[StepCard, ...]


def published_file(editions: Sequence[Edition], scene: bytes) -> bytes:
    """One HTML file for readers.

    Parameters
    ----------
    editions
        The plan in each way of showing lengths, alike but for these; the first is shown first.
    scene
        The piece in 3D, as binary glTF.

    Returns
    -------
    bytes
        HTML in UTF-8 that asks for nothing: styles, script, picture and words are in it.
    """
    drawings = Drawings()
    told = merged({edition.units: _told(edition, drawings) for edition in editions})
    first, script = _folder_text("js/theme-first.js"), _script()
    units = [edition.units for edition in editions]
    style = _styles() + _shown(units) + drawings.styles()
    shape = editions[0].shape
    data = {
        "parts": [as_json(part) for part in shape.parts],
        "sizes": {
            edition.units: {part.name: as_json(part.sizes) for part in edition.shape.parts}
            for edition in editions
        },
    }
    filled = {
        "policy": _policy((first, script), style),
        "title": word(shape.title),
        "about": word(shape.about),
        "style": style,
        "first": first,
        "units": _choice(units),
        "told": told,
        "data": json.dumps(data).replace("<", "\\u003c"),
        "scene": base64.b64encode(gzip.compress(scene, mtime=0)).decode(),
        "script": script,
    }
    text = _folder_text("published.html")
    return re.sub(r"\{\{(\w+)\}\}", lambda found: filled[found[1]], text).encode()


def _told(edition: Edition, drawings: Drawings) -> str:
    drawings.begin()
    chapters: list[str] = []
    for sheet in edition.sheets:
        chapters.append(sheet_markup(sheet, len(chapters) + 1, drawings))
        if sheet.id == STEPS_AFTER:
            chapters.append(steps_markup(edition.cards, len(chapters) + 1))
    return f'<div class="told">{facts_markup(edition.facts)}{"".join(chapters)}</div>'


def _choice(units: Sequence[str]) -> str:
    """The unit to show, chosen without a script."""
    keys = (
        f'<input type="radio" name="units" id="show-{unit}" value="{unit}"{"" if place else " checked"} />'
        f'<label for="show-{unit}">{_UNITS[unit]}</label>'
        for place, unit in enumerate(units)
    )
    return (
        f'<fieldset class="units"><legend class="sr-only">Show lengths in</legend>{"".join(keys)}</fieldset>'
    )


def _shown(units: Sequence[str]) -> str:
    """Rules that show what is for the unit chosen; the first, with no choice, where a browser cannot tell."""
    rules = [
        f':root:has(#show-{unit}:checked) [{UNIT}]:not([{UNIT}~="{unit}"]){{display:none}}' for unit in units
    ]
    first = f'[{UNIT}]:not([{UNIT}~="{units[0]}"]),.units{{display:none}}'
    return "\n".join([*rules, f"@supports not selector(:has(*)){{{first}}}", ""])


def _policy(scripts: Sequence[str], style: str) -> str:
    """Nothing is loaded; only these scripts and this style hold."""
    run = " ".join(_digest(script) for script in scripts)
    held = f"default-src 'none'; script-src {run}; style-src {_digest(style)}"
    return f"{held}; base-uri 'none'; form-action 'none'"


def _digest(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


@cache
def _script() -> str:
    names = json.loads(_folder_text("importmap.json"))["imports"]
    return link(_ENTRY, lambda address: _folder_text(address.removeprefix("/static/")), names)


def _styles() -> str:
    """The inks of the page, and the file's own layout; its letters are those of the reader's system."""
    inks = re.sub(r"@font-face\s*\{[^}]*\}", "", _folder_text("css/tokens.css"))
    return inks + _folder_text("css/published.css")


def _folder_text(name: str) -> str:
    return (static_folder() / name).read_text(encoding="utf-8")
