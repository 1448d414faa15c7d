"""Files of the page come from memory, and are still those of the folder."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from starlette.applications import Starlette
from starlette.routing import Mount
from starlette.testclient import TestClient

from scantling.web.documents.files import Files
from scantling.web.documents.modules import imports_of, modules_of

__all__: list[str] = []


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a module in it, and a secret beside it."""
    served = tmp_path / "static"
    served.mkdir()
    (served / "a.js").write_text("export const a = 1;\n", encoding="utf-8")
    (tmp_path / "secret.txt").write_text("secret", encoding="utf-8")
    return served


@pytest.fixture
def client(folder: Path) -> TestClient:
    """Asks for its files."""
    return TestClient(Starlette(routes=[Mount("/static", Files(folder, {"cache-control": "no-cache"}))]))


def test_a_file_is_sent_once_and_again_when_it_has_changed(folder: Path, client: TestClient) -> None:
    """The tag says whether it is still the same; a module just saved is the one that is sent."""
    first = client.get("/static/a.js")
    assert first.text == "export const a = 1;\n"
    assert first.headers["content-type"] == "text/javascript; charset=utf-8"
    assert first.headers["cache-control"] == "no-cache"
    held = {"if-none-match": first.headers["etag"]}
    assert client.get("/static/a.js", headers=held).status_code == 304
    (folder / "a.js").write_text("export const a = 2;\n", encoding="utf-8")
    os.utime(folder / "a.js", ns=(1, 1))  # saved within the same tick of the clock
    assert client.get("/static/a.js", headers=held).text == "export const a = 2;\n"


def test_the_head_of_a_file_has_no_body(client: TestClient) -> None:
    """As HTTP has it: the same headers, nothing more."""
    head = client.head("/static/a.js")
    assert (head.status_code, head.content) == (200, b"")
    assert head.headers["etag"] == client.get("/static/a.js").headers["etag"]


@pytest.mark.parametrize(
    "path",
    [
        "/static/b.js",
        "/static/",
        "/static/%2e%2e/secret.txt",
        "/static//a.js/..",
        "/static/%00",
        f"/static/{'a' * 300}",
    ],
)
def test_nothing_beside_the_folder_is_sent(client: TestClient, path: str) -> None:
    """Neither what is not there, nor the folder, nor what lies beside it."""
    assert client.get(path).status_code == 404


def test_a_file_is_not_written(client: TestClient) -> None:
    """It is read, and nothing else."""
    assert client.post("/static/a.js").status_code == 405


def test_every_form_in_which_a_module_names_another_is_found() -> None:
    """Names alone, everything, what is passed on, and what is only run."""
    text = (
        'import { a } from "./a.js";\nimport * as b from "./b.js";\nimport "./c.js";\n'
        'export { d } from "./d.js";\nexport * from "./e.js";\n'
    )
    assert imports_of(text) == ["./a.js", "./b.js", "./c.js", "./d.js", "./e.js"]


def test_the_modules_of_the_page_are_all_that_are_imported() -> None:
    """From the wiring down to the libraries, each once."""
    found = modules_of("/static/js/main.js")
    assert len(found) == len(set(found))
    for address in (
        "/static/js/lib/glb.js",
        "/static/vendor/three/three.core.min.js",
        "/static/vendor/lit/lit-element.js",
    ):
        assert address in found


def test_a_file_is_held_once_however_its_path_is_written(folder: Path) -> None:
    """Slashes and dots to spare, as many as anybody sends, are the same file and the same copy."""
    served = Files(folder, {})
    asking = TestClient(Starlette(routes=[Mount("/static", served)]))
    for path in ("a.js", "/a.js", "x/../a.js", "%2e/a.js", "%2e//%2e/a.js"):
        asking.get(f"/static/{path}")
    assert asking.get("/static/%2e/a.js").status_code == 200
    assert len(served._kept) == 1
