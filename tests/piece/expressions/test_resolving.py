"""Many expressions at once: in order of dependence, with every fault told once."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import Fault, FileFaults
from scantling.piece.expressions import Quantity, parse, resolve
from scantling.units import Dimension


def solve(texts: dict[str, str], **given_mm: float) -> dict[str, float]:
    """Resolve texts over given lengths."""
    known = {name: Quantity(value, Dimension.LENGTH) for name, value in given_mm.items()}
    found = resolve({name: parse(text) for name, text in texts.items()}, known, default_unit="mm")
    return {name: quantity.value for name, quantity in found.items()}


def faults(texts: dict[str, str], **given_mm: float) -> list[tuple[str, str, str]]:
    """Code, field and value of each fault."""
    with pytest.raises(FileFaults) as caught:
        solve(texts, **given_mm)
    return [(fault.code, fault.field, fault.value) for fault in caught.value.faults]


def test_values_come_in_their_own_order_whatever_they_depend_on() -> None:
    """The apron asks for the top, the top for what is given."""
    texts = {"apron": "top - 2 * overhang", "top": "height * 2", "half": "apron / 2"}
    assert solve(texts, height=700.0, overhang=50.0) == {"apron": 1300.0, "top": 1400.0, "half": 650.0}
    assert list(solve(texts, height=700.0, overhang=50.0)) == list(texts)


def test_a_given_value_goes_before_the_expression_of_that_name() -> None:
    """A size as it was milled replaces the computed one, also inside a cycle."""
    assert solve({"a": "b + 1", "b": "a - 1"}, b=88.0) == {"a": 89.0, "b": 88.0}


def test_a_cycle_is_told_as_its_chain_and_only_once() -> None:
    """What merely depends on the cycle is silent."""
    texts = {"a": "b + 1", "b": "c + 1", "c": "a + 1", "d": "a + 2", "e": "e * 2", "f": "7 mm"}
    assert faults(texts) == [("cycle", "a", "a -> b -> c -> a"), ("cycle", "e", "e -> e")]


def test_every_fault_comes_at_once_and_what_follows_from_one_is_silent() -> None:
    """An unknown name, a wrong sum and a cycle are three faults, not seven."""
    texts = {"a": "hieght + 1", "b": "a * 2", "c": "height + 1 deg", "d": "c + b", "e": "f", "f": "e"}
    found = faults(texts, height=700.0)
    assert [(code, field) for code, field, _ in sorted(found)] == [
        ("cycle", "e"),
        ("unknown_name", "a"),
        ("wrong_dimension", "c"),
    ]
    with pytest.raises(FileFaults) as caught:
        solve({"a": "1 mm + max(hieght, 1)"}, height=700.0)
    [fault] = caught.value.faults
    assert isinstance(fault, Fault)
    assert (fault.remedy, fault.column) == ("Did you mean height?", 12)


def test_a_wanted_dimension_is_asked_of_the_ones_named() -> None:
    """A bare result becomes a length where a length is wanted."""
    expressions = {"a": parse("30"), "b": parse("a * 2"), "n": parse("2")}
    found = resolve(expressions, {}, default_unit="in", want={"a": Dimension.LENGTH})
    assert found["a"] == Quantity(762.0, Dimension.LENGTH)
    assert found["b"] == Quantity(1524.0, Dimension.LENGTH)
    assert found["n"] == Quantity(2.0, Dimension.NUMBER)


def test_a_chain_of_thousands_is_followed() -> None:
    """The order is found without recursion."""
    texts = {f"n{k}": f"n{k + 1} + 1" for k in range(3000)} | {"n3000": "1 mm"}
    assert solve(texts)["n0"] == 3001.0


@given(st.permutations(range(8)))
def test_the_order_of_writing_does_not_matter(order: list[int]) -> None:
    """Any order of the same entries gives the same values."""
    texts = {f"v{k}": f"v{k - 1} * 2 + v{k // 2}" if k > 1 else f"{k + 1} mm" for k in range(8)}
    plain = solve(texts)
    assert solve({f"v{k}": texts[f"v{k}"] for k in order}) == plain


GRAPHS = st.dictionaries(st.sampled_from("abcdefg"), st.lists(st.sampled_from("abcdefgh"), max_size=3))


@given(GRAPHS)
def test_any_web_of_names_is_resolved_or_its_faults_are_true(web: dict[str, list[str]]) -> None:
    """Every told cycle is one, every unknown name is unknown, and without either there are values."""
    texts = {name: " + ".join([*asked, "1"]) for name, asked in web.items()}
    try:
        found = resolve({name: parse(text) for name, text in texts.items()}, {}, default_unit="mm")
    except FileFaults as error:
        for fault in error.faults:
            if fault.code == "cycle":
                chain = fault.value.split(" -> ")
                assert chain[0] == chain[-1]
                assert all(after in web[before] for before, after in pairwise(chain))
            else:
                assert fault.code == "unknown_name"
                assert fault.value in web[fault.field]
                assert fault.value not in web
    else:
        for name, asked in web.items():
            assert found[name].value == 1 + sum(found[other].value for other in asked)
