"""Which modules a document needs: they are named in it, so that a browser asks for all of them at once.

A browser finds out what a module imports when it has read it, and so comes to the last of some eighty in five
turns, each as long as the slowest answer. Named beforehand they come in one.
"""

from __future__ import annotations

import json
import posixpath
import re
from collections.abc import Mapping
from functools import cache

from scantling.web.documents.shell import static_folder

__all__ = [
    "AT",
    "IMPORTED",
    "NAME",
    "PASSED_ON",
    "RUN",
    "WHOLE",
    "import_map",
    "imports_of",
    "modules_of",
    "resolved",
]

NAME = r"[A-Za-z_$][\w$]*"
AT = r"(?:^|(?<=[;}]))"
_FROM = r"\s*from\s*[\"']([^\"']+)[\"'];?"
IMPORTED = re.compile(rf"{AT}import\s*\{{([^{{}}]*)\}}{_FROM}", re.MULTILINE)
WHOLE = re.compile(rf"^import\s*\*\s*as\s+({NAME}){_FROM}", re.MULTILINE)
RUN = re.compile(rf"{AT}import\s*[\"']([^\"']+)[\"'];?", re.MULTILINE)
PASSED_ON = re.compile(rf"{AT}export\s*\{{([^{{}}]*)\}}{_FROM}", re.MULTILINE)
_ALL_PASSED_ON = re.compile(rf"{AT}export\s*\*{_FROM}", re.MULTILINE)
"""The forms in which the modules name each other."""


def import_map() -> dict[str, str]:
    """Addresses by the bare names that modules import."""
    read = json.loads((static_folder() / "importmap.json").read_text(encoding="utf-8"))
    return {str(name): str(address) for name, address in read["imports"].items()}


def imports_of(text: str) -> list[str]:
    r"""Names of the modules a module imports or passes on, as it writes them.

    Examples
    --------
    >>> imports_of('import { a } from "./a.js";\nexport { b } from "b";')
    ['./a.js', 'b']
    """
    groups = ((IMPORTED, 2), (WHOLE, 2), (RUN, 1), (PASSED_ON, 2), (_ALL_PASSED_ON, 1))
    found = sorted((each.start(), each[group]) for form, group in groups for each in form.finditer(text))
    return [name for _, name in found]


def resolved(name: str, address: str, import_map: Mapping[str, str]) -> str:
    """The address of a module that another names.

    Raises
    ------
    ValueError
        The name is neither a path nor in the import map.
    """
    if name.startswith("."):
        return posixpath.normpath(posixpath.join(posixpath.dirname(address), name))
    if name in import_map:
        return import_map[name]
    for prefix, target in import_map.items():
        if prefix.endswith("/") and name.startswith(prefix):
            return target + name.removeprefix(prefix)
    raise ValueError(f"{address} imports {name}, which is nowhere")


@cache
def modules_of(*entries: str) -> tuple[str, ...]:
    """Addresses of modules and of all they import, each once; those that lead to others first.

    Parameters
    ----------
    entries
        Addresses of the modules to begin with, such as ``/static/js/main.js``.
    """
    named = import_map()
    found = list(dict.fromkeys(entries))
    for address in found:  # grows while it is gone through
        text = (static_folder() / address.removeprefix("/static/")).read_text(encoding="utf-8")
        found += dict.fromkeys(
            each for name in imports_of(text) if (each := resolved(name, address, named)) not in found
        )
    return tuple(found)
