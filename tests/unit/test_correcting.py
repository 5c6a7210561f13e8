"""Corrections through the studies and the action: what is added closes mass and volume, and what cannot be is told."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.actions.mix_correct import correct_mix, log_reading, reading_pairs
from pinfold.actions.sites import open_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.formulas import foam
from pinfold.logbook.carried import NOTHING
from pinfold.logbook.entries import entry_of
from pinfold.plan.place import Mixing
from pinfold.reports.amounts import sunk
from pinfold.reports.mix_ladder import ladder_table
from pinfold.store import starting
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.correcting.foamed import FoamedReading, correct_foamed
from pinfold.studies.correcting.held import held_by
from pinfold.studies.correcting.ladder import foam_ladder, slump_ladder
from pinfold.studies.correcting.next_mix import next_mix
from pinfold.studies.correcting.proportions import Slip, back_to_proportions
from pinfold.studies.correcting.records import Off
from pinfold.studies.correcting.slump import correct_slump
from pinfold.studies.correcting.weighing import density_of_pail
from pinfold.studies.correcting.yields import yield_by_density
from pinfold.studies.lessons.foamed import foam_losses
from pinfold.studies.lessons.things import Measures
from pinfold.studies.proportioning.families import family_named
from pinfold.studies.proportioning.massed_mix import bagged_mix
from pinfold.studies.proportioning.wishes import read_wish
from pinfold.tables.shelf import kind
from pinfold.units import System

SITE = Mixing(batch=0.1, bucket=0.012, bag=25.0, lime_bag=20.0, sand_bulking=None)


def card(name, mixing=SITE):
    return charge_of(kind("mixes", name), mixing)


FOAMED = ("foamed-600", "foamed-800", "foamed-1000")


@pytest.mark.parametrize("name", FOAMED)
@given(share=st.floats(0.75, 1.3), most=st.floats(0.02, 0.2))
def test_a_foamed_batch_put_right_weighs_what_is_wanted_and_fits_the_mixer(name, share, most):
    charge = card(name)
    found = correct_foamed(charge, FoamedReading(density=charge.foam.cast * share), most=most)

    if found.off is Off.NEAR:
        assert found.add.is_nothing
        return
    assert found.after.density == pytest.approx(charge.foam.cast)
    assert found.after.makes <= max(most * 1.0401, 0)
    again = correct_foamed(charge, FoamedReading(density=found.after.density), most=most)
    assert again.off is Off.NEAR


def test_a_foamed_batch_by_hand():
    """25 kg cement, 12.5 kg water, 29.3 L of foam of 40 kg/m3, 1.17 kg: 38.67 kg; at 900 they make 42.97 L.

    Foam: 42.97 x 100 / 720 = 5.97 L. Then 38.67 + 0.24 = 38.91 kg over 42.97 + 5.67 = 48.64 L is 800 kg/m3; cement
    25 / 0.04864 = 514 kg/m3, once dry 1.2 times that, 617.
    """
    found = correct_foamed(card("foamed-800", replace(SITE, batch=0.07)), FoamedReading(density=900.0), most=0.07)

    assert found.before.makes * 1000 == pytest.approx(42.97, abs=0.01)
    assert found.add.foam * 1000 == pytest.approx(5.97, abs=0.01)
    assert found.after.makes * 1000 == pytest.approx(48.64, abs=0.01)
    assert found.after.cement == pytest.approx(514, abs=1)
    assert found.after.dry == pytest.approx(617, abs=1)


def test_half_of_a_batch_left_takes_half_of_the_foam():
    charge = card("foamed-800")
    whole = correct_foamed(charge, FoamedReading(density=900.0), most=1.0)
    half = correct_foamed(charge, FoamedReading(density=900.0, left=whole.before.makes / 2), most=1.0)

    assert half.add.foam == pytest.approx(whole.add.foam / 2)
    with pytest.raises(InputError, match="said to be in the mixer"):
        correct_foamed(charge, FoamedReading(density=900.0, left=whole.before.makes * 2), most=1.0)


@pytest.mark.parametrize("density", [5.0, 40.0, 1900.0, math.nan])
def test_densities_that_no_foam_can_give_are_refused(density):
    with pytest.raises(InputError, match="without any foam"):
        correct_foamed(card("foamed-800"), FoamedReading(density=density), most=0.1)


@given(lost=st.floats(0.0, 0.5))
def test_the_foam_that_was_lost_is_found_by_the_weight_of_the_batch(lost):
    charge = card("foamed-800")
    held = held_by(charge)
    room = (held.mass - held.foam_mass) / charge.foam.slurry + held.foam * (1 - lost)

    found = correct_foamed(charge, FoamedReading(density=held.mass / room), most=1.0)

    assert found.lost == pytest.approx(lost, abs=1e-9)


@pytest.mark.parametrize("name", ["concrete-footing", "concrete-wall", "grout-coarse", "mortar-N"])
@pytest.mark.parametrize("slump", [0.0, 0.03, 0.15, 0.29])
def test_slump_is_put_right_at_the_same_water_over_cement(name, slump):
    charge = card(name)
    found = correct_slump(charge, slump=slump, wanted=0.1, most=0.1)

    meant = charge.water * 1000 / charge.part("cement").mass
    if found.off is not Off.NEAR:
        assert found.after.water_cement == pytest.approx(meant)
    assert (found.off is Off.WET) == (found.before.water_cement > meant * 1.0001)
    assert found.after.makes <= 0.104 + 1e-9


def test_water_for_slump_by_hand():
    """68.8 L that sink 1 in where 3 in are wanted: 2 x 5.93 kg/m3 x 0.0688 m3 = 0.82 kg; at 0.5 beside 1.63 kg of cement."""
    found = correct_slump(card("concrete-footing"), slump=0.0254, wanted=0.0762, most=1.0)

    assert found.add.water * 1000 == pytest.approx(0.82, abs=0.005)
    assert found.add.parts[0].mass == pytest.approx(1.63, abs=0.005)


def test_sand_wetter_than_thought_by_hand():
    """50 kg of dry sand at 10 % instead of 5 % bring 2.5 kg more; by the scale 52.5 kg hold 47.7 kg of it, dry."""
    charge = card("concrete-footing")
    sand = charge.part("sand").mass
    bucket = back_to_proportions(charge, Slip(moisture=0.10), bulking=None, most=1.0)
    scale = back_to_proportions(charge, Slip(moisture=0.10, by_scale=True), bulking=None, most=1.0)

    cement = charge.part("cement").mass
    assert (bucket.before.water_cement - 0.5) * cement == pytest.approx(sand * 0.05)
    dry = sand * 1.05 / 1.10
    assert (scale.before.water_cement - 0.5) * cement == pytest.approx(dry * (0.10 - 0.007) - sand * (0.05 - 0.007))
    for one in (bucket, scale):
        assert one.after.water_cement == pytest.approx(0.5)
        assert one.after.density == pytest.approx(bucket.after.density)


@given(short=st.floats(0.0, 12.0), water=st.floats(-0.002, 0.004))
def test_what_slipped_comes_back_to_the_proportions(short, water):
    charge = card("mortar-N")
    found = back_to_proportions(charge, Slip(short={"cement": short / 2}, water=water), bulking=None, most=10.0)

    if found.off is Off.UNEVEN:
        assert found.after.water_cement == pytest.approx(1.15, rel=0.01)
        assert found.after.cement == pytest.approx(charge.part("cement").mass / charge.makes, rel=0.01)
    assert all(part.mass >= 0 for part in found.add.parts)
    assert found.add.water >= 0


def test_slips_that_cannot_be_are_told():
    charge = card("mortar-plain")
    for slip, says in (
        (Slip(short={"lime": 1.0}), "has no lime"), (Slip(short={"cement": 500.0}), "the card has"),
        (Slip(water=-0.2), "less water than none"), (Slip(moisture=0.3), "Let it drain"),
    ):  # fmt: skip
        with pytest.raises(InputError, match=says):
            back_to_proportions(charge, slip, bulking=None, most=1.0)


def test_a_light_concrete_makes_more_and_has_less_cement_in_a_volume():
    charge = card("concrete-footing")
    meant = yield_by_density(charge, 2390.0)
    light = yield_by_density(charge, 2300.0)

    assert meant.off is Off.NEAR
    assert light.relative_yield > 1 > yield_by_density(charge, 2430.0).relative_yield
    assert light.after.cement < meant.after.cement
    assert light.before.makes * 2300 == pytest.approx(held_by(charge).mass)
    assert light.air > meant.air
    with pytest.raises(InputError, match="without any air"):
        yield_by_density(charge, 3200.0)


@given(density=st.floats(2150.0, 2400.0), slump=st.floats(-0.05, 0.05))
def test_the_next_batch_closes_its_volume_and_keeps_the_ratio(density, slump):
    charge = card("concrete-footing")
    held = held_by(charge)
    held = replace(held, made=held.mass / density)
    found = next_mix(held, water_cement=0.5, gravel=1000.0, air_free=2450.0, density=density, slump=slump)

    room = found.water / 1000 + found.cement / 3150 + found.sand / 2650 + found.gravel / 2680 + found.air
    assert room == pytest.approx(1.0)
    assert found.water / found.cement == pytest.approx(0.5)
    made = charge_of(found.mix, SITE)
    assert made.water * 1000 / made.part("cement").mass == pytest.approx(0.5)


def test_a_pail_not_brim_full_is_heavier_by_the_liter_than_its_weight_says():
    full = density_of_pail(full=17.0, empty=1.0, holds=0.02, gap=None, depth=None)[-1].number
    short = density_of_pail(full=17.0, empty=1.0, holds=0.02, gap=0.03, depth=0.3)[-1].number

    assert full == pytest.approx(800.0)
    assert short > full / 0.9  # the widest tenth was empty
    with pytest.raises(InputError, match="inside depth"):
        density_of_pail(full=17.0, empty=1.0, holds=0.02, gap=0.03, depth=None)
    with pytest.raises(InputError, match="swapped"):
        density_of_pail(full=1.0, empty=17.0, holds=0.02, gap=None, depth=None)


def test_the_small_tables_of_a_card_say_what_the_correction_says():
    charge = card("foamed-800")
    for rung in foam_ladder(charge):
        assert rung.add == correct_foamed(charge, FoamedReading(density=rung.found), most=math.inf).add
    offs = [rung.off for rung in slump_ladder(card("concrete-footing"))]
    assert offs == [Off.STIFF, Off.STIFF, Off.NEAR, Off.WET, Off.WET]


# foamed concrete by wish


def foamed(**typed):
    family = family_named("foamed")
    return family.propose(read_wish(family, typed, mixing=SITE, material=lambda name: kind("materials", name)))


@pytest.mark.parametrize(
    ("typed", "cement", "sand", "share", "dry"),
    [
        ({"cast": "800 kg/m3"}, 518.0, 0.0, 0.5766, 622),
        ({"cast": "600 kg/m3"}, 381.7, 0.0, 0.6880, 458),
        ({"cast": "1000 kg/m3", "foam_density": "45 kg/m3"}, 390.4, 390.4, 0.5335, 859),
        ({"cast": "1600 kg/m3", "sand_cement": "2", "foam_density": "45 kg/m3"}, 453.5, 906.9, 0.2871, 1451),
    ],
)
def test_foamed_mixes_by_wish_are_the_derived_ones(typed, cement, sand, share, dry):
    """Cases F1, F2, F3 and F5, worked by themselves before any of this was written."""
    charge = charge_of(foamed(**typed).mix, SITE)

    assert charge.part("cement").mass / charge.makes == pytest.approx(cement, abs=0.05)
    assert charge.foam.volume / charge.makes == pytest.approx(share, abs=5e-5)
    assert charge.foam.dry == pytest.approx(dry, abs=0.5)
    if sand:
        assert charge.part("sand").mass / charge.makes == pytest.approx(sand, abs=0.05)


@given(cast=st.floats(450.0, 1500.0), ratio=st.floats(0.4, 0.7), froth=st.floats(25.0, 90.0), loss=st.floats(0.0, 0.3))
def test_mass_and_volume_close_for_every_wish_of_foamed_concrete(cast, ratio, froth, loss):
    mix = foamed(
        cast=f"{cast} kg/m3", water_cement=f"{ratio}", foam_density=f"{froth} kg/m3", foam_loss=f"{loss}"
    ).mix  # fmt: skip
    charge = charge_of(mix, SITE)
    cement, sand = charge.part("cement").mass, sum(part.mass for part in charge.ingredients if part.part == "sand")

    assert cement + sand + charge.water * 1000 + charge.foam.mass == pytest.approx(cast * charge.makes)
    assert cement / 3150 + sand / 2650 + charge.water + charge.foam.volume == pytest.approx(charge.makes)
    assert charge.foam.make * (1 - loss) == pytest.approx(charge.foam.volume)


def test_a_density_once_dry_gives_the_mix_that_dries_to_it():
    charge = charge_of(foamed(dry="622 kg/m3").mix, SITE)

    assert charge.foam.dry == pytest.approx(622)
    assert charge.foam.cast == pytest.approx(800, abs=1)


def test_the_generator_runs_as_long_as_its_flow_says():
    """E38's pump of 1.5 L a second: 250 L take 166.7 s."""
    found = foamed(cast="800 kg/m3", foam_flow="90 L/min")
    charge = charge_of(found.mix, SITE)

    assert found.working[-1].number == pytest.approx(foam.foam_time(foam=charge.foam.make, flow=0.0015))
    assert any("runs" in note for note in found.notes)


