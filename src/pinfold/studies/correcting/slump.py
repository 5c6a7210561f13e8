"""A mix that sinks too little or too much: water with the cement beside it, or dry stuff that stiffens it."""

from __future__ import annotations

from dataclasses import replace

from pinfold.errors import InputError
from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import corrections
from pinfold.studies.batching.charge import scaled
from pinfold.studies.batching.loose import water_density
from pinfold.studies.batching.records import Charge
from pinfold.studies.correcting.held import fresh, held_by, is_foamed, of_card, room_of, with_added
from pinfold.studies.correcting.proportions import fitted
from pinfold.studies.correcting.records import Correction, Held, Off, ToAdd
from pinfold.studies.proportioning.records import Departure
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER, METER, CubicMeter, Kilogram, Meter, both

_RULED = ("concrete", "grout")
"""Families whose slump says something; mortar and plaster are judged under the trowel."""
_READ: Meter = 0.0025
"""A cone is read to 5 mm or a quarter inch, so that so much more is no difference."""


def slump_wanted(mix: Kind) -> Figure:
    """How far a mix should sink: its own figure, else what is usual for its family."""
    if mix.has("slump"):
        return mix.figure("slump")
    return kind("corrections", "slump-grout" if mix.word("family") == "grout" else "slump").figure("wanted")


def correct_slump(charge: Charge, *, slump: Meter, wanted: Meter | None, most: CubicMeter) -> Correction:
    """What puts a batch right that sinks too little or too much.

    Args:
        charge: the card it was mixed by
        slump: as measured
        wanted: None for the mix's own
        most: what the mixer holds

    Raises:
        InputError: the mix is none that slump is taken of.
    """
    if is_foamed(charge.mix):
        raise InputError("foamed concrete flows by its foam; weigh a pail of it instead", place="slump")
    rule = kind("corrections", "slump")
    aim = slump_wanted(charge.mix).value if wanted is None else wanted
    volume, share = _rules(charge, aim - slump, rule)
    water = volume.number * charge.makes
    off = Off.NEAR if abs(aim - slump) <= rule.value("near") + _READ else Off.STIFF if slump < aim else Off.WET
    here = _here(charge, off, water)
    whole, steps = _add(charge, here, off, water)
    add = fitted(whole, here.made, _made(charge, here, whole), most)
    return Correction(
        of=charge.mix, by="slump", found=slump, wanted=aim, unit=METER, near=rule.figure("near"), off=off, add=add,
        before=fresh(here),
        after=fresh(with_added(here, add, foam_density=0.0, made=_made(charge, here, add))),
        departures=_departures(charge, slump, aim, rule),
        notes=_notes(charge, off, water, share.number),
        working=(volume, share, *steps),
        figures=tuple((f"slump {name}", figure) for name, figure in rule.figures.items() if name != "wanted"),
    )  # fmt: skip


def _rules(charge: Charge, change: Meter, rule: Kind) -> tuple[Step, Step]:
    """Water in a volume for the change, and the same by a second rule for all of the batch."""
    step = rule.value("step")
    volume = work(
        corrections.water_for_slump, why="water in a volume for that change of slump", change=change,
        water=rule.value("water"), step=step,
    )  # fmt: skip
    share = work(
        corrections.water_share_for_slump, why="beside it, for the batch by another rule", change=change,
        water=charge.water * water_density(), share=rule.value("water_share"), step=step,
    )  # fmt: skip
    return volume, share


def _here(charge: Charge, off: Off, water: Kilogram) -> Held:
    """What is in the mixer: what sinks too far has got the water that the rule would give for it."""
    held = held_by(charge)
    if off is not Off.WET:
        return held
    return replace(held, water=held.water - water, made=held.made + room_of(charge, {}, -water))


def _add(charge: Charge, here: Held, off: Off, water: Kilogram) -> tuple[ToAdd, tuple[Step, ...]]:
    if off is Off.STIFF:
        return _wetter(charge, water)
    if off is Off.WET:
        return _stiffer(charge, here)
    return ToAdd(), ()


def _wetter(charge: Charge, water: Kilogram) -> tuple[ToAdd, tuple[Step, ...]]:
    """Water with the cement that goes beside it; water alone where the mix has no cement."""
    cement = next((part for part in charge.ingredients if part.part == "cement"), None)
    room = water / water_density()
    if cement is None:
        return ToAdd(water=room, water_in_all=room), ()
    beside = work(
        corrections.cement_beside, why="cement that goes in beside it", water=water,
        water_cement=charge.water * water_density() / cement.mass,
    )  # fmt: skip
    more = scaled(cement, beside.number / cement.mass)
    return ToAdd(parts=(more,), water=room, water_in_all=room), (beside,)


def _stiffer(charge: Charge, here: Held) -> tuple[ToAdd, tuple[Step, ...]]:
    """Dry parts in their proportions, until they want the water that is too much; water itself cannot be taken out.

    The sand among them brings water too, so only what the card pours in counts; where it pours none, nothing helps.
    """
    brought = charge.water_in_sand * water_density()
    poured = charge.water * water_density() - brought
    if poured <= 0:
        return ToAdd(), ()
    batches = work(
        corrections.batches_held, why="batches that the water is enough for, less what their sand brings",
        present=here.water - brought, meant=poured,
    )  # fmt: skip
    more = batches.number - 1
    return ToAdd(parts=of_card(charge, more), water_in_all=more * charge.water_in_sand), (batches,)


def _made(charge: Charge, here: Held, add: ToAdd) -> CubicMeter:
    masses = {part.part: part.mass for part in add.parts}
    return here.made - add.take_out + room_of(charge, masses, add.water_in_all * water_density())


def _departures(charge: Charge, slump: Meter, wanted: Meter, rule: Kind) -> tuple[Departure, ...]:
    found = []
    low, high = rule.value("low"), rule.value("high")
    if charge.mix.word("family") not in _RULED:
        found.append(Departure(
            what="the rule for slump", found=f"used on {charge.mix.name}", wanted="concrete alone", source="ACI-211",
            says="Give it half of that, and look again.",
        ))  # fmt: skip
    elif not (low <= min(slump, wanted) and max(slump, wanted) <= high):
        found.append(Departure(
            what="slump", found=f"from {both(slump, METER)} to {both(wanted, METER)}",
            wanted=f"{both(low, METER)} to {both(high, METER)}", source="ACI-211",
            says="The rule is drawn out past its table: give it half of that, and look again.",
        ))  # fmt: skip
    return tuple(found)


def _notes(charge: Charge, off: Off, water: Kilogram, rival: Kilogram) -> tuple[str, ...]:
    amount = both(abs(water) / water_density(), CUBIC_METER)
    other = f" (by a share of all the water it would be {both(abs(rival) / water_density(), CUBIC_METER)})"
    if off is Off.STIFF:
        beside = "" if charge.mix.has("cement") or charge.mix.has("cement_mass") else " This mix has no cement to add."
        return (
            f"It wants about {amount} of water{other}, and never water alone: without the cement beside it the mix "
            f"gets weaker. Not a mix that has begun to set: that is thrown away.{beside}",
            f"Next batch: pour in {amount} more from the start, with that cement.",
        )
    if off is Off.WET and charge.water_to_add <= 0:
        return (
            "The sand alone brings more water than the mix wants, so it cannot stiffen it. Let it drain and dry first.",
        )
    if off is Off.WET:
        return (
            f"It has about {amount} too much water{other}. Water cannot be taken out; what goes in dry uses it up.",
            f"Next batch: hold back {amount}, and look whether the sand is wetter than thought.",
        )
    return ()
