"""What batching gives: one charge of the mixer, and the card that says how often it is repeated and where it goes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.plan.measures import SiteMeasure
from pinfold.sources import Standing, weakest
from pinfold.tables.shelf import Kind
from pinfold.units import Celsius, CubicMeter, CubicMeterPerSecond, KgPerCubicMeter, Kilogram, Ratio, Second

_SLACK = 1e-9


class Measure(StrEnum):
    """What the size of a batch is built on."""

    WHOLE_BAGS = "whole bags"
    HALF_BAG = "half a bag"
    THIRD_BAG = "a third of a bag"
    QUARTER_BAG = "a quarter of a bag"
    WHOLE_BUCKETS = "whole buckets"
    ALL = "all there is to mix"
    WEIGHED = "weighed"  # neither fits the mixer: the first part is weighed out


class Bound(StrEnum):
    """What keeps a batch from being larger."""

    MIXER = "the mixer"
    BACK = "your back"
    SET = "the time before it sets"


@dataclass(frozen=True, kw_only=True)
class Limit:
    """The largest batch by one bound.

    Attributes:
        bound: which.
        most: finished mix.
        working: how it was found; nothing where the plan says it.
        figures: that went in.
    """

    bound: Bound
    most: CubicMeter
    working: tuple[Step, ...] = ()
    figures: tuple[tuple[str, Figure], ...] = ()


@dataclass(frozen=True, kw_only=True)
class InHand:
    """How long a mix can be used, and how fast it is.

    Attributes:
        temperature: of the air and the mix.
        workable: from the first water to the last of it in its place.
        use_rate: finished mix that one person puts into its place.
        figures: usual time and rate, with their standing.
    """

    temperature: Celsius
    workable: Second
    use_rate: CubicMeterPerSecond
    figures: tuple[tuple[str, Figure], ...]


@dataclass(frozen=True, kw_only=True)
class Ingredient:
    """One dry part of a batch, or of all batches of a card.

    Attributes:
        part: its word in the mix: cement, dry_mix, lime, clay_soil, sand, gravel.
        kind: of shelf `materials`.
        mass: of sand and gravel dry, of the others as they come.
        loose: volume to measure, loose, sand as damp as it lies.
        buckets: level buckets of that volume.
        bags: bags of it; None for what is not taken by the bag.
        as_it_lies: what the scale shows of it: sand with the water on and in it, all else as its mass.
        bucketful: how full a bucket of it may be, 1 level, so that one person lifts it again and again.
        counted_in: the measure that the builder counts it in instead of the bucket; None for the bucket.
    """

    part: str
    kind: Kind
    mass: Kilogram
    loose: CubicMeter
    buckets: Ratio
    bags: Ratio | None
    as_it_lies: Kilogram
    bucketful: Ratio = 1.0
    counted_in: SiteMeasure | None = None

    @property
    def lifts(self) -> int:
        """Buckets to lift, none fuller than it may be."""
        return math.ceil(self.buckets / self.bucketful - _SLACK)


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
        limits: the largest batch by each bound that is asked: mixer, back, time.
        in_hand: how long it can be used; None for what does not set, or where no temperature is known.
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
    limits: tuple[Limit, ...]
    in_hand: InHand | None
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

    @property
    def governs(self) -> Bound:
        """Which bound keeps the batch from being larger."""
        return min(self.limits, key=lambda limit: limit.most).bound

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
class PartBatch:
    """The last batch where it is no whole one: the amounts of a charge at its share.

    Attributes:
        share: of a full charge, above 0 and below 1.
        ingredients: dry parts.
        water_to_add: to pour in.
        foam_to_make: None for anything but foamed mixes.
        makes: finished mix.
    """

    share: Ratio
    ingredients: tuple[Ingredient, ...]
    water_to_add: CubicMeter
    foam_to_make: CubicMeter | None
    makes: CubicMeter


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
        part_batch: what the last one takes where it is no whole one; None where it is.
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
    part_batch: PartBatch | None = None

    @property
    def places(self) -> tuple[str, ...]:
        """Where it goes."""
        return tuple(share.place for share in self.shares)


class Heap(NamedTuple):
    """Sand, gravel or soil beside the mixer.

    Attributes:
        part: with its amounts.
        barrows: to wheel there.
    """

    part: Ingredient
    barrows: int


@dataclass(frozen=True, kw_only=True)
class Supply:
    """What must lie at the mixer.

    Attributes:
        batches: for how many, the last at its share.
        heaps: of what comes by the barrow.
        water: to pour in and to wash out with.
        trips: for that water; None where no tank is known.
        lifted: all that one person lifts into the mixer.
    """

    batches: Ratio
    heaps: tuple[Heap, ...]
    water: CubicMeter
    trips: int | None
    lifted: Kilogram
