"""Days as a plasterer would have them: first light in heat, no coat before hard frost, covers by daylight."""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from pinfold.actions.days_job import days_now
from pinfold.actions.days_laid import JobAsked, laid_out
from pinfold.actions.days_season import days_season
from pinfold.actions.days_sheet import sheet_told
from pinfold.actions.days_site import days_site
from pinfold.actions.days_wet import WetAsked, days_wet
from pinfold.actions.taking import take_entries
from pinfold.logbook.works import Work
from pinfold.reports.pages import Table
from pinfold.store.planfile import NAME
from pinfold.store.starting import from_sample
from pinfold.studies.seasons.records import May
from pinfold.studies.weather.records import Element

DENVER = ZoneInfo("America/Denver")
STRETCHES = ("south/1a", "south/1b", "east/1a", "east/1b", "slant/1", "north/1", "north/3")
SUMMER, AUTUMN = date(2026, 7, 6), date(2026, 10, 5)


def site(folder, first, *days, more=""):
    """The larger sample with a low and a high for each day, in °F."""
    from_sample(folder, "seed-garden", today=first)
    for file in (folder / "weather").iterdir():
        file.unlink()
    lines = [f"{first + timedelta(days=number)} {low} {high} F" for number, (low, high) in enumerate(days)]
    (folder / "weather" / "typed.txt").write_text("\n".join(lines) + "\n", encoding="utf-8")
    with (folder / NAME).open("a", encoding="utf-8") as plan:
        plan.write(more)
    return folder


def log(folder, day, kind, **fields):
    name = "-".join(fields.values()).translate({ord(mark): "-" for mark in "/ ."})
    told = {"id": f"made-{kind}-{name}", "kind": kind, "at": f"{day}T15:00-06:00", "who": "Ana",
            "device": "phone", "fields": fields}  # fmt: skip
    assert take_entries(folder, [told])[0].state == "new"


def coats_begun(folder, day):
    """Everything before the coats is done then."""
    for place in STRETCHES:
        for face in ("outer", "inner"):
            log(folder, day, "coat", place=place, face=face, area="0.05 m2")
    return folder


def laid(folder, first, asked=None):
    return laid_out(folder, asked or JobAsked(), now=datetime(first.year, first.month, first.day, 4, tzinfo=DENVER))


def begins(found):
    """Hour of the day at which the first work of each day begins."""
    starts = {}
    for placed in found.schedule.placed:
        local = placed.start.astimezone(DENVER)
        starts.setdefault(local.date(), local.hour + local.minute / 60)
    return starts


def test_work_begins_at_first_light_where_the_day_grows_hot_and_at_seven_where_not(tmp_path):
    hot, mild = (site(tmp_path / name, SUMMER, *[days] * 8) for name, days in (("hot", (62, 101)), ("mild", (40, 62))))
    found = laid(hot, SUMMER)

    assert set(list(begins(found).values())[:5]) == {5.0}
    assert "from first light, before the heat" in found.teller.explain(found.schedule.placed[0]).why
    assert set(list(begins(laid(mild, SUMMER)).values())[:5]) == {7.0}


def test_a_beginning_that_the_plan_says_is_kept_in_heat(tmp_path):
    said = site(tmp_path / "said", SUMMER, *[(62, 101)] * 8, more='\n[people]\nstart = "8:00"\n')

    assert min(begins(laid(said, SUMMER)).values()) == 8.0


def test_nothing_is_plastered_before_hard_frost_and_all_that_is_fresh_is_covered_by_daylight(tmp_path):
    days = [(44, 70), (44, 70), (44, 70), (30, 60), (12, 40), (40, 66), (44, 70), (44, 70)]
    folder = coats_begun(site(tmp_path / "frost", AUTUMN, *days), AUTUMN - timedelta(days=1))
    found = laid(folder, AUTUMN)
    coats = [placed for placed in found.schedule.placed if placed.piece.task.work is Work.COAT and placed.foreseen]
    air = found.asked.outlook.weather

    assert coats
    for placed in coats:
        hour = found.asked.outlook.hour(placed.start.timestamp())
        assert air.of(Element.TEMPERATURE)[hour : hour + 48].min() > -2.3
    covers = [cover for number in range(4) for cover in sheet_told(found, AUTUMN + timedelta(days=number)).covers]
    assert covers
    assert all(cover.by.hour <= 17 for cover in covers)


def test_nothing_is_wetted_in_the_half_day_before_frost(tmp_path):
    days = [(44, 70), (44, 70), (33, 70), (40, 66), (44, 70), (44, 70)]
    folder = coats_begun(site(tmp_path / "frost", AUTUMN, *days), AUTUMN - timedelta(days=1))
    found = laid(folder, AUTUMN)
    air, looked = found.asked.outlook.weather.of(Element.TEMPERATURE), 0
    for number in range(5):
        for round_ in sheet_told(found, AUTUMN + timedelta(days=number)).wet:
            for at in round_.times:
                hour = found.asked.outlook.hour(at.timestamp())
                looked += 1
                assert air[hour : hour + 12].min() >= 2.0
                assert at.minute == 0

    assert looked > 5


