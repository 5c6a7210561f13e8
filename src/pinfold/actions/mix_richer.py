"""What a richer or leaner mix does on a site, by a mix, a coat or a layer."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from, as_html
from pinfold.actions.sites import Site, open_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError, OutOfRangeError
from pinfold.reports.mix_richer import richer_page, richer_section
from pinfold.reports.pages import Block
from pinfold.reports.richness_chart import pictures, sheet
from pinfold.reports.richness_curves import curves_of
from pinfold.studies.lessons.applying import as_taught
from pinfold.studies.quantities.take_off import take_off
from pinfold.studies.richness import asking
from pinfold.studies.richness.asking import Asked, richness_of
from pinfold.studies.richness.places import Place, place_named, places_of
from pinfold.studies.richness.reading import sand_asked
from pinfold.studies.richness.records import Richness
from pinfold.studies.stability.exposures import exposures_of
from pinfold.tables.shelf import Kind
from pinfold.units import PASCAL, both, read

WEAKEST, STRONGEST = 0.1e6, 80e6


@dataclass(frozen=True, kw_only=True)
class RicherAsked:
    """What is asked, as typed.

    Attributes:
        name: of a mix, a coat or a layer.
        low: the richest to show, such as `1:2`; of a foamed mix the lightest; may be empty.
        high: the leanest, or the heaviest; may be empty.
        strength: to hold, such as `500 psi`; may be empty.
        buildup: whose coat it is, where several have it; may be empty.
    """

    name: str
    low: str = ""
    high: str = ""
    strength: str = ""
    buildup: str = ""


def mix_richer(folder: Path, asked: RicherAsked) -> Answer:
    """What a richer or leaner mix does.

    Args:
        folder: site folder; its plan, prices and log count
        asked: as typed

    Raises:
        NotFoundError: nothing of that name, or nothing is published of how it changes.
        InvalidPlan: complaints about what was asked, all at once.
        OutOfRangeError: nothing of the kind can be mixed.
        StoreError, NewerFileError: as reading the site tells.
    """
    site = open_site(folder)
    found = _found(site, asked)
    return answer_from(site, found, richer_page(found, site.plan.units))


def richer_as_html(folder: Path, asked: RicherAsked) -> tuple[str, str, str]:
    """The answer's title, its picture and its text, for a page.

    Raises:
        NotFoundError, InvalidPlan, OutOfRangeError, StoreError, NewerFileError: as `mix_richer` tells.
    """
    answer = mix_richer(folder, asked)
    assert isinstance(answer.record, Richness)
    return answer.page.title, pictures(*curves_of(answer.record, answer.system)), as_html(answer, titled=False)


@dataclass(frozen=True, kw_only=True)
class RicherChoice:
    """A mix of the plan that can be asked about.

    Attributes:
        name: that asks for it.
        says: where it goes, in a line.
    """

    name: str
    says: str


def richer_choices(folder: Path) -> tuple[RicherChoice, ...]:
    """The plan's mixes that cement binds, each with where it goes.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    found = {}
    for place in _places(open_site(folder)):
        if place.mix.has("cement") or place.mix.word("family") == "foamed":
            name = place.coat.kind.name if place.coat is not None else place.mix.name
            found[name] = RicherChoice(name=name, says=f"{name}: {place.layer}, {place.mix.says.partition(',')[0]}")
    return tuple(found.values())


def richer_sections(site: Site) -> tuple[tuple[Block, ...], ...]:
    """For the binder: every coat and every poured wall that cement binds."""
    return tuple(richer_section(found, site.plan.units) for found in _faced(site))


def richer_sheets(site: Site, *, wide_mm: float) -> tuple[tuple[str, str, float], ...]:
    """For the binder: (title, SVG, height in mm) of each picture."""
    drawn = []
    for found in _faced(site):
        svg, high = sheet(*curves_of(found, site.plan.units), wide_mm=wide_mm)
        drawn.append((f"{found.coat or found.mix.name}: richer or leaner", svg, high))
    return tuple(drawn)


@lru_cache(maxsize=4)  # the binder asks twice
def _faced(site: Site) -> tuple[Richness, ...]:
    found = []
    for place in _places(site):
        if place.face is None:
            continue
        try:
            found.append(richness_of(place, Asked(), _of(site)))
        except (NotFoundError, OutOfRangeError):
            continue
    return tuple(found)


@lru_cache(maxsize=4)  # the page asks for its choices and its answer
def _places(site: Site) -> tuple[Place, ...]:
    return places_of(site.layout, as_taught(take_off(site.layout), site.lessons))


def _of(site: Site) -> asking.Site:
    return asking.Site(
        mixing=site.lessons.mixing, prices=site.lessons.prices, lessons=site.lessons,
        exposures=exposures_of(site.layout),
    )  # fmt: skip


def _found(site: Site, asked: RicherAsked) -> Richness:
    place = place_named(asked.name, _places(site), asked.buildup)
    return richness_of(place, _read(asked, place.mix), _of(site))


def _read(asked: RicherAsked, mix: Kind) -> Asked:
    problems: list[InputError] = []
    numbers: dict[str, float] = {}
    for key, text in (("from", asked.low), ("to", asked.high), ("strength", asked.strength)):
        if not text.strip():
            continue
        try:
            numbers[key] = _strength(text) if key == "strength" else sand_asked(text, mix)
        except InputError as mistake:
            problems.append(InputError(mistake.message, place=key))
    if not problems and numbers.get("from", 0.0) >= numbers.get("to", float("inf")):
        problems.append(InputError(f"{asked.low!r} is no less than --to {asked.high!r}: the richer comes first",
                                   place="from"))  # fmt: skip
    if problems:
        raise InvalidPlan(f"what is asked of {mix.name}", problems)
    return Asked(low=numbers.get("from"), high=numbers.get("to"), wanted=numbers.get("strength"))


def _strength(text: str) -> float:
    value = read(text, like=PASCAL)
    if not WEAKEST <= value <= STRONGEST:
        low, high = (both(end, PASCAL) for end in (WEAKEST, STRONGEST))
        raise InputError(f"{text!r} found; from {low} to {high} is wanted")
    return value
