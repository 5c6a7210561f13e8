"""The answer to what a richer or leaner mix does: the ladder, the present mix, the cheapest that is strong enough."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.plan.place import Mixing
from pinfold.plan.stock import Prices
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.richness import base as bases
from pinfold.studies.richness import hardened as hard
from pinfold.studies.richness.base import Base
from pinfold.studies.richness.foamed_ladder import DENSITIES, SANDS, rungs_by_density, rungs_by_sand_in
from pinfold.studies.richness.ladder import Bench, rungs_by_sand
from pinfold.studies.richness.places import Place
from pinfold.studies.richness.pulls import Held, HeldCoat, HeldWall, worst_panel
from pinfold.studies.richness.ranges import binders, needs_cement, sand_range, shown_range, steps_between
from pinfold.studies.richness.records import Richness, Rung
from pinfold.studies.richness.why import reasons
from pinfold.studies.stability.cases import Exposed
from pinfold.units import Pascal

_STEPS = (0.25, 0.5, 1.0, 2.0)
_LIGHT_STEPS = (50.0, 100.0, 200.0)
_UNHELD_MORTAR = (
    "cracks: in the wall the units decide them, see shrinkage under 'pinfold stand'; of the mortar alone neither "
    "stiffness nor shrinkage is known, so they are told beside the present one"
)
_UNHELD = "cracks: where the plan puts it nothing is known that holds it, so they are told beside the present one"


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What is asked about a place.

    Attributes:
        low: the richest, sand to one of cement (of a foamed mix density as cast); None for a little past the range.
        high: the leanest (the heaviest).
        wanted: strength to hold; None for the one its type is known by, if it is.
    """

    low: float | None = None
    high: float | None = None
    wanted: Pascal | None = None


@dataclass(frozen=True, kw_only=True)
class Site:
    """All of a site that the answer rests on.

    Attributes:
        mixing: of the plan, as the log teaches it.
        prices: likewise.
        lessons: of the log.
        exposures: by stretch, for walls that are poured.
    """

    mixing: Mixing
    prices: Prices
    lessons: Lessons | None
    exposures: Mapping[str, Exposed]


def richness_of(place: Place, asked: Asked, site: Site) -> Richness:
    """What a richer or leaner mix does in a place.

    Raises:
        NotFoundError: how the mix changes is not published, or a figure is missing.
        OutOfRangeError: nothing of the kind can be mixed.
    """
    needs_cement(place.mix)
    held, unheld = _held(place, site.exposures)
    bench = Bench(place=place, held=held, prices=site.prices, lessons=site.lessons, unheld=unheld)
    foamed = place.mix.word("family") == "foamed"
    rungs = _by_density(place, asked, site, bench) if foamed else _by_sand(place, asked, site, bench)
    by_sand = rungs_by_sand_in(place.mix, site.mixing, bench, _foamed_sands(place)) if foamed else ()
    present = _present(rungs, place)
    wanted = asked.wanted if asked.wanted is not None else _known_strength(place)
    return Richness(
        mix=place.mix, layer=place.layer, buildup=place.buildup.name if place.buildup else "",
        coat=place.coat.kind.name if place.coat else "", thickness=place.thickness, rungs=rungs, present=present,
        by_sand=by_sand, present_by_sand=_present(by_sand, place) if by_sand else 0, wanted=wanted,
        cheapest=cheapest(rungs, wanted), cheapest_by_half=cheapest(rungs, wanted, half=True),
        published=sand_range(place.mix), method=_METHODS[_way(place)],
        why=reasons(rungs, present, place.mix.word("family")), left_out=_LEFT_OUT[_way(place)],
        steps=_steps(place, site, bench), figures=_figures(place), currency=site.prices.currency,
        digits=site.prices.digits,
    )  # fmt: skip


def _held(place: Place, exposures: Mapping[str, Exposed]) -> tuple[Held | None, str]:
    if place.coat is not None and place.buildup is not None:
        return HeldCoat(buildup=place.buildup, coat=place.coat), ""
    if place.is_wall and place.buildup is not None:
        ask = worst_panel(exposures, place.buildup.name)
        if ask is not None and place.buildup.wall is not None and place.buildup.wall.kind.word("make") == "poured":
            return HeldWall(ask=ask), ""
    return None, _UNHELD_MORTAR if place.layer == "mortar" else _UNHELD


def _by_sand(place: Place, asked: Asked, site: Site, bench: Bench) -> tuple[Rung, ...]:
    base = Base(mix=place.mix, mixing=site.mixing)
    per_binder = 1.0 if base.is_concrete else binders(place.mix)
    low, high = shown_range(sand_range(place.mix), base.sand, per_binder)
    low, high = (own if own is not None else usual for own, usual in ((asked.low, low), (asked.high, high)))
    step = place.mix.value("sand") / place.mix.value("cement") / base.sand  # in concrete the parts of sand are round
    ends = (min(low, base.sand) * step, max(high, base.sand) * step)
    sands = steps_between(*ends, base.sand * step, _STEPS)
    return rungs_by_sand(base, bench, [sand / step for sand in sands])


def _by_density(place: Place, asked: Asked, site: Site, bench: Bench) -> tuple[Rung, ...]:
    now = place.mix.value("cast_density")
    if asked.low is None and asked.high is None:
        return rungs_by_density(place.mix, site.mixing, bench, sorted({*DENSITIES, now}))
    low = min(asked.low if asked.low is not None else DENSITIES[0], now)
    high = max(asked.high if asked.high is not None else DENSITIES[-1], now)
    return rungs_by_density(place.mix, site.mixing, bench, steps_between(low, high, now, _LIGHT_STEPS))


