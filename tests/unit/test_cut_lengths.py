"""Lengths: what a plan costs, where parts lie, what is told where the stock does not give them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutting_cases import wrong_with
from pinfold.errors import InvalidPlan
from pinfold.studies.cutting.lengths import cut_lengths
from pinfold.studies.cutting.records import CutOrder, Defect, EndCut, PartWanted, Proof, Stock, Trim
from pinfold.units import System

NEW = Stock(mark="N1", length=6000, count=None, price=700, old=False)


def order(*parts, stock=(NEW,), kerf=3, keep=400, **more) -> CutOrder:
    wanted = tuple(part if isinstance(part, PartWanted) else PartWanted(mark=f"R{number}", length=part[0], count=part[1])
                   for number, part in enumerate(parts, 1))  # fmt: skip
    return CutOrder(parts=wanted, stock=tuple(stock), kerf=kerf, keep=keep, **more)


def planned(*args, **more):
    plan = cut_lengths(order(*args, **more))
    assert wrong_with(plan) == []
    return plan


def test_an_exact_fit_needs_no_last_cut():
    plan = planned((1998, 3))  # 3 × 1998 + 2 × 3 = 6000

    assert plan.money == 700
    assert plan.sawn == 2
    assert plan.patterns[0].offcuts == ()


def test_one_step_more_does_not_fit():
    assert planned((1999, 3)).money == 1400


def test_the_cut_beside_a_defect_costs_a_kerf_on_its_side():
    old = Stock(mark="P1", length=3000, defects=(Defect(1003, 1100, "nails"),))

    assert planned((1000, 1), stock=(old, NEW)).money == 0
    assert planned((1000, 1), (1897, 1), stock=(old, NEW)).money == 0  # 1100 + 3 + 1897 = 3000, good end
    assert planned((1000, 1), (1898, 1), stock=(old, NEW)).money == 700
    assert planned((1001, 1), (1500, 1), stock=(old, NEW)).money == 700


def test_a_raw_end_comes_off_with_the_cut_in_what_comes_off():
    old = Stock(mark="P1", length=1020, trim=Trim(10, 10))

    assert planned((1000, 1), stock=(old, NEW)).money == 0
    assert planned((1001, 1), stock=(old, NEW)).money == 700


def test_an_offcut_is_kept_when_it_is_long_enough_after_its_own_kerf():
    old = Stock(mark="P1", length=1000)

    assert planned((597, 1), stock=(old, NEW)).kept == 400
    assert planned((598, 1), stock=(old, NEW)).kept == 0


def test_what_lies_beyond_an_unused_defect_stays_one_offcut():
    old = Stock(mark="P1", length=3000, defects=(Defect(900, 1000, "notch"),))
    plan = planned((500, 1), stock=(old, NEW))
    (pattern,) = plan.patterns

    assert plan.sawn == 1
    assert [offcut.length for offcut in pattern.offcuts] == [2497]
    assert plan.kept == 2497


def test_old_pieces_go_before_new_ones_that_cost_nothing_either():
    given = replace(NEW, price=0, count=1)
    other = replace(NEW, mark="N2", price=5)
    old = Stock(mark="P1", length=3000)

    assert planned((1000, 2), stock=(given, old, other)).used == {"P1": 1}


def test_as_few_old_pieces_as_do_are_begun():
    old = [Stock(mark=f"P{number}", length=length) for number, length in enumerate((1100, 1200, 2300, 1300))]

    assert planned((1000, 2), stock=(*old, NEW)).used == {"P2": 1}


def test_no_kerf_and_ten_thousand_equal_parts():
    plan = planned((1000, 10_000), kerf=0)

    assert plan.money == 700 * 1667
    assert plan.proof is Proof.OPTIMUM
    assert len(plan.patterns) == 2


def test_the_price_need_not_grow_with_the_length():
    short, long = replace(NEW, mark="N2", length=3000, price=600), replace(NEW, mark="N3", length=9000, price=550)

    assert planned((1400, 2), stock=(short, long, NEW)).used == {"N3": 1}


def test_where_nothing_has_a_price_the_least_length_is_bought():
    stock = [Stock(mark=f"N{length}", length=length, count=None, old=False) for length in (2400, 3600, 5400)]
    plan = planned((1150, 4), stock=stock)

    assert plan.money == 0
    assert plan.bought == plan.bound == 4800
    assert plan.gap == 0


def test_a_part_longer_than_any_stock_is_told_with_what_would_mend_it():
    part = PartWanted(mark="R1", length=70_000, splice=True)
    plan = planned(part, (1000, 1), stock=(replace(NEW, length=60_000),))
    (uncut,) = plan.uncut

    assert (uncut.mark, uncut.many) == ("R1", 1)
    assert "7.000\u00a0m" in uncut.because
    assert "N1 comes nearest" in uncut.because
    assert "1.000\u00a0m longer" in uncut.mend
    assert "splice" in uncut.mend
    assert plan.money == 700


def test_a_part_that_only_an_old_piece_would_give_without_its_defect_is_told():
    old = Stock(mark="P1", length=5000, defects=(Defect(2000, 2100, "notch"),))
    plan = planned((4000, 1), (1000, 1), stock=(old,), system=System.US)

    assert [uncut.mark for uncut in plan.uncut] == ["R1"]
    assert plan.money == 0


def test_what_a_used_up_stock_does_not_give_is_told_and_the_rest_is_cut():
    plan = planned((2000, 4), stock=(replace(NEW, count=1),), kerf=0)
    (uncut,) = plan.uncut

    assert uncut.many == 1
    assert "used up" in uncut.because
    assert plan.money == 700
    assert plan.proof is Proof.OPTIMUM


def test_no_stock_at_all_is_told():
    (uncut,) = planned((2000, 4), stock=()).uncut

    assert uncut.because == "there is no stock"


def test_ends_that_face_each_other_alike_share_one_cut():
    leaning = PartWanted(mark="R1", length=1100, count=2, left=EndCut(100, 100), right=EndCut(100, 100))
    old = Stock(mark="P1", length=2105)  # 1100 + 1100 - 100 of the overlap + 5 of the cut
    plan = planned(leaning, stock=(old, NEW))
    (pattern,) = plan.patterns

    assert plan.money == 0
    assert len(pattern.cuts) == 3
    assert len({saw.run for saw in pattern.cuts}) == 1
    assert planned(leaning, stock=(replace(old, length=2104), NEW)).money == 700


def test_a_part_that_leans_the_other_way_is_turned_over_to_nest():
    one = PartWanted(mark="R1", length=1100, left=EndCut(100, 100), right=EndCut(100, 100))
    other = PartWanted(mark="R2", length=1100, left=EndCut(-100, 100), right=EndCut(-100, 100))
    old = Stock(mark="P1", length=2105)

    assert planned(one, other, stock=(old, NEW)).money == 0
    assert planned(replace(one, turns=False), replace(other, turns=False), stock=(old, NEW)).money == 700


def test_a_part_may_have_a_knot_in_it_where_it_allows_one():
    part = PartWanted(mark="R1", length=1500, allows=frozenset({"knot"}))
    old = Stock(mark="P1", length=2000, defects=(Defect(1000, 1050, "knot"),))

    assert planned(part, stock=(old, NEW)).money == 0
    assert planned(replace(part, allows=frozenset()), stock=(old, NEW)).money == 700
    assert planned(part, stock=(replace(old, defects=(Defect(1000, 1050, "notch"),)), NEW)).money == 700


def test_no_cut_goes_through_a_knot_that_a_part_may_have():
    part = PartWanted(mark="R1", length=1000, count=2, allows=frozenset({"knot"}))
    old = Stock(mark="P1", length=2003, defects=(Defect(990, 1010, "knot"),))

    assert planned(part, stock=(old, NEW)).money == 700


def test_a_search_tells_how_far_it_is_and_stops_in_time_with_its_gap():
    told = []
    parts = [(length, 2) for length in range(1003, 2900, 61)]
    plan = cut_lengths(order(*parts), limit=0.0001, tell=told.append)

    assert wrong_with(plan) == []
    assert plan.bound <= plan.money
    assert (plan.proof is Proof.OPTIMUM) == (plan.gap == 0)
    assert told[-1].says == "done"
    assert cut_lengths(order(*parts)).money <= plan.money


def test_all_complaints_about_an_order_come_at_once():
    old = Stock(mark="P1", length=1000, count=-1, price=-2, defects=(Defect(900, 1200, "notch"), Defect(5, 5)),
                trim=Trim(600, 600))  # fmt: skip
    with pytest.raises(InvalidPlan) as complaints:
        cut_lengths(order((0, 1), (5, 0), stock=(old, old), kerf=-1, keep=-1))

    text = str(complaints.value)
    for place in ("kerf", "keep", "part R1", "part R2", "stock P1"):
        assert place in text
    assert "stands 2 times" in text
    assert "does not lie on a piece" in text
