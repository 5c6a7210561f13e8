"""When it is strong enough: targets of the table, what the log says was placed, hours known and not, doors."""

from __future__ import annotations

import itertools
import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from importlib.resources import files

import numpy as np
import pytest

import weathers
from pinfold.actions.answers import told
from pinfold.actions.binding import binder_of
from pinfold.actions.days_ripe import days_ripe
from pinfold.actions.days_season import days_season, season_sheet
from pinfold.actions.log_book import log_entry
from pinfold.actions.sites import open_site
from pinfold.cli import main
from pinfold.errors import InputError, NotFoundError
from pinfold.logbook.entries import Entry
from pinfold.sources import publications
from pinfold.store import planfile, starting
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.ripening.ages import ages_for, growth
from pinfold.studies.ripening.hours import ripe_hours
from pinfold.studies.ripening.placed import Placed, placed_of
from pinfold.studies.ripening.ripe import Warmth, ripening_of
from pinfold.studies.ripening.wanting import Placing, targets_of, wanted
from pinfold.studies.seasons.works import season_works
from pinfold.tables.shelf import kind, shelf

START = datetime(2026, 5, 3, 14, tzinfo=UTC)
FOOTING = Placing(layer="footing", mix=kind("mixes", "concrete-footing"), make="strip")
HOUR, DAY = 3600.0, 86400.0


def warmth(temperatures, *, start=START, estimated=0.0):
    hours = np.asarray(temperatures, dtype=float)
    return Warmth(start=start, zone=UTC, temperatures=hours, estimated=np.full(len(hours), estimated))


def ripening(temperatures, *, placing=FOOTING, when=START, now=START, **rest):
    placed = Placed(placing=placing, place="south/1a", face="", when=when, logged=True)
    return ripening_of(placed, warmth(temperatures, **rest), now=now, lessons=None)


def at(found, target):
    return next(each for each in found.ripe if each.target == target)


# ---- the table


def test_every_target_is_asked_of_some_layer_and_each_figure_has_its_source():
    for target in shelf("ripe_for").values():
        assert target.words["layers"]
        assert target.words["families"]
        assert target.figures or target.word("wait_own"), target.name
        for figure in target.figures.values():
            assert figure.source in publications(), target.name


@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
def test_whatever_a_plan_places_is_waited_for(sample):
    text = files("pinfold.store").joinpath("samples", sample, "plan.toml").read_text(encoding="utf-8")
    for work in season_works(lay_out(planfile.plan_of(text))):
        assert work.placing is None or targets_of(work.placing) or work.layer == "coping", work.says


def test_a_coat_waits_at_least_as_long_as_its_own_table_says():
    placing = Placing(layer="coat", mix=kind("mixes", "plaster-brown"), coat=kind("coats", "cement-brown"))
    found = ripe_hours(wanted("next-coat", placing, None), np.full(24 * 60, 35.0), np.array([0.0]))

    assert found.soonest[0] == found.latest[0] == 7 * 24
    assert ripe_hours(wanted("next-coat", placing, None), np.full(24 * 60, 8.0), np.array([0.0])).latest[0] > 12 * 24


def test_the_trade_s_48_hours_at_50_fahrenheit_to_stand_one_freeze_lie_between_likely_and_sure():
    found = ripe_hours(wanted("one-freeze", FOOTING, None), np.full(24 * 30, 10.0), np.array([0.0]))

    assert found.likely[0] < 48 < found.latest[0]


def test_forms_wait_for_twelve_warm_hours_together_not_in_a_row():
    air = np.tile([8.0] * 12 + [15.0] * 12, 20)
    found = ripe_hours(wanted("strip-forms", FOOTING, None), air, np.array([12.0, 0.0]))

    assert found.soonest[0] == pytest.approx(14.0, abs=5.0)
    assert found.soonest[1] == pytest.approx(24.0)


def test_high_pours_wait_longer_in_the_cold():
    mortar = Placing(layer="mortar", mix=kind("mixes", "mortar-S"), make="units", grouted=True)
    asked = wanted("grout-high", mortar, None)

    assert ripe_hours(asked, np.full(500, 10.0), np.array([0.0])).latest[0] == 72
    assert ripe_hours(asked, np.full(500, 3.0), np.array([0.0])).latest[0] == 120


