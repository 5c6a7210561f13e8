"""A search over build-ups as a page: how many stand, the cheapest and the strongest, and the trade-off front."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from urllib.parse import quote

from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, table
from pinfold.reports.weigh_amounts import Money, amount
from pinfold.reports.weigh_words import NOT_SHOWN, head, number, percent
from pinfold.studies.weighing.limits import Bound
from pinfold.studies.weighing.misses import Short
from pinfold.studies.weighing.records import CRITERION_BY_KEY, Criterion
from pinfold.studies.weighing.search_records import Proven, Row, Search
from pinfold.tables.shelf import kind
from pinfold.units import System

_CAUTION = (
    "Checked on the plan as it is drawn, which is no design. Over 1.2 m, near people or vehicles, or holding earth "
    "back, ask a licensed engineer and the local code."
)
_SHOWN = ("cash_now", "hours", "trips", "hauled", "cement", "margin")
"""Criteria that are always in the table."""


def search_page(found: Search, system: System, *, link: str = "") -> Page:
    """All that a search answers.

    Args:
        found: by the search
        system: of the plan
        link: address under which a build-up is chosen by its code; empty for paper and terminals
    """
    blocks: list[Block] = [Paragraph(text=_opening(found)), *_left_out(found), *_miss(found, system)]
    if found.front:
        blocks += [Heading(text="What no other betters"), _rows(found, system, link)]
        blocks += [Paragraph(text=text) for text in _given_up(found, system)]
        blocks += [*_keeping_out(found), *_let_in_beside(found), *_choosing(found, link)]
    blocks += [*_elsewhere(found), Heading(text="What was varied"), _axes(found, link), Caution(text=_CAUTION)]
    return Page(title=f"{found.name}: search over {found.buildup}", blocks=tuple(blocks))


def _opening(found: Search) -> str:
    beside = ", beside what fails whichever is picked" if found.in_all else ""
    far = ", as far as wall, mesh and ground go" if found.let_in and "tightness" in found.limited else ""
    asked = f" {found.kept} of them keep to: {', '.join(found.asked)}{far}{beside}." if found.asked else ""
    unsure = f" Of {found.unsure} more something limited is not shown: they are not among them." if found.unsure else ""
    return (
        f"{found.tried} build-ups were asked every check of 'pinfold stand'; {found.stands} fail in none"
        f"{beside}, {found.fails} fail.{asked}{unsure}"
    )


def _left_out(found: Search) -> Iterator[Block]:
    if found.failing:
        yield Paragraph(text="None stands. In the first choice of every axis: " + "; ".join(found.failing) + ".")
    if found.in_all:
        yield Caution(text=f"FAILS whichever is picked: {_by_check(found.in_all)}. It is of gates or neighbors as the "
                      "plan has them, so it tells no build-up from another, and none of these holds before it is "
                      "mended: 'pinfold stand' says how.")  # fmt: skip
    if found.let_in and "tightness" in (*found.by, *found.limited):
        yield Caution(text="NOT kept out as a whole: whichever is picked, the gates and what is not varied leave "
                      f"ways in: {'; '.join(found.let_in)}. What is kept out here is by wall, mesh and ground alone; "
                      "'pinfold gates' tells by which gaps, and what would close them.")  # fmt: skip
    if found.unknown:
        yield Paragraph(text=f"A search does not know of {', '.join(found.unknown)}: 'pinfold weigh trade-off' does, "
                        "build-up by build-up of the catalog.")  # fmt: skip
    if found.everywhere:
        yield Paragraph(text=f"Not shown, whichever is picked: {_by_check(found.everywhere)}. 'pinfold stand' says "
                        "what is missing.")  # fmt: skip
    yield from _unpriced(found)
    for why, many in list(found.cannot.items())[:5]:
        yield Paragraph(text=f"{many} cannot be built: {why}.")


def _by_check(parts: Iterable[str]) -> str:
    """Checks with all the parts that they are of."""
    found: dict[str, list[str]] = {}
    for check, _, part in (each.partition(", ") for each in parts):
        found.setdefault(check, []).append(part)
    return "; ".join(f"{check} ({', '.join(parts)})" for check, parts in found.items())


def _unpriced(found: Search) -> Iterator[Paragraph]:
    """What is missing to tell costs, and what cannot be traded off without it."""
    every = [why for why, many in found.lacks.items() if many == found.stands]
    some = [f"{why} ({many})" for why, many in found.lacks.items() if many != found.stands]
    if every:
        yield Paragraph(text=f"NOT SHOWN what any of them costs: {_few(every)}.")
    if some:
        beside = "What some of them lack besides" if every else "NOT SHOWN what those cost that lack something"
        yield Paragraph(text=f"{beside}, with how many: {_few(some)}.")
    if found.nowhere:
        names = ", ".join(CRITERION_BY_KEY[key].says for key in found.nowhere)
        yield Paragraph(text=f"NOT SHOWN by any of them and left out of what is traded off: {names}.")
    if found.beside:
        yield Paragraph(text=f"Of {found.beside} something that is traded off is NOT SHOWN: nobody can tell whether "
                        "they are better or worse.")  # fmt: skip


def _few(reasons: Sequence[str]) -> str:
    """The first few of what is missing; prices named together."""
    shown, more = reasons[:_MOST_TOLD], len(reasons) - _MOST_TOLD
    priced = [why.removeprefix(_PRICE) for why in shown if why.startswith(_PRICE)]
    told = [f"{_PRICE}{'; '.join(priced)}"] if priced else []
    told += [why for why in shown if not why.startswith(_PRICE)]
    return "; ".join(told) + (f"; and {more} things more" if more > 0 else "")


_PRICE = "no price for "
_MOST_TOLD = 8


def _miss(found: Search, system: System) -> Iterator[Paragraph]:
    if found.nearest is None:
        return
    told = "; ".join(_short(short, found, system) for short in found.shorts)
    yield Paragraph(text=f"None keeps to all. Nearest: {found.nearest.says}; {told}.")


def _short(short: Short, found: Search, system: System) -> str:
    """By how much the nearest misses one limit."""
    criterion, limit = short.limit.criterion, short.limit
    if criterion.key == "tightness" and found.ways:  # whom the gates let in, too, is told for all
        return f"not all of {limit.text.removesuffix(' out')} stay out ({'; '.join(found.ways)})"
    by = amount(criterion, short.by, system, Money(found.currency, found.digits))
    return f"{limit.text}: {by} {'more' if limit.bound is Bound.MOST else 'less'} than asked"


def _rows(found: Search, system: System, link: str) -> Table:
    wanted = (*_SHOWN, *found.by, *found.limited)
    criteria = [each for key, each in CRITERION_BY_KEY.items() if key in wanted and key in found.front[0].numbers]
    rows = [
        (f"{place}. {row.code}", *(_shown(each, row, system, found.digits) for each in criteria))
        for place, row in enumerate(found.front, start=1)
    ]  # fmt: skip
    heads = ("code", *(head(each, system, found.currency) for each in criteria))
    looked = [CRITERION_BY_KEY[key].says for key in found.by if key not in found.nowhere]
    first = "the cheapest" if found.cheapest is not None else f"the best in {looked[0]}"
    note = f"Those that no other betters in {' · '.join(looked)}; {first} first."
    links = [f"{link}{quote(row.code)}" for row in found.front] if link else []
    return table(heads, rows, right=range(1, len(heads)), note=note, links=links)


def _choosing(found: Search, link: str) -> Iterator[Paragraph]:
    """How one of them is chosen."""
    yield Paragraph(
        text="A code opens what it would change; a button there writes it into the plan, and another undoes it."
        if link else
        f"'pinfold weigh choose {found.front[0].code}' writes the first into the plan, 'pinfold weigh choose --undo' "
        "brings back what was there."
    )  # fmt: skip


def _shown(criterion: Criterion, row: Row, system: System, digits: int) -> str:
    value = row.numbers[criterion.key]
    return NOT_SHOWN if value is None else number(criterion, value, system, digits)


def _keeping_out(found: Search) -> Iterator[Paragraph]:
    """Whom wall, mesh and ground of the rows keep out and whom not, those alike together."""
    alike: dict[tuple[tuple[str, bool | None], ...], list[str]] = {}
    for place, row in enumerate(found.front, start=1):
        alike.setdefault(tuple(row.fence_out.items()), []).append(str(place))
    for animals, places in alike.items():
        told = (f"{does} {names}" for out, does in _DOES.items() if (names := _named(animals, wanted=out)))
        who = "all of them" if len(alike) == 1 else ", ".join(places)
        yield Paragraph(text=f"Wall, mesh and ground of {who} {'; '.join(told)}.")


def _let_in_beside(found: Search) -> Iterator[Paragraph]:
    """Whom gates and what is not varied let in though wall, mesh and ground of some row keep them out."""
    animals = [(name, all(row.keeps_out[name] is False for row in found.front)) for name in found.front[0].keeps_out
               if any(row.fence_out[name] for row in found.front)]  # fmt: skip
    if names := _named(animals, wanted=True):
        yield Paragraph(text=f"The gates and what is not varied let in {names}, whichever is picked: 'pinfold gates' "
                        "tells by which gaps.")  # fmt: skip


_DOES = {True: "keep out", False: "let in", None: "NOT SHOWN whether they keep out"}


def _named(animals: Iterable[tuple[str, bool | None]], *, wanted: bool | None) -> str:
    return " · ".join(kind("passers", name).says.partition(",")[0] for name, out in animals if out is wanted)


def _given_up(found: Search, system: System) -> Iterator[str]:
    """Each of the front in words, how it holds, and what is given up for what beside the one before."""
    proofs = {each.row.code: _proof(each, beside=bool(found.in_all)) for each in found.proven}
    before: Row | None = None
    for place, row in enumerate(found.front, start=1):
        beside = f" Beside the one before: {_beside(before, row, found, system)}." if before is not None else ""
        yield f"{place}. {row.says}. {proofs[row.code]}{beside}"
        before = row


def _beside(before: Row, row: Row, found: Search, system: System) -> str:
    told = []
    for key in found.by:
        criterion, had, has = CRITERION_BY_KEY[key], before.numbers[key], row.numbers[key]
        if had is not None and has is not None and (more := has - had):
            size = amount(criterion, abs(more), system, Money(found.currency, found.digits))
            told.append(f"{criterion.says} {size} {'more' if more > 0 else 'less'}")
    return ", ".join(told) or "alike"


def _proof(each: Proven, *, beside: bool) -> str:
    """How one holds, written into the plan and assessed whole."""
    verdict = "Something FAILS" if each.fails else "Nothing else fails" if beside else "Nothing fails"
    differs = " That is another number than the search found: trust this one." if each.differs else ""
    return f"{verdict}; {each.check} of {each.where} uses most, {percent(each.use)}.{differs}"


def _elsewhere(found: Search) -> Iterator[Paragraph]:
    """The cheapest and the strongest where they are not among the rows."""
    shown = {row.code for row in found.front}
    for row, most in ((found.cheapest, "cheapest"), (found.strongest, "strongest")):
        proof = next((each for each in found.proven if row is not None and each.row.code == row.code), None)
        if proof is not None and proof.row.code not in shown:
            yield Paragraph(
                text=f"The {most}, {proof.row.code}: {proof.row.says}. {_proof(proof, beside=bool(found.in_all))}"
            )


def _axes(found: Search, link: str) -> Table:
    rows: Sequence[tuple[str, str]] = [(key, "; ".join(says or "as planned" for says in choices))
                                       for key, choices in found.axes.items()]  # fmt: skip
    others = "Others in the fields above." if link else "Others with --wall, --wall-height and so on."
    return table(("axis", "choices"), rows, wide=1, note=others)
