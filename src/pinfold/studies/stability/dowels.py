"""Dowels out of the footing: whether it is thick enough for their hooks."""

from __future__ import annotations

from pinfold.findings import Finding, work
from pinfold.formulas import steel
from pinfold.studies.layout.records import Stretch
from pinfold.studies.stability.answers import Question, answered
from pinfold.studies.stability.factors import (
    FOOTING_COVER,
    FOOTING_STRENGTH,
    HOOK_COVER,
    YIELD_STRESS,
    YIELD_STRESS_EN,
)
from pinfold.tables.shelf import Kind
from pinfold.units import METER, Ratio

LEFT_OUT = "the bend itself; bars of the footing across the hook"


def dowels(stretch: Stretch, bent: Finding) -> tuple[Finding, ...]:
    """Hooks of the dowels that carry on the bars of a wall; nothing where its bending could not be told.

    Args:
        stretch: of wall
        bent: the finding on its bars, with the moment its steel could carry in its working
    """
    footing, wall = stretch.buildup.footing, stretch.buildup.wall
    carried = [line.number for line in bent.working if line.formula == "masonry.moment_in_steel"]
    if footing is None or wall is None or wall.bar is None or bent.demand is None or not carried:
        return ()
    bar, room = wall.bar, footing.thickness - FOOTING_COVER.value
    used = min(bent.demand / carried[-1], 1.0) if carried[-1] > 0 else 1.0
    question = Question(check="dowel", subject=f"stretch {stretch.name}", left_out=LEFT_OUT)
    return (answered(question, lambda: _hook(bar, used, room)),)


def _hook(bar: Kind, used: Ratio, room: float) -> Finding:
    """Depth a hook needs for its share of the yield stress, against the footing less its cover."""
    grade = YIELD_STRESS_EN if bar.figure("diameter").source == YIELD_STRESS_EN.source else YIELD_STRESS
    hook = work(
        steel.hook_length, why="hook of the dowel, for the share of the bar that is used",
        diameter=bar.value("diameter"), stress=used * grade.value, concrete_strength=FOOTING_STRENGTH.value,
        cover_factor=HOOK_COVER.value,
    )  # fmt: skip
    holds = hook.number <= room
    return Finding(
        check="dowel", subject="", demand=hook.number, capacity=room, unit=METER, working=(hook,),
        because="a standard hook under the bars of the footing, its cover on the ground taken off the thickness",
        figures=(
            ("diameter of the bar", bar.figure("diameter")), ("yield stress", grade), ("cover", FOOTING_COVER),
            ("strength of the footing", FOOTING_STRENGTH), ("factor for cover of the hook", HOOK_COVER),
        ),
        mend="" if holds else "a thicker footing, or thinner bars nearer together",
    )  # fmt: skip
