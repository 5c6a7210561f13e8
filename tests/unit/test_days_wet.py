"""Keeping faces damp on a site: what is asked, told, drawn and refused."""

from __future__ import annotations

import json
import shutil
from datetime import UTC, datetime

import pytest
from click.testing import CliRunner

from pinfold.actions.answers import told
from pinfold.actions.days_site import days_site
from pinfold.actions.days_wet import (
    WetAsked,
    asked_in_words,
    days_wet,
    wet_as_html,
    wet_choices,
    wet_sheets,
    worst_of,
)
from pinfold.actions.taking import take_entries
from pinfold.cli.commands import pinfold
from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.reports.wet_chart import wet_chart, wet_sheet
from pinfold.store.planfile import NAME
from pinfold.store.starting import from_sample
from pinfold.studies.drying.lesson import Seen, lesson_of
from pinfold.units import System
from weathers import columns

MORNING = datetime(2026, 5, 3, 13, tzinfo=UTC)
HOURS = 120


@pytest.fixture
def site(tmp_path):
    """The sample with one dry, windy forecast of five days."""
    folder = tmp_path / "garden"
    from_sample(folder, "seed-garden")
    shutil.rmtree(folder / "weather", ignore_errors=True)
    put(folder, relative_humidity_2m=[15] * HOURS, dew_point_2m=[None] * HOURS, wind_speed_10m=[35.0] * HOURS)
    return folder


def put(folder, **changed):
    (folder / "weather").mkdir(exist_ok=True)
    (folder / "weather" / "forecast.json").write_bytes(columns(hours=HOURS, **changed))


def asked(folder, **typed):
    return days_wet(folder, WetAsked(**typed), now=MORNING)


def test_rounds_by_the_hour_are_told_with_their_water(site):
    found = asked(site).record

    assert found.day == "2026-05-03"
    assert len(found.faces) > 10
    face = found.faces[0]
    assert face.rounds
    assert face.water == pytest.approx(sum(hour.water for hour in face.rounds))
    assert 0 < face.water <= face.water_in_all
    assert all(6 <= hour.at.hour <= 20 for hour in face.rounds)
    assert len(face.hours) == 24


def test_one_face_is_told_hour_by_hour_and_others_of_its_side_together(site):
    one = asked(site, face="south/1a outer")
    side = asked(site, face="south")

    assert [face.name for face in one.record.faces] == ["south/1a outer"]
    assert "south/1a outer, hour by hour" in told(one, as_json=False)
    assert len(side.record.faces) > 3
    assert "hour by hour" not in told(side, as_json=False)


def test_a_face_is_the_same_alone_and_among_all(site):
    alone, among = (asked(site, face=name).record.faces[0] for name in ("south/1a outer", ""))

    assert alone == among


def test_dry_wind_is_told_as_a_danger_with_spread_and_limits(site):
    text = told(asked(site), as_json=False)

    assert "A fresh coat dries too fast" in text
    assert "40% either way" in text
    assert "0.48 of the wind at 10 m (read; --wind-share takes your own)" in text.replace("\n", " ")
    assert max(len(line) for line in text.splitlines()) <= 80


def test_less_wind_at_the_face_and_a_sheet_leave_more_water_on_it(site):
    usual, calm, sheet = (
        asked(site, face="south/1a outer", **more).record.faces[0]
        for more in ({}, {"wind_share": "0.1"}, {"cover": "sheet"})
    )

    assert calm.fastest.fresh_evaporation < usual.fastest.fresh_evaporation
    assert sheet.water < 0.5 * usual.water
    assert sheet.damp >= usual.damp


def test_what_each_cover_does_is_told_side_by_side(site):
    effects = {each.cover.name: each for each in asked(site).record.effects}

    assert list(effects) == ["none", "shade-cloth", "sheet", "wet-cloth"]
    assert effects["sheet"].water < effects["shade-cloth"].water < effects["none"].water


@pytest.mark.parametrize("silent", ["relative_humidity_2m", "wind_speed_10m"])
def test_without_humidity_or_wind_it_is_not_shown_and_says_why(site, silent):
    dew = {"dew_point_2m": [None] * HOURS} if silent == "relative_humidity_2m" else {}
    put(site, **{silent: [None] * HOURS}, **dew)
    answer = asked(site)
    text = told(answer, as_json=False).replace("\n", " ")

    assert answer.record.faces == ()
    assert "NOT SHOWN" in text
    assert ("humidity" if "humidity" in silent else "wind") in text


def test_without_any_weather_it_is_not_shown(site):
    (site / "weather" / "forecast.json").unlink()

    assert "NOT SHOWN" in told(asked(site), as_json=False)


def test_without_a_place_on_earth_it_is_not_shown(site):
    lines = (site / NAME).read_text(encoding="utf-8").splitlines()
    kept = [line for line in lines if not line.startswith(("latitude", "longitude"))]
    (site / NAME).write_text("\n".join(kept), encoding="utf-8")
    raw = json.loads((site / "weather" / "forecast.json").read_text())
    del raw["latitude"], raw["longitude"]
    (site / "weather" / "forecast.json").write_text(json.dumps(raw))

    assert "NOT SHOWN" in told(asked(site), as_json=False)


