"""The families pinfold knows, in the order they are shown; doors make their options and forms from this."""

from __future__ import annotations

from pinfold.errors import NotFoundError
from pinfold.studies.proportioning import (
    adobe,
    bond,
    concrete,
    earthing,
    foaming,
    grout,
    liming,
    mortar,
    plastering,
    post_holes,
    small_jobs,
    stabilizing,
    washing,
)
from pinfold.studies.proportioning.records import Family

FAMILIES: tuple[Family, ...] = (
    foaming.FAMILY, concrete.FAMILY, small_jobs.FAMILY, post_holes.FAMILY, mortar.FAMILY, grout.FAMILY,
    plastering.FAMILY, bond.FAMILY, liming.FAMILY, earthing.FAMILY, stabilizing.FAMILY,
    adobe.FAMILY, washing.LIMEWASH, washing.CEMENT_WASH,
)  # fmt: skip


def family_named(name: str) -> Family:
    """A family by its word.

    Raises:
        NotFoundError: there is none; the message lists what there is.
    """
    for family in FAMILIES:
        if family.name == name:
            return family
    raise NotFoundError(f"no family of mixes is called {name!r}; there are {', '.join(each.name for each in FAMILIES)}")
