"""The season's rules on the real year of Aurora, on plans and on hours made by hand; people's heat."""

from __future__ import annotations

from collections import Counter
from datetime import UTC, datetime
from functools import cache
from importlib.resources import files

import numpy as np
import pytest

import weathers
from pinfold.plan.place import Family
from pinfold.sources import Standing, publications
from pinfold.store import planfile
from pinfold.store.weather.recognize import weather_file
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.ripening.wanting import Placing
from pinfold.studies.seasons.elements import day_means, element
from pinfold.studies.seasons.hours import season_hours
from pinfold.studies.seasons.people import heat_hours, level_of
from pinfold.studies.seasons.records import May, SeasonWork
from pinfold.studies.seasons.works import season_works
from pinfold.studies.weather.records import Element, Weather, WeatherKind
from pinfold.studies.weather.taking import weather_of
from pinfold.tables.shelf import kind, shelf

MASONRY = SeasonWork(
    layer="mortar", says="laying block", trades=("masonry",),
    placing=Placing(layer="mortar", mix=kind("mixes", "mortar-S"), make="units"),
)  # fmt: skip


@cache
def aurora() -> Weather:
    return weather_of(weather_file(weathers.aurora(), name=weathers.AURORA.name), weathers.DENVER, year=2026)


def days(values):
    """Rows of 24 hours, day by day of standard time."""
    return np.reshape(values, (365, 24))


# ---- the year of Aurora


def test_the_year_has_as_many_cold_days_as_were_counted_by_another_hand():
    air = days(element(aurora(), Element.TEMPERATURE))

    assert (air.min(axis=1) < 4.4).sum() == 191
    assert (air.min(axis=1) < 0.0).sum() == 128


def test_it_freezes_as_often_as_was_counted():
    air = element(aurora(), Element.TEMPERATURE)

    assert ((air[:-1] > 0) & (air[1:] <= 0)).sum() == 134  # from over 0 °C to it or below


def test_its_days_fall_into_the_bands_of_mean_temperature_that_were_counted():
    air = days(element(aurora(), Element.TEMPERATURE))
    means = (air.max(axis=1) + air.min(axis=1)) / 2
    edges = [kind("season_rules", f"masonry-mean-{edge}").value("below") for edge in (40, 32, 25, 20)]

    assert [int((means >= edges[0]).sum()), *(
        int(((means < above) & (means >= below)).sum()) for above, below in zip(edges, [*edges[1:], -99.0], strict=True)
    )] == [251, 49, 33, 17, 15]  # fmt: skip


def test_the_rules_count_the_same_days_by_standard_time():
    """The clock of the place is put forward in summer; by standard time the rules see the very bands."""
    year = aurora()
    zone = weathers.timezone(weathers.timedelta(hours=-7))
    means = day_means(Weather(kind=year.kind, says="", start=year.start, zone=zone, series=year.series, estimated={}))

    assert np.allclose(means[::24][:60], ((a := days(element(year, Element.TEMPERATURE))).max(1) + a.min(1))[:60] / 2)


def test_a_winter_there_asks_for_more_than_a_summer():
    hours = season_hours(MASONRY, aurora(), family=Family.US)
    months = np.array([moment.astimezone(aurora().zone).month for moment in aurora().times])

    idle = {month: int((hours.verdicts[months == month] != May.YES).sum()) for month in (1, 6)}
    assert idle[1] > 700
    assert idle[6] < 40


# ---- rows of the codes add up


def hour_of(warmth, *, wind=2.0, family=Family.US, work=MASONRY):
    count = 24 * 200
    series = {
        Element.TEMPERATURE: np.full(count, warmth), Element.WIND: np.full(count, wind),
        Element.HUMIDITY: np.full(count, 0.4), Element.RAIN: np.zeros(count),
    }  # fmt: skip
    made = Weather(
        kind=WeatherKind.FORECAST, says="", start=datetime(2026, 3, 1, tzinfo=UTC), zone=UTC, series=series,
        estimated={each: np.zeros(count, dtype=bool) for each in series},
    )  # fmt: skip
    return season_hours(work, made, family=family)


@pytest.mark.parametrize(
    ("fahrenheit", "rules"),
    [
        (45, []), (36, ["masonry-40"]), (28, ["masonry-40", "masonry-32"]),
        (22, ["masonry-40", "masonry-32", "masonry-25"]), (20, ["masonry-40", "masonry-32", "masonry-25", "masonry-20"]),
        (10, ["masonry-40", "masonry-32", "masonry-25", "masonry-20"]),
    ],
)  # fmt: skip
def test_rows_of_the_american_table_add_up_downward(fahrenheit, rules):
    fired = [rule.name for rule in hour_of((fahrenheit - 32) * 5 / 9).fired(500)]

    assert [name for name in fired if name in ("masonry-40", "masonry-32", "masonry-25", "masonry-20")] == rules


