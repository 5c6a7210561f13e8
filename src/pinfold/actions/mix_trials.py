"""Trials of a mix: what they show together, and the next ones worth making."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from urllib.parse import quote

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.mix_card import CardsAsked, mixing_of
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.scanning import WITH, Reached, phone_address, reached
from pinfold.actions.sites import Site, open_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.logbook.entries import Entry
from pinfold.reports.mix_trials import TrialLink, next_page, trials_html, trials_page
from pinfold.reports.pages import Block
from pinfold.reports.trial_sheets import trial_sheets
from pinfold.reports.trial_words import amount_text, typed_text
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.holding import volumes_of
from pinfold.studies.lessons.things import Measures, thing
from pinfold.studies.trials.ranges import CONDITIONS, has_trials, known_mix
from pinfold.studies.trials.reading import mixes_tried
from pinfold.studies.trials.records import Asked, NextTrial, TrialsTold
from pinfold.studies.trials.scoring import OVERALL, POINTS, WEIGHTS
from pinfold.studies.trials.study import trials_told
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import RATIO, System, read

MOST = 120
"""Trials of the log that are looked at, the newest ones."""
MOST_NEXT = 3


@dataclass(frozen=True, kw_only=True)
class TrialsAsked:
    """How trials are asked for, as typed; what is empty is found out.

    Attributes:
        mix: they began from; the one with the most trials when empty.
        factors: to look at; those that varied when there are none.
        weights: of the scores, each as `cracks=3`; the usual ones when there are none.
        outside: whether proposals may leave the published ranges.
        many: how many trials are proposed.
        batch: size of batch they are measured out of.
        at: where the home network is served now; empty when nobody knows.
        own: where this machine is served; empty for the usual address.
        drawn: whether a terminal draws the square codes.
    """

    mix: str = ""
    factors: tuple[str, ...] = ()
    weights: tuple[str, ...] = ()
    outside: bool = False
    many: int = MOST_NEXT
    batch: str = ""
    at: str = ""
    own: str = ""
    drawn: bool = False


@dataclass(frozen=True, kw_only=True)
class TrialsAnswer:
    """What trials show.

    Attributes:
        told: all of it.
        mixes: that trials of the log began from, the one with the most first.
        scan: for each trial proposed the address that opens it in the log.
    """

    told: TrialsTold
    mixes: tuple[str, ...]
    scan: tuple[str, ...]


def mix_trials(folder: Path, asked: TrialsAsked) -> Answer:
    """What the trials of a mix show, and the next ones worth making.

    Args:
        folder: site folder
        asked: which, and how

    Raises:
        NotFoundError: no such mix, or none that trials compare.
        InvalidPlan, InputError: factors, weights, a count or a size that cannot be.
        StoreError, NewerFileError: as reading the site tells.
    """
    found = _found(folder, asked)
    page = trials_page(found.told, found.links, found.site.plan.units)
    return answer_from(found.site, found.answer, page)


def mix_next(folder: Path, asked: TrialsAsked) -> Answer:
    """The next trials alone.

    Raises:
        NotFoundError, InvalidPlan, InputError, StoreError, NewerFileError: as `mix_trials`.
    """
    found = _found(folder, asked)
    return answer_from(found.site, found.answer, next_page(found.told, found.links, found.site.plan.units))


def trials_as_html(answer: Answer) -> str:
    """The answer of `mix_trials` for the middle of a page, with a picture along each factor."""
    record = answer.record
    assert isinstance(record, TrialsAnswer)
    return trials_html(answer.page, record.told, answer.system)


@dataclass(frozen=True, kw_only=True)
class _Found:
    site: Site
    told: TrialsTold
    links: tuple[TrialLink, ...]
    answer: TrialsAnswer


def _found(folder: Path, asked: TrialsAsked) -> _Found:
    site = open_site(folder)
    entries = trials_of_log(site)
    told = told_of(site, replace(asked, at="", own="", drawn=False))
    at = reached(folder, at=asked.at, **({"own": asked.own} if asked.own else {}))
    links = tuple(_link(told.mix, each, at, site.plan.units, drawn=asked.drawn) for each in told.next)
    mixes = tuple(mix.name for mix in mixes_tried(entries))
    answer = TrialsAnswer(told=told, mixes=mixes, scan=tuple(link.address for link in links))
    return _Found(site=site, told=told, links=links, answer=answer)


def trial_sheets_of(site: Site) -> list[Block]:
    """For the binder: the next trials of the mix with the most, with blanks; nothing while none was made."""
    entries = trials_of_log(site)
    if not any(has_trials(mix) for mix in mixes_tried(entries)):
        return []
    told, at = told_of(site, TrialsAsked()), reached(site.folder)
    links = [_link(told.mix, each, at, site.plan.units, drawn=False) for each in told.next]
    return trial_sheets(told, links, site.plan.units)


def trials_of_log(site: Site) -> tuple[Entry, ...]:
    """The newest trials that stand; none where the log cannot be read, which the site's cautions say."""
    from pinfold.actions.taking import log_of

    if site.log_told:
        return ()
    return tuple(log_of(site.folder).entries(kind="trial", standing=True, limit=MOST))


