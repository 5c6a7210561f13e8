"""Words as the typesetter gets them: clean, breakable where they are overlong, equations with their raised parts."""

from __future__ import annotations

import re
from collections.abc import Iterable

from pinfold.reports.printable import printable

BREAK = "\u200b"
"""A place without width where an overlong word may break."""
HOLD = "\u00a0"
"""A space at which no line breaks."""
_HELD = re.compile(r"(?<=\d) (?=(?:in|ft|yd|mi|gal|lb|lbf|psf|psi|mph|mm|cm|km|m|g|kg|t|L|mL|N|kN|Pa|kPa|MPa)[²³]?\b)")
IN_TEXT = 44
"""Letters of a word in running text from which it may break anywhere."""
IN_CELL = 24
"""The same in a cell of a table."""
_RAISED = re.compile(r"_([^\W_]+)|\^(−?[^\W_]+(?:\.\d+)?|\([^()^_]*\))")


def worded(text: str, *, longest: int = IN_TEXT) -> str:
    """A text on one line that holds figure and unit together and whose overlong words may break."""
    return re.sub(rf"\S{{{longest},}}", lambda word: BREAK.join(word[0]), _HELD.sub(HOLD, printable(text)))


def opened(text: str) -> str:
    """A text whose first letter is large, as at the start of a sentence or a heading."""
    return f"{text[:1].upper()}{text[1:]}"


def all_worded(texts: Iterable[str]) -> list[str]:
    """Every text that says something."""
    return [worded(text) for text in texts if text.strip()]


def equation_pieces(equation: str) -> list[list[str]]:
    """An equation in plain symbols as pieces: place (`on`, `low`, `high`) and text; `V_w` gives V and a low w."""
    pieces, end = [], 0
    for match in _RAISED.finditer(equation):
        pieces.append(["on", equation[end : match.start()]])
        pieces.append(["low", match[1]] if match[1] else ["high", match[2].removeprefix("(").removesuffix(")")])
        end = match.end()
    pieces.append(["on", equation[end:]])
    return [[place, worded(text)] for place, text in pieces if text]
