"""All that a reading at the mixer says of a batch: each thing measured with what puts it right."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from pinfold.errors import InputError, InvalidPlan, NotFoundError, OutOfRangeError
from pinfold.findings import Step
from pinfold.plan.place import Mixing
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.records import Charge
from pinfold.studies.correcting.asked import BESIDE, FOAMED, SHORT, SLIPPED, WEIGHED
from pinfold.studies.correcting.foamed import FoamedReading, correct_foamed
from pinfold.studies.correcting.held import held_by, is_foamed, room_of, weighed
from pinfold.studies.correcting.next_mix import can_be_next, next_mix
from pinfold.studies.correcting.proportions import Slip, back_to_proportions
from pinfold.studies.correcting.records import Correction, Fresh, NextMix
from pinfold.studies.correcting.slump import correct_slump, slump_wanted
from pinfold.studies.correcting.weighing import density_of_pail, taper_of_pail
from pinfold.studies.correcting.yields import yield_by_density
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.lessons.strength_records import Strength
from pinfold.studies.lessons.strengths import strength_at
from pinfold.studies.proportioning.wishes import Answered
from pinfold.tables.shelf import Kind
from pinfold.units import KgPerCubicMeter, Ratio, Second

AGE: Second = 28 * 86400.0
"""The strength is told at this age."""
_BY_WATER = ("concrete", "foamed")
_SAME_WATER: Ratio = 0.02


@dataclass(frozen=True, kw_only=True)
class Corrected:
    """What a reading says of a batch.

    Attributes:
        mix: of shelf `mixes`, as the log teaches it.
        charge: the card it was mixed by.
        density: of the fresh mix; None where nothing was weighed.
        weighing: lines of working to it.
        corrections: one for each thing measured: density, slump, amounts.
        strengths: by each correction, before and after; None where none can be told.
        next_mix: put right for the next batch; None for what is no concrete or where nothing was weighed.
        notes: what was taken for granted of the reading.
    """

    mix: Kind
    charge: Charge
    density: KgPerCubicMeter | None
    weighing: tuple[Step, ...]
    corrections: tuple[Correction, ...]
    strengths: tuple[tuple[Strength | None, Strength | None], ...]
    next_mix: NextMix | None
    notes: tuple[str, ...]


def corrected(mix: Kind, told: Answered, *, mixing: Mixing, lessons: Lessons | None) -> Corrected:
    """What puts a batch right.

    Args:
        mix: of shelf `mixes`, as the log teaches it
        told: what was measured, by the keys of `asked.ASKS`
        mixing: mixer, bucket, bags and sand of the site
        lessons: of the site, for the strength

    Raises:
        InvalidPlan: what does not go together or cannot be, all at once.
        NotFoundError: a figure of the mix is missing.
    """
    numbers = told.numbers
    here = replace(mixing, batch=numbers["batch"]) if "batch" in numbers else mixing
    _check(mix, told)
    charge = charge_of(mix, here)
    try:
        weighing, density = _density(numbers, here)
        found = _corrections(charge, told, density, here)
    except OutOfRangeError as wrong:
        raise _refused(InputError(str(wrong))) from None
    except InputError as wrong:
        raise _refused(wrong) from None
    return Corrected(
        mix=mix, charge=charge, density=density, weighing=weighing, corrections=found,
        strengths=tuple((_strength(one, one.before, lessons), _strength(one, one.after, lessons)) for one in found),
        next_mix=_next(charge, density, numbers), notes=_granted(told.told),
    )  # fmt: skip


def _granted(told: frozenset[str]) -> tuple[str, ...]:
    """What nobody said of a weighed pail."""
    if "weighed" not in told:
        return ()
    empty = "The weight of the empty pail was not told: it is taken to be off already."
    pail = "What the pail holds was not told: it is taken to be the plan's bucket."
    brim = f"Its sides are taken to narrow to {taper_of_pail().value:.0%} at the bottom (practice)."
    return tuple(
        text for text, said in ((empty, "empty" in told), (pail, "pail" in told), (brim, "gap" not in told)) if not said
    )


def _refused(*problems: InputError) -> InvalidPlan:
    return InvalidPlan("the reading", problems)


def _check(mix: Kind, told: Answered) -> None:
    """What does not go together, all at once."""
    keys = told.told
    problems = [
        InputError(f"says nothing without {other.replace('_', ' ')}; give that too", place=key)
        for key, other in BESIDE.items() if key in keys and other not in keys
    ]  # fmt: skip
    problems += [
        InputError(
            "says nothing without a weighed pail or a density" if is_foamed(mix) else f"{mix.name} has no foam in it",
            place=key,
        )
        for key in FOAMED if key in keys and not (is_foamed(mix) and keys & set(WEIGHED))
    ]  # fmt: skip
    if set(WEIGHED) <= keys:
        problems.append(InputError("give a weighed pail or a density, not both", place="density"))
    if not keys & {*WEIGHED, *SLIPPED, "slump"}:
        problems.append(InputError(
            "nothing is measured: weigh a level pail of it, take its slump, or say what slipped", place="weighed"
        ))  # fmt: skip
    if problems:
        raise _refused(*problems)


def _density(numbers: Mapping[str, float], mixing: Mixing) -> tuple[tuple[Step, ...], KgPerCubicMeter | None]:
    if "weighed" not in numbers:
        return (), numbers.get("density")
    steps = density_of_pail(
        full=numbers["weighed"], empty=numbers.get("empty", 0.0), holds=numbers.get("pail", mixing.bucket),
        gap=numbers.get("gap"), depth=numbers.get("pail_depth"),
    )  # fmt: skip
    return steps, steps[-1].number


def _corrections(
    charge: Charge, told: Answered, density: KgPerCubicMeter | None, mixing: Mixing
) -> tuple[Correction, ...]:  # fmt: skip
    numbers, most = told.numbers, mixing.batch
    found = []
    if told.told & set(SLIPPED):
        slip = Slip(
            short={part: numbers[key] for key, part in SHORT.items() if key in numbers},
            water=numbers.get("water_over", 0.0), moisture=numbers.get("sand_moisture"),
            by_scale=told.words.get("sand_by") == "scale",
        )  # fmt: skip
        found.append(back_to_proportions(charge, slip, bulking=mixing.sand_bulking, most=most))
    if density is not None and is_foamed(charge.mix):
        reading = FoamedReading(
            density=density, cast=numbers.get("cast"), foam=numbers.get("foam"), left=numbers.get("left")
        )
        found.append(correct_foamed(charge, reading, most=most))
    elif density is not None:
        found.append(yield_by_density(charge, density))
    if "slump" in numbers:
        found.append(correct_slump(charge, slump=numbers["slump"], wanted=numbers.get("slump_wanted"), most=most))
    return tuple(found)


def _strength(correction: Correction, state: Fresh, lessons: Lessons | None) -> Strength | None:
    mix = correction.of
    if not _speaks_of_water(mix, state):
        return None
    try:
        return strength_at(as_it_stands(mix, state), AGE, lessons)
    except (NotFoundError, OutOfRangeError):
        return None


def _speaks_of_water(mix: Kind, state: Fresh) -> bool:
    """Whether the strength knows of the water in it; that of mortar goes by its type, at the water it should have."""
    if mix.word("family") in _BY_WATER or state.water_cement is None or not mix.has("water_cement"):
        return True
    return abs(state.water_cement / mix.value("water_cement") - 1) <= _SAME_WATER


def as_it_stands(mix: Kind, state: Fresh) -> Kind:
    """A mix with the density or the water it truly has."""
    if is_foamed(mix):
        return _with(mix, cast_density=state.density)
    if state.water_cement is None:
        return mix
    if mix.has("water_mass") and mix.has("cement_mass"):
        return _with(mix, water_mass=state.water_cement * mix.value("cement_mass"))
    return _with(mix, water_cement=state.water_cement) if mix.has("water_cement") else mix


def _with(mix: Kind, **values: float) -> Kind:
    figures = {key: replace(mix.figure(key), value=value) for key, value in values.items()}
    return replace(mix, figures={**mix.figures, **figures})


def _next(charge: Charge, density: KgPerCubicMeter | None, numbers: Mapping[str, float]) -> NextMix | None:
    if density is None or not can_be_next(charge.mix):
        return None
    held = weighed(held_by(charge), density)
    gravel = dict(held.masses)["gravel"] / charge.makes
    slump = (
        numbers.get("slump_wanted", slump_wanted(charge.mix).value) - numbers["slump"] if "slump" in numbers else 0.0
    )
    solid = held.mass / room_of(charge, dict(held.masses), held.water)
    try:
        return next_mix(
            held, water_cement=held.water / held.cement, gravel=gravel, air_free=max(solid, density), density=density,
            slump=slump,
        )  # fmt: skip
    except OutOfRangeError:
        return None
