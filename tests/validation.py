"""The validation page: a row per outside check, made from the ROWS of tests/published.

`python tests/validation.py` writes docs/validation.md anew; a test holds the page to what the tests say.
"""

from __future__ import annotations

import importlib.util
import sys
from collections import Counter
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from rows import Row

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "docs" / "validation.md"
MOST_OF_ONE_TABLE = 10
GRADES = ("A", "A2", "R")
"""Grades that count as evidence."""
FIT = "B"
"""Grade of a row in which something was chosen so that the print comes out."""

_CHOOSING = ("carrying", "forecasts", "labor", "learning", "sensitivity", "weighing")
"""Subjects of what is weighed before and reckoned after."""
Rows = tuple[tuple[str, Row], ...]


@cache
def all_rows() -> Rows:
    """Every row with the subject of its test module, in order."""
    found: list[tuple[str, Row]] = []
    for path in sorted((ROOT / "tests" / "published").glob("test_*.py")):
        spec = importlib.util.spec_from_file_location(f"published_{path.stem}", path)
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules[spec.name] = module
        spec.loader.exec_module(module)
        found += [(path.stem.removeprefix("test_"), row) for row in getattr(module, "ROWS", ())]
    return tuple(found)


def why_not(rows: Rows) -> list[str]:
    """For each row why it does not count as evidence; empty where it does.

    A printed value counts once: rows of single formulas come first, and a row that walks the same value through a study
    does not count again.
    """
    answers = [_not_by_itself(row) for _, row in rows]
    tables: Counter[str] = Counter()
    seen: set[tuple[str, ...]] = set()
    for number in sorted(range(len(rows)), key=lambda number: not rows[number][1].formula):
        row = rows[number][1]
        if answers[number]:
            continue
        place, value = (
            (row.printed.source, row.printed.where, row.printed.digits),
            (row.printed.source, row.printed.digits),
        )
        if place in seen or (not row.formula and value in seen):
            answers[number] = "same value again"
        elif tables[row.table] == MOST_OF_ONE_TABLE:
            answers[number] = "more than ten of a table"
        else:
            tables[row.table] += 1
            seen |= {place, value}
    return answers


def _not_by_itself(row: Row) -> str:
    if row.printed.grade not in GRADES:
        return "a fit"
    if row.look_up:
        return "look-up"
    return "within an allowance" if row.method_error else ""


def counted(rows: Rows) -> int:
    """How many rows count as evidence."""
    return why_not(rows).count("")


def page(rows: Rows) -> str:
    """The whole page as text."""
    reasons = why_not(rows)
    left_out = Counter(reason for reason in reasons if reason)
    lines = [
        "# Validation: every check against something printed outside the project",
        "",
        "Made by `python tests/validation.py` from the rows in `tests/published/`; a test keeps it true. A row fits when ours",
        f"rounds to the printed digits. **{counted(rows)} rows count as evidence** of {len(rows)}; the others are run all the",
        "same and the column *counts* says why they prove less:",
        "",
        f"- look-up ({left_out['look-up']}): ours is a cell or a constant that pinfold carries itself, at most scaled. It guards",
        "  typing and look-up, not the figure.",
        f"- within an allowance ({left_out['within an allowance']}): the source rounds step by step, or prints what its own",
        "  figures do not give; the note says which.",
        f"- a fit ({left_out['a fit']}): something was chosen so that the print comes out.",
        f"- same value again ({left_out['same value again']}): one printed value counts once, also where a study walks through",
        "  an example whose formula was already checked.",
        f"- more than ten of a table ({left_out['more than ten of a table']}): ten rows of one table or example count at most.",
        "",
        f"For weighing and reckoning {_of(rows, reasons, _CHOOSING)} rows count: {', '.join(_CHOOSING)}.",
        "",
        "Grades: A inputs and answer read where published, A2 read through a transcription or another's copy, R read in the",
        "copy named, B a fit. Formulas for which no printed value was found, and why, stand at the end.",
        "",
        "| what | source | place | grade | printed | ours | difference | counts | note |",
        "|---|---|---|---|---|---|---|---|---|",
    ]
    for subject in dict.fromkeys(subject for subject, _ in rows):
        told = [(row, reason) for (name, row), reason in zip(rows, reasons, strict=True) if name == subject]
        count = sum(not reason for _, reason in told)
        lines.append(f"| **{subject.replace('_', ' ')}** | | | | | | | {count} of {len(told)} | |")
        lines += [_line(row, reason) for row, reason in told]
    return "\n".join([*lines, *_without_print()]) + "\n"


def _of(rows: Rows, reasons: Sequence[str], subjects: Sequence[str]) -> int:
    return sum(not reason for (name, _), reason in zip(rows, reasons, strict=True) if name in subjects)


def _line(row: Row, reason: str) -> str:
    ours, printed = row.ours(), row.printed.value
    difference = f"{ours / printed - 1:+.2%}" if printed else f"{ours - printed:+.3g}"
    note = row.note + (f" (allowed {row.method_error:.2g})" if row.method_error else "")
    cells = (
        row.what,
        row.printed.source,
        row.printed.where,
        row.printed.grade,
        row.printed.digits,
        f"{ours:.5g}",
        difference,
        reason or "yes",
        note,
    )
    return "| " + " | ".join(cell.replace("|", "/").replace("\n", " ").strip() for cell in cells) + " |"


def _without_print() -> list[str]:
    from proofs import WITHOUT_PRINT

    head = ["", "## Formulas without a printed value", "", "| formula | why, and what is tested instead |", "|---|---|"]
    return head + [f"| `{name}` | {reason} |" for name, reason in sorted(WITHOUT_PRINT.items())]


if __name__ == "__main__":
    PAGE.write_text(page(all_rows()), encoding="utf-8")
