"""Width and thickness of what a wall stands on: the rule of 45 degrees, and the ledge of a strip bent by the ground."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import partial
from itertools import pairwise
from typing import NamedTuple

from pinfold.figures import given, printed
from pinfold.findings import Finding, Step, Verdict, keeps_to, work
from pinfold.formulas import footings
from pinfold.plan.buildups import Footing, Wall
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.studies.stability.answers import Question, answered
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import FOOTING_STRENGTH, Named
from pinfold.studies.stability.pieces import caution, limit
from pinfold.tables.shelf import kind
from pinfold.units import METER, PASCAL, RATIO, Meter, Pascal

LOAD = {
    Family.US: printed("1.67", RATIO, Standing.MEMORY, "ASCE7-16", "2.3, wind in full over 0.6 of it"),
    Family.EU: printed("1.5", RATIO, Standing.MEMORY, "EN-1990", "set B, strength"),
}  # fmt: skip
"""From the pressure by allowable stress to that with its load factor."""
PLAIN_FACTOR = printed("0.60", RATIO, Standing.MEMORY, "ACI-318", "21.2.1, plain concrete")
ON_GROUND = printed("2 in", METER, Standing.MEMORY, "ACI-318", "14.5.1.7, taken off concrete cast on the ground")
EN_TENSION = printed("0.7 MPa", PASCAL, Standing.MEMORY, "EN-1992-12", "design tension of plain concrete C16/20")
SETTLES = (
    "settlement is not reckoned: read levels along the wall and keep the tilt between two points under the share named "
    "among the figures"
)


def founded(ask: Exposed, stood: Iterable[Finding]) -> tuple[Finding, ...]:
    """Width and thickness of the footing of a stretch of wall.

    Args:
        ask: the stretch
        stood: what was found of it standing, with the pressure on the ground among it
    """
    footing, wall = ask.stretch.buildup.footing, ask.stretch.buildup.wall
    if footing is None or wall is None:
        return ()
    make, subject = footing.kind.word("make"), f"stretch {ask.stretch.name}"
    if make not in ("strip", "rubble-trench"):
        return ()
    wide = Question(check="footing width", subject=subject, left_out=SETTLES, caution=_washed_out(ask))
    found = (answered(wide, partial(_width, footing, wall)),)
    if make != "strip":
        return found
    thick = Question(
        check="footing thickness", subject=subject,
        left_out="shear of the ledge, which plain concrete so stout does not come to; weak spots of the ground that it "
        "must bridge; the pressure under a bank of earth",
    )  # fmt: skip
    pressed = next((one for one in stood if one.check == "bearing"), None)
    return (*found, answered(thick, partial(_thickness, ask.family, footing, wall, pressed)))


def _width(footing: Footing, wall: Wall) -> Finding:
    tilt = ("tilt that cracks plaster", kind("tilts", "plaster").figure("tilt"))
    figures: Named = (("width of the footing", given(footing.width, METER)), tilt)
    if footing.kind.word("make") == "rubble-trench":
        holds = keeps_to(wall.thickness, footing.width)
        return Finding(
            check="", subject="", demand=wall.thickness, capacity=footing.width, unit=METER, figures=figures,
            because="no narrower than the wall, by common practice; it must drain to daylight",
            mend="" if holds else "a wider trench",
        )  # fmt: skip
    least = work(footings.least_width, why="a ledge on both sides", thickness=wall.thickness)
    holds = keeps_to(least.number, footing.width)
    return Finding(
        check="", subject="", demand=least.number, capacity=footing.width, unit=METER, working=(least,),
        figures=figures, mend="" if holds else "a wider footing",
    )  # fmt: skip


def _washed_out(ask: Exposed) -> str:
    """Where the ground falls along the wall, its trench turns into a drain."""
    ground = ask.stretch.ground
    falls = [abs(high - low) / (end - start) for (start, low), (end, high) in pairwise(ground)
             if end - start > 0.1]  # fmt: skip
    return caution("washout") if max(falls, default=0.0) > limit("washout") else ""


class _Asked(NamedTuple):
    """A thickness that is asked for, with what is not counted of it, and why."""

    step: Step
    uncounted: Meter
    why: str

    @property
    def whole(self) -> Meter:
        """As built."""
        return self.step.number + self.uncounted


def _thickness(family: Family, footing: Footing, wall: Wall, pressed: Finding | None) -> Finding:
    ledge = max((footing.width - wall.thickness) / 2, 0.0)
    rule = _Asked(work(footings.thickness_by_rule, why="the rule of 45 degrees", projection=ledge), 0.0, _RULE)
    pressure = None if pressed is None or pressed.verdict is Verdict.NOT_SHOWN else pressed.demand
    steps: tuple[Step, ...] = ()
    bent = rule
    if pressure is not None:
        steps, bent = _bent(family, wall, ledge, LOAD[family].value * pressure)
    most = max(rule, bent, key=lambda asked: asked.whole)
    found = Finding(
        check="", subject="", demand=most.whole, capacity=footing.thickness, unit=METER, because=most.why,
        working=(rule.step, *steps), figures=_figures(family, footing),
    )  # fmt: skip
    if not keeps_to(most.whole, footing.thickness):
        return replace(found, mend="a thicker footing, or a narrower one where the ground bears it")
    return found if pressure is not None else replace(found, capacity=None, because=_UNPRESSED)


_RULE = "the rule of 45 degrees governs, with 6 in as the least"
_BENDS = "bending of the ledge by the ground governs"
_UNPRESSED = (
    "thick enough by the rule of 45 degrees; whether the ledge bends is not shown, since the pressure under it is not"
)


def _bent(family: Family, wall: Wall, ledge: Meter, pressure: Pascal) -> tuple[tuple[Step, ...], _Asked]:
    """Thickness that the pressure asks for."""
    if family is Family.EU:
        asked = work(
            footings.thickness_by_en1992, why="the ledge of a plain strip", pressure=pressure, projection=ledge,
            tension=EN_TENSION.value,
        )  # fmt: skip
        return (asked,), _Asked(asked, 0.0, _BENDS)
    reach = ledge if wall.kind.word("make") == "poured" else ledge + wall.thickness / 4
    moment = work(
        footings.projection_moment, why="the ground bends the ledge, halfway under a wall of masonry",
        pressure=pressure, projection=reach,
    )  # fmt: skip
    tension = work(
        footings.plain_tension, why="what plain concrete may carry", concrete_strength=FOOTING_STRENGTH.value,
        factor=PLAIN_FACTOR.value,
    )  # fmt: skip
    asked = work(
        footings.thickness_by_bending, why="thickness that works; 2 in cast on the ground do not count",
        moment=moment.number, tension=tension.number,
    )  # fmt: skip
    return (moment, tension, asked), _Asked(asked, ON_GROUND.value, _BENDS)


def _figures(family: Family, footing: Footing) -> Named:
    thick = ("thickness of the footing", given(footing.thickness, METER))
    load = ("factor on the pressure", LOAD[family])
    if family is Family.EU:
        return thick, load, ("tension of plain concrete", EN_TENSION)
    return (
        thick, load, ("strength of the footing", FOOTING_STRENGTH), ("factor of strength", PLAIN_FACTOR),
        ("not counted on the ground", ON_GROUND),
    )  # fmt: skip
