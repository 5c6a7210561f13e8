"""One charge of the mixer: as many whole bags as its bounds allow, or part of a bag, or by weight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from pinfold.plan.place import Mixing
from pinfold.studies.batching.foamed import foamed_contents
from pinfold.studies.batching.limits import limits_of
from pinfold.studies.batching.loose import Contents, contents, parts_of, water_density
from pinfold.studies.batching.massed import massed_contents
from pinfold.studies.batching.order import order_of_charging
from pinfold.studies.batching.records import Charge, Foam, Ingredient, Limit, Measure
from pinfold.studies.batching.setting import in_hand
from pinfold.studies.batching.sizing import measure_note, size_of
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import CubicMeter, Ratio

SPREAD = 0.04
"""A rest smaller than this share of a batch is no batch of its own (common practice)."""
_SLAKED = frozenset({"lime-putty", "quicklime"})
"""Materials that come of quicklime and water on the site."""


@dataclass(frozen=True, kw_only=True)
class _Filling:
    """A batch of any kind: its contents, and its foam where it has one."""

    contents: Contents
    foam: Foam | None


@dataclass(frozen=True, kw_only=True)
class _Sizing:
    """Why a batch is as large as it is."""

    measure: Measure
    limits: tuple[Limit, ...]
    mixing: Mixing


@lru_cache(maxsize=64)
def charge_of(mix: Kind, mixing: Mixing, wanted: CubicMeter = math.inf) -> Charge:
    """One batch of a mix, sized to the mixer, the back and the time before it sets, by whole bags where they fit.

    Args:
        mix: of shelf `mixes`
        mixing: mixer, bucket, bags and sand of the site, what one lifts, the temperature
        wanted: all there is to mix; where one batch holds it that is its size, to the whole bag where that is near

    Raises:
        NotFoundError: a figure of the mix or of a material is missing.
        OutOfRangeError: a figure lies outside what the formulas allow.
    """
    trial = _fill(mix, 1.0, mixing).contents
    limits = limits_of(mix, trial, mixing)
    most = min(limit.most for limit in limits)
    size, measure = size_of(trial, most)
    if wanted <= most and not 1 - SPREAD <= wanted / (size * trial.makes) <= 1 + SPREAD:
        size, measure = wanted / trial.makes, Measure.ALL
    return _charge(mix, _fill(mix, size, mixing), _Sizing(measure=measure, limits=limits, mixing=mixing))


def _fill(mix: Kind, size: float, mixing: Mixing) -> _Filling:
    """A batch by size: loose volume of the first part, or volume made where the mix is by mass."""
    if mix.word("yield_method") == "foamed":
        foamed = foamed_contents(mix, cast=size, mixing=mixing)
        return _Filling(contents=foamed.slurry, foam=foamed.foam)
    if mix.word("yield_method") == "by-mass":
        return _Filling(contents=massed_contents(mix, made=size, mixing=mixing), foam=None)
    return _Filling(contents=contents(mix, lead=size, mixing=mixing), foam=None)


def _charge(mix: Kind, filling: _Filling, sizing: _Sizing) -> Charge:
    batch, foam = filling.contents, filling.foam
    mass = sum(part.mass for part in batch.ingredients) + batch.water + (foam.mass if foam else 0.0)
    measured = measure_note(sizing.measure, batch.ingredients[0], sizing.mixing)
    return Charge(
        mix=mix,
        ingredients=batch.ingredients,
        water=batch.water / water_density(),
        water_in_sand=batch.sand_water / water_density(),
        water_to_add=water_to_add(batch),
        makes=batch.makes,
        density=mass / batch.makes,
        measure=sizing.measure,
        limits=sizing.limits,
        in_hand=in_hand(mix, sizing.mixing),
        foam=foam,
        order=order_of_charging(mix, limed=any(part.part == "lime" for part in batch.ingredients)),
        cautions=_cautions(mix),
        notes=(*measured, *batch.notes, *_wet_note(batch), *_said(mix, "notes")),
        working=(*(step for limit in sizing.limits for step in limit.working), *batch.working),
        figures=batch.figures,
    )


def water_to_add(batch: Contents) -> CubicMeter:
    """Water to pour in: all of it less what the sand brings, never below none."""
    return max(batch.water - batch.sand_water, 0.0) / water_density()


def _wet_note(batch: Contents) -> tuple[str, ...]:
    if 0 < batch.water < batch.sand_water:
        return ("The damp sand alone brings more water than the mix wants: let it drain and dry first.",)
    return ()


def _said(mix: Kind, key: str) -> tuple[str, ...]:
    found = mix.words.get(key, ())
    return tuple(str(line) for line in found) if isinstance(found, list | tuple) else (str(found),)


def _cautions(mix: Kind) -> tuple[str, ...]:
    known, parts = shelf("cautions"), parts_of(mix)
    lines = [line for source in (mix, *(material for _, material in parts)) for line in _said(source, "cautions")]
    names = {name for name, _ in parts}
    lines += ["slaking"] if any(material.name in _SLAKED for _, material in parts) else []
    lines += ["foaming-agent"] if mix.word("yield_method") == "foamed" else []
    lines += ["hot-water"] if names & {"cement", "lime", "dry_mix"} else []
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
        as_it_lies=part.as_it_lies * by,
        bucketful=part.bucketful,
        counted_in=part.counted_in,
    )
