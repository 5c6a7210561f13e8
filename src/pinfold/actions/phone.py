"""What the phone's page works with: cards in hand, forms, what was written last, how far the log has come."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from pinfold.actions.batch_amounts import amounts_of, names_of
from pinfold.actions.clock import received_now
from pinfold.actions.days_phone import PhoneDays, phone_days
from pinfold.actions.entry_forms import EntryForm, at_hand, entry_forms
from pinfold.actions.log_tally import batch_key, batches_logged, logged_of
from pinfold.actions.sites import Site, fault_of_log, without_log
from pinfold.errors import InvalidPlan, StoreError
from pinfold.logbook.entries import Entry
from pinfold.studies.batching.records import BatchCard
from pinfold.units import System

_LOOKED_BACK = 200
"""Entries looked at for what was written last."""
_OFFERED = 3
"""How many of the values written last a field offers."""


@dataclass(frozen=True, kw_only=True)
class WorkCard:
    """A batch card as the phone shows it.

    Attributes:
        mix: its name.
        says: the mix in words.
        layer: what it is for.
        batches: how many the plan takes; 0 where that is not known.
        logged: how many of them the log has; None while they are being counted.
        makes: what one gives, to read; empty where not known.
        amounts: item and text for one batch, as an entry takes them.
        names: words for the items, in the same order.
        places: where it goes.
        cautions: the usual warnings of the trade.
        ladder: what it is judged by and what to do then, heads first; empty for what is judged under the trowel.
        ladder_note: what is near enough.
    """

    mix: str
    says: str
    layer: str
    batches: int
    logged: int | None
    makes: str
    amounts: tuple[tuple[str, str], ...]
    names: tuple[str, ...]
    places: tuple[str, ...]
    cautions: tuple[str, ...]
    ladder: tuple[tuple[str, ...], ...] = ()
    ladder_note: str = ""


@dataclass(frozen=True, kw_only=True)
class PhoneRecord:
    """All that the phone's page needs to work out of reach.

    Attributes:
        site: name of the plot; what was written for another is not sent here.
        currency: of money; may be empty.
        made: when this was put together, ISO 8601 in UTC.
        mark: changes when anything else here does.
        cards: the work in hand, in order of work; none while the plan has complaints.
        forms: every kind of entry.
        last: by kind and field the values written last, newest first.
        batches: by mix and layer the fields of the last batch.
        cautions: what is to be known of the cards before they are used: that the log cannot be read.
        days: the coming days by the weather.
        days_mark: changes when they do.
    """

    site: str
    currency: str
    made: str
    mark: str
    cards: tuple[WorkCard, ...]
    forms: tuple[EntryForm, ...]
    last: Mapping[str, Mapping[str, tuple[str, ...]]]
    batches: Mapping[str, Mapping[str, object]]
    cautions: tuple[str, ...]
    days: PhoneDays
    days_mark: str


def phone_record(folder: Path, *, now: datetime | None = None) -> PhoneRecord:
    """Put together what the phone needs; while the plan has complaints or the log cannot be read, what there is.

    Args:
        folder: of the site
        now: that its days begin on, with the offset; the clock's where not given

    Raises:
        NotFoundError, StoreError, NewerFileError: as the readers tell.
    """
    known = at_hand(folder)
    recent, tally, told = _in_log(folder)
    cautions = (without_log(told),) if told else known.site.cautions if known.site else ()
    cards, forms = _cards(known.site, tally) if known.site else (), entry_forms(known)
    currency = _currency(folder)
    last, batches = _last(recent), _last_batches(recent)
    mark = _mark(known.name, currency, cards, forms, last, batches, cautions)
    days = phone_days(known.site, now=now) if known.site else PhoneDays(sheets=(), told=())
    return PhoneRecord(
        site=known.name, currency=currency, made=received_now(),
        mark=mark, cards=cards, forms=forms, last=last, batches=batches,
        cautions=cautions, days=days, days_mark=_mark(days),
    )  # fmt: skip


def _in_log(folder: Path) -> tuple[tuple[Entry, ...], Mapping[str, int] | None, str]:
    """The newest entries and the count of batches; neither, and what is wrong, where the log cannot be read."""
    from pinfold.actions.taking import log_of

    try:
        return log_of(folder).entries(standing=True, limit=_LOOKED_BACK), batches_logged(folder), ""
    except StoreError as fault:
        return (), None, fault_of_log(folder, fault)


def phone_json(folder: Path) -> dict[str, object]:
    """The same as plain JSON values."""
    from pinfold.reports.record import as_json

    record = as_json(phone_record(folder))
    assert isinstance(record, dict)
    return record


def _currency(folder: Path) -> str:
    """The price list's; empty while the list has complaints."""
    from pinfold.store import prices

    try:
        return prices.read_prices(folder / prices.NAME).currency
    except InvalidPlan:
        return ""


def _mark(*parts: object) -> str:
    from pinfold.reports.record import as_json

    return hashlib.sha256(json.dumps(as_json(parts), sort_keys=True).encode()).hexdigest()[:16]


def _cards(site: Site, tally: Mapping[str, int] | None) -> tuple[WorkCard, ...]:
    from pinfold.actions.reckonings import reckon_all

    cards = reckon_all(site).cards
    alone = {mix for mix in (card.mix.name for card in cards) if sum(card.mix.name == mix for card in cards) == 1}
    return tuple(_card(card, site.plan.units, logged_of(card, tally, sole=card.mix.name in alone)) for card in cards)


def _card(card: BatchCard, system: System, logged: int | None) -> WorkCard:
    from pinfold.reports.amounts import volume
    from pinfold.reports.mix_ladder import ladder_table

    charge = card.charge
    ladder = ladder_table(charge, system) if charge else None
    return WorkCard(
        mix=card.mix.name, says=card.mix.says, layer=card.layer, batches=card.batches, logged=logged,
        makes=volume(charge.makes, system) if charge else "",
        amounts=amounts_of(charge, system) if charge else (), names=names_of(charge) if charge else (),
        places=card.places, cautions=charge.cautions if charge else (),
        ladder=(ladder.heads, *ladder.rows) if ladder else (), ladder_note=ladder.note if ladder else "",
    )  # fmt: skip


def _last(recent: tuple[Entry, ...]) -> dict[str, dict[str, tuple[str, ...]]]:
    last: dict[str, dict[str, tuple[str, ...]]] = {}
    for entry in recent:
        for key, typed in entry.typed.items():
            if not isinstance(typed, str) or key in {"photo", "text", "latitude", "longitude"}:
                continue
            held = last.setdefault(entry.kind, {}).get(key, ())
            if typed not in held and len(held) < _OFFERED:
                last[entry.kind][key] = (*held, typed)
    return last


def _last_batches(recent: tuple[Entry, ...]) -> dict[str, dict[str, object]]:
    found: dict[str, dict[str, object]] = {}
    for entry in recent:
        if entry.kind == "batch":
            found.setdefault(batch_key(entry.text("mix"), entry.text("layer")), dict(entry.typed))
    return found
