"""A PVA maker's technical guide: clamp pressure by wood, clamp spacing, time under stress."""

from __future__ import annotations

import pytest

from scantling.shop.gluing.pressing import pressure_for
from scantling.shop.profile.glues import GlueKind, shipped_glues
from scantling.shop.profile.profile_file import default_shop
from tests.published.value import Published

GUIDE = "a PVA maker's technical guide"
PSI_MPA = 0.006894757
INCH_MM = 25.4


@pytest.mark.parametrize(
    ("species", "least_psi", "most_psi"),
    [
        ("eastern white pine", 100, 150),
        ("yellow-poplar", 100, 150),
        ("black cherry", 150, 200),
        ("red maple", 150, 200),
        ("northern red oak", 200, 300),
        ("yellow birch", 200, 300),
    ],
)
def test_pressure_by_wood(species: str, least_psi: float, most_psi: float) -> None:
    """The woods the guide names: softwood and poplar, medium such as cherry and soft maple, oak and birch."""
    found = pressure_for(species)
    for printed, computed in ((least_psi, found.least_mpa), (most_psi, found.most_mpa)):
        Published(
            value=printed, rel=0.01, source=GUIDE, where="clamp pressure", why="kept to 0.01 MPa"
        ).check(computed / PSI_MPA)


def test_spacing_and_ends() -> None:
    """Clamps 8 to 12 in apart, the first 1 1/2 to 2 in from the end: our limits are the wide ends of both."""
    clamping = default_shop().clamping
    why = "rounded to whole millimeters that a maker sets"
    Published(value=12, rel=0.02, source=GUIDE, where="clamp spacing", why=why).check(
        clamping.spacing_most_mm / INCH_MM
    )
    Published(value=2, rel=0.02, source=GUIDE, where="clamp spacing", why=why).check(
        clamping.end_distance_mm / INCH_MM
    )


def test_ordinary_pva_stays_in_clamps_and_rests() -> None:
    """30 to 60 min in clamps, 24 h before stress: the glues of that kind keep to it."""
    ordinary = [glue for glue in shipped_glues() if glue.kind is GlueKind.PVA]
    assert len(ordinary) >= 3
    assert all(30 <= glue.clamp_min <= 60 for glue in ordinary)
    assert all(glue.cure_min == 24 * 60 for glue in ordinary)
