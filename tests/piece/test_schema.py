"""The JSON Schema of piece files lets the examples through, refuses mutated ones, and explains all."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from scantling.joinery import joint_families, option_models
from scantling.piece.files import piece_schema
from tests.piece.files import EXAMPLES, SMALL, data_of


@cache
def checker() -> jsonschema.Draft202012Validator:
    """A validator of the schema, which is itself a good one."""
    schema = piece_schema(option_models())
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_valid(path: Path) -> None:
    """What the reader takes, the schema takes."""
    assert [error.message for error in checker().iter_errors(data_of(path.read_text(encoding="utf-8")))] == []


def _without(data: Any, *path: str) -> None:
    for step in path[:-1]:
        data = data[step]
    del data[path[-1]]


def _with(data: Any, value: object, *path: str) -> None:
    for step in path[:-1]:
        data = data[step]
    data[path[-1]] = value


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("scantling",), 2),
        (("title",), None),
        (("parts",), {}),
        (("parts", "post", "kind"), "beam"),
        (("parts", "post", "section"), [45]),
        (("parts", "post", "from"), [0, 0]),
        (("parts", "post", "width_toward"), "up"),
        (("parts", "post", "colour"), "red"),
        (("parts", "Post 2"), {"kind": "stick"}),
        (("parameters", "height", "about"), None),
        (("joints", "post_to_seat", "kind"), "nail"),
        (("joints", "post_to_seat", "between"), None),
        (("joints", "post_to_seat", "between"), []),
        (("joints", "post_to_seat", "between"), [["post"]]),
        (("joints", "post_to_seat", "long_in"), "both"),
        (("brief",), {"seats": [1]}),
    ],
)
def test_a_mutated_file_is_refused(path: tuple[str, ...], value: object) -> None:
    """One field wrong or missing, the schema says so."""
    data = data_of(SMALL)
    if value is None:
        _without(data, *path)
    else:
        _with(data, value, *path)
    assert list(checker().iter_errors(data))


def _fields(schema: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every field of every block, with its own schema."""
    for name, block in {"PieceFile": schema, **schema["$defs"]}.items():
        for field, inner in block.get("properties", {}).items():
            yield f"{name}.{field}", inner


def test_every_field_is_described() -> None:
    """An editor shows what each field is for; only ``kind``, which names the family itself, goes without."""
    schema = piece_schema(option_models())
    bare = [
        name for name, inner in _fields(schema) if not inner.get("description") and not name.endswith(".kind")
    ]
    assert bare == []


def test_every_family_is_in_the_schema() -> None:
    """The joints an editor offers are the joints there are."""
    kinds = {
        field["const"]
        for name, block in piece_schema(option_models())["$defs"].items()
        if not name.endswith("Spec")  # parts and their shapes have kinds too
        and "const" in (field := block.get("properties", {}).get("kind", {}))
    }
    assert kinds == set(joint_families())
