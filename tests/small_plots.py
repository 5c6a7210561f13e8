"""Small plots to lay out in tests: corners in meters and one build-up in the words of a plan file."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from pinfold.store.planfile import plan_of
from pinfold.studies.layout.records import Layout
from pinfold.studies.layout.resolve import lay_out

BLOCK = """
[buildup.b.wall]
kind = "block-200-hollow"
height = "80 cm"
"""
SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


@dataclass(frozen=True)
class Opening:
    """A gate in a small plot: which side, from where, how wide."""

    side: int
    at: float
    width: float = 1.0
    words: str = 'height = "1.2 m"\nkind = "wood-frame-mesh"\npost = "wood-4x4"\nembed = "80 cm"\ncollar = "30 cm"'


@dataclass(frozen=True)
class Plot:
    """A plot to lay out.

    Attributes:
        buildup: the layers, in the words of a plan file, of build-up `b`.
        corners: in order.
        is_closed: whether the last corner is joined to the first.
        splits: for a side's number, distances from its start where its run is cut in two of one build-up.
        gates: openings.
        ground: surveyed (x, y, z).
        units: `us` or `metric`.
        follow: `step` or `rake`.
    """

    buildup: str = BLOCK
    corners: Sequence[tuple[float, float]] = ((0.0, 0.0), (8.0, 0.0))
    is_closed: bool = False
    splits: dict[int, tuple[float, ...]] = field(default_factory=dict)
    gates: tuple[Opening, ...] = ()
    ground: tuple[tuple[float, float, float], ...] = ()
    units: str = "metric"
    follow: str = "step"

    def laid_out(self) -> Layout:
        """The plot on its ground."""
        return lay_out(plan_of(self.text()))

    def text(self) -> str:
        """The plan file."""
        points = [[_m(number) for number in spot] for spot in self.ground]
        lines = ["format = 1", 'name = "plot"', f'units = "{self.units}"', "[place]", "[haul]", "[mixing]"]
        if points:
            lines += ["[ground]", f"points = {points}".replace("'", '"')]
        for number, (x, y) in enumerate(self.corners):
            lines += ["[[corner]]", f'name = "C{number}"', f'x = "{_m(x)}"', f'y = "{_m(y)}"']
        count = len(self.corners) if self.is_closed else len(self.corners) - 1
        for number in range(count):
            last = (number + 1) % len(self.corners)
            lines += ["[[side]]", f'name = "s{number}"', f'from = "C{number}"', f'to = "C{last}"']
            lines += [f'follow = "{self.follow}"', self._runs(number)]
        for number, gate in enumerate(self.gates):
            lines += ["[[gate]]", f'name = "g{number}"', f'side = "s{gate.side}"', f'at = "{_m(gate.at)}"']
            lines += [f'width = "{_m(gate.width)}"', gate.words]
        return "\n".join([*lines, self.buildup])

    def _runs(self, number: int) -> str:
        cuts = self.splits.get(number, ())
        if not cuts:
            return 'buildup = "b"'
        runs = [f'{{ to = "{_m(cut)}", buildup = "b" }}' for cut in cuts]
        return f'runs = [{", ".join(runs)}, {{ buildup = "b" }}]'


def straight(length: float, buildup: str = BLOCK, **changes: object) -> Layout:
    """One side along x."""
    return Plot(buildup=buildup, corners=((0.0, 0.0), (length, 0.0)), **changes).laid_out()  # type: ignore[arg-type]


def turned(corners: Sequence[tuple[float, float]], angle: float) -> tuple[tuple[float, float], ...]:
    """The same corners turned about the origin."""
    cos, sin = math.cos(angle), math.sin(angle)
    return tuple((cos * x - sin * y, sin * x + cos * y) for x, y in corners)


def _m(number: float) -> str:
    return f"{number:.9f} m"
