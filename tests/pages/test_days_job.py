"""The job in days in a browser: from today's line to the job, its picture, a day's sheet and the calendar."""

from __future__ import annotations

from datetime import date

import icalendar
import pytest
from pypdf import PdfReader

from looks import READERS, fits, open_to_all
from pinfold.store import starting


@pytest.fixture(scope="module")
def served(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("job") / "seed-garden"
    starting.from_sample(folder, "seed-garden", today=date.today())  # noqa: DTZ011 - the server asks the clock too
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_from_the_first_page_to_the_sheet_of_today_and_the_calendar(tab):
    tab.goto("/")
    tab.locator("#days-line span").filter(has_text=":").wait_for(timeout=30_000)
    tab.get_by_role("link", name="Today's work").click()
    tab.get_by_role("link", name="The whole job in days").click()
    tab.locator("svg.strokes").wait_for(timeout=30_000)
    assert tab.locator("svg.strokes .firm").count() > 0
    assert tab.locator("main").get_by_text("90 of 100 times by").is_visible()
    assert tab.locator("svg.strokes .later").count() > 20

    with tab.expect_download() as taken:
        tab.get_by_role("link", name="For a calendar").click()
    read = icalendar.Calendar.from_ical(taken.value.path().read_bytes())
    assert len(list(read.walk("VEVENT"))) > 100

    tab.get_by_role("link", name="Today on a sheet").click()
    tab.get_by_role("link", name="the day after").click()
    tab.get_by_role("link", name="the day before").wait_for()


def test_more_people_are_asked_for_and_what_is_wrong_is_told(tab):
    tab.goto("/days/job")
    tab.get_by_label("people").fill("4")
    tab.get_by_role("button", name="Lay it out").click()
    tab.get_by_text("4 people, 7 h a day").wait_for(timeout=30_000)

    tab.watch.expected.append("400")
    tab.goto("/days/job?hours=40")
    assert "16 hours a day" in tab.get_by_role("alert").text_content()


@READERS
def test_it_reads_on_a_phone_without_script_and_in_the_dark(new_tab, settings):
    tab = new_tab(**settings)
    for path in ("/days", "/days/job", "/days/sheet/tomorrow"):
        tab.goto(path)
        assert tab.locator("main h1").is_visible()
        if settings.get("java_script_enabled", True):
            fits(tab)
            open_to_all(tab)


def test_the_sheet_of_a_day_prints_on_one_page(tab, tmp_path):
    for day in ("today", "tomorrow"):
        tab.goto(f"/days/sheet/{day}")
        tab.locator(".daysheet").wait_for(timeout=30_000)
        tab.pdf(
            path=tmp_path / "day.pdf", format="Letter", margin=dict.fromkeys(("top", "bottom", "left", "right"), "12mm")
        )
        assert len(PdfReader(tmp_path / "day.pdf").pages) == 1
