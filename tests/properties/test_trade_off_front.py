"""The trade-off front beside brute force, and what holds of every front."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as arrays

from pinfold.studies.weighing.front import front_of, unbeaten
from pinfold.studies.weighing.records import CRITERION_BY_KEY, Better

KEYS = ("cash_now", "hours", "margin", "carbon", "life", "water", "days")
RANKS = arrays.arrays(np.int32, st.tuples(st.integers(1, 120), st.integers(1, 6)), elements=st.integers(0, 6))
NUMBERS = st.one_of(st.integers(-3, 3).map(float), st.just(float("nan")), st.floats(-1e6, 1e6))
TABLES = arrays.arrays(np.float64, st.tuples(st.integers(1, 40), st.integers(1, len(KEYS))), elements=NUMBERS)


def beaten_by_brute_force(rows: np.ndarray) -> np.ndarray:
    return np.array(
        [any((other <= row).all() and (other < row).any() for other in rows) for row in rows], dtype=bool
    )  # fmt: skip


def as_less(table: np.ndarray) -> np.ndarray:
    signs = [1 if CRITERION_BY_KEY[key].better is Better.LESS else -1 for key in KEYS[: table.shape[1]]]
    return table * np.array(signs)


def named(table: np.ndarray) -> dict[str, np.ndarray]:
    return dict(zip(KEYS, table.T, strict=False))


@settings(max_examples=400)
@given(ranks=RANKS)
def test_the_front_is_what_brute_force_finds(ranks: np.ndarray) -> None:
    assert (unbeaten(ranks) == ~beaten_by_brute_force(ranks)).all()


@pytest.mark.parametrize("criteria", [1, 2, 3, 5, 8])
def test_fronts_of_thousands_over_many_blocks_are_what_brute_force_finds(criteria: int) -> None:
    chance = np.random.default_rng(criteria)
    ranks = chance.integers(0, 40, (3000, criteria)).astype(np.int32)
    found = unbeaten(ranks)
    beaten = np.zeros(len(ranks), dtype=bool)
    for start in range(0, len(ranks), 250):
        block = ranks[start : start + 250]
        below = np.ones((len(block), len(ranks)), dtype=bool)
        less = np.zeros_like(below)
        for column in range(criteria):
            below &= ranks[None, :, column] <= block[:, None, column]
            less |= ranks[None, :, column] < block[:, None, column]
        beaten[start : start + 250] = (below & less).any(axis=1)
    assert (found == ~beaten).all()


def test_a_front_of_everything_stays_whole() -> None:
    first = np.arange(5000, dtype=np.int32)
    ranks = np.stack([first, first[::-1], np.zeros_like(first)], axis=1)
    assert unbeaten(ranks).all()


@given(table=TABLES)
def test_what_is_not_shown_neither_beats_nor_is_beaten(table: np.ndarray) -> None:
    found = front_of(named(table))
    shown = np.isfinite(table).any(axis=0)
    assert found.keys == tuple(key for key, there in zip(KEYS, shown, strict=False) if there)
    rows = as_less(table)[:, shown]
    unsure = np.isnan(rows).any(axis=1)
    assert (found.unsure == unsure).all()
    assert not (found.kept & found.unsure).any()
    sure = ~unsure
    if shown.any() and sure.any():
        alike = np.where(rows == 0, 0.0, np.ldexp(np.round(np.frexp(rows)[0] * 2.0**30), np.frexp(rows)[1]))
        assert (found.kept[sure] == ~beaten_by_brute_force(alike[sure])).all()
        assert found.kept.any()


@given(table=TABLES, seed=st.integers(0, 1000))
def test_the_order_that_options_come_in_does_not_matter(table: np.ndarray, seed: int) -> None:
    order = np.random.default_rng(seed).permutation(len(table))
    assert (front_of(named(table[order])).kept == front_of(named(table)).kept[order]).all()


@given(table=TABLES)
def test_options_that_come_out_alike_stay_or_go_together(table: np.ndarray) -> None:
    twice = np.concatenate([table, table])
    kept = front_of(named(twice)).kept
    assert (kept[: len(table)] == kept[len(table) :]).all()
    assert (kept[: len(table)] == front_of(named(table)).kept).all()


def test_rounding_of_sums_lets_nothing_win() -> None:
    columns = {"cash_now": np.array([100.0, 100.0]), "hours": np.array([0.1 + 0.2, 0.3])}
    assert front_of(columns).kept.all()


def test_a_criterion_that_nothing_shows_is_left_out_and_named() -> None:
    nan = float("nan")
    found = front_of({"cash_now": np.array([nan, nan]), "hours": np.array([2.0, 1.0])})
    assert found.nowhere == ("cash_now",)
    assert found.kept.tolist() == [False, True]
    assert front_of({"cash_now": np.array([nan])}).kept.tolist() == [False]
