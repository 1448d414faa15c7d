"""Finishes are found by trade name, and more coats never let more through."""

from __future__ import annotations

import csv

import pytest

from scantling.errors import InputError
from scantling.wood.moisture_exclusion import BARE, exclusions, find_exclusion
from tests.repo.sources import PACKAGE


@pytest.mark.parametrize(
    ("finish", "coats", "row", "row_coats", "estimate"),
    [
        ("shellac", 2, "shellac", 2, False),
        ("film varnish", 2, "urethane varnish (oil-modified)", 2, False),
        ("hard-wax oil", 2, "tung oil", 2, True),
        ("oil-varnish blend", 1, "tung oil", 1, True),
        ("lacquer", 3, "nitrocellulose lacquer", 3, True),
        ("epoxy", 1, "epoxy, clear (2-part)", 2, False),
        ("shellac", 12, "shellac", 6, True),
    ],
)
def test_a_finish_is_taken_as_a_published_row(
    finish: str, coats: int, row: str, row_coats: int, estimate: bool
) -> None:
    """Its own row or the nearest kind's, which is then an estimate, as is a row recalled."""
    found = find_exclusion(finish, coats=coats)
    assert (found.finish, found.coats, found.is_estimate) == (row, row_coats, estimate)


@pytest.mark.parametrize(("finish", "coats"), [("none", 3), ("shellac", 0)])
def test_no_finish_is_bare_wood(finish: str, coats: int) -> None:
    """Nothing stands in the way but the air."""
    assert find_exclusion(finish, coats=coats) is BARE
    assert BARE.resistance_s_mm == 0.0


@pytest.mark.parametrize("finish", sorted({row.finish for row in exclusions()}))
def test_each_coat_adds_resistance(finish: str) -> None:
    """The more coats, the slower."""
    resistances = [find_exclusion(finish, coats=coats).resistance_s_mm for coats in range(1, 7)]
    assert resistances == sorted(resistances)


def test_an_unknown_finish_names_those_known() -> None:
    """The maker is told the words."""
    with pytest.raises(InputError, match="shellac") as caught:
        find_exclusion("unobtainium", coats=2)
    assert (caught.value.code, caught.value.value) == ("unknown_finish", "unobtainium")


def test_every_finish_of_a_shop_is_known() -> None:
    """All finishes of a shop profile have a resistance to moisture; none counts as bare by mistake."""
    text = (PACKAGE / "shop" / "data" / "finishes.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))
    assert len(rows) >= 8
    for row in rows:
        assert find_exclusion(row["name"], coats=2) is not None
