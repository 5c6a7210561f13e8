"""Correcting a batch that stands in the mixer, by what a pail of it weighs or how far it sinks."""

from __future__ import annotations

from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Meter, Ratio


def pail_density(*, full: Kilogram, empty: Kilogram, holds: CubicMeter, filled: Ratio) -> KgPerCubicMeter:
    """Density of a fresh mix by a weighed pail: ρ = (m − m_0) / (k V).

    Args:
        full: m, pail with the mix in it [kg]
        empty: m_0, pail by itself; 0 where the scale was set back [kg]
        holds: V, what the pail holds to the brim [m3]
        filled: k, share of it that was filled; 1 for brim full [-]

    Returns:
        ρ, density of the mix [kg/m3]

    Raises:
        OutOfRangeError: the pail weighs no more with the mix than without, or volume or share is out of range.

    Range:
        m > m_0 ≥ 0, V > 0, 0 < k ≤ 1; refused outside.

    Source:
        ASTM-C138 (memory)
        STATICS (derived)

    Example:
        >>> pail_density(full=16.9, empty=0.9, holds=0.020, filled=1.0)
        800.0
    """
    within(empty, "mass of the empty pail in kg", low=0.0)
    within(full, "mass of the filled pail in kg", above=empty)
    within(filled, "share of the pail that was filled", above=0.0, high=1.0)
    return (full - empty) / (filled * within(holds, "volume of the pail in m3", above=0.0))


def pail_filled(*, gap: Meter, depth: Meter, taper: Ratio) -> Ratio:
    """Share of a pail that is filled to below its rim: k = h (r_h² + r_h t + t²) / (H (1 + t + t²)), h = H − g.

    The pail is a cone without its tip; r_h = t + (1 − t) h / H is its width at the level of the mix.

    Args:
        gap: g, from the rim down to the mix [m]
        depth: H, inside depth of the pail [m]
        taper: t, inside width at the bottom over that at the rim; 1 for straight sides [-]

    Returns:
        k, share of what the pail holds to the brim [-]

    Raises:
        OutOfRangeError: the gap is negative or as deep as the pail, or the taper not from above 0 to 2.

    Range:
        0 ≤ g < H, H > 0, 0 < t ≤ 2; refused outside.

    Source:
        STATICS, volume of a cone without its tip (derived)

    Example:
        >>> pail_filled(gap=0.03, depth=0.30, taper=1.0)
        0.90
    """
    within(depth, "depth of the pail in m", above=0.0)
    within(taper, "bottom of the pail over its rim", above=0.0, high=2.0)
    high = (depth - within(gap, "gap below the rim in m", low=0.0)) / depth
    within(high, "height of the mix in the pail over its depth", above=0.0)
    wide = taper + (1 - taper) * high
    return high * (wide**2 + wide * taper + taper**2) / (1 + taper + taper**2)


def foam_to_add(
    *, mixed: CubicMeter, density: KgPerCubicMeter, cast: KgPerCubicMeter, foam_density: KgPerCubicMeter, loss: Ratio
) -> CubicMeter:  # fmt: skip
    """Foam to make for a foamed mix that is too heavy: V_f = V (ρ − ρ_c) / ((1 − l) ρ_c − ρ_f).

    Of the foam made the share l collapses; its liquid stays in the mix, its room does not.

    Args:
        mixed: V, what stands in the mixer [m3]
        density: ρ, as weighed [kg/m3]
        cast: ρ_c, density wanted [kg/m3]
        foam_density: ρ_f, of the foam as weighed [kg/m3]
        loss: l, share of the foam that collapses when it is folded in [-]

    Returns:
        V_f, foam to make and fold in [m3]

    Raises:
        OutOfRangeError: the mix is lighter than wanted, or the foam that is left is heavier than what is wanted.

    Range:
        V ≥ 0, 0 ≤ l ≤ 0.9, ρ_f ≥ 0, ρ_f / (1 − l) < ρ_c ≤ ρ; refused outside.

    Source:
        STATICS, mass and volume before and after (derived)

    Example:
        >>> foam_to_add(mixed=0.08, density=900.0, cast=800.0, foam_density=40.0, loss=0.05)
        0.01111
    """
    within(mixed, "mix in the mixer in m3", low=0.0)
    within(foam_density, "density of the foam in kg/m3", low=0.0)
    left = 1 - within(loss, "loss of foam", low=0.0, high=0.9)
    within(cast, "density wanted in kg/m3", above=foam_density / left, high=density)
    return mixed * (density - cast) / (left * cast - foam_density)


