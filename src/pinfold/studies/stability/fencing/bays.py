"""One bay of a fence: what wind and weight bring to each of its rails and wires."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.findings import Step, work
from pinfold.formulas import fence_loads, wires
from pinfold.formulas.walls import GRAVITY
from pinfold.plan.buildups import Buildup, Rail
from pinfold.studies.stability.cases import Exposed
from pinfold.units import Meter, NewtonPerMeter


@dataclass(frozen=True, kw_only=True)
class Loaded:
    """A rail or wire with what it carries between two posts.

    Attributes:
        rail: as planned.
        span: most distance between posts.
        strip: height of mesh that leans on it.
        across: wind along it, factor in it.
        down: its own weight and that of the mesh on it.
        both: square to it.
        working: lines that lead there.
    """

    rail: Rail
    span: Meter
    strip: Meter
    across: NewtonPerMeter
    down: NewtonPerMeter
    both: NewtonPerMeter
    working: tuple[Step, ...]


def loaded_rails(fence: Exposed) -> tuple[Loaded, ...]:
    """Every rail and wire of a stretch with its strip of mesh; a rail without mesh carries itself.

    Raises:
        NotFoundError: wind or mesh are not known.
        OutOfRangeError: past the tables.
    """
    buildup = fence.stretch.buildup
    strips = strips_of(buildup)
    pressure = fence.factors.service.value * fence.wind.mesh if buildup.mesh is not None else 0.0
    working = fence.wind.mesh_working if buildup.mesh is not None else ()
    return tuple(
        _loaded(buildup, rail, strip, pressure, working)
        for rail, strip in zip(buildup.rails, strips, strict=True)
    )  # fmt: skip


def strips_of(buildup: Buildup) -> tuple[Meter, ...]:
    """Mesh that leans on each rail, from half-way below to half-way above; a wall that it laps over takes its share."""
    if buildup.mesh is None:
        return (0.0,) * len(buildup.rails)
    top, heights = buildup.mesh.height, [min(rail.at, buildup.mesh.height) for rail in buildup.rails]
    foot = [0.0] if buildup.wall is not None and buildup.mesh.lap > 0 else []
    supports = [*foot, *heights]
    strips = []
    for number, at in enumerate(supports):
        low = (supports[number - 1] + at) / 2 if number else 0.0
        high = (at + supports[number + 1]) / 2 if number + 1 < len(supports) else top
        strips.append(max(high - low, 0.0))
    return tuple(strips[len(foot) :])


def _loaded(
    buildup: Buildup, rail: Rail, strip: Meter, pressure: float, working: tuple[Step, ...]
) -> Loaded:  # fmt: skip
    assert buildup.posts is not None
    why = "wind on the mesh that leans on it, with its factor"
    across = work(fence_loads.mesh_force, why=why, pressure=pressure, spacing=1.0, bottom=0.0, top=strip)
    down = weight_on(buildup, rail, strip)
    both = work(wires.loads_together, why="wind and weight on it", across=across.number, down=down)
    return Loaded(
        rail=rail, span=buildup.posts.spacing, strip=strip, across=across.number, down=down, both=both.number,
        working=(*working, across, both),
    )  # fmt: skip


def weight_on(buildup: Buildup, rail: Rail, strip: Meter) -> NewtonPerMeter:
    """Weight of a rail and of the mesh that hangs on it."""
    hung = buildup.mesh.kind.value("mass_per_area") if buildup.mesh and buildup.mesh.kind.has("mass_per_area") else 0.0
    return (rail.kind.value("mass_per_length") + hung * strip) * GRAVITY
