"""What a page shows to those who read it: as wide as its screen, letters twice as large, words of a picture apart,
nothing that keeps people out."""

from __future__ import annotations

import pytest

TWICE = "212.5%"
"""Twice the size of letters that the style sheet sets."""

READERS = pytest.mark.parametrize("settings", [
    {"viewport": {"width": 360, "height": 740}},
    {"java_script_enabled": False},
    {"color_scheme": "dark", "viewport": {"width": 360, "height": 740}},
], ids=["phone", "no script", "dark"])  # fmt: skip
"""Settings of tabs of those who read otherwise than at a desk."""

ALIKE = (
    "svg text", ".drawing svg g", "details:is(.finding, .alike):nth-of-type(n+12)", "tbody tr:nth-child(n+6)", "ul.rows li:nth-child(n+4)",
)  # fmt: skip
"""What is not looked at again and again: the insides of drawings, and rows like those before them."""
WRONG_ALONE = {"resultTypes": ["violations", "incomplete"], "selectors": False, "iframes": False, "preload": False}
"""Of all that is looked at only what is wrong or open is told, which takes a third less time."""


def fits(page):
    """Nothing runs past the side of the screen."""
    wider = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert wider <= 0, f"{page.url} is {wider} px wider than its screen"


def enlarge(page, letters=TWICE):
    """Letters twice as large, or as large as told."""
    page.evaluate("size => { document.documentElement.style.fontSize = size; }", letters)


def fits_enlarged(page, *paths):
    """No page of these runs past the side of the screen, nor does it with letters twice as large."""
    for path in paths:
        page.goto(path)
        fits(page)
        enlarge(page)
        fits(page)


def kept_out(page, only=None):
    """What keeps people out; contrast that could not be settled counts too. The insides of drawings are left out, whose
    inks are proved by themselves, and long rows of things alike. `only` names the rules that are looked at."""
    from axe_playwright_python.sync_playwright import Axe

    options = WRONG_ALONE | ({"runOnly": {"type": "rule", "values": only}} if only else {})
    found = Axe().run(page, context={"exclude": [[each] for each in ALIKE]}, options=options).response
    wrong = found["violations"] + [each for each in found["incomplete"] if each["id"] == "color-contrast"]
    return [f"{each['id']}: {node['html'][:120]} {node.get('failureSummary', '')[:200]}"
            for each in wrong for node in each["nodes"]]  # fmt: skip


def open_to_all(page, only=None):
    """Nothing on the page keeps people out."""
    found = kept_out(page, only)
    assert found == [], "\n".join([page.url, *found])


def words_apart(picture):
    """The words of a picture keep inside it, and none stands over others."""
    found = picture.evaluate(_WORDS)
    assert found == [], "\n".join(found)


_WORDS = """(picture) => {
    const frame = picture.getBoundingClientRect(), texts = [...picture.querySelectorAll("text")];
    const boxes = texts.map((each) => each.getBoundingClientRect());
    const found = texts.filter((_, n) => boxes[n].left < frame.left - 1 || boxes[n].right > frame.right + 1)
        .map((each) => `outside: ${each.textContent}`);
    for (let n = 0; n < boxes.length; n += 1) for (let m = 0; m < n; m += 1) {
        const along = Math.min(boxes[n].right, boxes[m].right) - Math.max(boxes[n].left, boxes[m].left);
        const down = Math.min(boxes[n].bottom, boxes[m].bottom) - Math.max(boxes[n].top, boxes[m].top);
        if (along > 1 && down > 3) found.push(`${texts[n].textContent} over ${texts[m].textContent}`);
    }
    return found;
}"""
