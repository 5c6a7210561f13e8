"""The panel at a corner as a plate: what it resists both ways, how the wind twists it, what the other wall holds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.figures import printed
from pinfold.findings import Step, work
from pinfold.formulas import bed_shear, corners, walls
from pinfold.plan.buildups import Grout, Wall
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.studies.stability.barred import STRESSES, Bar, held_by_bar
from pinfold.studies.stability.bed_strengths import initial_shear, tension_along
from pinfold.studies.stability.bedding import section_of, tension_of
from pinfold.studies.stability.cases import Case
from pinfold.studies.stability.factors import MATERIAL_FACTOR, Named
from pinfold.studies.stability.returns import Return
from pinfold.studies.stability.weights import Weight, weight_of
from pinfold.units import RATIO, Meter, NewtonMeterPerMeter, NewtonPerMeter, Pascal, Ratio

HEAVY = printed("1.35", RATIO, Standing.MEMORY, "EN-1990", "set B, weight that harms")


@dataclass(frozen=True, kw_only=True)
class Plate:
    """The panel at a corner, all moments with the factor on the wind.

    Attributes:
        across: moment its lowest bed resists, weight counted.
        along: moment it resists along its beds.
        twist: at the foot of the corner, were all wind on the wall to go around it.
        by_shear: share that may go around by the shear of the bond.
        working: how they were found.
        figures: that went in.
    """

    across: NewtonMeterPerMeter
    along: NewtonMeterPerMeter
    twist: NewtonMeterPerMeter
    by_shear: Ratio
    working: tuple[Step, ...]
    figures: Named


def plate_of(case: Case) -> Plate:
    """The panel at a corner as a plate held at its foot and at the corner.

    Raises:
        NotFoundError: its bed pulls nothing, or a strength, mass or the wind is not known.
        OutOfRangeError: past the tables.
    """
    family, wall, factors = case.of.family, case.piece.wall, case.acting.factors
    tension, why = tension_of(family, case.piece)
    if tension is None or tension.value <= 0:
        raise NotFoundError(why)
    area, modulus, section = section_of(wall)
    share, level = _share(family), along_of(family, wall)
    across = work(
        corners.bending_held, why="what the lowest bed resists, weight with its factor", tension=tension.value / share,
        pressure=factors.weight.value * case.light.wall / area, modulus=modulus,
    )  # fmt: skip
    force = work(
        walls.wind_force, why="wind on the wall with its factor", pressure=factors.load.value * case.wind.wall,
        height=case.piece.exposed,
    )  # fmt: skip
    twist = work(
        corners.corner_twist, why="twist at the corner, were all of it to go around", force=force.number,
        length=panel_length(case),
    )  # fmt: skip
    shear, sheared, sized = bond_shear(family, wall)
    by_shear = work(
        corners.share_by_shear, why="share that the shear of the corner's bond allows", shear=shear, modulus=modulus,
        twist=twist.number,
    )  # fmt: skip
    return Plate(
        across=across.number, along=level.moment, twist=twist.number, by_shear=by_shear.number,
        working=(*section, across, *level.working, force, twist, *sheared, by_shear),
        figures=(("tension across the beds", tension), *level.figures, *sized, *_divided(family)),
    )  # fmt: skip


class Along(NamedTuple):
    """Moment that a wall resists along its beds, and how it was found."""

    moment: NewtonMeterPerMeter
    working: tuple[Step, ...]
    figures: Named


def along_of(family: Family, wall: Wall) -> Along:
    """By the tension along its beds, or by the bars in its courses where they carry more.

    Raises:
        NotFoundError: no tension along its beds is published.
    """
    tension = tension_along(family, wall)
    _, modulus, _ = section_of(wall)
    plain = work(
        corners.bending_held, why="what the wall resists along its beds", tension=tension.value / _share(family),
        pressure=0.0, modulus=modulus,
    )  # fmt: skip
    found = Along(plain.number, (plain,), (("tension along the beds", tension),))
    if wall.course_bar is None or wall.course_bar_every is None:
        return found
    area, every, strength = wall.course_bar.figure("area"), wall.course_bar_every, wall.kind.figure("compressive")
    moment, steps = held_by_bar(Bar(area.value, every, wall.thickness / 2), strength.value)
    if moment / every <= found.moment:
        return found
    named = (("area of the course bar", area), ("strength of the masonry", strength), *STRESSES)
    return Along(moment / every, steps, named)


def panel_length(case: Case) -> Meter:
    """Of the panel at a corner."""
    return case.piece.step.end - case.piece.step.start


def bond_shear(family: Family, wall: Wall) -> tuple[Pascal, tuple[Step, ...], Named]:
    """Shear of a bond without weight on it, by allowable stress or design strength.

    Raises:
        NotFoundError: no initial shear is published for the wall and its mortar, or its strength is not known.
    """
    strength = wall.kind.figure("compressive")
    if family is Family.US:
        area, _, _ = section_of(wall)
        found = work(
            bed_shear.shear_by_tms402, why="shear of the bond, no weight counted", masonry_strength=strength.value,
            load=0.0, area=area, bond="grouted" if wall.grout is Grout.FULL else "running",
        )  # fmt: skip
        return found.number, (found,), (("strength of the masonry", strength),)
    initial = initial_shear(wall)
    if initial is None:
        raise NotFoundError(f"no shear of the bond is published for {wall.kind.name} in such a mortar")
    found = work(
        bed_shear.shear_by_en1996, why="shear of the bond, no weight counted", initial=initial.value, stress=0.0,
        unit_strength=strength.value,
    )  # fmt: skip
    return found.number / MATERIAL_FACTOR.value, (found,), (("initial shear strength", initial), ("strength", strength))


@dataclass(frozen=True, kw_only=True)
class Hold:
    """The wall around a corner as it holds the panel.

    Attributes:
        weight: per length, by the lightest masses known.
        lifted: of it, what the corner lifts: footing and soil only where its lowest bed can hang them on the wall.
        reach: length of it that counts.
        working: how both were found.
        figures: that went in.
    """

    weight: Weight
    lifted: NewtonPerMeter
    reach: Meter
    working: tuple[Step, ...]
    figures: Named


def hold_of(case: Case, around: Return) -> Hold:
    """How much of the wall around a corner the corner can lift.

    Raises:
        NotFoundError: its strengths or masses are not known.
        OutOfRangeError: past the tables.
    """
    family, piece, soil = case.of.family, around.piece, case.of.place.soil
    light, heavy = weight_of(piece, soil, least=True), weight_of(piece, soil, least=False)
    area, _, section = section_of(piece.wall)
    along, share = tension_along(family, piece.wall), _share(family)
    tension, _ = tension_of(family, piece)
    hangs = tension is not None and heavy.below / area <= tension.value / share
    shear, sheared, sized = bond_shear(family, piece.wall)
    most = work(
        corners.return_reach, why="length of the wall around the corner that its bond can lift",
        load=(HEAVY.value if family is Family.EU else 1.0) * (heavy.total if hangs else heavy.wall),
        tension=along.value / share, shear=shear, thickness=area, height=piece.body,
    )  # fmt: skip
    heavier = (("factor on weight that harms", HEAVY),) if family is Family.EU else ()
    return Hold(
        weight=light, lifted=light.total if hangs else light.wall, reach=min(most.number, around.reach),
        working=(*light.working, *section, *sheared, most),
        figures=(*light.figures, ("tension along the beds", along), *sized, *heavier),
    )  # fmt: skip


def _share(family: Family) -> Ratio:
    """What a strength is divided by; American ones are allowable stresses."""
    return MATERIAL_FACTOR.value if family is Family.EU else 1.0


def _divided(family: Family) -> Named:
    return (("material factor", MATERIAL_FACTOR),) if family is Family.EU else ()
