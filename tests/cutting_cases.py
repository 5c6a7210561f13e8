"""Cut orders made up by chance, the public and the yard instances, and what any plan must keep to."""

from __future__ import annotations

import json
from collections import Counter
from functools import cache
from itertools import permutations
from pathlib import Path

from hypothesis import strategies as st

from pinfold.studies.cutting.records import CutOrder, CutPlan, Defect, PartWanted, Stock, Trim

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


def wrong_with(plan: CutPlan) -> list[str]:
    """What is not right about a plan, found from the plan alone."""
    order, stock = plan.order, {each.mark: each for each in plan.order.stock}
    wanted = {part.mark: part for part in order.parts}
    cut: Counter[str] = Counter()
    found = []
    for pattern in plan.patterns:
        piece = stock[pattern.stock]
        cut.update({place.mark: 0 for place in pattern.parts})
        for place in pattern.parts:
            cut[place.mark] += pattern.times
            if place.end - place.start != wanted[place.mark].length:
                found.append(f"{place} is not as long as {wanted[place.mark]}")
        found += _wrong_in(pattern, piece, order)
    missing = Counter({uncut.mark: uncut.many for uncut in plan.uncut})
    found += [f"{mark} cut {cut[mark]} times, {missing[mark]} told as missing" for mark, part in wanted.items()
              if cut[mark] + missing[mark] != part.count]  # fmt: skip
    found += [f"{many} of {mark}" for mark, many in plan.used.items()
              if stock[mark].count is not None and many > stock[mark].count]  # fmt: skip
    return found


def _wrong_in(pattern, piece: Stock, order: CutOrder) -> list[str]:
    spans = sorted([*((place.start, place.end) for place in pattern.parts),
                    *((saw.start, saw.end) for saw in pattern.cuts if saw.end > saw.start),
                    *((offcut.start, offcut.end) for offcut in pattern.offcuts)])  # fmt: skip
    found = []
    if [start for start, _ in spans] + [piece.length] != [0] + [end for _, end in spans]:
        found.append(f"parts, cuts and offcuts do not add up to {piece}: {spans}")
    left, right = pattern.parts[0].start, piece.length - pattern.parts[-1].end
    if left < piece.trim.left or right < piece.trim.right:
        found.append(f"a raw end in {pattern}")
    touching = [(place.start, place.end) for place in pattern.parts] + [(saw.start, saw.end) for saw in pattern.cuts]
    for start, end in touching:
        start, end = max(start, piece.trim.left), min(end, piece.length - piece.trim.right)  # raw ends may be sawn into
        found += [f"{defect} is touched in {pattern}" for defect in piece.defects
                  if start < end and start < defect.end and end > defect.start]  # fmt: skip
    found += [f"{saw} is wider than the blade" for saw in pattern.cuts if saw.end - saw.start > order.kerf]
    return found


def least_money(order: CutOrder) -> int:
    """By trying all ways to share out the parts; every part must fit into some endless stock."""
    lengths = tuple(sorted((part.length for part in order.parts for _ in range(part.count)), reverse=True))
    pieces = [stock for stock in order.stock if stock.count is not None for _ in range(stock.count)]
    endless = [stock for stock in order.stock if stock.count is None]
    fitting = cache(lambda number, held: _fits((*pieces, *endless)[number], held, order.kerf))
    best = sum(min(stock.price for stock in endless if stock.length >= length) for length in lengths)

    def share(at: int, held: tuple[tuple[int, tuple[int, ...]], ...], money: int) -> None:
        nonlocal best
        if money >= best:
            return
        if at == len(lengths):
            best = money
            return
        for place, (number, inside) in enumerate(held):
            more = tuple(sorted((*inside, lengths[at])))
            if fitting(number, more):
                share(at + 1, (*held[:place], (number, more), *held[place + 1 :]), money)
        used = {number for number, _ in held}
        for number, stock in enumerate((*pieces, *endless)):
            if (number >= len(pieces) or number not in used) and fitting(number, (lengths[at],)):
                share(at + 1, (*held, (number, (lengths[at],))), money + stock.price)

    share(0, (), 0) if best else None
    return best


def _fits(stock: Stock, lengths: tuple[int, ...], kerf: int) -> bool:
    return any(_fits_so(stock, order, kerf) for order in set(permutations(lengths)))


def _fits_so(stock: Stock, lengths: tuple[int, ...], kerf: int) -> bool:
    """Parts in this order, each as far left as it may lie, step by step."""
    at = max(stock.trim.left, kerf) if stock.trim.left else 0
    last = stock.length - (max(stock.trim.right, kerf) if stock.trim.right else 0)
    for length in lengths:
        while at + length <= last and _touches(stock, at, length, kerf):
            at += 1
        if at + length > last:
            return False
        at += length + kerf
    return True


def _touches(stock: Stock, at: int, length: int, kerf: int) -> bool:
    raw = (stock.trim.left and at == max(stock.trim.left, kerf), stock.trim.right
           and at + length == stock.length - max(stock.trim.right, kerf))  # fmt: skip
    start = at if raw[0] else max(at - kerf, 0)
    end = at + length if raw[1] else min(at + length + kerf, stock.length)
    return any(start < defect.end and end > defect.start for defect in stock.defects)
