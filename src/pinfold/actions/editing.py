"""The plan editor: the plan as a page draws it, tried out after every drag, and saved with its comments kept."""

from __future__ import annotations

import threading
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from pinfold.actions.editing_words import complaint_records, cost_record, finding_records, quantity_lines
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, logged_now
from pinfold.actions.sketching import contour_lines, sketch
from pinfold.errors import InputError, InvalidPlan, OutOfRangeError, QuantityError
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import PilePiece, Prices
from pinfold.store import lengths, pile, plan_edit, planfile, prices
from pinfold.store.stamps import stamp_of
from pinfold.studies.stability.assess import assess
from pinfold.tables.shelf import shelf
from pinfold.units import METER, RADIAN, System, read, unit_of

Record = dict[str, object]
Table = Mapping[str, object]
_WRITING = threading.Lock()
MOST_TEXTS = 50
"""Texts measured at once."""


def edited_plan(folder: Path) -> Record:
    """The plan of a site as the editor opens it; one that does not read comes with its complaints.

    Raises:
        NotFoundError, StoreError: as reading the files tells.
        InvalidPlan: the plan file is no TOML.
    """
    revision, _, table = plan_edit.read_edited(folder / planfile.NAME)
    style = lengths.style_of(table)
    return {
        "revision": revision, "name": table.get("name"), "units": _system(table).value,
        "parts": {key: table[key] for key in plan_edit.EDITED if key in table},
        "buildups": _buildups(table), "step": style.step, "style": style.value,
        "gate_kinds": list(shelf("gates")), "post_kinds": list(shelf("posts")),
        **_tried(folder, table),
    }  # fmt: skip


def try_plan(folder: Path, changes: Table) -> Record:
    """Everything about the plan as it would be with changed parts; nothing is saved.

    Args:
        folder: site folder
        changes: tables of `plan_edit.EDITED` as they should read; numbers stand for meters

    Raises:
        InputError: a change of something else, or a number that is no length.
        NotFoundError, StoreError, InvalidPlan: as reading the site's files tells.
    """
    path = folder / planfile.NAME
    revision, table = _table_at(path.absolute(), stamp_of(path))
    return {"revision": revision, **_tried(folder, plan_edit.put_into(table, changes))}


def save_plan(folder: Path, revision: str, changes: Table, renamed: Mapping[str, Mapping[str, str]]) -> Record:
    """Write the changed parts into the plan file, comments kept.

    Returns:
        `saved` and the new `revision`; or `conflict` where the file is no longer the one that was opened: nothing is
        written then

    Raises:
        InputError: as `try_plan`.
        InvalidPlan: the plan would not read; with every complaint.
        NotFoundError, StoreError: as reading and writing tell.
    """
    path = folder / planfile.NAME
    with _WRITING:
        found, text, table = plan_edit.read_edited(path)
        if found != revision:
            return {"saved": False, "conflict": True, "revision": found}
        wanted = plan_edit.put_into(table, changes)
        planfile.plan_of_table(wanted)
        plan_edit.save_edited(path, path.read_bytes(), plan_edit.edited(text, wanted, renamed))
        return {"saved": True, "revision": plan_edit.revision_of(path.read_bytes()), "file": path.name}


def save_mine(folder: Path, changes: Table, renamed: Mapping[str, Mapping[str, str]]) -> Record:
    """Write the changed parts into a copy of the plan file as it is now, beside it; the file itself is left alone.

    Raises:
        InputError, InvalidPlan, NotFoundError, StoreError: as `save_plan`.
    """
    path = folder / planfile.NAME
    with _WRITING:
        _, text, table = plan_edit.read_edited(path)
        wanted = plan_edit.put_into(table, changes)
        mine = plan_edit.beside(folder)
        planfile.plan_of_table(wanted, name=mine.name)
        plan_edit.save_edited(mine, path.read_bytes(), plan_edit.edited(text, wanted, renamed))
        return {"saved": True, "file": mine.name}


