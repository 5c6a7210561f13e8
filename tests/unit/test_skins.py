"""Coats as skins: what they add above the ground, what their drying takes, and what is honestly not shown."""

from __future__ import annotations

import pytest

from pinfold.findings import Finding, Verdict
from pinfold.reports.skins_section import skins_section
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from pinfold.studies.stability.exposures import exposures_of
from pinfold.studies.stability.skins.coated import stack_with_all
from pinfold.studies.stability.skins.compare import SkinComparison, compare_skins
from pinfold.studies.stability.skins.shears import face_shear
from pinfold.units import System
from stand_plots import EU, GROUND, plan

CHECKS = ("skin tension", "skin bond", "core shear")
FOAMED = 'kind = "foamed-poured"\nflexural_tension_en = "0.3 MPa"\nflexural_tension = "0.1 MPa"'
LIME = 'kind = "lime-first"\nthickness = "12 mm"'
CEMENT = 'kind = "cement-scratch"\nthickness = "12 mm"'


def laid(*coats: str, wall: str = FOAMED, height: str = "90 cm", place: str = EU + GROUND):
    layers = [f'[buildup.run.wall]\n{wall}\nheight = "{height}"', *(f"[[buildup.run.coat]]\n{coat}" for coat in coats)]
    return lay_out(plan("\n".join(layers), place=place, family="eu"))


def compared(*coats: str, **how: str) -> SkinComparison:
    (found,) = compare_skins(exposures_of(laid(*coats, **how)))
    return found


def found(*coats: str, **how: str) -> dict[str, Finding]:
    return {finding.check: finding for finding in assess(laid(*coats, **how)) if finding.check in CHECKS}


def held(comparison: SkinComparison) -> list[float]:
    return [row.holds_up_to for row in comparison.rows]


def stack(*coats: str):
    return stack_with_all(laid(*coats).plan.buildups["run"])


# --- the section -----------------------------------------------------------------------------------------


def test_coats_alike_on_both_faces_leave_the_neutral_axis_in_the_middle():
    both = stack(LIME)

    assert both.neutral.number == pytest.approx(both.whole / 2)


@pytest.mark.parametrize(("faces", "side"), [("outer", -1), ("inner", 1)])
def test_a_coat_on_one_face_draws_the_neutral_axis_to_it(faces: str, side: int):
    one = stack(f'{CEMENT}\nfaces = "{faces}"')

    assert (one.neutral.number - one.whole / 2) * side > 0


def test_coats_lie_in_the_order_they_are_laid_outward_from_the_core():
    names = [layer.what for layer in stack(CEMENT, 'kind = "cement-finish"\nthickness = "3 mm"').layers]

    assert names == ["cement-finish", "cement-scratch", "core", "cement-scratch", "cement-finish"]


def test_the_ungrouted_middle_of_hollow_units_bends_with_nothing():
    hollow = stack_with_all(laid(CEMENT, wall='kind = "block-200-hollow"').plan.buildups["run"])

    assert [layer.modulus > 0 for layer in hollow.layers] == [True, True, False, True, True]


def test_shear_under_the_skin_is_the_wall_sheared_over_its_arms():
    """By hand: V EQ / EI with the skin's own stiffness times its arm."""
    wall = stack(LIME)
    skin, core = 2e9 * 0.012, 2e9 * 0.2**3 / 12
    bent = core + 2 * (skin * 0.106**2 + 2e9 * 0.012**3 / 12)

    assert face_shear(wall, 1000.0).number == pytest.approx(1000.0 * skin * 0.106 / bent)


# --- side by side ----------------------------------------------------------------------------------------


def test_the_bare_wall_comes_first_and_measures_the_others():
    comparison = compared(LIME)

    assert comparison.rows[0].way == "bare wall"
    assert comparison.rows[0].ratio == 1.0
    assert [row.ratio for row in comparison.rows] == pytest.approx(
        [each / held(comparison)[0] for each in held(comparison)]
    )


def test_skins_that_never_dried_help_more_than_those_that_did_and_mesh_more_than_cracked_ones():
    bare, one, dried, undried, meshed, cracked = held(compared(CEMENT))

    assert bare <= one <= dried <= undried
    assert cracked <= dried
    assert cracked <= meshed


def test_stiff_cement_cracks_by_itself_on_what_holds_it_back():
    comparison = compared(CEMENT)

    assert comparison.drying > comparison.tension
    assert "it cracks by itself" in said(comparison)


def test_a_coat_on_one_face_helps_no_more_than_the_wall_that_is_pulled_on_the_other():
    bare, _, coated, undried, _, cracked = held(compared(f'{CEMENT}\nfaces = "outer"'))

    assert undried < held(compared(CEMENT))[3]
    assert coated == pytest.approx(cracked)
    assert coated >= bare


def test_mesh_that_is_planned_is_named_as_planned_and_on_one_face_does_not_help_the_other():
    both = compared(f'{LIME}\nmesh = "plaster-lath-expanded"')
    one = compared(f'{LIME}\nfaces = "outer"\nmesh = "plaster-lath-expanded"')

    assert "with all coats and their mesh" in [row.way for row in both.rows]
    assert held(both)[4] > held(one)[4]


def test_no_tension_of_the_core_is_known_so_nothing_is_shown():
    comparison = compared(LIME, wall='kind = "foamed-poured"')

    assert comparison.rows == ()
    assert "flexural tension" in comparison.missing
    assert "NOT SHOWN" in said(comparison)


def test_a_wall_without_coats_is_not_compared():
    assert compare_skins(exposures_of(laid())) == ()
    assert skins_section((), System.METRIC) == ()


def said(comparison: SkinComparison) -> str:
    return "\n".join(str(block) for block in skins_section((comparison,), System.METRIC))


def test_the_section_says_that_nothing_crosses_the_joint_on_the_footing():
    assert "Across the joint on the footing they add nothing" in said(compared(LIME))


# --- findings --------------------------------------------------------------------------------------------


def test_a_stretch_without_coats_is_asked_nothing_about_them():
    assert found() == {}


def test_all_three_are_asked_of_a_coated_stretch():
    assert set(found(LIME)) == set(CHECKS)


def test_cracked_skins_hold_as_long_as_the_wall_holds_without_them():
    finding = found(CEMENT, height="60 cm")["skin tension"]

    assert "their own drying uses up" in finding.because
    assert finding.verdict is Verdict.HOLDS


def test_a_wall_too_weak_without_its_cracked_skins_fails_and_mesh_is_named():
    weak = 'kind = "foamed-poured-800"\nflexural_tension_en = "0.02 MPa"\nthickness = "12 cm"'
    finding = found(CEMENT, wall=weak, height="1.6 m")["skin tension"]

    assert finding.verdict is Verdict.FAILS
    assert "mesh" in finding.mend


@pytest.mark.parametrize("check", CHECKS)
def test_a_core_of_unknown_tension_or_no_wind_is_not_shown(check: str):
    layout = laid(LIME, wall='kind = "foamed-poured"', place=GROUND)
    findings = {finding.check: finding for finding in assess(layout)}

    assert findings[check].verdict is Verdict.NOT_SHOWN


def test_a_weaker_bond_never_holds_better():
    ends = [found(each)["skin bond"].use or 0.0 for each in (LIME, CEMENT)]

    assert min(ends) > 0


@pytest.mark.parametrize("height", ["6 m", "10 cm"])
def test_heights_past_reason_are_answered_and_never_pass_unseen(height: str):
    answers = found(LIME, height=height)

    assert set(answers) == set(CHECKS)
    assert all(finding.because for finding in answers.values())
