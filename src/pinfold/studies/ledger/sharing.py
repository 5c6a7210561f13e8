"""What lines are shared out over: the layers and runs that the plan uses a thing in."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.studies.costing import SHARED, run_by_place
from pinfold.studies.gathering.records import Line
from pinfold.studies.layout.records import Layout
from pinfold.units import Meter


class Cell(NamedTuple):
    """A layer of a run."""

    layer: str
    run: str


@dataclass(frozen=True, kw_only=True)
class Uses:
    """Where the plan uses what.

    Attributes:
        by_item: how much of a thing each layer of each run takes.
        by_layer: the runs that a layer is in.
        runs: run by any place that may be named.
        lengths: of the runs.
        length: of the enclosure.
    """

    by_item: Mapping[str, Mapping[Cell, float]]
    by_layer: Mapping[str, tuple[str, ...]]
    runs: Mapping[str, str]
    lengths: Mapping[str, Meter]
    length: Meter


def uses_of(lines: Iterable[Line], layout: Layout) -> Uses:
    """Where the plan uses what, by its buying list."""
    runs = run_by_place(layout)
    by_item: dict[str, dict[Cell, float]] = {}
    by_layer: dict[str, dict[str, None]] = defaultdict(dict)
    for line in lines:
        cells = by_item.setdefault(line.kind.name, {})
        for use in line.uses:
            cell = Cell(use.layer, runs.get(use.place, SHARED))
            cells[cell] = cells.get(cell, 0.0) + use.amount
            by_layer[cell.layer][cell.run] = None
    lengths: dict[str, Meter] = defaultdict(float)
    for stretch in layout.stretches:
        lengths[stretch.run] += stretch.length
    for gate in layout.gates.values():
        lengths[gate.run] += gate.gate.width
    return Uses(
        by_item=by_item, by_layer={layer: tuple(found) for layer, found in by_layer.items()}, runs=runs,
        lengths=dict(lengths), length=layout.length,
    )  # fmt: skip


def weights_of(uses: Uses, *, what: str, layer: str, place: str) -> Mapping[Cell, float]:
    """What a line is shared out over, with the weight of each; what was told of it goes before the plan.

    Args:
        uses: of the plan
        what: the thing
        layer: as told, or empty
        place: as told, or empty
    """
    run = uses.runs.get(place, "")
    known = uses.by_item.get(what, {})
    fitting = {cell: weight for cell, weight in known.items() if layer in ("", cell.layer) and run in ("", cell.run)}
    if fitting and any(fitting.values()):
        return fitting
    if layer and not run and not place:
        of_layer = {Cell(layer, each): uses.lengths.get(each, 0.0) for each in uses.by_layer.get(layer, ())}
        if any(of_layer.values()):
            return of_layer
    return {Cell(layer or SHARED, run or SHARED): 1.0}
