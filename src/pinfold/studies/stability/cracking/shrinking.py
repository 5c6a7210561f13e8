"""How much a wall shortens by drying and cooling, by its material, size, air and age when laid."""

from __future__ import annotations

import math
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.figures import practice
from pinfold.findings import Step, work
from pinfold.formulas import cracking
from pinfold.plan.buildups import Wall
from pinfold.plan.place import Place
from pinfold.sources import Standing
from pinfold.studies.stability.factors import Named
from pinfold.tables.shelf import Kind
from pinfold.units import KG_PER_CUBIC_METER, METER, RATIO, SECOND, Celsius, Meter, Ratio, Second

DAY: Second = 86400.0
DRIEST: Ratio = 0.4
"""Of the air, the driest the methods for concrete know; taken where the plan tells none."""
WETTEST: Ratio = 0.99


SLUMP = practice("100 mm", METER, "concrete placed by hand")
SAND = practice("40 %", RATIO, "of the aggregate")
CEMENT = practice("300 kg/m3", KG_PER_CUBIC_METER, "hand-mixed concrete of walls")
AIR = practice("2 %", RATIO, "no air entrained")
CURED = practice("7 day", SECOND, "kept damp")
LAID_AFTER = practice("28 day", SECOND, "own blocks, dried in a stack")


class Shortening(NamedTuple):
    """What a wall would shorten by if nothing held it.

    Attributes:
        strain: by drying and cooling together.
        drying: by drying alone.
        cooled: whether cooling is in it.
        working: how it was found.
        figures: that went in.
        notes: what was taken or left.
    """

    strain: Ratio
    drying: Ratio
    cooled: bool
    working: tuple[Step, ...]
    figures: Named
    notes: tuple[str, ...]


def shortening_of(wall: Wall, place: Place) -> Shortening:
    """Of a wall as it is built and where it stands.

    Raises:
        NotFoundError: its shrinkage or expansion is not known.
    """
    drying, steps, figures, notes = _drying(wall, place)
    cooling = _cooling(place)
    expansion = wall.kind.figure("expansion")
    free = work(
        cracking.free_strain, why="it would shorten by so much", shrinkage=drying, expansion=expansion.value,
        cooling_c=cooling or 0.0,
    )  # fmt: skip
    return Shortening(
        strain=free.number, drying=drying, cooled=cooling is not None, working=(*steps, free),
        figures=(*figures, ("expansion", expansion)), notes=(*notes, "" if cooling is not None else _UNCOOLED),
    )  # fmt: skip


_Drying = tuple[Ratio, tuple[Step, ...], Named, tuple[str, ...]]


def _drying(wall: Wall, place: Place) -> _Drying:
    kind = wall.kind
    if kind.word("material") == "clay":
        return 0.0, (), (), ("fired clay does not shrink: it grows in its first years, which joints must take too",)
    figure = kind.figure("shrinkage")
    named: Named = (("shrinkage", figure),)
    if kind.word("material") == "concrete" and kind.word("make") == "poured" and figure.standing is not Standing.GIVEN:
        return _of_concrete(wall, place)
    if kind.word("make") == "units" and kind.has("shrinkage") and _own_blocks(kind):
        left = left_when_laid(figure.value, kind, LAID_AFTER.value)
        note = "its blocks count as laid after four weeks in a dry stack"
        return left.number, (left,), (*named, ("age when laid", LAID_AFTER)), (note,)
    return figure.value, (), named, ()


def _own_blocks(kind: Kind) -> bool:
    """Whether the blocks are cast on the spot of a mix that shrinks much."""
    return bool(kind.word("mix")) and kind.word("material") == "foamed"


def left_when_laid(shrinkage: Ratio, kind: Kind, age: Second) -> Step:
    """Shrinkage still to come in blocks of a kind laid at an age; blocks of the usual size where it has none."""
    sizes = {name: kind.value(f"unit_{name}") if kind.has(f"unit_{name}") else USUAL_UNIT[name] for name in USUAL_UNIT}
    sizes["width"] = kind.value("thickness") if not kind.has("unit_width") else sizes["width"]
    size = cracking.unit_drying_size(**sizes)
    dried = cracking.share_dried_by_mc90(size=size, drying=age)
    return work(
        cracking.shrinkage_left, why=f"shrinkage left in blocks {age / DAY:.0f} days old", shrinkage=shrinkage,
        dried=dried,
    )  # fmt: skip


USUAL_UNIT = {"length": 0.4, "height": 0.2, "width": 0.2}


def _of_concrete(wall: Wall, place: Place) -> _Drying:
    """By ACI 209, of a usual mix."""
    size = cracking.drying_size(thickness=wall.thickness, faces="two")
    damp = place.humidity if place.humidity is not None else DRIEST
    factors = work(
        cracking.aci209_factors, why="corrections of its shrinkage", humidity=min(max(damp, DRIEST), 1.0), size=size,
        slump=SLUMP.value, sand=SAND.value, cement=CEMENT.value, air=AIR.value, curing=CURED.value,
    )  # fmt: skip
    result = factors.result
    assert isinstance(result, cracking.Aci209Factors)
    shrinks = work(
        cracking.shrinkage_by_aci209, why="in the end", correction=max(math.prod(vars(result).values()), 0.0)
    )
    note = "" if place.humidity is not None else "no humidity is given: it counts as drying in air of 40 %"
    named = (("slump", SLUMP), ("share of sand", SAND), ("cement", CEMENT), ("air", AIR), ("curing", CURED))
    return shrinks.number, (factors, shrinks), named, (note,)


def _cooling(place: Place) -> Celsius | None:
    """From the hottest to the coldest; None where the plan does not tell them."""
    if place.coldest is None or place.hottest is None:
        return None
    return place.hottest - place.coldest


_UNCOOLED = "cooling is left out: write coldest and hottest under [place]"


def known_thickness(wall: Wall) -> Meter:
    """Thickness of a wall that moves as one piece.

    Raises:
        NotFoundError: no modulus is known of it: stone laid dry, sheet, bags.
    """
    if not wall.kind.has("modulus") or not wall.kind.has("strain_capacity"):
        raise NotFoundError(f"how stiff {wall.kind.name} is and how far it stretches is not known")
    return wall.thickness
