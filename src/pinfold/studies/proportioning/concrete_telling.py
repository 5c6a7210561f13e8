"""What is told beside a concrete: what lies outside published ranges, what was assumed, what limited it."""

from __future__ import annotations

from pinfold.findings import Step
from pinfold.formulas.concrete_batch import MoistMass
from pinfold.studies.proportioning.aggregates import ASKS as OF_AGGREGATES
from pinfold.studies.proportioning.concrete_choosing import Brief, Masses
from pinfold.studies.proportioning.records import Departure, Wish
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, PASCAL, both

_SLACK = 1e-9


def departures_of(wish: Wish, brief: Brief) -> tuple[Departure, ...]:
    """What of it lies outside published ranges."""
    return (*_slump(wish, brief), *_fineness(brief), *_frost(wish, brief))


def _slump(wish: Wish, brief: Brief) -> tuple[Departure, ...]:
    member = kind("members", wish.word("member"))
    low, high = member.value("slump_low"), member.value("slump_high")
    if low * (1 - _SLACK) <= brief.slump <= high * (1 + _SLACK):
        return ()
    says = "Stiffer concrete wants a vibrator to fill its form." if brief.slump < low else (
        "Runnier concrete sets its stone down and its water up; a reducer makes it run without more water."
    )  # fmt: skip
    wanted = f"{both(low, METER)} to {both(high, METER)} for {member.says}"
    return (Departure(what="slump", found=both(brief.slump, METER), wanted=wanted, source="ACI-211", says=says),)


def _fineness(brief: Brief) -> tuple[Departure, ...]:
    own = brief.sand.value("fineness")
    if abs(own - brief.fineness) < _SLACK:
        return ()
    word = "finer" if own < brief.fineness else "coarser"
    says = (
        f"The column of {brief.fineness:.1f} is taken; with {word} sand look at the first batch and shift sand to "
        "stone, or back."
    )
    what = "fineness modulus of the sand"
    return (Departure(what=what, found=f"{own:.2f}", wanted="2.4 to 3.0", source="ACI-211", says=says),)


def _frost(wish: Wish, brief: Brief) -> tuple[Departure, ...]:
    if wish.word("exposure") == "none" or brief.air == "entrained":
        return ()
    says = (
        "Without entrained air frost scales it layer by layer once it is wet. Mixing by hand cannot put the air in: "
        "keep it dry, or buy it mixed."
    )
    wanted = "air put in where it freezes"
    return (Departure(what="air", found="none put in", wanted=wanted, source="ACI-211", says=says),)


def notes_of(wish: Wish, brief: Brief, masses: Masses) -> tuple[str, ...]:
    """What limited it, what was assumed, and what to mind."""
    return (
        *_limit(wish, brief, masses),
        *_hand(brief),
        *_assumed(wish, brief),
        "Make a trial batch and write down what it took.",
    )


def _limit(wish: Wish, brief: Brief, masses: Masses) -> tuple[str, ...]:
    strength = (
        f"Aimed for: {both(masses.target, PASCAL)}, so that hardly a test falls under {both(brief.strength, PASCAL)}; "
        "read on straight lines between the rows of the table."
    )
    if masses.ratio >= masses.by_strength - _SLACK:
        return (strength,)
    own = wish.perhaps("most_water_cement")
    who = "your limit" if own is not None and masses.ratio >= own - _SLACK else "frost (ACI 318, from memory)"
    return strength, (
        f"Water over cement is {masses.ratio:.2f} because of {who}; strength alone would allow "
        f"{masses.by_strength:.2f}, so it comes out stronger than asked."
    )


def _hand(brief: Brief) -> tuple[str, ...]:
    if brief.air == "plain":
        return ()
    return ("The air wants air-entraining cement or an agent, and a machine: mixing by hand cannot entrain it.",)


def _assumed(wish: Wish, brief: Brief) -> tuple[str, ...]:
    figures = {
        "sand_fineness": (brief.sand, "fineness"), "sand_density": (brief.sand, "particle_density"),
        "sand_absorption": (brief.sand, "absorption"), "stone_density": (brief.stone, "particle_density"),
        "stone_rodded": (brief.stone, "rodded_density"), "stone_absorption": (brief.stone, "absorption"),
        "cement_density": (brief.cement, "particle_density"),
    }  # fmt: skip
    lines = [_figure_line(key, *where) for key, where in figures.items() if key not in wish.told]
    if "stone_moisture" not in wish.told:
        lines.append("the stone lies soaked but dry to the touch")
    if not lines:
        return ()
    return (f"Not told, so taken: {'; '.join(lines)}. Measure your own where you can.",)


def _figure_line(key: str, material: Kind, name: str) -> str:
    figure = material.figure(name)
    what = next(ask.says for ask in OF_AGGREGATES if ask.key == key)
    value = f"{figure.value:.1%}" if key.endswith("absorption") else both(figure.value, figure.unit)
    return f"{what} {value} ({figure.standing})"


def by_the_scale(masses: Masses, sand: Step, stone: Step) -> str:
    """Parts by weight with sand and stone as damp as they lie, which hold in any unit."""
    grains, stones = sand.result, stone.result
    assert isinstance(grains, MoistMass)
    assert isinstance(stones, MoistMass)
    add = masses.water - grains.free_water - stones.free_water
    return (
        f"On the scale, sand and stone as damp as they lie: to 1 of cement {grains.batch / masses.cement:.2f} of sand, "
        f"{stones.batch / masses.cement:.2f} of stone and {add / masses.cement:.2f} of water to add."
    )
