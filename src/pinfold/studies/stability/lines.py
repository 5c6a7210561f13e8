"""Buried lines: how close trenches, holes and pins come to them, and whether they were found at all."""

from __future__ import annotations

from pinfold.figures import given
from pinfold.findings import Finding
from pinfold.plan.outline import BuriedLine
from pinfold.studies.layout.records import Layout
from pinfold.studies.stability.digging import Body, bodies_of, box_around
from pinfold.studies.stability.factors import PIN_DEPTH
from pinfold.studies.stability.pieces import caution
from pinfold.units import METER

LEFT_OUT = "the thickness of the pipe or cable; room to work in beside the hole; other lines that nobody knows of"


def clearances(layout: Layout) -> tuple[Finding, ...]:
    """Every line against the nearest trench, post and pin, and all others that come too close."""
    findings: list[Finding] = []
    bodies = bodies_of(layout)
    for line in layout.plan.lines:
        if line.located:
            for _, kin in bodies:
                findings += _against(line, kin)
        else:
            findings.append(_unfound(line, tuple(body for _, kin in bodies for body in kin)))
    return tuple(findings)


def _against(line: BuriedLine, bodies: tuple[Body, ...]) -> list[Finding]:
    close: dict[str, float] = {}
    for place, (distance, body) in enumerate(_nearest(line, bodies)):
        if place == 0 or distance < line.clearance:
            close.setdefault(body.says, distance)
    return [_clearance(line, says, distance) for says, distance in close.items()]


def _nearest(line: BuriedLine, bodies: tuple[Body, ...]) -> list[tuple[float, Body]]:
    """Distance and body, the nearest first: the nearest of all and every one that is too near."""
    box = box_around(line.path)
    hedge = sorted(((body.at_least(box), number) for number, body in enumerate(bodies)))
    found: list[tuple[float, int]] = []
    for least, number in hedge:
        if found and least > max(min(found)[0], line.clearance):
            break
        found.append((bodies[number].clearance(line).distance, number))
    return [(distance, bodies[number]) for distance, number in sorted(found)]


def _clearance(line: BuriedLine, says: str, distance: float) -> Finding:
    held = distance >= line.clearance
    pins = says.startswith("the pins")
    return Finding(
        check="clearance", subject=f"{line.name} and {says}", demand=line.clearance, capacity=distance, unit=METER,
        because="" if held else f"too near a line that carries {line.carries}",
        figures=(
            ("clearance wanted", given(line.clearance, METER)), ("depth of the line", given(line.depth, METER)),
            *((("depth of the pins", PIN_DEPTH),) if pins else ()),
        ),
        mend="" if held else "move it, make it shallower there, or bridge the line and dig by hand",
        left_out=LEFT_OUT, caution=caution("buried-lines"),
    )  # fmt: skip


def _unfound(line: BuriedLine, bodies: tuple[Body, ...]) -> Finding:
    nearest = _nearest(line, bodies)
    by_memory = f"; as remembered, {nearest[0][1].says} comes nearest" if nearest else ""
    found_first = "have it found before anything is dug or driven"
    return Finding(
        check="clearance", subject=line.name, demand=line.clearance, unit=METER,
        because=f"it carries {line.carries} and is not located{by_memory}: {found_first}",
        figures=(("clearance wanted", given(line.clearance, METER)),), left_out=LEFT_OUT,
        mend="locate it, write its path and depth as found, and located = true", caution=caution("buried-lines"),
    )  # fmt: skip
