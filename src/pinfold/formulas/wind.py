"""Wind on walls and lattices after ASCE 7.

The velocity pressure here never holds the directionality factor Kd; only `wall_pressure` and `lattice_pressure` take
it. So it cannot be applied twice, whichever edition is followed (see `velocity_pressure`).
"""

from __future__ import annotations

import math
from typing import Literal

from pinfold.formulas.ranges import within
from pinfold.tables import wind as tables
from pinfold.units import KgPerCubicMeter, Meter, MeterPerSecond, Pascal, Ratio

Edition = Literal["7-16", "7-22"]
Exposure = Literal["B", "C", "D"]
Feature = Literal["ridge", "escarpment", "hill"]
Side = Literal["upwind", "downwind"]
Members = Literal["flat", "round"]

PLATEAU: Meter = 15 * 0.3048
"""Below this height the exposure coefficient no longer falls (15 ft)."""

STEEPEST: Ratio = 0.5
"""Height over half-length past which a hill counts as no steeper."""

GENTLEST: Ratio = 0.2
"""Height over half-length below which a hill does not count."""

HAIR: Ratio = 1e-9
"""Two proportions nearer than this are the same: lengths divided by lengths rarely come out round."""

LOWEST_HILL: dict[str, Meter] = {"B": 60 * 0.3048, "C": 15 * 0.3048, "D": 15 * 0.3048}
"""Height below which a hill does not count, by exposure."""


def exposure_coefficient(*, height: Meter, exposure: Exposure, edition: Edition) -> Ratio:
    """How much of the wind's pressure is left near the ground: Kz = c (max(z, 15 ft) / zg)^(2/α).

    Args:
        height: z, height above ground [m]
        exposure: B close obstructions, C open country, D flat and bare ground or water
        edition: 7-16 (and 7-05, 7-10: c = 2.01) or 7-22 (c = 2.41)

    Returns:
        Kz, exposure coefficient [-]

    Raises:
        OutOfRangeError: below ground or above the gradient height zg.

    Range:
        0 ≤ z ≤ zg, refused outside. Everything below 15 ft (4.57 m) counts as 15 ft: 0.57, 0.85, 1.03 for B, C, D.

    Source:
        ASCE7-16, table 26.10-1 with note 1, table 26.11-1 (read)
        ASCE7-22, table 26.10-1 with note 1; α = 7.5 of exposure B (memory)

    Notes:
        The printed table holds the formula rounded; worked sheets that read between its lines differ by up to 0.7 %.

    Example:
        >>> exposure_coefficient(height=10.0, exposure="C", edition="7-16")
        1.001
    """
    site = tables.exposure(edition, exposure)
    z = max(within(height, "height above ground in m", low=0.0, high=site.gradient_height), PLATEAU)
    return site.coefficient * math.pow(z / site.gradient_height, 2 / site.alpha)


def crest_speed_up(*, feature: Feature, exposure: Exposure, hill_height: Meter, half_length: Meter) -> Ratio:
    """How much faster the wind goes over a crest: K1 = slope × min(H/Lh, 0.5).

    Args:
        feature: a long ridge, an escarpment or a round hill
        exposure: B, C or D
        hill_height: H, height of the crest over the ground upwind [m]
        half_length: Lh, distance upwind from the crest to where the ground is half of H lower [m]

    Returns:
        K1, share of the wind speed added at the crest; 0 where the hill is too low or too gentle to count [-]

    Raises:
        OutOfRangeError: height below 0 or half-length not above 0.

    Range:
        Counts from H/Lh ≥ 0.2 and H ≥ 15 ft (exposure C, D) or 60 ft (B) on; no steeper than H/Lh = 0.5.

    Source:
        ASCE7-16, 26.8.1 and fig. 26.8-1, exposure C (read)
        ASCE7-16, fig. 26.8-1, exposures B and D (memory)

    Example:
        >>> crest_speed_up(feature="ridge", exposure="C", hill_height=20.0, half_length=50.0)
        0.58
    """
    within(hill_height, "height of the hill in m", low=0.0)
    steepness = hill_height / within(half_length, "half-length of the hill in m", above=0.0)
    if steepness < GENTLEST or hill_height < LOWEST_HILL[exposure]:
        return 0.0
    return tables.hill(feature, exposure, "upwind").slope * min(steepness, STEEPEST)


