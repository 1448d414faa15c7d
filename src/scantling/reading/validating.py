"""From a document to a model: every fault of its content at once, in our words, at its place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError
from pydantic_core import PydanticCustomError

from scantling.errors import Fault, FileFaults, InputError
from scantling.reading.documents import Document, Path, faults_for, shown
from scantling.reading.fields import LENGTH_UNIT
from scantling.reading.limits import MAX_FAULTS
from scantling.reading.shapes import Shape, shapes_at
from scantling.reading.wording import Wording, either, word

__all__ = ["FileModel", "custom_error", "length_unit", "validate"]

Model = TypeVar("Model", bound=BaseModel)
_UNITS = ("mm", "cm", "in")
_MOST_PROBLEMS = 500
"""Problems looked at, of which MAX_FAULTS are told: a file of nothing else would take minutes. [1]"""
_MOST_FIELDS = 100
"""Fields that a block of one kind of many may have; ours have 30 at most. [1]"""


class FileModel(BaseModel):
    """Base of the models of user files: immutable, and no field they do not know."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False, hide_input_in_errors=True)


def custom_error(*, code: str, rule: str, remedy: str = "") -> PydanticCustomError:
    """An error for a validator of ours to raise where no :class:`InputError` is at hand."""
    message = f"{rule}. {remedy}".strip().replace("{", "(").replace("}", ")")
    return PydanticCustomError(code, message, {"rule": rule, "remedy": remedy})


def length_unit(document: Document, *, default: str = "mm") -> str:
    """The file's unit of length: its top field ``units``, or the default where it has none.

    Raises
    ------
    FileFaults
        ``unknown_choice``.
    """
    found = document.get(("units",))
    if found is None:
        return default
    if isinstance(found, str) and found in _UNITS:
        return found
    raise FileFaults(
        [
            document.fault(
                ("units",),
                code="unknown_choice",
                rule=f"must be one of {', '.join(_UNITS)}",
                remedy="Write units: mm or units: in.",
            )
        ]
    )


def validate(document: Document, model: type[Model], *, context: Mapping[str, Any] | None = None) -> Model:
    """Make a model of a document's data.

    Parameters
    ----------
    document
        What was read.
    model
        A pydantic model, best a :class:`FileModel`. Kinds of block are told apart by a discriminator.
        A validator of its own may raise :class:`InputError`, :class:`FileFaults` or
        :func:`custom_error`.
    context
        Passed to validators as ``info.context``; the file's unit of length is added to it.

    Returns
    -------
    Model
        The instance.

    Raises
    ------
    FileFaults
        ``field_missing``, ``unknown_field``, ``wrong_type``, ``out_of_range``, ``unknown_choice``,
        ``wrong_count``, ``wrong_form``, ``not_valid``, and the codes of the fields' own errors.

    Examples
    --------
    >>> from pydantic import create_model
    >>> from scantling.reading import FileModel, LengthMm, parse_document
    >>> Top = create_model("Top", __base__=FileModel, length=(LengthMm, ...))
    >>> validate(parse_document("length: 28 3/4 in", file="top.yaml"), Top).length
    730.25
    """
    full: dict[str, Any] = {**(context or {})}
    faults: list[Fault] = []
    wrong_unit: tuple[Fault, ...] = ()
    try:
        full.setdefault(LENGTH_UNIT, length_unit(document))
    except FileFaults as error:
        wrong_unit = error.faults
        full[LENGTH_UNIT] = "mm"
    try:
        made = model.model_validate(document.data, context=full)
    except ValidationError as error:
        entries = error.errors(include_url=False)[:_MOST_PROBLEMS]
        problems = [_locate(document.data, entry) for entry in entries]
        for problem in _quiet(problems):
            faults.extend(_faults(document, model, problem, context=full))
    if wrong_unit:  # then the fractions may well be of inches
        faults = [fault for fault in faults if fault.code != "fraction_of_millimeter"]
    if not any(fault.field == "units" for fault in faults):
        faults.extend(wrong_unit)
    faults = [fault for fault in faults if not _follows(fault, document.faults)]
    faults += document.faults
    if faults:
        raise FileFaults(_tidy(faults))
    return made


@dataclass(frozen=True, slots=True, kw_only=True)
class _Problem:
    """One validation error, with the way to it in the document.

    ``turns`` lists the alternatives of unions it went through: place in the path, and which.
    ``rivals`` are the errors of other alternatives at the very same value. ``on_key`` is set when the
    name is wrong and not what it names.
    """

    entry: Mapping[str, Any]
    path: Path
    turns: tuple[tuple[Path, str], ...]
    rivals: tuple[_Problem, ...] = ()
    on_key: bool = False


