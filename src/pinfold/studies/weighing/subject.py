"""A plan under judgment: laid out, counted, checked, each once; and what is asked of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache

from pinfold.figures import Figure
from pinfold.findings import Finding
from pinfold.plan.people import People
from pinfold.sources import Standing, weakest
from pinfold.studies.costing import Costs
from pinfold.studies.days.records import Job
from pinfold.studies.gathering.records import Gathered
from pinfold.studies.layout.records import Layout
from pinfold.studies.stability.assess import assess
from pinfold.studies.weighing.elements import Element, elements_of
from pinfold.studies.worlds.chances import many_worlds
from pinfold.studies.worlds.records import ManyWorlds
from pinfold.tables.shelf import shelf

USUAL_YEARS = 20
USUAL_ANIMALS = ("rabbit", "fox", "small-dog", "goat", "deer")
Named = tuple[tuple[str, Figure], ...]


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What options are asked about.

    Attributes:
        years: over which upkeep and replacing are counted.
        animals: that shall stay out, by their names on shelf `passers`.
    """

    years: int = USUAL_YEARS
    animals: tuple[str, ...] = USUAL_ANIMALS


@dataclass(frozen=True, kw_only=True, eq=False)
class Subject:
    """A plan under judgment.

    Attributes:
        layout: laid out.
        gathered: buying list, loads, water.
        costs: planned cost.
        job: tasks, at the norms or the builder's own pace.
        people: who builds.
    """

    layout: Layout
    gathered: Gathered
    costs: Costs
    job: Job
    people: People

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """All checks of `stand`."""
        return assess(self.layout)

    def worlds(self, years: int) -> tuple[ManyWorlds, ...]:
        """Every wall in many worlds, over some years."""
        return _worlds(self, years)

    @cached_property
    def elements(self) -> tuple[Element, ...]:
        """What it is made of."""
        return elements_of(self.layout)


@lru_cache(maxsize=2)  # cracking and falling ask for the same, one after the other
def _worlds(subject: Subject, years: int) -> tuple[ManyWorlds, ...]:
    return many_worlds(subject.layout, (years,))


def standing_of(figures: Named) -> Standing:
    """The weakest of some figures."""
    return weakest(figure.standing for _, figure in figures)


def animals_known() -> tuple[str, ...]:
    """Animals that may be asked about."""
    return tuple(shelf("passers"))
