"""All of plan against actual: hours, batches, money, purchases, and what the log leaves untold."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from pinfold.logbook.entries import Entry
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import Prices
from pinfold.studies.actuals.coins import bought_against, coins_against
from pinfold.studies.actuals.done import Done
from pinfold.studies.actuals.hours import hours_against
from pinfold.studies.actuals.mixes import mixes_against
from pinfold.studies.actuals.records import Actuals, BoughtAgainst, HoursAgainst, MixAgainst
from pinfold.studies.forecasting.hands import hands_of
from pinfold.studies.forecasting.timed import timed
from pinfold.studies.gathering.records import Gathered


def actuals(
    done: Done, entries: Sequence[Entry], plan: Enclosure, goods: tuple[Gathered, Prices], today: date
) -> Actuals:
    """What the work done so far should have taken and what it took.

    Entries of a day that is not yet are counted, for what they tell is done, and pointed out.

    Args:
        done: the job by the plan's own figures, and how far it is
        entries: of the log, those that stand
        plan: as the builder wrote it
        goods: the buying list as planned, and the price list
        today: by the clock of the place
    """
    gathered, prices = goods
    found, _ = timed(done.job, entries)
    hours, unplaced = hours_against(done, entries, found, hands_of(found))
    mixes = mixes_against(done, entries, plan)
    bought, aside = bought_against(entries, gathered, prices, plan.mixing)
    return Actuals(
        hours=hours, mixes=mixes, coins=coins_against(done, gathered, mixes, bought), bought=bought,
        unplaced_time=unplaced, implied=done.implied,
        missing=(*_ahead(entries, today), *aside, *_untold(hours, mixes, bought), *_unpriced(gathered)),
    )  # fmt: skip


def _ahead(entries: Sequence[Entry], today: date) -> tuple[str, ...]:
    late = [entry for entry in entries if entry.when.date() > today]
    if not late:
        return ()
    first = min(late, key=lambda entry: entry.when)
    of = f"{first.kind} of {first.when.date()}"
    told = f"an entry, {of}, lies" if len(late) == 1 else f"{len(late)} entries, the first of them {of}, lie"
    return (f"{told} ahead of today, {today}: correct the day, if it is wrong; till then it counts",)


def _untold(
    hours: Sequence[HoursAgainst], mixes: Sequence[MixAgainst], bought: Sequence[BoughtAgainst]
) -> tuple[str, ...]:
    told = (
        _names("no hours in the log of", [f"{row.work} {row.run}" for row in hours if row.due and row.took is None]),
        _names("no batches in the log of", [f"{row.mix} {row.run}" for row in mixes if row.due and not row.mixed]),
        _names("no list price of", [row.item for row in bought if row.listed is None]),
    )
    return tuple(text for text in told if text)


def _names(head: str, names: Sequence[str]) -> str:
    if not names:
        return ""
    listed = list(dict.fromkeys(names))
    more = f" and {len(listed) - 4} more" if len(listed) > 4 else ""
    return f"{head} {', '.join(listed[:4])}{more}"


def _unpriced(gathered: Gathered) -> tuple[str, ...]:
    return (_names("no price for", gathered.unpriced),) if gathered.unpriced else ()
