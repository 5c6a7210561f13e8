"""The jacking sheet: cautions first, what must hold, loads, then every lift in order with its box, and the shims."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pinfold.figures import Figure
from pinfold.findings import Finding, Verdict
from pinfold.reports.level_page import Leveled, cautions, moves_in_words, moves_table, signed
from pinfold.reports.pages import Block, Caution, Findings, Heading, Page, Paragraph, Working, table
from pinfold.studies.leveling.carrying import Carried
from pinfold.studies.leveling.ordering import JackStep
from pinfold.studies.leveling.words import fine
from pinfold.units import KILOGRAM, NEWTON, Meter, Ratio, System, show

MUST_HOLD = "What must hold"
"""Stands over the checks, after all that is ticked off."""
GRAVITY = 9.80665
BEFORE = (
    "Before: everybody out and away, nothing leaning on it; doors and windows open; pipes, wires and stove pipe "
    "loosened; goods that can fall taken out. No wind, no frost in the ground.",
    "At each support: the jack plumb on its stiff pad under a beam, a board against slipping between; the crib built "
    "up beside it, never more than a finger's width under the beam; lift, follow with boards and shims, next support.",
    "Listen and look after every lift: a crack that opens, a beam that turns, a stack that leans: let down and stop.",
    "In the end: shims in pairs from both sides across the whole block, jack let down last, level read anew, then "
    "again after a week.",
)


@dataclass(frozen=True, kw_only=True)
class Jacking:
    """How a structure is jacked level.

    Attributes:
        leveled: how it lies and what moves.
        steps: every lift in order; none where nothing is moved or no order keeps the limit.
        step: most lifted at one place before the next.
        bend: most that neighbors are bent against each other.
        loads: of all supports; none where its weight is not known.
        checks: what must hold.
        because: why there is no order, or no loads.
        figures: that went in.
    """

    leveled: Leveled
    steps: tuple[JackStep, ...]
    step: Meter
    bend: Ratio
    loads: tuple[Carried, ...]
    checks: tuple[Finding, ...]
    because: tuple[str, ...]
    figures: tuple[tuple[str, Figure], ...]


def jack_page(found: Jacking, system: System) -> Page:
    """The whole sheet."""
    title = f"Jacking: {found.leveled.neighbor}" if found.leveled.neighbor else "Jacking"
    return Page(title=title, blocks=(*cautions(), *jack_blocks(found, system)))


def jack_blocks(found: Jacking, system: System) -> tuple[Block, ...]:
    """The same without cautions: what the binder has of it."""
    return tuple(_blocks(found, system))


def _blocks(found: Jacking, system: System) -> Iterator[Block]:
    moves = found.leveled.moves
    yield from _doubts(found)
    if moves is not None:
        yield Paragraph(text=moves_in_words(moves, system))
    if moves is None or not moves.touched:
        return
    yield from _before(found)
    if found.steps:
        yield Heading(text="Lifts in order")
        yield cautions()[0]  # wherever the sheet is cut in two
        yield _steps(found, system)
    yield Heading(text="Shims in the end")
    yield moves_table(moves, system)
    yield Heading(text=MUST_HOLD)
    yield Findings(findings=found.checks, each=True)
    if found.loads:
        yield _loads(found.loads, system)
    worst = max(found.loads, key=lambda each: each.jacking, default=None)
    yield Working(steps=(worst.step,) if worst else (), figures=found.figures)


def _doubts(found: Jacking) -> Iterator[Block]:
    """What is not shown, and what makes the survey doubtful."""
    leveled = found.leveled
    for text in (*leveled.because, leveled.moves_because, *found.because):
        if text:
            yield Paragraph(text=f"NOT SHOWN: {text[0].upper()}{text[1:].rstrip('.')}.")
    if leveled.survey is not None and (leveled.survey.aside or leveled.survey.missing):
        yield Caution(text="Readings of this survey were set aside: see how it lies, and read those marks again first.")
    yield from (Caution(text=f"{note[0].upper()}{note[1:]}.") for note in leveled.notes)


def _before(found: Jacking) -> Iterator[Block]:
    """What keeps one from beginning, and how it is done."""
    if failing := [check.check for check in found.checks if check.verdict is Verdict.FAILS]:
        yield Caution(text=f"Do not begin: {', '.join(failing)} does not hold. What would mend it stands below.")
    if unknown := [check.check for check in found.checks if check.verdict is Verdict.NOT_SHOWN]:
        yield Caution(text=f"Not shown to hold: {', '.join(unknown)}. Do not begin before it is.")
    if not found.checks:
        yield Caution(text="Neither jack, crib nor ground is shown to hold. Do not begin before they are.")
    yield from (Paragraph(text=text) for text in BEFORE)


def _loads(loads: tuple[Carried, ...], system: System) -> Block:
    rows = [
        (each.mark, *(_weight(load, system) for load in (each.stiff, each.limp, each.jacking))) for each in loads
    ]  # fmt: skip
    note = (
        "Stiff: as a stiff box on alike supports; limp: what lies nearest. On the jack: with its two nearest neighbors "
        "hanging free. The truth lies between; wind is not in it."
    )
    return table(("support", "stiff", "limp", "on the jack"), rows, right=(1, 2, 3), title="Loads", note=note)


def _weight(load: float, system: System) -> str:
    """A load as force, and in metric units as the mass that a jack is marked with; pounds are both."""
    force = show(load, NEWTON, system)
    return force if system is System.US else f"{force} ({show(load / GRAVITY, KILOGRAM, system)})"


def _steps(found: Jacking, system: System) -> Block:
    rows = [
        (str(each.number), each.mark, signed(each.lift, system), signed(each.so_far, system), signed(each.left, system),
         f"1/{1 / each.bend:.0f}" if each.bend > _STRAIGHT else "none")
        for each in found.steps
    ]  # fmt: skip
    note = (
        f"No lift over {fine(found.step, system)} before the next support; no two neighbors bent past "
        f"1/{1 / found.bend:.0f} against each other, or past what they are now. Bend: the worst pair after it."
    )
    heads = ("lift", "support", "by", "so far", "left", "bend")
    return table(heads, rows, right=(0, 2, 3, 4, 5), note=note, wide=1)


_STRAIGHT = 1e-6
