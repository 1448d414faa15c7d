"""Values put into a file and taken out of it leave everything else as it was written."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.reading.nodes import source_of
from scantling.reading.parsing import parse_on
from scantling.reading.putting import appended, put, standing, taken_out

SHOP = """\
# The shop behind the house.
name: Two people # and a dog
machines:
  jointer: {max_width: 250, bed_length: 1800} # from the school
  planer:
    max_width: 330 # measured

    # it bites the ends
    snipe: 10
  lathe: {}
clamps:
  - {kind: bar clamp, reach: 1200, count: 6}
  # the short ones
  - kind: bar clamp
    reach: 600
    count: 4
yard:
  names: [5/4, 8/4] # what they had
"""


@pytest.mark.parametrize(
    ("path", "value", "line"),
    [
        (
            ("machines", "jointer", "cut"),
            "1/32 in",
            "  jointer: {max_width: 250, bed_length: 1800, cut: 1/32 in} # from the school",
        ),
        (
            ("machines", "jointer", "max_width"),
            "8 in",
            "  jointer: {max_width: 8 in, bed_length: 1800} # from the school",
        ),
        (("machines", "planer", "max_width"), "13 in", "    max_width: 13 in # measured"),
        (("machines", "planer", "cut"), "0.5 mm", "    cut: 0.5 mm"),
        (("machines", "lathe", "swing"), "12 in", "  lathe: {swing: 12 in}"),
        (("machines", "router", "bits"), "[6, 8]", "  router: {bits: [6, 8]}"),
        (("clamps", 1, "throat"), "4 in", "    throat: 4 in"),
        (("clamps", 0, "count"), "7", "  - {kind: bar clamp, reach: 1200, count: 7}"),
        (("rates", "hourly"), "55", "  hourly: 55"),
        (("yard", "names"), "[4/4]", "  names: [4/4] # what they had"),
        (("note",), '"Ash: dry"', 'note: "Ash: dry"'),
    ],
)
def test_a_value_is_put_where_it_belongs(path: tuple[str | int, ...], value: str, line: str) -> None:
    """On one line that is new or changed; every other line stays, comments and all."""
    made = put(SHOP, path, value)
    assert line in made.splitlines()
    gone = [each for each in SHOP.splitlines() if each not in made.splitlines()]
    assert len(gone) <= 1
    assert put(made, path, value) == made


@pytest.mark.parametrize(
    ("path", "without"),
    [
        (("machines", "jointer", "max_width"), "  jointer: {bed_length: 1800} # from the school"),
        (("machines", "jointer", "bed_length"), "  jointer: {max_width: 250} # from the school"),
        (("machines", "planer", "snipe"), None),
        (("machines", "lathe"), None),
        (("clamps", 0), None),
        (("clamps", 1), None),
        (("yard", "names"), None),
        (("name",), None),
    ],
)
def test_a_value_is_taken_out_with_its_line(path: tuple[str | int, ...], without: str | None) -> None:
    """The rest reads as it did, and comments on other lines stay."""
    made = taken_out(SHOP, path)
    if without is not None:
        assert without in made.splitlines()
    for comment in ("# The shop behind the house.", "# the short ones", "# it bites the ends"):
        assert comment in made
    assert path not in standing(made) or isinstance(path[-1], int)


def test_a_block_that_means_something_empty_stays_so() -> None:
    """A machine with nothing said of it is still owned; a section with nothing in it goes."""
    text = "machines:\n  planer:\n    max_width: 13 in # new\nname: x\n"
    kept = taken_out(text, ("machines", "planer", "max_width"), keep=(("machines", "planer"),))
    assert parse_on(kept, file="shop").data == {"machines": {"planer": {}}, "name": "x"}
    assert parse_on(taken_out(text, ("machines", "planer", "max_width")), file="shop").data == {"name": "x"}


def test_entries_are_added_to_lists_written_either_way() -> None:
    """Under the last of a list in lines, behind the last of one in brackets, and where there is none yet."""
    made = appended(SHOP, ("clamps",), "{reach: 300, count: 2}")
    assert made.index("- {reach: 300, count: 2}") > made.index("count: 4")
    assert (
        appended("clamps: [{count: 1}]\n", ("clamps",), "{count: 2}") == "clamps: [{count: 1}, {count: 2}]\n"
    )
    assert appended("name: x\n", ("glues",), "{name: y}") == "name: x\nglues:\n  - {name: y}\n"
    assert (
        appended("clamps: []\nname: x\n", ("clamps",), "{count: 2}") == "name: x\nclamps:\n  - {count: 2}\n"
    )
    assert appended("rates: {hourly: 3}\n", ("rates", "sheets"), "{material: ply}") == (
        "rates: {hourly: 3, sheets: [{material: ply}]}\n"
    )


def test_what_is_not_there_or_would_change_more_is_refused() -> None:
    """In words, with the field."""
    for doing in (
        lambda: taken_out(SHOP, ("yard", "system")),
        lambda: put(SHOP, ("yard", "system"), "inch}, name: {y"),
        lambda: put(SHOP, ("name", "first"), "x"),
        lambda: put(SHOP, ("yard", "system"), " "),
    ):
        with pytest.raises(InputError) as refused:
            doing()
        assert refused.value.code in {"no_such_field", "not_a_value", "not_one_line"}


@given(word=st.text(st.characters(exclude_categories=["C", "Zl", "Zp"]), min_size=1, max_size=20))
def test_whatever_is_typed_is_one_value(word: str) -> None:
    """No sign in it ends the value or begins another."""
    assert put("a: {b: 1}\n", ("a", "c"), source_of(word, text=True)).startswith("a: {b: 1, c: ")
    data = parse_on(put("a: {b: 1}\n", ("a", "c"), source_of(word, text=True)), file="text").data
    assert data == {"a": {"b": 1, "c": word.strip()}}


def test_comments_of_an_entry_go_with_it() -> None:
    """Those that stand deeper than its name or its dash; they would mean another entry else."""
    text = "clamps:\n  - reach: 1 m\n    count: 2\n    # the old pair\n  - {reach: 2 m}\n  # more to come\n"
    assert taken_out(text, ("clamps", 0)) == "clamps:\n  - {reach: 2 m}\n  # more to come\n"
    assert appended(text, ("clamps",), "{reach: 3 m}").endswith("  - {reach: 3 m}\n  # more to come\n")
