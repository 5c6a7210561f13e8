"""Supports, shims, doors, jack and crib of a structure on blocks, read from a plan."""

from __future__ import annotations

import pytest

import sheds
from pinfold.errors import InvalidPlan


def leveling(**told):
    return sheds.plan(**told).neighbors[-1].blocks.leveling


def test_all_of_it_is_read():
    found = leveling(inner='tolerance = "4 mm"\nstep = "3 mm"')

    assert [support.mark for support in found.supports] == list(sheds.MARKS)
    assert found.supports[2].at == pytest.approx((34.2, 20.0))
    assert [shim.count for shim in found.shims] == [4, 8, 12]
    assert found.shims[0].thickness == pytest.approx(0.0125)
    assert found.doors[0].height == pytest.approx(2.0)
    assert (found.tolerance, found.step) == (pytest.approx(0.004), pytest.approx(0.003))
    assert found.jack.capacity == pytest.approx(40e3)
    assert (found.fixed, found.built, found.crib.name) == ("peg", "2026-04-01", "crib-4x4-2")


def test_a_stack_tells_its_shims():
    more = '[[neighbor.blocks.support]]\nmark = "C1"\nx = "30 m"\ny = "22 m"\nshims = ["1/4 in", "1/8 in"]\n'
    text = sheds.plan_text(more=more).replace("count = 6\n", "count = 7\n", 1)

    assert sheds.planfile.plan_of(text).neighbors[-1].blocks.leveling.supports[-1].shims == pytest.approx(
        (0.00635, 0.003175)
    )


@pytest.mark.parametrize(
    ("change", "place", "told"),
    [
        (('mark = "A2"', 'mark = "A1"'), "support[1].mark", "its own mark"),
        (("count = 6", "count = 5"), "count", "6 supports follow"),
        (('built = "2026-04-01"', 'built = "spring"'), "built", "is no day"),
        (('capacity = "40 kN"', 'capacity = "4 t"'), "jack.capacity", "t"),
        (('crib = "crib-4x4-2"', 'crib = "crib-4x4"'), "crib", "did you mean"),
        (('thickness = "6 mm"', 'thickness = "6 m"'), "shim[1].thickness", "out of bounds"),
        (('mark = "A3"\nx', 'mark = "A3"\nshims = "2 mm"\nx'), "support[2].shims", "thicknesses are wanted"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_with_its_place(change, place, told):
    with pytest.raises(InvalidPlan) as refused:
        sheds.planfile.plan_of(sheds.plan_text().replace(*change, 1))

    assert any(str(one.place).endswith(f"blocks.{place}") and told in one.message for one in refused.value.problems)
