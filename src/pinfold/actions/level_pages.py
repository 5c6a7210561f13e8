"""The verbs of leveling as pages show them, and a run of readings from a form."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from pinfold.actions.answers import Answer, as_html
from pinfold.actions.level import LevelAsked, level_of
from pinfold.actions.level_done import jacking_lines
from pinfold.actions.level_jack import jack_of
from pinfold.actions.level_read import Run, write_run
from pinfold.actions.level_set_out import SetOutAsked, set_out_of
from pinfold.actions.level_settle import settle_of
from pinfold.actions.level_site import levels_of, structures, surveys_in
from pinfold.actions.log_book import WHO, new_id
from pinfold.actions.sites import open_site
from pinfold.logbook.kinds import entry_kind
from pinfold.reports.level_jack import MUST_HOLD
from pinfold.reports.level_page import Leveled
from pinfold.reports.level_picture import level_picture
from pinfold.reports.pages import Heading
from pinfold.units import System

_UNITS = {System.US: ("in", "ft", "mm"), System.METRIC: ("mm", "cm", "m")}


@dataclass(frozen=True, kw_only=True)
class LevelShown:
    """What a page of leveling shows.

    Attributes:
        title: of the answer.
        body: the answer.
        picture: from above; empty where nothing is shown.
        neighbors: names of structures that can be chosen.
        surveys: names of surveys, likewise, the last one first.
    """

    title: str
    body: str
    picture: str
    neighbors: tuple[str, ...]
    surveys: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class RunForm:
    """A form for a run of readings.

    Attributes:
        lines: as typed; else a line for each mark, to be filled in.
        setup: as typed, else the next one.
        instrument: as typed, else the last one.
        instruments: to choose from.
        unit: of readings without one.
        units: to choose from.
        survey: as typed.
        who: reads.
        id: that makes the run one and the same if it is sent twice.
    """

    lines: str
    setup: str
    instrument: str
    instruments: tuple[str, ...]
    unit: str
    units: tuple[str, ...]
    survey: str
    who: str
    id: str


@dataclass(frozen=True, kw_only=True)
class DoneForm:
    """A form for what was jacked.

    Attributes:
        lines: as typed, else the planned moves, one to a line; empty where nothing is to be moved.
        id: that makes it one and the same if it is sent twice.
    """

    lines: str
    id: str


def level_shown(folder: Path, asked: Mapping[str, str]) -> LevelShown:
    """How it lies, with its picture.

    Raises:
        NotFoundError, InvalidPlan, StoreError, NewerFileError: as `level_of`.
    """
    answer = level_of(folder, LevelAsked(**asked))
    found = answer.record
    assert isinstance(found, Leveled), "what level answers with"
    neighbor = next((each for each in structures(open_site(folder)) if each.name == found.neighbor), None)
    return _shown(folder, answer, picture="" if neighbor is None else level_picture(found, neighbor, answer.system))


def jack_shown(folder: Path, asked: Mapping[str, str]) -> LevelShown:
    """The jacking sheet, with a box to tick for every lift.

    Raises:
        NotFoundError, InvalidPlan, StoreError, NewerFileError: as `jack_of`.
    """
    answer = jack_of(folder, LevelAsked(**asked))
    blocks = answer.page.blocks
    proof = next((at for at, block in enumerate(blocks) if block == Heading(text=MUST_HOLD)), len(blocks))
    ticked, rest = (
        replace(answer, page=replace(answer.page, blocks=part)) for part in (blocks[:proof], blocks[proof:])
    )
    shown = _shown(folder, rest)
    return replace(shown, body=f"{as_html(ticked, boxes=True, titled=False)}\n{shown.body}")


def settle_shown(folder: Path, asked: Mapping[str, str]) -> LevelShown:
    """How it has settled.

    Raises:
        NotFoundError, InputError, InvalidPlan, StoreError, NewerFileError: as `settle_of`.
    """
    return _shown(folder, settle_of(folder, asked.get("neighbor", ""), asked.get("since", "")))


def set_out_shown(folder: Path, asked: Mapping[str, str]) -> LevelShown:
    """Cut, fill and string.

    Raises:
        NotFoundError, InvalidPlan, StoreError, NewerFileError: as `set_out_of`.
    """
    return _shown(folder, set_out_of(folder, SetOutAsked(**asked)))


def _shown(folder: Path, answer: Answer, *, picture: str = "") -> LevelShown:
    return LevelShown(
        title=answer.page.title, body=as_html(answer, titled=False), picture=picture,
        neighbors=tuple(each.name for each in structures(open_site(folder))),
        surveys=tuple(reversed(surveys_in(folder))),
    )  # fmt: skip


def run_form(folder: Path, typed: Mapping[str, str], *, who: str) -> RunForm:
    """The form as it was typed, else ready for the next run: marks of the structure, the fixed one first.

    Raises:
        StoreError, NewerFileError, InvalidPlan: as reading the site and its log tell.
    """
    site, entries = open_site(folder), levels_of(folder)
    last = entries[-1] if entries else None
    instruments = entry_kind("level").field("instrument")
    assert instruments is not None, "a field of the kind"
    units = _UNITS[site.plan.units]
    setups = {entry.text("setup") for entry in entries if last and entry.at[:10] == last.at[:10]}
    return RunForm(
        lines=typed.get("lines") or "\n".join(f"{mark} " for mark in _marks(folder)),
        setup=typed.get("setup") or str(len(setups) + 1), unit=typed.get("unit") or units[0], units=units,
        instrument=typed.get("instrument") or (last.text("instrument") if last else ""),
        instruments=instruments.choices, survey=typed.get("survey", ""), who=typed.get("who") or who or WHO,
        id=typed.get("id") or new_id(),
    )  # fmt: skip


def done_form(folder: Path, asked: Mapping[str, str], typed: Mapping[str, str]) -> DoneForm:
    """The form as it was typed, else with the planned moves.

    Raises:
        NotFoundError, InvalidPlan, StoreError, NewerFileError: as `level_of`.
    """
    planned = jacking_lines(folder, LevelAsked(**asked))
    return DoneForm(lines=typed.get("lines") or "\n".join(planned), id=typed.get("id") or new_id())


def _marks(folder: Path) -> tuple[str, ...]:
    levelings = [each.blocks.leveling for each in structures(open_site(folder)) if each.blocks]
    fixed = [each.fixed for each in levelings if each.fixed]
    return tuple(dict.fromkeys([*fixed, *(support.mark for each in levelings for support in each.supports)]))


def take_run(folder: Path, typed: Mapping[str, str], *, device: str) -> tuple[str, ...]:
    """Write down what a form sent; marks without a reading are left out.

    Raises:
        InvalidPlan, NotFoundError, StoreError, NewerFileError: as `write_run`.
    """
    marks = set(_marks(folder))
    lines = tuple(line for line in typed.get("lines", "").splitlines() if line.strip() and line.strip() not in marks)
    kept = {key: typed[key] for key in ("setup", "instrument", "survey", "unit", "who", "id") if typed.get(key)}
    return write_run(folder, Run(lines=lines, **kept, **({"device": device} if device else {})))