@lru_cache(maxsize=8)  # a site is another one as soon as its log has grown
def told_of(site: Site, asked: TrialsAsked) -> TrialsTold:
    """What trials of a site show.

    Raises:
        NotFoundError, InvalidPlan, InputError: as `mix_trials`.
    """
    entries, complaints = trials_of_log(site), list[InputError]()
    wanted = _asked(asked, complaints)
    mix = taught_kind(_mix(site, entries, asked.mix), site.lessons.figures)
    mixing = mixing_of(site, CardsAsked(batch=asked.batch))
    measures = Measures(mixing=mixing, volumes=volumes_of(mixing))
    try:
        told = trials_told(entries, mix, wanted, measures=measures, system=site.plan.units)
    except InvalidPlan as wrong:
        complaints += wrong.problems
    if complaints:
        raise InvalidPlan("what is asked of the trials", complaints)
    return told


def _asked(asked: TrialsAsked, complaints: list[InputError]) -> Asked:
    """What was typed as the study takes it; what cannot be read is complained of and left out."""
    weights = [weight for text in asked.weights if (weight := _weight(text, complaints)) is not None]
    if not 1 <= asked.many <= MOST_NEXT:
        complaints.append(InputError(f"{asked.many} cannot be; from 1 to {MOST_NEXT} is wanted", place="many"))
    return Asked(factors=asked.factors, weights=tuple(weights), outside=asked.outside, many=min(asked.many, MOST_NEXT))


def _weight(text: str, complaints: list[InputError]) -> tuple[str, float] | None:
    name, sign, number = text.partition("=")
    try:
        if not sign:
            raise InputError(f"{text[:40]!r} has no equals sign; write it like cracks=3")
        return name.strip(), read(number, like=RATIO)
    except InputError as wrong:
        complaints.append(InputError(wrong.message, place=f"weight {name.strip()[:40]}"))
        return None


def _mix(site: Site, entries: Sequence[Entry], name: str) -> Kind:
    """The mix asked for, else the one with the most trials, else the first coat that the plan mixes."""
    if name:
        return known_mix((thing("mixes", name) or known_mix(name)).name)
    tried = [mix for mix in mixes_tried(entries) if has_trials(mix)]
    planned = [card.mix for card in reckon_all(site).cards if has_trials(card.mix)]
    planned.sort(key=lambda mix: mix.word("family") not in _COATS)
    found = next(iter((*tried, *planned)), None)
    if found is None:
        raise NotFoundError("the plan mixes nothing that trials compare; name a mix, such as plaster-scratch")
    return found


_COATS = ("plaster", "earth", "lime", "bond")


def _link(mix: Kind, trial: NextTrial, at: Reached, system: System, *, drawn: bool) -> TrialLink:
    query = trial_query(mix, trial, system)
    return TrialLink(
        address=phone_address(at.base, query, kind="trial"), here=f"/log/new/trial?{query}", says=at.says, drawn=drawn
    )  # fmt: skip


def trial_query(mix: Kind, trial: NextTrial, system: System) -> str:
    """A proposed trial as the query of an address that fills in the log's form."""
    pairs = [("mix", mix.name), *((WITH, f"{each.item}:{amount_text(each, system)}") for each in trial.amounts)]
    pairs += [(key, typed_text(key, trial.values[key], system)) for key in CONDITIONS if key in trial.values]
    return "&".join(f"{key}={quote(text, safe='/:')}" for key, text in pairs)


@dataclass(frozen=True, kw_only=True)
class TrialsForm:
    """What a page offers to ask.

    Attributes:
        mix: looked at.
        mixes: to choose from, those tried first.
        factors: each with what it counts and whether it is asked for.
        weights: each score with its usual weight and the one typed.
        batch: size of batch as typed.
        outside: whether proposals may leave the ranges.
    """

    mix: str
    mixes: tuple[str, ...]
    factors: tuple[tuple[str, str, bool], ...]
    weights: tuple[tuple[str, str, str], ...]
    batch: str
    outside: bool


def trials_form(answer: Answer, asked: TrialsAsked) -> TrialsForm:
    """The form beside an answer of `mix_trials`."""
    record = answer.record
    assert isinstance(record, TrialsAnswer)
    typed = dict(text.partition("=")[::2] for text in asked.weights)
    others = tuple(mix.name for mix in shelf("mixes").values() if has_trials(mix) and mix.name not in record.mixes)
    return TrialsForm(
        mix=record.told.mix.name, mixes=(*record.mixes, *others), batch=asked.batch, outside=asked.outside,
        factors=tuple((each.key, each.says, each.key in asked.factors) for each in record.told.all_factors),
        weights=tuple(
            (name, f"{WEIGHTS.get(name, 0.0):g}", typed.get(name, "")) for name in (OVERALL, *POINTS)
        ),
    )  # fmt: skip
