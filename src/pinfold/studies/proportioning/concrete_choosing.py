"""Choosing a concrete step by step by absolute volumes, as ACI 211.1 does."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.findings import Step, work
from pinfold.formulas import concrete_mix, mixes
from pinfold.formulas.concrete_mix import Air
from pinfold.studies.batching.loose import water_density
from pinfold.tables.concrete import grid
from pinfold.tables.shelf import Kind
from pinfold.units import KgPerCubicMeter, Meter, Pascal, Ratio


@dataclass(frozen=True, kw_only=True)
class Brief:
    """What a concrete is to be and what it is made of.

    Attributes:
        strength: it must have on cylinders.
        deviation: of the builder's own tests; None where there are none.
        slump: of the fresh concrete.
        size: largest nominal stone.
        air: plain or entrained.
        exposure: of shelf `frost_exposures`.
        barred: whether bars lie in it.
        rounded: whether the stone is rounded gravel.
        change: changes to the water of the table, added up.
        most_ratio: most water over cement beside that for strength; None where nothing limits it.
        fineness: modulus of the sand, inside the table.
        cement, sand, stone: of shelf `materials`.
    """

    strength: Pascal
    deviation: Pascal | None
    slump: Meter
    size: Meter
    air: Air
    exposure: Kind
    barred: bool
    rounded: bool
    change: Ratio
    most_ratio: Ratio | None
    fineness: Ratio
    cement: Kind
    sand: Kind
    stone: Kind


@dataclass(frozen=True, kw_only=True)
class Masses:
    """A cubic meter of concrete, sand and stone saturated but surface dry.

    Attributes:
        cement, water, sand, stone: their masses.
        air: share of the volume.
        target: strength to aim for.
        ratio: water over cement.
        by_strength: what the strength alone would allow.
        working: lines of working.
    """

    cement: KgPerCubicMeter
    water: KgPerCubicMeter
    sand: KgPerCubicMeter
    stone: KgPerCubicMeter
    air: Ratio
    target: Pascal
    ratio: Ratio
    by_strength: Ratio
    working: tuple[Step, ...]


def choose(brief: Brief) -> Masses:
    """A concrete by ACI 211.1.

    Raises:
        OutOfRangeError: outside its tables, or the rest leaves no room for sand.
        NotFoundError: a figure of a material is missing.
    """
    target = target_of(brief)
    allowed = work(
        concrete_mix.water_cement_ratio, why="water over cement that strength allows", strength=target.number,
        air=brief.air,
    )  # fmt: skip
    ratio = min(allowed.number, brief.most_ratio or allowed.number)
    water = _water(brief)
    cement = work(concrete_mix.cement_mass, why="cement", water=water[-1].number, water_cement=ratio)
    air = work(concrete_mix.air_content, why="air", size=brief.size, exposure=air_word(brief))
    stone = _stone(brief)
    sand = _sand(brief, cement.number, water[-1].number, stone[-1].number, air.number)
    return Masses(
        cement=cement.number, water=water[-1].number, sand=sand[-1].number, stone=stone[-1].number, air=air.number,
        target=target.number, ratio=ratio, by_strength=allowed.number,
        working=(target, allowed, *water, cement, air, *stone, *sand),
    )  # fmt: skip


def target_of(brief: Brief) -> Step:
    """Strength to aim for: by own tests, or by the margin for want of them."""
    why = "strength to aim for"
    if brief.deviation is None:
        return work(concrete_mix.target_strength, why=why, specified=brief.strength)
    by_records = concrete_mix.target_strength_by_records
    return work(by_records, why=why, specified=brief.strength, deviation=brief.deviation)


def strongest(air: Air) -> Pascal:
    """The most that table 5.3.4 goes to."""
    return grid(f"ratio-{air}").across[-1]


def weakest_target(air: Air) -> Pascal:
    """The least that table 5.3.4 goes to."""
    return grid(f"ratio-{air}").across[0]


def air_word(brief: Brief) -> str:
    """Which row of air contents counts."""
    asked = brief.exposure.word("air")
    if brief.air == "plain":
        return "entrapped"
    return "f1" if asked == "entrapped" else asked


def _water(brief: Brief) -> tuple[Step, ...]:
    table = work(
        concrete_mix.mixing_water, why="water by slump and stone", slump=brief.slump, size=brief.size, air=brief.air
    )
    if not brief.change:
        return (table,)
    why = "water with the changes for stone, sand, additions and heat"
    return table, work(concrete_mix.adjusted_water, why=why, water=table.number, change=brief.change)


def _stone(brief: Brief) -> tuple[Step, ...]:
    bulk = work(
        concrete_mix.coarse_bulk_volume, why="rodded stone by stone and sand", size=brief.size, fineness=brief.fineness
    )
    mass = work(
        concrete_mix.coarse_mass, why="stone, soaked but dry to the touch", bulk_volume=bulk.number,
        dry_rodded=brief.stone.value("rodded_density"), absorption=brief.stone.value("absorption"),
    )  # fmt: skip
    return bulk, mass


def _sand(
    brief: Brief, cement: KgPerCubicMeter, water: KgPerCubicMeter, stone: KgPerCubicMeter, air: Ratio
) -> tuple[Step, ...]:  # fmt: skip
    densities = {
        "cement": brief.cement.value("particle_density"), "water": water_density(),
        "stone": brief.stone.value("particle_density"),
    }  # fmt: skip
    masses = {"cement": cement, "water": water, "stone": stone}
    rooms = {
        part: work(mixes.absolute_volume, why=f"room {part} takes", mass=masses[part], density=density)
        for part, density in densities.items()
    }
    left = work(
        concrete_mix.sand_volume, why="room left for sand", water=rooms["water"].number, cement=rooms["cement"].number,
        coarse=rooms["stone"].number, air=air,
    )  # fmt: skip
    why, grains = "sand, soaked but dry to the touch", brief.sand.value("particle_density")
    return *rooms.values(), left, work(concrete_mix.sand_mass, why=why, volume=left.number, density=grains)
