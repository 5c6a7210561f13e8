"""What to mix: batch cards of a site."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.sites import open_site
from pinfold.errors import InputError, NotFoundError
from pinfold.reports.lessons_page import MIXED, with_taught
from pinfold.reports.mix_page import mix_page
from pinfold.studies.batching.cards import batch_cards
from pinfold.studies.batching.records import BatchCard
from pinfold.studies.lessons.applying import as_taught
from pinfold.studies.quantities.take_off import take_off
from pinfold.units import CUBIC_METER, read


@dataclass(frozen=True, kw_only=True)
class MixAnswer:
    """What to mix.

    Attributes:
        cards: one for each mix and layer.
    """

    cards: tuple[BatchCard, ...]


def mix_site(folder: Path, mix: str | None, batch: str | None) -> Answer:
    """Batch cards of the whole plan, or of one mix.

    Args:
        folder: site folder
        mix: name of a mix; None for all
        batch: batch size as text to use instead of the plan's

    Raises:
        NotFoundError: the plan does not use that mix; the message says which it uses.
        InputError: the batch size cannot be read or is out of bounds.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    mixing = site.lessons.mixing
    if batch is not None:
        size = read(batch, like=CUBIC_METER, place="--batch")
        if not 0.002 <= size <= 1.0:
            raise InputError(f"{batch!r}: from 2 L to 1 m3 is wanted", place="--batch")
        mixing = replace(mixing, batch=size)
    cards = batch_cards(as_taught(take_off(site.layout), site.lessons), mixing)
    if mix is not None:
        used = sorted({card.mix.name for card in cards})
        cards = tuple(card for card in cards if card.mix.name == mix)
        if not cards:
            raise NotFoundError(f"the plan mixes no {mix!r}; it mixes {', '.join(used) or 'nothing'}")
    page = with_taught(mix_page(site.plan.name, cards, mixing, site.plan.units), site.lessons, MIXED)
    return answer_from(site, MixAnswer(cards=cards), page)
