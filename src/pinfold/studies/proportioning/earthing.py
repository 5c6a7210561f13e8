"""Earth plaster: clay soil, sand and straw, and what a dried test bar says about the sand."""

from __future__ import annotations

from dataclasses import replace

from pinfold.errors import InputError, InvalidPlan
from pinfold.figures import practice
from pinfold.findings import Step, work
from pinfold.formulas import earth_mixes
from pinfold.studies.proportioning.parts import SAND, WATER_PARTS, Recipe, blend, held, plain, told
from pinfold.studies.proportioning.records import Ask, Departure, Family, Proportioned, Wish
from pinfold.tables.shelf import kind
from pinfold.units import METER, RATIO, Meter, both

AIR = practice("3 %", RATIO, "worked by hand")
BOX = (
    Ask(
        key="box", says="length of the test bar's box inside", unit=METER, otherwise="600 mm", low=0.1, high=2.0,
        example="600 mm",
    ),
    Ask(
        key="gap", says="gap of the dried test bar, all cracks pushed to one end", unit=METER, low=0.0, high=1.0,
        example="18 mm",
    ),
)  # fmt: skip
_ASKS = (
    Ask(key="coat", says="which coat", choices=("first", "finish"), otherwise="first"),
    replace(SAND, says="parts of damp loose sand to one of clay soil, by volume", example="3"),
    Ask(
        key="straw", says="parts of chopped straw, loose, to one of clay soil", unit=RATIO, low=0.0, high=10.0,
        example="1/2",
    ),
    WATER_PARTS,
    *BOX,
)  # fmt: skip
_OF = "to one of clay soil"
_SAND_SAYS = ("Rich in clay it shrinks and cracks.", "Poor in clay it dusts and washes off.")


def shrinkage_of(wish: Wish, gap: Meter, *, family: str) -> Step:
    """How much the bar shrank in its box.

    Raises:
        InvalidPlan: a gap as long as the box.
    """
    box = wish.number("box")
    if gap >= box:
        says = f"{both(gap, METER)} found; less than the box itself, {both(box, METER)}, is wanted: measure the gap"
        raise InvalidPlan(f"the wish for {family}", [InputError(f"{says}, not what is left of the bar", place="gap")])
    return work(earth_mixes.linear_shrinkage, why="how much the bar shrank", wet_length=box, gap=gap)


def propose(wish: Wish) -> Proportioned:
    """Clay soil, sand and straw for a coat; with a dried bar, what to try next."""
    base = kind("mixes", "earth-plaster")
    parts = {
        "clay_soil": base.figure("clay_soil"),
        "sand": told(wish, "sand", base.figure("sand")),
        "straw": told(wish, "straw", base.figure("straw")),
    }
    mix, working = blend(
        Recipe(
            family="earth", base=base, title=f"{wish.word('coat')} coat of earth plaster", parts=parts, air=AIR,
            uses={"clay_soil": "clay-soil", "sand": "sand", "straw": "straw"},
        ),
        wish,
    )  # fmt: skip
    row = kind("proportions", "earth-plaster")
    sand, straw = parts["sand"].value, parts["straw"].value
    bar, notes, shrunk = _bar(wish, sand, straw)
    return Proportioned(
        mix=mix,
        method="clay soil and sand by loose volume, and the test bar",
        working=(*bar, *working),
        departures=(
            *held("sand", sand, row, key="sand", of=_OF, says=_SAND_SAYS),
            *held("straw", straw, row, key="straw", of=_OF, says=("", "So much straw leaves it weak and rough.")),
            *shrunk,
        ),
        thickness=kind("proportions", f"earth-coat-{wish.word('coat')}").value("thickness"),
        notes=notes,
    )


def _bar(wish: Wish, sand: float, straw: float) -> tuple[tuple[Step, ...], tuple[str, ...], tuple[Departure, ...]]:
    """What the dried bar says of this mix, and the sand to try next."""
    gap = wish.perhaps("gap")
    if gap is None:
        return (), (_HOW_TO_TRY,), ()
    key = "shrinkage_straw" if straw > 0 else "shrinkage"
    most = kind("proportions", "earth-plaster").figure(key)
    shrunk = shrinkage_of(wish, gap, family="earth")
    if shrunk.number <= most.value * (1 + _SLACK):
        return (shrunk,), (f"The bar shrank {shrunk.number:.1%}: good, {most.printed} is the most.",), ()
    more = work(
        earth_mixes.sand_against_shrinkage, why="sand to try next", tried_sand=sand, shrinkage=shrunk.number,
        allowed=most.value,
    )  # fmt: skip
    outside = Departure(
        what="shrinkage of the test bar", found=f"{shrunk.number:.1%}", wanted=f"at most {most.printed}",
        source=most.source, says=f"Try {plain(more.number)} parts of sand next, and dry another bar.",
    )  # fmt: skip
    return (shrunk, more), (), (outside,)


_SLACK = 1e-9
_HOW_TO_TRY = (
    "Try it first: press the mix wet into an oiled box 600 mm (24 in) long and 40 mm (1-1/2 in) square, dry it in the "
    "shade, push the bar to one end and give the gap."
)

FAMILY = Family(name="earth", says="plaster of clay soil, sand and straw", asks=_ASKS, propose=propose)
