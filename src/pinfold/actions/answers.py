"""What an action hands to a door: the record it found and the page that says it."""

from __future__ import annotations

import json
from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pinfold.reports.pages import Caution, Heading, Page
from pinfold.reports.record import as_json as json_of
from pinfold.reports.terminal import text_of
from pinfold.units import System

if TYPE_CHECKING:
    from pinfold.actions.sites import Site


@dataclass(frozen=True, kw_only=True)
class Answer:
    """An action's answer.

    Attributes:
        record: what was found, in SI.
        page: the same to read, in the plan's units.
        system: the plan's units.
        cautions: what is to be known of it before it is used; mostly nothing.
    """

    record: object
    page: Page
    system: System
    cautions: tuple[str, ...] = ()


def answer_from(site: Site, record: object, page: Page) -> Answer:
    """The answer to a question about a site: in its units, with what is to be known of all its answers."""
    return Answer(record=record, page=page, system=site.plan.units, cautions=site.cautions)


def told(answer: Answer, *, as_json: bool, width: int = 80) -> str:
    """The answer as text for a terminal or as JSON, with a line end; its cautions come first."""
    if as_json:
        return json.dumps(_json_of(answer), ensure_ascii=False, indent=2, allow_nan=False) + "\n"
    cautions = tuple(Caution(text=text) for text in answer.cautions)
    return text_of(replace(answer.page, blocks=(*cautions, *answer.page.blocks)), answer.system, width=width)


def _json_of(answer: Answer) -> object:
    record = json_of(answer.record)
    if not answer.cautions:
        return record
    assert isinstance(record, dict), "what may have cautions is answered with a record"
    return {"cautions": list(answer.cautions), **record}


def as_html(answer: Answer, *, boxes: bool = False, titled: bool = True) -> str:
    """The answer as HTML for the middle of a page, in the plan's units.

    Args:
        answer: of a verb
        boxes: whether each row of a table gets a box to tick
        titled: whether it begins with its title
    """
    from pinfold.reports.html import html_of

    return html_of(answer.page, answer.system, boxes=boxes, titled=titled)


def as_folded(answer: Answer, *, unfolded: Collection[str] = ()) -> str:
    """The answer as HTML with jumps to its parts, long ones folded under their headings, without its title.

    Args:
        answer: of a verb, a long one
        unfolded: headings of long parts that are open all the same
    """
    from pinfold.reports.html_folded import folded_html

    return folded_html(answer.page, answer.system, unfolded=unfolded)


def as_opening(answer: Answer) -> str:
    """What the answer says before its first heading, as HTML for the middle of a page, without its title."""
    first = next((at for at, block in enumerate(answer.page.blocks) if isinstance(block, Heading)), None)
    return as_html(replace(answer, page=replace(answer.page, blocks=answer.page.blocks[:first])), titled=False)


def as_cards(answer: Answer) -> str:
    """The answer as HTML cards, one for each heading; what stands before the first is left out."""
    from pinfold.reports.html import cards_html

    return cards_html(answer.page, answer.system)
