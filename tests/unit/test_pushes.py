"""Who leans, presses and climbs: small plans reckoned by hand."""

from __future__ import annotations

import pytest

from pinfold.findings import Verdict
from pinfold.formulas.walls import GRAVITY
from stand_plots import EU, GATE, GROUND, US, brick, fence, findings, one, step

LBF = 4.4482216152605
PERSON = 200 * LBF
COWS = 'pushes = ["cattle"]\n'


ANCHORS = """
[buildup.run.posts.anchors]
hold = "headed"
count = 4
row_spacing = "10 cm"
diameter = "12 mm"
depth = "15 cm"
"""


def toe(load, width=0.6):
    """Pressure under the toe of a strip that a person turns."""
    off = PERSON / load
    return load / width * (1 + 6 * off / width) if off <= width / 6 else 2 * load / (3 * (width / 2 - off))


def pushed(buildup, said="", place=US + GROUND, **more):
    return findings(buildup, place=place + said, **more)


class TestBrickWallPushedByAPerson:
    """1 m of brickwork on a strip 0.6 m by 0.2 m, its underside 0.40015 m down: a person pushes at the top, 1 m up.

    The panel is longer than the push is high: the moment per meter is the push itself, 889.6 N m/m.
    """

    def test_the_push_overturns_by_itself_whatever_the_depth(self):
        found = one(pushed(brick()), "overturning under a push")

        assert found.demand == pytest.approx(PERSON)
        assert found.verdict is Verdict.HOLDS

    def test_the_weight_that_holds_is_that_of_the_wind(self):
        found = pushed(brick())

        assert one(found, "overturning under a push").capacity == pytest.approx(one(found, "overturning").capacity)

    def test_it_slides_by_its_share_at_the_level_of_the_base(self):
        assert one(pushed(brick()), "sliding under a push").demand == pytest.approx(PERSON / 1.40015)

    def test_the_lowest_bed_is_pulled_by_moment_less_six_tenths_of_the_weight(self):
        found = one(pushed(brick(more='mortar = "mortar-N"')), "bed-joint tension under a push")
        weight = 2000 * GRAVITY * 0.2 * 1.20015

        assert found.demand == pytest.approx(PERSON / (0.2**2 / 6) - 0.6 * weight / 0.2, rel=1e-4)

    def test_the_ground_bears_its_toe_by_all_of_the_weight_or_by_six_tenths(self):
        found = one(pushed(brick()), "bearing under a push")
        weight = one(pushed(brick()), "overturning").capacity / 0.6 / 0.3

        assert found.demand == pytest.approx(max(toe(weight), toe(0.6 * weight)))
        assert "a kick" in found.left_out

    def test_it_is_said_that_the_plan_does_not_say_who_pushes(self):
        assert "the plan does not say who pushes" in one(pushed(brick()), "overturning under a push").because
        said = one(pushed(brick(), 'pushes = ["person"]\n'), "overturning under a push")
        assert "does not say" not in said.because

    def test_wind_at_the_same_time_is_told_as_left_out(self):
        assert "nobody leans on a wall in a storm" in one(pushed(brick()), "sliding under a push").left_out


def test_where_nobody_pushes_the_other_checks_say_so():
    found = pushed(brick() + fence(), "pushes = []\n")

    assert not any("push" in each.check for each in found)
    assert "people and animals pushing" in one(found, "overturning").left_out
    assert "pushing" not in one(pushed(brick()), "overturning").left_out


def test_cattle_push_half_their_weight_at_the_chest():
    found = one(pushed(brick(height="1.5 m"), COWS), "overturning under a push")

    assert found.demand == pytest.approx(0.5 * 600 * GRAVITY)


def test_of_several_the_worst_counts_and_is_named():
    found = one(pushed(brick(), 'pushes = ["person", "cattle", "goat"]\n'), "overturning under a push")

    assert "grown cattle" in found.because


def test_the_builders_own_beast_counts():
    found = one(pushed(brick(), 'pushes = [{ kind = "cattle", mass = "900 kg" }]\n'), "overturning under a push")

    assert found.demand == pytest.approx(0.5 * 900 * GRAVITY)


def test_a_weak_wall_falls_to_cattle_and_not_to_a_sheep():
    weak = brick(footing="30 cm", height="1 m")
    verdicts = [
        one(pushed(weak, f'pushes = ["{name}"]\n'), "overturning under a push").verdict for name in ("sheep", "cattle")
    ]

    assert verdicts == [Verdict.HOLDS, Verdict.FAILS]


