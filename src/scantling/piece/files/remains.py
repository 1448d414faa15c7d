"""What remains of a piece file once the entries that cannot be read are set aside.

A file with one bad entry still has good ones, and what is wrong with those is told in the same run. So the
blocks are read entry by entry: an entry that cannot be read is left out, and its name is kept as known, so
that whatever asks for it is not told to be wrong as well.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from pydantic import TypeAdapter, ValidationError

from scantling.errors import Fault, FileFaults
from scantling.piece.files.spec import BriefSpec, FinishSpec, PieceSpec
from scantling.reading import Document, validate

__all__ = ["Remains", "block", "part_remains", "remains"]

_ASIDE: dict[str, Mapping[str, Any]] = {
    "parameters": {"about": "without a sentence"},
    "parts": {"note": "", "show": (), "rings": "flat", "looks": "clear", "quarters": None, "whole": False},
    "joints": {"note": ""},
}
"""Fields whose fault leaves the rest of their entry as it was, with what stands in for them then."""
_PLAIN: dict[str, Any] = {"scantling": 1, "title": "without a title", "about": "", "units": "mm"}
"""What stands in for the fields at the top of the file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Remains:
    """A piece file as far as it could be read.

    Parameters
    ----------
    spec
        The entries that could be read.
    faults
        What is wrong with the others, and with the file as a whole.
    """

    spec: PieceSpec
    faults: tuple[Fault, ...] = ()


def remains(document: Document, model: type[PieceSpec], *, context: dict[str, Any]) -> Remains:
    """Read a piece file; of one with faults, what can be read."""
    try:
        return Remains(spec=validate(document, model, context=context))
    except FileFaults as error:
        faults = error.faults
    fields = {
        name: _remaining(_adapter(model, name), block(document, name), context, aside=_ASIDE.get(name)) or {}
        for name in ("parameters", "values", "parts", "joints", "matching", "accept")
    }
    brief = _remaining(TypeAdapter(BriefSpec), block(document, "brief"), context)
    finish = _remaining(TypeAdapter(FinishSpec), block(document, "finish"), context)
    plain = {name: _plain(model, name, document.get((name,)), context) for name in _PLAIN}
    made: dict[str, Any] = {**plain, **fields, "brief": brief or BriefSpec(), "finish": finish}
    spec = model.model_construct(None, **made)
    return Remains(spec=spec, faults=faults)


def part_remains(raw: object) -> object:
    """A part's entry with stand-ins for the fields that say nothing of its shape."""
    return {**raw, **_ASIDE["parts"]} if isinstance(raw, dict) else raw


def block(document: Document, *path: str) -> dict[str, Any]:
    """A block of the file by name; empty where there is none, or where something else stands there."""
    found = document.get(path)
    return dict(found) if isinstance(found, dict) else {}


def _remaining(
    adapter: TypeAdapter[Any],
    entries: dict[str, Any],
    context: dict[str, Any],
    *,
    aside: Mapping[str, Any] | None = None,
) -> Any:
    """A block without the fields or entries that cannot be read; None where nothing can be."""
    mended: set[str] = set()
    while entries:
        try:
            return adapter.validate_python(entries, context=context)
        except ValidationError as error:
            wrong = {each["loc"][0] for each in error.errors(include_url=False) if each["loc"]}
        if not wrong & entries.keys():
            return None
        again = {name for name in wrong - mended if aside and isinstance(entries.get(str(name)), dict)}
        mended |= {str(name) for name in again}
        entries = {
            name: {**entry, **(aside or {})} if name in again else entry
            for name, entry in entries.items()
            if name in again or name not in wrong
        }
    return None


def _plain(model: type[PieceSpec], name: str, value: object, context: dict[str, Any]) -> Any:
    try:
        return _adapter(model, name).validate_python(value, context=context)
    except ValidationError:
        return _PLAIN[name]


@lru_cache(maxsize=64)
def _adapter(model: type[PieceSpec], name: str) -> TypeAdapter[Any]:
    kind: Any = model.model_fields[name].annotation
    return TypeAdapter(kind)
