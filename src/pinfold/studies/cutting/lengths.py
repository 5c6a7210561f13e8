"""Parts cut out of lengths for the least money: the pile's own pieces and what the shop sells, with a proof.

Money comes first; where nothing has a price, the length bought does. Of plans that cost the same, old pieces go before
new ones, then few pieces are begun, and parts lie where they leave the best offcuts and the fewest cuts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from pinfold.studies.cutting.asking import Asked, asked, longest
from pinfold.studies.cutting.checking import check
from pinfold.studies.cutting.clearing import usable
from pinfold.studies.cutting.laying import patterns
from pinfold.studies.cutting.packing import opened
from pinfold.studies.cutting.records import CutOrder, CutPlan, PartWanted, Pattern, Proof, Uncut
from pinfold.studies.cutting.solution import Solved
from pinfold.studies.cutting.solving import solved
from pinfold.studies.cutting.tidying import tidied
from pinfold.studies.cutting.watching import Progress, watch

LIMIT = 10.0
"""Seconds that a search takes at most, unless told otherwise."""


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
    question = asked(order)
    if question is None:
        return CutPlan(order=order, patterns=(), uncut=tuple(_uncut(order, ())), bound=0, proof=Proof.OPTIMUM)
    time = watch(limit, tell)
    best = solved(question.packing, time)
    found = patterns(order, question, tidied(question.packing, best, time))
    return CutPlan(
        order=order,
        patterns=found,
        uncut=tuple(_uncut(order, found)),
        bound=_bound(question, best),
        proof=Proof.OPTIMUM if best.closed else Proof.GAP,
    )


def _bound(question: Asked, best: Solved) -> int:
    """What no plan that cuts as much costs less than, without what is lacking."""
    lacking = sum(
        room.price * many
        for room, many in zip(question.packing.rooms, opened(question.packing, best.laid), strict=True)
        if room.price == question.lacking
    )
    return max(best.bound - lacking, 0) * question.coin


def _uncut(order: CutOrder, found: Sequence[Pattern]) -> Iterator[Uncut]:
    """Parts that no piece gives, with what would mend it."""
    cut: Counter[str] = Counter()
    for pattern in found:
        for place in pattern.parts:
            cut[place.mark] += pattern.times
    for part in order.parts:
        many = part.count - cut[part.mark]
        if many and part.length > longest(order):
            yield Uncut(part.mark, many, *_too_long(order, part))
        elif many:
            needed = order.tape(part.length)
            yield Uncut(
                part.mark, many, "the stock that it fits is used up", f"{many} more pieces of {needed} or longer"
            )


def _too_long(order: CutOrder, part: PartWanted) -> tuple[str, str]:
    """Why a part is longer than any stock, and what would mend it."""
    most = longest(order)
    nearest = max(order.stock, key=lambda stock: usable(stock, 0, stock.length, order.kerf), default=None)
    if nearest is None:
        return "there is no stock", f"a piece of {order.tape(part.length)} or longer"
    because = f"it is {order.tape(part.length)} long; {nearest.mark} comes nearest and gives {order.tape(most)}"
    mend = f"a piece {order.tape(part.length - most)} longer than that"
    return because, f"{mend}, or splice it out of two" if part.splice else f"{mend}; it may not be spliced"
