"""A figure: one number with its unit, its source and its standing."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.sources import Standing
from pinfold.units import Unit, read


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


def printed(text: str, unit: Unit, standing: Standing, source: str, where: str) -> Figure:
    """A figure read from its text, such as `0.012 in`, once for all when pinfold starts."""
    return Figure(
        value=read(text, like=unit), unit=unit, standing=standing, source=source, where=where, printed=text
    )  # fmt: skip


def practice(text: str, unit: Unit, where: str) -> Figure:
    """A figure of common practice, read from its text."""
    return printed(text, unit, Standing.PRACTICE, "PRACTICE", where)
