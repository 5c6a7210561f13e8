"""What a phone keeps of the coming days: today's work in short, when to wet and cover, laid out while nobody waits."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime, timedelta

import pytest

from pinfold.actions.days_phone import KEPT, phone_days
from pinfold.actions.phone import phone_record
from pinfold.actions.sites import open_site
from pinfold.actions.taking import take_entries
from pinfold.reports.record import as_json
from pinfold.store.planfile import NAME
from pinfold.store.starting import from_sample

DAWN = datetime(2026, 5, 4, 4, tzinfo=UTC)
LONG = 120.0


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("phone") / "quinta"
    from_sample(folder, "quinta", today=date(2026, 5, 4))
    return folder


def laid(folder, now=DAWN):
    return phone_days(open_site(folder), now=now, patience=LONG)


def test_the_first_asked_are_told_that_the_days_are_being_laid_out(tmp_path):
    from_sample(tmp_path / "quinta", "quinta", today=date(2026, 5, 4))
    assert phone_days(open_site(tmp_path / "quinta"), now=DAWN, patience=0.0).pending
    assert not laid(tmp_path / "quinta").pending


def test_today_and_the_next_days_are_kept_with_their_work(site):
    found = laid(site)
    days = [sheet.day for sheet in found.sheets]
    assert days == [str(date(2026, 5, 4) + timedelta(days=ahead)) for ahead in range(KEPT)]
    assert found.sheets[0].work
    assert all("–" in work.when for sheet in found.sheets for work in sheet.work)
    assert any("invented-forecast.json" in line for line in found.told)


def test_a_forecast_long_past_is_told_and_the_normals_lay_the_days(site):
    found = laid(site, now=DAWN + timedelta(days=40))
    assert found.sheets
    assert any("over and not used" in line for line in found.told)


def test_what_was_laid_is_wetted_and_covered_as_the_days_ask(site):
    entry = {
        "id": "coat-0000001", "kind": "coat", "at": "2026-05-04T06:30+01:00", "who": "Ana", "device": "phone",
        "fields": {"place": "bend/1", "face": "outer", "area": "6 m2", "mix": "lime-plaster"},
    }  # fmt: skip
    assert take_entries(site, [entry])[0].state == "new"
    found = laid(site, now=DAWN + timedelta(hours=3))
    assert found.sheets
    assert not found.pending


def test_without_weather_the_days_say_what_is_missing(tmp_path):
    from_sample(tmp_path / "quinta", "quinta")
    for path in (tmp_path / "quinta" / "weather").iterdir():
        path.unlink()
    assert any("No weather is known" in line for line in laid(tmp_path / "quinta").told)


def test_a_weather_folder_that_is_none_stops_no_phone(tmp_path):
    from_sample(tmp_path / "quinta", "quinta")
    for path in (tmp_path / "quinta" / "weather").iterdir():
        path.write_bytes(b"\0")
    assert phone_record(tmp_path / "quinta", now=DAWN).cards
    assert laid(tmp_path / "quinta").told


def test_a_plan_with_complaints_has_no_days(tmp_path):
    from_sample(tmp_path / "quinta", "quinta")
    (tmp_path / "quinta" / NAME).write_text("format = 1\n", encoding="utf-8")
    record = phone_record(tmp_path / "quinta", now=DAWN)
    assert record.days.sheets == ()
    assert not record.days.pending


def test_the_mark_of_the_days_changes_with_them_alone(site):
    laid(site)
    first, again = (phone_record(site, now=DAWN) for _ in range(2))
    assert first.days_mark == again.days_mark
    laid(site, now=DAWN + timedelta(days=1))
    later = phone_record(site, now=DAWN + timedelta(days=1))
    assert later.days_mark != first.days_mark
    assert later.mark == first.mark


def test_four_days_weigh_little(site):
    assert len(json.dumps(as_json(laid(site)))) < 12_000
