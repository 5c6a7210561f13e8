"""A cut plan carried on while it is carried out: what is left of it, as far as parts and stock still ask for it.

What is left of a plan of least money, when some of its pieces are cut as planned, is a plan of least money for the
parts that are left: a better one, with the pieces that are cut, would have been a better plan before. So nothing that
is printed and labeled has to be planned anew.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from pinfold.studies.cutting.lengths import uncut_of
from pinfold.studies.cutting.records import CutOrder, CutPlan, Pattern, Proof, Stock


class Carried(NamedTuple):
    """What is left of a plan.

    Attributes:
        patterns: that are still to be cut, of the stock as it is now.
        lacking: an order for the parts that they do not give, out of what they leave; None where they give all.
        as_planned: whether it is just what is left, and gives all parts.
    """

    patterns: tuple[Pattern, ...]
    lacking: CutOrder | None
    as_planned: bool


def carried(before: CutPlan, cut: Mapping[int, int], order: CutOrder) -> Carried:
    """What is left of a plan.

    Args:
        before: the plan as it was when nothing was cut
        cut: how many pieces are cut already, by the place of their pattern in it
        order: parts that are left, and the stock as it is now
    """
    want = Counter({part.mark: part.count for part in order.parts if _as_before(part.mark, before.order, order)})
    room = {stock.mark: stock.count for stock in order.stock}
    found: list[Pattern] = []
    for place, pattern in enumerate(before.patterns):
        found += _still(pattern, pattern.times - cut.get(place, 0), (want, room), _alike(pattern, before.order, order))
    given: Counter[str] = Counter()
    for pattern in found:
        given.update({mark: many * pattern.times for mark, many in Counter(p.mark for p in pattern.parts).items()})
    parts = tuple(replace(part, count=part.count - given[part.mark]) for part in order.parts
                  if part.count > given[part.mark])  # fmt: skip
    stock = tuple(replace(each, count=room[each.mark]) for each in order.stock)
    whole = sum(pattern.times for pattern in before.patterns) - sum(cut.values())
    return Carried(
        patterns=tuple(found), lacking=replace(order, parts=parts, stock=stock) if parts else None,
        as_planned=not parts and sum(pattern.times for pattern in found) == whole,
    )  # fmt: skip


def _as_before(mark: str, before: CutOrder, order: CutOrder) -> bool:
    """Whether a part is what it was, but for how many are wanted."""
    was, now = ({part.mark: part for part in each.parts}.get(mark) for each in (before, order))
    return was is not None and now is not None and replace(was, count=0) == replace(now, count=0)


def _alike(pattern: Pattern, before: CutOrder, order: CutOrder) -> list[str]:
    """Marks of the stock now that is what the pattern was made for, the cheapest first."""
    wanted = _body(next(stock for stock in before.stock if stock.mark == pattern.stock))
    alike = (stock for stock in order.stock if _body(stock) == wanted)
    return [stock.mark for stock in sorted(alike, key=lambda stock: stock.price)]


def _body(stock: Stock) -> Stock:
    return replace(stock, mark="", count=None, price=0, says="")


def _still(
    pattern: Pattern, times: int, left: tuple[Counter[str], dict[str, int | None]], marks: Sequence[str]
) -> Iterator[Pattern]:  # fmt: skip
    """The pattern, as often as it is still to be cut; what it takes goes off what is left."""
    want, room = left
    each = Counter(place.mark for place in pattern.parts)
    times = min([times, *(want[mark] // many for mark, many in each.items())])
    for mark in marks:
        there = room[mark]
        taken = max(times if there is None else min(times, there), 0)
        if taken:
            yield replace(pattern, stock=mark, times=taken)
            times -= taken
            room[mark] = None if there is None else there - taken
            want.subtract({part: many * taken for part, many in each.items()})


def left_of(before: CutPlan, patterns: tuple[Pattern, ...], order: CutOrder) -> CutPlan:
    """The plan of what is left as planned: as sure as the one before it."""
    plan = CutPlan(order=order, patterns=patterns, uncut=(), bound=0, proof=before.proof)
    return replace(plan, bound=max(plan.spent - before.gap, 0))


def mended(patterns: tuple[Pattern, ...], fresh: CutPlan) -> CutPlan:
    """What is left of a plan with what it lacked; the one planned anew where that costs less or gives more."""
    plan = replace(fresh, patterns=patterns, uncut=uncut_of(fresh.order, patterns))
    missing, spared = (sum(each.many for each in one.uncut) for one in (plan, fresh))
    if (missing, plan.spent) > (spared, fresh.spent):
        return fresh
    return replace(plan, proof=fresh.proof if plan.spent == fresh.spent else Proof.GAP)
