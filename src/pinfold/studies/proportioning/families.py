"""The families pinfold knows, in the order they are shown; doors make their options and forms from this."""

from __future__ import annotations

from pinfold.errors import NotFoundError
from pinfold.studies.proportioning import mortar
from pinfold.studies.proportioning.records import Family

FAMILIES: tuple[Family, ...] = (mortar.FAMILY,)


def family_named(name: str) -> Family:
    """A family by its word.

    Raises:
        NotFoundError: there is none; the message lists what there is.
    """
    for family in FAMILIES:
        if family.name == name:
            return family
    raise NotFoundError(f"no family of mixes is called {name!r}; there are {', '.join(each.name for each in FAMILIES)}")
