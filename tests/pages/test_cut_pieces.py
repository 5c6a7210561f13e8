"""Cutting in a real browser: the cut plan with its pictures, a mistake, labels in print, what was really cut."""

from __future__ import annotations

import re

import pytest

from looks import enlarge, fits, open_to_all, words_apart


@pytest.mark.reads
def test_from_the_part_list_to_the_cut_plan_of_one_section(tab, served):
    tab.goto(f"{served}/cut")
    tab.get_by_role("link", name="out of which pieces").click()
    tab.locator("#section").select_option("wood-6x6")
    tab.locator("#kerf").fill("1/16 in")
    tab.get_by_role("button", name="Work it out").click()
    tab.locator("h2", has_text="6 x 6").wait_for()

    assert tab.locator("svg.sawn").count() == 1
    assert "Reckoned with 1/16" in tab.locator("main").inner_text()
    assert tab.locator("#kerf").input_value() == "1/16 in"
    tab.locator("td.tick input").first.check()
    assert tab.locator("tr.ticked").count() == 1
    open_to_all(tab)


@pytest.mark.reads
def test_a_mistake_stands_beside_its_box(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/cut/pieces?kerf=nine")

    assert tab.locator("#kerf-wrong").inner_text()
    assert tab.locator("#kerf").get_attribute("aria-invalid") == "true"


@pytest.mark.reads
def test_labels_stay_on_their_sheet_and_print_white(tab, served):
    tab.goto(f"{served}/cut/labels")
    tab.emulate_media(media="print")

    for sheet in tab.locator("svg.labels").all()[:3]:
        words_apart(sheet)
    assert tab.locator("h1").is_hidden()
    tab.emulate_media(media="screen")
    open_to_all(tab)


def test_what_was_cut_goes_into_the_log_and_off_the_list(tab, served):
    tab.goto(f"{served}/cut/done")
    before = tab.locator("main p", has_text="left to cut").first.inner_text()
    tab.get_by_role("link", name=re.compile(r"E\d+")).first.click()
    assert tab.locator("#parts").input_value()
    open_to_all(tab)
    tab.get_by_role("button", name="Write it down").click()
    tab.locator("[role=status]").wait_for()

    assert "Written down" in tab.locator("[role=status]").inner_text()
    assert tab.locator("main > p", has_text="left to cut").first.inner_text() != before
    tab.get_by_role("link", name="the log").click()
    assert "cut" in tab.locator("main").inner_text()


@pytest.mark.reads
def test_a_wrong_cut_comes_back_filled_in(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/cut/done?item=pipe-2in&length=6+ft&parts=Q9")
    tab.get_by_role("button", name="Write it down").click()
    tab.locator("#parts-wrong").wait_for()

    assert tab.locator("#length").input_value() == "6 ft"


@pytest.mark.reads
def test_rolls_and_sheets_have_their_page(tab, served):
    tab.goto(f"{served}/cut/rolls")
    assert "rolls 4' high" in tab.locator("main").inner_text()
    open_to_all(tab)
    tab.goto(f"{served}/cut/sheets")
    assert "Nothing is to be cut from sheets" in tab.locator("main").inner_text()


@pytest.mark.reads
def test_in_the_dark_on_a_phone_with_large_letters_nothing_goes_past_the_edge(new_tab, served):
    tab = new_tab(color_scheme="dark", viewport={"width": 360, "height": 740})
    for path in ("/cut/pieces", "/cut/labels", "/cut/done", "/cut/rolls"):
        tab.goto(f"{served}{path}")
        enlarge(tab)
        fits(tab)
    tab.goto(f"{served}/cut/pieces")
    ink = tab.locator("svg.sawn text.loud").first.evaluate("each => getComputedStyle(each).fill")
    assert ink == "rgb(233, 229, 219)"