def test_an_ungrouted_wall_is_not_grouted_and_dry_things_are_not_waited_for():
    plain = Placing(layer="mortar", mix=kind("mixes", "mortar-S"), make="units")
    earth = Placing(layer="coat", mix=kind("mixes", "earth-plaster"), coat=kind("coats", "earth-first"))

    assert "grout" not in {each.name for each in targets_of(plain)}
    assert {each.name for each in targets_of(earth)} == {"next-coat-earth"}


def test_a_weak_mix_that_never_gets_there_is_told_so():
    lean = Placing(layer="footing", mix=kind("mixes", "concrete-wall"), make="strip")
    found = at(ripening(np.full(24 * 400, 20.0), placing=lean), "many-freezes")

    assert found.never
    assert found.latest is None
    assert "never get there" in found.because


def test_ages_grow_with_what_is_wanted():
    grown = growth(FOOTING.mix, None)
    wants = [1e6, 3.5e6, 10e6, 20e6]

    for one, more in itertools.pairwise(wants):
        assert all(a <= b for a, b in zip(ages_for(grown, one), ages_for(grown, more), strict=True))
    assert ages_for(grown, 3.5e6).soonest <= ages_for(grown, 3.5e6).likely <= ages_for(grown, 3.5e6).latest


# ---- at one place


def test_it_is_as_strong_now_as_the_hours_made_it():
    found = ripening(np.full(24 * 60, 20.0), now=START + timedelta(days=28))

    assert found.age == pytest.approx(28 * DAY)
    assert found.strength == pytest.approx(growth(FOOTING.mix, None).whole, rel=0.02)
    assert found.strength_low < found.strength


def test_what_is_not_placed_yet_has_no_strength_and_comes_later():
    early = ripening(np.full(24 * 60, 20.0), now=START)
    late = ripening(np.full(24 * 60, 20.0), when=START + timedelta(days=3), now=START)

    assert early.strength is None
    assert late.age is None
    assert at(late, "lay-on").latest - at(early, "lay-on").latest == timedelta(days=3)


def test_hours_that_end_are_told_and_never_a_pass():
    found = ripening(np.full(10, 20.0))

    assert found.known_to == START + timedelta(hours=10)
    assert at(found, "lay-on").latest is None


def test_without_weather_nothing_is_shown():
    found = ripening(np.full(10, np.nan))

    assert found.known_to is None
    assert all(each.latest is None for each in found.ripe)


def test_hours_of_another_year_are_marked():
    estimated = np.zeros(24 * 60)
    estimated[48:] = 1.0
    placed = Placed(placing=FOOTING, place="", face="", when=START, logged=False)
    known = Warmth(start=START, zone=UTC, temperatures=np.full(24 * 60, 15.0), estimated=estimated)

    assert ripening_of(placed, known, now=START, lessons=None).foreseen_to == START + timedelta(days=2)
    assert ripening(np.full(48, 15.0), estimated=1.0).foreseen_to is None


def test_a_time_before_the_hours_is_not_shown():
    found = ripening(np.full(2000, 20.0), when=START - timedelta(hours=5))

    assert all(each.latest is None for each in found.ripe)


# ---- out of the log


def entry(kind_name, when, **values):
    return Entry(id=f"id-{when:%d%H}-{len(values)}", kind=kind_name, at=when.isoformat(), who="a", device="b",
                 values=values, typed={})  # fmt: skip


def placings_of(sample):
    text = files("pinfold.store").joinpath("samples", sample, "plan.toml").read_text(encoding="utf-8")
    plan = planfile.plan_of(text)
    return plan, [work.placing for work in season_works(lay_out(plan)) if work.placing is not None]


def test_the_last_batch_at_a_place_counts_and_others_are_apart():
    plan, placings = placings_of("seed-garden")
    days = [START + timedelta(days=number) for number in range(4)]
    found = placed_of(
        [entry("batch", days[0], mix="mortar-S", layer="mortar", place="south/1a"),
         entry("batch", days[1], mix="mortar-S", layer="mortar", place="south/1a"),
         entry("batch", days[2], mix="mortar-S", place="south/1b"),
         entry("coat", days[3], place="south/1a", layer="cement-scratch", face="outer"),
         entry("batch", days[3], mix="no-such-mix"), entry("hours", days[3], layer="mortar")],
        plan, placings, since=days[0],
    )  # fmt: skip

    assert [(each.placing.layer, each.place, each.face, each.when) for each in found] == [
        ("coat", "south/1a", "outer", days[3]), ("mortar", "south/1b", "", days[2]),
        ("mortar", "south/1a", "", days[1]),
    ]  # fmt: skip
    assert placed_of([entry("batch", days[0], mix="mortar-S")], plan, placings, since=days[1]) == ()


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "garden"
    starting.from_sample(folder, "seed-garden")
    return folder


