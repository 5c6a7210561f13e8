"""Sheets by cuts from edge to edge: every part once, nothing over another, brute force on small ones, hostile orders."""

from __future__ import annotations

import time
from collections import Counter
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.studies.cutting.records import Proof
from pinfold.studies.cutting.sheet_exact import paying
from pinfold.studies.cutting.sheet_grid import Rounding, grid_of
from pinfold.studies.cutting.sheet_records import SheetOrder, SheetPart, SheetPattern, SheetStock
from pinfold.studies.cutting.sheets import cut_sheets, payable


def order_of(parts, stock, *, kerf=0, keep=0):
    return SheetOrder(
        parts=tuple(SheetPart(mark=f"S{at}", wide=w, high=h, count=n, turns=t) for at, (w, h, n, t) in enumerate(parts)),
        stock=tuple(
            SheetStock(mark=f"N{at}", wide=w, high=h, count=n, price=p, old=p == 0) for at, (w, h, n, p) in enumerate(stock)
        ),
        kerf=kerf, keep=keep,
    )  # fmt: skip


def rectangles_of(pattern):
    return [part.area for part in pattern.parts] + [rest.area for rest in pattern.rests]


def apart(one, other):
    return (
        one.x + one.wide <= other.x or other.x + other.wide <= one.x or one.y + one.high <= other.y
        or other.y + other.high <= one.y
    )  # fmt: skip


def falls_apart(areas, kerf):
    """Whether rectangles can be parted by cuts from edge to edge, each taking one kerf."""
    if len(areas) <= 1:
        return True
    for axis, size in (("x", "wide"), ("y", "high")):
        ends = sorted({getattr(area, axis) + getattr(area, size) for area in areas})
        for end in ends[:-1]:
            low = [area for area in areas if getattr(area, axis) + getattr(area, size) <= end]
            high = [area for area in areas if getattr(area, axis) >= end + kerf]
            if low and high and len(low) + len(high) == len(areas):
                return falls_apart(low, kerf) and falls_apart(high, kerf)
    return False


def lies_well(pattern, order):
    """Parts of a sheet: on it, apart, of their own size, and to be parted by cuts from edge to edge."""
    sheet = next(each for each in order.stock if each.mark == pattern.stock)
    areas = [part.area for part in pattern.parts]
    inside = all(
        area.x >= 0 and area.y >= 0 and area.x + area.wide <= sheet.wide and area.y + area.high <= sheet.high
        for area in areas
    )
    everything = rectangles_of(pattern)
    parted = all(apart(one, other) for at, one in enumerate(everything) for other in everything[:at])
    return inside and parted and falls_apart(areas, order.kerf) and all(is_own(part, order) for part in pattern.parts)


def is_own(laid, order):
    own = next(part for part in order.parts if part.mark == laid.mark)
    size = (own.high, own.wide) if laid.turned else (own.wide, own.high)
    return (laid.area.wide, laid.area.high) == size and (own.turns or not laid.turned)


def check(plan):
    order = plan.order
    cut = Counter({each.mark: each.many for each in plan.uncut})
    for pattern in plan.patterns:
        assert lies_well(pattern, order)
        cut += Counter({mark: n * pattern.times for mark, n in Counter(part.mark for part in pattern.parts).items()})
    assert cut == Counter({part.mark: part.count for part in order.parts})
    for stock in order.stock:
        assert stock.count is None or plan.used[stock.mark] <= stock.count
    assert plan.bound <= plan.money


sides = st.integers(2, 9)
small_parts = st.lists(st.tuples(sides, sides, st.integers(1, 3), st.booleans()), min_size=1, max_size=4)
small_stock = st.lists(st.tuples(st.integers(6, 14), st.integers(6, 14), st.sampled_from([1, 2, None]),
                                 st.integers(3, 9)), min_size=1, max_size=2)  # fmt: skip


@settings(max_examples=25, deadline=None)
@given(parts=small_parts, stock=small_stock, kerf=st.integers(0, 2))
def test_every_part_is_cut_once_from_edge_to_edge_and_nothing_lies_over_another(parts, stock, kerf):
    check(cut_sheets(order_of(parts, stock, kerf=kerf), seconds=2))


@settings(max_examples=25, deadline=None)
@given(parts=small_parts, stock=small_stock, kerf=st.integers(0, 2))
def test_fills_that_pay_on_a_grid_can_be_cut(parts, stock, kerf):
    fitting = [part for part in parts if any(part[0] <= w and part[1] <= h for w, h, _, _ in stock)]
    if not fitting:
        return
    order = order_of(fitting, stock, kerf=kerf)
    for filled in paying(order, known=(), until=time.monotonic() + 2, seed=1):
        assert lies_well(SheetPattern(times=1, **filled._asdict()), order)
        assert all(filled.counts[part.mark] <= part.count for part in order.parts)