def slurry_to_add(
    *, mixed: CubicMeter, density: KgPerCubicMeter, cast: KgPerCubicMeter, slurry_density: KgPerCubicMeter
) -> CubicMeter:  # fmt: skip
    """Mix without foam to add to a foamed mix that is too light: V_s = V (ρ_c − ρ) / (ρ_s − ρ_c).

    Args:
        mixed: V, what stands in the mixer [m3]
        density: ρ, as weighed [kg/m3]
        cast: ρ_c, density wanted [kg/m3]
        slurry_density: ρ_s, of the mix before foam goes in [kg/m3]

    Returns:
        V_s, volume of mix without foam to add [m3]

    Raises:
        OutOfRangeError: the mix is heavier than wanted, or what is wanted is as heavy as the mix without foam.

    Range:
        V ≥ 0, 0 < ρ ≤ ρ_c < ρ_s; refused outside. Bubbles that break while it is turned in are left out.

    Source:
        STATICS, mass and volume before and after (derived)

    Example:
        >>> slurry_to_add(mixed=0.08, density=700.0, cast=800.0, slurry_density=1835.0)
        0.00773
    """
    within(mixed, "mix in the mixer in m3", low=0.0)
    within(density, "density as weighed in kg/m3", above=0.0, high=cast)
    within(slurry_density, "density of the mix without foam in kg/m3", above=cast)
    return mixed * (cast - density) / (slurry_density - cast)


def foam_lost(
    *, slurry: CubicMeter, slurry_density: KgPerCubicMeter, foam: CubicMeter, foam_density: KgPerCubicMeter,
    density: KgPerCubicMeter,
) -> Ratio:  # fmt: skip
    """Share of the foam that collapsed, by what went in and what came out: l = 1 − (m / ρ − V_s) / V_f.

    All the mass stays, m = ρ_s V_s + ρ_f V_f; what room is missing was foam.

    Args:
        slurry: V_s, mix before the foam went in [m3]
        slurry_density: ρ_s, its density [kg/m3]
        foam: V_f, foam that was folded in [m3]
        foam_density: ρ_f, its density [kg/m3]
        density: ρ, of the foamed mix as weighed [kg/m3]

    Returns:
        l, share of the foam that is gone; below 0 where the mixer stirred in air of its own [-]

    Raises:
        OutOfRangeError: there was no slurry or no foam, or a density is out of range.

    Range:
        V_s > 0, V_f > 0, ρ_f ≥ 0, ρ_s > 0, ρ > 0; refused outside.

    Source:
        STATICS, mass and volume before and after (derived)

    Example:
        >>> foam_lost(slurry=0.4234, slurry_density=1835.0, foam=0.6066, foam_density=40.0, density=850.0)
        0.1441
    """
    within(slurry, "mix without foam in m3", above=0.0)
    within(foam, "foam in m3", above=0.0)
    within(foam_density, "density of the foam in kg/m3", low=0.0)
    mass = slurry * within(slurry_density, "density of the mix without foam in kg/m3", above=0.0) + foam * foam_density
    return 1 - (mass / within(density, "density as weighed in kg/m3", above=0.0) - slurry) / foam


def water_for_slump(*, change: Meter, water: KgPerCubicMeter, step: Meter) -> KgPerCubicMeter:
    """Water for another slump, by a rule of so much in a volume for each step: ΔW = w Δs / s.

    Args:
        change: Δs, slump wanted less slump found; below 0 for a stiffer mix [m]
        water: w, water in a volume for one step [kg/m3]
        step: s, that step of slump, one inch [m]

    Returns:
        ΔW, water to add in a volume; below 0 to hold back [kg/m3]

    Raises:
        OutOfRangeError: the water is negative, the step not above 0, or the change more than a cone is high.

    Range:
        −0.3 ≤ Δs ≤ 0.3 m, w ≥ 0, s > 0; refused outside. A rule of thumb: warm or fine stuff asks for more.

    Source:
        ACI-211, section 9.2.9, 10 lb/yd3 for each inch (read)

    Example:
        >>> water_for_slump(change=0.0381, water=5.933, step=0.0254)
        8.90
    """
    within(change, "change of slump in m", low=-0.3, high=0.3)
    return within(water, "water for a step in kg/m3", low=0.0) * change / within(step, "step of slump in m", above=0.0)


