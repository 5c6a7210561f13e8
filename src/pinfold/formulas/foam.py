"""Foamed concrete by absolute volumes: slurry, foam, masses per volume, and foam to make."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, CubicMeterPerSecond, KgPerCubicMeter, Ratio, Second


@dataclass(frozen=True, kw_only=True)
class FoamedMix:
    """Per volume of foamed concrete as cast: foam by volume, the rest by mass."""

    foam: Ratio
    cement: KgPerCubicMeter
    water: KgPerCubicMeter
    sand: KgPerCubicMeter
    foam_mass: KgPerCubicMeter


def slurry_density(
    *,
    water_cement: Ratio,
    sand_cement: Ratio,
    water_density: KgPerCubicMeter,
    cement_density: KgPerCubicMeter,
    sand_density: KgPerCubicMeter,
) -> KgPerCubicMeter:
    """Density of the mix before foam goes in: ρ_sl = (1 + r + w) / (1/ρ_c + r/ρ_s + w/ρ_w).

    Args:
        water_cement: w, mass of water over mass of cement [-]
        sand_cement: r, mass of sand over mass of cement, 0 for none [-]
        water_density: ρ_w, density of water [kg/m3]
        cement_density: ρ_c, density of cement grains [kg/m3]
        sand_density: ρ_s, density of sand grains [kg/m3]

    Returns:
        ρ_sl, density of the slurry [kg/m3]

    Raises:
        OutOfRangeError: a ratio is out of range or a density not above 0.

    Range:
        w > 0, r ≥ 0, densities > 0; refused otherwise. Air stirred in by the mixer is left out.

    Source:
        STATICS, absolute volumes (derived)

    Example:
        >>> slurry_density(water_cement=0.5, sand_cement=0.0, water_density=1000.0, cement_density=3150.0,
        ...     sand_density=2650.0)
        1835.0
    """
    within(water_cement, "water over cement", above=0.0)
    within(sand_cement, "sand over cement", low=0.0)
    space = (
        1 / within(cement_density, "density of cement in kg/m3", above=0.0)
        + sand_cement / within(sand_density, "density of sand in kg/m3", above=0.0)
        + water_cement / within(water_density, "density of water in kg/m3", above=0.0)
    )
    return (1 + sand_cement + water_cement) / space


def foam_share(*, slurry: KgPerCubicMeter, cast: KgPerCubicMeter, foam: KgPerCubicMeter) -> Ratio:
    """Foam per volume of foamed concrete: v = (ρ_sl − ρ) / (ρ_sl − ρ_f).

    Args:
        slurry: ρ_sl, density of the mix before foam [kg/m3]
        cast: ρ, density wanted as cast [kg/m3]
        foam: ρ_f, density of the foam [kg/m3]

    Returns:
        v, volume of foam per volume cast [-]

    Raises:
        OutOfRangeError: the wanted density does not lie between foam and slurry.

    Range:
        0 ≤ ρ_f < ρ ≤ ρ_sl, refused outside.

    Source:
        STATICS, absolute volumes (derived)

    Example:
        >>> foam_share(slurry=1835.0, cast=800.0, foam=40.0)
        0.5766
    """
    within(foam, "density of the foam in kg/m3", low=0.0)
    within(cast, "density as cast in kg/m3", above=foam, high=slurry)
    return (slurry - cast) / (slurry - foam)


def foamed_mix(
    *,
    cast: KgPerCubicMeter,
    foam: KgPerCubicMeter,
    water_cement: Ratio,
    sand_cement: Ratio,
    water_density: KgPerCubicMeter,
    cement_density: KgPerCubicMeter,
    sand_density: KgPerCubicMeter,
) -> FoamedMix:
    """What goes into a volume of foamed concrete: C = (ρ − ρ_f v) / (1 + r + w), W = w C, S = r C.

    Args:
        cast: ρ, density wanted as cast [kg/m3]
        foam: ρ_f, density of the foam [kg/m3]
        water_cement: w, mass of water over mass of cement, without the foam's own [-]
        sand_cement: r, mass of sand over mass of cement, 0 for none [-]
        water_density: ρ_w, density of water [kg/m3]
        cement_density: ρ_c, density of cement grains [kg/m3]
        sand_density: ρ_s, density of sand grains [kg/m3]

    Returns:
        foam by volume, cement, water, sand and foam by mass, per volume cast (see FoamedMix)

    Raises:
        OutOfRangeError: the wanted density does not lie between foam and slurry, or a value is out of range.

    Range:
        0 ≤ ρ_f < ρ ≤ ρ_sl, w > 0, r ≥ 0; refused outside. Foam is taken to keep its volume; see foam_to_make for loss.

    Source:
        STATICS, absolute volumes (derived)

    Example:
        >>> foamed_mix(cast=800.0, foam=40.0, water_cement=0.5, sand_cement=0.0, water_density=1000.0,
        ...     cement_density=3150.0, sand_density=2650.0)
        FoamedMix(foam=0.5766, cement=517.96, water=258.98, sand=0.0, foam_mass=23.064)
    """
    slurry = slurry_density(
        water_cement=water_cement,
        sand_cement=sand_cement,
        water_density=water_density,
        cement_density=cement_density,
        sand_density=sand_density,
    )
    share = foam_share(slurry=slurry, cast=cast, foam=foam)
    cement = (cast - foam * share) / (1 + sand_cement + water_cement)
    return FoamedMix(
        foam=share,
        cement=cement,
        water=water_cement * cement,
        sand=sand_cement * cement,
        foam_mass=foam * share,
    )


def foamed_density(
    *, slurry: CubicMeter, slurry_density: KgPerCubicMeter, foam: CubicMeter, foam_density: KgPerCubicMeter
) -> KgPerCubicMeter:
    """Density after so much foam has gone in: ρ = (ρ_sl V_sl + ρ_f V_f) / (V_sl + V_f).

    Args:
        slurry: V_sl, volume of the mix before foam [m3]
        slurry_density: ρ_sl, its density [kg/m3]
        foam: V_f, volume of foam that survives the mixing [m3]
        foam_density: ρ_f, density of the foam [kg/m3]

    Returns:
        ρ, density of the foamed concrete [kg/m3]

    Raises:
        OutOfRangeError: there is no slurry, or a value is negative.

    Range:
        V_sl > 0, V_f ≥ 0, densities ≥ 0; refused otherwise.

    Source:
        STATICS, absolute volumes (derived)

    Example:
        >>> foamed_density(slurry=0.5, slurry_density=1800.0, foam=0.5, foam_density=40.0)
        920.0
    """
    within(slurry, "volume of slurry in m3", above=0.0)
    within(foam, "volume of foam in m3", low=0.0)
    within(slurry_density, "density of the slurry in kg/m3", low=0.0)
    within(foam_density, "density of the foam in kg/m3", low=0.0)
    return (slurry_density * slurry + foam_density * foam) / (slurry + foam)


def foam_for_slurry(
    *, slurry: CubicMeter, slurry_density: KgPerCubicMeter, cast: KgPerCubicMeter, foam_density: KgPerCubicMeter
) -> CubicMeter:
    """Foam to stir into a slurry that stands in the mixer: V_f = V_sl (ρ_sl − ρ) / (ρ − ρ_f).

    Args:
        slurry: V_sl, volume of the mix in the mixer [m3]
        slurry_density: ρ_sl, its density as weighed [kg/m3]
        cast: ρ, density wanted [kg/m3]
        foam_density: ρ_f, density of the foam as weighed [kg/m3]

    Returns:
        V_f, volume of foam that must survive the mixing [m3]

    Raises:
        OutOfRangeError: the wanted density does not lie between foam and slurry.

    Range:
        V_sl ≥ 0, 0 ≤ ρ_f < ρ ≤ ρ_sl; refused outside.

    Source:
        STATICS, absolute volumes (derived)

    Example:
        >>> foam_for_slurry(slurry=0.5, slurry_density=1800.0, cast=920.0, foam_density=40.0)
        0.50
    """
    within(slurry, "volume of slurry in m3", low=0.0)
    within(foam_density, "density of the foam in kg/m3", low=0.0)
    within(cast, "density as cast in kg/m3", above=foam_density, high=slurry_density)
    return slurry * (slurry_density - cast) / (cast - foam_density)


def dry_density(*, cement: KgPerCubicMeter, sand: KgPerCubicMeter, bound_water: Ratio) -> KgPerCubicMeter:
    """Density of foamed concrete once dry: ρ_d = (1 + k) C + S.

    Args:
        cement: C, cement per volume [kg/m3]
        sand: S, sand per volume [kg/m3]
        bound_water: k, water the cement keeps, over cement; about 0.2 [-]

    Returns:
        ρ_d, dry density [kg/m3]

    Raises:
        OutOfRangeError: a value is negative or k above 0.4.

    Range:
        C ≥ 0, S ≥ 0, 0 ≤ k ≤ 0.4; refused outside.

    Source:
        ASTM-C869, note to table 1, water of hydration taken as 20 % of the cement (read)

    Example:
        >>> dry_density(cement=390.4, sand=390.4, bound_water=0.2)
        858.9
    """
    within(cement, "cement in kg/m3", low=0.0)
    within(sand, "sand in kg/m3", low=0.0)
    return (1 + within(bound_water, "bound water", low=0.0, high=0.4)) * cement + sand


def cast_for_dry(
    *,
    dry: KgPerCubicMeter,
    foam: KgPerCubicMeter,
    water_cement: Ratio,
    sand_cement: Ratio,
    bound_water: Ratio,
    water_density: KgPerCubicMeter,
    cement_density: KgPerCubicMeter,
    sand_density: KgPerCubicMeter,
) -> KgPerCubicMeter:
    """Density to cast for a density once dry: ρ = (1 + r + w) C + ρ_f v, C = ρ_d / (1 + k + r).

    v = 1 − C (1/ρ_c + r/ρ_s + w/ρ_w) is the room left for foam.

    Args:
        dry: ρ_d, density wanted once dry [kg/m3]
        foam: ρ_f, density of the foam [kg/m3]
        water_cement: w, mass of water over mass of cement, without the foam's own [-]
        sand_cement: r, mass of sand over mass of cement, 0 for none [-]
        bound_water: k, water the cement keeps, over cement; about 0.2 [-]
        water_density: ρ_w, density of water [kg/m3]
        cement_density: ρ_c, density of cement grains [kg/m3]
        sand_density: ρ_s, density of sand grains [kg/m3]

    Returns:
        ρ, density to cast [kg/m3]

    Raises:
        OutOfRangeError: there is no room for foam, or a value is out of range.

    Range:
        ρ_d > 0, v ≥ 0, ρ_f ≥ 0, w > 0, r ≥ 0, 0 ≤ k ≤ 0.4; refused outside.

    Source:
        ASTM-C869, note to table 1, water of hydration taken as 20 % of the cement (read)
        STATICS, absolute volumes (derived)

    Example:
        >>> cast_for_dry(dry=621.55, foam=40.0, water_cement=0.5, sand_cement=0.0, bound_water=0.2,
        ...     water_density=1000.0, cement_density=3150.0, sand_density=2650.0)
        800.0
    """
    kept = 1 + within(bound_water, "bound water", low=0.0, high=0.4) + within(sand_cement, "sand over cement", low=0.0)
    cement = within(dry, "dry density in kg/m3", above=0.0) / kept
    within(water_cement, "water over cement", above=0.0)
    space = (
        1 / within(cement_density, "density of cement in kg/m3", above=0.0)
        + sand_cement / within(sand_density, "density of sand in kg/m3", above=0.0)
        + water_cement / within(water_density, "density of water in kg/m3", above=0.0)
    )
    room = within(1 - cement * space, "room for foam, a share of the mix,", low=0.0)
    return (1 + sand_cement + water_cement) * cement + within(foam, "density of the foam in kg/m3", low=0.0) * room


def foam_to_make(*, needed: CubicMeter, loss: Ratio) -> CubicMeter:
    """Foam to make so that enough survives the mixing: V = V_f / (1 − l).

    Args:
        needed: V_f, foam that must survive [m3]
        loss: l, share of the foam that collapses [-]

    Returns:
        V, foam to make [m3]

    Raises:
        OutOfRangeError: the volume is negative or the loss not from 0 to 0.9.

    Range:
        V_f ≥ 0, 0 ≤ l ≤ 0.9; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> foam_to_make(needed=0.19, loss=0.05)
        0.20
    """
    return within(needed, "foam needed in m3", low=0.0) / (1 - within(loss, "loss of foam", low=0.0, high=0.9))


def foam_time(*, foam: CubicMeter, flow: CubicMeterPerSecond) -> Second:
    """Time the foam generator runs: t = V / q.

    Args:
        foam: V, foam to make [m3]
        flow: q, foam the generator gives [m3/s]

    Returns:
        t, running time [s]

    Raises:
        OutOfRangeError: the volume is negative or the flow not above 0.

    Range:
        V ≥ 0, q > 0, refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> foam_time(foam=0.25, flow=0.0015)
        166.7
    """
    return within(foam, "foam in m3", low=0.0) / within(flow, "flow of foam in m3/s", above=0.0)
