"""What batches truly gave, beside what the rule of their mix says."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import concrete_batch, learning
from pinfold.logbook.carried import Carried
from pinfold.logbook.entries import Amount, Entry
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.loose import parts_of, water_density
from pinfold.studies.batching.records import Charge, Ingredient
from pinfold.studies.batching.sand import moisture_of
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.belief import Learned
from pinfold.studies.lessons.borrowing import Member, learned_in_family
from pinfold.studies.lessons.carried import carried_lesson, prior_here
from pinfold.studies.lessons.habits import PROPORTIONS, YIELD_SPREAD, YIELD_WITHIN
from pinfold.studies.lessons.records import Lesson, Override, Prior, Reading, Taught, Topic
from pinfold.studies.lessons.telling import by_others, entries, learned_figure, lesson_of, with_spread
from pinfold.studies.lessons.things import Measures, part_named, thing
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import RATIO, CubicMeter, Kilogram, Ratio, System


class _NoUseError(Exception):
    """Why an entry cannot be used; never leaves this module."""


def yields(
    mixed: Sequence[Entry], measures: Measures, figures: tuple[Override, ...], carried: Carried, system: System
) -> Taught:
    """What a batch of each mix gave over what its rule says.

    Args:
        mixed: entries of batches
        measures: of the site
        figures: learned of the materials
        carried: lessons of other places
        system: of the plan
    """
    aside: Counter[str] = Counter()
    groups: dict[Kind, list[Reading]] = defaultdict(list)
    steps: dict[Kind, tuple[Step, ...]] = {}
    for entry in mixed:
        if entry.number("made") is None and entry.number("wet_density") is None:
            continue
        mix = thing("mixes", entry.text("mix"))
        if mix is None:
            aside[f"batch: no mix called {entry.text('mix')!r} is known"] += 1
            continue
        if mix.word("yield_method") == "foamed":  # it makes what its density says; what that teaches is foam_losses
            continue
        try:
            ratio, steps[mix] = _ratio(entry, taught_kind(mix, figures), measures)
        except (_NoUseError, NotFoundError, OutOfRangeError) as why:
            aside[f"batch of {mix.name}: {why}"] += 1
            continue
        groups[mix].append(Reading(ratio, entry.when.date().isoformat()))
    priors = {mix: prior_here(_PRIOR, Topic.YIELD, mix.name, carried, system=system) for mix in _alike(groups, carried)}
    believed = {mix: each for family in _families(priors, groups) for mix, each in learned_in_family(family).items()}
    taught = [_lesson(priors[mix], mix, groups[mix], (believed[mix], steps[mix]), system) for mix in groups]
    others = [mix for mix in believed if mix not in groups and _is_told(mix, priors[mix], groups)]
    borrowed = [_borrowed(mix, believed[mix], priors[mix], groups, system) for mix in others]
    brought = [_brought(mix, believed[mix], priors[mix], (carried, system)) for mix in others if priors[mix].shipped]
    return Taught(
        lessons=(*(lesson for lesson, _ in taught), *brought), figures=(*(figure for _, figure in taught), *borrowed),
        set_aside=aside,
    )  # fmt: skip


def _alike(groups: Mapping[Kind, Sequence[Reading]], carried: Carried) -> tuple[Kind, ...]:
    """All shipped mixes of each family of which any was measured here or elsewhere."""
    elsewhere = [thing("mixes", name) for name, _ in carried.subjects(Topic.YIELD)]
    families = {mix.word("family") for mix in (*groups, *elsewhere) if mix is not None}
    return tuple(
        mix for mix in shelf("mixes").values()
        if mix.word("family") in families and mix.word("yield_method") != "foamed"
    )  # fmt: skip


def _families(priors: Mapping[Kind, Prior], groups: Mapping[Kind, Sequence[Reading]]) -> Iterator[dict[Kind, Member]]:
    """Family by family, mixes with what was thought and what was read of them."""
    for name in dict.fromkeys(mix.word("family") for mix in priors):
        yield {mix: Member(of, groups.get(mix, ())) for mix, of in priors.items() if mix.word("family") == name}


def _is_told(mix: Kind, prior: Prior, groups: Mapping[Kind, Sequence[Reading]]) -> bool:
    """Whether anything is known of a mix that was never measured here: by its family, or from elsewhere."""
    return prior.shipped is not None or any(other.word("family") == mix.word("family") for other in groups)


def _brought(mix: Kind, learned: Learned, prior: Prior, of: tuple[Carried, System]) -> Lesson:
    makes = with_spread(learned.value, learned.spread, RATIO, of[1])
    told = f"A batch of {mix.name} makes {makes} of what its rule says"
    return carried_lesson(learned, prior, Topic.YIELD, mix.name, of[0], told=told, used=_USED)


_USED = "what a batch makes, number of batches"
_PRIOR = Prior(value=1.0, spread=YIELD_SPREAD, within=YIELD_WITHIN, unit=RATIO, figure=None, says="the rule of the mix")


def _borrowed(
    mix: Kind, learned: Learned, prior: Prior, groups: Mapping[Kind, Sequence[Reading]], system: System
) -> Override:  # fmt: skip
    """What a mix that was never measured here is taken to make."""
    family = mix.word("family")
    others = [reading for other, of_it in groups.items() if other.word("family") == family for reading in of_it]
    told = (
        f"no batch of {mix.name} was measured; by {by_others(others, prior, f'other mixes of the family {family}')} it "
        f"is taken to make {with_spread(learned.value, learned.spread, RATIO, system)} of what its rule says."
    )
    return Override(
        "mixes", mix.name, "yield_ratio", learned_figure(learned, prior, others, system), f"Your log: {told}"
    )


def _ratio(entry: Entry, mix: Kind, measures: Measures) -> tuple[Ratio, tuple[Step, ...]]:
    charge = charge_of(mix, measures.mixing)
    amounts = entry.values.get("amounts")
    given = amounts if isinstance(amounts, tuple) else ()
    if not given:  # the card it was mixed by may have been another one then
        raise _NoUseError("what it gave was written down, but not what went in")
    share = _share_of(charge, mix, given, measures)
    made, steps = _made(entry, mix, given, measures)
    ratio = work(learning.yield_ratio, why="given over reckoned, last batch", made=made, reckoned=charge.makes * share)
    return ratio.number, (*steps, ratio)


def _made(
    entry: Entry, mix: Kind, amounts: Sequence[Amount], measures: Measures
) -> tuple[CubicMeter, tuple[Step, ...]]:  # fmt: skip
    made = entry.number("made")
    if made is not None:
        return made, ()
    density = entry.number("wet_density")
    assert density is not None
    whole = _whole_mass(mix, amounts, measures)
    step = work(concrete_batch.yield_volume, why="made, by weight, last batch", batch=whole, density=density)
    return step.number, (step,)


def _whole_mass(mix: Kind, amounts: Sequence[Amount], measures: Measures) -> Kilogram:
    """Mass of everything that went in, water too."""
    parts = dict(parts_of(mix))
    masses: dict[str, float] = {}
    for amount in amounts:
        part = "water" if amount.item.strip().casefold() == "water" else part_named(amount.item, parts.items())
        mass = _water_mass(amount) if part == "water" else measures.mass(amount, parts[part]) if part else None
        if mass is None:
            raise _NoUseError("its density was taken, but not all that went in was weighed")
        masses[part] = masses.get(part, 0.0) + mass
    if set(masses) != {*parts, "water"}:
        raise _NoUseError("its density was taken, but not all that went in was written down")
    return math.fsum(masses.values())


def _water_mass(amount: Amount) -> Kilogram | None:
    if amount.measure == "kg":
        return amount.amount
    return amount.amount * water_density() if amount.measure == "m3" else None


def _share_of(charge: Charge, mix: Kind, amounts: Sequence[Amount], measures: Measures) -> Ratio:
    """How many charges of the card went in, by each part that was written down; they must agree."""
    parts = parts_of(mix)
    sums: dict[str, float] = {}
    for amount in amounts:
        part = part_named(amount.item, parts)
        if not part:
            continue
        share = _share(charge.part(part), amount, measures)
        if share is None:
            raise _NoUseError(f"how much {part.replace('_', ' ')} went in cannot be told")
        sums[part] = sums.get(part, 0.0) + share
    if not sums:
        raise _NoUseError("none of its parts was written down")
    shares = sorted(sums.values())
    if shares[-1] > PROPORTIONS * shares[0]:
        raise _NoUseError("it was mixed in other proportions")
    lead = next(part for part, _ in parts if part in sums)
    return sums[lead]


def _share(ingredient: Ingredient, amount: Amount, measures: Measures) -> Ratio | None:
    mass = measures.mass(amount, ingredient.kind)
    if mass is not None:
        return _dry(mass, ingredient.kind, measures) / ingredient.mass
    loose = measures.volume(amount)
    return None if loose is None else loose / ingredient.loose


def _dry(mass: Kilogram, material: Kind, measures: Measures) -> Kilogram:
    if not material.has("bulking_low"):
        return mass
    return mass / (1 + moisture_of(material, measures.mixing.sand_bulking))


def _lesson(
    prior: Prior, mix: Kind, readings: Sequence[Reading], found: tuple[Learned, tuple[Step, ...]], system: System
) -> tuple[Lesson, Override]:  # fmt: skip
    learned, steps = found
    told = (
        f"A batch of {mix.name} makes {with_spread(learned.value, learned.spread, RATIO, system)} of what its rule "
        f"says, by {entries(len(readings))}."
    )
    lesson = lesson_of(
        learned, prior, readings, topic=Topic.YIELD, subject=mix.name, told=told,
        used=_USED, before=steps,
    )  # fmt: skip
    figure = learned_figure(learned, prior, readings, system)
    return lesson, Override("mixes", mix.name, "yield_ratio", figure, f"Your log: {told}")
