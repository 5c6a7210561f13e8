"""Foamed concrete that weighs too much or too little: foam or mix without foam to add, and how much foam was lost."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.errors import InputError, OutOfRangeError
from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import corrections, foam
from pinfold.studies.batching.records import Charge
from pinfold.studies.correcting.held import fresh, held_by, of_card, share_of, weighed, with_added
from pinfold.studies.correcting.proportions import fitted
from pinfold.studies.correcting.records import Correction, Held, Off, ToAdd
from pinfold.studies.proportioning.telling import heavy
from pinfold.tables.shelf import kind
from pinfold.units import CUBIC_METER, KG_PER_CUBIC_METER, CubicMeter, KgPerCubicMeter, Ratio, both

_LAST_LEFT: Ratio = 0.9
"""A loss above this is no foam to reckon with: make it anew."""


@dataclass(frozen=True, kw_only=True)
class FoamedReading:
    """What was measured on a foamed batch. What is None is as the card has it.

    Attributes:
        density: as weighed.
        cast: density wanted.
        foam: folded in.
        left: in the mixer now; all of it where it is None.
    """

    density: KgPerCubicMeter
    cast: KgPerCubicMeter | None = None
    foam: CubicMeter | None = None
    left: CubicMeter | None = None


def near_foamed() -> Figure:
    """How near to the density wanted is near enough."""
    return kind("corrections", "foamed-density").figure("near")


def correct_foamed(charge: Charge, reading: FoamedReading, *, most: CubicMeter) -> Correction:
    """What puts a foamed batch right by what a pail of it weighs.

    Args:
        charge: the card it was mixed by
        reading: what was measured
        most: what the mixer holds

    Raises:
        InputError: a density that no foam can give, or more in the mixer than the batch made.
        OutOfRangeError: a figure of the mix out of the formulas' range.
    """
    assert charge.foam is not None
    slurry = charge.foam.slurry
    whole = weighed(held_by(charge, foam=reading.foam), _possible(reading.density, slurry, charge))
    cast = charge.foam.cast if reading.cast is None else _wanted(reading.cast, slurry, charge)
    here = _left(whole, reading.left)
    lost = _lost(charge, whole, reading.density)
    off, step = _off(charge, here, reading.density, cast)
    whole_add = _to_add(charge, step)
    add = fitted(whole_add, here.made, _after(charge, here, whole_add), most)
    foam_density = charge.mix.value("foam_density")
    after = _after(charge, here, add)
    return Correction(
        of=charge.mix, by="density", found=reading.density, wanted=cast, unit=KG_PER_CUBIC_METER, near=near_foamed(),
        off=off, add=add, before=fresh(here),
        after=fresh(with_added(here, add, foam_density=foam_density, made=after)),
        lost=lost.number if lost else None,
        relative_yield=corrections.relative_yield(made=whole.made, meant=charge.makes),
        notes=_notes(charge, add, lost),
        working=tuple(one for one in (lost, step) if one is not None),
        figures=(*charge.figures, ("near enough", near_foamed())),
    )  # fmt: skip


def _possible(density: KgPerCubicMeter, slurry: KgPerCubicMeter, charge: Charge) -> KgPerCubicMeter:
    lightest = charge.mix.value("foam_density")
    if not lightest < density <= slurry:
        raise InputError(
            f"{heavy(density)} found; {charge.mix.name} weighs from {heavy(lightest)}, foam alone, to {heavy(slurry)}, "
            "without any foam. Weigh the empty pail too, and say what it holds to the brim",
            place="density",
        )
    return density


def _wanted(cast: KgPerCubicMeter, slurry: KgPerCubicMeter, charge: Charge) -> KgPerCubicMeter:
    left = 1 - charge.mix.value("foam_loss")
    lightest = charge.mix.value("foam_density") / left
    if not lightest < cast < slurry:
        raise InputError(
            f"{heavy(cast)} is wanted; foam gives {charge.mix.name} from above {heavy(lightest)} to below "
            f"{heavy(slurry)}. Ask for one between",
            place="cast",
        )
    return cast


def _left(whole: Held, left: CubicMeter | None) -> Held:
    if left is None:
        return whole
    if not 0 < left <= whole.made * (1 + 1e-6):
        raise InputError(
            f"{both(left, CUBIC_METER)} are said to be in the mixer; by its weight the batch made "
            f"{both(whole.made, CUBIC_METER)}. Say how much is left of it, or nothing where all is",
            place="left",
        )
    return share_of(whole, left / whole.made)


def _slurry_room(held: Held, slurry: KgPerCubicMeter) -> CubicMeter:
    return (held.mass - held.foam_mass) / slurry


def _lost(charge: Charge, whole: Held, density: KgPerCubicMeter) -> Step | None:
    assert charge.foam is not None
    if not whole.foam:
        return None
    return work(
        corrections.foam_lost, why="foam that collapsed, by what the batch weighs",
        slurry=_slurry_room(whole, charge.foam.slurry), slurry_density=charge.foam.slurry, foam=whole.foam,
        foam_density=charge.mix.value("foam_density"), density=density,
    )  # fmt: skip


def _off(charge: Charge, here: Held, density: KgPerCubicMeter, cast: KgPerCubicMeter) -> tuple[Off, Step | None]:
    """How it is off, and what there is to add as a line of working."""
    assert charge.foam is not None
    if abs(density - cast) <= near_foamed().value:
        return Off.NEAR, None
    if density > cast:
        return Off.HEAVY, work(
            corrections.foam_to_add, why="foam to make", mixed=here.made, density=density, cast=cast,
            foam_density=charge.mix.value("foam_density"), loss=charge.mix.value("foam_loss"),
        )  # fmt: skip
    return Off.LIGHT, work(
        corrections.slurry_to_add, why="mix without foam to add", mixed=here.made, density=density, cast=cast,
        slurry_density=charge.foam.slurry,
    )  # fmt: skip


def _to_add(charge: Charge, step: Step | None) -> ToAdd:
    if step is None:
        return ToAdd()
    if step.formula == "corrections.foam_to_add":
        return ToAdd(foam=step.number)
    assert charge.foam is not None
    share = step.number / _slurry_room(held_by(charge), charge.foam.slurry)
    return ToAdd(
        slurry=step.number, parts=of_card(charge, share), water=charge.water_to_add * share,
        water_in_all=charge.water * share,
    )  # fmt: skip


def _after(charge: Charge, here: Held, add: ToAdd) -> CubicMeter:
    return here.made - add.take_out + add.slurry + add.foam * (1 - charge.mix.value("foam_loss"))


def _notes(charge: Charge, add: ToAdd, lost: Step | None) -> tuple[str, ...]:
    notes = []
    if add.foam:
        notes.append("Fold in two thirds of the foam, weigh again, then give it what is still wanting.")
    if add.slurry:
        notes.append("Mix what goes in by itself until no lump is left, and turn it in briefly: turning breaks foam.")
    if lost is not None:
        notes += _next(charge, lost.number)
    return tuple(notes)


def _next(charge: Charge, lost: Ratio) -> list[str]:
    """What the loss found means for the batch after this one."""
    assert charge.foam is not None
    usual = charge.mix.value("foam_loss")
    if lost > _LAST_LEFT:
        return ["Next to nothing of the foam is left: too little agent, hard water, or turned too long. Begin anew."]
    if lost < 0:
        return [
            "It weighs less than all of the foam could make it: the mixer stirs in air of its own, there was more foam "
            "or lighter foam than told, or the pail was not brim full."
        ]
    try:
        make = foam.foam_to_make(needed=charge.foam.volume, loss=lost)
    except OutOfRangeError:
        return []
    return [
        f"By its weight {lost:.0%} of the foam is gone, where {usual:.0%} were reckoned with. If the next batch loses "
        f"as much, make {make / charge.foam.make:.0%} of the foam on the card. Write the batch into the log with what "
        "went in, and the loss is learned."
    ]
