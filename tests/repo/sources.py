"""The files of this repository, as the tests about them read them."""

from __future__ import annotations

import ast
import subprocess
from dataclasses import dataclass
from functools import cache
from pathlib import Path

__all__ = [
    "PACKAGE",
    "ROOT",
    "Function",
    "code_files",
    "functions",
    "modules",
    "own_texts",
    "tracked",
    "tree",
]

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "scantling"
SIZED = {".css", ".html", ".js", ".py", ".typ"}
"""Kinds of file that are code, and so kept short."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Function:
    """A function of ours and how many lines of code it has, docstring and blank lines apart."""

    where: str
    lines: int


@cache
def tracked() -> tuple[Path, ...]:
    """Every file git knows or would take in; without git, every file of the folders that are ours."""
    listing = ["git", "-C", str(ROOT), "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    found = subprocess.run(listing, check=False, capture_output=True, text=True)
    if found.returncode == 0:
        paths = [ROOT / name for name in found.stdout.split("\0") if name]
    else:
        ours = ("src", "tests", "tools", "docs", "examples", "benchmarks", "changelog.d")
        paths = [
            path for folder in ours for path in (ROOT / folder).rglob("*") if "__pycache__" not in path.parts
        ]
        paths += [path for path in ROOT.iterdir() if path.is_file()]
    return tuple(sorted(path for path in paths if path.is_file()))


def own_texts() -> dict[Path, str]:
    """Text of every file that is ours: vendored libraries, locks' hashes, pictures and fonts left out."""
    texts: dict[Path, str] = {}
    for path in tracked():
        if "vendor" in path.parts:
            continue
        try:
            texts[path] = path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue
    return texts


def modules() -> list[Path]:
    """Every Python module of the package."""
    return [path for path in tracked() if path.suffix == ".py" and path.is_relative_to(PACKAGE)]


def code_files() -> list[Path]:
    """Every file of code that is ours, tests too."""
    return [path for path in tracked() if path.suffix in SIZED and "vendor" not in path.parts]


@cache
def tree(path: Path) -> ast.Module:
    """Parse a module."""
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def functions() -> list[Function]:
    """Every function of the package with its lines of code."""
    found: list[Function] = []
    for path in modules():
        lines = path.read_text(encoding="utf-8").splitlines()
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                body = node.body[1:] if ast.get_docstring(node, clean=False) is not None else node.body
                first = body[0].lineno if body else node.end_lineno or node.lineno
                code = [line for line in lines[first - 1 : node.end_lineno] if line.strip()]
                head = (node.body[0].lineno if node.body else first) - node.lineno
                where = f"{path.relative_to(ROOT)}:{node.lineno} {node.name}"
                found.append(Function(where=where, lines=head + len(code) if body else head))
    return found
