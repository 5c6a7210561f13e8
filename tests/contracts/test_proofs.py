"""Every formula has its proofs, or it is written down that a printed one was not found."""

from __future__ import annotations

import pytest

import proofs
from pinfold.formulas import catalog

FORMULAS = sorted(catalog.formulas())


@pytest.mark.parametrize("name", FORMULAS)
def test_a_printed_value_vouches_for_it_or_the_ledger_says_why_none_does(name):
    rows = proofs.rows_by_formula()[name]

    assert (rows > 0) != (name in proofs.WITHOUT_PRINT), (rows, proofs.WITHOUT_PRINT.get(name))


@pytest.mark.parametrize("name", FORMULAS)
def test_a_law_a_rival_or_a_hand_limit_calls_it(name):
    assert name in proofs.called_in_laws(), f"no test in {' or '.join(proofs.FOLDERS)} calls {name}"


def test_rows_and_ledger_name_no_formula_that_is_gone():
    assert set(proofs.rows_by_formula()) - set(FORMULAS) == set()
    assert set(proofs.WITHOUT_PRINT) - set(FORMULAS) == set()
