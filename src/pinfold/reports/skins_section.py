"""Whether the coats make the wall stronger, as part of a page: a table for each coated build-up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pinfold.reports.pages import Block, Heading, Paragraph, table
from pinfold.studies.stability.skins.compare import SkinComparison, SkinRow
from pinfold.units import NEWTON_METER_PER_METER, PASCAL, System, show, symbol_for

HEADING = "Do the coats make it stronger"
_SAYS = (
    "Just above the ground, per length of wall, by design: what the codes allow, or a third of what things break at. "
    "Coats end at the ground. Across the joint on the footing they add nothing, unless skin and mesh are carried down "
    "past the lowest bed and into the footing; what the wall's foot holds is said by its own findings, without coats."
)
_HEADS = ("wall", "cracks at", "holds up to", "times the bare wall", "what sets it")


def skins_section(comparisons: Sequence[SkinComparison], system: System) -> tuple[Block, ...]:
    """A table for each build-up with coats; nothing where there is none."""
    if not comparisons:
        return ()
    tables = (block for each in comparisons for block in _of_buildup(each, system))
    return (Heading(text=HEADING), Paragraph(text=_SAYS), *tables)


def _of_buildup(each: SkinComparison, system: System) -> Iterator[Block]:
    if each.missing:
        yield Paragraph(text=f"{each.buildup}: NOT SHOWN: {each.missing}.")
        return
    most = max(each.demand, *(row.holds_up_to for row in each.rows))
    unit = symbol_for(most, NEWTON_METER_PER_METER, system)

    def moment(value: float) -> str:
        return show(value, NEWTON_METER_PER_METER, system, in_unit=unit)

    title = f"{each.buildup}: the wind asks {moment(each.demand)} (stretch {each.stretch})"
    rows = [
        (
            row.way,
            "as it dries" if _spent(each, row) else moment(row.cracks_at),
            moment(row.holds_up_to),
            _times(row),
            row.governs.replace("-", " "),
        )
        for row in each.rows
    ]
    yield table(_HEADS, rows, right=(1, 2, 3), title=title, note=_drying(each, system))


def _spent(each: SkinComparison, row: SkinRow) -> bool:
    """Whether a coat of it cracks by its own drying before any wind."""
    return each.drying >= each.tension and row.cracks_at < each.rows[0].cracks_at


def _times(row: SkinRow) -> str:
    return "" if row.ratio is None else f"{row.ratio:.2f}"


def _drying(each: SkinComparison, system: System) -> str:
    stress = "psi" if system is System.US else "MPa"
    drying, tension, end, bond = (
        show(value, PASCAL, system, in_unit=stress) for value in (each.drying, each.tension, each.end_shear, each.bond)
    )
    spent = each.drying >= each.tension
    told = "more than it can take: it cracks by itself" if spent else "what is left is all that the wind may use"
    return (
        f"Drying on the core pulls the coat with {drying} of the {tension} it can take, {told}. At the ends of the "
        f"coats drying shears with {end} against a bond of {bond}."
    )
