"""Areas, tins, cautions and refusals of finishing."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from checks.bench import part, subject
from finish.test_worked import BLEND
from scantling.errors import InputError
from scantling.finish import (
    Areas,
    Coats,
    Drying,
    FinishKind,
    FinishSystem,
    Sanding,
    areas,
    cautions,
    coats,
    drying,
    grit_sequence,
    sanding,
    tins,
)
from scantling.piece.model import Direction


def test_areas_of_a_board_add_up() -> None:
    """700 x 90 x 20: the top shows, the rest is hidden, glue is taken off the hidden faces."""
    board = part("board", show=frozenset({Direction.TOP}))
    result = areas(subject((board,)).piece, masked_mm2={"board": 1000.0})
    one = result.parts[0]
    whole = 2.0 * (700 * 90 + 700 * 20 + 90 * 20)
    assert one.shown_mm2 == pytest.approx(700 * 90)
    assert one.shown_mm2 + one.hidden_mm2 + one.masked_mm2 == pytest.approx(whole)
    assert one.end_grain_mm2 == pytest.approx(2 * 90 * 20)
    assert result.finished_m2 == pytest.approx((whole - 1000.0) * 1e-6)


def test_more_glue_than_hidden_faces_is_taken_off_the_shown_ones() -> None:
    """A board glued on nearly all its faces keeps no negative area."""
    board = part("board", show=frozenset({Direction.TOP}))
    whole = 2.0 * (700 * 90 + 700 * 20 + 90 * 20)
    one = areas(subject((board,)).piece, masked_mm2={"board": whole - 500.0}).parts[0]
    assert (one.hidden_mm2, one.shown_mm2) == (0.0, pytest.approx(500.0))


def test_hidden_faces_may_get_fewer_coats() -> None:
    """Coats on hidden faces stop earlier, and count in each coat they share."""
    result = coats(BLEND, 2.0, shown_coats=3, hidden_m2=1.0, hidden_coats=2)
    assert result.per_coat_l == pytest.approx((0.3, 0.165, 0.11))


@given(wanted=st.floats(0.01, 9.0))
def test_tins_hold_enough_and_no_other_choice_holds_it_in_less(wanted: float) -> None:
    """Against every choice of up to twenty tins of three sizes."""
    sizes = (0.5, 1.0, 2.5)
    bought = sum(tins(wanted, sizes))
    assert bought >= wanted - 1e-9
    choices = product(range(20), range(10), range(5))
    sums = (sum(n * s for n, s in zip(counts, sizes, strict=True)) for counts in choices)
    assert bought == pytest.approx(min(s for s in sums if s >= wanted - 1e-9))


def test_oil_carries_the_caution_of_rags() -> None:
    """Drying oils heat in rags; a water-borne finish does not, but its label still comes first."""
    assert any("catch fire" in line for line in cautions(BLEND))
    water = FinishSystem(
        name="w",
        kind=FinishKind.WATER_BORNE,
        first_l_m2=0.1,
        next_l_m2=0.1,
        recoat_h=2.0,
        light_use_h=24.0,
        full_use_h=168.0,
    )
    assert not any("catch fire" in line for line in cautions(water))
    assert "label" in cautions(water)[0]


@pytest.mark.parametrize(("shop_c", "code"), [(9.9, "too_cold_to_finish"), (30.1, "too_hot_to_finish")])
def test_a_shop_outside_the_label_is_refused(shop_c: float, code: str) -> None:
    """The error says the temperature found and the range allowed."""
    with pytest.raises(InputError, match=f"{shop_c:g}") as caught:
        drying(BLEND, 2, shop_c=shop_c)
    assert caught.value.code == code


def test_impossible_requests_are_refused() -> None:
    """Grits that do not exist or run backwards, coats below nought, a label with a nought."""
    with pytest.raises(InputError, match="90"):
        grit_sequence(80, 90)
    with pytest.raises(InputError, match="coarser"):
        grit_sequence(180, 80)
    with pytest.raises(InputError, match="-1"):
        coats(BLEND, 1.0, shown_coats=-1)
    with pytest.raises(InputError, match="recoat_h"):
        FinishSystem(
            name="x",
            kind=FinishKind.WAX,
            first_l_m2=0.1,
            next_l_m2=0.1,
            recoat_h=0.0,
            light_use_h=1.0,
            full_use_h=1.0,
        )


def test_damp_air_is_noted() -> None:
    """Above 70 % the timetable says so."""
    assert drying(BLEND, 2, shop_c=20.0, shop_rh=0.71).notes
    assert not drying(BLEND, 2, shop_c=20.0, shop_rh=0.69).notes


def test_results_go_to_json_and_back() -> None:
    """Plain values only."""
    piece = subject((part("a"),)).piece
    for kind, value in (
        (Areas, areas(piece)),
        (Coats, coats(BLEND, 1.0, shown_coats=2)),
        (Drying, drying(BLEND, 2, shop_c=15.0)),
        (Sanding, sanding(1.0, first_grit=80, last_grit=180)),
    ):
        adapter: TypeAdapter[object] = TypeAdapter(kind)
        assert adapter.validate_json(adapter.dump_json(value)) == value
