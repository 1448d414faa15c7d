"""The environment is made once, and again only when what it is made from has changed."""

from __future__ import annotations

import subprocess
import sys
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
    monkeypatch.setattr(environment, "_install", lambda _python, *arguments: made.append(arguments))
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


@pytest.mark.parametrize(
    ("here", "there", "command"),
    [
        ({"pip", "ensurepip"}, "import pip", ["env/python", "-m", "pip"]),
        ({"pip", "ensurepip"}, "import ensurepip; ensurepip.bootstrap()", ["env/python", "-m", "pip"]),
        ({"pip"}, "", [sys.executable, "-m", "pip", "--python", "env/python"]),
    ],
    ids=["its own pip", "pip brought in", "pip of the system"],
)
def test_some_pip_is_found(
    monkeypatch: pytest.MonkeyPatch, here: set[str], there: str, command: list[str]
) -> None:
    """An environment made without pip gets one, or is served by the one of the Python that made it."""
    monkeypatch.setattr(environment, "_has", lambda module: module in here)
    monkeypatch.setattr(environment, "_answers", lambda _python, code: code == there)
    assert [str(word) for word in environment._pip_for(Path("env/python"))] == command


def test_with_no_pip_at_all_the_remedy_is_said(
    monkeypatch: pytest.MonkeyPatch, clone: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A Python stripped of both gives one sentence and status 2, no traceback."""
    monkeypatch.setattr(environment, "_has", lambda _module: False)
    monkeypatch.setattr(environment, "_answers", lambda _python, code: "version_info" in code)
    monkeypatch.setattr(environment.prepare, "__kwdefaults__", {"root": clone})
    assert environment.main(["run"]) == 2
    assert "apt-get install python3" in capsys.readouterr().err


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
    assert (
        "apt-get install --no-install-recommends chromium poppler-utils postgresql" in capsys.readouterr().err
    )


def test_on_debian_the_missing_programs_are_installed(monkeypatch: pytest.MonkeyPatch) -> None:
    """As root apt-get is asked for its lists and then for the packages, and no question is put."""
    asked: list[list[str]] = []
    monkeypatch.setattr(browser.shutil, "which", lambda name: name if name == "apt-get" else None)
    monkeypatch.setattr(browser.os, "geteuid", lambda: 0)
    monkeypatch.setattr(browser.subprocess, "run", lambda command, **_how: asked.append(command))
    browser.main()
    calm = ["env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-q", "-y"]
    assert asked == [
        [*calm, "update"],
        [*calm, "install", "--no-install-recommends", *browser.PACKAGES.values()],
    ]


def test_the_page_checkers_are_brought_in_once(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Asked for the first time and again when package.json changes; without npm nothing is promised."""
    asked: list[list[str]] = []
    (tmp_path / "node_modules").mkdir()
    package = tmp_path / "package.json"
    package.write_text("{}")

    def run(command: list[str], **_how: object) -> subprocess.CompletedProcess[str]:
        asked.append(command)
        return subprocess.CompletedProcess(command, 0)

    monkeypatch.setattr(browser.shutil, "which", lambda _name: None)
    assert not browser.install_page_checkers(tmp_path)
    monkeypatch.setattr(browser.shutil, "which", lambda name: name)
    monkeypatch.setattr(browser.subprocess, "run", run)
    assert browser.install_page_checkers(tmp_path)
    assert browser.install_page_checkers(tmp_path)
    assert len(asked) == 1
    package.write_text('{"private": true}')
    assert browser.install_page_checkers(tmp_path)
    assert len(asked) == 2
