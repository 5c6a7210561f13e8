"""Which piece gives which parts: what to buy, and the cuts of every piece in their order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from pinfold.plan.cutting import Cutting
from pinfold.plan.stock import Prices
from pinfold.reports.cut_words import cautions, fine, lacking, sure
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, table
from pinfold.studies.cutting.records import Proof
from pinfold.studies.cutting.sawing import Falls
from pinfold.studies.parts.sawn import CutStep, PieceCut, SectionCut
from pinfold.studies.quantities.records import Part
from pinfold.units import System, money

HOW = (
    "Lay each piece as its flaws are measured, left end to the left, and cut from that end on. 'measure' runs from the "
    "end that the last cut left fresh to the next mark, along the lower edge; 'tape' is the same with the tape lying "
    "along the whole piece, kerfs in it. The blade goes to the right of every mark. Write the code on what falls to "
    "the left before you saw."
)
HEADS = ("piece", "out of", "measure", "tape", "gives", "what and where")


def pieces_page(
    name: str, sections: Sequence[SectionCut], parts: Mapping[str, Part], *, prices: Prices, cutting: Cutting,
    system: System, told: tuple[str, ...] = (),
) -> Page:  # fmt: skip
    """The whole cut plan; `told` is what else is to be known first."""
    blocks: list[Block] = [Paragraph(text=text) for text in (*told, *opening(sections, prices, cutting, system))]
    blocks += [Caution(text=text) for text in cautions(cutting)]
    if to_buy := buying(sections, prices, system):
        blocks.append(to_buy)
    for section in sections:
        blocks += section_blocks(section, parts, prices, system)
    return Page(title=f"{name}: which piece gives which parts", blocks=tuple(blocks))


def opening(
    sections: Sequence[SectionCut], prices: Prices, cutting: Cutting, system: System
) -> Iterator[str]:  # fmt: skip
    """What it costs, how sure that is, what is reckoned with."""
    if not sections:
        yield "Nothing is to be cut from lengths."
        return
    spent, least = sum(each.money for each in sections), sum(each.bound for each in sections)
    proof = Proof.OPTIMUM if all(each.proof is Proof.OPTIMUM for each in sections if each.priced) else Proof.GAP
    pieces = sum(piece.times for each in sections for piece in each.pieces)
    old = sum(piece.times for each in sections for piece in each.pieces if piece.row is not None)
    cuts = sum(each.sawn for each in sections)
    costs = money(spent, prices.currency, prices.digits)
    yield (
        f"{pieces} pieces are cut, {old} of them from the pile, with {cuts} cuts; new lengths cost {costs}. "
        + sure(proof, spent, least, currency=prices.currency, digits=prices.digits)
    )
    kerf, trim, keep = (fine(each, system) for each in (cutting.kerf, cutting.trim, cutting.keep))
    yield f"Reckoned with {kerf} for a cut, {trim} off a raw end; offcuts from {keep} on are kept."
    yield HOW


def buying(sections: Sequence[SectionCut], prices: Prices, system: System) -> Table | None:
    """New lengths to buy; None where none are."""
    rows = []
    for section in sections:
        for each in section.to_buy:
            cost = money(each.price * each.count, prices.currency, prices.digits) if each.price else "no price listed"
            rows.append((each.item, str(each.count), fine(each.length, system), cost))
    if not rows:
        return None
    return table(("to buy", "how many", "length", "cost"), rows, right=(1, 2, 3), title="New lengths")


def section_blocks(
    section: SectionCut, parts: Mapping[str, Part], prices: Prices, system: System
) -> list[Block]:  # fmt: skip
    """One section: its proof, what cannot be cut, its cuts."""
    kept = fine(section.kept, system) if section.kept else "nothing"
    spent = money(section.money, prices.currency, prices.digits)
    buys = f"{spent} of new lengths" if section.priced else "No price is listed: the least length is bought"
    told = f"{buys}; {section.sawn} cuts, {kept} of offcuts kept."
    if section.proof is Proof.GAP:
        told += " " + (
            sure(section.proof, section.money, section.bound, currency=prices.currency, digits=prices.digits)
            if section.priced else "Not proven in the time given: less length may do."
        )  # fmt: skip
    blocks: list[Block] = [Heading(text=section.says), Paragraph(text=told)]
    blocks += [Paragraph(text=lacking(each, system)) for each in section.uncut]
    rows = [row for piece in section.pieces for row in rows_of(piece, parts, system)]
    if rows:
        blocks.append(table(HEADS, rows, right=(2, 3), wide=5, note=_pile_note(section, system)))
    return blocks


def rows_of(piece: PieceCut, parts: Mapping[str, Part], system: System) -> Iterator[tuple[str, ...]]:
    """A row for each thing that falls off a piece, each with its code; waste at its end is left out."""
    times = f" x {piece.times}" if piece.times > 1 else ""
    head = (piece.code + times, out_of(piece, system))
    for step in piece.steps:
        if step.falls is Falls.WASTE and not step.sawn:
            continue
        yield (*head, *_at(step, system), step.code or "waste", what_of(step, parts, system))
        head = (piece.code, "")


def _at(step: CutStep, system: System) -> tuple[str, str]:
    """Where a cut is, from the fresh end and on the tape; the wedge off a slanting end begins at its corner."""
    if not step.sawn:
        return "to its end", ""
    return fine(step.measure, system) if step.measure > 0 else "its corner", fine(step.running, system)


def out_of(piece: PieceCut, system: System) -> str:
    """`pile 3, 12'` by its row, or `new 20'`."""
    length = fine(piece.length, system)
    return f"pile {piece.row}, {length}" if piece.row else f"new {length}"


def _pile_note(section: SectionCut, system: System) -> str:
    """What else is known of the rows of the pile that are cut from, each once."""
    rows = {piece.row: piece for piece in section.pieces if piece.row is not None}
    told = []
    for row, piece in sorted(rows.items()):
        flaws = (f"{flaw.kind} {fine(flaw.start, system)} to {fine(flaw.end, system)}" for flaw in piece.flaws)
        words = "; ".join([piece.item, *([piece.says] if piece.says else []), *flaws])
        told.append(f"pile {row}: {words}.")
    return " ".join(told)


def what_of(step: CutStep, parts: Mapping[str, Part], system: System) -> str:
    """What falls off and where it goes; how a slanting cut runs."""
    if step.falls is Falls.WASTE:
        told = ""
    elif step.falls is Falls.KEPT:
        told = f"offcut of {fine(step.measure, system)}, back on the pile"
    else:
        part = parts[step.code]
        told = f"{part.says}: {places(part)}"
    return ". ".join(text for text in (told, _lean(step, system)) if text)


def _lean(step: CutStep, system: System) -> str:
    if not step.lean:
        return ""
    way = "right" if step.lean > 0 else "left"
    return f"Saw slanting: its upper edge {fine(abs(step.lean), system)} further {way}"


def places(part: Part, most: int = 4) -> str:
    """Where a part goes; the first few of many."""
    told = ", ".join(part.places[:most])
    return f"{told} and {len(part.places) - most} more" if len(part.places) > most else told
