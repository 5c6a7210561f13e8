"""Lessons carried from other plots, `lessons.toml`: plain to read, written once when a site folder is started."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path

from pinfold.errors import InputError, InvalidPlan, NewerFileError
from pinfold.logbook.carried import MARKS, NOTHING, Carried, CarriedFigure, CarriedPrice, CarriedSite
from pinfold.plan.stock import Price
from pinfold.store.forms import Form
from pinfold.store.items import unknown_item
from pinfold.store.writing import read_text, write_text
from pinfold.units import KG_PER_CUBIC_METER, RATIO, SECOND, Unit, read, unit_of

FORMAT = 1
NAME = "lessons.toml"
_UNITS: Mapping[str, Unit] = {
    "bucket weight": KG_PER_CUBIC_METER, "yield": RATIO, "foam that collapses": RATIO, "coverage": RATIO,
    "pace": SECOND,
}  # fmt: skip
"""Topics that may be carried, and the unit of their figures."""
_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_MARK = re.compile(r"[0-9a-f]{12}")
_HEAD = """\
# Lessons carried from other plots. They stand in the place of the shipped figures until your own log says more.
# value, spread: what the log of that plot says by itself, one standard deviation. Nothing of its words is in here.
# marks: by them the same entry is known again, so that none counts twice; they tell nothing of what is in it.
# Take out what does not fit here, a [[site.figure]] at a time; to forget all of it, delete this file.
"""
_ALIKE = """
# How alike that place and this are, from 0 % (nothing of it counts) to 100 % (as if it had been here). The less alike,
# the wider the spread here.
"""


def read_lessons(path: Path) -> Carried:
    """Lessons carried here; none where the file is not there.

    Raises:
        StoreError: it cannot be read.
        NewerFileError: it is of a later format.
        InvalidPlan: with every complaint.
    """
    return lessons_of(read_text(path), name=path.name) if path.exists() else NOTHING


def lessons_of(text: str, *, name: str = NAME) -> Carried:
    """The same from text.

    Raises:
        NewerFileError, InvalidPlan: as `read_lessons`.
    """
    try:
        table = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as fault:
        raise InvalidPlan(name, [InputError(f"not readable as TOML: {fault}; {_ANEW}")]) from None
    form = Form(table)
    found = form.raw("format")
    if isinstance(found, int) and not isinstance(found, bool) and found > FORMAT:
        raise NewerFileError(f"{name} is of format {found}; this pinfold reads format {FORMAT}. Get a newer pinfold.")
    if found != FORMAT or isinstance(found, bool):
        form.complain("format", f"{found!r} found; write format = {FORMAT} on top")
    alike = form.quantity("alike", RATIO, otherwise=NOTHING.alike, low=0.0, high=1.0)
    sites = tuple(_site(part) for part in _parts(form, "site"))
    form.refuse_unknown()
    form.check(name)
    return Carried(alike=alike, sites=sites)


_ANEW = "mend the line, or delete the file and carry the lessons anew with 'pinfold reckon carry'"


def _parts(form: Form, key: str) -> Iterator[Form]:
    """The tables of a list of tables."""
    found = form.raw(key)
    if found is None:
        return
    if not isinstance(found, list) or len(found) > 500 or any(not isinstance(part, dict) for part in found):
        form.complain(key, f"a list of tables is wanted, each under [[{form.place(key)}]]")
        return
    for at, part in enumerate(found):
        yield Form(part, f"{form.place(key)}[{at}]", form.complaints)


def _site(form: Form) -> CarriedSite:
    digits = form.count("digits", otherwise=2, high=4)
    site = CarriedSite(
        name=form.text("name"), marks=_marks(form), currency=form.text("currency", otherwise="", longest=8),
        digits=digits, figures=tuple(_figure(part) for part in _parts(form, "figure")),
        prices=tuple(_price(part) for part in _parts(form, "price")),
    )  # fmt: skip
    form.refuse_unknown()
    return site


def _marks(form: Form) -> tuple[str, ...]:
    found = form.raw("marks")
    texts = [mark for mark in found if isinstance(mark, str)] if isinstance(found, list) else []
    marks = [mark for mark in texts if _MARK.fullmatch(mark)]
    if not isinstance(found, list) or not 0 < len(found) == len(marks) <= MARKS:
        form.complain("marks", f"the marks of the entries are wanted as they were written; {_ANEW}")
        return ()
    return tuple(sorted(set(marks)))


def _figure(form: Form) -> CarriedFigure:
    topic = form.choice("topic", tuple(_UNITS)) or ""
    if not topic and not form.has("topic"):
        form.complain("topic", f"is missing; it is one of: {', '.join(_UNITS)}")
    unit = _UNITS.get(topic, RATIO)
    figure = CarriedFigure(
        topic=topic, subject=form.text("of"), per=form.choice("per", ("m", "m2", "each"), otherwise="") or "",
        value=form.quantity("value", unit), spread=form.quantity("spread", unit, low=1e-12),
        count=_count(form), since=_day(form, "since"), last=_day(form, "last"),
    )  # fmt: skip
    form.refuse_unknown()
    return figure


def _price(form: Form) -> CarriedPrice:
    item = form.text("of")
    if item and (complaint := unknown_item(item)):
        form.complain("of", complaint)
    pack, unit, printed = 1.0, RATIO, "each"
    if form.has("pack"):
        printed = form.text("pack")
        try:
            unit = unit_of(printed)
            pack = read(printed, like=unit)
        except InputError as mistake:
            form.complain("pack", mistake.message)
    price = Price(item=item, pack=pack, unit=unit, cost=form.count("coins", otherwise=0, high=10**12), printed=printed)
    found = CarriedPrice(price=price, last=_day(form, "last"), count=_count(form))
    form.refuse_unknown()
    return found


def _count(form: Form) -> int:
    return form.count("entries", otherwise=1, low=1, high=10**7)


def _day(form: Form, key: str) -> str:
    text = form.text(key)
    if text and not _DAY.fullmatch(text):
        form.complain(key, f'{text!r} found; a day is wanted, like {key} = "2026-05-03"')
    return text


def write_lessons(path: Path, carried: Carried) -> None:
    """Write what is carried.

    Raises:
        StoreError: it cannot be written.
    """
    write_text(path, lessons_text(carried), make_folder=True)


def lessons_text(carried: Carried) -> str:
    """The text of the file."""
    lines = [_HEAD, f"format = {FORMAT}", _ALIKE.rstrip("\n"), f'alike = "{100 * carried.alike:.6g} %"']
    for site in carried.sites:
        lines += ["", "[[site]]", f"name = {_quoted(site.name)}", f"marks = [{_wrapped(site.marks)}]"]
        lines += [f"currency = {_quoted(site.currency)}", f"digits = {site.digits}"] if site.prices else []
        for figure in site.figures:
            lines += ["", "[[site.figure]]", *_figure_lines(figure)]
        for price in site.prices:
            lines += ["", "[[site.price]]", *_price_lines(price)]
    return "\n".join(lines) + "\n"


def _figure_lines(figure: CarriedFigure) -> Iterator[str]:
    unit = _UNITS[figure.topic]
    symbol = "" if unit is RATIO else f" {unit.symbol}"
    yield f"topic = {_quoted(figure.topic)}"
    yield f"of = {_quoted(figure.subject)}"
    if figure.per:
        yield f"per = {_quoted(figure.per)}"
    yield f'value = "{figure.value:.6g}{symbol}"'
    yield f'spread = "{figure.spread:.6g}{symbol}"'
    yield f"entries = {figure.count}"
    yield f'since = "{figure.since}"'
    yield f'last = "{figure.last}"'


def _price_lines(price: CarriedPrice) -> Iterator[str]:
    yield f"of = {_quoted(price.price.item)}"
    if price.price.printed != "each":
        yield f"pack = {_quoted(price.price.printed)}"
    yield f"coins = {price.price.cost}"
    yield f"entries = {price.count}"
    yield f'last = "{price.last}"'


def _quoted(text: str) -> str:
    """A TOML basic string: JSON's escapes are among TOML's."""
    return json.dumps(text, ensure_ascii=False)


def _wrapped(marks: tuple[str, ...]) -> str:
    rows = [marks[at : at + 7] for at in range(0, len(marks), 7)]
    return "\n    " + ",\n    ".join(", ".join(f'"{mark}"' for mark in row) for row in rows) + ",\n"
