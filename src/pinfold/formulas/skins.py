"""Weak cores with strong skins: a wall of layers that bend together, the skin's drying, the mesh in a cracked skin.

Layers lie face to face; distances are measured across the wall from one face. Stiffnesses are per length of wall:
their sums over the layers are what the other formulas ask for. All of them take arrays.
"""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import (
    KgPerCubicMeter,
    KgPerSquareMeter,
    Meter,
    Newton,
    NewtonMeter,
    NewtonMeterPerMeter,
    NewtonPerMeter,
    Pascal,
    PerMeter,
    Ratio,
)


@dataclass(frozen=True, kw_only=True)
class LayerStiffness:
    """What one layer adds to a wall's stiffness: against stretching, and its first and second moment about a face."""

    axial: NewtonPerMeter
    first: Newton
    second: NewtonMeter


def layer_stiffness(*, modulus: Pascal, near: Meter, far: Meter) -> LayerStiffness:
    """Stiffness of one layer about a face of the wall: E (b − a), E (b² − a²) / 2, E (b³ − a³) / 3.

    Args:
        modulus: E, of the layer; 0 for one that is cracked or empty [Pa]
        near: a, from the face of the wall to the near side of the layer [m]
        far: b, to its far side [m]

    Returns:
        the layer's part of EA, ES and EI about the face

    Raises:
        OutOfRangeError: E or a is below 0, or b lies before a.

    Range:
        E ≥ 0, 0 ≤ a ≤ b; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> layer_stiffness(modulus=3000.0, near=0.0, far=0.1)
        LayerStiffness(axial=300.0, first=15.0, second=1.0)
    """
    within(modulus, "modulus in Pa", low=0.0)
    within(near, "near side in m", low=0.0)
    within(far - near, "thickness of the layer in m", low=0.0)
    return LayerStiffness(
        axial=modulus * (far - near), first=modulus * (far**2 - near**2) / 2, second=modulus * (far**3 - near**3) / 3
    )


def neutral_axis(*, axial: NewtonPerMeter, first: Newton) -> Meter:
    """Distance of the neutral axis from the face: y0 = ES / EA.

    Args:
        axial: EA, sum of the layers' [N/m]
        first: ES, sum of the layers' about the face [N]

    Returns:
        y0, from the face the layers are measured from [m]

    Raises:
        OutOfRangeError: EA is not above 0 or ES below 0.

    Range:
        EA > 0, ES ≥ 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> neutral_axis(axial=300.0, first=15.0)
        0.05
    """
    return within(first, "first moment in N", low=0.0) / within(axial, "axial stiffness in N/m", above=0.0)


def bending_stiffness(*, axial: NewtonPerMeter, first: Newton, second: NewtonMeter) -> NewtonMeter:
    """Bending stiffness per length about the neutral axis: EI = EI0 − ES² / EA.

    Args:
        axial: EA, sum of the layers' [N/m]
        first: ES, sum of the layers' about the face [N]
        second: EI0, sum of the layers' about the face [N m]

    Returns:
        EI, of the layers bending together [N m]

    Raises:
        OutOfRangeError: EA is not above 0 or a moment below 0.

    Range:
        EA > 0, ES ≥ 0, EI0 ≥ 0; refused outside. Plane sections stay plane: the layers must not slip.

    Source:
        STATICS (derived)

    Example:
        >>> bending_stiffness(axial=300.0, first=15.0, second=1.0)
        0.25
    """
    within(second, "second moment in N m", low=0.0)
    return second - within(first, "first moment in N", low=0.0) ** 2 / within(axial, "stiffness in N/m", above=0.0)


def layer_stress(
    *, modulus: Pascal, moment: NewtonMeterPerMeter, distance: Meter, stiffness: NewtonMeter, load: NewtonPerMeter,
    axial: NewtonPerMeter,
) -> Pascal:  # fmt: skip
    """Stress in a layer of a wall that bends under its weight, pulling positive: σ = E (M y / EI − N / EA).

    Args:
        modulus: E, of the layer [Pa]
        moment: M, per length of wall [N m/m]
        distance: y, from the neutral axis, positive towards the pulled side [m]
        stiffness: EI, of all layers together [N m]
        load: N, weight above the section, on the neutral axis; pressing positive [N/m]
        axial: EA, sum of the layers' [N/m]

    Returns:
        σ, pulling positive [Pa]

    Raises:
        OutOfRangeError: E is below 0, or EI or EA not above 0.

    Range:
        E ≥ 0, EI > 0, EA > 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> layer_stress(modulus=3000.0, moment=1.0, distance=0.05, stiffness=0.25, load=10.0, axial=300.0)
        500
    """
    within(modulus, "modulus in Pa", low=0.0)
    bent = moment * distance / within(stiffness, "bending stiffness in N m", above=0.0)
    return modulus * (bent - load / within(axial, "axial stiffness in N/m", above=0.0))


