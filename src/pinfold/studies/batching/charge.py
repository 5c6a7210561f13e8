"""One charge of the mixer: as many whole bags as it turns at once, or half a bag, or by weight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from pinfold.plan.place import Mixing
from pinfold.studies.batching.foamed import foamed_contents
from pinfold.studies.batching.loose import Contents, contents, parts_of, water_density
from pinfold.studies.batching.massed import massed_contents
from pinfold.studies.batching.order import order_of_charging
from pinfold.studies.batching.records import Charge, Foam, Ingredient, Measure
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import CubicMeter, Ratio

_SLACK = 1e-9


@dataclass(frozen=True, kw_only=True)
class _Filling:
    """A batch of any kind: its contents, and its foam where it has one."""

    contents: Contents
    foam: Foam | None


@lru_cache(maxsize=64)
def charge_of(mix: Kind, mixing: Mixing) -> Charge:
    """One batch of a mix, sized to the mixer and to whole bags where they fit.

    Args:
        mix: of shelf `mixes`
        mixing: mixer, bucket, bags and sand of the site

    Raises:
        NotFoundError: a figure of the mix or of a material is missing.
        OutOfRangeError: a figure lies outside what the formulas allow.
    """
    trial = _fill(mix, 1.0, mixing)
    size, measure = _size(trial.contents, mixing)
    return _charge(mix, _fill(mix, size, mixing), measure)


def _fill(mix: Kind, size: float, mixing: Mixing) -> _Filling:
    """A batch by size: loose volume of the first part, or volume made where the mix is by mass."""
    if mix.word("yield_method") == "foamed":
        foamed = foamed_contents(mix, cast=size, mixing=mixing)
        return _Filling(contents=foamed.slurry, foam=foamed.foam)
    if mix.word("yield_method") == "by-mass":
        return _Filling(contents=massed_contents(mix, made=size, mixing=mixing), foam=None)
    return _Filling(contents=contents(mix, lead=size, mixing=mixing), foam=None)


def _size(trial: Contents, mixing: Mixing) -> tuple[float, Measure]:
    """How many times the trial batch fits: by whole bags, half a bag, whole buckets, or to the brim."""
    most = mixing.batch / trial.makes
    lead = trial.ingredients[0]
    if lead.bags is not None:
        bags = whole_bags_that_fit(most=most * lead.bags)
        if bags:
            return bags / lead.bags, Measure.WHOLE_BAGS if bags >= 1 else Measure.HALF_BAG
    elif lead.buckets * most + _SLACK >= 1:
        return math.floor(lead.buckets * most + _SLACK) / lead.buckets, Measure.WHOLE_BUCKETS
    return most, Measure.WEIGHED


def whole_bags_that_fit(*, most: Ratio) -> Ratio:
    """Whole bags out of the most a mixer takes; half a bag where no whole one fits; 0 where not even that does.

    Args:
        most: bags that fill the mixer, not rounded
    """
    whole = math.floor(most + _SLACK)
    return float(whole) if whole else 0.5 if most + _SLACK >= 0.5 else 0.0


def _charge(mix: Kind, filling: _Filling, measure: Measure) -> Charge:
    batch, foam = filling.contents, filling.foam
    mass = sum(part.mass for part in batch.ingredients) + batch.water + (foam.mass if foam else 0.0)
    return Charge(
        mix=mix,
        ingredients=batch.ingredients,
        water=batch.water / water_density(),
        water_in_sand=batch.sand_water / water_density(),
        water_to_add=water_to_add(batch),
        makes=batch.makes,
        density=mass / batch.makes,
        measure=measure,
        foam=foam,
        order=order_of_charging(mix, limed=any(part.part == "lime" for part in batch.ingredients)),
        cautions=_cautions(mix),
        notes=(*_measure_note(measure, batch.ingredients[0]), *batch.notes, *_wet_note(batch), *_said(mix, "notes")),
        working=batch.working,
        figures=batch.figures,
    )


def water_to_add(batch: Contents) -> CubicMeter:
    """Water to pour in: all of it less what the sand brings, never below none."""
    return max(batch.water - batch.sand_water, 0.0) / water_density()


def _measure_note(measure: Measure, lead: Ingredient) -> tuple[str, ...]:
    if measure is Measure.WEIGHED and lead.bags is not None:
        return (f"Not even half a bag fits the mixer: weigh the {lead.part} for each batch, or make a measure for it.",)
    if measure is Measure.WEIGHED:
        return (
            f"Not even a bucket fits the mixer: weigh the {lead.part.replace('_', ' ')}, or make a measure for it.",
        )
    return ()


def _wet_note(batch: Contents) -> tuple[str, ...]:
    if 0 < batch.water < batch.sand_water:
        return ("The damp sand alone brings more water than the mix wants: let it drain and dry first.",)
    return ()


def _said(mix: Kind, key: str) -> tuple[str, ...]:
    found = mix.words.get(key, ())
    return tuple(str(line) for line in found) if isinstance(found, list | tuple) else (str(found),)


def _cautions(mix: Kind) -> tuple[str, ...]:
    known = shelf("cautions")
    lines = [
        line for source in (mix, *(material for _, material in parts_of(mix))) for line in _said(source, "cautions")
    ]
    return tuple(dict.fromkeys(known[line].says if line in known else line for line in lines))


def scaled(part: Ingredient, by: Ratio) -> Ingredient:
    """So many times an ingredient."""
    return Ingredient(
        part=part.part,
        kind=part.kind,
        mass=part.mass * by,
        loose=part.loose * by,
        buckets=part.buckets * by,
        bags=None if part.bags is None else part.bags * by,
    )
