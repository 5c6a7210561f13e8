"""Adding the take-off up by kind."""

from __future__ import annotations

from collections.abc import Iterable

from pinfold.studies.quantities.records import Quantity, Total


def totals(quantities: Iterable[Quantity]) -> tuple[Total, ...]:
    """One total for each kind and unit, in the order they first come; what could not be counted is told, not added."""
    groups: dict[tuple[str, str, str], list[Quantity]] = {}
    for quantity in quantities:
        key = (quantity.kind.shelf, quantity.kind.name, quantity.unit.symbol)
        groups.setdefault(key, []).append(quantity)
    return tuple(_total(group) for group in groups.values())


def _total(group: list[Quantity]) -> Total:
    known = [quantity for quantity in group if quantity.is_known]
    return Total(
        kind=group[0].kind,
        unit=group[0].unit,
        net=sum(quantity.net for quantity in known),
        gross=sum(quantity.gross for quantity in known),
        places=tuple(dict.fromkeys(quantity.place for quantity in group)),
        missing=tuple((quantity.place, quantity.note) for quantity in group if not quantity.is_known),
    )
