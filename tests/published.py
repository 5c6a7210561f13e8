"""Printed values as evidence: the digits as printed, where they stand, and how near ours must come."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True)
class Printed:
    """A value as a publication prints it.

    Attributes:
        digits: the text as printed, such as `17.80`; its last digit sets the tolerance.
        source: publication key in publications.toml.
        where: page, table, example, and the copy read.
        grade: A, A2 (read through a transcription) or R (read in the copy named); B is a fit: something was chosen so
            that the print comes out, and does not count as evidence.
    """

    digits: str
    source: str
    where: str
    grade: str = "R"

    @property
    def value(self) -> float:
        return float(self.digits)

    @property
    def half_step(self) -> float:
        """Half a step of the last printed digit."""
        return float(Decimal(1).scaleb(Decimal(self.digits).as_tuple().exponent)) / 2

    def fits(self, got: float, *, method_error: float = 0.0) -> bool:
        """Whether ours rounds to the print, widened only by an error the source itself states (as a share)."""
        return abs(got - self.value) <= self.half_step * 1.000001 + abs(self.value) * method_error