def water_share_for_slump(*, change: Meter, water: Kilogram, share: Ratio, step: Meter) -> Kilogram:
    """Water for another slump, by a rule of such a share of it for each step: ΔW = W c Δs / s.

    Args:
        change: Δs, slump wanted less slump found; below 0 for a stiffer mix [m]
        water: W, all the water in the batch [kg]
        share: c, share of it for one step [-]
        step: s, that step of slump, one inch [m]

    Returns:
        ΔW, water to add; below 0 to hold back [kg]

    Raises:
        OutOfRangeError: a value is negative, the step not above 0, or the change more than a cone is high.

    Range:
        −0.3 ≤ Δs ≤ 0.3 m, W ≥ 0, c ≥ 0, s > 0; refused outside.

    Source:
        ACI-211, table 5.3.3.1, 3 % for each inch (read)

    Example:
        >>> water_share_for_slump(change=0.0508, water=20.0, share=0.03, step=0.0254)
        1.20
    """
    within(change, "change of slump in m", low=-0.3, high=0.3)
    within(share, "share of water for a step", low=0.0)
    return within(water, "water in kg", low=0.0) * share * change / within(step, "step of slump in m", above=0.0)


def cement_beside(*, water: Kilogram, water_cement: Ratio) -> Kilogram:
    """Cement that goes in beside further water, so that the mix is no weaker: C = W / (w/c).

    Args:
        water: W, further water [kg]
        water_cement: w/c, mass of water over mass of cement of the mix [-]

    Returns:
        C, further cement [kg]

    Raises:
        OutOfRangeError: the water is negative or the ratio not above 0.

    Range:
        W ≥ 0, w/c > 0, refused otherwise.

    Source:
        ACI-211, section 9.2.9 (read)

    Example:
        >>> cement_beside(water=1.5, water_cement=0.6)
        2.5
    """
    return within(water, "further water in kg", low=0.0) / within(water_cement, "water over cement", above=0.0)


def relative_yield(*, made: CubicMeter, meant: CubicMeter) -> Ratio:
    """What a batch made over what it was meant to make: R = V / V_d; above 1 it over-yields.

    Args:
        made: V, volume made, by mass over density [m3]
        meant: V_d, volume it was reckoned to make [m3]

    Returns:
        R, relative yield [-]

    Raises:
        OutOfRangeError: what was made is negative or what was meant not above 0.

    Range:
        V ≥ 0, V_d > 0, refused otherwise.

    Source:
        ASTM-C138, as a study guide restates it (read)

    Example:
        >>> relative_yield(made=1.02, meant=1.0)
        1.02
    """
    return within(made, "volume made in m3", low=0.0) / within(meant, "volume meant in m3", above=0.0)


def content(*, mass: Kilogram, made: CubicMeter) -> KgPerCubicMeter:
    """How much of a part is in a volume of what a batch truly made: c = m / V.

    Args:
        mass: m, of the part in the batch [kg]
        made: V, volume made [m3]

    Returns:
        c, mass of the part in a volume [kg/m3]

    Raises:
        OutOfRangeError: the mass is negative or the volume not above 0.

    Range:
        m ≥ 0, V > 0, refused otherwise.

    Source:
        ASTM-C138, as a study guide restates it (read)

    Example:
        >>> content(mass=25.0, made=0.08)
        312.5
    """
    return within(mass, "mass of the part in kg", low=0.0) / within(made, "volume made in m3", above=0.0)


def batches_held(*, present: Kilogram, meant: Kilogram) -> Ratio:
    """For how many batches there is enough of a part: n = m / M; the part with most sets how far the others go up.

    Args:
        present: m, of the part in the mixer [kg]
        meant: M, of it in one batch [kg]

    Returns:
        n, batches [-]

    Raises:
        OutOfRangeError: what is there is negative or what is meant not above 0.

    Range:
        m ≥ 0, M > 0, refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> batches_held(present=13.0, meant=12.5)
        1.04
    """
    return within(present, "mass in the mixer in kg", low=0.0) / within(meant, "mass meant in kg", above=0.0)


def part_to_add(*, present: Kilogram, meant: Kilogram, batches: Ratio) -> Kilogram:
    """What to add of a part to come back to the proportions, nothing being taken out: Δm = n M − m.

    Args:
        present: m, of the part in the mixer [kg]
        meant: M, of it in one batch [kg]
        batches: n, batches that the part with most is enough for [-]

    Returns:
        Δm, to add [kg]

    Raises:
        OutOfRangeError: a value is negative, or there is more of the part than that many batches hold.

    Range:
        0 ≤ m ≤ n M, M ≥ 0, n ≥ 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> part_to_add(present=25.0, meant=25.0, batches=1.04)
        1.00
    """
    whole = within(batches, "batches", low=0.0) * within(meant, "mass meant in kg", low=0.0)
    return max(whole - within(present, "mass in the mixer in kg", low=0.0, high=whole * (1 + 1e-9)), 0.0)