def test_what_cannot_be_asked_is_told_all_at_once(site):
    with pytest.raises(InvalidPlan) as refused:
        asked(site, day="2026-02-30", wind_share="-1", cover="tent")

    assert [problem.place for problem in refused.value.problems] == ["day", "wind_share", "cover"]
    with pytest.raises(NotFoundError, match="south/1a outer"):
        asked(site, face="nowhere")


def test_words_of_a_command_line_are_a_face_and_a_day_in_any_order():
    assert asked_in_words(("south/1a", "outer", "2026-06-21")) == WetAsked(face="south/1a outer", day="2026-06-21")
    assert asked_in_words(("tomorrow",), cover="sheet") == WetAsked(day="tomorrow", cover="sheet")


def test_json_is_in_si_with_units_in_its_keys(site):
    record = json.loads(told(asked(site, face="south/1a outer"), as_json=True))

    hour = record["faces"][0]["hours"][12]
    assert {"dry_face_c", "evaporation_kg_m2_s", "lasts_s", "water_m3", "at"} <= set(hour)
    assert record["wind_share"]["standing"] == "read"


def test_the_verb_answers_at_a_terminal(site):
    done = CliRunner().invoke(
        pinfold, ["days", "wet", "south", "2026-05-04", "--site", str(site), "--wind-share", "0.4"]
    )

    assert done.exit_code == 0, done.output
    assert "Keeping faces damp on 2026-05-04" in done.output
    assert "0.40 of the wind at 10 m (given" in done.output


@pytest.mark.parametrize("system", list(System))
def test_the_picture_draws_every_line_and_a_drop_for_each_round(site, system):
    face = worst_of(asked(site).record)
    svg = wet_chart(face, system)
    sheet, high = wet_sheet(face, system, wide_mm=170.0)

    for sort in ("dry", "wet", "air", "level", "spread"):
        assert f'class="{sort}"' in svg, sort
    assert svg.count('class="drop"') == len(face.rounds)
    assert sheet.startswith("<svg")
    assert high == pytest.approx(170 * 2 * 236 / 640)


def test_page_and_binder_have_the_same_answer(site):
    shown = wet_as_html(site, WetAsked(day="2026-05-04"))
    blocks, sheets = wet_sheets(days_site(site, now=MORNING), wide_mm=170.0)
    choices = wet_choices(site)

    assert shown.about in choices.faces
    assert "Rounds with water" in shown.body
    assert blocks
    assert len(sheets) == 1
    assert ("sheet", "white plastic sheet, tied down at all edges") in choices.covers


def test_the_binder_says_so_without_weather(site):
    (site / "weather" / "forecast.json").unlink()

    (said,), sheets = wet_sheets(days_site(site, now=MORNING), wide_mm=170.0)

    assert "NOT SHOWN" in said.text
    assert sheets == ()


# --- what wettings that were seen to dry teach ---------------------------------------------------------------


def seen(ratio, times=1):
    return [Seen(lasted=3600.0 * ratio, reckoned=3600.0, day="2026-05-03")] * times


def test_before_anything_was_seen_it_is_as_reckoned_with_the_published_spread():
    lesson = lesson_of(())

    assert (lesson.longer, lesson.spread, lesson.count) == (1.0, 0.4, 0)


def test_wettings_move_it_their_way_and_narrow_it():
    one, many = lesson_of(seen(0.6)), lesson_of(seen(0.6, 8))

    assert 0.6 < many.longer < one.longer < 1.0
    assert many.spread < one.spread < 0.4
    assert many.longer == pytest.approx(0.6, rel=0.15)


def test_a_wetting_seen_as_reckoned_moves_nothing():
    assert lesson_of(seen(1.0, 3)).longer == pytest.approx(1.0)


def wet_entry(folder, at, lasted, place="south/1a", face="outer"):
    take_entries(folder, [{
        "id": f"wetting-{at.replace(':', '-')}", "kind": "wetting", "at": at, "who": "me", "device": "desk",
        "fields": {"place": place, "face": face, "lasted": lasted},
    }])  # fmt: skip


def test_a_wetting_in_the_log_that_dried_sooner_shortens_all_after_it(site):
    before = asked(site, day="2026-05-04", face="south/1a outer").record
    wet_entry(site, "2026-05-03T06:30:00-06:00", "30 min")
    after = asked(site, day="2026-05-04", face="south/1a outer")
    text = told(after, as_json=False)

    assert after.record.lesson.count == 1
    assert after.record.lesson.longer < 1
    assert after.record.faces[0].hours[12].lasts < before.faces[0].hours[12].lasts
    assert after.record.spread < before.spread
    assert "thought before" in text
    assert "believed now" in text


def test_a_wetting_without_weather_of_its_hour_or_on_no_face_is_set_aside(site):
    wet_entry(site, "2026-04-01T12:00:00-06:00", "30 min")
    wet_entry(site, "2026-05-03T06:00:00-06:00", "30 min", place="nowhere")
    lesson = asked(site).record.lesson

    assert lesson.count == 0
    assert len(lesson.set_aside) == 2


def test_what_a_log_teaches_of_mixes_leaves_the_rounds_as_they_are(site):
    before = asked(site).record
    weighed = {"item": "building-sand", "measure": "bucket", "mass": "18 kg"}
    take_entries(site, [{"id": "weighed-1", "kind": "bucket", "at": "2026-05-03T08:00-06:00", "who": "Ana", "device": "phone",
                         "fields": weighed}])  # fmt: skip

    assert asked(site).record.faces is before.faces
