"""Piers: what stands out of the wall of units or stone, of mortar, grout, coats and coping, and the pads under it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.findings import work
from pinfold.formulas.plaster import coat_volume
from pinfold.plan.buildups import Coat, Faces, Grout, Piers
from pinfold.studies.layout.piering import pier_places
from pinfold.studies.layout.walls import course_of
from pinfold.studies.quantities.beds import mortar_per_area
from pinfold.studies.quantities.lines import Count, line, plural, waste_of
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.units import leaves, unit_volume
from pinfold.tables.shelf import kind
from pinfold.units import CUBIC_METER, METER, RATIO, SQUARE_METER, CubicMeter, Meter, SquareMeter, show, tape


@dataclass(frozen=True, kw_only=True)
class Stand:
    """All piers of one stretch.

    Attributes:
        piers: as planned.
        count: how many.
        full: their heights from bed to top, together.
        shown: likewise from the ground.
        out: how much one stands out of the wall, both faces together.
    """

    piers: Piers
    count: int
    full: Meter
    shown: Meter
    out: Meter

    @property
    def plan(self) -> SquareMeter:
        """Of one pier in plan, without the wall in it."""
        return self.piers.width * self.out


def stand_of(reach: Reach) -> Stand | None:
    """The piers of a stretch; None where it has none."""
    piers, places = reach.stretch.buildup.piers, pier_places(reach.stretch)
    if piers is None or not places:
        return None
    return Stand(
        piers=piers, count=len(places), full=math.fsum(map(reach.full_height, places)),
        shown=math.fsum(map(reach.shown_height, places)), out=piers.depth - reach.wall.thickness,
    )  # fmt: skip


def piers(reach: Reach) -> tuple[Quantity, ...]:
    """What the piers of one stretch take beside its wall, from the trench up; nothing without piers."""
    stand = stand_of(reach)
    if stand is None:
        return ()
    of_units = reach.wall.kind.word("make") == "units"
    built = _of_units(reach, stand) if of_units else _of_stone(reach, stand)
    caps = _caps(reach, stand)
    coats = tuple(_coat(reach, stand, coat) for coat in reach.stretch.buildup.coats)
    return (*_pads(reach, stand), *built, *coats, *caps)


def _told(reach: Reach, stand: Stand, more: str = "") -> str:
    size = f"{tape(stand.piers.width, reach.system)} x {tape(stand.piers.depth, reach.system)}"
    return f"{plural(stand.count, 'pier')} of {size}, what stands out of the wall{more}"


def _pads(reach: Reach, stand: Stand) -> tuple[Quantity, ...]:
    """Digging, concrete and filling where the pads stand out of the strip."""
    footing = reach.stretch.buildup.footing
    assert footing is not None
    plan: SquareMeter = stand.piers.pad_length * (stand.piers.pad_width - footing.width)
    if plan <= 0:
        return ()
    buried = max(stand.full - stand.shown, 0.0)
    cast = stand.count * plan * footing.thickness
    dug = plan * buried + cast
    note = f"{plural(stand.count, 'pad')}, what stands out of the strip"
    mix = footing.kind.word("mix")
    place, back = reach.stretch.name, dug - cast - stand.plan * buried
    lines = [
        line(kind=kind("works", "trench"), layer="trench", place=place, unit=CUBIC_METER,
             count=lambda: Count(net=dug, note=note)),
        line(kind=kind("mixes", mix) if mix else footing.kind, layer="footing", place=place, unit=CUBIC_METER,
             count=lambda: Count(net=cast, note=note), waste=waste_of(footing.kind, "concrete")),
    ]  # fmt: skip
    if back > 0:
        lines.append(line(kind=kind("works", "backfill"), layer="trench", place=place, unit=CUBIC_METER,
                          count=lambda: Count(net=back, note=f"over {note}")))  # fmt: skip
    return tuple(lines)


def _of_units(reach: Reach, stand: Stand) -> tuple[Quantity, ...]:
    wall, place = reach.wall, reach.stretch.name
    lines = [
        line(kind=wall.kind, layer="wall", place=place, unit=RATIO, waste=waste_of(wall.kind, "units"),
             count=lambda: Count(net=_units(reach, stand), note=_told(reach, stand))),
    ]  # fmt: skip
    mix = wall.kind.word("mix")
    if mix:
        lines.append(line(
            kind=kind("mixes", mix), layer="wall", place=place, unit=CUBIC_METER, waste=waste_of(wall.kind, "units"),
            count=lambda: Count(net=_units(reach, stand) * unit_volume(wall), note=_told(reach, stand, ": its units")),
        ))  # fmt: skip
    if wall.mortar is not None and wall.kind.word("bedding", "none") != "none":
        lines.append(line(
            kind=wall.mortar, layer="mortar", place=place, unit=CUBIC_METER,
            waste=kind("waste", f"mortar-{wall.kind.word('bedding')}").figure("waste"),
            count=lambda: Count(net=_units(reach, stand) * _mortar_each(reach), note=_told(reach, stand)),
        ))  # fmt: skip
    if wall.kind.words.get("hollow", False):
        lines.append(line(
            kind=wall.grout_mix or kind("mixes", "grout-fine"), layer="grout", place=place, unit=CUBIC_METER,
            waste=kind("waste", "grout").figure("waste"),
            count=lambda: Count(net=_grout(reach, stand), note=_told(reach, stand, ": every cell of it filled")),
        ))  # fmt: skip
    return tuple(lines)


def _module(reach: Reach) -> Meter:
    wall = reach.wall.kind
    return wall.value("unit_length") + (wall.value("joint") if wall.has("joint") else 0.0)


def _units(reach: Reach, stand: Stand) -> float:
    """Whole units out of what stands out of the wall, joints in it.

    Raises:
        NotFoundError: the units have no size.
    """
    wall = reach.wall
    across = wall.kind.value("unit_width") if wall.kind.has("unit_width") else wall.thickness / leaves(wall)
    joint = wall.kind.value("joint") if wall.kind.has("joint") else 0.0
    return math.ceil(stand.plan * stand.full / (_module(reach) * (across + joint) * course_of(wall)) - 1e-6)


def _mortar_each(reach: Reach) -> CubicMeter:
    wall = reach.wall
    return mortar_per_area(wall) * _module(reach) * course_of(wall) / leaves(wall)


def _grout(reach: Reach, stand: Stand) -> CubicMeter:
    """Of the units that stand out, and of the wall's own in the pier where its cells are not filled by themselves."""
    wall = reach.wall
    own = 0.0 if wall.grout is Grout.FULL else stand.piers.width * stand.full / (_module(reach) * course_of(wall))
    return (_units(reach, stand) + own) * wall.kind.value("grout_per_unit")


