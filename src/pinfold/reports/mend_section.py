"""What would mend what fails, as part of a page: each weak check with the changes that were tried and held."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from string import ascii_lowercase, ascii_uppercase

from pinfold.findings import Verdict
from pinfold.plan.changes import Put
from pinfold.reports.pages import Block, Heading, Paragraph, table
from pinfold.studies.mending.records import Mend, Mended, Mending, Whole
from pinfold.studies.stability.subjects import Owner
from pinfold.units import money

HEADING = "What would mend it"
_HEADS = ("", "change", "write in plan.toml", "then uses", "costs more")


def mend_section(mending: Mending, currency: str, digits: int) -> tuple[Block, ...]:
    """What mends everything of a build-up or gate, then a table for each weak check; nothing where nothing is weak."""
    if not mending.checks:
        return ()
    wholes = _wholes(mending, currency, digits)
    return (Heading(text=HEADING), Paragraph(text=_SAYS), *wholes, *_checks(mending, currency, digits))


_SAYS = (
    "Each change was put into the plan, and the whole plan laid out, assessed and priced again: the check holds with "
    "it and nothing that held stops holding. It is the least step of its kind that does. Changes for several checks "
    "can be put in one after the other; ask again after each."
)


def named(mending: Mending) -> Iterator[tuple[str, Mend | Whole]]:
    """Every change with its name: `A` for everything of a build-up or gate, `2b` for the second weak check's second."""
    for letter, whole in zip(ascii_uppercase, mending.wholes, strict=False):
        if whole.puts:
            yield letter, whole
    for number, each in enumerate(mending.checks, start=1):
        for letter, mend in zip(ascii_lowercase, each.mends, strict=False):
            yield f"{number}{letter}", mend


def _wholes(mending: Mending, currency: str, digits: int) -> Iterator[Block]:
    for letter, whole in zip(ascii_uppercase, mending.wholes, strict=False):
        title = f"{letter}. Everything of {_owner(whole.owner)} at once ({', '.join(whole.checks)})"
        if whole.puts:
            rows = [(letter, whole.says, _puts(whole.puts), _cost(whole, currency, digits))]
            yield table(("", "change", "write in plan.toml", "costs more"), rows, right=(3,), title=title, wide=2)
        else:
            yield Paragraph(
                text=f"{title}: no changes within the bounds tried make all of it hold; what is left: "
                f"{', '.join(whole.left)}. Another build-up is wanted."
            )


def _checks(mending: Mending, currency: str, digits: int) -> Iterator[Block]:
    names = {id(mend): name for name, mend in named(mending)}
    for number, each in enumerate(mending.checks, start=1):
        title = f"{number}. {told(each)}"
        if each.mends:
            rows = [(names[id(mend)], *_row(mend, currency, digits)) for mend in each.mends]
            yield table(_HEADS, rows, right=(3, 4), title=title, wide=2)
        else:
            yield Paragraph(text=f"{title}. {_nothing(each)}")


def told(each: Mended) -> str:
    """The weak check in a line."""
    weak = each.weak
    used = f"{weak.use:.0%}" if weak.use < _ENDLESS else "no strength at all"
    word = "FAILS" if weak.verdict is Verdict.FAILS else "holds, but barely"
    owner = _owner(weak.owner)
    worst = f", worst at {weak.subject}" if weak.subject != owner else ""
    return f"{weak.check} {word} ({used}): {owner}{worst}"


_ENDLESS = 1000.0


def _owner(owner: Owner) -> str:
    return f"{'build-up' if owner.table == 'buildup' else 'gate'} {owner.name}"


def _row(mend: Mend, currency: str, digits: int) -> tuple[str, str, str, str]:
    used = f"{mend.use:.0%}" if mend.use is not None else "no longer asked"
    return mend.says, _puts(mend.puts), used, _cost(mend, currency, digits)


def _puts(puts: Sequence[Put]) -> str:
    """What to write, without the table of the build-up or gate, which the line above names."""
    return "; ".join(f"{_short(put)} = {_value(put)}" for put in puts)


def _short(put: Put) -> str:
    part, *rest = put.path[2:]
    if part == "rail":
        return f"{_rail(rest[0])}: {rest[1]}"
    return ".".join((part, *rest))


def _rail(number: str) -> str:
    """A rail as one finds it in the file, where they may stand in any order."""
    return "lowest rail" if number == "0" else f"rail {int(number) + 1} from below"


def _cost(mend: Mend | Whole, currency: str, digits: int) -> str:
    if mend.cost is None:
        return f"no price for {', '.join(mend.unpriced)}" if mend.unpriced else "not shown"
    return money(mend.cost, currency, digits)


def written(put: Put) -> str:
    """A value as it stands in the file, with the table it goes under."""
    *where, key = put.path
    if where[-2:-1] == ["rail"]:
        return f"[[{'.'.join(_key(name) for name in where[:-1])}]], {_rail(where[-1])}: {key} = {_value(put)}"
    return f"[{'.'.join(_key(name) for name in where)}] {key} = {_value(put)}"


def _value(put: Put) -> str:
    return str(put.text).lower() if isinstance(put.text, bool) else f'"{put.text}"'


def _key(name: str) -> str:
    return name if name.replace("-", "").replace("_", "").isalnum() else f'"{name}"'


def _nothing(each: Mended) -> str:
    hint = f" What might: {each.weak.hint}." if each.weak.hint else ""
    if not each.tried:
        return f"No change of a number in the plan is tried for it.{hint}"
    return f"Tried up to their limits, alone and in pairs, without success: {', '.join(each.tried)}.{hint}"
