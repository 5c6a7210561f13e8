"""Charges of mixes given in parts by loose volume."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import concrete_batch, counts, learning, mixes
from pinfold.plan.place import Mixing
from pinfold.studies.batching.counting import counted_in
from pinfold.studies.batching.lifting import bucketful
from pinfold.studies.batching.records import Ingredient
from pinfold.studies.batching.sand import SiteSand, dampness_of, moisture_of, site_sand
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CubicMeter, Kilogram, Ratio

PARTS = ("cement", "dry_mix", "lime", "clay_soil", "sand", "gravel", "straw", "emulsion")
FOLDED_IN = ("straw", "emulsion")
"""Parts that go into the gaps of the others and are not counted where loose volumes are added up."""
_SOLD_BESIDE = ("masonry-cement", "concrete-mix-bag")
"""Sold in bags of their own: the site's own bag is that of portland cement."""
_BULK_RULE = {"bulk-sum-mortar": "mortar", "bulk-sum-concrete": "concrete"}


@dataclass(frozen=True, kw_only=True)
class Contents:
    """A batch of loose parts before it is put on a card.

    Attributes:
        ingredients: in order.
        water: all of it.
        sand_water: brought by the sand.
        makes: finished mix.
        notes: what was assumed.
        working: lines of working.
        figures: that went in.
    """

    ingredients: tuple[Ingredient, ...]
    water: Kilogram
    sand_water: Kilogram
    makes: CubicMeter
    notes: tuple[str, ...]
    working: tuple[Step, ...]
    figures: tuple[tuple[str, Figure], ...]


def parts_of(mix: Kind) -> tuple[tuple[str, Kind], ...]:
    """Parts of a mix with what each is, binder first."""
    uses = mix.words.get("uses", {})
    assert isinstance(uses, dict)
    return tuple((part, _material(uses[part])) for part in PARTS if part in uses)


def _material(used: object) -> Kind:
    """A material by its name, or as the log teaches it."""
    return used if isinstance(used, Kind) else kind("materials", str(used))


def bag_of(material: Kind, mixing: Mixing) -> Kilogram | None:
    """Mass of a bag of it on this site; None for what is not taken by the bag."""
    bags = {"portland-cement": mixing.bag, "hydrated-lime": mixing.lime_bag, "hydraulic-lime": mixing.lime_bag}
    if material.name in _SOLD_BESIDE:
        return material.value(
            "bag_us" if mixing.bag == kind("materials", "portland-cement").value("bag_us") else "bag_metric"
        )
    return bags.get(material.name)


def water_density() -> float:
    """Of mixing water, in kg/m3."""
    return kind("materials", "water").value("particle_density")


def measured(part: str, material: Kind, *, mass: Kilogram, loose: CubicMeter, mixing: Mixing) -> Ingredient:
    """An ingredient with its buckets and bags."""
    bag = bag_of(material, mixing)
    as_it_lies = mass * (1 + _moisture(part, material, mixing))
    buckets = counts.pails(volume=loose, pail=mixing.bucket)
    return Ingredient(
        part=part, kind=material, mass=mass, loose=loose, buckets=buckets,
        bags=None if bag is None else mass / bag, as_it_lies=as_it_lies,
        bucketful=bucketful(as_it_lies / buckets if buckets else 0.0, mixing), counted_in=counted_in(part, mixing),
    )  # fmt: skip


def _moisture(part: str, material: Kind, mixing: Mixing) -> Ratio:
    """Water over dry mass in it as it lies: of sand always, of stone where it is known."""
    if part == "sand":
        return moisture_of(material, mixing.sand_bulking)
    return material.value("moisture") if part == "gravel" and material.has("moisture") else 0.0


def contents(mix: Kind, *, lead: CubicMeter, mixing: Mixing) -> Contents:
    """A batch with so much of its first part.

    Args:
        mix: of shelf `mixes`, in parts by loose volume
        lead: loose volume of its first part
        mixing: bucket, bags and sand of the site

    Raises:
        NotFoundError: a figure of the mix or of a material is missing.
    """
    parts = parts_of(mix)
    if not parts:
        raise NotFoundError(f"no parts are known for {mix.name}")
    one = lead / mix.value(parts[0][0])
    specified = {part: one * mix.value(part) for part, _ in parts}
    masses = {part: _mass(part, material, specified[part]) for part, material in parts}
    water = _water(mix, {part: step.number for part, step in masses.items()}, one)
    makes = _taught(mix, _yield(mix, specified, {part: step.number for part, step in masses.items()}, water.number))
    site = _site_sand(parts, specified, masses, mixing)
    loose = specified | ({"sand": site.loose} if site else {})
    return Contents(
        ingredients=tuple(
            measured(part, material, mass=masses[part].number, loose=loose[part], mixing=mixing)
            for part, material in parts
        ),
        water=water.number,
        sand_water=site.water if site else 0.0,
        makes=makes[-1].number,
        notes=(site.note,) if site else (),
        working=(*masses.values(), *(site.working if site else ()), water, *makes),
        figures=_figures(mix, parts, mixing),
    )


