"""What is installed is fixed by hash, complete, the same in both locks, and says nothing of where from."""

from __future__ import annotations

import re
import tomllib

import pytest

from tests.repo.sources import ROOT

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
RUN, DEV = "requirements.lock", "requirements-dev.lock"


def _pins(lock: str) -> dict[str, tuple[str, int]]:
    """Version and number of hashes of each package of a lock."""
    text = (ROOT / lock).read_text(encoding="utf-8")
    entries = re.findall(r"^([a-z0-9-]+)==(\S+)((?: \\\n    --hash=sha256:[0-9a-f]{64})*)", text, flags=re.M)
    return {name: (version, hashes.count("--hash=")) for name, version, hashes in entries}


def _names(requirements: list[str]) -> set[str]:
    heads = [re.match(r"[A-Za-z0-9._-]+", text) for text in requirements if isinstance(text, str)]
    return {re.sub(r"[._]", "-", head[0]).lower() for head in heads if head}


@pytest.mark.parametrize("lock", [RUN, DEV])
def test_every_package_is_fixed_by_hash(lock: str) -> None:
    """No line of a lock is anything but a pinned package or one of its hashes."""
    pins = _pins(lock)
    lines = (ROOT / lock).read_text(encoding="utf-8").splitlines()
    assert min(hashes for _, hashes in pins.values()) >= 1
    assert len(lines) == sum(1 + hashes for _, hashes in pins.values())


@pytest.mark.parametrize("lock", [RUN, DEV])
def test_a_lock_names_no_host(lock: str) -> None:
    """Whoever installs decides from where."""
    assert "://" not in (ROOT / lock).read_text(encoding="utf-8")


def test_the_locks_hold_what_the_project_asks_for() -> None:
    """Each dependency, and what builds the project, stands in the lock: pip fetches nothing unpinned."""
    groups = PROJECT["dependency-groups"]
    asked = _names(PROJECT["project"]["dependencies"]) | _names(groups["build"])
    assert asked <= set(_pins(RUN))
    assert asked | _names(groups["dev"]) <= set(_pins(DEV))


def test_the_developers_lock_holds_the_makers_lock() -> None:
    """Tests run on the very packages a maker gets."""
    makers, developers = _pins(RUN), _pins(DEV)
    assert {name: developers.get(name) for name in makers} == makers
