"""Water, cement, weight and trips, carbon."""

from __future__ import annotations

import math

import numpy as np

from pinfold.errors import NotFoundError
from pinfold.sources import Standing
from pinfold.studies.gathering.records import Category, Line
from pinfold.studies.weighing.elements import row_for
from pinfold.studies.weighing.records import Score, not_shown
from pinfold.studies.weighing.subject import Asked, Subject, standing_of
from pinfold.studies.weighing.unsure_cost import WASTES, bought, fewest_trips
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import KILOGRAM

_CEMENTS = ("portland-cement", "masonry-cement")
_BAGGED = ("concrete-mix-bag", "mortar-mix-bag")


def water(subject: Subject, asked: Asked) -> Score:
    """Mixing, washing, keeping damp."""
    del asked
    found = subject.gathered.water
    if found.curing is None:
        return not_shown("the faces to keep wet are not known")
    least = found.mixing + found.washing
    return Score(
        value=found.total, low=least, high=found.total + found.curing, figures=found.figures,
        standing=standing_of(found.figures),
        because="mixing, washing and keeping damp; from no keeping damp to twice as much of it",
    )  # fmt: skip


def cement(subject: Subject, asked: Asked) -> Score:
    """In every mix; from nothing wasted to twice the waste."""
    del asked
    bagged = [line.kind.says for line in subject.gathered.lines if line.kind.name in _BAGGED]
    if bagged:
        return not_shown(f"the share of cement in {', '.join(bagged)} is not known")
    lines = [line for line in subject.gathered.lines if is_cement(line)]
    net, needed = (math.fsum(getattr(line, name) for line in lines) for name in ("net", "needed"))
    return Score(
        value=needed, low=net, high=2 * needed - net, standing=Standing.PRACTICE,
        because="from nothing wasted to twice the waste",
    )  # fmt: skip


def is_cement(line: Line) -> bool:
    """Whether a line is of cement, by weight."""
    return line.kind.name in _CEMENTS and line.unit == KILOGRAM


def hauled(subject: Subject, asked: Asked) -> Score:
    """Weight from the shop."""
    del asked
    lines, mass = subject.gathered.lines, subject.gathered.haulage.mass
    unknown = [line.kind.says for line in lines if line.mass is None and line.category is not Category.HARDWARE]
    if unknown:
        return not_shown(f"no weight is known for {', '.join(dict.fromkeys(unknown))}")
    less, usual, more = np.broadcast_to(bought(subject.gathered, {"waste": WASTES}).mass, WASTES.shape).tolist()
    return Score(
        value=mass, low=mass + less - usual, high=mass + more - usual, standing=Standing.PRACTICE,
        because="what is bought in whole packs, sand as damp as it comes, from nothing wasted to twice the waste; "
        "hinges, ties and pins not weighed",
    )  # fmt: skip


def trips(subject: Subject, asked: Asked) -> Score:
    """To the shop and for water."""
    del asked
    shop, tank = subject.gathered.haulage.trips, subject.gathered.water.trips
    if shop is None or tank is None:
        return not_shown("write payload, bed and tank under [haul]: how much one trip carries is not known")
    found = bought(subject.gathered, {"waste": WASTES})
    trips = fewest_trips(subject.gathered, subject.layout.plan.haul, found)
    less, _, more = np.broadcast_to(trips, WASTES.shape).tolist()
    return Score(
        value=shop + tank, low=less + tank, high=more + tank, standing=Standing.GIVEN,
        because=f"{shop} to the shop, from nothing wasted to twice the waste; {tank} for water",
    )  # fmt: skip


def carbon(subject: Subject, asked: Asked) -> Score:
    """Set free by making what is bought; makers lie apart alike for all of a sort, each sort by itself."""
    del asked
    masses: dict[str, float] = {}
    rows: dict[str, Kind] = {}
    missing = []
    for line in subject.gathered.lines:
        row = carbon_row(line.kind)
        if row is None or (line.mass is None and line.category is not Category.HARDWARE):
            missing.append(line.kind.says)
            continue
        masses[row.name] = masses.get(row.name, 0.0) + (line.mass or 0.0)
        rows[row.name] = row
    if missing:
        return not_shown(f"no carbon figure for {', '.join(dict.fromkeys(missing))}")
    figures = tuple((f"carbon of {row.says}, over its mass", row.figure("carbon")) for row in rows.values())
    value = math.fsum(masses[name] * row.value("carbon") for name, row in rows.items())
    low, high = (
        math.hypot(*(masses[name] * (row.value(end) - row.value("carbon")) for name, row in rows.items()))
        for end in ("low", "high")
    )
    return Score(
        value=value, low=value - low, high=value + high, figures=figures, standing=standing_of(figures),
        because="of what is bought, not of the trips; own figures from memory, hinges, ties and pins not weighed",
    )  # fmt: skip


def carbon_row(of: Kind) -> Kind | None:
    """The figures of carbon for a kind of thing; None where there are none."""
    own = shelf("carbon").get(of.name)
    if own is not None:
        return own
    try:
        return row_for("carbon", f"{of.shelf}/{of.name}")
    except NotFoundError:
        return None
