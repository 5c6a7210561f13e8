"""Parts cut out of lengths for the least money: the pile's own pieces and what the shop sells, with a proof.

Money comes first; where nothing has a price, the length bought does. Of plans that cost the same, old pieces go before
new ones, then few pieces are begun, and parts lie where they leave the best offcuts and the fewest cuts.

Where ends of parts lean, or parts may have some defects in them, the order is first read as if all of them nested and
no such defect were in the way of any part. No plan costs less, and often that plan can be laid. Where it cannot, the
stock in which parts do not come out is read more carefully, until all do.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from pinfold.studies.cutting.asking import Asked, Reading, asked, longest
from pinfold.studies.cutting.checking import check
from pinfold.studies.cutting.laying import patterns
from pinfold.studies.cutting.packing import opened
from pinfold.studies.cutting.records import CutOrder, CutPlan, PartWanted, Pattern, Proof, Uncut
from pinfold.studies.cutting.solution import Solved
from pinfold.studies.cutting.solving import solved
from pinfold.studies.cutting.tidying import tidied
from pinfold.studies.cutting.watching import Progress, watch

LIMIT = 10.0
"""Seconds that a search takes at most, unless told otherwise."""
_READINGS = 5
"""So often an order is read more carefully before all of it is."""


def cut_lengths(order: CutOrder, *, limit: float = LIMIT, tell: Callable[[Progress], None] | None = None) -> CutPlan:
    """What is cut from which piece.

    Args:
        order: parts of one section and the stock of that section
        limit: seconds after which the best plan so far is given, with its gap
        tell: called with how far the search is

    Raises:
        InvalidPlan: the order cannot be: all complaints at once.
    """
    check(order)
    time = watch(limit, tell)
    reading, plans, bound = _hopeful(order), [], None
    for number in range(_READINGS + 1):
        question = asked(order, reading)
        if question is None:
            return _plan(order, (), 0, first=True)
        best = solved(question.packing, time)
        bound = _bound(question, best) if bound is None else bound
        found, failed = patterns(order, question, tidied(question.packing, best, time))
        if not failed:
            plans.append(_plan(order, found, bound, first=number == 0))
        if reading == _careful(order) or (plans and not _leans(order)) or (plans and plans[-1].proof is Proof.OPTIMUM):
            break
        reading = _more_careful(order, reading, failed) if failed and number < _READINGS - 1 else _careful(order)
    return min(plans, key=lambda plan: (sum(uncut.many for uncut in plan.uncut), plan.spent))


def _leans(order: CutOrder) -> bool:
    return any(part.left.run or part.right.run for part in order.parts)


def _hopeful(order: CutOrder) -> Reading:
    """Every part nests, and every defect that some part may have is in no part's way."""
    return Reading(kinds=frozenset().union(*(part.allows for part in order.parts)))


def _careful(order: CutOrder) -> Reading:
    """No part nests, and every defect is avoided."""
    return Reading(nested=not _leans(order), careful=frozenset(stock.mark for stock in order.stock))


def _more_careful(order: CutOrder, reading: Reading, failed: frozenset[str]) -> Reading:
    """Room for ends that lean and find no partner, and no defects in the stock that failed."""
    runs = [cut.run for part in order.parts for cut in (part.left, part.right)]
    turned = all(part.turns for part in order.parts)
    spare = max(map(abs, runs)) if turned else max(0, *runs) - min(0, *runs)
    return replace(reading, spare=spare, careful=reading.careful | failed)


def _bound(question: Asked, best: Solved) -> int:
    """What no plan that cuts as much costs less than, without what is lacking."""
    pieces = zip(question.packing.rooms, opened(question.packing, best.laid), strict=True)
    lacking = sum(room.price * many for room, many in pieces if room.price == question.lacking)
    return max(best.bound - lacking, 0) * question.coin


def _plan(order: CutOrder, found: Sequence[Pattern], bound: int, *, first: bool) -> CutPlan:
    """A plan with its proof; one that lacks parts is proven by the first reading alone."""
    plan = CutPlan(order=order, patterns=tuple(found), uncut=uncut_of(order, found), bound=bound, proof=Proof.GAP)
    whole = first or all(uncut.because != _USED_UP for uncut in plan.uncut)
    return replace(plan, proof=Proof.OPTIMUM, bound=plan.spent) if whole and plan.spent <= bound else plan


_USED_UP = "the stock that it fits is used up"


def uncut_of(order: CutOrder, found: Sequence[Pattern]) -> tuple[Uncut, ...]:
    """Parts that no piece gives, with what would mend it."""
    return tuple(_uncut(order, found))


def _uncut(order: CutOrder, found: Sequence[Pattern]) -> Iterator[Uncut]:
    cut: Counter[str] = Counter()
    for pattern in found:
        for place in pattern.parts:
            cut[place.mark] += pattern.times
    for part in order.parts:
        many = part.count - cut[part.mark]
        if many and part.length > longest(order, part):
            yield Uncut(part.mark, many, *_too_long(order, part))
        elif many:
            yield Uncut(part.mark, many, _USED_UP, f"{many} more pieces of {order.tape(part.length)} or longer")


def _too_long(order: CutOrder, part: PartWanted) -> tuple[str, str]:
    """Why a part is longer than any stock, and what would mend it."""
    if not order.stock:
        return "there is no stock", f"a piece of {order.tape(part.length)} or longer"
    nearest = max(order.stock, key=lambda stock: longest(replace(order, stock=(stock,)), part))
    most = longest(order, part)
    because = f"it is {order.tape(part.length)} long; {nearest.mark} comes nearest and gives {order.tape(most)}"
    mend = f"a piece {order.tape(part.length - most)} longer than that"
    return because, f"{mend}, or splice it out of two" if part.splice else f"{mend}; it may not be spliced"