def test_wind_asks_for_a_windbreak_only_in_the_deep_cold():
    assert "masonry-25-wind" in {rule.name for rule in hour_of(-5.0, wind=8.0).fired(500)}
    assert "masonry-25-wind" not in {rule.name for rule in hour_of(-5.0, wind=5.0).fired(500)}
    assert "masonry-25-wind" not in {rule.name for rule in hour_of(2.0, wind=8.0).fired(500)}


def test_the_european_family_stops_at_three_degrees_and_falling():
    hours = hour_of(2.5, family=Family.EU)
    falling = np.full(4800, 2.5) - np.arange(4800) * 1e-4
    made = Weather(
        kind=WeatherKind.FORECAST, says="", start=datetime(2026, 3, 1, tzinfo=UTC), zone=UTC,
        series={Element.TEMPERATURE: falling, Element.WIND: np.full(4800, 2.0), Element.HUMIDITY: np.full(4800, 0.4),
                Element.RAIN: np.zeros(4800)}, estimated={},
    )  # fmt: skip

    assert hours.verdicts[500] == May.MEASURES
    assert season_hours(MASONRY, made, family=Family.EU).verdicts[500] == May.NO


def test_every_rule_names_measures_or_says_no_and_every_figure_has_its_source():
    trades = {trade for rule in shelf("season_rules").values() for trade in rule.words["trades"]}
    for rule in shelf("season_rules").values():
        assert bool(rule.words.get("no")) != bool(rule.words.get("measures")), rule.name
        assert rule.figures, rule.name
        for figure in rule.figures.values():
            assert figure.source in publications(), rule.name
            assert figure.standing in (Standing.READ, Standing.MEMORY, Standing.PRACTICE)
        for name in rule.words.get("measures", []):
            assert kind("season_measures", name).word("says")
    assert trades == {"concrete", "grout", "masonry", "plaster", "lime", "foamed", "earth", "fence", "green"}


# ---- plans


@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
def test_every_mix_of_a_plan_falls_under_rules(sample):
    text = files("pinfold.store").joinpath("samples", sample, "plan.toml").read_text(encoding="utf-8")
    works = season_works(lay_out(planfile.plan_of(text)))

    assert works
    assert all(work.trades for work in works)
    assert len({work.says for work in works}) == len(works)
    for work in works:
        assert work.placing is None or (work.layer == "coat") == (work.placing.coat is not None)
    green = [work for work in works if "green" in work.trades]
    assert all(work.green_speed is not None and 2 < work.green_speed < 40 for work in green)


def test_wind_over_what_a_green_wall_stands_wants_braces_and_unknown_wind_is_not_shown():
    known = SeasonWork(layer="mortar", says="x", trades=("green",), green_speed=6.0)
    unknown = SeasonWork(layer="mortar", says="x", trades=("green",))

    assert hour_of(15.0, wind=7.0, work=known).verdicts[500] == May.MEASURES
    assert hour_of(15.0, wind=5.0, work=known).verdicts[500] == May.YES
    assert hour_of(15.0, wind=5.0, work=unknown).verdicts[500] == May.NOT_SHOWN


# ---- people


def test_the_hottest_hour_of_the_year_stops_hard_work_in_the_sun():
    heat = heat_hours(aurora())
    hottest = int(np.nanargmax(element(aurora(), Element.TEMPERATURE)))

    assert heat.work["heavy"][hottest] == 0
    assert heat.work_in_shade["heavy"][hottest] == 45 * 60
    assert heat.work_unused["light"][hottest] == 0
    assert heat.level(hottest).name == "high"
    assert heat.level(hottest, in_shade=True).name == "moderate"
    assert heat.drink[hottest] == pytest.approx(4 * 0.2366e-3)


def test_nothing_is_told_of_heat_without_humidity():
    year = aurora()
    dry = {each: hours for each, hours in year.series.items() if each is not Element.HUMIDITY}
    heat = heat_hours(Weather(kind=year.kind, says="", start=year.start, zone=UTC, series=dry, estimated={}))

    assert np.isnan(heat.shade_c).all()
    assert heat.level(0) is None


def test_levels_begin_where_they_are_printed():
    names = Counter(level_of((fahrenheit - 32) * 5 / 9 + 1e-9).name for fahrenheit in (70, 80, 90, 91, 102, 103, 115))

    assert names == Counter(lower=1, caution=2, moderate=2, high=1, extreme=1)
