"""Leveling in a real browser: a run of readings typed in, the picture, the jacking sheet, settlement, setting out."""

from __future__ import annotations

import pytest

import sheds
from looks import open_to_all, words_apart
from pinfold.store import starting


@pytest.fixture
def served(tmp_path, serve):
    folder = tmp_path / "quinta"
    starting.from_sample(folder, "quinta")
    plan = folder / "plan.toml"
    plan.write_text(plan.read_text(encoding="utf-8") + "\n" + sheds.shed(), encoding="utf-8")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def write_down(tab, setup, readings):
    tab.locator("#setup").fill(setup)
    tab.locator("#instrument").select_option("water level")
    tab.locator("#lines").fill("\n".join(f"{mark} {1e3 * value:.1f}" for mark, value in readings))
    tab.get_by_role("button", name="Write down").click()
    tab.wait_for_load_state()


def test_from_readings_to_the_jacking_sheet(tab, served):
    tab.goto(f"{served}/level")
    assert "No level was read" in tab.locator("main").inner_text()
    assert tab.locator("#lines").input_value().split() == ["peg", *sheds.MARKS]
    for setup in ("s1", "s2"):
        write_down(tab, setup, [(mark, value) for mark, own, value in sheds.rods() if own == setup])

    assert tab.locator("svg.leveled .block").count() == 6
    text = tab.locator("main").inner_text()
    assert "to the east" in text
    assert "It is twisted" in text
    assert tab.locator("#setup").input_value() == "3"
    open_to_all(tab)

    tab.get_by_role("link", name="The jacking sheet").click()
    assert tab.locator("h1").inner_text() == "Jacking: tool shed"
    main = tab.locator("main").inner_text()
    assert main.index("only a jack holds") < main.index("Lifts in order")
    assert tab.locator("table").last.locator("tbody tr").count() > 2
    open_to_all(tab)

    tab.goto(f"{served}/level/settle")
    assert "One survey" in tab.locator("main").inner_text()
    open_to_all(tab)
    tab.goto(f"{served}/level/set-out?course=20+cm&down=60+cm")
    assert "3 courses" in tab.locator("main").inner_text()
    open_to_all(tab)


def test_a_wrong_line_writes_nothing_and_stays_to_be_mended(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/level")
    write_down(tab, "s9", [("A1", 0.4)])
    tab.goto(f"{served}/level")
    tab.locator("#lines").fill("A1 400\nA2 four hundred")
    tab.get_by_role("button", name="Write down").click()
    tab.locator("#complaints").wait_for()

    assert "A2" in tab.locator("#complaints").inner_text()
    assert "four hundred" in tab.locator("#lines").input_value()


def test_a_tolerance_that_cannot_be_is_told_at_its_box(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/level?tolerance=3+apples")

    assert tab.locator("#wrong").inner_text()
    assert tab.locator("#tolerance").get_attribute("aria-invalid") == "true"


def test_no_words_of_the_picture_stand_over_each_other_on_a_phone(tab, served):
    tab.set_viewport_size({"width": 380, "height": 800})
    tab.goto(f"{served}/level")
    for setup in ("s1", "s2"):
        write_down(tab, setup, [(mark, value) for mark, own, value in sheds.rods() if own == setup])
    words_apart(tab.locator("svg.leveled"))


def test_what_was_jacked_is_written_down_under_its_sheet(tab, served):
    tab.goto(f"{served}/level")
    for setup in ("s1", "s2"):
        write_down(tab, setup, [(mark, value) for mark, own, value in sheds.rods() if own == setup])
    tab.goto(f"{served}/level/jack")
    planned = tab.locator("#lines").input_value()
    assert planned.splitlines()[0].split()[0] in sheds.MARKS
    tab.watch.expected.append("400")
    tab.locator("#lines").fill(f"{planned}\nZ9 +3 mm")
    tab.get_by_role("button", name="Write down").click()
    tab.locator("#complaints").wait_for()
    assert "Z9" in tab.locator("#complaints").inner_text()

    tab.locator("#lines").fill(planned)
    tab.get_by_role("button", name="Write down").click()
    tab.wait_for_load_state()
    assert "read all supports anew" in tab.locator("main").inner_text()
    assert tab.locator("#lines").input_value() == ""
    tab.goto(f"{served}/level/settle")
    assert "not read since" in tab.locator("main").inner_text()
