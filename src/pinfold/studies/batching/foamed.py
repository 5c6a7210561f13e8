"""Charges of foamed mixes: slurry by mass, foam by volume."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.figures import Figure, printed
from pinfold.findings import Step, work
from pinfold.formulas import concrete_batch, foam, mixes
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.studies.batching.loose import Contents, measured, parts_of, water_density
from pinfold.studies.batching.records import Foam, Ingredient
from pinfold.studies.batching.sand import dampness_of, moisture_of
from pinfold.tables.shelf import Kind, kind
from pinfold.units import RATIO, CubicMeter, Kilogram

BOUND_WATER = printed("20 %", RATIO, Standing.READ, "ASTM-C869", "note to table 1, water the cement keeps")


@dataclass(frozen=True, kw_only=True)
class FoamedContents:
    """A foamed batch before it is put on a card: what is in the slurry, and the foam."""

    slurry: Contents
    foam: Foam


def foamed_contents(mix: Kind, *, cast: CubicMeter, mixing: Mixing) -> FoamedContents:
    """A batch that makes so much foamed concrete.

    Args:
        mix: of shelf `mixes`, family foamed
        cast: volume of the batch
        mixing: bucket, bags and sand of the site

    Raises:
        NotFoundError: a figure of the mix or of a material is missing.
        OutOfRangeError: the density wanted does not lie between foam and slurry.
    """
    materials = dict(parts_of(mix))
    recipe, dry = foamed_recipe(mix)
    per = recipe.result
    assert isinstance(per, foam.FoamedMix)
    masses = {"cement": per.cement * cast, "sand": per.sand * cast}
    ingredients = tuple(
        _ingredient(part, material, masses[part], mixing) for part, material in materials.items() if masses.get(part)
    )
    water, steps = _sand_water(materials, masses["sand"], mixing)
    froth, froth_steps = _foam(mix, per, cast, dry)
    slurry = Contents(
        ingredients=ingredients,
        water=per.water * cast,
        sand_water=water,
        makes=cast,
        notes=("Parts by weight; buckets are by usual loose densities, so the scale goes first.",),
        working=(recipe, *steps, *froth_steps),
        figures=_figures(mix, materials, mixing),
    )
    return FoamedContents(slurry=slurry, foam=froth)


def foamed_recipe(mix: Kind) -> tuple[Step, Step]:
    """What goes into a cubic meter of a foamed mix, and what that weighs once dry, as lines of working.

    Raises:
        NotFoundError: a figure of the mix or of a material is missing.
        OutOfRangeError: the density wanted does not lie between foam and slurry.
    """
    materials = dict(parts_of(mix))
    if "cement" not in materials or (mix.value("sand_cement") > 0 and "sand" not in materials):
        raise NotFoundError(f"{mix.name} does not say which cement and sand it uses")
    recipe = work(
        foam.foamed_mix, why="what goes into a cubic meter", cast=mix.value("cast_density"),
        foam=mix.value("foam_density"), water_cement=mix.value("water_cement"), sand_cement=mix.value("sand_cement"),
        **_grains(materials),
    )  # fmt: skip
    per = recipe.result
    assert isinstance(per, foam.FoamedMix)
    dry = work(foam.dry_density, why="once dry", cement=per.cement, sand=per.sand, bound_water=BOUND_WATER.value)
    return recipe, dry


def _grains(materials: dict[str, Kind]) -> dict[str, float]:
    sand = materials.get("sand", kind("materials", "sand"))
    return {
        "water_density": water_density(),
        "cement_density": materials["cement"].value("particle_density"),
        "sand_density": sand.value("particle_density"),
    }


def _ingredient(part: str, material: Kind, mass: Kilogram, mixing: Mixing) -> Ingredient:
    loose = mixes.loose_volume(mass=mass, bulk_density=material.value("bulk_density"))
    if part == "sand" and mixing.sand_bulking is not None:
        loose *= (1 + mixing.sand_bulking) / (1 + material.value("bulking_low"))
    return measured(part, material, mass=mass, loose=loose, mixing=mixing)


def _sand_water(materials: dict[str, Kind], mass: Kilogram, mixing: Mixing) -> tuple[Kilogram, tuple[Step, ...]]:
    if not mass:
        return 0.0, ()
    sand = materials["sand"]
    moisture = moisture_of(sand, mixing.sand_bulking)
    free = work(
        concrete_batch.free_water, why="water the damp sand brings", moist=mass * (1 + moisture), moisture=moisture,
        absorption=sand.value("absorption"),
    )  # fmt: skip
    return free.number, (free,)


def _foam(mix: Kind, per: foam.FoamedMix, cast: CubicMeter, dry: Step) -> tuple[Foam, tuple[Step, ...]]:
    make = work(foam.foam_to_make, why="foam to make", needed=per.foam * cast, loss=mix.value("foam_loss"))
    agent = kind("materials", "foaming-agent")
    liquid = make.number * mix.value("foam_density") / water_density()
    concentrate = liquid * agent.value("dilution") if agent.has("dilution") else None
    froth = Foam(
        volume=per.foam * cast,
        make=make.number,
        mass=per.foam_mass * cast,
        water=liquid - (concentrate or 0.0),
        agent=concentrate,
        slurry=foam.slurry_density(
            water_cement=mix.value("water_cement"),
            sand_cement=mix.value("sand_cement"),
            **_grains(dict(parts_of(mix))),
        ),
        cast=mix.value("cast_density"),
        dry=dry.number,
    )
    return froth, (make, dry)


def _figures(mix: Kind, materials: dict[str, Kind], mixing: Mixing) -> tuple[tuple[str, Figure], ...]:
    of_mix = tuple((f"{mix.name} {key}", figure) for key, figure in mix.figures.items())
    of_parts = tuple(
        (f"{material.name} particle density", material.figure("particle_density")) for material in materials.values()
    )
    damp = (("sand moisture", dampness_of(materials["sand"], mixing.sand_bulking)),) if "sand" in materials else ()
    return (*of_mix, *of_parts, *damp, ("water bound by cement", BOUND_WATER))
