"""A bank as it pushes: its coefficient, what of its weight counts, and what was taken for granted."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from pinfold.errors import NotFoundError
from pinfold.figures import Figure, given
from pinfold.findings import Step, work
from pinfold.formulas import earth
from pinfold.plan.grounds import Bank
from pinfold.studies.stability.factors import Named
from pinfold.units import METER, PASCAL, RADIAN, KgPerCubicMeter, Radian


@dataclass(frozen=True, kw_only=True)
class Heap:
    """A bank as it pushes.

    Attributes:
        bank: as planned.
        coefficient: of active pressure, with its working.
        density: of the earth that pushes; less the water's where it is soaked.
        lean: of the push from level.
        working: how both were found.
        figures: that went in.
        notes: what was taken.
    """

    bank: Bank
    coefficient: float
    density: KgPerCubicMeter
    lean: Radian
    working: tuple[Step, ...]
    figures: Named
    notes: tuple[str, ...]


@lru_cache(maxsize=64)
def heap_of(bank: Bank) -> Heap:
    """How a bank pushes.

    Raises:
        NotFoundError: its soil, friction angle or density is not known.
        OutOfRangeError: angles that no earth holds.
    """
    if bank.soil is None:
        raise NotFoundError(f"no soil is given for bank {bank.name}; write soil under it")
    angle, density = bank.soil.figure("friction_angle"), bank.soil.figure("density")
    pushes, lean = _coefficient(bank, angle.value)
    steps, weight = [pushes], density.value
    if not bank.drained:
        under = work(earth.soaked_density, why="the bank counts as soaked", density=density.value)
        steps, weight = [*steps, under], under.number
    return Heap(
        bank=bank, coefficient=pushes.number, density=weight, lean=lean, working=tuple(steps),
        figures=_figures(bank, angle, density), notes=(_water_note(bank), bank.soil.word("note")),
    )  # fmt: skip


def _coefficient(bank: Bank, angle: Radian) -> tuple[Step, Radian]:
    if bank.wall_friction > 0:
        rough = work(
            earth.active_pressure_by_coulomb, why="a wedge that hangs on the wall", friction_angle=angle,
            wall_friction=bank.wall_friction, slope=bank.slope,
        )  # fmt: skip
        return rough, bank.wall_friction
    smooth = work(
        earth.active_pressure_by_rankine, why="earth behind a smooth wall", friction_angle=angle, slope=bank.slope
    )
    return smooth, bank.slope


def _figures(bank: Bank, angle: Figure, density: Figure) -> Named:
    named = [
        ("height of the bank", given(bank.height, METER)), ("friction angle of the bank", angle),
        ("density of the bank", density),
    ]  # fmt: skip
    for name, value, unit in (
        ("slope of the bank", bank.slope, RADIAN), ("friction on the wall", bank.wall_friction, RADIAN),
        ("surcharge", bank.surcharge, PASCAL),
    ):  # fmt: skip
        if value > 0:
            named.append((name, given(value, unit)))
    return tuple(named)


def _water_note(bank: Bank) -> str:
    if bank.drained:
        return "it must stay drained: gravel behind the wall and a way out at its foot"
    return "without a drain the bank counts as soaked to its top; with gravel and a way out write drained = true"
