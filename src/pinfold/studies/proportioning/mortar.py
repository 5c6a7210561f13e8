"""Mortar by the proportions of ASTM C270."""

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
    told,
)
from pinfold.studies.proportioning.records import Ask, Departure, Family, Proportioned, Wish
from pinfold.tables.shelf import Kind, kind

TYPES = ("M", "S", "N", "O", "K")
_ASKS = (
    Ask(key="type", says="type of mortar by strength, M strongest, K softest", choices=TYPES, otherwise="S"),
    BINDER, LIME, SAND, WATER,
)  # fmt: skip
_SAND_SAYS = (
    "Little sand makes it strong, stiff and quick to crack.",
    "Much sand makes it weak, harsh to spread and open to rain.",
)
_LIME_SAYS = ("Little lime makes it harsh and lets go of its water.", "Much lime makes it softer than its type.")


def propose(wish: Wish) -> Proportioned:
    """A mortar of the type wished for, in the middle of its range or in the parts told."""
    name, binder = wish.word("type"), wish.word("binder")
    base = kind("mixes", f"mortar-{name}")
    parts = _parts(wish, base)
    recipe = Recipe(
        family="mortar",
        base=base,
        title=f"mortar type {name}" + ("" if binder == "portland" else " of masonry cement"),
        uses={"cement": BINDERS[binder], "lime": "hydrated-lime", "sand": "sand"},
        parts=parts,
    )
    mix, working = blend(recipe, wish)
    return Proportioned(
        mix=mix,
        method="the proportions of ASTM C270, by loose volume",
        working=working,
        departures=_departures(name, binder, parts),
        rivals=(dry_volume_rival(mix, wish),),
        notes=_notes(binder),
    )


def _parts(wish: Wish, base: Kind) -> dict[str, Figure]:
    if wish.word("binder") == "portland":
        return {
            "cement": base.figure("cement"),
            "lime": told(wish, "lime", base.figure("lime")),
            "sand": told(wish, "sand", base.figure("sand")),
        }
    sand = kind("proportions", "mortar-masonry-cement").figure("sand")
    return {"cement": base.figure("cement"), "lime": told(wish, "lime", NONE), "sand": told(wish, "sand", sand)}


def _departures(name: str, binder: str, parts: dict[str, Figure]) -> tuple[Departure, ...]:
    lime, sand = parts["lime"].value, parts["sand"].value
    row = kind("proportions", f"mortar-{name}" if binder == "portland" else "mortar-masonry-cement")
    ratio = plaster.sand_per_binder(sand=sand, cement=parts["cement"].value, lime=lime)
    limed = Departure(
        what="lime in masonry cement", found=f"{parts['lime'].printed} to one of masonry cement", wanted="none",
        source="ASTM-C270", says="The bag has all it needs.",
    )  # fmt: skip
    return (
        *((limed,) if binder != "portland" and lime > 0 else ()),
        *held("lime", lime, row, key="lime", of="to one of cement", says=_LIME_SAYS),
        *held("sand", ratio, row, key="sand", of="to one of cement and lime together", says=_SAND_SAYS),
    )  # fmt: skip


def _notes(binder: str) -> tuple[str, ...]:
    if binder == "portland":
        return ()
    return ("Buy masonry cement of the type wanted: the bag says N, S or M. Bags differ; weigh a bucket of yours.",)


FAMILY = Family(name="mortar", says="between blocks, bricks and stones", asks=_ASKS, propose=propose)
