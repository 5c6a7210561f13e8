"""The days across their doors in a real browser: from the first page through each question; the phone's today, signal or not."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from houses import House
from looks import fits, open_to_all
from pinfold.actions import days_phone
from pinfold.store import starting
from pinfold.store.log import open_log

PHONE = {
    "viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True, "timezone_id": "Europe/Lisbon",
}  # fmt: skip
PLACE = ZoneInfo("Europe/Lisbon")
AWAY = ["Failed to load resource", "ERR_", "net::"]
DOORS = ("today", "job", "faces", "season", "wet", "ripe", "weather")


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("days") / "quinta"
    starting.from_sample(folder, "quinta", today=datetime.now(PLACE).date())
    return folder


class Morning(datetime):
    """The clock of the days at eight of this day, whenever the tests run: late in a day no work is left in it."""

    @classmethod
    def now(cls, tz=None):
        return datetime.now(PLACE).replace(hour=8, minute=0, second=0, microsecond=0).astimezone(tz)


@pytest.fixture(scope="module")
def house(folder):
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(days_phone, "datetime", Morning)
        house = House(folder).start()
        yield house
        house.stop()


@pytest.fixture
def served(house):
    return house.url


def opened(page):
    """The phone's page with its names given and the day laid out."""
    page.watch.expected += AWAY
    page.goto("/phone")
    page.locator("#who").fill("Ana")
    page.locator("#device").fill("phone")
    page.locator("#names-keep").click()
    page.locator("#batch-0").wait_for()
    for _ in range(20):
        if page.locator("#day-windows ol.hours").count():
            return page
        page.evaluate("dispatchEvent(new Event('online'))")
        page.wait_for_timeout(1000)
    raise AssertionError(page.locator("#day-windows").inner_text())


def test_every_question_of_the_days_is_a_step_from_the_first_page(tab):
    tab.goto("/days")
    open_to_all(tab)
    for name in DOORS:
        tab.goto("/days")
        tab.locator("main").get_by_role("link", name=name, exact=False).first.click()
        tab.locator("main h1").wait_for()
        assert "/days/" in tab.url
        assert "invented" in tab.locator("main").inner_text() or name in ("faces", "today"), name
        open_to_all(tab)


@pytest.mark.parametrize("width", [320, 390])
def test_no_page_of_the_days_is_wider_than_a_phone(new_tab, width):
    page = new_tab(viewport={"width": width, "height": 740}, color_scheme="dark")
    for path in ("", "/sheet/today", "/job", "/faces", "/season", "/wet", "/ripe", "/weather"):
        page.goto(f"/days{path}")
        fits(page)


def test_the_phone_has_todays_work_and_keeps_it_when_nobody_answers(new_tab, house):
    page = opened(new_tab(**PHONE))
    page.evaluate("""async () => {
        const found = await navigator.serviceWorker.ready;
        while (found.active.state !== "activated") await new Promise((again) => setTimeout(again, 30));
    }""")
    told = page.locator("#day-windows").inner_text()
    assert "invented-forecast.json is used" in told
    open_to_all(page)
    house.stop()
    try:
        page.reload()
        page.locator("#day-windows ol.hours li").first.wait_for()
        assert page.locator("#day-windows").inner_text() == told
    finally:
        house.start()


def test_after_the_days_that_the_phone_keeps_it_says_so(new_tab):
    page = opened(new_tab(**PHONE))
    page.clock.set_fixed_time(datetime(2031, 1, 1, 9, tzinfo=PLACE))
    page.reload()
    page.locator("#day-windows", has_text="ended on").wait_for()
    assert page.locator("#day-windows ol.hours").count() == 0


def test_a_wetting_is_written_down_on_the_phone(new_tab, folder):
    page = opened(new_tab(**PHONE))
    page.locator("#kind-wetting").tap()
    page.locator("#field-place").select_option("bend/1")
    page.get_by_text("outer", exact=True).first.tap()
    page.locator("#keep").tap()
    page.locator("#kind-wetting").wait_for()
    page.get_by_text("in the log").first.wait_for()
    for _ in range(50):
        with open_log(folder) as log:
            if found := log.entries(kind="wetting"):
                assert found[0].text("face") == "outer"
                return
        page.wait_for_timeout(200)
    raise AssertionError("the wetting did not come into the log")
