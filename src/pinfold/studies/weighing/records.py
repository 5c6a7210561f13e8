"""What weighing gives: build-ups to choose from, what they are judged on, and how each came out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.findings import Step, Verdict
from pinfold.plan.changes import Change
from pinfold.sources import Standing
from pinfold.units import CUBIC_METER, KILOGRAM, RATIO, SECOND, Unit


class Better(StrEnum):
    """Which way a criterion is better."""

    LESS = "less"
    MORE = "more"


class Shown(StrEnum):
    """How the number of a criterion is shown."""

    MONEY = "money"  # in the smallest coin
    MONEY_PER_LENGTH = "money per length"  # in the smallest coin for a meter
    AMOUNT = "amount"  # in the unit of the criterion
    COUNT = "count"
    SHARE = "share"  # of one, as percent
    HOURS = "hours"  # of work; the number is in seconds
    DAYS = "days"  # from the first to the last
    YEARS = "years"


class Theme(StrEnum):
    """What criteria stand together in one table."""

    MONEY = "money"
    WORK = "work"
    STUFF = "stuff"
    SAFETY = "safety"
    USE = "use"


class Criterion(NamedTuple):
    """One thing that build-ups are judged on.

    Attributes:
        key: how a command, a link or a limit names it.
        says: in a few words, as the table heads it.
        asks: what it tells, in one line.
        theme: with which others it stands.
        shown: how its number is shown.
        unit: SI unit of its number; plain for money, counts and shares, seconds for hours of work.
        better: less or more.
    """

    key: str
    says: str
    asks: str
    theme: Theme
    shown: Shown
    better: Better
    unit: Unit = RATIO


_LESS, _MORE = Better.LESS, Better.MORE
CRITERIA: tuple[Criterion, ...] = (
    Criterion("cash_now", "cash now", "goods, trips to the shop and for water", Theme.MONEY, Shown.MONEY, _LESS),
    Criterion("cash_later", "cash later", "upkeep and replacing over the years asked, at today's prices",
              Theme.MONEY, Shown.MONEY, _LESS),
    Criterion("cost_per_length", "per length", "cash now for a length of enclosure",
              Theme.MONEY, Shown.MONEY_PER_LENGTH, _LESS),
    Criterion("hours", "hours", "work of all hands, by the norms or your own pace",
              Theme.WORK, Shown.HOURS, _LESS, SECOND),
    Criterion("days", "days", "from the first day to the last, with the people there are",
              Theme.WORK, Shown.DAYS, _LESS),
    Criterion("skills", "skills", "crafts to learn or to hire", Theme.WORK, Shown.COUNT, _LESS),
    Criterion("tools", "tools", "tools beyond shovel, barrow, hammer and level", Theme.WORK, Shown.COUNT, _LESS),
    Criterion("water", "water", "mixing, washing, keeping damp", Theme.STUFF, Shown.AMOUNT, _LESS, CUBIC_METER),
    Criterion("cement", "cement", "in every mix", Theme.STUFF, Shown.AMOUNT, _LESS, KILOGRAM),
    Criterion("hauled", "hauled", "weight of all that is hauled from the shop",
              Theme.STUFF, Shown.AMOUNT, _LESS, KILOGRAM),
    Criterion("trips", "trips", "to the shop and for water", Theme.STUFF, Shown.COUNT, _LESS),
    Criterion("carbon", "carbon", "carbon dioxide set free by making it", Theme.STUFF, Shown.AMOUNT, _LESS, KILOGRAM),
    Criterion("margin", "to spare", "strength of wall and fence left over where least is; below nothing it fails",
              Theme.SAFETY, Shown.SHARE, _MORE),
    Criterion("cracking", "cracks", "probability that its lowest bed cracks within the years, where it stands worst",
              Theme.SAFETY, Shown.SHARE, _LESS),
    Criterion("falling", "falls", "probability that its wall falls within the years, where it stands worst",
              Theme.SAFETY, Shown.SHARE, _LESS),
    Criterion("frost", "frost", "depth to spare below the frost, of what is founded least deep",
              Theme.SAFETY, Shown.SHARE, _MORE),
    Criterion("wet", "wet", "strength of the wall left when it is soaked", Theme.USE, Shown.SHARE, _MORE),
    Criterion("tightness", "kept out", "share of the animals asked that it keeps out", Theme.USE, Shown.SHARE, _MORE),
    Criterion("life", "life", "years until a part that bears the rest is worn out",
              Theme.USE, Shown.YEARS, _MORE),
    Criterion("upkeep", "upkeep", "hours of upkeep in a year", Theme.USE, Shown.HOURS, _LESS, SECOND),
    Criterion("reclaimable", "reclaimed", "share of its weight that can be taken down and used again",
              Theme.USE, Shown.SHARE, _MORE),
)  # fmt: skip
CRITERION_BY_KEY: Mapping[str, Criterion] = {each.key: each for each in CRITERIA}


class Size(NamedTuple):
    """One further size of a build-up.

    Attributes:
        says: what is other in it than in the leanest.
        change: what choosing it writes into the plan.
    """

    says: str
    change: Change


@dataclass(frozen=True, kw_only=True)
class Option:
    """A build-up to choose.

    Attributes:
        name: how a command or a link names it; `as planned` for the plan as it stands.
        says: what it is, in one line.
        change: what choosing it writes into the plan; empty for the plan as it stands.
        size: which of several sizes that is and why; empty where there is one only.
        stouter: further sizes, each stouter than the one before, that may hold where this one does not.
    """

    name: str
    says: str
    change: Change
    size: str = ""
    stouter: tuple[Size, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Score:
    """How one option came out on one criterion.

    Attributes:
        value: in SI of the criterion's unit, money in the smallest coin; None where it is not shown.
        low: end of its spread; None where it is not shown or no spread is known.
        high: likewise.
        standing: the weakest of what went in.
        because: what it rests on; where it is not shown, what is missing.
        working: lines of working that lead to it.
        figures: the figures that went in.
    """

    value: float | None
    low: float | None = None
    high: float | None = None
    standing: Standing = Standing.DERIVED
    because: str = ""
    working: tuple[Step, ...] = ()
    figures: tuple[tuple[str, Figure], ...] = ()

    @property
    def is_shown(self) -> bool:
        """Whether there is a number."""
        return self.value is not None


def not_shown(because: str, figures: tuple[tuple[str, Figure], ...] = ()) -> Score:
    """A score that cannot be told, and why."""
    return Score(value=None, because=because, figures=figures)


@dataclass(frozen=True, kw_only=True)
class Kept:
    """One animal at an enclosure.

    Attributes:
        name: of the shelf `passers`.
        says: in words.
        is_out: whether it is kept out; None where that is not shown.
        fence: the ways that wall, mesh and ground leave it; empty where they keep it out.
        gates: likewise the gates.
        figures: what that rests on.
    """

    name: str
    says: str
    is_out: bool | None
    fence: str
    gates: str
    figures: tuple[tuple[str, Figure], ...]

    @property
    def fence_out(self) -> bool | None:
        """Whether wall, mesh and ground keep it out, however the gates are; None where that is not shown."""
        return None if self.fence.startswith(Verdict.NOT_SHOWN.value) else not self.fence

    @property
    def told_of_fence(self) -> str:
        """In words, what wall, mesh and ground leave it."""
        return f"{self.says}: {self.fence or 'kept out'}"

    @property
    def told(self) -> str:
        """In words."""
        ways = "; ".join(way for way in (self.fence, self.gates) if way)
        return f"{self.says}: {ways or 'kept out'}"


@dataclass(frozen=True, kw_only=True)
class Weighed:
    """One option judged.

    Attributes:
        option: which.
        scores: by key of the criterion; empty where it cannot be built here.
        verdict: whether everything in it holds.
        governs: the check that leaves least to spare, and where; empty where none is shown.
        complaints: what fails or is not shown, or why it cannot be built here.
        kept: each animal that was asked about.
        unshown: every check that is not shown, with what it is of.
        given: every check that fails of what the plan gives whatever is chosen, leaves of gates and neighbors.
        only_given: whether nothing else fails.
    """

    option: Option
    scores: Mapping[str, Score]
    verdict: Verdict
    governs: str
    complaints: tuple[str, ...]
    kept: tuple[Kept, ...] = ()
    unshown: tuple[str, ...] = ()
    given: tuple[str, ...] = ()
    only_given: bool = False

    @property
    def can_be_built(self) -> bool:
        """Whether the plan could be laid out with it."""
        return bool(self.scores)

    @property
    def fails(self) -> bool:
        """Whether it can be built and a check of it fails."""
        return self.can_be_built and self.verdict is Verdict.FAILS

    def fails_beside(self, common: frozenset[str]) -> bool:
        """Whether a check of it fails beside some of what the plan gives."""
        return self.fails and not (self.only_given and common.issuperset(self.given))


def unshown_in_all(options: Iterable[Weighed]) -> frozenset[str]:
    """Checks that none of several options shows, as it is the plan that hides them; of one alone nobody can tell."""
    return _in_all(each.unshown for each in options if each.can_be_built)


def failing_in_all(options: Iterable[Weighed]) -> frozenset[str]:
    """Checks of what the plan gives that fail in every one of several options; of one alone nobody can tell."""
    return _in_all(each.given for each in options if each.can_be_built)


def _in_all(many: Iterable[tuple[str, ...]]) -> frozenset[str]:
    each = [frozenset(names) for names in many]
    return frozenset.intersection(*each) if len(each) > 1 else frozenset()
