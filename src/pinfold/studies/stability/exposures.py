"""Every stretch of a layout with its wind, made once for all that ask."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from pinfold.studies.layout.records import Layout
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.ends import lines_of
from pinfold.studies.stability.panels import held_on
from pinfold.studies.stability.returns import returns_of


@lru_cache(maxsize=4)  # several pages of one layout ask
def exposures_of(layout: Layout) -> Mapping[str, Exposed]:
    """By name of stretch, in order around the plot."""
    plan, lines, held = layout.plan, lines_of(layout), held_on(layout)
    returns = returns_of(layout.stretches, lines)
    return {
        stretch.name: Exposed(
            stretch=stretch.between_ends, line=lines[stretch.name], family=plan.family, place=plan.place,
            held=held[stretch.name], returns=returns[stretch.name],
        )
        for stretch in layout.stretches
    }  # fmt: skip
