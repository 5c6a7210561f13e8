"""Cement plaster by coat and base: proportions of the code's table, thickness and number of coats."""

from __future__ import annotations

from pinfold.figures import Figure
from pinfold.formulas import plaster
from pinfold.studies.proportioning.parts import (
    BINDER,
    BINDERS,
    LIME,
    NONE,
    SAND,
    WATER,
    Recipe,
    blend,
    dry_volume_rival,
    held,
    is_changed,
    plain,
    told,
)
from pinfold.studies.proportioning.records import Ask, Departure, Family, Proportioned, Wish
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, RATIO, System, show

COATS = ("scratch", "brown", "finish")
BASES = ("unit-masonry", "lath", "solid-base", "cast-concrete", "low-absorption")
_DENSE = ("cast-concrete", "low-absorption")
_ASKS = (
    Ask(key="coat", says="which coat, from the wall outward", choices=COATS, otherwise="scratch"),
    Ask(key="base", says="what the plaster goes on", choices=BASES, otherwise="unit-masonry"),
    BINDER, LIME, SAND, WATER,
    Ask(
        key="under_sand", says="parts of sand to one of cement in the coat under it", unit=RATIO, low=0.0, high=60.0,
        example="6",
    ),
    Ask(
        key="under_lime", says="parts of lime to one of cement in the coat under it", unit=RATIO, low=0.0, high=20.0,
        example="1",
    ),
)  # fmt: skip
_ROW = {"scratch": "first", "brown": "second", "finish": "finish"}
_UNDER = {"brown": "plaster-scratch-lime", "finish": "plaster-brown-lime"}
_SUM = "to one of all that binds"
_SAND_SAYS = ("Rich plaster is stiff, shrinks and cracks.", "Over-sanded plaster is weak, dusts and lets rain in.")
_LIME_SAYS = ("Without lime it is harsh and quick to crack.", "Much lime keeps it soft and slow to harden.")


def propose(wish: Wish) -> Proportioned:
    """A plaster for the coat and base wished for, inside the code's table or in the parts told."""
    coat, base, binder = wish.word("coat"), wish.word("base"), wish.word("binder")
    start = _start(coat, base)
    parts = _parts(wish, start)
    mix, working = blend(
        Recipe(
            family="plaster", base=start, title=f"{coat} coat on {base.replace('-', ' ')}", parts=parts,
            uses={"cement": BINDERS[binder], "lime": "hydrated-lime", "sand": "sand"},
        ),
        wish,
    )  # fmt: skip
    layers = layers_on(base)
    return Proportioned(
        mix=mix,
        method="the code's table of plaster, sand counted to all that binds",
        working=working,
        departures=(*_departures(wish, parts), *_richer(wish, parts)),
        rivals=(dry_volume_rival(mix, wish),),
        thickness=layers.value(coat) if layers.has(coat) else layers.value("brown"),
        notes=_notes(coat, base, layers),
    )


def layers_on(base: str) -> Kind:
    """Row of the thickness and number of coats on a base."""
    return kind("plaster", f"over-{'unit-masonry' if base == 'low-absorption' else base}")


def _start(coat: str, base: str) -> Kind:
    if coat == "scratch":
        return kind("mixes", "plaster-scratch" if base in _DENSE else "plaster-scratch-lime")
    return kind("mixes", f"plaster-{coat}-lime")


def _parts(wish: Wish, start: Kind) -> dict[str, Figure]:
    if wish.word("binder") == "portland":
        return {part: told(wish, part, start.figure(part)) for part in ("cement", "lime", "sand")}
    row = kind("plaster", f"masonry-cement-{_ROW[wish.word('coat')]}")
    middle = (row.value("sand_low") + row.value("sand_high")) / 2
    return {
        "cement": start.figure("cement"),
        "lime": told(wish, "lime", NONE),
        "sand": told(wish, "sand", _practice(middle, row)),
    }


def _practice(middle: float, row: Kind) -> Figure:
    low = row.figure("sand_low")
    return Figure(
        value=middle, unit=RATIO, standing=low.standing, source=low.source, where=f"middle, {low.where}",
        printed=plain(middle),
    )  # fmt: skip


def _departures(wish: Wish, parts: dict[str, Figure]) -> tuple[Departure, ...]:
    coat, base, binder = wish.word("coat"), wish.word("base"), wish.word("binder")
    dense = "-dense" if coat == "scratch" and base in _DENSE and binder == "portland" else ""
    row = kind("plaster", f"{binder}-{_ROW[coat]}{dense}")
    lime = parts["lime"].value
    ratio = plaster.sand_per_binder(sand=parts["sand"].value, cement=1.0, lime=lime)
    return (
        *held("lime", lime, row, key="lime", of="to one of cement", says=_LIME_SAYS),
        *held("sand", ratio, row, key="sand", of=_SUM, says=_SAND_SAYS),
    )


def _richer(wish: Wish, parts: dict[str, Figure]) -> tuple[Departure, ...]:
    """Whether the coat holds more cement than the one under it."""
    coat = wish.word("coat")
    if coat not in _UNDER and not is_changed(wish, ("under_sand", "under_lime")):
        return ()
    under = kind("mixes", _UNDER.get(coat, "plaster-scratch-lime"))
    lime, sand = (told(wish, f"under_{part}", under.figure(part)).value for part in ("lime", "sand"))
    here = plaster.richness(sand=parts["sand"].value, cement=1.0, lime=parts["lime"].value)
    below = plaster.richness(sand=sand, cement=1.0, lime=lime)
    if here <= below + 1e-9:
        return ()
    said = "" if is_changed(wish, ("under_sand", "under_lime")) else f", taken as {under.says.partition(', ')[2]}"
    return (
        Departure(
            what="richer than the coat under it", found=f"cement {here:.1%} of all parts",
            wanted=f"at most the {below:.1%} of the coat under it{said}", source="PRACTICE",
            says="A coat stronger than the one under it pulls it off the wall as it shrinks.",
        ),
    )  # fmt: skip


def _notes(coat: str, base: str, layers: Kind) -> tuple[str, ...]:
    thick = layers.figure("thickness")
    count = f"{layers.value('coats'):.0f} coats on {base.replace('-', ' ')}, {thick.printed} together"
    two = coat == "scratch" and not layers.has("scratch")
    dense = {
        "cast-concrete": "Roughen or dash a bond coat first where it is smooth.",
        "low-absorption": "It hardly sucks: lime to 3/4 of a part, and a dashed bond coat first where it is smooth.",
    }
    return (
        f"{count} ({show(thick.value, METER, System.METRIC)}); {_split(layers)}.",
        *(("Two coats here: a base coat, taken as the scratch coat, and a finish.",) if two else ()),
        *((dense[base],) if base in dense else ()),
        *(("Never richer than the coat under it.",) if coat == "finish" else ()),
    )


def _split(layers: Kind) -> str:
    return ", ".join(f"{coat} {layers.figure(coat).printed}" for coat in COATS if layers.has(coat))


FAMILY = Family(
    name="plaster", says="of cement and lime, by coat and by what it goes on", asks=_ASKS, propose=propose
)  # fmt: skip
