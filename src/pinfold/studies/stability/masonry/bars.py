"""Upright bars: their lap with the dowels, their cover, shear beside them, and the wall that spans from bar to bar."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from pinfold.figures import given
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import bed_shear, steel, wall_spans
from pinfold.plan.buildups import BarPlace, Grout, Wall
from pinfold.plan.place import Family
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.bar_places import bar_depth, cover_of
from pinfold.studies.stability.cases import Case, Exposed
from pinfold.studies.stability.factors import CORE_WIDTH, STEEL_STRESS, YIELD_STRESS, Named
from pinfold.studies.stability.masonry.spans import Span, spanning_level
from pinfold.studies.stability.walls import over_steps
from pinfold.tables.shelf import Kind
from pinfold.units import METER, PASCAL, Meter, Ratio

LAP, COVER, SHEAR, BETWEEN = "lap", "cover", "shear at the bars", "span between bars"


_ASKS_MORE = "the equation of 2005, which the building code puts aside, asks more"
_AT_FACE = "a bar near a face is taken to keep the least cover: see to it"


def of_bars(ask: Exposed, bent: Finding) -> tuple[Finding, ...]:
    """Everything else about the bars of a stretch whose bars carry what its bed cannot.

    Args:
        ask: the stretch
        bent: the finding on its bars, with the moment that its steel could carry in its working
    """
    return (
        *_lap_and_cover(ask, bent),
        over_steps(ask, SHEAR, shear_at_bars),
        over_steps(ask, BETWEEN, between_bars),
    )


def _lap_and_cover(ask: Exposed, bent: Finding) -> tuple[Finding, ...]:
    wall = ask.stretch.buildup.wall
    carried = [line.number for line in bent.working if line.formula == "masonry.moment_in_steel"]
    if wall is None or wall.bar is None or bent.demand is None or not carried:
        return ()
    bar, used = wall.bar, min(bent.demand / carried[-1], 1.0) if carried[-1] > 0 else 1.0
    lowest = min(case.piece.body for case in ask.cases)
    return (
        _answered(ask, LAP, "laps higher up in a tall wall; bars that touch", lambda: _lap(wall, bar, used, lowest)),
        _answered(ask, COVER, "grout that does not close around the bar", lambda: _cover(wall, bar)),
    )


def _answered(ask: Exposed, check: str, left_out: str, find: Callable[[], Finding]) -> Finding:
    return answered(Question(check=check, subject=f"stretch {ask.stretch.name}", left_out=left_out), find)


def _lap(wall: Wall, bar: Kind, used: Ratio, body: Meter) -> Finding:
    """The lap as laid for the stress at which the bar works; where none is told, the whole lap against the wall."""
    diameter, clear = bar.figure("diameter"), _clear(wall, bar)
    stress = STEEL_STRESS.value if wall.lap is None else max(used, 1e-6) * STEEL_STRESS.value
    needed = work(
        steel.lap_by_allowable_stress, why="lap of bar and dowel, for the stress it works at",
        diameter=diameter.value, stress=stress,
    )  # fmt: skip
    later, steps = _lap_of_2005(wall, bar, clear)
    room = wall.lap if wall.lap is not None else body - clear
    taken = (
        "as the plan lays it" if wall.lap is not None else "the plan tells no lap: the whole one must fit in the wall"
    )
    figures: Named = (("diameter of the bar", diameter), ("steel", STEEL_STRESS))
    if wall.lap is not None:
        figures = (*figures, ("lap", given(wall.lap, METER)))
    return Finding(
        check=LAP, subject="", demand=needed.number, capacity=room, unit=METER,
        because=told(taken, _ASKS_MORE if later > needed.number else ""),
        working=(needed, *steps), figures=figures,
        mend="" if keeps_to(needed.number, room) else "a longer lap, or thinner bars nearer together",
    )  # fmt: skip


def _lap_of_2005(wall: Wall, bar: Kind, clear: Meter) -> tuple[Meter, tuple[Step, ...]]:
    """The rival equation, told and not asked; nothing where a figure of it is not known."""
    if not bar.has("lap_factor") or not wall.kind.has("compressive"):
        return 0.0, ()
    spacing = max((wall.bar_spacing or 0.0) - bar.value("diameter"), bar.value("diameter"))
    around = work(
        steel.lap_clear, why="masonry around the bar, by the equation of 2005", diameter=bar.value("diameter"),
        cover=clear, spacing=spacing,
    )  # fmt: skip
    found = work(
        steel.lap_by_msjc05, why="lap by the equation of 2005, at the whole yield stress",
        diameter=bar.value("diameter"), clear=around.number, yield_stress=YIELD_STRESS.value,
        masonry_strength=wall.kind.value("compressive"), size_factor=bar.value("lap_factor"),
    )  # fmt: skip
    return found.number, (around, found)


def _clear(wall: Wall, bar: Kind) -> Meter:
    """Masonry between the bar and the nearer face."""
    if wall.bar_place is BarPlace.MIDDLE:
        return (wall.thickness - bar.value("diameter")) / 2
    return cover_of(bar).value


def _cover(wall: Wall, bar: Kind) -> Finding:
    asked, clear = cover_of(bar), _clear(wall, bar)
    at_face = "" if wall.bar_place is BarPlace.MIDDLE else _AT_FACE
    return Finding(
        check=COVER, subject="", demand=asked.value, capacity=clear, unit=METER,
        because=told("in the weather", at_face),
        figures=(("cover", asked), ("diameter of the bar", bar.figure("diameter"))),
        mend="" if keeps_to(asked.value, clear) else "thinner bars, or a thicker wall",
    )  # fmt: skip


def shear_at_bars(case: Case) -> Finding:
    """Whether the masonry that works with a bar takes the level force that comes to it.

    Raises:
        NotFoundError: what acts, masses or the strength are not known.
        OutOfRangeError: past the tables.
    """
    wall, acting = case.piece.wall, case.acting
    assert wall.bar_spacing is not None
    strength = wall.kind.figure("compressive")
    solid = wall.grout is Grout.FULL or not wall.kind.words.get("hollow", False)
    width = wall.bar_spacing if solid else min(CORE_WIDTH.value, wall.bar_spacing)
    made = work(
        bed_shear.shear_in_reinforced, why="shear of the masonry at one bar",
        force=acting.factors.service.value * case.about_bed.force * wall.bar_spacing, width=width,
        depth=bar_depth(wall),
    )  # fmt: skip
    allowed = work(bed_shear.shear_by_strength, why="what it stands", masonry_strength=strength.value)
    core: Named = () if solid else (("masonry at one bar", CORE_WIDTH),)
    return Finding(
        check=SHEAR, subject="", demand=made.number, capacity=allowed.number, unit=PASCAL,
        because=told(
            "by allowable stress", "the bed is cracked: its bond is not counted", *acting.notes,
            "by the American manual: pinfold has no European value" if case.of.family is Family.EU else "",
        ),
        working=(*acting.working, *case.about_bed.working, made, allowed),
        figures=(*acting.figures, ("strength of the masonry", strength), *core, *acting.factors.allowable),
        left_out="the dowels' own shear; pushes and earthquakes",
        mend="" if keeps_to(made.number, allowed.number)
        else "bars nearer together, every cell grouted, or a thicker wall",
    )  # fmt: skip


def between_bars(case: Case) -> Finding:
    """Whether the plain wall spans level from bar to bar in the wind.

    Raises:
        NotFoundError: the wind, or tension along the beds, is not known.
        OutOfRangeError: past the tables.
    """
    wall = case.piece.wall
    assert wall.bar_spacing is not None
    empty = wall if wall.grout is not Grout.PARTIAL else replace(wall, grout=Grout.NONE, grout_spacing=None)
    return spanning_level(case, Span(
        check=BETWEEN, wall=empty, length=wall.bar_spacing, coefficient=wall_spans.SIMPLE_SPAN, added=0.0, working=(),
        notes=("as a beam from bar to bar",), left_out="pushes between two bars; a control joint between two bars",
        mend="bars nearer together, or every cell grouted",
    ))  # fmt: skip
