"""Stabilized earth, pressed to blocks or rammed in lifts: cement by the shrinkage box or by mass of dry soil."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from pinfold.errors import InputError, InvalidPlan, OutOfRangeError
from pinfold.figures import Figure, given
from pinfold.findings import Step, work
from pinfold.formulas import earth_mixes
from pinfold.sources import Standing
from pinfold.studies.proportioning.earthing import BOX, shrinkage_of
from pinfold.studies.proportioning.parts import ONE, charge_asked, held, plain, told
from pinfold.studies.proportioning.records import Ask, Departure, Family, Proportioned, Wish
from pinfold.tables.shelf import Kind, kind
from pinfold.units import KG_PER_CUBIC_METER, KILOGRAM, METER, RATIO, both

_SIDE = Ask(key="length", says="length of a block", unit=METER, otherwise="295 mm", low=0.05, high=1.0, example="12 in")
_ASKS = (
    Ask(key="use", says="pressed blocks, or rammed between boards", choices=("blocks", "rammed"), otherwise="blocks"),
    Ask(
        key="cement", says="cement over dry soil by mass; by the box or about 6 % where nothing is said", unit=RATIO,
        low=0.005, high=0.5, example="6 %",
    ),
    *BOX,
    Ask(
        key="water", says="all the water over dry mass, by the drop test", unit=RATIO, otherwise="10 %", low=0.02,
        high=0.5, example="10 %",
    ),
    Ask(
        key="density", says="dry density once pressed or rammed", unit=KG_PER_CUBIC_METER, low=1000.0, high=2600.0,
        example="1900 kg/m3",
    ),
    _SIDE,
    replace(_SIDE, key="width", says="width of a block", otherwise="140 mm", example="6 in"),
    replace(_SIDE, key="height", says="height of a block", otherwise="90 mm", example="4 in"),
)  # fmt: skip
_CEMENT_SAYS = ("Such blocks soften in rain.", "Past that it is dear and shrinks; sand in the soil serves better.")
_SOIL_SAYS = ("A soil that shrinks so little lacks clay to hold it until the cement sets.", "Such a soil wants sand.")
_BOX_LENGTH = 0.6  # of the box the source's table is for
_USE = {"blocks": "pressed earth blocks", "rammed": "rammed earth"}


@dataclass(frozen=True, kw_only=True)
class _Dose:
    """How much soil goes to one of cement, and how that was found."""

    soil: Figure
    share: float
    method: str
    working: tuple[Step, ...]
    departures: tuple[Departure, ...]


def propose(wish: Wish) -> Proportioned:
    """Cement and soil for blocks or lifts."""
    cement, soil = wish.material("portland-cement"), wish.material("clay-soil")
    dose = _dose(wish, cement.value("bulk_density") / soil.value("bulk_density"))
    mix = _mix(wish, dose, {"cement": cement, "clay_soil": soil})
    row = kind("proportions", "stabilized-earth")
    density = mix.value("placed_density")
    return Proportioned(
        mix=mix,
        method=dose.method,
        working=dose.working,
        departures=(
            *held("cement", dose.share, row, key="cement", of="of the dry soil by mass", says=_CEMENT_SAYS),
            *dose.departures,
            *held("dry density", density, row, key="density", of="kg/m3", says=("Press or ram it harder.", "")),
        ),
        notes=(*_made(wish, mix), *_HOW),
    )


def _dose(wish: Wish, bulk: float) -> _Dose:
    """Soil to one of cement by the share told, by the box, or by the share that ships."""
    row = kind("proportions", "stabilized-earth")
    gap = wish.perhaps("gap")
    shrunk: tuple[Step, ...] = ()
    outside: tuple[Departure, ...] = ()
    if gap is not None:
        bar = shrinkage_of(wish, gap, family="stabilized-earth")
        shrunk = (bar,)
        outside = held("shrinkage of the soil", bar.number, row, key="shrinkage", says=_SOIL_SAYS)
    if gap is not None and "cement" not in wish.told:
        boxed = _by_box(shrunk[-1].number)
        share = bulk / boxed.number
        soil = Figure(
            value=boxed.number, unit=RATIO, standing=Standing.READ, source="SOIL-BLOCK-TESTS",
            where="table of the box test", printed=plain(boxed.number),
        )  # fmt: skip
        return _Dose(
            soil=soil, share=share, method="the shrinkage box, soil to one of cement by volume",
            working=(*shrunk, boxed), departures=outside,
        )  # fmt: skip
    wanted = told(wish, "cement", row.figure("cement"))
    share = wanted.value
    parts = work(
        earth_mixes.soil_for_cement_share, why="soil to one of cement", share=share, cement_bulk=bulk * 1000.0,
        soil_bulk=1000.0,
    )  # fmt: skip
    return _Dose(
        soil=replace(wanted, value=parts.number, printed=plain(parts.number)), share=share,
        method="cement by mass of dry soil",
        working=(*shrunk, parts), departures=outside,
    )  # fmt: skip


def _by_box(shrinkage: float) -> Step:
    try:
        return work(earth_mixes.soil_per_cement, why="soil to one of cement by the box", gap=shrinkage * _BOX_LENGTH)
    except OutOfRangeError as refused:
        raise InvalidPlan(
            "the wish for stabilized-earth",
            [InputError(f"{refused}; mix in sand and dry another bar, or give the cement yourself", place="gap")],
        ) from None


def _mix(wish: Wish, dose: _Dose, materials: dict[str, Kind]) -> Kind:
    base = kind("mixes", "stabilized-earth")
    density = wish.perhaps("density")
    water = wish.number("water")
    placed = base.figure("placed_density") if density is None else given(density, KG_PER_CUBIC_METER)
    grains = materials["clay_soil"].value("particle_density")
    most = 1000.0 * (1 / placed.value - 1 / grains)
    problems = [
        InputError(
            f"{plain(placed.value)} kg/m3 found; less than the grains' own {plain(grains)} is wanted", place="density"
        )
    ] if most <= 0 else [
        InputError(
            f"{water:.0%} found; less than {most:.0%} is wanted: more fills every gap before the earth is as dense as "
            f"{plain(placed.value)} kg/m3",
            place="water",
        )
    ] if water >= most else []  # fmt: skip
    if problems:
        raise InvalidPlan("the wish for stabilized-earth", problems)
    figures = {
        **base.figures, "cement": ONE, "clay_soil": dose.soil, "placed_density": placed,
        "water_solids": given(water, RATIO) if "water" in wish.told else base.figure("water_solids"),
    }  # fmt: skip
    title = f"{_USE[wish.word('use')]} with {dose.share:.1%} cement by mass"
    words = {
        **base.words, "uses": materials, "order": "stabilized-earth",
        "says": f"{title}, 1 cement : {dose.soil.printed} clay soil",
    }  # fmt: skip
    return Kind(name="stabilized-earth-asked", shelf="mixes", figures=figures, words=words)


def _made(wish: Wish, mix: Kind) -> tuple[str, ...]:
    """Blocks of a batch, or lifts."""
    if wish.word("use") == "rammed":
        loose = kind("proportions", "stabilized-earth").figure("lift_loose")
        return (
            f"Spread it {both(loose.value)} loose, ram each lift until it rings, about two thirds as thick; a lift "
            "while the last is damp.",
        )
    sides = {side: wish.number(side) for side in ("length", "width", "height")}
    batch = charge_asked(mix, wish)
    count = earth_mixes.units_made(mix=batch.makes, **sides)
    bags = batch.part("cement").bags
    each = mix.value("placed_density") * math.prod(sides.values())
    to_a_bag = f", {count / bags:.0f} to a bag of cement" if bags else ""
    return (f"A batch presses about {count:.0f} blocks{to_a_bag}; one weighs about {both(each, KILOGRAM)} dry.",)


_HOW = ("Use a batch within the hour; cement waits for nobody. Keep it damp and shaded for 28 days.",)

FAMILY = Family(
    name="stabilized-earth", says="soil with a little cement, pressed or rammed", asks=_ASKS, propose=propose
)  # fmt: skip