def topographic_factor(
    *, feature: Feature, exposure: Exposure, hill_height: Meter, half_length: Meter, crest_distance: Meter,
    side: Side, height: Meter,
) -> Ratio:  # fmt: skip
    """How a hill raises the wind's pressure: Kzt = (1 + K1 (1 − x/(μ Lh)) exp(−γ z/Lh))².

    Args:
        feature: a long ridge, an escarpment or a round hill
        exposure: B, C or D
        hill_height: H, height of the crest over the ground upwind [m]
        half_length: Lh, distance upwind from the crest to where the ground is half of H lower [m]
        crest_distance: x, level distance from the crest, 0 or more [m]
        side: which side of the crest the place lies on
        height: z, height above the ground at the place [m]

    Returns:
        Kzt, factor on the velocity pressure, 1 or more [-]

    Raises:
        OutOfRangeError: a length below 0, or half-length not above 0.

    Range:
        1 where the hill does not count (see crest_speed_up) or the place is beyond μ Lh. Where H/Lh is above 0.5, 2 H
        stands for Lh (memory).

    Source:
        ASCE7-16, eq. 26.8-1 and fig. 26.8-1 (read)
        ASCE7-16, fig. 26.8-1, note on 2 H (memory)

    Notes:
        A ridge of 0.5 nearly triples the pressure on the ground at its crest. Whether the hill stands alone for 100 H
        or 2 miles is the builder's to judge.

    Example:
        >>> topographic_factor(feature="ridge", exposure="C", hill_height=20.0, half_length=40.0, crest_distance=0.0,
        ... side="upwind", height=0.0)
        2.976
    """
    within(crest_distance, "distance from the crest in m", low=0.0)
    within(height, "height above ground in m", low=0.0)
    k1 = crest_speed_up(feature=feature, exposure=exposure, hill_height=hill_height, half_length=half_length)
    shape = tables.hill(feature, exposure, side)
    length = max(half_length, hill_height / STEEPEST)
    k2 = max(1 - crest_distance / (shape.reach * length), 0.0)
    return (1 + k1 * k2 * math.exp(-shape.decay * height / length)) ** 2


def elevation_factor(*, elevation: Meter) -> Ratio:
    """How much lighter the air of a high site is: Ke = exp(−0.000119 zg).

    Args:
        elevation: zg, height of the ground above the sea [m]

    Returns:
        Ke, factor on the velocity pressure [-]

    Raises:
        OutOfRangeError: lower or higher than any plot lies.

    Range:
        −500 m to 6000 m, refused outside (pinfold's own limits; the standard gives none). 1 may always be used instead.

    Source:
        ASCE7-16, table 26.9-1 note 2 (read)

    Example:
        >>> elevation_factor(elevation=1000.0)
        0.888
    """
    return math.exp(-0.000119 * within(elevation, "elevation in m", low=-500.0, high=6000.0))


