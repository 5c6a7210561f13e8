"""Adobe: bricks of clay soil, sand and straw, with asphalt emulsion where they must stand rain, and their mortar."""

from __future__ import annotations

import math
from dataclasses import replace

from pinfold.figures import Figure, given
from pinfold.findings import Step, work
from pinfold.formulas import earth_mixes
from pinfold.studies.proportioning.parts import NONE, ONE, Recipe, blend, charge_asked, held, plain, proportions, told
from pinfold.studies.proportioning.records import Ask, Departure, Family, Proportioned, Wish
from pinfold.tables.shelf import Kind, kind
from pinfold.units import KILOGRAM, METER, RATIO, both

_SIDE = Ask(key="length", says="length of the mold", unit=METER, otherwise="14 in", low=0.05, high=1.0, example="14 in")
_ASKS = (
    Ask(key="make", says="bricks, or the mortar for stabilized ones", choices=("bricks", "mortar"), otherwise="bricks"),
    Ask(
        key="clay", says="clay in the soil by the jar test, as a share of all that settles", unit=RATIO, low=0.0,
        high=1.0, example="35 %",
    ),
    Ask(
        key="straw", says="parts of chopped straw, loose, to one of clay soil", unit=RATIO, low=0.0, high=5.0,
        example="1/4",
    ),
    Ask(key="weather", says="bare to the rain (with emulsion) or plastered", choices=("bare", "plastered"),
        otherwise="plastered"),
    Ask(
        key="emulsion", says="parts of asphalt emulsion to one of clay soil, by volume", unit=RATIO, low=0.0, high=1.0,
        example="0.06",
    ),
    Ask(
        key="water", says="all the water over dry mass, emulsion apart", unit=RATIO, otherwise="22 %", low=0.05,
        high=0.6, example="22 %",
    ),
    _SIDE,
    replace(_SIDE, key="width", says="width of the mold", otherwise="10 in", example="10 in"),
    replace(_SIDE, key="height", says="height of the mold", otherwise="4 in", example="4 in"),
)  # fmt: skip
_USES = {"clay_soil": "clay-soil", "sand": "sand", "straw": "straw", "emulsion": "asphalt-emulsion"}
_CLAY_SAYS = (
    "So little clay leaves crumbling bricks: bring in soil with clay.",
    "So much clay cracks: thin it with sand.",
)


def propose(wish: Wish) -> Proportioned:
    """Bricks by the clay in the soil, or the mortar for them."""
    return _mortar(wish) if wish.word("make") == "mortar" else _bricks(wish)


def _bricks(wish: Wish) -> Proportioned:
    row = kind("proportions", "adobe")
    sand, steps, outside = _sand(wish, row)
    parts = {
        "clay_soil": ONE, "sand": sand, "straw": told(wish, "straw", row.figure("straw")),
        "emulsion": _emulsion(wish, row),
    }  # fmt: skip
    parts = {part: figure for part, figure in parts.items() if figure.value > 0}
    mix = _mix(wish, row, parts)
    straw = parts["straw"].value if "straw" in parts else 0.0
    wetted = held(
        "asphalt emulsion", parts["emulsion"].value, row, key="emulsion", of="to one of clay soil",
        says=("The bricks will drink rain.", "Much emulsion makes soft bricks."),
    ) if "emulsion" in parts else ()  # fmt: skip
    return Proportioned(
        mix=mix,
        method="clay from 10 to 30 of 100 by the jar test",
        working=steps,
        departures=(*outside, *held("straw", straw, row, key="straw", of="to one of clay soil"), *wetted),
        notes=(_counted(wish, mix), *_notes(wish, row, bare="emulsion" in parts)),
    )


