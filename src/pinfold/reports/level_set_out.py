"""Post bases and a first course set out, to read: cut and fill at each mark, and how high the string runs over it."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.reports.level_page import signed, survey_blocks
from pinfold.reports.pages import Block, Caution, Page, Paragraph, table
from pinfold.studies.leveling.records import Survey
from pinfold.studies.leveling.setting_out import SetOut, Wanted
from pinfold.studies.leveling.words import fine
from pinfold.tables.shelf import kind
from pinfold.units import METER, System, show


@dataclass(frozen=True, kw_only=True)
class SettingOut:
    """Marks set out to a level.

    Attributes:
        survey: that it rests on; None where no level was read.
        wanted: the level; None likewise.
        marks: in the order they were read.
        highest: mark of the highest ground; empty without marks.
        because: why nothing is shown.
    """

    survey: Survey | None
    wanted: Wanted | None
    marks: tuple[SetOut, ...]
    highest: str
    because: tuple[str, ...] = ()


def set_out_page(found: SettingOut, system: System) -> Page:
    """All of it."""
    blocks: list[Block] = [Paragraph(text=f"NOT SHOWN: {text}") for text in found.because]
    if found.survey is not None and found.wanted is not None:
        blocks += [*survey_blocks(found.survey, system), Paragraph(text=_wanted(found, system)), _marks(found, system)]
    return Page(title="Set out to a level", blocks=(*blocks, Caution(text=kind("cautions", "buried-lines").says)))


def _wanted(found: SettingOut, system: System) -> str:
    assert found.wanted is not None, "asked where there is one"
    wanted, datum = found.wanted, found.survey.datum if found.survey else ""
    string = f"The string runs {signed(wanted.string, system)} over {datum or 'the mark heights are written over'}"
    bed = f"the bed lies {show(wanted.down, METER, system)} under it"
    if wanted.course is None:
        return f"{string}; {bed}. Highest ground at {found.highest}."
    first = found.marks[0]
    rest = fine(first.rest or 0.0, system)
    return (
        f"{string}; {bed}: {first.courses} courses of {fine(wanted.course, system)} and {rest} for the first bed. "
        f"Highest ground at {found.highest}."
    )


def _marks(found: SettingOut, system: System) -> Block:
    rows = [
        (each.mark, fine(each.height, system), f"± {fine(each.spread, system)}", show(each.string, METER, system),
         f"cut {fine(each.cut, system)}" if each.cut >= 0 else f"fill {fine(-each.cut, system)}")
        for each in found.marks
    ]  # fmt: skip
    heads = ("mark", "ground", "give or take", "up to the string", "down to the bed")
    return table(heads, rows, right=(1, 2, 3, 4))
