"""All strengths a log tells: bodies crushed and broken, hardness tried by hand, and what is believed of them."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from datetime import timedelta
from functools import cache
from typing import NamedTuple

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Step
from pinfold.logbook.entries import Entry
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.crushed import Body, body_of
from pinfold.studies.lessons.levels import Spreads, Tried, believed
from pinfold.studies.lessons.records import Override
from pinfold.studies.lessons.strength_prior import (
    DAYS_28,
    StrengthPrior,
    aged,
    foamed_strength,
    growth_of,
    prior_strength,
)
from pinfold.studies.lessons.strength_records import StrengthReading, StrengthTests
from pinfold.studies.lessons.things import thing
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import Second

_HAND = "hand"


class _One(NamedTuple):
    """One reading, as it is told and as it teaches."""

    family: Kind
    reading: StrengthReading
    tried: Tried


_How = Callable[[Entry, Kind, Second], _One]


def strength_tests(crushed: Sequence[Entry], hardness: Sequence[Entry], figures: tuple[Override, ...]) -> StrengthTests:
    """What is believed of each family of mixes that was tried.

    Args:
        crushed: entries of bodies crushed and broken
        hardness: of hardness tried by hand
        figures: learned of materials and mixes
    """
    aside: Counter[str] = Counter()
    found = [each for entry in crushed if (each := _tried(_crushed, entry, figures, aside)) is not None]
    found += [each for entry in hardness if (each := _tried(_by_hand, entry, figures, aside)) is not None]
    readings: dict[str, list[StrengthReading]] = defaultdict(list)
    for each in sorted(found, key=lambda each: each.reading.day):
        readings[each.reading.mix].append(each.reading)
    of_family = {family.name: family for family in (each.family for each in found)}
    groups = {name: [each.tried for each in found if each.family.name == name] for name in of_family}
    return StrengthTests(
        readings={name: tuple(of_mix) for name, of_mix in readings.items()},
        beliefs={name: believed(tests, spreads_of(of_family[name])) for name, tests in groups.items()},
        counts={name: len(tests) for name, tests in groups.items()},
        set_aside=aside,
    )  # fmt: skip


def spreads_of(family: Kind) -> Spreads:
    """The known spreads of a family of shelf `strengths`."""
    return Spreads(*(family.value(f"{name}_spread") for name in ("family", "mix", "age", "batch")))


def _tried(how: _How, entry: Entry, figures: tuple[Override, ...], aside: Counter[str]) -> _One | None:
    name, what = entry.text("mix"), entry.text("body") or "hardness"
    mix, age = thing("mixes", name), entry.number("age")
    if mix is None:
        aside[f"{entry.kind}: no mix called {name!r} is known"] += 1
        return None
    if age is None:
        aside[f"{entry.kind} of {mix.name}: its age is not written down"] += 1
        return None
    try:
        return how(entry, taught_kind(mix, figures), age)
    except (NotFoundError, OutOfRangeError) as why:
        aside[f"{what} of {mix.name}: {why}"] += 1
        return None


def _crushed(entry: Entry, mix: Kind, age: Second) -> _One:
    prior = prior_strength(mix)
    body, steps = body_of(entry, prior), _thought(prior, entry, age)
    tried = Tried(
        mix=mix.name, batch=_batch(entry, age), over=math.log(body.strength / steps[-1].number),
        growth=growth_of(steps), noise=prior.spread("within"), body=body.body, doubt=body.doubt,
    )  # fmt: skip
    return _One(prior.family, _told(entry, mix, age, body), tried)


def _told(entry: Entry, mix: Kind, age: Second, body: Body) -> StrengthReading:
    return StrengthReading(
        mix=mix.name, day=entry.when.date().isoformat(), age=age, body=entry.text("body"), strength=body.strength,
        low=None, high=None, steps=body.working,
    )  # fmt: skip


def _thought(prior: StrengthPrior, entry: Entry, age: Second) -> tuple[Step, ...]:
    """What was thought of such a body: of a foamed one that was weighed dry, by its own density."""
    dry = entry.number("dry_density")
    weighed = prior.family.name == "foamed" and dry is not None
    strength = foamed_strength(dry) if weighed and dry is not None else prior.strength
    return aged(prior.curve, strength, (DAYS_28, age))


def _batch(entry: Entry, age: Second) -> str:
    """Bodies of one mix cast on one day are of one batch."""
    return (entry.when - timedelta(seconds=age)).date().isoformat()


def _by_hand(entry: Entry, mix: Kind, age: Second) -> _One:
    prior, sign = prior_strength(mix), _sign(entry.text("sign"))
    turned = kind("bodies", "cube").value(f"to_{prior.family.word('body')}")
    low, high = (sign.value(key) * turned if sign.has(key) else None for key in ("least", "most"))
    steps = _thought(prior, entry, age)
    thought, scatter = steps[-1].number, kind("hardness", "scatter")
    tried = Tried(
        mix=mix.name, batch=_batch(entry, age), over=0.0, growth=growth_of(steps),
        noise=scatter.value("noise"), body=_HAND, doubt=scatter.value("doubt"),
        low=None if low is None else math.log(low / thought), high=None if high is None else math.log(high / thought),
    )  # fmt: skip
    middle = math.sqrt(low * high) if low and high else low or high or thought
    reading = StrengthReading(
        mix=mix.name, day=entry.when.date().isoformat(), age=age, body=sign.word("sign"), strength=middle, low=low,
        high=high,
    )  # fmt: skip
    return _One(prior.family, reading, tried)


@cache
def _signs() -> dict[str, Kind]:
    return {each.word("sign"): each for each in shelf("hardness").values() if each.word("sign")}


def _sign(words: str) -> Kind:
    found = _signs().get(words)
    if found is None:
        raise NotFoundError(f"{words!r} is no sign of hardness")
    return found
