"""What an action hands to a door: the record it found and the page that says it."""

from __future__ import annotations

import json
from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.reports.pages import Page
from pinfold.reports.record import as_json as json_of
from pinfold.reports.terminal import text_of
from pinfold.units import System


@dataclass(frozen=True, kw_only=True)
class Answer:
    """An action's answer.

    Attributes:
        record: what was found, in SI.
        page: the same to read, in the plan's units.
        system: the plan's units.
    """

    record: object
    page: Page
    system: System


def told(answer: Answer, *, as_json: bool, width: int = 80) -> str:
    """The answer as text for a terminal or as JSON, with a line end."""
    if as_json:
        return json.dumps(json_of(answer.record), ensure_ascii=False, indent=2, allow_nan=False) + "\n"
    return text_of(answer.page, answer.system, width=width)


def as_html(answer: Answer, *, boxes: bool = False, titled: bool = True) -> str:
    """The answer as HTML for the middle of a page, in the plan's units.

    Args:
        answer: of a verb
        boxes: whether each row of a table gets a box to tick
        titled: whether it begins with its title
    """
    from pinfold.reports.html import html_of

    return html_of(answer.page, answer.system, boxes=boxes, titled=titled)


def as_cards(answer: Answer, *, address: str, only: str = "") -> tuple[str, tuple[str, ...]]:
    """The answer as HTML cards, one for each heading, and the names of all of them.

    Args:
        answer: of a verb
        address: what the address of a single card begins with
        only: name of the one card that is wanted; all when empty

    Raises:
        NotFoundError: no card of that name.
    """
    from pinfold.reports.html import cards_html

    html, names = cards_html(answer.page, answer.system, address=address, only=only)
    if only and only not in names:
        raise NotFoundError(f"there is no card {only!r}; there are {', '.join(names) or 'none'}")
    return html, names
