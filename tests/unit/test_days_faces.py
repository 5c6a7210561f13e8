"""The day of sun and shade as an answer: words, tables, picture, JSON, days that are none, places that are not known."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from pinfold.actions.answers import told
from pinfold.actions.days_faces import days_faces, faces_as_html
from pinfold.errors import InputError
from pinfold.reports.faces_chart import faces_chart, faces_sheet
from pinfold.store import starting

NOW = datetime(2026, 6, 21, 9, 30, tzinfo=UTC)


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("faces") / "quinta"
    starting.from_sample(folder, "quinta")
    return folder


def moved(site, tmp_path, **place):
    """The same site elsewhere, without weather."""
    text = (site / "plan.toml").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line.partition(" ")[0] not in ("latitude", "longitude", "time_zone")]
    at = lines.index("[place]") + 1
    lines[at:at] = [f'{key} = "{value}"' for key, value in place.items()]
    folder = tmp_path / "moved"
    folder.mkdir()
    (folder / "plan.toml").write_text("\n".join(lines), encoding="utf-8")
    return folder


def test_it_says_what_is_first_and_last_and_fits_the_terminal(site):
    text = told(days_faces(site, "2026-06-21", now=NOW), as_json=False)

    assert "The sun rises at 06:10, stands highest at 13:33 and sets at 20:56" in text
    assert "First in the sun, at 06:10: lane/1a outer" in text
    assert "First out of it for the day" in text
    assert max(len(line) for line in text.splitlines()) <= 80


def test_today_and_tomorrow_are_those_of_the_place(site):
    late = datetime(2026, 6, 21, 23, 30, tzinfo=UTC)  # past midnight by the clock there

    days = [days_faces(site, word, now=late).record.day for word in ("", "today", "tomorrow")]

    assert days == [date(2026, 6, 22), date(2026, 6, 22), date(2026, 6, 23)]


def test_json_has_every_part_of_the_light_and_it_adds_up(site):
    record = json.loads(told(days_faces(site, "2026-06-21", now=NOW), as_json=True))
    face = record["faces"][0]

    assert len(record["hours"]) == len(record["estimated"]) == len(face["lit"]) == 24
    assert face["name"] == "valley/1a outer"
    assert face["facing_rad"] == pytest.approx(3.4907, abs=1e-3)
    assert face["absorptance"]["standing"] == "practice"
    parts = zip(*(face[f"{part}_w_m2"] for part in ("light", "beam", "sky", "ground")), strict=True)
    for whole, *some in parts:
        assert whole == pytest.approx(sum(some))
    assert face["in_sun_s"] == pytest.approx(8 * 3600, abs=1800)


def test_the_day_of_the_turned_clock_has_23_and_25_hours(site):
    spring, autumn = (days_faces(site, day, now=NOW).record for day in ("2026-03-29", "2026-10-25"))

    assert (len(spring.hours), len(autumn.hours)) == (23, 25)
    assert [hour.hour for hour in spring.hours[:3]] == [0, 2, 3]
    assert spring.sun.rise.utcoffset() == timedelta(hours=1)


def test_no_day_is_told_with_what_is_wanted(site):
    with pytest.raises(InputError, match="write it like 2026-06-21"):
        days_faces(site, "midsummer", now=NOW)


def test_without_coordinates_the_faces_are_told_and_the_sun_is_not_shown(site, tmp_path):
    answer = days_faces(moved(site, tmp_path, time_zone="Europe/Lisbon"), now=NOW)
    text = told(answer, as_json=False)

    assert "Sun and shade are NOT SHOWN" in text
    assert "valley/1a outer" in text
    assert json.loads(told(answer, as_json=True))["faces"][0]["area_m2"] > 1
    assert faces_as_html(tmp_path / "moved", now=NOW)[2] == ""


def test_in_the_polar_day_and_night_it_says_so(site, tmp_path):
    north = moved(site, tmp_path, latitude="69.65 deg", longitude="18.96 deg", time_zone="Europe/Oslo")
    summer, winter = (told(days_faces(north, day, now=NOW), as_json=False) for day in ("2026-06-21", "2026-12-21"))

    assert "The sun does not set on this day" in summer
    assert "24:00" in summer
    assert "The sun does not rise on this day." in winter
    assert "light by hours" not in winter


def test_by_a_clock_of_half_hours_the_hours_are_its_own(site, tmp_path):
    there = moved(site, tmp_path, latitude="12.97 deg", longitude="77.59 deg", time_zone="Asia/Kolkata")

    record = days_faces(there, "2026-03-21", now=NOW).record

    assert (record.hours[0].hour, record.hours[0].minute) == (0, 0)
    assert record.hours[0].utcoffset() == timedelta(hours=5, minutes=30)
    assert record.sun.noon.hour == 12
    assert "a clear sky, for want of weather" in " ".join(
        told(days_faces(there, "2026-03-21", now=NOW), as_json=False).split()
    )


def test_the_picture_has_a_row_for_each_face_and_marks_now_on_its_day_alone(site):
    record = days_faces(site, "2026-06-21", now=NOW).record

    drawn, other = faces_chart(record, NOW), faces_chart(record, NOW + timedelta(days=1))
    assert 'class="now"' in drawn
    assert 'class="now"' not in other
    assert all(f">{face.name}</text>" in drawn for face in record.faces)
    svg, high = faces_sheet(record, wide_mm=170.0)
    assert svg.startswith("<svg")
    assert 'width="170mm"' in svg
    assert 150 < high < 250
    assert "<script" not in faces_chart(
        replace(record, faces=(replace(record.faces[0], name="<script>"), *record.faces[1:]))
    )
