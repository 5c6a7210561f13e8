"""Findings, quantities, cost and complaints as the few lines that stand beside the plan in the editor."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from pinfold.actions.reckonings import Reckoning
from pinfold.errors import InputError, InvalidPlan, PinfoldError
from pinfold.findings import Finding, Verdict, by_urgency, overall
from pinfold.reports.amounts import area, count, volume, water
from pinfold.reports.reckon_page import total_sentence
from pinfold.reports.sides import side
from pinfold.reports.stand_page import summary
from pinfold.studies.costing import Costs
from pinfold.studies.layout.records import Layout
from pinfold.studies.stability.subjects import gates_in, sides_in
from pinfold.units import METER, SQUARE_METER, System, money, show

Record = dict[str, object]
NAMED = 3
"""Things named on one line."""
SHOWN = 12
"""Findings beside the plan; all of them are on their own page."""


def complaint_records(error: PinfoldError) -> list[Record]:
    """Every complaint with its place."""
    if isinstance(error, InvalidPlan):
        return [{"place": problem.place, "message": problem.message} for problem in error.problems]
    if isinstance(error, InputError):
        return [{"place": error.place, "message": error.message}]
    return [{"place": "", "message": str(error)}]


def finding_records(findings: Iterable[Finding], layout: Layout) -> Record:
    """The verdict on the whole, how many of each, the worst of them, and the verdict on every side."""
    urgent = by_urgency(findings)
    counts = Counter(finding.verdict for finding in urgent)
    system, groups = layout.plan.units, _groups(urgent)
    by_side = {each.name: Verdict.HOLDS.value for each in layout.plan.sides}
    by_gate: dict[str, str] = {}
    for finding in reversed(urgent):  # the worst last, so that it stays
        for name in sides_in(finding, layout):
            by_side[name] = finding.verdict.value
        for name in gates_in(finding, layout):
            by_gate[name] = finding.verdict.value
    return {
        "verdict": overall(urgent).value, "sentence": summary(urgent),
        "counts": {verdict.value: counts[verdict] for verdict in Verdict},
        "worst": [_finding(group, layout, system) for group in groups[:SHOWN]],
        "more": sum(len(group) for group in groups[SHOWN:]), "by_side": by_side, "by_gate": by_gate,
    }  # fmt: skip


def _groups(findings: Iterable[Finding]) -> list[list[Finding]]:
    """Findings that say the same of several things, together; in the order of the first of each."""
    groups: dict[tuple[str, str, str, str], list[Finding]] = {}
    for finding in findings:
        key = (finding.verdict.value, finding.check, finding.because, finding.mend)
        alone = (*key[:2], finding.subject, key[3]) if finding.verdict is Verdict.FAILS else key
        groups.setdefault(alone, []).append(finding)
    return list(groups.values())


def _finding(group: Sequence[Finding], layout: Layout, system: System) -> Record:
    """One line: the worst of a group, and what else it is said of."""
    finding, names = group[0], [each.subject for each in group]
    others = len(names) - NAMED
    subject = ", ".join(names[:NAMED]) + (f" and {others} more" if others > 0 else "")
    acts, holds = side(finding.demand, finding, system), side(finding.capacity, finding, system)
    return {
        "verdict": finding.verdict.value, "check": finding.check, "subject": subject,
        "use": None if finding.use is None or finding.use > 1e6 else round(finding.use, 3),
        "acts": acts, "resists": holds, "because": finding.because, "mend": finding.mend,
        "caution": finding.caution,
        "sides": list(dict.fromkeys(name for each in group for name in sides_in(each, layout))),
    }  # fmt: skip


def quantity_lines(counted: Reckoning, layout: Layout) -> list[list[str]]:
    """A few amounts by which a builder judges a change: how much wall, mortar, posts, mesh, batches, trips."""
    system = layout.plan.units
    face = sum(
        stretch.length * (step.top - step.lowest_ground) * (step.end - step.start) / stretch.length
        for stretch in layout.stretches for step in stretch.steps if stretch.length > 0
    )  # fmt: skip
    mortar = _sum(counted, "mortar")
    mesh = sum(
        stretch.length * stretch.buildup.mesh.height for stretch in layout.stretches if stretch.buildup.mesh is not None
    )
    gathered = counted.gathered
    return [
        ["around", show(layout.perimeter, METER, system)],
        ["enclosed", show(layout.area, SQUARE_METER, system) if layout.area is not None else "open plot"],
        ["wall face, one side", area(face, system)],
        ["mortar", volume(mortar, system) if mortar else "none"],
        ["posts", count(len(layout.posts))],
        ["mesh showing", area(mesh, system)],
        ["batches to mix", count(sum(card.batches for card in counted.cards))],
        ["trips to the shop", _count(gathered.haulage.trips)],
        ["water in all", water(gathered.water.total, system)],
    ]


def _sum(counted: Reckoning, layer: str) -> float:
    return sum(
        one.gross for one in counted.quantities if one.layer == layer and one.is_known and one.unit.kind == "volume"
    )


def _count(number: int | None) -> str:
    return "not shown" if number is None else str(number)


def cost_record(costs: Costs, system: System) -> Record:
    """The total and what it leaves out."""
    return {
        "coins": costs.total, "digits": costs.digits, "currency": costs.currency,
        "text": money(costs.total, costs.currency, costs.digits) if costs.total else "not shown",
        "sentence": total_sentence(costs, system), "missing": list(costs.missing), "at_least": costs.is_at_least,
    }  # fmt: skip