def _site_sand(
    parts: tuple[tuple[str, Kind], ...], specified: dict[str, float], masses: dict[str, Step], mixing: Mixing
) -> SiteSand | None:
    material = dict(parts).get("sand")
    if material is None:
        return None
    mass = masses["sand"].number
    return site_sand(material, specified=specified["sand"], mass=mass, bulking=mixing.sand_bulking)


def _mass(part: str, material: Kind, loose: CubicMeter) -> Step:
    why = f"{part.replace('_', ' ')} by weight"
    return work(mixes.loose_mass, why=why, volume=loose, bulk_density=material.value("bulk_density"))


def _water(mix: Kind, masses: dict[str, float], one: CubicMeter) -> Step:
    if mix.has("water_cement") and "cement" in masses:
        ratio = mix.value("water_cement")
        return work(mixes.mixing_water_mass, why="all the water", cement=masses["cement"], water_cement=ratio)
    if mix.has("water_parts"):
        volume = one * mix.value("water_parts")
        return work(mixes.loose_mass, why="all the water", volume=volume, bulk_density=water_density())
    share = mix.value("water_solids")
    volume = share * sum(masses.values()) / water_density()
    return work(mixes.loose_mass, why="all the water", volume=volume, bulk_density=water_density())


def _taught(mix: Kind, makes: tuple[Step, ...]) -> tuple[Step, ...]:
    """What the batch makes by its rule, and by what batches before it gave."""
    if not mix.has("yield_ratio"):
        return makes
    ratio = mix.value("yield_ratio")
    return (
        *makes, work(learning.taught_yield, why="as your batches gave", reckoned=makes[-1].number, ratio=ratio)
    )  # fmt: skip


def _yield(mix: Kind, specified: dict[str, float], masses: dict[str, float], water: Kilogram) -> tuple[Step, ...]:
    method = mix.word("yield_method")
    if method in _BULK_RULE:
        why = "what the batch makes"
        loose = sum(volume for part, volume in specified.items() if part not in FOLDED_IN)
        return (work(mixes.bulk_sum_volume, why=why, loose=loose, rule=_BULK_RULE[method]),)
    if method == "placed-density":
        density = mix.value("placed_density")
        why = "what the batch makes once rammed, by its dry mass"
        return (work(concrete_batch.yield_volume, why=why, batch=sum(masses.values()), density=density),)
    if method != "absolute":
        raise NotFoundError(f"no way to find what a batch of {mix.name} makes is known")
    solids = tuple(
        work(mixes.absolute_volume, why=f"room {part} takes", mass=masses[part], density=grains)
        for part, grains in ((part, material.value("particle_density")) for part, material in parts_of(mix))
    )
    wet = work(mixes.absolute_volume, why="room the water takes", mass=water, density=water_density())
    total = sum(step.number for step in solids)
    made = work(mixes.mixed_volume, why="what the batch makes", solids=total, water=wet.number, air=mix.value("air"))
    return (*solids, wet, made)


def _figures(mix: Kind, parts: tuple[tuple[str, Kind], ...], mixing: Mixing) -> tuple[tuple[str, Figure], ...]:
    skip = ("strength", "stone_size", "slump")
    of_mix = tuple((f"{mix.name} {key}", figure) for key, figure in mix.figures.items() if key not in skip)
    of_parts = tuple((f"{material.name} bulk density", material.figure("bulk_density")) for _, material in parts)
    grains = tuple(
        (f"{material.name} particle density", material.figure("particle_density"))
        for _, material in parts
        if mix.word("yield_method") == "absolute"
    )
    damp = tuple(
        ("sand moisture", dampness_of(material, mixing.sand_bulking)) for part, material in parts if part == "sand"
    )
    return (*of_mix, *of_parts, *grains, *damp)
