"""What one bar in masonry carries by working stress: the steel, and the masonry pressed beside it."""

from __future__ import annotations

from typing import NamedTuple

from pinfold.findings import Step, work
from pinfold.formulas import masonry
from pinfold.studies.stability.factors import MASONRY_STIFFNESS, MASONRY_STRESS, STEEL_MODULUS, STEEL_STRESS, Named
from pinfold.units import Meter, NewtonMeter, Pascal, SquareMeter

STRESSES: Named = (
    ("steel", STEEL_STRESS), ("modulus of steel", STEEL_MODULUS), ("stiffness", MASONRY_STIFFNESS),
    ("masonry", MASONRY_STRESS),
)  # fmt: skip


class Bar(NamedTuple):
    """A bar in a wall.

    Attributes:
        area: of its section.
        width: of masonry that works with it.
        depth: from the pressed face to it.
    """

    area: SquareMeter
    width: Meter
    depth: Meter


def held_by_bar(bar: Bar, strength: Pascal) -> tuple[NewtonMeter, tuple[Step, ...]]:
    """Moment that a bar and the masonry of a strength beside it carry, and the working."""
    area, width, depth = bar
    ratio = work(masonry.steel_ratio, why="bar in the wall", area=area, width=width, depth=depth)
    stiff = work(
        masonry.modular_ratio, why="steel beside masonry", steel_modulus=STEEL_MODULUS.value,
        masonry_modulus=MASONRY_STIFFNESS.value * strength,
    )  # fmt: skip
    cracked = work(
        masonry.cracked_section, why="cracked section", modular_ratio=stiff.number, steel_ratio=ratio.number
    )  # fmt: skip
    parts = cracked.result
    assert isinstance(parts, masonry.CrackedSection)
    by_steel = work(
        masonry.moment_in_steel, why="what the bar carries", area=area, stress=STEEL_STRESS.value, lever=parts.lever,
        depth=depth,
    )  # fmt: skip
    by_masonry = work(
        masonry.moment_in_masonry, why="what the pressed masonry carries", stress=MASONRY_STRESS.value * strength,
        neutral=parts.neutral, lever=parts.lever, width=width, depth=depth,
    )  # fmt: skip
    return min(by_steel.number, by_masonry.number), (ratio, stiff, cracked, by_steel, by_masonry)
