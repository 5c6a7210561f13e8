"""Wind on a piece of wall with mesh above it: the worse of the bare mesh and the overgrown one."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache

from pinfold.findings import Step, work
from pinfold.formulas import wind, wind_en
from pinfold.plan.place import Family
from pinfold.studies.stability.air import Air, Site, air_at
from pinfold.studies.stability.ends import Line
from pinfold.studies.stability.factors import LOWEST_EN_SOLIDITY, SOLID_MESH
from pinfold.studies.stability.lattices import Lattice, Push, bare_solidity, lattice_push
from pinfold.tables import wind as tables
from pinfold.units import Meter, Pascal, Ratio

_MIDDLE: Ratio = 0.5
_OBLIQUE_FROM: Ratio = 2.0
_HAIR = 1e-9
Solid = tuple[Pascal, tuple[Step, ...], tuple[str, ...]]
"""Pressure on a solid wall, its working, and which zone governs."""


@dataclass(frozen=True, kw_only=True)
class Face:
    """A piece of wall and mesh as the wind meets it.

    Attributes:
        site: the wind at the plot.
        line: where the piece lies in its line of wall.
        wall: height of solid wall above ground; 0 without.
        mesh: height of mesh above it; 0 without.
        lattice: the mesh; None without.
    """

    site: Site
    line: Line
    wall: Meter
    mesh: Meter
    lattice: Lattice | None

    @cached_property
    def air(self) -> Air:
        """Velocity pressure at its top."""
        return air_at(self.site, self.wall + self.mesh)

    @cached_property
    def solid(self) -> Solid:
        """Wind on its wall alone."""
        return solid_pressure(self.site, self.line, self.wall, self.air) if self.wall > 0 else (0.0, (), ())


@dataclass(frozen=True, kw_only=True)
class Wind:
    """What presses on a face, at the level of the standard's own speed (US strength, European characteristic).

    Attributes:
        wall: pressure on the wall.
        mesh: pressure on the mesh's gross area.
        arm: height of the wall's resultant as a share of the wall.
        lift: height of the mesh's resultant over the height of its middle.
        mesh_height: of the face.
        air: working of the velocity pressure.
        on_wall: working of the pressure on the wall.
        on_mesh: working of the pressure on the mesh.
        notes: what governs and what was taken for granted.
        mesh_notes: those that bear on the mesh.
    """

    wall: Pascal
    mesh: Pascal
    arm: Ratio
    lift: Ratio
    mesh_height: Meter
    air: tuple[Step, ...]
    on_wall: tuple[Step, ...]
    on_mesh: tuple[Step, ...]
    notes: tuple[str, ...]
    mesh_notes: tuple[str, ...]

    @property
    def working(self) -> tuple[Step, ...]:
        """All of it, in order."""
        return (*self.air, *self.on_wall, *self.on_mesh)

    @property
    def mesh_working(self) -> tuple[Step, ...]:
        """What leads to the pressure on the mesh."""
        return (*self.air, *self.on_mesh)

    def turning(self, wall: Meter) -> float:
        """Moment about the ground, to tell which of two winds is the worse."""
        middle = (wall + self.mesh_height / 2) * self.lift
        return self.wall * wall * self.arm * wall + self.mesh * self.mesh_height * middle


@lru_cache(maxsize=4096)
def wind_on(face: Face) -> Wind:
    """Wind on a face: the worse of the mesh bare and grown over.

    Raises:
        NotFoundError: an exposure the standard does not know.
        OutOfRangeError: proportions or solidities past the tables.
    """
    if face.lattice is None or face.mesh <= 0:
        return _open(face, None, (), "")
    bare, steps = bare_solidity(face.lattice)
    if face.lattice.grown is None:
        return _case(face, bare, steps, "the mesh counts as bare: write grown where plants or rubbish will fill it")
    cases = (
        _case(face, bare, steps, "the bare mesh governs"),
        _case(face, face.lattice.grown, (), "the overgrown mesh governs"),
    )
    return max(cases, key=lambda case: case.turning(face.wall))


def _case(face: Face, solidity: Ratio, steps: tuple[Step, ...], note: str) -> Wind:
    if solidity >= SOLID_MESH:
        return _closed(face, solidity, steps, (note, "so close a mesh counts as a wall"))
    return _open(face, solidity, steps, note)


def _open(face: Face, solidity: Ratio | None, steps: tuple[Step, ...], note: str) -> Wind:
    """A wall with an open mesh above it, each by its own rule."""
    air, (on_wall, walled, why) = face.air, face.solid
    push = Push(pressure=0.0, working=())
    if face.lattice is not None and solidity is not None:
        push = lattice_push(
            face.site.family, air, wire=face.lattice.wire, solidity=solidity, flat=face.lattice.flat or not steps
        )  # fmt: skip
    about_mesh = (note, push.note, *air.notes)
    return Wind(
        wall=on_wall, mesh=push.pressure, arm=_arm(face.site.family), lift=1.0,
        mesh_height=face.mesh if solidity is not None else 0.0, air=air.working, on_wall=walled,
        on_mesh=(*steps, *push.working), notes=(*about_mesh, *why), mesh_notes=about_mesh,
    )  # fmt: skip


def _closed(face: Face, solidity: Ratio, steps: tuple[Step, ...], about_mesh: tuple[str, ...]) -> Wind:
    """Wall and mesh as one wall, the openings of the mesh not counted but where the European table counts them."""
    height = face.wall + face.mesh
    air = face.air
    pressure, walled, why = solid_pressure(face.site, face.line, height, air)
    on_mesh, meshed = pressure, (*steps, *walled)
    if face.site.family is Family.EU and solidity < 1:
        on_mesh, closer, _ = _european(face.line, height, air, max(solidity, LOWEST_EN_SOLIDITY))
        meshed = (*steps, *closer)
    arm = _arm(face.site.family)
    notes = (*about_mesh, *air.notes, *why)
    return Wind(
        wall=pressure if face.wall > 0 else 0.0, mesh=on_mesh, arm=arm, lift=arm / _MIDDLE, mesh_height=face.mesh,
        air=air.working, on_wall=walled if face.wall > 0 else (), on_mesh=meshed, notes=notes, mesh_notes=notes,
    )  # fmt: skip


def _arm(family: Family) -> Ratio:
    """Height of the resultant on a wall that stands on the ground, as a share of the wall."""
    if family is Family.EU:
        return _MIDDLE
    return wind.resultant_height(solid_height=1.0, top_height=1.0)


def solid_pressure(
    site: Site, line: Line, height: Meter, air: Air
) -> Solid:  # fmt: skip
    """Wind on a solid wall: pressure, working, and which zone governs.

    Raises:
        OutOfRangeError: proportions past the tables.
    """
    if site.family is Family.EU:
        return _european(line, height, air, 1.0)
    least = 0.0 if site.building else tables.factor("solid-wall", "minimum").value
    return _american(line, height, air, least)


def _american(line: Line, height: Meter, air: Air, minimum: Pascal) -> Solid:
    square = work(
        wind.wall_force_coefficient, why="wind square on, cases A and B", length=line.unbroken, solid_height=height,
        top_height=height,
    )  # fmt: skip
    cf, note = square, "wind square on governs"
    if line.side / height >= _OBLIQUE_FROM:
        oblique, where = max(((_oblique(line, height, end), end[0]) for end in line.ends), key=lambda c: c[0].number)
        if oblique.number > square.number:
            cf, note = oblique, f"wind aslant on the {where} of the line governs (case C)"
    p = work(
        wind.wall_pressure, why="wind on the wall", velocity_pressure=air.pressure,
        directionality=tables.factor("solid-wall", "directionality").value,
        gust_factor=tables.factor("solid-wall", "gust_factor").value, force_coefficient=cf.number, minimum=minimum,
    )  # fmt: skip
    notes = [note, *_blunt(line)]
    if p.number <= minimum * (1 + _HAIR):
        notes.append("the least pressure of the standard governs")
    if cf is not square and tables.has_unlike_zones(line.side / height):
        notes.append("its zones stand between two columns of the table: the worse counts")
    return p.number, (square, p) if cf is square else (square, cf, p), tuple(notes)


def _oblique(line: Line, height: Meter, end: tuple[str, Meter, Meter]) -> Step:
    _, distance, corner = end
    return work(
        wind.oblique_force_coefficient, why="wind aslant, nearest zone", length=line.side, solid_height=height,
        top_height=height, distance=min(distance, line.side), return_length=corner,
    )  # fmt: skip


def _european(
    line: Line, height: Meter, air: Air, solidity: Ratio
) -> Solid:  # fmt: skip
    zones = [
        (
            work(
                wind_en.net_pressure_coefficient_at, why=f"nearest zone from the {where}", solidity=solidity,
                distance=min(distance, line.side), length=line.side, height=height, return_length=corner,
            ),
            where,
        )
        for where, distance, corner in line.ends
    ]  # fmt: skip
    cp, where = max(zones, key=lambda zone: zone[0].number)
    p = work(
        wind_en.net_pressure, why="wind on the wall", peak_pressure=air.pressure, pressure_coefficient=cp.number,
        structural_factor=tables.factor("wall-en", "structural_factor").value,
    )  # fmt: skip
    return p.number, (cp, p), (f"the zone at the {where} of the line governs", *_blunt(line))


def _blunt(line: Line) -> tuple[str, ...]:
    """Which corners do not help."""
    if not line.unrelieved:
        return ()
    where = " and ".join(line.unrelieved)
    return (f"no help is taken from the wall around the corner at the {where}: it turns too far from square",)
