"""The three bounds of a batch: the mixer, the back, the time before it sets."""

from __future__ import annotations

from pinfold.figures import given, printed
from pinfold.findings import work
from pinfold.formulas import batch_size
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.studies.batching.lifting import AGAIN, CHARGING, PACE, most_lifted
from pinfold.studies.batching.loose import Contents
from pinfold.studies.batching.records import Bound, InHand, Limit
from pinfold.studies.batching.setting import TURNING, in_hand, used_up
from pinfold.tables.shelf import Kind
from pinfold.units import CUBIC_METER, KILOGRAM, RATIO, Kilogram

DRUM = printed("60 %", RATIO, Standing.READ, "DRUM-SHARE", "batch over the volume of the drum")


def limits_of(mix: Kind, batch: Contents, mixing: Mixing) -> tuple[Limit, ...]:
    """The largest batch by each bound that the site can be asked about; the mixer's always.

    Args:
        mix: of shelf `mixes`
        batch: of any size
        mixing: mixer, bucket, what one lifts, temperature
    """
    found = [_mixer(mixing)]
    if mixing.lift is not None:
        found.append(_back(batch, mixing, mixing.lift))
    used = in_hand(mix, mixing)
    if used is not None:
        found.append(_before_set(used))
    return tuple(found)


def _mixer(mixing: Mixing) -> Limit:
    own = (("largest batch", given(mixing.batch, CUBIC_METER)),)
    if mixing.drum is None:
        return Limit(bound=Bound.MIXER, most=mixing.batch, figures=own)
    turned = work(batch_size.drum_batch, why="what the drum turns well", drum=mixing.drum, share=DRUM.value)
    if mixing.batch < turned.number:
        return Limit(bound=Bound.MIXER, most=mixing.batch, working=(turned,), figures=own)
    return Limit(bound=Bound.MIXER, most=turned.number, working=(turned,), figures=(("share of the drum", DRUM),))


def _back(batch: Contents, mixing: Mixing, lift: Kilogram) -> Limit:
    most = most_lifted(lift)
    lifted = sum(part.as_it_lies for part in batch.ingredients) + max(batch.water - batch.sand_water, 0.0)
    figures = (
        ("most one lifts", given(lift, KILOGRAM)), ("share again and again", AGAIN), ("lifts in a minute", PACE),
        ("minutes of charging", CHARGING),
    )  # fmt: skip
    return Limit(bound=Bound.BACK, most=batch.makes * most.number / lifted, working=(most,), figures=figures)


def _before_set(used: InHand) -> Limit:
    steps = used_up(used)
    figures = (*used.figures, ("time of mixing", TURNING))
    return Limit(bound=Bound.SET, most=steps[-1].number, working=steps, figures=figures)
