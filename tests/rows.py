"""The rows of docs/validation.md: every outside check is one Row in some tests/published module's ROWS."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from published import Printed


@dataclass(frozen=True)
class Row:
    """One outside check.

    Attributes:
        what: what is checked, in words.
        printed: the published value.
        ours: gives our value in the printed unit.
        table: name of the table or example the row belongs to: no more than ten of one table count as evidence.
        formula: the formula it vouches for, `module.function`; empty for a table entry.
        method_error: error as a share that the source states or its step-wise rounding explains; reason in `note`.
        note: errata, rounding, departures.
        look_up: true where ours is a cell or constant that pinfold carries, at most scaled by what is put in: it guards
            typing and look-up, not the figure, and does not count.
    """

    what: str
    printed: Printed
    ours: Callable[[], float]
    table: str
    formula: str = ""
    method_error: float = 0.0
    note: str = ""
    look_up: bool = False

    def __str__(self) -> str:
        return self.what
