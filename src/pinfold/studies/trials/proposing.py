"""The next trials worth making, as batches that can be measured out."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas.trials import chance_better, expected_gain
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.records import Charge
from pinfold.studies.lessons.things import Measures
from pinfold.studies.trials.choosing import ALIKE, expected_at, spread_out, spread_over, worth_most
from pinfold.studies.trials.makeup import WATERS, keys_of, mix_with
from pinfold.studies.trials.measuring import Ranges, measured
from pinfold.studies.trials.records import Best, Contradiction, Expected, Factor, NextTrial, Trial
from pinfold.studies.trials.surface import Surface
from pinfold.tables.shelf import Kind
from pinfold.units import System

_SPARE = 5
"""Places chosen beyond those wanted, for those that no bucket can measure."""
_NOISY = 0.5
"""From this share of what the factors change on, alike trials scatter so much that the best had better be repeated."""
_HAIR = 1e-9
_NEAR = (-2, -1, 1, 2)
"""Steps from the best trial that are offered along each factor."""


@dataclass(frozen=True, kw_only=True)
class Bench:
    """What proposals are measured out of.

    Attributes:
        mix: trials began from.
        factors: that are changed.
        makeup: ranges of all that makes it up, as published.
        held: values of the rest of it.
        measures: of the site.
        system: of the plan.
    """

    mix: Kind
    factors: tuple[Factor, ...]
    makeup: tuple[Factor, ...]
    held: Mapping[str, float]
    measures: Measures
    system: System


@dataclass(frozen=True, kw_only=True)
class Known:
    """What is known when the next trials are sought.

    Attributes:
        trials: so far.
        surface: through them; None where they are too few.
        best: of them.
        contradictions: among them.
    """

    trials: tuple[Trial, ...]
    surface: Surface | None
    best: Best | None
    contradictions: tuple[Contradiction, ...]


def proposals(bench: Bench, known: Known, *, many: int) -> tuple[NextTrial, ...]:
    """Trials worth making next, the most first; fewer than wanted where no more can be measured out.

    Args:
        bench: what they are measured out of
        known: from the trials so far
        many: how many are wanted
    """
    again = _repeat(bench, known) if many > 1 else None
    fresh = _fresh(bench, known, many=many + _SPARE)
    found: list[NextTrial] = []
    for values, why in fresh:
        made = _made(bench, known, values, why)
        if made is not None and not any(_are_alike(bench, made, each) for each in found):
            found.append(made)
        if len(found) == many - (again is not None):
            break
    found.sort(key=lambda each: -each.expected.gain if each.expected else 0.0)
    return (*found, *([again] if again is not None else ()))


def _are_alike(bench: Bench, one: NextTrial, other: NextTrial) -> bool:
    """Whether two proposals came to the same once they were measured out."""
    return all(
        abs(factor.share(one.values[factor.key]) - factor.share(other.values[factor.key])) <= ALIKE
        for factor in bench.factors
    )


def _fresh(bench: Bench, known: Known, *, many: int) -> Iterator[tuple[dict[str, float], str]]:
    """Values of the factors worth trying, the most first."""
    offered = _offered(bench.factors, known)
    places = np.array([[factor.share(value) for factor, value in zip(bench.factors, row, strict=True)]
                       for row in offered])  # fmt: skip
    taken = [tuple(factor.share(trial.values[factor.key]) for factor in bench.factors) for trial in known.trials]
    if known.surface is None or known.best is None:
        start = [dict(row) for row in _usual(bench.factors)] if not taken else []
        yield from ((values, "fill") for values in start)
        taken += [tuple(factor.share(values[factor.key]) for factor in bench.factors) for values in start]
        indices, why = spread_out(taken, places, many=many), "fill"
    else:
        indices = worth_most(known.surface, places, best=known.best.mean, many=many)
        why = "gain"
    keys = [factor.key for factor in bench.factors]
    yield from ((dict(zip(keys, offered[index], strict=True)), why) for index in indices)


def _usual(factors: Sequence[Factor]) -> list[dict[str, float]]:
    """The mix as it ships, where its ranges hold it; what it says nothing of in the middle."""
    values = {
        factor.key: (factor.low + factor.high) / 2 if factor.usual is None else factor.usual for factor in factors
    }  # fmt: skip
    return [values] if all(factor.holds(values[factor.key]) for factor in factors) else []


def _offered(factors: Sequence[Factor], known: Known) -> list[tuple[float, ...]]:
    """Values that can be measured, over the whole ranges and finely about the best trial."""
    spread = spread_over(len(factors))
    rows = {
        tuple(_snapped(factor.low + share * (factor.high - factor.low), factor)
              for factor, share in zip(factors, row, strict=True))
        for row in spread
    }  # fmt: skip
    return sorted(rows | set(_about(factors, known)))


def _about(factors: Sequence[Factor], known: Known) -> Iterator[tuple[float, ...]]:
    if known.best is None:
        return
    best = [known.best.trial.values[factor.key] for factor in factors]
    for at, factor in enumerate(factors):
        for steps in _NEAR:
            moved = [*best[:at], best[at] + steps * factor.step, *best[at + 1 :]]
            yield tuple(_snapped(value, each) for value, each in zip(moved, factors, strict=True))


def _snapped(value: float, factor: Factor) -> float:
    """The nearest whole step inside the range; the end of a range that holds no step."""
    low, high = math.ceil(factor.low / factor.step - _HAIR), math.floor(factor.high / factor.step + _HAIR)
    if low > high:
        return min(max(value, factor.low), factor.high)
    return min(max(min(max(round(value / factor.step), low), high) * factor.step, factor.low), factor.high)


def _repeat(bench: Bench, known: Known) -> NextTrial | None:
    """The best trial once more, where alike trials scatter much or it contradicts another."""
    if known.surface is None or known.best is None or not known.best.inside:
        return None
    noisy = known.surface.noise > _NOISY * known.surface.signal
    doubted = any(known.best.trial in (each.higher, each.lower) for each in known.contradictions)
    if not noisy and not doubted:
        return None
    best = known.best.trial.values
    values = {key: best[key] for key in dict.fromkeys((*_keys(bench), *bench.held)) if key in best}
    return _made(bench, known, values, "repeat")


def _keys(bench: Bench) -> tuple[str, ...]:
    return tuple(factor.key for factor in bench.factors)


def _made(bench: Bench, known: Known, values: Mapping[str, float], why: str) -> NextTrial | None:
    """A proposal as a batch; None where it cannot be mixed or measured out."""
    whole = {**bench.held, **values}
    charge = _charge(bench, whole)
    made = None if charge is None else measured(
        charge, bench.mix, whole, Ranges(bench.factors, bench.makeup), bench.measures, system=bench.system
    )  # fmt: skip
    if charge is None or made is None:
        return None
    true = whole | {key: value for key, value in made.ratios.items() if key in whole}
    expected = _expected(bench, known, true)
    return NextTrial(
        values=true, why=why, expected=expected, charge=charge, amounts=made.amounts, outside=_outside(bench, true),
        working=_working(expected, known.best),
    )  # fmt: skip


def _charge(bench: Bench, values: Mapping[str, float]) -> Charge | None:
    ratios = {key: values[key] for key in dict.fromkeys((*keys_of(bench.mix), *WATERS)) if key in values}
    try:
        return charge_of(mix_with(bench.mix, ratios), bench.measures.mixing)
    except (NotFoundError, OutOfRangeError):
        return None


def _expected(bench: Bench, known: Known, values: Mapping[str, float]) -> Expected | None:
    if known.surface is None or known.best is None:
        return None
    place = [factor.share(values[factor.key]) for factor in bench.factors]
    return expected_at(known.surface, place, known.best.mean)


def _working(expected: Expected | None, best: Best | None) -> tuple[Step, ...]:
    """How gain and chance follow from what is expected."""
    if expected is None or best is None:
        return ()
    known = {"mean": expected.mean, "spread": expected.spread, "best": best.mean}
    return (work(expected_gain, why="what it may gain", **known), work(chance_better, why="how likely", **known))


def _outside(bench: Bench, values: Mapping[str, float]) -> tuple[str, ...]:
    """Factors that lie outside the ranges as published."""
    return tuple(
        factor.says for factor in bench.makeup if factor.key in _keys(bench) and not factor.holds(values[factor.key])
    )  # fmt: skip
