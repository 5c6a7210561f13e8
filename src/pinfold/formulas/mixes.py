"""Mixes by loose parts: what a batch weighs, what it yields, and how much to mix for a volume wanted."""

from __future__ import annotations

import math
from typing import Literal

from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Ratio

BulkRule = Literal["mortar", "concrete", "two-thirds", "dry-third"]

_LOOSE_PER_MIXED = {"mortar": 38 / 27, "concrete": 42 / 27, "two-thirds": 3 / 2, "dry-third": 1.33}


def loose_mass(*, volume: CubicMeter, bulk_density: KgPerCubicMeter) -> Kilogram:
    """Mass of an ingredient measured loose: m = ρ_b V.

    Args:
        volume: V, loose volume [m3]
        bulk_density: ρ_b, mass per loose volume [kg/m3]

    Returns:
        m, mass [kg]

    Raises:
        OutOfRangeError: the volume is negative or the density not above 0.

    Range:
        V ≥ 0, ρ_b > 0, refused otherwise. For damp sand ρ_b is the dry mass in the damp loose volume.

    Source:
        STATICS (derived)

    Example:
        >>> loose_mass(volume=0.5, bulk_density=1500.0)
        750.0
    """
    return within(volume, "loose volume in m3", low=0.0) * within(bulk_density, "bulk density in kg/m3", above=0.0)


def loose_volume(*, mass: Kilogram, bulk_density: KgPerCubicMeter) -> CubicMeter:
    """Loose volume of an ingredient by mass, such as what a bag holds: V = m / ρ_b.

    Args:
        mass: m, mass [kg]
        bulk_density: ρ_b, mass per loose volume [kg/m3]

    Returns:
        V, loose volume [m3]

    Raises:
        OutOfRangeError: the mass is negative or the density not above 0.

    Range:
        m ≥ 0, ρ_b > 0, refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> loose_volume(mass=750.0, bulk_density=1500.0)
        0.5
    """
    return within(mass, "mass in kg", low=0.0) / within(bulk_density, "bulk density in kg/m3", above=0.0)


def absolute_volume(*, mass: Kilogram, density: KgPerCubicMeter) -> CubicMeter:
    """Space the grains themselves take, without the gaps between them: V = m / ρ.

    Args:
        mass: m, mass, of sand and stone saturated but surface dry [kg]
        density: ρ, density of the grains or of the liquid [kg/m3]

    Returns:
        V, absolute volume [m3]

    Raises:
        OutOfRangeError: the mass is negative or the density not above 0.

    Range:
        m ≥ 0, ρ > 0, refused otherwise.

    Source:
        ACI-211, section 9.2 (read)

    Example:
        >>> absolute_volume(mass=315.0, density=3150.0)
        0.100
    """
    return within(mass, "mass in kg", low=0.0) / within(density, "density of grains in kg/m3", above=0.0)


def mixed_volume(*, solids: CubicMeter, water: CubicMeter, air: Ratio) -> CubicMeter:
    """Yield of a batch by absolute volume: V = (V_s + V_w) / (1 − a).

    Args:
        solids: V_s, absolute volumes of all grains together [m3]
        water: V_w, volume of all free water, also what damp sand brings [m3]
        air: a, share of the finished volume that is air [-]

    Returns:
        V, volume of the finished mix [m3]

    Raises:
        OutOfRangeError: a volume is negative or the air not from 0 to below 1.

    Range:
        V_s ≥ 0, V_w ≥ 0, 0 ≤ a ≤ 0.9; refused outside.

    Source:
        ACI-211, section 9.2, solved for the volume (derived)

    Example:
        >>> mixed_volume(solids=0.7, water=0.2, air=0.1)
        1.00
    """
    within(solids, "volume of grains in m3", low=0.0)
    within(water, "volume of water in m3", low=0.0)
    return (solids + water) / (1 - within(air, "share of air", low=0.0, high=0.9))


def bulk_sum_volume(*, loose: CubicMeter, rule: BulkRule) -> CubicMeter:
    """Yield of a batch from the sum of its loose volumes: V = ΣV_loose · 27/38 for mortar, 27/42 for concrete.

    The rule of thumb says how many cubic feet of loose ingredients, water left out, make one cubic yard.

    Args:
        loose: ΣV_loose, loose volumes of cement, lime, sand and stone added up [m3]
        rule: mortar (38 per 27), concrete (42 per 27), two-thirds (small concrete jobs) or dry-third (133 of dry parts
            make 100 of mortar)

    Returns:
        V, volume of the finished mix [m3]

    Raises:
        OutOfRangeError: the volume is negative.

    Range:
        ΣV_loose ≥ 0, refused below. Sand damp and loose; within 2 % of old tables of quantities for 1:1½ to 1:2½ mortar
        and for 1:2:4 to 1:2½:5 concrete.

    Source:
        NAVEDTRA-14043, p. 215, 38 for mortar (read)
        MASONRY-AND-CONCRETE, p. 41, two thirds for concrete (read)
        MORTAR-BY-DRY-VOLUME, 1.33 for mortar of dry sand (read)
        PRACTICE, 42 for concrete (memory)

    Example:
        >>> bulk_sum_volume(loose=38.0, rule="mortar")
        27.0
    """
    return within(loose, "loose volume in m3", low=0.0) / _LOOSE_PER_MIXED[rule]


