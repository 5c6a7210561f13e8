"""How much of the foam collapses, by what went into foamed batches and what they weighed."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import replace

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import corrections
from pinfold.logbook.carried import Carried
from pinfold.logbook.entries import Amount, Entry
from pinfold.studies.batching.loose import parts_of, water_density
from pinfold.studies.batching.sand import moisture_of
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.belief import Learned
from pinfold.studies.lessons.borrowing import Member, learned_in_family
from pinfold.studies.lessons.carried import carried_lesson, prior_here
from pinfold.studies.lessons.habits import LOSS_SPREAD, LOSS_WITHIN
from pinfold.studies.lessons.records import Lesson, Override, Prior, Reading, Taught, Topic
from pinfold.studies.lessons.telling import by_others, entries, learned_figure, lesson_of, with_spread
from pinfold.studies.lessons.things import Measures, part_named, thing
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import RATIO, CubicMeter, Kilogram, Ratio, System, percent

_LEAST: Ratio = -0.3
_MOST: Ratio = 0.9
"""A loss outside is a slip in what was written down."""


class _NoUseError(Exception):
    """Why an entry cannot be used; never leaves this module."""


def foam_losses(
    mixed: Sequence[Entry], measures: Measures, figures: tuple[Override, ...], carried: Carried, system: System
) -> Taught:
    """How much of the foam of each foamed mix collapses.

    Args:
        mixed: entries of batches
        measures: of the site
        figures: learned of the materials
        carried: lessons of other places
        system: of the plan
    """
    aside: Counter[str] = Counter()
    groups: dict[Kind, list[Reading]] = defaultdict(list)
    steps: dict[Kind, Step] = {}
    for entry in mixed:
        mix = thing("mixes", entry.text("mix"))
        if mix is None or mix.word("yield_method") != "foamed" or entry.number("wet_density") is None:
            continue
        try:
            steps[mix] = _loss(entry, taught_kind(mix, figures), measures)
        except (_NoUseError, NotFoundError, OutOfRangeError) as why:
            aside[f"foam of {mix.name}: {why}"] += 1
            continue
        groups[mix].append(Reading(steps[mix].number, entry.when.date().isoformat()))
    alike = [mix for mix in shelf("mixes").values() if mix.word("yield_method") == "foamed"]
    priors = {mix: prior_here(_prior(mix), Topic.FOAM, mix.name, carried, system=system) for mix in alike}
    believed = learned_in_family({mix: Member(priors[mix], groups.get(mix, ())) for mix in alike})
    taught = [_lesson(priors[mix], of_it, (believed[mix], steps[mix]), (mix, system)) for mix, of_it in groups.items()]
    everything = [reading for of_it in groups.values() for reading in of_it]
    others = [mix for mix in alike if mix not in groups and (groups or priors[mix].shipped)]
    borrowed = [_borrowed(mix, believed[mix], priors[mix], everything, system) for mix in others]
    brought = [_brought(mix, believed[mix], priors[mix], (carried, system)) for mix in others if priors[mix].shipped]
    return Taught(
        lessons=(*(lesson for lesson, _ in taught), *brought), figures=(*(figure for _, figure in taught), *borrowed),
        set_aside=aside,
    )  # fmt: skip


def _brought(mix: Kind, learned: Learned, prior: Prior, of: tuple[Carried, System]) -> Lesson:
    lost = with_spread(max(learned.value, 0.0), learned.spread, RATIO, of[1])
    told = f"{lost} of the foam of {mix.name} collapses when it is folded in"
    return carried_lesson(learned, prior, Topic.FOAM, mix.name, of[0], told=told, used="foam to make")


def _prior(mix: Kind) -> Prior:
    usual = mix.figure("foam_loss")
    return Prior(
        value=usual.value, spread=LOSS_SPREAD, within=LOSS_WITHIN, unit=RATIO, figure=usual, says="usual for foam"
    )


def _borrowed(mix: Kind, learned: Learned, prior: Prior, others: Sequence[Reading], system: System) -> Override:
    """What of the foam of a mix that was never weighed here is taken to collapse."""
    told = (
        f"no batch of {mix.name} was weighed; by {by_others(others, prior, 'other foamed mixes')} "
        f"{with_spread(max(learned.value, 0.0), learned.spread, RATIO, system)} of its foam is taken to collapse."
    )
    return _override(mix, learned_figure(learned, prior, others, system), told)


def _override(mix: Kind, figure: Figure, told: str) -> Override:
    return Override(
        "mixes", mix.name, "foam_loss", replace(figure, value=max(figure.value, 0.0)), f"Your log: {told}"
    )  # fmt: skip


def _loss(entry: Entry, mix: Kind, measures: Measures) -> Step:
    density = entry.number("wet_density")
    amounts = entry.values.get("amounts")
    assert density is not None
    if not isinstance(amounts, tuple) or not amounts:
        raise _NoUseError("its density was taken, but what went in was not written down")
    slurry, room = _slurry(mix, amounts, measures)
    foam = sum(_foam(amount, measures) for amount in amounts if _is(amount, "foam"))
    if not foam:
        raise _NoUseError("its density was taken, but not how much foam went in")
    step = work(
        corrections.foam_lost, why="foam that collapsed, last batch", slurry=room, slurry_density=slurry / room,
        foam=foam, foam_density=mix.value("foam_density"), density=density,
    )  # fmt: skip
    if not _LEAST <= step.number <= _MOST:
        raise _NoUseError(
            f"by its weight {percent(step.number)} of the foam would be gone; something was written down wrong"
        )
    return step


def _is(amount: Amount, item: str) -> bool:
    return amount.item.strip().casefold() == item


def _foam(amount: Amount, measures: Measures) -> CubicMeter:
    volume = measures.volume(amount)
    if volume is None:
        raise _NoUseError("its foam was not written down by volume")
    return volume


def _slurry(mix: Kind, amounts: Sequence[Amount], measures: Measures) -> tuple[Kilogram, CubicMeter]:
    """Mass and room of all but the foam."""
    parts = dict(parts_of(mix))
    mass = room = 0.0
    found: set[str] = set()
    for amount in amounts:
        part = "water" if _is(amount, "water") else part_named(amount.item, parts.items())
        if not part:
            continue
        heavy, takes = _water(amount, measures) if part == "water" else _part(amount, parts[part], measures)
        mass, room = mass + heavy, room + takes
        found.add(part)
    if found != {*parts, "water"}:
        raise _NoUseError("its density was taken, but not all that went in was written down")
    return mass, room


def _water(amount: Amount, measures: Measures) -> tuple[Kilogram, CubicMeter]:
    volume = amount.amount / water_density() if amount.measure == "kg" else measures.volume(amount)
    if volume is None:
        raise _NoUseError("its water was not written down by volume or weight")
    return volume * water_density(), volume


def _part(amount: Amount, material: Kind, measures: Measures) -> tuple[Kilogram, CubicMeter]:
    """Mass as it lies and room, of sand with the water it brings."""
    damp = moisture_of(material, measures.mixing.sand_bulking) if material.has("bulking_low") else 0.0
    mass = measures.mass(amount, material)
    if mass is None:
        loose = measures.volume(amount)
        if loose is None:
            raise _NoUseError(f"how much {amount.item} went in cannot be told")
        mass = loose * material.value("bulk_density") * (1 + damp)
    dry = mass / (1 + damp)
    return mass, dry / material.value("particle_density") + dry * damp / water_density()


def _lesson(
    prior: Prior, readings: Sequence[Reading], found: tuple[Learned, Step], of: tuple[Kind, System]
) -> tuple[Lesson, Override]:  # fmt: skip
    (learned, step), (mix, system) = found, of
    told = (
        f"{with_spread(learned.value, learned.spread, RATIO, system)} of the foam of {mix.name} collapses when it is "
        f"folded in, by {entries(len(readings))}."
    )
    lesson = lesson_of(
        learned, prior, readings, topic=Topic.FOAM, subject=mix.name, told=told, used="foam to make",
        before=(step,),
    )  # fmt: skip
    return lesson, _override(mix, learned_figure(learned, prior, readings, system), told)
