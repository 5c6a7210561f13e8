"""Options within limits, those of them that nothing betters, and the one that misses by least."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from pinfold.studies.mending.records import Mended
from pinfold.studies.weighing.between import TOLD, Difference, differences
from pinfold.studies.weighing.front import front_of
from pinfold.studies.weighing.keeping_out import let_in, share_out
from pinfold.studies.weighing.limits import Limits
from pinfold.studies.weighing.misses import Miss, columns_of, held_against
from pinfold.studies.weighing.records import CRITERION_BY_KEY, Criterion, Weighed, failing_in_all, unshown_in_all

USUAL = ("cash_now", "hours", "margin")
"""Criteria that are traded off where none is asked for."""
TOLD_CRITERIA = tuple(CRITERION_BY_KEY[key] for key in TOLD)


@dataclass(frozen=True, kw_only=True)
class Step:
    """From one option of the front to the next.

    Attributes:
        one: name of the one.
        other: of the next.
        differences: what it brings and what it takes.
    """

    one: str
    other: str
    differences: tuple[Difference, ...]


@dataclass(frozen=True, kw_only=True)
class Trade:
    """A trade-off.

    Attributes:
        criteria: that it is looked for by.
        nowhere: criteria asked that no option shows.
        limits: asked.
        options: all of them, judged; on whom they keep out by wall, mesh and ground alone.
        front: names of those within the limits that nothing betters, in order of the first criterion.
        beaten: within the limits, and bettered by another.
        unsure: of which something asked or limited is not shown.
        missing: names of those that miss a limit.
        failing: of which a check fails, where not everything was asked to hold: neither held against the limits nor
            against the others.
        in_all: checks of leaves of gates and neighbors that fail in all of them, whatever is chosen.
        unbuilt: that cannot be built here.
        let_in: where it is asked who is kept out, whom the gates let in whatever is chosen, and by which ways.
        common: checks that no option shows, where everything has to hold: nobody can tell whether they do.
        nearest: the one that misses by least, where none keeps to the limits; None otherwise.
        steps: from each of the front to the next.
        mended: what would mend the checks that the nearest fails, the worst of them; empty where none was tried.
    """

    criteria: tuple[Criterion, ...]
    nowhere: tuple[Criterion, ...]
    limits: Limits
    options: tuple[Weighed, ...]
    front: tuple[str, ...]
    beaten: tuple[str, ...]
    unsure: tuple[str, ...]
    missing: tuple[str, ...]
    failing: tuple[str, ...]
    in_all: tuple[str, ...]
    unbuilt: tuple[str, ...]
    let_in: tuple[str, ...]
    common: tuple[str, ...]
    nearest: Miss | None
    steps: tuple[Step, ...]
    mended: tuple[Mended, ...] = ()


def traded(options: Sequence[Weighed], limits: Limits, keys: Sequence[str]) -> Trade:
    """The trade-off between options.

    Args:
        options: judged
        limits: to keep to
        keys: of the criteria to trade off; at least one
    """
    options = [by_fence_alone(each) for each in options]
    in_all = failing_in_all(options)
    failing = [each for each in options if each.fails_beside(in_all)]
    built = [each for each in options if each.can_be_built and (limits.holds or each not in failing)]
    wanted = tuple(dict.fromkeys((*keys, *(limit.criterion.key for limit in limits.all))))
    columns = columns_of(built, wanted, holds=limits.holds)
    held = held_against(columns, limits.all)
    within = [each for each, kept in zip(built, held.kept, strict=True) if kept]
    front = front_of(columns_of(within, keys))
    best = _in_order([each for each, kept in zip(within, front.kept, strict=True) if kept], keys[0])
    unsure = [each for each, yes in zip(built, held.unsure, strict=True) if yes]
    unsure += [each for each, yes in zip(within, front.unsure, strict=True) if yes]
    known = {each.option.name for each in (*best, *unsure)}
    return Trade(
        criteria=tuple(CRITERION_BY_KEY[key] for key in keys), limits=limits, options=tuple(options),
        failing=() if limits.holds else _names(failing), in_all=tuple(sorted(in_all)),
        let_in=let_in(built[0].kept) if built and "tightness" in wanted else (),
        common=tuple(sorted(unshown_in_all(options))) if limits.holds else (),
        nowhere=tuple(CRITERION_BY_KEY[key] for key in front.nowhere) if within else (),
        front=_names(best), unsure=_names(unsure), unbuilt=_names(each for each in options if not each.can_be_built),
        beaten=_names(each for each in within if each.option.name not in known),
        missing=_names(each for each, kept, doubt in zip(built, held.kept, held.unsure, strict=True)
                       if not kept and not doubt),
        nearest=_numbered(held.nearest, built, options) if not within else None,
        steps=tuple(_step(one, other) for one, other in pairwise(best)),
    )  # fmt: skip


def by_fence_alone(each: Weighed) -> Weighed:
    """An option judged on whom wall, mesh and ground keep out: the gates are the same in all of them."""
    if not each.kept:
        return each
    return replace(each, scores={**each.scores, "tightness": share_out(each.kept, by_fence=True)})


def _step(one: Weighed, other: Weighed) -> Step:
    return Step(one=one.option.name, other=other.option.name, differences=differences(one, other, TOLD_CRITERIA))


def _in_order(options: Sequence[Weighed], key: str) -> list[Weighed]:
    return sorted(options, key=lambda each: each.scores[key].value or 0.0)


def _names(options: Iterable[Weighed]) -> tuple[str, ...]:
    return tuple(each.option.name for each in options)


def _numbered(miss: Miss | None, built: Sequence[Weighed], options: Sequence[Weighed]) -> Miss | None:
    """A miss of a built option with its number among all options."""
    if miss is None:
        return None
    number = next(at for at, each in enumerate(options) if each is built[miss.number])
    return Miss(number=number, shorts=miss.shorts, share=miss.share)
