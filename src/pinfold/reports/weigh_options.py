"""Build-ups side by side, as tables narrow enough for a terminal and a phone, and one of them with all its working."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from urllib.parse import quote

from pinfold.figures import Figure
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, Working, table
from pinfold.reports.weigh_unshown import complained, unshown_of
from pinfold.reports.weigh_words import head, said
from pinfold.sources import Standing, weakest
from pinfold.studies.weighing.records import CRITERIA, CRITERION_BY_KEY, Criterion, Score, Theme, Weighed
from pinfold.studies.weighing.weighing import Weighing
from pinfold.tables.shelf import kind
from pinfold.units import System, tape

_WIDE = 78
"""Letters that a table takes at most beside the names."""
_GAP = 2
_TITLES = {
    Theme.MONEY: "Money", Theme.WORK: "Work", Theme.STUFF: "Stuff", Theme.SAFETY: "Will it stand", Theme.USE: "In use",
}  # fmt: skip
_SIZES = (
    "Of its sizes in the catalog the leanest at which nothing fails (leaves of gates aside, they are the plan's own), "
    "else the one that comes nearest; all here is counted at that size."
)
CAUTION = (
    "A comparison of whole build-ups at sizes of the catalog, not a design: 'pinfold stand' and 'pinfold weigh search' "
    "size one. Over 1.2 m, near people or vehicles, or holding earth back, ask a licensed engineer and the local code."
)


def weigh_page(weighing: Weighing, system: System, *, link: str = "") -> Page:
    """All options side by side.

    Args:
        weighing: judged
        system: of the plan
        link: address under which one option opens to its working; empty for paper and terminals
    """
    links = tuple(f"{link}{quote(each.option.name)}" for each in weighing.options) if link else ()
    blocks: list[Block] = [Paragraph(text=_opening(weighing, system)), _standing(weighing, links), *_sizes(weighing)]
    for theme in Theme:
        blocks.append(Heading(text=_TITLES[theme]))
        blocks += _themed(weighing, theme, system, links)
        if theme is Theme.SAFETY:
            blocks += _governing(weighing, links)
        blocks += unshown_of(weighing, theme)
    blocks += _kept(weighing, links)
    blocks += complained(weighing)
    return Page(title=f"{weighing.name}: which build-up", blocks=(*blocks, Caution(text=CAUTION)))


def open_parts(weighing: Weighing) -> tuple[str, ...]:
    """Heading under which a page that folds its parts starts open: of what it is sorted by, else money."""
    return (_TITLES[CRITERION_BY_KEY[weighing.sorted_by].theme if weighing.sorted_by else Theme.MONEY],)


def _opening(weighing: Weighing, system: System) -> str:
    animals = " · ".join(kind("passers", name).says for name in weighing.animals) or "no animals"
    order = f"; sorted by {CRITERION_BY_KEY[weighing.sorted_by].says!r}" if weighing.sorted_by else ""
    if order and any(each.fails for each in weighing.options[1:]):
        order += ", those of which a check fails after all others"
    return (
        f"{tape(weighing.length, system)} of enclosure, fitted to {tape(weighing.height, system)} of height, built by "
        f"{weighing.people} people, looked at over {weighing.years} years, to keep out: {animals}{order}. Numbers "
        "stand with their spread behind them; nothing is added up to a mark: what counts is yours to say."
    )


def _standing(weighing: Weighing, links: Sequence[str]) -> Table:
    rows = [(_name(each), each.verdict.value if each.can_be_built else "cannot be built", each.option.says)
            for each in weighing.options]  # fmt: skip
    return table(("build-up", "all checks", "what it is"), rows, wide=2, links=links)


def _name(each: Weighed) -> str:
    """An option's name; of one in which a check fails with that, in every table."""
    return f"{each.option.name} (FAILS)" if each.fails else each.option.name


def _sizes(weighing: Weighing) -> Iterator[Block]:
    """At which of its sizes each stands here."""
    rows = [(each.option.name, each.option.size) for each in weighing.options if each.option.size]
    if rows:
        yield Heading(text="Sizes")
        yield table(("build-up", "size that it stands at here"), rows, wide=1, note=_SIZES)


def _themed(weighing: Weighing, theme: Theme, system: System, links: Sequence[str]) -> Iterator[Table]:
    """The criteria of a theme in as few tables as are narrow enough."""
    built = [(number, each) for number, each in enumerate(weighing.options) if each.can_be_built]
    names = [_name(each) for _, each in built]
    own = tuple(links[number] for number, _ in built) if links else ()
    columns = [(criterion, _column(criterion, weighing, system)) for criterion in CRITERIA if criterion.theme is theme]
    for part in _parted(columns, max(map(len, names), default=0)):
        rows = [tuple(cells) for cells in zip(names, *(column[1:] for _, column in part), strict=True)]
        heads = ("build-up", *(column[0] for _, column in part))
        criteria = [criterion for criterion, _ in part]
        yield table(heads, rows, right=range(1, len(heads)), note=_note(criteria, weighing), links=own)