def part_volume(*, mixed: CubicMeter, parts: Ratio, rule: BulkRule) -> CubicMeter:
    """Loose volume of one part for a wanted volume of mix: V_1 = V · 38/27 / Σn.

    Args:
        mixed: V, finished volume wanted [m3]
        parts: Σn, all parts added up, 4 for a 1:3 mortar [-]
        rule: mortar (38 per 27), concrete (42 per 27), two-thirds (small concrete jobs) or dry-third (133 of dry parts
            make 100 of mortar)

    Returns:
        V_1, loose volume of one part [m3]

    Raises:
        OutOfRangeError: the volume is negative or the parts not above 0.

    Range:
        V ≥ 0, Σn > 0, refused otherwise; see bulk_sum_volume.

    Source:
        NAVEDTRA-14043, p. 215, 38 for mortar (read)
        MASONRY-AND-CONCRETE, p. 41, two thirds for concrete (read)
        MORTAR-BY-DRY-VOLUME, 1.33 for mortar of dry sand (read)
        PRACTICE, 42 for concrete (memory)

    Example:
        >>> part_volume(mixed=27.0, parts=4.0, rule="mortar")
        9.50
    """
    within(mixed, "volume wanted in m3", low=0.0)
    return mixed * _LOOSE_PER_MIXED[rule] / within(parts, "sum of parts", above=0.0)


def filling_water(*, made: CubicMeter, solids: CubicMeter, air: Ratio) -> CubicMeter:
    """Water with which a mix makes what a rule says it makes: V_w = V (1 − a) − V_s.

    The yield by loose volumes and the yield by absolute volume agree with just this water.

    Args:
        made: V, finished mix by a rule of loose volumes [m3]
        solids: V_s, absolute volumes of all grains together [m3]
        air: a, share of the finished mix that is air [-]

    Returns:
        V_w, all the water, also what damp sand brings [m3]

    Raises:
        OutOfRangeError: a volume is negative, the air not from 0 to 0.9, or the grains alone fill the mix.

    Range:
        V ≥ 0, V_s ≥ 0, 0 ≤ a ≤ 0.9, V_s < V (1 − a); refused outside.

    Source:
        ACI-211, section 9.2, solved for the water (derived)

    Example:
        >>> filling_water(made=1.0, solids=0.7, air=0.1)
        0.20
    """
    within(solids, "volume of grains in m3", low=0.0)
    room = within(made, "finished mix in m3", low=0.0) * (1 - within(air, "share of air", low=0.0, high=0.9))
    return within(room - solids, "room left for water in m3", above=0.0)


def gaps(*, loose: CubicMeter, solids: CubicMeter) -> CubicMeter:
    """Room between loosely poured grains: V_g = V_loose − V_s; more water than this stands over them.

    Args:
        loose: V_loose, loose volumes of all parts added up [m3]
        solids: V_s, absolute volumes of all grains together [m3]

    Returns:
        V_g, room between the grains [m3]

    Raises:
        OutOfRangeError: a volume is negative or the grains are more than the loose volume holds.

    Range:
        0 ≤ V_s ≤ V_loose, refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> gaps(loose=1.0, solids=0.6)
        0.40
    """
    within(solids, "volume of grains in m3", low=0.0)
    return within(loose - solids, "room between the grains in m3", low=0.0)


def mixing_water_mass(*, cement: Kilogram, water_cement: Ratio) -> Kilogram:
    """All the water of a batch: W = (w/c) C.

    Args:
        cement: C, mass of cement [kg]
        water_cement: w/c, mass of water over mass of cement [-]

    Returns:
        W, mass of water, also what damp sand brings [kg]

    Raises:
        OutOfRangeError: the mass is negative or the ratio not above 0.

    Range:
        C ≥ 0, w/c > 0, refused otherwise.

    Source:
        ACI-211, section 9.2 (read)

    Example:
        >>> mixing_water_mass(cement=42.6, water_cement=0.5)
        21.3
    """
    return within(cement, "mass of cement in kg", low=0.0) * within(water_cement, "water over cement", above=0.0)


def with_waste(*, net: CubicMeter, waste: Ratio) -> CubicMeter:
    """Volume to provide so that the net volume is left after waste is added on: V = V_0 (1 + w).

    Args:
        net: V_0, volume that stays in the work [m3]
        waste: w, allowance as a share of the net volume [-]

    Returns:
        V, volume to provide [m3]

    Raises:
        OutOfRangeError: either is negative.

    Range:
        V_0 ≥ 0, w ≥ 0, refused below.

    Source:
        NAVEDTRA-14070, p. 103 (read)

    Example:
        >>> with_waste(net=10.0, waste=0.1)
        11.0
    """
    return within(net, "net volume in m3", low=0.0) * (1 + within(waste, "waste", low=0.0))


def order_volume(*, net: CubicMeter, waste: Ratio, step: CubicMeter) -> CubicMeter:
    """Volume to order: net volume with waste, always rounded up to a whole step: V = s ⌈V_0 (1 + w) / s⌉.

    Args:
        net: V_0, volume that stays in the work [m3]
        waste: w, allowance as a share of the net volume [-]
        step: s, smallest step of an order, such as a quarter yard [m3]

    Returns:
        V, volume to order [m3]

    Raises:
        OutOfRangeError: net or waste is negative, or the step not above 0.

    Range:
        V_0 ≥ 0, w ≥ 0, s > 0, refused otherwise. The manual's own example rounds 21.49 yd3 down to 21, which
        leaves the work half a yard short; here it is always up.

    Source:
        NAVEDTRA-14070, p. 103, rounded up (derived)

    Example:
        >>> order_volume(net=10.0, waste=0.1, step=2.0)
        12.0
    """
    wanted = with_waste(net=net, waste=waste) / within(step, "step of an order in m3", above=0.0)
    return step * math.ceil(wanted - 1e-9)
