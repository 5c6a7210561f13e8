"""A mix with another share of sand that flows alike: its parts, its water, its volume and its paste.

Water for the same flow: in mortar each part asks for its own (cement, lime, sand), and the present mix says how wet the
builder likes it; in concrete the water in a cubic meter stays, whatever the cement, as ACI 211 has it for one slump and
stone. The volume is by absolute volumes, brought to what the present mix makes by its own rule and by the log.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from pinfold.errors import NotFoundError
from pinfold.figures import Figure, practice, printed
from pinfold.findings import Step, work
from pinfold.formulas import concrete_batch, mixes, richness
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.studies.batching.loose import contents, parts_of, water_density
from pinfold.studies.batching.sand import moisture_of
from pinfold.tables.shelf import Kind
from pinfold.units import RATIO, CubicMeter, KgPerCubicMeter, Kilogram, Ratio

FOR_CEMENT = printed("25 %", RATIO, Standing.READ, "CEMENT-AND-CONCRETE", "section 279, between 20 and 28 %")
FOR_SAND = printed("10 %", RATIO, Standing.READ, "CEMENT-AND-CONCRETE", "section 279, more for fine sand")
FOR_LIME = practice("60 %", RATIO, "water of a hydrated lime paste as stiff as mortar")
_USUAL_AIR = practice("6 %", RATIO, "mortar and plaster mixed by machine or hoe")
_LEAD: CubicMeter = 1.0
"""Loose cement that a recipe is worked out for."""


@dataclass(frozen=True, kw_only=True)
class Recipe:
    """A mix for a cubic meter of its loose cement.

    Attributes:
        mix: with its sand, water and air.
        masses: of its dry parts.
        water: all of it.
        volume: finished mix.
        filled: paste over the gaps of the sand; None in concrete.
        sand_water: free water that the damp sand brings.
        damp: water in and on the damp sand.
        steps: lines of working.
    """

    mix: Kind
    masses: Mapping[str, Kilogram]
    water: Kilogram
    volume: CubicMeter
    filled: Ratio | None
    sand_water: Kilogram
    damp: Kilogram
    steps: tuple[Step, ...]

    @property
    def water_cement(self) -> Ratio:
        """By mass."""
        return self.water / self.masses["cement"]

    @property
    def density(self) -> KgPerCubicMeter:
        """As mixed."""
        return (math.fsum(self.masses.values()) + self.water) / self.volume

    @property
    def water_share(self) -> Ratio:
        """Water over all as mixed."""
        return self.water / (math.fsum(self.masses.values()) + self.water)

    @property
    def stones(self) -> Ratio:
        """Share of the volume that is grains of sand and stone."""
        materials = dict(parts_of(self.mix))
        return math.fsum(
            self.masses[part] / materials[part].value("particle_density") for part in ("sand", "gravel")
            if part in self.masses
        ) / self.volume  # fmt: skip


@dataclass(frozen=True, kw_only=True, eq=False)
class Base:
    """The present mix, from which others are made.

    Attributes:
        mix: of shelf `mixes`, in parts by loose volume.
        mixing: of the site.
    """

    mix: Kind
    mixing: Mixing

    @property
    def is_concrete(self) -> bool:
        """Whether stone is in it, which then goes with the sand."""
        return self.mix.has("gravel")

    @cached_property
    def parts(self) -> Mapping[str, Kind]:
        """Its materials.

        Raises:
            NotFoundError: it is not given in loose parts with sand and cement.
        """
        found = dict(parts_of(self.mix))
        if not (self.mix.has("cement") and self.mix.has("sand") and self.mix.has("water_cement")):
            raise NotFoundError(f"{self.mix.name} is not given as parts of cement, sand and water")
        return found

    @property
    def sand(self) -> Ratio:
        """Parts of sand, in concrete of sand and stone, to one of cement."""
        stones = self.mix.value("sand") + (self.mix.value("gravel") if self.is_concrete else 0.0)
        return stones / self.mix.value("cement")

    @cached_property
    def _yields(self) -> Ratio:
        """What a batch of it makes over its absolute volume."""
        batch = contents(self.mix, lead=_LEAD, mixing=self.mixing)
        return batch.makes / self._made(self._masses(self.sand), self.mix.value("water_cement"))[0]

    @cached_property
    def present(self) -> Recipe:
        """It itself."""
        return self.at(self.sand)

    def at(self, sand: Ratio) -> Recipe:
        """The same with so much sand to one of cement, as wet to the hand.

        Raises:
            OutOfRangeError: nothing of that kind can be mixed.
            NotFoundError: a figure is missing.
        """
        masses = self._masses(sand)
        ratio, steps = self._water(masses)
        volume, air, filled, more = self._made(masses, ratio)
        bulk, damp = self._damp(masses["sand"])
        return Recipe(
            mix=self._made_so(sand, ratio, air), masses=masses, water=ratio * masses["cement"],
            volume=volume * self._yields, filled=filled, sand_water=bulk, damp=damp, steps=(*steps, *more),
        )  # fmt: skip

    def _masses(self, sand: Ratio) -> dict[str, Kilogram]:
        one = _LEAD / self.mix.value("cement")
        more = {"sand", "gravel"} if self.is_concrete else {"sand"}
        times = sand / self.sand
        return {
            part: mixes.loose_mass(
                volume=one * self.mix.value(part) * (times if part in more else 1.0),
                bulk_density=material.value("bulk_density"),
            )
            for part, material in self.parts.items()
        }  # fmt: skip

    def _water(self, masses: Mapping[str, Kilogram]) -> tuple[Ratio, tuple[Step, ...]]:
        known = self.mix.value("water_cement")
        if self.is_concrete:
            return self._water_of_concrete(masses, known)
        here, wanted = (
            self._asked(self._masses(self.sand), "the present mix asks"),
            self._asked(masses, "this one asks"),
        )
        step = work(
            richness.water_at_same_flow, why="for the same flow", water=known, wanted=wanted.number, known=here.number
        )
        return step.number, (here, wanted, step)

    def _asked(self, masses: Mapping[str, Kilogram], why: str) -> Step:
        return work(
            richness.water_of_parts, why=why, cement=masses["cement"], lime=masses.get("lime", 0.0),
            sand=masses["sand"], for_cement=FOR_CEMENT.value, for_lime=FOR_LIME.value, for_sand=FOR_SAND.value,
        )  # fmt: skip

    def _water_of_concrete(self, masses: Mapping[str, Kilogram], known: Ratio) -> tuple[Ratio, tuple[Step, ...]]:
        """The water in a cubic meter stays as it is: V (1 − a − W) is what the grains take."""
        here = self._masses(self.sand)
        volume = (self._grains(here) + known * here["cement"] / water_density()) / (1 - self._air)
        share = known * here["cement"] / water_density() / volume
        wanted = self._grains(masses) / (1 - self._air - share)
        return share * wanted * water_density() / masses["cement"], ()

    def _made(
        self, masses: Mapping[str, Kilogram], ratio: Ratio
    ) -> tuple[CubicMeter, Ratio, Ratio | None, tuple[Step, ...]]:
        """Volume by absolute volumes, its air, how full the gaps are; a lean mortar is no less than its sand."""
        solids, water = self._grains(masses), ratio * masses["cement"] / water_density()
        made = work(mixes.mixed_volume, why="by absolute volumes", solids=solids, water=water, air=self._air)
        if self.is_concrete:
            return made.number, self._air, None, (made,)
        sand = self.parts["sand"]
        grains = masses["sand"] / sand.value("particle_density")
        dry = masses["sand"] / (sand.value("bulk_density") * (1 + sand.value("bulking_low")))
        filled = work(
            richness.gaps_filled, why="paste over the gaps of the sand", paste=solids - grains + water, sand=dry,
            grains=grains,
        )  # fmt: skip
        volume = max(made.number, dry)
        return volume, 1 - (solids + water) / volume, filled.number, (made, filled)

    def _grains(self, masses: Mapping[str, Kilogram]) -> CubicMeter:
        return math.fsum(
            mixes.absolute_volume(mass=mass, density=self.parts[part].value("particle_density"))
            for part, mass in masses.items()
        )

    @property
    def _air(self) -> Ratio:
        return self.mix.value("air") if self.mix.has("air") else _USUAL_AIR.value

    def _damp(self, sand: Kilogram) -> tuple[Kilogram, Kilogram]:
        """Free water in so much dry sand as it lies, and all water in it."""
        material = self.parts["sand"]
        moisture = moisture_of(material, self.mixing.sand_bulking)
        free = concrete_batch.free_water(
            moist=sand * (1 + moisture), moisture=moisture, absorption=material.value("absorption")
        )
        return free, sand * moisture

    def _made_so(self, sand: Ratio, ratio: Ratio, air: Ratio) -> Kind:
        """A kind of its own, without the strength its type is known by: that is no longer its."""
        times = sand / self.sand
        new = {name: self.mix.value(name) * times for name in ("sand", "gravel") if self.mix.has(name)}
        new = {"sand": new["sand"]} if not self.is_concrete else new
        figures = {name: figure for name, figure in self.mix.figures.items() if name != "strength"}
        for name, value in {**new, "water_cement": ratio, "air": air}.items():
            figures[name] = _derived(value, figures.get(name, _USUAL_AIR))
        return replace(self.mix, figures=figures)


def _derived(value: float, of: Figure) -> Figure:
    return replace(of, value=value, printed="")
