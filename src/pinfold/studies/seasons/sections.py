"""How warm concrete is mixed and kept in the cold, by the least dimension of what is poured."""

from __future__ import annotations

from pinfold.studies.seasons.records import SeasonWork
from pinfold.tables.shelf import Kind, shelf


def section_of(work: SeasonWork) -> Kind | None:
    """Row of shelf `cold_concrete` for a work of concrete, the thinnest where nobody knows; None for all else."""
    if "concrete" not in work.trades:
        return None
    rows = list(shelf("cold_concrete").values())
    if work.dimension is None:
        return rows[0]
    return next((row for row in rows if not row.has("up_to") or work.dimension < row.value("up_to")), rows[-1])
