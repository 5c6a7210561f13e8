"""The least money that all parts can be cut for, with its proof, stage by stage until one closes the gap."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from pinfold.studies.cutting.branching import branched
from pinfold.studies.cutting.choosing import Limits, all_that_pay, chosen
from pinfold.studies.cutting.diving import dived
from pinfold.studies.cutting.guessing import BENDS, filled_up, first_fit
from pinfold.studies.cutting.packing import Fill, Packing, money, next_sum
from pinfold.studies.cutting.relaxing import master_of, relaxed
from pinfold.studies.cutting.solution import Solved
from pinfold.studies.cutting.watching import Watch

_FEW, _MANY = 1000, 12_000
"""Fills that a search through all of them is tried with, early and late."""


Stage = Callable[[Packing, Solved, Watch], Solved]


def solved(packing: Packing, watch: Watch) -> Solved:
    """The plan of least money; where the time is over before it is proven, the best found."""
    laid = first_fit(packing)
    best = Solved(laid=laid, money=money(packing, laid), bound=0)
    return bettered(packing, best.or_better(packing, filled_up(packing, {}, bend=BENDS[1])), ALL, watch)


def bettered(packing: Packing, best: Solved, stages: Sequence[tuple[str, Stage]], watch: Watch) -> Solved:
    """A plan made better stage by stage, until none is cheaper or the time is over."""
    for says, stage in stages:
        if best.closed or watch.left < 0:
            break
        watch.say(says, best.money, best.bound)
        best = stage(packing, best, watch)
    watch.say("done", best.money, best.bound)
    return best


def _bounded(packing: Packing, best: Solved, watch: Watch) -> Solved:
    """Asks what any plan costs at least."""
    for found in relaxed(packing, master_of(packing, best.fills), enough=best.money):
        best = replace(best, relaxed=found, bound=next_sum(packing, found.bound.coins, below=best.money))
        if watch.left < 0:
            break
    return best


def _sharpened(packing: Packing, best: Solved, watch: Watch) -> Solved:
    """Raises the bound by parts of a coin, which leaves fewer fills to search."""
    for found in relaxed(packing, master_of(packing, best.fills), enough=best.money, whole=False):
        if best.relaxed is None or found.bound.least > best.relaxed.bound.least:
            best = replace(best, relaxed=found, bound=max(best.bound, found.bound.coins))
        if watch.left < 0:
            break
    return best


def _rounded(packing: Packing, best: Solved, watch: Watch) -> Solved:
    """Uses fills as often as whole in the bound, and fills up the rest."""
    assert best.relaxed is not None
    for bend in BENDS:
        if not best.closed:
            best = best.or_better(packing, filled_up(packing, best.relaxed.whole, bend=bend))
    return best


def _diving(first: int, last: int) -> Stage:
    """Dives with these seeds, one after the other."""

    def stage(packing: Packing, best: Solved, watch: Watch) -> Solved:
        assert best.relaxed is not None
        for seed in range(first, last):
            if best.closed or watch.left < 0:
                break
            best = best.or_better(packing, dived(packing, best.relaxed.fills, best.money - 1, seed=seed, watch=watch))
        return best

    return stage


def _searching(limit: int, share: float) -> Stage:
    """Searches the fills that a cheaper plan could use, in a share of the time left.

    Where they are too many, those of a plan that is cheaper by more; as long as that gives a better plan, once more.
    """

    def stage(packing: Packing, best: Solved, watch: Watch) -> Solved:
        until = watch.left * (1 - share)
        before = None
        while not best.closed and best is not before and watch.left > until:
            before, most = best, best.money - 1
            found = _as_many(packing, best, limit)
            if found is None:
                break
            fills, whole = found
            answer = chosen(packing, fills, Limits(best.bound, most, watch.left - until))
            best = best.or_better(packing, answer.laid)
            if whole and answer.whole:
                best = replace(best, bound=best.money)
        return best

    return stage


def _as_many(packing: Packing, best: Solved, limit: int) -> tuple[list[Fill], bool] | None:
    """Fills that a cheaper plan could use, not more than a limit, and whether they are all of them."""
    assert best.relaxed is not None
    for part in (1, 2, 4, 8):
        most = best.bound + (best.money - 1 - best.bound) // part
        fills = all_that_pay(packing, best.relaxed.bound, most=most, limit=limit)
        if fills is not None:
            return fills, most == best.money - 1
    return None


QUICK: tuple[tuple[str, Stage], ...] = (
    ("what it costs at least", _bounded),
    ("rounding", _rounded),
)
ALL: tuple[tuple[str, Stage], ...] = (
    *QUICK,
    ("how many of each to buy", branched),
    ("what it costs at least", _sharpened),
    ("searching a few fills", _searching(_FEW, 0.3)),
    ("diving", _diving(3, 40)),
    ("searching many fills", _searching(_MANY, 0.5)),
    ("diving", _diving(40, 10**6)),
)
