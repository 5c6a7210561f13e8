"""A mix in parts by loose volume: what was told over what ships, water that closes its volume, and what cannot be."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from pinfold.errors import InputError, InvalidPlan
from pinfold.figures import Figure, given, practice
from pinfold.findings import Step, work
from pinfold.formulas import mixes
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.loose import FOLDED_IN, PARTS, water_density
from pinfold.studies.batching.records import Charge
from pinfold.studies.proportioning.records import Ask, Departure, Rival, Wish
from pinfold.tables.shelf import Kind, kind
from pinfold.units import KG_PER_CUBIC_METER, RATIO, CubicMeter, System, show

ONE, NONE = (
    Figure(value=number, unit=RATIO, standing=Standing.DERIVED, source="STATICS", where="counted to", printed=text)
    for number, text in ((1.0, "1"), (0.0, "0"))
)
"""The part all others are counted to, and none of a part."""
AIR = practice("6 %", RATIO, "mortar and plaster mixed by machine or hoe")
_SLACK = 1e-9
_THIN, _STIFF = 1.2, 0.7
"""Water over the usual: from here on it spoils the mix (common practice)."""
_BY_NAME = ("masonry-cement", "lime-putty", "hydraulic-lime", "asphalt-emulsion")
"""Materials said by their whole name; others by the word of their part."""

SAND = Ask(
    key="sand", says="parts of damp loose sand to one of cement, by volume", unit=RATIO, low=0.0, high=60.0,
    example="4-1/2",
)  # fmt: skip
LIME = Ask(
    key="lime", says="parts of lime to one of cement, by volume", unit=RATIO, low=0.0, high=20.0, example="1/2"
)  # fmt: skip
WATER = Ask(
    key="water", says="all the water over cement by weight, also what damp sand brings", unit=RATIO, low=0.2,
    high=20.0, example="0.8",
)  # fmt: skip
WATER_PARTS = replace(WATER, says="all the water in parts, by volume, also what damp sand brings", low=0.0)
BINDERS = {"portland": "portland-cement", "masonry-cement": "masonry-cement"}
BINDER = Ask(
    key="binder", says="portland cement, with lime or without, or masonry cement as it comes in the bag",
    choices=tuple(BINDERS), otherwise="portland",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class _Parts:
    """Parts in hand with what each is, a bucket to a part so that working can be followed on site."""

    parts: Mapping[str, Figure]
    materials: Mapping[str, Kind]
    bucket: CubicMeter

    @property
    def loose(self) -> CubicMeter:
        """Loose volumes added up, of what does not fold into the gaps."""
        return self.bucket * sum(figure.value for part, figure in self.parts.items() if part not in FOLDED_IN)

    @property
    def one_of_water(self) -> CubicMeter:
        """Water that counts as one: as heavy as the cement, or one part where there is none."""
        if "cement" not in self.parts:
            return self.bucket
        cement = self.bucket * self.parts["cement"].value
        return cement * self.materials["cement"].value("bulk_density") / water_density()

    def rooms(self) -> tuple[Step, ...]:
        """Room the grains of each part take."""
        return tuple(
            work(
                mixes.absolute_volume, why=f"room {part.replace('_', ' ')} takes, a bucket to a part",
                mass=mixes.loose_mass(
                    volume=self.bucket * figure.value, bulk_density=self.materials[part].value("bulk_density")
                ),
                density=self.materials[part].value("particle_density"),
            )
            for part, figure in self.parts.items()
        )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Recipe:
    """Parts of a mix before its water is known.

    Attributes:
        family: word of the family.
        base: of shelf `mixes`: rule of yield, notes, cautions and strength are its.
        title: what the mix is, without its proportions.
        uses: material of each part.
        parts: loose volume of each part, the part the others are counted to first; nothing of a part leaves it out.
        air: share of the mix.
        notes: beside those of the base.
        cautions: likewise.
    """

    family: str
    base: Kind
    title: str
    uses: Mapping[str, str]
    parts: Mapping[str, Figure]
    air: Figure = AIR
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


def told(wish: Wish, key: str, otherwise: Figure) -> Figure:
    """A figure as the builder gave it, else the one that ships."""
    value = wish.perhaps(key) if key in wish.told else None
    return otherwise if value is None else given(value, RATIO, plain(value) if key == "water" else in_parts(value))


def plain(value: float) -> str:
    """A plain number as text."""
    return show(value, RATIO, System.METRIC)


def in_parts(value: float) -> str:
    """Parts of a mix as text: eighths as one says them, `4-1/2`, all else as a plain number."""
    eighths = round(value * 8)
    if abs(eighths / 8 - value) > _SLACK or eighths % 8 == 0:
        return plain(value)
    whole, rest = divmod(Fraction(eighths, 8), 1)
    return f"{whole}-{rest}" if whole else str(rest)


def mixing_of(wish: Wish) -> Mixing:
    """Mixer and measures of the site, with the batch that was asked for."""
    batch = wish.perhaps("batch")
    return wish.mixing if batch is None else replace(wish.mixing, batch=batch)


def charge_asked(mix: Kind, wish: Wish) -> Charge:
    """One batch of a mix, of all that was asked for where one holds it."""
    volume, area, thickness = (wish.perhaps(key) for key in ("volume", "area", "thickness"))
    wanted = area * thickness if area is not None and thickness is not None else math.inf
    return charge_of(mix, mixing_of(wish), wanted if volume is None else volume)


def is_changed(wish: Wish, keys: Iterable[str]) -> bool:
    """Whether the builder gave any of these."""
    return bool(wish.told & frozenset(keys))


def blend(recipe: Recipe, wish: Wish) -> tuple[Kind, tuple[Step, ...]]:
    """The mix of a recipe with its water, and the working that led to it.

    Water is what the builder told under `water`; what ships where the parts are as shipped; else what fills the gaps.

    Raises:
        InvalidPlan: no sand, or water that drowns it.
        NotFoundError: a figure of a material is missing.
    """
    parts = {part: figure for part, figure in recipe.parts.items() if figure.value > 0 or part == "sand"}
    materials = {part: wish.material(recipe.uses[part]) for part in parts}
    batch = _Parts(parts=parts, materials=materials, bucket=wish.mixing.bucket)
    problems = [*_no_sand(parts), *_drowned(batch, wish)]
    if problems:
        raise InvalidPlan(f"the wish for {recipe.family}", problems)
    shipped = _as_shipped(recipe, parts)
    usual, steps = _water(recipe, batch, shipped=shipped)
    water, wet = told(wish, "water", usual), "water" in wish.told
    base = recipe.base
    kept = {key: figure for key, figure in base.figures.items() if key not in (*PARTS, "water_cement", "water_parts")}
    key = "water_cement" if "cement" in parts else "water_parts"
    mix = Kind(
        name=base.name if shipped and not wet else f"{base.name}-asked",
        shelf="mixes",
        figures={**kept, **parts, key: water, "air": recipe.air},
        words={
            **base.words, "family": recipe.family, "says": f"{recipe.title}, {proportions(parts, recipe.uses)}",
            "uses": batch.materials, "notes": [*_lines(base, "notes"), *recipe.notes, *_by_water(water, usual)],
            "yield_method": "absolute" if wet else base.word("yield_method"),
            "cautions": [*_lines(base, "cautions"), *recipe.cautions],
        },
    )  # fmt: skip
    return mix, steps


def proportions(parts: Mapping[str, Figure], uses: Mapping[str, str]) -> str:
    """Parts as a builder says them: 1 cement : 1/2 lime : 4-1/2 sand."""
    said = {part: (uses[part] if uses[part] in _BY_NAME else part).replace("-", " ") for part in parts}
    return " : ".join(f"{figure.printed} {said[part].replace('_', ' ')}" for part, figure in parts.items())


def held(
    what: str, value: float, row: Kind, *, key: str, of: str = "", says: tuple[str, str] = ("", "")
) -> tuple[Departure, ...]:
    """A departure where a value lies outside a published range.

    Args:
        what: which figure
        value: as it is
        row: of shelf `proportions` or `plaster`, with the figures `key_low` and `key_high`
        key: of the range
        of: what it is counted to, such as `to one of cement`
        says: what comes of too little, and of too much
    """
    low, high = (row.figures.get(f"{key}_{end}") for end in ("low", "high"))
    if low is not None and value < low.value - _SLACK:
        outside, comes = low, says[0]
    elif high is not None and value > high.value + _SLACK:
        outside, comes = high, says[1]
    else:
        return ()
    ends = " to ".join(end.printed for end in (low, high) if end is not None)
    shown = f"{value:.1%}" if outside.printed.endswith("%") else show(value, outside.unit, System.METRIC)
    found = f"{shown} {of}".strip()
    return (Departure(what=what, found=found, wanted=f"{ends} {of}".strip(), source=outside.source, says=comes),)


def dry_volume_rival(mix: Kind, wish: Wish) -> Rival:
    """What a cubic meter of the mix takes by the rule of dry volumes, beside the rule used here."""
    parts = {part: mix.value(part) for part in ("cement", "lime", "sand") if mix.has(part)}
    lead = next(iter(parts))
    used = mix.words["uses"]
    assert isinstance(used, dict)
    density = used[lead].value("bulk_density")
    one = {
        rule: work(mixes.part_volume, why="one part in a cubic meter", mixed=1.0, parts=sum(parts.values()), rule=rule)
        for rule in ("mortar", "dry-third")
    }
    ours, theirs = one["mortar"].number, one["dry-third"].number
    return Rival(
        method="133 of dry parts make 100",
        rows=(
            (f"{lead} in a cubic meter", ours * density, theirs * density, KG_PER_CUBIC_METER),
            ("loose sand to one of mix", ours * mix.value("sand"), theirs * mix.value("sand"), RATIO),
        ),
        says="That rule counts on dry sand, which does not stand swollen; with damp sand it buys a little short.",
        working=(one["dry-third"],),
    )


def _no_sand(parts: Mapping[str, Figure]) -> list[InputError]:
    if "sand" in parts and parts["sand"].value <= 0:
        return [
            InputError("0 found; some sand is wanted: without it the mix shrinks, cracks and lets go", place="sand")
        ]
    return []


def _drowned(batch: _Parts, wish: Wish) -> list[InputError]:
    """More water than the gaps between the loose grains hold."""
    if "water" not in wish.told or "water" not in wish.numbers:
        return []
    solids = sum(step.number for step in batch.rooms())
    most = mixes.gaps(loose=max(batch.loose, solids), solids=solids) / batch.one_of_water
    if wish.number("water") < most:
        return []
    return [
        InputError(
            f"{plain(wish.number('water'))} found; less than {plain(most)} is wanted: more fills every gap between the "
            "grains and drowns the mix",
            place="water",
        )
    ]  # fmt: skip


def _by_water(water: Figure, usual: Figure) -> tuple[str, ...]:
    """What comes of water told far off what the mix wants; nothing where it is near."""
    share = water.value / usual.value if usual.value > 0 else 1.0
    if share > _THIN:
        comes = "it gets weak, shrinks and cracks more, and does not stand"
    elif share < _STIFF:
        comes = "it is too dry to spread and to bond"
    else:
        return ()
    return (f"You told {share:.0%} of the water that such a mix is usually mixed with: {comes}.",)


def _water(recipe: Recipe, batch: _Parts, *, shipped: bool) -> tuple[Figure, tuple[Step, ...]]:
    """Water as shipped, or what fills the gaps."""
    base = recipe.base
    if shipped:
        return base.figures.get("water_cement") or base.figure("water_parts"), ()
    rooms = batch.rooms()
    solids = sum(step.number for step in rooms)
    made = _made(recipe, batch, solids)
    water = work(
        mixes.filling_water, why="water that fills them to that", made=made.number, solids=solids, air=recipe.air.value
    )  # fmt: skip
    found = practice(f"{water.number / batch.one_of_water:.3g}", RATIO, "so that both ways to the yield agree")
    return found, (*rooms, made, water)


def _made(recipe: Recipe, batch: _Parts, solids: CubicMeter) -> Step:
    """What the parts make: by loose volumes; as runny as the mix shipped where the yield is by absolute volume."""
    if recipe.base.word("yield_method") != "absolute":
        return work(mixes.bulk_sum_volume, why="what the parts make", loose=batch.loose, rule="mortar")
    base = recipe.base
    uses = base.words["uses"]
    assert isinstance(uses, dict)
    usual = _Parts(
        parts={part: base.figure(part) for part in PARTS if base.has(part)},
        materials={part: kind("materials", str(uses[part])) for part in uses},
        bucket=batch.bucket,
    )
    grains = sum(step.number for step in usual.rooms())
    water = base.value("water_cement" if base.has("water_cement") else "water_parts") * usual.one_of_water
    share = solids / grains
    return work(
        mixes.mixed_volume, why="what the parts make, as runny as the mix shipped", solids=solids, water=water * share,
        air=recipe.air.value,
    )  # fmt: skip


def _as_shipped(recipe: Recipe, parts: Mapping[str, Figure]) -> bool:
    base, uses = recipe.base, recipe.base.words.get("uses", {})
    assert isinstance(uses, dict)
    return set(uses) == set(parts) and all(
        base.value(part) == figure.value and uses[part] == recipe.uses[part] for part, figure in parts.items()
    )


def _lines(of: Kind, key: str) -> list[str]:
    found = of.words.get(key, [])
    return [str(line) for line in found] if isinstance(found, list | tuple) else [str(found)]
