"""The binder: everything about a site on paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.cut_binder import cut_parts
from pinfold.actions.cut_gate import gate_sheets
from pinfold.actions.days_binder import days_parts, morning
from pinfold.actions.level_binder import level_part
from pinfold.actions.mix_card import cards_told
from pinfold.actions.mix_measures import measures_sheet
from pinfold.actions.mix_richer import richer_sections, richer_sheets
from pinfold.actions.mix_strength import strengths_told
from pinfold.actions.mix_trials import trial_sheets_of
from pinfold.actions.reckon_forecast import reckoned_parts
from pinfold.actions.reckon_ledger import ledger_parts
from pinfold.actions.reckon_lessons import lessons_part
from pinfold.actions.reckon_next_wall import next_wall_part
from pinfold.actions.reckonings import Reckoning, reckon_all
from pinfold.actions.scanning import reached
from pinfold.actions.sites import Site, open_site
from pinfold.actions.standing import compared
from pinfold.actions.weigh_binder import weigh_parts
from pinfold.drawings.all_scenes import largest_sheet, scenes
from pinfold.drawings.svg import sheet_svg
from pinfold.findings import Finding, Verdict, by_urgency
from pinfold.plan.enclosure import Paper
from pinfold.reports.binder.records import Binder, BinderPart, Sheet, cards_of, ticked
from pinfold.reports.binder.sources import Use, sources_part
from pinfold.reports.binder.typeset import typeset
from pinfold.reports.gather_page import gather_page
from pinfold.reports.mix_card import barrows_and_days
from pinfold.reports.mix_page import mix_page
from pinfold.reports.mix_strength import BREAKING, strength_sheet
from pinfold.reports.pages import Caution, Page, Paragraph, table
from pinfold.reports.plan_page import plan_page
from pinfold.reports.reckon_page import reckon_page
from pinfold.reports.stand_page import sheets_of, summary
from pinfold.store.writing import write_bytes
from pinfold.studies.stability.assess import assess
from pinfold.tables.shelf import Kind, kind

CHAPTERS = (
    "How it lies", "Will it stand", "What to mix", "Measures and sand", "Richer or leaner", "How strong",
    "The days", "The season's rules", "Sun and shade", "What to gather", "What to cut", "Out of which pieces",
    "Labels", "Gates to build", "What stands on blocks", "Which build-up", "What for what", "What if",
    "What it will cost", "What it took so far", "Planned and done", "How it will go on", "What was learned",
    "Cautions", "Sources",
)  # fmt: skip
_PAPERS = {Paper.A4: "A4", Paper.LETTER: "letter"}


@dataclass(frozen=True, kw_only=True)
class BinderAnswer:
    """What was printed.

    Attributes:
        file: where the binder lies.
        summary: verdict on the whole.
        failing: what does not hold.
        open_points: what could not be shown.
        parts: chapters.
        drawings: how many.
    """

    file: str
    summary: str
    failing: tuple[str, ...]
    open_points: tuple[str, ...]
    parts: tuple[str, ...]
    drawings: int


def bind_site(folder: Path, out: Path) -> Answer:
    """Print a site's binder.

    Args:
        folder: site folder
        out: the PDF to write

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and writing the file tell.
    """
    site = open_site(folder)
    binder = binder_of(site, printed_on=date.today().isoformat())  # noqa: DTZ011 - the builder's own day
    write_bytes(out, typeset(binder))
    answer = BinderAnswer(
        file=str(out),
        summary=binder.summary,
        failing=binder.failing,
        open_points=binder.open_points,
        parts=tuple(part.title for part in binder.parts),
        drawings=sum(bool(sheet.scale) for part in binder.parts for sheet in part.sheets),
    )
    return answer_from(site, answer, _page(site, answer))


@dataclass(frozen=True, kw_only=True)
class BinderContents:
    """What a binder would hold.

    Attributes:
        name: of the plot.
        paper: it is for: letter, A4.
        summary: verdict on the whole.
        parts: chapters.
        drawings: how many.
    """

    name: str
    paper: str
    summary: str
    parts: tuple[str, ...]
    drawings: int


def contents_of(folder: Path) -> BinderContents:
    """What a site's binder would hold, without laying out its drawings.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    from pinfold.actions.drawing import drawings

    site = open_site(folder)
    return BinderContents(
        name=site.plan.name,
        paper=_PAPERS[site.plan.paper],
        summary=summary(assess(site.layout)),
        parts=CHAPTERS,
        drawings=len(drawings(folder)),
    )


def binder_bytes(folder: Path) -> bytes:
    """A site's binder as a PDF, printed today and written nowhere.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    return typeset(binder_of(open_site(folder), printed_on=date.today().isoformat()))  # noqa: DTZ011 - the builder's day


def binder_of(site: Site, *, printed_on: str) -> Binder:
    """A site's binder, ready to typeset; `printed_on` is the day as 2026-05-03."""
    plan, counted = site.plan, reckon_all(site)
    findings = by_urgency(assess(site.layout))
    return Binder(
        title=plan.name,
        says=plan.place.says,
        printed_on=printed_on,
        paper=plan.paper.value,
        system=plan.units,
        summary=summary(findings),
        open_points=_lines(findings, Verdict.NOT_SHOWN) + counted.planned.missing,
        failing=_lines(findings, Verdict.FAILS),
        cautions=site.cautions,
        parts=_parts(site, counted, findings, day=date.fromisoformat(printed_on)),
    )


