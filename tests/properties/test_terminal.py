from __future__ import annotations

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.findings import Finding
from pinfold.reports.pages import Block, Caution, Findings, Heading, Page, Paragraph, Table
from pinfold.reports.terminal import text_of
from pinfold.units import System

LETTERS = st.characters(codec="utf-8", exclude_categories=("Cs", "Zs", "Zl", "Zp", "Cc", "Cf", "Cn"))
WORDS = st.text(LETTERS, min_size=1, max_size=14)
TEXTS = st.lists(WORDS, max_size=14).map(" ".join)
WILD = st.text(max_size=80)


@st.composite
def tables(draw: st.DrawFn) -> Table:
    columns = draw(st.integers(1, 9))
    row = st.lists(TEXTS, min_size=columns, max_size=columns).map(tuple)
    places = st.integers(0, columns - 1)
    return Table(
        heads=draw(row),
        rows=tuple(draw(st.lists(row, max_size=5))),
        right=tuple(sorted(draw(st.sets(places)))),
        wide=draw(places),
        title=draw(TEXTS),
        note=draw(TEXTS),
    )


def findings(texts: st.SearchStrategy[str]) -> st.SearchStrategy[Findings]:
    numbers = st.none() | st.floats(0, 1e6)
    said = dict.fromkeys(("check", "subject", "because", "mend", "left_out", "caution"), texts)
    made = st.builds(Finding, demand=numbers, capacity=numbers, **said)
    return st.lists(made, max_size=2).map(lambda all_of_them: Findings(findings=tuple(all_of_them), working=True))


def blocks(texts: st.SearchStrategy[str]) -> st.SearchStrategy[Block]:
    simple = (st.builds(kind, text=texts) for kind in (Paragraph, Caution, Heading))
    return st.one_of(tables(), findings(texts), *simple)


@settings(max_examples=150, deadline=None)
@given(st.lists(blocks(TEXTS), max_size=3), TEXTS, st.integers(40, 120))
def test_no_line_is_longer_than_the_width_unless_a_single_word_is(inside: list[Block], title: str, width: int) -> None:
    for line in text_of(Page(title=title, blocks=tuple(inside)), System.METRIC, width=width).split("\n"):
        assert len(line) <= width or re.fullmatch(r" *(! )?[^ ]+", line)


@settings(max_examples=150, deadline=None)
@given(tables(), st.integers(40, 120))
def test_no_word_of_a_table_is_lost_or_cut(table: Table, width: int) -> None:
    printed = text_of(Page(title="t", blocks=(table,)), System.METRIC, width=width)
    shown = [word.rstrip(":") for word in printed.split()]

    for text in (cell for row in table.rows for cell in row):
        for word in text.split():
            assert word.rstrip(":") in shown


@settings(max_examples=150, deadline=None)
@given(blocks(WILD), WILD)
def test_nothing_printed_steers_the_terminal(block: Block, title: str) -> None:
    printed = text_of(Page(title=title, blocks=(block,)), System.US)

    assert all(letter == "\n" or letter.isprintable() or ord(letter) > 0x9F for letter in printed)
    assert "\x1b" not in printed
    assert "\u202e" not in printed
