"""What all verbs of leveling ask of a site: the structure on blocks, its supports, and the surveys in the log."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from functools import cached_property
from pathlib import Path

from pinfold.actions.level_jacked import Jackings, jackings_of
from pinfold.actions.sites import Site, open_site
from pinfold.errors import NotFoundError
from pinfold.logbook.entries import Entry
from pinfold.plan.grounds import Blocks
from pinfold.plan.outline import Neighbor
from pinfold.studies.leveling.adjusting import surveyed
from pinfold.studies.leveling.instruments import SPREADS
from pinfold.studies.leveling.jacked import since_jacked
from pinfold.studies.leveling.records import LevelReading, Survey
from pinfold.units import Meter, Second

_ONE_SETUP = "1"
MOST = 5000
"""Readings that are looked at, the newest ones."""
NO_SUPPORTS = (
    "No structure on blocks has supports in the plan: give its neighbor a table blocks, and each pier a "
    "[[neighbor.blocks.support]] with mark, x and y."
)
NO_READINGS = (
    "No level was read at its supports yet: 'pinfold level read A1=412mm A2=409mm --setup 1', the page, or the phone."
)


@dataclass(frozen=True, kw_only=True, eq=False)
class SiteLevels:
    """A structure on blocks and its surveys.

    Attributes:
        site: as read.
        neighbor: the structure.
        blocks: what it stands on, its shims as jacking that was written down left them.
        entries: levels of the log that stand, the first first, by name of their survey.
        jackings: of its supports.
    """

    site: Site
    neighbor: Neighbor
    blocks: Blocks
    entries: Mapping[str, tuple[Entry, ...]]
    jackings: Jackings

    @property
    def marks(self) -> tuple[str, ...]:
        """Of its supports."""
        return tuple(support.mark for support in self.blocks.leveling.supports)

    @cached_property
    def surveys(self) -> tuple[Survey, ...]:
        """All in which a support of it was read, in order of time."""
        found = [
            self.survey(name) for name, own in self.entries.items() if {e.text("mark") for e in own} & {*self.marks}
        ]
        return tuple(sorted(found, key=lambda each: each.at))

    def survey(self, name: str) -> Survey:
        """One survey by name, its marks those of the structure or not."""
        return survey_of(name, self.entries[name], fixed=self.blocks.leveling.fixed, own=self.marks, site=self.site)

    def chosen(self, name: str) -> Survey | None:
        """A survey by name, the last one without; None where there is none.

        Raises:
            NotFoundError: none of that name.
        """
        if not name:
            return self.surveys[-1] if self.surveys else None
        found = next((each for each in self.surveys if each.name == name), None)
        if found is None:
            names = ", ".join(each.name for each in self.surveys)
            raise NotFoundError(f"there is no survey {name!r} of it; there are {names or 'none'}")
        return found

    @property
    def last_jacked(self) -> datetime | None:
        """When it was jacked last, as the log has it; None where nothing is written down."""
        jacked = self.jackings.jacked
        return datetime.fromtimestamp(jacked[-1].at, UTC) if jacked else None

    def overtaken(self, survey: Survey) -> bool:
        """Whether it was jacked after the last reading of a survey."""
        last = max(entry.when for entry in self.entries[survey.name])
        return self.last_jacked is not None and self.last_jacked > last

    def gaps(self, survey: Survey) -> dict[str, Meter]:
        """By mark, how far the beam hangs free over its blocks, as it was written down last."""
        return {
            entry.text("mark"): gap for entry in self.entries[survey.name] if (gap := entry.number("gap")) is not None
        }


def structures(site: Site) -> tuple[Neighbor, ...]:
    """Neighbors on blocks whose supports are told."""
    return tuple(each for each in site.plan.neighbors if each.blocks is not None and each.blocks.leveling.supports)


def level_site(folder: Path, name: str = "") -> SiteLevels | None:
    """The structure of a name, or the only one, with its surveys; None where none has supports in the plan.

    Raises:
        NotFoundError: none of that name; several and none named.
        StoreError, NewerFileError, InvalidPlan: as reading the site and its log tell.
    """
    return levels_in(open_site(folder), name)


def levels_in(site: Site, name: str = "") -> SiteLevels | None:
    """The same of a site that was read.

    Raises:
        NotFoundError, StoreError, NewerFileError: as `level_site`.
    """
    known = structures(site)
    if not known and not name:
        return None
    found = [each for each in known if not name or each.name == name]
    if len(found) != 1:
        names = ", ".join(each.name for each in known) or "none"
        asked = f"no structure {name!r} has supports in the plan" if name else "several structures have supports"
        raise NotFoundError(f"{asked}; name one of these: {names}")
    blocks = found[0].blocks
    assert blocks is not None, "chosen by its blocks"
    jackings = jackings_of(site.folder, tuple(support.mark for support in blocks.leveling.supports))
    leveling = since_jacked(blocks.leveling, jackings.jacked)
    return SiteLevels(
        site=site, neighbor=found[0], blocks=replace(blocks, leveling=leveling), jackings=jackings,
        entries=surveys_in(site.folder),
    )  # fmt: skip


def levels_of(folder: Path) -> tuple[Entry, ...]:
    """Levels of the log that stand, the first first.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    from pinfold.actions.taking import log_of

    return tuple(reversed(log_of(folder).entries(kind="level", standing=True, limit=MOST)))


def surveys_in(folder: Path) -> dict[str, tuple[Entry, ...]]:
    """Levels of the log by the name of their survey, or by their day where it has none; jacking begins a new one.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    jacked = [each.at for each in jackings_of(folder).jacked]
    found: dict[str, list[Entry]] = {}
    for entry in sorted(levels_of(folder), key=lambda each: (each.when, each.seq)):
        name = entry.text("survey") or entry.at[:10]
        while name in found and _between(found[name][0], entry, jacked):
            name = f"{name}, jacked"
        found.setdefault(name, []).append(entry)
    return {name: tuple(own) for name, own in found.items()}


def _between(first: Entry, entry: Entry, jacked: Sequence[Second]) -> bool:
    return any(first.when.timestamp() < at <= entry.when.timestamp() for at in jacked)


def survey_of(name: str, entries: Sequence[Entry], *, fixed: str, own: Sequence[str], site: Site) -> Survey:
    """Heights out of the entries of one survey."""
    readings = [reading for entry in entries for reading in _readings(entry)]
    times = [entry.when.timestamp() for entry in entries]
    return surveyed(
        readings, name=name, at=sum(times) / len(times), fixed=fixed, own=own, system=site.plan.units,
    )  # fmt: skip


def _readings(entry: Entry) -> list[LevelReading]:
    spread = entry.number("spread") or SPREADS[entry.text("instrument")].value
    rod, height = entry.number("rod"), entry.number("height")
    found = []
    if rod is not None:
        found.append(LevelReading(entry.text("mark"), entry.text("setup") or _ONE_SETUP, rod, spread, entry.seq))
    if height is not None:
        found.append(LevelReading(entry.text("mark"), "", height, spread, entry.seq))
    return found
