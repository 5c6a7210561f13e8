"""Laws of corrections: mass and volume close, and what was corrected and weighed again is what was wanted."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import concrete_batch, corrections, foam

units = pint.UnitRegistry()
volumes = st.floats(0.005, 1.0)
losses = st.floats(0.0, 0.5)
agents = st.floats(20.0, 100.0)
slurries = st.floats(1500.0, 2300.0)


@given(mixed=volumes, cast=st.floats(300.0, 1400.0), over=st.floats(0.0, 400.0), agent=agents, loss=losses)
def test_a_heavy_mix_weighed_again_after_its_foam_has_the_density_wanted(mixed, cast, over, agent, loss):
    made = corrections.foam_to_add(mixed=mixed, density=cast + over, cast=cast, foam_density=agent, loss=loss)

    mass, room = mixed * (cast + over) + made * agent, mixed + made * (1 - loss)
    assert mass / room == pytest.approx(cast)


@given(mixed=volumes, cast=st.floats(400.0, 1400.0), under=st.floats(0.1, 300.0), slurry=slurries)
def test_a_light_mix_weighed_again_after_its_slurry_has_the_density_wanted(mixed, cast, under, slurry):
    added = corrections.slurry_to_add(mixed=mixed, density=cast - under, cast=cast, slurry_density=slurry)

    again = foam.foamed_density(slurry=added, slurry_density=slurry, foam=mixed, foam_density=cast - under)
    assert again == pytest.approx(cast)


@given(slurry=volumes, heavy=slurries, made=volumes, agent=agents, loss=losses)
def test_foam_that_was_lost_is_found_again_by_what_the_mix_weighs(slurry, heavy, made, agent, loss):
    density = (slurry * heavy + made * agent) / (slurry + made * (1 - loss))

    found = corrections.foam_lost(
        slurry=slurry, slurry_density=heavy, foam=made, foam_density=agent, density=density
    )  # fmt: skip

    assert found == pytest.approx(loss, abs=1e-6)


def test_a_mix_lighter_than_its_foam_can_make_it_has_lost_less_than_none():
    lost = corrections.foam_lost(slurry=0.5, slurry_density=1800.0, foam=0.5, foam_density=40.0, density=850.0)

    assert lost < 0  # 920 kg/m3 with all of its foam: the mixer stirred in air of its own


@given(cast=st.floats(300.0, 1400.0), over=st.floats(0.0, 400.0), agent=agents)
def test_foam_that_loses_nothing_is_the_foam_for_a_slurry(cast, over, agent):
    ours = corrections.foam_to_add(mixed=0.1, density=cast + over, cast=cast, foam_density=agent, loss=0.0)

    rival = foam.foam_for_slurry(slurry=0.1, slurry_density=cast + over, cast=cast, foam_density=agent)
    assert ours == pytest.approx(rival)


def test_corrections_worked_with_a_hand_calculator():
    """80 L at 900 wanted at 800, foam 40 of which a twentieth goes: 80 x 100 / (0.95 x 800 - 40) = 8000 / 720 = 11.11 L.

    Weighed again: (80 x 900 + 11.11 x 40) / (80 + 11.11 x 0.95) = (72 000 + 444) / 90.56 = 800. 80 L at 700 wanted at
    800 with slurry of 1835: 80 x 100 / 1035 = 7.73 L; again (56 000 + 7.73 x 1835) / 87.73 = 800.
    """
    heavy = corrections.foam_to_add(mixed=0.080, density=900.0, cast=800.0, foam_density=40.0, loss=0.05)
    light = corrections.slurry_to_add(mixed=0.080, density=700.0, cast=800.0, slurry_density=1835.0)

    assert heavy * 1000 == pytest.approx(11.11, abs=0.005)
    assert light * 1000 == pytest.approx(7.73, abs=0.005)
    again = [(80 * 900 + 11.11 * 40) / (80 + 11.11 * 0.95), (80 * 700 + 7.73 * 1835) / 87.73]
    assert again == pytest.approx([800, 800], abs=0.1)


def test_a_pail_in_pounds_and_gallons_weighs_the_same_by_another_unit_library():
    full, empty, holds = units.Quantity(34.6, "lb"), units.Quantity(2.1, "lb"), units.Quantity(5, "gallon")
    rival = ((full - empty) / holds).to("kg/m^3").magnitude

    ours = corrections.pail_density(
        full=full.to("kg").magnitude, empty=empty.to("kg").magnitude, holds=holds.to("m^3").magnitude, filled=1.0
    )

    assert ours == pytest.approx(rival)
    assert ours == pytest.approx(778.9, abs=0.1)  # 32.5 lb over 0.6684 ft3 is 48.62 lb/ft3


@given(gap=st.floats(0.0, 0.29), taper=st.floats(0.5, 1.5))
def test_a_pail_not_brim_full_holds_what_its_slices_hold(gap, taper):
    slices = 2000

    def held(top):
        heights = [(n + 0.5) * top / slices for n in range(slices)]
        return math.fsum((taper + (1 - taper) * height / 0.3) ** 2 for height in heights) * top / slices

    ours = corrections.pail_filled(gap=gap, depth=0.3, taper=taper)

    assert ours == pytest.approx(held(0.3 - gap) / held(0.3), rel=1e-5)


def test_a_brim_full_pail_is_full_and_straight_sides_go_by_the_depth():
    assert corrections.pail_filled(gap=0.0, depth=0.3, taper=0.9) == pytest.approx(1.0)
    assert corrections.pail_filled(gap=0.06, depth=0.3, taper=1.0) == pytest.approx(0.8)


@given(change=st.floats(-0.1, 0.1))
def test_water_for_slump_goes_with_the_change_and_both_ways(change):
    ask = {"change": change, "step": 0.0254}

    by_volume = corrections.water_for_slump(water=5.933, **ask)
    by_share = corrections.water_share_for_slump(water=180.0, share=0.03, **ask)

    assert by_volume == pytest.approx(-corrections.water_for_slump(water=5.933, change=-change, step=0.0254))
    assert by_share == pytest.approx(5.4 * change / 0.0254)
    assert abs(by_volume - by_share) <= abs(by_volume) * 0.15 + 1e-12  # both rules near 180 kg/m3 of water


@given(water=st.floats(0.0, 20.0), ratio=st.floats(0.3, 1.5))
def test_water_with_cement_beside_it_keeps_the_ratio(water, ratio):
    more = corrections.cement_beside(water=water, water_cement=ratio)

    assert (ratio * 25.0 + water) / (25.0 + more) == pytest.approx(ratio)


@given(
    present=st.lists(st.floats(0.5, 60.0), min_size=3, max_size=3),
    meant=st.lists(st.floats(5.0, 50.0), min_size=3, max_size=3),
)
def test_what_is_added_comes_back_to_the_proportions_and_takes_nothing_out(present, meant):
    held = [corrections.batches_held(present=here, meant=there) for here, there in zip(present, meant, strict=True)]
    batches = max(held)

    added = [
        corrections.part_to_add(present=here, meant=there, batches=batches)
        for here, there in zip(present, meant, strict=True)
    ]

    assert min(added) >= 0
    assert min(added) == pytest.approx(0.0, abs=1e-9)
    for here, there, more in zip(present, meant, added, strict=True):
        assert here + more == pytest.approx(batches * there)


@given(mass=st.floats(1.0, 500.0), density=st.floats(300.0, 2500.0), meant=volumes)
def test_a_batch_lighter_than_reckoned_yields_more(mass, density, meant):
    made = concrete_batch.yield_volume(batch=mass, density=density)
    lighter = concrete_batch.yield_volume(batch=mass, density=density * 0.95)

    assert corrections.relative_yield(made=lighter, meant=meant) > corrections.relative_yield(made=made, meant=meant)
    assert corrections.content(mass=mass, made=made) == pytest.approx(density)


@pytest.mark.parametrize(
    ("formula", "wrong"),
    [
        (corrections.pail_density, {"full": 1.0, "empty": 1.0, "holds": 0.02, "filled": 1.0}),
        (corrections.pail_density, {"full": 10.0, "empty": 1.0, "holds": 0.02, "filled": 0.0}),
        (corrections.pail_density, {"full": 10.0, "empty": -1.0, "holds": 0.02, "filled": 1.0}),
        (corrections.pail_filled, {"gap": 0.3, "depth": 0.3, "taper": 0.9}),
        (corrections.foam_to_add, {"mixed": 0.1, "density": 700.0, "cast": 800.0, "foam_density": 40.0, "loss": 0.0}),
        (corrections.foam_to_add, {"mixed": 0.1, "density": 300.0, "cast": 60.0, "foam_density": 40.0, "loss": 0.5}),
        (corrections.slurry_to_add, {"mixed": 0.1, "density": 700.0, "cast": 1900.0, "slurry_density": 1835.0}),
        (corrections.slurry_to_add, {"mixed": 0.1, "density": 0.0, "cast": 800.0, "slurry_density": 1835.0}),
        (corrections.part_to_add, {"present": 30.0, "meant": 25.0, "batches": 1.0}),
        (corrections.relative_yield, {"made": 1.0, "meant": 0.0}),
        (corrections.pail_density, {"full": math.nan, "empty": 1.0, "holds": 0.02, "filled": 1.0}),
    ],
)  # fmt: skip
def test_what_physics_forbids_is_refused(formula, wrong):
    with pytest.raises(OutOfRangeError):
        formula(**wrong)
