"""Wood Handbook, FPL-GTR-190 (2010), Table 5-3a: the metric figures of the woods grown in the United States.

Most are shipped from the inch-pound table, and so are checked here by another road.
"""

from __future__ import annotations

import pytest

from scantling.wood.density import density_kg_m3
from scantling.wood.provenance import HowKnown
from scantling.wood.species import all_species, find_species
from tests.published.tables import printed_rows
from tests.published.value import Published

BOOK = "Wood Handbook, FPL-GTR-190 (2010)"
ROWS = printed_rows("wood_handbook", "table_5_3a.csv")
STEP = {"mor_kpa": 1000.0, "specific_gravity_12": 0.002}
"""Step to which a column is rounded; 100 elsewhere, in its own unit. Gravity must be met as printed."""
APART = {
    (
        "butternut",
        "compression_parallel_kpa",
    ): "5110 lbf/in2 is 35 200 kPa, and the metric table prints 36 200",
    (
        "western white pine",
        "specific_gravity_12",
    ): "the metric table prints 0.35, below its own 0.36 when green",
}
"""Where the two printings of the table differ from each other, and the inch-pound one is kept."""
FIGURES = [
    (row["species"], column, float(printed))
    for row in ROWS
    for column, printed in row.items()
    if column != "species" and printed and (row["species"], column) not in APART
]


@pytest.mark.parametrize(("name", "column", "printed"), FIGURES)
def test_a_figure_meets_the_metric_table(name: str, column: str, printed: float) -> None:
    """Half the last printed step, and half a percent for the rounding of the pound figure."""
    wood = find_species(name)
    assert wood.name == name
    in_kpa = column.endswith("_kpa")
    held = getattr(wood, column.removesuffix("_kpa") + ("_mpa" if in_kpa else ""))
    half = STEP.get(column, 100.0) / 2.0
    Published(
        value=printed,
        absolute=half if column == "specific_gravity_12" else half + 0.005 * printed,
        source=BOOK,
        where=f"Table 5-3a, {name}, {column}",
        why="rounded to its last step, and its pound figure to three digits",
    ).check(held * (1000.0 if in_kpa else 1.0))


def test_the_whole_table_is_met() -> None:
    """108 woods, and nothing set apart that the table does not hold."""
    assert (len(ROWS), len(FIGURES)) == (108, 818)
    held = {(row["species"], column) for row in ROWS for column in row if row[column]}
    assert set(APART) <= held


def test_azobe_is_as_dense_as_described() -> None:
    """Chapter 2 tells its density at 12 %, of other specimens than those of the gravity in Table 5-5b."""
    Published(
        value=1120.0, rel=0.02, source=BOOK, where="ch. 2, azobe", why="an average of other specimens"
    ).check(density_kg_m3(find_species("azobe")))


def test_woods_without_a_gravity_are_these() -> None:
    """Thirteen have no published specific gravity that was read; they are refused by name."""
    without = {
        wood.name for wood in all_species() if not (wood.specific_gravity_12 or wood.specific_gravity_green)
    }
    assert len(without) == 13
    assert {"northern catalpa", "Pacific madrone", "American holly"} <= without


@pytest.mark.parametrize("wood", all_species(), ids=lambda wood: wood.name)
def test_what_was_read_of_a_specific_gravity_is_no_estimate(wood: object) -> None:
    """A gravity read in its source or in a reproduction is an estimate only where marked as doubtful."""
    for field in ("specific_gravity_12", "specific_gravity_green"):
        source = wood.source(field)  # type: ignore[attr-defined]
        if source is not None and source.how in {HowKnown.READ, HowKnown.READ_SECONDARY}:
            assert source.is_estimate is (source.confidence == "low")
