"""Measures of a site, and trying a jar, a pan, a pail or a scale without writing it down."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from urllib.parse import urlencode

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.log_book import DEVICE, WHO, new_id, now_at
from pinfold.actions.log_pages import made_of
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.remarks import remarks_on
from pinfold.actions.sites import Site, open_site
from pinfold.actions.writing_down import Draft, form_of, read_form, texts_of
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.logbook.cells import fields_of
from pinfold.logbook.entries import Entry, entry_of
from pinfold.logbook.kinds import entry_kind
from pinfold.logbook.seen import seen
from pinfold.reports.mix_measures import (
    TOPICS,
    Tried,
    blank_sand_table,
    blank_table,
    measures_blocks,
    measures_page,
    sand_says,
    tried_page,
)
from pinfold.reports.pages import Block
from pinfold.studies.batching.sand import site_sand
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.learned import learned
from pinfold.studies.lessons.records import Lesson, Lessons
from pinfold.studies.lessons.site_measures import MeasureRow, measure_rows
from pinfold.tables.shelf import Kind, kind

TRIED = ("moisture", "bucket", "scale")
"""Kinds of entries that can be tried."""
_ALWAYS = ("sand", "gravel", "portland-cement")


@dataclass(frozen=True, kw_only=True)
class MeasuresAnswer:
    """What is known of a site's measures and sand.

    Attributes:
        measures: each with what it holds and weighs.
        lessons: what the log taught of measures, scale and sand.
    """

    measures: tuple[MeasureRow, ...]
    lessons: tuple[Lesson, ...]


@dataclass(frozen=True, kw_only=True)
class Moved:
    """How far a reading moves what is believed.

    Attributes:
        before: the lesson without it; None where there was none.
        after: the lesson with it.
    """

    before: Lesson | None
    after: Lesson


@dataclass(frozen=True, kw_only=True)
class TriedAnswer:
    """What a reading shows while it is not written down.

    Attributes:
        kind: of the entry it would be.
        figures: what was seen makes, in SI.
        moved: what it would move.
        form: address of the log's form, filled in with it.
    """

    kind: str
    figures: Mapping[str, float]
    moved: tuple[Moved, ...]
    form: str


def measures_of(folder: Path) -> Answer:
    """All measures of a site and its sand.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    rows = site_rows(site)
    told = tuple(lesson for topic in TOPICS for lesson in site.lessons.about(topic))
    page = measures_page(site.plan.name, rows, site.lessons, site.plan.units)
    return answer_from(site, MeasuresAnswer(measures=rows, lessons=told), page)


def measures_sheet(site: Site) -> tuple[Block, ...]:
    """The same for paper, with tables to fill by hand."""
    blocks = measures_blocks(site_rows(site), site.lessons, site.plan.units)
    return (*blocks, blank_table(), blank_sand_table())


def site_rows(site: Site) -> tuple[MeasureRow, ...]:
    """The measures of a site, with the stuffs that its plan mixes."""
    mixed = [part.kind for card in reckon_all(site).cards for part in card.totals]
    stuffs: dict[str, Kind] = {each.name: kind("materials", each.name) for each in mixed if each.shelf == "materials"}
    for name in _ALWAYS:
        stuffs.setdefault(name, kind("materials", name))
    return measure_rows(site.lessons, tuple(stuffs.values()))


def try_reading(folder: Path, of_kind: str, typed: Mapping[str, str]) -> Answer:
    """What a reading shows and would move; nothing is written down.

    Args:
        folder: of the site
        of_kind: moisture, bucket or scale
        typed: texts by key of the kind's fields

    Raises:
        NotFoundError: another kind of entry.
        InvalidPlan: what is wrong with it, all at once, as the log would tell it.
        InputError: the stuff is not known, so nothing would be learned.
        StoreError, NewerFileError: as reading the site tells.
    """
    if of_kind not in TRIED:
        raise NotFoundError(f"{of_kind[:40]!r} cannot be tried; {', '.join(TRIED)} can")
    site = open_site(folder)
    entry = _entry(folder, of_kind, typed)
    for remark in remarks_on(folder, [entry])[0]:
        raise InputError(remark.message, place=remark.place)
    with_it = learned(site.plan, site.prices, site.pile, (*site.entries, entry), site.carried)
    moved = _moved(site.lessons, with_it)
    found = seen(of_kind, entry.values)
    record = TriedAnswer(kind=of_kind, figures=found.figures, moved=moved, form=form_address(of_kind, typed))
    tried = Tried(
        made=made_of(entry), moved=[(each.before, each.after) for each in moved], says=_says(entry, site),
        aside=[reason for reason in with_it.set_aside if reason not in site.lessons.set_aside], working=found.working,
    )  # fmt: skip
    page = tried_page(tried, site.plan.units)
    return answer_from(site, record, page)


