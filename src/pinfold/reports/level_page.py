"""How a structure on blocks lies, to read: heights, falls, twist, doors, and the least moves that level it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pinfold.figures import Figure
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Working, table
from pinfold.studies.leveling.lying import Fall, Lie
from pinfold.studies.leveling.moving import Move, Moves
from pinfold.studies.leveling.openings import RackedDoor
from pinfold.studies.leveling.records import Survey
from pinfold.studies.leveling.words import falling_to, fine
from pinfold.tables.shelf import kind
from pinfold.units import METER, Meter, Radian, System, show


@dataclass(frozen=True, kw_only=True)
class Leveled:
    """How a structure lies, and how it is leveled.

    Attributes:
        neighbor: name of the structure; empty where the plan has none with supports.
        survey: that it rests on; None without one.
        lie: of its supports; None where nothing is shown.
        north: of true north, clockwise of y.
        doors: by name what is known of each; None where nothing tells.
        tolerance: that is to be kept.
        moves: the least that keep it; None where there are none.
        because: why nothing is shown.
        moves_because: why no moves are.
        notes: what is to be known.
        advice: on reading the instrument; may be empty.
        figures: that went in.
    """

    neighbor: str
    survey: Survey | None
    lie: Lie | None
    north: Radian
    doors: Mapping[str, RackedDoor | None]
    tolerance: Meter
    moves: Moves | None
    because: tuple[str, ...] = ()
    moves_because: str = ""
    notes: tuple[str, ...] = ()
    advice: str = ""
    figures: tuple[tuple[str, Figure], ...] = ()


def cautions() -> tuple[Caution, ...]:
    """What stands on every sheet of leveling, first."""
    return tuple(Caution(text=kind("cautions", name).says) for name in ("jacking", "engineer"))


def level_page(found: Leveled, system: System) -> Page:
    """All of it."""
    title = f"Level: {found.neighbor}" if found.neighbor else "Level"
    return Page(title=title, blocks=(*cautions(), *level_blocks(found, system)))


def level_blocks(found: Leveled, system: System) -> tuple[Block, ...]:
    """The same without cautions: what the binder has of it."""
    return tuple(_blocks(found, system))


def _blocks(found: Leveled, system: System) -> Iterator[Block]:
    if found.survey is not None:
        yield from survey_blocks(found.survey, system)
    yield from (Paragraph(text=f"NOT SHOWN: {text[0].upper()}{text[1:]}") for text in found.because)
    if found.lie is None or found.survey is None:
        return
    if found.advice:
        yield Paragraph(text=found.advice)
    yield Heading(text="How it lies")
    yield Paragraph(text=lie_in_words(found.lie, found.north, system))
    yield from (Paragraph(text=f"{note[0].upper()}{note[1:]}.") for note in found.notes)
    yield _heights(found, found.lie, system)
    yield from _doors(found, system)
    yield from _least(found, system)
    aside = tuple(one.step for one in found.survey.aside)
    doors = tuple(step for door in found.doors.values() if door for step in door.steps)
    yield Working(steps=(*aside, *found.lie.steps, *doors), figures=found.figures)


def survey_blocks(survey: Survey, system: System) -> Iterator[Block]:
    """What a survey rests on, and what of it was set aside."""
    over = f"Heights are over {survey.datum}" if survey.datum else "Heights are as they were written down"
    count = sum(each.readings for each in survey.heights)
    checked = f"{survey.spare} of them spare, so that they check each other" if survey.spare else "none of them spare"
    yield Paragraph(text=f"Survey {survey.name}. {over}; {count} readings count, {checked}.")
    for one in survey.aside:
        yield Caution(text=f"Set aside: {one.says}. It stands {one.spreads:.0f} times its spread off the others.")
    for mark, why in survey.missing:
        yield Caution(text=f"{mark} has no height: {why}.")
    yield from (Paragraph(text=f"{note[0].upper()}{note[1:]}.") for note in survey.notes)


def lie_in_words(lie: Lie, north: Radian, system: System) -> str:
    """Falls, difference and twist in a few sentences."""
    falls = " and ".join(_fall(fall, north, system) for fall in lie.falls)
    steep = "" if not lie.steepest else f" (steepest 1 in {1 / lie.steepest:.0f})"
    text = f"It falls {falls}{steep}. Highest and lowest support differ by {fine(lie.range, system)}."
    if lie.twist is None or lie.twist_spread is None:
        return f"{text} Its twist is NOT SHOWN: that wants supports near all four corners."
    if abs(lie.twist) < 2 * lie.twist_spread:
        return f"{text} No twist is seen over the spread of the readings, {fine(lie.twist_spread, system)}."
    return (
        f"{text} It is twisted: one corner stands {fine(abs(lie.twist), system)} off the plane of the other three, "
        f"give or take {fine(lie.twist_spread, system)}."
    )


def _fall(fall: Fall, north: Radian, system: System) -> str:
    way = falling_to(-fall.along[0], -fall.along[1], north)
    return f"{fine(fall.fall, system)} to the {way} over {show(fall.length, METER, system)}"


def _heights(found: Leveled, lie: Lie, system: System) -> Block:
    moves = {move.mark: move for move in found.moves.moves} if found.moves else {}
    rows = [
        (each.mark, fine(each.height, system), f"± {fine(each.spread, system)}", fine(each.low, system),
         signed(each.off, system), _lift(moves.get(each.mark), system))
        for each in lie.supports
    ]  # fmt: skip
    rows += [(mark, "NOT SHOWN", "", "", "", "") for mark in lie.missing]
    heads = ("support", "height", "give or take", "under the highest", "off the plane", "to lift")
    return table(heads, rows, right=(1, 2, 3, 4, 5))


def _lift(move: Move | None, system: System) -> str:
    return "" if move is None else signed(move.lift, system) if move.shims else "stays"


def signed(length: Meter, system: System) -> str:
    """A difference with its sign, up for above zero."""
    text = fine(length, system)
    return f"+{text}" if length > 0 and text[0] != "0" else text.replace("-", "−", 1)


def _doors(found: Leveled, system: System) -> Iterator[Block]:
    if not found.doors:
        return
    yield Heading(text="Doors")
    for name, door in found.doors.items():
        yield Paragraph(text=f"{name}: {_SUPPORTS_WANTED if door is None else _door(door, system)}.")


_SUPPORTS_WANTED = "NOT SHOWN: no two supports stand under its wall on both sides of its middle"


def _door(door: RackedDoor, system: System) -> str:
    if door.racking < _SQUARE:
        return "square"
    binds = f"the leaf binds by {fine(-door.left, system)}"
    room = f"{fine(door.left, system)} of its gap is left"
    return (
        f"its sill and its jambs part by 1 in {1 / door.racking:.0f}; its diagonals differ by "
        f"{fine(door.diagonals, system)}, the one that rises from its {_JAMB[door.longer]} jamb is longer, and "
        f"{binds if door.left < 0 else room} (supports {', '.join(door.by)} carry its wall)"
    )


_SQUARE = 1e-5
_JAMB = {"start": "first", "end": "second"}


def _least(found: Leveled, system: System) -> Iterator[Block]:
    yield Heading(text="Least moves")
    if found.moves is None:
        yield Paragraph(text=f"NOT SHOWN: {found.moves_because}.")
        return
    yield Paragraph(text=moves_in_words(found.moves, system))
    if found.moves.touched:
        yield moves_table(found.moves, system)


def _unproven(moves: Moves) -> str:
    late = "Time ran out before it was proven that none"
    if moves.fewest < len(moves.touched):
        return f"{late} touches fewer (none does with fewer than {moves.fewest})"
    return f"None touches fewer; {late[0].lower()}{late[1:]}"


def moves_in_words(moves: Moves, system: System) -> str:
    """How many supports, how much lift, how many shims, and whether it is proven."""
    if not moves.touched:
        return f"Nothing is to be moved: no two supports differ by more than {fine(moves.tolerance, system)}."
    proof = "No other way touches fewer" if moves.proven else _unproven(moves)
    return (
        f"So that no two supports differ by more than {fine(moves.tolerance, system)}: {len(moves.touched)} of "
        f"{len(moves.moves)} supports, {fine(moves.lift, system)} of lift in all, {moves.handled} shims. In the end "
        f"they differ by {fine(moves.range, system)}. {proof}, then lifts less, then wants fewer shims."
    )


def moves_table(moves: Moves, system: System) -> Block:
    """What each support gets."""
    rows = [(move.mark, signed(move.lift, system), shims_in_words(move, system)) for move in moves.touched]
    return table(("support", "lift", "shims"), rows, right=(1,), wide=2)


def shims_in_words(move: Move, system: System) -> str:
    """Shims that go in and come out of one stack."""
    into = [f"{each.count} × {fine(each.thickness, system)}" for each in move.shims if each.count > 0]
    out = [f"{-each.count} × {fine(each.thickness, system)}" for each in move.shims if each.count < 0]
    parts = ([f"in {', '.join(into)}"] if into else []) + ([f"out {', '.join(out)}"] if out else [])
    return "; ".join(parts) + ("; only the gap is filled" if move.lift == 0 and move.shims else "")
