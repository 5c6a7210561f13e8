"""Which rectangles are cut out of which sheets and offcuts: least money, then old sheets before new, then few of them.

Sheets are filled by chance many times over; a relaxed question tells what no plan can undercut, and what each part is
worth in it. That guides more fills, and the best of all of them are chosen together as a whole-number program.
"""

from __future__ import annotations

import math
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from random import Random

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp

from pinfold.studies.cutting.records import Proof, Uncut
from pinfold.studies.cutting.sheet_bound import sheet_bound
from pinfold.studies.cutting.sheet_exact import paying
from pinfold.studies.cutting.sheet_fill import Filled, fill
from pinfold.studies.cutting.sheet_records import Rest, SheetOrder, SheetPart, SheetPattern, SheetPlan, SheetStock

SECONDS = 10.0
_ROUNDS = (40, 160)
"""Whole plans made by chance before what parts are worth is known, and after it; every sheet of them is remembered."""
_MORE = 4
"""Rounds out of so many in which parts are worth what the bound says, else their area bent a little."""
_NEVER = 10**15
_SUMS = 100_000
"""Sums of prices that are looked at."""
_SHARES = (0.1, 0.35, 0.5, 0.75)
"""Of the time: when the first fills by chance end, then the bound, more fills by chance, and the fills that pay."""

Real = NDArray[np.float64]
Told = Callable[[int, int], None]
Pool = dict[tuple[object, ...], Filled]
"""Ways to fill a sheet, by its mark and what is on it."""


def cut_sheets(order: SheetOrder, *, seconds: float = SECONDS, told: Told | None = None, seed: int = 1) -> SheetPlan:
    """A plan for all parts that fit any sheet.

    Args:
        order: parts and sheets
        seconds: the search ends about then
        told: hears how far it is: rounds made, rounds in all
        seed: of the chance in it; the same one gives the same plan unless time runs out
    """
    begun = time.monotonic()
    fitting = tuple(part for part in order.parts if any(_fits(part, stock) for stock in order.stock))
    lost = tuple(_too_large(part) for part in order.parts if part not in fitting)
    if not fitting:
        return SheetPlan(order=order, patterns=(), uncut=lost, bound=0, proof=Proof.OPTIMUM)
    asked = replace(order, parts=fitting)
    pool: Pool = {}
    first, bounded, filled_by, priced_by = (begun + share * seconds for share in _SHARES)
    best = _fill_by_chance(asked, pool, {}, until=first, rounds=range(_ROUNDS[0]), told=told, seed=seed)
    proven = sheet_bound(
        asked, until=bounded, known=_known(pool),
        enough=lambda least: payable(order.stock, math.ceil(least - 1e-6), most=best) >= best,
    )  # fmt: skip
    bound = math.ceil(proven.least - 1e-6)
    worths = {part.mark: float(worth) for part, worth in zip(fitting, proven.worths, strict=True)}
    rounds = range(_ROUNDS[0], sum(_ROUNDS))
    best = min(best, _fill_by_chance(asked, pool, worths, until=filled_by, rounds=rounds, told=told, seed=seed))
    if payable(order.stock, bound, most=best) < best:
        for each in paying(asked, known=_known(pool), until=priced_by, seed=seed):
            _keep(pool, each)
    chosen = _chosen(asked, list(pool.values()), seconds=(1 - _SHARES[-1]) * seconds)
    patterns, short = _patterns(asked, chosen)
    plan = SheetPlan(order=order, patterns=patterns, uncut=(*lost, *short), bound=bound, proof=Proof.GAP)
    if short:
        return replace(plan, bound=min(bound, plan.money))
    bound = payable(order.stock, bound, most=plan.money)
    return replace(plan, bound=bound, proof=Proof.OPTIMUM if plan.money <= bound else Proof.GAP)


def payable(stock: Sequence[SheetStock], least: int, *, most: int) -> int:
    """The least money, from a bound on, that whole sheets can come to; the bound where there are too many sums."""
    sums = {0}
    for price in {each.price for each in stock if each.price > 0}:
        more = {each + price for each in sums}
        while more:
            more = {each for each in more if each <= most} - sums
            sums |= more
            if len(sums) > _SUMS:
                return least
            more = {each + price for each in more}
    return min((each for each in sums if each >= least), default=least)


def _fits(part: SheetPart, stock: SheetStock) -> bool:
    return (part.wide <= stock.wide and part.high <= stock.high) or (
        part.turns and part.high <= stock.wide and part.wide <= stock.high
    )


def _too_large(part: SheetPart) -> Uncut:
    return Uncut(part.mark, part.count, "it is larger than any sheet on hand or for sale",
                 "join it out of two over a frame member, or name a larger sheet in prices.toml")  # fmt: skip


def _fill_by_chance(
    order: SheetOrder, pool: Pool, worths: Mapping[str, float], *, until: float,
    rounds: range, told: Told | None, seed: int,
) -> int:  # fmt: skip
    """Sheets filled in many plans made by chance go into the pool, each way to fill one only once; the least money."""
    best, prices = _NEVER, {stock.mark: stock.price for stock in order.stock}
    whole = sum(part.count for part in order.parts)
    chance = Random(f"{seed} {rounds.start}")
    for number in rounds:
        if number > rounds.start and time.monotonic() > until:
            break
        guided = number % _MORE == 0 and any(worths.values())
        bend = chance.uniform(0.8, 1.4)
        worth = worths if guided else {part.mark: (part.wide * part.high) ** bend for part in order.parts}
        sheets = list(_whole(order, worth, chance, cheap_first=number % 2 == 0))
        if sum(len(filled.parts) for filled in sheets) == whole:
            best = min(best, sum(prices[filled.stock] for filled in sheets))
        for filled in sheets:
            _keep(pool, filled)
        if told is not None:
            told(number + 1, sum(_ROUNDS))
    return best


