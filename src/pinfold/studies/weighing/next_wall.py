"""The next wall: build-ups weighed with what the log taught beside as shipped, and whether their order changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pinfold.studies.weighing.records import CRITERION_BY_KEY, Better, Weighed

COMPARED = ("cash_now", "hours", "days", "water", "trips", "margin")
"""Criteria that lessons move."""


@dataclass(frozen=True, kw_only=True)
class Order:
    """In which order build-ups come on one criterion.

    Attributes:
        criterion: its key.
        shipped: names, the best first, with shipped figures; those without a number are left out.
        learned: likewise with what the log taught.
    """

    criterion: str
    shipped: tuple[str, ...]
    learned: tuple[str, ...]

    @property
    def changes(self) -> bool:
        """Whether the order is another one."""
        return self.shipped != self.learned


@dataclass(frozen=True, kw_only=True)
class NextWall:
    """Build-ups weighed twice.

    Attributes:
        shipped: with shipped figures.
        learned: the same with what the log taught.
        orders: by criterion.
    """

    shipped: tuple[Weighed, ...]
    learned: tuple[Weighed, ...]
    orders: tuple[Order, ...]

    @property
    def is_unmoved(self) -> bool:
        """Whether nothing of what is compared is another with what was learned."""
        return all(
            shipped.scores.get(key) == learned.scores.get(key)
            for shipped, learned in zip(self.shipped, self.learned, strict=True) for key in COMPARED
        )  # fmt: skip


def next_wall(shipped: Sequence[Weighed], learned: Sequence[Weighed]) -> NextWall:
    """Both weighings with the order on each criterion.

    Args:
        shipped: options judged with shipped figures
        learned: the same options with what the log taught
    """
    orders = tuple(
        Order(criterion=key, shipped=_order(shipped, key), learned=_order(learned, key)) for key in COMPARED
    )  # fmt: skip
    return NextWall(shipped=tuple(shipped), learned=tuple(learned), orders=orders)


def _order(weighed: Sequence[Weighed], key: str) -> tuple[str, ...]:
    way = 1.0 if CRITERION_BY_KEY[key].better is Better.LESS else -1.0
    values = {
        each.option.name: score.value for each in weighed
        if (score := each.scores.get(key)) is not None and score.value is not None
    }  # fmt: skip
    return tuple(sorted(values, key=lambda name: (way * values[name], name)))
