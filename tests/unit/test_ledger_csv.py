"""The ledger as a file: what spreadsheets of different countries make of it, and files that are wrong."""

from __future__ import annotations

from datetime import date

import pytest

from pinfold.actions.log_files import csv_in
from pinfold.actions.reckon_csv import ledger_in, ledger_out, ledger_text
from pinfold.actions.reckon_ledger import list_ledger
from pinfold.actions.sites import start_site
from pinfold.actions.taking import log_of, take_entries
from pinfold.errors import InputError, InvalidPlan
from pinfold.store.sheet_cells import plain_day, plain_number

HEADS = "day,kind,what,packs,pack,paid,tax,delivery,worth,hours,people,layer,place,entry"


@pytest.fixture
def site(tmp_path):
    start_site(tmp_path / "plot", "seed-garden", {})
    return tmp_path / "plot"


def brought(site, text, *, encoding="utf-8"):
    file = site / "sheet.csv"
    file.write_bytes(text.encode(encoding))
    return ledger_in(site, file)


def ledger_of(site):
    return list_ledger(site).record["ledger"]


def complaints(site, text):
    with pytest.raises(InvalidPlan) as refused:
        brought(site, text)
    assert log_of(site).count() == 0, "nothing is half written"
    return [str(problem) for problem in refused.value.problems]


@pytest.mark.parametrize("between", [",", ";", "\t"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_a_sheet_is_read_whatever_stands_between_its_cells(site, between, mark):
    rows = [
        HEADS,
        "2026-05-03,purchase,sand,2,0.5 yd3,42.00,3.10,,,,,mortar,south,",
        "2026-05-04,hours,,,,,,,,7,2,wall,,",
    ]
    text = mark + "\r\n".join(rows).replace(",", between)

    assert brought(site, text) == "sheet.csv: 2 written down, 0 known already"
    found = ledger_of(site)
    assert (found.goods, found.tax, found.seconds) == (4200, 310, 14 * 3600)
    assert brought(site, text) == "sheet.csv: 0 written down, 2 known already"


def test_decimal_commas_days_with_points_and_quoted_cells_are_read(site):
    text = (
        'Day;KIND;what;packs;paid;hours;shop\r\n3.5.2026;purchase;sand;"1,5";"1.234,50";;"the ""old""\nyard; north"\r\n'
    )
    text += "04.05.2026;Hours;;;;7,5;\r\n"
    brought(site, text)

    found = ledger_of(site)
    assert (found.goods, found.seconds) == (123450, 27000)
    assert [line.day for line in found.lines] == [date(2026, 5, 3), date(2026, 5, 4)]
    assert found.lines[0].shop == 'the "old"\nyard; north'


def test_what_was_written_out_comes_in_once_here_and_elsewhere(site, tmp_path):
    brought(site, f"{HEADS}\n2026-05-03,purchase,sand,2,,42.00,,,,,,,,\n2026-05-03,purchase,sand,2,,42.00,,,,,,,,\n")
    ledger_out(site, tmp_path / "out.csv")
    start_site(tmp_path / "other", "seed-garden", {})

    assert ledger_in(site, tmp_path / "out.csv").endswith("0 written down, 2 known already")
    assert ledger_in(tmp_path / "other", tmp_path / "out.csv").endswith("2 written down, 0 known already")
    assert ledger_text(tmp_path / "other") == ledger_text(site)
    assert ledger_of(tmp_path / "other").goods == 8400


def test_the_log_takes_the_same_file(site):
    file = site / "sheet.csv"
    file.write_text(f"{HEADS}\n2026-05-03,leftover,sand,1.5,,,,,12,,,,,\n", encoding="utf-8")

    assert csv_in(site, file, dry_run=True).record.new == 1
    assert log_of(site).count() == 0
    assert csv_in(site, file).record.new == 1
    assert ledger_of(site).back == 1200


def test_all_complaints_come_at_once_with_line_and_column(site):
    told = complaints(
        site,
        f"{HEADS}\n"
        "2026-05-03,purchase,,two,,-4,,,,,,,,\n"
        "03/05/2026,purchase,sand,2,,4.00,5.00,,,,,,,\n"
        "2026-05-03,loan,sand,2,,4.00,,,,,,,,\n"
        "2026-05-03,leftover,sand,-1,,4.00,,,,,,,,\n"
        "2199-05-03,hours,,,,,,,,8,,,,\n"
        "2026-05-03,hours,,,,,,,,25,,,,,,,9\n",
    )

    for start in ("line 2, what: is missing", "line 2, packs: ", "line 2, paid: '-4' found; money from 0 up",
                  "line 3, day: '03/05/2026' is no day", "line 3, tax: is more than what was paid",
                  "line 4, kind: 'loan' found", "line 5, paid: does not go with leftover",
                  "line 5, packs: '-1' cannot be", "line 6, day: 2199-05-03 is still to come",
                  "line 7: 17 cells under 14 columns"):  # fmt: skip
        assert any(each.startswith(start) for each in told), (start, told)


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("day,kind,day\n", "'day' stands there twice"), ("day,kind,price\n", "no column 'price'"),
        ("kind,at\n", "line 1: the columns day and kind are wanted"), ("", "line 1: the columns day and kind are wanted"),
        ('day,kind\n"2026', "not readable as CSV"), ('day,kind\n2026-05-03,"purchase"x\n', "line 2: not readable as CSV"),
    ],
)  # fmt: skip
def test_a_file_that_is_no_ledger_is_told_as_a_whole(site, text, wrong):
    assert any(wrong in each for each in complaints(site, text))


