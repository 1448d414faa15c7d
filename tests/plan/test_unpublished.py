"""A wood that lacks a needed figure is told once, in its place, with all else that is wrong."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scantling.cli.main import main
from scantling.errors import Fault
from scantling.joinery import look_at
from scantling.plan.refusals import every_fault
from tests.plan.jobs import EXAMPLES


def _of_wood(tmp_path: Path, wood: str, example: str = "tray", **changed: str) -> Path:
    text = re.sub(
        r"species: .*", f"species: {wood}", (EXAMPLES / f"{example}.yaml").read_text(encoding="utf-8")
    )
    for old, new in changed.items():
        assert old in text
        text = text.replace(old, new)
    path = tmp_path / "piece.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def _faults(path: Path) -> tuple[Fault, ...]:
    return every_fault(look_at(path), shop=None, room=None)


def test_a_wood_without_a_gravity_is_one_fault_where_its_first_part_stands(tmp_path: Path) -> None:
    """Five parts of American holly, whose weight no table read tells; nothing else is wrong with the tray."""
    path = _of_wood(tmp_path, "American holly")
    [fault] = _faults(path)
    line = path.read_text(encoding="utf-8").splitlines()[fault.line - 1]
    assert (fault.code, fault.field, fault.value) == (
        "density_unknown",
        "parts.front.species",
        "American holly",
    )
    assert line.strip() == "front:"
    assert fault.file.endswith("piece.yaml")
    assert fault.rule == "must have a published specific gravity, which 5 parts need"
    assert "specific_gravity_12" in fault.remedy
    assert "--woods" in fault.remedy


def test_every_figure_wanted_is_told_once_and_not_for_each_joint(tmp_path: Path) -> None:
    """Santos mahogany lacks its gravity and its radial shrinkage, which the four corners ask for."""
    gravity, radial = _faults(_of_wood(tmp_path, "Santos mahogany"))
    assert (gravity.code, radial.code) == ("density_unknown", "movement_unknown")
    assert radial.rule == "must have a published radial coefficient or shrinkage, which 4 joints need"
    assert radial.line == gravity.line > 0
    assert "radial_pct" in radial.remedy


def test_it_is_told_with_what_else_is_wrong(tmp_path: Path) -> None:
    """A slip elsewhere in the file does not wait for the wood to be mended."""
    path = _of_wood(tmp_path, "American holly", **{"kind: panel": "kind: pannel"})
    assert {fault.code for fault in _faults(path)} >= {"density_unknown", "unknown_choice"}


def test_the_remedy_names_kin_that_lack_nothing(tmp_path: Path) -> None:
    """Ashes with all their figures stand in for the one ash that lacks its gravity."""
    [gravity] = _faults(_of_wood(tmp_path, "pumpkin ash"))
    assert "(of its genus: white ash, black ash, green ash)" in gravity.remedy


def test_a_wood_with_its_figures_is_not_told(tmp_path: Path) -> None:
    """Oregon white oak has a gravity and its movement, and no stiffness: that the plan tells, and goes on."""
    assert _faults(_of_wood(tmp_path, "Oregon white oak")) == ()


def test_the_command_line_tells_the_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """``check`` says file, line and column, not the name of the program alone."""
    path = _of_wood(tmp_path, "American holly")
    assert main(["check", str(path)]) == 2
    assert f"{path}:" in capsys.readouterr().err


def test_a_file_of_own_woods_mends_it(tmp_path: Path) -> None:
    """What the remedy says is enough: the same wood with a gravity of one's own."""
    path = _of_wood(tmp_path, "American holly")
    own = tmp_path / "own.yaml"
    own.write_text(
        "woods:\n  - name: American holly\n    source: a block, weighed\n    radial_pct: 4.8\n"
        "    tangential_pct: 9.9\n    specific_gravity_12: 0.56\n",
        encoding="utf-8",
    )
    assert main(["check", str(path), "--woods", str(own)]) in {0, 1}
