"""Two plans held against each other on every criterion."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.studies.weighing.between import Difference
from pinfold.studies.weighing.records import Weighed
from pinfold.units import Meter


@dataclass(frozen=True, kw_only=True)
class PlansCompared:
    """Two plans.

    Attributes:
        one: this site's plan, judged.
        other: the other.
        one_length: of enclosure, gates and all.
        other_length: likewise.
        differences: where the other differs, criterion by criterion.
        notes: what keeps them from being compared in all.
    """

    one: Weighed
    other: Weighed
    one_length: Meter
    other_length: Meter
    differences: tuple[Difference, ...]
    notes: tuple[str, ...]
