"""Walls shaken by an earthquake: overturning, sliding, ground and lowest bed under a share of their own weight."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from pinfold.figures import Figure, given
from pinfold.findings import Finding, Step, work
from pinfold.formulas import earthquakes as formulas
from pinfold.formulas import walls
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.studies.stability.acted import Asked, acted_on
from pinfold.studies.stability.cases import Case, Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import (
    EARTHQUAKE,
    EARTHQUAKE_EN,
    QUAKE_FENCE,
    QUAKE_FENCE_EN,
    Combination,
    Named,
)
from pinfold.studies.stability.tipping import Acting, Turning
from pinfold.units import RATIO, Meter, NewtonPerMeter, Ratio

UNDER = "in an earthquake"
NOT_IN_IT = (
    "the footing, which moves with the ground; mesh, posts and gates, which weigh little; ground that turns to soup; "
    "a wall along its length; whether a wall spans from pier to pier; steel enough to hold a cracked wall together"
)


class Shaking(NamedTuple):
    """How hard a family shakes a wall, by what, and the shares that go with it."""

    force: Step
    figures: Named
    factors: Combination
    note: str


def shaken_walls(ask: Exposed) -> tuple[Finding, ...]:
    """What an earthquake does to one stretch of wall; nothing where none stands or the plan does not ask."""
    if not has_wall(ask.stretch) or ask.place.seismic is None:
        return ()
    return acted_on(ask, Asked(under=UNDER, left_out=NOT_IN_IT, actions=lambda _: (shaken,)))


def shaken(case: Case) -> Acting:
    """The shaking of a piece of wall, level at the middle of its weight above the lowest bed."""
    acceleration = case.of.place.seismic
    assert acceleration is not None
    piece, weight = case.piece, case.heavy
    shake = _european if case.of.family is Family.EU else _american
    shaking = shake(weight.wall, acceleration)
    force = shaking.force
    middle = (piece.exposed + piece.sunk) / 2 - piece.sunk

    def about(below: Meter) -> Turning:
        turned = work(
            walls.line_load_moment, why="it turns the wall from the middle of its weight", line_load=force.number,
            height=middle + below, below=0.0,
        )  # fmt: skip
        return Turning(moment=turned.number, force=force.number, working=(turned,))

    return Acting(
        about=about, working=(*weight.working, force), notes=(shaking.note,), factors=shaking.factors,
        figures=tuple((name.replace("_", " "), figure) for name, figure in shaking.figures),
    )  # fmt: skip


_WHY = "share of the wall's own weight"


def _american(weight: NewtonPerMeter, acceleration: Ratio) -> Shaking:
    force = work(
        formulas.component_force, why=_WHY, weight=weight, spectral_acceleration=acceleration,
        **{name: figure.value for name, figure in QUAKE_FENCE},
    )  # fmt: skip
    return Shaking(
        force=force, figures=(("design acceleration over gravity", given(acceleration, RATIO)), *QUAKE_FENCE),
        factors=factors_at(acceleration),
        note="as a cantilever by ASCE 7-05 to 7-16 chapter 13, more than the 0.8 of 7-16 section 15.6.8",
    )  # fmt: skip


def _european(weight: NewtonPerMeter, acceleration: Ratio) -> Shaking:
    force = work(
        formulas.component_force_en, why=_WHY, weight=weight, ground_acceleration=acceleration,
        **{name: figure.value for name, figure in QUAKE_FENCE_EN},
    )  # fmt: skip
    ground = ("peak ground acceleration over gravity, soil in it", given(acceleration, RATIO))
    return Shaking(force=force, figures=(ground, *QUAKE_FENCE_EN), factors=EARTHQUAKE_EN, note=_SWINGING)


_SWINGING = (
    "by EN 1998-1 clause 4.3.5, seismic read as the peak of the ground with its soil factor; counted as swinging with "
    "the ground, two and a half times as hard as a stiff wall shakes, for its own period is not reckoned"
)


@lru_cache(maxsize=16)
def factors_at(acceleration: Ratio) -> Combination:
    """Shares of the shaking and of weight in the American family, less what the heaving ground takes off it."""
    left = formulas.weight_share(
        weight_factor=EARTHQUAKE.weight.value, load_factor=EARTHQUAKE.load.value, spectral_acceleration=acceleration
    )
    helps = Figure(
        value=float(left), unit=RATIO, standing=Standing.MEMORY, source="ASCE7-16",
        where="section 2.4.5: 0.6 of the weight less 0.14 SDS",
    )  # fmt: skip
    return replace(EARTHQUAKE, weight=helps)
