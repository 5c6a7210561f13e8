"""Cracks before they happen: what opens in the longest panel, what mends it, and what is honestly not shown."""

from __future__ import annotations

import pytest

from pinfold.findings import Finding, Verdict
from pinfold.reports.cracking_section import cracking_section
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from pinfold.studies.stability.cracking.checks import longest_panel
from pinfold.studies.stability.cracking.compare import CrackComparison, compare_cracking
from pinfold.studies.stability.cracking.holding import Panel, least_steel
from pinfold.studies.stability.exposures import exposures_of
from pinfold.units import System
from stand_plots import EU, GROUND, plan

CHECKS = ("shrinkage", "joint set-out")
CLIMATE = 'coldest = "-10 °C"\nhottest = "40 °C"\nhumidity = "60 %"\n'
STRIP = '[buildup.run.footing]\nkind = "strip-concrete"\nwidth = "60 cm"\nthickness = "20 cm"\nbelow_ground = "40 cm"\n'
FOAMED = 'kind = "foamed-poured"\nflexural_tension_en = "0.3 MPa"'


def laid(wall: str = FOAMED, more: str = "", place: str = EU + GROUND, length: str = "10 m", footing: str = STRIP):
    text = f'{footing}[buildup.run.wall]\n{wall}\nheight = "90 cm"\n{more}'
    return lay_out(plan(text, place=place, family="eu", length=length))


def found(*of: str, **how: str) -> dict[str, Finding]:
    return {finding.check: finding for finding in assess(laid(*of, **how)) if finding.check in CHECKS}


def compared(*of: str, **how: str) -> CrackComparison:
    (each,) = compare_cracking(exposures_of(laid(*of, **how)))
    return each


def panel(*of: str, **how: str) -> Panel:
    (ask,) = exposures_of(laid(*of, **how)).values()
    return longest_panel(ask)


def test_poured_foamed_concrete_cracks_wide_in_the_panels_the_rule_allows():
    finding = found()["shrinkage"]

    assert finding.verdict is Verdict.FAILS
    assert finding.demand == pytest.approx(panel().strains()[1].number * panel().length)


def test_joints_as_near_as_the_strain_asks_mend_it():
    place = EU + GROUND + CLIMATE
    near = compared(place=place).longest
    assert near is not None

    assert found(more=f'joints = "{near * 0.9:.3f} m"', place=place)["shrinkage"].verdict is Verdict.HOLDS


def test_a_wall_that_drying_leaves_whole_is_not_shown_while_nobody_says_how_far_it_cools():
    brick = 'kind = "brick-double"\nmortar = "mortar-N"'
    unsaid, said = found(brick)["shrinkage"], found(brick, place=EU + GROUND + CLIMATE)["shrinkage"]

    assert unsaid.verdict is Verdict.NOT_SHOWN
    assert "by drying alone it would hold" in unsaid.because
    assert "write coldest and hottest" in unsaid.because
    assert said.verdict is not Verdict.NOT_SHOWN


def test_cooling_adds_to_drying_and_is_left_out_aloud_where_it_is_not_known():
    without, with_it = found()["shrinkage"], found(place=EU + GROUND + CLIMATE)["shrinkage"]

    assert "cooling is left out" in without.because
    assert (with_it.demand or 0) > (without.demand or 0)
    assert "cooling" not in with_it.because


def test_steel_enough_makes_fine_cracks_and_too_little_is_told():
    much = found(more='course_bar = "#4"\ncourse_bar_every = "10 cm"')["shrinkage"]
    little = found(more='course_bar = "ladder-9ga"\ncourse_bar_every = "60 cm"')["shrinkage"]

    assert "fine cracks of one wide one" in much.because
    assert (much.demand or 1) < (found()["shrinkage"].demand or 0)
    assert "too little" in little.because


def test_damp_air_shrinks_concrete_less_and_dry_air_is_taken_where_none_is_given():
    dry = panel('kind = "poured-concrete"')
    damp = panel('kind = "poured-concrete"', place=EU + GROUND + 'humidity = "80 %"\n')

    assert damp.shortens.strain < dry.shortens.strain
    assert any("no humidity is given" in note for note in dry.shortens.notes)


def test_fired_clay_does_not_shrink():
    assert panel('kind = "brick-double-metric"').shortens.drying == 0.0


def test_what_is_not_known_to_shrink_is_not_shown():
    assert found('kind = "mortared-rubble"')["shrinkage"].verdict is Verdict.NOT_SHOWN
    assert "NOT SHOWN" in str(cracking_section((compared('kind = "mortared-rubble"'),), System.METRIC))


def test_dry_stone_is_asked_nothing():
    assert found('kind = "dry-stone-low"', footing="") == {}
    assert compare_cracking(exposures_of(laid('kind = "dry-stone-low"', footing=""))) == ()


def test_blocks_have_less_left_the_older_they_are_laid_and_pouring_has_all_of_it():
    rows = compared().poured
    strains = [row.shortens_by for row in rows]

    assert rows[0].way == "poured in place"
    assert strains == sorted(strains, reverse=True)
    assert strains[-1] < 0.6 * strains[0]
    assert [row.crack for row in rows] == sorted((row.crack for row in rows), reverse=True)


def test_the_same_stuff_is_compared_alike_from_either_end():
    block = 'kind = "foamed-block"\nflexural_tension_en = "0.1 MPa"\nthickness = "20 cm"'

    assert compared(block).poured[0].shortens_by == pytest.approx(compared().poured[0].shortens_by)


def test_the_least_steel_yields_just_as_the_wall_cracks():
    wall = panel()

    assert least_steel(wall).number * 413.7e6 == pytest.approx(wall.tension * wall.area, rel=1e-3)


def test_every_step_has_a_joint_and_ends_are_told():
    finding = found()["joint set-out"]

    assert finding.verdict is Verdict.HOLDS
    assert "no step" in finding.because


@pytest.mark.parametrize("system", list(System))
def test_the_section_tells_panels_cracks_and_steel(system: System):
    text = str(cracking_section((compared(),), system))

    assert "poured against cured blocks" in text
    assert ("mm2/m" in text.replace("²", "2")) == (system is System.METRIC)


def test_a_run_shorter_than_a_block_is_answered():
    assert set(found(length="30 cm")) == set(CHECKS)
