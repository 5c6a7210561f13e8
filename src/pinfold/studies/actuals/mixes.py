"""Batches against the plan: done again, laid thicker, a batch that gives less, batches thrown away, waste."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, partial
from typing import NamedTuple

from pinfold.logbook.entries import Entry
from pinfold.logbook.works import Work, named_works
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.actuals.done import Done
from pinfold.studies.actuals.ladder import Rung, reasons
from pinfold.studies.actuals.records import UNEXPLAINED, MixAgainst
from pinfold.studies.days.records import Dose, Task
from pinfold.studies.lessons.coverage import coat_of

WASTE = "waste: mix that thickness and yield do not account for"


class Place(NamedTuple):
    """What batches are counted for.

    Attributes:
        layer: of the build-up.
        run: where.
        mix: which.
        coat: kind of coat; empty for all else.
    """

    layer: str
    run: str
    mix: str
    coat: str


@dataclass(kw_only=True)
class _Tally:
    """What the log says of one place."""

    count: float = 0.0
    thrown: float = 0.0
    made: list[tuple[float, float]] = field(default_factory=list)
    used: float = 0.0
    area: float = 0.0
    again: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    thick: list[tuple[float, float]] = field(default_factory=list)

    def take_batch(self, entry: Entry, share: float) -> None:
        """A share of what an entry of batches says."""
        count, made = (entry.number("batches") or 1.0) * share, entry.number("made")
        self.count += count
        self.thrown += (entry.number("thrown") or 0.0) * share
        if made:
            self.made.append((count, made))

    def take_coat(self, entry: Entry, share: float) -> None:
        """A share of what an entry of a coat says."""
        area, thickness, cause = (entry.number("area") or 0.0) * share, entry.number("thickness"), entry.text("again")
        self.used += (entry.number("batches") or 0.0) * share
        if cause:
            self.again[cause] += area
        else:
            self.area += area
        if thickness:
            self.thick.append((area, thickness))

    @property
    def mixed(self) -> float | None:
        """Batches, by their own entries or those of the coats, whichever tell more; None where neither do."""
        most = max(self.count, self.used)
        return most if most > 0 else None


class _Planned(NamedTuple):
    work: Work
    pairs: tuple[tuple[Task, Dose], ...]


def mixes_against(done: Done, entries: Iterable[Entry], plan: Enclosure) -> tuple[MixAgainst, ...]:
    """Batches of each mix in each layer of each run beside the plan.

    Args:
        done: the job by the plan's own figures and how far it is
        entries: of the log, those that stand
        plan: with its coats
    """
    places = _places(done)
    tallies = {place: _Tally() for place in places}
    shares = cache(partial(_shares, done, places))  # a long log asks for the same few again and again
    for entry in entries:
        if entry.kind == "batch":
            for place, share in shares(entry.text("layer"), entry.text("place"), entry.text("mix")):
                tallies[place].take_batch(entry, share)
        elif entry.kind == "coat":
            _give_coat(entry, done, plan, places, tallies)
    return tuple(_row(place, planned, tallies[place], plan, done) for place, planned in places.items())


def _places(done: Done) -> dict[Place, _Planned]:
    found: dict[Place, list[tuple[Task, Dose]]] = defaultdict(list)
    for task in done.job.tasks:
        for dose in task.doses:
            if math.isfinite(dose.batches) and dose.batches > 0:
                found[Place(dose.layer, done.run(task.place), dose.mix, task.coat)].append((task, dose))
    return {place: _Planned(pairs[0][0].work, tuple(pairs)) for place, pairs in found.items()}


def _shares(
    done: Done, places: Mapping[Place, _Planned], layer: str, where: str, mix: str
) -> list[tuple[Place, float]]:  # fmt: skip
    """The places that batches may be of, each with its share by what is due there; none for a trial of no place."""
    if not layer and not where:
        return []
    works, runs = named_works(layer), done.runs_at(where)
    fitting = [
        place for place, planned in places.items()
        if place.mix == mix and (not where or place.run in runs)
        and (not layer or place.layer == layer or planned.work in works)
    ]  # fmt: skip
    return list(zip(fitting, _weighed(done, places, fitting), strict=True))


def _weighed(done: Done, places: Mapping[Place, _Planned], fitting: Sequence[Place]) -> list[float]:
    """Shares of some places by what is due there, or by what is planned where nothing is."""
    due = [_due(done, places[place].pairs) for place in fitting]
    planned = [math.fsum(dose.batches for _, dose in places[place].pairs) for place in fitting]
    weights = due if math.fsum(due) > 0 else planned
    return [weight / math.fsum(weights) for weight in weights]


def _give_coat(
    entry: Entry, done: Done, plan: Enclosure, places: Mapping[Place, _Planned], tallies: Mapping[Place, _Tally]
) -> None:  # fmt: skip
    coat, runs = coat_of(entry, plan), done.runs_at(entry.text("place"))
    if coat is None:
        return
    fitting = [place for place in places if place.coat == coat.kind.name and place.run in runs]
    for place, share in zip(fitting, _weighed(done, places, fitting), strict=True):
        tallies[place].take_coat(entry, share)


def _due(done: Done, pairs: Sequence[tuple[Task, Dose]]) -> float:
    return math.fsum(dose.batches * done.share(task) for task, dose in pairs)


def _row(place: Place, planned: _Planned, tally: _Tally, plan: Enclosure, done: Done) -> MixAgainst:
    whole, due = math.fsum(dose.batches for _, dose in planned.pairs), _due(done, planned.pairs)
    mixed = tally.mixed
    card = math.fsum(dose.volume for _, dose in planned.pairs) / whole
    rungs = [] if mixed is None else _rungs(due, mixed, tally, _thickness(place, plan), card)
    return MixAgainst(
        mix=place.mix, layer=place.layer, coat=place.coat, run=place.run, planned=whole, done=due / whole, due=due,
        mixed=mixed, reasons=reasons(due, rungs),
    )  # fmt: skip


def _rungs(due: float, mixed: float, tally: _Tally, thickness: float | None, card: float) -> list[Rung]:
    level, rungs = due, list[Rung]()
    for cause, area in tally.again.items():
        level += due * area / tally.area if tally.area > 0 else 0.0
        rungs.append(Rung(f"done again, because of {cause}", level))
    laid = _mean(tally.thick)
    if laid is not None and thickness:
        level *= laid / thickness
        rungs.append(Rung("coat laid thicker than planned" if laid > thickness else "coat laid thinner", level))
    gave = _mean(tally.made)
    if gave is not None:
        level *= card / gave
        rungs.append(Rung("a batch gives less than its card" if gave < card else "a batch gives more", level))
    if tally.thrown > 0:
        level += tally.thrown
        rungs.append(Rung("batches thrown away", level))
    rest = WASTE if laid is not None and gave is not None and mixed > level else UNEXPLAINED
    return [*rungs, Rung(rest, mixed)]


def _mean(pairs: Sequence[tuple[float, float]]) -> float | None:
    whole = math.fsum(weight for weight, _ in pairs)
    return math.fsum(weight * value for weight, value in pairs) / whole if whole > 0 else None


def _thickness(place: Place, plan: Enclosure) -> float | None:
    """Of the coat as planned on this run; None for what is no coat."""
    buildup = next((each.buildup for _, each in plan.runs if each.name == place.run), None) or ""
    coats = plan.buildups[buildup].coats if buildup in plan.buildups else ()
    return next((coat.thickness for coat in coats if coat.kind.name == place.coat), None)
