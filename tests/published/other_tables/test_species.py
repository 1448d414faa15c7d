"""Printed tables of woods beside the Wood Handbook.

R. B. Hoadley, in The Structural Conservation of Panel Paintings, Getty Conservation Institute, 1998, Table 1
(genus averages); a trade list of tangential coefficients for wood flooring; Wood Handbook, FPL-GTR-282
(2021), Table 5-1, as cited elsewhere (elastic ratios of Douglas-fir); A. E. Zanne and others, Global
Wood Density Database, Dryad, 2009 (ovendry mass over green volume).
"""

from __future__ import annotations

from statistics import median

import pytest

from scantling.wood.species import Species, all_species, find_species
from tests.published.tables import printed_rows
from tests.published.value import Published

GENUS = printed_rows("other_tables", "genus_averages.csv")
FLOORING = printed_rows("other_tables", "flooring_list.csv")
DENSITIES = printed_rows("other_tables", "wood_density.csv")
LONGLEAF = "Pine, heart (longleaf)"


def _woods(field: str, row: str) -> list[Species]:
    return [
        wood for wood in all_species() if (source := wood.source(field)) is not None and source.row == row
    ]


@pytest.mark.parametrize("row", GENUS, ids=lambda row: row["row"])
def test_genus_averages_are_kept_as_printed(row: dict[str, str]) -> None:
    """Seventeen genera of European woods, radial and tangential."""
    [wood] = _woods("tangential_pct", row["row"])
    assert (wood.radial_pct, wood.tangential_pct) == (float(row["radial_pct"]), float(row["tangential_pct"]))


@pytest.mark.parametrize("row", FLOORING, ids=lambda row: row["row"])
def test_the_flooring_list_agrees(row: dict[str, str]) -> None:
    """Woods that only it knows stand under its figure; heart pine, listed again, has the Handbook's."""
    if row["row"] == LONGLEAF:
        printed = float(row["ct_per_pct"])
        source, why = "flooring list", "printed to 0.00001"
        found = find_species("heart pine").ct_per_pct
        assert found is not None
        Published(value=printed, absolute=1e-5, source=source, where=LONGLEAF, why=why).check(found)
        return
    [wood] = _woods("ct_per_pct", row["row"])
    assert wood.ct_per_pct == float(row["ct_per_pct"])


@pytest.mark.parametrize(
    ("field", "printed"),
    [
        ("et_per_el", 0.050),
        ("er_per_el", 0.068),
        ("glr_per_el", 0.064),
        ("glt_per_el", 0.078),
        ("grt_per_el", 0.007),
    ],
)
def test_elastic_ratios_of_douglas_fir(field: str, printed: float) -> None:
    """The one row of Table 5-1 that was seen, in a citation."""
    wood = find_species("Douglas-fir")
    assert getattr(wood, field) == printed
    assert not wood.is_estimate(field)


@pytest.mark.parametrize("row", DENSITIES, ids=lambda row: row["species"])
def test_gravity_of_woods_without_a_handbook_row_is_the_median_of_those_listed(row: dict[str, str]) -> None:
    """Twenty-two woods; a median of many is kept to 0.005."""
    wood = find_species(row["species"])
    source = wood.source("specific_gravity_green")
    assert wood.name == row["species"]
    assert source is not None
    assert source.row == row["listed_as"]
    assert "Global Wood Density Database" in source.source
    Published(
        value=median(float(figure) for figure in row["figures"].split()),
        absolute=0.005,
        source="Global Wood Density Database",
        where=row["listed_as"],
        why="kept to 0.005",
    ).check(wood.specific_gravity_green or 0.0)
