"""Weighed buckets as the log has them: what was in which measure, how full, and what it truly weighed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from pinfold.errors import InputError, OutOfRangeError
from pinfold.logbook.entries import Entry
from pinfold.logbook.seen import seen
from pinfold.plan.place import Mixing
from pinfold.studies.batching.sand import moisture_of
from pinfold.studies.lessons.records import Override
from pinfold.studies.lessons.scales import Scale
from pinfold.studies.lessons.things import figure_of, thing
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, Kilogram, Ratio


class Weighing(NamedTuple):
    """One weighed measure.

    Attributes:
        material: of shelf `materials`.
        measure: bucket, pail, shovel, barrow, bag.
        mass: true one, of what was in it.
        told: what the measure holds to the brim, where the entry says.
        share: how full it was; None where that is not said.
        day: ISO date.
    """

    material: Kind
    measure: str
    mass: Kilogram
    told: CubicMeter | None
    share: Ratio | None
    day: str

    def brim(self, filled: CubicMeter, usually: Ratio) -> CubicMeter:
        """What the measure holds to the brim, where so much was in it; filled as usual unless the entry says."""
        return filled / (usually if self.share is None else self.share)

    def filled(self, brim: CubicMeter, usually: Ratio) -> CubicMeter:
        """Volume that was in it, of a measure that holds so much to the brim."""
        return brim * (usually if self.share is None else self.share)


def weighings(
    weighed: Sequence[Entry], mixing: Mixing, scales: Mapping[str, Scale], aside: Counter[str]
) -> tuple[Weighing, ...]:  # fmt: skip
    """All that can be used; the rest is counted with its reason."""
    return tuple(_usable(weighed, mixing, scales, aside))


def _usable(
    weighed: Sequence[Entry], mixing: Mixing, scales: Mapping[str, Scale], aside: Counter[str]
) -> Iterator[Weighing]:  # fmt: skip
    for entry in weighed:
        material = thing("materials", entry.text("item"))
        if material is None:
            aside[f"weighed: no material called {entry.text('item')!r} is known"] += 1
            continue
        try:
            yield _weighing(entry, material, mixing, scales.get(entry.text("scale"), Scale()))
        except (InputError, OutOfRangeError) as wrong:
            aside[f"{material.name}, {entry.text('measure')}: {getattr(wrong, 'message', wrong)}"] += 1


def _weighing(entry: Entry, material: Kind, mixing: Mixing, scale: Scale) -> Weighing:
    found, measure = seen("bucket", entry.values), entry.text("measure")
    if "mass" not in found.figures:
        raise InputError("it was not weighed")
    mass = found.figures["mass"]
    once = measure == "bag" and not found.working  # a bag is weighed as it is, nothing is taken off
    return Weighing(
        material=material, measure=measure, mass=scale.reading(mass) if once else scale.difference(mass),
        told=entry.number("volume"), share=_share(entry, measure, mixing), day=entry.when.date().isoformat(),
    )  # fmt: skip


def _share(entry: Entry, measure: str, mixing: Mixing) -> Ratio | None:
    below, filled = entry.number("below"), entry.number("filled")
    if below is None or measure == "bag":
        return filled
    share = mixing.measure(measure).share_below(below)
    if share is None:
        raise InputError(
            f"how far below the rim says nothing while the {measure}'s height is not known; write it into the plan as "
            f"mixing.measure.{measure}.height"
        )
    return share


def dampness(material: Kind, mixing: Mixing, damp: Sequence[Override]) -> tuple[Ratio, Ratio, Ratio]:
    """Moisture, swelling and usual swelling of a material; three times 0 for what does not swell."""
    if not material.has("bulking_low"):
        return 0.0, 0.0, 0.0
    usual, bulking = material.value("bulking_low"), mixing.sand_bulking
    known = any((each.kind, each.name) == (material.name, "moisture") for each in damp)
    moisture = figure_of(material, "moisture", damp) if known else moisture_of(material, bulking)
    return moisture, usual if bulking is None else bulking, usual