def _locate(data: object, entry: Any) -> _Problem:
    """Walk the error's location down the data; steps that are no key of it name a union's member."""
    path: list[str | int] = []
    turns: list[tuple[Path, str]] = []
    steps: Sequence[str | int] = entry["loc"]
    last = len(steps) - 1
    for index, step in enumerate(steps):
        inside = _holds(data, step)
        if inside and index < last and _is_tag(data, step) and _holds(data, steps[index + 1]):
            inside = False
        if inside:
            data = data[step]  # type: ignore[index]
            path.append(step)
        elif index == last and entry["type"] in ("missing", "extra_forbidden"):
            path.append(step)
        elif step != "[key]":
            turns.append((tuple(path), str(step)))
    if entry["type"] in ("union_tag_invalid", "union_tag_not_found"):
        path.append(str((entry.get("ctx") or {}).get("discriminator", "kind")).strip("'\""))
    return _Problem(entry=entry, path=tuple(path), turns=tuple(turns), on_key="[key]" in steps)


def _holds(data: object, step: str | int) -> bool:
    if isinstance(data, dict):
        return step in data
    return isinstance(data, list) and isinstance(step, int) and 0 <= step < len(data)


def _is_tag(data: object, step: str | int) -> bool:
    if not isinstance(data, dict) or len(data) > _MOST_FIELDS:
        return False
    return any(isinstance(value, str) and value == step for value in data.values())


def _quiet(problems: list[_Problem]) -> list[_Problem]:
    """Where several members of one union complain, keep the member that came nearest.

    Nearest is the one whose errors lie deepest; among equals, the one with the fewest. Members that
    all refuse the value itself become one problem.
    """
    members: dict[Path, dict[str, list[_Problem]]] = {}
    for problem in problems:
        for place, member in problem.turns:
            members.setdefault(place, {}).setdefault(member, []).append(problem)
    dropped: set[int] = set()
    rivals: dict[int, tuple[_Problem, ...]] = {}
    for place, alternatives in members.items():
        ranked = sorted(alternatives.values(), key=lambda group: (-_depth(group), len(group)))
        best, others = ranked[0], [problem for group in ranked[1:] for problem in group]
        dropped.update(id(problem) for problem in others)
        if _depth(best) == len(place):
            rivals[id(best[0])] = tuple(others)
    kept = [problem for problem in problems if id(problem) not in dropped]
    return [replace(problem, rivals=rivals.get(id(problem), ())) for problem in kept]


def _depth(group: list[_Problem]) -> int:
    return max(len(problem.path) for problem in group)


def _faults(document: Document, model: Any, problem: _Problem, *, context: object) -> tuple[Fault, ...]:
    """The faults of one problem; where several alternatives refuse a value, one that names them all."""
    first = _placed(document, model, problem, context=context)
    rules = [fault.rule for fault in first]
    for rival in problem.rivals:
        for fault in _placed(document, model, rival, context=context):
            if fault.rule not in rules:
                rules.append(fault.rule)
    if len(first) != 1 or len(rules) == 1:
        return first
    return (replace(first[0], rule=either(rules), remedy=""),)


def _placed(document: Document, model: Any, problem: _Problem, *, context: object) -> tuple[Fault, ...]:
    entry, path = problem.entry, problem.path
    cause = (entry.get("ctx") or {}).get("error")
    if isinstance(cause, InputError | FileFaults):
        return faults_for(document, path, cause)
    unknown = entry["type"] == "extra_forbidden"
    if problem.on_key:
        words = word(entry, (), context=context, value=path[-1])
        return (_named(document, path, words),)
    shapes: tuple[Shape, ...] = shapes_at(model, document.data, path[:-1] if unknown else path)
    words = word(entry, shapes, context=context, value=document.get(path))
    fault = document.fault(path, code=words.code, rule=words.rule, remedy=words.remedy)
    if unknown:
        line, column = document.key_position(path)
        return (replace(fault, line=line, column=column),)
    return (fault,)


def _named(document: Document, path: Path, words: Wording) -> Fault:
    """A fault of a name: of the key at the path, not of its value."""
    line, column = document.key_position(path)
    fault = document.fault(path, code=words.code, rule=words.rule, remedy=words.remedy, value=shown(path[-1]))
    return replace(fault, line=line, column=column)


def _follows(fault: Fault, of_form: Sequence[Fault]) -> bool:
    """Whether a fault only says again that a value, or a name, could not be taken from the file."""
    block, _, _ = fault.field.rpartition(".")
    for cause in of_form:
        if cause.code == "key_not_text":
            missing = fault.code == "field_missing" and (block or "file") == cause.field
            if missing or (fault.code == "wrong_count" and fault.field == cause.field):
                return True
        elif cause.code == "alias_not_allowed" and (f"{fault.field}.").startswith(f"{cause.field}."):
            return True
    return False


def _tidy(faults: list[Fault]) -> list[Fault]:
    """In the order of the file, each once, and not more than a person will read."""
    unique = list(dict.fromkeys(faults))
    return sorted(unique, key=lambda fault: (fault.line, fault.column))[:MAX_FAULTS]
