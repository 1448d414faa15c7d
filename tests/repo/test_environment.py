"""The environment is made once, and again only when what it is made from has changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

import browser
import environment

Installs = list[tuple[str, ...]]


@pytest.fixture
def installs(monkeypatch: pytest.MonkeyPatch) -> Installs:
    """Record pip's arguments instead of installing anything."""
    made: Installs = []
    monkeypatch.setattr(environment, "_python_of", lambda folder: folder / "bin" / "python")
    monkeypatch.setattr(environment, "_pip", lambda _python, *arguments: made.append(arguments))
    return made


@pytest.fixture
def clone(tmp_path: Path) -> Path:
    """Make a folder with the files an installation depends on."""
    root = tmp_path / "a clone"
    (root / ".venv").mkdir(parents=True)
    for name in (*environment.LOCKS.values(), "pyproject.toml"):
        (root / name).write_text(name, encoding="utf-8")
    return root


def test_a_fresh_clone_gets_the_lock_and_then_the_project(installs: Installs, clone: Path) -> None:
    """Packages come by hash only, the project without a build environment of its own."""
    assert environment.prepare("run", root=clone)
    assert installs == [
        ("--require-hashes", "-r", str(clone / "requirements.lock")),
        ("--no-deps", "--no-build-isolation", "--editable", str(clone)),
    ]


def _nothing(_clone: Path) -> None:
    """Change nothing."""


def _newer_lock(clone: Path) -> None:
    (clone / "requirements.lock").write_text("newer", encoding="utf-8")


def _other_project(clone: Path) -> None:
    (clone / "pyproject.toml").write_text("other", encoding="utf-8")


@pytest.mark.parametrize(
    ("change", "installed"),
    [(_nothing, 0), (_newer_lock, 1), (_other_project, 1)],
    ids=["none", "lock", "project"],
)
def test_a_second_run_installs_only_what_changed(
    installs: Installs, clone: Path, change: Callable[[Path], None], installed: int
) -> None:
    """Nothing new, nothing done; a new lock or project is installed alone."""
    environment.prepare("run", root=clone)
    installs.clear()
    change(clone)
    assert environment.prepare("run", root=clone) is (installed > 0)
    assert len(installs) == installed


def test_the_developers_environment_serves_the_maker_too(installs: Installs, clone: Path) -> None:
    """After the tests' packages are in, the demo has nothing left to install."""
    environment.prepare("dev", root=clone)
    installs.clear()
    assert not environment.prepare("run", root=clone)
    assert installs == []


def test_what_is_missing_is_named_by_its_package(monkeypatch: pytest.MonkeyPatch) -> None:
    """A machine without pdftoppm is told of the package that brings it."""
    monkeypatch.setattr(browser.shutil, "which", lambda name: None if name == "pdftoppm" else name)
    assert browser.missing_packages() == ["poppler-utils"]


@pytest.mark.parametrize(("wish", "status"), [("", 0), ("required", 1)])
def test_without_a_browser_the_tests_go_on_unless_it_is_required(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], wish: str, status: int
) -> None:
    """Where nothing can be installed, the command that would do it is said."""
    monkeypatch.setattr(browser.shutil, "which", lambda _name: None)
    monkeypatch.setenv("SCANTLING_BROWSER", wish)
    assert browser.main() == status
    assert "apt-get install --no-install-recommends chromium poppler-utils" in capsys.readouterr().err
