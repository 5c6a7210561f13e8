"""The normal update against a printed example: brain volumes of 25 players, read with its output."""

from __future__ import annotations

import pytest

from pinfold.formulas import learning
from published import Printed
from rows import Row

PLACE = "chapter 5, example of 25 players, prior 6.5 and 0.4, 25 readings of mean 5.735 and scatter 0.5"
POSTERIOR = learning.normal_posterior(prior=6.5, prior_spread=0.4, mean=5.735, spread=0.5, count=25.0)


def row(what: str, digits: str, ours: float) -> Row:
    printed = Printed(digits, "BAYES-RULES", PLACE, "R")
    return Row(what, printed, lambda: ours, "normal update, example", formula="learning.normal_posterior")


ROWS = (
    row("value after readings", "5.78", POSTERIOR.value),
    row("spread after readings", "0.09701425", POSTERIOR.spread),
)


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_print(row: Row) -> None:
    assert row.printed.fits(row.ours())
