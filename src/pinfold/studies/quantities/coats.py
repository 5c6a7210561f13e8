"""Plaster, wash and slurry: faces, wall tops and end returns; mesh bedded in a coat."""

from __future__ import annotations

import math

from pinfold.findings import work
from pinfold.formulas.plaster import coat_volume
from pinfold.plan.buildups import Coat, Faces
from pinfold.studies.layout.records import EndKind
from pinfold.studies.quantities.lines import Count, habit, line, waste_of
from pinfold.studies.quantities.reach import Reach, path_length
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER, METER, SQUARE_METER, SquareMeter, show

_ENDS = (EndKind.GATE, EndKind.OPEN)


def coats(reach: Reach) -> tuple[Quantity, ...]:
    """Every coat of one stretch, in the order laid."""
    lines = []
    for coat in reach.stretch.buildup.coats:
        lines.append(_coat(reach, coat))
        if coat.mesh is not None:
            lines.append(_mesh(reach, coat, coat.mesh))
    return tuple(lines)


def coated_area(reach: Reach, coat: Coat) -> SquareMeter:
    """Faces from the ground to the top, corners mitered; with both faces also the ends and where the top steps.

    The ground along the center line is taken for both faces. A coping covers the top, which then takes no coat.
    """
    stretch = reach.stretch
    shares = {Faces.OUTER: stretch.outer, Faces.INNER: stretch.inner, Faces.BOTH: stretch.outer + stretch.inner}
    area = max(reach.shown_area, 0.0) * shares[coat.faces] / stretch.length
    if coat.faces is Faces.BOTH:
        area += reach.wall.thickness * (math.fsum(_ends(reach)) + math.fsum(reach.height_changes))
    if _over_top(reach, coat):
        area += reach.wall.thickness * math.fsum(path_length(top) for top in stretch.tops)
    return area


def _over_top(reach: Reach, coat: Coat) -> bool:
    return coat.top and reach.stretch.buildup.coping is None


def _ends(reach: Reach) -> tuple[float, ...]:
    stretch = reach.stretch
    ends = ((stretch.start_kind, 0.0), (stretch.end_kind, stretch.length))
    return tuple(reach.shown_height(place) for end, place in ends if end in _ENDS)


def _coat(reach: Reach, coat: Coat) -> Quantity:
    def count() -> Count:
        area = coated_area(reach, coat)
        step = work(coat_volume, why=f"{coat.kind.says}, before waste", area=area, thickness=coat.thickness, waste=0.0)
        where = {Faces.BOTH: "both faces and ends", Faces.OUTER: "the outer face", Faces.INNER: "the inner face"}
        over = ", wall top" if _over_top(reach, coat) else ", none under the coping" if coat.top else ""
        note = f"{show(area, SQUARE_METER, reach.system)} on {where[coat.faces]}{over}"
        return Count(net=step.number, note=note, working=(step,))

    return line(
        kind=kind("mixes", coat.kind.word("mix")), layer="coat", place=reach.stretch.name, unit=CUBIC_METER,
        count=count, waste=waste_of(coat.kind, "concrete"),
    )  # fmt: skip


def _mesh(reach: Reach, coat: Coat, mesh: Kind) -> Quantity:
    def count() -> Count:
        area = coated_area(reach, coat)
        high, long = mesh.value("roll_height"), mesh.value("roll_length")
        lap = mesh.value("overlap") if mesh.has("overlap") else habit("mesh", "strip_joint")
        net = area / ((high - lap) * (long - lap)) * long
        return Count(net=net, note=f"{show(area, SQUARE_METER, reach.system)}, strips lapped all round")

    return line(
        kind=mesh, layer="coat", place=reach.stretch.name, unit=METER, count=count, waste=waste_of(mesh, "mesh")
    )
