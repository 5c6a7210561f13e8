"""Writing one line of the take-off: the count, its waste, and what to say where a figure is missing."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from pinfold.errors import InputError, NotFoundError, OutOfRangeError
from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Unit


@dataclass(frozen=True, kw_only=True)
class Count:
    """What counting one thing gave.

    Attributes:
        net: in the unit of its line.
        note: how it was counted.
        working: formulas used.
    """

    net: float
    note: str
    working: tuple[Step, ...] = ()


def line(
    *, kind: Kind, layer: str, place: str, unit: Unit, count: Callable[[], Count], waste: Figure | None = None
) -> Quantity:  # fmt: skip
    """One line of the take-off; where a figure is missing its net is not a number and its note says what is missing."""
    try:
        counted = count()
    except (NotFoundError, OutOfRangeError, InputError) as lack:
        counted = Count(net=math.nan, note=f"not counted: {lack}")
    return Quantity(
        kind=kind, layer=layer, place=place, unit=unit, net=counted.net, waste=waste.value if waste else 0.0,
        waste_figure=waste, note=counted.note, working=counted.working,
    )  # fmt: skip


def habit(row: str, figure: str) -> float:
    """A figure of shelf `waste`, in SI."""
    return kind("waste", row).value(figure)


def waste_of(of: Kind, row: str) -> Figure:
    """The waste the kind itself tells, else the usual one of shelf `waste`."""
    return of.figure("waste") if of.has("waste") else kind("waste", row).figure("waste")


def plural(number: float, word: str) -> str:
    """`1 course`, `3 courses`, `2.5 courses`."""
    shown = f"{number:.2f}".rstrip("0").rstrip(".")
    return f"{shown} {word if shown == '1' else word + 's'}"
