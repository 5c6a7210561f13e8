"""Which lessons go along to another plot, and why others stay."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from pinfold.logbook.carried import CarriedFigure, CarriedPrice, CarriedSite, marks_of
from pinfold.plan.stock import Prices
from pinfold.studies.lessons.records import Lesson, Lessons, Topic
from pinfold.studies.lessons.things import thing

DUG = ("aggregate", "earth", "stone")
"""Families of materials that another place has from another pit."""


class Going(StrEnum):
    """What may go along."""

    BINDERS = "binders"
    SAND = "sand"
    YIELDS = "yields"
    FOAM = "foam"
    COATS = "coats"
    PACE = "pace"
    PRICES = "prices"


SAYS: Mapping[Going, str] = {
    Going.BINDERS: "how loose cement and lime lie",
    Going.SAND: "how loose sand, gravel and earth lie: only where they come from the same pit",
    Going.YIELDS: "what a batch makes",
    Going.FOAM: "foam that collapses",
    Going.COATS: "mix that coats take",
    Going.PACE: "how long work takes",
    Going.PRICES: "what was last paid, for things that have no price there",
}
USUAL = tuple(each for each in Going if each is not Going.SAND)
"""What goes along unless told."""
_STAYS: Mapping[Topic, str] = {
    Topic.MEASURE: "what buckets hold belongs to the buckets: weigh those you take along there",
    Topic.SCALE: "scales are tried anew where they stand",
    Topic.MOISTURE: "water in the sand and its silt are of that heap and those days",
    Topic.STRENGTH: "strengths rest on the sand, the water and the keeping there: cast bodies of your own",
}
_TOPICS = {Topic.YIELD: Going.YIELDS, Topic.FOAM: Going.FOAM, Topic.PACE: Going.PACE}


@dataclass(frozen=True, kw_only=True)
class Packed:
    """What goes along from one plot.

    Attributes:
        site: what it says; without figures and prices where nothing goes.
        left: what stays, each with its reason.
    """

    site: CarriedSite
    left: tuple[str, ...]


def packed(
    name: str, lessons: Lessons, ids: Iterable[str], *, going: Iterable[Going] = USUAL, layers: frozenset[str]
) -> Packed:  # fmt: skip
    """What goes along of a plot's own lessons; what was carried there goes on by itself.

    Args:
        name: what the plot is called
        lessons: of it
        ids: of all entries of its log, those corrected and taken back too
        going: what is to go along
        layers: words for layers and work that are no words of the builder's own
    """
    wanted = frozenset(going)
    own = [lesson for lesson in lessons.lessons if lesson.count]
    kept = [lesson for lesson in own if not _stays(lesson, wanted, layers)]
    prices = lessons.prices
    return Packed(
        site=CarriedSite(
            name=name, marks=marks_of(ids), figures=tuple(_figure(each) for each in kept if each.alone is not None),
            currency=prices.currency, digits=prices.digits, prices=tuple(_prices(kept, prices)),
        ),
        left=tuple(dict.fromkeys(why for each in own if (why := _stays(each, wanted, layers)))),
    )  # fmt: skip


def _stays(lesson: Lesson, wanted: frozenset[Going], layers: frozenset[str]) -> str:
    """Why a lesson stays; empty for one that goes along."""
    if lesson.topic in _STAYS:
        return _STAYS[lesson.topic]
    of = going_of(lesson)
    if of is None:
        return f"{lesson.subject}: only told there"
    if of not in wanted:
        return f"{lesson.subject}: from another pit, unless you say it is the same" if of is Going.SAND else (
            f"{lesson.subject}: not asked for"
        )  # fmt: skip
    if of is Going.PACE and lesson.subject not in layers:
        return "pace of work named in your own words: words of yours do not go along"
    return ""


def going_of(lesson: Lesson) -> Going | None:
    """Under which word a lesson goes along; None for what is only told."""
    if lesson.topic is Topic.PRICE:
        return Going.PRICES if lesson.used else None
    if lesson.topic is Topic.BUCKET_WEIGHT:
        material = thing("materials", lesson.subject.partition(",")[0])
        if material is None or not lesson.subject.endswith(", loose"):
            return None
        return Going.SAND if material.word("family") in DUG else Going.BINDERS
    if lesson.topic is Topic.COVERAGE:
        return Going.COATS if lesson.subject.endswith(", mix used") else None
    return _TOPICS.get(lesson.topic)


def _figure(lesson: Lesson) -> CarriedFigure:
    assert lesson.alone is not None
    return CarriedFigure(
        topic=lesson.topic, subject=lesson.subject, per=lesson.per, value=lesson.alone.value,
        spread=lesson.alone.spread, count=lesson.count,
        since=lesson.since, last=lesson.last,
    )  # fmt: skip


def _prices(kept: Iterable[Lesson], prices: Prices) -> Iterator[CarriedPrice]:
    for lesson in kept:
        if lesson.topic is Topic.PRICE and lesson.subject in prices.by_item:
            yield CarriedPrice(price=prices.by_item[lesson.subject], last=lesson.last, count=lesson.count)
