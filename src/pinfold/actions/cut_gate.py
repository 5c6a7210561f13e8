"""One gate of a site to build: its leaf, swing, hinges, latch and years, its drawing, its sheets for the binder."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from, as_html
from pinfold.actions.drawing import drawing_svg, drawings
from pinfold.actions.sites import Site, open_site
from pinfold.drawings.naming import slug
from pinfold.errors import NotFoundError, OutOfRangeError, QuantityError
from pinfold.findings import Finding
from pinfold.plan.enclosure import Gate
from pinfold.reports.cut_gate import GateAnswer, gate_page, gate_sheet
from pinfold.reports.pages import Block, Heading, Paragraph
from pinfold.studies.gates.frame import framed
from pinfold.studies.gates.latching import latch_place
from pinfold.studies.gates.leaf import leaf_size
from pinfold.studies.gates.passing import gaps_of, passers
from pinfold.studies.gates.records import GateFrame, LeafWeight
from pinfold.studies.gates.sag import Sag, sag_of
from pinfold.studies.gates.swing import swing_ways
from pinfold.studies.gates.weight import leaf_weight
from pinfold.studies.layout.lie import lies
from pinfold.studies.stability.assess import assess
from pinfold.units import METER, read


def cut_gate(folder: Path, name: str, *, leaf: str = "", working: bool = False) -> Answer:
    """One gate to build.

    Args:
        folder: of the site
        name: of the gate
        leaf: width of a leaf on hand, as typed; one that fits the opening where empty
        working: whether the findings show their working

    Raises:
        NotFoundError: no such gate, or its frame is not known.
        OutOfRangeError: nothing is left between its members.
        InputError: a leaf that is wider than the opening takes, or no length.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    found = told_of(site, _gate(site, name), leaf=leaf)
    return answer_from(site, found, gate_page(found, working=working))


@dataclass(frozen=True, kw_only=True)
class GateShown:
    """What a page shows.

    Attributes:
        title: of the answer.
        names: of all gates of the plan.
        drawing: name of the leaf's drawing; empty where there is none.
        svg: the same, drawn.
        body: the answer.
    """

    title: str
    names: tuple[str, ...]
    drawing: str
    svg: str
    body: str


def gate_shown(folder: Path, name: str, *, working: bool) -> GateShown:
    """The same for a page; raises as `cut_gate`."""
    answer = cut_gate(folder, name, working=working)
    drawing = next((each.name for each in drawings(folder) if each.name == slug("leaf", name)), "")
    return GateShown(
        title=answer.page.title, names=gate_names(folder), drawing=drawing,
        svg=drawing_svg(folder, drawing) if drawing else "", body=as_html(answer, titled=False),
    )  # fmt: skip


def gate_names(folder: Path) -> tuple[str, ...]:
    """Names of all gates of a site's plan; raises as reading the site tells."""
    return tuple(gate.name for gate in open_site(folder).plan.gates)


def gate_sheets(site: Site) -> tuple[Block, ...]:
    """Every gate for the binder, without its findings, which stand in another part of it."""
    blocks: list[Block] = []
    for gate in site.plan.gates:
        blocks.append(Heading(text=gate.name))
        try:
            blocks += [block for block in gate_sheet(told_of(site, gate)) if not isinstance(block, Heading)]
        except (NotFoundError, OutOfRangeError) as missing:
            blocks.append(Paragraph(text=f"NOT SHOWN: {missing}."))
    return tuple(blocks)


def told_of(site: Site, gate: Gate, *, leaf: str = "") -> GateAnswer:
    """All that is told of one gate; raises as `cut_gate`."""
    place, system = site.layout.gates[gate.name], site.plan.units
    frame = framed(gate, leaf_size(gate, system, own=_own(leaf)))
    lie = next(lie for lie in lies(site.plan) if lie.side.name == gate.side)
    gaps = gaps_of(frame, place)
    sag, because = _sag(frame)
    return GateAnswer(
        name=gate.name, frame=frame, weight=_weight(gate), ways=swing_ways(site.plan, gate, lie),
        raised=max(place.hang - place.sill - gate.under, 0.0),
        latch=latch_place(frame, place), gaps=gaps, passers=passers(gaps), sag=sag, sag_because=because,
        findings=_findings(site, gate),
    )  # fmt: skip


def _gate(site: Site, name: str) -> Gate:
    found = next((gate for gate in site.plan.gates if gate.name == name), None)
    if found is None:
        names = ", ".join(gate.name for gate in site.plan.gates)
        raise NotFoundError(f"there is no gate {name!r}; there are {names or 'none'}")
    return found


def _own(text: str) -> float | None:
    if not text.strip():
        return None
    found = read(text, like=METER, place="leaf")
    if found <= 0:
        raise QuantityError(
            f"{text!r} found; the width of a leaf is wanted, such as '2 ft 11 in' or '88 cm'", place="leaf"
        )
    return found


def _weight(gate: Gate) -> LeafWeight | None:
    try:
        return leaf_weight(gate)
    except (NotFoundError, OutOfRangeError):
        return None


def _sag(frame: GateFrame) -> tuple[Sag | None, str]:
    try:
        return sag_of(frame), ""
    except (NotFoundError, OutOfRangeError) as missing:
        return None, str(missing)


def _findings(site: Site, gate: Gate) -> tuple[Finding, ...]:
    subject = f"gate {gate.name}"
    return tuple(
        finding for finding in assess(site.layout)
        if finding.subject == subject or finding.subject.startswith(f"{subject},")
    )  # fmt: skip
