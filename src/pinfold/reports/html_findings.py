"""Findings as HTML: verdict by word and sign, what acts and resists, why, the mend, the working with its sources."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pinfold.figures import Figure
from pinfold.findings import Finding, Step, Verdict, by_urgency
from pinfold.formulas.catalog import contract_named
from pinfold.reports.alike import Group, subjects
from pinfold.reports.binder.sources import STANDINGS, legend, sources_of
from pinfold.reports.binder.wording import equation_pieces
from pinfold.reports.html_text import named, safe
from pinfold.reports.pages import Findings
from pinfold.reports.questions import question_groups, telling
from pinfold.reports.sides import side
from pinfold.reports.working import line_of, pairs_of, shown
from pinfold.units import System

SORTS = {Verdict.HOLDS: "holds", Verdict.FAILS: "fails", Verdict.NOT_SHOWN: "open"}
"""Class of each verdict; the page's style puts a sign of its own before the word of each."""
_PLACES = {"on": "", "low": "sub", "high": "sup"}


def names_of(findings: Sequence[Finding]) -> tuple[str, ...]:
    """Names of findings, in the order given, for anchors and addresses; no two alike."""
    return named(f"{finding.check} {finding.subject}" for finding in findings)


def findings_html(block: Findings, system: System) -> Iterator[str]:
    """All findings by urgency, those of one question and verdict folded together; with working where it is wanted."""
    names = dict(zip(map(id, findings := by_urgency(block.findings)), names_of(findings), strict=True))
    for group in question_groups(findings):
        told = (
            line for finding in group
            for line in _finding(names[id(finding)], finding, system, working=block.working)
        )  # fmt: skip
        if len(group) == 1:
            yield from told
        else:
            yield f'<details class="alike"{" open" if block.working else ""}><summary>{_alike(group, system)}</summary>'
            yield from told
            yield "</details>"


def _finding(name: str, finding: Finding, system: System, *, working: bool) -> Iterator[str]:
    yield f'<details class="finding {SORTS[finding.verdict]}" id="{name}">'
    yield f"<summary>{_summary(finding, system)}</summary>"
    yield "<div>"
    yield from _told(finding)
    if working:
        yield from working_html(finding, system)
    elif finding.working or finding.figures:
        yield f'<p><a class="more" href="/stand/working/{name}">the working</a></p>'
    yield "</div></details>"


def _alike(group: Group, system: System) -> str:
    """A question asked of several things: of how many or which, and the one nearest its limit or past it most."""
    first, told = group[0], telling(group)
    if first.verdict is Verdict.NOT_SHOWN:
        one = 1 in (len({finding.because for finding in group}), len({finding.subject for finding in group}))
        where = f"{told.times}: {subjects(group)}" if one else told.times
    elif first.verdict is Verdict.FAILS:
        where = f"{told.times}, worst {told.worst}{_sides(first, system)}"
    else:
        where = f"{told.times}, nearest its limit {told.worst}"
    return _line(first, told.what, where)


def _line(finding: Finding, asks: str, where: str) -> str:
    what = f"<b>{safe(asks)}</b>, {safe(where)}"
    return f'{verdict_html(finding.verdict)}<span class="what">{what}</span><span class="use">{_share(finding)}</span>'


def verdict_html(verdict: Verdict) -> str:
    """The word of a verdict, marked by its class."""
    return f'<b class="verdict {SORTS[verdict]}">{verdict.value}</b>'


def _summary(finding: Finding, system: System) -> str:
    """Verdict, what was asked of what with both sides, and the share that is used."""
    return _line(finding, finding.check, f"{finding.subject}{_sides(finding, system)}")


def _sides(finding: Finding, system: System) -> str:
    if finding.use is None:
        return ""
    return f": {side(finding.demand, finding, system)} of {side(finding.capacity, finding, system)}"


