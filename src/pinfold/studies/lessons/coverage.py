"""How far a batch goes on the wall: mix used over what the coat's thickness holds, and the thickness laid."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.figures import Figure
from pinfold.formulas import learning
from pinfold.logbook.entries import Entry
from pinfold.plan.buildups import Coat
from pinfold.plan.enclosure import Enclosure
from pinfold.sources import Standing
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.belief import learned_from
from pinfold.studies.lessons.habits import COAT_SPREAD, COAT_WITHIN, THICKNESS_SPREAD, THICKNESS_WITHIN
from pinfold.studies.lessons.records import Lesson, Override, Prior, Reading, Taught, Topic
from pinfold.studies.lessons.telling import entries, learned_figure, lesson_of, with_spread
from pinfold.studies.lessons.things import Measures, thing
from pinfold.studies.quantities.lines import waste_of
from pinfold.units import METER, RATIO, System


class _Laid(NamedTuple):
    coat: Coat
    entry: Entry
    day: str


def coverage(
    laid: Sequence[Entry], plan: Enclosure, measures: Measures, figures: tuple[Override, ...], system: System
) -> Taught:  # fmt: skip
    """Waste of each coat, and its thickness as laid.

    Args:
        laid: entries of coats
        plan: with the coats it wants
        measures: of the site
        figures: learned of mixes and materials
        system: of the plan
    """
    aside: Counter[str] = Counter()
    groups: dict[str, list[_Laid]] = defaultdict(list)
    for entry in laid:
        coat = coat_of(entry, plan)
        if coat is None:
            aside["coat: which coat of the plan it was cannot be told; name it, or its mix"] += 1
        else:
            groups[coat.kind.name].append(_Laid(coat, entry, entry.when.date().isoformat()))
    lessons: list[Lesson] = []
    found: list[Override] = []
    for of_one in groups.values():
        used = _waste(of_one, measures, figures, system, aside)
        if used is not None:
            lessons.append(used[0])
            found += [used[1]] if used[0].used else []
        lessons += _thickness(of_one, system)
    return Taught(lessons=tuple(lessons), figures=tuple(found), set_aside=aside)


def coat_of(entry: Entry, plan: Enclosure) -> Coat | None:
    """The coat of the plan that an entry is about: by its kind, else by stretch and mix where one kind alone fits."""
    everywhere = tuple(coat for buildup in plan.buildups.values() for coat in buildup.coats)
    named = thing("coats", entry.text("layer"))
    if named is not None:
        return next((coat for coat in everywhere if coat.kind.name == named.name), None)
    there = _coats_at(entry.text("place"), plan) or everywhere
    mix = thing("mixes", entry.text("mix"))
    fitting = [coat for coat in there if mix is None or coat.kind.word("mix") == mix.name]
    return fitting[0] if len({coat.kind.name for coat in fitting}) == 1 else None


def _coats_at(place: str, plan: Enclosure) -> tuple[Coat, ...]:
    run = re.sub(r"(?<=\d)[a-z]+$", "", place)
    name = next((each.buildup for _, each in plan.runs if each.name == run), None)
    return plan.buildups[name].coats if name is not None and name in plan.buildups else ()


def _waste(
    laid: Sequence[_Laid], measures: Measures, figures: tuple[Override, ...], system: System, aside: Counter[str]
) -> tuple[Lesson, Override] | None:  # fmt: skip
    kind = laid[0].coat.kind
    readings = [reading for each in laid if (reading := _use(each, measures, figures, aside)) is not None]
    if not readings:
        return None
    waste = waste_of(kind, "concrete")
    prior = _use_prior(waste)
    learned = learned_from(readings, prior)
    planned = waste.standing is Standing.GIVEN and kind.has("waste")
    less_one = learned._replace(value=learned.value - 1)
    told = (
        f"{kind.name} takes {with_spread(learned.value, learned.spread, RATIO, system)} of its net volume by "
        f"{entries(len(readings))}; "
    )
    told += f"the plan says {1 + waste.value:.0%}, and that is used." if planned else f"before: {1 + waste.value:.0%}."
    lesson = lesson_of(
        learned, prior, readings, topic=Topic.COVERAGE, subject=f"{kind.name}, mix used", told=told,
        used="" if planned else "mix for the coat",
    )  # fmt: skip
    figure = replace(
        learned_figure(less_one, prior, readings, system),
        printed=f"{less_one.value:.1%} waste", unit=RATIO,
    )  # fmt: skip
    return lesson, Override("coats", kind.name, "waste", figure, f"Your log: {told}")


def _use_prior(waste: Figure) -> Prior:
    use = 1 + waste.value
    return Prior(
        value=use, spread=COAT_SPREAD * use, within=COAT_WITHIN * use, unit=RATIO, figure=waste,
        says="net volume and the usual waste",
    )  # fmt: skip


def _use(
    laid: _Laid, measures: Measures, figures: tuple[Override, ...], aside: Counter[str]
) -> Reading | None:  # fmt: skip
    entry, kind = laid.entry, laid.coat.kind
    batches, area = entry.number("batches"), entry.number("area")
    if batches is None or area is None:
        return None
    mix = thing("mixes", entry.text("mix") or kind.word("mix"))
    try:
        if mix is None:
            raise NotFoundError(f"no mix called {entry.text('mix')!r} is known")
        used = batches * charge_of(taught_kind(mix, figures), measures.mixing).makes
        use = learning.coat_use(used=used, area=area, thickness=entry.number("thickness") or laid.coat.thickness)
    except (NotFoundError, OutOfRangeError) as why:
        aside[f"coat {kind.name}: {why}"] += 1
        return None
    return Reading(use, laid.day)


def _thickness(laid: Sequence[_Laid], system: System) -> list[Lesson]:
    """Thickness as laid; only told, for the plan says how thick it is wanted."""
    readings = [
        Reading(thickness, each.day) for each in laid if (thickness := each.entry.number("thickness")) is not None
    ]
    if not readings:
        return []
    coat = laid[0].coat
    prior = Prior(
        value=coat.thickness, spread=THICKNESS_SPREAD * coat.thickness, within=THICKNESS_WITHIN * coat.thickness,
        unit=METER, figure=None, says="the plan",
    )  # fmt: skip
    learned = learned_from(readings, prior)
    told = (
        f"{coat.kind.name} is laid {with_spread(learned.value, learned.spread, METER, system)} thick by "
        f"{entries(len(readings))}; the plan says {with_spread(coat.thickness, None, METER, system)}, and that is used."
    )
    subject = f"{coat.kind.name}, thickness"
    return [lesson_of(learned, prior, readings, topic=Topic.COVERAGE, subject=subject, told=told, used="")]
