"""A batch put right in the mixer, in a real browser: from the pail to what to add, to the log, and back from the log."""

from __future__ import annotations

import pytest

from looks import enlarge, fits, open_to_all

ANSWER = "/mix/correct?mix=foamed-800&weighed=9.1+kg&pail=10+L"


def test_a_weighed_pail_says_what_to_add_and_goes_into_the_log_without_script(new_tab):
    tab = new_tab(java_script_enabled=False)
    tab.goto("/mix")
    tab.get_by_role("link", name="Put a batch right in the mixer").click()
    tab.locator("#mix").select_option("foamed-800")
    tab.locator("#weighed").fill("9.1 kg")
    tab.locator("#pail").fill("10 L")
    tab.get_by_role("button", name="Work it out").click()
    assert "too heavy" in tab.locator("h2").first.inner_text()
    assert "foam to make and fold in" in tab.locator("table").first.inner_text()
    tab.get_by_role("link", name="Write this batch into the log").click()
    assert tab.locator("[name='f.wet_density']").input_value().startswith("910")
    tab.locator("main form button.primary").first.click()
    tab.get_by_role("link", name="Put this batch right in the mixer").click()
    assert "too heavy" in tab.locator("h2").first.inner_text()


@pytest.mark.reads
def test_what_cannot_be_stands_beside_what_was_typed(tab):
    tab.watch.expected.append("400")
    tab.goto("/mix/correct?mix=foamed-800&weighed=18+kg&pail=900+L&empty=-1+kg")
    assert "900 L" in tab.locator("#pail-wrong").inner_text()
    assert tab.locator("#empty").get_attribute("aria-invalid") == "true"
    assert tab.locator("#weighed").input_value() == "18 kg"
    tab.goto("/mix/correct?weighed=18+kg")
    assert "mix that is in the mixer" in tab.get_by_role("alert").inner_text()


@pytest.mark.reads
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_keeps_nobody_out_at_phone_width(new_tab, scheme):
    tab = new_tab(color_scheme=scheme, viewport={"width": 320, "height": 700})
    tab.goto(ANSWER)
    open_to_all(tab)
    fits(tab)
    enlarge(tab)
    fits(tab)
