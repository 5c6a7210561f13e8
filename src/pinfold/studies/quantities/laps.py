"""Bars longer than a builder can carry: pieces and laps."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.findings import Step, work
from pinfold.formulas.steel import lap_by_allowable_stress
from pinfold.studies.quantities.lines import habit
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, System


@dataclass(frozen=True, kw_only=True)
class BarRules:
    """How one kind of bar is pieced together.

    Attributes:
        stock: length it comes in.
        lap: length of a lap.
        working: where the lap comes from.
    """

    stock: Meter
    lap: Meter
    working: Step


def bar_count(system: System, bar: Kind) -> BarRules:
    """The rules for a kind of bar.

    Raises:
        NotFoundError: its diameter is not known.
    """
    step = work(
        lap_by_allowable_stress, why=f"lap of {bar.name}", diameter=bar.value("diameter"),
        stress=habit("bars", "lap_stress"),
    )  # fmt: skip
    return BarRules(stock=habit("bars", f"length_{system.value}"), lap=step.number, working=step)


def bar_pieces(length: Meter, rules: BarRules) -> tuple[Meter, ...]:
    """Pieces of at most a stock length that make up a bar, laps in them: whole lengths and a last one."""
    if length <= rules.stock:
        return (length,)
    count = math.ceil((length - rules.lap) / (rules.stock - rules.lap) - 1e-9)
    last = length + (count - 1) * (rules.lap - rules.stock)
    return (*(rules.stock,) * (count - 1), last)
