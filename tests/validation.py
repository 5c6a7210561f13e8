"""The validation page: a row per outside check, made from the ROWS of tests/published.

`python tests/validation.py` writes docs/validation.md anew; a test holds the page to what the tests say.
"""

from __future__ import annotations

import importlib.util
import sys
from collections import Counter
from pathlib import Path

from rows import Row

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "docs" / "validation.md"
MOST_OF_ONE_TABLE = 10
GRADES = ("A", "A2", "R")


def all_rows() -> list[tuple[str, Row]]:
    """Every row with the subject of its test module, in order."""
    found = []
    for path in sorted((ROOT / "tests" / "published").glob("test_*.py")):
        spec = importlib.util.spec_from_file_location(f"published_{path.stem}", path)
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules[spec.name] = module
        spec.loader.exec_module(module)
        found += [(path.stem.removeprefix("test_"), row) for row in getattr(module, "ROWS", ())]
    return found


def counted(rows: list[tuple[str, Row]]) -> int:
    """How many rows count as evidence: graded, within the print, at most ten of one table, each printed value once."""
    tables: Counter[str] = Counter()
    seen = set()
    for _, row in rows:
        key = (row.printed.source, row.printed.where, row.printed.digits, row.formula)
        if row.printed.grade in GRADES and not row.method_error and key not in seen:
            tables[row.table] += 1
            seen.add(key)
    return sum(min(count, MOST_OF_ONE_TABLE) for count in tables.values())


def page(rows: list[tuple[str, Row]]) -> str:
    """The whole page as text."""
    lines = [
        "# Validation: every check against something printed outside the project",
        "",
        "Made by `python tests/validation.py` from the rows in `tests/published/`; a test keeps it true. Grades: A inputs",
        "and answer read where published, A2 read through a transcription, R read in the copy named. A row fits when ours",
        "rounds to the printed digits; where a source rounds step by step or states an error of its method, the allowance",
        f"is told. At most ten rows of one table count: **{counted(rows)} rows count** of {len(rows)}. Rows that read a cell",
        "of a table pinfold carries guard typing and look-up, not the table itself.",
        "",
        "| what | source | place | grade | printed | ours | difference | note |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for subject in dict.fromkeys(subject for subject, _ in rows):
        lines.append(f"| **{subject.replace('_', ' ')}** | | | | | | | |")
        lines += [_line(row) for name, row in rows if name == subject]
    return "\n".join(lines) + "\n"


def _line(row: Row) -> str:
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
        note,
    )
    return "| " + " | ".join(cell.replace("|", "/").replace("\n", " ").strip() for cell in cells) + " |"


if __name__ == "__main__":
    PAGE.write_text(page(all_rows()), encoding="utf-8")
