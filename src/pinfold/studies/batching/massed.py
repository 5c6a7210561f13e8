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
from pinfold.units import CubicMeter, Kilogram, Ratio


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
    brought = _aggregate_water(parts, surface_dry, mixing)
    return Contents(
        ingredients=ingredients,
        water=mix.value("water_mass") * made,
        sand_water=sum(step.number for step in brought),
        makes=made,
        notes=("Parts by weight; buckets are by loose densities, so the scale goes first.",),
        working=brought,
        figures=_figures(mix, parts, mixing),
    )


def _ingredient(part: str, material: Kind, surface_dry: Kilogram, mixing: Mixing) -> Ingredient:
    dry = surface_dry / (1 + material.value("absorption")) if material.has("absorption") else surface_dry
    loose = mixes.loose_volume(mass=dry, bulk_density=material.value("bulk_density"))
    if part == "sand" and mixing.sand_bulking is not None:
        loose *= (1 + mixing.sand_bulking) / (1 + material.value("bulking_low"))
    return measured(part, material, mass=dry, loose=loose, mixing=mixing)


def _aggregate_water(
    parts: tuple[tuple[str, Kind], ...], surface_dry: dict[str, Kilogram], mixing: Mixing
) -> tuple[Step, ...]:
    """Water that sand brings, and stone whose moisture is known; other stone lies surface dry."""
    moist = {
        part: moisture_of(material, mixing.sand_bulking) if part == "sand" else material.value("moisture")
        for part, material in parts
        if part == "sand" or (part == "gravel" and material.has("moisture"))
    }
    return tuple(
        _free_water(part, material, surface_dry[part], moist[part]) for part, material in parts if part in moist
    )  # fmt: skip


def _free_water(part: str, material: Kind, surface_dry: Kilogram, moisture: Ratio) -> Step:
    soaked = material.value("absorption")
    why = "water the damp sand brings" if part == "sand" else "water the damp stone brings"
    moist = surface_dry * (1 + moisture) / (1 + soaked)
    return work(concrete_batch.free_water, why=why, moist=moist, moisture=moisture, absorption=soaked)


def _figures(mix: Kind, parts: tuple[tuple[str, Kind], ...], mixing: Mixing) -> tuple[tuple[str, Figure], ...]:
    of_mix = tuple((f"{mix.name} {key}", figure) for key, figure in mix.figures.items() if key.endswith("_mass"))
    of_parts = tuple((f"{material.name} bulk density", material.figure("bulk_density")) for _, material in parts)
    damp = tuple(
        ("sand moisture", dampness_of(material, mixing.sand_bulking)) for part, material in parts if part == "sand"
    )
    return (*of_mix, *of_parts, *damp)
