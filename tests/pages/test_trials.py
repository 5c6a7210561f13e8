"""Trials on their page: eight written down, a proposal seen, and opened in the log with all that goes in."""

from __future__ import annotations

import re

import pytest

from looks import TWICE, enlarge, fits, open_to_all
from pinfold.actions.taking import take_entries
from pinfold.store.log import open_log
from plaster_story import story


@pytest.fixture
def tried(site):
    assert {each.state for each in take_entries(site, story())} == {"new"}
    return site


def write_trial(tab, raw):
    """Through the log's own form."""
    fields = raw["fields"]
    tab.goto("/log/new/trial")
    tab.get_by_label("mix it began from").fill(fields["mix"])
    for row, (item, text) in enumerate(fields["amounts"], start=1):
        number, unit = text.split(" ")
        tab.get_by_label(f"what, row {row}", exact=True).fill(item)
        tab.get_by_label(f"how much, row {row}", exact=True).fill(f"{number} L" if unit == "L" else number)
        if unit != "L":
            tab.get_by_label(f"measure, row {row}", exact=True).select_option(unit)
    for legend, key in (("sticks to the wall", "sticks"), ("cracks", "cracks"), ("hard against a nail", "hardness")):
        tab.get_by_role("group", name=legend, exact=True).get_by_label(fields[key], exact=True).check()
    tab.get_by_role("button", name="Write it down").click()
    tab.get_by_role("link", name="Write another one down").wait_for()


def test_eight_trials_written_down_lead_to_a_proposal_that_opens_filled_in(tab, site):
    for raw in story():
        write_trial(tab, raw)
    assert open_log(site).count(kind="trial", standing=True) == 8
    tab.goto("/mix")
    tab.get_by_role("link", name="Trials and what to try next").click()
    tab.get_by_role("heading", name="Trials of plaster-scratch").wait_for()
    assert tab.locator("svg.response").count() == 2
    assert "Best so far: no. 8" in tab.locator("main").inner_text()
    tab.get_by_role("heading", name="next trial 1: to gain").wait_for()
    tab.locator("a[href^='/log/new/trial?']").first.click()
    tab.get_by_role("heading", name="Write down: a trial").wait_for()
    assert tab.get_by_label("mix it began from").input_value() == "plaster-scratch"
    assert tab.get_by_label("what, row 1", exact=True).input_value() == "portland-cement"
    assert float(tab.get_by_label("how much, row 3", exact=True).input_value()) > 0
    assert tab.get_by_role("alert").count() == 0
    tab.get_by_role("group", name="sticks to the wall").get_by_label("holds", exact=True).check()
    tab.get_by_role("button", name="Write it down").click()
    tab.get_by_role("link", name="Write another one down").wait_for()
    assert open_log(site).count(kind="trial", standing=True) == 9


def test_other_factors_and_weights_are_asked_on_the_page(tab, tried):
    tab.goto("/mix/trials")
    tab.get_by_role("checkbox", name="lime to one of cement").check()
    tab.get_by_role("checkbox", name="sand to one of cement and lime").check()
    tab.get_by_role("textbox", name=re.compile("^cracks")).fill("5")
    tab.get_by_role("button", name="Look at it so").click()
    text = tab.locator("main").inner_text()
    assert "weighed by: cracks 5" in text
    assert tab.get_by_role("checkbox", name="lime to one of cement").is_checked()


def test_what_cannot_be_asked_is_told_over_what_can(tab, tried):
    tab.watch.expected.append("400")
    tab.goto("/mix/trials?factor=salt&weight.cracks=-3")
    told = tab.get_by_role("alert").inner_text()
    assert "-3" in told
    tab.get_by_role("heading", name="next trial 1").wait_for()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_of_trials_keeps_nobody_out(new_tab, tried, scheme):
    tab = new_tab(color_scheme=scheme)
    tab.goto("/mix/trials")
    open_to_all(tab)


def test_it_is_never_wider_than_the_window(tab, tried):
    tab.goto("/mix/trials")
    for letters, widths in (("", (640, 390, 320)), (TWICE, (1280, 390))):
        enlarge(tab, letters)
        for width in widths:
            tab.set_viewport_size({"width": width, "height": 800})
            fits(tab)


@pytest.mark.reads
def test_a_plan_without_trials_says_so_and_fills_the_ranges(tab):
    tab.goto("/mix/trials")
    text = tab.locator("main").inner_text()
    assert "No trial of it is in the log that can be used" in text
    assert "to fill the ranges" in text.lower()


def test_the_code_of_a_proposal_opens_the_phone_filled_in_and_keeps_it(new_tab, tried, served):
    from pinfold.actions.mix_trials import TrialsAsked, mix_next

    address = mix_next(tried, TrialsAsked()).record.scan[0].partition("phone#")[2]
    phone = new_tab(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    phone.goto(f"{served}/phone#{address}")
    phone.locator("#who").fill("Ana")
    phone.locator("#names-keep").tap()  # on to what was scanned
    phone.locator("#keep").wait_for()
    filled = phone.evaluate("[...document.querySelectorAll('main input, main select')].map((each) => each.value)")
    assert "plaster-scratch" in filled
    assert phone.get_by_text("sticks to the wall").is_visible(), "asked at once, not folded away"
    phone.locator("#keep").tap()
    phone.locator("li.sent").wait_for()
    assert open_log(tried).count(kind="trial", standing=True) == 9
