"""What correcting gives: what is off, what to add, and what the batch is before and after."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.studies.batching.records import Ingredient
from pinfold.studies.proportioning.records import Departure
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Ratio, Unit


class Off(StrEnum):
    """How a batch is off."""

    NEAR = "near enough"
    HEAVY = "too heavy"
    LIGHT = "too light"
    STIFF = "too stiff"
    WET = "too wet"
    UNEVEN = "out of its proportions"


@dataclass(frozen=True, kw_only=True)
class Held:
    """What is in the mixer.

    Attributes:
        mix: of shelf `mixes`.
        masses: of each part, sand and gravel surface dry.
        water: all the mixing water, also what damp sand brings; a foam's own apart.
        foam: folded in, as made.
        foam_mass: of that foam, which all stays.
        made: room it takes.
    """

    mix: Kind
    masses: tuple[tuple[str, Kilogram], ...]
    water: Kilogram
    foam: CubicMeter
    foam_mass: Kilogram
    made: CubicMeter

    @property
    def mass(self) -> Kilogram:
        """All of it."""
        return sum(mass for _, mass in self.masses) + self.water + self.foam_mass

    @property
    def cement(self) -> Kilogram:
        """Its cement; 0 where it has none."""
        return dict(self.masses).get("cement", 0.0)


@dataclass(frozen=True, kw_only=True)
class ToAdd:
    """What to put into the mixer.

    Attributes:
        take_out: of what is in it first, because else it would not hold all.
        foam: to make and fold in.
        slurry: mix without foam that the parts and the water below make; 0 where they go in by themselves.
        parts: dry parts.
        water: to pour in.
        water_in_all: with what damp sand brings.
    """

    take_out: CubicMeter = 0.0
    foam: CubicMeter = 0.0
    slurry: CubicMeter = 0.0
    parts: tuple[Ingredient, ...] = ()
    water: CubicMeter = 0.0
    water_in_all: CubicMeter = 0.0

    @property
    def is_nothing(self) -> bool:
        """Whether there is nothing to put in."""
        return not (self.foam or self.parts or self.water)


@dataclass(frozen=True, kw_only=True)
class Fresh:
    """A batch as it stands.

    Attributes:
        makes: its volume.
        density: of the fresh mix.
        dry: once dry; None for what is not foamed.
        cement: in a volume; None where there is none.
        water_cement: water over cement by mass, a foam's own water apart; None without cement.
        with_foam_water: the same with the liquid of the foam; None for what is not foamed.
    """

    makes: CubicMeter
    density: KgPerCubicMeter
    dry: KgPerCubicMeter | None
    cement: KgPerCubicMeter | None
    water_cement: Ratio | None
    with_foam_water: Ratio | None


@dataclass(frozen=True, kw_only=True)
class Correction:
    """One thing measured on a batch, and what puts it right.

    Attributes:
        of: the mix.
        by: what was measured: density, slump, amounts.
        found: as measured, in SI; None for amounts.
        wanted: what it should be.
        unit: of both.
        near: how near is near enough; None for amounts.
        off: how it is off.
        add: what to put in; nothing where it is near enough or nothing helps.
        before: the batch as it stands.
        after: the batch with what is added.
        lost: share of the foam that collapsed; None for what is not foamed.
        relative_yield: what the batch makes over what it was reckoned to make.
        air: in the fresh mix by its density; None where it cannot be told.
        departures: what lies outside published ranges.
        notes: what to mind, what it means for the next batch.
        working: lines of working.
        figures: that went in.
    """

    of: Kind
    by: str
    found: float | None
    wanted: float | None
    unit: Unit
    near: Figure | None
    off: Off
    add: ToAdd
    before: Fresh
    after: Fresh
    lost: Ratio | None = None
    relative_yield: Ratio | None = None
    air: Ratio | None = None
    departures: tuple[Departure, ...] = ()
    notes: tuple[str, ...] = ()
    working: tuple[Step, ...] = ()
    figures: tuple[tuple[str, Figure], ...] = ()


@dataclass(frozen=True, kw_only=True)
class NextMix:
    """A concrete put right for the next batch by what this one gave.

    Attributes:
        mix: by mass in a volume.
        water: in a volume.
        cement: likewise.
        sand: likewise, surface dry.
        gravel: likewise, surface dry.
        air: by the density of this batch.
        density: of the fresh mix.
        working: lines of working.
    """

    mix: Kind
    water: KgPerCubicMeter
    cement: KgPerCubicMeter
    sand: KgPerCubicMeter
    gravel: KgPerCubicMeter
    air: Ratio
    density: KgPerCubicMeter
    working: tuple[Step, ...] = ()
