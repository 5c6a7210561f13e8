"""The plan file: one TOML text in, one checked Enclosure out; written back with its comments kept."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path

from pinfold.errors import InputError, InvalidPlan, NewerFileError
from pinfold.plan.enclosure import Enclosure, Paper
from pinfold.plan.outline import Corner
from pinfold.plan.place import Family
from pinfold.store.crosscheck import crosscheck
from pinfold.store.forms import Form
from pinfold.store.read_buildups import read_buildups
from pinfold.store.read_cutting import read_cutting
from pinfold.store.read_grounds import read_banks
from pinfold.store.read_outline import read_corners, read_gates, read_ground, read_lines, read_neighbors, read_sides
from pinfold.store.read_people import read_people
from pinfold.store.read_place import read_haul, read_mixing, read_place
from pinfold.store.writing import read_text, write_text
from pinfold.units import System

FORMAT = 1
NAME = "plan.toml"


def read_plan(path: Path) -> Enclosure:
    """Read and check a plan file.

    Raises:
        NotFoundError: there is no such file.
        StoreError: it cannot be read.
        NewerFileError: it is of a later format.
        InvalidPlan: with every complaint at once.
    """
    return plan_of(read_text(path), name=path.name)


def plan_of(text: str, *, name: str = NAME) -> Enclosure:
    """The same from text.

    Raises:
        NewerFileError, InvalidPlan: as `read_plan`.
    """
    try:
        table = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as fault:
        raise InvalidPlan(name, [InputError(_syntax(fault))]) from None
    return plan_of_table(table, name=name)


def plan_of_table(table: Mapping[str, object], *, name: str = NAME) -> Enclosure:
    """The same from the table that the text was read into, as a page holds it while a corner is dragged.

    Raises:
        NewerFileError, InvalidPlan: as `read_plan`.
    """
    form = Form(table)
    _check_format(form, name)
    plan = _enclosure(form)
    form.refuse_unknown()
    crosscheck(form, plan)
    form.check(name)
    return plan


def _syntax(fault: Exception) -> str:
    if isinstance(fault, RecursionError):
        return "tables nested too deep to be a plan"
    return f"not readable as TOML: {fault}; texts and quantities stand in quotes, tables in [brackets]"


def _check_format(form: Form, name: str) -> None:
    found = form.raw("format")
    if isinstance(found, int) and not isinstance(found, bool) and found > FORMAT:
        raise NewerFileError(f"{name} is of format {found}; this pinfold reads format {FORMAT}. Get a newer pinfold.")
    if found != FORMAT or isinstance(found, bool):
        form.complain("format", f"{'nothing' if found is None else repr(found)} found; write format = {FORMAT} on top")


def _enclosure(form: Form) -> Enclosure:
    family = form.word("family", Family, otherwise=Family.US)
    units = form.word("units", System, otherwise=System.US if family is Family.US else System.METRIC)
    corners = read_corners(form)
    return Enclosure(
        name=form.text("name", longest=60),
        units=units,
        family=family,
        paper=form.word("paper", Paper, otherwise=Paper.LETTER if units is System.US else Paper.A4),
        place=read_place(form, family),
        haul=read_haul(form),
        mixing=read_mixing(form, units),
        ground=read_ground(form),
        corners=corners,
        sides=read_sides(form, _lengths(corners)),
        gates=read_gates(form),
        neighbors=read_neighbors(form),
        lines=read_lines(form),
        buildups=read_buildups(form),
        banks=read_banks(form),
        people=read_people(form),
        cutting=read_cutting(form, units),
    )


def _lengths(corners: tuple[Corner, ...]) -> dict[tuple[str, str], float]:
    return {(first.name, second.name): math.dist(first.at, second.at) for first in corners for second in corners}


def write_plan(path: Path, text: str) -> None:
    """Write a plan file after checking that it reads; the old one stands until the new one is whole.

    Raises:
        InvalidPlan: the text is no good plan; nothing is written.
        StoreError: the folder cannot be written.
    """
    plan_of(text, name=path.name)
    write_text(path, text)


def write_changes(path: Path, changes: Sequence[str]) -> None:
    """Change values of a plan file, each written `place=value`, every comment kept; all of them or none.

    Args:
        path: the plan file
        changes: such as `gate.cart gate.width=9 ft` or `place.soil=clay`: tables by key, listed ones by name or number

    Raises:
        InputError: a place that is not there.
        InvalidPlan: the plan would not read afterwards; nothing is written.
        StoreError: the folder cannot be written.
    """
    text = read_text(path)
    for change in changes:
        place, equals, value = change.partition("=")
        if not equals:
            raise InputError(f"{change!r} found; a change is written place=value, like 'place.soil=clay'")
        text = changed(text, place.strip(), value.strip())
    write_plan(path, text)


def changed(text: str, place: str, value: str) -> str:
    """The plan text with one value changed and every comment kept.

    Args:
        text: the plan as it stands
        place: where, as in a complaint: `gate.cart gate.width`, `side.north.runs[1].buildup`
        value: what to put there; becomes true, false or a whole number only where such a one stands now

    Raises:
        InputError: the place is not there, or the text is no TOML.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        document = tomlkit.parse(text)
    except TOMLKitError as fault:
        raise InputError(f"the plan is not readable as TOML: {fault}") from None
    here: object = document
    rest = place.replace('"', "")  # a name may stand in quotes, as it does in the file
    while isinstance(here, Mapping | list):
        key, rest, inner = _next(here, rest, place)
        if not rest:
            if isinstance(inner, Mapping | list):
                raise InputError("is a table or list; name one value inside it", place=place)
            here[key] = _like(inner, value)  # type: ignore[index]
            return tomlkit.dumps(document)
        here = inner
    raise InputError(f"there is no {rest!r} below a single value", place=place)


def _next(here: Mapping[str, object] | list[object], rest: str, place: str) -> tuple[str | int, str, object]:
    """Key of the next part of a place, what is left of the place, and what stands there now; None for a new value."""
    if isinstance(here, list):
        names: dict[str | int, object] = dict(enumerate(here))
        spelled = {f"[{number}]": number for number in names}
        spelled |= {
            str(row["name"]): number for number, row in names.items() if isinstance(row, Mapping) and "name" in row
        }
    else:
        names = {str(key): value for key, value in here.items()}
        spelled = {str(key): key for key in names}
    for word in sorted(spelled, key=len, reverse=True):
        after = rest.removeprefix(word)
        if after != rest and (not after or after[0] in ".["):
            return spelled[word], after.removeprefix("."), names[spelled[word]]
    if isinstance(here, Mapping) and rest and not set(rest) & set(".[]"):
        return rest, "", None
    raise InputError(f"there is no {rest!r} here; there are: {', '.join(map(str, spelled)) or 'none'}", place=place)


def _like(before: object, value: str) -> str | int | bool:
    if isinstance(before, bool) and value in ("true", "false"):
        return value == "true"
    if isinstance(before, int) and value.isdecimal():
        return int(value)
    return value
