"""What more or less sand changes: water for the same flow, gaps filled with paste, shrinkage, creep, carbon."""

from __future__ import annotations

import numpy as np
from scipy.special import ndtr

from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, Kilogram, Pascal, Ratio

_OXIDE_MOLE, _GAS_MOLE = 56.077, 44.009
"""Grams of a mole of CaO and of CO2."""


def water_of_parts(
    *, cement: Kilogram, lime: Kilogram, sand: Kilogram, for_cement: Ratio, for_lime: Ratio, for_sand: Ratio
) -> Kilogram:  # fmt: skip
    """Water that cement, lime and sand each ask for by themselves, added up: W = a C + b L + d S.

    Args:
        cement: C, mass of cement [kg]
        lime: L, mass of dry lime [kg]
        sand: S, dry mass of sand [kg]
        for_cement: a, water over cement of a paste of like consistency, 0.20 to 0.28 [-]
        for_lime: b, likewise over lime [-]
        for_sand: d, water that brings sand alone to it, over its dry mass; fine sand asks for much more [-]

    Returns:
        W, water of a mortar as stiff as its parts [kg]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        all ≥ 0, refused below. A start: the last of the water is added by feel.

    Source:
        CEMENT-AND-CONCRETE, section 279 (read)
        CEMENT-AND-CONCRETE, the same of lime (derived)

    Example:
        >>> water_of_parts(cement=50.0, lime=10.0, sand=200.0, for_cement=0.24, for_lime=0.5, for_sand=0.1)
        37.0
    """
    paste = within(for_cement, "water over cement", low=0.0) * within(cement, "cement in kg", low=0.0)
    paste += within(for_lime, "water over lime", low=0.0) * within(lime, "lime in kg", low=0.0)
    return paste + within(for_sand, "water over sand", low=0.0) * within(sand, "sand in kg", low=0.0)


def water_at_same_flow(*, water: Ratio, wanted: Kilogram, known: Kilogram) -> Ratio:
    """Water of a mix that shall flow like one whose water is known: w = w_0 W / W_0.

    Args:
        water: w_0, of the mix that is known, over its cement [-]
        wanted: W, water of the parts of the other mix, for the same cement [kg]
        known: W_0, water of the parts of the known one [kg]

    Returns:
        w, water over cement of the other mix [-]

    Raises:
        OutOfRangeError: w_0 or W is below 0, or W_0 not above 0.

    Range:
        w_0, W ≥ 0, W_0 > 0; refused outside. Same sand, same hands: how wet the builder likes it goes into w_0.

    Source:
        CEMENT-AND-CONCRETE, section 279, both mixes alike (derived)

    Example:
        >>> water_at_same_flow(water=0.6, wanted=60.0, known=50.0)
        0.72
    """
    return within(water, "water over cement", low=0.0) * within(wanted, "water of the parts", low=0.0) / within(
        known, "water of the known parts", above=0.0
    )  # fmt: skip


def gaps_filled(*, paste: CubicMeter, sand: CubicMeter, grains: CubicMeter) -> Ratio:
    """Paste over the gaps between the grains of sand: p = V_p / (V_b − V_s).

    Args:
        paste: V_p, cement, lime and water by absolute volume [m3]
        sand: V_b, the sand as it lies dry and loose [m3]
        grains: V_s, its grains alone [m3]

    Returns:
        p, 1 where the paste just fills the gaps; below it the mortar is short, rough and lets water in [-]

    Raises:
        OutOfRangeError: the paste is below 0, or the grains take as much room as the sand.

    Range:
        V_p ≥ 0, V_s < V_b; refused outside. Air is left out: what the paste does not fill is air.

    Source:
        CONCRETE-METHODS, on lean mortar (read)

    Example:
        >>> gaps_filled(paste=0.02, sand=0.1, grains=0.06)
        0.50
    """
    gaps = within(sand - within(grains, "grains in m3", low=0.0), "gaps between the grains in m3", above=0.0)
    return within(paste, "paste in m3", low=0.0) / gaps


def shrinkage_by_water(*, known: Ratio, share: Ratio, known_share: Ratio) -> Ratio:
    """Drying shrinkage of a mortar by that of another, in proportion to their water: ε = ε_0 s / s_0.

    Args:
        known: ε_0, of the mortar that is known, in the end [-]
        share: s, water over the mass of all as mixed [-]
        known_share: s_0, likewise of the known mortar [-]

    Returns:
        ε, in the end [-]

    Raises:
        OutOfRangeError: ε_0 or s is below 0, or s_0 not above 0.

    Range:
        ε_0, s ≥ 0, s_0 > 0; refused outside. Found for w/c 0.35 to 0.71 and 40 to 70 % of sand by volume.

    Source:
        MORTAR-SHRINKAGE, abstract (read)

    Example:
        >>> shrinkage_by_water(known=0.0006, share=0.12, known_share=0.16)
        0.00045
    """
    held = within(known, "shrinkage", low=0.0) * within(share, "share of water", low=0.0)
    return held / within(known_share, "share of water of the known mortar", above=0.0)


