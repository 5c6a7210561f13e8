"""The log's pages on the laptop: open to all, at twice the text size, without script, and quick on a long log."""

from __future__ import annotations

import pytest
from PIL import Image

from houses import entries
from long_logs import long_log
from looks import fits, fits_enlarged, open_to_all
from pinfold.actions.taking import take_entries, take_photo
from pinfold.store import starting
from pinfold.store.log import open_log

MANY = 100_000
WITHIN_S = 0.1


@pytest.fixture
def sample():
    return "quinta"


def said(number, kind="note", **also):
    fields = {
        "note": {"text": f"words {number}"},
        "crack": {"mark": "C1", "width": f"0.{number} mm", "place": "lane/1a"},
    }
    return {"id": f"entry-{number:08}", "kind": kind, "at": f"2026-05-{number:02}T14:20+02:00", "who": "Ana",
            "device": "phone", "fields": fields[kind], **also}  # fmt: skip


@pytest.fixture
def filled(site):
    """A site with a few entries of all sorts: corrected, taken back, with a photo."""
    from io import BytesIO

    out = BytesIO()
    Image.new("RGB", (400, 300), "peru").save(out, "JPEG")
    name = take_photo(site, out.getvalue()).name
    came = take_entries(site, [
        said(1), said(2, "crack"), said(3, "crack", corrects="entry-00000002"), said(4),
        {**said(5), "kind": "withdrawn", "fields": {"text": "twice"}, "corrects": "entry-00000004"},
        {**said(6), "kind": "photo", "fields": {"photo": name, "text": "the wall from the lane"}},
    ])  # fmt: skip
    assert {each.state for each in came} == {"new"}
    return site


PAGES = (
    "/log", "/log?everything=yes", "/log/entry-00000003", "/log/entry-00000004", "/log/entry-00000006",
    "/log/entry-00000003/correct", "/log/new/batch", "/log/new/crack", "/log/new/photo", "/log/new/note", "/log/import",
    "/cracks",
)  # fmt: skip


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_page_is_open_to_all(new_tab, filled, scheme):
    tab = new_tab(color_scheme=scheme)
    for path in PAGES:
        tab.goto(path)
        tab.evaluate("document.querySelectorAll('main details').forEach((each) => { each.open = true; })")
        open_to_all(tab)


def test_text_at_twice_its_size_stays_on_the_page(new_tab, filled):
    for width in (390, 1280):
        fits_enlarged(new_tab(viewport={"width": width, "height": 900}), *PAGES)


def test_an_entry_is_written_and_corrected_without_script_and_nothing_is_overwritten(new_tab, filled):
    tab = new_tab(java_script_enabled=False)
    tab.goto("/log")
    tab.get_by_role("link", name="A crack measured", exact=True).click()
    tab.get_by_label("mark of the crack").fill("C7")
    tab.get_by_label("width needed").fill("wide")
    tab.watch.expected.append("400")
    tab.get_by_role("button", name="Write it down").click()
    assert "Nothing was written yet" in tab.get_by_role("alert").inner_text()
    tab.get_by_label("width needed").fill("1/4")
    tab.get_by_label("unit of width").select_option("cm")
    tab.get_by_role("button", name="Write it down").click()
    tab.get_by_role("heading", name="a crack measured", exact=True).wait_for()
    tab.get_by_role("link", name="Correct it").click()
    assert tab.get_by_label("width needed").input_value() == "1/4"
    assert tab.get_by_label("unit of width").input_value() == "cm"
    tab.get_by_label("width needed").fill("0.3")
    tab.get_by_role("button", name="Write it down").click()
    assert tab.get_by_text("(changed)").count() == 1
    first, second = [each for each in entries(filled, kind="crack") if each.text("mark") == "C7"]
    assert (first.typed["width"], second.typed["width"], second.corrects) == ("1/4 cm", "0.3 cm", first.id)
    tab.goto("/log?kind=crack&text=C7")
    assert tab.locator(".logs > li").count() == 1
    assert tab.locator(".logs summary").inner_text() == "Corrected 1 time"
    tab.goto(f"/log/{second.id}")
    tab.get_by_label("Why").fill("measured on the wrong wall")
    tab.get_by_role("button", name="Take it back").click()
    tab.get_by_role("heading", name="Taken back", exact=True).wait_for()
    assert len(entries(filled)) == 9


def test_a_correction_changed_meanwhile_is_shown_again_with_what_stands_now_beside_it(new_tab, filled):
    tab = new_tab(viewport={"width": 390, "height": 900})
    tab.goto("/log/entry-00000003/correct")
    take_entries(filled, [{**said(7, "crack"), "corrects": "entry-00000003"}])
    tab.get_by_label("width needed").fill("0.9")
    tab.watch.expected.append("409")
    tab.get_by_role("button", name="Write it down").click()
    assert "Changed meanwhile" in tab.get_by_role("alert").inner_text()
    assert tab.get_by_label("width needed").input_value() == "0.9"
    assert tab.get_by_text("in the log now: 0.7 mm").is_visible()
    open_to_all(tab)
    fits(tab)
    before = len(entries(filled))
    tab.get_by_role("button", name="Write it down").click()
    tab.get_by_role("heading", name="a crack measured", exact=True).wait_for()
    assert len(entries(filled)) == before + 1
    assert next(each for each in entries(filled) if each.corrects == "entry-00000007").typed["width"] == "0.9 mm"


def test_photos_are_shown_small_and_whole(tab, filled):
    tab.goto("/log")
    picture = tab.locator(".thumb img").first
    picture.scroll_into_view_if_needed()
    picture.evaluate("(each) => each.decode()")
    assert picture.evaluate("(each) => each.naturalWidth") == 400


@pytest.fixture(scope="module")
def long_site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("long") / "quinta"
    starting.from_sample(folder, "quinta")
    long_log(folder, MANY)
    assert open_log(folder).count() == MANY
    return folder


@pytest.mark.slow
def test_words_are_found_in_a_long_log_however_far_back(long_site):
    from pinfold.actions.looking import log_sheet

    wanted = [each.seq for each in open_log(long_site).entries(text="note 29", standing=True)]
    seen, before, asked = [], None, 0
    while asked == 0 or before:
        sheet = log_sheet(long_site, text="NOTE 29", before=before)
        seen += [line.seq for line in sheet.lines]
        before, asked = sheet.before, asked + 1
    assert seen == wanted
    assert len(wanted) > 20
    assert asked >= 4


@pytest.mark.slow
def test_batches_of_a_long_log_are_counted_as_they_stand(long_site):
    from collections import Counter

    from pinfold.actions.log_tally import _tally_of

    wanted = Counter()
    for entry in open_log(long_site).entries(kind="batch", standing=True):
        wanted[f"{entry.text('mix')}|{entry.text('layer')}"] += int(entry.number("batches") or 1)
    found = _tally_of(long_site.absolute()).asked(60.0)
    assert found == dict(wanted)
