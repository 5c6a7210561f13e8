"""What a richer or leaner mix does, as a page: how it hardens, what it takes, why cement alone does not do it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, Working, table
from pinfold.reports.richness_units import BULK, FACE, MASS, STIFF, STRENGTH, WATER
from pinfold.sources import publication
from pinfold.studies.richness.records import Amounts, Band, Richness, Rung
from pinfold.units import METER, PASCAL, UNIT_BY_SYMBOL, System, money, show, significant

NOT_SHOWN = "not shown"


def richer_page(found: Richness, system: System) -> Page:
    """The whole answer."""
    blocks: list[Block] = [Paragraph(text=_about(found, system)), *_told(found, system)]
    blocks += tables_of(found.rungs, found, system)
    if found.by_sand:
        blocks += _with_sand(found, system)
    blocks += _missing(found)
    blocks += [Heading(text="Why more cement is not simply stronger"), *(Paragraph(text=text) for text in found.why)]
    blocks += [Heading(text="How it was found"), *(Paragraph(text=text) for text in found.method)]
    blocks.append(Paragraph(text=f"Left out: {'; '.join(found.left_out)}."))
    blocks.append(Working(steps=found.steps, figures=found.figures))
    return Page(title=title_of(found), blocks=tuple(blocks))


def richer_section(found: Richness, system: System) -> tuple[Block, ...]:
    """The same for the binder: without its working, which stands with the batch cards."""
    return (
        Heading(text=title_of(found)), Paragraph(text=_about(found, system)), *_told(found, system),
        *tables_of(found.rungs, found, system), *_missing(found),
        *(Paragraph(text=text) for text in found.why[:3]),
    )  # fmt: skip


def title_of(found: Richness) -> str:
    """What it is about."""
    what = found.coat or found.layer
    return f"{found.mix.name}{f' ({what})' if what and what != found.mix.name else ''}: richer or leaner"


def _about(found: Richness, system: System) -> str:
    where = f" of {found.buildup}" if found.buildup else ""
    thick = "" if found.thickness is None else f", {show(found.thickness, METER, system)} thick"
    place = f"{found.coat or found.layer}{where}{thick}: " if found.layer else "Not in the plan: "
    return f"{place}{found.mix.says}. Each figure with the spread in which 90 of 100 lie; 'now' is the present mix."


def _told(found: Richness, system: System) -> Iterator[Block]:
    if found.published is not None:
        published = found.published
        yield Paragraph(
            text=f"Published: {published.low:g} to {published.high:g} {published.of} "
            f"({publication(published.source).title}; {published.standing.value}). Outside it stands a *."
        )
    yield Paragraph(text=_cheapest(found, system))


def _cheapest(found: Richness, system: System) -> str:
    if found.wanted is None:
        return "No strength is asked of this mix: name one, and the cheapest that holds it is told."
    wanted = _strength(found.wanted, system)
    if found.cheapest is None:
        half = "" if found.cheapest_by_half is None else _half(found)
        return f"None of these holds {wanted} in 95 of 100 batches: mix it drier, keep it damp longer.{half}"
    half = "" if found.cheapest_by_half in (None, found.cheapest) else _half(found)
    rung = found.rungs[found.cheapest]
    if found.cheapest == found.present:
        return f"The present mix is the cheapest here of which 95 of 100 batches hold {wanted}.{half}"
    now, then = found.rungs[found.present].per_volume, rung.per_volume
    return (
        f"The cheapest here of which 95 of 100 batches hold {wanted} is {rung.parts}"
        f"{_beside(now, then)}{', outside the published range' if rung.outside else ''}.{half}"
    )


def _half(found: Richness) -> str:
    assert found.cheapest_by_half is not None
    now = "the present mix" if found.cheapest_by_half == found.present else found.rungs[found.cheapest_by_half].parts
    return f" Half of all batches hold it with {now}."


def _beside(now: Amounts, then: Amounts) -> str:
    if now.cost is None or then.cost is None or now.cost <= 0:
        return f", with {then.cement / now.cement:.0%} of the cement"
    return f", at {then.cost / now.cost:.0%} of what the present mix costs"


def _strength(value: float, system: System) -> str:
    return show(value, PASCAL, system, in_unit=STRENGTH[system])


def _with_sand(found: Richness, system: System) -> list[Block]:
    density = found.by_sand[found.present_by_sand].density
    return [
        Heading(text=f"At {density:.0f} kg/m³ with more or less sand"),
        *tables_of(found.by_sand, found, system, present=found.present_by_sand),
    ]


def tables_of(rungs: Sequence[Rung], found: Richness, system: System, *, present: int | None = None) -> list[Block]:
    """How each rung hardens, what drying does to it, what it takes.

    Args:
        rungs: of the ladder, or of the one by sand
        found: all of the answer
        system: US or metric
        present: place of the present mix among the rungs; as the answer has it where None
    """
    names = tuple(
        _named(number, rung, found.present if present is None else present, found if present is None else None)
        for number, rung in enumerate(rungs)
    )
    return [
        hardening_table(rungs, names, system), *_drying_table(rungs, names, system),
        takes_table(rungs, names, found, system),
    ]  # fmt: skip


def hardening_table(rungs: Sequence[Rung], names: Sequence[str], system: System) -> Table:
    """How each rung hardens."""
    known = any(rung.hardens.modulus is not None for rung in rungs)
    rows = [
        (
            name, f"{rung.water_cement:.2f}", _banded(rung.hardens.strength, UNIT_BY_SYMBOL[STRENGTH[system]].factor),
            *_stiff(rung, system, known=known),
        )
        for name, rung in zip(names, rungs, strict=True)
    ]  # fmt: skip
    stiff = (STIFF[system], "millionths") if known else ("times now", "times now")
    heads = (_head(rungs), "w/c", f"strength, {STRENGTH[system]}", f"stiffness, {stiff[0]}", f"shrinks, {stiff[1]}")
    return table(heads, rows, right=(1, 2, 3, 4), title="how it hardens, at 28 days")


def _drying_table(rungs: Sequence[Rung], names: Sequence[str], system: System) -> list[Block]:
    """What drying does, and what else is to be minded of a rung; nothing where drying is not shown."""
    if all(rung.drying is None for rung in rungs):
        return []
    minds = any(_mind(rung) for rung in rungs)
    rows = [
        (name, *_dried(rung, system), *((_mind(rung),) if minds else ()))
        for name, rung in zip(names, rungs, strict=True)
    ]
    heads = (_head(rungs), "drying asks", "chance of cracks", "cracks open by", *(("mind",) if minds else ()))
    note = (
        "Drying asks so many times what it can take: over 1 it cracks, in hairs first. All cracks of a length together "
        "open by so much; mesh and damp curing make many fine ones of it."
    )
    return [table(heads, rows, right=(1, 2, 3), wide=4 if minds else 0, title="its own drying", note=note)]


def _head(rungs: Sequence[Rung]) -> str:
    return "kg/m³ cement:sand" if "kg/m³" in rungs[0].parts else "mix"


def _dried(rung: Rung, system: System) -> tuple[str, str, str]:
    if rung.drying is None:
        return NOT_SHOWN, NOT_SHOWN, NOT_SHOWN
    return f"{rung.drying.used:.2g}", _chance(rung.drying.chance), _opens(rung.drying.opens, system)


def _opens(strain: float, system: System) -> str:
    return f'{strain * 120:.3f}" in 10 ft' if system is System.US else f"{strain * 1e3:.2f} mm/m"


def _mind(rung: Rung) -> str:
    told = []
    if rung.richer_than_under:
        told.append(f"richer than {rung.richer_than_under} under it")
    if rung.leaner_than_over:
        told.append(f"leaner than {rung.leaner_than_over} over it")
    if rung.filled is not None and rung.filled < 1:
        told.append("short of paste")
    return "; ".join(told)


def _named(number: int, rung: Rung, present: int, found: Richness | None) -> str:
    marks = ["now"] if number == present else []
    if found is not None and number == found.cheapest:
        marks.append("cheapest")
    return f"{rung.parts.replace(' kg/m³', '')}{' *' if rung.outside else ''}{' ' + ', '.join(marks) if marks else ''}"


def _stiff(rung: Rung, system: System, *, known: bool) -> tuple[str, str]:
    hardens = rung.hardens
    if known:
        return _banded(hardens.modulus, UNIT_BY_SYMBOL[STIFF[system]].factor), _banded(hardens.shrinkage, 1e-6)
    stiffer, shrinks = (
        NOT_SHOWN if band is None else f"{band.value:.2f} ({band.low:.2f}\u2013{band.high:.2f})"
        for band in (hardens.stiffer, hardens.shrinks)
    )
    return stiffer, shrinks


def _banded(band: Band | None, factor: float) -> str:
    if band is None:
        return NOT_SHOWN
    value, low, high = (_round(number / factor) for number in (band.value, band.low, band.high))
    return f"{value} ({low}\u2013{high})"


def _round(number: float) -> str:
    """To two digits, large numbers too: more is not known."""
    if number <= 0 or not math.isfinite(number):
        return significant(number, 2)
    return significant(round(number, 1 - math.floor(math.log10(number))), 2)


def _chance(chance: float) -> str:
    return "over 99%" if chance > 0.99 else "under 1%" if chance < 0.01 else f"{chance:.0%}"


def takes_table(rungs: Sequence[Rung], names: Sequence[str], found: Richness, system: System) -> Table:
    """What each rung takes: for a face where it has one, else for a volume; and what all of it costs."""
    faced = rungs[0].per_area is not None
    of, times = FACE[system] if faced else BULK[system]
    limed = any(rung.per_volume.lime > 0 for rung in rungs)
    rows = [
        (
            name,
            *_amounts(rung.per_area if faced and rung.per_area else rung.per_volume, times, found, system, limed=limed),
            money(None if rung.whole is None or rung.whole.cost is None else round(rung.whole.cost), "", found.digits),
        )
        for name, rung in zip(names, rungs, strict=True)
    ]  # fmt: skip
    mass, cost = MASS[system], found.currency or "cost"
    heads = [
        _head(rungs), f"cement, {mass}", f"lime, {mass}", f"sand, {mass}", f"water, {WATER[system]}",
        f"hauled, {mass}", cost, f"CO₂, {mass}", f"{cost} for all",
    ]  # fmt: skip
    if not limed:
        heads.remove(f"lime, {mass}")
    right = tuple(range(1, len(heads)))
    waste = ", waste in it" if faced else ""
    return table(heads, rows, right=right, title=f"what it takes for {of}{waste}", note=_takes_note(rungs, found))


def _amounts(amounts: Amounts, times: float, found: Richness, system: System, *, limed: bool) -> tuple[str, ...]:
    mass, water = UNIT_BY_SYMBOL[MASS[system]].factor, UNIT_BY_SYMBOL[WATER[system]].factor * 1000
    stones = amounts.sand + amounts.gravel
    cells = [amounts.cement / mass, amounts.lime / mass, stones / mass, amounts.water / water, amounts.hauled / mass]
    shown = [_round(cell * times) if cell > 0 else "0" for cell in cells]
    carbon = amounts.carbon
    gas = NOT_SHOWN if math.isnan(carbon.value) else _round(carbon.value * times / mass)
    cost = money(None if amounts.cost is None else round(amounts.cost * times), "", found.digits)
    return (*(shown if limed else (shown[0], *shown[2:])), cost, gas)


def _takes_note(rungs: Sequence[Rung], found: Richness) -> str:
    amounts = rungs[found.present if found.present < len(rungs) else 0].per_volume
    parts = ["Sand counts dry; hauled is all of it, sand damp, and the water to add."]
    if amounts.gravel > 0:
        parts.append("Sand and stone stand together.")
    if not math.isnan(amounts.carbon.value):
        low, high = amounts.carbon.low / amounts.carbon.value - 1, amounts.carbon.high / amounts.carbon.value - 1
        parts.append(
            f"Carbon dioxide {low:+.0%} to {high:+.0%}, from memory; 0.51 of clinker's is the limestone's own."
        )
    if amounts.cost is None:
        parts.append("Something of it has no price in prices.toml.")
    return " ".join(parts)


def _missing(found: Richness) -> Iterator[Block]:
    told = dict.fromkeys(text for rung in (*found.rungs, *found.by_sand) for text in rung.missing)
    for text in told:
        yield Paragraph(text=f"NOT SHOWN: {text}.")
