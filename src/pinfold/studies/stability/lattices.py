"""Mesh in the wind: how solid it is bare and grown over, and what presses on its gross area."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from pinfold.findings import Step, work
from pinfold.formulas import mesh as formulas
from pinfold.formulas import wind, wind_en
from pinfold.plan.buildups import Buildup, Mesh, Rail
from pinfold.plan.place import Family
from pinfold.studies.stability.air import Air
from pinfold.studies.stability.factors import EN_LATTICE, Named
from pinfold.tables import wind as tables
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, Pascal, Ratio

DOUBLE_TWIST: Ratio = 4 / 3
"""Hexagons with two of six sides twisted double have a third more wire than the same wires crossing (derived)."""
_WIRES_ALONE: Ratio = 0.3
_ROUND = {"pipe", "round", "bar"}


@dataclass(frozen=True, kw_only=True)
class Lattice:
    """A mesh with the frame it hangs on, as the wind sees it.

    Attributes:
        wire: diameter of the wire.
        wide: from upright wire to upright wire.
        high: from level wire to level wire.
        wires: how much wire there is for wires merely crossing.
        upright: width of the frame's upright members over one bay.
        bay: width of that bay.
        level: depth of all level members together.
        height: of the mesh.
        flat: whether a member has flat faces; all wires and pipes otherwise.
        grown: solidity once overgrown; None for bare only.
    """

    wire: Meter
    wide: Meter
    high: Meter
    wires: Ratio
    upright: Meter
    bay: Meter
    level: Meter
    height: Meter
    flat: bool
    grown: Ratio | None


class Push(NamedTuple):
    """Wind on the gross area of a mesh."""

    pressure: Pascal
    working: tuple[Step, ...]
    note: str = ""


def lattice_of(buildup: Buildup) -> Lattice | None:
    """The mesh of a build-up with its rails and posts, or rails alone; None where neither hangs on posts.

    Raises:
        NotFoundError: wire, opening or a rail's size is not known.
    """
    mesh, posts, rails = buildup.mesh, buildup.posts, buildup.rails
    height = mesh.height if mesh is not None else posts.height if posts is not None and rails else 0.0
    if height <= 0:
        return None
    depths = [_depth(rail) for rail in rails]
    sections = {rail.kind.word("section") for rail in rails}
    if posts is not None:
        sections.add(posts.kind.word("section"))
    wire, wide, high, wires = _wires(mesh) if mesh is not None else (max(depths), 1.0, 1.0, 0.0)
    return Lattice(
        wire=wire, wide=wide, high=high, wires=wires, level=math.fsum(depths), height=height,
        upright=posts.kind.value("width") if posts is not None and posts.kind.has("width") else 0.0,
        bay=posts.spacing if posts is not None else 1.0, flat=not sections <= _ROUND,
        grown=mesh.grown if mesh is not None else None,
    )  # fmt: skip


def _wires(mesh: Mesh) -> tuple[Meter, Meter, Meter, Ratio]:
    kind = mesh.kind
    return kind.value("wire"), kind.value("opening_wide"), kind.value("opening_high"), wires_of(kind)


def wires_of(kind: Kind) -> Ratio:
    """How much wire a weave has for wires merely crossing."""
    return DOUBLE_TWIST if kind.word("weave") == "hexagon" else 1.0


def _depth(rail: Rail) -> Meter:
    return rail.kind.value("depth") if rail.kind.word("section") == "rectangle" else rail.kind.value("diameter")


def lattice_figures(family: Family, buildup: Buildup) -> Named:
    """The figures behind a mesh or rails, for their standing."""
    kind = buildup.mesh.kind if buildup.mesh is not None else None
    names = [name for name in ("wire", "opening_wide", "opening_high") if kind is not None and kind.has(name)]
    own = tuple((f"mesh {name.replace('_', ' ')}", kind.figure(name)) for name in names if kind is not None)
    if family is Family.EU:
        return (*own, ("coefficient of lattices", EN_LATTICE))
    factors = ("directionality", "gust_factor", "minimum")
    return (*own, *((f"{name.replace('_', ' ')} of lattices", tables.factor("open-lattice", name)) for name in factors))


@lru_cache(maxsize=256)  # asked for every step of every stretch
def bare_solidity(lattice: Lattice) -> tuple[Ratio, tuple[Step, ...]]:
    """Share of a bare mesh with its frame that is solid.

    Raises:
        OutOfRangeError: wires wider than their pitch.
    """
    wire = lattice.wire * lattice.wires
    own = work(
        formulas.mesh_solidity, why="wire of the bare mesh", upright_wire=wire, level_wire=wire,
        upright_pitch=lattice.wide, level_pitch=lattice.high,
    )  # fmt: skip
    frame = work(
        formulas.mesh_solidity, why="posts and rails, added to the wire", upright_wire=lattice.upright,
        level_wire=lattice.level, upright_pitch=lattice.bay, level_pitch=lattice.height,
    )  # fmt: skip
    return 1 - (1 - own.number) * (1 - frame.number), (own, frame)


def lattice_push(family: Family, air: Air, *, wire: Meter, solidity: Ratio, flat: bool) -> Push:
    """Wind on a mesh less solid than a wall.

    Args:
        family: which standards
        air: velocity pressure at its top
        wire: diameter of the wire
        solidity: with frame and growth
        flat: whether leaves, boards or angles are in it, not wires and pipes alone

    Raises:
        OutOfRangeError: a solidity past the tables.
    """
    if family is Family.US:
        return _american(air, wire, solidity, flat=flat)
    if flat or solidity > _WIRES_ALONE:
        return _european_close(air, wire, solidity)
    return _european_wires(air, wire, solidity)


def _american(air: Air, wire: Meter, solidity: Ratio, *, flat: bool) -> Push:
    cf = work(
        wind.open_force_coefficient, why="leaves, boards and angles" if flat else "wires and pipes",
        solidity=solidity, members="flat" if flat else "round", member_width=wire, velocity_pressure=air.pressure,
    )  # fmt: skip
    p = work(
        wind.lattice_pressure, why="wind on the mesh", velocity_pressure=air.pressure,
        directionality=tables.factor("open-lattice", "directionality").value,
        gust_factor=tables.factor("open-lattice", "gust_factor").value, force_coefficient=cf.number,
        solidity=solidity, minimum=tables.factor("open-lattice", "minimum").value,
    )  # fmt: skip
    return Push(pressure=p.number, working=(cf, p))


def _european_close(air: Air, wire: Meter, solidity: Ratio) -> Push:
    cf = work(
        wind.open_force_coefficient, why="leaves, boards and angles, on their solid area", solidity=solidity,
        members="flat", member_width=wire, velocity_pressure=air.pressure,
    )  # fmt: skip
    p = work(
        wind_en.net_pressure, why="wind on the mesh, spread over its gross area by its solidity",
        peak_pressure=air.pressure, pressure_coefficient=cf.number * solidity,
        structural_factor=tables.factor("wall-en", "structural_factor").value,
    )  # fmt: skip
    note = "the European family has no coefficient for so open a mesh: that of the American table is taken"
    return Push(pressure=p.number, working=(cf, p), note=note)


def _european_wires(air: Air, wire: Meter, solidity: Ratio) -> Push:
    speed = math.sqrt(2 * air.pressure / tables.factor("air-en", "density").value)
    re = work(
        formulas.reynolds_number, why="a wire in the gust of that pressure", speed=speed, width=wire,
        viscosity=tables.factor("air-en", "viscosity").value,
    )  # fmt: skip
    drag = work(formulas.wire_drag_by_hy722, why="drag of the wire", reynolds=re.number)
    p = work(
        formulas.mesh_pressure, why="wind on the mesh, each wire alone", velocity_pressure=air.pressure,
        solidity=solidity, drag=drag.number,
    )  # fmt: skip
    return Push(pressure=p.number, working=(re, drag, p))
