"""Cracks before they happen: how much a wall wants to shorten, what holds it back, how wide it cracks.

All of them take arrays.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import (
    Celsius,
    KgPerCubicMeter,
    Meter,
    NewtonPerMeter,
    Pascal,
    Ratio,
    Second,
    SquareMeterPerMeter,
)

_DAY = 86400.0
_SHORT = 2.5
"""Length over height from which the second curve of the restraint holds."""


@dataclass(frozen=True, kw_only=True)
class Aci209Factors:
    """What corrects the shrinkage of ACI 209: for damp, size, slump, sand, cement, air and curing."""

    humidity: Ratio
    size: Ratio
    slump: Ratio
    sand: Ratio
    cement: Ratio
    air: Ratio
    curing: Ratio


def drying_size(*, thickness: Meter, faces: Literal["one", "two"]) -> Meter:
    """Volume over drying surface of a wall: V/S = t / 2, or t where one face is sealed.

    Args:
        thickness: t, of the wall [m]
        faces: which dry

    Returns:
        V/S [m]

    Raises:
        OutOfRangeError: t is not above 0.

    Range:
        t > 0; refused outside. Top and ends not counted.

    Source:
        STATICS (derived)

    Example:
        >>> drying_size(thickness=0.2, faces="two")
        0.1
    """
    return within(thickness, "thickness in m", above=0.0) / (2 if faces == "two" else 1)


def unit_drying_size(*, length: Meter, height: Meter, width: Meter) -> Meter:
    """Volume over surface of a block that dries all round: V/S = l h w / 2 (l h + h w + w l).

    Args:
        length: l [m]
        height: h [m]
        width: w [m]

    Returns:
        V/S [m]

    Raises:
        OutOfRangeError: a side is not above 0.

    Range:
        all > 0; refused otherwise. Solid blocks, stacked with air between them.

    Source:
        STATICS (derived)

    Example:
        >>> unit_drying_size(length=0.4, height=0.2, width=0.2)
        0.04
    """
    long, high = within(length, "length in m", above=0.0), within(height, "height in m", above=0.0)
    wide = within(width, "width in m", above=0.0)
    return long * high * wide / (2 * (long * high + high * wide + wide * long))


def aci209_factors(
    *, humidity: Ratio, size: Meter, slump: Meter, sand: Ratio, cement: KgPerCubicMeter, air: Ratio, curing: Second
) -> Aci209Factors:  # fmt: skip
    """Corrections of ACI 209's shrinkage of concrete: γ for damp, size, slump, sand, cement, air and moist curing.

    Args:
        humidity: h, of the air on the mean [-]
        size: V/S, volume over drying surface [m]
        slump: s, of the mix [m]
        sand: ψ, share of the aggregate that is sand, by mass [-]
        cement: c, in the mix [kg/m3]
        air: α, share of air [-]
        curing: t, kept moist so long [s]

    Returns:
        the seven factors

    Raises:
        OutOfRangeError: an argument is outside its range.

    Range:
        0.4 ≤ h ≤ 1, V/S > 0, s, c, α ≥ 0, 0 ≤ ψ ≤ 1, 1 to 90 days; refused outside. Dense concrete of 20 MPa or more,
        not foamed concrete.

    Source:
        ACI-209 (read)
        ACI-209, the factor for curing, 1.202 − 0.2337 log t (memory)

    Example:
        >>> aci209_factors(
        ...     humidity=0.8, size=0.1, slump=0.0683, sand=0.5, cement=410.0, air=0.02, curing=7 * 86400.0)
        Aci209Factors(humidity=0.584, size=0.749, slump=1.0, sand=1.0, cement=1.0, air=1.0, curing=1.0045)
    """
    damp = within(humidity, "humidity of the air", low=0.4, high=1.0)
    share = 100 * within(sand, "share of sand", low=0.0, high=1.0)
    millimeters = 1000 * within(size, "volume over surface in m", above=0.0)
    days = within(curing, "curing in s", low=_DAY, high=90 * _DAY) / _DAY
    return Aci209Factors(
        humidity=np.minimum(1.40 - 1.02 * damp, 3.0 - 3.0 * damp),
        size=1.2 * np.exp(-0.00472 * millimeters),
        slump=0.89 + 1.61 * within(slump, "slump in m", low=0.0),
        sand=np.minimum(0.30 + 0.014 * share, 0.90 + 0.002 * share),
        cement=0.75 + 0.00061 * within(cement, "cement in kg/m3", low=0.0),
        air=np.maximum(0.95 + 0.8 * within(air, "share of air", low=0.0, high=1.0), 1.0),
        curing=1.202 - 0.2337 * np.log10(days),
    )


def shrinkage_by_aci209(*, correction: Ratio) -> Ratio:
    """Shrinkage of concrete in the end: ε = 780·10⁻⁶ Πγ.

    Args:
        correction: Πγ, product of the factors of aci209_factors [-]

    Returns:
        ε, shortening per length [-]

    Raises:
        OutOfRangeError: Πγ is below 0.

    Range:
        Πγ ≥ 0; refused below.

    Source:
        ACI-209 (read)

    Example:
        >>> shrinkage_by_aci209(correction=0.5)
        0.00039
    """
    return 780e-6 * within(correction, "product of the factors", low=0.0)


def share_dried_by_aci209(*, drying: Second) -> Ratio:
    """Share of the shrinkage that has happened: t / (35 + t), t in days.

    Args:
        drying: t, since the moist curing ended [s]

    Returns:
        share, 0 at first and 1 in the end [-]

    Raises:
        OutOfRangeError: t is below 0.

    Range:
        t ≥ 0; refused below. Cured moist.

    Source:
        ACI-209 (read)

    Example:
        >>> share_dried_by_aci209(drying=35 * 86400.0)
        0.5
    """
    days = within(drying, "drying in s", low=0.0) / _DAY
    return days / (35.0 + days)


def humidity_factor_by_mc90(*, humidity: Ratio) -> Ratio:
    """Share of the shrinkage in quite dry air that comes at a humidity: βRH = 1.55 (1 − h³).

    Args:
        humidity: h, of the air on the mean [-]

    Returns:
        βRH, shortening positive [-]

    Raises:
        OutOfRangeError: h is below 0.4 or above 0.99.

    Range:
        0.4 ≤ h ≤ 0.99; refused outside; wetter concrete swells.

    Source:
        CEB-MC90 (read)

    Example:
        >>> humidity_factor_by_mc90(humidity=0.5)
        1.356
    """
    return 1.55 * (1 - within(humidity, "humidity of the air", low=0.4, high=0.99) ** 3)


def share_dried_by_mc90(*, size: Meter, drying: Second) -> Ratio:
    """Share of the shrinkage that has happened: √[t / (350 (V/S / 50)² + t)], V/S in mm and t in days.

    Args:
        size: V/S, volume over drying surface [m]
        drying: t, since it began to dry [s]

    Returns:
        share, 0 at first and 1 in the end [-]

    Raises:
        OutOfRangeError: V/S is not above 0 or t below 0.

    Range:
        V/S > 0, t ≥ 0; refused outside. Made for dense concrete: porous stuff dries sooner.

    Source:
        CEB-MC90 (read)

    Example:
        >>> share_dried_by_mc90(size=0.05, drying=350 * 86400.0)
        0.7071
    """
    slow = 350 * (within(size, "volume over surface in m", above=0.0) / 0.05) ** 2
    days = within(drying, "drying in s", low=0.0) / _DAY
    share: Ratio = (days / (slow + days)) ** 0.5
    return share


def shrinkage_left(*, shrinkage: Ratio, dried: Ratio) -> Ratio:
    """Shrinkage that is still to come when a unit is laid: ε (1 − share).

    Args:
        shrinkage: ε, in the end [-]
        dried: share of it that has happened before [-]

    Returns:
        what is left [-]

    Raises:
        OutOfRangeError: ε is below 0 or the share is none.

    Range:
        ε ≥ 0, 0 ≤ share ≤ 1; refused outside. Kept dry until laid: a block that is soaked again shrinks again.

    Source:
        STATICS (derived)

    Example:
        >>> shrinkage_left(shrinkage=0.002, dried=0.25)
        0.0015
    """
    done = within(dried, "share that has happened", low=0.0, high=1.0)
    return within(shrinkage, "shrinkage", low=0.0) * (1 - done)


def free_strain(*, shrinkage: Ratio, expansion: Ratio, cooling_c: Celsius) -> Ratio:
    """Shortening per length of a wall that nothing holds: ε = s + α T.

    Args:
        shrinkage: s, by drying [-]
        expansion: α, per °C [-]
        cooling_c: T, fall of temperature [°C]

    Returns:
        ε [-]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0; refused below.

    Source:
        CIRIA-C660 (read)

    Example:
        >>> free_strain(shrinkage=0.0003, expansion=0.00001, cooling_c=20.0)
        0.0005
    """
    cooled = within(expansion, "expansion per °C", low=0.0) * within(cooling_c, "cooling in °C", low=0.0)
    return within(shrinkage, "shrinkage", low=0.0) + cooled


def restraint_by_aci207(*, length: Meter, height: Meter, level: Ratio) -> Ratio:
    """Share of a wall's shortening that its base holds back at a height above it.

    R = [(x − 2) / (x + 1)]^k for x = L / H of 2.5 and more, [(x − 1) / (x + 10)]^k below.

    Args:
        length: L, from joint to joint [m]
        height: H, of the wall above its base [m]
        level: k, height of the place as a share of the wall's: 0 at the base [-]

    Returns:
        R, at mid-length, for a base that does not yield; 0 for walls no longer than high [-]

    Raises:
        OutOfRangeError: L or H is not above 0, or k is no share.

    Range:
        L, H > 0, 0 ≤ k ≤ 1; refused outside.

    Source:
        ACI-207-2 (memory)

    Example:
        >>> restraint_by_aci207(length=8.0, height=1.0, level=1.0)
        0.667
    """
    x = within(length, "length in m", above=0.0) / within(height, "height in m", above=0.0)
    short = np.maximum(x - 1, 0.0) / (x + 10)
    long = np.maximum(x - 2, 0.0) / (x + 1)
    power = within(level, "height as a share", low=0.0, high=1.0)
    held: Ratio = np.where(x < _SHORT, short, long)[()] ** power
    return held


def base_yielding(*, wall: NewtonPerMeter, base: NewtonPerMeter) -> Ratio:
    """What is left of the restraint where the base yields: 1 / (1 + EAw / EAb).

    Args:
        wall: EAw, of the wall's cross-section, in any measure that both share [N/m]
        base: EAb, of the footing's [N/m]

    Returns:
        factor on the restraint [-]

    Raises:
        OutOfRangeError: EAw is below 0 or EAb not above 0.

    Range:
        EAw ≥ 0, EAb > 0; refused outside.

    Source:
        ACI-207-2 (memory)

    Example:
        >>> base_yielding(wall=1e9, base=3e9)
        0.75
    """
    share = within(wall, "stiffness of the wall in N/m", low=0.0) / within(base, "stiffness of the base", above=0.0)
    return 1 / (1 + share)


def restrained_strain(*, restraint: Ratio, creep: Ratio, strain: Ratio) -> Ratio:
    """Strain that is held back: εr = R K ε.

    Args:
        restraint: R, share held back [-]
        creep: K, share left after creep, 0.65 [-]
        strain: ε, free shortening [-]

    Returns:
        εr [-]

    Raises:
        OutOfRangeError: R or K is no share, or ε below 0.

    Range:
        0 ≤ R, K ≤ 1, ε ≥ 0; refused outside.

    Source:
        CIRIA-C660 (read)

    Example:
        >>> restrained_strain(restraint=0.8, creep=0.5, strain=0.0005)
        0.0002
    """
    left = within(creep, "share left after creep", low=0.0, high=1.0)
    return within(restraint, "restraint", low=0.0, high=1.0) * left * within(strain, "strain", low=0.0)


def strain_capacity(*, tension: Pascal, modulus: Pascal, sustained: Ratio, creep: Ratio) -> Ratio:
    """Strain at which a material cracks under a pull that lasts: εc = f / E · K2 / K1.

    Args:
        tension: f, tensile strength [Pa]
        modulus: E [Pa]
        sustained: K2, share of the strength under a lasting pull, 0.8 [-]
        creep: K1, share of the stress left after creep, 0.65 [-]

    Returns:
        εc [-]

    Raises:
        OutOfRangeError: f is below 0, E not above 0, or a factor outside 0 to 1.

    Range:
        f ≥ 0, E > 0, 0 ≤ K2 ≤ 1, 0 < K1 ≤ 1; refused outside.

    Source:
        CIRIA-C660 (read)

    Example:
        >>> strain_capacity(tension=2e6, modulus=20e9, sustained=0.8, creep=0.8)
        0.0001
    """
    share = within(sustained, "sustained share", low=0.0, high=1.0) / within(creep, "creep", above=0.0, high=1.0)
    return within(tension, "tension in Pa", low=0.0) / within(modulus, "modulus in Pa", above=0.0) * share


def crack_strain(*, restrained: Ratio, capacity: Ratio) -> Ratio:
    """Strain that opens cracks: what is held back less half of what the material takes: εr − εc / 2, 0 at least.

    Args:
        restrained: εr, held back [-]
        capacity: εc, at which it cracks [-]

    Returns:
        strain that shows as cracks; 0 where it does not crack [-]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        εr, εc ≥ 0; refused below. None where εr stays below εc.

    Source:
        CIRIA-C660 (read)

    Example:
        >>> crack_strain(restrained=0.0003, capacity=0.0001)
        0.00025
    """
    held, takes = within(restrained, "strain held back", low=0.0), within(capacity, "strain capacity", low=0.0)
    return (held > takes) * (held - takes / 2) + 0.0  # no minus nothing


def crack_width(*, strain: Ratio, spacing: Meter) -> Meter:
    """Width of a crack that takes the strain of so much wall: w = ε s.

    Args:
        strain: ε, that shows as cracks [-]
        spacing: s, wall that one crack serves: the whole panel without steel, crack to crack with it [m]

    Returns:
        w [m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        ε, s ≥ 0; refused below.

    Source:
        CIRIA-C660 (read)

    Example:
        >>> crack_width(strain=0.0001, spacing=6.0)
        0.0006
    """
    return within(strain, "strain", low=0.0) * within(spacing, "spacing in m", low=0.0)


def spacing_by_movement(*, movement: Meter, strain: Ratio) -> Meter:
    """Distance between joints of which each takes so much movement: s = w / ε.

    Args:
        movement: w, that a joint takes: its width times what its filler gives [m]
        strain: ε, movement per length [-]

    Returns:
        s [m]

    Raises:
        OutOfRangeError: w is below 0 or ε not above 0.

    Range:
        w ≥ 0, ε > 0; refused outside.

    Source:
        BRICK-TN-18A (read)

    Example:
        >>> spacing_by_movement(movement=0.006, strain=0.001)
        6
    """
    return within(movement, "movement in m", low=0.0) / within(strain, "strain", above=0.0)


def panel_by_restraint(*, height: Meter, restraint: Ratio, level: Ratio) -> Meter:
    """Longest panel in which the base holds back no more than a share: restraint_by_aci207 turned round.

    Args:
        height: H, of the wall above its base [m]
        restraint: R, share that may be held back, capacity over what is held of a strain [-]
        level: k, height of the place as a share of the wall's [-]

    Returns:
        L; without end where R is 1 or more [m]

    Raises:
        OutOfRangeError: H or k is not above 0, k over 1, or R below 0.

    Range:
        H > 0, 0 < k ≤ 1, R ≥ 0; refused outside. Where the two curves leave a gap, the shorter panel.

    Source:
        ACI-207-2 (memory)

    Example:
        >>> panel_by_restraint(height=1.0, restraint=0.5, level=1.0)
        5
    """
    root = 1 / within(level, "height as a share", above=0.0, high=1.0)
    share = np.minimum(within(restraint, "restraint", low=0.0), 1.0) ** root
    gap: Ratio = np.subtract(1.0, share)  # a numpy number even of a float: it divides to infinity
    with np.errstate(divide="ignore"):
        long: Ratio = (2 + share) / gap
        short: Ratio = (1 + 10 * share) / gap
    times: Ratio = np.maximum(np.minimum(short, _SHORT), long * (long >= _SHORT))
    return within(height, "height in m", above=0.0) * times


def crack_steel(
    *, tension: Pascal, area: SquareMeterPerMeter, stress: Pascal, share: Ratio
) -> SquareMeterPerMeter:  # fmt: skip
    """Least steel that stays whole when the wall cracks and so makes many fine cracks of one wide one: A = k f Ac / σ.

    Args:
        tension: f, tensile strength of the wall along its length [Pa]
        area: Ac, of the wall that the steel serves, per height of it [m2/m]
        stress: σ, in the steel, its yield at most [Pa]
        share: k, kc k of the standard: 1 for walls up to 300 mm pulled all through [-]

    Returns:
        A, per height of wall [m2/m]

    Raises:
        OutOfRangeError: f or Ac is below 0, σ not above 0, or k no share.

    Range:
        f, Ac ≥ 0, σ > 0, 0 ≤ k ≤ 1; refused outside.

    Source:
        EN-1992-1-1, equation 7.1 (memory)
        via STRUCTURAL-CODES

    Example:
        >>> crack_steel(tension=1e6, area=0.2, stress=400e6, share=1.0)
        0.0005
    """
    pull = within(tension, "tension in Pa", low=0.0) * within(area, "area in m2/m", low=0.0)
    return within(share, "share", low=0.0, high=1.0) * pull / within(stress, "stress in Pa", above=0.0)


def crack_spacing_by_en1992(*, cover: Meter, diameter: Meter, steel: Ratio, strain_shape: Ratio) -> Meter:
    """Greatest distance between cracks where steel holds them: s = 3.4 c + 0.425 · 0.8 k2 φ / ρ.

    Args:
        cover: c, over the steel [m]
        diameter: φ, of the bar or wire [m]
        steel: ρ, area of steel over area of wall that it serves [-]
        strain_shape: k2, 1 where all is pulled alike, 0.5 where it bends [-]

    Returns:
        s [m]

    Raises:
        OutOfRangeError: c is below 0, φ or ρ not above 0, or k2 outside 0.5 to 1.

    Range:
        c ≥ 0, φ, ρ > 0, 0.5 ≤ k2 ≤ 1; refused outside. Ribbed bars; the steel must be no less than crack_steel.

    Source:
        EN-1992-1-1, equation 7.11 (memory)
        via STRUCTURAL-CODES

    Example:
        >>> crack_spacing_by_en1992(cover=0.04, diameter=0.01, steel=0.01, strain_shape=1.0)
        0.476
    """
    shape = within(strain_shape, "shape of the strain", low=0.5, high=1.0)
    bond = 0.425 * 0.8 * shape * within(diameter, "diameter in m", above=0.0)
    return 3.4 * within(cover, "cover in m", low=0.0) + bond / within(steel, "share of steel", above=0.0)


def end_restraint_strain(*, modular_ratio: Ratio, steel: Ratio, tension: Pascal, steel_modulus: Pascal) -> Ratio:
    """Strain in cracks of a wall held at both ends whose steel stays whole: ε = 0.5 n f (1 + 1 / (n ρ)) / Es.

    Args:
        modular_ratio: n, modulus of steel over the wall's [-]
        steel: ρ, area of steel over area of wall [-]
        tension: f, tensile strength of the wall along its length [Pa]
        steel_modulus: Es [Pa]

    Returns:
        ε, mean strain of the steel over the wall's [-]

    Raises:
        OutOfRangeError: n, ρ or Es is not above 0, or f below 0.

    Range:
        n, ρ, Es > 0, f ≥ 0; refused outside. Pulled all through, walls up to 300 mm.

    Source:
        EN-1992-3, equation M.1 (memory)
        via STRUCTURAL-CODES

    Example:
        >>> end_restraint_strain(modular_ratio=10.0, steel=0.01, tension=2e6, steel_modulus=200e9)
        0.00055
    """
    n = within(modular_ratio, "modular ratio", above=0.0)
    pull = 0.5 * n * within(tension, "tension in Pa", low=0.0) * (1 + 1 / (n * within(steel, "steel", above=0.0)))
    return pull / within(steel_modulus, "modulus of steel in Pa", above=0.0)
