"""What the log taught, in a real browser: what was most wrong, batch changes, the way to the next wall, a phone."""

from __future__ import annotations

import pytest

from looks import fits, open_to_all
from pinfold.logbook.entries import entry_of
from pinfold.store import starting
from pinfold.store.log import open_log


@pytest.fixture(scope="module")
def served(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("learned") / "quinta"
    starting.from_sample(folder, "quinta")
    entries = [
        entry_of({
            "id": f"entry-{number:06}", "kind": "batch", "at": f"2026-04-{number + 1:02}T10:00+02:00", "who": "me",
            "device": "pc",
            "fields": {"mix": "lime-plaster", "made": f"{30 + number} L", "slump": f"{60 + 30 * number} mm",
                       "amounts": [["water", f"{12 + number} L"], ["sand", "30 L"], ["hydraulic-lime", "10 L"]]},
        })
        for number in range(5)
    ]  # fmt: skip
    with open_log(folder) as log:
        log.append(entries, received="2026-05-03T12:20:00+00:00")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_what_was_learned_stands_there_with_what_changes_did(tab, served):
    tab.goto(f"{served}/reckon/lessons")
    text = tab.locator("main").inner_text()

    assert "What was most wrong" in text
    assert "more water" in text
    assert "up, sure to 97\u00a0%" in text
    assert tab.get_by_role("link", name="the next wall").get_attribute("href") == "/reckon/next-wall"
    open_to_all(tab)


def test_it_is_found_on_the_way_about(tab, served):
    tab.goto(f"{served}/")
    tab.locator("a[href='/reckon/lessons']").first.click()
    tab.locator("h1", has_text="what the log taught").wait_for()


def test_on_a_phone_nothing_stands_out_at_the_side(new_tab, served):
    tab = new_tab(color_scheme="dark", viewport={"width": 360, "height": 740})
    tab.goto(f"{served}/reckon/lessons")

    fits(tab)


def test_the_next_wall_says_that_it_weighs_and_then_stands_beside_as_shipped(tab, served):
    tab.goto(f"{served}/reckon/next-wall")
    assert tab.locator("h1").inner_text() == "Quinta: the next wall"
    tab.get_by_text("No score joins them").wait_for(timeout=90_000)
    text = tab.locator("main").inner_text()

    assert "mesh-on-driven-posts" in text or "as learned is as shipped" in text
    assert "being weighed" not in text
    open_to_all(tab)


def test_the_next_wall_fits_a_phone(new_tab, served):
    tab = new_tab(color_scheme="dark", viewport={"width": 360, "height": 740})
    tab.goto(f"{served}/reckon/next-wall")
    tab.get_by_text("No score joins them").wait_for(timeout=90_000)

    fits(tab)
