"""One plan judged on every criterion."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Verdict, overall
from pinfold.studies.weighing import money_scores, safety_scores, stuff_scores, use_scores, work_scores
from pinfold.studies.weighing.keeping_out import kept_out
from pinfold.studies.weighing.records import CRITERIA, Option, Score, Weighed, not_shown
from pinfold.studies.weighing.subject import Asked, Subject

Scorer = Callable[[Subject, Asked], Score]
SCORERS: Mapping[str, Scorer] = {
    "cash_now": money_scores.cash_now, "cash_later": money_scores.cash_later,
    "cost_per_length": money_scores.cost_per_length,
    "hours": work_scores.hours, "days": work_scores.days, "skills": work_scores.skills, "tools": work_scores.tools,
    "water": stuff_scores.water, "cement": stuff_scores.cement, "hauled": stuff_scores.hauled,
    "trips": stuff_scores.trips, "carbon": stuff_scores.carbon,
    "margin": safety_scores.margin, "cracking": safety_scores.cracking, "falling": safety_scores.falling,
    "frost": safety_scores.frost,
    "wet": use_scores.wet, "tightness": use_scores.tightness, "life": use_scores.life, "upkeep": use_scores.upkeep,
    "reclaimable": use_scores.reclaimable,
}  # fmt: skip


def judged(option: Option, subject: Subject, asked: Asked) -> Weighed:
    """A plan judged on every criterion; what cannot be told says why, and the rest answers."""
    return Weighed(
        option=option, scores={each.key: _scored(each.key, subject, asked) for each in CRITERIA},
        verdict=overall(subject.findings), governs=safety_scores.governs(subject),
        complaints=safety_scores.complaints(subject.findings), kept=kept_out(subject.layout, asked.animals),
        unshown=safety_scores.unshown(subject.findings), given=safety_scores.given(subject.findings),
        only_given=safety_scores.only_given(subject.findings),
    )  # fmt: skip


def _scored(key: str, subject: Subject, asked: Asked) -> Score:
    try:
        return SCORERS[key](subject, asked)
    except (NotFoundError, OutOfRangeError) as unknown:
        return not_shown(str(unknown))


def not_built(option: Option, why: str) -> Weighed:
    """An option that cannot be built here."""
    return Weighed(
        option=option, scores={}, verdict=Verdict.FAILS, governs="", complaints=(f"cannot be built here: {why}",)
    )
