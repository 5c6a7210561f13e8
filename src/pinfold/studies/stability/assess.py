"""Does it stand: every check on a plan that is laid out, each answered HOLDS, FAILS or NOT SHOWN."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

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
from pinfold.studies.stability.height import joints
from pinfold.studies.stability.lines import clearances
from pinfold.studies.stability.masonry.checks import of_masonry
from pinfold.studies.stability.post_groups import Group, groups_of
from pinfold.studies.stability.posts import fence_posts
from pinfold.studies.stability.pushes.gates import pushed_gate
from pinfold.studies.stability.pushes.posts import pushed_fences
from pinfold.studies.stability.pushes.walls import pushed_walls
from pinfold.studies.stability.sheets import spanning
from pinfold.studies.stability.skins.checks import skin_findings
from pinfold.studies.stability.walls import standing


@lru_cache(maxsize=4)  # several pages of one layout ask
def assess(layout: Layout) -> tuple[Finding, ...]:
    """All findings: walls in order around the plot, then posts, gates, frost, buried lines.

    Stability to begin with: wind, weight and ground. Each finding says what it leaves out.
    """
    standings = exposures_of(layout)
    groups = groups_of(layout, standings)
    walls = [finding for each in standings.values() for finding in _of_stretch(each)]
    return (
        *survey(layout), *walls, *held_banks(layout.plan.banks, standings), *fence_posts(groups),
        *between_posts(standings.values()),
        *gate_findings(layout, standings), *braces(_braced(layout, standings, groups)), *frost(layout),
        *clearances(layout), *on_blocks(layout.plan), *_pushed(layout, standings, groups),
    )  # fmt: skip


@lru_cache(maxsize=128)  # while one corner is dragged, most stretches stay what they were
def _of_stretch(each: Exposed) -> tuple[Finding, ...]:
    stood, found = standing(each), feet(each)
    return (
        *stood, *founded(each, stood), *stepped_down(each), *in_water(each), *found, *of_masonry(each, found),
        *joints(each.stretch), *spanning(each),
        *pushed_walls(each), *shaken_walls(each), *green_walls(each), *skin_findings(each), *cracking_findings(each),
    )  # fmt: skip


def _braced(layout: Layout, fences: Mapping[str, Exposed], groups: tuple[Group, ...]) -> tuple[Braced, ...]:
    """Posts that may have a brace: those where wires end, and those of gates."""
    if not any(buildup.brace for buildup in layout.plan.buildups.values()):
        return ()
    hung = [each for place in layout.gates.values() for each in hung_posts(layout, fences, place)]
    ends = [Braced(post=group.worst, fence=group.fence, wires=group.wires) for group in groups]
    return (*ends, *(Braced(post=each.post, fence=each.fence, wires=each.wires) for each in hung))


def _pushed(layout: Layout, fences: Mapping[str, Exposed], groups: tuple[Group, ...]) -> tuple[Finding, ...]:
    """Posts and gates under pushes; nothing where the plan says that nobody pushes."""
    if layout.plan.place.pushes == ():
        return ()
    gates = [pushed_gate(hung_posts(layout, fences, place)) for place in layout.gates.values()]
    return (*pushed_fences(groups), *(finding for found in gates for finding in found))
