"""Sun and shade on the faces, in a real browser: the picture, the day before and after, a wrong day, dark, a phone."""

from __future__ import annotations

import pytest

from looks import fits, open_to_all, words_apart
from pinfold.store import starting


@pytest.fixture(scope="module")
def served(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("faces") / "quinta"
    starting.from_sample(folder, "quinta")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_a_day_is_shown_and_the_days_beside_it(tab, served):
    tab.goto(f"{served}/days/faces?date=2026-06-21")

    assert tab.locator("h1").inner_text() == "Sun and shade on the faces, Sunday 2026-06-21"
    assert tab.locator("svg.hours").count() == 1
    assert tab.locator("svg.hours .sun").count() > 200
    assert "First in the sun, at 06:10: lane/1a outer" in tab.locator("main").inner_text()
    open_to_all(tab)
    tab.get_by_role("link", name="day after").click()
    tab.locator("h1", has_text="Monday 2026-06-22").wait_for()
    tab.locator("#date").fill("2026-12-21")
    tab.get_by_role("button", name="Show it").click()
    tab.locator("h1", has_text="Monday 2026-12-21").wait_for()
    assert tab.locator("#date").input_value() == "2026-12-21"


def test_no_words_of_the_picture_stand_over_each_other(tab, served):
    for day in ("2026-06-21", "2026-12-21"):
        tab.goto(f"{served}/days/faces?date={day}")
        words_apart(tab.locator("svg.hours"))


def test_in_the_dark_on_a_phone_the_picture_takes_the_page_s_colors_and_keeps_inside(new_tab, served):
    tab = new_tab(color_scheme="dark", viewport={"width": 360, "height": 740})
    tab.goto(f"{served}/days/faces?date=2026-06-21")

    fits(tab)
    ink = tab.locator("svg.hours text.loud").first.evaluate("text => getComputedStyle(text).fill")
    assert ink == tab.locator("main").evaluate("main => getComputedStyle(main).color")
    sun = tab.locator("svg.hours .sun").first.evaluate("bar => getComputedStyle(bar).fill")
    assert sun == tab.locator("main a").first.evaluate("link => getComputedStyle(link).color")


def test_a_wrong_day_is_told_beside_it(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/days/faces?date=yesterweek")

    assert "is no day; write it like 2026-06-21" in tab.locator("#date-wrong").inner_text()
    assert tab.locator("svg.hours").count() == 1


def test_it_works_without_script(new_tab, served):
    tab = new_tab(java_script_enabled=False)
    tab.goto(f"{served}/days/faces?date=2026-06-21")

    assert tab.locator("svg.hours").count() == 1
    assert tab.locator("table").count() >= 3
