"""Concrete by a wish: what is refused, what is told, what limits it."""

from __future__ import annotations

import pytest

from concretes import PCY, PSI, proposed
from pinfold.errors import InvalidPlan
from pinfold.sources import Standing


def places(name, **typed):
    with pytest.raises(InvalidPlan) as refused:
        proposed(name, **typed)
    return {problem.place: str(problem) for problem in refused.value.problems}


def departures(name, **typed):
    return [departure.what for departure in proposed(name, **typed).departures]


def test_stone_too_large_for_the_form_and_a_strength_out_of_reach_are_told_together():
    found = places("concrete", strength="5000 psi", exposure="wet-frost", stone_size="2 in", form_width="6 in")
    assert set(found) == {"stone_size", "strength"}
    assert "Take smaller stone" in found["stone_size"]
    assert "30 mm" in found["stone_size"], "a fifth of 6 in"
    assert "6 200 psi" in found["strength"].replace("\xa0", " ")


@pytest.mark.parametrize(("gap", "size"), [("slab_depth", "1.5 in"), ("bar_gap", "1.5 in"), ("form_width", "1.5 in")])
def test_any_gap_limits_the_stone(gap, size):
    assert "stone_size" in places("concrete", strength="3000 psi", stone_size=size, **{gap: "1.5 in"})
    assert not departures("concrete", strength="3000 psi", stone_size="3/8 in", **{gap: "4 in"})


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("strength", "900 psi"), ("strength", "9000 psi"), ("slump", "10 in"), ("slump", "0.2 in"),
        ("stone_size", "6 in"), ("sand_moisture", "-3 %"), ("sand_fineness", "0.5"), ("most_water_cement", "1.4"),
        ("member", "roof"), ("sand_density", "900 kg/m3"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_by_its_name(key, text):
    assert set(places("concrete", **{"strength": "3000 psi", key: text})) == {key}


def test_a_wish_without_strength_is_asked_for_one():
    assert "3000 psi" in places("concrete")["strength"]


def test_stone_without_gaps_for_sand_is_no_stone():
    assert "gaps" in places("concrete", strength="3000 psi", stone_rodded="2600 kg/m3")["stone_rodded"]


def test_ordinary_concrete_departs_from_nothing_and_has_its_rival():
    found = proposed("concrete", strength="3000 psi")
    assert found.departures == ()
    assert [rival.method for rival in found.rivals] == ["IS 10262:2019"]
    assert "cubes" in found.rivals[0].says


def test_slump_sand_and_air_outside_what_is_published_are_told_and_mixed():
    told = departures(
        "concrete", strength="3000 psi", slump="6 in", sand_fineness="2.2", exposure="some-frost", air="plain"
    )
    assert told == ["slump", "fineness modulus of the sand", "air"]


def test_a_stiff_wall_is_told_to_be_vibrated():
    (slump,) = proposed("concrete", strength="3000 psi", member="wall", slump="2 in").departures
    assert "vibrator" in slump.says


def test_frost_puts_air_in_and_limits_the_water():
    dry, frosty = (proposed("concrete", strength="3000 psi", exposure=each) for each in ("none", "wet-frost"))
    assert dry.mix.value("air") == pytest.approx(0.02)
    assert frosty.mix.value("air") == pytest.approx(0.06)
    assert frosty.mix.value("water_cement") == pytest.approx(0.45)
    assert any("frost" in note and "stronger" in note for note in frosty.notes)
    assert any("mixing by hand" in note for note in frosty.notes)
    assert frosty.mix.figure("cement_mass").standing is Standing.MEMORY, "the limit of ACI 318 is remembered"


def test_air_put_in_without_frost_is_that_of_some_frost():
    assert proposed("concrete", strength="3000 psi", air="entrained").mix.value("air") == pytest.approx(0.05)


@pytest.mark.parametrize(
    ("key", "text", "share"),
    [
        ("stone_shape", "rounded", -0.08), ("sand_kind", "crushed", 0.05), ("reducer", "reducer", -0.05),
        ("reducer", "strong-reducer", -0.12), ("warmth", "80 °F", 0.02 * (80 - 69.8) / 10), ("warmth", "60 °F", 0.0),
    ],
)  # fmt: skip
def test_changes_of_table_5_3_3_1_act_on_the_water(key, text, share):
    plain = proposed("concrete", strength="3000 psi").mix.value("water_mass")
    changed = proposed("concrete", strength="3000 psi", **{key: text}).mix.value("water_mass")
    assert changed == pytest.approx(plain * (1 + share), rel=1e-6)


def test_what_was_not_told_is_told_with_its_standing():
    untold = " ".join(proposed("concrete", strength="3000 psi").notes)
    assert "fineness modulus of the sand 2.8 (read)" in untold
    own = " ".join(proposed("concrete", strength="3000 psi", sand_fineness="2.6").notes)
    assert "fineness modulus" not in own


def test_own_tests_replace_the_margin():
    by_margin, by_tests = (proposed("concrete", strength="3000 psi", **more) for more in ({}, {"deviation": "300 psi"}))
    aims = [found.working[0].result / PSI for found in (by_margin, by_tests)]
    assert aims == pytest.approx([4200, 3402])
    assert by_tests.mix.value("cement_mass") / PCY < by_margin.mix.value("cement_mass") / PCY


def test_the_rival_stays_away_where_its_tables_do_not_reach():
    assert proposed("concrete", strength="3000 psi", stone_size="3 in").rivals == ()


def test_the_rival_keeps_to_its_own_least_cement_and_to_its_limit_with_bars():
    plain, barred = (
        {what: theirs for what, _, theirs, _ in proposed("concrete", strength="1500 psi", **more).rivals[0].rows}
        for more in ({}, {"bar_gap": "2 in"})
    )
    assert plain["cement"] >= 220
    assert barred["cement"] >= 300
    assert barred["water over cement"] <= 0.55 < plain["water over cement"] + 0.01
