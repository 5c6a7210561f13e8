"""The forecast to complete: earned value, time, goods and days together."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from pinfold.logbook.entries import Entry
from pinfold.plan.people import People
from pinfold.studies.actuals.done import Done
from pinfold.studies.actuals.records import Actuals
from pinfold.studies.completing.goods import around, goods_to_come
from pinfold.studies.days.finishing import Finish
from pinfold.studies.forecasting.attendance import Attendance
from pinfold.studies.forecasting.driving import drivers_of, works_of
from pinfold.studies.forecasting.earned import due_by, earned
from pinfold.studies.forecasting.hands import Elsewhere
from pinfold.studies.forecasting.looking_back import looked_back
from pinfold.studies.forecasting.records import Earned, Forecast, Spread
from pinfold.studies.forecasting.rest import Rest, spread_of
from pinfold.studies.forecasting.timed import crew_time
from pinfold.studies.gathering.records import Gathered
from pinfold.units import Second

_LITTLE = 1e-3


@dataclass(frozen=True, kw_only=True, eq=False)
class Given:
    """What a forecast is made from.

    Attributes:
        done: the job by the plan's own figures, and how far it is.
        actuals: plan against actual.
        entries: of the log: work, weather and purchases.
        rest: what is left at the norms, and the crew's pace.
        carried: what other places' logs say of the pace.
        taught: the buying list of the whole job with what the log taught, the pile with nothing taken off it.
        paid_back: worth of what was left over, in the smallest coin.
        days_kept: planned days and what became of them.
        finish: as the days have it; None where they cannot tell.
        people: of the plan.
        today: by the clock of the place.
    """

    done: Done
    actuals: Actuals
    entries: Sequence[Entry]
    rest: Rest
    carried: Sequence[Elsewhere]
    taught: Gathered
    paid_back: int
    days_kept: Attendance
    finish: Finish | None
    people: People
    today: date


def forecast(given: Given) -> Forecast:
    """Time, money and days to completion, each with its spread.

    Time in all is what was worked so far and what is left at the crew's pace; goods in all are what went in so far and
    what is left at learned amounts and prices; the finish is that of the days.
    """
    took = math.fsum(crew_time(entry) for entry in given.entries if entry.kind == "hours")
    hours, money = _earned(given, took)
    paid = sum(row.paid for row in given.actuals.bought)
    goods = _goods(given, paid) if money is not None else _NO_GOODS
    kept, finish = given.days_kept, given.finish
    a_week, a_week_spread = kept.days_a_week
    return Forecast(
        today=given.today.isoformat(), first=kept.first, done=_share_done(given.rest), took=took,
        to_come=spread_of(given.rest.whole), whole=spread_of(took + given.rest.whole), hours=hours, money=money,
        paid=paid, goods_to_come=goods.to_come, goods=goods.whole, to_pay=goods.to_pay,
        unpriced=len(given.taught.unpriced), works=works_of(given.rest, _took_by_work(given.actuals)),
        week=kept.week, days_planned=kept.planned, days_worked=kept.worked, days_of_rain=kept.weather,
        days_a_week=a_week, days_a_week_spread=a_week_spread, early=finish.early if finish else None,
        likely=finish.likely if finish else None, late=finish.late if finish else None,
        drivers=drivers_of(given.rest), seen=looked_back(given.rest.norms, _worked(given), given.carried),
        missing=_missing(given, money),
    )  # fmt: skip


class _Goods(NamedTuple):
    to_come: Spread | None = None
    whole: Spread | None = None
    to_pay: Spread | None = None


_NO_GOODS = _Goods()


def _goods(given: Given, paid: int) -> _Goods:
    to_come, spread = goods_to_come(given.done, given.taught, given.actuals.coins)
    used = sum(row.took for row in given.actuals.coins)
    return _Goods(
        around(to_come, spread), around(used + to_come, spread, least=used),
        around(max(used + to_come - (paid - given.paid_back), 0.0), spread),
    )  # fmt: skip


def _worked(given: Given) -> Sequence[Entry]:
    return [entry for entry in given.entries if entry.kind != "purchase"]


def _share_done(rest: Rest) -> float:
    whole = rest.norms.labor
    return 1.0 - math.fsum(rest.due.values()) / whole if whole > 0 else 0.0


def _took_by_work(actuals: Actuals) -> dict[str, Second]:
    found: dict[str, float] = defaultdict(float)
    for row in actuals.hours:
        found[row.work] += row.took or 0.0
    return found


def _earned(given: Given, took: Second) -> tuple[Earned, Earned | None]:
    """Earned value of time and of goods; None for goods where nothing has a price."""
    first = date.fromisoformat(given.days_kept.first) if given.days_kept.first else None
    planned, left = due_by(given.done.job, given.people, first, given.today)
    due = math.fsum(row.due for row in given.actuals.hours)
    both = [(row.due, row.took) for row in given.actuals.hours if row.took is not None and row.due > 0]
    spent = math.fsum(took for _, took in both)
    hours = earned(budget=given.done.job.labor, planned=planned, done=due, told=math.fsum(due for due, _ in both),
                   spent=spent, besides=max(took - spent, 0.0))  # fmt: skip
    coins = given.actuals.coins
    budget = sum(row.planned for row in coins)
    if not budget:
        return hours, None
    by_now = Done(job=given.done.job, left=left, runs=given.done.runs)
    scheduled = math.fsum(row.planned * by_now.of_layer(row.layer, row.run) for row in coins)
    due = float(sum(row.due for row in coins))
    money = earned(budget=float(budget), planned=scheduled, done=due, told=due,
                   spent=float(sum(row.took for row in coins)))  # fmt: skip
    return hours, money


def _missing(given: Given, money: Earned | None) -> tuple[str, ...]:
    told = list(given.actuals.missing)
    if money is None:
        told.append("money: nothing on the price list has a price; put what things cost here into prices.toml")
    if given.finish is None and _share_done(given.rest) < 1 - _LITTLE:
        told.append("the finish: nobody works by the plan, or some work found no day; 'pinfold days job' tells which")
    if not given.rest.hands.counts:
        told.append("your own pace: no hours in the log say what was done in them; the norms of the trade stand")
    unknown = [key for key, pace in given.rest.norms.paces.items() if not pace.is_known]
    told += [f"time of {key}" for key in unknown]
    return tuple(told)
