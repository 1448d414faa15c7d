"""The description of the interface that programs read."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

__all__ = ["DESIGNS", "describe"]

_JSON = "application/json"
DESIGNS = {
    "piece": ("Title, units and parameters, before anything is planned.", _JSON),
    "shape": ("Parameters, and parts with their sizes.", _JSON),
    "plan": ("The whole plan: sheets, findings, the year.", _JSON),
    "scene.glb": ("The piece in 3D, as binary glTF 2.0.", "model/gltf-binary"),
    "packet.pdf": ("The papers to work from; `paper` is a4 or letter.", "application/pdf"),
    "offer.pdf": ("The offer for a client; `client` and `price` are yours to say.", "application/pdf"),
}
"""What can be asked of a design: its name, what it is, and its kind of file."""


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
    if "RefusalBody" in schema.get("components", {}).get("schemas", {}):
        schema["paths"] |= _designs()
    return schema


def _designs() -> dict[str, Any]:
    """What is asked of the designs of a piece that is kept, and of a version of it.

    They are served where the piece stands, by the routes that serve the page of one file too.
    """
    which = {"name": "number", "in": "path", "required": True, "schema": {"type": "integer", "minimum": 1}}
    of_them = which | {"name": "version"}
    paths: dict[str, Any] = {}
    for place, within in (
        ("/pieces/{number}", [which]),
        ("/pieces/{number}/versions/{version}", [which, of_them]),
    ):
        for name, (words, kind) in DESIGNS.items():
            paths[f"{place}/api/{name}"] = {"get": _design(f"{place}/{name}", words, kind, within)}
    return paths


def _design(place: str, words: str, kind: str, within: list[dict[str, Any]]) -> dict[str, Any]:
    given = {
        "name": "given",
        "in": "query",
        "description": "Parameters of the piece, and `units` (mm, in or both), each by its own name.",
        "style": "form",
        "explode": True,
        "schema": {"type": "object", "additionalProperties": {"type": "string", "maxLength": 200}},
    }
    refused = {"application/json": {"schema": {"$ref": "#/components/schemas/RefusalBody"}}}
    return {
        "tags": ["designs"],
        "summary": words,
        "description": words,
        "operationId": "design" + "_".join(place.replace("{", "").replace("}", "").split("/")),
        "parameters": [*within, given],
        "responses": {
            "200": {"description": "As asked.", "content": {kind: {}}},
            "304": {"description": "What was sent before under this tag is still right."},
            "404": {"description": "There is none.", "content": refused},
            "422": {"description": "Everything wrong with the piece or what was asked.", "content": refused},
        },
    }
