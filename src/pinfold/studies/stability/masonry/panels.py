"""The wall between two piers: a panel held at its foot and its upright edges, free at its top."""

from __future__ import annotations

from pinfold.findings import Finding, Step, work
from pinfold.formulas import wall_spans, walls
from pinfold.plan.place import Family
from pinfold.studies.layout.piering import pier_bays
from pinfold.studies.layout.records import EndKind
from pinfold.studies.stability.bed_strengths import tension_along
from pinfold.studies.stability.bedding import section_of, tension_of
from pinfold.studies.stability.cases import Case
from pinfold.studies.stability.factors import MATERIAL_FACTOR
from pinfold.studies.stability.masonry.spans import Span, spanning_level
from pinfold.studies.stability.pieces import Piece, widest_bay
from pinfold.studies.stability.tipping import carries_mesh
from pinfold.units import Meter, Pascal, Ratio

CHECK = "panel between piers"
_LEFT_OUT = "the bond of panel and pier, laid course by course; pushes on the panel; a gap at a control joint"


def panel(case: Case) -> Finding:
    """Whether the widest panel of a wall carries the wind to its piers.

    Raises:
        NotFoundError: the wind, the mesh or the tension along the beds is not known.
        OutOfRangeError: past the tables.
    """
    piece = case.piece
    clear, added = _clear(piece), _from_mesh(case)
    coefficient, steps = _coefficient(case, clear)
    ends = (piece.stretch.start_kind, piece.stretch.end_kind)
    return spanning_level(case, Span(
        check=CHECK, wall=piece.wall, length=clear, coefficient=coefficient, added=added[0],
        working=(*added[1], *steps),
        notes=(
            "held at foot and both edges" if steps else "as a beam from pier to pier",
            "a corner is taken to hold it like a pier" if EndKind.CORNER in ends else "",
        ),
        left_out=_LEFT_OUT, mend="piers nearer together, a thicker wall, or steel along its beds",
    ))  # fmt: skip


def _clear(piece: Piece) -> Meter:
    """Between two piers in the widest bay; where a corner holds one edge, half a pier less is taken off."""
    piers, stretch = piece.buildup.piers, piece.stretch
    assert piers is not None
    at_corner = EndKind.CORNER in (stretch.start_kind, stretch.end_kind)
    return max(widest_bay(piece) - piers.width / (2 if at_corner else 1), 0.0) if pier_bays(stretch) else 0.0


def _from_mesh(case: Case) -> tuple[Pascal, tuple[Step, ...]]:
    """What the fence above brings to the panel, spread over its face."""
    piece, wind = case.piece, case.wind
    if not carries_mesh(piece) or wind.mesh_height <= 0:
        return 0.0, ()
    pull = work(walls.wind_force, why="wind on the mesh above", pressure=wind.mesh, height=wind.mesh_height)
    return pull.number / piece.exposed, (pull,)


def _coefficient(case: Case, clear: Meter) -> tuple[Ratio, tuple[Step, ...]]:
    """European, by yield lines with the wall's strengths both ways; else that of a beam."""
    if case.of.family is not Family.EU or clear <= 0:
        return wall_spans.SIMPLE_SPAN, ()
    tension, _ = tension_of(Family.EU, case.piece)
    area, _, _ = section_of(case.piece.wall)
    along = tension_along(Family.EU, case.piece.wall)
    pressed = case.acting.factors.weight.value * (case.light.wall - case.light.piers) / 2 / area
    across = (tension.value if tension is not None else 0.0) / MATERIAL_FACTOR.value + pressed
    found = work(
        wall_spans.panel_coefficient, why="moment coefficient of the panel, weight at half its height counted",
        orthogonal=across / (along.value / MATERIAL_FACTOR.value), height_over_length=case.piece.exposed / clear,
    )  # fmt: skip
    return found.number, (found,)
