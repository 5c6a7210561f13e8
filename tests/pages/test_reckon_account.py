"""The account to share in a real browser: what is ticked is shown, what is not stays, both files come without a script."""

from __future__ import annotations

from pathlib import Path

import pytest

import half_built
from houses import entries
from looks import fits, open_to_all
from pinfold.actions.taking import take_entries


@pytest.fixture
def sample():
    return "quinta"


@pytest.fixture
def built(site):
    half_built.write(site, "quinta", 0.5)
    note = {"id": "entry-note-0001", "kind": "note", "at": "2026-06-01T10:00:00+01:00", "who": "Ana", "device": "phone",
            "fields": {"text": "Wet the blocks an hour before."}}  # fmt: skip
    assert take_entries(site, [note])[0].state == "new"
    return site


def main(tab):
    return " ".join(tab.locator(".account").inner_text().replace("\u00a0", " ").split())


def test_what_is_ticked_is_shown_and_comes_as_files(new_tab, built):
    tab = new_tab(java_script_enabled=False)
    tab.goto("/reckon")
    tab.get_by_role("link", name="account").click()
    before = main(tab)
    assert "Under way, 49 % of the work done" in before
    assert "EUR" not in before
    assert "2026" not in before

    tab.get_by_label("money; without it").check()
    tab.get_by_label("only months").check()
    tab.get_by_label("hours of work").uncheck()
    tab.locator("summary").filter(has_text="Photos and words").click()
    tab.get_by_label("Wet the blocks").check()
    tab.get_by_role("button", name="Show it so").click()
    after = main(tab)
    assert "EUR" in after
    assert "April 2026" in after
    assert "Wet the blocks" in after
    assert "Hours by task" not in after

    for name, start in (("HTML", b"<!doctype html>"), ("PDF", b"%PDF")):
        with tab.expect_download() as coming:
            tab.get_by_role("link", name=f"Save as {name}").click()
        assert coming.value.suggested_filename == f"account.{name.lower()}"
        content = Path(coming.value.path()).read_bytes()
        assert content.startswith(start)
    assert len(entries(built)) > 100


def test_a_choice_that_cannot_be_is_told_over_the_usual_account(tab, built):
    tab.watch.expected.append("400")
    tab.goto("/reckon/account?asked=1&share=shoes&photo=99999")
    assert "'shoes' found" in tab.get_by_role("alert").inner_text()
    assert "Under way" in main(tab)
    open_to_all(tab)


@pytest.mark.parametrize("settings", [{"viewport": {"width": 390, "height": 844}}, {"color_scheme": "dark"}])
def test_it_keeps_to_the_page_on_a_phone_and_in_the_dark(new_tab, built, settings):
    tab = new_tab(**settings)
    tab.goto("/reckon/account")
    fits(tab)
    open_to_all(tab)