def test_a_row_that_says_otherwise_than_its_entry_in_the_log_is_told_with_its_column(site, tmp_path):
    brought(site, f"{HEADS}\n2026-05-03,purchase,sand,2,,42.00,,,,,,,,\n")
    changed = ledger_text(site).replace("42.00", "24.00").replace("2026-05-03", "2026-05-04")
    (site / "sheet.csv").write_text(changed, encoding="utf-8")
    with pytest.raises(InvalidPlan) as refused:
        ledger_in(site, site / "sheet.csv")

    assert [each.place for each in refused.value.problems] == ["line 2, day", "line 2, paid"]
    assert "pinfold log correct 1" in refused.value.problems[0].message


def test_a_cell_that_a_spreadsheet_would_run_is_kept_from_it_and_comes_back(site, tmp_path):
    raw = {"id": "entry-0001", "kind": "purchase", "at": "2026-05-03T12:00+00:00", "who": "ana", "device": "pc",
           "fields": {"item": "sand", "packs": "1", "cost": "1", "shop": "=HYPERLINK(1)", "place": "'+1"}}  # fmt: skip
    take_entries(site, [raw])
    text = ledger_text(site)
    start_site(tmp_path / "other", "seed-garden", {})
    (tmp_path / "out.csv").write_text(text, encoding="utf-8")
    ledger_in(tmp_path / "other", tmp_path / "out.csv")

    assert ",'=HYPERLINK(1)," in text
    assert ledger_of(tmp_path / "other").lines[0].shop == "=HYPERLINK(1)"


def test_a_file_in_another_alphabet_is_told(site):
    with pytest.raises(OSError, match="save it as CSV UTF-8"):
        brought(site, f"{HEADS},shop\n2026-05-03,purchase,sand,1,,1,,,,,,,,,Müller\n", encoding="cp1252")


@pytest.mark.parametrize(
    ("cell", "comma", "plain"),
    [
        ("12.50", False, "12.50"), ("12,50", True, "12.50"), ("12,50", False, "12.50"), ("1.234,50", True, "1234.50"),
        ("1,234.50", False, "1234.50"), ("1.234.567", True, "1234567"), ("1 234,50", True, "1234.50"),
        ("0,125 m3", True, "0.125 m3"), ("0.125", True, "0.125"), ("1.250", False, "1.250"), ("25 kg", True, "25 kg"),
        ("7,5h", True, "7.5h"), ("1/2 yd3", False, "1/2 yd3"), ("some", True, "some"), ("'2'000", False, "'2'000"),
        ("12'500", False, "12500"), ("-3,5", True, "-3.5"), ("3.", False, "3."), ("20' 6\"", False, "20' 6\""),
    ],
)  # fmt: skip
def test_numbers_as_different_countries_write_them(cell, comma, plain):
    assert plain_number(cell, comma=comma) == plain


@pytest.mark.parametrize(
    ("cell", "comma"), [("1,250", True), ("1,250", False), ("1.250", True), ("1,2,3", False), ("1.2,3.4", True)]
)
def test_a_number_that_can_be_read_two_ways_is_not_guessed(cell, comma):
    with pytest.raises(InputError, match=r"two ways|no number"):
        plain_number(cell, comma=comma)


@pytest.mark.parametrize(("cell", "ways"), [
    ("1,250", ("1250", "1.25")), ("1.234", ("1234", "1.2340")), ("12,000", ("12000", "12")),
])  # fmt: skip
def test_both_ways_that_are_offered_can_be_read_one_way(cell, ways):
    with pytest.raises(InputError, match=f"write {ways[0]} or {ways[1]}$"):
        plain_number(cell, comma=True)
    assert [float(plain_number(way, comma=True)) for way in ways] == list(map(float, ways))


@pytest.mark.parametrize("cell", ["", "3/5/2026", "2026-13-01", "31.2.2026", "20260503x", "yesterday"])
def test_no_day_is_told(cell):
    with pytest.raises(InputError, match="no day"):
        plain_day(cell)
