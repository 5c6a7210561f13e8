"""The account of a site for others: read once, then cut down to what was chosen; as page, file and PDF."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple, TypeVar

from pinfold.actions.answers import Answer
from pinfold.actions.cracks import by_mark
from pinfold.actions.reckon_forecast import forecast_site
from pinfold.actions.reckon_ledger import ledger_now
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, open_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.imaging.photos import PreparedPhoto, prepared_photo
from pinfold.logbook.entries import Entry
from pinfold.logbook.kinds import Sort, entry_kinds
from pinfold.reports.account_file import account_file, account_html, account_style
from pinfold.reports.account_paper import Picture, account_paper
from pinfold.reports.cracks_page import CrackTold
from pinfold.reports.reckon_account import account_page, title_of
from pinfold.store.log import open_log
from pinfold.store.writing import write_bytes, write_text
from pinfold.studies.account.making import Known, account_of, worked_days
from pinfold.studies.account.records import Account, Part, SharedCrack, SharedWidth, When, Wish
from pinfold.studies.forecasting.records import Forecast
from pinfold.studies.ledger.records import Ledger

LONGEST = 1200
"""Pixels of the longer side of a shared photo at most."""
MOST_PHOTOS = 12
OFFERED = 60
"""Photos and notes that a form offers, the newest ones."""
PARTS = {
    Part.HOURS: "hours of work",
    Part.CRACKS: "cracks and how they moved",
    Part.LESSONS: "what was learned",
    Part.MONEY: "money; without it costs are shares in percent",
    Part.NAME: "the plot's name",
    Part.PLACE: "the plan's words on the place",
    Part.COORDINATES: "latitude and longitude",
    Part.PEOPLE: "names of who wrote the log",
}
WHENS = {When.NEVER: "no dates, only how many days", When.MONTHS: "only months", When.DAYS: "days"}


_Word = TypeVar("_Word", Part, When)


class Offer(NamedTuple):
    """Something of the log that may be chosen.

    Attributes:
        number: of the entry.
        day: it happened.
        says: its words; may be empty.
        photo: name of its photo; empty for words alone.
    """

    number: int
    day: str
    says: str
    photo: str


@dataclass(frozen=True, kw_only=True)
class AccountShown:
    """An account, ready to be handed over.

    Attributes:
        account: what is shared.
        pictures: a photo for each that was chosen, with nothing in it but the picture.
        site: it is of.
    """

    account: Account
    pictures: tuple[PreparedPhoto, ...]
    site: Site

    @property
    def answer(self) -> Answer:
        """Page and record, which hold what is shared alone; what is wrong with the log is told without its words."""
        system = self.site.plan.units
        return Answer(record=self.account, page=account_page(self.account, system), system=system)

    @property
    def title(self) -> str:
        """Over it."""
        return title_of(self.account)

    def body(self) -> str:
        """For the middle of a page."""
        return account_html(self.account, self._jpegs(), self.site.plan.units)

    def html(self) -> str:
        """A file that stands alone."""
        return account_file(self.account, self._jpegs(), self.site.plan.units)

    def pdf(self) -> bytes:
        """On paper."""
        pictures = [Picture(each.jpeg, each.width, each.height) for each in self.pictures]
        return account_paper(self.account, pictures, self.site.plan.units, self.site.plan.paper.value)

    def _jpegs(self) -> list[bytes]:
        return [each.jpeg for each in self.pictures]


def style() -> str:
    """The style of an account shown among other pages."""
    return account_style()


def wish_of(parts: Iterable[str] | None, when: str, photos: Sequence[str], notes: Sequence[str]) -> Wish:
    """What was chosen, as it was typed.

    Args:
        parts: names of what is shared; None for what is usual
        when: how near days are told; empty for not at all
        photos: numbers of entries with a photo
        notes: numbers of entries with words

    Raises:
        InvalidPlan: all that cannot be chosen so.
    """
    wrong: list[InputError] = []
    named = Wish().parts if parts is None else frozenset(_known(parts, Part, "share", wrong))
    whens = _known([when] if when else [], When, "when", wrong)
    numbers = (_numbers(photos, "photo", wrong), _numbers(notes, "note", wrong))
    if len(photos) > MOST_PHOTOS:
        wrong.append(InputError(f"{len(photos)} photos chosen; at most {MOST_PHOTOS} make a short one", place="photo"))
    if wrong:
        raise InvalidPlan("what is shared", wrong)
    return Wish(parts=named, when=whens[0] if whens else When.NEVER, photos=numbers[0], notes=numbers[1])


def _known(typed: Iterable[str], sort: type[_Word], place: str, wrong: list[InputError]) -> list[_Word]:
    words = list(typed)
    odd = [word for word in words if word not in tuple(sort)]
    wrong += [InputError(f"{word[:40]!r} found; one of {', '.join(sort)} is wanted", place=place) for word in odd]
    return [sort(word) for word in words if word not in odd]


def _numbers(typed: Sequence[str], place: str, wrong: list[InputError]) -> tuple[int, ...]:
    odd = [text for text in typed if not (text.isascii() and text.isdigit() and len(text) < 8)]
    wrong += [InputError(f"{text[:20]!r} found; the number of an entry is wanted", place=place) for text in odd]
    return tuple(dict.fromkeys(int(text) for text in typed if text not in odd))


def share_site(folder: Path, wish: Wish) -> AccountShown:
    """The account of a site.

    Args:
        folder: of the site
        wish: what was chosen

    Raises:
        InvalidPlan: a photo or note that is not there, or cannot be read as a picture.
        NotFoundError, StoreError, NewerFileError: as reading the site and its weather tells.
    """
    forecast = forecast_site(folder).answer.record
    site = open_site(folder)
    assert isinstance(forecast, Forecast)
    wrong: list[InputError] = []
    photos = _chosen(site, wish.photos, "photo", wrong)
    notes = _chosen(site, [each for each in wish.notes if each not in wish.photos], "note", wrong)
    pictures = [picture for each in photos if (picture := _picture(folder, each, wrong)) is not None]
    if wrong:
        raise InvalidPlan("what is shared", wrong)
    account = account_of(_known_of(site, forecast), wish, photos, notes)
    return AccountShown(account=account, pictures=tuple(pictures), site=site)


def offers_of(folder: Path) -> tuple[Offer, ...]:
    """Photos and notes of the log that may be chosen, the newest first; none where the log cannot be read."""
    site = open_site(folder)
    found = [each for entries in (_entries(site, "photo"), _entries(site, "note")) for each in entries[:OFFERED]]
    offers = {each.seq: Offer(each.seq, each.at[:10], each.text("text"), _photo_of(each)) for each in found}
    return tuple(sorted(offers.values(), key=lambda each: -each.number))


def write_account(shown: AccountShown, *, html: Path | None, pdf: Path | None) -> tuple[Path, ...]:
    """Write the files that are wished.

    Raises:
        StoreError: one cannot be written.
    """
    if html is not None:
        write_text(html, shown.html())
    if pdf is not None:
        write_bytes(pdf, shown.pdf())
    return tuple(each for each in (html, pdf) if each is not None)


@lru_cache(maxsize=4)
def _known_of(site: Site, forecast: Forecast) -> Known:
    counted, ledger = reckon_all(site), ledger_now(site)
    return Known(
        layout=site.layout, layers=frozenset(use.layer for line in counted.gathered.lines for use in line.uses),
        costs=counted.planned, ledger=ledger, forecast=forecast, lessons=site.lessons, cracks=_cracks(site, ledger),
        people=tuple(sorted({each.who for each in (*site.entries, *_entries(site, "photo"), *_entries(site, "note"))})),
    )  # fmt: skip


def _cracks(site: Site, ledger: Ledger | None) -> tuple[SharedCrack, ...]:
    """Every crack without its mark and place, its days counted from the first of the log."""
    if site.log_told:
        return ()
    with open_log(site.folder) as log:
        told = by_mark(log.entries(kind="crack", standing=True, limit=None))
    days = worked_days(ledger)
    readings = [each.at for crack in told for each in crack.readings]
    if not readings:
        return ()
    start = min(readings) if not days else _midnight(days[0])
    return tuple(_crack(each, start) for each in told)


def _midnight(day: date) -> float:
    return datetime.combine(day, datetime.min.time()).astimezone().timestamp()


def _crack(told: CrackTold, start: float) -> SharedCrack:
    widths = tuple(SharedWidth(each.at - start, each.width, each.spread) for each in told.readings)
    return SharedCrack(verdict=told.trend.verdict.value, widths=widths)


def _entries(site: Site, sort: str) -> tuple[Entry, ...]:
    """Entries that stand and have a photo, or words; the newest of a kind first."""
    if site.log_told:
        return ()
    kinds = [
        kind.name for kind in entry_kinds().values() if any(_is(field.sort, field.key, sort) for field in kind.fields)
    ]
    with open_log(site.folder) as log:
        found = [each for kind in kinds for each in log.entries(kind=kind, standing=True)]
    fits = _photo_of if sort == "photo" else (lambda each: each.text("text"))
    return tuple(sorted((each for each in found if fits(each)), key=lambda each: -each.seq))


def _is(of: Sort, key: str, sort: str) -> bool:
    return of is Sort.PHOTO if sort == "photo" else key == "text"


def _photo_of(entry: Entry) -> str:
    kind = entry_kinds().get(entry.kind)
    fields = kind.fields if kind is not None else ()
    return next((entry.text(field.key) for field in fields if field.sort is Sort.PHOTO and entry.text(field.key)), "")


def _chosen(site: Site, numbers: Sequence[int], sort: str, wrong: list[InputError]) -> list[Entry]:
    """The entries of these numbers, in the order they were chosen."""
    if not numbers:
        return []
    found = {each.seq: each for each in _entries(site, sort)}
    odd = [number for number in numbers if number not in found]
    what = "a photo" if sort == "photo" else "words of its own"
    wrong += [
        InputError(
            f"entry {number} found; the number of an entry that stands and has {what} is wanted: 'pinfold log list' "
            "shows them", place=sort,
        )
        for number in odd
    ]  # fmt: skip
    return [found[number] for number in numbers if number in found]


def _picture(folder: Path, entry: Entry, wrong: list[InputError]) -> PreparedPhoto | None:
    """The photo made anew from its points alone, so that nothing a camera or another program wrote goes along."""
    from pinfold.actions.taking import photo_bytes

    try:
        return replace(prepared_photo(photo_bytes(folder, _photo_of(entry)), longest=LONGEST), taken=None)
    except (NotFoundError, InputError) as fault:
        wrong.append(InputError(f"entry {entry.seq}: {fault}", place="photo"))
        return None
