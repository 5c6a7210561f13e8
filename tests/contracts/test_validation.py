"""The outside checks are enough, honest, and written down."""

from __future__ import annotations

import validation
from pinfold.sources import publications

ROWS = validation.all_rows()


def test_at_least_sixty_rows_count_as_evidence():
    assert validation.counted(ROWS) >= 60


def test_every_row_names_a_known_source_and_an_honest_grade():
    for _, row in ROWS:
        assert row.printed.grade in validation.GRADES, row.what
        assert row.printed.source in publications(), row.what
        assert row.printed.where, row.what
        assert row.table, row.what
        assert not row.method_error or row.note, f"{row.what}: an allowance needs its reason"


def test_the_validation_page_says_what_the_tests_say():
    assert validation.PAGE.read_text(encoding="utf-8") == validation.page(ROWS), "run python tests/validation.py"
