"""The forecast to complete as records."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from pinfold.findings import Step
from pinfold.units import Ratio, Second


class Spread(NamedTuple):
    """A number that may come otherwise.

    Attributes:
        low: it is less in 10 of 100 cases.
        likely: half of them.
        high: it is more in 10 of 100.
    """

    low: float
    likely: float
    high: float


@dataclass(frozen=True, kw_only=True)
class WorkPace:
    """What the log says of one sort of work.

    Attributes:
        work: what sort.
        entries: of hours that say what was done.
        over_norm: average over the whole job over the norm's.
        over_norm_spread: as a share.
        rate: time after doubling over time before.
        rate_low: of it, one spread to the lower side.
        rate_high: one spread to the upper side.
        took: time of all people together so far.
        left: share still to be done.
        to_come: time still to come.
    """

    work: str
    entries: int
    over_norm: Ratio
    over_norm_spread: Ratio
    rate: Ratio
    rate_low: Ratio
    rate_high: Ratio
    took: Second
    left: Ratio
    to_come: Spread


class Seen(NamedTuple):
    """How long the whole job was foreseen to take on some day.

    Attributes:
        day: ISO.
        took: time up to then, all people together.
        whole: time in all, as foreseen then.
        done: share of the work done by then, by the norms' time.
    """

    day: str
    took: Second
    whole: Spread
    done: Ratio


@dataclass(frozen=True, kw_only=True)
class Earned:
    """Earned value of hours or of money, all in one unit: seconds of one person, or the smallest coin.

    Attributes:
        budget: planned for all of it.
        planned: planned by now.
        earned: planned for what is done.
        told: of it, that of which the log tells what it took; the rest counts as if it had taken what was planned.
        spent: what was told of took.
        besides: spent on what the log does not tell, or on no work of the plan; in all ends, not in the cost index.
        cost_difference: told less spent.
        schedule_difference: earned less planned by now.
        cost_index: told for each one spent; None where nothing was spent.
        schedule_index: earned for each one planned by now; None where nothing was.
        by_index: in all, if the rest goes as what is done did; None without an index.
        as_planned: in all, if the rest goes as planned.
        by_both: in all, if the rest is both as dear and as late; None likewise.
        index_to_complete: how thrifty the rest must be to end within the budget; None where that is spent.
        working: lines of working.
    """

    budget: float
    planned: float
    earned: float
    told: float
    spent: float
    besides: float
    cost_difference: float
    schedule_difference: float
    cost_index: Ratio | None
    schedule_index: Ratio | None
    by_index: float | None
    as_planned: float
    by_both: float | None
    index_to_complete: Ratio | None
    working: tuple[Step, ...] = ()


class Driver(NamedTuple):
    """Something that the spread of the time to come hangs on.

    Attributes:
        says: what it is.
        share: of the variance that goes along with it; shares overlap and need not add up.
    """

    says: str
    share: Ratio


@dataclass(frozen=True, kw_only=True)
class Forecast:
    """The forecast to complete.

    Attributes:
        today: ISO date it is made for.
        first: day the work began, ISO; empty where the log shows none.
        done: share of the work done, by the norms' time.
        took: time so far, all people together.
        to_come: time still to come.
        whole: time in all.
        hours: earned value of time.
        money: earned value of goods; None where nothing has a price.
        paid: for goods so far, in the smallest coin.
        goods_to_come: goods still to go in, at learned amounts and prices, in the smallest coin; None where nothing on
            the price list has a price.
        goods: goods in all, likewise.
        to_pay: still to be paid for goods, what lies in stock taken off, likewise.
        unpriced: how many things are bought and have no price; the goods are without them.
        works: of each sort of work.
        week: days of the plan's week.
        days_planned: of that week, since the first day with work.
        days_worked: of them.
        days_of_rain: of them without work, with rain or snow in the log.
        days_a_week: that will be worked, weather aside: likely.
        days_a_week_spread: one standard deviation of it.
        early: finish, 10 of 100 times by then; None where it cannot be told.
        likely: half the time.
        late: 90 of 100 times.
        drivers: of the spread of the time to come, most first.
        seen: how the time in all was foreseen before.
        missing: what could not be told.
    """

    today: str
    first: str
    done: Ratio
    took: Second
    to_come: Spread
    whole: Spread
    hours: Earned
    money: Earned | None
    paid: int
    goods_to_come: Spread | None
    goods: Spread | None
    to_pay: Spread | None
    unpriced: int
    works: tuple[WorkPace, ...]
    week: int
    days_planned: int
    days_worked: int
    days_of_rain: int
    days_a_week: float
    days_a_week_spread: float
    early: datetime | None
    likely: datetime | None
    late: datetime | None
    drivers: tuple[Driver, ...]
    seen: tuple[Seen, ...]
    missing: tuple[str, ...]