NOW = datetime(2026, 5, 4, 12, tzinfo=UTC)


@pytest.fixture
def forecast(site):
    for old in (site / "weather").iterdir():
        old.unlink()
    (site / "weather" / "forecast.json").write_bytes(weathers.periods(hours=144))
    return site


def test_the_log_is_told_and_without_it_the_plan_as_if_now(forecast):
    before = days_ripe(forecast, "mortar", now=NOW).record
    log_entry(forecast, "batch", {"mix": "mortar-S", "layer": "mortar", "place": "south/1a"},
              at="2026-05-03T14:00+00:00", who="a")  # fmt: skip
    after = days_ripe(forecast, "mortar", now=NOW).record

    assert {each.logged for each in before.ripening} == {False}
    assert [(each.place, each.logged) for each in after.ripening] == [("south/1a", True)]
    assert after.ripening[0].age > 12 * HOUR
    assert after.asked == ""


def test_a_name_or_time_that_cannot_be_is_refused(forecast):
    with pytest.raises(NotFoundError, match="mortar"):
        days_ripe(forecast, "tower", now=NOW)
    with pytest.raises(InputError, match="too far off"):
        days_ripe(forecast, "", "2031-01-01", now=NOW)
    with pytest.raises(InputError, match="no day or time"):
        days_ripe(forecast, "", "soon", now=NOW)


def test_at_80_columns_and_as_json(forecast):
    answer = days_ripe(forecast, "footing", "2026-05-04T08:00", now=NOW)
    text = told(answer, as_json=False)

    assert max(map(len, text.splitlines())) <= 80
    assert "strip the forms" in text
    found = json.loads(told(answer, as_json=True))["ripening"][0]
    assert found["layer"] == "footing"
    assert {each["target"] for each in found["ripe"]} >= {"strip-forms", "lay-on", "one-freeze"}


def test_the_season_is_told_day_by_day_and_only_where_weather_is_known(forecast):
    answer = days_season(forecast, now=NOW)
    text = told(answer, as_json=False)
    json.loads(told(answer, as_json=True))

    assert max(map(len, text.splitlines())) <= 80
    assert answer.record.days[0].day.isoformat() == "2026-05-04"
    assert 5 <= len(answer.record.days) <= 8
    assert {work.layer for work in answer.record.days[0].works} >= {"footing", "mortar", "coat", "mesh"}
    spells = [spell for day in answer.record.days for work in day.works for spell in work.spells]
    assert all(spell.start < spell.end for spell in spells)
    assert any(spell.may == "NOT SHOWN" and spell.unseen for spell in spells)  # the forecast ends


def test_without_weather_the_season_says_so(site):
    for old in (site / "weather").iterdir():
        old.unlink()
    answer = days_season(site, now=NOW)

    assert answer.record.days == ()
    assert any("NOT SHOWN" in text for text in answer.record.told)


def test_a_day_that_cannot_be_is_refused(forecast):
    with pytest.raises(InputError, match="no day"):
        days_season(forecast, "soon", now=NOW)
    with pytest.raises(InputError, match="more than a year"):
        days_season(forecast, "2036-01-01", now=NOW)


def test_both_are_verbs(forecast, capsys):
    for words in (["days", "ripe", "collars"], ["days", "season"], ["days", "ripe", "mortar", "--json"]):
        assert main([*words, "--site", str(forecast)]) == 0
    assert main(["days", "ripe", "tower", "--site", str(forecast)]) == 2
    assert "nothing is placed by the name" in capsys.readouterr().err


def test_the_binder_has_the_rules_with_their_sources(site):
    opened = open_site(site)
    binder = binder_of(opened, printed_on="2026-05-03")
    part = next(part for part in binder.parts if part.title == "The season's rules")

    assert part.blocks == season_sheet(opened)
    assert any("ACI-306 (read)" in cell for row in part.blocks[1].rows for cell in row)
    assert part.cautions


def test_a_family_has_its_own_rules(site):
    plan = open_site(site)
    other = replace(plan, plan=replace(plan.plan, family=type(plan.plan.family)("eu")))

    assert season_sheet(plan)[1].rows != season_sheet(other)[1].rows
