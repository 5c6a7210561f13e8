"""Complaints about a file of many rows: those alike are told once, with all their lines."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping, Sequence
from itertools import count, groupby
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan

_NUMBER = re.compile(r"[-+]?(?:\d{1,12}\.?\d{0,12}|\.\d{1,12})(?:[eE][-+]?\d{1,2})?")
_MOST_RUNS = 6


class Wrong(NamedTuple):
    """Something wrong in a row.

    Attributes:
        line: of the file; the place in a list, from 1, where there are no lines.
        what: is wrong, alike for all rows that have it.
        found: the text that stands there.
    """

    line: int
    what: str
    found: str = ""


def refuse(name: str, wrongs: Iterable[Wrong], *, word: str = "line") -> None:
    """Stop at complaints; nothing where there are none.

    Args:
        name: of the file
        wrongs: in the order of the file
        word: for the place of a row

    Raises:
        InvalidPlan: all of them.
    """
    alike: dict[str, list[Wrong]] = {}
    for wrong in wrongs:
        alike.setdefault(wrong.what, []).append(wrong)
    if alike:
        raise InvalidPlan(name, [_told(rows, word) for rows in alike.values()])


def _told(rows: Sequence[Wrong], word: str) -> InputError:
    first = next((row.found for row in rows if row.found), "")
    found = f"{first[:40]!r} found; " if first else ""
    return InputError(f"{found}{rows[0].what}", place=runs_of([row.line for row in rows if row.line], word=word))


def runs_of(lines: Sequence[int], *, word: str = "line") -> str:
    """Lines as people tell them: `lines 9, 12 to 40`; empty for none."""
    if not lines:
        return ""
    step = count()
    runs = [list(run) for _, run in groupby(sorted(set(lines)), key=lambda line: line - next(step))]
    told = [f"{run[0]}" if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs[:_MOST_RUNS]]
    more = sum(len(run) for run in runs[_MOST_RUNS:])
    several = "s" if len(runs) > 1 or len(runs[0]) > 1 else ""
    return f"{word}{several} {', '.join(told)}{f' and {more} more' if more else ''}"


def number(text: str) -> float | None:
    """A plain number with a decimal point; None for anything else."""
    text = text.strip()
    if not _NUMBER.fullmatch(text):
        return None
    value = float(text)
    return value if math.isfinite(value) else None


def want(table: Mapping[str, object], key: str) -> float | None:
    """A finite number under a key of a JSON object; None where there is none."""
    value = table.get(key)
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return float(value) if abs(value) < 1e15 and math.isfinite(value) else None