def test_the_european_family_takes_its_own_figures_and_factors():
    found = one(pushed(brick(), place=EU + GROUND, family="eu"), "overturning under a push")

    assert found.demand == pytest.approx(1.5 * 500.0)


def test_a_joint_near_by_shortens_what_takes_a_point_push():
    far, near = (
        one(pushed(brick(more=f'joints = "{joints}"')), "overturning under a push").demand for joints in ("5 m", "1 m")
    )

    assert near == pytest.approx(1.40015 * far, rel=1e-3)


class TestPosts:
    """Round posts of 100 mm, 2 m apart, the mesh 1.5 m high, 0.9 m in sand."""

    def test_a_person_bends_a_post_at_the_ground(self):
        found = one(pushed(fence()), "bending under a push")

        assert step(found, "pushes.push_moment") == pytest.approx(PERSON * 42 * 0.0254)

    def test_a_crowd_brings_its_share_of_the_bay(self):
        found = one(pushed(fence(), 'pushes = ["crowd"]\n'), "embedment under a push")

        assert step(found, "pushes.post_push") == pytest.approx(50 * LBF / 0.3048 * 2.0)

    def test_a_goat_that_climbs_leans_at_the_top_of_the_mesh(self):
        found = pushed(fence(), 'pushes = ["goat"]\n')
        arms = {
            dict(line.inputs)["arm"] for each in found for line in each.working if line.formula == "pushes.push_moment"
        }

        assert arms <= {0.6, 1.5}

    def test_wood_of_a_known_grade_is_asked_by_its_table_as_in_the_wind(self):
        graded = one(pushed(fence(more='width = "100 mm"\ntable_bending = "4 MPa"')), "bending under a push")

        assert graded.capacity == pytest.approx(1.25 * 4e6)
        assert "load duration" in dict(graded.figures)

    def test_without_an_allowable_stress_the_bending_is_not_shown(self):
        found = one(pushed(fence(post="steel-tee-133", more="")), "bending under a push")

        assert found.verdict is Verdict.NOT_SHOWN


class TestPostsHeldByWalls:
    """A person pushes 0.0668 m over the top of a wall 1 m high, at a post 0.1 m thick, on the wall or 0.8 m in it."""

    arm = 42 * 0.0254 - 1.0

    def test_the_socket_is_pressed_as_by_the_wind(self):
        found = one(pushed(brick() + fence(setting="wall", embed="80 cm")), "anchorage under a push")
        turned = 6 * PERSON * self.arm / 0.8
        upper, lower = (4 * PERSON + turned) / 0.08, (2 * PERSON + turned) / 0.08

        assert found.demand == pytest.approx(upper * 0.1 * (0.8 * upper / (upper + lower)) / 2, rel=1e-4)
        assert "one person" in found.because
        assert "a kick" in found.left_out
        assert "hollows" in found.left_out

    def test_a_post_that_reaches_below_the_footing_is_not_shown(self):
        found = one(pushed(brick() + fence(setting="wall", embed="1.45 m")), "anchorage under a push")

        assert found.verdict is Verdict.NOT_SHOWN
        assert "shorten embed" in found.because

    def test_where_no_wall_stands_it_is_not_shown(self):
        sheet = '[buildup.run.wall]\nkind = "sheet-on-frame"\nheight = "1 m"\n'
        found = one(pushed(sheet + fence(setting="wall", embed="80 cm")), "anchorage under a push")

        assert found.verdict is Verdict.NOT_SHOWN
        assert "no wall stands there" in found.because

    def test_anchors_on_the_top_are_pulled_and_the_top_is_bent(self):
        on_top = brick(more='mortar = "mortar-N"') + fence(
            setting="wall-top", embed="10 cm", more=f'width = "100 mm"\n{ANCHORS}'
        )
        found = pushed(on_top)
        bent = one(found, "bending under a push", "the wall's top")

        assert step(one(found, "anchorage under a push"), "anchors.anchor_pull") == pytest.approx(
            PERSON * self.arm / (2 * 0.1)
        )
        assert bent.demand == pytest.approx(PERSON * self.arm / 0.45 / (0.2**2 / 6), rel=1e-4)  # at the wall's end
        assert bent.subject.startswith("the wall's top under posts P1")

    def test_unsaid_anchors_are_asked_for(self):
        found = one(pushed(brick() + fence(setting="wall-top", embed="10 cm")), "anchorage under a push")

        assert found.verdict is Verdict.NOT_SHOWN
        assert "row_spacing" in found.because


