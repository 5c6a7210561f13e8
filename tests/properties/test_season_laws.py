"""Laws of hardening by warmth, of the season's rules, and of heat."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import heat_stress, maturity
from pinfold.plan.place import Family
from pinfold.studies.ripening.gains import gained, reached
from pinfold.studies.ripening.hours import ripe_hours
from pinfold.studies.ripening.wanting import Placing, targets_of, wanted
from pinfold.studies.seasons.elements import Seen, around
from pinfold.studies.seasons.hours import season_hours
from pinfold.studies.seasons.people import EFFORTS
from pinfold.studies.seasons.records import May, SeasonWork
from pinfold.studies.weather.records import Element, Weather, WeatherKind
from pinfold.tables.shelf import kind, shelf

warmths = st.floats(-25.0, 45.0)
humidities = st.floats(0.02, 1.0)
days = st.lists(st.floats(-15.0, 40.0), min_size=24, max_size=120)
FOOTING = Placing(layer="footing", mix=kind("mixes", "concrete-footing"), make="strip")
COLLAR = Placing(layer="collars", mix=kind("mixes", "concrete-post"))
SCRATCH = Placing(layer="coat", mix=kind("mixes", "plaster-scratch"), coat=kind("coats", "cement-scratch"))
PLACED = {
    "concrete": FOOTING, "plaster": SCRATCH, "grout": Placing(layer="grout", mix=kind("mixes", "grout-fine")),
    "masonry": Placing(layer="mortar", mix=kind("mixes", "mortar-S"), make="units"),
    "foamed": Placing(layer="wall", mix=kind("mixes", "foamed-1000"), make="poured"),
}  # fmt: skip
START = np.array([0.0])
HOUR = 3600.0


# ---- hardening


@pytest.mark.parametrize("method", [0, 1, 2])
@given(hours=st.integers(1, 300), warmth=st.just(20.0))
def test_at_the_reference_warmth_the_age_is_the_age_itself(method, hours, warmth):
    gain = gained(np.full(hours, warmth)).methods[method]

    assert gain[-1] == pytest.approx(hours * HOUR)


def test_at_23_degrees_each_method_is_within_a_sixth_of_the_age():
    for gain in gained(np.full(100, 23.0)).methods:
        assert 1.0 <= gain[-1] / (100 * HOUR) <= 1.19


@given(warmths, warmths, st.floats(-12.0, 2.0))
def test_warmer_never_hardens_less_and_below_the_datum_nothing(one, other, datum):
    cold, warm = sorted((one, other))
    ages = [
        (maturity.age_by_nurse_saul(temperature_c=each, datum_c=datum, reference_c=20.0, time=HOUR),
         maturity.age_by_arrhenius(temperature_c=each, stops_c=datum, reference_c=20.0, time=HOUR),
         maturity.temperature_time_factor(temperature_c=each, datum_c=datum, time=HOUR))
        for each in (cold, warm, datum - 1.0)
    ]  # fmt: skip

    assert all(low <= high for low, high in zip(ages[0], ages[1], strict=True))
    assert ages[2] == (0.0, 0.0, 0.0)


def test_a_reference_at_the_datum_is_refused():
    with pytest.raises(OutOfRangeError, match="not above the datum"):
        maturity.age_by_nurse_saul(temperature_c=10.0, datum_c=20.0, reference_c=20.0, time=HOUR)


@settings(max_examples=30, deadline=None)
@given(days, st.floats(0.1, 10.0))
def test_warmer_is_never_later_and_more_hours_never_weaker(air, by):
    cold = np.array(air * 8)
    for placing in (FOOTING, COLLAR, SCRATCH):
        for target in targets_of(placing):
            if target.has("cold"):
                continue
            asked = wanted(target.name, placing, None)
            before, warmer = ripe_hours(asked, cold, START), ripe_hours(asked, cold + by, START)
            longer = ripe_hours(asked, np.concatenate((cold, cold)), START)
            for was, now, then in zip(before, warmer, longer, strict=True):
                assert now[0] <= was[0] + 1e-6
                assert then[0] <= was[0] + 1e-6
            assert before.soonest[0] <= before.likely[0] <= before.latest[0]
    assert all((np.diff(gain) >= 0).all() for gain in gained(cold).methods)


@given(days, st.floats(1.0, 40.0))
def test_an_age_is_reached_where_a_plain_count_reaches_it(air, hours):
    gain = gained(np.array(air)).methods[0]
    age = hours * HOUR
    found = reached(gain, age, START)[0]

    counted = next((place for place in range(len(gain)) if gain[place] >= age), None)
    assert (counted is None) == (not np.isfinite(found))
    if counted is not None:
        assert counted - 1 <= found <= counted + 1e-9


def test_what_is_not_known_ends_the_hours():
    air = np.full(200, 20.0)
    air[60] = np.nan
    asked = wanted("many-freezes", FOOTING, None)

    assert not np.isfinite(ripe_hours(asked, air, START).latest[0])
    assert gained(air).known == 60


# ---- rules of the season


def weather(air, *, wind=2.0, humidity=0.4, rain=0.0, kind=WeatherKind.FORECAST):
    count = len(air)
    series = {
        Element.TEMPERATURE: np.asarray(air, dtype=float), Element.WIND: np.full(count, wind),
        Element.HUMIDITY: np.full(count, humidity), Element.RAIN: np.full(count, rain),
    }  # fmt: skip
    return Weather(
        kind=kind, says="made up", start=datetime(2026, 3, 1, tzinfo=UTC), zone=UTC, series=series,
        estimated={each: np.zeros(count, dtype=bool) for each in series},
    )  # fmt: skip


TRADES = sorted({trade for rule in shelf("season_rules").values() for trade in rule.words["trades"]})
MIDDLE = 24 * 120
ROUND = 24 * 240


def steady(trade, warmth, family, **rest):
    placing = PLACED.get(trade)
    work = SeasonWork(layer="footing", says=trade, trades=(trade,), placing=placing, green_speed=5.0)
    hours = season_hours(work, weather(np.full(ROUND, warmth), **rest), family=family)
    return May(hours.verdicts[MIDDLE]), hours


@pytest.mark.parametrize("family", list(Family))
@pytest.mark.parametrize("trade", TRADES)
def test_a_rule_never_turns_from_no_to_yes_as_it_gets_colder_or_hotter(trade, family):
    for turn in (-1.0, 1.0):
        found = [steady(trade, warmth, family)[0] for warmth in np.arange(15.0, 15.0 + turn * 45, turn)]
        shown = [each for each in found if each is not May.NOT_SHOWN]  # near 0 °C nobody sees when it is ripe
        assert shown == sorted(shown)


@pytest.mark.parametrize("family", list(Family))
@pytest.mark.parametrize("trade", TRADES)
def test_every_rule_that_fires_goes_on_firing_beyond(trade, family):
    for turn in (-1.0, 1.0):
        fired = set()
        for warmth in np.arange(15.0, 15.0 + turn * 45, turn):
            now = {rule.name for rule in steady(trade, warmth, family)[1].fired(MIDDLE)}
            falling = {"masonry-3-eu"}
            assert fired - now <= falling
            fired = now


@pytest.mark.parametrize("trade", TRADES)
def test_a_mild_dry_still_day_may_be_worked_in(trade):
    for family in Family:
        verdict, hours = steady(trade, 18.0, family, wind=1.0, humidity=0.6)
        assert verdict is May.YES, hours.fired(MIDDLE)


@pytest.mark.parametrize("trade", sorted(set(TRADES) - {"fence", "green"}))
def test_more_rain_is_never_better_and_rain_at_the_hour_is_no(trade):
    assert steady(trade, 18.0, Family.US, rain=0.002)[0] is May.NO


@pytest.mark.parametrize("trade", TRADES)
def test_what_is_not_known_is_not_shown(trade):
    dark = weather(np.full(ROUND, np.nan), wind=np.nan, humidity=np.nan, rain=np.nan)
    work = SeasonWork(layer="footing", says=trade, trades=(trade,))
    hours = season_hours(work, dark, family=Family.US)

    assert (hours.verdicts == May.NOT_SHOWN).all()


def test_the_end_of_a_forecast_is_not_shown_and_a_typical_year_goes_round():
    air = np.full(8760, 18.0)
    coming = season_hours(
        SeasonWork(layer="footing", says="x", trades=("concrete",), placing=FOOTING), weather(air), family=Family.US
    )
    year = season_hours(coming.work, weather(air, kind=WeatherKind.TYPICAL), family=Family.US)

    assert coming.verdicts[-1] == May.NOT_SHOWN
    assert (year.verdicts == May.YES).all()
    assert year.left_out


def test_a_typical_year_never_speaks_of_rain():
    wet = weather(np.full(8760, 18.0), rain=0.01, kind=WeatherKind.TYPICAL)
    work = SeasonWork(layer="mortar", says="x", trades=("masonry",), placing=PLACED["masonry"])

    assert not any("rain" in rule.name for rule in season_hours(work, wet, family=Family.US).rules)


def test_rain_that_is_not_foreseen_is_not_asked_for():
    dry = weather(np.full(ROUND, 18.0))
    series = {**dry.series, Element.RAIN: np.where(np.arange(ROUND) < 48, 0.0, np.nan)}
    partly = replace(dry, series=series)
    work = SeasonWork(layer="mortar", says="x", trades=("grout",), placing=PLACED["grout"])
    foreseen = np.arange(ROUND) < 48

    asked = season_hours(work, partly, family=Family.US)
    told = season_hours(work, partly, family=Family.US, foreseen=foreseen)

    assert asked.verdicts[200] == May.NOT_SHOWN
    assert told.verdicts[200] == May.YES
    assert told.left_out


@given(st.lists(st.booleans(), min_size=1, max_size=60), st.integers(0, 5), st.integers(0, 9), st.booleans())
def test_a_window_is_what_looking_hour_by_hour_finds(marks, before, after, cyclic):
    holds = np.array(marks)
    found = around(Seen(holds, np.ones(len(marks), dtype=bool)), before, after, cyclic=cyclic)

    count = len(marks)
    for hour in range(count):
        places = range(hour - before, hour + min(after, count) + 1)
        inside = [place % count if cyclic else place for place in places if cyclic or 0 <= place < count]
        assert found.holds[hour] == any(marks[place] for place in inside)


# ---- heat


@given(st.floats(-20.0, 26.0), humidities)
def test_in_mild_air_the_index_stays_near_the_thermometer(warmth, damp):
    felt = heat_stress.heat_index_c(temperature_c=warmth, humidity=damp)

    assert abs(felt - warmth) < 5.0 or warmth < 5.0


@given(st.floats(27.0, 43.0), st.floats(0.4, 0.99))
def test_damper_or_hotter_air_never_feels_cooler(warmth, damp):
    felt = heat_stress.heat_index_c(temperature_c=warmth, humidity=damp)

    assert heat_stress.heat_index_c(temperature_c=warmth + 1.0, humidity=damp) >= felt - 0.35
    assert heat_stress.heat_index_c(temperature_c=warmth, humidity=min(damp + 0.05, 1.0)) >= felt - 0.35


def test_hours_at_once_are_the_hours_one_by_one():
    air, damp = np.linspace(-10, 45, 40), np.linspace(0.05, 1.0, 40)
    many = heat_stress.heat_index_c(temperature_c=air, humidity=damp)

    assert [heat_stress.heat_index_c(temperature_c=float(t), humidity=float(r)) for t, r in zip(air, damp, strict=True)
            ] == pytest.approx(list(many))  # fmt: skip


@pytest.mark.parametrize("effort", EFFORTS)
@given(warmth=st.floats(20.0, 55.0), damp=humidities, more=st.floats(0.0, 10.0))
def test_hotter_or_sunnier_or_unused_never_works_longer(effort, warmth, damp, more):
    def work(add, sun):
        adjusted = heat_stress.adjusted_temperature_c(temperature_c=warmth, humidity=damp, sun=sun) + add
        return heat_stress.work_in_hour(adjusted_c=adjusted, effort=effort)

    assert work(more, "shade") <= work(0.0, "shade")
    assert work(0.0, "full") <= work(0.0, "part") <= work(0.0, "shade")
    assert work(heat_stress.unused_margin_c(effort=effort), "full") <= work(0.0, "full")


@given(st.floats(30.0, 50.0))
def test_heavier_work_is_never_longer(adjusted):
    light, moderate, heavy = (heat_stress.work_in_hour(adjusted_c=adjusted, effort=each) for each in EFFORTS)

    assert heavy <= moderate <= light


def test_whoever_is_not_used_to_it_bears_less():
    for effort in EFFORTS:
        used = heat_stress.wbgt_limit_c(effort=effort, used_to_it=True)
        unused = heat_stress.wbgt_limit_c(effort=effort, used_to_it=False)
        assert used - unused == pytest.approx(heat_stress.unused_margin_c(effort=effort))
        assert 2.0 < used - unused < 4.0
