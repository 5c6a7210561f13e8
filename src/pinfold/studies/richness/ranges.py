"""How much sand publications allow a mix, and which steps of it are shown."""

from __future__ import annotations

from pinfold.errors import NotFoundError
from pinfold.formulas import plaster
from pinfold.sources import Standing
from pinfold.studies.richness.records import SandRange
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import Ratio

_BINDERS = "parts of sand to one of all that binds"
_STONES = "parts of sand and stone to one of cement"
_CONCRETE = SandRange(low=4.5, high=9.0, of=_STONES, source="CARPENTRY-CONCRETE", standing=Standing.READ)
_FOAMED = SandRange(
    low=400.0, high=1600.0, of="kg/m³ as cast", source="FOAM-OVERVIEW", standing=Standing.READ
)  # plastic density
_PLASTER_COATS = {"scratch": "first", "brown": "second", "finish": "finish"}


def sand_range(mix: Kind) -> SandRange | None:
    """The published range of a mix; None where none is known."""
    family = mix.word("family")
    if family == "foamed":
        return _FOAMED
    if family == "concrete" and mix.has("gravel"):
        return _CONCRETE
    return _plaster(mix) if family == "plaster" else _by_table(mix)


def _plaster(mix: Kind) -> SandRange | None:
    coat = next((coat for word, coat in _PLASTER_COATS.items() if word in mix.name), None)
    if coat is None:
        return None
    found = plaster.proportions(coat=coat, binder="portland")  # type: ignore[arg-type]  # a choice of its own
    return SandRange(low=found.sand_low, high=found.sand_high, of=_BINDERS, source="IRC-R702", standing=Standing.READ)


def _by_table(mix: Kind) -> SandRange | None:
    name = {"concrete-topping": "mortar-M", "mortar-plain": "mortar-M"}.get(mix.name, mix.name)
    row = shelf("proportions").get(name)
    if row is None or not (row.has("sand_low") and row.has("sand_high")):
        return None
    low, high = row.figure("sand_low"), row.figure("sand_high")
    return SandRange(low=low.value, high=high.value, of=_BINDERS, source=high.source, standing=low.standing)


def binders(mix: Kind) -> Ratio:
    """Parts of all that binds to one of cement."""
    return 1 + (mix.value("lime") / mix.value("cement") if mix.has("lime") else 0.0)


def outside(published: SandRange | None, share: float) -> str:
    """Why a share lies outside the published range; empty inside, or where none is known."""
    if published is None or published.low * (1 - _SLACK) <= share <= published.high * (1 + _SLACK):
        return ""
    side = "leaner" if share > published.high else "richer"
    if published.of.startswith("kg"):
        side = "heavier" if share > published.high else "lighter"
    return f"{side} than the {published.low:g} to {published.high:g} {published.of} that are published"


_SLACK = 1e-6


def shown_range(published: SandRange | None, present: float, per_binder: float) -> tuple[float, float]:
    """From where to where sand is shown when nothing is said: a little past both ends of what is published."""
    if published is None:
        return present / 2, present * 1.6
    past = _PAST_CONCRETE if published is _CONCRETE else _PAST
    low, high = published.low * per_binder / past, published.high * per_binder * past
    return min(low, present), max(high, present)


_PAST, _PAST_CONCRETE = 1.5, 1.25


def steps_between(low: float, high: float, present: float, usual: tuple[float, ...]) -> tuple[float, ...]:
    """Round places between two, no more than eleven, the present one among them.

    Args:
        low: the richest
        high: the leanest
        present: as mixed now
        usual: sizes of a step, smallest first
    """
    size = next((size for size in usual if (high - low) / size <= _MOST), usual[-1])
    first, last = round(low / size), round(high / size)
    places = {round(number * size, 6) for number in range(max(first, 1), max(last, 1) + 1)}
    near = {place for place in places if abs(place - present) < 0.2 * size}
    return tuple(sorted(places - near | {present}))


_MOST = 9


def needs_cement(mix: Kind) -> None:
    """Nothing is known of how sand changes mixes that no cement binds.

    Raises:
        NotFoundError: no cement is in it.
    """
    if not mix.has("cement") and mix.word("family") != "foamed":
        raise NotFoundError(
            f"how {mix.name} changes with its sand is not published: lime and earth are told by trial patches; write "
            "them down as trials and ask 'pinfold mix next'"
        )
