"""Concrete by the full method of ACI 211.1, with IS 10262 beside it."""

from __future__ import annotations

import math

from pinfold.errors import InputError, InvalidPlan
from pinfold.figures import Figure, given
from pinfold.findings import Step, work
from pinfold.formulas import concrete_batch, concrete_mix
from pinfold.sources import weakest
from pinfold.studies.batching.sand import moisture_of
from pinfold.studies.proportioning.concrete_asks import ASKS, brief_of
from pinfold.studies.proportioning.concrete_choosing import Brief, Masses, choose, strongest, target_of, weakest_target
from pinfold.studies.proportioning.concrete_rival import rivals_of
from pinfold.studies.proportioning.concrete_telling import by_the_scale, departures_of, notes_of
from pinfold.studies.proportioning.massed_mix import Weights, mix_by_mass
from pinfold.studies.proportioning.records import Family, Proportioned, Wish
from pinfold.tables.shelf import Kind
from pinfold.units import KG_PER_CUBIC_METER, METER, PASCAL, Ratio, both

_DENSEST: Ratio = 0.8
"""Rodded stone never fills more of its bucket (common practice: 0.55 to 0.7)."""


def propose(wish: Wish) -> Proportioned:
    """A concrete for a wish by ACI 211.1.

    Raises:
        InvalidPlan: stone too large for the form, a strength the tables do not reach.
        OutOfRangeError: outside the tables otherwise, or no room for sand.
    """
    brief = brief_of(wish)
    problems = complaints(wish, brief)
    if problems:
        raise InvalidPlan("the wish for concrete", problems)
    masses = choose(brief)
    damp = _damp(wish, brief, masses)
    return Proportioned(
        mix=_mix(brief, masses),
        method="absolute volumes, ACI 211.1",
        working=(*masses.working, *damp),
        departures=departures_of(wish, brief),
        rivals=rivals_of(brief, masses),
        notes=(*notes_of(wish, brief, masses), by_the_scale(masses, *damp)),
    )


def complaints(wish: Wish, brief: Brief) -> list[InputError]:
    """What cannot be, all at once."""
    return [*_stone_too_large(wish), *_stone_without_gaps(brief), *_strength_out_of_reach(brief)]


def _stone_too_large(wish: Wish) -> list[InputError]:
    gaps = {key: wish.perhaps(key) for key in ("form_width", "slab_depth", "bar_gap")}
    if all(gap is None for gap in gaps.values()):
        return []
    most = concrete_mix.largest_stone(
        **{key: math.inf if gap is None else gap for key, gap in gaps.items()}
    )  # fmt: skip
    size = wish.number("stone_size")
    if size <= most * 1.01:
        return []
    says = (
        f"stone to {both(size, METER)} found; at most {both(most, METER)} finds its way: a fifth of the form's width, "
        "a third of the slab, three quarters of the gap between bars. Take smaller stone."
    )
    return [InputError(says, place="stone_size")]


def _stone_without_gaps(brief: Brief) -> list[InputError]:
    rodded, grains = brief.stone.value("rodded_density"), brief.stone.value("particle_density")
    if rodded <= _DENSEST * grains:
        return []
    says = (
        f"{both(rodded, KG_PER_CUBIC_METER)} found, where the stones themselves weigh "
        f"{both(grains, KG_PER_CUBIC_METER)}: rodded stone has a fifth of gaps and more, which the sand fills. Weigh "
        "the bucket again, filled level."
    )
    return [InputError(says, place="stone_rodded")]


def _strength_out_of_reach(brief: Brief) -> list[InputError]:
    target = target_of(brief).number
    low, high = weakest_target(brief.air), strongest(brief.air)
    if low * 0.99 <= target <= high * 1.01:
        return []
    words = {"plain": "without", "entrained": "with"}
    says = (
        f"{both(brief.strength, PASCAL)} found, for which {both(target, PASCAL)} is to be aimed for; "
        f"{words[brief.air]} entrained air the table has {both(low, PASCAL)} to {both(high, PASCAL)}. Wish for another "
        "strength, or air otherwise."
    )
    return [InputError(says, place="strength")]


def _mix(brief: Brief, masses: Masses) -> Kind:
    own = {
        "strength": given(brief.strength, PASCAL), "slump": given(brief.slump, METER),
        "stone_size": given(brief.size, METER),
    }  # fmt: skip
    weights = Weights(
        parts={"cement": masses.cement, "sand": masses.sand, "gravel": masses.stone}, water=masses.water,
        air=masses.air, standing=weakest(figure.standing for figure in _behind(brief)), source="ACI-211",
        where="section 5.3",
    )  # fmt: skip
    uses = {"cement": brief.cement, "sand": brief.sand, "gravel": brief.stone}
    says = f"concrete of {both(brief.strength, PASCAL)}, stone to {both(brief.size, METER)}"
    return mix_by_mass("concrete", says, weights, uses=uses, figures=own)


def _behind(brief: Brief) -> tuple[Figure, ...]:
    """Figures of the materials and limits that the masses rest on."""
    materials = {
        brief.cement: ("particle_density",), brief.sand: ("particle_density", "fineness"),
        brief.stone: ("particle_density", "rodded_density", "absorption"),
    }  # fmt: skip
    of_frost = [brief.exposure.figure("water_cement")] if brief.exposure.has("water_cement") else []
    return (*(material.figure(name) for material, names in materials.items() for name in names), *of_frost)


def _damp(wish: Wish, brief: Brief, masses: Masses) -> tuple[Step, Step]:
    """Sand and stone to weigh as damp as they lie; stone whose moisture is not known lies surface dry."""
    soaked = brief.stone.value("absorption")
    moist = brief.stone.value("moisture") if brief.stone.has("moisture") else soaked
    sand = work(
        concrete_batch.moist_mass, why="sand to weigh for a cubic meter, as damp as it lies", surface_dry=masses.sand,
        moisture=moisture_of(brief.sand, wish.mixing.sand_bulking), absorption=brief.sand.value("absorption"),
    )  # fmt: skip
    stone = work(
        concrete_batch.moist_mass, why="stone to weigh for a cubic meter, as damp as it lies", surface_dry=masses.stone,
        moisture=moist, absorption=soaked,
    )  # fmt: skip
    return sand, stone


FAMILY = Family(
    name="concrete", says="poured for footings, slabs, walls and posts, by strength", asks=ASKS, propose=propose
)
