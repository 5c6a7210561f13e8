"""How parts are cut here: what the saw takes, what comes off raw ends, what is worth keeping."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pinfold.units import Meter


@dataclass(frozen=True, kw_only=True)
class Cutting:
    """The builder's saw and habits.

    Attributes:
        kerf: what one cut takes.
        trim: what comes off an end that is raw, the cut included.
        keep: shortest offcut of a length that is worth keeping.
        keep_side: shortest side of a sheet's offcut that is worth keeping.
        mesh_lap: overlap of two pieces of mesh on a post.
        usual: keys that the plan does not say, which stand as usual.
    """

    kerf: Meter = 0.003175
    trim: Meter = 0.0127
    keep: Meter = 0.4064
    keep_side: Meter = 0.2032
    mesh_lap: Meter = 0.1524
    usual: tuple[str, ...] = ("kerf", "trim", "keep", "keep_side", "mesh_lap")


US = Cutting()
MOST: Mapping[str, Meter] = {"kerf": 0.03, "trim": 0.5, "keep": 10.0, "keep_side": 5.0, "mesh_lap": 2.0}
"""What each may be at most."""
METRIC = Cutting(kerf=0.003, trim=0.01, keep=0.4, keep_side=0.2, mesh_lap=0.15)
