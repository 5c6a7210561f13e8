"""Every neighbor that stands on blocks."""

from __future__ import annotations

from functools import lru_cache

from pinfold.findings import Finding
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.outline import Neighbor
from pinfold.plan.place import Family, Place
from pinfold.studies.stability.blocks.piers import on_piers
from pinfold.studies.stability.blocks.wind import Box, in_wind


def on_blocks(plan: Enclosure) -> tuple[Finding, ...]:
    """The findings on neighbors on blocks, in the order of the plan; nothing on those that are founded."""
    return tuple(finding for neighbor in plan.neighbors for finding in _of_neighbor(neighbor, plan.family, plan.place))


@lru_cache(maxsize=32)  # while a corner is dragged, neighbors stay where they are
def _of_neighbor(neighbor: Neighbor, family: Family, place: Place) -> tuple[Finding, ...]:
    blocks = neighbor.blocks
    if blocks is None:
        return ()
    box = Box(neighbor=neighbor, blocks=blocks, family=family, place=place)
    return (*on_piers(neighbor, blocks, place), *in_wind(box))
