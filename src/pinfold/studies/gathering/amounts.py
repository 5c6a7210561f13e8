"""How things are sold, and turning an amount of a thing from one unit into another by its figures."""

from __future__ import annotations

from functools import lru_cache

from pinfold.studies.batching.sand import moisture_of
from pinfold.studies.gathering.records import Category
from pinfold.tables.shelf import Kind
from pinfold.units import CUBIC_METER, KILOGRAM, METER, CubicMeter, Kilogram, Unit

_BY_FAMILY = {
    "binder": "bag", "ready": "bag", "aggregate": "bulk", "stone": "bulk", "earth": "gathered", "liquid": "can",
}  # fmt: skip
_BY_SHELF = {"bars": "length", "mixes": "none", "meshes": "roll", "rails": "length", "soils": "none"}
_BY_SHELF_HEADING = {
    "bars": Category.STEEL, "posts": Category.STEEL, "rails": Category.STEEL, "gates": Category.STEEL,
    "meshes": Category.MESH, "walls": Category.UNITS, "copings": Category.UNITS,
}  # fmt: skip
_NOT_BOUGHT = ("none", "gathered", "made")
_BULKY = ("bag", "bulk", "can")

_PER: dict[tuple[str, str], tuple[str, ...]] = {  # so much of the second in one of the first, by the figure named
    ("volume", "mass"): ("bulk_density", "density"),
    ("length", "mass"): ("mass_per_length", "mass", "frame_mass"),
    ("area", "mass"): ("mass_per_area",),
    ("length", "area"): ("roll_height",),
    ("plain number", "mass"): ("unit_mass",),
    ("plain number", "length"): ("unit_length",),
}


def how_sold(kind: Kind) -> str:
    """each, length, roll, bag, bulk, can, made, gathered or none: its own word, or what is usual for its like."""
    if kind.shelf == "gates":  # the leaf is made on site, out of lengths of its frame member
        return "length"
    usual = _BY_SHELF.get(kind.shelf, _BY_FAMILY.get(kind.word("family"), "each"))
    return kind.word("sold", usual)


def is_bought(kind: Kind) -> bool:
    """Whether it comes from a shop at all."""
    return how_sold(kind) not in _NOT_BOUGHT


def category_of(kind: Kind, unit: Unit) -> Category:
    """Heading of the buying list for a thing counted in that unit."""
    sold = how_sold(kind)
    if sold in _NOT_BOUGHT:
        return Category.GATHERED
    if kind.word("material") == "wood":
        return Category.WOOD
    if sold == "bulk" and unit.kind in (CUBIC_METER.kind, KILOGRAM.kind):
        return Category.LOOSE
    by_sold = {"bag": Category.BAGS, "can": Category.BAGS}
    return by_sold.get(sold) or _BY_SHELF_HEADING.get(kind.shelf, Category.HARDWARE)


@lru_cache(maxsize=512)
def unit_to_buy(kind: Kind, unit: Unit) -> Unit:
    """Unit the buying list counts it in: mass for bags, volume for loose stuff, length for rolls, else as it comes."""
    wanted = {"bag": KILOGRAM, "bulk": CUBIC_METER, "can": CUBIC_METER, "roll": METER}.get(how_sold(kind), unit)
    return wanted if per(kind, unit, wanted) is not None else unit


@lru_cache(maxsize=1024)
def per(kind: Kind, unit: Unit, to: Unit) -> float | None:
    """How much in `to` is one of `unit`; None when the kind's figures do not say."""
    if unit.kind == to.kind:
        return 1.0
    direct = _figure(kind, unit.kind, to.kind)
    if direct is not None:
        return direct
    back = _figure(kind, to.kind, unit.kind)
    if back:
        return 1 / back
    if (unit.kind, to.kind) == ("length", "mass"):  # mesh: by its height
        across, thick = _figure(kind, "length", "area"), _figure(kind, "area", "mass")
        return across * thick if across and thick else None
    return None


def _figure(kind: Kind, unit: str, to: str) -> float | None:
    return next((kind.value(name) for name in _PER.get((unit, to), ()) if kind.has(name)), None)


def carried_mass(kind: Kind, amount: float, unit: Unit, bulking: float | None) -> Kilogram | None:
    """What an amount weighs on the truck, sand as damp and as swollen as it lies; None when not known.

    Args:
        kind: what is carried
        amount: in the unit; of sand the loose volume as it lies
        unit: of the amount
        bulking: of the damp sand, measured on site; None for the usual
    """
    share = per(kind, unit, KILOGRAM)
    if share is None:
        return None
    if not kind.has("bulking_low"):
        return amount * share
    usual = kind.value("bulking_low")
    packed = (1 + usual) / (1 + bulking) if bulking is not None and unit.kind == CUBIC_METER.kind else 1.0
    return amount * share * packed * (1 + moisture_of(kind, bulking))


def bed_room(kind: Kind, amount: float, unit: Unit) -> CubicMeter | None:
    """Room an amount takes in the bed; None for anything but loose and bagged stuff."""
    if how_sold(kind) not in _BULKY:
        return None
    share = per(kind, unit, CUBIC_METER)
    return None if share is None else amount * share
