"""Back to the proportions: what to add where a bag was short, too much water was poured, or the sand was wetter."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from pinfold.errors import InputError
from pinfold.findings import Step, work
from pinfold.formulas import corrections
from pinfold.studies.batching.charge import SPREAD, scaled
from pinfold.studies.batching.loose import water_density
from pinfold.studies.batching.records import Charge
from pinfold.studies.batching.sand import moisture_of
from pinfold.studies.correcting.held import fresh, held_by, room_of, with_added
from pinfold.studies.correcting.records import Correction, Held, Off, ToAdd
from pinfold.units import CUBIC_METER, KILOGRAM, RATIO, CubicMeter, Kilogram, Ratio, both

_SAME: Ratio = 0.005
"""Parts that agree so nearly are in their proportions: no scale on site tells better (common practice)."""


_GRAM: Kilogram = 1e-3


_BRIM = 1.5
"""A drum runs over past so many times what it turns well (common practice)."""
_MUCH = 1.3
_FAR = (
    "So far off, a good part of a batch goes in to save this one: it may do where no strength is asked, such as under "
    "a path, and the next is mixed anew."
)


@dataclass(frozen=True, kw_only=True)
class Slip:
    """What went otherwise than the card says.

    Attributes:
        short: missing mass by part, dry as the card has it.
        water: poured in over what the card says; below 0 for less.
        moisture: of the sand, water over dry mass, as measured; None where it is as thought.
        by_scale: whether the sand was weighed; by the bucket its dry mass is as the card has it.
    """

    short: Mapping[str, Kilogram] = field(default_factory=dict)
    water: CubicMeter = 0.0
    moisture: Ratio | None = None
    by_scale: bool = False


def back_to_proportions(charge: Charge, slip: Slip, *, bulking: Ratio | None, most: CubicMeter) -> Correction:
    """What to add so that the parts are in their proportions again; nothing can be taken out of them.

    Args:
        charge: the card it was mixed by
        slip: what went otherwise
        bulking: of the sand as the site has it, for the water it was thought to bring
        most: what the mixer holds

    Raises:
        InputError: more is missing than the card has, or the mix has no such part.
    """
    meant = held_by(charge)
    here = _here(charge, meant, slip, bulking)
    _went_in(here.made, most, "water_over" if slip.water > 0 else "sand_moisture")
    brought = _brought(charge, slip, bulking)
    steps = _batches(meant, here, brought)
    batches = max(step.number for step in steps)
    add = _add(charge, meant, here, (batches, brought))
    made = batches * charge.makes
    off = Off.NEAR if batches - min(step.number for step in steps) <= _SAME else Off.UNEVEN
    add = fitted(add, here.made, made, most) if off is Off.UNEVEN else ToAdd()
    after = with_added(here, add, foam_density=_foam_density(charge), made=most if add.take_out else made)
    return Correction(
        of=charge.mix, by="amounts", found=None, wanted=None, unit=RATIO, near=None, off=off, add=add,
        before=fresh(here), after=fresh(after if off is Off.UNEVEN else here), notes=_notes(batches, off),
        working=steps, figures=charge.figures,
    )  # fmt: skip


def _went_in(made: CubicMeter, most: CubicMeter, place: str) -> None:
    if made > most * _BRIM:
        raise InputError(
            f"{both(made, CUBIC_METER)} would be in the mixer by that, which turns {both(most, CUBIC_METER)}: it would "
            "have run over. Tell what truly went in", place=place,
        )  # fmt: skip


def _foam_density(charge: Charge) -> float:
    return 0.0 if charge.foam is None else charge.mix.value("foam_density")


def _here(charge: Charge, meant: Held, slip: Slip, bulking: Ratio | None) -> Held:
    """What is in the mixer, by what slipped."""
    masses, water = dict(meant.masses), meant.water + slip.water * water_density()
    for part, mass in slip.short.items():
        if part not in masses:
            raise InputError(f"{charge.mix.name} has no {part}; it has {', '.join(masses)}", place="short")
        if not 0 <= mass <= charge.part(part).mass:
            raise InputError(
                f"{both(mass, KILOGRAM)} of {part} are said to be missing; the card has "
                f"{both(charge.part(part).mass, KILOGRAM)}", place="short",
            )  # fmt: skip
        masses[part] *= 1 - mass / charge.part(part).mass
    if slip.moisture is not None:
        dry, more = _wetter_sand(charge, slip, bulking)
        masses["sand"] *= dry
        water += more
    if water < 0:
        raise InputError("less water than none is in the mixer by these amounts", place="water_over")
    meant_masses = dict(meant.masses)
    changes = {part: charge.part(part).mass * (mass / meant_masses[part] - 1) for part, mass in masses.items()}
    made = meant.made + room_of(charge, changes, water - meant.water)
    return replace(meant, masses=tuple(masses.items()), water=water, made=made)


def _wetter_sand(charge: Charge, slip: Slip, bulking: Ratio | None) -> tuple[Ratio, Kilogram]:
    """Share of the dry sand that is there, and the water that came beside what was thought."""
    sand = next((part for part in charge.ingredients if part.part == "sand"), None)
    if sand is None:
        raise InputError(f"{charge.mix.name} has no sand", place="sand_moisture")
    assert slip.moisture is not None
    thought = moisture_of(sand.kind, bulking)
    dry = (1 + thought) / (1 + slip.moisture) if slip.by_scale else 1.0
    soaks = sand.kind.value("absorption") if sand.kind.has("absorption") else 0.0
    return dry, sand.mass * (dry * (slip.moisture - soaks) - (thought - soaks))


def _brought(charge: Charge, slip: Slip, bulking: Ratio | None) -> Kilogram:
    """Water that the sand of a whole card truly brings."""
    thought = charge.water_in_sand * water_density()
    if slip.moisture is None:
        return thought
    sand = charge.part("sand")
    return thought + sand.mass * (slip.moisture - moisture_of(sand.kind, bulking))


def _batches(meant: Held, here: Held, brought: Kilogram) -> tuple[Step, ...]:
    """For how many batches each part is enough; of the water what is poured, for added sand brings its own."""
    present = dict(here.masses)
    of_parts = [
        work(
            corrections.batches_held, why=f"batches by the {part.replace('_', ' ')}", present=present[part], meant=mass
        )
        for part, mass in meant.masses
    ]
    if not meant.water:
        return tuple(of_parts)
    if meant.water <= brought:
        raise InputError(
            "the sand alone brings more water than the mix wants; no addition of it helps. Let it drain and dry first",
            place="sand_moisture",
        )
    poured = here.water - _sand_share(meant, here) * brought
    return (
        *of_parts,
        work(
            corrections.batches_held, why="batches by the water beside the sand's", present=max(poured, 0.0),
            meant=meant.water - brought,
        ),
    )  # fmt: skip


def _sand_share(meant: Held, here: Held) -> Ratio:
    """Sand in the mixer over that of a card."""
    whole = dict(meant.masses).get("sand", 0.0)
    return dict(here.masses)["sand"] / whole if whole else 0.0


def _add(charge: Charge, meant: Held, here: Held, by: tuple[Ratio, Kilogram]) -> ToAdd:
    batches, brought = by
    masses, present = dict(meant.masses), dict(here.masses)
    shares = {
        part: corrections.part_to_add(present=present[part], meant=masses[part], batches=batches) / masses[part]
        for part in masses
    }
    parts = tuple(scaled(part, shares[part.part]) for part in charge.ingredients if shares[part.part] > _SAME)
    water = max(batches * meant.water - here.water, 0.0)
    return ToAdd(
        parts=parts, water=_worth(water - shares.get("sand", 0.0) * brought) / water_density(),
        water_in_all=water / water_density(), foam=max(batches - 1, 0.0) * meant.foam,
    )  # fmt: skip


def _worth(mass: Kilogram) -> Kilogram:
    """Water that is worth pouring: none for what rounding left."""
    return mass if mass > _GRAM else 0.0


def fitted(add: ToAdd, before: CubicMeter, after: CubicMeter, most: CubicMeter) -> ToAdd:
    """The same for as much of the batch as leaves room for it in the mixer, which takes a little more than it should.

    Args:
        add: for all of the batch
        before: room it takes
        after: room it would take with all that is added
        most: what the mixer holds
    """
    if add.is_nothing or after <= most * (1 + SPREAD):
        return add
    share = most / after
    return ToAdd(
        take_out=before * (1 - share), foam=add.foam * share, slurry=add.slurry * share,
        parts=tuple(scaled(part, share) for part in add.parts), water=add.water * share,
        water_in_all=add.water_in_all * share,
    )  # fmt: skip


def _notes(batches: Ratio, off: Off) -> tuple[str, ...]:
    if off is Off.NEAR:
        return ("The parts are in their proportions as near as a scale on site tells.",)
    enough = f"What there is most of is enough for {batches:.2f} batches; the other parts go up to that."
    return (enough, _FAR) if batches >= _MUCH else (enough,)
