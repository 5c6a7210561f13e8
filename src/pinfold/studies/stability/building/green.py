"""A wall while green: how high it stands unbraced in the wind of the season, what braces take, whom to keep out."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pinfold.figures import Figure, given
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import green_walls as formulas
from pinfold.formulas import wind, wind_en
from pinfold.plan.place import Family
from pinfold.studies.stability.air import Site, air_at
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.cases import Case, Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import (
    BRACED_AT,
    BRACED_BY_THICKNESS,
    BUILDING_PERIOD,
    BUILDING_SHARE,
    DAY_HEIGHT,
    GREEN_SAFETY,
    Named,
)
from pinfold.studies.stability.loads import solid_pressure
from pinfold.studies.stability.pieces import caution
from pinfold.studies.stability.weights import bare_weight
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, METER_PER_SECOND, NEWTON_PER_METER, Meter

CHECK = "while green"
LEFT_OUT = (
    "forms and the pour's push on them; scaffolds, ladders and heaps that lean on the wall; rain that washes joints "
    "out; returns and piers that steady it; a lower wall catches the wind harder at its ends; stakes and struts of the "
    "braces"
)


def green_walls(ask: Exposed) -> tuple[Finding, ...]:
    """How one stretch stands before its mortar or mix is hard; nothing for dry stone, sheet and the like."""
    wall = ask.stretch.buildup.wall
    if wall is None or not has_wall(ask.stretch) or not _is_green(wall.kind):
        return ()
    question = Question(
        check=CHECK, subject=f"stretch {ask.stretch.name}", left_out=LEFT_OUT, caution=caution("green-wall")
    )  # fmt: skip

    def worst() -> Finding:
        season = _season(ask)
        return _finding(max((_tried(case, season) for case in ask.cases), key=lambda way: way.use))

    return (answered(question, worst),)


def green_speed(ask: Exposed) -> Step | None:
    """Wind up to which one stretch stands on its weight alone before it is hard; None for what is never green.

    The wind is of the kind that the family's standard speaks of: 3 s gust, or mean of ten minutes.

    Raises:
        NotFoundError: wind or weight are not known.
        OutOfRangeError: they lie outside what a method covers.
    """
    wall = ask.stretch.buildup.wall
    if wall is None or not has_wall(ask.stretch) or not _is_green(wall.kind):
        return None
    season = _season(ask)
    worst = max((_tried(case, season) for case in ask.cases), key=lambda way: way.use)
    return work(
        formulas.standing_speed, why="wind up to which it stands by its weight while green", speed=season[0].speed,
        unbraced=worst.unbraced, height=worst.height,
    )  # fmt: skip


def _is_green(one: Kind) -> bool:
    own = one.words.get("cautions", [])
    return isinstance(own, list) and "green-wall" in own


@dataclass(frozen=True, kw_only=True)
class _Way:
    """A piece of wall with nothing but its own weight against the wind of the season."""

    case: Case
    height: Meter
    unbraced: Meter
    pressure: float
    arm: float
    working: tuple[Step, ...]
    notes: tuple[str, ...]
    figures: Named

    @property
    def use(self) -> float:
        """Its height over what stands by itself."""
        return self.height / self.unbraced


_Season = tuple[Site, tuple[Step, ...], Named, str]
"""The wind while building, how it was found, the figures behind it, and what it hangs on."""


def _tried(case: Case, season: _Season) -> _Way:
    piece, ask = case.piece, case.of
    site, speed, figures, note = season
    height = piece.body
    line = ask.line.piece(piece.step.start, ask.stretch.length - piece.step.end)
    air = air_at(site, height)
    pressure, blown, _ = solid_pressure(site, line, height, air)
    weight, massed = bare_weight(piece)
    arm = 0.5 if ask.family is Family.EU else wind.resultant_height(solid_height=1.0, top_height=1.0)
    stands = work(
        formulas.unbraced_height, why="height at which its own weight is just enough", weight=weight.number / height,
        thickness=piece.wall.thickness, pressure=pressure, arm_share=arm, safety=GREEN_SAFETY.value,
    )  # fmt: skip
    return _Way(
        case=case, height=height, unbraced=stands.number, pressure=pressure, arm=arm,
        working=(*speed, *air.working, *blown, weight, stands), notes=(note, *air.notes),
        figures=(*figures, massed, ("safety while green", GREEN_SAFETY)),
    )  # fmt: skip


def _season(ask: Exposed) -> _Season:
    """The wind to reckon with: as the plan says, else a share of the plan's own."""
    own = ask.place.building_wind
    if own is not None:
        said = (("wind while building", given(own, METER_PER_SECOND)),)
        return replace(ask.site, speed=own, building=True), (), said, _ONLY_SO
    share, steps, figure = _share(ask.family)
    speed = work(formulas.season_speed, why="wind while building", speed=ask.site.speed, share=share)
    site = replace(ask.site, speed=speed.number, building=True)
    figures = (("wind speed", given(ask.site.speed, METER_PER_SECOND)), figure)
    return site, (*steps, speed), figures, _BY_SHARE