def _foamed_sands(place: Place) -> tuple[float, ...]:
    return tuple(sorted({*SANDS, place.mix.value("sand_cement")}))


def _present(rungs: Sequence[Rung], place: Place) -> int:
    """The rung whose mix is the present one itself.

    Raises:
        OutOfRangeError: the present mix itself cannot be mixed.
    """
    for number, rung in enumerate(rungs):
        if rung.mix is place.mix:
            return number
    raise OutOfRangeError(f"{place.mix.name} as the plan has it cannot be mixed: see its card")


def _known_strength(place: Place) -> Pascal | None:
    return place.mix.value("strength") if place.mix.has("strength") else None


def cheapest(rungs: Sequence[Rung], wanted: Pascal | None, *, half: bool = False) -> int | None:
    """The cheapest rung of which 95 of 100 batches hold a strength, or half of them; by cement without prices."""
    if wanted is None:
        return None
    holds = [number for number, rung in enumerate(rungs) if _holds(rung, wanted, half=half)]
    return min(holds, key=lambda number: _price(rungs[number]), default=None)


def _holds(rung: Rung, wanted: Pascal, *, half: bool) -> bool:
    strength = rung.hardens.strength
    return strength is not None and (strength.value if half else strength.low) >= wanted * (1 - 1e-9)


def _price(rung: Rung) -> tuple[float, float]:
    cost = rung.per_volume.cost
    return (cost if cost is not None else 0.0), rung.per_volume.cement


def _way(place: Place) -> str:
    family = place.mix.word("family")
    return family if family == "foamed" else "concrete" if place.mix.has("gravel") else "mortar"


_METHODS = {
    "mortar": (
        "Water: cement, lime and sand each ask for their own, and the mix stays as wet to the hand as yours is now "
        "(a manual of 1905); volume by absolute volumes, brought to what your batches make.",
        "Strength at 28 days: by the share of cement in its paste, as 'pinfold mix strength' has it, narrowed by your "
        "own tests.",
        "Stiffness and tension: by the root of the strength (ACI 318), from the figures that 'stand' takes; the spread "
        "reaches to EN 1992's.",
        "Shrinkage: with the share of water by weight (tests on mortars); the spread reaches to Pickett's law of the "
        "grains.",
        "Cracks: its own drying on the wall against what it can be pulled, the very formulas of 'stand'; the chance "
        "takes both to scatter.",
    ),
    "concrete": (
        "Water: the same in a cubic meter for one slump and stone (ACI 211); volume by absolute volumes.",
        "Strength at 28 days: by water over cement, as 'pinfold mix strength' has it, narrowed by your own tests.",
        "Stiffness and tension: by the root of the strength (ACI 318); the spread reaches to EN 1992's.",
        "Shrinkage: ACI 209's factor for cement; the spread reaches to Pickett's law of the stone.",
        "Cracks: drying and cooling held back by the footing, the very formulas of 'stand'.",
    ),
    "foamed": (
        "Parts: by absolute volumes for each density, water over cement as now.",
        "Strength at 28 days: by dry density, a value to start from, from memory; your own cubes narrow it.",
        "Stiffness and shrinkage: by dry density, a table from memory; its strain capacity stays. ACI 209 is not for "
        "foamed concrete and is not asked.",
        "Cracks: drying and cooling held back by the footing, the very formulas of 'stand'.",
    ),
}  # fmt: skip
_LEFT_OUT = {
    "mortar": (
        "the first hours, when sun and wind crack it still soft", "frost and salts", "how well it is pressed on",
        "color and grain of the sand",
    ),
    "concrete": ("how well it is placed and kept damp", "the first days' heat", "frost and salts"),
    "foamed": ("foam that collapses on the way", "freezing while wet", "nails and anchors"),
}  # fmt: skip


def _steps(place: Place, site: Site, bench: Bench) -> tuple[Step, ...]:
    """Lines of working of the present mix."""
    if place.mix.word("family") == "foamed":
        return ()
    base = Base(mix=place.mix, mixing=site.mixing)
    how = hard.hardened(base.present, base.present, mix=place.mix, known=bench.known, lessons=site.lessons)
    try:
        pulled = bench.held.pulled(bench.known).steps if bench.held is not None else ()
    except (NotFoundError, OutOfRangeError):
        pulled = ()
    return (*base.present.steps, *how.steps, *pulled)


def _figures(place: Place) -> tuple[tuple[str, Figure], ...]:
    own = tuple((f"{place.mix.name} {key.replace('_', ' ')}", figure) for key, figure in place.mix.figures.items())
    if place.mix.word("family") == "foamed":
        return own
    spreads = (
        ("water asked by cement", bases.FOR_CEMENT), ("by lime", bases.FOR_LIME), ("by sand", bases.FOR_SAND),
        ("spread of shrinkage", hard.SHRINKAGE_SPREAD), ("spread of stiffness", hard.MODULUS_SPREAD),
        ("spread of tension", hard.TENSION_SPREAD), ("spread of the stress left", hard.CREEP_SPREAD),
    )  # fmt: skip
    return (*own, *(spreads if not place.mix.has("gravel") else spreads[3:]))
