"""How far a batch goes on the wall: mix used over what the coat's thickness holds, and the thickness laid."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.formulas import learning
from pinfold.logbook.carried import Carried
from pinfold.logbook.entries import Entry
from pinfold.plan.buildups import Coat
from pinfold.plan.enclosure import Enclosure
from pinfold.sources import Standing
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.belief import Learned, learned_from
from pinfold.studies.lessons.borrowing import Member, learned_in_family
from pinfold.studies.lessons.carried import carried_lesson, prior_here
from pinfold.studies.lessons.habits import COAT_SPREAD, COAT_WITHIN, THICKNESS_SPREAD, THICKNESS_WITHIN
from pinfold.studies.lessons.records import Lesson, Override, Prior, Reading, Taught, Topic
from pinfold.studies.lessons.telling import by_others, entries, learned_figure, lesson_of, with_spread
from pinfold.studies.lessons.things import Measures, thing
from pinfold.studies.quantities.lines import waste_of
from pinfold.tables.shelf import Kind
from pinfold.units import METER, RATIO, System, percent


class _Laid(NamedTuple):
    coat: Coat
    entry: Entry
    day: str


def coverage(
    laid: Sequence[Entry], plan: Enclosure, measures: Measures, figures: tuple[Override, ...], carried: Carried
) -> Taught:  # fmt: skip
    """Waste of each coat, and its thickness as laid.

    Args:
        laid: entries of coats
        plan: with the coats it wants
        measures: of the site
        figures: learned of mixes and materials
        carried: lessons of other places
    """
    system = plan.units
    aside: Counter[str] = Counter()
    groups: dict[str, list[_Laid]] = defaultdict(list)
    for entry in laid:
        coat = coat_of(entry, plan)
        if coat is None:
            aside["coat: which coat of the plan it was cannot be told; name it, or its mix"] += 1
        else:
            groups[coat.kind.name].append(_Laid(coat, entry, entry.when.date().isoformat()))
    used = {name: _uses(of_one, measures, figures, aside) for name, of_one in groups.items()}
    kinds = {**_coat_kinds(plan), **{name: of_one[0].coat.kind for name, of_one in groups.items()}}
    members = {name: Member(_use_prior(of, carried, system), used.get(name, ())) for name, of in kinds.items()}
    believed = learned_in_family(members)
    lessons: list[Lesson] = []
    for name, of_one in groups.items():
        if used[name]:
            lessons.append(_waste(kinds[name], members[name], believed[name], system))
        lessons += _thickness(of_one, system)
    told = [name for name in believed if any(used.values()) or members[name].prior.shipped]
    lessons += [
        _brought(kinds[name], believed[name], members[name].prior, (carried, system)) for name in told
        if not used.get(name) and members[name].prior.shipped
    ]  # fmt: skip
    found = [_override(kinds[name], believed[name], members, system) for name in told if not _planned(kinds[name])]
    return Taught(lessons=tuple(lessons), figures=tuple(found), set_aside=aside)


def _coat_kinds(plan: Enclosure) -> dict[str, Kind]:
    """Each kind of coat of the plan by name: one hand lays them all."""
    coats = [coat.kind for buildup in plan.buildups.values() for coat in buildup.coats]
    return {each.name: each for each in reversed(coats)}


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


def _uses(
    laid: Sequence[_Laid], measures: Measures, figures: tuple[Override, ...], aside: Counter[str]
) -> list[Reading]:  # fmt: skip
    return [reading for each in laid if (reading := _use(each, measures, figures, aside)) is not None]


def _planned(of: Kind) -> bool:
    """Whether the plan itself says how much is wasted."""
    return of.has("waste") and waste_of(of, "concrete").standing is Standing.GIVEN


def _waste(of: Kind, member: Member, learned: Learned, system: System) -> Lesson:
    return lesson_of(
        learned, member.prior, member.readings, topic=Topic.COVERAGE, subject=_subject(of),
        told=_told(of, member.readings, learned, system), used=_used(of),
    )  # fmt: skip


def _brought(of: Kind, learned: Learned, prior: Prior, to: tuple[Carried, System]) -> Lesson:
    told = f"{of.name} takes {with_spread(learned.value, learned.spread, RATIO, to[1])} of its net volume"
    return carried_lesson(learned, prior, Topic.COVERAGE, _subject(of), to[0], told=told, used=_used(of))


def _subject(of: Kind) -> str:
    return f"{of.name}, mix used"


def _used(of: Kind) -> str:
    return "" if _planned(of) else "mix for the coat"


def _told(of: Kind, readings: Sequence[Reading], learned: Learned, system: System) -> str:
    waste = waste_of(of, "concrete")
    told = (
        f"{of.name} takes {with_spread(learned.value, learned.spread, RATIO, system)} of its net volume by "
        f"{entries(len(readings))}; "
    )
    before = percent(1 + waste.value)
    return told + (f"the plan says {before}, and that is used." if _planned(of) else f"before: {before}.")


def _override(of: Kind, learned: Learned, members: Mapping[str, Member], system: System) -> Override:
    """Waste as learned; of a coat that was never measured here by the others of the plan, or from elsewhere."""
    own, prior = members[of.name].readings, members[of.name].prior
    others = [reading for member in members.values() for reading in member.readings]
    less_one = learned._replace(value=learned.value - 1)
    figure = replace(
        learned_figure(less_one, prior, own or others, system), value=less_one.value,
        printed=f"{percent(less_one.value, 1)} waste", unit=RATIO,
    )  # fmt: skip
    told = (
        _told(of, own, learned, system)
        if own
        else (
            f"no coat of {of.name} was measured; by {by_others(others, prior, 'other coats')} it is taken to take "
            f"{with_spread(learned.value, learned.spread, RATIO, system)} of its net volume."
        )
    )
    return Override("coats", of.name, "waste", figure, f"Your log: {told}")


def _use_prior(of: Kind, carried: Carried, system: System) -> Prior:
    waste = waste_of(of, "concrete")
    use = 1 + waste.value
    prior = Prior(
        value=use, spread=COAT_SPREAD * use, within=COAT_WITHIN * use, unit=RATIO, figure=waste,
        says="net volume and the usual waste",
    )  # fmt: skip
    return prior_here(prior, Topic.COVERAGE, _subject(of), carried, system=system)


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
