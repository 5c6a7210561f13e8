"""Cut plans as they are told at the saw: every piece with its own code, its cuts in order, and what becomes of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count
from typing import NamedTuple

from pinfold.plan.flaws import Flaw
from pinfold.studies.cutting.records import STEP, CutPlan, Pattern, Proof, Stock, Uncut
from pinfold.studies.cutting.sawing import Falls, saw_steps
from pinfold.studies.parts.orders import SectionOrder
from pinfold.units import Meter, System


class CutStep(NamedTuple):
    """What falls off the left end of what is left of a piece.

    Attributes:
        falls: part, kept (an offcut worth keeping) or waste.
        code: mark of the part, or code of the offcut, which begins with Z; empty for waste.
        measure: from the fresh end to the cut, along the lower edge.
        running: the same on a tape that lies along the whole piece from its left end.
        lean: how much further right the cut is on the upper edge; 0 where it is square.
        sawn: whether there is a cut; not where it ends with the piece.
    """

    falls: Falls
    code: str
    measure: Meter
    running: Meter
    lean: Meter
    sawn: bool


@dataclass(frozen=True, kw_only=True)
class PieceCut:
    """A piece, or several alike, with its cuts.

    Attributes:
        code: its own, an E and a number.
        item: its name on the pile or the price list.
        row: its place on the pile, from 1; None for what is bought.
        says: what else is known of it.
        length: of each.
        times: how many are cut so.
        price: of each, in the smallest coin.
        steps: in their order.
        flaws: of it, from left to right.
    """

    code: str
    item: str
    row: int | None
    says: str
    length: Meter
    times: int
    price: int
    steps: tuple[CutStep, ...]
    flaws: tuple[Flaw, ...]


@dataclass(frozen=True, kw_only=True)
class ToBuy:
    """New lengths of one size.

    Attributes:
        item: its name on the price list.
        length: of each.
        count: how many.
        price: of each, in the smallest coin; 0 where none is listed.
    """

    item: str
    length: Meter
    count: int
    price: int


@dataclass(frozen=True, kw_only=True)
class SectionCut:
    """Everything of one section.

    Attributes:
        section: name of the item that stands for it.
        says: what it is.
        pieces: that are cut.
        to_buy: new lengths, by size.
        uncut: parts that nothing gives.
        money: what the new lengths cost.
        bound: no plan costs less.
        proof: whether that is proven.
        priced: whether new lengths have a price; where not, the least length is bought.
        sawn: how many cuts there are.
        kept: length of all offcuts worth keeping.
    """

    section: str
    says: str
    pieces: tuple[PieceCut, ...]
    to_buy: tuple[ToBuy, ...]
    uncut: tuple[Uncut, ...]
    money: int
    bound: int
    proof: Proof
    priced: bool
    sawn: int
    kept: Meter


def sections_cut(
    orders: Sequence[SectionOrder], plans: Iterable[CutPlan], system: System
) -> tuple[SectionCut, ...]:  # fmt: skip
    """Cut plans as told, their pieces and offcuts numbered through all sections."""
    pieces, offcuts = count(1), count(1)
    return tuple(
        SectionCut(
            section=order.section, says=order.says, pieces=tuple(_pieces(order, plan, system, (pieces, offcuts))),
            to_buy=tuple(_to_buy(order, plan, system)), uncut=plan.uncut, money=plan.money, bound=plan.bound,
            proof=plan.proof, priced=order.priced, sawn=plan.sawn, kept=plan.kept * STEP[system],
        )
        for order, plan in zip(orders, plans, strict=True)
    )  # fmt: skip


def _to_buy(order: SectionOrder, plan: CutPlan, system: System) -> Iterator[ToBuy]:
    for stock in order.order.stock:
        if not stock.old and plan.used[stock.mark]:
            yield ToBuy(item=order.sources[stock.mark].item, length=stock.length * STEP[system],
                        count=plan.used[stock.mark], price=stock.price)  # fmt: skip


def _pieces(
    order: SectionOrder, plan: CutPlan, system: System, numbers: tuple[Iterator[int], Iterator[int]]
) -> Iterator[PieceCut]:  # fmt: skip
    stock: Mapping[str, Stock] = {each.mark: each for each in order.order.stock}
    rank = {mark: (not each.old, at) for at, (mark, each) in enumerate(stock.items())}
    for pattern in sorted(plan.patterns, key=lambda each: rank[each.stock]):
        own, source = stock[pattern.stock], order.sources[pattern.stock]
        yield PieceCut(
            code=f"E{next(numbers[0])}", item=source.item, row=None if source.row is None else source.row + 1,
            says=own.says, length=own.length * STEP[system], times=pattern.times, price=own.price,
            steps=tuple(_steps(pattern, own, system, numbers[1])),
            flaws=tuple(Flaw(each.kind, each.start * STEP[system], each.end * STEP[system]) for each in own.defects),
        )  # fmt: skip


def _steps(pattern: Pattern, stock: Stock, system: System, offcuts: Iterator[int]) -> Iterator[CutStep]:
    step = STEP[system]
    for each in saw_steps(pattern, stock.length):
        code = f"Z{next(offcuts)}" if each.falls is Falls.KEPT else each.mark
        yield CutStep(each.falls, code, each.measure * step, each.tape * step, each.run * step, each.sawn)


def parts_given(sections: Iterable[SectionCut]) -> Counter[str]:
    """How many of each part all pieces give, by mark."""
    found: Counter[str] = Counter()
    for section in sections:
        for piece in section.pieces:
            for step in piece.steps:
                if step.falls is Falls.PART:
                    found[step.code] += piece.times
    return found
