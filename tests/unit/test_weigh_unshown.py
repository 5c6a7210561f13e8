"""What build-ups do not show or do not hold: what many share is told once, what one has besides by itself; what governs."""

from __future__ import annotations

from dataclasses import replace

from pinfold.findings import Verdict
from pinfold.reports.pages import Table
from pinfold.reports.weigh_options import weigh_page
from pinfold.reports.weigh_unshown import complained, unshown_of
from pinfold.studies.weighing.records import CRITERIA, Option, Score, Theme, Weighed, not_shown
from pinfold.studies.weighing.weighing import Weighing
from pinfold.units import System

HINGE = "NOT SHOWN: hinge, gate (weigh the leaf)"


def option(name: str, because: str, *complaints: str) -> Weighed:
    """A build-up of which nothing but its cost is missing."""
    scores = {each.key: not_shown(because) if each.theme is Theme.MONEY else Score(value=1.0) for each in CRITERIA}
    return Weighed(
        option=Option(name=name, says=name, change=()), scores=scores, verdict=Verdict.NOT_SHOWN, governs="",
        complaints=complaints,
    )  # fmt: skip


def weighing(*options: Weighed) -> Weighing:
    return Weighing(name="Plot", length=10.0, height=1.5, years=20, animals=(), people=1, currency="", digits=2,
                    sorted_by="", options=options)  # fmt: skip


def money(*options: Weighed) -> list[str]:
    return [each.text for each in unshown_of(weighing(*options), Theme.MONEY)]


def test_prices_missing_in_all_are_told_once_and_what_one_lacks_besides_by_itself() -> None:
    assert money(option("a", "no price for cement; sand"), option("b", "no price for cement; lime; sand")) == [
        "NOT SHOWN: cash now, cash later, per length of all of them: no price for cement; sand.",
        "b, besides: lime.",
    ]


def test_reasons_that_nothing_shares_stand_each_with_its_names() -> None:
    assert money(option("a", "no price for sand"), option("b", "no trips"), option("c", "no trips")) == [
        "NOT SHOWN: cash now, cash later, per length of a: no price for sand.",
        "NOT SHOWN: cash now, cash later, per length of b, c: no trips.",
    ]


def test_what_one_alone_does_not_show_names_it() -> None:
    shown = option("b", "")
    shown = replace(shown, scores={key: Score(value=1.0) for key in shown.scores})
    assert money(option("a", "no price for sand"), shown) == [
        "NOT SHOWN: cash now, cash later, per length of a: no price for sand."
    ]


def test_a_check_that_all_do_not_show_is_told_once_though_the_reason_differs_in_detail() -> None:
    near = "NOT SHOWN: clearance, pump cable (post {} comes nearest)"
    blocks = complained(weighing(
        option("a", "", HINGE, near.format("P8")), option("b", "", near.format("P9"), HINGE, "FAILS: bearing, b/1"),
    ))  # fmt: skip
    assert [each.text for each in blocks] == [
        "What fails or is not shown",
        "In every one of them: NOT SHOWN: hinge, gate (weigh the leaf); NOT SHOWN: clearance, pump cable (post P8 comes "
        "nearest).",
        "b: FAILS: bearing, b/1.",
    ]


def test_the_check_that_leaves_least_to_spare_stands_beside_the_others() -> None:
    one = replace(option("a", ""), governs="sliding, stretch south/1")
    tables = [
        each for each in weigh_page(weighing(one, option("b", "")), System.METRIC).blocks if isinstance(each, Table)
    ]
    assert [each.rows for each in tables if each.heads[1] == "leaves least to spare"] == [
        (("a", "sliding, stretch south/1"),)
    ]