def shrinkage_by_pickett(*, paste: Ratio, aggregate: Ratio, exponent: Ratio) -> Ratio:
    """Drying shrinkage by the share of sand and stone, which do not shrink: ε = ε_p (1 − a)^n.

    Args:
        paste: ε_p, of the paste alone [-]
        aggregate: a, share of the volume that is sand and stone [-]
        exponent: n, 1.2 to 1.7 [-]

    Returns:
        ε [-]

    Raises:
        OutOfRangeError: ε_p is below 0, a no share, or n not above 0.

    Range:
        ε_p ≥ 0, 0 ≤ a ≤ 1, n > 0; refused outside. Grains that do not shrink, held by the paste.

    Source:
        PICKETT, shrinkage of concrete (memory)

    Example:
        >>> shrinkage_by_pickett(paste=0.004, aggregate=0.5, exponent=2.0)
        0.001
    """
    rest = np.subtract(1.0, within(aggregate, "share of sand and stone", low=0.0, high=1.0))
    held: Ratio = within(paste, "shrinkage of the paste", low=0.0) * rest ** within(exponent, "exponent", above=0.0)
    return held


def stress_left(*, known: Ratio, strength: Pascal, known_strength: Pascal) -> Ratio:
    """Stress left after creep in a stronger or weaker mortar: ψ = 1 / (1 + (1/ψ_0 − 1) √(f_0/f)).

    Args:
        known: ψ_0, share left in the mortar that is known [-]
        strength: f, of the other [Pa]
        known_strength: f_0, of the known one [Pa]

    Returns:
        ψ, share of a held stress that is left; strong mortar creeps less and keeps more of it [-]

    Raises:
        OutOfRangeError: ψ_0 is no share above 0, or a strength not above 0.

    Range:
        0 < ψ_0 ≤ 1, f > 0, f_0 > 0; refused outside.

    Source:
        CEB-MC90, creep coefficient by the root of the strength (memory)

    Example:
        >>> stress_left(known=0.5, strength=20e6, known_strength=5e6)
        0.667
    """
    creep = 1 / within(known, "share left after creep", above=0.0, high=1.0) - 1
    weaker = within(known_strength, "known strength in Pa", above=0.0) / within(strength, "strength in Pa", above=0.0)
    left: Ratio = 1 / (1 + creep * weaker**0.5)
    return left


def chance_of_cracking(*, pull: Pascal, takes: Pascal, pull_spread: Ratio, takes_spread: Ratio) -> Ratio:
    """Chance that a pull passes what holds it, both lognormal about their means: p = Φ(−β).

    β = ln[(f / σ) √((1 + Vσ²) / (1 + Vf²))] / √(ln[(1 + Vσ²)(1 + Vf²)]).

    Args:
        pull: σ, mean of the pull [Pa]
        takes: f, mean of what it can be pulled [Pa]
        pull_spread: Vσ, one standard deviation of the pull over its mean [-]
        takes_spread: Vf, likewise of what holds it [-]

    Returns:
        p, chance that it cracks [-]

    Raises:
        OutOfRangeError: a pull is not above 0, or a spread is below 0, or both are 0.

    Range:
        σ, f > 0; Vσ, Vf ≥ 0 and not both 0; refused outside. The two know nothing of each other.

    Source:
        LRFD-RELIABILITY, equations 5-24 and 5-25 (read)

    Example:
        >>> chance_of_cracking(pull=1e6, takes=2e6, pull_spread=0.3, takes_spread=0.3)
        0.0475
    """
    both = within(takes, "what it takes in Pa", above=0.0) / within(pull, "pull in Pa", above=0.0)
    act, hold = 1 + within(pull_spread, "spread", low=0.0) ** 2, 1 + within(takes_spread, "spread", low=0.0) ** 2
    spread = within(np.log(act * hold), "spread of both", above=0.0) ** 0.5
    chance: Ratio = ndtr(-np.log(both * (act / hold) ** 0.5) / spread)
    return chance


def calcined(*, oxide: Ratio) -> Ratio:
    """Carbon dioxide that limestone gives off to leave so much lime: m = x · 44.01 / 56.08.

    Args:
        oxide: x, mass of CaO over the mass of clinker or lime [-]

    Returns:
        m, mass of CO2 over that mass; burning and grinding not in it [-]

    Raises:
        OutOfRangeError: x is no share.

    Range:
        0 ≤ x ≤ 1, refused outside.

    Source:
        STATICS, masses of CaO and CO2 (derived)

    Example:
        >>> calcined(oxide=0.65)
        0.51
    """
    return within(oxide, "share of CaO", low=0.0, high=1.0) * _GAS_MOLE / _OXIDE_MOLE
