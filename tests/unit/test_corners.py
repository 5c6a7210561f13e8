"""Walls that meet at a corner: when one helps the panel of the other to stand, by how much, and when it must not."""

from __future__ import annotations

import pytest

from pinfold.findings import Verdict
from stand_plots import EU, GROUND, US, brick, findings, one, step

MORE = 'mortar = "mortar-S"\njoints = "2.4 m"'


def closed(buildup=None, *, side=2.4, slant=0.0, rest="", **more):
    """A closed plot of four walls, each with one joint in its middle: every panel stands at a corner."""
    corners = (("B", "C", "two"), ("C", "D", "three"), ("D", "A", "four"))
    spots = {"C": (side + slant, side), "D": (slant, side)}
    words = "".join(f'[[corner]]\nname = "{name}"\nx = "{x} m"\ny = "{y} m"\n' for name, (x, y) in spots.items())
    words += "".join(
        f'[[side]]\nname = "{name}"\nfrom = "{first}"\nto = "{last}"\nbuildup = "run"\n'
        for first, last, name in corners
    )
    return findings(buildup or brick(footing="30 cm", more=MORE), length=f"{side} m", rest=words + rest, **more)


def wall(found, check="overturning"):
    return one(found, check, "line/1")


class TestPanelAtACorner:
    """Brick 20 cm by 1 m on a strip of 30 cm: each panel 1.2 m long, 1.2 m of the other wall around the corner.

    By itself it tips over: 655.7 against 573.2 N m/m, with the factor 0.6 on both.
    """

    found = closed()
    check = wall(found)

    def test_it_leans_on_the_wall_around_and_stands(self):
        assert self.check.verdict is Verdict.HOLDS
        assert "it leans on stretch" in self.check.because
        assert self.check.demand == pytest.approx(655.7, abs=0.1)
        assert step(self.check, "walls.resisting_moment") * 0.6 == pytest.approx(573.2, abs=0.1)

    def test_no_more_goes_around_than_the_wind_brings(self):
        handed = step(self.check, "corners.moment_around")
        assert handed == pytest.approx(655.7, abs=0.1)  # the wall around the corner would hold more
        assert step(self.check, "corners.return_moment") == pytest.approx(573.2 / 0.15 * 1.2**2 / (2 * 1.2), abs=1)
        assert handed <= self.check.demand + 1e-6
        assert self.check.capacity == pytest.approx(573.2 + handed, abs=0.1)

    def test_the_ground_is_asked_under_both_walls(self):
        check = wall(self.found, "bearing")
        assert "it leans on stretch" in check.because
        assert check.verdict is not Verdict.NOT_SHOWN

    def test_its_lowest_bed_counts_the_twist_too(self):
        check = wall(self.found, "bed-joint tension")
        alone = step(check, "corners.bending_held")
        assert check.capacity > alone

    def test_sliding_stays_what_it_was(self):
        check = wall(self.found, "sliding")
        assert "leans on" not in check.because

    def test_what_is_still_left_out_is_said(self):
        assert "wind on both walls of a corner at once" in self.check.left_out
        assert "help from returns" not in self.check.left_out


def alone(found, check="overturning"):
    return "it leans on" not in wall(found, check).because


class TestNoHelpIsTaken:
    """The plain strip fails by itself; whatever is not bonded, not known or not carried leaves it so."""

    @pytest.mark.parametrize(
        "more",
        [
            'mortar = "mortar-lime"\njoints = "2.4 m"',  # too weak to pull
            'mortar = "mortar-S"\nmembrane = true\njoints = "2.4 m"',  # a sheet cuts its foot
            'mortar = "mortar-S"\nmembrane = true\nmembrane_at = "40 cm"\njoints = "2.4 m"',
        ],
    )
    def test_of_walls_that_no_bond_holds_together(self, more):
        found = closed(brick(footing="30 cm", more=more))
        assert wall(found).verdict is Verdict.FAILS
        assert alone(found)

    def test_of_a_corner_far_from_square(self):
        found = closed(slant=3.0)
        assert alone(found)

    def test_of_dry_stone(self):
        stone = (
            brick(footing="60 cm", more="")
            .replace("brick-double", "dry-stone")
            .replace('"20 cm"\ndensity', '"40 cm"\ndensity')
        )
        assert alone(closed(stone))

    def test_of_a_line_without_corners(self):
        found = findings(brick(footing="30 cm", more=MORE), length="2.4 m")
        assert alone(found)
        assert wall(found).verdict is Verdict.FAILS

    def test_where_the_joint_stands_too_far_off(self):
        near, far = closed(), closed(brick(footing="30 cm", more='mortar = "mortar-S"\njoints = "6 m"'), side=6.0,
                                     family="eu", place=EU + GROUND)  # fmt: skip
        assert not alone(near)
        assert wall(far).verdict is Verdict.FAILS

    def test_and_why_is_said_where_the_wall_fails(self):
        found = closed(family="eu", place=EU + GROUND)
        assert wall(found).verdict is Verdict.FAILS
        assert "no help is taken from the wall around the corner" in wall(found).because

    def test_of_walls_with_piers(self):
        piers = '\n[buildup.run.piers]\nspacing = "1.2 m"\nwidth = "30 cm"\ndepth = "40 cm"\n'
        assert alone(closed(brick(footing="30 cm", more=MORE) + piers))

    def test_under_a_push(self):
        found = closed()
        assert all("leans on stretch" not in each.because for each in found if "push" in each.check)


def test_without_soil_the_ground_stays_not_shown():
    found = closed(place=US + 'frost_depth = "30 cm"\n')
    assert wall(found, "bearing").verdict is Verdict.NOT_SHOWN


def test_bars_in_the_courses_never_take_help_away():
    steel = f'{MORE}\ncourse_bar = "ladder-9ga"\ncourse_bar_every = "15 cm"'
    plain, steeled = wall(closed()), wall(closed(brick(footing="30 cm", more=steel)))
    assert steeled.capacity >= plain.capacity - 1e-6


def test_stronger_mortar_never_lessens_the_help():
    weaker = closed(brick(footing="30 cm", more='mortar = "mortar-N"\njoints = "2.4 m"'))
    assert wall(weaker).use >= wall(closed()).use - 1e-9


@pytest.mark.parametrize("side", [0.4, 0.6, 30.0])
@pytest.mark.parametrize("height", ["10 cm", "3 m"])
@pytest.mark.parametrize("speed", ["5 m/s", "100 m/s"])
def test_odd_walls_in_odd_winds_have_an_answer(side, height, speed):
    found = closed(
        brick(footing="30 cm", height=height, more=MORE), side=side, place=US.replace("40 m/s", speed) + GROUND
    )
    assert {wall(found, check).verdict for check in ("overturning", "bearing", "bed-joint tension")} <= set(Verdict)
