"""What went into a trial, as numbers that compare: parts of the mix by loose volume, water over dry mass.

Bags, buckets and weights become dry masses and loose volumes through the measures of the site, the way a batch card
turns them round; so a card's amounts read back give the mix that the card was made for.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.formulas import concrete_batch
from pinfold.logbook.entries import Amount
from pinfold.studies.batching.loose import parts_of, water_density
from pinfold.studies.batching.sand import moisture_of
from pinfold.studies.lessons.things import Measures, part_named, thing
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, Kilogram

BINDERS = ("cement", "lime")


@dataclass(frozen=True, kw_only=True)
class Contents:
    """What went in.

    Attributes:
        loose: volume of each part as the mix counts it: sand as damp and swollen as the mixes take it.
        masses: dry mass of each part.
        added: loose volume of what is no part of the mix, by material.
        water: all of it, also what damp sand brings; None where it was not written down.
        lacking: why something cannot be told, by part.
    """

    loose: Mapping[str, CubicMeter] = field(default_factory=dict)
    masses: Mapping[str, Kilogram] = field(default_factory=dict)
    added: Mapping[str, CubicMeter] = field(default_factory=dict)
    water: Kilogram | None = None
    lacking: Mapping[str, str] = field(default_factory=dict)


def contents_of(amounts: Iterable[Amount], mix: Kind, measures: Measures) -> Contents:
    """Amounts as parts of a mix.

    Args:
        amounts: as written down
        mix: they are of, as the log teaches it
        measures: of the site
    """
    parts = dict(parts_of(mix))
    gathered = _Gathered()
    for amount in amounts:
        if amount.item.strip().casefold() == "water":
            gathered.pour(amount, measures)
        elif part := part_named(amount.item, parts.items()):
            gathered.put(part, amount, parts[part], measures)
        else:
            gathered.add(amount, measures)
    return gathered.contents()


class _Gathered:
    """Sums of what went in, while the amounts are gone through."""

    def __init__(self) -> None:
        self._loose: dict[str, float] = {}
        self._masses: dict[str, float] = {}
        self._added: dict[str, float] = {}
        self._poured: float | None = None
        self._brought = 0.0
        self._lacking: dict[str, str] = {}

    def pour(self, amount: Amount, measures: Measures) -> None:
        volume = measures.volume(amount)
        mass = amount.amount if amount.measure == "kg" else None if volume is None else volume * water_density()
        if mass is None:
            self._lacking["water"] = f"what a {amount.measure} of water holds is not known"
        else:
            self._poured = (self._poured or 0.0) + mass

    def put(self, part: str, amount: Amount, material: Kind, measures: Measures) -> None:
        try:
            found = _dry(amount, material, measures)
        except (NotFoundError, OutOfRangeError) as why:
            self._lacking[part] = str(why)
            return
        if found is None:
            self._lacking[part] = f"what a {amount.measure} of {material.name} holds is not known"
            return
        mass, loose, brought = found
        self._masses[part] = self._masses.get(part, 0.0) + mass
        self._loose[part] = self._loose.get(part, 0.0) + loose
        self._brought += brought

    def add(self, amount: Amount, measures: Measures) -> None:
        material, volume = thing("materials", amount.item), measures.volume(amount)
        name = material.name if material is not None else amount.item
        if volume is None and material is not None and material.has("bulk_density"):
            mass = measures.mass(amount, material)
            volume = None if mass is None else mass / material.value("bulk_density")
        if volume is None:
            self._lacking[name] = f"how much {amount.item} went in cannot be told"
        else:
            self._added[name] = self._added.get(name, 0.0) + volume

    def contents(self) -> Contents:
        water = None if self._poured is None or "water" in self._lacking else self._poured + self._brought
        loose = {part: volume for part, volume in self._loose.items() if part not in self._lacking}
        return Contents(loose=loose, masses=self._masses, added=self._added, water=water, lacking=self._lacking)


def _dry(amount: Amount, material: Kind, measures: Measures) -> tuple[Kilogram, CubicMeter, Kilogram] | None:
    """Dry mass, loose volume as the mix counts it, and water brought along; None where it cannot be told."""
    mass, volume = measures.mass(amount, material), measures.volume(amount)
    density = material.value("bulk_density")
    if not material.has("bulking_low"):
        if mass is None:
            return None if volume is None else (volume * density, volume, 0.0)
        return mass, mass / density, 0.0
    bulking = measures.mixing.sand_bulking
    moisture, usual = moisture_of(material, bulking), material.value("bulking_low")
    if mass is not None:
        dry = mass / (1 + moisture)
    elif volume is not None:
        dry = volume * (1 + usual) / (1 + (usual if bulking is None else bulking)) * density
    else:
        return None
    brought = concrete_batch.free_water(
        moist=dry * (1 + moisture), moisture=moisture, absorption=material.value("absorption")
    )
    return dry, dry / density, brought
