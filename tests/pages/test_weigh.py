"""Build-ups side by side in a real browser: sorted by links, asked anew, one opened to its working."""

from __future__ import annotations

import pytest

from looks import READERS, fits, open_to_all

pytestmark = pytest.mark.reads


@pytest.fixture
def sample():
    return "quinta"


def names_in(tab, heading):
    """First cells of the first table under a heading."""
    rows = tab.locator(f"xpath=//h2[.='{heading}']/following::table[1]//tbody/tr/*[1]")
    return [text.strip() for text in rows.all_inner_texts()]


def test_from_the_table_over_another_order_to_one_option_and_its_working(tab):
    tab.goto("/weigh")
    assert names_in(tab, "Money")[0] == "as planned"
    open_to_all(tab)

    tab.locator("#sorts").get_by_role("link", name="cash now").click()
    tab.wait_for_load_state()
    assert "by=cash_now" in tab.url
    assert names_in(tab, "Money")[:2] == ["as planned", "mesh-on-driven-posts"]

    tab.locator("#animals summary").click()
    tab.get_by_role("checkbox", name="goat, grown").uncheck()
    tab.locator("#years").fill("40")
    tab.get_by_role("button", name="Weigh").click()
    tab.wait_for_load_state()
    text = tab.locator("main").inner_text()
    assert "over 40 years" in text
    assert "goat, grown" not in tab.locator("main table").all_inner_texts()[-1]

    tab.locator("main").get_by_role("link", name="adobe").first.click()
    tab.wait_for_load_state()
    assert tab.locator("h1").inner_text().endswith("adobe")
    tab.locator("details.worked").first.locator("summary").click()
    assert tab.locator("details.worked[open]").count() == 1
    open_to_all(tab)


def test_a_phone_jumps_to_a_part_that_opens_and_has_the_others_folded(new_tab):
    """Eleven build-ups under each other on all that counts were 29 000 pixels long, without any way through."""
    tab = new_tab(viewport={"width": 390, "height": 844})
    tab.goto("/weigh")
    high = tab.evaluate("document.documentElement.scrollHeight")
    jumps = tab.get_by_role("navigation", name="Parts of this page").get_by_role("link")

    assert high < 9000
    assert "Money" in tab.locator("details.part[open] h2").all_inner_texts(), "it is asked first"
    assert "In use" not in tab.locator("details.part[open] h2").all_inner_texts()
    assert jumps.all_inner_texts() == tab.locator("main h2").all_inner_texts()

    jumps.filter(has_text="In use").click()
    part = tab.locator("details.part").filter(has=tab.get_by_role("heading", name="In use"))
    assert part.get_attribute("open") is not None
    assert part.locator("table").first.is_visible()

    tab.goto("/weigh?name=adobe&name=dry-stone")
    assert tab.locator("details.part[open]").count() > 5, "of a few build-ups no part is long"


def test_what_cannot_be_asked_is_told_over_the_usual_answer(tab):
    tab.watch.expected.append("400")
    tab.goto("/weigh?years=soon&animals=dragon")

    told = tab.locator("#wrong").inner_text()
    assert "soon" in told
    assert "dragon" in told
    assert names_in(tab, "Money")[0] == "as planned"


@pytest.mark.parametrize("path", ["/weigh", "/weigh/option?name=adobe"])
@READERS
def test_no_page_of_weighing_is_wider_than_its_screen(browser, served, settings, path):
    context = browser.new_context(base_url=served, **settings)
    page = context.new_page()
    page.goto(path)
    assert page.locator("main table").count() > 3
    if settings.get("java_script_enabled", True):
        fits(page)
    context.close()
