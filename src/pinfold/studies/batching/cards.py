"""Batch cards: every mix of the take-off by layer, how many batches it takes and what all of them take."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.plan.place import Mixing
from pinfold.studies.batching.charge import SPREAD, charge_of, scaled
from pinfold.studies.batching.records import BatchCard, Charge, PartBatch, Share
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import Kind
from pinfold.units import CUBIC_METER, CubicMeter, Ratio

WORK_ORDER = (
    "trench", "footing", "collars", "membrane", "wall", "mortar", "grout", "bars", "coping", "coat", "posts",
    "anchors", "braces", "rails", "mesh", "apron", "ties", "gate",
)  # fmt: skip
"""Layers in the order the work goes; what is not named comes last."""


_WHOLE = 0.995
"""From this share on the last batch is a whole one."""


def batch_cards(quantities: Iterable[Quantity], mixing: Mixing) -> tuple[BatchCard, ...]:
    """One card for each mix and layer, in order of work; what has no volume has no card.

    Args:
        quantities: the take-off; mixes in cubic meters are taken, all else is left
        mixing: mixer, bucket, bags and sand of the site
    """
    groups: dict[tuple[str, str], list[Quantity]] = {}
    for quantity in quantities:
        if is_mix(quantity) and math.isfinite(quantity.gross) and quantity.net > 0:
            groups.setdefault((quantity.layer, quantity.kind.name), []).append(quantity)
    cards = [_card(layer, group, mixing) for (layer, _), group in groups.items()]
    return tuple(sorted(cards, key=lambda card: _turn(card.layer)))


def card_for(quantity: Quantity, mixing: Mixing) -> BatchCard:
    """The card of one amount by itself: in one batch where that holds all of it.

    Args:
        quantity: of a mix, in cubic meters
        mixing: mixer, bucket, bags and sand of the site
    """
    return _card(quantity.layer, [quantity], mixing, all_of_it=quantity.gross)


def is_mix(quantity: Quantity) -> bool:
    """Whether a line of the take-off asks for a mix."""
    return quantity.kind.shelf == "mixes" and quantity.unit.kind == CUBIC_METER.kind


def _turn(layer: str) -> int:
    return WORK_ORDER.index(layer) if layer in WORK_ORDER else len(WORK_ORDER)


def _card(layer: str, group: list[Quantity], mixing: Mixing, *, all_of_it: CubicMeter = math.inf) -> BatchCard:
    mix = group[0].kind
    shares = _shares(group)
    gross = sum(share.gross for share in shares)
    charge, missing = _charge_if_known(mix, mixing, all_of_it)
    batches, last = batches_for(gross, charge.makes) if charge else (0, 0.0)
    times = gross / charge.makes if charge else 0.0
    return BatchCard(
        mix=mix,
        layer=layer,
        shares=shares,
        net=sum(share.net for share in shares),
        gross=gross,
        charge=charge,
        batches=batches,
        last=last,
        totals=tuple(scaled(part, times) for part in charge.ingredients) if charge else (),
        water=charge.water * times if charge else 0.0,
        water_to_add=charge.water_to_add * times if charge else 0.0,
        missing=missing,
        part_batch=part_batch(charge, last) if charge and last < _WHOLE else None,
    )


def part_batch(charge: Charge, share: Ratio) -> PartBatch:
    """The amounts of a charge at a share of it."""
    return PartBatch(
        share=share, ingredients=tuple(scaled(part, share) for part in charge.ingredients),
        water_to_add=charge.water_to_add * share, makes=charge.makes * share,
        foam_to_make=charge.foam.make * share if charge.foam else None,
    )  # fmt: skip


def batches_for(volume: CubicMeter, makes: CubicMeter) -> tuple[int, float]:
    """How many batches a volume takes, the last counted whole, and the share of the last one that is needed.

    A rest under `SPREAD` of a batch is spread over the others: nobody charges a mixer for it, and waste covers it.
    """
    batches = max(math.ceil(volume / makes - SPREAD), 1)
    return batches, min(volume / makes - (batches - 1), 1.0)


def _shares(group: list[Quantity]) -> tuple[Share, ...]:
    by_place: dict[str, tuple[float, float]] = {}
    for quantity in group:
        net, gross = by_place.get(quantity.place, (0.0, 0.0))
        by_place[quantity.place] = (net + quantity.net, gross + quantity.gross)
    return tuple(Share(place=place, net=net, gross=gross) for place, (net, gross) in by_place.items())


def _charge_if_known(mix: Kind, mixing: Mixing, wanted: CubicMeter) -> tuple[Charge | None, str]:
    try:
        return charge_of(mix, mixing, wanted), ""
    except (NotFoundError, OutOfRangeError) as limit:
        return None, str(limit)
