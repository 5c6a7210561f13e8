"""Mortar by the proportions of ASTM C270."""

from __future__ import annotations

from pinfold.studies.proportioning.records import Ask, Family, Proportioned, Wish
from pinfold.tables.shelf import kind

_ASKS = (
    Ask(key="type", says="type of mortar by strength, M strongest", choices=("M", "S", "N", "O"), otherwise="S"),
)  # fmt: skip


def propose(wish: Wish) -> Proportioned:
    """A mortar of the type wished for, in the middle of its range."""
    return Proportioned(mix=kind("mixes", f"mortar-{wish.word('type')}"), method="proportions of ASTM C270, middle")


FAMILY = Family(name="mortar", says="between blocks, bricks and stones", asks=_ASKS, propose=propose)
