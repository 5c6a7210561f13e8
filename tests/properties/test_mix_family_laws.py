"""Laws of the families of mixes: mass and volume close, more sand never more cement, ranges keep their order."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pinfold.errors import InvalidPlan, OutOfRangeError
from pinfold.formulas import earth_mixes, mixes, plaster
from pinfold.plan.place import Mixing
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.proportioning.families import FAMILIES, family_named
from pinfold.studies.proportioning.wishes import read_wish
from pinfold.tables.shelf import kind, shelf

SITE = Mixing(batch=0.06, bucket=0.012, bag=25.0, lime_bag=20.0, sand_bulking=None)
PARTED = ("mortar", "grout", "plaster", "bond", "lime", "earth", "adobe", "limewash", "cement-wash")
SANDED = ("mortar", "grout", "plaster", "bond", "lime", "earth")
WISHES = (
    *((name, {}) for name in PARTED),
    *(("mortar", {"type": letter, "binder": binder}) for letter in "MSNOK" for binder in ("portland", "masonry-cement")),
    *(("plaster", {"coat": coat, "base": base, "binder": binder})
      for coat in ("scratch", "brown", "finish") for base in ("lath", "cast-concrete")
      for binder in ("portland", "masonry-cement")),
    ("mortar", {"lime": "0.4", "sand": "4"}), ("grout", {"grain": "coarse", "lime": "0.1"}),
    ("grout", {"sand": "2-1/2"}), ("lime", {"binder": "hydraulic", "coat": "mortar"}), ("earth", {"straw": "1"}),
    ("adobe", {"clay": "45 %", "weather": "bare"}), ("adobe", {"make": "mortar"}), ("limewash", {"lime": "putty"}),
    ("limewash", {"lime": "quicklime"}), ("stabilized-earth", {}), ("stabilized-earth", {"gap": "20 mm"}),
    ("stabilized-earth", {"use": "rammed", "cement": "9 %"}),
)  # fmt: skip

sands = st.floats(1.0, 12.0)
limes = st.floats(0.0, 3.0)


def material(name):
    return kind("materials", name)


def proposed(name, **typed):
    family = family_named(name)
    return family.propose(read_wish(family, typed, mixing=SITE, material=material))


def charged(name, **typed):
    return charge_of(proposed(name, **typed).mix, SITE)


def room_of_grains(charge):
    return sum(part.mass / part.kind.value("particle_density") for part in charge.ingredients)


@pytest.mark.parametrize(("name", "typed"), WISHES, ids=str)
def test_mass_and_volume_close(name, typed):
    """What goes in weighs what comes out, and grains, water and air fill what it makes."""
    charge = charged(name, **typed)
    whole = sum(part.mass for part in charge.ingredients) + charge.water * 1000
    air = 1 - (room_of_grains(charge) + charge.water) / charge.makes

    assert whole == pytest.approx(charge.density * charge.makes)
    if charge.mix.word("yield_method") == "placed-density":
        assert 0.0 < air < 0.35
    else:
        assert air == pytest.approx(charge.mix.value("air"), abs=0.03)


@pytest.mark.parametrize("name", SANDED)
@settings(max_examples=15, deadline=None)
@given(less=sands, more=sands)
def test_more_sand_is_never_more_binder_in_a_cubic_meter(name, less, more):
    assume(more > less + 0.05)
    rich, lean = (charged(name, sand=f"{sand:.3f}") for sand in (less, more))
    lead = rich.ingredients[0].part

    assert lean.part(lead).mass / lean.makes < rich.part(lead).mass / rich.makes


@settings(max_examples=25, deadline=None)
@given(lime=limes, sand=sands)
def test_a_departure_is_told_where_the_range_is_left_and_only_there(lime, sand):
    told = {
        departure.what for departure in proposed("mortar", type="N", lime=f"{lime:.3f}", sand=f"{sand:.3f}").departures
    }
    ratio = round(sand, 3) / (1 + round(lime, 3))

    assert ("lime" in told) == (not 0.5 <= round(lime, 3) <= 1.25)
    if abs(ratio - 2.25) > 1e-6 and abs(ratio - 3) > 1e-6:
        assert ("sand" in told) == (not 2.25 <= ratio <= 3)


def test_every_published_range_begins_below_its_end():
    for row in (*shelf("proportions").values(), *shelf("plaster").values()):
        for key in row.figures:
            if key.endswith("_low"):
                assert row.value(key) <= row.value(f"{key[:-4]}_high"), (row.name, key)


def test_limes_of_the_types_of_mortar_rise_without_gap_or_overlap():
    for stronger, softer in zip("MSNO", "SNOK", strict=True):
        high = kind("proportions", f"mortar-{stronger}").value("lime_high")
        assert high == kind("proportions", f"mortar-{softer}").value("lime_low")


@pytest.mark.parametrize("letter", "MSNOK")
def test_each_type_of_mortar_ships_inside_its_own_range(letter):
    assert proposed("mortar", type=letter).departures == ()


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.name)
def test_what_a_family_offers_when_nothing_is_said_departs_from_nothing(family):
    if not any(ask.needed for ask in family.asks):
        assert proposed(family.name).departures == ()


@pytest.mark.parametrize("base", ["unit-masonry", "lath", "solid-base", "cast-concrete", "low-absorption"])
def test_coats_offered_are_never_richer_than_the_one_under_and_add_up_to_the_thickness_asked_for(base):
    coats = [proposed("plaster", coat=coat, base=base) for coat in ("scratch", "brown", "finish")]
    shares = [plaster.richness(**{part: coat.mix.value(part) for part in ("sand", "cement", "lime")}) for coat in coats]
    row = kind("plaster", f"over-{'unit-masonry' if base == 'low-absorption' else base}")
    laid = [row.value(coat) for coat in ("scratch", "brown", "finish") if row.has(coat)]

    assert shares == sorted(shares, reverse=True)
    assert sum(laid) == pytest.approx(row.value("thickness"))
    assert len(laid) == row.value("coats")


# the formulas by themselves


@given(loose=st.floats(1.0, 20.0), share=st.floats(0.05, 0.6), air=st.floats(0.0, 0.08))
def test_filling_water_makes_the_mix_what_the_rule_says(loose, share, air):
    made = mixes.bulk_sum_volume(loose=loose, rule="mortar")
    solids = share * made
    water = mixes.filling_water(made=made, solids=solids, air=air)

    assert mixes.mixed_volume(solids=solids, water=water, air=air) == pytest.approx(made)


def test_grains_that_fill_the_mix_leave_no_room_for_water():
    with pytest.raises(OutOfRangeError):
        mixes.filling_water(made=1.0, solids=0.95, air=0.06)


@given(loose=st.floats(0.5, 20.0), share=st.floats(0.0, 1.0))
def test_grains_and_gaps_are_the_loose_volume(loose, share):
    assert mixes.gaps(loose=loose, solids=share * loose) + share * loose == pytest.approx(loose)


def test_more_sand_is_leaner_and_none_is_neat():
    assert plaster.richness(sand=0.0, cement=1.0, lime=0.0) == 1.0
    assert plaster.richness(sand=4.0, cement=1.0, lime=0.0) > plaster.richness(sand=5.0, cement=1.0, lime=0.0)


def test_a_bar_that_left_the_whole_box_empty_shrank_by_one_and_no_gap_is_none():
    assert earth_mixes.linear_shrinkage(wet_length=0.6, gap=0.6) == 1.0
    assert earth_mixes.linear_shrinkage(wet_length=0.6, gap=0.0) == 0.0


@given(tried=st.floats(0.0, 6.0), shrinkage=st.floats(0.021, 0.2))
def test_with_the_sand_proposed_the_share_of_clay_brings_the_shrinkage_allowed(tried, shrinkage):
    sand = earth_mixes.sand_against_shrinkage(tried_sand=tried, shrinkage=shrinkage, allowed=0.02)

    assert sand >= tried
    assert shrinkage * (1 + tried) / (1 + sand) == pytest.approx(0.02)


@given(clay=st.floats(0.0, 1.0), wanted=st.floats(0.05, 1.0))
def test_soil_and_sand_together_hold_the_clay_wanted_or_less(clay, wanted):
    sand = earth_mixes.sand_to_thin_clay(clay=clay, wanted=wanted)

    assert clay / (1 + sand) <= wanted + 1e-9
    assert sand == 0.0 or clay / (1 + sand) == pytest.approx(wanted)


@given(gap=st.floats(0.0, 0.05), more=st.floats(0.0, 0.05))
def test_soil_that_shrinks_more_never_takes_less_cement(gap, more):
    low, high = sorted((gap, more))

    assert earth_mixes.soil_per_cement(gap=high) <= earth_mixes.soil_per_cement(gap=low)


def test_soil_that_shrinks_past_the_table_wants_sand_first():
    with pytest.raises(OutOfRangeError, match="wants sand"):
        earth_mixes.soil_per_cement(gap=0.0501)


@given(share=st.floats(0.01, 0.2))
def test_the_parts_for_a_share_weigh_that_share(share):
    soil = earth_mixes.soil_for_cement_share(share=share, cement_bulk=1506.0, soil_bulk=1200.0)

    assert 1506.0 / (soil * 1200.0) == pytest.approx(share)


@given(block=st.floats(0.0, 20.0), soil=st.floats(0.0, 30.0))
def test_cement_and_soil_of_a_block_are_the_block(block, soil):
    cement = earth_mixes.cement_in_block(block=block, soil_parts=soil)

    assert cement * (1 + soil) == pytest.approx(block)


def test_halving_every_side_of_a_mold_makes_eight_times_the_bricks():
    one = earth_mixes.units_made(mix=0.1, length=0.3, width=0.2, height=0.1)

    assert earth_mixes.units_made(mix=0.1, length=0.15, width=0.1, height=0.05) == pytest.approx(8 * one)


@pytest.mark.parametrize("share", [0.0, -1.0, math.nan])
def test_no_cement_at_all_is_no_stabilized_earth(share):
    with pytest.raises(OutOfRangeError):
        earth_mixes.soil_for_cement_share(share=share, cement_bulk=1500.0, soil_bulk=1200.0)


@pytest.mark.parametrize("name", SANDED)
def test_no_sand_is_refused_where_sand_is_needed(name):
    with pytest.raises(InvalidPlan, match="sand"):
        proposed(name, sand="0")
