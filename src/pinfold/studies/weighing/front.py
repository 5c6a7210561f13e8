"""The trade-off front: of up to a million options those that no other betters, none weighted against another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pinfold.studies.weighing.records import CRITERION_BY_KEY, Better

Column = npt.NDArray[np.float64]
Yes = npt.NDArray[np.bool_]
_Ranks = npt.NDArray[np.int32]
_Words = npt.NDArray[np.uint64]

BLOCKS = (64, 512, 4096)
"""Rows that the rest is held against at once: few of the strongest first, which beat most."""
_CHUNK = 16_384
_BITS = 64


@dataclass(frozen=True, kw_only=True)
class Front:
    """Which of many options no other betters.

    One option beats another when it is as good on every criterion asked and better on one of them. Where a number is
    not shown nobody can tell, so such an option neither beats nor is beaten. Options that come out alike, to nine
    digits, stay together.

    Attributes:
        keys: criteria it was looked for by.
        nowhere: criteria asked that not one option shows; left out of the looking.
        kept: options that no other beats, (n,).
        unsure: options of which something asked is not shown, (n,); none of them is kept.
    """

    keys: tuple[str, ...]
    nowhere: tuple[str, ...]
    kept: Yes
    unsure: Yes


def front_of(columns: Mapping[str, Column]) -> Front:
    """The front of options.

    Args:
        columns: by criterion, the number of every option in SI, nan where it is not shown, (n,); at least one
    """
    shown = {key: column for key, column in columns.items() if np.isfinite(column).any()}
    count = len(next(iter(columns.values())))
    unsure = np.zeros(count, dtype=bool)
    for column in shown.values():
        unsure |= ~np.isfinite(column)
    sure = np.flatnonzero(~unsure)
    kept = np.zeros(count, dtype=bool)
    if shown and len(sure):
        ranks = [_ranks(as_less(key, column[sure])) for key, column in shown.items()]
        kept[sure] = unbeaten(np.stack(ranks, axis=1))
    return Front(keys=tuple(shown), nowhere=tuple(key for key in columns if key not in shown), kept=kept, unsure=unsure)


def as_less(key: str, column: Column) -> Column:
    """The numbers of a criterion turned so that less is better."""
    return column if CRITERION_BY_KEY[key].better is Better.LESS else -column


def _ranks(column: Column) -> _Ranks:
    """Places in order from the least on; numbers alike to nine digits share one."""
    mantissa, exponent = np.frexp(column)
    alike = np.ldexp(np.round(mantissa * 2.0**30), exponent)
    return np.unique(alike, return_inverse=True)[1].astype(np.int32)


def unbeaten(ranks: _Ranks) -> Yes:
    """Which rows no other row beats, less being better in every column, (n,).

    Args:
        ranks: whole numbers from 0 up, (n, criteria)
    """
    order = np.lexsort(ranks.T[::-1])
    rows = ranks[order]
    first = np.ones(len(rows), dtype=bool)
    first[1:] = (rows[1:] != rows[:-1]).any(axis=1)
    best = _swept(rows[first]) if ranks.shape[1] < 3 else _in_blocks(rows[first])
    found = np.empty(len(rows), dtype=bool)
    found[order] = best[np.cumsum(first) - 1]
    return found


def _swept(rows: _Ranks) -> Yes:
    """Of one or two columns: a row is beaten by the least second number of the rows before it."""
    if rows.shape[1] == 1:
        return np.asarray(np.arange(len(rows)) == 0)
    second = rows[:, 1]
    least = np.minimum.accumulate(second)
    best = np.ones(len(rows), dtype=bool)
    best[1:] = second[1:] < least[:-1]
    return best


def _in_blocks(rows: _Ranks) -> Yes:
    """Of more columns: what beats a row has a smaller sum, so blocks of the least sums settle themselves and thin out
    the rest."""
    best = np.zeros(len(rows), dtype=bool)
    left = np.argsort(rows.sum(axis=1, dtype=np.int64), kind="stable")
    sizes = iter(BLOCKS)
    size = 0
    while len(left):
        size = next(sizes, size)
        block, left = left[:size], left[size:]
        block = block[~_beaten(rows[block], rows[block], itself=True)]
        best[block] = True
        left = left[~_beaten(rows[left], rows[block])]
    return best


def _beaten(rows: _Ranks, others: _Ranks, *, itself: bool = False) -> Yes:
    """Which rows have one of the others at or below them in every column; `itself` where they are the same rows."""
    below = [_below(column) for column in others.T]
    beaten = np.empty(len(rows), dtype=bool)
    for start in range(0, len(rows), _CHUNK):
        chunk = rows[start : start + _CHUNK]
        words = np.bitwise_and.reduce([at[np.searchsorted(sorted_, column, side="right")]
                                       for (sorted_, at), column in zip(below, chunk.T, strict=True)])  # fmt: skip
        if itself:
            own = np.arange(start, start + len(chunk))
            words[own - start, own // _BITS] &= ~_bit(own)
        beaten[start : start + len(chunk)] = words.any(axis=1)
    return beaten


def _below(column: _Ranks) -> tuple[_Ranks, _Words]:
    """The column in order, and for each place in it the rows that come before, one bit each."""
    order = np.argsort(column, kind="stable")
    ones = np.zeros((len(column) + 1, -(-len(column) // _BITS)), dtype=np.uint64)
    ones[np.arange(1, len(column) + 1), order // _BITS] = _bit(order)
    return column[order], np.bitwise_or.accumulate(ones, axis=0)


def _bit(places: npt.NDArray[np.int64]) -> _Words:
    return np.uint64(1) << (places % _BITS).astype(np.uint64)
