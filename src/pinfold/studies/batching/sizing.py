"""The size of a batch: within its bounds by whole bags, else a half, a third or a quarter of one, else by weight."""

from __future__ import annotations

import math

from pinfold.plan.place import Mixing
from pinfold.studies.batching.loose import Contents
from pinfold.studies.batching.records import Ingredient, Measure
from pinfold.units import CubicMeter, Ratio

_SLACK = 1e-9
PARTS_OF_A_BAG: tuple[tuple[Ratio, Measure], ...] = (
    (1 / 2, Measure.HALF_BAG), (1 / 3, Measure.THIRD_BAG), (1 / 4, Measure.QUARTER_BAG),
)  # fmt: skip
"""What a bag is divided into by hand: by one cut across, or into three or four buckets alike."""


def size_of(trial: Contents, most: CubicMeter) -> tuple[float, Measure]:
    """How many times a trial batch fits: by whole bags, part of a bag, whole buckets, or to the brim.

    Args:
        trial: a batch of any size
        most: finished mix of the largest batch
    """
    times = most / trial.makes
    lead = trial.ingredients[0]
    if lead.bags is not None:
        bags, measure = bags_that_fit(most=times * lead.bags)
        if bags:
            return bags / lead.bags, measure
    elif lead.buckets * times + _SLACK >= 1:
        return math.floor(lead.buckets * times + _SLACK) / lead.buckets, Measure.WHOLE_BUCKETS
    return times, Measure.WEIGHED


def bags_that_fit(*, most: Ratio) -> tuple[Ratio, Measure]:
    """Whole bags out of the most that may go in; part of one where no whole one fits; none where not even that does.

    Args:
        most: bags in the largest batch, not rounded
    """
    whole = math.floor(most + _SLACK)
    if whole:
        return float(whole), Measure.WHOLE_BAGS
    return next((part for part in PARTS_OF_A_BAG if most + _SLACK >= part[0]), (0.0, Measure.WEIGHED))


def measure_note(measure: Measure, lead: Ingredient, mixing: Mixing) -> tuple[str, ...]:
    """How the first part comes to its measure: the bag divided, opened low, or weighed."""
    part = lead.part.replace("_", " ")
    if measure is Measure.ALL:
        return ("All of it goes into one batch: weigh it out, or go by the bucket.",)
    if measure is Measure.WEIGHED:
        small = "Not even a quarter of a bag fits" if lead.bags is not None else "Not even a bucket fits"
        return (f"{small} the batch: weigh the {part} for each, or make a measure for it.",)
    if measure is Measure.HALF_BAG:
        return ("Half a bag: lay it flat, cut it across the middle and weigh one half; the other is the next batch.",)
    if measure in {Measure.THIRD_BAG, Measure.QUARTER_BAG}:
        count = round(1 / lead.bags) if lead.bags else 0
        return (f"Share a bag of {part} out by the scale into {count} dry buckets alike; lids keep what waits dry.",)
    if measure is Measure.WHOLE_BAGS and lead.bags and mixing.lift and lead.mass / lead.bags > mixing.lift:
        return (f"A bag of {part} is more than one person lifts: two lift it, or open it low and go by the bucket.",)
    return ()
