"""A build-up that a search found, read back from its code."""

from __future__ import annotations

from functools import lru_cache

from pinfold.actions.sites import Site
from pinfold.actions.weigh_options import judged_if_built, listed_sides, own_pace, plan_table, site_with, subject_of
from pinfold.actions.weigh_search import coder_of, varied
from pinfold.errors import InputError, NotFoundError
from pinfold.studies.weighing.axes import change_of
from pinfold.studies.weighing.catalog import laid
from pinfold.studies.weighing.layer_changes import layer_changes
from pinfold.studies.weighing.records import Option, Weighed
from pinfold.studies.weighing.row_codes import Coded, spelled
from pinfold.studies.weighing.search_records import found_name
from pinfold.studies.weighing.subject import Asked


def found_option(site: Site, code: str) -> Option:
    """What choosing a build-up that was found writes: itself, wherever the one stands that was varied.

    Raises:
        NotFoundError: the code is not of this plan as it stands.
        InputError: the build-up that was varied stands nowhere.
        StoreError, InvalidPlan: as reading the plan file tells.
    """
    found = _read_back(site, code)
    name = found_name(spelled(code))
    places = tuple(laid(site.plan, name, listed_sides(plan_table(site)), instead_of=found.buildup))
    if not places:
        raise InputError(f"{found.buildup!r}, which it was found for, stands on no run any more: search again")
    had = plan_table(site)["buildup"][found.buildup]  # type: ignore[index]
    other = "; ".join(layer_changes(had, found.layers)) or "nothing is other"
    return Option(
        name=name, says=found.says, change=(*change_of(name, found.says, found.layers), *places),
        size=f"in place of {found.buildup}: {other}",
    )  # fmt: skip


def _read_back(site: Site, code: str) -> Coded:
    for name in varied(site.plan):
        found = coder_of(site, name).read(code)
        if found is not None:
            return found
    raise NotFoundError(
        f"{spelled(code)} is no code of this plan as it stands: it is of another plan, or the plan, its prices or its "
        "pile have other choices since; 'pinfold weigh search' gives codes that hold now"
    )


@lru_cache(maxsize=8)  # a page shows it before it is written
def weighed_found(site: Site, option: Option) -> Weighed:
    """A build-up that was found, judged on every criterion."""
    pace = own_pace(site)
    return judged_if_built(lambda change: subject_of(site_with(site, change), pace), option, Asked())
