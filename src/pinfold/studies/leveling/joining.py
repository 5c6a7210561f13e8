"""Which readings hang together: setups are joined by the marks that were read from both."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.studies.leveling.records import LevelReading


def joined_to(
    readings: Sequence[LevelReading], datum: str
) -> tuple[tuple[LevelReading, ...], tuple[tuple[str, str], ...]]:  # fmt: skip
    """Readings that hang together with the datum, and the marks that do not, each with what would mend it.

    Args:
        readings: that are kept
        datum: mark at height 0; empty where heights are given
    """
    marks = {datum} if datum else {each.mark for each in readings if not each.setup}
    setups: set[str] = set()
    while True:
        reached = {each.setup for each in readings if each.setup and each.mark in marks}
        seen = marks | {each.mark for each in readings if each.setup in reached}
        if (reached, seen) == (setups, marks):
            break
        setups, marks = reached, seen
    inside = tuple(each for each in readings if (each.setup in setups if each.setup else not datum))
    lost = dict.fromkeys((each.mark, each.setup) for each in readings if each.mark not in marks)
    return inside, tuple(
        (mark, f"setup {setup} shares no mark with the others: read a mark of theirs from it") for mark, setup in lost
    )
