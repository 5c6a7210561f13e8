"""What is wanted of a mix before something may be done on it: strength, time, warm hours, out of the table."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.figures import Figure, practice
from pinfold.sources import Standing, weakest
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.lessons.strength_prior import strength_family
from pinfold.studies.ripening.ages import Growth, ages_for, ages_for_share, growth
from pinfold.studies.ripening.records import Ages, Wanted
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import SECOND

LEAST = practice("12 h", SECOND, "below half a day no strength is told: the laws begin at a day")
_NOTHING = Ages(0.0, 0.0, 0.0)


@dataclass(frozen=True, kw_only=True, eq=False)
class Placing:
    """One mix in one layer, as it is placed.

    Attributes:
        layer: of the build-up, a word of the take-off.
        mix: of shelf `mixes`.
        coat: kind of shelf `coats`; None where it is no coat.
        make: how its wall, footing or coping is made; empty where nobody asks.
        grouted: whether cells of its wall are filled.
    """

    layer: str
    mix: Kind
    coat: Kind | None = None
    make: str = ""
    grouted: bool = False


def targets_of(placing: Placing) -> tuple[Kind, ...]:
    """What is waited for on it, in the order of the table; nothing where no strength is known of such a mix."""
    try:
        family = strength_family(placing.mix).name
    except NotFoundError:
        return ()
    return tuple(each for each in shelf("ripe_for").values() if _asked(each, placing, family))


def _asked(target: Kind, placing: Placing, family: str) -> bool:
    makes = _words(target, "makes")
    own = target.word("wait_own")
    return (
        placing.layer in _words(target, "layers")
        and family in _words(target, "families")
        and (not makes or placing.make in makes)
        and (not target.words.get("grouted") or placing.grouted)
        and (not own or (placing.coat is not None and placing.coat.has(own)))
    )


def _words(target: Kind, key: str) -> Iterable[str]:
    listed = target.words.get(key, [])
    return [str(each) for each in listed] if isinstance(listed, list) else []


def wanted(target: str, placing: Placing, lessons: Lessons | None) -> Wanted:
    """What is wanted before one thing may be done on it.

    Args:
        target: name of a kind of shelf `ripe_for`
        placing: what is placed
        lessons: of the site; None for what is thought before any test

    Raises:
        NotFoundError: no such target, or nothing is known of the mix.
        OutOfRangeError: no law speaks of the mix.
    """
    asked = kind("ripe_for", target)
    wait = _wait(asked, placing)
    ages, standings = _ages(asked, placing, lessons, wait)
    figures = tuple((name.replace("_", " "), figure) for name, figure in asked.figures.items())
    if wait is not None and asked.word("wait_own"):
        figures = ((asked.word("wait_own").replace("_", " "), wait), *figures)
    return Wanted(
        target=asked, mix=placing.mix, layer=placing.layer, ages=ages, wait=0.0 if wait is None else wait.value,
        wait_cold=_value(asked, "wait_cold"), cold=_value(asked, "cold") or 0.0,
        warm_hours=_value(asked, "warm_hours") or 0.0, warm=_value(asked, "warm") or 0.0, figures=figures,
        standing=weakest([*standings, *(figure.standing for _, figure in figures)]),
    )  # fmt: skip


def _wait(asked: Kind, placing: Placing) -> Figure | None:
    own = asked.word("wait_own")
    if own:
        assert placing.coat is not None, "only a coat has its own"
        return placing.coat.figure(own)
    return asked.figures.get("wait")


def _value(asked: Kind, key: str) -> float | None:
    return asked.value(key) if asked.has(key) else None


def _ages(
    asked: Kind, placing: Placing, lessons: Lessons | None, wait: Figure | None
) -> tuple[Ages, tuple[Standing, ...]]:
    by_warmth = wait.value if wait is not None and asked.words.get("by_warmth") else 0.0
    floor = Ages(by_warmth, by_warmth, by_warmth)
    warmth = (Standing.PRACTICE,) if by_warmth else ()
    if not (asked.has("strength") or asked.has("share")):
        return floor, warmth
    grown = growth(placing.mix, lessons)
    return _at_least(_of_strength(asked, grown), LEAST.value), (grown.standing, *warmth)


def _of_strength(asked: Kind, grown: Growth) -> Ages:
    if asked.has("share"):
        return ages_for_share(grown, asked.value("share"))
    return ages_for(grown, asked.value("strength"))


def _at_least(ages: Ages, floor: float) -> Ages:
    return Ages(*(max(age, floor) for age in ages))


def is_reachable(asked: Wanted) -> bool:
    """Whether weak batches ever get there."""
    return math.isfinite(asked.ages.latest)
