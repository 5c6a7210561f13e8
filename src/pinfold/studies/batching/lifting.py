"""The back: what one person lifts at once, now and then and again and again, and how much that charges in one go."""

from __future__ import annotations

from pinfold.figures import practice, printed
from pinfold.findings import Step, work
from pinfold.formulas import batch_size
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.units import RATIO, Kilogram, Ratio

AGAIN = printed("70 %", RATIO, Standing.READ, "HSE-LIFTING", "30 % less where it is lifted once or twice a minute")
"""What is left of a lift when bucket follows bucket."""
PACE = printed("2", RATIO, Standing.READ, "HSE-LIFTING", "lifts in a minute that this share holds for")
CHARGING = practice("10", RATIO, "minutes from the first to the last bucket of a charge")


def lifted_again(lift: Kilogram) -> Kilogram:
    """What one lifts bucket after bucket, of what one lifts now and then."""
    return lift * AGAIN.value


def bucketful(full: Kilogram, mixing: Mixing) -> Ratio:
    """How full a bucket may be, 1 level.

    Args:
        full: what a level bucket weighs
        mixing: what one lifts
    """
    if mixing.lift is None or full <= 0:
        return 1.0
    return min(lifted_again(mixing.lift) / full, 1.0)


def most_lifted(lift: Kilogram) -> Step:
    """Mass of the largest charge by the back."""
    return work(
        batch_size.charge_by_lifts, why="what one person lifts into a charge", lift=lift, share=AGAIN.value,
        pace=PACE.value, minutes=CHARGING.value,
    )  # fmt: skip
