"""Posts where sides meet: counted once, as stout as either side wants them, pulled from both."""

from __future__ import annotations

import math

import pytest
from tests.small_plots import Plot

from pinfold.store.planfile import plan_of
from pinfold.studies.layout.resolve import lay_out

FENCE = """
[buildup.{name}.posts]
kind = "{kind}"
spacing = "2.5 m"
height = "1.2 m"
setting = "collar"
embed = "{embed}"
collar = "{collar}"
[buildup.{name}.mesh]
kind = "welded-50x50"
height = "1.2 m"
"""
SLIGHT = FENCE.format(name="b", kind="pipe-60", embed="80 cm", collar="25 cm")
STOUT = FENCE.format(name="c", kind="wood-round-6", embed="1 m", collar="35 cm")


def around(end, *, second="b"):
    """Two sides of 5 m, the second one to `end`."""
    text = Plot(buildup=SLIGHT + STOUT, corners=((0.0, 0.0), (5.0, 0.0), end)).text()
    head, _, tail = text.rpartition('buildup = "b"')
    return lay_out(plan_of(f'{head}buildup = "{second}"{tail}')).posts


def test_two_sides_of_two_bays_each_share_their_corner_post():
    assert [post.name for post in around((5.0, 5.0))] == ["P1", "P2", "P3", "P4", "P5"]


@pytest.mark.parametrize(
    ("end", "share"),
    [((10.0, 0.0), 2.5), ((5.0, 5.0), 1.25 * math.sqrt(2)), ((5 - 5 * math.cos(math.pi / 3), 4.330127), 1.25)],
)
def test_half_a_bay_of_each_side_pulls_at_the_corner_square_to_its_side(end, share):
    # 1.25 m each: in line they add, at a right angle by Pythagoras, at a sharp turn no less than the one alone
    assert around(end)[2].share == pytest.approx(share, abs=1e-5)


def test_the_wider_deeper_post_stands_where_two_kinds_meet():
    corner = around((5.0, 5.0), second="c")[2]

    assert corner.kind.name == "wood-round-6"
    assert (corner.hole, corner.collar) == (pytest.approx(1.0), pytest.approx(0.35))
    assert [post.kind.name for post in around((5.0, 5.0), second="c")[:2]] == ["pipe-60", "pipe-60"]
