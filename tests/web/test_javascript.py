"""The page's own modules: their tests, their layers, their types, and that they need nobody else."""

from __future__ import annotations

import dataclasses
import hashlib
import json
import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from scantling.papers import sheets
from scantling.papers.words import step_cards
from scantling.web.designs import measuring, yarding
from scantling.web.sent import board_views, views
from scantling.web.sent.views import as_json

ROOT = Path(__file__).resolve().parents[2]
STATIC = ROOT / "src" / "scantling" / "web" / "static"
MODULES = sorted(path for path in (STATIC / "js").rglob("*.js"))
_IMPORT = re.compile(r'^(?:import|export)\s[^;]*?from\s+"([^"]+)"|^import\s+"([^"]+)"', re.MULTILINE)
_MAY_IMPORT = {
    "lib": {"lib"},
    "api": {"lib", "api", "errors"},
    "state": {"lib", "api", "errors"},
    "elements": {"lib", "api", "errors", "elements", "three", "lit"},
}
"""Layers, each with those it may import from; types are only named in comments."""
_WIRING = {"lib", "api", "state", "elements", "errors"}
"""What the module of a document may import."""
_VENDORED = ("three", "lit")
_ALL_WANTED = os.environ.get("SCANTLING_BROWSER") == "required"


def _layer(path: Path) -> str:
    return path.relative_to(STATIC / "js").parts[0].removesuffix(".js")


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(STATIC)))
def test_a_module_imports_only_from_the_layers_below(path: Path) -> None:
    """Pure functions know nothing of the page, elements nothing of the state."""
    for one, other in _IMPORT.findall(path.read_text(encoding="utf-8")):
        name = one or other
        vendored = name.partition("/")[0]
        layer = vendored if vendored in _VENDORED else _layer((path.parent / name).resolve())
        own = _layer(path)
        allowed = _WIRING if path.parent.name == "js" and own != "errors" else _MAY_IMPORT.get(own, set())
        assert layer in allowed, f"{path.name} imports {name}"


def test_no_module_of_the_page_names_an_address_elsewhere() -> None:
    """The only addresses in page, styles and modules are the names of XML vocabularies."""
    found = {
        address
        for path in [*MODULES, *STATIC.glob("*.*"), *STATIC.glob("css/*.css")]
        for address in re.findall(r"\bhttps?://[\w.]+", path.read_text(encoding="utf-8"))
    }
    assert found <= {"http://www.w3.org"}


def test_one_module_alone_keeps_things_in_the_browser() -> None:
    """Storage that is full or switched off is met there; the script before the page can import nothing."""
    named = [path.name for path in MODULES if "localStorage" in path.read_text(encoding="utf-8")]
    assert named == ["this-browser.js", "theme-first.js"]


def test_vendored_files_are_those_that_were_taken_over() -> None:
    """Each file of the vendor folder has the hash listed, none is missing, none is added."""
    vendor = STATIC / "vendor"
    listed = dict(
        reversed(line.split(maxsplit=1)) for line in (vendor / "SHA256SUMS").read_text("utf-8").splitlines()
    )
    held = {
        f"./{path.relative_to(vendor).as_posix()}": hashlib.sha256(path.read_bytes()).hexdigest()
        for path in vendor.rglob("*")
        if path.is_file() and path.name != "SHA256SUMS"
    }
    assert held == listed
    assert "MIT License" in (vendor / "three" / "LICENSE").read_text(encoding="utf-8")
    assert "BSD 3-Clause License" in (vendor / "lit" / "LICENSE").read_text(encoding="utf-8")


def test_the_import_map_points_at_files_that_are_there() -> None:
    """Each name the modules use stands for a vendored file or folder."""
    text = (STATIC / "importmap.json").read_text(encoding="utf-8")
    for target in json.loads(text)["imports"].values():
        assert (STATIC / target.removeprefix("/static/")).exists()


_SENT = [
    *(
        views.ParameterView,
        views.PartView,
        views.ShapeView,
        views.PlanView,
        views.FindingView,
        views.FaultView,
        views.MonthView,
        views.PartYearView,
        views.YearView,
        measuring.MeasureView,
        step_cards.CardPart,
        step_cards.StepCard,
        views.WorkView,
        yarding.AskedView,
        yarding.MissingView,
        yarding.YardView,
        *(getattr(board_views, name) for name in board_views.__all__ if name != "MeasuredView"),
    ),
    *(sheets.Sheet, sheets.Column, sheets.Table, sheets.Facts, sheets.Words, sheets.Caution, sheets.Picture),
]


@pytest.mark.parametrize("kind", _SENT, ids=lambda kind: kind.__name__)
def test_types_name_the_fields_that_are_sent(kind: type) -> None:
    """The page names the same fields in the same order as the server sends of this dataclass."""
    files = ("types.js", "board-types.js")
    text = "".join((STATIC / "js" / file).read_text(encoding="utf-8") for file in files)
    block = text.split(f"@typedef {{object}} {kind.__name__}\n", 1)[1].split("@typedef", 1)[0]
    named = re.findall(r"@property \{.+\} (\w+)", block)
    blank = object.__new__(kind)
    for field in dataclasses.fields(kind):
        object.__setattr__(blank, field.name, "")
    sent = as_json(blank)
    assert isinstance(sent, dict)
    assert named == list(sent)


def test_the_pure_modules_keep_what_their_tests_say() -> None:
    """``node --test`` over tests/web/js; where there is no node the browser tests alone stand for them."""
    node = shutil.which("node")
    if node is None:
        assert not _ALL_WANTED
        print("node is not on the PATH: the tests of the pure modules were not run")
        return
    tests = sorted((ROOT / "tests" / "web" / "js").glob("*.test.js"))
    assert tests
    said = subprocess.run([node, "--test", *tests], cwd=ROOT, capture_output=True, text=True, check=False)
    assert said.returncode == 0, said.stdout + said.stderr


def test_the_types_of_the_page_hold() -> None:
    """The type checker finds nothing, where ``npm install`` has brought it."""
    checker = ROOT / "node_modules" / ".bin" / "tsc"
    if not checker.exists():
        assert not _ALL_WANTED
        print(
            "node_modules is not there: the page's types were not checked (make browser brings the checker)"
        )
        return
    said = subprocess.run(
        [checker, "-p", "jsconfig.json"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert said.returncode == 0, said.stdout + said.stderr