def test_what_was_placed_yesterday_in_the_cold_is_waited_for_until_it_is_ripe(tmp_path):
    waits = []
    for name, days in (("cold", (34, 38)), ("warm", (60, 75))):
        folder = site(tmp_path / name, AUTUMN - timedelta(days=3), *[days] * 12)
        asked = laid(folder, AUTUMN).asked
        job = laid(folder, AUTUMN).job
        link = next(link for link in job.task("level south/1b").after if link.target)
        waits.append(asked.ripening(link, datetime(2026, 10, 4, 15, tzinfo=DENVER).timestamp()))

    assert waits[0] > waits[1]


def test_days_asked_for_far_ahead_go_by_the_sun_and_heat_of_those_days(tmp_path):
    days = [(50, 84)] * 60
    folder = coats_begun(site(tmp_path / "ahead", SUMMER - timedelta(days=50), *days), SUMMER - timedelta(days=51))
    found = laid(folder, SUMMER - timedelta(days=50), JobAsked(first=SUMMER.isoformat()))
    first = next(placed for placed in found.schedule.placed if placed.piece.task.work is Work.COAT)
    sheet = sheet_told(found, first.start.astimezone(DENVER).date())

    assert any("face" in why and "°F" in why for why in found.teller.explain(first).why)
    assert all(each.water is not None for each in sheet.wet)


def warmest(why):
    """The last temperature that is told, in °F."""
    return int(re.findall(r"(\d+) °F", why)[-1])


def test_cold_sun_is_welcome_on_a_coat(tmp_path):
    folder = coats_begun(site(tmp_path / "cool", AUTUMN, *[(42, 56)] * 8), AUTUMN - timedelta(days=1))
    found = laid(folder, AUTUMN)
    told = [why for placed in found.schedule.placed if placed.foreseen for why in found.teller.explain(placed).why]

    cold = [why for why in told if "in the sun" in why and "shade it" not in why]
    assert cold
    assert all(warmest(why) < 77 for why in cold)
    assert all(warmest(why) >= 77 for why in told if "shade it" in why)


def test_a_low_that_is_typed_is_reached_by_some_hour(tmp_path):
    folder = site(tmp_path / "low", AUTUMN, (40, 70), (31, 72), (22, 60), (40, 70))
    hours = days_site(folder, now=datetime(2026, 10, 5, 4, tzinfo=DENVER)).hours
    air = hours.of(Element.TEMPERATURE)[:96].reshape(4, 24)[1:3, :12].min(axis=1)

    assert air == pytest.approx([(31 - 32) / 1.8, (22 - 32) / 1.8], abs=0.5)


def test_hard_frost_within_two_days_forbids_plaster(tmp_path):
    folder = site(tmp_path / "hard", AUTUMN, (44, 70), (44, 70), (18, 50), (44, 70), (44, 70))
    season = next(
        each for (_, mix, coat), each in laid(folder, AUTUMN).asked.outlook.seasons.items() if mix == "plaster-scratch"
    )
    no = season.fires["plaster-frost"]

    assert no.sum() >= 48
    assert (season.verdicts[no] == May.NO).all()


def test_the_season_is_told_in_full_for_today_and_in_a_row_for_each_day_after(tmp_path):
    folder = site(tmp_path / "short", AUTUMN, (44, 70), (44, 70), (18, 50), (44, 70))
    now = datetime(2026, 10, 5, 6, tzinfo=DENVER)
    tables = [block for block in days_season(folder, now=now).page.blocks if isinstance(block, Table)]
    brief = next(table for table in tables if table.heads[0] == "day")
    today = next(block for block in days_now(folder, now=now).page.blocks if isinstance(block, Table))

    assert [row[0] for row in brief.rows] == ["Tue 6 Oct", "Wed 7 Oct", "Thu 8 Oct"]
    assert "coat: no" in brief.rows[0][2]
    assert [row[0] for row in today.rows] == ["Mon 5 Oct", "Tue 6 Oct"]
    assert len([table for table in tables if table.heads[0] == "work"]) == 1


def test_the_wet_day_makes_no_round_before_frost_and_says_so(tmp_path):
    folder = site(tmp_path / "wet", AUTUMN, (44, 70), (30, 70), (44, 70), (44, 70), (44, 70))
    now = datetime(2026, 10, 5, 6, tzinfo=DENVER)
    found = days_wet(folder, WetAsked(), now=now).record

    assert found.frost is not None
    assert found.frost.date() == date(2026, 10, 6)
    for face in found.faces:
        assert all(round_.at <= found.frost - timedelta(hours=12) for round_ in face.rounds)