def _known(pool: Pool) -> list[tuple[str, Counter[str]]]:
    return [(filled.stock, filled.counts) for filled in pool.values()]


def _keep(pool: Pool, filled: Filled) -> None:
    pool.setdefault((filled.stock, frozenset(filled.counts.items())), filled)


def _whole(order: SheetOrder, worth: Mapping[str, float], chance: Random, *, cheap_first: bool) -> Iterator[Filled]:
    """A plan by chance: sheet after sheet, those on hand first."""
    left = Counter({part.mark: part.count for part in order.parts})
    spare = {stock.mark: stock.count for stock in order.stock}
    while left.total():
        stock = _next(order, spare, chance, cheap_first=cheap_first)
        if stock is None:
            return
        filled = _fullest(order, stock, left, worth=worth, chance=chance)
        many = spare[stock.mark]
        spare[stock.mark] = None if many is None else many - 1
        if filled.parts:
            left -= filled.counts
            yield filled
        elif many is None:
            spare[stock.mark] = 0


def _fullest(
    order: SheetOrder, stock: SheetStock, left: Counter[str], *, worth: Mapping[str, float], chance: Random
) -> Filled:  # fmt: skip
    tries = (fill(order, stock, left, worth=worth, chance=chance) for _ in range(3))
    return max(tries, key=lambda each: sum(part.area.wide * part.area.high for part in each.parts))


def _next(
    order: SheetOrder, spare: Mapping[str, int | None], chance: Random, *, cheap_first: bool
) -> SheetStock | None:  # fmt: skip
    open_ = [stock for stock in order.stock if spare[stock.mark] != 0]
    if not open_:
        return None
    old = [stock for stock in open_ if stock.old]
    if old:
        return chance.choice(old)
    if cheap_first:
        return min(open_, key=lambda stock: stock.price / (stock.wide * stock.high) * chance.uniform(0.9, 1.1))
    return chance.choice(open_)


def _chosen(order: SheetOrder, pool: list[Filled], *, seconds: float) -> list[tuple[Filled, int]]:
    """Fills that give all parts, as far as the sheets do, for the least money."""
    number = {part.mark: at for at, part in enumerate(order.parts)}
    by_mark = {stock.mark: stock for stock in order.stock}
    gives = np.zeros((len(number), len(pool) + len(number)))
    for column, filled in enumerate(pool):
        for mark, many in filled.counts.items():
            gives[number[mark], column] = many
    gives[:, len(pool) :] = np.eye(len(number))
    dearest = max((stock.price for stock in order.stock), default=0) + 1
    costs = [_cost(by_mark[filled.stock]) for filled in pool]
    lacking = [10.0 * dearest * (1 + part.wide * part.high / 1e9) for part in order.parts]
    limits = [LinearConstraint(gives, [part.count for part in order.parts], np.inf)]
    for stock in order.stock:
        if stock.count is not None:
            used = [float(filled.stock == stock.mark) for filled in pool] + [0.0] * len(number)
            limits.append(LinearConstraint(np.array([used]), -np.inf, stock.count))
    answer = milp(
        np.array([*costs, *lacking]), constraints=limits, bounds=Bounds(0, np.inf),
        integrality=np.ones(len(costs) + len(lacking)), options={"time_limit": max(seconds, 0.5), "mip_rel_gap": 0.0},
    )  # fmt: skip
    if answer.x is None:
        return []
    times = np.rint(answer.x[: len(pool)]).astype(int).tolist()
    return [(filled, many) for filled, many in zip(pool, times, strict=True) if many]


def _cost(stock: SheetStock) -> float:
    """Money first; among equals old sheets, and small ones of those, before new."""
    share = stock.wide * stock.high / 1e13
    return stock.price + (0.01 if stock.old else 0.05) + min(share, 0.01)


def _patterns(
    order: SheetOrder, chosen: list[tuple[Filled, int]]
) -> tuple[tuple[SheetPattern, ...], tuple[Uncut, ...]]:  # fmt: skip
    """The fills without parts that are not wanted any more, and what is not given."""
    left = Counter({part.mark: part.count for part in order.parts})
    found: list[SheetPattern] = []
    for filled, times in chosen:
        whole = min([times, *(left[mark] // many for mark, many in filled.counts.items())])
        if whole:
            found.append(_pattern(filled, whole))
            left -= Counter({mark: many * whole for mark, many in filled.counts.items()})
        for _ in range(times - whole):
            trimmed = _trimmed(order, filled, left)
            if trimmed.parts:
                found.append(_pattern(trimmed, 1))
                left -= trimmed.counts
    short = tuple(
        Uncut(mark, many, "the sheets on hand do not give it and none is for sale",
              "write the price of a sheet into prices.toml, or more sheets onto the pile")
        for mark, many in left.items() if many > 0
    )  # fmt: skip
    return tuple(found), short


def _pattern(filled: Filled, times: int) -> SheetPattern:
    return SheetPattern(stock=filled.stock, times=times, parts=filled.parts, cuts=filled.cuts, rests=filled.rests)


def _trimmed(order: SheetOrder, filled: Filled, left: Counter[str]) -> Filled:
    """A fill with only the parts that are still wanted; the places of the others are left over."""
    wanted, parts, rests = Counter(left), [], list(filled.rests)
    for part in filled.parts:
        if wanted[part.mark] > 0:
            wanted[part.mark] -= 1
            parts.append(part)
        else:
            rests.append(Rest(part.area, min(part.area.wide, part.area.high) >= order.keep > 0))
    return filled._replace(parts=tuple(parts), rests=tuple(rests))
