"""Trials out of log entries: their factors, their score, and everything else that was said of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from pinfold.logbook.cells import cell_of
from pinfold.logbook.entries import Entry
from pinfold.logbook.kinds import entry_kind
from pinfold.studies.lessons.things import Measures, thing
from pinfold.studies.trials.contents import Contents, contents_of
from pinfold.studies.trials.makeup import ratios_of
from pinfold.studies.trials.ranges import CONDITIONS
from pinfold.studies.trials.records import Factor, Trial
from pinfold.studies.trials.scoring import OVERALL, POINTS, score_of
from pinfold.tables.shelf import Kind

_SCORES = (OVERALL, *POINTS, "slump", "wet_density")
_NO_CONDITION = {"mix", "amounts", *_SCORES}


def mixes_tried(entries: Iterable[Entry]) -> tuple[Kind, ...]:
    """The mixes that trials began from, the one with the most trials first."""
    counts = Counter(
        mix for entry in entries if entry.kind == "trial" and (mix := thing("mixes", entry.text("mix"))) is not None
    )  # fmt: skip
    return tuple(sorted(counts, key=lambda mix: (-counts[mix], mix.name)))


def trial_of(entry: Entry, mix: Kind, measures: Measures, weights: Sequence[tuple[str, float]]) -> Trial:
    """One trial.

    Args:
        entry: of kind trial
        mix: it began from, as the log teaches it
        measures: of the site
        weights: of the scores, as asked for
    """
    values, lacking = ratios_of(_contents(entry, mix, measures), mix)
    for key in (*CONDITIONS, "wet_density"):
        found = entry.number(key)
        if found is not None:
            values[key] = found
    said = _words(entry)
    return Trial(
        seq=entry.seq, id=entry.id, day=entry.when.date().isoformat(), values=values, score=score_of(entry, weights),
        scores={key: said[key] for key in _SCORES if key in said},
        conditions={key: text for key, text in said.items() if key not in _NO_CONDITION}, lacking=lacking,
    )  # fmt: skip


def _contents(entry: Entry, mix: Kind, measures: Measures) -> Contents:
    amounts = entry.values.get("amounts")
    return contents_of(amounts if isinstance(amounts, tuple) else (), mix, measures)


def _words(entry: Entry) -> dict[str, str]:
    """What was typed, in the order of the form."""
    return {
        field.key: cell_of(entry.typed[field.key]) for field in entry_kind("trial").fields if field.key in entry.typed
    }  # fmt: skip


def usable(
    trials: Sequence[Trial], factors: Sequence[Factor]
) -> tuple[tuple[Trial, ...], tuple[str, ...]]:  # fmt: skip
    """Trials with a score and all factors, and why the others are set aside."""
    kept, aside = [], []
    for trial in trials:
        reason = _unusable(trial, factors)
        if reason:
            aside.append(f"entry {trial.seq} of {trial.day}: {reason}")
        else:
            kept.append(trial)
    return tuple(kept), tuple(aside)


def _unusable(trial: Trial, factors: Sequence[Factor]) -> str:
    missing = [factor for factor in factors if factor.key not in trial.values]
    reasons = [trial.lacking.get(factor.key, f"{factor.says}: not written down") for factor in missing]
    reasons += ["nothing that counts was said of how it came out"] if trial.score is None else []
    return "; ".join(dict.fromkeys(reasons))


def held_of(trials: Sequence[Trial], keys: Sequence[str], usual: Mapping[str, float]) -> dict[str, float]:
    """Values of what is no factor: the middle of the trials, else as the mix ships."""
    import numpy as np

    found = {key: [trial.values[key] for trial in trials if key in trial.values] for key in keys}
    middle = {key: float(np.median(values)) for key, values in found.items() if values}
    return {key: middle.get(key, usual[key]) for key in keys if key in middle or key in usual}
