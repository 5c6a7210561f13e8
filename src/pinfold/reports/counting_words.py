"""What is told of an amount counted in a measure of the site, and by whom it is known what one holds."""

from __future__ import annotations

from collections.abc import Mapping

from pinfold.sources import Standing
from pinfold.studies.batching.counting import NEAR_ENOUGH, Counted
from pinfold.studies.lessons.telling import with_spread
from pinfold.units import CUBIC_METER, System

STANDINGS: Mapping[Standing, str] = {
    Standing.GIVEN: "your plan", Standing.LEARNED: "your log", Standing.PRACTICE: "usual, not yours",
    Standing.MEMORY: "from memory", Standing.READ: "published", Standing.DERIVED: "derived",
}  # fmt: skip


def counted_note(found: Counted, system: System) -> str:
    """What is told of a count: what one is taken to hold, how that is known, and how near it comes."""
    measure = found.measure
    holds = with_spread(measure.holds, measure.spread * measure.holds, CUBIC_METER, system)
    told = f"One {measure.name} is taken to hold {holds}, by {STANDINGS[measure.standing]}."
    if measure.standing is Standing.PRACTICE:
        told = f"One {measure.name} is taken to hold {holds}, as usual and not as yours: weigh one and write it down."
    if abs(found.misses) > NEAR_ENOUGH:
        told += f" So little of it is told in buckets: a {measure.name} cannot be filled so near."
    return told
