"""Files and functions stay short enough to be read at one sitting."""

from __future__ import annotations

from statistics import median, quantiles

from tests.repo.sources import ROOT, code_files, functions

LONGEST_FILE = 500
LONGEST_FUNCTION = 60


def _lines_by_file() -> dict[str, int]:
    return {
        str(path.relative_to(ROOT)): len(path.read_text(encoding="utf-8").splitlines())
        for path in code_files()
    }


def test_no_file_is_longer_than_five_hundred_lines() -> None:
    """The ceiling holds for every file of code, tests and page too."""
    assert {name: lines for name, lines in _lines_by_file().items() if lines > LONGEST_FILE} == {}


def test_most_files_are_short() -> None:
    """Half the files have at most 150 lines and nineteen of twenty at most 400."""
    lines = list(_lines_by_file().values())
    assert median(lines) <= 150
    assert quantiles(lines, n=20)[-1] <= 400


def test_no_function_is_longer_than_sixty_lines() -> None:
    """The ceiling of a function, docstring apart."""
    assert [function for function in functions() if function.lines > LONGEST_FUNCTION] == []


def test_most_functions_are_short() -> None:
    """Nineteen of twenty functions have at most 40 lines of code."""
    assert quantiles([function.lines for function in functions()], n=20)[-1] <= 40