@settings(max_examples=25, deadline=None)
@given(parts=small_parts, stock=small_stock, kerf=st.integers(0, 2), fineness=st.integers(3, 40))
def test_a_grid_rounded_down_lets_all_in_and_one_rounded_up_nothing_that_does_not_fit(parts, stock, kerf, fineness):
    order = order_of(parts, stock, kerf=kerf)
    low, high = (grid_of(order, fineness, way) for way in Rounding)
    shapes = [(w, h) for w, h, _, turns in parts for w, h in ((w, h), (h, w))[: 2 if turns and w != h else 1]]
    for (wide, tall), small, large in zip(shapes, low.shapes, high.shapes, strict=True):
        assert (small[1] * low.cell, small[2] * low.cell) <= (wide + kerf, tall + kerf)
        assert large[1] * high.cell >= wide + kerf
        assert large[2] * high.cell >= tall + kerf
    for sheet, cells in zip(order.stock, low.sheets, strict=True):
        assert cells[0] * low.cell <= sheet.wide + kerf
        assert cells[1] * low.cell <= sheet.high + kerf


def test_two_short_parts_beside_a_long_one_come_out_of_one_sheet():
    plan = cut_sheets(
        order_of([(4, 10, 1, False), (3, 5, 2, False), (3, 10, 1, False)], [(10, 10, None, 7)]), seconds=2
    )

    assert (plan.money, plan.proof) == (7, Proof.OPTIMUM)


def fits(wide, high, parts, kerf):
    """Brute force: whether a multiset of rectangles comes out of one sheet by cuts from edge to edge."""

    @cache
    def can(w, h, left):
        if len(left) <= 1:
            return all((a <= w and b <= h) or (turns and b <= w and a <= h) for a, b, turns in left)
        if sum(a * b for a, b, _ in left) > w * h:
            return False
        return any(
            can(*first, one) and can(*second, other)
            for first, second in halves(w, h, kerf) for one, other in splits(left)
        )  # fmt: skip

    return can(wide, high, tuple(sorted(parts)))


def halves(w, h, kerf):
    """Every way to cut a rectangle through."""
    yield from (((at, h), (w - kerf - at, h)) for at in range(1, w - kerf))
    yield from (((w, at), (w, h - kerf - at)) for at in range(1, h - kerf))


def splits(left):
    """Every way to share out rectangles between two."""
    for mask in range(1, 2 ** len(left) - 1):
        yield (tuple(part for at, part in enumerate(left) if mask >> at & 1),
               tuple(part for at, part in enumerate(left) if not mask >> at & 1))  # fmt: skip


def fewest(wide, high, parts, kerf):
    """Brute force: the fewest equal sheets."""

    def packed(left, bins):
        if not left:
            return len(bins)
        part, *rest = left
        best = 99
        for at in range(len(bins)):
            if fits(wide, high, [*bins[at], part], kerf):
                best = min(best, packed(rest, [*bins[:at], [*bins[at], part], *bins[at + 1 :]]))
        return min(best, packed(rest, [*bins, [part]]))

    return packed(parts, [])


@pytest.mark.parametrize("kerf", [0, 1])
@pytest.mark.parametrize(
    "parts",
    [
        [(4, 3, 4, False)],
        [(5, 4, 2, True), (3, 3, 2, False)],
        [(6, 2, 3, True), (2, 5, 2, True)],
        [(4, 4, 2, False), (3, 2, 3, True)],
        [(7, 5, 1, True), (3, 5, 2, True), (2, 2, 2, False)],
    ],
)
def test_small_sheets_are_cut_as_well_as_by_trying_everything(parts, kerf):
    plan = cut_sheets(order_of(parts, [(10, 7, None, 5)], kerf=kerf), seconds=3)
    each = [(w, h, t) for w, h, n, t in parts for _ in range(n)]
    least = fewest(10, 7, each, kerf)

    assert plan.money == 5 * least
    assert plan.bound <= 5 * least


def test_an_offcut_on_hand_goes_before_a_new_sheet():
    plan = cut_sheets(order_of([(5, 5, 2, False)], [(5, 10, 1, 0), (20, 20, None, 90)]), seconds=2)

    assert plan.money == 0
    assert plan.proof is Proof.OPTIMUM


def test_grain_keeps_a_part_from_turning():
    assert cut_sheets(order_of([(8, 3, 1, False)], [(3, 8, 1, 0)]), seconds=1).uncut[0].mark == "S0"
    assert not cut_sheets(order_of([(8, 3, 1, True)], [(3, 8, 1, 0)]), seconds=1).uncut


def test_what_fits_no_sheet_is_told_with_what_would_mend_it():
    plan = cut_sheets(order_of([(30, 3, 2, True), (2, 2, 1, False)], [(10, 10, None, 4)]), seconds=1)

    assert [(each.mark, each.many) for each in plan.uncut] == [("S0", 2)]
    assert "larger" in plan.uncut[0].because
    assert plan.uncut[0].mend


def test_too_few_sheets_are_told():
    plan = cut_sheets(order_of([(10, 10, 3, False)], [(10, 10, 1, 0)]), seconds=1)

    assert [(each.mark, each.many) for each in plan.uncut] == [("S0", 2)]
    check(plan)


def test_thousands_of_equal_parts_take_no_thousands_of_patterns():
    plan = cut_sheets(order_of([(40, 20, 10_000, False)], [(100, 100, None, 7)]), seconds=4)

    check(plan)
    assert plan.money == 7 * 1000
    assert plan.proof is Proof.OPTIMUM


def test_money_comes_in_whole_sheets():
    stock = order_of([(1, 1, 1, False)], [(9, 9, None, 298), (9, 9, None, 420)]).stock

    assert payable(stock, 123, most=900) == 298
    assert payable(stock, 299, most=900) == 420
    assert payable(stock, 421, most=900) == 596
