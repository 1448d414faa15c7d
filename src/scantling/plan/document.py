"""The plan as JSON, with its schema."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from pydantic import TypeAdapter

from scantling.plan.build_months import BuildMonths
from scantling.plan.result import Plan

__all__ = ["build_months_json", "plan_json", "plan_schema", "seasons_json"]


@cache
def _adapter() -> TypeAdapter[Plan]:
    return TypeAdapter(Plan)


def plan_json(plan: Plan, *, indent: int | None = 1) -> bytes:
    """The complete plan as JSON. Names carry their units."""
    return _adapter().dump_json(plan, indent=indent)


def seasons_json(plan: Plan, *, indent: int | None = 1) -> bytes:
    """The seasons of a plan as JSON, with its year month by month under ``year``."""
    chosen = {"seasons": True, "year": True}
    seasons = _adapter().dump_python(plan, mode="json", include=chosen)
    return json.dumps({**seasons["seasons"], "year": seasons["year"]}, indent=indent).encode()


def build_months_json(found: BuildMonths, *, indent: int | None = 1) -> bytes:
    """When to build, as JSON: each month and each moisture, the best month and the worst."""
    return TypeAdapter(BuildMonths).dump_json(found, indent=indent)


def plan_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of :func:`plan_json`."""
    schema = _adapter().json_schema(mode="serialization")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema, "title": "Plan"}