RAIL = """
[[buildup.run.rail]]
kind = "sawn-50x100"
at = "{at}"
"""
LEVEL = 0.1 * 0.05**2 / 6
"""Section modulus of a sawn rail on edge, bent level."""


class TestRails:
    """Sawn rails of 50 by 100 mm on edge, 2 m between posts: a person pushes 1.0668 m up in the middle between two."""

    def rail(self, *rails):
        return one(pushed(fence(mesh="".join(RAIL.format(at=at) for at in rails))), "rail under a push")

    def test_one_rail_takes_all_of_it(self):
        found = self.rail("1.4 m")

        assert step(found, "pushes.rail_push_moment") == pytest.approx(PERSON * 2 / 4)
        assert found.demand > PERSON * 2 / 4 / LEVEL

    def test_two_rails_share_it_as_levers_do(self):
        found = self.rail("20 cm", "1.4 m")

        assert step(found, "pushes.rail_share") == pytest.approx((42 * 0.0254 - 0.2) / 1.2)
        assert step(found, "pushes.rail_push_moment") == pytest.approx(PERSON * 2 / 4 * (42 * 0.0254 - 0.2) / 1.2)

    def test_a_wall_that_the_mesh_laps_over_takes_its_share(self):
        held = fence(setting="wall", embed="80 cm", mesh='lap = "10 cm"\n' + RAIL.format(at="1.4 m"))
        found = one(pushed(brick(height="60 cm") + held), "rail under a push")

        assert step(found, "pushes.rail_share") == pytest.approx((42 * 0.0254 - 0.6) / 1.4, rel=1e-3)

    def test_where_the_wall_itself_is_pushed_the_rail_bears_its_weight_alone(self):
        found = one(pushed(brick(height="1.2 m") + fence(setting="wall", embed="80 cm", mesh=RAIL.format(at="1.4 m"))),
                    "rail under a push")  # fmt: skip

        assert step(found, "pushes.rail_push_moment") == 0.0
        assert found.verdict is Verdict.HOLDS

    def test_a_crowd_pushes_all_along(self):
        found = one(pushed(fence(mesh=RAIL.format(at="1 m")), 'pushes = ["crowd"]\n'), "rail under a push")

        assert step(found, "cantilevers.span_moment") == pytest.approx(50 * LBF / 0.3048 * 4 / 8)
        assert found.demand > 50 * LBF / 0.3048 * 4 / 8 / LEVEL

    def test_wires_are_no_rails(self):
        wire = '[[buildup.run.rail]]\nkind = "wire-12ga-ht"\nat = "1 m"\ntension = "400 N"\n'

        assert not any(each.check == "rail under a push" for each in pushed(fence(mesh=wire)))

    def test_a_thin_bar_gives_way_to_a_person_and_stouter_rails_mend_it(self):
        weak = RAIL.format(at="1 m").replace("sawn-50x100", "bar-12")
        found = one(pushed(fence(mesh=weak)), "rail under a push")

        assert found.verdict is Verdict.FAILS
        assert "stouter rail" in found.mend


class TestGates:
    def test_a_climber_hangs_at_the_free_end_of_the_leaf(self):
        rest = GATE.format(more='leaf_mass = "20 kg"\nhinge_capacity = "9 kN"')
        calm, ridden = (
            one(pushed(fence(), f'pushes = ["{who}"]\n', rest=rest), "hinge under a push")
            for who in ("sheep", "climber")
        )

        assert ridden.demand > calm.demand
        assert ridden.verdict is Verdict.HOLDS

    def test_hinges_of_unknown_strength_are_not_shown(self):
        found = one(pushed(fence(), rest=GATE.format(more='leaf_mass = "20 kg"')), "hinge under a push")

        assert found.verdict is Verdict.NOT_SHOWN
        assert "write hinge_capacity" in found.because

    def test_both_posts_are_told_together_with_the_worst_of_them(self):
        found = one(pushed(fence(), rest=GATE.format(more='leaf_mass = "20 kg"')), "embedment under a push", "gate")

        assert found.subject == "gate small"
        assert "the worst of them: post P" in found.because


@pytest.mark.parametrize(
    "said", ['pushes = ["cattle", "bear", "crowd"]\n', 'pushes = [{ kind = "person", height = "50 m" }]\n']
)
@pytest.mark.parametrize("length", ["50 cm", "300 m"])
def test_no_wall_is_too_short_or_too_long_for_an_answer(said, length):
    found = pushed(brick(height="5 cm"), said, length=length)
    checks = [each for each in found if "push" in each.check]

    assert len(checks) == 4
    for each in checks:
        assert None not in (each.demand, each.capacity) or "tips over before" in each.because
