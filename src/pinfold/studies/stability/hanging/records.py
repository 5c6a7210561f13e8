"""What one hinge asks of its screws or bolts, and what one of these holds."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.findings import Step
from pinfold.studies.stability.factors import Named
from pinfold.units import Newton


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What one hinge asks of its screws.

    Attributes:
        level: pull of the upper hinge out of the post, in the plane of the leaf.
        weight: of the leaf, all of it on this hinge.
        wind: pull square to the leaf.
        steps: working.
        figures: what it rests on.
    """

    level: Newton
    weight: Newton
    wind: Newton
    steps: tuple[Step, ...]
    figures: Named


@dataclass(frozen=True, kw_only=True)
class Held:
    """What one screw may carry, ten years of load.

    Attributes:
        pulled: along it.
        pushed: square to it.
        wood: whether the time that a load lasts counts.
        steps: working.
        figures: what it rests on.
    """

    pulled: Newton
    pushed: Newton
    wood: bool
    steps: tuple[Step, ...]
    figures: Named
