"""What the trials of one mix show, and the next ones worth making."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from pinfold.errors import InputError, InvalidPlan
from pinfold.logbook.entries import Entry
from pinfold.studies.lessons.things import Measures, thing
from pinfold.studies.trials.alike import contradictions, noise_of
from pinfold.studies.trials.choosing import ENOUGH
from pinfold.studies.trials.factors import Choice, chosen
from pinfold.studies.trials.makeup import ADDED, WATERS, keys_of, usual_of
from pinfold.studies.trials.proposing import Bench, Known, proposals
from pinfold.studies.trials.ranges import counted, factors_of, named, wider
from pinfold.studies.trials.reading import held_of, trial_of, usable
from pinfold.studies.trials.records import Asked, Best, Factor, Trial, TrialsTold
from pinfold.studies.trials.responses import responses_of, unknown_share
from pinfold.studies.trials.scoring import OVERALL, weights_of
from pinfold.studies.trials.surface import Noise, Surface, seen_of, surface_of
from pinfold.tables.shelf import Kind
from pinfold.units import System

_EARLY = 7 * 86400.0
"""Cracks looked at sooner than this may still come."""


@dataclass(frozen=True, kw_only=True)
class _Read:
    """Trials with the factors that are looked at, and all there are."""

    trials: tuple[Trial, ...]
    factors: tuple[Factor, ...]
    known: tuple[Factor, ...]
    notes: tuple[str, ...]
    set_aside: tuple[str, ...]


def trials_told(
    entries: Iterable[Entry], mix: Kind, asked: Asked, *, measures: Measures, system: System
) -> TrialsTold:  # fmt: skip
    """All that the trials of a mix show.

    Args:
        entries: of kind trial that stand, of any mix
        mix: they began from, as the log teaches it
        asked: what the builder wants looked at
        measures: of the site
        system: of the plan

    Raises:
        NotFoundError: trials of such a mix cannot be compared.
        InvalidPlan: factors or weights that cannot be.
    """
    weights = _checked(mix, asked)
    own = sorted((entry for entry in entries if _began_from(entry, mix)), key=lambda entry: (entry.when, entry.seq))
    read = _read([trial_of(entry, mix, measures, asked.weights) for entry in own], mix, asked)
    noise, repeats = noise_of(read.trials, read.factors)
    surface = _surface(read, noise)
    best = _best(read, surface)
    held = held_of(read.trials, _kept(mix, read.factors), usual_of(mix))
    bench = Bench(
        mix=mix, factors=read.factors, makeup=read.known, held=held, measures=measures, system=system
    )  # fmt: skip
    against = contradictions(read.trials, read.factors)
    known = Known(trials=read.trials, surface=surface, best=best, contradictions=against)
    return TrialsTold(
        mix=mix, trials=read.trials, factors=read.factors, all_factors=read.known, held=held, weights=weights,
        noise=surface.noise if surface else noise.spread, repeats=repeats, best=best,
        responses=responses_of(surface, read.factors, best.trial) if surface and best else (),
        unknown=unknown_share(surface) if surface else None,
        contradictions=against, next=proposals(bench, known, many=asked.many), filling=surface is None,
        notes=(*read.notes, *_notes(own, read, surface, best, asked)), set_aside=read.set_aside,
    )  # fmt: skip


def _checked(mix: Kind, asked: Asked) -> Mapping[str, float]:
    """The weights to use; what is wrong with them and with the factors asked for is told at once."""
    weights: Mapping[str, float] = {}
    complaints: list[InputError] = []
    try:
        named(factors_of(mix, ADDED), asked.factors)
    except InvalidPlan as wrong:
        complaints += wrong.problems
    try:
        weights = weights_of(asked.weights)
    except InvalidPlan as wrong:
        complaints += wrong.problems
    if complaints:
        raise InvalidPlan("what is asked of the trials", complaints)
    return weights


def _began_from(entry: Entry, mix: Kind) -> bool:
    found = thing("mixes", entry.text("mix"))
    return found is not None and found.name == mix.name


def _read(trials: Sequence[Trial], mix: Kind, asked: Asked) -> _Read:
    """The trials that can be used with the factors looked at; those are chosen among trials that tell of a makeup."""
    told = {key for trial in trials for key in trial.values} | set(asked.factors)
    known = factors_of(mix, tuple(name for name in ADDED if name in told))
    telling = [trial for trial in trials if trial.values]
    choice = Choice(named(known, asked.factors), ()) if asked.factors else chosen(telling, counted(known, mix))
    factors, notes = _widened(choice, telling) if asked.outside else choice
    kept, aside = usable(trials, factors)
    return _Read(trials=kept, factors=factors, known=known, notes=notes, set_aside=aside)


def _widened(choice: Choice, trials: Sequence[Trial]) -> Choice:
    told = {factor.key: tuple(each.values[factor.key] for each in trials if factor.key in each.values)
            for factor in choice.factors}  # fmt: skip
    factors = tuple(wider(factor, seen=told[factor.key]) for factor in choice.factors)
    return Choice(
        factors, (*choice.notes, "The ranges are left on both sides, as asked: no publication speaks for that.")
    )


def _kept(mix: Kind, factors: Sequence[Factor]) -> list[str]:
    """What makes up the mix and is no factor; water counted another way is no second water."""
    keys = {factor.key for factor in factors}
    keys |= set(WATERS) if keys & set(WATERS) else set()
    return [key for key in keys_of(mix) if key not in keys]


def places_of(trials: Sequence[Trial], factors: Sequence[Factor]) -> list[tuple[float, ...]]:
    """Trials as places in the ranges."""
    return [tuple(factor.share(trial.values[factor.key]) for factor in factors) for trial in trials]


def _surface(read: _Read, noise: Noise) -> Surface | None:
    if len(read.trials) < ENOUGH:
        return None
    scores = [trial.score for trial in read.trials if trial.score is not None]
    return surface_of(seen_of(places_of(read.trials, read.factors), scores), noise)


def _best(read: _Read, surface: Surface | None) -> Best | None:
    """The best trial by all that is known; one inside the ranges before any outside."""
    if not read.trials:
        return None
    places = places_of(read.trials, read.factors)
    means = surface.mean_at(np.array(places)) if surface else [trial.score or 0.0 for trial in read.trials]
    inside = [all(factor.holds(trial.values[factor.key]) for factor in read.factors) for trial in read.trials]
    order = sorted(range(len(places)), key=lambda at: (not inside[at], -float(means[at]), read.trials[at].seq))
    first = order[0]
    return Best(
        trial=read.trials[first], mean=float(means[first]), inside=inside[first],
        spread=float(surface.at(np.array(places[first : first + 1]))[1][0]) if surface else None,
    )  # fmt: skip


def _notes(
    entries: Sequence[Entry], read: _Read, surface: Surface | None, best: Best | None, asked: Asked
) -> tuple[str, ...]:  # fmt: skip
    return tuple(
        note for note, so in (
            (_FEW.format(count=len(read.trials), enough=ENOUGH), surface is None),
            ("All scores are the same: nothing tells yet which way is better.", _all_alike(read.trials)),
            ("The search for the surface did not come to rest; take its numbers as rough.",
             surface is not None and not surface.settled),
            ("The best trial lies outside the range, and what is proposed inside it: see what the range is for before "
             "you build with it.", best is not None and not best.inside),
            ("Cracks looked at within a week may still come: look again and correct the entry.", _early(entries)),
            ("Some trials have a score all in all and some only words: both are on one scale, yet not the same thing.",
             not asked.weights and _mixed(read.trials)),
        )
        if so
    )  # fmt: skip


_FEW = (
    "With {count} of {enough} trials that can be used nothing is reckoned yet: what is proposed fills the ranges, as "
    "far as can be from what was tried."
)


def _all_alike(trials: Sequence[Trial]) -> bool:
    return len(trials) > 1 and len({trial.score for trial in trials}) == 1


def _early(entries: Sequence[Entry]) -> bool:
    return any(
        entry.text("cracks") in ("none", "hair") and (after := entry.number("looked_after")) is not None
        and after < _EARLY
        for entry in entries
    )  # fmt: skip


def _mixed(trials: Sequence[Trial]) -> bool:
    return len({OVERALL in trial.scores for trial in trials}) > 1
