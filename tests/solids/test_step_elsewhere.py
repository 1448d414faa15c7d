"""The STEP file read by what did not write it: every part by name, flat bodies by their corners alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from scantling.joinery import join, load_piece
from scantling.solids.mesh import meshes_of
from scantling.solids.shape import shapes_of
from scantling.solids.step import step_bytes
from scantling.wood.moisture import MoistureRange
from tests.solids.part21 import read_exchange

__all__: list[str] = []

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.mark.parametrize(("name", "flat"), [("tray", 5), ("blanket_chest", 2)])
def test_names_and_volumes_follow_from_the_text_itself(name: str, flat: int) -> None:
    """Within a millionth of the other kernel; only bodies without a curve can be summed so."""
    piece = load_piece(EXAMPLES / f"{name}.yaml")
    works = join(piece, moisture=MoistureRange(build_pct=8.49, dry_pct=4.51, wet_pct=8.49))
    shapes = shapes_of(piece, works)
    meshes = meshes_of(shapes)
    exchange = read_exchange(step_bytes(shapes, title=piece.title, colours={}).decode())
    bodies = exchange.bodies()
    assert set(bodies) == set(piece.parts)
    volumes = {part: exchange.volume_mm3(body) for part, body in bodies.items()}
    summed = {part: volume for part, volume in volumes.items() if volume is not None}
    assert len(summed) >= flat
    wanted = {part: meshes[part].volume_mm3 for part in summed}
    assert summed == pytest.approx(wanted, rel=1e-6)
