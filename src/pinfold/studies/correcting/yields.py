"""Concrete, mortar and grout by a weighed pail: what the batch truly made, its cement, its air, and the next batch."""

from __future__ import annotations

from pinfold.errors import InputError
from pinfold.findings import Step, work
from pinfold.formulas import concrete_batch, corrections
from pinfold.studies.batching.loose import parts_of, water_density
from pinfold.studies.batching.records import Charge
from pinfold.studies.correcting.held import fresh, held_by, is_foamed, weighed
from pinfold.studies.correcting.records import Correction, Held, Off, ToAdd
from pinfold.studies.proportioning.telling import heavy
from pinfold.tables.shelf import kind
from pinfold.units import KG_PER_CUBIC_METER, KgPerCubicMeter, Ratio

_MUCH_AIR: Ratio = 0.09
"""More air than this is in no mix that was meant to have it (common practice)."""


def yield_by_density(charge: Charge, density: KgPerCubicMeter) -> Correction:
    """What a batch made by what a pail of it weighs; nothing is added for it, the next batch is sized by it.

    Args:
        charge: the card it was mixed by
        density: of the fresh mix as weighed

    Raises:
        InputError: it weighs more than its grains and water do without any air, or hardly anything.
    """
    assert not is_foamed(charge.mix)
    held = held_by(charge)
    solid = _air_free(held)
    _possible(charge, density, solid)
    made = work(
        concrete_batch.yield_volume, why="made, by mass over density", batch=held.mass, density=density
    )  # fmt: skip
    over = work(corrections.relative_yield, why="made over reckoned", made=made.number, meant=charge.makes)
    air = solid and work(
        concrete_batch.air_by_density, why="air, by what is missing of the density", air_free=solid.number,
        measured=min(density, solid.number),
    )  # fmt: skip
    here = weighed(held, density)
    near = kind("corrections", "fresh-density").figure("near")
    meant = held.mass / charge.makes
    return Correction(
        of=charge.mix, by="density", found=density, wanted=meant, unit=KG_PER_CUBIC_METER, near=near,
        off=_off(density, meant, near.value), add=ToAdd(), before=fresh(here), after=fresh(here),
        relative_yield=over.number, air=air.number if air else None, notes=_notes(over.number, air),
        working=tuple(step for step in (solid, air, made, over) if step), figures=charge.figures,
    )  # fmt: skip


def _off(density: KgPerCubicMeter, meant: KgPerCubicMeter, near: Ratio) -> Off:
    if abs(density - meant) <= near * meant:
        return Off.NEAR
    return Off.HEAVY if density > meant else Off.LIGHT


def _air_free(held: Held) -> Step | None:
    """Density without any air as a line of working; None where the grains of a part are not known."""
    materials = dict(parts_of(held.mix))
    if not all(materials[part].has("particle_density") for part, _ in held.masses):
        return None
    room = sum(mass / materials[part].value("particle_density") for part, mass in held.masses)
    return work(
        corrections.content, why="density without any air", mass=held.mass, made=room + held.water / water_density()
    )


def _possible(charge: Charge, density: KgPerCubicMeter, solid: Step | None) -> None:
    """Grains differ: a few hundredths over what is reckoned is taken for no air at all."""
    most = solid.number * 1.03 if solid else 3000.0
    least = 0.5 * charge.density
    if not least <= density <= most:
        raise InputError(
            f"{heavy(density)} found; {charge.mix.name} weighs at most {heavy(most)}, without any air, and under "
            f"{heavy(least)} it would be another mix. Weigh the empty pail too, and say what it holds to the brim",
            place="density",
        )


def _notes(over: Ratio, air: Step | None) -> tuple[str, ...]:
    notes = [_yielded(over)]
    if air is not None and air.number > _MUCH_AIR:
        notes.append(
            f"By its weight {air.number:.0%} of it is air: turn it shorter, leave soap and agents out; air costs "
            "strength."
        )
    return tuple(notes)


def _yielded(over: Ratio) -> str:
    if abs(over - 1) <= 0.02:
        return "The batch makes what it was reckoned to make, as near as a scale on site tells."
    if over > 1:
        return (
            f"The batch makes {over - 1:.0%} more than reckoned: there is more air or water in it and less cement in "
            f"a volume. For the volume on the card {1 / over:.0%} of each part is enough; weigh again before counting "
            "on it."
        )
    return (
        f"The batch makes {1 - over:.0%} less than reckoned: plan {1 / over:.2f} times as much of each part for the "
        "volume on the card."
    )
