"""What is installed is whole: code, tables, fonts, layouts and page."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from pathlib import Path

from tests.repo.sources import PACKAGE, ROOT, tracked


def test_the_wheel_holds_every_file_of_the_package(tmp_path: Path) -> None:
    """Nothing of ``src/scantling`` is lost on the way into the wheel; forms and license go with it."""
    command = [sys.executable, "-m", "hatchling", "build", "--target", "wheel", "--directory", str(tmp_path)]
    said = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert said.returncode == 0, said.stderr
    (wheel,) = tmp_path.glob("*.whl")
    held = set(zipfile.ZipFile(wheel).namelist())
    ours = {str(path.relative_to(PACKAGE.parent)) for path in tracked() if path.is_relative_to(PACKAGE)}
    assert sorted(ours - held) == []
    assert any(name.endswith("licenses/LICENSE") for name in held)
    forms = {path.name for path in (ROOT / "examples").glob("*.yaml")}
    assert forms <= {name.removeprefix("scantling/examples/") for name in held}
