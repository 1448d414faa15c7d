"""The description of the interface that programs read."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

__all__ = ["describe"]


def describe(app: FastAPI) -> None:
    """Have an app describe itself, at the address its openapi_url names."""

    def described() -> dict[str, Any]:
        if app.openapi_schema is None:
            app.openapi_schema = _schema(app)
        return app.openapi_schema

    app.openapi = described  # type: ignore[method-assign]  # as the framework's manual has it


def _schema(app: FastAPI) -> dict[str, Any]:
    """The framework's description; what is refused is JSON, also where the answer is a picture or a file."""
    schema = get_openapi(title=app.title, version=app.version, routes=app.routes)
    answers = [
        answer
        for path in schema["paths"].values()
        for route in path.values()
        for status, answer in route["responses"].items()
        if status >= "400" and answer.get("content")
    ]
    for answer in answers:
        (body,) = answer["content"].values()
        answer["content"] = {"application/json": body}
    return schema
