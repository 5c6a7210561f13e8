"""A small table on a card: what a level bucket weighs or how far a cone sinks, and what to add then."""

from __future__ import annotations

from dataclasses import replace

from pinfold.reports.amounts import by_jug, sunk, weight
from pinfold.reports.pages import Block, Table, table
from pinfold.studies.batching.records import Charge
from pinfold.studies.correcting.held import is_foamed
from pinfold.studies.correcting.ladder import Rung, foam_ladder, has_ladder, near_of, slump_ladder
from pinfold.studies.correcting.records import Off
from pinfold.units import KILOGRAM, CubicMeter, System, show


def ladder_blocks(charge: Charge, system: System, title: str) -> list[Block]:
    """What puts a batch right, at a few readings; nothing for what is judged under the trowel.

    Args:
        charge: the card
        system: US or metric
        title: of the card
    """
    found = ladder_table(charge, system)
    return [] if found is None else [replace(found, title=f"Off the mark, {title}")]


def ladder_table(charge: Charge, system: System) -> Table | None:
    """The same as a table; None for what is judged under the trowel."""
    if not has_ladder(charge):
        return None
    return _foamed(charge, system) if is_foamed(charge.mix) else _slump(charge, system)


def _foamed(charge: Charge, system: System) -> Table:
    bucket = _bucket(charge)
    rows = [(_net(rung.found * bucket, system), _then(rung, "cast it", system)) for rung in foam_ladder(charge)]
    near = weight(near_of(charge) * bucket, system)
    note = f"The bucket's own weight taken off; {near} either way is near enough. For a whole batch in the mixer."
    return table(("a level bucket weighs", "then, for a whole batch"), rows, right=(0,), note=note, wide=1)


def _net(mass: float, system: System) -> str:
    """A weight to the tenth, as a hanging scale shows it."""
    return show(round(mass, 2), KILOGRAM, system)


def _slump(charge: Charge, system: System) -> Table:
    rows = [(sunk(rung.found, system), _then(rung, "use it", system)) for rung in slump_ladder(charge)]
    bagged = all(part.part != "cement" for part in charge.ingredients)
    bound = "never more water than the bag allows" if bagged else "never water without the cement beside it"
    note = f"{sunk(near_of(charge), system)} either way is near enough. By a rule of thumb; {bound}."
    return table(("a cone sinks", "then, for a whole batch"), rows, right=(0,), note=note, wide=1)


def _bucket(charge: Charge) -> CubicMeter:
    """The site's level bucket."""
    lead = charge.ingredients[0]
    return lead.loose / lead.buckets


def _then(rung: Rung, right: str, system: System) -> str:
    if rung.off is Off.NEAR:
        return right
    add = rung.add
    parts = [f"{weight(part.as_it_lies, system)} {part.part.replace('_', ' ')}" for part in add.parts]
    if add.water:
        parts.append(f"{by_jug(add.water, system)} water")
    if add.foam:
        parts.append(f"{by_jug(add.foam, system)} foam")
    return f"add {', '.join(parts)}" if parts else "nothing helps: drier sand next time"
