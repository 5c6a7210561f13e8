"""Masonry out of its plane: sections of hollow units, tension in the joints, bars in grouted cells, joints, heights."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.tables import structures
from pinfold.units import (
    Celsius,
    CubicMeterPerMeter,
    FourthMeterPerMeter,
    Meter,
    NewtonMeter,
    NewtonMeterPerMeter,
    NewtonPerMeter,
    Pascal,
    PascalPerMeter,
    Ratio,
    SquareMeter,
    SquareMeterPerMeter,
)

_INCH = 0.0254
_PSI = 0.45359237 * 9.80665 / _INCH**2
WEIGHT_HELP_LIMIT = 0.36e6
"""Most of the self-weight stress that AS 3700 lets count in bending, Pa."""


@dataclass(frozen=True, kw_only=True)
class WallSection:
    """Section of a wall per length, bent out of its plane."""

    area: SquareMeterPerMeter
    inertia: FourthMeterPerMeter
    modulus: CubicMeterPerMeter


@dataclass(frozen=True, kw_only=True)
class CrackedSection:
    """Depth of the pressed part and arm of the inner forces, both as a share of the depth to the steel."""

    neutral: Ratio
    lever: Ratio


def filled_share(*, core_width: Meter, spacing: Meter) -> Ratio:
    """Share of a hollow wall's length that is solid because cells are grouted: s = min(1, w / a).

    Args:
        core_width: w, length along the wall that one grouted cell makes solid, webs included; 7.5 in for usual units
            [m]
        spacing: a, distance from grouted cell to grouted cell [m]

    Returns:
        s, 0 for none and 1 for all [-]

    Raises:
        OutOfRangeError: the width is below 0 or the spacing not above 0.

    Range:
        w ≥ 0, a > 0; refused outside.

    Source:
        TM-5-809-3, table 5-1: width 7.5 in (read)

    Example:
        >>> filled_share(core_width=0.2, spacing=0.8)
        0.25
    """
    return min(1.0, within(core_width, "core width in m", low=0.0) / within(spacing, "spacing in m", above=0.0))


def equivalent_thickness(*, thickness: Meter, shell: Meter, filled: Ratio) -> Meter:
    """Thickness of a solid wall with the same bedded area: te = 2 f + s (t − 2 f).

    Args:
        thickness: t, actual thickness of the unit [m]
        shell: f, thickness of one face shell [m]
        filled: s, share of the length that is grouted solid, from filled_share [-]

    Returns:
        te, also the bedded area per length [m]

    Raises:
        OutOfRangeError: t is not above 0, the shells do not fit in it, or s is no share.

    Range:
        t > 0, 0 ≤ f ≤ t/2, 0 ≤ s ≤ 1; refused outside. Mortar on the face shells only.

    Source:
        TM-5-809-3, table 5-2 (read)
        STATICS (derived)

    Example:
        >>> equivalent_thickness(thickness=0.2, shell=0.03, filled=0.25)
        0.095
    """
    within(thickness, "thickness in m", above=0.0)
    within(shell, "face shell in m", low=0.0)
    within(thickness / 2 - shell, "half the thickness less a face shell in m", low=0.0)
    return 2 * shell + within(filled, "grouted share", low=0.0, high=1.0) * (thickness - 2 * shell)


def hollow_section(*, thickness: Meter, shell: Meter, filled: Ratio) -> WallSection:
    """Section of a wall of hollow units bedded on their face shells: I = [t³ − (1 − s)(t − 2 f)³] / 12, S = 2 I / t.

    Args:
        thickness: t, actual thickness of the unit [m]
        shell: f, thickness of one face shell [m]
        filled: s, share of the length that is grouted solid; 0 hollow, 1 solid [-]

    Returns:
        area, second moment and section modulus per length (see WallSection)

    Raises:
        OutOfRangeError: t is not above 0, the shells do not fit in it, or s is no share.

    Range:
        t > 0, 0 ≤ f ≤ t/2, 0 ≤ s ≤ 1; refused outside. Not cracked.

    Source:
        TM-5-809-3, tables 5-3 and 5-4 (read)
        STATICS (derived)

    Example:
        >>> hollow_section(thickness=0.2, shell=0.05, filled=0.0)
        WallSection(area=0.1, inertia=0.00058333, modulus=0.0058333)
    """
    area = equivalent_thickness(thickness=thickness, shell=shell, filled=filled)
    inertia = (thickness**3 - (1 - filled) * (thickness - 2 * shell) ** 3) / 12
    return WallSection(area=area, inertia=inertia, modulus=2 * inertia / thickness)


def flexural_tension(
    *, moment: NewtonMeterPerMeter, modulus: CubicMeterPerMeter, load: NewtonPerMeter, area: SquareMeterPerMeter
) -> Pascal:
    """Tension in the bed joint on the windward face: f = M / S − P / A.

    Args:
        moment: M, moment at the joint per length [N m/m]
        modulus: S, section modulus per length [m3/m]
        load: P, weight above the joint per length, which presses it shut [N/m]
        area: A, bedded area per length [m2/m]

    Returns:
        f, tension; below 0 the whole joint is pressed [Pa]

    Raises:
        OutOfRangeError: S or A is not above 0, or M or P is below 0.

    Range:
        M, P ≥ 0; S, A > 0; refused outside. Not cracked: compare f with what the joint can pull.

    Source:
        STATICS (derived)

    Example:
        >>> flexural_tension(moment=600.0, modulus=0.006, load=5000.0, area=0.1)
        50000
    """
    bending = within(moment, "moment in N m/m", low=0.0) / within(modulus, "section modulus in m3/m", above=0.0)
    return bending - within(load, "weight in N/m", low=0.0) / within(area, "area in m2/m", above=0.0)


def flexural_tension_allowed(
    *,
    bedding: Literal["solid", "hollow", "grouted"],
    mortar: Literal["cement-lime-s", "cement-lime-n", "masonry-cement-s", "masonry-cement-n"],
) -> Pascal:
    """Allowable tension normal to the bed joints, wind included, table look-up.

    Args:
        bedding: solid units, hollow units on face shells, or hollow units fully grouted
        mortar: kind and type of mortar; the S rows hold for type M as well

    Returns:
        allowable tension [Pa]

    Raises:
        OutOfRangeError: no such row.

    Range:
        the twelve rows of the table. On a flexible damp-proof course count no tension at all.

    Source:
        TMS-402-13, allowable flexural tension (memory)

    Example:
        >>> flexural_tension_allowed(bedding="hollow", mortar="cement-lime-n")
        172369
    """
    try:
        return structures.flexural_figure(bedding=bedding, mortar=mortar, basis="allowable").value
    except NotFoundError as missing:
        raise OutOfRangeError(str(missing)) from None


def modulus_of_rupture(*, masonry_strength: Pascal) -> Pascal:
    """Tension at which masonry cracks in bending: fr = 2.5 √f'm, in psi.

    Args:
        masonry_strength: f'm, strength of the masonry; put in psi [Pa]

    Returns:
        fr [Pa]

    Raises:
        OutOfRangeError: the strength is below 0.

    Range:
        f'm ≥ 0, refused below. Meant for reinforced, grouted walls.

    Source:
        TM-5-809-3, page 5-4 (read)

    Example:
        >>> modulus_of_rupture(masonry_strength=9307923.0)
        633324
    """
    return 2.5 * math.sqrt(within(masonry_strength, "strength of the masonry in Pa", low=0.0) / _PSI) * _PSI


def cracking_moment(*, rupture: Pascal, modulus: CubicMeterPerMeter) -> NewtonMeterPerMeter:
    """Moment at which a wall cracks: Mcr = fr S.

    Args:
        rupture: fr, modulus of rupture [Pa]
        modulus: S, section modulus per length, not cracked [m3/m]

    Returns:
        Mcr, per length of wall [N m/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        fr, S ≥ 0; refused below.

    Source:
        TM-5-809-3, equation 5-7 (read)

    Example:
        >>> cracking_moment(rupture=600000.0, modulus=0.006)
        3600.0
    """
    return within(rupture, "modulus of rupture in Pa", low=0.0) * within(modulus, "section modulus in m3/m", low=0.0)


def moment_by_en1996(
    *, strength: Pascal, material_factor: Ratio, stress: Pascal, modulus: CubicMeterPerMeter
) -> NewtonMeterPerMeter:
    """Moment a plain wall resists, European: MRd = (fxk / γM + σd) Z.

    Args:
        strength: fxk, characteristic flexural strength, failure along the bed joints [Pa]
        material_factor: γM, by class of work [-]
        stress: σd, pressure from the weight above, factored down [Pa]
        modulus: Z, section modulus per length [m3/m]

    Returns:
        MRd, per length of wall [N m/m]

    Raises:
        OutOfRangeError: γM is below 1 or another argument below 0.

    Range:
        fxk, σd, Z ≥ 0; γM ≥ 1; refused outside. The standard also caps σd at 0.2 fd.

    Source:
        EN-1996-1-1, 6.3.1 (memory)

    Example:
        >>> moment_by_en1996(strength=200000.0, material_factor=2.0, stress=20000.0, modulus=0.01)
        1200.0
    """
    tension = within(strength, "flexural strength in Pa", low=0.0) / within(material_factor, "γM", low=1.0)
    return (tension + within(stress, "pressure in Pa", low=0.0)) * within(modulus, "Z in m3/m", low=0.0)


def moment_by_bs5628(
    *, strength: Pascal, material_factor: Ratio, stress: Pascal, modulus: CubicMeterPerMeter
) -> NewtonMeterPerMeter:
    """Moment a plain wall resists, British: MR = (fkx / γm + gd) Z.

    Args:
        strength: fkx, characteristic flexural strength, failure along the bed joints [Pa]
        material_factor: γm, by class of work and of units [-]
        stress: gd, pressure from the weight above, factored down [Pa]
        modulus: Z, section modulus per length [m3/m]

    Returns:
        MR, per length of wall [N m/m]

    Raises:
        OutOfRangeError: γm is below 1 or another argument below 0.

    Range:
        fkx, gd, Z ≥ 0; γm ≥ 1; refused outside.

    Source:
        BS-5628-1, 36.5.3 (read)

    Example:
        >>> moment_by_bs5628(strength=300000.0, material_factor=3.0, stress=20000.0, modulus=0.01)
        1200.0
    """
    return moment_by_en1996(strength=strength, material_factor=material_factor, stress=stress, modulus=modulus)


def moment_by_as3700(
    *, strength: Pascal, reduction: Ratio, stress: Pascal, modulus: CubicMeterPerMeter,
    help_limit: Pascal = WEIGHT_HELP_LIMIT,
) -> NewtonMeterPerMeter:  # fmt: skip
    """Moment a plain wall resists, Australian: Mc = φ fmt Z + min(fd, 0.36 MPa) Z, not over 3 φ fmt Z.

    Args:
        strength: fmt, characteristic flexural strength, 0.2 MPa where nothing better is shown [Pa]
        reduction: φ, 0.6 [-]
        stress: fd, least pressure from the weight above [Pa]
        modulus: Z, section modulus per length [m3/m]
        help_limit: most of fd that counts, 0.36 MPa in the standard [Pa]

    Returns:
        Mc, per length of wall [N m/m]

    Raises:
        OutOfRangeError: an argument is below 0 or φ over 1.

    Range:
        all ≥ 0, φ ≤ 1; refused outside. Single leaf, bent over its height.

    Source:
        AS-3700 (read)

    Example:
        >>> moment_by_as3700(strength=200000.0, reduction=0.6, stress=20000.0, modulus=0.002)
        280.0
    """
    tension = within(reduction, "φ", low=0.0, high=1.0) * within(strength, "flexural strength in Pa", low=0.0)
    helped = tension + min(within(stress, "pressure in Pa", low=0.0), help_limit)
    return min(helped, 3 * tension) * within(modulus, "section modulus in m3/m", low=0.0)


def height_by_brick_rule(*, thickness: Meter) -> Meter:
    """Height of a straight brick garden wall by an American rule: h = 0.75 t², both in inches.

    Args:
        thickness: t, actual thickness; put in inches, so 0.75 stands per inch [m]

    Returns:
        h, height above ground [m]

    Raises:
        OutOfRangeError: the thickness is not above 0.

    Range:
        t > 0, refused otherwise. Only for a wind pressure of 10 psf (480 Pa): see height_by_weight for others.

    Source:
        BRICK-WALL-RULE (read)

    Example:
        >>> height_by_brick_rule(thickness=0.2032)
        1.2192
    """
    return 0.75 * within(thickness, "thickness in m", above=0.0) ** 2 / _INCH


def height_by_weight(*, weight: PascalPerMeter, thickness: Meter, pressure: Pascal, safety: Ratio) -> Meter:
    """Height at which an unbonded wall stands by its weight alone: h = γ t² / (p FS).

    Args:
        weight: γ, weight per volume of the wall [Pa/m]
        thickness: t, actual thickness [m]
        pressure: p, even wind pressure, force coefficient included [Pa]
        safety: FS, wanted factor against tipping [-]

    Returns:
        h, height above the level where it would tip [m]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        all > 0, refused otherwise. Resultant at mid-height; nothing crushes at the toe.

    Source:
        STATICS (derived)

    Example:
        >>> height_by_weight(weight=18000.0, thickness=0.2, pressure=480.0, safety=1.5)
        1.0
    """
    held = within(weight, "weight in Pa/m", above=0.0) * within(thickness, "thickness in m", above=0.0) ** 2
    return held / (within(pressure, "pressure in Pa", above=0.0) * within(safety, "safety", above=0.0))


def safe_height(
    *,
    wall: Literal["half-brick", "one-brick", "one-and-a-half-brick", "block-100", "block-200"],
    zone: Literal["1", "2", "3", "4"],
) -> Meter:
    """Height of a straight garden wall by British guidance, by wind zone, table look-up.

    Args:
        wall: thickness of the wall in bricks or of the block in mm
        zone: wind zone of the guidance's map, 1 the calmest

    Returns:
        height above the ground [m]

    Raises:
        OutOfRangeError: no such row.

    Range:
        the twenty cells of the table, for British sites only. No cell stands for another wall or wind.

    Source:
        UK-GARDEN-WALLS, nine cells (read)
        UK-GARDEN-WALLS, eleven cells (memory)

    Example:
        >>> safe_height(wall="one-brick", zone="2")
        1.3
    """
    try:
        return structures.safe_height_figure(wall=wall, zone=zone).value
    except NotFoundError as missing:
        raise OutOfRangeError(str(missing)) from None


def steel_ratio(*, area: SquareMeter, width: Meter, depth: Meter) -> Ratio:
    """Steel over the masonry that works with it: p = As / (b d).

    Args:
        area: As, area of the bar [m2]
        width: b, length of wall that works with it, at most its spacing [m]
        depth: d, from the pressed face to the bar [m]

    Returns:
        p [-]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        all > 0, refused otherwise. b at most 6 thicknesses and 48 in.

    Source:
        TM-5-809-3, equation 5-8 and table 5-4 (read)

    Example:
        >>> steel_ratio(area=0.0002, width=0.5, depth=0.1)
        0.004
    """
    within(area, "area of the bar in m2", above=0.0)
    return area / (within(width, "width in m", above=0.0) * within(depth, "depth in m", above=0.0))


def modular_ratio(*, steel_modulus: Pascal, masonry_modulus: Pascal) -> Ratio:
    """Stiffness of steel over that of masonry: n = Es / Em.

    Args:
        steel_modulus: Es, 29000 ksi [Pa]
        masonry_modulus: Em, 1000 times the masonry's strength in the American manual [Pa]

    Returns:
        n [-]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        both > 0, refused otherwise.

    Source:
        TM-5-809-3, section 5-4 (read)

    Example:
        >>> modular_ratio(steel_modulus=200e9, masonry_modulus=10e9)
        20.0
    """
    return within(steel_modulus, "Es in Pa", above=0.0) / within(masonry_modulus, "Em in Pa", above=0.0)


def cracked_section(*, modular_ratio: Ratio, steel_ratio: Ratio) -> CrackedSection:
    """Pressed part and lever arm of a cracked, reinforced section: k = √(2np + (np)²) − np, j = 1 − k/3.

    Args:
        modular_ratio: n [-]
        steel_ratio: p [-]

    Returns:
        k and j (see CrackedSection)

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        n, p > 0; refused otherwise. Elastic, the joint pulls nothing.

    Source:
        TM-5-809-3, equations 5-9 and 5-10 (read)
        STATICS (derived)

    Example:
        >>> cracked_section(modular_ratio=20.0, steel_ratio=0.005)
        CrackedSection(neutral=0.35826, lever=0.88058)
    """
    np = within(modular_ratio, "n", above=0.0) * within(steel_ratio, "p", above=0.0)
    neutral = math.sqrt(2 * np + np**2) - np
    return CrackedSection(neutral=neutral, lever=1 - neutral / 3)


def moment_in_masonry(
    *, stress: Pascal, neutral: Ratio, lever: Ratio, width: Meter, depth: Meter
) -> NewtonMeter:  # fmt: skip
    """Moment at which the pressed masonry reaches its allowable stress: Mrm = Fm k j b d² / 2.

    Args:
        stress: Fm, allowable pressing stress in bending, 0.33 f'm [Pa]
        neutral: k, from cracked_section [-]
        lever: j, from cracked_section [-]
        width: b, length of wall that works with the bar [m]
        depth: d, from the pressed face to the bar [m]

    Returns:
        Mrm, for one bar [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below.

    Source:
        TM-5-809-3, equation 5-15 (read)

    Example:
        >>> moment_in_masonry(stress=3e6, neutral=0.3, lever=0.9, width=0.6, depth=0.1)
        2430
    """
    pressed = within(stress, "stress in Pa", low=0.0) * within(neutral, "k", low=0.0) * within(lever, "j", low=0.0)
    return pressed * within(width, "width in m", low=0.0) * within(depth, "depth in m", low=0.0) ** 2 / 2


def moment_in_steel(*, area: SquareMeter, stress: Pascal, lever: Ratio, depth: Meter) -> NewtonMeter:
    """Moment at which the bar reaches its allowable stress: Mrs = As fs j d.

    Args:
        area: As, area of the bar [m2]
        stress: fs, allowable stress, 24 ksi for usual bars [Pa]
        lever: j, from cracked_section [-]
        depth: d, from the pressed face to the bar [m]

    Returns:
        Mrs, for one bar [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below. The bar must be anchored in the footing.

    Source:
        TM-5-809-3, equation 5-14 (read)

    Example:
        >>> moment_in_steel(area=0.0002, stress=165e6, lever=0.9, depth=0.1)
        2970
    """
    pull = within(area, "area of the bar in m2", low=0.0) * within(stress, "stress in Pa", low=0.0)
    return pull * within(lever, "j", low=0.0) * within(depth, "depth in m", low=0.0)


def axial_stress_allowed(*, masonry_strength: Pascal, height: Meter, thickness: Meter) -> Pascal:
    """Allowable pressing stress of a wall or pier under load: Fa = 0.2 f'm [1 − (h / 40 t)³].

    Args:
        masonry_strength: f'm, strength of the masonry [Pa]
        height: h, clear height [m]
        thickness: t, nominal thickness [m]

    Returns:
        Fa [Pa]

    Raises:
        OutOfRangeError: the wall is more slender than 40, or an argument is out of its range.

    Range:
        f'm ≥ 0, t > 0, 0 ≤ h ≤ 40 t; refused outside. Held at top and bottom: for a wall free at its top put 2 h.

    Source:
        TM-5-809-3, equations 5-24 and 5-25 (read)

    Example:
        >>> axial_stress_allowed(masonry_strength=10e6, height=4.0, thickness=0.2)
        1750000
    """
    within(height, "height in m", low=0.0, high=40 * within(thickness, "thickness in m", above=0.0))
    strength = within(masonry_strength, "strength of the masonry in Pa", low=0.0)
    return 0.2 * strength * (1 - (height / (40 * thickness)) ** 3)


def joint_spacing(*, height: Meter, ratio: Ratio, longest: Meter) -> Meter:
    """Largest distance between control joints: s = min(r h, smax).

    Args:
        height: h, height of the wall [m]
        ratio: r, length over height, 1.5 for concrete masonry with light bed-joint steel [-]
        longest: smax, 25 ft for full-high units, 20 ft for half-high ones [m]

    Returns:
        s, joint to joint; half of it from a corner [m]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        all > 0, refused otherwise. Needs 0.025 in2 of level steel per foot of height (53 mm2/m).

    Source:
        NCMA-TEK-10-2B, 25 ft, half from corners (read)
        NCMA-TEK-10-2B, the ratio 1.5, half lost in the scan (memory)
        HALF-HIGH-JOINTS, 1.5 and 20 ft (read)

    Notes:
        A wall free at its top is held back by its footing only, a milder case than a house wall's.

    Example:
        >>> joint_spacing(height=1.2, ratio=1.5, longest=7.62)
        1.8
    """
    return min(
        within(height, "height in m", above=0.0) * within(ratio, "length over height", above=0.0),
        within(longest, "longest distance in m", above=0.0),
    )


def shrinkage_strain(*, unit_shrinkage: Ratio) -> Ratio:
    """Shortening of concrete masonry as it dries: km = 0.5 sl.

    Args:
        unit_shrinkage: sl, linear drying shrinkage of the units, 0.00065 at most [-]

    Returns:
        km, shortening per length [-]

    Raises:
        OutOfRangeError: sl is below 0 or over 0.00065.

    Range:
        0 ≤ sl ≤ 0.00065, refused outside.

    Source:
        MSJC-08 (read)

    Example:
        >>> shrinkage_strain(unit_shrinkage=0.0004)
        0.0002
    """
    return 0.5 * within(unit_shrinkage, "shrinkage of the units", low=0.0, high=6.5e-4)


def wall_shortening(*, length: Meter, shrinkage: Ratio, expansion: Ratio, cooling_c: Celsius) -> Meter:
    """Shortening of a length of wall by drying and cooling: ΔL = (km + kt ΔT) L.

    Args:
        length: L, from joint to joint [m]
        shrinkage: km, shortening by drying per length [-]
        expansion: kt, expansion per °C, 0.0000081 for concrete masonry [-]
        cooling_c: ΔT, fall of temperature after laying [°C]

    Returns:
        ΔL, opening of a joint that takes all of it [m]

    Raises:
        OutOfRangeError: length, shrinkage or expansion is below 0.

    Range:
        L, km, kt ≥ 0; refused below.

    Source:
        MSJC-08, ΔL = kt L ΔT and km (read)
        MSJC-08, kt = 4.5e-6 per °F for concrete masonry (memory)

    Example:
        >>> wall_shortening(length=6.0, shrinkage=0.0003, expansion=0.000008, cooling_c=25.0)
        0.0030
    """
    within(expansion, "expansion per °C", low=0.0)
    strain = within(shrinkage, "shrinkage", low=0.0) + expansion * cooling_c
    return within(length, "length in m", low=0.0) * strain
