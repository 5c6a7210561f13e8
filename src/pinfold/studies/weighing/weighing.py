"""A whole weighing: what was asked of which enclosure, and every option judged."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pinfold.studies.weighing.records import CRITERION_BY_KEY, Better, Weighed, failing_in_all
from pinfold.units import Meter


@dataclass(frozen=True, kw_only=True)
class Weighing:
    """One enclosure in several build-ups.

    Attributes:
        name: of the plot.
        length: of enclosure, gates and all.
        height: that each of them is fitted to.
        years: over which upkeep and replacing are counted.
        animals: that shall stay out.
        people: who build.
        currency: of money.
        digits: decimals of the currency.
        sorted_by: key of the criterion the options are put in order by; empty for the order of the catalog.
        options: judged, the plan as it stands first.
    """

    name: str
    length: Meter
    height: Meter
    years: int
    animals: tuple[str, ...]
    people: int
    currency: str
    digits: int
    sorted_by: str
    options: tuple[Weighed, ...]


def in_order(options: Sequence[Weighed], key: str) -> tuple[Weighed, ...]:
    """The plan as it stands first, then the best by one criterion, what is not shown of it last.

    Those of which a check fails that does not fail in all come after all others, in the same order, and what cannot be
    built after them.
    """
    if not key:
        return tuple(options)
    common = failing_in_all(options)
    sign = 1.0 if CRITERION_BY_KEY[key].better is Better.LESS else -1.0

    def place(each: Weighed) -> tuple[bool, bool, bool, float]:
        value = each.scores[key].value if each.can_be_built else None
        return (
            not each.can_be_built,
            each.fails_beside(common),
            value is None,
            sign * value if value is not None else 0.0,
        )

    return (*options[:1], *sorted(options[1:], key=place))
