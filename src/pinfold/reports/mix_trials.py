"""Trials as a page: the table of them, the best so far, what is known and what not, and the next ones worth making."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pinfold.reports.html import html_of
from pinfold.reports.pages import Block, Caution, Code, Heading, Page, Paragraph, Table, Working, table
from pinfold.reports.trial_words import amount_shown, value_text
from pinfold.reports.trials_chart import chart
from pinfold.studies.trials.ranges import says_of
from pinfold.studies.trials.records import Contradiction, Factor, NextTrial, Response, Trial, TrialsTold
from pinfold.studies.trials.responses import blind_spots
from pinfold.units import System

KNOWN, NEXT = "What is known and what is not", "next trial"
WHY = {"fill": "to fill the ranges", "gain": "to gain", "repeat": "the best one again, to be sure of it"}


@dataclass(frozen=True, kw_only=True)
class TrialLink:
    """Where a proposed trial opens in the log.

    Attributes:
        address: of the phone's page.
        here: of the form on this machine, without its host.
        says: what is needed for the address to open.
        drawn: whether a terminal draws its square code.
    """

    address: str
    here: str
    says: str
    drawn: bool = False


def trials_page(told: TrialsTold, links: Sequence[TrialLink], system: System) -> Page:
    """All that trials show, then what to try next."""
    blocks = [*_so_far(told, system), *_known(told, system), *_against(told), *next_blocks(told, links, system)]
    blocks += [Paragraph(text=f"Not used: {each}.") for each in told.set_aside]
    return Page(title=f"Trials of {told.mix.name}", blocks=(*blocks, *_ends(told)))


def next_page(told: TrialsTold, links: Sequence[TrialLink], system: System) -> Page:
    """The next trials alone."""
    blocks = [*(Paragraph(text=note) for note in _sentences(told.notes)), *next_blocks(told, links, system)]
    return Page(title=f"What to try next with {told.mix.name}", blocks=(*blocks, *_ends(told)))


def trials_html(page: Page, told: TrialsTold, system: System) -> str:
    """The page as HTML, with the picture of the score along each factor where that is told."""
    at = next((place for place, block in enumerate(page.blocks) if block == Heading(text=KNOWN)), None)
    if at is None or not told.responses:
        return html_of(page, system)
    before, after = page.blocks[: at + 1], page.blocks[at + 1 :]
    pictures = [chart(each, told.trials, _label(each.factor, system)) for each in told.responses]
    return "\n".join([
        html_of(Page(title=page.title, blocks=before), system), f'<div class="responses">{"".join(pictures)}</div>',
        f'<p class="note">{_LEGEND}</p>', html_of(Page(title="", blocks=after), system, titled=False),
    ])  # fmt: skip


_LEGEND = (
    "Line: the score expected, all other factors as in the best trial. Band: two of three times it lies within. Dots: "
    "the trials, full ones like the best in all other factors. Hatched: nothing is known there."
)


def _so_far(told: TrialsTold, system: System) -> list[Block]:
    blocks: list[Block] = [Paragraph(text=f"Begun from {told.mix.says}. {_scoring(told)}"), factors_table(told, system)]
    blocks += [Paragraph(text=note) for note in _sentences(told.notes)]
    if not told.trials:
        text = (
            "No trial of it is in the log that can be used. Make the first one below, and write down how it came out."
        )
        return [*blocks, Paragraph(text=text)]
    heads = ("no.", "day", *(factor.key.replace("_", " ") for factor in told.factors), "score", "how it came out")
    rows = [_row(trial, told.factors, system) for trial in told.trials]
    right = (0, *range(2, len(told.factors) + 3))
    return [*blocks, table(heads, rows, right=right, title="trials so far", wide=len(heads) - 1)]


def _scoring(told: TrialsTold) -> str:
    listed = ", ".join(f"{name} {weight:g}" for name, weight in told.weights.items() if weight)
    return (
        "The score runs from 0 to 10: the builder's own where one is given and nothing else is asked, else what was "
        f"said of it, weighed by: {listed}."
    )


def factors_table(told: TrialsTold, system: System) -> Table:
    """The factors that are looked at, with their ranges, and what is kept as it was."""
    rows = [
        (factor.key.replace("_", " "), factor.says, value_text(factor.key, factor.low, system),
         value_text(factor.key, factor.high, system), f"{factor.where}, {factor.source} ({factor.standing.value})")
        for factor in told.factors
    ]  # fmt: skip
    rows += [
        (key.replace("_", " "), says_of(key, told.mix), value_text(key, value, system), "", "kept as it was")
        for key, value in told.held.items()
    ]
    return table(("factor", "counts", "from", "to", "range of"), rows, right=(2, 3), wide=4)


def _row(trial: Trial, factors: Sequence[Factor], system: System) -> tuple[str, ...]:
    said = [f"{key} {word}" for key, word in {**trial.scores, **trial.conditions}.items() if key != "score"]
    score = "" if trial.score is None else f"{trial.score:.1f}"
    values = [value_text(factor.key, trial.values[factor.key], system) for factor in factors]
    return (str(trial.seq), trial.day, *values, score, ", ".join(said).replace("_", " "))


def _known(told: TrialsTold, system: System) -> list[Block]:
    if told.best is None:
        return []
    best, blocks = told.best, list[Block]([Heading(text=KNOWN)])
    where = "" if best.inside else ", outside the range"
    spread = "" if best.spread is None else f" ± {best.spread:.1f} by all trials together"
    text = f"Best so far: no. {best.trial.seq} of {best.trial.day}{where}, with a score of {best.mean:.1f}{spread}."
    blocks.append(Paragraph(text=text))
    if told.responses:
        blocks += [Paragraph(text=_matters(told.responses)), Paragraph(text=_noise(told)), _along(told, system)]
        blocks += [Paragraph(text=text) for each in told.responses for text in _blind(each, system)]
    if told.unknown is not None:
        blocks.append(Paragraph(text=_unknown(told.unknown)))
    return blocks


def _unknown(share: float) -> str:
    if share < _HARDLY:
        return "No part of the ranges lies so far from all trials that nothing is known of it."
    return f"Nothing is known of {share:.0%} of the whole ranges: it lies too far from all trials."


_HARDLY = 0.005


def _matters(responses: Sequence[Response]) -> str:
    shares = ", ".join(f"{each.factor.key.replace('_', ' ')} {each.share:.0%}" for each in responses)
    return f"What moves the score, each factor by itself: {shares}."


def _noise(told: TrialsTold) -> str:
    repeats = f"{told.repeats} repeat{'s' * (told.repeats != 1)} and what is usual"
    by = repeats if told.repeats else "what is usual, for none was repeated"
    return f"Alike trials come out ± {told.noise:.1f} apart, by {by} and by how smooth all of them lie together."


def _along(told: TrialsTold, system: System) -> Table:
    """The score at five values of each factor."""
    rows = [
        (each.factor.key.replace("_", " "), value_text(each.factor.key, point.value, system), f"{point.mean:.1f}",
         f"± {point.spread:.1f}", "" if point.known else "nothing is known")
        for each in told.responses for point in each.points[::10]
    ]  # fmt: skip
    heads = ("along", "at", "score", "give or take", "")
    return table(heads, rows, right=(1, 2, 3), title="score along each factor, all others as in the best trial", wide=4)


def _blind(response: Response, system: System) -> list[str]:
    key = response.factor.key
    return [
        f"Nothing is known of {response.factor.says} from {value_text(key, low, system)} to "
        f"{value_text(key, high, system)} with all else as in the best trial."
        for low, high in blind_spots(response)
    ]


def _against(told: TrialsTold) -> list[Block]:
    if not told.contradictions:
        return []
    return [Heading(text="Trials that contradict each other"), *(_pair(each) for each in told.contradictions)]


def _pair(pair: Contradiction) -> Table:
    rows = [("score", f"{pair.higher.score:.1f}", f"{pair.lower.score:.1f}")]
    rows += [(what.replace("_", " "), own or "not said", other or "not said") for what, own, other in pair.differed]
    note = (
        f"Alike in all factors, yet {pair.apart:.1f} apart; alike trials lie within {pair.allowed:.1f}. Something that "
        "was not the same may be why; until that is known both count as they are."
    )
    heads = ("not the same", f"no. {pair.higher.seq}", f"no. {pair.lower.seq}")
    return table(heads, rows, right=(1, 2), note=note)


def next_blocks(told: TrialsTold, links: Sequence[TrialLink], system: System) -> list[Block]:
    """Each proposal with what goes in, what is expected, and where it opens in the log."""
    blocks: list[Block] = []
    for number, (trial, link) in enumerate(zip(told.next, links, strict=True), start=1):
        blocks += proposed(number, trial, told, system)
        blocks.append(code_of(link, number))
    if not told.next:
        blocks.append(Paragraph(text="No trial inside the ranges can be measured out by bag, bucket and scale here."))
    return blocks


def code_of(link: TrialLink, number: int) -> Code:
    """Where a proposal opens; what that needs is told at the first one."""
    says = f"Opens trial {number} in the log, filled in. {link.says if number == 1 else ''}".rstrip()
    return Code(address=link.address, says=says, here=link.here, drawn=link.drawn)


def proposed(number: int, trial: NextTrial, told: TrialsTold, system: System) -> list[Block]:
    """One proposal: what it is for, what is expected of it, what goes in."""
    blocks: list[Block] = [
        Heading(text=f"{NEXT} {number}: {WHY[trial.why]}"), Paragraph(text=_expected(trial, told)),
        _amounts(trial, system), Paragraph(text=_makes(trial, told, system)),
    ]  # fmt: skip
    text = "Outside the published range: " + ", ".join(trial.outside) + ". No publication speaks for it."
    return [*blocks, Caution(text=text)] if trial.outside else blocks


def _expected(trial: NextTrial, told: TrialsTold) -> str:
    if trial.expected is None and not told.trials:
        return "Nothing was tried yet: the mix as it ships comes first, then the far ends of the ranges."
    if trial.expected is None:
        return "As far as can be from every other trial: what is learned there is worth the most."
    mean, spread, gain, chance = trial.expected
    return (
        f"Expected to score {mean:.1f} ± {spread:.1f}, and to gain {gain:.1f} over the best so far, what is worse "
        f"counted as none; better than the best in {100 * chance:.0f} of 100."
    )


def _amounts(trial: NextTrial, system: System) -> Table:
    rows = [(amount.item.replace("-", " "), amount_shown(amount, system)) for amount in trial.amounts]
    return table(("into the batch", "amount"), rows, right=(1,))


def _makes(trial: NextTrial, told: TrialsTold, system: System) -> str:
    values = [f"{says_of(key, told.mix)} {value_text(key, value, system)}" for key, value in trial.values.items()]
    return f"That is {', '.join(values)}."


def _label(factor: Factor, system: System) -> tuple[str, str, str]:
    return factor.says, value_text(factor.key, factor.low, system), value_text(factor.key, factor.high, system)


def _sentences(notes: Sequence[str]) -> list[str]:
    return [f"{note[:1].upper()}{note[1:].rstrip('.')}." for note in notes]


def _ends(told: TrialsTold) -> list[Block]:
    cautions = dict.fromkeys(text for trial in told.next for text in trial.charge.cautions)
    blocks: list[Block] = [Caution(text=text) for text in cautions]
    steps = tuple(step for trial in told.next for step in trial.working)
    if steps:
        blocks.append(Working(steps=steps))
    return blocks