def _share(finding: Finding) -> str:
    if finding.use is None:
        return ""
    return f"{finding.use:.0%}" if finding.use < 9.995 else "over 999%"


def _told(finding: Finding) -> Iterator[str]:
    if finding.because:
        yield f"<p>{safe(finding.because)}</p>"
    if finding.mend:
        yield f"<p><b>Mend:</b> {safe(finding.mend)}</p>"
    if finding.caution:
        yield f'<p class="caution">{safe(finding.caution)}</p>'


def working_html(finding: Finding, system: System) -> Iterator[str]:
    """The lines of working, the figures with source and standing, and what the check leaves out."""
    yield from worked_html(finding.working, finding.figures, system)
    if finding.left_out:
        yield f"<p>Left out: {safe(finding.left_out)}.</p>"


def worked_html(
    steps: Sequence[Step], figures: Sequence[tuple[str, Figure]], system: System
) -> Iterator[str]:  # fmt: skip
    """Lines of working, then the figures with source and standing."""
    if steps:
        yield '<ol class="working">'
        for step in steps:
            yield f"<li>{step_html(step, system)}</li>"
        yield "</ol>"
    if figures:
        yield '<p class="put">Figures:</p><ul class="put">'
        for name, figure in figures:
            yield f"<li>{_figure(name, figure, system)}</li>"
        yield "</ul>"


def step_html(step: Step, system: System) -> str:
    """What the formula gives, its equation, the figures put in, the result, the sources with their standing."""
    line = line_of(step, system)
    why = f" ({safe(line.why)})" if line.why else ""
    equation = f'<span class="equation">{equation_html(line.equation)}</span>' if line.equation else ""
    put_in = ", ".join(map(safe, line.put_in))
    pairs = pairs_of(contract_named(step.formula))
    sources = ", ".join(f"{safe(key)} ({STANDINGS[standing][0]})" for key, standing in pairs)
    return (
        f'<a href="/formula/{safe(line.name)}">{safe(line.says)}</a>{why}{equation}'
        f'<p class="put">{put_in} → <span class="gives">{safe(line.gives)}</span></p>'
        f'<p class="put source">{sources}</p>'
    )


def equation_html(equation: str) -> str:
    """An equation in plain symbols with its parts lowered and raised."""
    return "".join(
        f"<{tag}>{safe(text)}</{tag}>" if (tag := _PLACES[place]) else safe(text)
        for place, text in equation_pieces(equation)
    )


def _figure(name: str, figure: Figure, system: System) -> str:
    value = shown(figure.value, figure.unit, system)
    return (
        f'{safe(name)} {safe(value)} <span class="source">{safe(figure.source)} '
        f"({STANDINGS[figure.standing][0]})</span>"
    )


def references_html(findings: Sequence[Finding]) -> Iterator[str]:
    """What stands at the end of a page with findings: what each check does not look at, once, and the sources."""
    told = {finding.left_out: finding.check for finding in findings if finding.left_out}
    if told:
        yield '<h2 id="left-out">Left out</h2><ul>'
        for text, check in sorted(told.items(), key=lambda pair: (pair[1], pair[0])):
            yield f"<li><b>{safe(check)}</b>: {safe(text)}</li>"
        yield "</ul>"
    yield from sources_html(findings)


def sources_html(findings: Sequence[Finding]) -> Iterator[str]:
    """Every publication behind the findings, once, and what the standings mean."""
    rows = sources_of(findings).rows
    if not rows:
        return
    yield '<h2 id="sources">Sources</h2><dl class="figures">'
    for key, title, standing, _ in rows:
        yield f"<dt>{safe(key)}</dt><dd>{safe(title)} ({safe(standing)})</dd>"
    yield "</dl>"
    yield '<h3>How far a figure can be trusted</h3><dl class="figures">'
    for word, means in legend().rows:
        yield f"<dt>{safe(word)}</dt><dd>{safe(means)}</dd>"
    yield "</dl>"
