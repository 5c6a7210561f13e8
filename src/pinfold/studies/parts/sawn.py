"""Cut plans as they are told at the saw: every piece with its own code, its cuts in order, and what becomes of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.plan.flaws import Flaw
from pinfold.plan.stock import RawEnds
from pinfold.studies.cutting.records import STEP, CutPlan, Pattern, Proof, Stock, Uncut
from pinfold.studies.cutting.sawing import Falls, saw_steps
from pinfold.studies.parts.codes import coded, digits_of, rest_codes
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
        code: its own, an E and digits.
        item: its name on the pile or the price list.
        row: its place on the pile, from 1; None for what is bought.
        says: what else is known of it.
        length: of each.
        times: how many are cut so.
        price: of each, in the smallest coin.
        steps: in their order.
        flaws: of it, from left to right.
        raw_ends: which of its ends are raw.
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
    raw_ends: RawEnds


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
        bound: no plan costs less; 0 where nothing has a price.
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


Planned = tuple[SectionOrder, CutPlan]


def sections_cut(
    planned: Sequence[Planned], system: System, *, before: Iterable[Planned] = ()
) -> tuple[SectionCut, ...]:  # fmt: skip
    """Cut plans as told, every piece with its code.

    Args:
        planned: what was asked of each section, and its plan
        system: units of the plan
        before: the same as it was when nothing was cut, whose codes no other piece takes
    """
    among = [content for order, plan in before for content in contents_of(order, plan)]
    contents = [content for order, plan in planned for content in contents_of(order, plan)]
    codes = iter(coded("E", contents, among=among))
    return tuple(
        SectionCut(
            section=order.section, says=order.says, pieces=tuple(_pieces(order, plan, system, codes)),
            to_buy=tuple(_to_buy(order, plan, system)), uncut=plan.uncut, money=plan.money,
            bound=plan.bound if order.priced else 0,
            proof=plan.proof, priced=order.priced, sawn=plan.sawn, kept=plan.kept * STEP[system],
        )
        for order, plan in planned
    )  # fmt: skip


def contents_of(order: SectionOrder, plan: CutPlan) -> list[object]:
    """What comes out of what, in the order in which the pieces are told."""
    return [_content(order, pattern) for pattern in _in_order(order, plan)]


def places_cut(order: SectionOrder, plan: CutPlan, cut: Mapping[str, int]) -> dict[int, int]:
    """How many pieces of each pattern are cut, by its place in the plan.

    Args:
        order: what was asked
        plan: its answer
        cut: how many pieces are cut, by code
    """
    left = {code[1:].partition("-")[0]: many for code, many in cut.items() if code[1:2].isdigit()}
    found: dict[int, int] = {}
    for place, pattern in enumerate(plan.patterns):
        digits = digits_of(_content(order, pattern))
        for code in (each for each, many in left.items() if many and digits.startswith(each)):
            found[place] = min(left[code], pattern.times)
            left[code] -= found[place]
    return found


def _content(order: SectionOrder, pattern: Pattern) -> object:
    stock, item = _stock(order, pattern), order.sources[pattern.stock].item
    flaws = [(each.kind, each.start, each.end) for each in stock.defects]
    parts = [(each.mark, each.start, each.end, each.left.run, each.right.run) for each in pattern.parts]
    return item, stock.length, tuple(stock.trim), flaws, parts


def _stock(order: SectionOrder, pattern: Pattern) -> Stock:
    return next(each for each in order.order.stock if each.mark == pattern.stock)


def _in_order(order: SectionOrder, plan: CutPlan) -> list[Pattern]:
    """Old pieces before new ones, as they lie on the pile; those of one length by the digits of their codes."""
    rank = {each.mark: (not each.old, at) for at, each in enumerate(order.order.stock)}
    return sorted(plan.patterns, key=lambda pattern: (rank[pattern.stock], digits_of(_content(order, pattern))))


def _to_buy(order: SectionOrder, plan: CutPlan, system: System) -> Iterator[ToBuy]:
    for stock in order.order.stock:
        if not stock.old and plan.used[stock.mark]:
            yield ToBuy(item=order.sources[stock.mark].item, length=stock.length * STEP[system],
                        count=plan.used[stock.mark], price=stock.price)  # fmt: skip


def _pieces(
    order: SectionOrder, plan: CutPlan, system: System, codes: Iterator[str]
) -> Iterator[PieceCut]:  # fmt: skip
    for pattern in _in_order(order, plan):
        own, source, code = _stock(order, pattern), order.sources[pattern.stock], next(codes)
        yield PieceCut(
            code=code, item=source.item, row=None if source.row is None else source.row + 1,
            says=own.says, length=own.length * STEP[system], times=pattern.times, price=own.price,
            steps=tuple(_steps(pattern, own, system, code)),
            flaws=tuple(Flaw(each.kind, each.start * STEP[system], each.end * STEP[system]) for each in own.defects),
            raw_ends=raw_ends_of(left=own.trim.left > 0, right=own.trim.right > 0),
        )  # fmt: skip


def raw_ends_of(*, left: bool, right: bool) -> RawEnds:
    """Which ends are raw, in one word."""
    if left and right:
        return RawEnds.BOTH
    return RawEnds.LEFT if left else RawEnds.RIGHT if right else RawEnds.NONE


def _steps(pattern: Pattern, stock: Stock, system: System, code: str) -> Iterator[CutStep]:
    step, offcuts = STEP[system], rest_codes("Z", code)
    for each in saw_steps(pattern, stock.length):
        own = next(offcuts) if each.falls is Falls.KEPT else each.mark
        yield CutStep(each.falls, own, each.measure * step, each.tape * step, each.run * step, each.sawn)


def parts_given(sections: Iterable[SectionCut]) -> Counter[str]:
    """How many of each part all pieces give, by mark."""
    found: Counter[str] = Counter()
    for section in sections:
        for piece in section.pieces:
            for step in piece.steps:
                if step.falls is Falls.PART:
                    found[step.code] += piece.times
    return found
