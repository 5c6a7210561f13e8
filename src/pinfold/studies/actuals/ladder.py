"""From plan to actual rung by rung: one planned figure after the other gives way to the real one.

What each rung adds is that figure's reason. The last rung is what really happened, so the reasons add up to the
difference exactly, in whole coins where it is money; the order of the rungs is the order in which a batch goes wrong.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from pinfold.studies.actuals.records import CoinReason, Reason

_NOTHING = 1e-9


class Rung(NamedTuple):
    """One rung.

    Attributes:
        says: the reason.
        level: what it all comes to with this figure and those before it real.
    """

    says: str
    level: float


def reasons(start: float, rungs: Iterable[Rung]) -> tuple[Reason, ...]:
    """What each rung adds; rungs that add nothing are left out.

    Args:
        start: as planned
        rungs: one after the other
    """
    found, level = [], start
    for rung in rungs:
        if abs(rung.level - level) > _NOTHING * max(abs(start), 1.0):
            found.append(Reason(rung.says, rung.level - level))
        level = rung.level
    return tuple(found)


def coin_reasons(start: int, rungs: Sequence[Rung]) -> tuple[int, tuple[CoinReason, ...]]:
    """The last rung in whole coins, and what each rung adds in whole coins; together exactly the difference."""
    found, level = [], start
    for rung in rungs:
        after = round(rung.level)
        if after != level:
            found.append(CoinReason(rung.says, after - level))
        level = after
    return level, tuple(found)
