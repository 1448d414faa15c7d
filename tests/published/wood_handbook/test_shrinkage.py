"""Wood Handbook, FPL-GTR-190 (2010): shrinkage (Tables 4-3, 4-4) and dimensional change (Table 13-5).

Our tables of species hold what was printed, row by row, and the two kinds of table agree with each other
through the relation in the footnotes of Table 13-5.
"""

from __future__ import annotations

import pytest

from scantling.wood.coefficients import coefficient_from_shrinkage
from scantling.wood.movement import width_change_full_shrinkage_mm, width_change_mm
from scantling.wood.species import Species, all_species
from tests.published.tables import printed_rows
from tests.published.value import Published

BOOK = "Wood Handbook, FPL-GTR-190 (2010)"
SHRINKAGE = printed_rows("wood_handbook", "tables_4_3_and_4_4.csv")
CHANGE = printed_rows("wood_handbook", "table_13_5.csv")
AGREEING = [row for row in SHRINKAGE if row["crosscheck"].startswith("R and T agree with Table 13-5 (read")]


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


@pytest.mark.parametrize("row", SHRINKAGE, ids=_row)
def test_shrinkage_is_kept_as_printed(row: dict[str, str]) -> None:
    """Radial, tangential and volumetric shrinkage of every row that was read stand under its wood."""
    for field in ("radial_pct", "tangential_pct", "volumetric_pct"):
        if row[field]:
            wood = _wood(field, row["row"], row["table"])
            assert getattr(wood, field) == float(row[field])
            assert not wood.is_estimate(field)


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
    """Thirty and more rows pass the check above."""
    assert len(AGREEING) >= 30


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
