"""What batching gives: one charge of the mixer, and the card that says how often it is repeated and where it goes."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.sources import Standing, weakest
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Ratio


class Measure(StrEnum):
    """What the size of a batch is built on."""

    WHOLE_BAGS = "whole bags"
    HALF_BAG = "half a bag"
    WHOLE_BUCKETS = "whole buckets"
    WEIGHED = "weighed"  # neither fits the mixer: the first part is weighed out


@dataclass(frozen=True, kw_only=True)
class Ingredient:
    """One dry part of a batch, or of all batches of a card.

    Attributes:
        part: its word in the mix: cement, lime, clay_soil, sand, gravel.
        kind: of shelf `materials`.
        mass: of sand and gravel dry, of the others as they come.
        loose: volume to measure, loose, sand as damp as it lies.
        buckets: level buckets of that volume.
        bags: bags of it; None for what is not taken by the bag.
    """

    part: str
    kind: Kind
    mass: Kilogram
    loose: CubicMeter
    buckets: Ratio
    bags: Ratio | None


@dataclass(frozen=True, kw_only=True)
class Foam:
    """The foam of one batch.

    Attributes:
        volume: that must survive the mixing.
        make: to make, so that this much survives.
        mass: of the foam that survives.
        water: that goes into the foam made.
        agent: concentrate that goes into the foam made; None when its dilution is not known.
        slurry: density of the mix before foam.
        cast: density aimed for; weigh a bucket to see.
        dry: density once dry.
    """

    volume: CubicMeter
    make: CubicMeter
    mass: Kilogram
    water: CubicMeter
    agent: CubicMeter | None
    slurry: KgPerCubicMeter
    cast: KgPerCubicMeter
    dry: KgPerCubicMeter


@dataclass(frozen=True, kw_only=True)
class Charge:
    """One batch: what goes in, in which order, and what comes out.

    Attributes:
        mix: of shelf `mixes`.
        ingredients: dry parts, binder first.
        water: all the mixing water, also what damp sand brings; the foam's own water apart.
        water_in_sand: what damp sand brings; below 0 where dry sand drinks.
        water_to_add: what is poured in, the last of it by feel.
        makes: finished mix.
        density: of the fresh mix.
        measure: what the size of the batch is built on.
        foam: None for anything but foamed mixes.
        order: how to charge the mixer, one line a step.
        cautions: the usual warnings of the trade.
        notes: what was assumed, and what the mix's own page says.
        working: lines of working.
        figures: figures that went in.
    """

    mix: Kind
    ingredients: tuple[Ingredient, ...]
    water: CubicMeter
    water_in_sand: CubicMeter
    water_to_add: CubicMeter
    makes: CubicMeter
    density: KgPerCubicMeter
    measure: Measure
    foam: Foam | None
    order: tuple[str, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
    working: tuple[Step, ...]
    figures: tuple[tuple[str, Figure], ...]

    @property
    def standing(self) -> Standing:
        """The weakest standing among its figures."""
        return weakest(figure.standing for _, figure in self.figures)

    def part(self, name: str) -> Ingredient:
        """The ingredient of that part.

        Raises:
            StopIteration: the mix has no such part.
        """
        return next(ingredient for ingredient in self.ingredients if ingredient.part == name)


@dataclass(frozen=True, kw_only=True)
class Share:
    """What of a card goes into one place."""

    place: str
    net: CubicMeter
    gross: CubicMeter


@dataclass(frozen=True, kw_only=True)
class BatchCard:
    """One mix for one layer: the charge, how many of them, and all it takes.

    Attributes:
        mix: of shelf `mixes`.
        layer: word of the layer it is for.
        shares: volume by place, in the order of the take-off.
        net: volume that stays in the work.
        gross: volume to mix, with waste.
        charge: None where a figure of the mix is missing.
        batches: how many, the last one counted whole.
        last: share of a full charge that the last batch needs, from above 0 to 1.
        totals: every ingredient for the whole volume, the last batch at its share.
        water: all mixing water, the foam's own apart.
        water_to_add: water to pour in; 0 without charge.
        missing: why there is no charge; empty otherwise.
    """

    mix: Kind
    layer: str
    shares: tuple[Share, ...]
    net: CubicMeter
    gross: CubicMeter
    charge: Charge | None
    batches: int
    last: Ratio
    totals: tuple[Ingredient, ...]
    water: CubicMeter
    water_to_add: CubicMeter
    missing: str

    @property
    def places(self) -> tuple[str, ...]:
        """Where it goes."""
        return tuple(share.place for share in self.shares)