def velocity_pressure(
    *, speed: MeterPerSecond, air_density: KgPerCubicMeter, exposure_coefficient: Ratio, topographic_factor: Ratio,
    elevation_factor: Ratio,
) -> Pascal:  # fmt: skip
    """Pressure of the gust brought to rest, without directionality: q = ρ/2 Kz Kzt Ke V².

    Args:
        speed: V, basic wind speed, a 3-second gust at 33 ft in open country [m/s]
        air_density: ρ, of air at sea level; 1.226 makes ρ/2 the standard's 0.613 [kg/m3]
        exposure_coefficient: Kz [-]
        topographic_factor: Kzt, 1 on level ground [-]
        elevation_factor: Ke, or 1 [-]

    Returns:
        q, velocity pressure without Kd [Pa]

    Raises:
        OutOfRangeError: a negative argument.

    Range:
        all arguments ≥ 0, refused below.

    Source:
        ASCE7-22, eq. 26.10-1 (read)
        ASCE7-16, eq. 26.10-1: the same times Kd (read)

    Notes:
        7-22 takes Kd in the force, 7-16 and before in q; the load is the same. Here it is always taken in the force
        (wall_pressure, lattice_pressure): multiply by Kd to compare with a qz printed to 7-16. The customary 0.00256
        psf per mph² is 0.6133, 0.05 % more than 0.613; both are rounded.

    Example:
        >>> velocity_pressure(speed=40.0, air_density=1.25, exposure_coefficient=0.85, topographic_factor=1.0,
        ... elevation_factor=1.0)
        850.0
    """
    within(speed, "wind speed in m/s", low=0.0)
    within(air_density, "density of air in kg/m3", low=0.0)
    share = exposure_coefficient * topographic_factor * elevation_factor
    return air_density / 2 * within(share, "Kz Kzt Ke", low=0.0) * speed**2


def wall_force_coefficient(*, length: Meter, solid_height: Meter, top_height: Meter) -> Ratio:
    """Net force coefficient of a solid wall or panel, wind square on (cases A and B): Cf by B/s and s/h from the table.

    Args:
        length: B, length of the wall or panel [m]
        solid_height: s, height of its solid part [m]
        top_height: h, height of its top above ground; equal to s for a wall on the ground [m]

    Returns:
        Cf on the gross area [-]

    Raises:
        OutOfRangeError: a length not above 0, or s above h.

    Range:
        0 < s ≤ h; straight between the table's lines, edge values beyond them. Openings under 30 % of the area.

    Source:
        CIRSOC102-2025, fig. 4.4-1 (read)
        ASCE7-16, fig. 29.3-1, from which that table is taken (read)

    Notes:
        Cf falls with B/s for a wall on the ground, 1.45 at B/s = 1 to 1.30; tables in circulation where it rises from
        1.30 to 1.75 are upside down.

    Example:
        >>> wall_force_coefficient(length=20.0, solid_height=2.0, top_height=2.0)
        1.30
    """
    slenderness, share = _proportions(length, solid_height, top_height)
    return tables.wall_square().read(slenderness, share)


def wall_force_coefficient_by_cirsoc(*, length: Meter, solid_height: Meter, top_height: Meter) -> Ratio:
    """Fit to cases A and B: Cf = (1.563 + .008542x − .06148y + .009011x² − .2603y² − .08393xy)/.85, x = ln(B/s).

    Args:
        length: B, length of the wall or panel [m]
        solid_height: s, height of its solid part [m]
        top_height: h, height of its top above ground [m]

    Returns:
        Cf on the gross area, before the table's rounding to 0.05; y is s/h [-]

    Raises:
        OutOfRangeError: a length not above 0, or s above h.

    Range:
        0.05 ≤ B/s ≤ 45 and 0.16 ≤ s/h ≤ 1, the span of the table; refused outside.

    Source:
        CIRSOC102-2025, commentary C 4.4.1 (read)

    Example:
        >>> wall_force_coefficient_by_cirsoc(length=2.0, solid_height=2.0, top_height=2.0)
        1.460
    """
    slenderness, y = _proportions(length, solid_height, top_height)
    x = math.log(within(slenderness, "length over height", low=0.05 - HAIR, high=45.0 + HAIR))
    within(y, "solid height over height of the top", low=0.16 - HAIR)
    return (1.563 + 0.008542 * x - 0.06148 * y + 0.009011 * x * x - 0.2603 * y * y - 0.08393 * x * y) / 0.85


