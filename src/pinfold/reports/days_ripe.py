"""When what was placed is strong enough, to read."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from pinfold.reports.mix_strength import age_words, stress
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, table
from pinfold.studies.ripening.records import Ripening
from pinfold.tables.shelf import kind
from pinfold.units import System

_HOW = (
    "Each hour counts by how warm it is: as much as an hour at 20 °C (68 °F) would, by three published methods. "
    "'Count on' takes weak batches and the slowest method, 'soonest' strong ones and the quickest. Where a time is "
    "asked, it is waited too."
)
_LEFT_OUT = (
    "Left out: the warmth that thick concrete makes itself, covers and blankets, drying out (kept damp is meant), "
    "frost that already harmed it, and how well it was mixed. Try it with a nail before you load it."
)
_NOTHING = "The plan places nothing that hardens."
_HOUR = 3600.0
MARK, DONE, LATER = "~", "✓", "later"


def ripe_page(
    found: Sequence[Ripening], told: Sequence[str], *, asked: str, left: int, now: datetime, system: System
) -> Page:  # fmt: skip
    """All that was placed, the newest first."""
    title = "When it is strong enough"
    if not found:
        return Page(title=title, blocks=(Paragraph(text=_NOTHING),))
    blocks: list[Block] = [Paragraph(text=_asked(asked, found)), *(Paragraph(text=text) for text in told)]
    for each in found:
        blocks += [Heading(text=heading(each)), *ripening_blocks(each, now=now, system=system)]
    if left:
        blocks.append(Paragraph(text=f"{left} older ones are not told; name a place, layer or mix."))
    blocks += [Paragraph(text=_HOW), Paragraph(text=_LEFT_OUT), Caution(text=kind("cautions", "green-wall").says)]
    return Page(title=title, blocks=tuple(blocks))


def _asked(asked: str, found: Sequence[Ripening]) -> str:
    if not asked:
        return "What the log says was placed, the last of each mix at each place."
    return f"As if it were placed on {when(found[0].placed)}: nothing of it is taken from the log."


def heading(each: Ripening) -> str:
    """What, where and when."""
    what = each.coat or each.layer
    where = " ".join(part for part in (each.place, each.face) if part)
    return f"{what} of {each.mix}" + (f", {where}" if where else "") + f", {when(each.placed)}"


def ripening_blocks(each: Ripening, *, now: datetime, system: System) -> tuple[Block, ...]:
    """How strong it is now, and when what may be done."""
    now_told = _now(each, system)
    return (*((Paragraph(text=now_told),) if now_told else ()), _table(each, now))


def _now(each: Ripening, system: System) -> str:
    if each.known_to is None:
        return "No weather is known from its placing on: when it is ready is NOT SHOWN."
    parts = []
    if each.age is not None and each.age >= _HOUR:
        parts.append(f"It is as old as {age_words(each.age)} at 20 °C (68 °F)")
    if each.strength is not None and each.strength_low is not None:
        parts.append(f"about {stress(each.strength, system)} now, {stress(each.strength_low, system)} if weak")
    parts.append("reckoned by the warmth of its face where that is known" if each.by_face else "reckoned by the air")
    parts.append(f"hours are known to {when(each.known_to)}")
    text = "; ".join(parts)
    return f"{text[:1].upper()}{text[1:]}."


def _table(each: Ripening, now: datetime) -> Table:
    rows = [
        (ripe.says, _cell(each, _nearest(ripe.soonest), now), _cell(each, _nearest(ripe.likely), now),
         "never" if ripe.never and ripe.latest is None else _cell(each, _up(ripe.latest), now), ripe.standing.value)
        for ripe in each.ripe
    ]  # fmt: skip
    text = "".join(cell for row in rows for cell in row[1:4])
    marks = [note for mark, note in _MARKS.items() if mark in text]
    return table(("for", "soonest", "likely", "count on", "standing"), rows, note=" ".join(marks))


_MARKS = {
    MARK: f"{MARK} hangs on hours of a usual year, or filled in.", DONE: f"{DONE} it is so far.",
    LATER: f"'{LATER}': past the hours that are known.", "never": "'never': weak batches of this mix do not get there.",
}  # fmt: skip


def _cell(each: Ripening, moment: datetime | None, now: datetime) -> str:
    if moment is None:
        return "NOT SHOWN" if each.known_to is None else LATER
    sure = each.foreseen_to is not None and moment <= each.foreseen_to
    return ("" if sure else MARK) + when(moment) + (f"\u00a0{DONE}" if moment <= now else "")


def _nearest(moment: datetime | None) -> datetime | None:
    return None if moment is None else _up(moment - timedelta(minutes=30))


def _up(moment: datetime | None) -> datetime | None:
    """The full hour at or after a moment."""
    if moment is None:
        return None
    full = moment.replace(minute=0, second=0, microsecond=0)
    return full if full == moment else full + timedelta(hours=1)


def when(moment: datetime) -> str:
    """A day and an hour, with spaces that never break."""
    return f"{moment:%a}\u00a0{moment:%m-%d}\u00a0{moment:%H:%M}"
