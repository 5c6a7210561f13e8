"""Rules of the season to read: what may be done when, with what, and people's heat; sections for any page."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime

from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, table
from pinfold.studies.seasons.days import HeatSpell, SeasonDay, SeasonSpell, WorkDay
from pinfold.studies.seasons.people import CAUTION, most_to_drink, shares_of_day
from pinfold.studies.seasons.records import May, SeasonWork
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import CELSIUS, CUBIC_METER, System, show

_MINUTE = 60.0
_ADD = (
    "What several rules ask is all done. Thermometers hang in the shade at the work; a hollow is colder than the "
    "forecast's field, a wall in the sun warmer."
)


def season_page(days: Sequence[SeasonDay], told: Sequence[str], *, system: System) -> Page:
    """The first of several days in full, the others in short."""
    blocks: list[Block] = [Paragraph(text=text) for text in told]
    for day in days[:1]:
        blocks += [Heading(text=day_words(day, system)), *season_blocks(day, system)]
    if days[1:]:
        blocks += [Heading(text="The days after"), season_brief(days[1:], system), Paragraph(text=_IN_FULL)]
    blocks.append(Paragraph(text=_ADD))
    return Page(title="What the season allows", blocks=tuple(blocks))


def day_words(day: SeasonDay, system: System) -> str:
    """The day with its lowest and highest air."""
    if day.lowest is None or day.highest is None:
        return f"{day.day:%A %Y-%m-%d}"
    ends = [show(each, CELSIUS, system, digits=2) for each in (day.lowest, day.highest)]
    return f"{day.day:%A %Y-%m-%d}, {ends[0].rpartition(' ')[0]} to {ends[1]}"


_IN_FULL = "Each of them in full, with its rules and measures: 'pinfold days season' and the day, like 2026-05-03."


def season_brief(days: Sequence[SeasonDay], system: System) -> Table:
    """A row for each day: what may be done, layer by layer, and the heat."""
    rows = [
        (f"{day.day:%a} {day.day.day} {day.day:%b}", day_words(day, system).rpartition(", ")[2],
         "; ".join(_in_short(day)))
        for day in days
    ]  # fmt: skip
    return table(("day", "air", "may be done?"), rows, wide=2)


def _in_short(day: SeasonDay) -> Iterable[str]:
    alike: dict[str, list[str]] = {}
    for work in day.works:
        alike.setdefault(_may_words(work.spells), []).append(work.layer)
    yield from (f"{', '.join(dict.fromkeys(layers))}: {words}" for words, layers in alike.items())
    if day.heat:
        worst = max(day.heat, key=lambda each: each.sun_c)
        yield f"heat for people: {kind('heat_levels', worst.level).says} at {_clock(worst.start)}"


_SHORT = {
    May.YES.says: "yes", May.MEASURES.says: "with measures", May.NOT_SHOWN.says: May.NOT_SHOWN.says, May.NO.says: "no",
}  # fmt: skip


def _may_words(spells: Sequence[SeasonSpell]) -> str:
    """`yes`, or `no 07:00–09:00, yes 09:00–18:00` where it changes."""
    runs: list[list[SeasonSpell]] = []
    for spell in spells:
        if runs and runs[-1][-1].may == spell.may:
            runs[-1].append(spell)
        else:
            runs.append([spell])
    if len(runs) == 1:
        return _SHORT[runs[0][0].may]
    return ", ".join(f"{_SHORT[run[0].may]} {_clock(run[0].start)}–{_clock(run[-1].end, end=True)}" for run in runs)


def season_blocks(day: SeasonDay, system: System) -> tuple[Block, ...]:
    """What one day allows, and its heat: a section for any page of the days."""
    return (_works(day, system), *heat_blocks(day, system))


def _works(day: SeasonDay, system: System) -> Table:
    groups: dict[tuple[object, ...], list[str]] = {}
    for work in day.works:
        groups.setdefault(_alike(work), []).append(work.says)
    one = {_alike(work): work for work in day.works}
    rows = [
        (", ".join(names) if first else "", _hours(spell), spell_words(spell) + _section(one[key], spell, system))
        for key, names in groups.items()
        for first, spell in _firsts(one[key].spells)
    ]
    return table(("work", "hours", "may be done?"), rows, wide=2)


def _alike(work: WorkDay) -> tuple[object, ...]:
    return work.section, *((spell.start, spell.end, spell.may, spell.rules, spell.unseen) for spell in work.spells)


def _firsts(spells: Sequence[SeasonSpell]) -> Iterable[tuple[bool, SeasonSpell]]:
    return ((number == 0, spell) for number, spell in enumerate(spells))


def spell_words(spell: SeasonSpell) -> str:
    """Whether, why and with what."""
    why = "; ".join(rule.says for rule in _kinds("season_rules", spell.rules))
    if spell.may == May.YES.says:
        return "yes"
    if spell.may == May.NO.says:
        return f"no: {why}"
    do = "; ".join(each.says for each in _kinds("season_measures", spell.measures))
    if spell.may == May.MEASURES.says:
        return f"with measures, for {why}: {do}"
    unseen = "; ".join(rule.says for rule in _kinds("season_rules", spell.unseen))
    more = f"; else with measures: {do}" if do else ""
    return f"NOT SHOWN whether {unseen}: the weather does not say enough{more}"


def _section(work: WorkDay, spell: SeasonSpell, system: System) -> str:
    """How warm concrete so thin comes out of the mixer and is kept, where it is warmed."""
    if not work.section or "warm-mix" not in spell.measures or "concrete-cold" not in spell.rules:
        return ""
    row = kind("cold_concrete", work.section)
    over, under, bitter, kept = (
        show(row.value(key), CELSIUS, system, digits=2)
        for key in ("mixed_over_30", "mixed_0_to_30", "mixed_below_0", "placed")
    )  # fmt: skip
    edges = [show(each, CELSIUS, system, digits=2) for each in _EDGES]
    return f" ({over} out of the mixer, {under} in air under {edges[0]}, {bitter} under {edges[1]}; kept at {kept})"


_EDGES = (-10 / 9, -160 / 9)
"""30 and 0 °F, between which the table's rows change."""


