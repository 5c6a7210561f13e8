"""Cut orders made up by chance, the public and the yard instances, and what any plan must keep to."""

from __future__ import annotations

import itertools
import json
import math
from collections import Counter
from dataclasses import replace
from functools import cache
from itertools import permutations
from pathlib import Path

from hypothesis import strategies as st

from pinfold.studies.cutting.records import CutOrder, CutPlan, Defect, EndCut, PartWanted, Stock, Trim

BESIDE = Path(__file__).parents[2] / "shared" / "reference" / "cutting"
FEW = Path(__file__).parent / "public_lengths.jsonl"
"""A handful of the public instances, from the ESICUP collection (CC0)."""


def lines_of(path: Path) -> list[dict]:
    return [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line]


def public_order(instance: dict) -> CutOrder:
    """Parts of a public instance: endless stock of one length, no kerf."""
    parts = tuple(PartWanted(mark=f"R{number}", length=length, count=count)
                  for number, (length, count) in enumerate(instance["items"], 1))  # fmt: skip
    stock = Stock(mark="N1", length=instance["capacity"], count=None, price=1, old=False)
    return CutOrder(parts=parts, stock=(stock,), kerf=0, keep=instance["capacity"])


def yard_order(case: dict) -> CutOrder:
    """Parts, pile and shop of a yard-like case."""
    parts = tuple(PartWanted(mark=f"R{number}", length=length, count=count)
                  for number, (length, count) in enumerate(case["parts"], 1))  # fmt: skip
    old = tuple(
        Stock(mark=f"P{number}", length=piece["length"], trim=Trim(*piece["trim"]),
              defects=tuple(Defect(*defect) for defect in piece["defects"]))
        for number, piece in enumerate(case["pieces"], 1)
    )  # fmt: skip
    new = tuple(Stock(mark=f"N{number}", length=each["length"], count=None, price=each["price"], old=False)
                for number, each in enumerate(case["new_stock"], 1))  # fmt: skip
    return CutOrder(parts=parts, stock=(*old, *new), kerf=case["kerf"], keep=case["keep_min"])


@st.composite
def orders(draw, *, most_parts: int = 5, most_old: int = 3) -> CutOrder:
    """A few parts, a few old pieces with defects and raw ends, one or two lengths for sale that take every part."""
    kerf = draw(st.sampled_from([0, 1, 3]))
    lengths = draw(st.lists(st.integers(4, 40), min_size=1, max_size=most_parts))
    parts = tuple(PartWanted(mark=f"R{number}", length=length, count=many)
                  for number, (length, many) in enumerate(sorted(Counter(lengths).items()), 1))  # fmt: skip
    old = tuple(draw(old_pieces(f"P{number}")) for number in range(draw(st.integers(0, most_old))))
    new = tuple(
        Stock(mark=f"N{number}", length=draw(st.integers(max(lengths), 90)), count=None, price=draw(st.integers(1, 30)),
              old=False)
        for number in range(draw(st.integers(1, 2)))
    )  # fmt: skip
    return CutOrder(parts=parts, stock=(*old, *new), kerf=kerf, keep=10)


@st.composite
def old_pieces(draw, mark: str) -> Stock:
    length = draw(st.integers(10, 80))
    starts = draw(st.lists(st.integers(0, length - 2), max_size=2))
    defects = tuple(Defect(start, min(start + draw(st.integers(1, 9)), length)) for start in starts)
    trim = Trim(draw(st.sampled_from([0, 0, 2])), draw(st.sampled_from([0, 0, 4])))
    return Stock(mark=mark, length=length, count=draw(st.integers(1, 2)), price=draw(st.sampled_from([0, 0, 3])),
                 defects=defects, trim=trim)  # fmt: skip