def _of_stone(reach: Reach, stand: Stand) -> tuple[Quantity, ...]:
    wall, place, volume = reach.wall, reach.stretch.name, stand.plan * stand.full
    bulk = line(
        kind=wall.kind, layer="wall", place=place, unit=CUBIC_METER, waste=waste_of(wall.kind, "concrete"),
        count=lambda: Count(net=volume, note=_told(reach, stand)),
    )  # fmt: skip
    if wall.mortar is None:
        return (bulk,)
    return (
        bulk,
        line(
            kind=wall.mortar, layer="mortar", place=place, unit=CUBIC_METER,
            waste=kind("waste", "mortar-rubble").figure("waste"),
            count=lambda: Count(net=volume * wall.kind.value("mortar_share"), note=_told(reach, stand)),
        ),
    )  # fmt: skip


def _coat(reach: Reach, stand: Stand, coat: Coat) -> Quantity:
    """On both flanks of what stands out on the faces that are coated; the pier's own face stands for the wall's."""

    def count() -> Count:
        area = 2 * stand.shown * _flank(stand, coat.faces)
        if coat.top and reach.stretch.buildup.coping is None:
            area += stand.count * stand.plan
        step = work(coat_volume, why=f"{coat.kind.says}, before waste", area=area, thickness=coat.thickness, waste=0.0)
        note = f"{show(area, SQUARE_METER, reach.system)} on the flanks of {plural(stand.count, 'pier')}"
        return Count(net=step.number, note=note, working=(step,))

    return line(
        kind=kind("mixes", coat.kind.word("mix")), layer="coat", place=reach.stretch.name, unit=CUBIC_METER,
        count=count, waste=waste_of(coat.kind, "concrete"),
    )  # fmt: skip


def _flank(stand: Stand, coated: Faces) -> Meter:
    """How deep one flank of a pier is on the faces that are coated."""
    if Faces.BOTH in (coated, stand.piers.faces):
        return stand.out if coated is Faces.BOTH else stand.out / 2
    return stand.out if coated is stand.piers.faces else 0.0


def _caps(reach: Reach, stand: Stand) -> tuple[Quantity, ...]:
    """Coping of the piers where they are deeper than the wall's own, by its plan."""
    cap = reach.stretch.buildup.coping
    if cap is None or stand.piers.depth <= cap.width:
        return ()
    plan, made = stand.piers.width * (stand.piers.depth - cap.width) * stand.count, cap.kind.word("make")
    note = f"on {plural(stand.count, 'pier')}, what the wall's own does not cover"
    if made == "cast":
        of, unit, net = kind("mixes", cap.kind.word("mix")), CUBIC_METER, plan * cap.thickness
    elif made == "board":
        of, unit, net = cap.kind, METER, plan / cap.width
    else:
        of, unit, net = cap.kind, RATIO, plan / cap.width / cap.kind.value("unit_length")
    return (
        line(kind=of, layer="coping", place=reach.stretch.name, unit=unit, waste=waste_of(cap.kind, "coping"),
             count=lambda: Count(net=net, note=note)),
    )  # fmt: skip
