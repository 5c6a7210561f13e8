"""The buying list, the loads and the water as a page and as CSV."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from pinfold.plan.stock import Prices
from pinfold.reports.amounts import amount, count, water, weight
from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, table
from pinfold.studies.gathering.records import Category, Gathered, Haulage, Line, Lot, Water
from pinfold.units import CUBIC_METER, KILOGRAM, METER, RATIO, SQUARE_METER, UNIT_BY_SYMBOL, System, money, show

SHORT_NOTE = 24
"""A note up to so many letters stands beside its line; longer ones stand below the table."""


def gather_page(name: str, gathered: Gathered, prices: Prices, system: System) -> Page:
    """All lines by heading, then trips, water and what could not be found out."""
    blocks: list[Block] = []
    for category in Category:
        lines = [line for line in gathered.lines if line.category is category]
        if lines:
            blocks += [Heading(text=category.value), lines_table(lines, prices, system)]
    blocks += [Heading(text="trips"), Paragraph(text=_trips(gathered.haulage, prices, system))]
    blocks += [Heading(text="water"), Paragraph(text=_water(gathered.water, prices, system))]
    if gathered.missing:
        blocks += [Heading(text="not known"), *(Paragraph(text=text) for text in gathered.missing)]
    return Page(title=f"{name}: what to gather", blocks=tuple(blocks))


def lines_table(lines: Sequence[Line], prices: Prices, system: System, *, boxes: bool = False) -> Table:
    """Net, with waste, on hand and bought, each a figure of its own; a box to tick first where wanted."""
    rows = []
    for line in lines:
        cells = (
            _what(line), amount(line.net, line.unit, system), amount(line.needed, line.unit, system),
            amount(line.on_hand, line.unit, system) if line.on_hand else "", bought(line, system),
            _cost(line, prices),
        )  # fmt: skip
        rows.append(("☐", *cells) if boxes else cells)
    heads = ("what", "net", "with waste", "on hand", "buy", "cost")
    if boxes:
        return table(("", *heads), rows, right=(2, 3, 4, 6), wide=1, note=_notes(lines))
    return table(heads, rows, right=(1, 2, 3, 5), note=_notes(lines))


def _what(line: Line) -> str:
    short = [_bare(note) for note in line.notes if len(note) <= SHORT_NOTE]
    return f"{line.kind.says} ({'; '.join(short)})" if short else line.kind.says


def _notes(lines: Sequence[Line]) -> str:
    told = [
        f"{line.kind.says}: {'; '.join(long)}."
        for line in lines
        if (long := [_bare(note) for note in line.notes if len(note) > SHORT_NOTE])
    ]
    return " ".join(told)


def _bare(note: str) -> str:
    return note[:1].lower() + note[1:].rstrip(".")


def bought(line: Line, system: System) -> str:
    """`12 bags of 94 lb`, `3 lengths of 20'`, `240`; `gathered` for what is not bought."""
    if line.category is Category.GATHERED:
        return "gather"
    return " + ".join(_lot(lot, line, system) for lot in line.lots) or "none"


def _lot(lot: Lot, line: Line, system: System) -> str:
    if line.unit.kind == RATIO.kind and lot.size == 1:
        return count(lot.packs)
    size = _size(lot.size, line, system)
    return f"{lot.packs} × {size}" if lot.says == "each" else f"{lot.packs} {plural(lot.says, lot.packs)} of {size}"


def plural(word: str, number: int) -> str:
    """`bag`, `bags`; `box`, `boxes`."""
    if number == 1:
        return word
    return f"{word}es" if word.endswith(("x", "s", "ch")) else f"{word}s"


def _size(size: float, line: Line, system: System) -> str:
    long = line.unit.kind == METER.kind and size > 30
    return amount(size, line.unit, system) if long or line.unit.kind != METER.kind else show(size, METER, system)


def _cost(line: Line, prices: Prices) -> str:
    if line.category is Category.GATHERED:
        return ""
    return money(line.cost, "", prices.digits) if line.cost is not None else "not shown"


def _trips(haulage: Haulage, prices: Prices, system: System) -> str:
    text = f"{weight(haulage.mass, system)} to haul."
    if haulage.trips is None:
        return f"{text} Trips are not shown: see below."
    text += f" {haulage.trips} trip{'s' if haulage.trips != 1 else ''}"
    text += f", by {haulage.governs}" if haulage.governs else ""
    if haulage.distance is not None:
        text += f"; {show(haulage.distance, METER, system)} there and back in all"
    if haulage.cost is not None:
        text += f"; {money(haulage.cost, prices.currency, prices.digits)}"
    return f"{text}."


def _water(need: Water, prices: Prices, system: System) -> str:
    curing = "" if need.curing is None else f", {water(need.curing, system)} to keep coats wet"
    text = (
        f"{water(need.total, system)} in all: {water(need.mixing, system)} into the mixer, "
        f"{water(need.washing, system)} to wash out{curing}."
    )
    if need.trips is not None:
        text += f" {need.trips} trip{'s' if need.trips != 1 else ''} with the tank"
        text += f", {show(need.distance, METER, system)} in all" if need.distance is not None else ""
        text += f"; {money(need.cost, prices.currency, prices.digits)}" if need.cost is not None else ""
        text += "."
    return text


CSV_HEADS = (
    "heading", "item", "what", "unit", "net", "with waste", "on hand", "bought", "packs", "mass", "mass unit", "cost",
    "note",
)  # fmt: skip


def gather_csv(gathered: Gathered, prices: Prices, system: System) -> str:
    """The list as CSV: one row a line, plain numbers in the plan's units, the unit in a column of its own."""
    sheet = io.StringIO()
    writer = csv.writer(sheet, lineterminator="\n")
    writer.writerow((*CSV_HEADS[:-2], f"cost {prices.currency}".strip(), "note"))
    mass_unit = "lb" if system is System.US else "kg"
    for line in gathered.lines:
        unit = _csv_unit(line, system)
        sizes = [_plain(value, unit) for value in (line.net, line.needed, line.on_hand, line.bought)]
        mass = "" if line.mass is None else _plain(line.mass, mass_unit)
        cost = "" if line.cost is None else f"{line.cost / 10**prices.digits:.{prices.digits}f}"
        texts = (line.category.value, line.kind.name, line.kind.says, unit if unit != "-" else "each")
        notes = f"{bought(line, system)}; {'; '.join(line.notes)}".strip("; ").replace("\u00a0", " ")
        writer.writerow((*(safe(text) for text in texts), *sizes, line.packs, mass, mass_unit, cost, safe(notes)))
    return sheet.getvalue()


def _csv_unit(line: Line, system: System) -> str:
    american = system is System.US
    by_kind = {
        METER.kind: ("ft", "m"),
        CUBIC_METER.kind: ("yd3", "m3"),
        KILOGRAM.kind: ("lb", "kg"),
        SQUARE_METER.kind: ("ft2", "m2"),
    }
    return by_kind.get(line.unit.kind, ("-", "-"))[0 if american else 1]


def _plain(value: float, symbol: str) -> str:
    return f"{value / UNIT_BY_SYMBOL[symbol].factor:.3f}".rstrip("0").rstrip(".")


def safe(text: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t") else text
