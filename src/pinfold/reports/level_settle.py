"""How a structure on blocks has settled, to read: support by support, the worst neighbors, when to look again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pinfold.reports.level_page import signed
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Working, table
from pinfold.studies.leveling.settling import DAY, YEAR, Settlement, Trend, Uneven
from pinfold.studies.leveling.words import fine
from pinfold.tables.shelf import kind
from pinfold.units import System

JACKED = (
    "Was it jacked and that not written down? Then leave out the surveys from before (--since), or what was lifted "
    "looks as if it had risen."
)


@dataclass(frozen=True, kw_only=True)
class Settled:
    """How a structure has settled.

    Attributes:
        neighbor: name of the structure; empty where the plan has none with supports.
        settlement: what the surveys say; None where there is none.
        again_on: day to look again; empty without a survey.
        jacked_on: day it was jacked last, from which on surveys count; empty where nothing is written down, or where
            another day was asked for.
        since: that day.
        because: why nothing is shown.
    """

    neighbor: str
    settlement: Settlement | None
    again_on: str
    jacked_on: str = ""
    since: str = ""
    because: tuple[str, ...] = ()


def settle_page(found: Settled, system: System) -> Page:
    """All of it."""
    title = f"Settlement: {found.neighbor}" if found.neighbor else "Settlement"
    return Page(title=title, blocks=(*settle_blocks(found, system), Caution(text=kind("cautions", "engineer").says)))


def settle_blocks(found: Settled, system: System) -> tuple[Block, ...]:
    """The same without caution: what the binder has of it."""
    return tuple(_blocks(found, system))


def _blocks(found: Settled, system: System) -> Iterator[Block]:
    yield from (Paragraph(text=f"NOT SHOWN: {text}") for text in found.because)
    settlement = found.settlement
    if settlement is None:
        return
    count = len(settlement.surveys)
    over = f", {settlement.surveys[0]} to {settlement.surveys[-1]}" if count > 1 else f", {settlement.surveys[0]}"
    yield Paragraph(
        text=f"{count} survey{'s' * (count > 1)}{over}. Look again on {found.again_on}: {settlement.why_again}."
    )
    yield from (Paragraph(text=f"{note[0].upper()}{note[1:]}.") for note in settlement.notes)
    if found.jacked_on:
        yield Paragraph(text=f"Counted since it was jacked on {found.jacked_on}; surveys from before do not count.")
    elif count > 1 and not found.since:
        yield Paragraph(text=JACKED)
    if count > 1:
        yield _trends(settlement, system)
        yield from _uneven(settlement, system)
    yield Working(steps=settlement.steps, figures=(("unevenness from where damage is seen", settlement.limit),))


def _trends(settlement: Settlement, system: System) -> Block:
    rows = [
        (each.mark, _down(each.settled, system), f"± {fine(each.settled_spread, system)}", _a_year(each, system),
         _told(each), _ahead(each, system))
        for each in settlement.trends
    ]  # fmt: skip
    heads = ("support", "went down", "give or take", "a year", "moves", "next half year")
    note = (
        "A year: straight line, from … to … its interval of 95 %. Next half year: by the straight line, then by the "
        "law that every tenfold of age brings as much, where the age is known."
    )
    return table(heads, rows, right=(1, 2), note=note, title="Support by support")


def _down(length: float, system: System) -> str:
    return "0" if fine(length, system)[0] == "0" else signed(length, system).replace("+", "")


def _a_year(trend: Trend, system: System) -> str:
    if trend.rate is None:
        return ""
    rate = fine(trend.rate * YEAR, system)
    if trend.rate_low is None or trend.rate_high is None:
        return f"{rate}, no interval"
    return f"{rate} ({fine(trend.rate_low * YEAR, system)} … {fine(trend.rate_high * YEAR, system)})"


def _told(trend: Trend) -> str:
    if trend.moves is None:
        return "not shown yet"
    return ("down" if (trend.rate or 0) > 0 else "up") if trend.moves else "not seen"


def _ahead(trend: Trend, system: System) -> str:
    if trend.ahead is None or trend.moves is None:
        return ""
    slow = "" if trend.ahead_slowing is None else f", {_down(trend.ahead_slowing, system)}"
    return f"{_down(trend.ahead, system)}{slow}"


def _uneven(settlement: Settlement, system: System) -> Iterator[Block]:
    if not settlement.uneven:
        return
    yield Heading(text="Uneven")
    worst = settlement.uneven[0]
    yield Paragraph(text=_worst(worst, settlement, system))
    rows = [
        (", ".join(pair.pair), fine(pair.difference, system), f"± {fine(pair.spread, system)}", _one_in(pair))
        for pair in settlement.uneven
    ]  # fmt: skip
    yield table(("neighbors", "difference", "give or take", "one in"), rows, right=(1, 2, 3))


def _worst(worst: Uneven, settlement: Settlement, system: System) -> str:
    limit = 1 / settlement.limit.value
    pair = f"{worst.pair[0]} and {worst.pair[1]} went down {fine(worst.difference, system)} unlike each other"
    if worst.distortion > settlement.limit.value:
        return f"{pair}: more than 1 in {limit:.0f}, from where damage is seen. Level it, and find out why."
    return f"{pair}, the worst of all neighbors; from 1 in {limit:.0f} on damage is seen."


def _one_in(pair: Uneven) -> str:
    return f"{1 / pair.distortion:.0f}" if pair.distortion > 1e-6 else "even"


def days_of(seconds: float) -> int:
    """Whole days."""
    return int(seconds // DAY)