@st.composite
def leaning_orders(draw) -> CutOrder:
    """A few parts whose ends lean or that may have knots in them, and a few pieces, some with knots."""
    kerf = draw(st.sampled_from([0, 2]))
    kinds = draw(st.integers(1, 3))
    parts = tuple(
        PartWanted(mark=f"R{number}", length=draw(st.integers(20, 40)), count=1 if kinds == 3 else draw(st.integers(1, 2)),
                   left=draw(end_cuts()), right=draw(end_cuts()), turns=draw(st.booleans()),
                   allows=draw(st.sampled_from([frozenset(), frozenset({"knot"})])))
        for number in range(kinds)
    )  # fmt: skip
    old = tuple(replace(draw(old_pieces(f"P{number}")), price=0, count=1) for number in range(draw(st.integers(0, 2))))
    old = tuple(
        replace(piece, defects=tuple(defect._replace(kind="knot") for defect in piece.defects)) for piece in old
    )
    new = Stock(mark="N", length=draw(st.integers(60, 110)), count=None, price=7, old=False)
    return CutOrder(parts=parts, stock=(*old, new), kerf=kerf, keep=10)


def end_cuts():
    return st.sampled_from([EndCut(), EndCut(), EndCut(8, 10), EndCut(-8, 10), EndCut(5, 10)])


def wrong_with(plan: CutPlan) -> list[str]:
    """What is not right about a plan, found from the plan alone."""
    order, stock = plan.order, {each.mark: each for each in plan.order.stock}
    wanted = {part.mark: part for part in order.parts}
    cut: Counter[str] = Counter()
    found = []
    for pattern in plan.patterns:
        for place in pattern.parts:
            cut[place.mark] += pattern.times
            if not any(_lies_so(wanted[place.mark], place.left, place.right, place.end - place.start, way)
                       for way in ways_round(wanted[place.mark])):  # fmt: skip
                found.append(f"{place} is not {wanted[place.mark]}")
        if all(not saw.run for saw in pattern.cuts):
            found += _not_added_up(pattern, stock[pattern.stock])
        found += _wrong_in(pattern, stock[pattern.stock], order, wanted)
    missing = Counter({uncut.mark: uncut.many for uncut in plan.uncut})
    found += [f"{mark} cut {cut[mark]} times, {missing[mark]} told as missing" for mark, part in wanted.items()
              if cut[mark] + missing[mark] != part.count]  # fmt: skip
    found += [f"{many} of {mark}" for mark, many in plan.used.items()
              if stock[mark].count is not None and many > stock[mark].count]  # fmt: skip
    return found


def ways_round(part: PartWanted) -> set[tuple[int, int]]:
    """How much its two ends lean as it may lie."""
    left, right = part.left.run, part.right.run
    return {(left, right), (right, left)} | ({(-left, -right), (-right, -left)} if part.turns else set())


def _lies_so(part: PartWanted, left: EndCut, right: EndCut, lower: int, way: tuple[int, int]) -> bool:
    """Whether its longer points are as far apart as its length."""
    upper = lower + right.run - left.run
    return (
        (left.run, right.run) == way and part.length == max(lower, lower + right.run) - min(0, left.run) and upper > 0
    )


def _not_added_up(pattern, piece: Stock) -> list[str]:
    spans = sorted([*((place.start, place.end) for place in pattern.parts),
                    *((saw.start, saw.end) for saw in pattern.cuts if saw.end > saw.start),
                    *((offcut.start, offcut.end) for offcut in pattern.offcuts)])  # fmt: skip
    adds_up = [start for start, _ in spans] + [piece.length] == [0] + [end for _, end in spans]
    return [] if adds_up else [f"parts, cuts and offcuts do not add up to {piece}: {spans}"]


def _wrong_in(pattern, piece: Stock, order: CutOrder, wanted) -> list[str]:
    found = []
    for one, other in itertools.pairwise(pattern.parts):
        if other.start < one.end + order.kerf or other.start + other.left.run < one.end + one.right.run + order.kerf:
            found.append(f"{one} and {other} are nearer than a cut")
    for place in pattern.parts:
        body = (min(place.start, place.start + place.left.run), max(place.end, place.end + place.right.run))
        if body[0] < piece.trim.left or body[1] > piece.length - piece.trim.right:
            found.append(f"{place} lies in a raw end of {piece}")
        found += [f"{defect} is touched by {place}" for defect in piece.defects
                  if defect.kind not in wanted[place.mark].allows or not defect.kind
                  if body[0] < defect.end and body[1] > defect.start]  # fmt: skip
    for saw in pattern.cuts:
        start, end = min(saw.start, saw.start + saw.run), max(saw.end, saw.end + saw.run)
        found += [f"{defect} is touched by {saw}" for defect in piece.defects
                  if start < end and start < defect.end and end > defect.start]  # fmt: skip
        if not saw.run and saw.end - saw.start > order.kerf:
            found.append(f"{saw} is wider than the blade")
    return found


