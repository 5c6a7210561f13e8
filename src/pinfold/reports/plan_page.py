"""How the plan lies on the ground, as a page."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.plan.grounds import Bank
from pinfold.plan.outline import Run
from pinfold.reports.pages import Block, Page, Paragraph, table
from pinfold.studies.layout.records import GatePlace, Layout, Post, Stretch
from pinfold.units import METER, SQUARE_METER, Meter, System, show


def plan_page(layout: Layout, drawings: Sequence[str]) -> Page:
    """Size of the plot, its stretches, banks, gates and posts, and where the drawings lie."""
    plan, system = layout.plan, layout.plan.units
    blocks: list[Block] = [Paragraph(text=_size(layout, system))]
    blocks += [Paragraph(text=text) for text in _told(layout)]
    blocks.append(_stretches(layout.stretches, system))
    if neighbors := [run for _, run in plan.runs if run.neighbor]:
        blocks.append(_neighbors(neighbors, system))
    if plan.banks:
        blocks.append(_banks(plan.banks, system))
    if layout.gates:
        blocks.append(_gates(tuple(layout.gates.values()), system))
    blocks.append(_posts(layout.posts, system))
    if drawings:
        blocks.append(table(("drawings",), [(name,) for name in drawings]))
    return Page(title=f"{plan.name}: the plan", blocks=tuple(blocks))


def _size(layout: Layout, system: System) -> str:
    around = f"{show(layout.perimeter, METER, system)} around, {show(layout.length, METER, system)} of it to build"
    if layout.area is None:
        return f"An open plot: {around}."
    return f"A closed plot of {show(layout.area, SQUARE_METER, system)}: {around}."


def _told(layout: Layout) -> list[str]:
    outside = [stretch.name for stretch in layout.stretches if stretch.outside]
    told = []
    if outside:
        told.append(f"Outside the surveyed ground, heights taken from its nearest edge: {', '.join(outside)}.")
    if layout.surface is None:
        told.append("No heights of the ground are given: it is taken as level.")
    return told


def _stretches(stretches: Sequence[Stretch], system: System) -> Block:
    rows = [
        (
            stretch.name, stretch.buildup.name, show(stretch.length, METER, system), _heights(stretch, system),
            str(len(stretch.steps) or ""), str(len(stretch.joints) or ""),
        )
        for stretch in stretches
    ]  # fmt: skip
    heads = ("stretch", "build-up", "length", "wall above ground", "steps", "joints")
    return table(heads, rows, right=(2, 4, 5), wide=1)


def _heights(stretch: Stretch, system: System) -> str:
    if not stretch.steps:
        return "no wall"
    low = min(step.top - step.highest_ground for step in stretch.steps)
    high = max(step.top - step.lowest_ground for step in stretch.steps)
    return _span(low, high, system)


def _span(low: Meter, high: Meter, system: System) -> str:
    """`2' 8"`, or `2' 8" to 3'` where they differ on the tape."""
    shown = dict.fromkeys((show(low, METER, system), show(high, METER, system)))
    return " to ".join(shown)


def _neighbors(runs: Sequence[Run], system: System) -> Block:
    rows = [(run.name, str(run.neighbor), show(run.end - run.start, METER, system)) for run in runs]
    return table(("run", "neighbor stands for it", "length"), rows, right=(2,), wide=1)


def _banks(banks: Sequence[Bank], system: System) -> Block:
    rows = [
        (
            bank.name, f"{bank.side}, {bank.face.value} face",
            f"{show(bank.start, METER, system)} to {show(bank.end, METER, system)}", show(bank.height, METER, system),
            bank.soil.name if bank.soil else "not given", "yes" if bank.drained else "no",
        )
        for bank in banks
    ]  # fmt: skip
    return table(("bank", "against", "along", "higher by", "made of", "drained"), rows, right=(3,), wide=1)


def _gates(gates: Sequence[GatePlace], system: System) -> Block:
    rows = [
        (
            place.gate.name, place.run, show(place.gate.width, METER, system), show(place.gate.height, METER, system),
            f"{place.gate.leaves} × {show(place.gate.leaf_width, METER, system)}", place.gate.swing.value,
            " ".join(place.posts),
        )
        for place in gates
    ]  # fmt: skip
    return table(("gate", "run", "opening", "height", "leaves", "swing", "posts"), rows, right=(2, 3))


def _posts(posts: Sequence[Post], system: System) -> Block:
    lengths: dict[tuple[str, str], list[Meter]] = {}
    for post in posts:
        lengths.setdefault((post.kind.says, post.role.value), []).append(post.length)
    rows = [(str(len(all_)), *what, _span(min(all_), max(all_), system)) for what, all_ in lengths.items()]
    return table(("posts", "kind", "role", "length"), rows, right=(0, 3), wide=1)
