"""The factors of a mix and the ranges they stay in: published ones first, else about the mix as it ships."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.figures import Figure
from pinfold.sources import weakest
from pinfold.studies.trials.makeup import WATERS, binders_of, can_count_cement, keys_of, usual_of
from pinfold.studies.trials.records import Factor
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import KG_PER_CUBIC_METER, METER, RATIO, SECOND, Unit

DAY = 86400.0
CONDITIONS = ("thickness", "kept_wet")
"""What is no part of the mix and yet in the builder's hand."""
_COATS = ("plaster", "bond", "lime", "earth")
_STEPS: Mapping[str, float] = {
    "lime": 0.125, "sand": 0.25, "gravel": 0.25, "clay_soil": 1.0, "water": 0.005, "water_cement": 0.02,
    "sand_cement": 0.1, "wet_density": 20.0, "thickness": 0.001, "kept_wet": DAY,
}  # fmt: skip
_ADDED_STEP = 0.125
_UNITS: Mapping[str, Unit] = {"wet_density": KG_PER_CUBIC_METER, "thickness": METER, "kept_wet": SECOND}
_WIDER = 1.5
"""How far past its ends a range may be left where that is asked for: this many times, or one over it."""
_SHARES = {"water": "water_share", "water_cement": "water_share", "wet_density": "wet_density_share"}


class _Ends(NamedTuple):
    low: Figure
    high: Figure
    times: float


def factors_of(mix: Kind, added: tuple[str, ...] = ()) -> tuple[Factor, ...]:
    """Every factor that trials of a mix may change, those of its makeup first.

    Args:
        mix: as the log teaches it
        added: materials that went in beside its parts

    Raises:
        NotFoundError: trials of such a mix cannot be compared.
    """
    usual = usual_of(mix)
    beside = added if mix.word("family") == "earth" else ()
    coat = CONDITIONS if mix.word("family") in _COATS else ("kept_wet",)
    found = [_factor(key, mix, usual.get(key)) for key in (*keys_of(mix), *beside, *coat, *_instead(mix))]
    return tuple(factor for factor in found if factor is not None)


def _instead(mix: Kind) -> tuple[str, ...]:
    """Another way to count water, looked at only where it is asked for."""
    return tuple(key for key in WATERS if key not in keys_of(mix)) if can_count_cement(mix) else ()


def counted(factors: tuple[Factor, ...], mix: Kind) -> tuple[Factor, ...]:
    """The factors without the other way to count water."""
    return tuple(factor for factor in factors if factor.key not in _instead(mix))


def named(factors: tuple[Factor, ...], keys: tuple[str, ...]) -> tuple[Factor, ...]:
    """The factors asked for.

    Raises:
        InvalidPlan: a key that none of them has, one that stands there twice, or more than five.
    """
    known = {factor.key: factor for factor in factors}
    wrong = [
        InputError(f"there is no such factor of this mix; there are {', '.join(known)}", place=f"factor {key}")
        for key in keys if key not in known
    ]  # fmt: skip
    wrong += [InputError("stands there twice", place=f"factor {key}") for key in set(keys) if keys.count(key) > 1]
    if set(WATERS) <= set(keys):
        wrong.append(InputError("both count the same water; ask for one of them", place=" and ".join(WATERS)))
    if len(keys) > MOST:
        wrong.append(InputError(f"{len(keys)} are too many to tell apart; at most {MOST} are looked at at once",
                                place="factors"))  # fmt: skip
    if wrong:
        raise InvalidPlan("factors", wrong)
    return tuple(known[key] for key in keys)


MOST = 5
"""Factors that are looked at at once."""


def wider(factor: Factor, *, seen: tuple[float, ...]) -> Factor:
    """A factor whose range is left on both sides, and holds what was tried already."""
    from dataclasses import replace

    low, high = min(factor.low / _WIDER, *seen, factor.low), max(factor.high * _WIDER, *seen, factor.high)
    return replace(factor, low=low, high=high)


def _factor(key: str, mix: Kind, usual: float | None) -> Factor | None:
    ends = _ends(key, mix, usual)
    if ends is None or ends.low.value >= ends.high.value:
        return None
    low, high = ends.low, ends.high
    return Factor(
        key=key, says=says_of(key, mix), unit=_UNITS.get(key, RATIO), low=low.value * ends.times,
        high=high.value * ends.times, step=_STEPS.get(key, _ADDED_STEP), usual=usual,
        source=low.source if low.source != "PRACTICE" else high.source,
        standing=weakest((low.standing, high.standing)), where=low.where,
    )  # fmt: skip


def _ends(key: str, mix: Kind, usual: float | None) -> _Ends | None:
    """Both ends of a range, and what they are to be multiplied by."""
    for row in _rows(mix):
        if row.has(f"{key}_low"):
            return _Ends(row.figure(f"{key}_low"), row.figure(f"{key}_high"), 1.0)
    if not usual:
        return None
    common, share = kind("trial_ranges", "usual"), _SHARES.get(key, "share")
    return _Ends(common.figure(f"{share}_low"), common.figure(f"{share}_high"), usual)


def _rows(mix: Kind) -> tuple[Kind, ...]:
    """Rows of data that may say a range, the mix's own first."""
    usual, own = kind("trial_ranges", "usual"), shelf("trial_ranges").get(mix.name)
    if own is None:
        return (usual,)
    where, _, name = own.word("published").partition("/")
    return (own, kind(where, name), usual) if name else (own, usual)


def says_of(key: str, mix: Kind) -> str:
    """What a factor counts, in plain words."""
    bound = " and ".join(part.replace("_", " ") for part in binders_of(mix))
    fixed = {
        "lime": "lime to one of cement", "water": "water over dry weight",
        "water_cement": "water over cement by weight",
        "sand_cement": "sand over cement by weight", "wet_density": "wet density", "thickness": "thickness",
        "kept_wet": "kept wet for",
    }  # fmt: skip
    return fixed.get(key) or f"{key.replace('_', ' ').replace('-', ' ')} to one of {bound}"


def known_mix(name: str) -> Kind:
    """A mix by its name.

    Raises:
        NotFoundError: there is none, or trials of it cannot be compared.
    """
    found = kind("mixes", name)
    keys_of(found)
    return found


def has_trials(mix: Kind) -> bool:
    """Whether trials of a mix can be compared at all."""
    try:
        keys_of(mix)
    except NotFoundError:
        return False
    return True