def _sand(wish: Wish, row: Kind) -> tuple[Figure, tuple[Step, ...], tuple[Departure, ...]]:
    """Sand to one of soil that brings its clay to the middle of the range, where it has too much."""
    clay = wish.perhaps("clay")
    if clay is None:
        return NONE, (), ()
    step = work(
        earth_mixes.sand_to_thin_clay, why="sand to soil by mass", clay=clay,
        wanted=clay if clay <= row.value("clay_high") else row.value("clay"),
    )  # fmt: skip
    soil, sand = (wish.material(name).value("bulk_density") for name in ("clay-soil", "sand"))
    parts = step.number * soil / sand
    outside = held("clay in the soil", clay, row, key="clay", says=_CLAY_SAYS)
    return given(parts, RATIO, plain(parts)), (step,), outside


def _emulsion(wish: Wish, row: Kind) -> Figure:
    return told(wish, "emulsion", row.figure("emulsion") if wish.word("weather") == "bare" else NONE)


def _mix(wish: Wish, row: Kind, parts: dict[str, Figure]) -> Kind:
    water = given(wish.number("water"), RATIO) if "water" in wish.told else row.figure("water_solids")
    return Kind(
        name="adobe",
        shelf="mixes",
        figures={**parts, "water_solids": water, "air": row.figure("air")},
        words={
            "says": f"adobe, {proportions(parts, _USES)}", "family": "adobe", "yield_method": "absolute",
            "uses": {part: wish.material(_USES[part]) for part in parts},
            "notes": ["Let wet soil soak overnight; stiff mud lets the mold be lifted at once."],
            "cautions": ["silica-dust", "heavy-lift"],
        },
    )  # fmt: skip


def _counted(wish: Wish, mix: Kind) -> str:
    sides = {side: wish.number(side) for side in ("length", "width", "height")}
    batch = charge_asked(mix, wish)
    count = earth_mixes.units_made(mix=batch.makes, **sides)
    each = sum(part.mass for part in batch.ingredients) / batch.makes * math.prod(sides.values())
    return (
        f"A batch fills {count:.1f} molds, {1 / math.prod(sides.values()):.0f} to a cubic meter; a brick weighs about "
        f"{both(each, KILOGRAM)} dry."
    )


def _notes(wish: Wish, row: Kind, *, bare: bool) -> tuple[str, ...]:
    jar = () if wish.perhaps("clay") is not None else (
        "The soil's clay was not told: shake soil and water in a jar, let it settle a day, and give clay over all.",
    )  # fmt: skip
    soak = (
        f"Stand a dry test brick on a wet sponge overnight: it may drink {row.figure('soak').printed} of its weight "
        "and no more.",
    ) if bare else ()  # fmt: skip
    return (*jar, *soak, "Dry them flat two days, on edge a week or more, a month before laying. No frost while wet.")


def _mortar(wish: Wish) -> Proportioned:
    """Cement, sand and emulsion for bricks that show."""
    row = kind("proportions", "adobe-mortar")
    sack = wish.material("portland-cement")
    emulsion = row.value("emulsion") * sack.value("bulk_density") / sack.value("bag_us")
    recipe = Recipe(
        family="adobe",
        base=kind("mixes", "mortar-plain"),
        title="mortar for stabilized adobe",
        uses={"cement": "portland-cement", "sand": "sand", "emulsion": "asphalt-emulsion"},
        parts={
            "cement": row.figure("cement"),
            "sand": row.figure("sand"),
            "emulsion": replace(row.figure("emulsion"), value=emulsion, unit=RATIO, printed=plain(emulsion)),
        },
    )
    mix, working = blend(recipe, replace(wish, told=wish.told - {"water"}))  # the water asked for is that of bricks
    return Proportioned(
        mix=replace(mix, name="adobe-mortar", words={**mix.words, "order": "mortar"}),
        method="one of cement to 2-1/2 of sand with emulsion, from a book on owner-built adobe",
        working=working,
        notes=(
            "The emulsion goes in last; it brings water of its own, which is held back from the rest.",
            "For plastered adobe the mud of the bricks, sifted, is the better mortar.",
        ),
    )


FAMILY = Family(name="adobe", says="sun-dried bricks of clay soil, and their mortar", asks=_ASKS, propose=propose)
