"""Saying a lesson: numbers with their spread in the plan's units, figures as learned, one sentence each."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.sources import Standing, weakest
from pinfold.studies.lessons.belief import Learned, alone
from pinfold.studies.lessons.records import Lesson, Prior, Reading, Topic
from pinfold.units import METER, RATIO, SECOND, UNIT_BY_SYMBOL, System, Unit, printed, significant, symbol_for

HALF = 0.5
"""From this share of the log on a figure is learned; below, it is no better than what was thought before."""
_FOOT = 0.3048


def with_spread(value: float, spread: float | None, unit: Unit, system: System) -> str:
    """`19.2 ± 0.4 kg`; the value alone where there is no spread."""
    symbol = _symbol(value, unit, system)
    factor = UNIT_BY_SYMBOL[symbol].factor
    name = "" if symbol == "-" else f" {printed(symbol)}"
    if not spread:
        return f"{significant(value / factor)}{name}"
    decimals = _decimals(spread / factor)
    return f"{value / factor:.{decimals}f} ± {spread / factor:.{decimals}f}{name}"


def _symbol(value: float, unit: Unit, system: System) -> str:
    american = system is System.US
    if unit.kind == METER.kind:
        return "in" if american else "mm"
    if unit.kind == RATIO.kind:
        return "%"
    if unit.kind == SECOND.kind:
        return "h" if value >= 3600 else "min"
    if unit.kind == "volume":
        return "gal" if american else "L"
    return symbol_for(value, unit, system)


def _decimals(spread: float) -> int:
    """So many that the spread shows with one or two digits."""
    return 0 if spread >= 5 else 1 if spread >= 0.2 else 2 if spread >= 0.02 else 3


def for_one(value: float, per: str, system: System) -> tuple[float, str]:
    """A value for one meter, square meter or piece as one for what the plan counts in, and that: `m2` becomes `ft²`."""
    if per == "each":
        return value, "piece"
    if system is System.METRIC:
        return value, printed(per)
    return (value * _FOOT, "ft") if per == "m" else (value * _FOOT**2, printed("ft2"))


def days_of(readings: Sequence[Reading]) -> tuple[str, str]:
    """First and last day."""
    days = [reading.day for reading in readings]
    return min(days), max(days)


def entries(count: int) -> str:
    """`1 entry`, `4 entries`."""
    return f"{count} entr{'y' if count == 1 else 'ies'}"


def by_others(readings: Sequence[Reading], prior: Prior, of: str) -> str:
    """`4 entries of other mixes`, and what was carried here; what nothing was read of here goes by."""
    here = [f"{entries(len(readings))} of {of}"] if readings else []
    return " and ".join([*here, *([f"what was {prior.says}"] if prior.shipped is not None else [])])


def standing_of(learned: Learned, prior: Prior) -> Standing:
    """Learned once at least half of it comes from the log; below, no better than what was thought before."""
    before = prior.figure.standing if prior.figure is not None else Standing.PRACTICE
    return Standing.LEARNED if learned.weight >= HALF else weakest((Standing.LEARNED, before))


def learned_figure(learned: Learned, prior: Prior, readings: Sequence[Reading], system: System) -> Figure:
    """A figure as the log teaches it, with its place: how many entries, from when to when."""
    if not readings and prior.figure is not None:  # nothing was read here: as it was carried
        return prior.figure
    first, last = days_of(readings)
    return Figure(
        value=learned.value, unit=prior.unit, standing=standing_of(learned, prior), source="LOG",
        where=f"{entries(len(readings))}, {first if first == last else f'{first} to {last}'}{_and_carried(prior)}",
        printed=with_spread(learned.value, learned.spread, prior.unit, system),
    )  # fmt: skip


def _and_carried(prior: Prior) -> str:
    return f"; before them {prior.says}" if prior.shipped is not None else ""


def lesson_of(
    learned: Learned, prior: Prior, readings: Sequence[Reading], *, topic: Topic, subject: str, told: str, used: str,
    per: str = "", before: tuple[Step, ...] = (),
) -> Lesson:  # fmt: skip
    """A lesson out of a belief.

    Args:
        learned: what is believed
        prior: what was thought before
        readings: what it rests on
        topic: what it is about
        subject: of which thing
        told: in one sentence
        used: where it is used; empty where it is only told
        per: what one value is for
        before: lines of working that led to the last reading
    """
    first, last = days_of(readings)
    return Lesson(
        topic=topic, subject=subject, prior=prior, value=learned.value, spread=learned.spread, count=len(readings),
        weight=learned.weight, per=per, told=told, used=used, since=first, last=last,
        standing=standing_of(learned, prior), working=(*before, *prior.working, *learned.working),
        alone=alone(readings, prior.first) if readings else None,
    )  # fmt: skip
