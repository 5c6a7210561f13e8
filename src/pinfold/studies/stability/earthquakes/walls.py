"""Walls shaken by an earthquake: overturning, sliding and the lowest bed under a share of their own weight."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from pinfold.figures import Figure, given
from pinfold.findings import Finding, work
from pinfold.formulas import earthquakes as formulas
from pinfold.formulas import walls
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.studies.stability.acted import Asked, acted_on
from pinfold.studies.stability.cases import Case, Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import EARTHQUAKE, QUAKE_FENCE, Combination
from pinfold.studies.stability.tipping import Acting, Turning
from pinfold.units import RATIO, Meter, Ratio

UNDER = "in an earthquake"
NOT_IN_IT = (
    "the footing, which moves with the ground; mesh, posts and gates, which weigh little; ground that turns to soup; "
    "a wall along its length; steel enough to hold a cracked wall together"
)
_NO_FIGURES = "the European family's figures for walls by themselves are not carried here; an engineer has them"


def shaken_walls(ask: Exposed) -> tuple[Finding, ...]:
    """What an earthquake does to one stretch of wall; nothing where none stands or the plan does not ask."""
    if not has_wall(ask.stretch) or ask.place.seismic is None:
        return ()
    if ask.family is Family.EU:
        subject = f"stretch {ask.stretch.name}"
        return (Finding(check=f"overturning {UNDER}", subject=subject, because=_NO_FIGURES, left_out=NOT_IN_IT),)
    return acted_on(ask, Asked(under=UNDER, left_out=NOT_IN_IT, actions=lambda _: (shaken,)))


def shaken(case: Case) -> Acting:
    """The shaking of a piece of wall, level at the middle of its weight above the lowest bed."""
    acceleration = case.of.place.seismic
    assert acceleration is not None
    piece, weight = case.piece, case.heavy
    force = work(
        formulas.component_force, why="share of the wall's own weight", weight=weight.wall,
        spectral_acceleration=acceleration, **{name: figure.value for name, figure in QUAKE_FENCE},
    )  # fmt: skip
    middle = (piece.exposed + piece.sunk) / 2 - piece.sunk

    def about(below: Meter) -> Turning:
        turned = work(
            walls.line_load_moment, why="it turns the wall from the middle of its weight", line_load=force.number,
            height=middle + below, below=0.0,
        )  # fmt: skip
        return Turning(moment=turned.number, force=force.number, working=(turned,))

    return Acting(
        about=about, working=(*weight.working, force), notes=(_OLDER,), factors=factors_at(acceleration),
        figures=(("design acceleration over gravity", given(acceleration, RATIO)),
                 *((name.replace("_", " "), figure) for name, figure in QUAKE_FENCE)),
    )  # fmt: skip


_OLDER = "as a cantilever by ASCE 7-05 to 7-16 chapter 13, more than the 0.8 of 7-16 section 15.6.8"


@lru_cache(maxsize=16)
def factors_at(acceleration: Ratio) -> Combination:
    """Shares of the shaking and of weight, less what the heaving ground takes off it."""
    left = formulas.weight_share(
        weight_factor=EARTHQUAKE.weight.value, load_factor=EARTHQUAKE.load.value, spectral_acceleration=acceleration
    )
    helps = Figure(
        value=float(left), unit=RATIO, standing=Standing.MEMORY, source="ASCE7-16",
        where="section 2.4.5: 0.6 of the weight less 0.14 SDS",
    )  # fmt: skip
    return replace(EARTHQUAKE, weight=helps)
