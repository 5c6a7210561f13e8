"""What is in the mixer: by its card, less what was taken out, with what slipped."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from pinfold.formulas import corrections
from pinfold.studies.batching.charge import scaled
from pinfold.studies.batching.foamed import BOUND_WATER
from pinfold.studies.batching.loose import water_density
from pinfold.studies.batching.records import Charge, Ingredient
from pinfold.studies.correcting.records import Fresh, Held, ToAdd
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Ratio


def held_by(charge: Charge, *, foam: CubicMeter | None = None) -> Held:
    """A batch mixed by its card.

    Args:
        charge: the card
        foam: that was folded in; what the card says where that is not told
    """
    froth = charge.foam
    masses = tuple((part.part, _mass(part, charge.mix)) for part in charge.ingredients)
    made = 0.0 if froth is None else froth.make if foam is None else foam
    return Held(
        mix=charge.mix, masses=masses, water=charge.water * water_density(), foam=made,
        foam_mass=0.0 if froth is None else made * charge.mix.value("foam_density"), made=charge.makes,
    )  # fmt: skip


def is_foamed(mix: Kind) -> bool:
    """Whether foam goes into a mix."""
    return mix.word("yield_method") == "foamed"


def _mass(part: Ingredient, mix: Kind) -> Kilogram:
    """Mass of a part with the water in its grains; a foamed mix counts its sand dry and leaves that out."""
    soaks = part.kind.has("absorption") and not is_foamed(mix)
    return part.mass * (1 + part.kind.value("absorption")) if soaks else part.mass


def share_of(held: Held, share: Ratio) -> Held:
    """So much of what is in the mixer."""
    return replace(
        held, masses=tuple((part, mass * share) for part, mass in held.masses), water=held.water * share,
        foam=held.foam * share, foam_mass=held.foam_mass * share, made=held.made * share,
    )  # fmt: skip


def weighed(held: Held, density: KgPerCubicMeter) -> Held:
    """The same with the room that its mass takes at the density it was found to have."""
    return replace(held, made=held.mass / density)


def with_added(held: Held, add: ToAdd, *, foam_density: KgPerCubicMeter, made: CubicMeter) -> Held:
    """What is in the mixer once all is added.

    Args:
        held: before anything is taken out
        add: what goes out and in
        foam_density: of the foam
        made: room it takes then
    """
    left = share_of(held, 1 - add.take_out / held.made)
    more = {part.part: _mass(part, held.mix) for part in add.parts}
    return replace(
        left,
        masses=tuple((part, mass + more.get(part, 0.0)) for part, mass in left.masses),
        water=left.water + add.water_in_all * water_density(),
        foam=left.foam + add.foam,
        foam_mass=left.foam_mass + add.foam * foam_density,
        made=made,
    )


def fresh(held: Held) -> Fresh:
    """What a batch is as it stands."""
    cement = held.cement
    foamed = is_foamed(held.mix)
    dry = (1 + BOUND_WATER.value) * cement + dict(held.masses).get("sand", 0.0)
    return Fresh(
        makes=held.made,
        density=corrections.content(mass=held.mass, made=held.made),
        dry=corrections.content(mass=dry, made=held.made) if foamed else None,
        cement=corrections.content(mass=cement, made=held.made) if cement else None,
        water_cement=held.water / cement if cement else None,
        with_foam_water=(held.water + held.foam_mass) / cement if foamed and cement else None,
    )


def of_card(charge: Charge, share: Ratio) -> tuple[Ingredient, ...]:
    """So much of each dry part of a card."""
    return tuple(scaled(part, share) for part in charge.ingredients)


def room_of(charge: Charge, masses: Mapping[str, Kilogram], water: Kilogram) -> CubicMeter:
    """Room that dry parts and water take in a mix: that of their grains, where those are known.

    Args:
        charge: the card of the mix
        masses: of each part, dry; below 0 for what is missing
        water: beside them
    """
    return water / water_density() + sum(
        mass / _grain(charge.part(part), charge) for part, mass in masses.items()
    )  # fmt: skip


def _grain(part: Ingredient, charge: Charge) -> KgPerCubicMeter:
    """Density of its grains; what the mix itself has of it in a volume where that is not known."""
    return part.kind.value("particle_density") if part.kind.has("particle_density") else charge.density