def _lines(findings: Sequence[Finding], verdict: Verdict) -> tuple[str, ...]:
    """One line for all that one check says in the same words."""
    subjects: dict[tuple[str, str], list[str]] = {}
    for finding in findings:
        if finding.verdict is verdict:
            subjects.setdefault((finding.check, finding.because), []).append(finding.subject)
    return tuple(
        f"{check}, {', '.join(of)}" + (f": {because}" if because else "") for (check, because), of in subjects.items()
    )


def _parts(site: Site, counted: Reckoning, findings: Sequence[Finding], *, day: date) -> tuple[BinderPart, ...]:
    plan, system = site.plan, site.plan.units
    mixes = _mixes(site, counted)
    uses = [
        Use(what=card.mix.says.partition(", ")[0], working=card.charge.working, figures=card.charge.figures)
        for card in counted.cards
        if card.charge is not None
    ]
    return (
        BinderPart(title="How it lies", blocks=plan_page(site.layout, ()).blocks, sheets=_sheets(site)),
        BinderPart(
            title="Will it stand", intro=summary(findings), blocks=(*sheets_of(findings, system), *compared(site)),
            cautions=(kind("cautions", "engineer").says,),
        ),
        BinderPart(title="What to mix", blocks=(*cards_of(mixes.blocks), *cards_of(trial_sheets_of(site)))),
        BinderPart(title="Measures and sand", blocks=measures_sheet(site)),
        _richer(site),
        BinderPart(title="How strong", blocks=strength_sheet(strengths_told(site), system), cautions=(BREAKING,)),
        *days_parts(site, day=day, wide_mm=_PICTURE),
        BinderPart(title="What to gather", blocks=ticked(_gathered(site, counted).blocks)),
        *cut_parts(site, wide_mm=_PICTURE),
        BinderPart(title="Gates to build", blocks=gate_sheets(site)),
        level_part(site, wide_mm=_PICTURE),
        *weigh_parts(site, wide_mm=_PICTURE),
        BinderPart(title="What it will cost", blocks=reckon_page(plan.name, counted.planned, system).blocks),
        *ledger_parts(site),
        *reckoned_parts(site, now=morning(site, day), wide_mm=_PICTURE),
        BinderPart(title="What was learned", blocks=(*lessons_part(site), *next_wall_part(site))),
        BinderPart(title="Cautions", blocks=tuple(Caution(text=text) for text in _cautions(site))),
        sources_part(findings, uses),
    )  # fmt: skip


def _mixes(site: Site, counted: Reckoning) -> Page:
    mixing = site.lessons.mixing
    at = reached(site.folder)
    told = [replace(each, on_paper=True) for each in cards_told(site, counted.cards, mixing, at)]
    page = mix_page(site.plan.name, tuple(zip(counted.cards, told, strict=True)), mixing, system=site.plan.units)
    shared = f"{barrows_and_days(mixing, site.plan.units)} The square codes: {at.says[:1].lower()}{at.says[1:]}"
    return replace(page, blocks=(page.blocks[0], Paragraph(text=shared), *page.blocks[1:]))


def _richer(site: Site) -> BinderPart:
    """What more or less sand does to coats and poured walls."""
    sheets = tuple(
        Sheet(title=title, svg=svg, width_mm=_PICTURE, height_mm=high)
        for title, svg, high in richer_sheets(site, wide_mm=_PICTURE)
    )
    blocks = tuple(block for section in richer_sections(site) for block in section)
    return BinderPart(title="Richer or leaner", blocks=blocks, sheets=sheets)


_PICTURE = 170.0
"""Width of a picture on paper, in mm."""


def _gathered(site: Site, counted: Reckoning) -> Page:
    return gather_page(site.plan.name, counted.gathered, site.prices, site.plan.units)


def _sheets(site: Site) -> tuple[Sheet, ...]:
    sheets = []
    for scene in scenes(site.layout):
        drawn = largest_sheet(scene, paper=site.plan.paper, system=site.plan.units)
        sheets.append(
            Sheet(
                title=scene.title,
                svg=sheet_svg(drawn),
                width_mm=drawn.width,
                height_mm=drawn.height,
                scale=drawn.placed.scale.text,
            )
        )
    return tuple(sheets)


def _cautions(site: Site) -> list[str]:
    """Every caution that the plan's kinds name, each once, the general ones first."""
    plan = site.plan
    kinds: list[Kind] = [gate.kind for gate in plan.gates]
    for buildup in plan.buildups.values():
        layers = (
            buildup.footing,
            buildup.wall,
            buildup.coping,
            buildup.posts,
            buildup.mesh,
            *buildup.coats,
            *buildup.rails,
        )
        kinds += [layer.kind for layer in layers if layer is not None]
    names = ["engineer", *(["buried-lines"] if plan.lines else [])]
    for each in kinds:
        listed = each.words.get("cautions", ())
        names += [str(name) for name in listed] if isinstance(listed, list) else []
    return [kind("cautions", name).says for name in dict.fromkeys(names)]


def _page(site: Site, answer: BinderAnswer) -> Page:
    rows = [(part,) for part in answer.parts]
    return Page(
        title=f"{site.plan.name}: the binder",
        blocks=(
            Paragraph(text=f"Printed to {answer.file}, with {answer.drawings} drawings to scale."),
            Paragraph(text=answer.summary),
            table(("parts",), rows),
        ),
    )
