"""The plan file: one TOML text in, one checked Enclosure out; written back with its comments kept."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

from pinfold.errors import InputError, InvalidPlan, NewerFileError
from pinfold.plan.enclosure import Enclosure, Paper
from pinfold.plan.outline import Corner
from pinfold.plan.place import Family
from pinfold.store.crosscheck import crosscheck
from pinfold.store.forms import Form
from pinfold.store.read_buildups import read_buildups
from pinfold.store.read_outline import read_corners, read_gates, read_ground, read_lines, read_neighbors, read_sides
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


def changed(text: str, key: tuple[str | int, ...], value: str | int | float) -> str:
    """The plan text with one value changed and every comment kept.

    Args:
        text: the plan as it stands
        key: path to the value, names and list places, such as ("gate", 0, "width")
        value: what to put there

    Raises:
        InputError: the path leads nowhere.
    """
    import tomlkit

    document = tomlkit.parse(text)
    here: object = document
    try:
        for part in key[:-1]:
            here = here[part]  # type: ignore[index]
        here[key[-1]] = value  # type: ignore[index]
    except (KeyError, IndexError, TypeError):
        raise InputError("there is no such place in the plan", place=".".join(map(str, key))) from None
    return tomlkit.dumps(document)
