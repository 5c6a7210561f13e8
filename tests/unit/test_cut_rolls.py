"""Mesh off rolls: every band covered once from end to end, joints on posts alone, rests first, brute force as rival."""

from __future__ import annotations

import itertools
from collections import defaultdict

from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.studies.cutting.records import Proof
from pinfold.studies.cutting.roll_records import Band, Roll, RollOrder
from pinfold.studies.cutting.rolls import unroll


def order_of(bays, rolls, *, lap=1, keep=0, tie=0):
    return RollOrder(
        bands=tuple(
            Band(mark=f"M{at}", posts=tuple(itertools.accumulate((0, *each))), place=f"s{at}", tie=tie)
            for at, each in enumerate(bays)
        ),
        rolls=tuple(Roll(mark=f"R{at}", length=n, count=c, price=p, old=p == 0) for at, (n, c, p) in enumerate(rolls)),
        lap=lap, keep=keep,
    )  # fmt: skip


def pieces_of(plan):
    """Pieces of each band and layer, from its start on; what comes off a roll adds up to it."""
    lengths = {roll.mark: roll.length for roll in plan.order.rolls}
    found = defaultdict(list)
    for unrolled in plan.unrolled:
        assert sum(piece.length for piece in unrolled.pieces) + unrolled.rest == lengths[unrolled.roll]
        assert unrolled.rest >= 0
        for piece in unrolled.pieces:
            found[piece.mark, piece.layer].append(piece)
    return {key: sorted(group, key=lambda piece: piece.start) for key, group in found.items()}


def covers(band, pieces, lap):
    """Whether pieces follow each other over a band, meeting on posts, with their overlap in them."""
    follow = all(one.end == after.start and one.end in band.posts for one, after in itertools.pairwise(pieces))
    last = band.posts[-1]
    long_enough = all(
        piece.length == piece.end - piece.start + 2 * band.tie + lap * (piece.end < last) for piece in pieces
    )
    return pieces[0].start == 0 and pieces[-1].end == last and follow and long_enough


def check(plan):
    order, pieces = plan.order, pieces_of(plan)
    lost = {each.mark for each in plan.uncut}
    for band in order.bands:
        for layer in range(1, band.many + 1) if band.mark not in lost else ():
            assert covers(band, pieces.pop((band.mark, layer)), order.lap)
    assert not pieces
    for roll in order.rolls:
        assert roll.count is None or sum(each.roll == roll.mark for each in plan.unrolled) <= roll.count
    assert plan.bound <= plan.money


@settings(max_examples=25, deadline=None)
@given(
    bays=st.lists(st.lists(st.integers(2, 6), min_size=1, max_size=5), min_size=1, max_size=4),
    old=st.lists(st.integers(3, 15), max_size=2),
    lap=st.integers(0, 2),
    tie=st.integers(0, 2),
)
def test_every_band_is_covered_once_and_joined_on_posts_alone(bays, old, lap, tie):
    rolls = [*((length, 1, 0) for length in old), (12, None, 50)]
    plan = unroll(order_of(bays, rolls, lap=lap, tie=tie), seconds=4)

    check(plan)
    assert not plan.uncut


def least(bays, roll, lap, tie):
    """Brute force: (fewest equal rolls, fewest joints with them), over all ways to join."""
    choices = []
    for each in bays:
        posts = list(itertools.accumulate((0, *each)))
        inner = posts[1:-1]
        ways = []
        for count in range(len(inner) + 1):
            for cuts in itertools.combinations(inner, count):
                ends = [0, *cuts, posts[-1]]
                ways.append([b - a + 2 * tie + lap * (b < posts[-1]) for a, b in itertools.pairwise(ends)])
        choices.append(ways)
    best = (99, 99)
    for way in itertools.product(*choices):
        pieces = sorted((piece for one in way for piece in one), reverse=True)
        if pieces[0] <= roll:
            joints = len(pieces) - len(bays)
            best = min(best, (bins(pieces, roll, best[0]), joints))
    return best


def bins(pieces, roll, most):
    def packed(left, rests):
        if len(rests) > most:
            return 99
        if not left:
            return len(rests)
        piece, *others = left
        found = 99
        for rest in sorted({rest for rest in rests if rest >= piece}):
            after = list(rests)
            after[after.index(rest)] = rest - piece
            found = min(found, packed(others, after))
        return min(found, packed(others, [*rests, roll - piece]))

    return packed(pieces, [])


@settings(max_examples=20, deadline=None)
@given(
    bays=st.lists(st.lists(st.integers(2, 5), min_size=1, max_size=3), min_size=1, max_size=3),
    lap=st.integers(0, 1),
    tie=st.integers(0, 1),
)
def test_rolls_and_joints_are_as_few_as_by_trying_everything(bays, lap, tie):
    plan = unroll(order_of(bays, [(9, None, 50)], lap=lap, tie=tie), seconds=10)

    assert plan.proof is Proof.OPTIMUM
    assert (plan.money // 50, plan.joints) == least(bays, 9, lap, tie)


def test_a_rest_on_hand_is_used_before_a_new_roll_of_the_same_money():
    plan = unroll(order_of([[4, 4], [10]], [(8, 1, 0), (20, None, 100)]))

    assert {each.roll for each in plan.unrolled} == {"R0", "R1"}
    assert plan.joints == 0


def test_what_is_left_over_is_left_in_one_piece():
    plan = unroll(order_of([[6], [6], [5], [4], [3]], [(20, None, 100)], keep=1))

    assert sorted(each.rest for each in plan.unrolled) in ([0, 16], [1, 15], [2, 14])
    assert min(each.rest for each in plan.unrolled) == 0


def test_a_bay_longer_than_any_roll_is_told():
    plan = unroll(order_of([[30], [4]], [(20, None, 10)]))

    assert [each.mark for each in plan.uncut] == ["M0"]
    assert "longer than any roll" in plan.uncut[0].because
    check(plan)


def test_rolls_on_hand_that_do_not_do_are_told():
    plan = unroll(order_of([[9], [9]], [(10, 1, 0)]))

    assert len(plan.uncut) == 2
    assert plan.uncut[0].mend


def test_a_long_fence_has_a_plan_with_its_gap_told():
    plan = unroll(order_of([[8] * 30] * 6, [(100, None, 70)], lap=1), seconds=2)

    check(plan)
    assert plan.money >= plan.bound > 0