def _governing(weighing: Weighing, links: Sequence[str]) -> Iterator[Table]:
    """The check that leaves least to spare in each."""
    told = [(number, each) for number, each in enumerate(weighing.options) if each.governs]
    if told:
        rows = [(_name(each), each.governs) for _, each in told]
        own = tuple(links[number] for number, _ in told) if links else ()
        yield table(("build-up", "leaves least to spare"), rows, wide=1, links=own)


Column = tuple[Criterion, list[str]]


def _column(criterion: Criterion, weighing: Weighing, system: System) -> list[str]:
    cells = [said(criterion, each.scores[criterion.key], system, weighing.digits)
             for each in weighing.options if each.can_be_built]  # fmt: skip
    return [head(criterion, system, weighing.currency), *cells]


def _parted(columns: Sequence[Column], names: int) -> Iterator[list[Column]]:
    part: list[Column] = []
    width = names
    for column in columns:
        wide = max(map(len, column[1])) + _GAP
        if part and width + wide > _WIDE:
            yield part
            part, width = [], names
        part.append(column)
        width += wide
    yield part


def _note(criteria: Sequence[Criterion], weighing: Weighing) -> str:
    """What each column tells, and how far its figures can be trusted."""
    return " · ".join(f"{each.says}: {each.asks} ({_rests_on(each, weighing)})" for each in criteria)


def _rests_on(criterion: Criterion, weighing: Weighing) -> str:
    found = [each.scores[criterion.key] for each in weighing.options if each.can_be_built]
    return _standing_said(weakest(score.standing for score in found if score.is_shown))


def _standing_said(standing: Standing) -> str:
    return {Standing.MEMORY: "from memory", Standing.PRACTICE: "common practice"}.get(standing, standing.value)


def _rests(score: Score) -> str:
    """What one score rests on, and how far that can be trusted."""
    return f"{score.because} ({_standing_said(score.standing)})" if score.is_shown else score.because


def _kept(weighing: Weighing, links: Sequence[str]) -> Iterator[Block]:
    """Which way each animal has through every fence; the gates are the same in all of them."""
    built = [(number, each) for number, each in enumerate(weighing.options) if each.can_be_built]
    if not built or not weighing.animals:
        return
    planned = built[0][1].kept
    heads = ("build-up", *(each.says for each in planned))
    rows = [(_name(each), *(kept.fence or "out" for kept in each.kept)) for _, each in built]
    own = tuple(links[number] for number, _ in built) if links else ()
    yield Heading(text="Who gets in")
    yield table(heads, rows, note="The way that wall, mesh and ground leave it: over by a jump, under by digging; "
                "electric wire and roofs are not in it. From memory.", links=own)  # fmt: skip
    yield Paragraph(text="By the gates of the plan, the same in all of them: " + "; ".join(
        f"{each.says} {each.gates or 'kept out'}" for each in planned) + ".")  # fmt: skip


def option_page(weighing: Weighing, each: Weighed, system: System) -> Page:
    """One option with every score, what it rests on, and its working."""
    title = f"{weighing.name}: {each.option.name}"
    blocks: list[Block] = [Paragraph(text=f"{each.option.says}.")]
    if each.option.size:
        blocks.append(Paragraph(text=f"Of its sizes: {each.option.size}."))
    if not each.can_be_built:
        return Page(title=title, blocks=(*blocks, *(Paragraph(text=f"{text}.") for text in each.complaints)))
    blocks.append(Paragraph(text=_verdict(each)))
    for theme in Theme:
        criteria = [criterion for criterion in CRITERIA if criterion.theme is theme]
        rows = [(head(criterion, system, weighing.currency),
                 said(criterion, each.scores[criterion.key], system, weighing.digits),
                 _rests(each.scores[criterion.key])) for criterion in criteria]  # fmt: skip
        blocks.append(table((_TITLES[theme], "score", "rests on"), rows, wide=2))
    blocks += _worked(each)
    if each.complaints:
        blocks.append(Heading(text="What fails or is not shown"))
        blocks += [Paragraph(text=f"{text}.") for text in each.complaints]
    return Page(title=title, blocks=(*blocks, Caution(text=CAUTION)))


def _verdict(each: Weighed) -> str:
    governs = f" The check that leaves least to spare: {each.governs}." if each.governs else ""
    return f"All checks together: {each.verdict.value}.{governs}"


def _worked(each: Weighed) -> Iterator[Block]:
    for criterion in CRITERIA:
        score = each.scores[criterion.key]
        if score.working or score.figures:
            yield Heading(text=criterion.says)
            yield Working(steps=score.working, figures=_once(score.figures))


def _once(figures: Sequence[tuple[str, Figure]]) -> tuple[tuple[str, Figure], ...]:
    return tuple(dict(figures).items())
