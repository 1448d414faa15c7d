"""Wood Handbook, FPL-GTR-190 (2010), chapters 4 and 5: density and strength."""

from __future__ import annotations

import pytest

from scantling.wood.density import specific_gravity
from scantling.wood.provenance import Confidence, HowKnown
from scantling.wood.species import all_species, find_species
from scantling.wood.strength import strength_at_moisture
from tests.published.tables import printed_rows
from tests.published.value import Published

BOOK = "Wood Handbook, FPL-GTR-190 (2010)"
ROWS = printed_rows("wood_handbook", "table_5_3_and_5_5.csv")
PRINTED = [row for row in ROWS if row["known"] == "read"]
CONFIRMED = [row for row in ROWS if row["known"] == "confirmed"]
RECALLED = [row for row in ROWS if row["known"] == "recalled"]
ELASTIC = printed_rows("wood_handbook", "tables_5_1_and_5_2.csv")
TO_METRIC = {"": 1.0, "lbf/in2": 6.894757e-3, "1e6 lbf/in2": 6894.757, "lbf": 4.448222}
OWN_ROWS = {
    (source.row, field): (wood, field)
    for wood in all_species()
    for field, source in wood.sources.items()
    if not source.note.startswith("figure of")
}


@pytest.mark.parametrize("row", PRINTED, ids=lambda row: f"{row['row']}-{row['quantity']}")
def test_properties_are_kept_as_printed(row: dict[str, str]) -> None:
    """Every figure that was seen stands under its wood, converted from the printed unit."""
    wood, field = OWN_ROWS[row["row"], row["quantity"]]
    why = "converted values are kept to five digits, hardness to the newton"
    Published(
        value=float(row["printed"]) * TO_METRIC[row["unit"]],
        rel=5e-4,
        source=BOOK,
        where=f"Tables 5-3 and 5-5, {row['row']}",
        why=why,
    ).check(getattr(wood, field))


@pytest.mark.parametrize("row", CONFIRMED, ids=lambda row: f"{row['row']}-{row['quantity']}")
def test_confirmed_properties_are_no_estimates(row: dict[str, str]) -> None:
    """A figure that was recalled, and that a figure read elsewhere confirms, says so and is no estimate."""
    wood, field = OWN_ROWS[row["row"], row["quantity"]]
    source = wood.source(field)
    assert source is not None
    assert getattr(wood, field) == pytest.approx(float(row["printed"]) * TO_METRIC[row["unit"]], rel=5e-4)
    assert (source.how, source.confidence) == (HowKnown.MEMORY, Confidence.MEDIUM_HIGH)
    assert "agrees" in source.note or "Zanne" in source.note
    assert not wood.is_estimate(field)


@pytest.mark.parametrize("row", RECALLED, ids=lambda row: f"{row['row']}-{row['quantity']}")
def test_recalled_properties_are_kept_as_estimates(row: dict[str, str]) -> None:
    """A figure that was only recalled stands under its wood, converted, and is shown as an estimate."""
    wood, field = OWN_ROWS[row["row"], row["quantity"]]
    source = wood.source(field)
    assert source is not None
    assert getattr(wood, field) == pytest.approx(float(row["printed"]) * TO_METRIC[row["unit"]], rel=5e-4)
    assert source.how is HowKnown.MEMORY
    assert wood.is_estimate(field)


@pytest.mark.parametrize("row", ELASTIC, ids=lambda row: f"{row['row']}-{row['quantity']}")
def test_elastic_ratios_are_kept(row: dict[str, str]) -> None:
    """Tables 5-1 and 5-2, row by row; but for Douglas-fir's moduli all recalled, and so estimates."""
    wood, field = OWN_ROWS[row["row"], row["quantity"]]
    assert getattr(wood, field) == float(row["printed"])
    assert wood.is_estimate(field) is (row["known"] == "recalled")


def test_rows_of_every_kind_were_found() -> None:
    """The checks above have rows to check."""
    assert (len(PRINTED), len(CONFIRMED), len(RECALLED), len(ELASTIC)) == (708, 373, 78, 338)


PAIRS = [
    wood.name
    for wood in all_species()
    if wood.specific_gravity_green is not None
    and wood.specific_gravity_12 is not None
    and not wood.is_estimate("specific_gravity_12")
    and (source := wood.source("specific_gravity_green")) is not None
    and source.how == "read"
]


@pytest.mark.parametrize("name", PAIRS)
def test_gravity_at_twelve_percent_follows_from_that_when_green(name: str) -> None:
    """The formula of chapter 4 leads from one printed column of Table 5-3 to the other."""
    wood = find_species(name)
    assert wood.specific_gravity_12 is not None
    assert wood.specific_gravity_green is not None
    why = "each column is the average of its own tests, printed to 0.01"
    Published(
        value=wood.specific_gravity_12, rel=0.05, source=BOOK, where=f"Table 5-3, {name}", why=why
    ).check(specific_gravity(wood.specific_gravity_green, mc_pct=12.0))


def test_pairs_of_gravity_were_found() -> None:
    """The check above has rows to check."""
    assert len(PAIRS) >= 10


@pytest.mark.parametrize(
    ("basic", "gravity", "density_kg_m3"),
    [(0.56, 0.6147, 688.5), (0.51, 0.5550, 621.6), (0.40, 0.4272, 478.4)],
)
def test_density_worked_by_hand(basic: float, gravity: float, density_kg_m3: float) -> None:
    """Three densities at 12 %, worked by hand from the formula of chapter 4."""
    computed = specific_gravity(basic, mc_pct=12.0)
    assert computed == pytest.approx(gravity, abs=5e-5)
    assert 1000.0 * computed * 1.12 == pytest.approx(density_kg_m3, abs=0.06)


def test_bending_strength_of_white_ash_worked_by_hand() -> None:
    """103 000 kPa at 12 % and 66 000 kPa green make 119 473 kPa at 8 %, by the formula of chapter 5."""
    by_hand = 103_000.0 * (103.0 / 66.0) ** (4.0 / 12.0)
    computed = strength_at_moisture(103_000.0, green=66_000.0, mc_pct=8.0, intersection_mc_pct=24.0)
    assert computed == pytest.approx(by_hand, rel=1e-12)
    assert computed == pytest.approx(119_473.0, abs=1.0)
