"""Plan against actual and the forecast in a browser: from what it costs to both, and after another entry."""

from __future__ import annotations

from datetime import date

import pytest

import half_built
from looks import READERS, fits, open_to_all
from pinfold.store import starting


@pytest.fixture(scope="module")
def served(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("half") / "quinta"
    starting.from_sample(folder, "quinta", today=date.today())  # noqa: DTZ011 - the server asks the clock too
    half_built.write(folder, "quinta")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_from_what_it_costs_to_planned_and_done_and_how_it_will_go_on(tab):
    tab.goto("/reckon")
    tab.get_by_role("link", name="against").click()
    tab.get_by_role("heading", name="Hours").wait_for(timeout=30_000)
    assert tab.locator("main").get_by_text("coat laid thicker than planned").count() > 0
    assert tab.locator("main").get_by_text("paid above the price list").count() > 0

    tab.get_by_role("link", name="How it will go on").click()
    tab.locator("svg.foreseen").wait_for(timeout=60_000)
    assert tab.locator("svg.foreseen .likely").count() > 10
    assert tab.locator("main").get_by_text("9 in 10 by").is_visible()
    assert tab.get_by_role("heading", name="Earned value").is_visible()


def test_hours_written_down_on_the_page_move_what_was_worked(tab):
    tab.goto("/reckon/forecast")
    before = tab.locator("main").get_by_text("of one person are worked").text_content()
    tab.get_by_role("link", name="Write down hours").click()
    tab.locator("[name='f.time']").fill("9")
    tab.locator("[name='u.time']").select_option("h")
    tab.locator("[name='f.people']").fill("2")
    tab.locator("[name='f.layer']").fill("wall")
    tab.locator("main form button.primary").first.click()
    tab.goto("/reckon/forecast")
    after = tab.locator("main").get_by_text("of one person are worked")
    after.wait_for(timeout=30_000)
    for _ in range(30):
        if after.text_content() != before:
            break
        tab.wait_for_timeout(1000)
        tab.reload()
    assert after.text_content() != before


@pytest.mark.parametrize("path", ["/reckon/against", "/reckon/forecast"])
@READERS
def test_both_read_on_a_phone_without_script_and_in_the_dark(new_tab, path, settings):
    tab = new_tab(**settings)
    tab.goto(path)
    tab.get_by_role("heading", level=1).wait_for(timeout=60_000)
    if settings.get("java_script_enabled", True):
        fits(tab)
        open_to_all(tab)
