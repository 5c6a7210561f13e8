"""Charges of mixes given by mass in a cubic meter, aggregates saturated and surface dry."""

from __future__ import annotations

from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import concrete_batch, mixes
from pinfold.plan.place import Mixing
from pinfold.studies.batching.loose import Contents, measured, parts_of
from pinfold.studies.batching.records import Ingredient
from pinfold.studies.batching.sand import dampness_of, moisture_of
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, Kilogram


def massed_contents(mix: Kind, *, made: CubicMeter, mixing: Mixing) -> Contents:
    """A batch that makes so much.

    Args:
        mix: of shelf `mixes`, with figures such as `cement_mass`
        made: finished mix
        mixing: bucket, bags and sand of the site

    Raises:
        NotFoundError: a figure of the mix or of a material is missing.
    """
    parts = parts_of(mix)
    surface_dry = {part: mix.value(f"{part}_mass") * made for part, _ in parts}
    ingredients = tuple(_ingredient(part, material, surface_dry[part], mixing) for part, material in parts)
    sand_water, steps = _sand_water(dict(parts), surface_dry, mixing)
    return Contents(
        ingredients=ingredients,
        water=mix.value("water_mass") * made,
        sand_water=sand_water,
        makes=made,
        notes=("Parts by weight; buckets are by loose densities, so the scale goes first.",),
        working=steps,
        figures=_figures(mix, parts),
    )


def _ingredient(part: str, material: Kind, surface_dry: Kilogram, mixing: Mixing) -> Ingredient:
    dry = surface_dry / (1 + material.value("absorption")) if material.has("absorption") else surface_dry
    loose = mixes.loose_volume(mass=dry, bulk_density=material.value("bulk_density"))
    if part == "sand" and mixing.sand_bulking is not None:
        loose *= (1 + mixing.sand_bulking) / (1 + material.value("bulking_low"))
    return measured(part, material, mass=dry, loose=loose, mixing=mixing)


def _sand_water(
    parts: dict[str, Kind], surface_dry: dict[str, Kilogram], mixing: Mixing
) -> tuple[Kilogram, tuple[Step, ...]]:
    sand = parts.get("sand")
    if sand is None:
        return 0.0, ()
    dry = surface_dry["sand"] / (1 + sand.value("absorption"))
    moisture = moisture_of(sand, mixing.sand_bulking)
    free = work(
        concrete_batch.free_water, why="water the damp sand brings", moist=dry * (1 + moisture), moisture=moisture,
        absorption=sand.value("absorption"),
    )  # fmt: skip
    return free.number, (free,)


def _figures(mix: Kind, parts: tuple[tuple[str, Kind], ...]) -> tuple[tuple[str, Figure], ...]:
    of_mix = tuple((f"{mix.name} {key}", figure) for key, figure in mix.figures.items() if key.endswith("_mass"))
    of_parts = tuple((f"{material.name} bulk density", material.figure("bulk_density")) for _, material in parts)
    damp = tuple(("sand moisture", dampness_of(material)) for part, material in parts if part == "sand")
    return (*of_mix, *of_parts, *damp)