def test_departures_of_foamed_concrete_are_told_beside_the_answer():
    found = foamed(cast="450 kg/m3", water_cement="0.4", sand_cement="1")

    assert {one.what for one in found.departures} == {"foam in it", "water over cement", "sand"}
    assert foamed(cast="800 kg/m3").departures == ()


@pytest.mark.parametrize(
    ("typed", "places"),
    [
        ({"cast": "30 kg/m3"}, {"cast"}),
        ({"cast": "1900 kg/m3", "sand_cement": "0"}, {"cast"}),
        ({"dry": "1500 kg/m3", "sand_cement": "0"}, {"dry"}),
        ({"cast": "800 kg/m3", "dry": "600 kg/m3"}, {"dry"}),
        ({"water_cement": "3", "foam_loss": "-2 %", "sand_cement": "-1"}, {"water_cement", "foam_loss", "sand_cement"}),
        ({"cast": "0 kg/m3", "foam_flow": "0 L/min"}, {"cast", "foam_flow"}),
    ],
)
def test_foamed_concrete_that_cannot_be_is_refused_with_all_complaints_at_once(typed, places):
    with pytest.raises(InvalidPlan) as refused:
        foamed(**typed)
    assert {problem.place for problem in refused.value.problems} == places


# the action and the log


@pytest.fixture
def plot(tmp_path):
    folder = tmp_path / "quinta"
    starting.from_sample(folder, "quinta")
    return folder


