"""Mixes given by mass in a cubic meter, made for a wish."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.tables.shelf import Kind
from pinfold.units import KG_PER_CUBIC_METER, RATIO, KgPerCubicMeter, Ratio


@dataclass(frozen=True, kw_only=True)
class Weights:
    """What a cubic meter takes, sand and gravel saturated but surface dry.

    Attributes:
        parts: mass by part of the mix: cement, sand, gravel.
        water: all of it.
        air: share of the volume.
        standing: the weakest among what they were found by.
        source: publication key of the method.
        where: section or table.
    """

    parts: Mapping[str, KgPerCubicMeter]
    water: KgPerCubicMeter
    air: Ratio
    standing: Standing
    source: str
    where: str


def mix_by_mass(
    name: str, says: str, weights: Weights, *, uses: Mapping[str, Kind], figures: Mapping[str, Figure]
) -> Kind:
    """A mix of shelf `mixes` by mass.

    Args:
        name: its word
        says: a line about it
        weights: of a cubic meter
        uses: material of each part
        figures: what else is known of it, such as its strength
    """
    masses = {f"{part}_mass": mass for part, mass in weights.parts.items()} | {"water_mass": weights.water}
    found = {
        key: Figure(value=mass, unit=KG_PER_CUBIC_METER, standing=weights.standing, source=weights.source,
                    where=weights.where)
        for key, mass in masses.items()
    }  # fmt: skip
    ratio = weights.water / weights.parts["cement"]
    shares = {
        key: Figure(value=share, unit=RATIO, standing=weights.standing, source=weights.source, where=weights.where)
        for key, share in (("water_cement", ratio), ("air", weights.air))
    }
    words = {"says": says, "family": "concrete", "yield_method": "by-mass", "uses": dict(uses)}
    return Kind(name=name, shelf="mixes", words=words, figures={**found, **shares, **figures})


def bagged_mix(name: str, says: str, dry: Kind, *, density: KgPerCubicMeter, order: str) -> Kind:
    """Concrete out of ready bags, to which only water is added.

    Args:
        name: its word
        says: a line about it
        dry: the dry mix, of shelf `materials`
        density: mass of dry mix in a cubic meter of concrete
        order: how it is charged: bagged, dry-set
    """
    water = dry.figure("bag_water")
    figures = {
        "dry_mix_mass": Figure(value=density, unit=KG_PER_CUBIC_METER, standing=Standing.READ, source="BAG-YIELDS"),
        "water_mass": Figure(value=density * water.value, unit=KG_PER_CUBIC_METER, standing=water.standing,
                             source=water.source, where=water.where),
    }  # fmt: skip
    words = {
        "says": says, "family": "concrete", "order": order, "yield_method": "by-mass", "uses": {"dry_mix": dry},
    }  # fmt: skip
    return Kind(name=name, shelf="mixes", words=words, figures=figures)
