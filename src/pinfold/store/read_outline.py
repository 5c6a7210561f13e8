"""Reading corners, sides, gates, neighbors, buried lines and surveyed ground of a plan file."""

from __future__ import annotations

import math

from pinfold.plan.enclosure import Gate, Hand, Swing
from pinfold.plan.outline import BuriedLine, Corner, Follow, Neighbor, Run, Side, SurveyPoint
from pinfold.store.forms import Form, each, unique
from pinfold.store.read_grounds import read_blocks
from pinfold.store.read_hanging import read_hanging, read_sill
from pinfold.units import KILOGRAM, METER, NEWTON, Meter, both

CARRIES = ("water", "power", "gas", "signal", "drain")

LEAST_RUN: Meter = 0.10
"""Shortest run that is built (pinfold's own)."""


def read_corners(whole: Form) -> tuple[Corner, ...]:
    """All `[[corner]]` tables."""
    forms = whole.subs("corner")
    if not forms:
        whole.complain("corner", "at least two corners are wanted, each written [[corner]] with name, x and y")
    corners = each(forms, _corner)
    unique(forms, (corner.name for corner in corners), "corner")
    return corners


def _corner(form: Form) -> Corner:
    x, y = (form.quantity(axis, METER, low=-5000.0, high=5000.0) for axis in ("x", "y"))
    return Corner(name=form.text("name", longest=20), at=(x, y))


def read_sides(whole: Form, lengths: dict[tuple[str, str], float]) -> tuple[Side, ...]:
    """All `[[side]]` tables; `lengths` gives the distance between two corners by their names."""
    forms = whole.subs("side")
    if not forms:
        whole.complain("side", "at least one side is wanted, written [[side]] with name, from, to and buildup")
    sides = each(forms, lambda form: _side(form, lengths))
    unique(forms, (side.name for side in sides), "side")
    return sides


def _side(form: Form, lengths: dict[tuple[str, str], float]) -> Side:
    name = form.text("name", longest=30)
    start, end = form.text("from", longest=20), form.text("to", longest=20)
    if start and start == end:
        form.complain("to", f"the side starts and ends at {start!r}; name two corners")
    length = lengths.get((start, end), math.nan)
    return Side(
        name=name, start=start, end=end, follow=form.word("follow", Follow, otherwise=Follow.STEP),
        runs=_runs(form, name, length),
    )  # fmt: skip


def _runs(form: Form, side: str, length: float) -> tuple[Run, ...]:
    if not form.has("runs"):
        return (Run(name=f"{side}/1", start=0.0, end=length, buildup=form.text("buildup", longest=60), neighbor=None),)
    if form.has("buildup"):
        form.complain("buildup", "the side has runs, which name their own build-ups; take one of the two out")
    runs: list[Run] = []
    parts = form.subs("runs")
    if not parts:
        form.complain("runs", "at least one run is wanted, with its buildup or neighbor")
    for number, part in enumerate(parts, start=1):
        runs.append(_run(part, f"{side}/{number}", runs[-1].end if runs else 0.0, length, last=number == len(parts)))
        part.refuse_unknown()
    return tuple(runs)


def _run(form: Form, name: str, start: float, length: float, *, last: bool) -> Run:
    end = length if last and not form.has("to") else form.quantity("to", METER, low=0.0, high=10000.0)
    if last and form.has("to") and math.isfinite(end) and abs(end - length) > 0.005:
        form.complain("to", f"the last run ends at {both(end)}, the side at {both(length)}; leave its 'to' out")
    if end <= start:
        form.complain("to", f"the run would end at {both(end)}, before it starts at {both(start)} along the side")
    elif end - start < LEAST_RUN and form.has("buildup"):
        form.complain("to", f"leaves a run of {both(end - start)}; nothing shorter than {both(LEAST_RUN)} can be built")
    if form.has("buildup") == form.has("neighbor"):
        form.complain("", "a run names either its buildup or the neighbor that stands for it, one of the two")
    buildup = form.text("buildup", longest=60) if form.has("buildup") else None
    return Run(name=name, start=start, end=end, buildup=buildup, neighbor=form.text("neighbor", otherwise="") or None)


