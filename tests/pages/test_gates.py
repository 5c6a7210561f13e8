"""A gate to build, in a browser: from the part list to its drawing, without script, on a phone, dark, twice as large."""

from __future__ import annotations

import pytest

from looks import fits_enlarged, open_to_all

pytestmark = pytest.mark.reads


def test_from_the_part_list_to_a_gate_and_on_to_the_next(tab):
    tab.goto("/cut")
    tab.get_by_role("link", name="cart gate").click()

    assert tab.url.endswith("/cut/gate/cart%20gate")
    words = tab.locator("main").inner_text()
    assert 'gap 1/2" + leaf 4\' 11 1/4" + gap 1/2"' in words.replace("\u00a0", " ")
    assert tab.locator(".drawing svg").is_visible()
    assert "stopped" in words
    assert tab.locator(".picker [aria-current]").inner_text() == "cart gate"

    tab.get_by_role("link", name="foot gate").click()
    assert "Foot gate" in tab.locator("h1").inner_text()
    tab.get_by_role("link", name="save as SVG")
    tab.get_by_role("link", name="with all working, to print").click()
    assert "screws" in tab.locator("main").inner_text()


def test_a_gate_that_is_not_there_is_told(tab):
    tab.watch.expected.append("404")
    tab.goto("/cut/gate/nix")

    assert "there are foot gate, barrow gate, cart gate" in tab.locator("main").inner_text()


@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_keeps_nobody_out(new_tab, scheme):
    tab = new_tab(color_scheme=scheme)
    tab.goto("/cut/gate/cart gate")

    open_to_all(tab)


def test_it_fits_a_phone_without_script_and_letters_twice_as_large(new_tab):
    tab = new_tab(viewport={"width": 390, "height": 800}, java_script_enabled=False)
    tab.goto("/cut/gate/cart gate")
    assert "Cart gate" in tab.locator("h1").inner_text()
    tab = new_tab(viewport={"width": 390, "height": 800})
    fits_enlarged(tab, "/cut/gate/cart gate")
