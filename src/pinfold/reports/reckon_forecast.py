"""The forecast to read: when it is done, what it still takes, what that hangs on, and earned value."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial

from pinfold.figures import Figure
from pinfold.reports.days_job import day_words
from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, Working, table
from pinfold.reports.reckon_actuals import hours_said
from pinfold.studies.forecasting.earned import working_in
from pinfold.studies.forecasting.records import Earned, Forecast, Spread, WorkPace
from pinfold.tables.shelf import kind
from pinfold.units import money, percent

_SAME = (
    "It is the finish of {}: the job done over at your own pace, in the weather that may come, with "
    "days off as often as the log shows them."
)
_MODEL = (
    "Pace: an entry of hours is held against the norm for as much; what the crew, each sort of work and practice do to "
    "it is learned together, so that work never timed takes over what the rest of it says. The average falls by the "
    "same share each time that the work done doubles; after a break of months half of the practice is lost."
)
_HOURS = "Hours of one person worked out"
_MONEY = "Goods worked out"
_HOUR = 3600.0
_TOLD = (
    "Work that is done without hours in the log counts as if it had taken what was planned; so do goods of which the "
    "log does not tell how much went in. Spent besides: hours that do not say what of the plan was done; they are "
    "not in what is told for 1 spent, nor in the end that follows from that alone."
)
_SLIGHT = 60.0
"""Time that rounding leaves is no work without hours."""
_GOODS = "Goods to come go by the amounts and prices that the log taught; trips are not in it."


def forecast_page(name: str, found: Forecast, currency: str, digits: int) -> Page:
    """All of it.

    Args:
        name: of the plot
        found: the forecast
        currency: of the price list
        digits: decimals of it
    """
    same = Paragraph(text=_SAME.format("'pinfold days job'"), on_screen=_SAME.format("the job in days"))
    texts = (_time(found), _goods(found, currency, digits))
    blocks: list[Block] = [Paragraph(text=_finish(found)), same, *(Paragraph(text=text) for text in texts)]
    blocks += [Heading(text="What it hangs on"), Paragraph(text=_week(found)), *_drivers(found), _paces(found)]
    blocks += [Heading(text="Earned value"), _earned(found, digits), *_working(found, currency, digits)]
    if found.missing:
        blocks += [
            Heading(text="Not shown"),
            *(Paragraph(text=f"{text[:1].upper()}{text[1:]}.") for text in found.missing),
        ]
    return Page(title=f"{name}: how it will go on", blocks=tuple(blocks))


def _finish(found: Forecast) -> str:
    if found.likely is None or found.early is None or found.late is None:
        return f"{percent(found.done)} of the work is done. The finish is NOT SHOWN."
    likely, early, late = (day_words(moment) for moment in (found.likely, found.early, found.late))
    return (
        f"{percent(found.done)} of the work is done. The rest is done about {likely}; 1 in 10 by {early}, "
        f"9 in 10 by {late}."
    )


def _time(found: Forecast) -> str:
    text = (
        f"{hours_said(found.took)} of one person are worked, {_between(found.to_come)} are still to come: "
        f"{_between(found.whole)} in all, against {hours_said(found.hours.budget)} by the norms."
    )
    unsaid, untold = found.hours.besides, found.hours.earned - found.hours.told
    if unsaid >= _SLIGHT:
        text += f" {hours_said(unsaid)} of those worked do not say what of the plan was done: that counts as to come."
    if untold >= _SLIGHT:
        text += f" Not in it: work that is done and has no hours in the log, {hours_said(untold)} by the norms."
    return text


def _between(spread: Spread) -> str:
    return f"{hours_said(spread.likely)} ({hours_said(spread.low)} to {hours_said(spread.high)})"


def _coins(spread: Spread, *, currency: str, digits: int) -> str:
    low, high = (money(round(value), "", digits) for value in (spread.low, spread.high))
    return f"{money(round(spread.likely), currency, digits)} ({low} to {high})"


def _goods(found: Forecast, currency: str, digits: int) -> str:
    if found.goods is None or found.to_pay is None:
        return "What it will cost is NOT SHOWN: nothing has a price."
    said = partial(_coins, currency=currency, digits=digits)
    things = "1 thing that has" if found.unpriced == 1 else f"{found.unpriced} things that have"
    without = f", without {things} no price" if found.unpriced else ""
    return (
        f"Goods in all{without}: {said(found.goods)}. Paid so far: {money(found.paid, currency, digits)}. Still to be "
        f"paid: {said(found.to_pay)}. {_GOODS}"
    )


def _week(found: Forecast) -> str:
    text = (
        f"Days a week: {found.days_a_week:.1f} give or take {found.days_a_week_spread:.1f} of the plan's {found.week}"
    )
    if not found.first:
        return f"{text}, by what is usual; the log shows no work yet."
    if not found.days_planned:
        return f"{text}, by what is usual; the log shows work on {_date(found.first)} alone."
    rain = f", {found.days_of_rain} more fell to rain or snow" if found.days_of_rain else ""
    return (
        f"{text}, weather aside: since {_date(found.first)} {found.days_worked} of {found.days_planned} planned days "
        f"were worked{rain}."
    )


def _date(day: str) -> str:
    found = date.fromisoformat(day)
    return f"{found.day} {found:%b %Y}"


def _drivers(found: Forecast) -> tuple[Block, ...]:
    if not found.drivers:
        return ()
    told = "; ".join(f"{each.says} {percent(each.share)}" for each in found.drivers[:4])
    return (
        Paragraph(text=f"How far the hours to come may be off hangs on {told}; what hangs together counts in both."),
    )


def _paces(found: Forecast) -> Table:
    return table(
        ("work", "timed", "over the norm", "each doubling", "left", "to come"),
        [_pace(each) for each in found.works if each.left > 0 or each.took > 0], right=(1, 2, 3, 4, 5),
        note="Timed: entries of hours that say what was done. Each doubling: average time after over before.",
    )  # fmt: skip


def _pace(each: WorkPace) -> tuple[str, ...]:
    return (
        each.work, str(each.entries), f"{percent(each.over_norm)} ± {percent(each.over_norm * each.over_norm_spread)}",
        f"{percent(each.rate)} ({percent(each.rate_low)} to {percent(each.rate_high)})", percent(each.left),
        hours_said(each.to_come.likely),
    )  # fmt: skip


_ROWS = (
    ("planned for all of it", "budget"), ("planned by now", "planned"), ("earned: planned for what is done", "earned"),
    ("of it, told in the log", "told"), ("spent on what is told", "spent"), ("spent besides", "besides"),
    ("told less spent", "cost_difference"), ("earned less planned by now", "schedule_difference"),
    ("told for 1 spent", "cost_index"), ("earned for 1 planned by now", "schedule_index"),
    ("in all, if the rest goes like it", "by_index"), ("in all, if the rest goes as planned", "as_planned"),
    ("in all, as dear and as late", "by_both"), ("needed of the rest for 1 spent", "index_to_complete"),
)  # fmt: skip
_INDICES = frozenset({"cost_index", "schedule_index", "index_to_complete"})


def _earned(found: Forecast, digits: int) -> Table:
    rows = []
    for says, key in _ROWS:
        coins = "NOT SHOWN" if found.money is None else _told(found.money, key, lambda value: _money(value, digits))
        rows.append((says, _told(found.hours, key, hours_said), coins))
    return table(("what", "hours", "goods"), rows, right=(1, 2), note=_TOLD)


def _money(value: float, digits: int) -> str:
    coins = round(value)
    said = money(abs(coins), "", digits)
    return said if coins >= 0 else f"-{said}"


def _told(of: Earned, key: str, said: Callable[[float], str]) -> str:
    value = getattr(of, key)
    if value is None:
        return "NOT SHOWN"
    return f"{value:.2f}" if key in _INDICES else str(said(value))


def _working(found: Forecast, currency: str, digits: int) -> tuple[Block, ...]:
    hand, kept, goods = kind("job_rules", "hand"), kind("job_rules", "attendance"), kind("job_rules", "goods")
    figures: list[tuple[str, Figure]] = [
        (f"{name}: {key.replace('_', ' ')}", figure)
        for name, row in (("pace", hand), ("days", kept), ("goods", goods)) for key, figure in row.figures.items()
    ]  # fmt: skip
    hours = Working(steps=working_in(found.hours, _HOUR), figures=tuple(figures))
    told: tuple[Block, ...] = (Paragraph(text=_MODEL), Heading(text=_HOURS), hours)
    if found.money is None:
        return told
    heading = f"{_MONEY}, in {currency}" if currency else _MONEY
    return *told, Heading(text=heading), Working(steps=working_in(found.money, 10.0**digits))
