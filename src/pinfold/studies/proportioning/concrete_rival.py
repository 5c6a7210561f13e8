"""The same concrete by IS 10262, for comparison."""

from __future__ import annotations

from pinfold.errors import OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import concrete_is, concrete_mix, mixes
from pinfold.studies.batching.loose import water_density
from pinfold.studies.proportioning.concrete_choosing import Brief, Masses, air_word
from pinfold.studies.proportioning.records import Rival
from pinfold.tables.concrete import grid
from pinfold.tables.shelf import kind
from pinfold.units import KG_PER_CUBIC_METER, PASCAL, RATIO, Ratio

METHOD = "IS 10262:2019"
CYLINDER_OVER_CUBE: Ratio = 0.8
"""A cylinder shows about so much of what a cube of the same concrete shows (common practice)."""


def choose_by_is10262(brief: Brief) -> Masses:
    """A concrete by IS 10262, limits of IS 456 kept.

    Raises:
        OutOfRangeError: outside its tables, or the rest leaves no room for aggregate.
        NotFoundError: a figure of a material is missing.
    """
    target = work(
        concrete_is.target_strength_by_is10262, why="strength to aim for, on cubes",
        characteristic=brief.strength / CYLINDER_OVER_CUBE,
    )  # fmt: skip
    allowed, ratio = _ratio(brief, target)
    water = _water(brief)
    by_ratio = work(concrete_mix.cement_mass, why="cement", water=water[-1].number, water_cement=ratio)
    cement = max(by_ratio.number, brief.exposure.value(f"is_cement_{_bars(brief)}"))
    ratio = water[-1].number / cement
    air = _air(brief)
    split = _split(brief, cement, water[-1].number, air.number, ratio)
    return Masses(
        cement=cement, water=water[-1].number, sand=split[-1].number, stone=split[-2].number, air=air.number,
        target=target.number, ratio=ratio, by_strength=allowed.number,
        working=(target, allowed, *water, by_ratio, air, *split),
    )  # fmt: skip


def rivals_of(brief: Brief, ours: Masses) -> tuple[Rival, ...]:
    """IS 10262 beside ours; nothing where its tables do not reach."""
    try:
        theirs = choose_by_is10262(brief)
    except OutOfRangeError:
        return ()
    rows = (
        ("strength to aim for", ours.target, theirs.target, PASCAL),
        ("water over cement", ours.ratio, theirs.ratio, RATIO),
        ("cement", ours.cement, theirs.cement, KG_PER_CUBIC_METER),
        ("water", ours.water, theirs.water, KG_PER_CUBIC_METER),
        ("sand", ours.sand, theirs.sand, KG_PER_CUBIC_METER),
        ("stone", ours.stone, theirs.stone, KG_PER_CUBIC_METER),
        ("air", ours.air, theirs.air, RATIO),
    )
    return (Rival(method=METHOD, rows=rows, says=_why(brief, ours, theirs), working=theirs.working),)


def _bars(brief: Brief) -> str:
    return "barred" if brief.barred else "plain"


def _ratio(brief: Brief, target: Step) -> tuple[Step, Ratio]:
    """What the curve allows, and what counts beside the limits; the curve's weak end stands for all below it."""
    strength = max(target.number, grid("is-ratio").across[0])
    curve = work(concrete_is.water_cement_by_is10262, why="water over cement that strength allows", strength=strength)
    limits = (curve.number, brief.exposure.value(f"is_water_cement_{_bars(brief)}"), brief.most_ratio)
    return curve, min(limit for limit in limits if limit is not None)


def _water(brief: Brief) -> tuple[Step, ...]:
    shape = "rounded" if brief.rounded else "angular"
    table = work(
        concrete_is.mixing_water_by_is10262, why="water by slump and stone", slump=brief.slump, size=brief.size,
        shape=shape,
    )  # fmt: skip
    change = brief.change - _rounded_change(brief)
    if abs(change) < 1e-9:
        return (table,)
    why = "water with the changes for sand, additions and heat"
    return table, work(concrete_mix.adjusted_water, why=why, water=table.number, change=change)


def _rounded_change(brief: Brief) -> Ratio:
    return kind("concrete", "water-changes").value("rounded_stone") if brief.rounded else 0.0


def _air(brief: Brief) -> Step:
    if brief.air == "entrained":
        return work(concrete_mix.air_content, why="air, as above", size=brief.size, exposure=air_word(brief))
    return work(concrete_is.air_by_is10262, why="air", size=brief.size)


def _split(brief: Brief, cement: float, water: float, air: Ratio, ratio: Ratio) -> tuple[Step, ...]:
    grains = {"sand": brief.sand.value("particle_density"), "stone": brief.stone.value("particle_density")}
    paste = work(
        mixes.absolute_volume, why="room cement takes", mass=cement, density=brief.cement.value("particle_density")
    )
    wet = work(mixes.absolute_volume, why="room water takes", mass=water, density=water_density())
    room = work(
        concrete_mix.sand_volume, why="room left for stone and sand", water=wet.number, cement=paste.number, coarse=0.0,
        air=air,
    )  # fmt: skip
    share = work(
        concrete_is.coarse_share_by_is10262, why="share of it that is stone", size=brief.size, water_cement=ratio
    )
    mass = concrete_is.share_mass
    stone = work(mass, why="stone", aggregate=room.number, share=share.number, density=grains["stone"])
    sand = work(mass, why="sand", aggregate=room.number, share=1 - share.number, density=grains["sand"])
    return paste, wet, room, share, stone, sand


def _why(brief: Brief, ours: Masses, theirs: Masses) -> str:
    """The difference in plain words."""
    lines = [
        f"IS 10262 tests cubes, which show about a quarter more than cylinders, and reads {theirs.ratio:.2f} for water "
        f"over cement off a curve (its readings are from memory) or off the limits of IS 456, where ACI 211 has "
        f"{ours.ratio:.2f}.",
        f"Its water is {_more(theirs.water, ours.water)}, its cement {_more(theirs.cement, ours.cement)}.",
        "It splits stone and sand by a share of their volume that hardly asks about the sand, where ACI 211 fills the "
        "concrete with rodded stone first; so their sand and stone differ even where the paste agrees.",
    ]
    if brief.air == "entrained":
        lines.append("IS 10262 takes no water off for entrained air, ACI 211 does.")
    return " ".join(lines) + " Make a trial batch of either: both are starting points."


def _more(theirs: float, ours: float) -> str:
    share = theirs / ours - 1
    if abs(share) < 0.005:
        return "the same"
    return f"{abs(share):.0%} {'more' if share > 0 else 'less'}"
