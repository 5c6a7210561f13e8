"""All lessons of a log: each topic with what the ones before it taught."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime, timedelta
from operator import attrgetter

from pinfold.logbook.carried import NOTHING, Carried
from pinfold.logbook.current import standing
from pinfold.logbook.entries import Entry
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import PilePiece, Prices
from pinfold.studies.lessons.applying import taught_plan
from pinfold.studies.lessons.carried import beside_own
from pinfold.studies.lessons.coverage import coverage
from pinfold.studies.lessons.damp import dampness
from pinfold.studies.lessons.foamed import foam_losses
from pinfold.studies.lessons.habits import NEWEST
from pinfold.studies.lessons.holding import volumes_of
from pinfold.studies.lessons.leftovers import left_over
from pinfold.studies.lessons.measuring import measured
from pinfold.studies.lessons.pace import pace
from pinfold.studies.lessons.paid import payments
from pinfold.studies.lessons.piled import piled
from pinfold.studies.lessons.proven import strength_lessons
from pinfold.studies.lessons.records import Lessons, Override, Taught
from pinfold.studies.lessons.things import Measures
from pinfold.studies.lessons.tried import strength_tests
from pinfold.studies.lessons.yields import yields

TEACHING: Mapping[str, int | None] = {
    "scale": NEWEST, "bucket": NEWEST, "moisture": NEWEST, "batch": NEWEST, "coat": NEWEST, "hours": NEWEST,
    "strength": NEWEST, "hardness": NEWEST // 3, "purchase": NEWEST, "pile": None, "leftover": None, "cut": None,
}  # fmt: skip
"""Kinds of entries that teach, and how many of the newest of each are looked at; None for all."""


def learned(
    plan: Enclosure, prices: Prices, pile: tuple[PilePiece, ...], entries: Iterable[Entry], carried: Carried = NOTHING
) -> Lessons:  # fmt: skip
    """What the log teaches, and what plan, prices and pile become by it.

    What the plan itself says stays, and the lesson is told beside it.

    Args:
        plan: as the builder wrote it
        prices: the price list
        pile: the list of what is on hand, as it was when the log began
        entries: of the log, in any order; corrected ones and those taken back may be among them
        carried: lessons of other places; what this log holds itself is left out of them
    """
    given = tuple(entries)
    by_kind = _by_kind(given)
    carried = beside_own(carried, (each for entry in given for each in (entry.id, entry.corrects) if each))
    if not by_kind and not carried.sites:
        return Lessons(plan=plan, prices=prices, pile=pile, carried_told=carried.told, pile_first=pile, pile_whole=pile)
    now = _last(by_kind)
    system = plan.units
    damp, mixing = dampness(by_kind.get("moisture", ()), plan.mixing, now, system)
    tried, weighed = by_kind.get("scale", ()), by_kind.get("bucket", ())
    heavy, mixing = measured((tried, weighed), mixing, damp.figures, carried, system)
    measures = Measures(mixing=mixing, volumes=volumes_of(mixing))
    made = yields(by_kind.get("batch", ()), measures, (*damp.figures, *heavy.figures), carried, system)
    lost = foam_losses(by_kind.get("batch", ()), measures, (*damp.figures, *heavy.figures), carried, system)
    figures = (*damp.figures, *heavy.figures, *made.figures, *lost.figures)
    covered = coverage(by_kind.get("coat", ()), plan, measures, figures, carried)
    crushed = strength_tests(by_kind.get("strength", ()), by_kind.get("hardness", ()), figures)
    strong = strength_lessons(crushed, plan, figures, system)
    worked = pace(by_kind.get("hours", ()), carried, system)
    paid, new_prices = payments(by_kind.get("purchase", ()), prices, mixing, carried, now)
    left = left_over(by_kind.get("leftover", ()), prices, mixing)
    first = (*pile, *left.pile)
    stock = piled(by_kind.get("pile", ()), first)
    taught = (heavy, damp, made, lost, covered, strong, worked, paid)
    all_figures: tuple[Override, ...] = (*figures, *covered.figures, *strong.figures)
    return Lessons(
        plan=taught_plan(plan, mixing, all_figures),
        prices=new_prices,
        pile=stock.pile,
        figures=all_figures,
        lessons=tuple(lesson for each in taught for lesson in each.lessons),
        pile_told=(*left.told, *stock.told),
        set_aside=_aside(taught, left.set_aside + stock.set_aside),
        strengths=crushed,
        carried_told=carried.told,
        pile_first=first,
        pile_whole=_whole(by_kind.get("pile", ()), pile),
    )


def _whole(moved: Sequence[Entry], pile: tuple[PilePiece, ...]) -> tuple[PilePiece, ...]:
    """The pile with all that came onto it and nothing taken off."""
    return piled([entry for entry in moved if entry.text("way") == "in"], pile).pile


def _last(by_kind: Mapping[str, Sequence[Entry]]) -> datetime:
    return max((_happened(entry) for group in by_kind.values() for entry in group), default=_LONG_AGO)


_LONG_AGO = datetime(1970, 1, 1, tzinfo=UTC)
"""Where nothing was written down yet, nothing is old."""


def _happened(entry: Entry) -> datetime:
    """When an entry happened, but not more than a day after it came into the log: a clock or a year was wrong."""
    if not entry.received:
        return entry.when
    return min(entry.when, datetime.fromisoformat(entry.received) + timedelta(days=1))


def _aside(taught: Sequence[Taught], stock: Counter[str]) -> tuple[str, ...]:
    sums: Counter[str] = Counter(stock)
    for each in taught:
        sums.update(each.set_aside)
    return tuple(reason if count == 1 else f"{reason} ({count} entries)" for reason, count in sorted(sums.items()))


def _by_kind(entries: Iterable[Entry]) -> dict[str, tuple[Entry, ...]]:
    """The entries that stand and teach, by kind, the newest of each.

    Only those that correct or are corrected are sorted out against each other; all else stands by itself.
    """
    given = tuple(entries)
    corrected = {entry.corrects for entry in given if entry.corrects}
    touched = [entry for entry in given if entry.corrects or entry.id in corrected] if corrected else []
    groups: dict[str, list[Entry]] = defaultdict(list)
    for entry in given:
        if entry.kind in TEACHING and not (corrected and (entry.corrects or entry.id in corrected)):
            groups[entry.kind].append(entry)
    for entry in standing(touched):
        if entry.kind in TEACHING:
            groups[entry.kind].append(entry)
    return {kind: _newest_of(group, TEACHING[kind]) for kind, group in groups.items()}


def _newest_of(group: list[Entry], most: int | None) -> tuple[Entry, ...]:
    if most is None or len(group) <= most:
        return tuple(group)
    return tuple(sorted(group, key=attrgetter("seq", "at", "id"))[-most:])
