"""How deep the ground freezes: as the plan gives it, and as its winter and its soil would have it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.figures import given
from pinfold.findings import Step, work
from pinfold.formulas import frost
from pinfold.plan.place import Place
from pinfold.studies.stability.answers import in_words, told
from pinfold.studies.stability.factors import Named
from pinfold.units import CELSIUS, KELVIN_SECOND, METER, SECOND, KelvinSecond, Meter, Second


@dataclass(frozen=True, kw_only=True)
class Freezing:
    """A depth of frost.

    Attributes:
        depth: that counts.
        figures: behind it.
        working: of what the winter would give, where it is known.
        note: how the two compare.
        caution: where the winter would freeze deeper than the depth that counts.
    """

    depth: Meter
    figures: Named
    working: tuple[Step, ...] = ()
    note: str = ""
    caution: str = ""


@lru_cache(maxsize=8)
def freezing_of(place: Place) -> Freezing:
    """The depth of frost: the given one first, what the winter would give beside it.

    Raises:
        NotFoundError: neither is known; the message says what to write.
    """
    winter, why = _by_winter(place)
    if place.frost_depth is None:
        if winter is None:
            raise NotFoundError(told(_UNKNOWN, why))
        return winter
    figures: Named = (("frost depth", given(place.frost_depth, METER)),)
    if winter is None:
        return Freezing(depth=place.frost_depth, figures=figures, note=why)
    deeper = winter.depth > place.frost_depth
    how = "deeper" if deeper else "no deeper"
    note = f"reckoned from the winter given, this soil freezes {how} than frost_depth: see the working"
    return Freezing(
        depth=place.frost_depth, figures=(*figures, *winter.figures), working=winter.working, note=note,
        caution=_DEEPER if deeper else "",
    )  # fmt: skip


_DEEPER = (
    "By the winter you gave, this soil freezes deeper than frost_depth, which is what counts here. Ask the local code, "
    "or write the deeper figure."
)


_UNKNOWN = "no frost depth is given; write frost_depth under [place], as the local code has it"


def _by_winter(place: Place) -> tuple[Freezing | None, str]:
    """Depth by the modified Berggren equation, or why there is none; nothing to say where no winter is given."""
    if place.freezing_index is None:
        return None, ""
    try:
        return _reckoned(place, place.freezing_index), ""
    except NotFoundError as missing:
        return None, f"the depth of frost is not reckoned from the freezing index: {missing}"
    except OutOfRangeError as outside:
        return None, f"the depth of frost is not reckoned from the freezing index: {in_words(outside)}"


def _reckoned(place: Place, index: KelvinSecond) -> Freezing:
    if place.soil is None or "grain" not in place.soil.words:
        raise NotFoundError("the soil is not known by its grain; write soil or hand_test under [place]")
    if place.freezing_days is None or place.mean_temperature is None:
        raise NotFoundError("write freezing_days and mean_temperature beside it")
    dry, damp = place.soil.figure("dry_density"), place.soil.figure("moisture")
    named = {"dry_density": dry.value, "moisture": damp.value}
    latent = work(frost.latent_heat, why="heat of the water in the ground", **named)
    held = work(frost.heat_capacity, why="heat of the ground itself", **named)
    carried = work(
        frost.conductivity_by_kersten, why="how well it carries heat", **named, grain=place.soil.word("grain")
    )
    colder, figures = _surface(place, index)
    steps = _deep(place, colder, (latent, held, carried))
    return Freezing(
        depth=steps[-1].number if steps else 0.0, working=(latent, held, carried, colder, *steps),
        figures=(
            *figures, ("freezing days", given(place.freezing_days, SECOND)),
            ("mean temperature", given(place.mean_temperature, CELSIUS)), ("density of the dry soil", dry),
            ("moisture of the soil", damp),
        ),
        note="reckoned from the winter given, by the modified Berggren equation; the local code may ask for more",
    )  # fmt: skip


def _surface(place: Place, index: KelvinSecond) -> tuple[Step, Named]:
    """Index of the surface; as cold as the air where nothing is said of it."""
    figures: Named = (("freezing index", given(index, KELVIN_SECOND)),)
    factor, why = 1.0, "the ground counts as cold as the air: write surface under [place]"
    if place.surface is not None:
        figure = place.surface.figure("n")
        factor, why = figure.value, f"under {place.surface.name}"
        figures = (*figures, ("factor of the surface", figure))
    return work(frost.surface_index, why=why, air_index=index, factor=factor), figures


def _deep(place: Place, colder: Step, ground: tuple[Step, Step, Step]) -> tuple[Step, ...]:
    latent, held, carried = ground
    days: Second = place.freezing_days or 0.0
    if colder.number <= 0:
        return ()
    share = work(
        frost.berggren_coefficient, why="what the warm ground takes off", surface_index=colder.number, duration=days,
        mean_temperature=place.mean_temperature, capacity=held.number, latent_heat=latent.number,
    )  # fmt: skip
    deep = work(
        frost.frost_depth, why="depth the winter reaches", coefficient=share.number, conductivity=carried.number,
        surface_index=colder.number, latent_heat=latent.number,
    )  # fmt: skip
    return share, deep