@pytest.mark.parametrize(
    ("typed", "places"),
    [
        ({}, {"weighed"}),
        ({"weighed": "18 kg", "pail": "900 L", "density": "0"}, {"pail", "density"}),
        ({"density": "-5 kg/m3"}, {"density"}),
        ({"weighed": "18 kg", "density": "800 kg/m3"}, {"density"}),
        ({"empty": "1 kg", "slump_wanted": "4 in"}, {"empty", "slump_wanted", "weighed"}),
        ({"cast": "700 kg/m3", "slump": "2 in"}, {"cast"}),
        ({"slump": "5 cm"}, {"slump"}),
        ({"nonsense": "1"}, {"nonsense"}),
    ],
)
def test_a_reading_that_cannot_be_is_told_whole_and_nothing_is_written(plot, typed, places):
    with pytest.raises(InvalidPlan) as refused:
        log_reading(plot, "foamed-800", typed)
    assert {problem.place for problem in refused.value.problems} == places
    assert not (plot / "log.sqlite").exists()


def test_a_mix_that_is_none_is_told(plot):
    with pytest.raises(NotFoundError, match="foamed-800"):
        correct_mix(plot, "marzipan", {"density": "800 kg/m3"})


def test_a_reading_goes_into_the_log_and_its_loss_is_learned(plot):
    for _ in range(4):
        log_reading(plot, "foamed-800", {"density": "860 kg/m3"})

    site = open_site(plot)
    (lesson,) = [one for one in site.lessons.lessons if one.subject == "foamed-800"]
    assert 0.05 < lesson.value < 0.20
    taught = correct_mix(plot, "foamed-800", {"density": "800 kg/m3"})
    assert (
        taught.record.charge.foam.make
        > card("foamed-800").foam.make * taught.record.charge.makes / card("foamed-800").makes
    )
    assert site.lessons.set_aside == ()


