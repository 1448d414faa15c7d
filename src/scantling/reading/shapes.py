"""What a model allows at a place in a file: its fields, and its kind of quantity."""

from __future__ import annotations

import types
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from scantling.reading.documents import Path
from scantling.reading.fields import Measure

__all__ = ["Shape", "shapes_at"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One thing a value may be: a type, with the marks its annotation carries."""

    kind: Any
    marks: tuple[Any, ...] = ()

    @property
    def quantity(self) -> Measure | None:
        """The quantity this is, if it is one."""
        return next((mark for mark in self.marks if isinstance(mark, Measure)), None)

    @property
    def fields(self) -> tuple[str, ...]:
        """Names a file may use for the fields of this model; none for other types."""
        return tuple(_named(self.kind)) if _is_model(self.kind) else ()

    def inside(self, step: str | int) -> Iterator[Shape]:
        """What may stand one step further down."""
        if _is_model(self.kind):
            info = _named(self.kind).get(str(step))
            if info is not None:
                yield from _spread(info.annotation, tuple(info.metadata))
            return
        arguments = get_args(self.kind)
        origin = get_origin(self.kind)
        if not arguments or not isinstance(origin, type):
            return
        if issubclass(origin, Mapping):
            yield from _spread(arguments[-1], ())
        elif issubclass(origin, tuple) and arguments[-1] is not Ellipsis:
            if isinstance(step, int) and step < len(arguments):
                yield from _spread(arguments[step], ())
        elif isinstance(step, int):
            yield from _spread(arguments[0], ())

    def agrees(self, data: object) -> bool:
        """Whether the fixed words of this model (``kind: stick``) are those of the data."""
        if not _is_model(self.kind) or not isinstance(data, Mapping):
            return True
        for name, info in _named(self.kind).items():
            if get_origin(info.annotation) is Literal and name in data:
                return data[name] in get_args(info.annotation)
        return True


def shapes_at(model: Any, data: object, path: Path) -> tuple[Shape, ...]:
    """What the model allows at a path of the data.

    Parameters
    ----------
    model
        The model (or type) of the whole file.
    data
        The file's data; where the model offers several kinds of block, its words choose between them.
    path
        Way to the place asked for.
    """
    shapes = tuple(_spread(model, ()))
    for step in path:
        shapes = tuple(further for shape in _chosen(shapes, data) for further in shape.inside(step))
        data = _below(data, step)
    return _chosen(shapes, data)


def _chosen(shapes: tuple[Shape, ...], data: object) -> tuple[Shape, ...]:
    """Those whose fixed words are the data's; all, where none are."""
    return tuple(shape for shape in shapes if shape.agrees(data)) or shapes


def _below(data: object, step: str | int) -> object:
    if isinstance(data, dict):
        return data.get(step)
    if isinstance(data, list) and isinstance(step, int) and 0 <= step < len(data):
        return data[step]
    return None


def _is_model(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, BaseModel)


def _named(kind: type[BaseModel]) -> dict[str, Any]:
    return {info.alias or name: info for name, info in kind.model_fields.items()}


def _spread(annotation: Any, marks: tuple[Any, ...]) -> Iterator[Shape]:
    """Every alternative of an annotation, with its marks."""
    if hasattr(annotation, "__value__"):
        yield from _spread(annotation.__value__, marks)
    elif get_origin(annotation) is Annotated:
        inner, *more = get_args(annotation)
        yield from _spread(inner, (*marks, *more))
    elif get_origin(annotation) in (Union, types.UnionType):
        for member in get_args(annotation):
            yield from _spread(member, marks)
    else:
        yield Shape(kind=annotation, marks=marks)
