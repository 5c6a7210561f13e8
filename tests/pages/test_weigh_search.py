"""The search over build-ups in a real browser: asked of few choices, held against limits, what cannot be read told."""

from __future__ import annotations

import pytest

from looks import fits_enlarged, open_to_all

pytestmark = pytest.mark.reads


def fields(tab):
    """The keys of all axes on the form."""
    return tab.locator("form.asking input[maxlength='400']").evaluate_all("all => all.map((each) => each.name)")


@pytest.mark.parametrize("sample", ["seed-garden"])
def test_a_search_of_few_choices_answers_with_its_front_and_holds_it_against_limits(tab):
    tab.goto("/weigh/search")
    open_to_all(tab)
    for key in fields(tab):
        if key not in ("limits", "spacing"):
            first = tab.locator(f"#{key}-list option").first.get_attribute("value")
            tab.locator(f"[id='{key}']").fill(first or "")
    tab.get_by_role("button", name="Search").click()
    tab.locator("main table").first.wait_for(timeout=60_000)
    found = tab.locator("main").inner_text()
    assert "build-ups" in found
    open_to_all(tab)

    tab.locator("#limits").fill("cash under 1")
    tab.get_by_role("button", name="Search").click()
    tab.wait_for_load_state()
    assert tab.locator("#limits").input_value() == "cash under 1"
    assert tab.locator("main").inner_text() != found


def test_what_cannot_be_read_stands_over_the_form_and_nothing_is_searched(tab):
    tab.watch.expected.append("400")
    tab.goto("/weigh/search?asked=yes&limits=dragons+under+three")

    assert "dragons" in tab.locator("#wrong").inner_text()
    assert tab.locator("#limits").input_value() == "dragons under three"


@pytest.mark.parametrize("width", [320, 390])
def test_the_form_fits_a_phone_and_letters_twice_as_large(new_tab, width):
    tab = new_tab(viewport={"width": width, "height": 740}, color_scheme="dark")
    fits_enlarged(tab, "/weigh/search")
