"""The foot of a wall: tension in its lowest bed joint, the resultant on dry beds, or bars that cross it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.findings import Finding, Step, Verdict, keeps_to, work
from pinfold.formulas import bearing, masonry
from pinfold.plan.buildups import BarPlace, Grout, Wall
from pinfold.plan.place import Family
from pinfold.studies.stability.answers import told
from pinfold.studies.stability.bar_places import bar_depth
from pinfold.studies.stability.barred import STRESSES, Bar, held_by_bar
from pinfold.studies.stability.bedding import Section, section_of, tension_of
from pinfold.studies.stability.cases import Case
from pinfold.studies.stability.factors import (
    MATERIAL_FACTOR,
    WIDEST,
    WIDEST_BY_THICKNESS,
    Combination,
    Named,
)
from pinfold.studies.stability.left_out import left_out_of
from pinfold.studies.stability.pieces import Piece
from pinfold.studies.stability.piering import PIERS, stiffened_bed
from pinfold.units import (
    METER,
    NEWTON_METER,
    NEWTON_METER_PER_METER,
    PASCAL,
    Meter,
    NewtonMeter,
    NewtonMeterPerMeter,
    NewtonPerMeter,
)

CHECK = "bed-joint tension"
DRY_CHECK = "resultant in the base"
"""Where nothing across the beds can pull: how far the load may stand off the middle."""
BARRED_CHECK = "bending"
"""Where bars across the bed carry what it cannot."""


@dataclass(frozen=True, kw_only=True)
class Foot:
    """What reaches the lowest bed of a piece, without factors.

    Attributes:
        moment: of what acts about the bed.
        load: weight above it.
        working: how both were found.
        notes: what they rest on.
        figures: likewise.
        factors: shares of load and weight.
        left_out: what no check of the wall looks at.
    """

    moment: NewtonMeterPerMeter
    load: NewtonPerMeter
    working: tuple[Step, ...]
    notes: tuple[str, ...]
    figures: Named
    factors: Combination
    left_out: str


def foot_of_wall(case: Case) -> Finding:
    """Whether the lowest bed of a piece of wall, or the bars across it, carry what acts on it.

    Raises:
        NotFoundError: what acts, masses or strengths are not known.
        OutOfRangeError: past the tables.
    """
    ask, piece, acting, weight, turned = case.of, case.piece, case.acting, case.light, case.about_bed
    foot = Foot(
        moment=turned.moment, load=weight.wall, working=(*acting.working, *weight.working, *turned.working),
        notes=acting.notes, figures=(*acting.figures, *weight.figures), factors=acting.factors,
        left_out=left_out_of(ask),
    )  # fmt: skip
    tension, why = tension_of(ask.family, piece)
    stiff = stiffened_bed(piece, weight)
    bed = Bed(
        wall=piece.wall, half=piece.wall.thickness / 2 if stiff is None else stiff.half, tension=tension,
        why=told(why, "" if stiff is None else PIERS), section=None if stiff is None else stiff.section,
    )  # fmt: skip
    plain, bars = plain_bed(ask.family, bed, foot), crossing_bars(piece)
    if bars is None or plain.verdict is Verdict.HOLDS:
        return plain
    return _barred(piece, foot, bars)


@dataclass(frozen=True, kw_only=True)
class Bed:
    """A bed joint without bars across it.

    Attributes:
        wall: of which the bed is.
        half: how far the load may stand off the middle where nothing pulls, half the wall's thickness.
        tension: what the bed pulls; None where it pulls nothing.
        why: why it pulls nothing, or what else is to be said of it.
        section: of the bed; None for that of the wall.
    """

    wall: Wall
    half: Meter
    tension: Figure | None
    why: str
    section: Section | None = None


def plain_bed(family: Family, bed: Bed, foot: Foot) -> Finding:
    """Whether a bed without bars carries what reaches it.

    Raises:
        NotFoundError: its section is not known.
        OutOfRangeError: past the method.
    """
    tension, why = bed.tension, bed.why
    if tension is None or tension.value <= 0:
        return _on_dry_bed(bed, foot)
    area, modulus, section = bed.section or section_of(bed.wall)
    if family is Family.EU:
        return _european(bed, foot, tension, (area, modulus, section))
    factors = foot.factors
    pulled = work(
        masonry.flexural_tension, why="tension on the face that is pressed, load and weight with their factors",
        moment=factors.load.value * foot.moment, modulus=modulus, load=factors.weight.value * foot.load, area=area,
    )  # fmt: skip
    pressed = "the whole joint is pressed" if pulled.number <= 0 else ""
    return Finding(
        check=CHECK, subject="", demand=max(pulled.number, 0.0), capacity=tension.value, unit=PASCAL,
        because=told(pressed, why, *foot.notes), working=(*foot.working, *section, pulled),
        figures=(*foot.figures, ("tension across the beds", tension), *factors.balance),
        mend="" if keeps_to(pulled.number, tension.value)
        else "bars lapped with dowels out of the footing, or a thicker wall",
    )  # fmt: skip


def _european(bed: Bed, foot: Foot, tension: Figure, section: Section) -> Finding:
    area, modulus, steps = section
    factors = foot.factors
    held = work(
        masonry.moment_by_en1996, why="moment the plain bed resists", strength=tension.value,
        material_factor=MATERIAL_FACTOR.value, stress=factors.weight.value * foot.load / area, modulus=modulus,
    )  # fmt: skip
    demand = factors.strength.value * foot.moment
    return Finding(
        check=CHECK, subject="", demand=demand, capacity=held.number, unit=NEWTON_METER_PER_METER,
        because=told(bed.why, *foot.notes), working=(*foot.working, *steps, held),
        figures=(
            *foot.figures, ("tension across the beds", tension), ("material factor", MATERIAL_FACTOR),
            (f"factor on the {factors.of}", factors.strength), ("factor on weight that helps", factors.weight),
        ),
        mend="" if keeps_to(demand, held.number) else "bars lapped with dowels out of the footing, or a thicker wall",
    )  # fmt: skip


def _on_dry_bed(bed: Bed, foot: Foot) -> Finding:
    """Without tension the resultant must stay on the wall."""
    factors = foot.factors
    off = work(
        bearing.eccentricity, why="how far off the middle the load stands on the bed",
        moment=factors.load.value * foot.moment, load=factors.weight.value * foot.load,
    )  # fmt: skip
    half = bed.half
    gapes = "the bed gapes on the pressed side" if off.number > half / 3 else ""
    return Finding(
        check=DRY_CHECK, subject="", demand=off.number, capacity=half, unit=METER,
        because=told(bed.why, gapes, *foot.notes), working=(*foot.working, off),
        figures=(*foot.figures, *factors.balance),
        left_out=f"{foot.left_out}; a stone or block that falls out",
        mend="" if keeps_to(off.number, half) else "a thicker or lower wall, mortar and bars, or less mesh above it",
    )  # fmt: skip


def crossing_bars(piece: Piece) -> tuple[Figure, float] | None:
    """Area of an upright bar that crosses the lowest bed, and their spacing; None where none does."""
    wall = piece.wall
    if wall.bar is None or wall.bar_spacing is None or not wall.dowels or not piece.base.footing:
        return None
    if wall.kind.words.get("hollow", False) and wall.grout is Grout.NONE:
        return None
    return wall.bar.figure("area"), wall.bar_spacing


def _barred(piece: Piece, foot: Foot, bars: tuple[Figure, float]) -> Finding:
    """Working stress in bars at the middle of the wall; weight is not counted."""
    _, spacing = bars
    bar, service = bar_of(piece.wall), foot.factors.service
    demand, capacity = service.value * foot.moment * spacing, bar.moment
    return Finding(
        check=BARRED_CHECK, subject="", demand=demand, capacity=capacity, unit=NEWTON_METER,
        because=told(
            "moment on one upright bar, by working stress", "weight is not counted in favor",
            "the wall between bars must span level" if spacing > bar.width else "",
            "wind comes from both sides: the bar stands nearer to one face" if _off_middle(piece.wall) else "",
            *foot.notes,
        ),
        working=(*foot.working, *bar.working), figures=(*foot.figures, *bar.figures, *foot.factors.allowable),
        left_out=foot.left_out,
        mend="" if keeps_to(demand, capacity) else "bars nearer together or stouter, every such cell grouted",
    )  # fmt: skip


class OneBar(NamedTuple):
    """What one upright bar holds at the middle of a wall, and the width of wall that works with it."""

    moment: NewtonMeter
    width: Meter
    working: tuple[Step, ...]
    figures: Named


@lru_cache(maxsize=256)  # asked for every step of every stretch
def bar_of(wall: Wall) -> OneBar:
    """What one upright bar of a wall holds by working stress, weight not counted.

    Raises:
        NotFoundError: the masonry's strength or the bar's diameter is not known.
    """
    assert wall.bar is not None
    assert wall.bar_spacing is not None
    if not wall.kind.has("compressive"):
        raise NotFoundError(f"no compressive strength is known for {wall.kind.name}; its bars are not shown")
    area, strength, depth = wall.bar.figure("area"), wall.kind.figure("compressive"), bar_depth(wall)
    width = min(wall.bar_spacing, WIDEST_BY_THICKNESS.value * wall.thickness, WIDEST.value)
    moment, working = held_by_bar(Bar(area.value, width, depth), strength.value)
    figures = (
        ("area of the bar", area), ("strength of the masonry", strength), *STRESSES,
        ("width that works with a bar", WIDEST), ("likewise, by thickness", WIDEST_BY_THICKNESS),
    )  # fmt: skip
    return OneBar(moment, width, working, figures)


def _off_middle(wall: Wall) -> bool:
    return wall.bar_place in (BarPlace.OUTER, BarPlace.INNER)
