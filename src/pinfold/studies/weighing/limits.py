"""Limits in plain words: `cash under 900`, `no more than two trips`, `rabbits out`, `must hold`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.stock import Prices
from pinfold.studies.weighing.limit_values import COUNTS, value_of
from pinfold.studies.weighing.records import CRITERIA, CRITERION_BY_KEY, Better, Criterion, Shown
from pinfold.tables.shelf import shelf
from pinfold.units import System

LONGEST = 2000
MOST = 40


class Bound(StrEnum):
    """On which side of its number a limit lets a criterion be; with the number itself."""

    MOST = "at most"
    LEAST = "at least"


class Limit(NamedTuple):
    """One limit.

    Attributes:
        criterion: on what.
        bound: at most or at least.
        value: in SI of the criterion's unit, money in the smallest coin.
        text: as it was written.
    """

    criterion: Criterion
    bound: Bound
    value: float
    text: str


@dataclass(frozen=True, kw_only=True)
class Limits:
    """All that an option is asked to keep to.

    Attributes:
        limits: on criteria, as written one after the other.
        holds: whether every check has to hold.
        animals: of shelf `passers` that must be kept out; empty where none are asked.
    """

    limits: tuple[Limit, ...] = ()
    holds: bool = False
    animals: tuple[str, ...] = ()

    @property
    def all(self) -> tuple[Limit, ...]:
        """Every limit, with what must hold and what must be kept out as limits on their criteria."""
        holds = (Limit(CRITERION_BY_KEY["margin"], Bound.LEAST, 0.0, "must hold"),) if self.holds else ()
        names = ", ".join(shelf("passers")[name].says.partition(",")[0] for name in self.animals)
        out = (Limit(CRITERION_BY_KEY["tightness"], Bound.LEAST, 1.0, f"{names} out"),) if self.animals else ()
        return (*self.limits, *holds, *out)


_NAMES: dict[str, tuple[str, ...]] = {
    "cash_now": ("cash", "money", "cost", "costs", "price", "it costs"),
    "cash_later": ("later cost", "later costs"),
    "cost_per_length": ("cost per length", "cost per foot", "cost per meter", "per foot", "per meter"),
    "hours": ("hour", "work", "labor"), "days": ("day", "built", "done", "finished", "ready"),
    "skills": ("skill", "crafts", "craft"), "tools": ("tool",), "water": (), "cement": (),
    "hauled": ("haul", "weight", "hauled weight"), "trips": ("trip",), "carbon": (),
    "margin": ("margin", "spare", "strength to spare"), "cracking": ("crack", "cracking", "chance of cracking"),
    "falling": ("fall", "falling", "chance of falling"), "frost": (), "wet": ("wet strength",),
    "tightness": ("tightness",), "life": ("lasts", "last", "it lasts"), "upkeep": (),
    "reclaimable": ("reclaimable",),
}  # fmt: skip
_KEY_BY_NAME = {
    name: key for key, criterion in CRITERION_BY_KEY.items()
    for name in (key, key.replace("_", " "), criterion.says, *_NAMES.get(key, ()))
}  # fmt: skip
_LENGTHS = {"per foot": 0.3048, "per meter": 1.0}
_RELATIONS = {
    Bound.MOST: ("no more than", "not more than", "not over", "at most", "less than", "fewer than", "up to", "within",
                 "under", "below", "in", "max", "<=", "≤", "<"),
    Bound.LEAST: ("no less than", "not less than", "not under", "at least", "more than", "over", "above", "min", ">=",
                  "≥", ">"),
}  # fmt: skip
_BOUND_BY_WORDS = {words: bound for bound, many in _RELATIONS.items() for words in many}
_WHOLE = r"(?!\S)"
_RELATION = re.compile(
    "".join((r"(?:^|\s+)(", "|".join(re.escape(words) + (_WHOLE if words[-1].isalpha() else "")
                                    for words in sorted(_BOUND_BY_WORDS, key=len, reverse=True)), r")\s*"))
)  # fmt: skip
_FILLING = re.compile(r"\s+(?:is|are|be|must be|should be|stays|stay|takes|take|costs?)$")
_HOLDS = {"must hold", "holds", "it holds", "must stand", "has to hold", "everything holds", "all holds", "hold"}
_OUT = re.compile(r"^(?:keep(?:s)?\s+)?(.+?)\s+(?:out|kept out|stay(?:s)? out)$|^no\s+(.+?)\s+(?:in|inside)$")
_BETWEEN = re.compile(r"\s*(?:[;\n]|,(?!\d)|\band\b)\s*")


def limits_of(text: str, *, prices: Prices, system: System) -> Limits:
    """What a builder asks, read from words; apart by commas, semicolons, lines or `and`.

    Args:
        text: such as `cash under 900, no more than two trips, rabbits out, must hold`
        prices: for the currency and its decimals
        system: of the plan, for the examples in complaints

    Raises:
        InvalidPlan: with every complaint about what cannot be read, or bars itself.
    """
    parts = [part for part in _BETWEEN.split(text[: LONGEST + 1].strip()) if part]
    if len(text) > LONGEST or len(parts) > MOST:
        raise InvalidPlan("limits", [InputError(f"too much at once: at most {MOST} limits are read")])
    limits, animals, complaints, holds = [], [], [], False
    for part in parts:
        words = " ".join(part.lower().split())
        try:
            if words in _HOLDS:
                holds = True
            elif (named := _OUT.match(words)) is not None:
                animals += _animals(named[1] or named[2])
            else:
                limits.append(_limit(part.strip(), words, prices, system))
        except InputError as mistake:
            complaints.append(InputError(mistake.message, place=repr(part.strip())[:80]))
    complaints += _barred(limits)
    if complaints:
        raise InvalidPlan("limits", complaints)
    return Limits(limits=tuple(limits), holds=holds, animals=tuple(dict.fromkeys(animals)))


def _animals(words: str) -> list[str]:
    """Everyone of the shelf that the words name: `rabbits` young and grown ones, `all` everyone."""
    asked = re.sub(r"^(?:the|all|any)\s+", "", words)
    if asked in ("all", "everything", "everyone"):
        return list(shelf("passers"))
    singular = {"mice": "mouse", "sheep": "sheep", "children": "child"}.get(asked, asked.removesuffix("s"))
    singular = {"foxe": "fox", "kid": "lamb-or-kid", "lamb": "lamb-or-kid", "dog": "small-dog"}.get(singular, singular)
    wanted = singular.replace(" ", "-")
    found = [name for name in shelf("passers") if name == wanted or wanted in name.split("-")]
    if not found:
        known = ", ".join(name.replace("-", " ") for name in shelf("passers"))
        raise InputError(f"{words!r} is nobody that pinfold knows; there are: {known}")
    return found


def _limit(written: str, words: str, prices: Prices, system: System) -> Limit:
    key, bound, amount = _taken_apart(words)
    criterion = CRITERION_BY_KEY[key]
    value = value_of(amount, criterion, prices=prices, system=system)
    if criterion.shown is Shown.MONEY_PER_LENGTH:
        value /= next((length for words_, length in _LENGTHS.items() if words_ in words), _own_length(system))
    return Limit(criterion=criterion, bound=bound, value=value, text=written)


def _own_length(system: System) -> float:
    return _LENGTHS["per foot" if system is System.US else "per meter"]


def _taken_apart(words: str) -> tuple[str, Bound, str]:
    """Criterion, bound and amount of one limit.

    Raises:
        InputError: one of them cannot be made out.
    """
    if words.startswith("no ") and (key := _KEY_BY_NAME.get(words[3:])) is not None:
        return key, Bound.MOST, "0"
    relation = _RELATION.search(words)
    if relation is None:
        return _without_relation(words)
    before, after = words[: relation.start()].strip(), words[relation.end() :].strip()
    bound = _BOUND_BY_WORDS[relation[1]]
    if before:
        return key_named(before if before in _KEY_BY_NAME else _FILLING.sub("", before)), bound, after
    name, amount = _name_behind(after)
    return key_named(name), bound, amount


def _without_relation(words: str) -> tuple[str, Bound, str]:
    """`lasts 20 years`: the better way of the criterion is meant."""
    name = max((name for name in _KEY_BY_NAME if words.startswith(f"{name} ")), key=len, default="")
    if not name:
        raise InputError(
            "no limit can be made out; write one like 'cash under 900', 'no more than two trips', 'rabbits out' or "
            f"'must hold'; there are: {_known()}"
        )
    key = _KEY_BY_NAME[name]
    bound = Bound.MOST if CRITERION_BY_KEY[key].better is Better.LESS else Bound.LEAST
    return key, bound, words[len(name) :].strip()


def _name_behind(after: str) -> tuple[str, str]:
    """Name and amount of what stands behind a relation: `two trips`, `120 hours`, `900 of cash`."""
    name = max((name for name in _KEY_BY_NAME if after.endswith(f" {name}")), key=len, default="")
    amount = after.removesuffix(name).strip().removesuffix(" of").removesuffix(" in").strip()
    counted = name in _KEY_BY_NAME and CRITERION_BY_KEY[_KEY_BY_NAME[name]].shown in (*COUNTS, Shown.HOURS)
    return name or after, f"{amount} {name}" if counted else amount


def key_named(name: str) -> str:
    """Key of the criterion that a name means, such as `cash_now`, `cash now` or `cost`.

    Raises:
        InputError: none is called so.
    """
    found = _KEY_BY_NAME.get(" ".join(name.lower().split()))
    if found is None:
        raise InputError(f"{name!r} is nothing that build-ups are weighed on; there are: {_known()}")
    return found


def _known() -> str:
    return ", ".join(each.says for each in CRITERIA)


def _barred(limits: list[Limit]) -> list[InputError]:
    """Limits on one criterion between which nothing is left."""
    least = [limit for limit in limits if limit.bound is Bound.LEAST]
    most = [limit for limit in limits if limit.bound is Bound.MOST]
    return [
        InputError(f"{low.text!r} and {high.text!r} leave nothing between them") for low in least for high in most
        if high.criterion is low.criterion and high.value < low.value
    ]  # fmt: skip
