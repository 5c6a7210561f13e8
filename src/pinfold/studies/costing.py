"""What the planned work costs: by layer, by run and by build-up, to the last coin."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from pinfold.plan.stock import Prices
from pinfold.studies.gathering.records import Gathered, Line, Use
from pinfold.studies.layout.records import Layout

GRAINS = 10**15
"""Weights are turned into whole grains, so that coins are shared out in whole numbers and exactly."""
SHARED = "shared"
"""Where something goes that belongs to no one run."""


@dataclass(frozen=True, kw_only=True)
class CostShare:
    """What one layer, run or build-up costs.

    Attributes:
        name: of it.
        cost: of what has a price, in the smallest coin.
        unpriced: how many things that are bought for it have no price; the cost is without them.
    """

    name: str
    cost: int
    unpriced: int = 0

    @property
    def is_shown(self) -> bool:
        """Whether a cost of it is known at all: one of nothing but things without a price is not nothing."""
        return bool(self.cost) or not self.unpriced


@dataclass(frozen=True, kw_only=True)
class Costs:
    """What the planned work costs; all money in the smallest coin.

    Attributes:
        currency: as in the price list.
        digits: decimals of the currency.
        goods: all lines of the buying list that have a price.
        haul: trips to the shop; None when not known.
        water: trips for water; None when not known.
        total: of all that is known.
        by_layer: the goods by layer; adds up to them exactly.
        by_run: the goods by run.
        by_buildup: the goods by build-up.
        per_meter: total for a meter of enclosure, not rounded; None without length.
        trips: to the shop; None when not known.
        water_trips: for water; None when not known.
        unpriced: what is bought and has no price.
        missing: what the total leaves out, in plain words; where it names anything the total is at least what it says.
    """

    currency: str
    digits: int
    goods: int
    haul: int | None
    water: int | None
    total: int
    by_layer: tuple[CostShare, ...]
    by_run: tuple[CostShare, ...]
    by_buildup: tuple[CostShare, ...]
    per_meter: float | None
    trips: int | None
    water_trips: int | None
    unpriced: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def is_at_least(self) -> bool:
        """Whether something is left out of the total."""
        return bool(self.missing)


def planned_cost(gathered: Gathered, layout: Layout, prices: Prices) -> Costs:
    """Cost of the buying list and the trips, shared out over the work."""
    haul, water = gathered.haulage.cost, gathered.water.cost
    goods = gathered.goods
    total = goods + (haul or 0) + (water or 0)
    shares, runs = shares_of(gathered.lines), run_by_place(layout)
    buildups = dict(_buildup_by_run(layout))
    open_lines = [line for line in gathered.lines if line.cost is None]
    return Costs(
        currency=prices.currency,
        digits=prices.digits,
        goods=goods,
        haul=haul,
        water=water,
        total=total,
        by_layer=shared_by(shares, lambda use: use.layer, open_lines),
        by_run=shared_by(shares, lambda use: runs.get(use.place, SHARED), open_lines),
        by_buildup=shared_by(shares, lambda use: buildups.get(runs.get(use.place, ""), SHARED), open_lines),
        per_meter=total / layout.length if layout.length > 0 else None,
        trips=gathered.haulage.trips,
        water_trips=gathered.water.trips,
        unpriced=gathered.unpriced,
        missing=_missing(gathered),
    )


Shares = tuple[tuple[Use, int], ...]
"""Every use of the goods with its coins."""


def shares_of(lines: Iterable[Line]) -> Shares:
    """Cost of all priced lines shared out over their uses; an unpriced line's uses have none."""
    return tuple(
        (use, coins)
        for line in lines
        for use, coins in zip(line.uses, shared_out(line.cost or 0, [use.amount for use in line.uses]), strict=True)
    )


def shared_by(shares: Shares, heading: Callable[[Use], str], unpriced: Iterable[Line] = ()) -> tuple[CostShare, ...]:
    """Cost by a heading of the uses, in the order the headings first come; one that costs nothing is still named.

    Args:
        shares: uses with their coins
        heading: what a use stands under
        unpriced: lines without a price
    """
    sums: dict[str, int] = {}
    for use, coins in shares:
        name = heading(use)
        sums[name] = sums.get(name, 0) + coins
    without = Counter(name for line in unpriced for name in {heading(use) for use in line.uses})
    return tuple(CostShare(name=name, cost=cost, unpriced=without[name]) for name, cost in sums.items())


def shared_out(amount: int, weights: Sequence[float]) -> tuple[int, ...]:
    """Whole coins in proportion to weights, none lost: what is left over goes to the largest remainders first.

    Args:
        amount: coins to share out
        weights: from 0 up; all alike where they are all 0
    """
    if not weights:
        return ()
    largest = max(weights)
    grains = [round(weight / largest * GRAINS) for weight in weights] if largest > 0 else [1] * len(weights)
    whole = sum(grains)
    coins = [amount * grain // whole for grain in grains]
    by_remainder = sorted(range(len(grains)), key=lambda at: (-(amount * grains[at] % whole), at))
    for at in by_remainder[: amount - sum(coins)]:
        coins[at] += 1
    return tuple(coins)


def run_by_place(layout: Layout) -> dict[str, str]:
    """The run that a stretch, post, gate or run by its own name belongs to."""
    runs = {stretch.run: stretch.run for stretch in layout.stretches}
    runs |= {post.name: post.run for post in layout.posts}
    runs |= {gate.gate.name: gate.run for gate in layout.gates.values()}
    return runs | {stretch.name: stretch.run for stretch in layout.stretches}


def _buildup_by_run(layout: Layout) -> list[tuple[str, str]]:
    stretches = [(stretch.run, stretch.buildup.name) for stretch in layout.stretches]
    return [*((gate.run, gate.buildup.name) for gate in layout.gates.values()), *stretches]


def _missing(gathered: Gathered) -> tuple[str, ...]:
    nameless = [line.kind.says for line in gathered.lines if line.kind.name in gathered.unpriced]
    told = [f"no price for {'; '.join(dict.fromkeys(nameless))}"] if nameless else []
    if gathered.haulage.cost is None:
        told.append("no cost of the trips to the shop")
    if gathered.water.cost is None:
        told.append("no cost of the trips for water")
    return (*told, *gathered.missing)
