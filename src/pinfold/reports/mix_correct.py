"""A batch put right, as a page: what is off, what to add, what the batch is then, and the next one."""

from __future__ import annotations

from pinfold.reports.amounts import by_jug, measured, sunk, volume, weight
from pinfold.reports.mix_family import departure_line
from pinfold.reports.mix_strength import stress
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, Working, table
from pinfold.studies.batching.records import Charge, Ingredient
from pinfold.studies.correcting.corrected import Corrected
from pinfold.studies.correcting.records import Correction, NextMix, Off
from pinfold.studies.lessons.strength_records import Strength
from pinfold.units import KG_PER_CUBIC_METER, METER, System, show

_HEADS = {"density": "By its weight", "slump": "By its slump", "amounts": "By what went in"}
Strengths = tuple[Strength | None, Strength | None]


def correct_page(found: Corrected, system: System) -> Page:
    """All that a reading says."""
    blocks: list[Block] = [Paragraph(text=text) for text in (_reckoned(found.charge, system), *found.notes)]
    for one, strengths in zip(found.corrections, found.strengths, strict=True):
        blocks += correction_blocks(one, strengths, system)
    if found.next_mix is not None:
        blocks += next_blocks(found.next_mix, system)
    blocks += [Caution(text=text) for text in found.charge.cautions]
    steps = (*found.weighing, *(step for one in found.corrections for step in one.working))
    more = found.next_mix.working if found.next_mix else ()
    figures = {name: figure for one in found.corrections for name, figure in one.figures}
    blocks.append(Working(steps=(*steps, *more), figures=tuple(figures.items())))
    return Page(title=f"{found.mix.name}: put right in the mixer", blocks=tuple(blocks))


def _reckoned(charge: Charge, system: System) -> str:
    parts = [f"{weight(part.mass, system)} of {part.part.replace('_', ' ')}" for part in charge.ingredients]
    parts.append(f"{by_jug(charge.water_to_add, system)} of water poured in")
    if charge.foam is not None:
        parts.append(f"{by_jug(charge.foam.make, system)} of foam")
    listed = f"{', '.join(parts[:-1])} and {parts[-1]}"
    return f"Reckoned from one batch of its card: {listed}, which make {volume(charge.makes, system)}."


def correction_blocks(one: Correction, strengths: Strengths, system: System) -> list[Block]:
    """One thing measured with what puts it right."""
    blocks: list[Block] = [Heading(text=f"{_HEADS[one.by]}: {one.off.value}"), Paragraph(text=_found(one, system))]
    blocks += [Caution(text=departure_line(departure)) for departure in one.departures]
    if not one.add.is_nothing:
        blocks.append(add_table(one, system))
    blocks.append(_states(one, strengths, system))
    told = next((each for each in reversed(strengths) if each is not None), None)
    if told is not None:
        blocks.append(Paragraph(text=f"Strength: {told.says.rstrip('.')}. Standing: {told.standing.value}."))
    return [*blocks, *(Paragraph(text=note) for note in one.notes)]


def _found(one: Correction, system: System) -> str:
    if one.found is None or one.wanted is None or one.near is None:
        return "Nothing is to be added." if one.add.is_nothing else "What is short goes in; nothing can be taken out."
    shown = [_measured(one, value, system) for value in (one.found, one.wanted)]
    text = f"{shown[0]} found, {shown[1]} wanted; {_near(one, system)} is near enough ({one.near.standing.value})."
    if one.relative_yield is not None:
        text += f" It makes {one.relative_yield:.0%} of what was reckoned."
    if one.air is not None:
        text += f" About {one.air:.1%} of it is air."
    return f"{text} {_verdict(one)}"


def _measured(one: Correction, value: float, system: System) -> str:
    return sunk(value, system) if one.unit is METER else show(value, one.unit, system)


def _near(one: Correction, system: System) -> str:
    assert one.near is not None
    if one.near.unit.kind != one.unit.kind:
        return f"{one.near.value:.0%} either way"
    return f"{_measured(one, one.near.value, system)} either way"


def _verdict(one: Correction) -> str:
    if one.off is Off.NEAR:
        return "Use it as it is."
    return "Nothing is added for that." if one.add.is_nothing else "Put it right before it is cast."


def add_table(one: Correction, system: System) -> Table:
    """What to take out and put in."""
    add = one.add
    rows: list[tuple[str, str, str]] = []
    if add.take_out:
        rows.append(("first take out, the mixer would not hold all", "", volume(add.take_out, system)))
    if add.foam:
        rows.append(("foam to make and fold in", "", by_jug(add.foam, system)))
    if add.slurry:
        rows.append(("mix without foam, made of what follows", "", volume(add.slurry, system)))
    rows += [_part_row(part, system) for part in add.parts]
    if add.water:
        rows.append(("water to pour in", "", by_jug(add.water, system)))
    return table(("what to do", "buckets", "how much"), rows, right=(1, 2), title=f"To add, {_HEADS[one.by].lower()}")


def _part_row(part: Ingredient, system: System) -> tuple[str, str, str]:
    return part.kind.says.partition(",")[0], measured(part, system), weight(part.as_it_lies, system)


def _states(one: Correction, strengths: Strengths, system: System) -> Table:
    """The batch as it stands beside the batch put right."""
    before, after = one.before, one.after
    pairs: list[tuple[str, list[str]]] = [
        ("makes", [volume(state.makes, system) for state in (before, after)]),
        ("fresh density", [_dense(state.density, system) for state in (before, after)]),
        ("dry density", [_dense(state.dry, system) for state in (before, after)]),
        ("cement in a volume", [_dense(state.cement, system) for state in (before, after)]),
        ("water over cement", [_ratio(state.water_cement) for state in (before, after)]),
        ("the same with the foam's water", [_ratio(state.with_foam_water) for state in (before, after)]),
        ("strength at 28 days", [_strong(each, system) for each in strengths]),
        ("5 to 95 of 100 batches", [_band(each, system) for each in strengths]),
    ]
    rows = [(what, *cells) for what, cells in pairs if any(cells)]
    title = f"The batch, {_HEADS[one.by].lower()}"
    if one.add.is_nothing:
        return table(("", "as it is"), [row[:2] for row in rows], right=(1,), title=title)
    return table(("", "as it is", "put right"), rows, right=(1, 2), title=title)


def _dense(value: float | None, system: System) -> str:
    return "" if value is None else show(value, KG_PER_CUBIC_METER, system)


def _ratio(value: float | None) -> str:
    return "" if value is None else f"{value:.2f}"


def _strong(strength: Strength | None, system: System) -> str:
    return "not shown" if strength is None else stress(strength.mean, system)


def _band(strength: Strength | None, system: System) -> str:
    if strength is None:
        return ""
    return f"{stress(strength.low, system)} to {stress(strength.high, system)}"


def next_blocks(mix: NextMix, system: System) -> list[Block]:
    """The next batch of a concrete, put right."""
    parts = (
        ("water, with what the sand brings", mix.water), ("cement", mix.cement), ("sand, surface dry", mix.sand),
        ("gravel, surface dry", mix.gravel), ("all of it", mix.density),
    )  # fmt: skip
    rows = [(what, show(value, KG_PER_CUBIC_METER, system)) for what, value in parts]
    text = (
        "By the way of ACI 211.1 after a trial batch: the water this batch took and the slump it lacked, cement at the "
        f"same ratio, the same stone, the air found ({mix.air:.1%}), sand in what room is left."
    )
    return [Heading(text="The next batch"), Paragraph(text=text), table(("", "in a volume"), rows, right=(1,))]
