"""A plan with one of its build-ups exchanged for another: laid out, in the wind, dressed anew where it stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from pinfold.logbook.works import Work
from pinfold.plan.buildups import Buildup
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.layout.records import Layout
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.inquiry import Inquiry
from pinfold.studies.weighing.axes import AXES, Axis, Picks, table_of
from pinfold.units import Ratio


@dataclass(frozen=True, kw_only=True, eq=False)
class Built:
    """The plan with one build-up in it.

    Attributes:
        name: of the build-up.
        lessons: what the log teaches, and the plan by it.
    """

    name: str
    lessons: Lessons

    @property
    def buildup(self) -> Buildup:
        """The build-up, with what the log teaches of it."""
        return self.lessons.plan.buildups[self.name]

    @cached_property
    def layout(self) -> Layout:
        """Laid out.

        Raises:
            InputError: what cannot be laid out.
        """
        return lay_out(self.lessons.plan)

    @cached_property
    def inquiry(self) -> Inquiry:
        """Under every check."""
        return Inquiry(layout=self.layout)

    @cached_property
    def own(self) -> tuple[Exposed, ...]:
        """Its stretches in the wind."""
        return tuple(each for each in self.inquiry.standings.values() if each.stretch.buildup.name == self.name)

    @cached_property
    def others(self) -> tuple[Exposed, ...]:
        """The stretches of other build-ups."""
        return tuple(each for each in self.inquiry.standings.values() if each.stretch.buildup.name != self.name)

    def dressed(self, buildup: Buildup) -> tuple[Exposed, ...]:
        """Its stretches with other coats, mesh, rails or kind of post: what does not move where the wall stands."""
        return tuple(replace(each, stretch=replace(each.stretch, buildup=buildup)) for each in self.own)


@dataclass(frozen=True, kw_only=True, eq=False)
class Scene:
    """A plan and the build-up in it that is varied.

    Attributes:
        plan: as it stands.
        name: of the build-up.
        axes: every axis with its choices.
        read: a build-up out of its table.
        taught: what the log teaches of a plan.
        over_norms: how many times as long as the norms say each sort of work takes these hands.
    """

    plan: Enclosure
    name: str
    axes: tuple[Axis, ...]
    read: Callable[[str, Mapping[str, object]], Buildup]
    taught: Callable[[Enclosure], Lessons]
    over_norms: Mapping[Work, Ratio]

    @property
    def shape(self) -> tuple[int, ...]:
        """How many choices each axis has."""
        return tuple(len(axis.choices) for axis in self.axes)

    @property
    def first(self) -> Picks:
        """The first choice on every axis."""
        return (0,) * len(self.axes)

    def only(self, picks: Picks, *keys: str) -> Picks:
        """Picks with every axis but some at its first choice."""
        return tuple(pick if key in keys else 0 for key, pick in zip(AXES, picks, strict=True))

    def built(self, picks: Picks) -> Built:
        """The plan with the build-up that a pick on each axis makes; mostly the same object for the same picks.

        Raises:
            InvalidPlan: what cannot be built so.
        """
        return _built(self, picks)


@lru_cache(maxsize=4096)  # tables ask for the same again while they go through their states, and one after the other
def _built(scene: Scene, picks: Picks) -> Built:
    buildup = scene.read(scene.name, table_of(scene.axes, picks, scene.plan.units))
    plan = replace(scene.plan, buildups={**scene.plan.buildups, scene.name: buildup})
    return Built(name=scene.name, lessons=scene.taught(plan))
