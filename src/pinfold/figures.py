"""A figure: one number with its unit, its source and its standing."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.sources import Standing
from pinfold.units import Unit


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One published, remembered or given number.

    Attributes:
        value: in the SI base of its unit.
        unit: SI unit of the value.
        standing: how it was come by.
        source: key of its publication; `GIVEN` for the builder's own.
        where: clause, table or page, may be empty.
        printed: the text as the source or the plan has it.
    """

    value: float
    unit: Unit
    standing: Standing
    source: str
    where: str = ""
    printed: str = ""


def given(value: float, unit: Unit, printed: str = "") -> Figure:
    """A figure the builder wrote into the plan."""
    return Figure(value=value, unit=unit, standing=Standing.GIVEN, source="GIVEN", printed=printed)
