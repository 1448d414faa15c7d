"""Drawings of the shipped pieces; bodies and lines, which no unit of length changes, are worked out once."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from typing import Any
from unittest.mock import patch

from scantling.papers.exports import drawings
from scantling.papers.exports.drawings import DrawingSource
from scantling.papers.pages import view_pages
from scantling.solids.exact import ExactPart, exact_parts
from scantling.solids.projection import Hidden, Lines, View, project
from scantling.solids.shape import PartShape, content_key
from tests.plan.jobs import PLANNER, shipped_job, shipped_plan

__all__ = ["bodies_of", "projected_once", "source_of"]

_BODIES: dict[Hashable, dict[str, ExactPart]] = {}
_LINES: dict[Hashable, Lines] = {}


@cache
def source_of(piece: str) -> DrawingSource:
    """A shipped piece planned with its rack, once for all tests."""
    job, plan = shipped_job(piece), shipped_plan(piece)
    return DrawingSource(plan=plan, piece=job.piece, shapes=PLANNER.shapes(job), meshes=PLANNER.solids(job))


@contextmanager
def projected_once() -> Iterator[None]:
    """Within, shapes that were made into bodies, or projected, are so again without the work."""
    with (
        patch.object(drawings, "exact_parts", bodies_of),
        patch.object(view_pages, "project", _project),
    ):
        yield


def bodies_of(shapes: Mapping[str, PartShape]) -> dict[str, ExactPart]:
    """Exact bodies of parts, made once."""
    key = _said(shapes)
    if key not in _BODIES:
        _BODIES[key] = exact_parts(shapes)
    return _BODIES[key]


def _project(
    shapes: Mapping[str, PartShape], view: View, *, bodies: Any = None, hidden: Hidden = Hidden.DASHED
) -> Lines:
    key = _said(shapes), view, hidden
    if key not in _LINES:
        _LINES[key] = project(shapes, view, bodies=bodies, hidden=hidden)
    return _LINES[key]


def _said(shapes: Mapping[str, PartShape]) -> Hashable:
    """All that bodies and lines follow from: the form of each part and where it stands."""
    return tuple((name, content_key(shape), shape.part.frame) for name, shape in shapes.items())
