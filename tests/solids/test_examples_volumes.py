"""Every part of every example has one volume, whichever kernel cuts it."""

from __future__ import annotations

from pathlib import Path

import pytest

from scantling.joinery import join, load_piece
from scantling.joinery.work import Box, HalfSpace, Profile
from scantling.solids.exact import build_exact, exact_volume_mm3
from scantling.solids.mesh import build_mesh
from scantling.solids.shape import PartShape, content_key, shapes_of
from scantling.wood.moisture import MoistureRange

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.yaml"))
_MOISTURE = MoistureRange(build_pct=8.49, dry_pct=4.51, wet_pct=8.49)
FLAT, ROUND = 1e-6, 2e-5
"""Share by which volumes may differ: of flat-sided parts by rounding; of others where facets of a round cut
run into a slanting face or another round, whose own areas the facets keep."""


def _is_flat(shape: PartShape) -> bool:
    return shape.part.round is None and all(
        isinstance(cut.tool, HalfSpace | Box | Profile) for cut in shape.cuts
    )


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_both_kernels_give_every_part_one_volume(path: Path) -> None:
    """Parts of one form are compared once."""
    piece = load_piece(path)
    shapes = shapes_of(piece, join(piece, moisture=_MOISTURE))
    forms = {content_key(shape): (name, shape) for name, shape in shapes.items()}
    assert forms
    for name, shape in forms.values():
        within = FLAT if _is_flat(shape) else ROUND
        exact = exact_volume_mm3(build_exact(shape))
        assert exact > 0.0
        assert build_mesh(shape).volume_mm3 == pytest.approx(exact, rel=within), name
