"""What every joint family answers about its strength: a figure with its source, or that none is published."""

from __future__ import annotations

from dataclasses import fields

import pytest

from scantling.joinery.strength import Figure, JointStrength, Known
from scantling.joinery.strength.dowels import BOND_MPA, held_nmm, one_dowel_n
from scantling.joinery.work import JointWork
from tests.joinery.bench import made_of
from tests.joinery.samples import SAMPLES, Sample
from tests.joinery.test_families import stood

FAMILY = pytest.mark.parametrize("sample", SAMPLES.values(), ids=SAMPLES)
DOWELS = SAMPLES["dowel_pin"]


def figures(strength: JointStrength) -> dict[str, Figure]:
    """The four of them by name."""
    return {field.name: getattr(strength, field.name) for field in fields(strength)}


def joint(sample: Sample, *, species: str | None = None, **options: object) -> JointWork:
    """A sample's joint, in another wood or with other options."""
    parts = {name: dict(block) for name, block in sample.parts.items()}
    for block in parts.values():
        block["species"] = species or block["species"]
    asked = {"kind": sample.family, "between": [list(sample.between)], **sample.options, **options}
    return made_of(parts, {"j": asked}).works[0]


@FAMILY
def test_every_figure_says_where_it_is_from(sample: Sample) -> None:
    """A source or a reason for each; the range holds what is likely; what may be counted on is its share."""
    for name, figure in figures(stood(sample, {}).works[0].strength).items():
        assert figure.source, name
        if figure.known is Known.NONE:
            assert (figure.likely, figure.low, figure.high, figure.may) == (None, None, None, None), name
            continue
        assert figure.low is not None
        assert figure.likely is not None
        assert figure.high is not None
        assert 0.0 < figure.low <= figure.likely <= figure.high, name
        if name == "stiffness_nmm_rad":
            assert figure.may is None
        else:
            assert figure.may == pytest.approx(figure.likely / figure.factor)
            assert figure.may < figure.likely


@FAMILY
def test_memory_is_never_called_published(sample: Sample) -> None:
    """A figure whose constants are recalled says so in its own words, and none else does in full."""
    for figure in figures(stood(sample, {}).works[0].strength).values():
        if figure.known is Known.MEMORY:
            assert "from memory" in figure.source


def test_the_families_that_hold_a_frame_have_a_stiffness() -> None:
    """Dowels by tests, tenons from memory; none was found published for a housing or a halving."""
    told = {
        name: figure.known
        for name, sample in SAMPLES.items()
        if (figure := stood(sample, {}).works[0].strength.stiffness_nmm_rad).likely is not None
    }
    assert told == {
        "bridle": Known.MEMORY,
        "dowel_pin": Known.TESTED,
        "loose_tenon": Known.MEMORY,
        "mortise_tenon": Known.MEMORY,
    }


def test_dowels_by_hand() -> None:
    """Three of 8 mm, 24 deep as they stand: pi 8 24 4.9 = 2 956 N each, 8.87 kN; the outer two 60 apart."""
    strength = joint(DOWELS).strength
    assert strength.pull_n.likely == pytest.approx(3 * 2955.6, rel=1e-4)
    assert strength.pull_n.low == pytest.approx(3 * 2955.6 * 3.0 / 4.9, rel=1e-4)
    assert strength.pull_n.may == pytest.approx(3 * 2955.6 / 4.0, rel=1e-4)
    assert strength.moment_nmm.likely == pytest.approx(2955.6 * 60.0, rel=1e-4)


@pytest.mark.parametrize(("bond", "deepest"), [(BOND_MPA[1], 42.0), (BOND_MPA[2], 24.0)])
def test_a_dowel_holds_no_more_than_its_wood(bond: float, deepest: float) -> None:
    """8 mm at 103 MPa: 5 177 N, reached 42.0 mm deep at 4.9 MPa and 24.0 mm deep at 8.6."""
    wood = 103.0 * 3.14159265 * 8.0**2 / 4.0
    assert one_dowel_n(8.0, deepest + 1.0, bond_mpa=bond) == pytest.approx(wood, rel=1e-6)
    assert one_dowel_n(8.0, deepest - 1.0, bond_mpa=bond) == pytest.approx(
        3.14159265 * 8.0 * (deepest - 1.0) * bond, rel=1e-6
    )


def test_the_range_of_a_row_of_dowels_ends_where_their_wood_breaks() -> None:
    """Drawn out and turned alike: three of 8 mm in deep holes, at 8.6 MPa no more than 5 177 N each."""
    strength = joint(DOWELS, depth_first=40, depth_second=40).strength
    wood = 103.0 * 3.14159265 * 8.0**2 / 4.0
    assert strength.pull_n.high == pytest.approx(3.0 * wood, rel=1e-6)
    assert strength.moment_nmm.high == pytest.approx(60.0 * wood, rel=1e-6)


def test_one_dowel_bears_no_turning() -> None:
    """It turns in its hole; unglued dowels bear none either."""
    assert joint(DOWELS, count=1).strength.moment_nmm.likely is None
    assert joint(DOWELS, glued=False).strength.moment_nmm.likely is None
    assert joint(DOWELS, glued=False).strength.stiffness_nmm_rad.likely is None
    assert held_nmm([0.0], 3000.0) == 0.0


def test_softwood_bears_less_than_oak() -> None:
    """Every strength of a tenon, a screw and a housing falls with the wood's."""
    for name in ("mortise_tenon", "plain_screw", "housing"):
        oak, pine = (
            joint(SAMPLES[name], species=each).strength for each in ("white oak", "eastern white pine")
        )
        for field in ("pull_n", "shear_n", "moment_nmm"):
            strong, weak = getattr(oak, field).may, getattr(pine, field).may
            assert (strong is None) == (weak is None)
            assert strong is None or strong > weak


def test_a_tenon_is_pulled_out_by_its_glue_across_the_grain() -> None:
    """Two cheeks of 62 x 30 at 0.40 of white oak's 13.79 MPa: 20.5 kN, a quarter of it counted on."""
    pull = stood(SAMPLES["mortise_tenon"], {}).works[0].strength.pull_n
    assert pull.likely == pytest.approx(2 * 62.0 * 30.0 * 0.40 * 13.79, rel=1e-3)
    assert pull.may == pytest.approx(pull.likely / 4.0)


def test_screws_in_side_grain_are_those_of_the_joint_itself() -> None:
    """The joint's own pull, which checks of backs use, and its strength are one figure."""
    for name in ("plain_screw", "rabbet"):
        work = stood(SAMPLES[name], {}).works[0]
        assert work.pull_n is not None
        assert work.strength.pull_n.may == pytest.approx(work.pull_n)
