"""Gate leaves: the wind on them."""

from __future__ import annotations

from pinfold.errors import NotFoundError
from pinfold.findings import Step, work
from pinfold.formulas.mesh import mesh_solidity
from pinfold.plan.enclosure import Gate
from pinfold.studies.layout.records import GatePlace, Post
from pinfold.studies.stability.air import air_at
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import SOLID_MESH, Named
from pinfold.studies.stability.fences import Band
from pinfold.studies.stability.lattices import lattice_push, wires_of
from pinfold.studies.stability.loads import solid_pressure
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import Ratio


def leaf_band(fence: Exposed, place: GatePlace, post: Post) -> tuple[Band, tuple[Step, ...], Named]:
    """Half of a shut leaf in the wind, as it hangs or latches on its post; the leaf is not overgrown.

    Raises:
        NotFoundError: wind, frame or infill are not known.
        OutOfRangeError: past the tables.
    """
    gate = place.gate
    bottom = max(place.hang - post.ground, 0.0)
    top = bottom + gate.height
    air = air_at(fence.site, top)
    solidity, steps, figures = _solidity(gate)
    if solidity >= SOLID_MESH:
        pressure, more, _ = solid_pressure(fence.site, fence.line, gate.height, air)
    else:
        push = lattice_push(fence.family, air, wire=_infill(gate.kind).value("wire"), solidity=solidity, flat=True)
        pressure, more = push.pressure, push.working
    steps = (*steps, *more)
    band = Band(pressure=pressure, width=gate.leaf_width / 2, bottom=bottom, top=top, why="half of the leaf")
    return band, (*air.working, *steps), figures


def _solidity(gate: Gate) -> tuple[Ratio, tuple[Step, ...], Named]:
    if gate.kind.word("infill") == "sheet":
        return 1.0, (), ()
    infill = _infill(gate.kind)
    wire = infill.value("wire") * wires_of(infill)
    own = work(
        mesh_solidity, why="wire of the leaf", upright_wire=wire, level_wire=wire,
        upright_pitch=infill.value("opening_wide"), level_pitch=infill.value("opening_high"),
    )  # fmt: skip
    member = gate.kind.value("member_width")
    frame = work(
        mesh_solidity, why="frame of the leaf, added to the wire", upright_wire=2 * member,
        upright_pitch=gate.leaf_width, level_wire=min(gate.kind.value("rails") * member, gate.height),
        level_pitch=gate.height,
    )  # fmt: skip
    figures = (("wire of the leaf", infill.figure("wire")), ("member of the leaf", gate.kind.figure("member_width")))
    return 1 - (1 - own.number) * (1 - frame.number), (own, frame), figures


def _infill(kind: Kind) -> Kind:
    name = kind.word("infill")
    if name not in shelf("meshes"):
        raise NotFoundError(f"no mesh {name!r} is known for the infill of {kind.name}")
    return shelf("meshes")[name]
