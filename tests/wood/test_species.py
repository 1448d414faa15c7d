"""The woods are found by any name a maker writes, and every number says where it comes from."""

from __future__ import annotations

import pickle

import pytest

from scantling.errors import FileFaults, InputError
from scantling.reading import parse_document
from scantling.wood import tables
from scantling.wood.own_species import load_own_species, own_species_from_document
from scantling.wood.provenance import HowKnown
from scantling.wood.species import NUMBER_FIELDS, all_species, find_species
from tests.repo.sources import ROOT


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("cherry", "black cherry"),
        ("black cherry", "black cherry"),
        ("Cherry, black", "black cherry"),
        ("BLACK_CHERRY", "black cherry"),
        ("Prunus serotina", "black cherry"),
        ("hard maple", "sugar maple"),
        ("white oak", "white oak"),
        ("Oak, white", "white oak"),
        ("red oak", "red oak"),
        ("Quercus rubra", "northern red oak"),
        ("European oak", "European oak"),
        ("Fagus sylvatica", "European beech"),
        ("khaya", "African mahogany"),
        ("Douglas fir", "coast Douglas-fir"),
        ("yellow poplar", "yellow-poplar"),
        ("tulip poplar", "yellow-poplar"),
        ("wenge", "wenge"),
    ],
)
def test_a_wood_is_found_by_any_of_its_names(written: str, name: str) -> None:
    """Common, botanical and trade names, in any order of words and any case."""
    assert find_species(written).name == name


@pytest.mark.parametrize("wood", all_species(), ids=lambda wood: wood.name)
def test_every_wood_is_found_by_its_own_name_and_is_whole(wood: object) -> None:
    """Its name leads to itself; it has a botanical name, a number, and a source for every number."""
    found = find_species(wood.name)  # type: ignore[attr-defined]
    assert found is wood
    assert found.botanical
    held = {field for field in NUMBER_FIELDS if getattr(found, field) is not None} - {"shrink_start_pct"}
    assert held
    assert held <= set(found.sources)
    assert all(source.source for source in found.sources.values())


def test_quantities_of_the_table_are_fields() -> None:
    """No row of the table of values is lost for want of a field."""
    assert {quantity for values in tables.values().values() for quantity in values} <= set(NUMBER_FIELDS)


def test_values_belong_to_named_woods() -> None:
    """Both tables speak of the same woods."""
    assert set(tables.values()) == {row["name"] for row in tables.names()}


@pytest.mark.parametrize(
    ("written", "near"),
    [("chery", "black cherry"), ("oak", "red oak"), ("maple", "sugar maple"), ("wallnut", "black walnut")],
)
def test_an_unknown_wood_names_its_neighbours(written: str, near: str) -> None:
    """A misspelt or too general name is answered with the woods it may have meant."""
    with pytest.raises(InputError, match=near) as caught:
        find_species(written)
    assert (caught.value.code, caught.value.value) == ("unknown_species", written)


@pytest.mark.parametrize("written", ["", "???", "x" * 5000])
def test_rubbish_is_no_wood(written: str) -> None:
    """Nothing, signs and a very long word are refused with a short message."""
    with pytest.raises(InputError) as caught:
        find_species(written)
    assert len(str(caught.value)) < 400


def test_estimates_are_marked() -> None:
    """A number from general literature or from memory alone is an estimate, a printed one is not."""
    assert find_species("European beech").is_estimate("specific_gravity_12")
    assert find_species("wenge").is_estimate("tangential_pct")
    assert not find_species("cherry").is_estimate("ct_per_pct")
    assert find_species("cherry").is_estimate("mu_lr")
    assert not find_species("yellow-poplar").is_estimate("ct_per_pct")  # recalled; its shrinkage confirms it


def test_a_stand_in_says_so() -> None:
    """Commercial red oak has no row of strengths: northern red oak's stand in and are so noted."""
    source = find_species("red oak").source("moe_mpa")
    assert source is not None
    assert "northern red oak" in source.note


def test_a_printed_number_keeps_its_printed_form() -> None:
    """A converted strength can be followed back to the figure in the book."""
    source = find_species("cherry").source("mor_mpa")
    assert source is not None
    assert source.printed == "12300 lbf/in2"
    assert "Table 5-3" in str(source)


def test_woods_travel_between_processes() -> None:
    """A wood survives pickling and can be a key."""
    cherry = find_species("cherry")
    assert pickle.loads(pickle.dumps(cherry)) == cherry  # noqa: S301  # our own bytes
    assert {cherry: 1}[find_species("Cherry, black")] == 1


def test_own_woods_come_first() -> None:
    """A wood of the example file is found by its own names, and its numbers are marked as the user's."""
    own = load_own_species(ROOT / "examples" / "woods" / "orchard.yaml")
    pear = find_species("Pearwood", own=own)
    assert pear.name == "garden pear"
    source = pear.source("tangential_pct")
    assert source is not None
    assert source.how is HowKnown.OWN
    assert find_species("cherry", own=own).name == "black cherry"


def test_faults_of_a_file_of_own_woods_come_at_once() -> None:
    """A shrinkage of 400 %, a field misspelt and a wood that cannot move, each with its line."""
    text = (
        "woods:\n"
        "  - name: x\n    source: measured\n    tangential_pct: 400\n    tangental_pct: 8\n"
        "  - name: y\n    source: measured\n    radial_pct: 4\n"
    )
    with pytest.raises(FileFaults) as caught:
        own_species_from_document(parse_document(text, file="woods.yaml"))
    assert [(fault.line, fault.code) for fault in caught.value.faults] == [
        (4, "out_of_range"),
        (5, "unknown_field"),
        (6, "movement_unknown"),
    ]
