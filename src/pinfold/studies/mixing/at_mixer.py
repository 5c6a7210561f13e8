"""What must lie at the mixer: sand, gravel and water for a day and for a whole card, in barrows, buckets, trips."""

from __future__ import annotations

import math

from pinfold.figures import practice
from pinfold.plan.place import Haul
from pinfold.studies.batching.charge import scaled
from pinfold.studies.batching.records import BatchCard, Charge, Heap, Supply
from pinfold.studies.gathering.water import WASHING
from pinfold.units import SECOND, CubicMeter

DAY = practice("6 h", SECOND, "mixing and laying in a day; the rest sets up, cleans and covers")
ROUND = practice("15 min", SECOND, "charging, turning and emptying one batch")
_BY_BARROW = ("sand", "gravel", "clay_soil")


def in_a_day(charge: Charge) -> int:
    """Batches that one person mixes and uses up in a day, at least one."""
    using = charge.makes / charge.in_hand.use_rate if charge.in_hand else 0.0
    return max(math.floor(DAY.value / max(ROUND.value, using)), 1)


def supply(charge: Charge, times: float, *, haul: Haul, barrow: CubicMeter) -> Supply:
    """What must lie at the mixer for so many batches.

    Args:
        charge: of one batch
        times: how many, the last at its share
        haul: tank that water comes in
        barrow: what one holds, as it is filled
    """
    parts = [scaled(part, times) for part in charge.ingredients]
    poured = (charge.water_to_add + (charge.foam.water if charge.foam else 0.0)) * times
    water = poured * (1 + WASHING.value)
    return Supply(
        batches=times,
        heaps=tuple(
            Heap(part=part, barrows=math.ceil(part.loose / barrow - 1e-9))
            for part in parts if part.part in _BY_BARROW
        ),
        water=water,
        trips=None if haul.tank is None else math.ceil(water / haul.tank - 1e-9),
        lifted=sum(part.as_it_lies for part in parts) + charge.water_to_add * times * 1000.0,
    )  # fmt: skip


def supplies(card: BatchCard, charge: Charge, *, haul: Haul, barrow: CubicMeter) -> tuple[Supply, Supply]:
    """For a day, and for the whole card."""
    times = card.gross / charge.makes
    day = min(float(in_a_day(charge)), times)
    return supply(charge, day, haul=haul, barrow=barrow), supply(charge, times, haul=haul, barrow=barrow)