def read_gates(whole: Form) -> tuple[Gate, ...]:
    """All `[[gate]]` tables."""
    forms = whole.subs("gate")
    gates = each(forms, _gate)
    unique(forms, (gate.name for gate in gates), "gate")
    return gates


def _gate(form: Form) -> Gate:
    leaves = form.count("leaves", otherwise=1, low=1, high=2)
    hinges = form.word("hinges", Hand, otherwise=Hand.BOTH if leaves == 2 else Hand.LEFT)
    if (leaves == 2) != (hinges is Hand.BOTH):
        hung = "one leaf, which hangs left or right" if leaves == 1 else "two leaves, which hang on both"
        form.complain("hinges", f"{hinges.value!r} does not fit {hung}")
    gate = Gate(
        name=form.text("name", longest=30),
        side=form.text("side", longest=30),
        start=form.quantity("at", METER, low=0.0, high=10000.0),
        width=form.quantity("width", METER, low=0.3, high=8.0),
        height=form.quantity("height", METER, low=0.3, high=4.0),
        leaves=leaves,
        hinges=hinges,
        swing=form.word("swing", Swing, otherwise=Swing.IN),
        gap=form.quantity("gap", METER, otherwise=0.0127, low=0.0, high=0.15),
        under=form.quantity("under", METER, otherwise=0.05, low=0.0, high=0.6),
        kind=form.kind("kind", "gates"),
        post=form.kind("post", "posts"),
        embed=form.quantity("embed", METER, low=0.1, high=4.0),
        collar=form.perhaps("collar", METER, low=0.05, high=2.0),
        leaf_mass=form.perhaps("leaf_mass", KILOGRAM, low=0.5, high=2000.0),
        hinge_capacity=form.perhaps("hinge_capacity", NEWTON, low=1.0, high=1e6),
        hanging=read_hanging(form),
        sill=read_sill(form),
    )
    if gate.leaf_width <= 0.1:
        form.complain("gap", f"gaps of {both(gate.gap)} leave no leaf in an opening of {both(gate.width)}")
    return gate


def read_neighbors(whole: Form) -> tuple[Neighbor, ...]:
    """All `[[neighbor]]` tables."""
    forms = whole.subs("neighbor")
    neighbors = each(forms, _neighbor)
    unique(forms, (neighbor.name for neighbor in neighbors), "neighbor")
    return neighbors


def _neighbor(form: Form) -> Neighbor:
    footprint = tuple((x, y) for x, y in form.points("footprint", least=3, most=60))
    return Neighbor(
        name=form.text("name", longest=30),
        says=form.text("says", otherwise=""),
        height=form.quantity("height", METER, low=0.1, high=60.0),
        footprint=footprint,
        blocks=read_blocks(form, footprint),
    )


def read_lines(whole: Form) -> tuple[BuriedLine, ...]:
    """All `[[line]]` tables."""
    forms = whole.subs("line")
    lines = each(forms, _line)
    unique(forms, (line.name for line in lines), "line")
    return lines


def _line(form: Form) -> BuriedLine:
    return BuriedLine(
        name=form.text("name", longest=30),
        carries=form.choice("carries", CARRIES) or "water",
        depth=form.quantity("depth", METER, low=0.0, high=10.0),
        clearance=form.quantity("clearance", METER, low=0.0, high=5.0),
        located=form.flag("located", otherwise=False),
        path=tuple((x, y) for x, y in form.points("points", least=2, most=200)),
    )


def read_ground(whole: Form) -> tuple[SurveyPoint, ...]:
    """The table `ground` with its surveyed points; none means level ground."""
    form = whole.sub("ground")
    if form is None:
        return ()
    rows = form.points("points", least=1, names="x, y, height")
    form.refuse_unknown()
    return tuple(SurveyPoint(x=x, y=y, z=z) for x, y, z in rows)
