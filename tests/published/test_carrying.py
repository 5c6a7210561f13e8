"""Shares and rates by counting against printed output of the conjugate models."""

from __future__ import annotations

import pytest

from pinfold.formulas import carrying
from published import Printed
from rows import Row

BETA = "beta-binomial summaries printed by the book's own package, as a public course prints them"
FEW = carrying.share_by_counting(before_yes=2.0, before_no=10.0, yes=23.0, no=7.0)
FILMS = carrying.share_by_counting(before_yes=5.0, before_no=11.0, yes=9.0, no=11.0)
THOUGHT = carrying.share_by_counting(before_yes=2.0, before_no=10.0, yes=0.0, no=0.0)
BIRTHS = carrying.share_by_counting(before_yes=1.0, before_no=1.0, yes=437.0, no=543.0)


def share(what: str, digits: str, ours: float, where: str) -> Row:
    printed = Printed(digits, "BAYES-RULES", f"{BETA}: {where}", "A2")
    return Row(what, printed, lambda: ours, "beta-binomial summaries", formula="carrying.share_by_counting")


ROWS = (
    share("share after 23 of 30, before 2 and 10", "0.5952381", FEW.mean, "alpha 2, beta 10, y 23, n 30"),
    share("spread of that share", "0.0748533", FEW.spread, "alpha 2, beta 10, y 23, n 30"),
    share("share before", "0.1666667", THOUGHT.mean, "alpha 2, beta 10"),
    share("spread of the share before", "0.1033623", THOUGHT.spread, "alpha 2, beta 10"),
    share("share after 9 of 20, before 5 and 11", "0.3888889", FILMS.mean, "alpha 5, beta 11, y 9, n 20"),
    share("spread after 9 of 20", "0.08014418", FILMS.spread, "alpha 5, beta 11, y 9, n 20"),
    Row(
        "share of girls, 437 of 980, nothing thought before",
        Printed("0.44602851", "BDA-BIRTHS", "mean of Beta(438, 544), as a public notebook prints it", "A2"),
        lambda: BIRTHS.mean, "births with placenta previa", formula="carrying.share_by_counting",
    ),
)  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_print(row: Row) -> None:
    assert row.printed.fits(row.ours())
