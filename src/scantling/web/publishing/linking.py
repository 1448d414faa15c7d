"""The page's modules as one classic script, for a document that has no server to fetch them from.

Only the forms of import and export that the modules use are known; any other is an error, never left in.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping

from scantling.web.documents.modules import AT, IMPORTED, NAME, PASSED_ON, RUN, WHOLE, resolved

__all__ = ["link"]

_LISTED = re.compile(rf"{AT}export\s*\{{([^{{}}]*)\}};?", re.MULTILINE)
NAMED = re.compile(
    rf"^export\s+((?:async\s+)?function\*?|class|const|let)\s+({NAME}|\[[^\]]*\])", re.MULTILINE
)
_LEFT = re.compile(r"^\s*(?:import\s*[\w{*\"']|export\s)", re.MULTILINE)
_SAID = re.compile(r"^[ \t]*(?:/\*\*(?:(?!\*/|@license).)*\*/|//[^\n]*)[ \t]*\n", re.MULTILINE | re.DOTALL)
"""Comments on lines of their own; what names a license stays."""
_META = re.compile(r"\bimport\.meta\b|[^.\w\"'{]import\(")


def link(entry: str, text_of: Callable[[str], str], import_map: Mapping[str, str]) -> str:
    r"""A module with all it imports, each once and after those it needs, as one script.

    Parameters
    ----------
    entry
        Address of the module, such as ``/static/js/main.js``.
    text_of
        Gives a module's text by its address.
    import_map
        Addresses by bare name, or by the beginning of one that ends in ``/``.

    Raises
    ------
    ValueError
        A module uses a form that is not known, the modules go in a circle, or a text could end the element
        the script stands in.

    Examples
    --------
    >>> files = {"/a.js": 'import { b } from "./b.js";\nb();', "/b.js": "export function b() {}"}
    >>> print(link("/a.js", files.__getitem__, {}))
    (() => {
    "use strict";
    const modules = {};
    (() => {
    function b() {}
    modules["/b.js"] = { get b() { return b; } };
    })();
    (() => {
    const { b } = modules["/b.js"];
    b();
    modules["/a.js"] = {  };
    })();
    })();
    """
    done: dict[str, str] = {}
    _visit(entry, done, (), text_of=text_of, import_map=import_map)
    script = "\n".join(['(() => {\n"use strict";\nconst modules = {};', *done.values(), "})();"])
    if re.search(r"</script|<!--", script, re.IGNORECASE):
        raise ValueError("a module holds what would end the element its script stands in")
    return script


def _visit(
    address: str,
    done: dict[str, str],
    open_: tuple[str, ...],
    *,
    text_of: Callable[[str], str],
    import_map: Mapping[str, str],
) -> None:
    if address in open_:
        raise ValueError(f"modules import each other in a circle: {' > '.join((*open_, address))}")
    if address in done:
        return
    needed: list[str] = []

    def named(name: str) -> str:
        found = resolved(name, address, import_map)
        needed.append(found)
        return f"modules[{json.dumps(found)}]"

    body = _wrapped(address, text_of(address), named)
    for each in needed:
        _visit(each, done, (*open_, address), text_of=text_of, import_map=import_map)
    done[address] = body


def _wrapped(address: str, text: str, named: Callable[[str], str]) -> str:
    """A module as a function that leaves what it exports in ``modules``."""
    exports: list[tuple[str, str]] = []

    def passed_on(found: re.Match[str]) -> str:
        source = named(found[2])
        exports.extend((theirs, f"{source}.{own}") for own, theirs in _pairs(found[1]))
        return ""

    def listed(found: re.Match[str]) -> str:
        exports.extend((theirs, own) for own, theirs in _pairs(found[1]))
        return ""

    def kept(found: re.Match[str]) -> str:
        exports.extend((name, name) for name in re.findall(NAME, found[2]))
        return f"{found[1]} {found[2]}"

    text = _SAID.sub("", text)
    text = WHOLE.sub(lambda found: f"const {found[1]} = {named(found[2])};", text)
    text = IMPORTED.sub(lambda found: f"const {{ {_taken(found[1])} }} = {named(found[2])};", text)
    text = RUN.sub(lambda found: f"{named(found[1])};", text)
    text = PASSED_ON.sub(passed_on, text)
    text = _LISTED.sub(listed, text)
    text = NAMED.sub(kept, text)
    if left := _LEFT.search(text) or _META.search(text):
        raise ValueError(f"{address}: no way to link {left[0].strip()[:40]!r}")
    given = ", ".join(f"get {name}() {{ return {source}; }}" for name, source in exports)
    return f"(() => {{\n{text}\nmodules[{json.dumps(address)}] = {{ {given} }};\n}})();"


def _pairs(names: str) -> list[tuple[str, str]]:
    """What stands on either side of each ``as``."""
    parts = [each.split() for each in names.split(",") if each.strip()]
    return [(part[0], part[-1]) for part in parts]


def _taken(names: str) -> str:
    return ", ".join(own if own == local else f"{own}: {local}" for own, local in _pairs(names))
