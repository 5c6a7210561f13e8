"""Batch cards with all that is told beside them: which are meant, how warm it is, how many are mixed, what to scan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from urllib.parse import quote, urlencode

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.card_names import cards_meant, wider
from pinfold.actions.clock import now_local
from pinfold.actions.log_tally import batches_logged, logged_of
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.scanning import Reached, batch_query, form_address, phone_address, reached
from pinfold.actions.sites import Site, open_site
from pinfold.errors import InputError, StoreError
from pinfold.plan.place import Mixing
from pinfold.reports.lessons_page import MIXED, with_taught
from pinfold.reports.mix_card import CardTold, card_name
from pinfold.reports.mix_page import mix_page
from pinfold.store import log_file
from pinfold.studies.batching.cards import batch_cards, is_mix
from pinfold.studies.batching.counting import PARTS_OF
from pinfold.studies.batching.records import BatchCard, Supply
from pinfold.studies.mixing.at_mixer import supplies
from pinfold.studies.mixing.pacing import paced
from pinfold.units import CELSIUS, CUBIC_METER, read

WARMTHS: Mapping[str, float] = {"cold": 5.0, "cool": 12.0, "mild": 20.0, "warm": 27.0, "hot": 35.0}
"""Words for how warm it is, in °C."""
COUNTED = tuple(PARTS_OF)
"""Measures that sand can be counted in."""


@dataclass(frozen=True, kw_only=True)
class CardsAsked:
    """How cards are asked for; what is empty is as the plan has it.

    Attributes:
        name: of run, place, layer or mix, or several together; all when empty.
        batch: size of batch as text.
        temperature: of the air, as text or as one of the words for it.
        at: where the home network is served now; empty when nobody knows.
        own: where this machine is served; empty for the usual address.
        drawn: whether a terminal draws the square code.
        sand_by: measure that sand is counted in.
    """

    name: str = ""
    batch: str = ""
    temperature: str = ""
    sand_by: str = ""
    at: str = ""
    own: str = ""
    drawn: bool = False


@dataclass(frozen=True, kw_only=True)
class CardAnswer:
    """What is told beside a card.

    Attributes:
        mixed: batches of it in the log; None where that is not known.
        a_day: what must lie at the mixer for a day; None without charge.
        for_all: the same for all of it.
        scan: address that opens a batch of it in the log; empty without charge.
    """

    mixed: int | None
    a_day: Supply | None
    for_all: Supply | None
    scan: str


@dataclass(frozen=True, kw_only=True)
class MixAnswer:
    """What to mix.

    Attributes:
        cards: one for each mix and layer.
        beside: what is told beside each, in the same order.
        mixing: mixer, bucket, bags, lift and temperature they are for.
    """

    cards: tuple[BatchCard, ...]
    beside: tuple[CardAnswer, ...]
    mixing: Mixing


def mix_cards(folder: Path, asked: CardsAsked) -> Answer:
    """Batch cards of the whole plan, or those that a name picks out.

    Args:
        folder: site folder
        asked: which, and how

    Raises:
        NotFoundError: the name picks nothing out; the message offers what is near.
        InputError: the batch size or temperature cannot be read or is out of bounds.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    mixing = mixing_of(site, asked)
    quantities = paced(reckon_all(site).quantities, site.layout, site.lessons)
    meant, placed = quantities, False
    if asked.name:
        found = cards_meant(asked.name, [line for line in quantities if is_mix(line) and line.net > 0])
        meant, placed = found.quantities, found.placed
    cards = batch_cards(meant, mixing)
    at = reached(folder, at=asked.at, **({"own": asked.own} if asked.own else {}))
    told = cards_told(site, cards, mixing, at)
    pairs = [(card, replace(each, drawn=asked.drawn, placed=placed)) for card, each in zip(cards, told, strict=True)]
    addresses = [_alone(card_name(card, placed=placed), asked) for card in cards]
    page = mix_page(site.plan.name, pairs, mixing, system=site.plan.units, addresses=addresses)
    page = with_taught(page, site.lessons, MIXED)
    beside = tuple(_answer(each) for each in told)
    return answer_from(site, MixAnswer(cards=cards, beside=beside, mixing=mixing), page)


def _alone(name: str, asked: CardsAsked) -> str:
    """Address of one card's own page, for the same batch, warmth and measure of sand."""
    typed = {"batch": asked.batch, "temperature": asked.temperature, "sand_by": asked.sand_by}
    query = urlencode({key: text for key, text in typed.items() if text})
    return f"/mix/card/{quote(name)}{'?' if query else ''}{query}"