def return_corner_factor(*, return_length: Meter, solid_height: Meter) -> Ratio:
    """How a return corner eases the windward end in case C: 0.90, 0.75, 0.60 at Lr/s = 0.3, 1, 2.

    Args:
        return_length: Lr, length of the return at the windward end, 0 for none [m]
        solid_height: s, height of the solid part [m]

    Returns:
        factor on Cf of the first zone [-]

    Raises:
        OutOfRangeError: return below 0 or height not above 0.

    Range:
        straight between the printed lengths, 0.60 beyond 2; 1 below Lr/s = 0.3, for which nothing is printed.

    Source:
        CIRSOC102-2025, fig. 4.4-1, case C (read)

    Example:
        >>> return_corner_factor(return_length=3.0, solid_height=2.0)
        0.675
    """
    reach = within(return_length, "length of the return in m", low=0.0)
    reach /= within(solid_height, "height of the solid part in m", above=0.0)
    line = tables.return_corner()
    return line.read(reach) if reach >= line.at[0] else 1.0


def clearance_factor(*, solid_height: Meter, top_height: Meter) -> Ratio:
    """How the ground eases case C on a wall that stands on it: 1.8 − s/h where s/h is above 0.8.

    Args:
        solid_height: s, height of the solid part [m]
        top_height: h, height of the top above ground [m]

    Returns:
        factor on Cf of case C: 0.8 for a wall on the ground, 1 for a panel well above it [-]

    Raises:
        OutOfRangeError: s not above 0 or above h.

    Range:
        0 < s ≤ h.

    Source:
        ASCE7-16, fig. 29.3-1, case C (memory)
        WALL-SHEET-6FT6, where it is 0.8 at s/h = 1 (read)

    Example:
        >>> clearance_factor(solid_height=2.7, top_height=3.0)
        0.9
    """
    _, share = _proportions(1.0, solid_height, top_height)
    return min(1.8 - share, 1.0)


def oblique_force_coefficient(
    *, length: Meter, solid_height: Meter, top_height: Meter, distance: Meter, return_length: Meter
) -> Ratio:
    """Net force coefficient with wind at an angle (case C): Cf by B/s and zone × return corner × clearance.

    Args:
        length: B, length of the wall or panel [m]
        solid_height: s, height of its solid part [m]
        top_height: h, height of its top above ground [m]
        distance: level distance from the windward edge; on the border of two zones the nearer one counts [m]
        return_length: Lr, length of the return at the windward edge, 0 for none [m]

    Returns:
        Cf on the gross area at that distance, with return_corner_factor and clearance_factor in it [-]

    Raises:
        OutOfRangeError: B/s below 2, where case C is not asked for; a distance beyond the wall.

    Range:
        B/s ≥ 2; the columns of 2 to 10 and of 13 to 45 are read straight between, 45 counts beyond. Between B/s = 10
        and 13 the zones differ and nothing is printed between: the worse of the two columns counts
        (tables.wind.has_unlike_zones tells). Where only one neighbor has the zone, that one counts.

    Source:
        CIRSOC102-2025, fig. 4.4-1, case C (read)
        ASCE7-16, clearance factor in fig. 29.3-1 (memory)

    Notes:
        Take end panels by case C, and the whole force by case A or the mean of case C over the length, whichever is
        larger.

    Example:
        >>> oblique_force_coefficient(length=20.0, solid_height=2.0, top_height=2.0, distance=1.0, return_length=0.0)
        3.00
    """
    slenderness, _ = _proportions(length, solid_height, top_height)
    within(slenderness, "length over height", low=2.0)
    within(distance, "distance from the windward edge in m", low=0.0, high=length)
    corner = return_corner_factor(return_length=return_length, solid_height=solid_height)
    cf = _oblique_between(slenderness, distance / solid_height, corner)
    return cf * clearance_factor(solid_height=solid_height, top_height=top_height)


def openings_factor(*, solidity: Ratio) -> Ratio:
    """How openings ease the force on a wall that is nearly solid: 1 − (1 − ε)^1.5.

    Args:
        solidity: ε, solid area over gross area [-]

    Returns:
        factor on Cf of the gross area [-]

    Raises:
        OutOfRangeError: openings of 30 % or more: that is an open lattice.

    Range:
        0.7 < ε ≤ 1, refused outside.

    Source:
        ASCE7-16, fig. 29.3-1, note on openings (read)

    Example:
        >>> openings_factor(solidity=0.75)
        0.875
    """
    open_share = 1 - within(solidity, "solidity", above=0.7, high=1.0)
    return 1 - open_share * math.sqrt(open_share)


