"""A mix by a wish, in a real browser: what is wrong stands where it was typed, and the answer stands under the form."""

from __future__ import annotations

import pytest

from pinfold.store import starting


@pytest.fixture(scope="module")
def served(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("families") / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_a_mortar_is_asked_for_and_its_working_opened(tab, served):
    tab.goto(f"{served}/mix")
    tab.locator('ul.ways a[href$="/mortar"]').click()
    tab.locator("#type").select_option("N")
    tab.locator("#volume").fill("2 ft3")
    tab.get_by_role("button", name="Work it out").click()
    tab.locator("h2", has_text="mortar: mortar type N").wait_for()
    tab.locator("details > summary", has_text="How it was worked out").click()
    assert tab.locator("ol.working li").first.is_visible()


def test_complaints_stand_beside_what_was_typed_and_nothing_typed_is_lost(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/mix/family/mortar?volume=2+kg&area=3+m2&type=N")
    field = tab.locator("#volume")
    assert field.get_attribute("aria-invalid") == "true"
    assert field.input_value() == "2 kg"
    assert "a volume is wanted" in tab.locator("#volume-wrong").inner_text()
    assert tab.locator("#type").input_value() == "N"


def test_a_family_that_is_none_is_told(tab, served):
    tab.watch.expected.append("404")
    answer = tab.goto(f"{served}/mix/family/marzipan")
    assert answer.status == 404
    assert "mortar" in tab.locator("main").inner_text()
