"""Wire mesh in the wind: how much of it is solid, and the drag of its wires."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import Meter, MeterPerSecond, Pascal, Ratio, SquareMeterPerSecond


def square_mesh_solidity(*, wire: Meter, pitch: Meter) -> Ratio:
    """Share of a square mesh that is wire: ε = 1 − (1 − d/p)².

    Args:
        wire: d, diameter of the wire [m]
        pitch: p, from middle to middle of the wires, both ways [m]

    Returns:
        ε, solid area over gross area [-]

    Raises:
        OutOfRangeError: the wire is wider than the pitch.

    Range:
        0 ≤ d ≤ p, p > 0.

    Source:
        STATICS, geometry (derived)

    Example:
        >>> square_mesh_solidity(wire=0.0025, pitch=0.05)
        0.0975
    """
    return mesh_solidity(upright_wire=wire, level_wire=wire, upright_pitch=pitch, level_pitch=pitch)


def mesh_solidity(*, upright_wire: Meter, level_wire: Meter, upright_pitch: Meter, level_pitch: Meter) -> Ratio:
    """Share of a mesh with oblong openings that is wire: ε = 1 − (1 − d1/p1)(1 − d2/p2).

    Args:
        upright_wire: d1, diameter of the upright wires [m]
        level_wire: d2, diameter of the level wires [m]
        upright_pitch: p1, distance between the middles of upright wires [m]
        level_pitch: p2, distance between the middles of level wires [m]

    Returns:
        ε, solid area over gross area [-]

    Raises:
        OutOfRangeError: a wire is wider than its pitch.

    Range:
        0 ≤ d ≤ p, p > 0. Knots, twists and plants are not in it.

    Source:
        STATICS, geometry (derived)

    Example:
        >>> mesh_solidity(upright_wire=0.002, level_wire=0.004, upright_pitch=0.1, level_pitch=0.2)
        0.0396
    """
    across = upright_wire / within(upright_pitch, "pitch of the upright wires in m", above=0.0)
    along = level_wire / within(level_pitch, "pitch of the level wires in m", above=0.0)
    within(across, "upright wire over its pitch", low=0.0, high=1.0)
    within(along, "level wire over its pitch", low=0.0, high=1.0)
    return 1 - (1 - across) * (1 - along)


def reynolds_number(*, speed: MeterPerSecond, width: Meter, viscosity: SquareMeterPerSecond) -> Ratio:
    """Reynolds number of a wire or post in the wind: Re = v d / ν.

    Args:
        speed: v, wind speed with its gusts [m/s]
        width: d, diameter [m]
        viscosity: ν, kinematic viscosity of the air, 15e-6 in EN 1991-1-4 [m2/s]

    Returns:
        Re, Reynolds number [-]

    Raises:
        OutOfRangeError: a negative argument, or a viscosity not above 0.

    Range:
        v, d ≥ 0; ν > 0.

    Source:
        EN1991-1-4, 7.9.1 (read)

    Example:
        >>> reynolds_number(speed=30.0, width=0.0025, viscosity=0.000015)
        5000
    """
    within(speed, "wind speed in m/s", low=0.0)
    within(width, "diameter in m", low=0.0)
    return speed * width / within(viscosity, "viscosity of air in m2/s", above=0.0)


def wire_drag_by_hy722(*, reynolds: Ratio) -> Ratio:
    """Drag of a round wire: Cd = 11 Re^−0.75 + 0.9 (1 − e^(−1000/Re)) + 1.2 (1 − e^(−(Re/4500)^0.7)).

    Args:
        reynolds: Re, Reynolds number [-]

    Returns:
        Cd on the area the wind sees [-]

    Raises:
        OutOfRangeError: Re outside the range.

    Range:
        10 ≤ Re ≤ 200 000; refused outside (the lower limit is pinfold's own). Past it the drag of a round body drops.

    Source:
        HY722 (read)

    Example:
        >>> wire_drag_by_hy722(reynolds=1000.0)
        0.984
    """
    re = within(reynolds, "Reynolds number", low=10.0, high=2e5)
    slow = 11 * math.pow(re, -0.75) + 0.9 * (1 - math.exp(-1000 / re))
    return slow + 1.2 * (1 - math.exp(-math.pow(re / 4500, 0.7)))


def wire_drag_by_viscous_flow(*, reynolds: Ratio) -> Ratio:
    """Drag of a round wire: Cd = 1.18 + 6.8 Re^−0.89 + 1.96 Re^−0.5 − 0.0004 Re / (1 + 3.64e-7 Re²).

    Args:
        reynolds: Re, Reynolds number [-]

    Returns:
        Cd on the area the wind sees [-]

    Raises:
        OutOfRangeError: Re outside the range.

    Range:
        10 ≤ Re ≤ 200 000, the range of its rival; refused outside.

    Source:
        VISCOUS-FLOW, first two terms (read)
        VISCOUS-FLOW, last two terms (memory)

    Notes:
        A rival to wire_drag_by_hy722; the two differ by a tenth at most.

    Example:
        >>> wire_drag_by_viscous_flow(reynolds=1000.0)
        0.963
    """
    re = within(reynolds, "Reynolds number", low=10.0, high=2e5)
    return 1.18 + 6.8 * math.pow(re, -0.89) + 1.96 / math.sqrt(re) - 0.0004 * re / (1 + 3.64e-7 * re * re)


def mesh_pressure(*, velocity_pressure: Pascal, solidity: Ratio, drag: Ratio) -> Pascal:
    """Wind on an open mesh, spread over its gross area, each wire alone in the wind: p = q Cd ε.

    Args:
        velocity_pressure: q, velocity pressure with gusts, no other factor taken [Pa]
        solidity: ε, solid area over gross area [-]
        drag: Cd of the wire [-]

    Returns:
        p, pressure per gross area [Pa]

    Raises:
        OutOfRangeError: a mesh so close that its wires shield and crowd each other.

    Range:
        0 ≤ ε ≤ 0.3, refused above (pinfold's own limit); q, Cd ≥ 0.

    Source:
        STATICS, wires that do not disturb each other (derived)
        PRACTICE, the limit of 0.3 (practice)

    Notes:
        A rival to wind.lattice_pressure, which is the larger for fence wire and the one to build by.

    Example:
        >>> mesh_pressure(velocity_pressure=1000.0, solidity=0.1, drag=1.0)
        100.0
    """
    within(velocity_pressure, "velocity pressure in Pa", low=0.0)
    within(drag, "drag coefficient", low=0.0)
    return velocity_pressure * drag * within(solidity, "solidity", low=0.0, high=0.3)