def cracking_moment(
    *, strength: Pascal, modulus: Pascal, distance: Meter, stiffness: NewtonMeter, load: NewtonPerMeter,
    axial: NewtonPerMeter,
) -> NewtonMeterPerMeter:  # fmt: skip
    """Moment at which the pulled side of a layer cracks: M = (f / E + N / EA) EI / y.

    Args:
        strength: f, tension the layer can still take [Pa]
        modulus: E, of the layer [Pa]
        distance: y, from the neutral axis to its pulled side [m]
        stiffness: EI, of all layers together [N m]
        load: N, weight above the section [N/m]
        axial: EA, sum of the layers' [N/m]

    Returns:
        M, per length of wall [N m/m]

    Raises:
        OutOfRangeError: f or N is below 0, or E, y, EI or EA not above 0.

    Range:
        f, N ≥ 0; E, y, EI, EA > 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> cracking_moment(strength=500.0, modulus=3000.0, distance=0.05, stiffness=0.25, load=10.0, axial=300.0)
        1.0
    """
    strain = within(strength, "tension in Pa", low=0.0) / within(modulus, "modulus in Pa", above=0.0)
    pressed = within(load, "weight in N/m", low=0.0) / within(axial, "axial stiffness in N/m", above=0.0)
    stiff = within(stiffness, "bending stiffness in N m", above=0.0)
    return (strain + pressed) * stiff / within(distance, "distance from the neutral axis in m", above=0.0)


def shear_between(*, shear: NewtonPerMeter, beyond: Newton, stiffness: NewtonMeter) -> Pascal:
    """Shear stress between two layers, or inside one: τ = V EQ / EI.

    Args:
        shear: V, level force on the wall above the section, per length [N/m]
        beyond: EQ, first moment about the neutral axis of the stiffness of all that lies beyond the place [N]
        stiffness: EI, of all layers together [N m]

    Returns:
        τ [Pa]

    Raises:
        OutOfRangeError: V or EQ is below 0, or EI not above 0.

    Range:
        V, EQ ≥ 0, EI > 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> shear_between(shear=2.0, beyond=3.75, stiffness=0.25)
        30
    """
    force = within(shear, "shear in N/m", low=0.0) * within(beyond, "first moment in N", low=0.0)
    return force / within(stiffness, "bending stiffness in N m", above=0.0)


def drying_tension(
    *, modulus: Pascal, shrinkage: Ratio, restraint: Ratio, relaxation: Ratio
) -> Pascal:  # fmt: skip
    """Tension that a skin makes in itself as it dries on what holds it back: σ = E ε R ψ.

    Args:
        modulus: E, of the skin [Pa]
        shrinkage: ε, shortening it would have if it were free [-]
        restraint: R, share of it that is held back, from skin_restraint [-]
        relaxation: ψ, share of the stress that is left after the skin has crept [-]

    Returns:
        σ, of its strength so much is used up before any wind [Pa]

    Raises:
        OutOfRangeError: E or ε is below 0, or R or ψ no share.

    Range:
        E, ε ≥ 0; 0 ≤ R ≤ 1; 0 ≤ ψ ≤ 1; refused outside. Where σ passes the strength the skin cracks.

    Source:
        STATICS (derived)
        CIRIA-C660, 0.65 for ψ in concrete (read)

    Example:
        >>> drying_tension(modulus=8e9, shrinkage=0.0005, restraint=0.5, relaxation=0.5)
        1000000
    """
    strain = within(shrinkage, "shrinkage", low=0.0) * within(restraint, "restraint", low=0.0, high=1.0)
    left = within(relaxation, "share left after creep", low=0.0, high=1.0)
    return within(modulus, "modulus in Pa", low=0.0) * strain * left


def skin_restraint(*, skins: NewtonPerMeter, core: NewtonPerMeter) -> Ratio:
    """Share of a skin's shrinking that the core holds back: R = EAc / (EAc + EAs).

    Args:
        skins: EAs, axial stiffness of all skins together [N/m]
        core: EAc, of the core [N/m]

    Returns:
        R, 1 for a skin so thin that the core does not yield [-]

    Raises:
        OutOfRangeError: a stiffness is below 0, or both are 0.

    Range:
        EAs ≥ 0, EAc > 0; refused outside. The wall stays straight: of a coat on one face it bends, and R is less.

    Source:
        STATICS (derived)

    Example:
        >>> skin_restraint(skins=1e8, core=3e8)
        0.75
    """
    hold = within(core, "stiffness of the core in N/m", above=0.0)
    return hold / (hold + within(skins, "stiffness of the skins in N/m", low=0.0))


