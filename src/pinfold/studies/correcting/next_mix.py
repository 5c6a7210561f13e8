"""The next batch of a concrete by what this one gave: the water it took, its air, the slump it lacked (ACI 211.1)."""

from __future__ import annotations

from dataclasses import replace

from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import concrete_batch, concrete_mix, corrections
from pinfold.sources import Standing
from pinfold.studies.batching.loose import parts_of, water_density
from pinfold.studies.correcting.records import Held, NextMix
from pinfold.tables.shelf import Kind, kind
from pinfold.units import KG_PER_CUBIC_METER, RATIO, KgPerCubicMeter, Meter, Ratio

_PARTS = frozenset({"cement", "sand", "gravel"})


def can_be_next(mix: Kind) -> bool:
    """Whether a mix is a concrete of cement, sand and gravel with grains of known density."""
    parts = dict(parts_of(mix))
    return frozenset(parts) == _PARTS and all(part.has("particle_density") for part in parts.values())


def next_mix(
    held: Held, *, water_cement: Ratio, gravel: KgPerCubicMeter, air_free: KgPerCubicMeter, density: KgPerCubicMeter,
    slump: Meter,
) -> NextMix:  # fmt: skip
    """A concrete for the next batch: water by this batch and its slump, cement by the ratio, sand by what is left.

    The stone in a volume stays: it is what the mix was chosen by.

    Args:
        held: this batch, with the room it truly takes
        water_cement: to keep
        gravel: stone in a volume as the mix was chosen, surface dry
        air_free: density of this batch without air
        density: of this batch as weighed
        slump: wanted less found; 0 where it is right

    Raises:
        OutOfRangeError: no room is left for sand, or it weighs more than without air.
    """
    materials = dict(parts_of(held.mix))
    here = work(corrections.content, why="water this batch took, in a volume", mass=held.water, made=held.made)
    more = _for_slump(slump)
    water = here.number + more.number
    cement = work(concrete_mix.cement_mass, why="cement at the same ratio", water=water, water_cement=water_cement)
    air = work(concrete_batch.air_by_density, why="air of this batch", air_free=air_free, measured=density)
    room = work(
        concrete_mix.sand_volume, why="room left for sand", water=water / water_density(),
        cement=cement.number / materials["cement"].value("particle_density"),
        coarse=gravel / materials["gravel"].value("particle_density"), air=air.number,
    )  # fmt: skip
    sand = work(
        concrete_mix.sand_mass, why="sand", volume=room.number, density=materials["sand"].value("particle_density")
    )
    return NextMix(
        mix=_as_mix(held.mix, water, cement.number, (sand.number, gravel, air.number)), water=water,
        cement=cement.number, sand=sand.number, gravel=gravel, air=air.number,
        density=water + cement.number + sand.number + gravel, working=(here, more, cement, air, room, sand),
    )  # fmt: skip


def _for_slump(slump: Meter) -> Step:
    rule = kind("corrections", "slump")
    return work(
        corrections.water_for_slump, why="water for the slump it lacked", change=slump, water=rule.value("water"),
        step=rule.value("step"),
    )  # fmt: skip


def _as_mix(
    mix: Kind, water: KgPerCubicMeter, cement: KgPerCubicMeter, rest: tuple[KgPerCubicMeter, KgPerCubicMeter, Ratio]
) -> Kind:  # fmt: skip
    sand, gravel, air = rest
    masses = {"water_mass": water, "cement_mass": cement, "sand_mass": sand, "gravel_mass": gravel}
    figures = {key: _figure(value) for key, value in masses.items()}
    kept = {key: figure for key, figure in mix.figures.items() if key in ("strength", "slump", "stone_size")}
    words = {**mix.words, "yield_method": "by-mass", "says": f"{mix.says}, put right by a weighed batch"}
    return replace(
        mix, figures={**kept, **figures, "air": replace(_figure(air), unit=RATIO)}, words=words
    )  # fmt: skip


def _figure(value: float) -> Figure:
    return Figure(
        value=value, unit=KG_PER_CUBIC_METER, standing=Standing.READ, source="ACI-211", where="section 9.2.9"
    )  # fmt: skip