def test_the_address_of_the_logs_form_brings_what_was_measured(plot):
    pairs = dict(reading_pairs(plot, "concrete-footing", {"slump": "2 in"}))

    assert pairs["mix"] == "concrete-footing"
    assert pairs["slump"] == "2 in"
    assert "with" in pairs


def entry(**fields):
    raw = {"id": "x" * 22, "kind": "batch", "at": "2026-05-03T12:00:00+02:00", "who": "ana", "device": "d"}
    return entry_of({**raw, "fields": fields}, digits=2)


def losses(*entries):
    return foam_losses(entries, Measures(mixing=SITE, volumes={"bucket": 0.012}), (), NOTHING, System.METRIC)


def test_the_loss_is_read_from_slurry_in_foam_in_and_density_out():
    """25 kg cement and 12.5 L are 20.44 L; with 30 L of foam, 1.2 kg, they weigh 38.7 kg; at 860 they fill 45 L.

    So 24.56 of the 30 L are left: 18 % is gone.
    """
    found = losses(entry(
        mix="foamed-800", wet_density="860 kg/m3",
        amounts=[["cement", "1 bag"], ["water", "12.5 L"], ["foam", "30 L"]],
    ))  # fmt: skip

    (step,) = [one for one in found.lessons[0].working if one.formula == "corrections.foam_lost"]
    assert step.number == pytest.approx(0.181, abs=0.001)
    assert found.figures[0].name == "foam_loss"