def measured(texts: object) -> Record:
    """Lengths and angles that somebody typed, in SI, each with its complaint where it is none.

    Raises:
        InputError: no list of texts.
    """
    if not isinstance(texts, list) or len(texts) > MOST_TEXTS or not all(isinstance(text, str) for text in texts):
        raise InputError(f"at most {MOST_TEXTS} texts are wanted, as a list", place="texts")
    return {"measured": [_measured(text) for text in texts]}


def _measured(text: str) -> Record:
    try:
        like = RADIAN if unit_of(text).kind == RADIAN.kind else METER
        return {"text": text, "si": read(text, like=like), "kind": like.kind}
    except QuantityError as mistake:
        return {"text": text, "complaint": mistake.message}


def _tried(folder: Path, table: Table) -> Record:
    told: Record = {"meters": lengths.meters_of(table), "contours": _contours(table)}
    try:
        plan = planfile.plan_of_table(table)
        site = _site(folder, plan)
        return told | {"reads": True, "complaints": [], **_reckoned(site)}
    except (InvalidPlan, InputError, OutOfRangeError) as error:
        return told | {"reads": False, "complaints": complaint_records(error)}


def _reckoned(site: Site) -> Record:
    layout, system = site.layout, site.plan.units
    counted, findings = reckon_all(site), assess(site.layout)
    return {
        "findings": finding_records(findings, layout),
        "quantities": quantity_lines(counted, layout),
        "cost": cost_record(counted.planned, system),
        "shapes": sketch(layout),
    }


def _site(folder: Path, plan: Enclosure) -> Site:
    found, pieces = _stock(folder.absolute(), (stamp_of(folder / prices.NAME), stamp_of(folder / pile.NAME)))
    entries, told = logged_now(folder)
    return Site(folder=folder, plan=plan, prices=found, pile=pieces, entries=entries, log_told=told)


@lru_cache(maxsize=4)  # read anew when a file changes
def _stock(folder: Path, stamps: tuple[object, ...]) -> tuple[Prices, tuple[PilePiece, ...]]:
    return prices.read_prices(folder / prices.NAME), pile.read_pile(folder / pile.NAME)


@lru_cache(maxsize=4)  # likewise
def _table_at(path: Path, stamp: object) -> tuple[str, Table]:
    revision, _, table = plan_edit.read_edited(path)
    return revision, table


def _system(table: Table) -> System:
    usual = "us" if table.get("family", "us") == "us" else "metric"
    return System.US if table.get("units", usual) == "us" else System.METRIC


def _contours(table: Table) -> list[Record]:
    ground = table.get("ground")
    rows = ground.get("points") if isinstance(ground, Mapping) else None
    if not isinstance(rows, list):
        return []
    try:
        spots = tuple(tuple(read(value, like=METER) for value in row) for row in rows if len(row) == 3)
        return _lines_of(spots, _system(table))
    except (InputError, TypeError):
        return []  # the ground's complaint comes with all others


@lru_cache(maxsize=4)  # the ground stays while corners are dragged
def _lines_of(spots: tuple[tuple[float, float, float], ...], system: System) -> list[Record]:
    return contour_lines(spots, system)


def _buildups(table: Table) -> list[Record]:
    """Name, line and length of a whole unit with its joint; the last is null where there is none."""
    found = table.get("buildup")
    if not isinstance(found, Mapping):
        return []
    return [
        {"name": name, "says": part.get("says", ""), "unit": _unit_length(part.get("wall"))}
        for name, part in found.items() if isinstance(part, Mapping)
    ]  # fmt: skip


def _unit_length(wall: object) -> float | None:
    kind = shelf("walls").get(str(wall.get("kind"))) if isinstance(wall, Mapping) else None
    if kind is None or not isinstance(wall, Mapping):
        return None
    sizes = {}
    for name in ("unit_length", "joint"):
        text = wall.get(name)
        try:
            own = read(text, like=METER) if isinstance(text, str) else None
        except QuantityError:
            own = None
        sizes[name] = own if own is not None else kind.value(name) if kind.has(name) else 0.0
    return sizes["unit_length"] + sizes["joint"] if sizes["unit_length"] > 0 else None