def mixing_of(site: Site, asked: CardsAsked) -> Mixing:
    """What is mixed with: as the plan and the log have it, but for what was asked.

    Raises:
        InputError: the batch size or temperature cannot be read or is out of bounds, or sand has no such measure.
    """
    mixing = site.lessons.mixing
    if asked.batch:
        size = read(asked.batch, like=CUBIC_METER, place="--batch")
        if not 0.002 <= size <= 1.0:
            raise InputError(f"{asked.batch!r}: from 2 L to 1 m3 is wanted", place="--batch")
        mixing = replace(mixing, batch=size, drum=None)
    if asked.sand_by:
        if asked.sand_by not in COUNTED:
            raise InputError(f"{asked.sand_by[:40]!r}: one of {', '.join(COUNTED)} is wanted", place="--sand-by")
        mixing = replace(mixing, sand_by=asked.sand_by)
    warmth = read_warmth(asked.temperature) if asked.temperature else weather_today(site)
    return mixing if warmth is None else replace(mixing, temperature=warmth)


def read_warmth(text: str) -> float:
    """A temperature in °C out of a word or a quantity.

    Raises:
        InputError: it is neither, or nobody mixes at it.
    """
    word = text.strip().lower()
    if word in WARMTHS:
        return WARMTHS[word]
    if word.isalpha():
        raise InputError(f"{text!r} found; {', '.join(WARMTHS)} or a temperature is wanted", place="--temperature")
    found = read(text, like=CELSIUS, place="--temperature")
    if not -20.0 <= found <= 50.0:
        raise InputError(f"{text!r}: from -20 °C to 50 °C is wanted (-4 °F to 122 °F)", place="--temperature")
    return found


def weather_today(site: Site) -> float | None:
    """Temperature of the air written into the log last today, in °C; None where none was."""
    from pinfold.actions.taking import log_of

    try:
        seen = log_of(site.folder).entries(kind="weather", standing=True, limit=1)
    except StoreError:
        return None
    today = now_local()[:10]
    found = next((entry for entry in seen if entry.at[:10] == today), None)
    warmth = None if found is None else found.number("temperature")
    return None if warmth is None else min(max(warmth, -20.0), 50.0)


def cards_told(site: Site, cards: Sequence[BatchCard], mixing: Mixing, at: Reached) -> tuple[CardTold, ...]:
    """What is told beside each card."""
    counts = mixed_of(site, cards)
    return tuple(_told(site, card, mixed, mixing, at) for card, mixed in zip(cards, counts, strict=True))


def _told(site: Site, card: BatchCard, mixed: int | None, mixing: Mixing, at: Reached) -> CardTold:
    if card.charge is None:
        return CardTold(mixing=mixing, mixed=mixed)
    query = batch_query(card, card.charge, site.plan.units)
    return CardTold(
        mixing=mixing, mixed=mixed,
        supplies=supplies(card, card.charge, haul=site.plan.haul, barrow=mixing.measure("barrow").holds),
        address=phone_address(at.base, query), scan_says=at.says, here=form_address(query),
    )  # fmt: skip


def mixed_of(site: Site, cards: Sequence[BatchCard]) -> tuple[int | None, ...]:
    """Batches of each card in the log; None where there is no log, it cannot be read, or they are still being counted.

    Those that name no layer count where the mix has one layer alone; of a card for some places only those at them do.
    """
    if not (site.folder / log_file.NAME).exists():
        return tuple(None for _ in cards)
    whole = reckon_all(site).cards
    sole = {card.mix.name for card in whole if sum(card.mix.name == each.mix.name for each in whole) == 1}
    places = {(card.mix.name, card.layer): set(card.places) for card in whole}
    try:
        tally = batches_logged(site.folder)
        return tuple(
            logged_of(card, tally, sole=card.mix.name in sole)
            if set(card.places) == places.get((card.mix.name, card.layer), set())
            else _mixed_at(site, card, sole=card.mix.name in sole)
            for card in cards
        )
    except StoreError:
        return tuple(None for _ in cards)


def _mixed_at(site: Site, card: BatchCard, *, sole: bool) -> int:
    from pinfold.actions.taking import log_of

    layers = {card.layer, ""} if sole else {card.layer}
    places = {word for place in card.places for word in wider(place)}
    return sum(
        int(entry.number("batches") or 1)
        for place in places
        for entry in log_of(site.folder).entries(kind="batch", place=place, standing=True)
        if entry.text("mix") == card.mix.name and entry.text("layer") in layers
    )


def _answer(told: CardTold) -> CardAnswer:
    day, whole = told.supplies or (None, None)
    return CardAnswer(mixed=told.mixed, a_day=day, for_all=whole, scan=told.address)
