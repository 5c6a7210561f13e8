"""The search over build-ups of a site: all that its axes make, checked, priced, and held against limits."""

from __future__ import annotations

import math
import os
import tomllib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from functools import lru_cache, partial
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.sites import Site, open_site
from pinfold.actions.weigh_options import own_pace
from pinfold.actions.weigh_trade import limits_and_criteria
from pinfold.errors import InputError, InvalidPlan
from pinfold.findings import Verdict
from pinfold.logbook.carried import Carried
from pinfold.logbook.entries import Entry
from pinfold.plan.changes import Change
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import PilePiece
from pinfold.reports.weigh_search import search_page
from pinfold.store import planfile
from pinfold.store.plan_put import with_puts
from pinfold.store.read_buildups import buildup_of
from pinfold.store.writing import read_text
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.lessons.learned import learned
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.stability.assess import assess
from pinfold.studies.weighing.axes import AXES, Axis, going_along, narrowed
from pinfold.studies.weighing.columns import COLUMNS
from pinfold.studies.weighing.limits import Limits
from pinfold.studies.weighing.row_codes import Coder
from pinfold.studies.weighing.safety_scores import complaints
from pinfold.studies.weighing.scene import Scene
from pinfold.studies.weighing.search_records import Proven, Row, Rows, Search
from pinfold.studies.weighing.searching import Searched, answered, at_prices, searched
from pinfold.studies.weighing.shelves import Ground, axes_for, usual
from pinfold.studies.weighing.subject import USUAL_ANIMALS
from pinfold.studies.weighing.uses import Uses, uses_of
from pinfold.studies.weighing.work_scores import over_norms

Told = Callable[[int], None]
"""Told after each thing found: how many so far."""
_WORTH_SHARING = 10_000
"""From so many build-ups on, other processes are begun for a search, which takes each a second of work."""
_MOST_PROCESSES = 4
_AXES_AT_ONCE = 2_000_000
_MOST_SHOWN = 10
_SAME = 1e-9


@dataclass(frozen=True, kw_only=True)
class SearchAsked:
    """What is asked, as typed; what is empty is as usual.

    Attributes:
        buildup: of the plan, that is varied; the one with most length where empty.
        limits: in words.
        by: criteria of the front, with commas between.
        axes: choices wanted, axis by axis.
        every: whether an axis of which nothing is asked has all its choices, not the usual few.
    """

    buildup: str = ""
    limits: str = ""
    by: str = ""
    axes: tuple[tuple[str, str], ...] = ()
    every: bool = False


KNOWN = (*COLUMNS, "tightness")
"""Criteria that a search knows of build-ups."""
USUALLY = SearchAsked()
"""Where nothing is asked."""


@dataclass(frozen=True)
class _Telling:
    """Whom to tell of the progress; all alike, so that what was searched once is not searched again."""

    told: Told | None = field(compare=False)


