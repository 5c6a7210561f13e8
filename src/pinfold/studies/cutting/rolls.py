"""Mesh and cloth off rolls: which piece of which roll goes where along each band, joined only on posts.

Asked for is the least money, then the fewest joints, then that part rolls are used up before whole ones. It is one
whole-number program, exact unless its time runs out; where the question is too large for it a rule of thumb answers,
and the gap to the shortest rolls that could do is told.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csc_array

from pinfold.studies.cutting.records import Proof, Steps, Uncut
from pinfold.studies.cutting.roll_chain import chained, cheapest
from pinfold.studies.cutting.roll_records import Band, Roll, RollOrder, RollPlan, Stretched, Unrolled

SECONDS = 20.0
_JOINT, _OFF_NEW, _LATER = 1e-2, 5e-3, 1e-4
"""What a joint, taking all off new rolls, and taking all off the second of rolls alike weigh beside a coin: so part
rolls are used up first, and what is left over is left in one piece."""
_MOST = 40_000
"""Pieces that the whole-number program looks at."""


class _One(NamedTuple):
    """One roll by itself."""

    roll: Roll
    number: int


class _Column(NamedTuple):
    """A piece that a roll may give."""

    band: int
    layer: int
    first: int
    last: int
    length: Steps
    one: int


def unroll(order: RollOrder, *, seconds: float = SECONDS) -> RollPlan:
    """The plan for all bands whose bays are no longer than the longest roll.

    Args:
        order: bands and rolls
        seconds: the search ends about then
    """
    longest = max((roll.length for roll in order.rolls if roll.count != 0), default=0)
    fitting = tuple(band for band in order.bands if _can(band, longest, order.lap))
    lost = tuple(_too_long(band) for band in order.bands if band not in fitting)
    asked = replace(order, bands=fitting)
    least = cheapest(asked, sum(band.many * band.length for band in fitting))
    by_rule = chained(asked) if least is not None else None
    empty = RollPlan(order=order, unrolled=(), uncut=lost, bound=0, proof=Proof.OPTIMUM)
    if not fitting:
        return empty
    if least is None or by_rule is None:
        return replace(empty, uncut=(*lost, *map(_short, fitting)), proof=Proof.GAP)
    first = replace(empty, unrolled=by_rule, bound=least.money, proof=Proof.GAP)
    return _better(asked, first, seconds)


def _better(order: RollOrder, first: RollPlan, seconds: float) -> RollPlan:
    """The plan of the whole-number program where it finds one that is no worse than the first."""
    ones = _ones(order, first)
    columns = list(_columns(order, order.bands, ones))
    if len(columns) > _MOST:
        return first
    answer, proven = _solved(order, ones, columns, least=first.bound, seconds=seconds)
    if answer is None:
        return first
    used = [column for column, is_used in zip(columns, answer, strict=True) if is_used]
    found = replace(first, unrolled=_told(order, ones, used))
    if proven:
        return replace(found, bound=found.money, proof=Proof.OPTIMUM)
    return min((found, first), key=lambda plan: (plan.money, plan.joints))


def _short(band: Band) -> Uncut:
    return Uncut(band.mark, band.many, "the rolls on hand are too short together and none is for sale",
                 "write the price of a roll into prices.toml")  # fmt: skip


def _can(band: Band, longest: Steps, lap: Steps) -> bool:
    bays = len(band.posts) - 1
    if band.length <= longest:
        return True
    return all(band.between(bay, bay + 1) + lap * (bay < bays - 1) <= longest for bay in range(bays))


def _too_long(band: Band) -> Uncut:
    return Uncut(
        band.mark, band.many, "a bay is longer than any roll", "join it between posts with a wire, or set posts"
    )


def _ones(order: RollOrder, first: RollPlan) -> list[_One]:
    """Every roll by itself, of new ones as many as could cost no more than a plan that is known."""
    found = []
    for roll in order.rolls:
        useful = (
            first.money // roll.price if roll.price else sum(band.many * (len(band.posts) - 1) for band in order.bands)
        )
        found += [_One(roll, number) for number in range(useful if roll.count is None else min(roll.count, useful))]
    return found


def _columns(order: RollOrder, bands: Sequence[Band], ones: Sequence[_One]) -> Iterator[_Column]:
    for number, band in enumerate(bands):
        last = len(band.posts) - 1
        for first in range(last):
            for end in range(first + 1, last + 1):
                length = band.between(first, end) + order.lap * (end < last)
                for layer in range(band.many):
                    for one, each in enumerate(ones):
                        if length <= each.roll.length:
                            yield _Column(number, layer, first, end, length, one)


def _solved(
    order: RollOrder, ones: Sequence[_One], columns: Sequence[_Column], *, least: int, seconds: float
) -> tuple[list[bool] | None, bool]:  # fmt: skip
    """Which pieces are used, and whether that is proven best."""
    whole = sum(band.many * band.length for band in order.bands)
    share = [_weight(ones[column.one]) * column.length / whole for column in columns]
    costs = np.array([*(_JOINT + each for each in share), *(each.roll.price for each in ones)])
    prices = np.array([[*[0.0] * len(columns), *(each.roll.price for each in ones)]])
    limits = [*_chains(order.bands, columns, len(ones)), *_on_rolls(ones, columns),
              LinearConstraint(prices, least, np.inf)]  # fmt: skip
    answer = milp(costs, constraints=limits, bounds=Bounds(0, 1), integrality=np.ones(len(costs)),
                  options={"time_limit": seconds, "mip_rel_gap": 0.0})  # fmt: skip
    if answer.x is None:
        return None, False
    return (answer.x[: len(columns)] > 0.5).tolist(), answer.status == 0


def _weight(one: _One) -> float:
    return (0.0 if one.roll.old else _OFF_NEW) + _LATER * one.number


def _chains(bands: Sequence[Band], columns: Sequence[_Column], ones: int) -> list[LinearConstraint]:
    """Pieces follow each other from the first post of every band to its last."""
    rows: dict[tuple[int, int, int], int] = {}
    for number, band in enumerate(bands):
        for layer in range(band.many):
            for post in range(len(band.posts)):
                rows[number, layer, post] = len(rows)
    flow = np.zeros(len(rows))
    at, across, value = [], [], []
    for column, piece in enumerate(columns):
        at += [rows[piece.band, piece.layer, piece.first], rows[piece.band, piece.layer, piece.last]]
        across += [column, column]
        value += [1.0, -1.0]
    for (number, _, post), row in rows.items():
        flow[row] = 1.0 if post == 0 else -1.0 if post == len(bands[number].posts) - 1 else 0.0
    body = csc_array((value, (at, across)), shape=(len(rows), len(columns) + ones))
    return [LinearConstraint(body, flow, flow)]


def _on_rolls(ones: Sequence[_One], columns: Sequence[_Column]) -> list[LinearConstraint]:
    """No more comes off a roll than is on it, and of rolls alike the first are used first."""
    many = len(columns)
    at = [column.one for column in columns] + list(range(len(ones)))
    across = list(range(many + len(ones)))
    value = [float(column.length) for column in columns] + [-float(each.roll.length) for each in ones]
    limits = [LinearConstraint(csc_array((value, (at, across)), shape=(len(ones), many + len(ones))), -np.inf, 0.0)]
    pairs = [number for number, each in enumerate(ones) if each.number]
    if pairs:
        rows = np.arange(len(pairs)).repeat(2)
        spots = np.array([[many + number, many + number - 1] for number in pairs]).ravel()
        body = csc_array((np.tile([1.0, -1.0], len(pairs)), (rows, spots)), shape=(len(pairs), many + len(ones)))
        limits.append(LinearConstraint(body, -np.inf, 0.0))
    return limits


def _told(order: RollOrder, ones: Sequence[_One], used: Sequence[_Column]) -> tuple[Unrolled, ...]:
    by_one: dict[int, list[_Column]] = {}
    for column in used:
        by_one.setdefault(column.one, []).append(column)
    unrolled = []
    for one in sorted(by_one):
        pieces = sorted(by_one[one], key=lambda piece: -piece.length)
        rest = ones[one].roll.length - sum(piece.length for piece in pieces)
        stretched = tuple(_stretched(order.bands, piece) for piece in pieces)
        unrolled.append(Unrolled(roll=ones[one].roll.mark, pieces=stretched, rest=rest, kept=rest >= order.keep > 0))
    return tuple(unrolled)


def _stretched(bands: Sequence[Band], piece: _Column) -> Stretched:
    band = bands[piece.band]
    return Stretched(
        band.mark, band.place, piece.layer + 1, band.posts[piece.first], band.posts[piece.last], piece.length
    )
