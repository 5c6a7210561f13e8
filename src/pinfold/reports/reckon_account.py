"""An account to read: what was built, in how many days, what it took, what was learned, part by part."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pinfold.reports.account_chart import Bar, Picture, bars, crack_picture, length_picture
from pinfold.reports.pages import Block, Heading, Page, Paragraph, table
from pinfold.reports.reckon_ledger import hours
from pinfold.studies.account.making import DONE
from pinfold.studies.account.records import Account, Ahead, CostOfLength, Learned, SharedCrack, SharedWords
from pinfold.studies.cracks.records import CrackVerdict
from pinfold.units import METER, System, money, percent, show

_FOOT = 0.3048
_SLIGHT = 0.005
ADVICE = "Made with pinfold from a plan and a log. It is no advice: another ground, wind and code ask for another wall."


@dataclass(frozen=True, kw_only=True)
class Section:
    """One part of an account.

    Attributes:
        title: over it.
        texts: its paragraphs.
        picture: under them; None without.
        rows: what the picture's bars say; empty where it has none.
    """

    title: str
    texts: tuple[str, ...]
    picture: Picture | None = None
    rows: tuple[Bar, ...] = ()


def title_of(account: Account) -> str:
    """`An enclosure built by hand`, or the name of the plot where it is shared."""
    return account.name or "An enclosure built by hand"


def sections_of(account: Account, system: System) -> tuple[Section, ...]:
    """Everything that an account says, part by part; photos apart."""
    found = (_built(account, system), _hours(account), _costs(account), _length(account, system), cracks_told(account),
             _learned(account), _ahead(account), _notes(account), _missing(account))  # fmt: skip
    return tuple(each for each in found if each is not None)


def account_page(account: Account, system: System) -> Page:
    """The same for a terminal: bars as rows of figures, photos by their words."""
    blocks: list[Block] = []
    for section in sections_of(account, system):
        blocks += [Heading(text=section.title), *(Paragraph(text=text) for text in section.texts)]
        if section.rows:
            blocks.append(table(("of it", "share"), [(row.name, row.figure) for row in section.rows], right=(1,)))
    photos = [_photo(number, each) for number, each in enumerate(account.photos, start=1)]
    if photos:
        blocks += [Heading(text="photos"), *(Paragraph(text=text) for text in photos)]
    return Page(title=title_of(account), blocks=tuple(blocks))


def caption_of(words: SharedWords) -> str:
    """What stands under a photo; may be empty."""
    return ". ".join(part for part in (words.says.rstrip("."), words.when) if part)


def _photo(number: int, words: SharedWords) -> str:
    caption = caption_of(words)
    return f"Photo {number}: {caption}" if caption else f"Photo {number}"


def _built(account: Account, system: System) -> Section:
    texts = [f"{_done(account)} {_length_told(account, system)} of enclosure{_with(account)}."]
    if account.built:
        texts.append(f"Made of: {'; '.join(account.built)}.")
    if account.days:
        days = (
            f"{account.days} {_days(account.days)} of work in {account.lasted} {_days(account.lasted)} of the calendar"
        )
        texts.append(f"{days}, {account.when}." if account.when else f"{days}.")
    latitude = f"{account.coordinates[0]:.5f}°, {account.coordinates[1]:.5f}°" if account.coordinates else ""
    where = "; ".join(part for part in (account.place, latitude) if part)
    texts += [f"Where: {where}."] if where else []
    texts += [f"Built by {', '.join(account.people)}."] if account.people else []
    return Section(title="What was built", texts=tuple(texts))


def _length_told(account: Account, system: System) -> str:
    return show(account.length, METER, system, in_unit="ft" if system is System.US else "m")


def _done(account: Account) -> str:
    if account.done >= DONE:
        return "Built, all of it:"
    if account.done < _SLIGHT:
        return "Planned and not begun:"
    return f"Under way, {percent(account.done)} of the work done:"


def _with(account: Account) -> str:
    told = []
    if account.posts:
        told.append(f"{account.posts} {'post' if account.posts == 1 else 'posts'}")
    if account.gates:
        told.append(f"{account.gates} {'gate' if account.gates == 1 else 'gates'}")
    return f", with {' and '.join(told)}" if told else ""


def _hours(account: Account) -> Section | None:
    if account.took is None or not account.works:
        return None
    rows = [Bar(each.work, each.share, f"{hours(round(each.took))}, {percent(each.share)}") for each in account.works]
    says = "; ".join(f"{row.name} {row.figure}" for row in rows)
    text = f"{hours(round(account.took))} in all, of all people together."
    return Section(title="Hours by task", texts=(text,), picture=bars(rows, f"hours by task: {says}"), rows=tuple(rows))


def _costs(account: Account) -> Section | None:
    if not account.costs:
        return None
    rows = [
        Bar(each.layer, each.share, percent(each.share) if each.coins is None
            else f"{money(each.coins, '', account.digits)}, {percent(each.share)}")
        for each in account.costs
    ]  # fmt: skip
    known = [each.coins for each in account.costs if each.coins is not None]
    whole = f" {money(sum(known), account.currency, account.digits)} in all." if known else ""
    text = f"{'What was spent so far' if account.spent else 'What is planned'}, by layer.{whole}"
    says = "; ".join(f"{row.name} {row.figure}" for row in rows)
    picture = bars(rows, f"cost by layer: {says}")
    return Section(title="Cost by layer", texts=(text,), picture=picture, rows=tuple(rows))


def _length(account: Account, system: System) -> Section | None:
    cost = account.cost_of_length
    if cost is None:
        return None
    each = "a foot" if system is System.US else "a meter"
    of = _FOOT if system is System.US else 1.0
    planned = _amount(account, cost, 1.0, of) if cost.planned is not None else percent(1.0)
    low, likely, high = (_amount(account, cost, share, of) for share in cost.foreseen)
    spread = f"{likely}, {low} to {high}"
    text = f"Goods for {each} of enclosure: planned {planned}, foreseen in all {spread}, 8 times in 10."
    picture = length_picture(cost, planned, spread, each)
    return Section(title="Cost of a length", texts=(text,), picture=picture)


def _amount(account: Account, cost: CostOfLength, share: float, of: float) -> str:
    if cost.planned is None:
        return percent(share)
    return money(round(share * cost.planned * of), account.currency, account.digits)


def _crack(crack: SharedCrack) -> str:
    readings = "1 reading" if len(crack.widths) == 1 else f"{len(crack.widths)} readings"
    verdict = _CRACK.get(crack.verdict, crack.verdict)
    return f"{verdict}; {readings}, last {1e3 * crack.widths[-1].width:.2f} mm."


_CRACK = {
    CrackVerdict.MOVING.value: "still moving", CrackVerdict.DEAD.value: "not moving any more",
    CrackVerdict.NOT_SHOWN.value: "whether it still moves is not shown yet",
}  # fmt: skip
"""What readings say of a crack, for those who do not know how it was asked."""


def cracks_told(account: Account) -> Section | None:
    """What readings say of each crack; None without any."""
    if not account.cracks:
        return None
    texts = [f"Crack {number}: {_crack(crack)}" for number, crack in enumerate(account.cracks, start=1)]
    return Section(title="Cracks over time", texts=tuple(texts), picture=crack_picture(account.cracks))


def _learned(account: Account) -> Section | None:
    if not account.learned:
        return None
    return Section(title="What was learned", texts=tuple(learned_told(each) for each in account.learned))


def learned_told(each: Learned) -> str:
    """`Lay, time: 20 % more than thought, by 26 entries.`"""
    more = "more" if each.by > 0 else "less"
    entries = f"{each.entries} {'entry' if each.entries == 1 else 'entries'}"
    text = f"{each.what}, {each.topic}: {percent(abs(each.by))} {more} than thought, by {entries}."
    return f"{text[:1].upper()}{text[1:]}"


def _ahead(account: Account) -> Section | None:
    ahead = account.ahead
    if ahead is None:
        return None
    return Section(title="What is still to come", texts=(*_to_come(ahead),))


def _to_come(ahead: Ahead) -> Iterator[str]:
    if ahead.time is not None:
        low, likely, high = (hours(round(each / 3600) * 3600) for each in ahead.time)
        yield f"{likely} of work, {low} to {high}, 8 times in 10."
    if ahead.days is None:
        yield "When it will be done cannot be told."
    else:
        low, likely, high = (f"{each:.0f}" for each in ahead.days)
        yield f"Done in {likely} days of the calendar from now, {low} to {high}, 8 times in 10."


def _notes(account: Account) -> Section | None:
    texts = tuple(f"{each.when}: {each.says}" if each.when else each.says for each in account.notes)
    return Section(title="From the log", texts=texts) if texts else None


def _missing(account: Account) -> Section | None:
    texts = tuple(f"{each[:1].upper()}{each[1:]}." for each in account.missing)
    return Section(title="Not told", texts=texts) if texts else None


def _days(count: int) -> str:
    return "day" if count == 1 else "days"
