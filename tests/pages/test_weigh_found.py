"""A row of a search in a real browser: searched while the page tells how far it is, opened by its code, written."""

from __future__ import annotations

import re
from urllib.parse import urlencode

import pytest

from looks import enlarge, fits, open_to_all

NARROW = {"asked": "yes", "wall": "block-8-hollow", "coats": "cement", "posts": "pipe-2in", "rails": "pipe-rail",
          "spacing": "96 in", "limits": "hours under 1000 h, must hold", "on": "cash now, carbon"}  # fmt: skip


def found(tab):
    """The page once all is found; it looks again by itself until then."""
    tab.goto(f"/weigh/search?{urlencode(NARROW)}")
    tab.locator("main table").first.wait_for(timeout=120_000)


@pytest.mark.parametrize("sample", ["seed-garden"])
def test_a_row_is_opened_by_its_code_written_into_the_plan_and_undone(tab, site):
    text = (site / "plan.toml").read_text(encoding="utf-8")
    found(tab)
    open_to_all(tab)
    code = tab.locator("main table a").first.inner_text().split()[-1]
    assert re.fullmatch(r"[0-9A-Z]{10}-[0-9A-Z]{4}", code)

    tab.locator("main table a").first.click()
    assert "in place of block and mesh" in tab.locator("main").inner_text()
    open_to_all(tab)
    tab.get_by_role("button", name="Write it into the plan").click()
    tab.get_by_text("Written into plan.toml").wait_for()
    assert f'"found-{code}"' in (site / "plan.toml").read_text(encoding="utf-8")

    tab.get_by_role("button", name="Bring it back").click()
    tab.get_by_text("is as it was before").wait_for()
    assert (site / "plan.toml").read_text(encoding="utf-8") == text


@pytest.mark.parametrize("sample", ["seed-garden"])
def test_what_was_found_fits_a_phone_and_letters_twice_as_large(new_tab):
    tab = new_tab(viewport={"width": 320, "height": 740}, color_scheme="dark")
    found(tab)
    fits(tab)
    enlarge(tab)
    fits(tab)


def test_a_code_of_another_plan_is_refused_in_words(tab):
    tab.watch.expected.append("404")
    tab.goto("/weigh/choose?name=0123456789-ABCD")

    assert "is no code of this plan as it stands" in tab.locator("main").inner_text()
