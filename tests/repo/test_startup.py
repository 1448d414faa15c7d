"""The command answers small questions at once: nothing heavy is loaded before it is needed."""

from __future__ import annotations

import subprocess
import sys

HEAVY = (
    "OCP", "alembic", "ezdxf", "fastapi", "highspy", "jinja2", "manifold3d", "numba", "numpy", "ortools",
    "pandas", "scipy", "sqlalchemy", "typst", "uvicorn",
)  # fmt: skip


def test_the_command_line_loads_nothing_heavy() -> None:
    """Importing the command, which is all that ``--help`` waits for, loads none of the heavy libraries."""
    code = "import sys, scantling.cli.main; print(*sorted({name.split('.')[0] for name in sys.modules}))"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert said.returncode == 0, said.stderr
    loaded = set(said.stdout.split())
    assert "scantling" in loaded
    assert sorted(loaded & set(HEAVY)) == []
