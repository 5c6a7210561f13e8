"""How large or small a builder's own figure may be before it is taken for a slip of the pen."""

from __future__ import annotations

import math

from pinfold.units import Unit

_BY_NAME: dict[str, tuple[float, float]] = {
    "joint": (0.0, 0.05), "overlap": (0.0, 1.0), "overhang": (0.0, 0.3), "waste": (0.0, 1.0),
    "unit_length": (0.02, 3.0), "unit_height": (0.02, 2.0), "lift": (0.02, 3.0),
    "roll_length": (2.0, 2000.0), "roll_height": (0.1, 5.0),
    "pack_length": (2.0, 5000.0), "joint_ratio": (0.3, 20.0), "joint_spacing": (0.5, 60.0), "leaves": (1.0, 8.0),
    "cells_per_unit": (1.0, 8.0), "friction": (0.0, 1.5), "opening_wide": (0.002, 1.0), "opening_high": (0.002, 1.0),
    "rails": (0.0, 20.0), "brace": (0.0, 4.0), "mortar_share": (0.0, 0.9), "shrinkage": (0.0, 0.01),
    "expansion": (0.0, 5e-5), "strain_capacity": (0.0, 0.01), "relaxation": (0.0, 1.0), "efficiency": (0.0, 1.0),
    "flexural_tension": (0.0, 5e6), "flexural_tension_n": (0.0, 5e6), "flexural_tension_en": (0.0, 5e6),
    "friction_angle": (math.radians(5), math.radians(50)), "moisture": (0.0, 1.0),
    "tension": (0.0, 20e3), "top_thickness": (0.02, 3.0), "grip": (0.0, 2.0), "lean": (0.0, 2.0), "hangs": (0.0, 1.0),
    "line": (0.0, 1e5), "line_en": (0.0, 1e5), "absorptance": (0.0, 1.0),
}  # fmt: skip
_BY_KIND: dict[str, tuple[float, float]] = {
    "length": (1e-4, 50.0), "area": (1e-8, 100.0), "volume": (1e-7, 100.0), "mass": (1e-3, 5000.0),
    "mass per length": (1e-4, 500.0), "mass per area": (1e-2, 5000.0), "density": (10.0, 12000.0),
    "pressure or stress": (0.0, 1e12), "plain number": (0.0, 100.0), "time": (0.0, 4e7), "force": (0.0, 1e7),
}  # fmt: skip


def bounds_of(name: str, unit: Unit) -> tuple[float, float]:
    """Smallest and largest a figure of that name and unit may be, in SI."""
    return _BY_NAME.get(name) or _BY_KIND.get(unit.kind, (-math.inf, math.inf))
