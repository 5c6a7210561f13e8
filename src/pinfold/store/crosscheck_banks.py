"""Whether banks of earth lie against walls that are there, and do not lie over each other."""

from __future__ import annotations

import math
from itertools import pairwise

from pinfold.plan.enclosure import Enclosure
from pinfold.plan.grounds import Bank
from pinfold.plan.outline import Run, Side
from pinfold.store.forms import Form
from pinfold.units import both

_SAME = 0.005


def check_banks(form: Form, plan: Enclosure) -> None:
    """Complain about every bank that no wall can hold."""
    sides = {side.name: side for side in plan.sides}
    for bank in plan.banks:
        if bank.side not in sides:
            form.complain(
                f"bank.{bank.name}.side",
                f"there is no side called {bank.side!r}; there are: {', '.join(sorted(sides))}",
            )
        elif math.isfinite(bank.start + bank.end + bank.height):
            _against(form, plan, sides[bank.side], bank)
            _open_gates(form, plan, bank)
    _apart(form, plan)


def _against(form: Form, plan: Enclosure, side: Side, bank: Bank) -> None:
    length = side.runs[-1].end if side.runs else math.nan
    if bank.end > length + _SAME:
        form.complain(
            f"bank.{bank.name}.to", f"ends at {both(bank.end)} along {side.name}, which is {both(length)} long"
        )
    for run in side.runs:
        if min(run.end, bank.end) - max(run.start, bank.start) > _SAME:
            _against_run(form, plan, run, bank)


def _open_gates(form: Form, plan: Enclosure, bank: Bank) -> None:
    """Earth runs out through an opening."""
    for gate in plan.gates_in(bank.side):
        if min(gate.end, bank.end) - max(gate.start, bank.start) > _SAME:
            form.complain(
                f"bank.{bank.name}.from",
                f"lies across the opening of {gate.name!r}, where nothing holds it; make it two banks beside the gate",
            )


def _against_run(form: Form, plan: Enclosure, run: Run, bank: Bank) -> None:
    buildup = plan.buildups.get(run.buildup or "")
    if run.neighbor is not None or buildup is None:
        return
    wall = buildup.wall
    if wall is None or wall.kind.word("make") == "sheet":
        form.complain(
            f"bank.{bank.name}", f"{run.name} has no wall that could hold earth; shorten the bank or build a wall there"
        )
    elif bank.height > wall.height + _SAME:
        form.complain(
            f"bank.{bank.name}.height",
            f"{both(bank.height)} is higher than the wall of {run.name}, {both(wall.height)}; it would run over it",
        )


def _apart(form: Form, plan: Enclosure) -> None:
    for side in plan.sides:
        banks = sorted((bank for bank in plan.banks if bank.side == side.name), key=lambda bank: bank.start)
        for before, after in pairwise(banks):
            if after.start < before.end - _SAME:
                form.complain(
                    f"bank.{after.name}.from",
                    f"begins at {both(after.start)}, but bank {before.name!r} goes to {both(before.end)}; they may not "
                    "lie over each other: with earth on both faces, give the higher by what it stands above the other",
                )
