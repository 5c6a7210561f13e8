"""A layout under every check, each asked once and only when it is wanted."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache, partial

from pinfold.findings import Finding
from pinfold.studies.layout.records import Layout
from pinfold.studies.stability.blocks.neighbors import on_blocks
from pinfold.studies.stability.building.green import green_walls
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.cracking.checks import cracking_findings
from pinfold.studies.stability.earth.banks import held_banks
from pinfold.studies.stability.earthquakes.walls import shaken_walls
from pinfold.studies.stability.exposures import exposures_of
from pinfold.studies.stability.feet import feet
from pinfold.studies.stability.fencing.bracing import Braced, braces
from pinfold.studies.stability.fencing.spans import between_posts
from pinfold.studies.stability.footings.stepping import in_water, stepped_down
from pinfold.studies.stability.footings.strips import founded
from pinfold.studies.stability.gates import gate_findings, hung_posts
from pinfold.studies.stability.ground import frost, survey
from pinfold.studies.stability.hanging.checks import hanging_findings
from pinfold.studies.stability.height import joints
from pinfold.studies.stability.lines import clearances
from pinfold.studies.stability.masonry.checks import of_masonry
from pinfold.studies.stability.post_groups import Group, groups_of
from pinfold.studies.stability.posts import fence_posts
from pinfold.studies.stability.pushes.gates import pushed_gate
from pinfold.studies.stability.pushes.posts import pushed_fences
from pinfold.studies.stability.pushes.rails import pushed_rails
from pinfold.studies.stability.pushes.walls import pushed_walls
from pinfold.studies.stability.sheets import spanning
from pinfold.studies.stability.skins.checks import skin_findings
from pinfold.studies.stability.walls import standing

Findings = tuple[Finding, ...]
WallCheck = Callable[[Exposed], Findings]
"""What is asked of one stretch of wall by itself."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Inquiry:
    """A layout with what is found on it, each topic once, when asked.

    Attributes:
        layout: what is asked about.
    """

    layout: Layout

    @cached_property
    def standings(self) -> Mapping[str, Exposed]:
        """Every stretch with its wind."""
        return exposures_of(self.layout)

    @cached_property
    def groups(self) -> tuple[Group, ...]:
        """Posts alike."""
        return groups_of(self.layout, self.standings)

    @cached_property
    def walls(self) -> tuple[Callable[[WallCheck], Findings], ...]:
        """Every stretch of wall, to be asked one check or another."""
        return tuple(map(found_on, self.standings.values()))

    @cached_property
    def _found(self) -> dict[Topic, Findings]:
        return {}

    def on(self, topic: Topic) -> Findings:
        """What is found on one topic."""
        if topic not in self._found:
            self._found[topic] = topic(self)
        return self._found[topic]

    @cached_property
    def findings(self) -> Findings:
        """All that is found: walls in order around the plot, then posts, gates, frost, buried lines."""
        walls = (finding for wall in self.walls for check in WALL_CHECKS for finding in wall(check))
        return (*self.on(_surveyed), *walls, *(finding for topic in _OF_THE_REST for finding in self.on(topic)))


Topic = Callable[[Inquiry], Findings]
"""Some of what is found on a layout."""


@lru_cache(maxsize=256)  # while one corner is dragged, most stretches stay what they were
def found_on(each: Exposed) -> Callable[[WallCheck], Findings]:
    """What any check finds of one stretch of wall, each found once."""
    return cache(lambda check: check(each))


WALL_CHECKS: tuple[WallCheck, ...] = (
    standing, lambda each: founded(each, found_on(each)(standing)), stepped_down, in_water, feet,
    lambda each: of_masonry(each, found_on(each)(feet)), lambda each: joints(each.stretch), spanning, pushed_walls,
    shaken_walls, green_walls, skin_findings, cracking_findings,
)  # fmt: skip
"""What is asked of every stretch of wall."""


def _along(check: WallCheck, inquiry: Inquiry) -> Findings:
    """One check of every stretch of wall."""
    return tuple(finding for wall in inquiry.walls for finding in wall(check))


def _surveyed(inquiry: Inquiry) -> Findings:
    return survey(inquiry.layout)


def braced(inquiry: Inquiry) -> Findings:
    """Posts that may have a brace: those where wires end, and those of gates."""
    layout, fences = inquiry.layout, inquiry.standings
    if not any(buildup.brace for buildup in layout.plan.buildups.values()):
        return ()
    hung = [each for place in layout.gates.values() for each in hung_posts(layout, fences, place)]
    ends = [Braced(post=group.worst, fence=group.fence, wires=group.wires) for group in inquiry.groups]
    return braces((*ends, *(Braced(post=each.post, fence=each.fence, wires=each.wires) for each in hung)))


def pushed(inquiry: Inquiry) -> Findings:
    """Posts, rails and gates under pushes; nothing where the plan says that nobody pushes."""
    layout, fences = inquiry.layout, inquiry.standings
    if layout.plan.place.pushes == ():
        return ()
    gates = [pushed_gate(hung_posts(layout, fences, place)) for place in layout.gates.values()]
    on_gates = (finding for found in gates for finding in found)
    return (*pushed_fences(inquiry.groups), *pushed_rails(fences.values()), *on_gates)


_OF_THE_REST: tuple[Topic, ...] = (
    lambda inquiry: held_banks(inquiry.layout.plan.banks, inquiry.standings),
    lambda inquiry: fence_posts(inquiry.groups),
    lambda inquiry: between_posts(inquiry.standings.values()),
    lambda inquiry: gate_findings(inquiry.layout, inquiry.standings),
    lambda inquiry: hanging_findings(inquiry.layout, inquiry.standings),
    braced,
    lambda inquiry: frost(inquiry.layout),
    lambda inquiry: clearances(inquiry.layout),
    lambda inquiry: on_blocks(inquiry.layout.plan),
    pushed,
)
TOPICS: tuple[Topic, ...] = (_surveyed, *(partial(_along, check) for check in WALL_CHECKS), *_OF_THE_REST)
"""All of them; no two find the same check of the same part of a build-up or gate."""
