"""Every bank of earth and the walls that hold it: overturning, sliding, bearing and the lowest bed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import lru_cache, partial

from pinfold.findings import Finding, Verdict
from pinfold.plan.grounds import Bank
from pinfold.plan.place import Family
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.beds import foot_of_wall
from pinfold.studies.stability.cases import Action, Case, Exposed
from pinfold.studies.stability.earth.pressing import pressed_by, said
from pinfold.studies.stability.earth.shares import BED, PASSIVE_SHARE, STANDING
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import Combination
from pinfold.studies.stability.height import standing_cautions
from pinfold.studies.stability.pieces import caution, limit
from pinfold.studies.stability.walls import bearing, overturning, sliding

LEFT_OUT = (
    "the bank's weight on the ledge of the footing against sliding, and the part of its push that leans down, which "
    "would help; the whole slope sliding with the wall; wet earth that freezes behind it; rollers and wheels close to "
    "it; help from returns and piers"
)
MEND = "a drain behind the wall, a lower bank, or a wider and heavier base"
MEND_SLIDING = f"{MEND}; or passive = true, where the earth in front is tamped and never dug away"
_SAME = 0.005

Check = Callable[[Case], Finding]


def held_banks(banks: Iterable[Bank], standings: Mapping[str, Exposed]) -> tuple[Finding, ...]:
    """The findings on every bank, wall by wall along it."""
    by_side: dict[str, list[Exposed]] = {}
    for each in standings.values():
        by_side.setdefault(each.stretch.side, []).append(each)
    return tuple(
        finding
        for bank in banks
        for each in by_side.get(bank.side, ())
        if has_wall(each.stretch) and _along(bank, each)
        for finding in _holds(bank, each)
    )


def _along(bank: Bank, each: Exposed) -> bool:
    return min(bank.end, each.stretch.end) - max(bank.start, each.stretch.start) > _SAME


@lru_cache(maxsize=64)  # while one corner is dragged, most stretches stay what they were
def _holds(bank: Bank, each: Exposed) -> tuple[Finding, ...]:
    checks: tuple[tuple[str, Check, Mapping[Family, Combination]], ...] = (
        ("overturning", overturning, STANDING), ("sliding", sliding, STANDING), ("bearing", bearing, STANDING),
        ("bed-joint tension", foot_of_wall, BED),
    )  # fmt: skip
    wall = _without_piers(each)
    return tuple(_worst(bank, wall, check, find, factors[each.family]) for check, find, factors in checks)


def _without_piers(each: Exposed) -> Exposed:
    """The wall as it stands by itself: whether it spans from pier to pier under earth is not looked at."""
    buildup = each.stretch.buildup
    if buildup.piers is None:
        return each
    return replace(each, stretch=replace(each.stretch, buildup=replace(buildup, piers=None)))


def _worst(bank: Bank, each: Exposed, check: str, find: Check, factors: Combination) -> Finding:
    question = Question(
        check=check, subject=f"stretch {each.stretch.name}, bank {bank.name}", left_out=LEFT_OUT,
        caution=_cautions(bank, each) if check == "overturning" else "",
    )  # fmt: skip
    found = answered(question, lambda: _with_wind_or_alone(bank, each, find, factors))
    slides = check == "sliding" and not bank.passive
    mend = "" if found.verdict is not Verdict.FAILS else MEND_SLIDING if slides else MEND
    passive = (("share of the earth in front", PASSIVE_SHARE),) if bank.passive and check == "sliding" else ()
    return replace(
        found, left_out=LEFT_OUT, mend=mend, figures=(*found.figures, *passive),
        because=told(found.because, said(bank) if check == "sliding" else ""),
    )  # fmt: skip


def _with_wind_or_alone(bank: Bank, each: Exposed, find: Check, factors: Combination) -> Finding:
    """Earth and wind; where the two cannot be told together, the earth alone may fail, but never hold."""
    resting = find is overturning
    both = _over(bank, each, find, pressed_by(bank, factors, resting=resting))
    if both.verdict is not Verdict.NOT_SHOWN:
        return both
    alone = _over(bank, each, find, pressed_by(bank, factors, wind=False, resting=resting))
    if alone.verdict is not Verdict.FAILS:
        return both
    return replace(alone, because=told("the earth alone is too much, without any wind", alone.because))


def _over(bank: Bank, each: Exposed, find: Check, action: Action) -> Finding:
    """The worst step along the bank."""
    return governing(tried(partial(find, case)) for case in each.under(action) if _beside(bank, each, case))


def _beside(bank: Bank, each: Exposed, case: Case) -> bool:
    step, start = case.piece.step, each.stretch.start
    return min(bank.end, start + step.end) - max(bank.start, start + step.start) > _SAME


def _cautions(bank: Bank, each: Exposed) -> str:
    """The engineer is named where a bank is high, measured from the underside of the footing, or carries a load."""
    deepest = max((step.lowest_ground - step.footing_bottom for step in each.stretch.steps), default=0.0)
    high = bank.height + deepest > limit("retaining") or bank.surcharge > 0
    return " ".join((*([caution("retaining")] if high else []), standing_cautions(each.stretch)))
