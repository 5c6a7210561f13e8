"""A weighed pail, also one that was not brim full."""

from __future__ import annotations

from pinfold.errors import InputError, OutOfRangeError
from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import corrections
from pinfold.tables.shelf import kind
from pinfold.units import KILOGRAM, CubicMeter, Kilogram, Meter, both


def taper_of_pail() -> Figure:
    """Bottom of a pail over its rim, where nobody measured it."""
    return kind("corrections", "foamed-density").figure("taper")


def density_of_pail(
    *, full: Kilogram, empty: Kilogram, holds: CubicMeter, gap: Meter | None, depth: Meter | None
) -> tuple[Step, ...]:  # fmt: skip
    """Lines of working to the density of a mix by a pail of it, the last one with the density.

    Args:
        full: pail with the mix
        empty: pail by itself
        holds: to the brim
        gap: from the rim down to the mix; None for brim full
        depth: inside depth of the pail; needed beside a gap

    Raises:
        InputError: the weights cannot be, or the depth is missing beside a gap.
    """
    try:
        if not gap:
            return (_density(full, empty, holds, 1.0),)
        if depth is None:
            raise InputError("the inside depth of the pail is wanted beside a gap, such as 35 cm", place="pail_depth")
        filled = work(
            corrections.pail_filled, why="how full the pail was", gap=gap, depth=depth, taper=taper_of_pail().value
        )
    except OutOfRangeError as wrong:
        raise InputError(str(wrong), place="gap" if gap else "weighed") from None
    return filled, _density(full, empty, holds, filled.number)


def _density(full: Kilogram, empty: Kilogram, holds: CubicMeter, filled: float) -> Step:
    if full <= empty:
        raise InputError(
            f"{both(full, KILOGRAM)} with the mix and {both(empty, KILOGRAM)} empty; a full pail weighs more. "
            "Were they swapped?",
            place="weighed",
        )
    return work(
        corrections.pail_density, why="the weighed pail", full=full, empty=empty, holds=holds, filled=filled
    )  # fmt: skip