def open_force_coefficient(
    *, solidity: Ratio, members: Members, member_width: Meter, velocity_pressure: Pascal
) -> Ratio:
    """Force coefficient of an open sign, lattice or mesh on its solid area: Cf by ε, and by D √q for round members.

    Args:
        solidity: ε, solid area over gross area [-]
        members: flat boards and angles, or round wires and pipes
        member_width: D, width or diameter of a typical member [m]
        velocity_pressure: q, velocity pressure at the height of the mesh [Pa]

    Returns:
        Cf on the solid area [-]

    Raises:
        OutOfRangeError: ε above 0.7 (a wall with openings), or a negative argument.

    Range:
        0 ≤ ε ≤ 0.7. Round members change columns at D √q = 5.3 m √Pa.

    Source:
        ASCE7-16, table 29.4-2 (read)

    Notes:
        Cf falls in steps at ε = 0.1 and 0.3, so a slightly denser lattice can carry less: the table's own doing. The
        limit is 2.5 with D in ft and q in psf, 5.3 in SI; mixing the two moves a wire into the wrong column and takes
        a third off its load. Wire of a fence stays a hundred times below it.

    Example:
        >>> open_force_coefficient(solidity=0.0975, members="round", member_width=0.0025, velocity_pressure=1000.0)
        1.2
    """
    table = tables.open_lattice()
    within(solidity, "solidity", low=0.0, high=0.7)
    fast = within(member_width, "width of a member in m", low=0.0) * math.sqrt(
        within(velocity_pressure, "velocity pressure in Pa", low=0.0)
    )
    column = "flat" if members == "flat" else "round_slow" if fast <= table.round_limit else "round_fast"
    return table.cf[column][sum(solidity >= step for step in table.solidity_below)]


def wall_pressure(
    *, velocity_pressure: Pascal, directionality: Ratio, gust_factor: Ratio, force_coefficient: Ratio, minimum: Pascal
) -> Pascal:
    """Design pressure on the gross area of a wall: p = max(q Kd G Cf, minimum).

    Args:
        velocity_pressure: q at the top of the wall, without Kd [Pa]
        directionality: Kd, 0.85 for freestanding walls [-]
        gust_factor: G, 0.85 for rigid walls [-]
        force_coefficient: Cf, times openings_factor where there are openings [-]
        minimum: least design pressure, 16 psf; 0 to see the pressure alone [Pa]

    Returns:
        p, design pressure at strength level [Pa]

    Raises:
        OutOfRangeError: a negative argument, or Kd or G above 1.

    Range:
        q, Cf, minimum ≥ 0; 0 < Kd ≤ 1; 0 < G ≤ 1.

    Source:
        ASCE7-16, 29.3, with the least pressure of 16 psf (read)
        ASCE7-22, 29.3, with Kd in it (memory)

    Notes:
        Strength level for 7-10 and later speeds; allowable-stress checks take 0.6 of it.

    Example:
        >>> wall_pressure(velocity_pressure=1000.0, directionality=0.85, gust_factor=0.85, force_coefficient=1.3,
        ... minimum=766.0)
        939.25
    """
    within(velocity_pressure, "velocity pressure in Pa", low=0.0)
    within(force_coefficient, "force coefficient", low=0.0)
    within(directionality, "directionality factor", above=0.0, high=1.0)
    within(gust_factor, "gust factor", above=0.0, high=1.0)
    pressure = velocity_pressure * directionality * gust_factor * force_coefficient
    return max(pressure, within(minimum, "least design pressure in Pa", low=0.0))