def least_money(order: CutOrder) -> int:
    """By trying all ways to share out the parts; every part must fit into some endless stock."""
    wanted = [part for part in sorted(order.parts, key=lambda part: -part.length) for _ in range(part.count)]
    kinds = {part.mark: part for part in order.parts}
    pieces = [stock for stock in order.stock if stock.count is not None for _ in range(stock.count)]
    endless = [stock for stock in order.stock if stock.count is None]
    fitting = cache(lambda number, held: _fits((*pieces, *endless)[number], [kinds[mark] for mark in held], order.kerf))
    best = 1 + sum(max(stock.price for stock in endless) for _ in wanted)

    def share(at: int, held: tuple[tuple[int, tuple[str, ...]], ...], money: int) -> None:
        nonlocal best
        if money >= best:
            return
        if at == len(wanted):
            best = money
            return
        for place, (number, inside) in enumerate(held):
            more = tuple(sorted((*inside, wanted[at].mark)))
            if fitting(number, more):
                share(at + 1, (*held[:place], (number, more), *held[place + 1 :]), money)
        used = {number for number, _ in held}
        for number, stock in enumerate((*pieces, *endless)):
            if (number >= len(pieces) or number not in used) and fitting(number, (wanted[at].mark,)):
                share(at + 1, (*held, (number, (wanted[at].mark,))), money + stock.price)

    share(0, (), 0)
    return best


def _fits(stock: Stock, parts: list[PartWanted], kerf: int) -> bool:
    if sum(part.length - abs(part.left.run) - abs(part.right.run) for part in parts) > stock.length:
        return False
    marks = {part.mark: part for part in parts}
    orders = set(permutations(part.mark for part in parts))
    return any(
        _fits_so(stock, [(marks[mark], way) for mark, way in zip(order, ways, strict=True)], kerf)
        for order in orders
        for ways in itertools.product(*(ways_round(marks[mark]) for mark in order))
    )


def _fits_so(stock: Stock, lying: list[tuple[PartWanted, tuple[int, int]]], kerf: int) -> bool:
    """Parts in this order and lying so, each as far left as it may, step by step."""
    lower = upper = (max(stock.trim.left, kerf) if stock.trim.left else 0) - kerf
    last = stock.length - (max(stock.trim.right, kerf) if stock.trim.right else 0)
    before, begun = 0, False
    for part, (left, right) in lying:
        gap = (_kerf(left, kerf) if before == left else _kerf(before, kerf) + _kerf(left, kerf)) if begun else kerf
        at = max(lower + gap, upper + gap - left)
        length = part.length - max(-left, 0) - max(right, 0)
        while max(at + length, at + length + right) <= last and _touches(stock, (part, at, left, length, right), kerf):
            at += 1
        lower, upper, before, begun = at + length, at + length + right, right, True
        if max(lower, upper) > last:
            return False
    return True


def _kerf(run: int, kerf: int) -> int:
    return math.ceil(kerf * math.hypot(run, 10) / 10 - 1e-9) if run else kerf


def _touches(stock: Stock, lying: tuple[PartWanted, int, int, int, int], kerf: int) -> bool:
    """Whether a part lies on a defect that it may not have, or one of its cuts on any defect."""
    part, at, left, length, right = lying
    first, last = min(at, at + left), max(at + length, at + length + right)
    before, after = max(first - _kerf(left, kerf), 0), min(last + _kerf(right, kerf), stock.length)
    for defect in stock.defects:
        inside = max(at, at + left) <= defect.start and defect.end <= min(at + length, at + length + right)
        bears = defect.kind and defect.kind in part.allows and inside
        if before < defect.end and after > defect.start and not bears:
            return True
    return False
