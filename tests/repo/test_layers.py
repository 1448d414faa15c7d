"""Imports run downwards only, and the rule that says so catches those that do not."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from pathlib import Path

import grimp
import networkx as nx
import pytest

from tests.repo.sources import ROOT

LAYERS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"][
    "contracts"
][0]["layers"]
PACKAGES = [
    name.strip().strip("()") for layer in LAYERS for name in layer.split("|") if "__main__" not in name
]
LINT = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True))"


def _lint(folder: Path) -> subprocess.CompletedProcess[str]:
    seen = {**os.environ, "PYTHONPATH": str(folder / "src")}
    return subprocess.run(
        [sys.executable, "-c", LINT], cwd=folder, env=seen, capture_output=True, text=True, check=False
    )


def _package(folder: Path, *, importer: str, imported: str) -> Path:
    """Write a package with every layer, empty but for one import, under the rules of ours."""
    (folder / "pyproject.toml").write_text(
        (ROOT / "pyproject.toml").read_text(encoding="utf-8"), encoding="utf-8"
    )
    for name in ("", *PACKAGES):
        place = folder / "src" / "scantling" / name
        place.mkdir(parents=True, exist_ok=True)
        (place / "__init__.py").write_text("", encoding="utf-8")
    line = f"def later():\n    import scantling.{imported}\n"
    (folder / "src" / "scantling" / importer / "noun.py").write_text(line, encoding="utf-8")
    return folder


def test_the_package_keeps_to_its_layers() -> None:
    """No import runs upwards or sideways, inside functions neither."""
    said = _lint(ROOT)
    assert said.returncode == 0, said.stdout + said.stderr


@pytest.mark.parametrize(
    ("importer", "imported"),
    [
        ("errors", "units"),
        ("wood", "piece"),
        ("seasons", "finish"),
        ("money", "plan"),
        ("papers", "store"),
        ("web", "cli"),
    ],
)
def test_an_import_upwards_or_sideways_is_caught(tmp_path: Path, importer: str, imported: str) -> None:
    """The rule can fail: it names the import that breaks it."""
    said = _lint(_package(tmp_path, importer=importer, imported=imported))
    assert said.returncode == 1
    assert f"scantling.{importer}.noun -> scantling.{imported}" in said.stdout


@pytest.mark.parametrize(
    ("importer", "imported"), [("units", "errors"), ("reading", "units"), ("plan", "money"), ("cli", "store")]
)
def test_an_import_downwards_is_allowed(tmp_path: Path, importer: str, imported: str) -> None:
    """The rule allows what the layers allow."""
    said = _lint(_package(tmp_path, importer=importer, imported=imported))
    assert said.returncode == 0, said.stdout + said.stderr


def _circles(package: Path) -> list[set[str]]:
    """Modules that need each other in a ring, for their types alone too."""
    sys.path.insert(0, str(package.parent))
    try:
        graph = grimp.build_graph(package.name, cache_dir=None)
    finally:
        sys.path.remove(str(package.parent))
    net = nx.DiGraph()
    for module in graph.modules:
        net.add_edges_from((module, other) for other in graph.find_modules_directly_imported_by(module))
    return [ring for ring in nx.strongly_connected_components(net) if len(ring) > 1]


def test_no_two_modules_need_each_other() -> None:
    """What two modules share stands in a third."""
    assert _circles(ROOT / "src" / "scantling") == []


def test_a_ring_of_modules_is_found(tmp_path: Path) -> None:
    """Also one that closes inside a function, or for the sake of types."""
    package = tmp_path / "ringed"
    package.mkdir()
    (package / "__init__.py").write_text("", encoding="utf-8")
    (package / "one.py").write_text("def later():\n    from ringed import two\n", encoding="utf-8")
    typed = "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from ringed import one\n"
    (package / "two.py").write_text(typed, encoding="utf-8")
    assert _circles(package) == [{"ringed.one", "ringed.two"}]