def form_address(of_kind: str, typed: Mapping[str, str]) -> str:
    """The log's own form, filled in with what was tried."""
    return f"/log/new/{of_kind}?{urlencode({key: text for key, text in typed.items() if text})}"


def _entry(folder: Path, of_kind: str, typed: Mapping[str, str]) -> Entry:
    words = {key: text for key, text in typed.items() if text}
    if of_kind == "moisture":
        words.setdefault("item", "sand")
    raw = {"id": new_id(), "kind": of_kind, "at": now_at(folder), "who": WHO, "device": DEVICE}
    return entry_of({**raw, "fields": fields_of(entry_kind(of_kind), words)})


def _moved(before: Lessons, after: Lessons) -> tuple[Moved, ...]:
    known = {(lesson.topic, lesson.subject): lesson for lesson in before.lessons}
    changed = []
    for topic in TOPICS:
        for lesson in after.about(topic):
            old = known.get((lesson.topic, lesson.subject))
            if old is None or (old.value, old.spread) != (lesson.value, lesson.spread):
                changed.append(Moved(before=old, after=lesson))
    return tuple(changed)


def _says(entry: Entry, site: Site) -> Sequence[str]:
    """What sand as it was tried means for a bucket of it."""
    figures = seen(entry.kind, entry.values).figures
    if entry.kind != "moisture" or not {"moisture", "bulking"} & set(figures):
        return ()
    tried = learned(site.plan, site.prices, site.pile, (entry,), site.carried)
    sand = taught_kind(kind("materials", "sand"), (*site.lessons.figures, *tried.figures))
    bucket, bulking = site.lessons.mixing.bucket, figures.get("bulking", site.lessons.mixing.sand_bulking)
    found = site_sand(sand, specified=bucket, mass=bucket * sand.value("bulk_density"), bulking=bulking)
    return (sand_says(found, bucket, site.plan.units),)


@dataclass(frozen=True, kw_only=True)
class ReadingForm:
    """A form to try a reading.

    Attributes:
        draft: its fields with what was typed.
        says: what it is for.
        wrong: complaints by key of the field; under the empty key what is about none.
        asked: whether it was sent.
    """

    draft: Draft
    says: str
    wrong: Mapping[str, str]
    asked: bool


_SAYS: Mapping[str, str] = {
    "moisture": "Try the sand: a pan, a jar, a can or two pails",
    "bucket": "Try a measure: weigh it full",
    "scale": "Try the scale: put a known weight on it",
}


def reading_form(folder: Path, of_kind: str, sent: Mapping[str, str]) -> tuple[ReadingForm, Answer | None]:
    """A form to try a reading, and what comes of it where it was sent and nothing is wrong.

    Args:
        folder: of the site
        of_kind: moisture, bucket or scale
        sent: as the form sends it: `f.wet`, `u.wet`; nothing for an empty form

    Raises:
        NotFoundError: another kind of entry.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    open_site(folder)  # a plan with complaints is told as such, not as the form's
    draft = read_form(form_of(folder, of_kind), sent)
    typed = texts_of(draft)
    if of_kind == "moisture" and not typed.get("item"):
        draft = replace(draft, values={**draft.values, "item": "sand"})
    says, asked = _SAYS[of_kind], bool(typed)
    if not asked:
        return ReadingForm(draft=draft, says=says, wrong={}, asked=False), None
    try:
        answer = try_reading(folder, of_kind, typed)
    except InvalidPlan as refused:
        wrong = {problem.place: problem.message for problem in refused.problems}
        return ReadingForm(draft=draft, says=says, wrong=wrong, asked=True), None
    except InputError as refused:
        return ReadingForm(draft=draft, says=says, wrong={refused.place: refused.message}, asked=True), None
    return ReadingForm(draft=draft, says=says, wrong={}, asked=True), answer
