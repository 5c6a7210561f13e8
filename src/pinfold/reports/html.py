"""Pages as HTML: the same blocks as on paper and in the terminal, each finding open to its working."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from pinfold.findings import Finding, Verdict, by_urgency
from pinfold.reports.pages import Block, Caution, Findings, Heading, Page, Paragraph, Table
from pinfold.reports.terminal import numbers_of
from pinfold.reports.working import line_of
from pinfold.units import System

_CLASS = {Verdict.HOLDS: "holds", Verdict.FAILS: "fails", Verdict.NOT_SHOWN: "open"}


def html_of(page: Page, system: System) -> str:
    """The whole page as HTML for inside `main`; every text is escaped."""
    parts = [f"<h1>{escape(page.title)}</h1>"]
    for block in page.blocks:
        parts.extend(_block(block, system))
    return "\n".join(parts) + "\n"


def _block(block: Block, system: System) -> Iterator[str]:
    if isinstance(block, Heading):
        yield f"<h2>{escape(block.text)}</h2>"
    elif isinstance(block, Paragraph):
        yield f"<p>{escape(block.text)}</p>"
    elif isinstance(block, Caution):
        yield f'<p class="caution">{escape(block.text)}</p>'
    elif isinstance(block, Table):
        yield from _table(block)
    else:
        yield from _findings(block, system)


def _table(table: Table) -> Iterator[str]:
    if not table.rows:
        return
    yield (
        '<div class="sheet" tabindex="0" role="region" aria-label="' + escape(table.title or "table", quote=True) + '">'
    )
    yield "<table>"
    if table.title:
        yield f"<caption>{escape(table.title)}</caption>"
    yield f"<thead><tr>{''.join(_cell(text, place, table, 'th') for place, text in enumerate(table.heads))}</tr></thead>"
    yield "<tbody>"
    for row in table.rows:
        yield f"<tr>{''.join(_cell(text, place, table, 'td') for place, text in enumerate(row))}</tr>"
    yield "</tbody></table></div>"
    if table.note:
        yield f'<p class="note">{escape(table.note)}</p>'


def _cell(text: str, place: int, table: Table, tag: str) -> str:
    side = ' class="figure"' if place in table.right else ""
    scope = ' scope="col"' if tag == "th" else ""
    return f"<{tag}{scope}{side}>{escape(text)}</{tag}>"


def _findings(block: Findings, system: System) -> Iterator[str]:
    for finding in by_urgency(block.findings):
        yield from _finding(finding, system)


def _finding(finding: Finding, system: System) -> Iterator[str]:
    verdict = finding.verdict
    yield f'<details class="finding {_CLASS[verdict]}">'
    head = f"{finding.check}, {finding.subject}{numbers_of(finding, system)}"
    yield f'<summary><b class="verdict">{verdict.value}</b> {escape(head)}</summary>'
    for text in (finding.because, finding.mend and f"Mend: {finding.mend}"):
        if text:
            yield f"<p>{escape(text)}</p>"
    if finding.caution:
        yield f'<p class="caution">{escape(finding.caution)}</p>'
    if finding.working:
        yield '<ol class="working">'
        for step in finding.working:
            line = line_of(step, system)
            equation = f" <code>{escape(line.equation)}</code>" if line.equation else ""
            yield f"<li>{escape(line.says)}{equation} {escape(', '.join(line.put_in))} → <b>{escape(line.gives)}</b></li>"
        yield "</ol>"
    yield "</details>"
