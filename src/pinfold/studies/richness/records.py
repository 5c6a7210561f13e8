"""What a richer or leaner mix does, as records: a ladder of mixes from rich to lean, the present one among them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.sources import Standing
from pinfold.tables.shelf import Kind
from pinfold.units import KgPerCubicMeter, Kilogram, Meter, Pascal, Ratio, Unit


class Band(NamedTuple):
    """A figure with its spread.

    Attributes:
        value: in SI of the unit.
        low: about 5 of 100 lie below.
        high: about 95 of 100 lie below.
        unit: of all three.
    """

    value: float
    low: float
    high: float
    unit: Unit


@dataclass(frozen=True, kw_only=True)
class Amounts:
    """What so much of a mix takes: a cubic meter of it, a square meter of coat or wall, or all the plan needs.

    Attributes:
        cement: mass.
        lime: mass; 0 without.
        sand: dry mass.
        gravel: mass; 0 without.
        water: all of it, mass.
        hauled: mass to bring: binders, sand as damp as it lies, gravel, and the water to add.
        cost: of what is bought, in the smallest coin, not rounded; None where a price is missing.
        carbon: dioxide set free by making it, middle and spread.
    """

    cement: Kilogram
    lime: Kilogram
    sand: Kilogram
    gravel: Kilogram
    water: Kilogram
    hauled: Kilogram
    cost: float | None
    carbon: Band


@dataclass(frozen=True, kw_only=True)
class Hardening:
    """How a mix hardens; None for what has no standing or is not known.

    Attributes:
        strength: at 28 days.
        modulus: stiffness.
        tension: what it can be pulled.
        shrinkage: if nothing held it, in the end.
        stiffer: modulus beside the present mix's.
        shrinks: shrinkage beside the present mix's.
    """

    strength: Band | None
    modulus: Band | None
    tension: Band | None
    shrinkage: Band | None
    stiffer: Band | None
    shrinks: Band | None


@dataclass(frozen=True, kw_only=True)
class Drying:
    """What drying does to a mix in its place.

    Attributes:
        pull: tension that it makes, held by the wall or the footing.
        used: that pull beside what the mix can be pulled.
        opens: strain that shows as cracks; 0 where it stays whole.
        chance: of cracking.
    """

    pull: Pascal
    used: Ratio
    opens: Ratio
    chance: Ratio


@dataclass(frozen=True, kw_only=True)
class Rung:
    """One mix of the ladder.

    Attributes:
        parts: as said, such as `1:1/4:4`, or the density of a foamed mix.
        sand: parts of sand, in concrete of sand and stone, to one of cement by loose volume; by mass in a foamed mix.
        mix: made so.
        water_cement: by mass, for the same flow as the present mix.
        density: as mixed.
        filled: paste over the gaps between the grains of sand; None where it says nothing.
        hardens: strength, stiffness, shrinkage.
        drying: what it does there; None where that is not shown.
        per_volume: for a cubic meter.
        per_area: for a square meter of coat or wall, waste in it; None for what has no face.
        whole: for all that the plan needs of it; None where it needs none.
        outside: why it lies outside the published range; empty inside.
        richer_than_under: name of the coat under it that it is richer than; empty where there is none.
        leaner_than_over: name of the coat over it that is richer than it; empty where there is none.
        missing: what is NOT SHOWN, and why.
    """

    parts: str
    sand: Ratio
    mix: Kind
    water_cement: Ratio
    density: KgPerCubicMeter
    filled: Ratio | None
    hardens: Hardening
    drying: Drying | None
    per_volume: Amounts
    per_area: Amounts | None
    whole: Amounts | None
    outside: str
    richer_than_under: str
    leaner_than_over: str
    missing: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class SandRange:
    """The published range of a mix: sand to all that binds, all stone to cement in concrete, or density.

    Attributes:
        low: least.
        high: most.
        of: what it counts, in plain words.
        source: publication key.
        standing: how it was come by.
    """

    low: float
    high: float
    of: str
    source: str
    standing: Standing


@dataclass(frozen=True, kw_only=True)
class Richness:
    """What a richer or leaner mix does to one layer.

    Attributes:
        mix: the present one.
        layer: where it goes; empty where the plan does not use it.
        buildup: of the plan, whose wall holds the coat, or is it; empty for none.
        coat: kind of coat; empty where it is none.
        thickness: of the coat or the wall; None where it has no face.
        rungs: from rich to lean.
        present: place of the present mix among them.
        by_sand: a foamed mix at its density with other shares of sand, the present one among them; empty for others.
        present_by_sand: its place there.
        wanted: strength that must be held; None where none is wanted.
        cheapest: place of the cheapest of which 95 of 100 batches hold it; None where none does, or none is wanted.
        cheapest_by_half: likewise of which half of the batches do.
        published: range; None where none is known.
        method: how each figure was found, in plain words.
        why: why more cement is not simply stronger, by these figures.
        left_out: what is not looked at.
        steps: lines of working of the present mix.
        figures: that went in.
        currency: of the costs.
        digits: decimals of the currency.
    """

    mix: Kind
    layer: str
    buildup: str
    coat: str
    thickness: Meter | None
    rungs: tuple[Rung, ...]
    present: int
    by_sand: tuple[Rung, ...]
    present_by_sand: int
    wanted: Pascal | None
    cheapest: int | None
    cheapest_by_half: int | None
    published: SandRange | None
    method: tuple[str, ...]
    why: tuple[str, ...]
    left_out: tuple[str, ...]
    steps: tuple[Step, ...]
    figures: tuple[tuple[str, Figure], ...]
    currency: str
    digits: int
