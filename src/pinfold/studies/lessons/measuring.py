"""All that weighed buckets teach, in the order in which one thing leads to the next.

The scale first, since every weight rests on it; then the measures whose volume is known; from those how dense things
lie; and by that what shovels and barrows carry, whose volume nobody can tell otherwise.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from pinfold.logbook.carried import Carried
from pinfold.logbook.entries import Entry
from pinfold.plan.place import Mixing
from pinfold.studies.lessons.buckets import weights
from pinfold.studies.lessons.holding import held, held_by_weight, volumes_of, with_measures
from pinfold.studies.lessons.records import Override, Taught
from pinfold.studies.lessons.scales import scales
from pinfold.studies.lessons.things import Measures
from pinfold.studies.lessons.weighings import weighings
from pinfold.units import System


def measured(
    logged: tuple[Sequence[Entry], Sequence[Entry]], mixing: Mixing, damp: tuple[Override, ...], carried: Carried,
    system: System,
) -> tuple[Taught, Mixing]:  # fmt: skip
    """What scales and weighed buckets teach, and the mixing with the measures as learned.

    Args:
        logged: entries of scales, and of weighed buckets
        mixing: of the plan, the sand as learned
        damp: moisture of the sand, as learned
        carried: lessons of other places
        system: of the plan
    """
    aside: Counter[str] = Counter()
    tried, weighed = logged
    of_scales, known = scales(tried, system)
    used = weighings(weighed, mixing, known, aside)
    told, firm = held(used, mixing, system)
    mixing = with_measures(mixing, firm)
    heavy = weights(used, Measures(mixing=mixing, volumes=volumes_of(mixing)), damp, carried, system)
    shoveled, soft = held_by_weight(used, mixing, (*damp, *heavy.figures), system)
    aside.update(of_scales.set_aside)
    aside.update(heavy.set_aside)
    lessons = (*of_scales.lessons, *told, *shoveled, *heavy.lessons)
    return Taught(lessons=lessons, figures=heavy.figures, set_aside=aside), with_measures(mixing, soft)
