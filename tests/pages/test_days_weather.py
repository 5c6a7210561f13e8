"""The weather in a real browser: days are typed, looked at, taken; the dark, a phone, large letters."""

from __future__ import annotations

import pytest

from looks import enlarge, fits, open_to_all
from pinfold.store import starting


@pytest.fixture(scope="module")
def served(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("weather") / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_days_are_typed_looked_at_and_taken(tab, served):
    tab.goto(f"{served}/days/weather")
    tab.locator("#typed").fill("2026-05-03 41 78 F sunny\n2026-05-04 45 80 F rain")
    tab.get_by_role("button", name="See what it says").click()
    tab.get_by_role("button", name="Take it into the site").wait_for()

    assert "Hours are shaped out of each day's low and high" in tab.locator("section.answer").inner_text()
    open_to_all(tab)
    tab.get_by_role("button", name="Take it into the site").click()
    tab.get_by_text("Taken into the folder").wait_for()
    assert "typed-" in tab.locator("main").inner_text()


def test_what_is_wrong_is_told_where_it_was_sent(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/days/weather")
    tab.locator("#typed").fill("2026-05-03 78 41 F")
    tab.get_by_role("button", name="See what it says").click()

    assert "the low is above the high" in tab.get_by_role("alert").inner_text()


@pytest.mark.parametrize("settings", [
    {"color_scheme": "dark", "viewport": {"width": 360, "height": 740}}, {"java_script_enabled": False, "viewport": {"width": 640, "height": 900}},
])  # fmt: skip
def test_nothing_runs_out_of_a_phone_nor_needs_a_script(new_tab, served, settings):
    tab = new_tab(**settings)
    tab.goto(f"{served}/days/weather")

    assert "sun kWh/m²" in tab.locator("main").inner_text()
    if settings.get("java_script_enabled", True):
        fits(tab)
        enlarge(tab)
        fits(tab)
