"""Plan against actual as records: what was due for the work done, what it took, and reasons that add up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.units import Ratio, Second

UNEXPLAINED = "not explained by the log"
"""The reason that takes what all others leave."""


class Reason(NamedTuple):
    """One reason for a difference.

    Attributes:
        says: what it is.
        by: how much it adds, below zero where it saves; in the unit of the difference.
    """

    says: str
    by: float


class CoinReason(NamedTuple):
    """One reason for a difference in money.

    Attributes:
        says: what it is.
        coins: it adds, below zero where it saves; the smallest coin.
    """

    says: str
    coins: int


@dataclass(frozen=True, kw_only=True)
class HoursAgainst:
    """Time of one sort of work in one run, all people together.

    Attributes:
        work: what sort.
        run: where; `shared` for what belongs to no one run.
        planned: by the norms of the trade times the plan's slowness, for all of it.
        done: share of it that is done.
        due: what that should have taken.
        took: what it took by the log; None where the log has no hours of it.
        reasons: that add up to the difference.
    """

    work: str
    run: str
    planned: Second
    done: Ratio
    due: Second
    took: Second | None
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, kw_only=True)
class MixAgainst:
    """Batches of one mix in one layer of one run.

    Attributes:
        mix: which.
        layer: of the build-up.
        coat: kind of coat; empty for all else.
        run: where.
        planned: batches for all of it, waste and all.
        done: share of it that is done.
        due: batches that should have taken.
        mixed: by the log; None where it has none.
        reasons: that add up to the difference, in batches.
    """

    mix: str
    layer: str
    coat: str
    run: str
    planned: Ratio
    done: Ratio
    due: Ratio
    mixed: Ratio | None
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, kw_only=True)
class CoinsAgainst:
    """Goods of one layer in one run, in the smallest coin.

    Attributes:
        layer: of the build-up.
        run: where.
        planned: for all of it, by the buying list and the price list.
        done: share of it that is done.
        due: what that should have cost.
        took: what went in, at the prices paid.
        reasons: that add up to the difference.
        as_planned: whether the amounts are the planned ones, for the log does not tell how much went in.
    """

    layer: str
    run: str
    planned: int
    done: Ratio
    due: int
    took: int
    reasons: tuple[CoinReason, ...]
    as_planned: bool


@dataclass(frozen=True, kw_only=True)
class BoughtAgainst:
    """What was paid for one thing, in the smallest coin.

    Attributes:
        item: what, by the name the price list has for it.
        packs: bought, of the price list's size.
        planned: packs on the buying list.
        listed: what the packs bought cost by the price list; None where it has no price.
        paid: for them.
    """

    item: str
    packs: Ratio
    planned: Ratio
    listed: int | None
    paid: int

    @property
    def dearer(self) -> int | None:
        """Paid above the list; None where there is no list price."""
        return None if self.listed is None else self.paid - self.listed


@dataclass(frozen=True, kw_only=True)
class Actuals:
    """The whole of it.

    Attributes:
        hours: by sort of work and run.
        mixes: by layer and run.
        coins: by layer and run.
        bought: by thing.
        unplaced_time: hours in the log that belong to no task.
        missing: what could not be told, in plain words.
        implied: work and run of what counts as done, in whole or in part, by what was begun after it.
    """

    hours: tuple[HoursAgainst, ...]
    mixes: tuple[MixAgainst, ...]
    coins: tuple[CoinsAgainst, ...]
    bought: tuple[BoughtAgainst, ...]
    unplaced_time: Second
    missing: tuple[str, ...]
    implied: tuple[str, ...] = ()
