"""Concrete by a wish: what is refused, what is told, what limits it."""

from __future__ import annotations

from dataclasses import replace
from importlib.resources import files

import pytest

from concretes import PCF, PCY, PSI, SITE, proposed, wish_of
from pinfold.errors import InvalidPlan
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.store.planfile import plan_of
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.proportioning.post_holes import propose
from pinfold.studies.quantities.standing import collar_volume


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


@pytest.mark.parametrize(
    ("letter", "looked", "sand"), [("B", "well", 47), ("B", "sandy", 45), ("B", "stony", 49), ("A", "sandy", 47)]
)
def test_how_the_last_batch_looked_leads_to_the_next_letter(letter, looked, sand):
    mix = proposed("small-job", letter=letter, looked=looked).mix
    assert mix.value("sand_mass") / PCF / 1.007 == pytest.approx(sand)


@pytest.mark.parametrize(("letter", "looked"), [("C", "sandy"), ("A", "stony")])
def test_past_the_last_letter_there_is_no_mix_but_advice(letter, looked):
    assert "finer sand" in (found := places("small-job", letter=letter, looked=looked)["looked"]) or "coarser" in found


def test_by_the_bucket_a_look_shifts_a_quarter_part():
    mix = proposed("small-job", measure="bucket", looked="sandy").mix
    assert (mix.value("sand"), mix.value("gravel")) == (2.25, 2.75)


@pytest.mark.parametrize(("dampness", "more"), [("dry", 0), ("damp", 2), ("very-wet", 4)])
def test_sand_as_it_lies_weighs_two_pounds_more_when_damp_and_four_when_drenched(dampness, more):
    charge = charge_of(proposed("small-job", dampness=dampness).mix, SITE)
    assert charge.part("sand").as_it_lies / charge.makes / PCF == pytest.approx(47 + more)
    assert charge.water_to_add == pytest.approx(charge.water - charge.water_in_sand)


@pytest.mark.parametrize(("measure", "size"), [("scale", "3/8 in"), ("bucket", "2 in")])
def test_stone_the_table_does_not_have_is_told(measure, size):
    assert "measure the other way" in places("small-job", measure=measure, stone_size=size)["stone_size"]


def test_at_the_ends_of_a_table_the_other_does_not_stand_beside_it():
    assert proposed("small-job", measure="bucket", stone_size="3/8 in").rivals == ()
    assert proposed("small-job", stone_size="2 in").rivals == ()


def test_a_small_job_says_that_it_promises_no_strength():
    assert any("no strength" in note for note in proposed("small-job").notes)


def test_posts_of_the_plan_are_filled_when_nothing_is_told_of_holes():
    layout = lay_out(plan_of(seed_garden()))
    held = tuple(post for post in layout.posts if post.collar > 0 and post.hole > 0)
    wish = replace(wish_of("post", waste="0 %"), posts=lambda: held)

    found = propose(wish)
    assert held
    assert found.volume == pytest.approx(sum(map(collar_volume, held)))
    assert f"The plan has {len(held)} post holes" in found.notes[0]
    own = propose(replace(wish_of("post", holes="2"), posts=lambda: held))
    assert "Your 2 post holes" in own.notes[0]


def seed_garden():
    return files("pinfold.store").joinpath("samples", "seed-garden", "plan.toml").read_text(encoding="utf-8")


def test_a_post_that_fills_its_hole_and_stone_that_does_not_pass_are_refused():
    assert set(places("post", hole_width="4 in")) == {"hole_width"}
    assert set(places("post", hole_width="7 in", stone_size="1.5 in")) == {"stone_size"}
    assert not departures("post", post_shape="none", hole_width="4 in", stone_size="1.5 in")


def test_dry_set_is_told_with_its_standing_and_cautions():
    found = proposed("post", fill="dry-set")
    assert [departure.what for departure in found.departures] == ["mixing"]
    assert any("no published strength" in note and "gate" in note for note in found.notes)
    charge = charge_of(found.mix, SITE)
    assert charge.order[0].startswith("Stand the post plumb")
    assert any("gloves" in caution for caution in charge.cautions)


def test_a_narrow_hole_is_told():
    assert departures("post", hole_width="7 in") == ["width of the hole"]


def test_ready_bags_are_counted_by_the_hole_and_for_all():
    note = next(each for each in proposed("post", holes="10", bag="80 lb", fill="bag").notes if "ready bags" in each)
    assert "3 to a hole" in note, "1.15 ft3 and 15 % more, 0.6 ft3 a bag"
    assert "23 for all" in note


def test_mixing_oneself_takes_fewer_bags_than_ready_ones_and_about_the_same_load():
    (rival,) = proposed("post", holes="10").rivals
    (bags, load) = rival.rows
    assert bags[1] < bags[2] / 3
    assert load[1] == pytest.approx(load[2], rel=0.1)


def test_ready_bags_are_those_of_the_country():
    metric = charge_of(proposed("post", fill="bag").mix, SITE)
    assert metric.part("dry_mix").mass / metric.part("dry_mix").bags == pytest.approx(25.0)
    us = charge_of(proposed("post", fill="bag").mix, replace_bag(SITE))
    assert us.part("dry_mix").mass / us.part("dry_mix").bags == pytest.approx(36.287, abs=1e-3)


def replace_bag(site: Mixing) -> Mixing:
    return replace(site, bag=94 * 0.45359237)