def lattice_pressure(
    *, velocity_pressure: Pascal, directionality: Ratio, gust_factor: Ratio, force_coefficient: Ratio,
    solidity: Ratio, minimum: Pascal,
) -> Pascal:  # fmt: skip
    """Design pressure on an open lattice or mesh, spread over its gross area: p = max(q Kd G Cf, minimum) ε.

    Args:
        velocity_pressure: q at the middle of the mesh, without Kd [Pa]
        directionality: Kd, 0.85 for open signs and lattices [-]
        gust_factor: G, 0.85 [-]
        force_coefficient: Cf on the solid area, see open_force_coefficient [-]
        solidity: ε, solid area over gross area [-]
        minimum: least design pressure on the solid area, 16 psf; 0 to see the pressure alone [Pa]

    Returns:
        p, design pressure per gross area at strength level [Pa]

    Raises:
        OutOfRangeError: ε outside 0 to 0.7, or as wall_pressure.

    Range:
        0 ≤ ε ≤ 0.7; a closer mesh is a wall with openings. Ice and plants that fill a mesh are not in it.

    Source:
        ASCE7-16, 29.4, with the least pressure of 16 psf (read)
        STATICS, spread over the gross area (derived)

    Example:
        >>> lattice_pressure(velocity_pressure=1000.0, directionality=0.85, gust_factor=0.85, force_coefficient=1.2,
        ... solidity=0.1, minimum=766.0)
        86.7
    """
    on_solid = wall_pressure(
        velocity_pressure=velocity_pressure, directionality=directionality, gust_factor=gust_factor,
        force_coefficient=force_coefficient, minimum=minimum,
    )  # fmt: skip
    return on_solid * within(solidity, "solidity", low=0.0, high=0.7)


def resultant_height(*, solid_height: Meter, top_height: Meter) -> Meter:
    """Height of the wind's force above ground: 0.55 h for a wall on the ground, else h − s/2.

    Args:
        solid_height: s, height of the solid part [m]
        top_height: h, height of the top above ground [m]

    Returns:
        height of the resultant [m]

    Raises:
        OutOfRangeError: s not above 0 or above h.

    Range:
        0 < s ≤ h. The step of 0.05 h at s = h is the standard's.

    Source:
        ASCE7-16, fig. 29.3-1, notes on cases A to C (read)

    Example:
        >>> resultant_height(solid_height=2.0, top_height=2.0)
        1.1
    """
    _, share = _proportions(1.0, solid_height, top_height)
    return 0.55 * top_height if share > 1 - HAIR else top_height - solid_height / 2


def square_offset(*, length: Meter) -> Meter:
    """How far off the middle the force of case B stands, towards the windward edge: 0.2 B.

    Args:
        length: B, length of the wall or panel [m]

    Returns:
        level distance of the resultant from the middle [m]

    Raises:
        OutOfRangeError: length below 0.

    Range:
        B ≥ 0.

    Source:
        ASCE7-16, fig. 29.3-1, case B (read)

    Example:
        >>> square_offset(length=20.0)
        4.0
    """
    return 0.2 * within(length, "length of the wall in m", low=0.0)


def _proportions(length: Meter, solid_height: Meter, top_height: Meter) -> tuple[float, float]:
    within(length, "length of the wall in m", above=0.0)
    within(solid_height, "height of the solid part in m", above=0.0)
    share = solid_height / within(top_height, "height of the top in m", above=0.0)
    within(share, "solid height over height of the top", high=1 + HAIR)
    return length / solid_height, min(share, 1.0)


def _oblique_between(slenderness: float, place: float, corner: float) -> float:
    low, high, share = tables.oblique_neighbors(slenderness)
    first, second = _oblique_in(low, place, corner), _oblique_in(high, place, corner)
    if first is None or second is None:
        return first or second or 0.0
    if tables.has_unlike_zones(slenderness):
        return max(first, second)
    return first + share * (second - first)


def _oblique_in(column: tables.ObliqueColumn, place: float, corner: float) -> float | None:
    for number, (end, cf) in enumerate(zip(column.ends, column.cf, strict=True)):
        if place <= end:
            return cf * corner if column.eased and number == 0 else cf
    return None