def edge_shear(
    *, tension: Pascal, skin: NewtonPerMeter, skin_thickness: Meter, core_shear: Pascal, core_thickness: Meter
) -> Pascal:  # fmt: skip
    """Shear under the end of a skin that pulls: τ = σ t √(6 G / (EA h)).

    The end of a coat, or the edge of a crack in it, is held by the face of the core alone; the shear dies out along it.

    Args:
        tension: σ, in the skin away from its end [Pa]
        skin: EA, axial stiffness of the skin on one face, E t [N/m]
        skin_thickness: t, of that skin [m]
        core_shear: G, shear modulus of the core [Pa]
        core_thickness: h, of the core, with skins on both faces [m]

    Returns:
        τ, at the end [Pa]

    Raises:
        OutOfRangeError: σ is below 0, or another argument not above 0.

    Range:
        σ ≥ 0, all others > 0; refused outside. Elastic and a mean over the depth of the core: a guide, no more.

    Source:
        STATICS (derived)

    Notes:
        The core's shear falls in a line from τ at its face to none at its middle: the face then moves τ h / (6 G) ahead
        of the core's mean, which is taken not to yield.

    Example:
        >>> edge_shear(tension=1e6, skin=1.2e8, skin_thickness=0.01, core_shear=2e9, core_thickness=0.25)
        200000
    """
    stiff = within(skin, "stiffness of the skin in N/m", above=0.0) * within(core_thickness, "core in m", above=0.0)
    per_length: PerMeter = (6 * within(core_shear, "shear modulus in Pa", above=0.0) / stiff) ** 0.5
    pull = within(tension, "tension in Pa", low=0.0) * within(skin_thickness, "skin in m", above=0.0)
    return pull * per_length


def mesh_area(*, mass_per_area: KgPerSquareMeter, density: KgPerCubicMeter, efficiency: Ratio) -> Meter:
    """Area of wire that pulls up and down the wall, per length of it: A = η m / ρ.

    Args:
        mass_per_area: m, of the mesh [kg/m2]
        density: ρ, of its steel [kg/m3]
        efficiency: η, share of the steel that works in that direction: 0.5 square, 0.45 hexagons, 0.65 expanded [-]

    Returns:
        A, area per length, as a thickness of steel [m]

    Raises:
        OutOfRangeError: m is below 0, ρ not above 0, or η no share.

    Range:
        m ≥ 0, ρ > 0, 0 ≤ η ≤ 1; refused outside.

    Source:
        ACI-549, efficiency of meshes in ferrocement (memory)

    Example:
        >>> mesh_area(mass_per_area=0.785, density=7850.0, efficiency=0.5)
        0.00005
    """
    steel = within(mass_per_area, "mass per area in kg/m2", low=0.0) / within(density, "density in kg/m3", above=0.0)
    return steel * within(efficiency, "efficiency", low=0.0, high=1.0)


def meshed_moment(
    *, pull: NewtonPerMeter, load: NewtonPerMeter, mesh_depth: Meter, load_depth: Meter, strength: Pascal
) -> NewtonMeterPerMeter:  # fmt: skip
    """Moment held by mesh in a cracked skin and the weight: M = T (d − a/2) + N (c − a/2), a = (T + N) / f.

    Args:
        pull: T, of the mesh per length of wall [N/m]
        load: N, weight above the section [N/m]
        mesh_depth: d, from the pressed face to the mesh [m]
        load_depth: c, from the pressed face to the weight, half the wall [m]
        strength: f, of the pressed layer [Pa]

    Returns:
        M, per length of wall; for no mesh what the weight alone holds [N m/m]

    Raises:
        OutOfRangeError: T or N is below 0, f not above 0, or what is pressed reaches as deep as the mesh or the weight.

    Range:
        T, N ≥ 0, f > 0, a/2 ≤ c, d; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> meshed_moment(pull=10000.0, load=5000.0, mesh_depth=0.2, load_depth=0.1, strength=15e6)
        2492.5
    """
    pulled, pressed = within(pull, "pull in N/m", low=0.0), within(load, "weight in N/m", low=0.0)
    block = (pulled + pressed) / within(strength, "strength in Pa", above=0.0)
    within(mesh_depth - block / 2, "arm of the mesh in m", low=0.0)
    within(load_depth - block / 2, "arm of the weight in m", low=0.0)
    return pulled * (mesh_depth - block / 2) + pressed * (load_depth - block / 2)
