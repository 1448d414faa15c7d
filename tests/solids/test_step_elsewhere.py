"""The STEP file read by what did not write it: every part of every example by name, with what it holds."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from scantling.joinery import join, load_piece
from scantling.solids.mesh import meshes_of
from scantling.solids.shape import shapes_of
from scantling.solids.step import step_bytes
from scantling.wood.moisture import MoistureRange
from tests.solids.part21 import read_exchange

__all__: list[str] = []

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.yaml"))
PIECES = [path for path in EXAMPLES if path.read_text(encoding="utf-8").count("\nparts:")]


@pytest.mark.parametrize("path", PIECES, ids=lambda path: path.stem)
def test_names_and_volumes_follow_from_the_text_itself(path: Path) -> None:
    """Planes, cylinders and cones, within a millionth of the other kernel; 2e-7 was the worst measured."""
    piece = load_piece(path)
    works = join(piece, moisture=MoistureRange(build_pct=8.49, dry_pct=4.51, wet_pct=8.49))
    shapes = shapes_of(piece, works)
    meshes = meshes_of(shapes)
    exchange = read_exchange(step_bytes(shapes, title=piece.title, colors={}).decode())
    bodies = exchange.bodies()
    assert set(bodies) == set(piece.parts)
    volumes = {part: exchange.volume_mm3(body) for part, body in bodies.items()}
    assert volumes == pytest.approx({part: meshes[part].volume_mm3 for part in bodies}, rel=1e-6)


def test_the_reader_itself_is_held_to_closed_forms() -> None:
    """A frustum away from the origin, by hand: pi h (R2 + R r + r2) / 3; its seam is run both ways."""
    text = _frustum(radius=20.0, slope_rad=math.atan(0.5), height=10.0, at=(7.0, -3.0, 11.0))
    least, most = 20.0, 25.0
    wanted = math.pi * 10.0 * (most**2 + most * least + least**2) / 3.0
    assert read_exchange(text).volume_mm3("#1") == pytest.approx(wanted, rel=1e-12)


def _frustum(*, radius: float, slope_rad: float, height: float, at: tuple[float, float, float]) -> str:
    """A cone's frustum as an exchange structure, the wide end up."""
    x, y, z = at
    wide = radius + height * math.tan(slope_rad)
    return f"""DATA;
#1=MANIFOLD_SOLID_BREP('',#2);
#2=CLOSED_SHELL('',(#3,#4,#5));
#3=ADVANCED_FACE('',(#10),#20,.F.);
#4=ADVANCED_FACE('',(#11),#21,.T.);
#5=ADVANCED_FACE('',(#12),#22,.T.);
#10=FACE_BOUND('',#13,.T.);
#11=FACE_BOUND('',#14,.T.);
#12=FACE_BOUND('',#15,.T.);
#13=EDGE_LOOP('',(#30));
#14=EDGE_LOOP('',(#31));
#15=EDGE_LOOP('',(#32,#33,#34,#35));
#20=PLANE('',#40);
#21=PLANE('',#41);
#22=CONICAL_SURFACE('',#40,{radius},{slope_rad});
#30=ORIENTED_EDGE('',*,*,#50,.F.);
#31=ORIENTED_EDGE('',*,*,#51,.T.);
#32=ORIENTED_EDGE('',*,*,#50,.T.);
#33=ORIENTED_EDGE('',*,*,#52,.T.);
#34=ORIENTED_EDGE('',*,*,#51,.F.);
#35=ORIENTED_EDGE('',*,*,#52,.F.);
#40=AXIS2_PLACEMENT_3D('',#60,#62,#63);
#41=AXIS2_PLACEMENT_3D('',#61,#62,#63);
#50=EDGE_CURVE('',#70,#70,#80,.T.);
#51=EDGE_CURVE('',#71,#71,#81,.T.);
#52=EDGE_CURVE('',#70,#71,#82,.T.);
#60=CARTESIAN_POINT('',({x},{y},{z}));
#61=CARTESIAN_POINT('',({x},{y},{z + height}));
#62=DIRECTION('',(0.,0.,1.));
#63=DIRECTION('',(1.,0.,0.));
#70=VERTEX_POINT('',#64);
#71=VERTEX_POINT('',#65);
#64=CARTESIAN_POINT('',({x + radius},{y},{z}));
#65=CARTESIAN_POINT('',({x + wide},{y},{z + height}));
#80=CIRCLE('',#40,{radius});
#81=CIRCLE('',#41,{wide});
#82=LINE('',#64,#83);
#83=VECTOR('',#62,1.);
ENDSEC;"""
