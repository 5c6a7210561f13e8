"""The scaling test: a formula in coherent units gives the same answer whatever the size of kg, m, s and K.

Each argument is multiplied as if the base units had been chosen at random; the result must change accordingly. It
catches a missing square, a constant with a hidden unit, a mixed-up argument. Degrees Celsius are left alone.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from dataclasses import fields, is_dataclass

from pinfold.formulas.contract import contract_of
from pinfold.units import Unit


def _size(unit: Unit, base: tuple[float, ...]) -> float:
    return math.prod(size**power for size, power in zip(base, unit.powers, strict=True))


def misfit(formula: Callable[..., object], inputs: dict[str, object], *, seed: int = 7) -> float:
    """Largest relative departure from what the units demand, over three random choices of base units."""
    contract = contract_of(formula)
    units = {argument.name: argument.unit for argument in contract.arguments}
    chance = random.Random(seed)
    worst = 0.0
    for _ in range(3):
        base = tuple(math.exp(chance.uniform(-0.05, 0.05)) for _ in range(4))
        scaled = {
            name: value * _size(units[name], base)
            if units[name] is not None and isinstance(value, int | float)
            else value
            for name, value in inputs.items()
        }
        before, after = _numbers(formula(**inputs)), _numbers(formula(**scaled))
        for (_, unit), was, now in zip(contract.result, before, after, strict=True):
            wanted = was * _size(unit, base)
            if wanted or now:
                worst = max(worst, abs(now - wanted) / max(abs(wanted), abs(now)))
    return worst


def _numbers(result: object) -> list[float]:
    if is_dataclass(result):
        return [float(getattr(result, field.name)) for field in fields(result)]
    return [float(result)]  # type: ignore[arg-type]
