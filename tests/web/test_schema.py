"""The interface is what its schema says, for whatever is sent to it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from fastapi import FastAPI
from hypothesis import HealthCheck, Phase, given, settings
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)
from starlette.testclient import TestClient

from scantling.web.documents.describing import DESIGNS
from tests.web.records import STOOL, app_with_records

CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]
CALM = list(HealthCheck)
HOST = {"host": "127.0.0.1"}


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[FastAPI]:
    """A server that keeps two pieces, one with faults, so that some questions have an answer."""
    with app_with_records(tmp_path_factory.mktemp("records")) as made:
        client = TestClient(made, base_url="http://127.0.0.1")
        client.post("/api/pieces", json={"content": {"piece": STOOL}})
        client.post("/api/pieces", json={"form": "reading-table"})
        client.post("/api/pieces/1/bench", json={"kind": "noted", "note": "x"})
        yield made


@pytest.fixture(scope="module")
def described(app: FastAPI) -> Any:
    """What the schema says of each operation."""
    return schemathesis.openapi.from_asgi("/api/openapi.json", app, headers=HOST)


def _operations() -> list[str]:
    """What is kept; designs, which take seconds, are asked for below."""
    with app_with_records(Path("nowhere")) as app:
        described = app.openapi()["paths"]
    return [f"{method.upper()} {path}" for path, methods in described.items() for method in methods]


@pytest.mark.parametrize("operation", _operations())
def test_answers_are_what_the_schema_says(described: Any, operation: str) -> None:
    """Nothing that can be sent breaks the server, and no answer is of another form or status than told."""
    method, path = operation.split()

    @given(case=described[path][method].as_strategy())
    @settings(max_examples=10, phases=[Phase.explicit, Phase.generate], suppress_health_check=CALM)
    def answers(case: schemathesis.Case) -> None:
        case.call_and_validate(checks=CHECKS, headers=HOST)

    answers()


def test_the_schema_names_every_error(app: FastAPI) -> None:
    """Each route tells the one body for what it refuses, and none the framework's own."""
    text = json.dumps(app.openapi())
    assert "HTTPValidationError" not in text
    for path, methods in app.openapi()["paths"].items():
        for method, route in methods.items():
            if path != "/api/health":
                body = route["responses"]["422"]["content"]["application/json"]["schema"]
                assert body == {"$ref": "#/components/schemas/RefusalBody"}, (method, path)


def test_operations_are_told_apart(app: FastAPI) -> None:
    """Each has a name of its own and a sentence."""
    routes = [route for methods in app.openapi()["paths"].values() for route in methods.values()]
    names = [route["operationId"] for route in routes]
    assert len(set(names)) == len(names)
    assert [route["operationId"] for route in routes if not route.get("description")] == []


def test_it_is_kept_where_the_page_looks(tmp_path: Path) -> None:
    """The schema is served beside the routes."""
    with app_with_records(tmp_path) as app, TestClient(app, base_url="http://127.0.0.1") as client:
        schema = client.get("/api/openapi.json").json()
    assert schema["openapi"].startswith("3.")
    assert {"/api/pieces", "/api/pieces/{number}/versions"} <= set(schema["paths"])


@pytest.mark.parametrize("name", DESIGNS)
def test_designs_are_served_as_described(app: FastAPI, name: str) -> None:
    """Each of a piece, of a version of it, and in words where there is no such piece."""
    client = TestClient(app, base_url="http://127.0.0.1")
    for place in ("/pieces/2", "/pieces/2/versions/1"):
        path = f"{place.replace('2', '{number}', 1).replace('s/1', 's/{version}')}/api/{name}"
        (kind,) = app.openapi()["paths"][path]["get"]["responses"]["200"]["content"]
        answer = client.get(f"{place}/api/{name}")
        assert (answer.status_code, answer.headers["content-type"]) == (200, kind)
    assert client.get(f"/pieces/99/api/{name}").status_code == 404
    assert client.get(f"/pieces/1/api/{name}").json()["ok"] is False