def _kinds(shelf_name: str, names: Iterable[str]) -> list[Kind]:
    return [kind(shelf_name, name) for name in names]


def _hours(spell: SeasonSpell) -> str:
    return f"{_clock(spell.start)}–{_clock(spell.end, end=True)}"


def _clock(moment: datetime, *, end: bool = False) -> str:
    return "24:00" if end and moment.hour == 0 else f"{moment:%H:%M}"


def heat_blocks(day: SeasonDay, system: System) -> tuple[Block, ...]:
    """People's heat of one day, with its caution; nothing where nothing is to be minded."""
    if not day.heat:
        return () if day.heat_shown else (Paragraph(text="People's heat is NOT SHOWN: humidity or air is not known."),)
    most = show(most_to_drink(), CUBIC_METER, system, in_unit="qt" if system is System.US else "L")
    new, used = (_shares(new=each) for each in (True, False))
    note = (
        f"felt: heat index as the sun is; minutes of work in the hour, sun (shade), for heavy and moderate work, and "
        f"heavy work in the sun for whoever is not used to heat; the rest is rest in shade. Never more than {most} of "
        f"water in an hour. New to heat: {new} of a full day in it on the first days; used to it last year: {used}."
    )
    rows = [_heat_row(each, system) for each in day.heat]
    levels = dict.fromkeys(each.level for each in day.heat)
    do = [f"{each.says}: {each.words['do']}." for each in _kinds("heat_levels", levels)]
    return (
        table(("hour", "felt", "risk", "heavy", "moderate", "unused", "drink"), rows, title="People", note=note),
        *(Paragraph(text=f"{text[:1].upper()}{text[1:]}") for text in do), Caution(text=CAUTION),
    )  # fmt: skip


def _shares(*, new: bool) -> str:
    return ", ".join(f"{share:.0%}" for share in shares_of_day(new=new))


def _heat_row(each: HeatSpell, system: System) -> tuple[str, ...]:
    _, moderate, heavy = zip(each.work, each.work_in_shade, strict=True)
    return (
        _clock(each.start), show(each.sun_c, CELSIUS, system, digits=2), kind("heat_levels", each.level).says,
        _minutes(heavy), _minutes(moderate), f"{each.work_unused[2] / _MINUTE:.0f}",
        show(each.drink, CUBIC_METER, system, in_unit="qt" if system is System.US else "L", digits=2),
    )  # fmt: skip


def _minutes(pair: tuple[float, float]) -> str:
    return f"{pair[0] / _MINUTE:.0f} ({pair[1] / _MINUTE:.0f})"


def rules_sheet(works: Sequence[SeasonWork], rules: Sequence[Kind]) -> tuple[Block, ...]:
    """All rules that fall on a plan's works, for paper: what, then what to do, with source and standing.

    Args:
        works: of the plan
        rules: that fall on them
    """
    what = "; ".join(dict.fromkeys(work.says for work in works))
    rows = [(rule.says, _asked(rule), "; ".join(_sources(rule))) for rule in rules]
    return (
        Paragraph(text=f"For: {what}. {_ADD}"), table(("when", "then", "by"), rows, wide=1),
        table(("heat index", "people"), _levels(), wide=1, title="People in the heat"), Caution(text=CAUTION),
    )  # fmt: skip


def _asked(rule: Kind) -> str:
    if rule.words.get("no"):
        return "not"
    listed = rule.words.get("measures", [])
    assert isinstance(listed, list)
    return "; ".join(kind("season_measures", str(name)).says for name in listed)


def _sources(rule: Kind) -> list[str]:
    return list(dict.fromkeys(f"{figure.source} ({figure.standing.value})" for figure in rule.figures.values()))


def _levels() -> list[tuple[str, str]]:
    return [
        (f"{each.figure('from').printed} and up: {each.says}", str(each.words["do"]))
        for each in shelf("heat_levels").values() if each.has("from")
    ]  # fmt: skip
