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
        runs: the run or runs of any place that may be named: stretch, run, side, gate, post.
        lengths: of the runs.
        length: of the enclosure.
    """

    by_item: Mapping[str, Mapping[Cell, float]]
    by_layer: Mapping[str, tuple[str, ...]]
    runs: Mapping[str, tuple[str, ...]]
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
        by_item=by_item, by_layer={layer: tuple(found) for layer, found in by_layer.items()},
        runs={**_sides(layout), **{place: (run,) for place, run in runs.items()}}, lengths=dict(lengths),
        length=layout.length,
    )  # fmt: skip


def _sides(layout: Layout) -> dict[str, tuple[str, ...]]:
    """The runs of each side."""
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for stretch in layout.stretches:
        found[stretch.side][stretch.run] = None
    return {side: tuple(runs) for side, runs in found.items()}


def weights_of(uses: Uses, *, what: str, layer: str, place: str) -> Mapping[Cell, float]:
    """What a line is shared out over, with the weight of each; what was told of it goes before the plan.

    Args:
        uses: of the plan
        what: the thing
        layer: as told, or empty
        place: as told, or empty
    """
    runs = uses.runs.get(place, ())
    known = uses.by_item.get(what, {})
    fitting = {
        cell: weight for cell, weight in known.items() if layer in ("", cell.layer) and (not place or cell.run in runs)
    }
    if any(fitting.values()):
        return fitting
    if not place:
        runs = uses.by_layer.get(layer, ())
    lengths = {Cell(layer or SHARED, run): uses.lengths.get(run, 0.0) for run in runs}
    return lengths if any(lengths.values()) else {Cell(layer or SHARED, SHARED): 1.0}
