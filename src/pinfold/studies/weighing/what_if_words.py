"""What is supposed, in plain words: `cement +20 %`, `wind one up`, `sand twice as far`, `a helper less` and so on."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import Prices
from pinfold.studies.weighing.supposing import Lacking
from pinfold.studies.weighing.what_if import ROUGHEST_FIRST, WATER, Supposed, Times
from pinfold.tables.shelf import Kind

MOST = 12
LONGEST = 80
EXAMPLES = "'cement +20 %', 'wind one up', 'sand twice as far', 'a helper less', 'posts half off the pile'"
_NUMBERS = {word: Fraction(number) for word, number in (
    ("a", 1), ("an", 1), ("one", 1), ("two", 2), ("three", 3), ("four", 4), ("five", 5), ("six", 6), ("twice", 2),
    ("double", 2), ("all", 1),
)} | {"half": Fraction(1, 2), "third": Fraction(1, 3), "quarter": Fraction(1, 4)}  # fmt: skip
_SHELVES = {
    "posts": ("posts",), "rails": ("rails",), "wires": ("rails",), "mesh": ("meshes",), "blocks": ("walls",),
    "bars": ("bars",), "gates": ("gates",), "fasteners": ("fasteners",),
}  # fmt: skip
_TRIPS = {"trips": "trip", "trip": "trip", "fuel": "trip", "hauling": "trip", "shop": "trip", "the shop": "trip"}
_COUNT = r"(a|an|one|two|three|four|five|six|\d+)"
_SHARE = r"(half|all|a third|a quarter|\d+(?:\.\d+)? ?%)"
_PERCENT = re.compile(r"^(.+?)(?: costs?| price)? ?([+-]) ?(\d+(?:\.\d+)?) ?%$")
_DEARER = re.compile(r"^(.+?) (?:costs )?(?:(\d+(?:\.\d+)?) ?% )(dearer|cheaper|more|less)$")
_TIMES = re.compile(r"^(.+?) (?:is |costs )?(half|twice|double|\d+(?:\.\d+)? times) (?:as dear|as much|the price)$")
_FAR = re.compile(r"^(.+?) (?:is |comes )?(half|twice|\d+(?:\.\d+)? times) as far(?: away)?$")
_WIND = re.compile(rf"^wind (?:{_COUNT} )?(?:class |classes )?(up|down)$")
_WIND_CLASS = re.compile(rf"^wind {_COUNT} class(?:es)? (up|down)$")
_PEOPLE = re.compile(rf"^{_COUNT} (?:helpers?|person|people|hands?) (less|fewer|more)$")
_CREW = re.compile(rf"^(?:(alone)|(?:with )?{_COUNT} (?:people|persons?|of us))$")
_PILE = re.compile(rf"^(?:(.+?) {_SHARE}|{_SHARE} (?:of )?(?:the )?(.+?)) (?:off|from|out of) (?:the )?pile$")


class Understood(NamedTuple):
    """What of some things can be supposed.

    Attributes:
        supposed: what can be, one after the other.
        lacking: what cannot, as the plan or its prices leave something out, and what.
    """

    supposed: tuple[Supposed, ...]
    lacking: tuple[Lacking, ...]


class _LeftOutError(InputError):
    """What is supposed hangs on something that the plan or its prices leave out."""


def supposed_of(texts: Sequence[str], *, plan: Enclosure, prices: Prices, items: Iterable[Kind]) -> Understood:
    """What is supposed, one after the other.

    Args:
        texts: such as `cement +20 %`
        plan: that it is supposed of
        prices: of the site
        items: things that the plan needs

    Raises:
        InvalidPlan: with every complaint about what cannot be read or cannot be so, or where nothing is left.
    """
    known = _Known(plan, prices, tuple(items))
    found: list[Supposed] = []
    lacking: list[Lacking] = []
    complaints: list[InputError] = []
    if len(texts) > MOST:
        raise InvalidPlan("what if", [InputError(f"{len(texts)} changes at once; at most {MOST} are looked at")])
    for text in texts:
        words, says = " ".join(text.lower().split()), text.strip()
        try:
            found.append(_one(says, words, known))
        except _LeftOutError as gap:
            lacking.append(Lacking(says[:LONGEST], gap.message))
        except InputError as mistake:
            complaints.append(InputError(mistake.message, place=repr(says[:LONGEST])))
    if complaints or not found:
        gaps = (InputError(each.because, place=repr(each.says)) for each in lacking)
        raise InvalidPlan("what if", [*complaints, *gaps])
    return Understood(tuple(found), tuple(lacking))


class _Known:
    """What words may mean here."""

    def __init__(self, plan: Enclosure, prices: Prices, kinds: tuple[Kind, ...]) -> None:
        self.plan, self.prices, self.kinds = plan, prices, kinds

    def items(self, words: str) -> list[str]:
        """Names of the items that words mean.

        Raises:
            InputError: the plan needs nothing of that name.
        """
        name = words.removeprefix("price of ").removeprefix("the ").removeprefix("all ")
        if name in ("everything", "prices", "goods"):
            return [kind.name for kind in self.kinds]
        singular = name.removesuffix("s")
        found = [
            kind.name for kind in self.kinds
            if kind.name == name or kind.shelf in _SHELVES.get(name, ())
            or {name.replace(" ", "-"), singular.replace(" ", "-")} & {kind.name.lower(), *kind.name.lower().split("-")}
        ]  # fmt: skip
        if not found:
            known = ", ".join(dict.fromkeys(kind.name for kind in self.kinds))
            raise InputError(f"the plan needs nothing called {words!r}; it needs: {known}")
        return found


def _one(text: str, words: str, known: _Known) -> Supposed:
    for pattern, read in _WAYS:
        match = pattern.match(words) if len(words) <= LONGEST else None
        if match is not None:
            return read(text, match, known)
    raise InputError(f"cannot be read; write one like {EXAMPLES}")


def _percent(text: str, match: re.Match[str], known: _Known) -> Supposed:
    share = Fraction(match[3]) / 100 * (-1 if match[2] == "-" else 1)
    return _priced(text, match[1], 1 + share, known)


def _dearer(text: str, match: re.Match[str], known: _Known) -> Supposed:
    share = Fraction(match[2]) / 100 * (-1 if match[3] in ("cheaper", "less") else 1)
    return _priced(text, match[1], 1 + share, known)


def _times(text: str, match: re.Match[str], known: _Known) -> Supposed:
    return _priced(text, match[1], _number(match[2]), known)


def _priced(text: str, what: str, factor: Fraction, known: _Known) -> Supposed:
    if not 0 <= factor <= 100:
        raise InputError("a price from nothing to a hundred times as much is wanted")
    if what in ("wind", "wind speed"):
        if known.plan.place.wind_speed is None:
            raise _LeftOutError("the plan gives no wind speed; write wind_speed under [place]")
        return Supposed(says=text, wind=float(factor))
    if what in _TRIPS or what == WATER:
        _wants_trips(what, known.prices)
        return Supposed(says=text, prices=(Times(_TRIPS.get(what, WATER), factor),))
    priced = [name for name in known.items(what) if name in known.prices.by_item]
    if not priced:
        raise _LeftOutError(f"no price is known for {what}; write it into prices.toml")
    return Supposed(says=text, prices=tuple(Times(name, factor) for name in priced))


def _wants_trips(what: str, prices: Prices) -> None:
    key = "water_trip" if what == WATER else "trip"
    if getattr(prices, key) is None:
        raise _LeftOutError(f"the price list gives no cost of such a trip; write {key} into prices.toml")


def _far(text: str, match: re.Match[str], known: _Known) -> Supposed:
    what, factor = match[1], _number(match[2])
    if what in _TRIPS or what in (WATER, "the water"):
        return Supposed(says=text, ways=(Times(_TRIPS.get(what, WATER), factor),))
    items = [name for name in known.items(what) if name in known.prices.by_item]
    if not items:
        raise _LeftOutError(f"no price is known for {what}, onto which the longer way goes; write it into prices.toml")
    _wants_trips("trip", known.prices)
    if known.plan.haul.payload is None:
        raise _LeftOutError("the plan gives no payload; write payload under [haul]")
    return Supposed(says=text, ways=tuple(Times(name, factor) for name in items))


def _wind(text: str, match: re.Match[str], known: _Known) -> Supposed:
    exposures, own = ROUGHEST_FIRST[known.plan.family], known.plan.place.exposure
    if own not in exposures:
        raise _LeftOutError("the plan gives no exposure; write exposure under [place]")
    steps = int(_number(match[1] or "one")) * (1 if match[2] == "up" else -1)
    if not 0 <= exposures.index(own) + steps < len(exposures):
        raise InputError(f"exposure {own} has no class so far {match[2]}; there are {', '.join(exposures)}")
    return Supposed(says=text, classes=steps)


def _people(text: str, match: re.Match[str], known: _Known) -> Supposed:
    more = int(_number(match[1])) * (1 if match[2] == "more" else -1)
    if known.plan.people.count + more < 1:
        raise InputError(f"nobody would be left: the plan has {known.plan.people.count} at work")
    return Supposed(says=text, people=more)


def _crew(text: str, match: re.Match[str], known: _Known) -> Supposed:
    del known
    count = 1 if match[1] else int(_number(match[2]))
    if not 1 <= count <= 100:
        raise InputError("from 1 to 100 people are wanted")
    return Supposed(says=text, crew=count)


def _pile(text: str, match: re.Match[str], known: _Known) -> Supposed:
    what, share = (match[1] or match[4]), _number(match[2] or match[3])
    if not 0 < share <= 1:
        raise InputError("a share from above nothing to all of it is wanted")
    return Supposed(says=text, from_pile=tuple(Times(name, share) for name in known.items(what)))


def _number(text: str) -> Fraction:
    word = text.removeprefix("a ").removesuffix(" times").strip()
    if word.endswith("%"):
        return Fraction(word.removesuffix("%").strip()) / 100
    return _NUMBERS[word] if word in _NUMBERS else Fraction(word)


_WAYS = (
    (_PILE, _pile), (_WIND_CLASS, _wind), (_WIND, _wind), (_PEOPLE, _people), (_CREW, _crew), (_FAR, _far),
    (_PERCENT, _percent), (_DEARER, _dearer), (_TIMES, _times),
)  # fmt: skip
