"""The compiled loops of pricing, against the same dynamic programs told in NumPy or by trying everything."""

from __future__ import annotations

from itertools import pairwise, product

import numpy as np
import pytest
from numpy.typing import NDArray

from scantling.stock.pricing import loops

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def strips_of(rng: np.random.Generator, rows: int, numbers: int) -> Ints:
    """Strips (first row, number of the fill, next row) by first row, each number one height."""
    found = [
        (first, number, first + number + 1)
        for first in range(rows)
        for number in range(numbers)
        if first + number + 1 < rows and rng.random() < 0.8
    ]
    return np.array(sorted(found), dtype=np.int64).reshape(-1, 3)


@pytest.mark.parametrize("seed", range(5))
def test_a_board_is_worth_its_best_row_of_stretches(seed: int) -> None:
    """Up to every position a board is worth the best of all ways to set stretches one behind the other."""
    rng = np.random.default_rng(seed)
    segments = rng.uniform(0.0, 9.0, (7, 7))
    segments[rng.random((7, 7)) < 0.3] = -np.inf
    told = loops.upto(segments)
    for end in range(7):
        worths = [0.0]
        for cuts in product((False, True), repeat=end):
            places = [n for n, cut in enumerate([*cuts, True]) if cut]
            worths.append(sum(max(0.0, segments[b, a]) for a, b in pairwise(places)))
        assert told[end] == pytest.approx(max(worths))
    by_length = rng.uniform(0.0, 9.0, 9)
    stretches = rng.integers(0, 9, (7, 7))
    assert loops.taken_along(by_length, stretches) == loops.upto(by_length[stretches])[-1]


@pytest.mark.parametrize("seed", range(5))
def test_a_strip_holds_no_shape_more_often_than_it_is_wanted(seed: int) -> None:
    """A strip without defects is worth the best counts of its shapes that fit its length."""
    rng = np.random.default_rng(seed)
    sizes, counts = np.array([3, 4, 6]), np.array([2, 1, 2])
    values = np.sort(rng.uniform(-1.0, 5.0, (4, 3)), axis=0)
    values[2] = values[1]
    sources = np.maximum(np.arange(20)[None, :] - sizes[:, None], -1)
    table = loops.fills_by_height(values, sources, counts)
    for height, length in product(range(4), range(20)):
        ways = product(*(range(c + 1) for c in counts))
        best = max(float(np.dot(n, values[height])) for n in ways if np.dot(n, sizes) <= length)
        assert table[height, length] == pytest.approx(best)
        stages = loops.stages_of_fill(values[height], sources, counts)
        assert stages.shape == (4, 20)
        assert stages[-1, length] == table[height, length]


@pytest.mark.parametrize("seed", range(5))
def test_a_segment_is_ripped_into_its_best_strips(seed: int) -> None:
    """A segment is worth its best strips, those named give just that, and useless ones change nothing."""
    rng = np.random.default_rng(seed)
    rows, columns = 9, 150
    strips = strips_of(rng, rows, 4)
    fill = np.maximum.accumulate(rng.uniform(0.0, 5.0, (4, columns)).round(0), axis=0)
    best = np.zeros((rows, columns))
    for row in range(1, rows):
        best[row] = best[row - 1]
        for first, number, to in strips:
            if to == row:
                best[row] = np.maximum(best[row], best[first] + fill[number])
    for useful in (loops.worth_more(fill), np.ones(4, dtype=bool)):
        assert np.array_equal(loops.ripped(strips, useful, rows, fill), best)
    for column in range(columns):
        chosen = loops.strips_chosen(best[:, column], strips, fill[:, column], 1e-9)
        assert fill[strips[chosen, 1], column].sum() == pytest.approx(best[-1, column])
        assert all(strips[a, 2] <= strips[b, 0] for a, b in pairwise(chosen))


def test_a_height_worth_no_more_than_the_one_below_is_told() -> None:
    """Of equal fills the narrower one is enough, and one that is worth nothing is never looked at."""
    fill = np.array([[0.0, 0.0], [0.0, 2.0], [0.0, 2.0], [1.0, 2.0]])
    assert loops.worth_more(fill).tolist() == [False, True, False, True]


@pytest.mark.parametrize("seed", range(5))
def test_a_touched_strip_is_worth_what_lies_at_its_places(seed: int) -> None:
    """Over any stretch a strip with a defect is worth its best row of blanks, each where it has room."""
    rng = np.random.default_rng(seed)
    positions, steps, strips = 90, np.array([7, 11, 20]), 3
    leads = np.minimum(np.arange(positions)[None, :] + steps[:, None], positions)
    worths = rng.uniform(0.0, 5.0, (3, positions, strips))
    worths[rng.random(worths.shape) < 0.4] = -np.inf
    to, begin = np.tril_indices(positions, -1)
    some = rng.random(len(to)) < 0.5
    pairs = np.column_stack([to[some], begin[some]])
    order = np.argsort(pairs[:, 1], kind="stable")
    found = loops.fills_by_place(leads, worths, order, pairs, np.unique(pairs[:, 1]))
    for strip, start in product(range(strips), range(positions)):
        along = np.ascontiguousarray(worths[:, :, strip])
        best = np.full(positions, -np.inf)
        best[start:] = 0.0
        for here, length in product(range(start, positions), range(3)):
            best[here] = max(best[here], best[here - 1] if here > start else 0.0)
            if (at := leads[length, here]) < positions:
                best[at] = max(best[at], best[here] + along[length, here])
        assert np.array_equal(loops.row_of_fill(leads, along, start), best)
        mine = pairs[:, 1] == start
        assert np.array_equal(found[strip, mine], best[pairs[mine, 0]])


def test_stretches_are_ripped_by_place_and_by_length() -> None:
    """A touched strip counts by its like and the stretch, any other by its height and the stretch's size."""
    rng = np.random.default_rng(1)
    clean, fill = rng.uniform(0.0, 5.0, (2, 6)), rng.uniform(0.0, 5.0, (2, 80))
    strips = np.array([(0, 0, 1, -1), (0, 1, 2, 0), (1, 0, 2, 1), (2, 0, 3, -1), (2, 1, 4, 2)])
    alike, lengths = np.array([1, 0, 1]), rng.integers(0, 6, 80)
    table = loops.ripped_by_place(strips, 5, fill, alike, clean, lengths)
    short, tall = clean[0, lengths], clean[1, lengths]
    assert not np.array_equal(short, tall)
    two = np.maximum(fill[1], short + fill[0])
    assert np.array_equal(table[2], np.maximum(two, short))
    assert np.array_equal(table[4], np.maximum(table[2] + fill[1], np.maximum(table[2] + short, table[2])))
