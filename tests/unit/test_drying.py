"""A wet wall's day: balances, limits, and what is asked of it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from drying_days import lit, square, weather
from pinfold.figures import given
from pinfold.formulas import drying, moist_air
from pinfold.sources import publications
from pinfold.studies.drying.balance import ALWAYS, Around, march, transfer_of
from pinfold.studies.drying.conduction import columns_of
from pinfold.studies.drying.records import SPREAD, Asked, limits
from pinfold.studies.drying.study import lasting
from pinfold.studies.drying.stuff import Layer, across, downward, skin_of
from pinfold.studies.drying.wetting import BARE_CURE, cure_of, wetting_of
from pinfold.studies.weather.records import Element
from pinfold.tables.shelf import kind, shelf
from pinfold.units import RATIO

SEA = 101325.0


def plain(thickness=0.2, conductivity=1.0, capacity=2e6):
    return Layer(kind("wall_heat", "concrete"), thickness, conductivity, capacity)


def around(*, hours=24, air=30.0, humidity=0.5, gain=0.0, convection=10.0, emittance=0.0, columns=1):
    """Both ends alike, all hours alike; without emittance no heat is lost but to the air."""
    vapor = moist_air.vapor_pressure(temperature_c=air, humidity=humidity)
    ends = (hours, 2, columns)
    dry = np.full(hours, SEA - 0.378 * vapor)
    return Around(
        gain=np.full(ends, gain), convection=np.full(ends, convection), emittance=np.full((2, columns), emittance),
        transfer=transfer_of(np.full(ends, convection), dry), air_c=np.full(hours, air),
        density=np.full(hours, vapor / (drying.VAPOR * (air + 273.15))),
    )  # fmt: skip


def walked(at, *, water=0.0, start=20.0, layers=None, **more):
    columns = columns_of([layers or (plain(),)])
    state = np.full(columns.stores.shape, start)
    return march(columns, at, start=state, water=np.full((2, 1), water), **more)


# --- balances ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("water", [0.0, 0.3, ALWAYS])
@pytest.mark.parametrize(
    "layers", [(plain(),), (plain(0.01, 0.75), plain(0.2, 0.2, 8e5)), (plain(0.0005, 50.0, 3.7e6),)]
)
def test_heat_that_enters_is_heat_that_is_stored(water, layers):
    found = walked(around(gain=700.0, emittance=0.9, humidity=0.2), water=water, layers=layers)

    assert found.entered == pytest.approx(found.stored, rel=1e-9, abs=1e-6 * abs(found.entered).max())


@pytest.mark.parametrize("water", [0.0, ALWAYS])
def test_what_enters_in_a_steady_hour_is_what_the_formulas_say(water):
    at = around(hours=400, gain=650.0, emittance=0.9)
    found = walked(at, water=water)
    face, evaporation = found.temperature[-1, 0, 0], found.evaporation[-1, 0, 0]

    heat = drying.heat_into_wall(
        sun=650.0, absorptance=1.0, convection=10.0, air_c=30.0, surface_c=face, evaporation=evaporation,
        long_wave=drying.long_wave_gain(sky_heat=0.0, ground_c=0.0, sky_view=1.0, surface_c=face, emittance=0.9),
    )  # fmt: skip

    assert heat == pytest.approx(0.0, abs=0.5)
    if water:
        density = drying.air_density(temperature_c=(30.0 + face) / 2, pressure=SEA,
                                     vapor_pressure=moist_air.vapor_pressure(temperature_c=30.0, humidity=0.5))  # fmt: skip
        transfer = drying.vapor_transfer(convection=10.0, density=density, lewis=drying.LEWIS)
        assert evaporation == pytest.approx(drying.evaporation_from_wall(
            transfer=transfer, surface_c=face, air_c=30.0,
            vapor_pressure=moist_air.vapor_pressure(temperature_c=30.0, humidity=0.5)), rel=2e-3)  # fmt: skip


@pytest.mark.parametrize(("air", "humidity"), [(40.0, 0.14), (30.0, 0.5), (20.0, 0.5)])
def test_an_unlit_wet_wall_settles_near_the_wet_bulb(air, humidity):
    found = walked(around(hours=240, air=air, humidity=humidity), water=ALWAYS)
    wet_bulb = moist_air.wet_bulb_c(temperature_c=air, humidity=humidity, pressure=SEA)

    assert found.temperature[-1] == pytest.approx(wet_bulb, abs=1.3)


def test_water_that_is_gone_is_water_that_left():
    found = walked(around(hours=12, gain=300.0, humidity=0.2), water=0.3)
    left = found.evaporation.sum(axis=0) * 3600

    assert left[0, 0] == pytest.approx(0.3, rel=5e-3)  # the last step is a straight line
    assert found.water[-1] == pytest.approx(0.0, abs=1e-12)
    assert 0.3 < found.damp[0, 0, 0] < 1.0
    assert found.damp[-1, 0, 0] == 0.0


def test_a_slab_warms_as_theory_has_it():
    """A thick slab whose face takes steady heat warms by 2 q √(t / (π k c)) there."""
    at = around(hours=6, gain=100.0, convection=0.0)
    at = replace(at, gain=at.gain * np.array([1.0, 0.0])[None, :, None])
    found = walked(at, layers=(plain(0.6),), steps=60)

    wanted = 2 * 100.0 * np.sqrt(5.5 * 3600 / (np.pi * 1.0 * 2e6))
    assert found.temperature[5, 0, 0] - 20.0 == pytest.approx(wanted, rel=0.03)


def test_shorter_steps_come_to_the_same_and_faces_alike_stay_alike():
    at = around(hours=24, gain=500.0, emittance=0.9)
    coarse, fine = (walked(at, water=ALWAYS, steps=steps) for steps in (2, 30))

    assert coarse.temperature[-1] == pytest.approx(fine.temperature[-1], abs=0.05)
    assert fine.temperature[:, 0] == pytest.approx(fine.temperature[:, 1])


# --- a plot in its weather ---------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def sunny():
    return lit()


@pytest.fixture(scope="module")
def day(sunny):
    return sunny.drying()


def test_every_face_is_told_of_in_every_hour(sunny, day):
    shape = (len(sunny.light.faces), 48)

    assert day.shown
    for name in ("surface_temperature", "wet_temperature", "evaporation", "fresh_evaporation", "wet_interval"):
        assert getattr(day, name).shape == shape, name
    assert np.isfinite(day.evaporation).all()
    assert day.of("s0/1 outer") == 0


def test_a_wet_face_is_cooler_than_a_dry_one_in_the_sun(day):
    noon = 13
    assert (day.wet_temperature[:, noon] < day.surface_temperature[:, noon] - 3).all()


def test_the_east_face_is_warm_first_and_the_west_face_last(day):
    east, west = (day.surface_temperature[day.of(name), :24].argmax() for name in ("s1/1 outer", "s3/1 outer"))

    assert east + 4 <= west


def test_a_shadow_is_never_hotter_nor_dries_faster(sunny, day):
    shaded = sunny.shaded(0.3).drying()

    assert (shaded.surface_temperature <= day.surface_temperature + 1e-6).all()
    assert (shaded.evaporation <= day.evaporation + 1e-12).all()


def test_more_wind_never_dries_slower_in_dry_air_without_sun():
    """In the sun a still face gets so warm that it may dry faster than one that the wind cools."""
    cloudy = lit(over=weather(beam=0.0, diffuse=0.0, **{"global": 0.0}))
    shares = [cloudy.drying(Asked(wind_share=given(share, RATIO))).wet_interval for share in (0.2, 0.484, 0.8)]

    finite = np.isfinite(shares[0])
    assert (shares[1][finite] <= shares[0][finite]).all()
    assert (shares[2][finite] <= shares[1][finite]).all()


def test_fresh_coat_and_wet_wall_are_of_one_size_and_the_spread_is_told(day):
    high = day.evaporation > 1e-4
    ratio = day.fresh_evaporation[high] / day.evaporation[high]

    assert 0.4 < np.median(ratio) < 1.6
    finite = np.isfinite(day.wet_interval_most)
    assert (day.wet_interval_least[finite] < day.wet_interval[finite]).all()
    assert (day.wet_interval[finite] < day.wet_interval_most[finite]).all()
    assert SPREAD.value == 0.4


def test_a_cover_slows_drying_and_a_sheet_nearly_ends_it(sunny, day):
    means = {name: sunny.drying(Asked(cover=kind("covers", name))).evaporation.mean() for name in shelf("covers")}

    assert means["none"] == pytest.approx(day.evaporation.mean())
    assert means["sheet"] < 0.1 * means["none"]
    assert means["shade-cloth"] < 0.8 * means["none"]
    assert means["wet-cloth"] < means["none"]


@pytest.mark.parametrize("lacks", [Element.HUMIDITY, Element.WIND, Element.TEMPERATURE])
def test_without_humidity_wind_or_warmth_nothing_is_shown(lacks):
    told = lit(over=weather(lacks=(lacks,))).drying()

    assert not told.shown
    assert str(lacks) in told.because[0]
    assert np.isnan(told.evaporation).all()


def test_hours_that_are_not_known_are_not_shown_and_the_others_are():
    wind = np.full(48, 4.0)
    wind[10:20] = np.nan
    told = lit(over=weather(wind=wind)).drying()

    assert np.isnan(told.evaporation[:, 10:20]).all()
    assert np.isfinite(told.evaporation[:, :10]).all()
    assert np.isfinite(told.evaporation[:, 20:]).all()


def test_every_wall_of_the_shelf_has_its_stuff():
    for each in shelf("walls").values():
        buildup = f'\n[buildup.b.wall]\nkind = "{each.name}"\nheight = "80 cm"\n'
        try:
            layout = square(buildup)
        except ValueError:
            continue
        made = layout.stretches[0].buildup
        assert all(layer.conductivity > 0 and layer.capacity > 0 for layer in (*across(made), *downward(made)))


def test_coats_lie_outside_in_the_order_they_show(sunny):
    made = sunny.light.faces[0].buildup

    assert [layer.stuff.name for layer in across(made)] == [
        "plaster",
        "plaster",
        "concrete-masonry",
        "plaster",
        "plaster",
    ]
    assert skin_of(sunny.light.faces[0]).name == "plaster"


# --- how long a wetting lasts, and rounds with water -----------------------------------------------------------


def test_water_lasts_until_so_much_has_left():
    rate = np.array([[1.0, 2.0, 4.0, 0.0, 1.0]]) / 3600

    found = lasting(rate, np.array([2.0]))[0]

    assert found[:3] / 3600 == pytest.approx([1.5, 1.0, 0.5])
    assert np.isinf(found[3:]).all()


def test_rounds_keep_a_face_damp_and_no_water_goes_on_at_night(sunny, day):
    rounds = wetting_of(sunny.bench(), day, slice(0, 48))
    clocks = {moment.hour for face in range(len(day.faces)) for moment, _ in rounds.rounds(face)}

    assert clocks <= set(range(6, 21))
    assert (rounds.total > 0).all()
    assert all(rounds.damp_share(face) > 0.4 for face in range(len(day.faces)))


def test_rounds_put_on_what_leaves_and_what_runs_off(sunny, day):
    bench = sunny.bench()
    rounds = wetting_of(bench, day, slice(0, 48))
    per_area = rounds.total * 1000 / [face.area for face in day.faces]

    assert (per_area > 2).all()
    assert (per_area < 40).all()


def test_under_a_sheet_less_water_keeps_it_damp_all_the_time(sunny, day):
    asked = Asked(cover=kind("covers", "sheet"))
    bare, sheet = (
        wetting_of(sunny.bench(each), sunny.drying(each), slice(8, 48)) for each in (Asked(), asked)
    )  # fmt: skip

    assert (sheet.total < 0.4 * bare.total).all()
    assert all(sheet.damp_share(face) > bare.damp_share(face) - 1e-9 for face in range(len(day.faces)))


def test_a_coat_is_kept_damp_for_its_own_cure_and_earth_is_let_dry(sunny):
    assert cure_of(sunny.light.faces[0]).value == 48 * 3600
    bare = lit(square('\n[buildup.b.wall]\nkind = "block-200-hollow"\nheight = "80 cm"\n')).light.faces[0]
    assert cure_of(bare) is BARE_CURE
    earth = lit(square('\n[buildup.b.wall]\nkind = "adobe"\nheight = "80 cm"\n')).light.faces[0]
    assert cure_of(earth).value == 0


def test_nothing_is_poured_on_what_need_not_be_damp():
    adobe = lit(square('\n[buildup.b.wall]\nkind = "adobe"\nheight = "80 cm"\n'))
    rounds = wetting_of(adobe.bench(), adobe.drying(), slice(0, 24))

    assert rounds.total.sum() == 0
    assert rounds.damp_share(0) == 1.0


# --- shelves --------------------------------------------------------------------------------------------------


def test_the_limits_are_those_read():
    assert limits().act.value * 3600 == pytest.approx(1.0)
    assert limits().caution.value * 3600 == pytest.approx(0.5)


@pytest.mark.parametrize("name", ["wall_heat", "covers", "evaporation_limits"])
def test_every_figure_of_the_shelves_names_a_known_source(name):
    for each in shelf(name).values():
        assert each.word("says")
        assert all(figure.source in publications() for figure in each.figures.values())
