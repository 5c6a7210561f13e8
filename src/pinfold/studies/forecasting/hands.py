"""What the log's hours say of the crew's hands: one normal linear model of all sorts of work together.

ln(time over the norm's) of an entry = crew + work + (b + work's own b) (1 + ln practice) + scatter of the day. All of
it starts from what is usual and is narrowed by every entry; a sort of work that was never timed takes over what the
crew does otherwise. By Wright's curve the time up to a share s of a job is its average over the whole job times s^b, so
the norm stands for the average of the whole job.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.formulas.learning_curves import learning_exponent, wright_time
from pinfold.logbook.works import Work
from pinfold.studies.days.records import Job
from pinfold.studies.forecasting.timed import Timed, norm_of
from pinfold.studies.lessons.records import Lesson
from pinfold.tables.shelf import kind
from pinfold.units import Ratio

Floats = NDArray[np.float64]
WORKS = tuple(Work)
_CREW, _RATE = 0, 1 + len(WORKS)
_COUNT = 2 + 2 * len(WORKS)
_STEEPEST, _FLATTEST = -0.6, 0.0
"""Exponents as far as a curve may bend: time falls by a third with each doubling, or not at all."""
_SEED = 20_260_601


@dataclass(frozen=True, kw_only=True, eq=False)
class Hands:
    """The crew's pace as it is believed.

    Attributes:
        mean: of the model's figures.
        spread: their covariance.
        counts: entries by sort of work.
    """

    mean: Floats
    spread: Floats
    counts: Mapping[Work, int]

    @cached_property
    def _root(self) -> Floats:
        values, vectors = np.linalg.eigh(self.spread)
        found: Floats = (vectors * np.sqrt(np.clip(values, 0.0, None))) @ vectors.T
        return found

    def drawn(self, times: int) -> Floats:
        """The figures as they may be, so many times; the same chance in every answer.

        Each is drawn with its mirror image, so that few drawn still have the believed figures in their middle.
        """
        half = np.random.default_rng(_SEED).standard_normal((-(-times // 2), _COUNT))
        found: Floats = self.mean + np.concatenate([half, -half])[:times] @ self._root
        return found

    def crew(self, drawn: Floats) -> Floats:
        """Of drawn figures the crew's pace at all work."""
        return drawn[:, _CREW]

    def bend(self, drawn: Floats) -> Floats:
        """Of drawn figures how fast all work is learned."""
        return drawn[:, _RATE]

    def own(self, drawn: Floats, work: Work) -> Floats:
        """Of drawn figures the pace of one sort of work apart from the crew's."""
        found: Floats = drawn[:, 1 + WORKS.index(work)]
        return found

    def rate(self, work: Work) -> tuple[Ratio, Ratio, Ratio]:
        """Time after doubling over time before, of a sort of work: likely, and one spread to either side."""
        at = _RATE_OF[work]
        middle = float(self.mean[_RATE] + self.mean[at])
        own = self.spread[np.ix_([_RATE, at], [_RATE, at])].sum()
        wide = math.sqrt(max(float(own), 0.0))
        low, high = (float(np.clip(middle + side * wide, _STEEPEST, _FLATTEST)) for side in (-1, 1))
        return 2.0 ** float(np.clip(middle, _STEEPEST, _FLATTEST)), 2.0**low, 2.0**high

    def over_norm(self, work: Work) -> tuple[Ratio, Ratio]:
        """Average over the whole job over the norm's, of a sort of work: likely, and spread as a share."""
        at = [_CREW, 1 + WORKS.index(work)]
        spread = math.sqrt(max(float(self.spread[np.ix_(at, at)].sum()), 0.0))
        return math.exp(float(self.mean[at].sum())), math.expm1(spread)


_RATE_OF = {work: _RATE + 1 + number for number, work in enumerate(WORKS)}


def factors_of(drawn: Floats, work: Work, *, before: Ratio, share: Ratio) -> Floats:
    """Time over the norm's that a share of a sort of work takes after so much practice, by drawn figures."""
    exponent = np.clip(drawn[:, _RATE] + drawn[:, _RATE_OF[work]], _STEEPEST, _FLATTEST)
    rates: Any = 2.0**exponent
    time = wright_time(first=1.0, before=before, until=before + share, rate=rates)
    found: Floats = np.exp(drawn[:, _CREW] + drawn[:, 1 + WORKS.index(work)]) * time / share
    return found


def usual_hands() -> Hands:
    """What is thought before any entry."""
    row = kind("job_rules", "hand")
    rate = row.value("rate")
    steepness = 1 / (rate * math.log(2.0))  # of the exponent for one of the rate
    spreads = np.zeros(_COUNT)
    spreads[_CREW], spreads[1 : 1 + len(WORKS)] = row.value("crew"), row.value("work")
    spreads[_RATE] = row.value("rate_spread") * steepness
    spreads[_RATE + 1 :] = row.value("own_rate_spread") * steepness
    mean = np.zeros(_COUNT)
    mean[_RATE] = learning_exponent(rate=rate)
    return Hands(mean=mean, spread=np.diag(spreads**2), counts={})


class Elsewhere(NamedTuple):
    """What another place's log says of a sort of work.

    Attributes:
        work: what sort.
        over_norm: time over the norm's.
        spread: as a share.
    """

    work: Work
    over_norm: Ratio
    spread: Ratio


def elsewhere(norms: Job, lessons: Iterable[Lesson]) -> tuple[Elsewhere, ...]:
    """What was carried here from other places, beside the norms.

    Args:
        norms: the job at the norms' times
        lessons: on pace
    """
    found = []
    for lesson in lessons:
        value, spread = lesson.prior.value, lesson.prior.spread
        norm = norm_of(norms, lesson.subject, "", lesson.per)
        if norm is not None and value and spread and norm[1] > 0:
            found.append(Elsewhere(norm[0], value / norm[1], spread / value))
    return tuple(found)


def hands_of(found: Iterable[Timed], carried: Sequence[Elsewhere] = ()) -> Hands:
    """The crew's pace after what was timed: the normal posterior in closed form.

    Args:
        found: entries beside the norms, in any order
        carried: what other places' logs say
    """
    hands = usual_hands()
    if carried:
        times = np.log([each.over_norm for each in carried])
        rows = _rows([each.work for each in carried], np.zeros(len(carried)))
        hands = _after(hands, rows, times, np.array([each.spread for each in carried]))
    listed = tuple(found)
    if not listed:
        return hands
    bend = 1.0 + np.log([each.practice for each in listed])
    times = np.log([each.took / each.due for each in listed])
    scatter = np.full(len(listed), kind("job_rules", "hand").value("day"))
    hands = _after(hands, _rows([each.work for each in listed], bend), times, scatter)
    return replace(hands, counts=Counter(each.work for each in listed))


def _after(before: Hands, rows: Floats, times: Floats, scatter: Floats) -> Hands:
    sure, weighed = np.linalg.inv(before.spread), rows / scatter[:, None] ** 2
    spread = np.linalg.inv(sure + weighed.T @ rows)
    return Hands(mean=spread @ (sure @ before.mean + weighed.T @ times), spread=(spread + spread.T) / 2, counts={})


def _rows(works: Sequence[Work], bend: Floats) -> Floats:
    numbers = np.array([WORKS.index(work) for work in works])
    rows, lines = np.zeros((len(works), _COUNT)), np.arange(len(works))
    rows[:, _CREW] = 1.0
    rows[lines, 1 + numbers] = 1.0
    rows[:, _RATE] = bend
    rows[lines, _RATE + 1 + numbers] = bend
    return rows
