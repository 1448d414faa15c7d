"""Sums of sizes and positions thinned out, compiled, against trying everything."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.stock.question import compiling
from scantling.stock.question.sums import bounded_sums, thinned

SIZES = st.dictionaries(st.integers(1, 30), st.integers(0, 3), max_size=4)


@given(st.sets(st.integers(0, 60), min_size=1, max_size=3), SIZES, st.integers(0, 60), st.integers(1, 80))
def test_all_sums_up_to_an_end(starts: set[int], sizes: dict[int, int], end: int, most: int) -> None:
    """Each size is taken no more often than it is there; with more sums than are wanted none is told."""
    first = np.array(sorted(s for s in starts if s <= end), dtype=np.int64)
    steps = np.array(sorted(sizes), dtype=np.int64)
    counts = np.array([sizes[s] for s in sorted(sizes)], dtype=np.int64)
    ways = product(first.tolist(), *(range(c + 1) for c in counts.tolist()))
    reached = sorted({p for start, *n in ways if (p := start + int(np.dot(n, steps))) <= end})
    told = bounded_sums(first, steps, counts, end, max(most, len(first)))
    assert told.tolist() == (reached if len(reached) <= max(most, len(first)) else [])


@given(st.sets(st.integers(0, 200), min_size=1), st.integers(0, 50), st.integers(1, 60))
def test_no_position_left_out_is_far_behind_one_kept(places: set[int], step: int, most: int) -> None:
    """Every position lies at most a step behind the last one kept, and those kept lie further apart."""
    rising = np.array(sorted(places), dtype=np.int64)
    kept = thinned(rising, step, len(rising))
    assert (np.diff(kept) > step).all()
    assert all(0 <= p - kept[kept <= p].max() <= step for p in rising.tolist())
    assert thinned(rising, step, most).tolist() == kept[:most].tolist()


def test_where_nothing_may_be_kept_the_loops_are_compiled_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    """No folder to write to is no reason to refuse a layout."""
    asked: list[bool] = []

    def refusing(*, cache: bool = False, **_: object) -> object:
        asked.append(cache)
        if cache:
            raise RuntimeError("no locator available")
        return lambda function: function

    monkeypatch.setattr(compiling, "njit", refusing)
    assert compiling.compiled(len)([1, 2]) == 2
    assert asked == [True, False]
