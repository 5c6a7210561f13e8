"""The ledger in a real browser: bought, left over and worked; what does not add up; out as CSV and in again."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from houses import entries
from looks import fits_enlarged, open_to_all
from pinfold.actions.taking import take_entries
from pinfold.store import starting

PAGES = ("/reckon", "/reckon/ledger", "/log/new/purchase", "/log/new/leftover")


@pytest.fixture
def sample():
    return "quinta"


def said(number, kind, **fields):
    at = datetime.now(UTC).isoformat(timespec="seconds")
    return {"id": f"entry-{number:08}", "kind": kind, "at": at, "who": "Ana", "device": "phone", "fields": fields}


@pytest.fixture
def bought(site):
    """A site with a bill that does not add up, a purchase in another currency, one logged twice, hours and leftovers."""
    twice = {"item": "sand", "packs": "1", "cost": "30.00", "shop": "the mill", "bill": "4"}
    taken = take_entries(site, [
        said(1, "purchase", item="portland-cement", packs="10", cost="79.00", tax="14.77", shop="yard", bill="17",
             bill_total="93.77"),
        said(2, "purchase", **twice), said(3, "purchase", **twice),
        said(4, "purchase", item="brick", packs="10", cost="9.00", currency="GBP"),
        said(5, "hours", time="6 h", people="2", layer="footing"), said(6, "leftover", item="sand", packs="0.5", worth="8"),
    ])  # fmt: skip
    assert {each.state for each in taken} == {"new"}
    return site


def test_before_the_first_line_it_says_how_to_begin(tab):
    tab.goto("/reckon")
    assert "so far" not in tab.locator("main").inner_text().casefold().split("\n")
    tab.get_by_role("link", name="ledger").click()
    assert "Nothing bought or worked is in the log yet" in tab.locator("main").inner_text()


def test_a_purchase_leftovers_and_hours_are_written_down_and_added_up(tab, site):
    tab.goto("/reckon/ledger")
    tab.get_by_role("link", name="Bought").click()
    for key, text in {"item": "sand", "packs": "3", "cost": "90.00", "tax": "x", "bill": "17"}.items():
        tab.locator(f'[name="f.{key}"]').fill(text)
    tab.watch.expected.append("400")
    tab.get_by_role("button", name="Write it down").click()
    assert "Nothing was written yet" in tab.get_by_role("alert").inner_text()
    tab.locator('[name="f.tax"]').fill("16.83")
    tab.get_by_role("button", name="Write it down").click()
    tab.goto("/reckon/ledger")
    tab.get_by_role("link", name="Left over").click()
    for key, text in {"item": "sand", "packs": "0.5", "worth": "10"}.items():
        tab.locator(f'[name="f.{key}"]').fill(text)
    tab.get_by_role("button", name="Write it down").click()
    tab.goto("/reckon")

    text = tab.locator("main").inner_text().replace("\u00a0", " ")
    assert "EUR 80.00 spent so far" in text
    assert len(entries(site)) == 2


def test_what_does_not_add_up_is_pointed_out_and_the_file_goes_out_and_comes_in_once(tab, bought, tmp_path):
    tab.goto("/reckon/ledger")
    text = " ".join(tab.locator("main").inner_text().replace("\u00a0", " ").split())
    assert "Bill 17 of yard: its lines come to less than it says, by EUR 14.77. Likely tax left out" in text
    assert "written down twice, as it looks, each EUR 30.00. Both are counted. Take one back" in text
    assert (
        "Paid in GBP without a rate: kept apart, not in the total, GBP 9.00. Say there what one of it is worth" in text
    )
    assert "pinfold log" not in text
    assert "EUR 131.00 spent so far, 12 h of own work counted at nothing" in text
    open_to_all(tab)

    with tab.expect_download() as coming:
        tab.get_by_role("link", name="As CSV").click()
    coming.value.save_as(tmp_path / "ledger.csv")
    tab.get_by_role("link", name="Bring in a CSV file").click()
    tab.locator('input[type="file"]').set_input_files(tmp_path / "ledger.csv")
    tab.get_by_role("button", name="See what would come of it").click()
    tab.get_by_role("heading", name="What would come of it: ledger.csv").wait_for()
    assert tab.locator("dl.figures dd").all_inner_texts() == ["0", "6", "0", "0"]
    assert len(entries(bought)) == 6


def test_what_is_pointed_out_leads_to_its_entry_where_it_is_mended(tab, bought):
    tab.goto("/reckon/ledger")
    point = tab.locator("p", has_text="written down twice")
    point.get_by_role("link", name="entry 3").click()
    tab.get_by_label("Why").fill("written down twice")
    tab.get_by_role("button", name="Take it back").click()
    tab.wait_for_load_state()
    tab.goto("/reckon/ledger")
    assert "written down twice" not in tab.locator("main").inner_text()
    tab.get_by_role("link", name="4", exact=True).click()
    assert tab.url.endswith("/log/4")


def test_a_sheet_of_another_country_comes_in_once_every_complaint_is_mended(tab, site, tmp_path):
    sheet = "day;kind;what;packs;paid;hours\n3.5.2026;purchase;sand;3;{paid};\n4.5.2026;{kind};;;;6,5 h\n"
    tab.goto("/log/import")
    for name, filled in (("wrong", {"paid": "1,250", "kind": "hour"}), ("right", {"paid": "90,50", "kind": "hours"})):
        (tmp_path / f"{name}.csv").write_text(sheet.format(**filled), encoding="utf-8")
        tab.locator('input[type="file"]').set_input_files(tmp_path / f"{name}.csv")
        tab.get_by_role("button", name="See what would come of it").click()
        tab.wait_for_load_state()
        if name == "wrong":
            told = tab.locator("ul.told").inner_text()
            assert "line 2, paid: '1,250' can be read two ways; write 1250 or 1.25" in told
            assert "line 3, kind: 'hour' found" in told
            assert "Nothing of this table is written until all of it is mended" in tab.locator("main").inner_text()
    tab.get_by_role("button", name="Write").click()
    tab.wait_for_load_state()
    assert len(entries(site)) == 2
    tab.goto("/reckon/ledger")
    assert "EUR 90.50 spent so far, 6.5 h of own work" in tab.locator("main").inner_text().replace("\u00a0", " ")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_page_of_it_is_open_to_all(new_tab, bought, scheme):
    tab = new_tab(color_scheme=scheme)
    for path in PAGES:
        tab.goto(path)
        open_to_all(tab)


def test_text_at_twice_its_size_stays_on_the_page(new_tab, bought):
    for width in (390, 1280):
        fits_enlarged(new_tab(viewport={"width": width, "height": 900}), *PAGES)


def test_another_sample_has_its_own_money(new_tab, serve, tmp_path):
    folder = tmp_path / "other" / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    take_entries(folder, [said(1, "purchase", item="sand", packs="1", cost="21.00")])
    with serve(folder) as running:
        tab = new_tab()
        tab.watch.own = running.url.rstrip("/")
        tab.goto(f"{running.url.rstrip('/')}/reckon")
        assert "USD 21.00 spent so far" in tab.locator("main").inner_text().replace("\u00a0", " ")
