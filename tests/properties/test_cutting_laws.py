"""Cut plans against all ways tried out, and what every plan keeps to."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting_cases import BESIDE, leaning_orders, least_money, lines_of, orders, wrong_with, yard_order
from pinfold.studies.cutting.asking import Reading, asked
from pinfold.studies.cutting.guessing import first_fit
from pinfold.studies.cutting.lengths import cut_lengths
from pinfold.studies.cutting.packing import money
from pinfold.studies.cutting.records import PartWanted, Proof, Stock


@given(orders())
@settings(max_examples=150)
def test_no_way_to_share_out_the_parts_costs_less_than_the_plan(order):
    plan = cut_lengths(order)

    assert wrong_with(plan) == []
    assert not plan.uncut
    assert plan.proof is Proof.OPTIMUM
    assert plan.money == plan.bound == least_money(order)


@given(leaning_orders())
@settings(max_examples=150)
def test_leaning_ends_and_allowed_knots_against_all_ways_to_lie(order):
    plan = cut_lengths(order)
    least = least_money(order)

    assert wrong_with(plan) == []
    assert not plan.uncut
    assert plan.bound <= least <= plan.money
    assert plan.proof is not Proof.OPTIMUM or plan.money == least


@given(orders(most_parts=14, most_old=6))
def test_larger_plans_keep_to_the_pieces_and_are_proven(order):
    plan = cut_lengths(order)

    assert wrong_with(plan) == []
    assert plan.proof is Proof.OPTIMUM
    assert plan.gap == 0


@given(orders(most_parts=14, most_old=6))
def test_a_plan_never_costs_more_than_first_fit(order):
    question = asked(order, Reading())

    assert cut_lengths(order).money <= money(question.packing, first_fit(question.packing)) * question.coin


@given(orders(most_parts=10), st.integers(10, 80))
def test_one_more_old_piece_never_makes_it_dearer(order, length):
    more = replace(order, stock=(*order.stock, Stock(mark="more", length=length)))

    assert cut_lengths(more).money <= cut_lengths(order).money


@given(orders(most_parts=10), st.integers(4, 40))
def test_one_more_part_never_makes_it_cheaper(order, length):
    length = min(length, max(stock.length for stock in order.stock if stock.count is None))
    more = replace(order, parts=(*order.parts, PartWanted(mark="more", length=length)))

    assert cut_lengths(more).money >= cut_lengths(order).money


@given(orders(most_parts=10), st.randoms())
def test_the_order_of_parts_and_stock_changes_no_money(order, chance):
    parts, stock = list(order.parts), list(order.stock)
    chance.shuffle(parts)
    chance.shuffle(stock)

    assert cut_lengths(replace(order, parts=tuple(parts), stock=tuple(stock))).money == cut_lengths(order).money


@given(orders(most_parts=10))
def test_all_in_a_finer_step_is_the_same_plan(order):
    finer = replace(
        order, kerf=7 * order.kerf, keep=7 * order.keep,
        parts=tuple(replace(part, length=7 * part.length) for part in order.parts),
        stock=tuple(
            replace(stock, length=7 * stock.length, trim=type(stock.trim)(*(7 * each for each in stock.trim)),
                    defects=tuple(defect._replace(start=7 * defect.start, end=7 * defect.end) for defect in stock.defects))
            for stock in order.stock
        ),
    )  # fmt: skip

    assert cut_lengths(finer).money == cut_lengths(order).money


@pytest.mark.skipif(not BESIDE.exists(), reason="the yard-like cases do not lie beside the project")
@pytest.mark.cutting
@pytest.mark.parametrize("number", range(45))
def test_every_yard_like_case_is_proven(number):
    plan = cut_lengths(yard_order(lines_of(BESIDE / "yard.jsonl")[number]), limit=60)

    assert wrong_with(plan) == []
    assert plan.proof is Proof.OPTIMUM