def search_site(folder: Path, asked: SearchAsked, told: Told | None = None, *, link: str = "") -> Answer:
    """All build-ups that axes make, held against limits.

    Args:
        folder: site folder
        asked: what is asked
        told: of the progress
        link: address under which one is chosen by its code; empty for terminals

    Raises:
        InvalidPlan: what is asked cannot be read, with every complaint at once.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    record = search_of(site, asked, told)
    return answer_from(site, record, search_page(record, site.plan.units, link=link))


def search_of(site: Site, asked: SearchAsked, told: Told | None = None) -> Search:
    """The same as a record.

    Raises:
        As `search_site`.
    """
    prices = site.lessons.prices
    limits, keys = vetted(site, asked)
    found = _searched(site, replace(asked, limits="", by=""), _Telling(told))
    kept = answered(found, limits, keys)
    rows = Rows(found=found, kept=kept, coder=coder_of(site, found.scene.name))
    nearest, shorts, ways = rows.nearest(limits.animals)
    front = tuple(rows.row(each) for each in kept.front[:_MOST_SHOWN])
    best = rows.one(kept.cheapest), rows.one(kept.strongest)
    return Search(
        name=site.plan.name, buildup=found.scene.name,
        axes={axis.key: tuple(each.says for each in axis.choices) for axis in found.scene.axes},
        tried=found.tried, fails=found.fails, cannot=found.cannot, stands=len(found.picks),
        failing=() if len(found.picks) or not found.fails else _failing(found.scene),
        in_all=tuple(sorted(found.failing)), everywhere=tuple(sorted(found.everywhere)),
        lacks={why: int(yes.sum()) for why, yes in found.lacks.items()},
        asked=tuple(each.text for each in limits.all),
        limited=tuple(each.criterion.key for each in limits.all),
        unknown=tuple(each.text for each in limits.all if each.criterion.key not in KNOWN),
        kept=len(kept.kept), unsure=kept.unsure, nearest=nearest, shorts=shorts, ways=ways, front=front, by=kept.keys,
        let_in=rows.let_in(limits.animals or USUAL_ANIMALS),
        nowhere=kept.nowhere, beside=kept.beside, cheapest=best[0], strongest=best[1], currency=prices.currency,
        digits=prices.digits, proven=tuple(_proven(site, found, row) for row in _unlike((*front, *best))),
    )  # fmt: skip


def _failing(scene: Scene) -> tuple[str, ...]:
    """What fails in the first choice of every axis, the first few."""
    told = complaints(assess(scene.built(scene.first).layout))
    return tuple(each for each in told if each.startswith(Verdict.FAILS.value))[:_MOST_FAILING]


_MOST_FAILING = 3


def vetted(site: Site, asked: SearchAsked) -> tuple[Limits, tuple[str, ...]]:
    """Limits and criteria of the front, once all that is asked can be read.

    Raises:
        InvalidPlan: what is asked cannot be read, with every complaint about axes, limits and criteria.
    """
    wrong: list[InputError] = []
    try:
        _narrowed(every_axis(site, varied_in(site, asked)), asked, site.plan)
    except InvalidPlan as refused:
        wrong += refused.problems
    try:
        found = limits_and_criteria(site, asked.limits, _words(asked.by), known=KNOWN)
    except InvalidPlan as refused:
        raise InvalidPlan("what is asked", [*wrong, *refused.problems]) from None
    if wrong:
        raise InvalidPlan("what is asked", wrong)
    return found


def _words(text: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in text.split(",") if word.strip())


def _unlike(rows: Iterable[Row | None]) -> tuple[Row, ...]:
    return tuple({row.code: row for row in rows if row is not None}.values())


@dataclass(frozen=True, kw_only=True)
class _Priceless:
    """A site but for what things cost: all that a search hangs on before it is priced.

    Attributes:
        text: of the plan file.
        plan: as read.
        pile: what is on hand.
        entries: of the log.
        carried: lessons of other places.
        at_hand: kinds that have a price or lie on the pile.
        site: the site itself, at prices of some day.
    """

    text: str
    plan: Enclosure
    pile: tuple[PilePiece, ...]
    entries: tuple[Entry, ...]
    carried: Carried
    at_hand: frozenset[str]
    site: Site = field(compare=False)

    def __hash__(self) -> int:
        return hash((self.text, self.at_hand))


@lru_cache(maxsize=4)  # other limits on the same search are answered at once
def _searched(site: Site, asked: SearchAsked, telling: _Telling) -> Searched:
    text = read_text(site.folder / planfile.NAME)
    priceless = _Priceless(
        text=text, plan=site.plan, pile=tuple(site.lessons.pile), entries=site.entries, carried=site.carried,
        at_hand=_at_hand(site), site=site,
    )  # fmt: skip
    return at_prices(_searched_once(priceless, asked, telling), site.lessons.prices)


@lru_cache(maxsize=4)  # where only prices are others, nothing is asked again
def _searched_once(priceless: _Priceless, asked: SearchAsked, telling: _Telling) -> Searched:
    site, tell = priceless.site, telling.told
    done, scene = iter(range(1, 1 << 30)), scene_of(site, asked)
    return searched(
        scene, site.lessons.prices, None if tell is None else lambda: tell(next(done)), processes=processes_for(scene)
    )  # fmt: skip


def processes_for(scene: Scene) -> int:
    """How many processes share a search: as many as there are cores, where it is large."""
    if math.prod(scene.shape) < _WORTH_SHARING:
        return 1
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return min(cores, _MOST_PROCESSES)


def scene_of(site: Site, asked: SearchAsked = USUALLY) -> Scene:
    """What is varied.

    Raises:
        InvalidPlan: there is no such build-up, or nothing of what is asked on an axis; all at once.
    """
    name = varied_in(site, asked)
    made = every_axis(site, name)
    return Scene(
        plan=site.plan, name=name, axes=_narrowed(made, asked, site.plan), read=buildup_of, taught=_taught(site),
        over_norms=over_norms(own_pace(site)),
    )  # fmt: skip


def varied_in(site: Site, asked: SearchAsked) -> str:
    """Name of the build-up that is varied: the one asked, or the one of most length."""
    return asked.buildup or _longest(site.plan)


def coder_of(site: Site, name: str) -> Coder:
    """What codes of a build-up's search are made and read with.

    Raises:
        InvalidPlan: there is no such build-up, or it has no wall with a fence.
    """
    return Coder(buildup=name, whole=every_axis(site, name), system=site.plan.units)


def varied(plan: Enclosure) -> tuple[str, ...]:
    """Names of the build-ups that can be varied."""
    return tuple(each.name for each in plan.buildups.values() if each.wall and each.posts and each.mesh)


@lru_cache(maxsize=8)
def every_axis(site: Site, name: str) -> tuple[Axis, ...]:
    """Every axis with all its choices.

    Raises:
        InvalidPlan: there is no such build-up, or it has no wall with a fence.
    """
    tables = tomllib.loads(read_text(site.folder / planfile.NAME))["buildup"]
    if name not in tables:
        raise InvalidPlan("what is asked", [InputError(f"no build-up called {name[:60]!r}; there are: "
                                                       f"{', '.join(tables)}", place="buildup")])  # fmt: skip
    try:
        made = axes_for(Ground(plan=site.plan, name=name, table=tables[name], tables=tables, at_hand=_at_hand(site)))
    except InputError as mistake:
        raise InvalidPlan("what is asked", [mistake]) from None
    return going_along(made, "posts", {key: tables[name][key] for key in _AS_PLANNED if key in tables[name]})


_AS_PLANNED = ("brace",)
"""Layers that stay as the plan has them, whichever posts are picked."""


def _at_hand(site: Site) -> frozenset[str]:
    """Kinds that have a price or lie on the pile."""
    return frozenset((*site.lessons.prices.by_item, *(piece.item for piece in site.lessons.pile)))


def _taught(site: Site) -> Callable[[Enclosure], Lessons]:
    """What the log teaches of a plan, in a form that another process can be given."""
    return partial(learned, prices=site.prices, pile=site.pile, entries=tuple(site.entries), carried=site.carried)


def _longest(plan: Enclosure) -> str:
    """The build-up of most of the enclosure that has wall, posts and mesh."""
    lengths: dict[str, float] = {}
    for _, run in plan.runs:
        layers = plan.buildups[run.buildup] if run.buildup is not None else None
        if layers is not None and layers.wall is not None and layers.posts is not None and layers.mesh is not None:
            lengths[layers.name] = lengths.get(layers.name, 0.0) + run.end - run.start
    if not lengths:
        raise InvalidPlan("what is asked", [InputError("no build-up has a wall with posts and mesh above it")])
    return max(lengths, key=lambda name: lengths[name])


def _narrowed(made: tuple[Axis, ...], asked: SearchAsked, plan: Enclosure) -> tuple[Axis, ...]:
    wanted, otherwise = dict(asked.axes), (lambda axis: axis) if asked.every else usual
    wrong = [
        InputError(f"no such axis; there are: {', '.join(AXES)}", place=key[:40]) for key in wanted if key not in AXES
    ]
    found = []
    for axis in made:
        try:
            found.append(narrowed(axis, wanted[axis.key], plan.units) if wanted.get(axis.key) else otherwise(axis))
        except InputError as mistake:
            wrong.append(mistake)
    many = 1
    for axis in found:
        many *= len(axis.choices)
    if many > _AXES_AT_ONCE:
        wrong.append(InputError(f"{many} build-ups at once are more than {_AXES_AT_ONCE}; narrow some axes"))
    if wrong:
        raise InvalidPlan("what is asked", wrong)
    return tuple(found)


def _proven(site: Site, found: Searched, row: Row) -> Proven:
    """A build-up written into the plan, read, laid out and assessed whole."""
    whole = _assessed(found.scene, read_text(site.folder / planfile.NAME), row.change)
    spare = row.numbers["margin"]
    assert spare is not None
    return Proven(
        row=row, use=whole.use, check=whole.check, where=whole.where, fails=whole.fails or whole.given != found.failing,
        differs=abs(whole.use - (1 - spare)) > _SAME * max(1.0, whole.use),
    )  # fmt: skip


@lru_cache(maxsize=256)  # other limits on the same search often keep the same
def _assessed(scene: Scene, text: str, change: Change) -> Uses:
    table = with_puts(tomllib.loads(text), change)
    plan = planfile.plan_of_table(_in_place_of(scene.name, change[0].path[1], table))
    return uses_of(assess(lay_out(scene.taught(plan).plan)))


def _in_place_of(name: str, new: str, table: dict[str, object]) -> dict[str, object]:
    """A plan's table with the build-up found in the place of another."""
    buildups = table["buildup"]
    assert isinstance(buildups, dict)
    return {**table, "buildup": {key: buildups[new] if key == name else each for key, each in buildups.items()
                                 if key != new}}  # fmt: skip
