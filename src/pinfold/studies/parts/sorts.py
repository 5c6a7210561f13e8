"""What holds of all parts of a sort: how true they must be, which flaws they may have, which way up they go."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.tables.shelf import shelf
from pinfold.units import METER, Meter, read


class Sort(NamedTuple):
    """A sort of parts.

    Attributes:
        tolerance: how far off its length a part may be.
        allows: flaws that it may have, words of tables/flaws.toml.
        up: which way up it goes; empty where that is all one.
        figure: where the tolerance comes from; None where the sort is not in the table.
    """

    tolerance: Meter
    allows: frozenset[str]
    up: str
    figure: Figure | None


_PLAIN = Sort(tolerance=read("1/8 in", like=METER), allows=frozenset(), up="", figure=None)


@lru_cache(maxsize=256)
def sort_of(says: str) -> Sort:
    """By what the part list calls it; a strict one for what is not in the table."""
    kinds = shelf("cut_parts")
    found = kinds.get(says) or kinds.get(says.partition(",")[0])
    if found is None:
        return _PLAIN
    allows = found.words.get("allows", ())
    return Sort(
        tolerance=found.value("tolerance"), allows=frozenset(allows if isinstance(allows, list) else ()),
        up=found.word("up"), figure=found.figure("tolerance"),
    )  # fmt: skip
