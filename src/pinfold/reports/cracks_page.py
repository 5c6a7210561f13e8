"""Cracks to read: each by its mark with its readings and whether it moves; and one as a photo shows it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from pinfold.imaging.crack_records import CrackProfile
from pinfold.reports.crack_chart import chart
from pinfold.reports.crack_trace import LEGEND
from pinfold.reports.html import html_of
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, table
from pinfold.studies.cracks.records import CrackReading, CrackTrend
from pinfold.studies.cracks.widths import CrackWords
from pinfold.units import CELSIUS, METER, Meter, System, show

_CAUTION = (
    "A width says nothing of whether a wall stands. Keep off a wall that leans, bulges or opens fast, and show it "
    "to someone competent; the local code and a licensed engineer have the last word."
)
_MOST_ROWS = 40


@dataclass(frozen=True, kw_only=True)
class CrackTold:
    """One crack by its mark.

    Attributes:
        mark: of it.
        place: where it is; empty when nobody said.
        readings: in the order they were taken.
        trend: what they say together.
        means: what the last width means.
    """

    mark: str
    place: str
    readings: tuple[CrackReading, ...]
    trend: CrackTrend
    means: CrackWords


def cracks_page(cracks: Sequence[CrackTold], system: System) -> Page:
    """All cracks, those that move first."""
    blocks = [block for crack in cracks for block in _blocks(crack, system)]
    if not cracks:
        blocks.append(Paragraph(text="No crack has been measured yet. Print the scale card, or use a crack gauge."))
    return Page(title="Cracks", blocks=(*blocks, Caution(text=_CAUTION)))


def cracks_html(cracks: Sequence[CrackTold], system: System) -> str:
    """The same as HTML, with the picture of each crack's widths over time."""
    whole = cracks_page(cracks, system)
    rest = whole.blocks[-1:] if cracks else whole.blocks
    parts = [html_of(Page(title=whole.title, blocks=()), system)]
    for crack in cracks:
        told = html_of(Page(title="", blocks=tuple(_blocks(crack, system))), system, titled=False)
        heading, end, rows = told.partition("</h2>")
        parts.append(f"{heading}{end}\n{chart(crack.readings, crack.trend)}{rows}")
    return "\n".join([*parts, html_of(Page(title="", blocks=rest), system, titled=False)])


def _blocks(crack: CrackTold, system: System) -> list[Block]:
    where = f", {crack.place}" if crack.place else ""
    return [
        Heading(text=f"Crack {crack.mark}{where}: {crack.trend.verdict}"),
        Paragraph(text=f"{crack.trend.says}."),
        *(Paragraph(text=f"{note[0].upper()}{note[1:]}.") for note in crack.trend.notes),
        Paragraph(text=crack.means.says),
        _readings(crack.readings, system),
    ]


def _readings(readings: Sequence[CrackReading], system: System) -> Table:
    rows = [
        (
            datetime.fromtimestamp(each.at, UTC).strftime("%Y-%m-%d"),
            fine(each.width, system),
            f"± {fine(each.spread, system)}",
            "" if each.temperature_c is None else show(each.temperature_c, CELSIUS, system),
        )
        for each in readings[-_MOST_ROWS:]
    ]
    note = f"The last {_MOST_ROWS} of {len(readings)} readings." if len(readings) > _MOST_ROWS else ""
    return table(("day", "width", "give or take", "wall"), rows, right=(1, 2, 3), note=note)


def profile_page(profile: CrackProfile, means: CrackWords, system: System, *, told: Sequence[str] = ()) -> Page:
    """What one photo shows of a crack.

    Args:
        profile: as measured
        means: its width in words
        system: the plan's units
        told: what became of it
    """
    rows = [
        ("middle width", fine(profile.median, system)),
        ("give or take", fine(profile.spread, system)),
        ("widest, over 3 mm", fine(profile.largest, system)),
        ("95 of 100 parts are under", fine(profile.high, system)),
        ("traced", show(profile.length, METER, system)),
        ("a pixel of the photo", fine(profile.pixel, system)),
    ]
    blocks: list[Block] = [table(("what", "measured"), rows, right=(1,))]
    blocks += [Paragraph(text=f"{note[0].upper()}{note[1:]}.") for note in profile.notes]
    blocks += [Paragraph(text=text) for text in (means.says, *told)]
    return Page(title="A crack in a photo", blocks=(*blocks, Caution(text=_CAUTION)))


def profile_html(page: Page, drawing: str, system: System) -> str:
    """The same as HTML, with the drawing of what was traced under the figures."""
    figures, *rest = page.blocks
    return "\n".join([
        html_of(Page(title=page.title, blocks=(figures,)), system),
        f'<figure class="traced"><div class="drawing">{drawing}</div><figcaption>{LEGEND}</figcaption></figure>',
        html_of(Page(title="", blocks=tuple(rest)), system, titled=False),
    ])  # fmt: skip


def fine(length: Meter, system: System) -> str:
    """A width of a crack in millimeters, as gauges have it; in a US plan the inches beside it."""
    told = f"{1e3 * length:.2f} mm"
    return f"{told} ({length / 0.0254:.3f} in)" if system is System.US else told
