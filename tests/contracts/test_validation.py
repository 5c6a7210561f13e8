"""The outside checks are enough, honest, and written down."""

from __future__ import annotations

from collections import Counter

import validation
from pinfold.sources import publications

ROWS = validation.all_rows()
REASONS = validation.why_not(ROWS)
LEAST = 220
"""A little under what counts today: losing a table's rows is noticed."""


def test_as_many_rows_count_as_evidence_as_ever_did():
    assert validation.counted(ROWS) >= LEAST


def test_every_row_names_a_known_source_and_an_honest_grade():
    for _, row in ROWS:
        assert row.printed.grade in (*validation.GRADES, validation.FIT), row.what
        assert row.printed.source in publications(), row.what
        assert row.printed.where, row.what
        assert row.table, row.what
        assert not row.method_error or row.note, f"{row.what}: an allowance needs its reason"
        assert row.printed.grade != validation.FIT or row.note, f"{row.what}: a fit needs its reason"


def test_nothing_read_through_a_copy_is_graded_as_read_where_it_was_published():
    for _, row in ROWS:
        if row.printed.grade == "A":
            assert not publications()[row.printed.source].via, f"{row.what}: {row.printed.source} was read via a copy"


def test_no_table_and_no_printed_value_counts_too_often():
    rows = [row for (_, row), reason in zip(ROWS, REASONS, strict=True) if not reason]
    places = Counter((row.printed.source, row.printed.where, row.printed.digits) for row in rows)

    assert max(Counter(row.table for row in rows).values()) <= validation.MOST_OF_ONE_TABLE
    assert set(places.values()) == {1}
    assert not any(row.look_up or row.method_error for row in rows)


def test_the_validation_page_says_what_the_tests_say():
    assert validation.PAGE.read_text(encoding="utf-8") == validation.page(ROWS), "run python tests/validation.py"
