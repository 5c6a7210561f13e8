"""What would mend what fails: the plan changed, read, laid out, assessed and priced again, as a builder would do it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, changed_site, open_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError, OutOfRangeError
from pinfold.plan.changes import Change
from pinfold.store import plan_edit, planfile
from pinfold.store.plan_put import text_with_puts
from pinfold.studies.costing import Costs
from pinfold.studies.mending.records import Mend, Mending, Whole
from pinfold.studies.mending.search import mended
from pinfold.studies.mending.trying import Trials
from pinfold.studies.mending.weak import weak_of
from pinfold.studies.mending.whole import wholes
from pinfold.studies.stability.assess import assess
from pinfold.studies.stability.inquiry import Inquiry

Told = Callable[[int, int], None]
"""Told after each weak check: how many are done, of how many."""


def mends_of(folder: Path, *, near: bool, told: Told | None = None) -> Mending:
    """What would mend every check that fails, and with `near` those with less than a tenth to spare.

    Args:
        folder: site folder
        near: whether what holds only barely is mended too
        told: of the progress

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    return _found(open_site(folder), near, _Telling(told))


@dataclass(frozen=True)
class _Telling:
    """Whom to tell of the progress; all alike, so that what was found once is not sought again."""

    told: Told | None = field(compare=False)


@lru_cache(maxsize=4)
def _found(site: Site, near: bool, telling: _Telling) -> Mending:  # noqa: FBT001  (a key of the cache)
    """The search itself, with the plan's own table under it."""
    weak = weak_of(assess(site.layout), site.layout, near=near)
    if not weak:
        return Mending(checks=(), wholes=())
    _, _, table = plan_edit.read_edited(site.folder / planfile.NAME)
    trials = trials_on(site, table)
    checks = []
    for number, one in enumerate(mended(site.plan, weak, trials), start=1):
        checks.append(one)
        if telling.told is not None:
            telling.told(number, len(weak))
    return Mending(checks=tuple(checks), wholes=tuple(wholes(weak, trials)))


def trials_on(site: Site, table: Mapping[str, object]) -> Trials:
    """Changes to be tried on a site's plan.

    Args:
        site: whose plan is read from the table
        table: of the plan file
    """
    return Trials(lambda change: _tried(site, table, change), _pricer(site, table))


def _tried(site: Site, table: Mapping[str, object], change: Change) -> Inquiry | None:
    try:
        return Inquiry(layout=changed_site(site, table, change).layout)
    except (InvalidPlan, InputError, OutOfRangeError, NotFoundError):
        return None


def _pricer(site: Site, table: Mapping[str, object]) -> Callable[[Change], Costs]:
    return lambda change: reckon_all(changed_site(site, table, change)).costs


def put_mend(folder: Path, mend: Mend | Whole, *, revision: str = "") -> Path:
    """Write a mend into the plan file, its comments kept.

    Args:
        folder: site folder
        mend: found for the plan as it stands
        revision: mark of the plan file it was found for; empty for whatever stands there

    Raises:
        InputError: the plan file is another one by now.
        NotFoundError, StoreError, InvalidPlan: as reading and writing tell; nothing is written then.
    """
    path = folder / planfile.NAME
    found, text, _ = plan_edit.read_edited(path)
    if revision and revision != found:
        raise InputError("the plan has changed since: look at what would mend it now")
    plan_edit.save_edited(path, path.read_bytes(), text_with_puts(text, mend.puts))
    return path


def revision_at(folder: Path) -> str:
    """Mark of the plan file as it stands.

    Raises:
        NotFoundError, StoreError, InvalidPlan: as reading it tells.
    """
    return plan_edit.read_edited(folder / planfile.NAME)[0]
