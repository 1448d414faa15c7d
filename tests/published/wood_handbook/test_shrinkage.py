"""Wood Handbook, FPL-GTR-190 (2010): shrinkage (Tables 4-3, 4-4) and dimensional change (Table 13-5).

Our tables of species hold what was printed, row by row, and the two kinds of table agree with each other
through the relation in the footnotes of Table 13-5. Rows that were only recalled are held to be kept as such:
an estimate, unless a coefficient confirms them.
"""

from __future__ import annotations

import pytest

from scantling.wood.coefficients import coefficient_from_shrinkage
from scantling.wood.movement import width_change_full_shrinkage_mm, width_change_mm
from scantling.wood.provenance import HowKnown
from scantling.wood.species import Species, all_species
from tests.published.tables import printed_rows
from tests.published.value import Published

BOOK = "Wood Handbook, FPL-GTR-190 (2010)"
SHRINKAGE = printed_rows("wood_handbook", "tables_4_3_and_4_4.csv")
CHANGE = printed_rows("wood_handbook", "table_13_5.csv")
READ = [row for row in SHRINKAGE if row["known"] == "read"]
RECALLED = [row for row in SHRINKAGE if row["known"] == "recalled"]
AGREEING = [row for row in SHRINKAGE if row["crosscheck"].startswith("R and T agree with Table 13-5")]
"""With a coefficient that was read or, for some recalled rows, recalled as well: two memories that agree."""


def _row(row: dict[str, str]) -> str:
    return row["row"]


def _wood(field: str, row: str, table: str) -> Species:
    found = [
        wood
        for wood in all_species()
        if (source := wood.source(field)) is not None and (source.row, source.table) == (row, table)
    ]
    assert len(found) == 1, row
    return found[0]


@pytest.mark.parametrize("row", READ, ids=_row)
def test_shrinkage_is_kept_as_printed(row: dict[str, str]) -> None:
    """Radial, tangential and volumetric shrinkage of every row that was read stand under its wood."""
    for field in ("radial_pct", "tangential_pct", "volumetric_pct"):
        if row[field]:
            wood = _wood(field, row["row"], row["table"])
            assert getattr(wood, field) == float(row[field])
            assert not wood.is_estimate(field)


@pytest.mark.parametrize("row", RECALLED, ids=_row)
def test_recalled_shrinkage_is_kept_as_recalled(row: dict[str, str]) -> None:
    """Its figures stand under its wood, as estimates unless Table 13-5 bears them out."""
    confirmed = row["crosscheck"].startswith("R and T agree")
    for field in ("radial_pct", "tangential_pct", "volumetric_pct"):
        if row[field]:
            wood = _wood(field, row["row"], row["table"])
            source = wood.source(field)
            assert source is not None
            assert getattr(wood, field) == float(row[field])
            assert source.how is HowKnown.MEMORY
            assert wood.is_estimate(field) is not (confirmed and field != "volumetric_pct")


def test_both_kinds_of_rows_were_found() -> None:
    """The checks above have rows to check."""
    assert (len(READ), len(RECALLED)) == (93, 89)


@pytest.mark.parametrize("row", CHANGE, ids=_row)
def test_coefficients_are_kept_as_printed(row: dict[str, str]) -> None:
    """Both coefficients of every row stand under its wood, marked read only where they were read."""
    for field, known in (("cr_per_pct", "cr_known"), ("ct_per_pct", "ct_known")):
        wood = _wood(field, row["row"], "13-5")
        assert getattr(wood, field) == float(row[field])
        source = wood.source(field)
        assert source is not None
        assert source.how.startswith(row[known])


@pytest.mark.parametrize("row", AGREEING, ids=_row)
def test_the_two_tables_agree_through_the_footnote(row: dict[str, str]) -> None:
    """The printed shrinkage gives the printed coefficient, so neither was misread."""
    wood = _wood("radial_pct", row["row"], "4-3")
    for shrinkage, printed in ((wood.radial_pct, wood.cr_per_pct), (wood.tangential_pct, wood.ct_per_pct)):
        assert shrinkage is not None
        assert printed is not None
        computed = coefficient_from_shrinkage(shrinkage, shrink_start_pct=wood.shrink_start_pct)
        why = "the coefficient is printed to 0.00001"
        Published(value=printed, absolute=1.0e-5, source=BOOK, where="Table 13-5", why=why).check(computed)


def test_enough_rows_agree_to_mean_something() -> None:
    """Seventy and more rows pass the check above, half of them with a coefficient that was read."""
    assert len(AGREEING) >= 70
    assert sum("(read" in row["crosscheck"] for row in AGREEING) >= 40


def test_the_worked_example_of_a_flat_sawn_board() -> None:
    """A 232 mm white fir board from 8 to 11 % swells 1.7 mm to 233.7 mm, as printed beside eq. 13-2.

    Printed: width, 11 %, result. Recalled: 8 % and the coefficient 0.00245, which fit the result.
    """
    change = width_change_mm(232.0, coefficient=0.00245, mc_from_pct=8.0, mc_to_pct=11.0)
    where, why = "ch. 13, example to eq. 13-2", "printed to 0.1 mm"
    Published(value=1.7, absolute=0.05, source=BOOK, where=where, why=why).check(change)
    Published(value=233.7, absolute=0.05, source=BOOK, where=where, why=why).check(232.0 + change)
    Published(value=0.067, absolute=5e-4, source=BOOK, where=where, why="printed to 0.001 in").check(
        change / 25.4
    )


def test_the_same_board_by_full_shrinkage() -> None:
    """Eq. 13-3 gives 1.712 mm for it (worked by hand: 696 / 406.571)."""
    change = width_change_full_shrinkage_mm(232.0, shrinkage_total_pct=7.0, mc_from_pct=8.0, mc_to_pct=11.0)
    assert change == pytest.approx(696.0 / 406.5714286, rel=1e-9)


@pytest.mark.parametrize("moisture", [25.0, 15.0, 8.0, 1.0])
def test_shrinkage_from_green_is_in_proportion_to_what_has_dried(moisture: float) -> None:
    """Chapter 4 (recalled): at M percent it has shrunk by S (30 - M) / 30; eq. 13-3 says the same."""
    change = width_change_full_shrinkage_mm(
        100.0, shrinkage_total_pct=7.1, mc_from_pct=30.0, mc_to_pct=moisture
    )
    assert change == pytest.approx(-7.1 * (30.0 - moisture) / 30.0)