@pytest.mark.parametrize(
    ("amounts", "says"),
    [
        (None, "not written down"),
        ([["cement", "1 bag"], ["water", "12.5 L"]], "how much foam"),
        ([["cement", "1 bag"], ["foam", "30 L"]], "not all"),
        ([["cement", "1 bag"], ["water", "12.5 L"], ["foam", "3 kg"]], "by volume"),
        ([["cement", "1 bag"], ["water", "12.5 L"], ["foam", "300 L"]], "written down wrong"),
    ],
)
def test_a_batch_that_does_not_tell_its_loss_is_set_aside_with_the_reason(amounts, says):
    fields = {"mix": "foamed-800", "wet_density": "1500 kg/m3"} | ({"amounts": amounts} if amounts else {})
    found = losses(entry(**fields))

    assert found.lessons == ()
    assert says in next(iter(found.set_aside))


def test_a_cone_is_read_no_finer_than_5_mm():
    charge = card("concrete-footing")

    assert correct_slump(charge, slump=0.050, wanted=None, most=1.0).off is Off.NEAR, "3 in wanted, 1 in is near"
    assert correct_slump(charge, slump=0.045, wanted=None, most=1.0).off is Off.STIFF


@pytest.mark.parametrize(("order", "laddered"), [("bagged", True), ("dry-set", False)])
def test_what_is_set_dry_has_no_slump_to_be_judged_by(order, laddered):
    mix = bagged_mix("post-bagged", "ready bags", kind("materials", "concrete-mix-bag"), density=2300.0, order=order)
    found = ladder_table(charge_of(mix, SITE), System.METRIC)

    assert (found is not None) is laddered
    assert found is None or ("the bag allows" in found.note and "cement" not in found.note)


def test_slumps_are_told_as_a_tape_reads_them():
    assert [sunk(value, System.METRIC) for value in (0.0254, 0.0762, 0.127)] == ["25 mm", "75 mm", "125 mm"]
    assert [sunk(value, System.US) for value in (0.0254, 0.0762, 0.127)] == ["1 in", "3 in", "5 in"]


def test_water_that_would_have_run_over_is_told_and_far_off_is_said_to_be():
    charge = charge_of(kind("mixes", "concrete-footing"), SITE)

    with pytest.raises(InputError, match="run over") as refused:
        back_to_proportions(charge, Slip(water=0.1), bulking=None, most=charge.makes)
    assert refused.value.place == "water_over"
    far = back_to_proportions(charge, Slip(water=0.005), bulking=None, most=1.0)
    near = back_to_proportions(charge, Slip(water=0.001), bulking=None, most=1.0)
    assert any("mixed anew" in note for note in far.notes)
    assert not any("mixed anew" in note for note in near.notes)