def _share(family: Family) -> tuple[float, tuple[Step, ...], tuple[str, Figure]]:
    if family is Family.US:
        return BUILDING_SHARE.value, (), ("share of the wind while building", BUILDING_SHARE)
    step = work(
        wind_en.return_period_factor, why="wind of the worst day in so many years",
        return_period=BUILDING_PERIOD.value,
    )  # fmt: skip
    return step.number, (step,), ("return period while building", BUILDING_PERIOD)


_ONLY_SO = "only while no stronger wind is forecast than building_wind: else brace it or wait"
_BY_SHARE = (
    "a share of the plan's wind is reckoned with: write building_wind under [place] for the wind at which you stop "
    "work and brace"
)


def _finding(way: _Way) -> Finding:
    strip = work(
        formulas.keep_out_width, why="nobody enters a strip so wide on either side, all along", height=way.height,
        more=kind("cautions", "green-wall").value("keep_out"),
    )  # fmt: skip
    lift = _lift(way.case)
    figures = (*way.figures, lift, ("strip beyond the height", kind("cautions", "green-wall").figure("keep_out")))
    because = told(f"no more than the {lift[0]} at once", *_rules(way), *way.notes)
    if keeps_to(way.height, way.unbraced):
        return Finding(
            check=CHECK, subject="", demand=way.height, capacity=way.unbraced, unit=METER, because=because,
            working=(*way.working, strip), figures=figures,
        )  # fmt: skip
    braced = work(
        formulas.brace_reaction, why="level force that braces take along the wall, from either side",
        pressure=way.pressure, height=way.height, arm_share=way.arm, brace_height=BRACED_AT.value * way.height,
    )  # fmt: skip
    return Finding(
        check=CHECK, subject="", demand=braced.number, unit=NEWTON_PER_METER,
        because=told("by its weight alone it stands only to the height in the working: brace it above that", because),
        working=(*way.working, braced, strip), figures=(*figures, ("height of the braces", BRACED_AT)),
        mend="braces on both sides until it is hard, lower lifts a day apart, or days without such wind",
    )  # fmt: skip


def _lift(case: Case) -> tuple[str, Figure]:
    """How much height goes up at once: a lift of what is poured or rammed, a day's height of what is laid."""
    own = case.piece.wall.kind
    if own.has("lift"):
        return "height of a lift", own.figure("lift")
    return "height laid in a day", DAY_HEIGHT


def _rules(way: _Way) -> tuple[str, ...]:
    """Rules of safety offices that ask for braces whatever the wind."""
    over = kind("cautions", "green-wall").figure("brace_over")
    slender = way.height > BRACED_BY_THICKNESS.value * way.case.piece.wall.thickness
    return (
        "walls higher than 8 ft are braced by rule" if way.height > over.value else "",
        "it is higher than ten times its thickness: safety offices ask for braces" if slender else "",
    )
