"""What all tests share: which of them this machine can run, and how Hypothesis searches."""

from __future__ import annotations

import os
import shutil
import signal
from collections.abc import Iterable, Iterator

import pytest
from hypothesis import HealthCheck, settings

__all__: list[str] = []

PROGRAMS = {"browser": "chromium", "poppler": "pdftoppm", "postgresql": "pg_ctlcluster"}
"""Program that the tests of each marker start."""

# "suite" is the same on every run; "hunt" looks further, and elsewhere each time, for what nobody thought of
settings.register_profile(
    "suite", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow], print_blob=True
)
settings.register_profile("hunt", settings.get_profile("suite"), derandomize=False, max_examples=2000)
settings.load_profile(os.environ.get("SCANTLING_HYPOTHESIS", "suite"))

if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    # A shell lets what it starts in the background ignore interrupts, and so would every command tested.
    signal.signal(signal.SIGINT, signal.default_int_handler)


def _absent() -> dict[str, str]:
    return {marker: name for marker, name in PROGRAMS.items() if shutil.which(name) is None}


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out the tests whose program is not on this machine, unless it is required."""
    absent = _absent()
    if not absent or os.environ.get("SCANTLING_BROWSER") == "required":
        return
    out = [item for item in items if any(item.get_closest_marker(marker) for marker in absent)]
    if out:
        config.hook.pytest_deselected(items=out)
        items[:] = [item for item in items if item not in set(out)]


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say which tests were left out, where everyone reads it."""
    for line in _left_out(_absent().items()):
        terminalreporter.write_line(line, yellow=True)


def _left_out(absent: Iterable[tuple[str, str]]) -> list[str]:
    if os.environ.get("SCANTLING_BROWSER") == "required":
        return []
    return [f"Left out: the tests marked {marker}, as {name} is not on the PATH." for marker, name in absent]


@pytest.fixture(scope="session", autouse=True)
def records_apart(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """No test reads or writes the records of whoever runs it."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setenv("SCANTLING_DATA", str(tmp_path_factory.mktemp("data")))
        yield


@pytest.fixture(scope="session")
def chromium() -> str:
    """Path of Chromium, for tests marked ``browser``."""
    found = shutil.which(PROGRAMS["browser"])
    assert found is not None, "chromium is not on the PATH: run tools/browser.py"
    return found
