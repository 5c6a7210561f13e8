"""Forms: reading a table of a file key by key, gathering every complaint with its place.

A reader that meets a mistake notes it and goes on with a stand-in, so that the builder hears of all mistakes at once.
What was read is used only after `check`, which stops if there is any complaint.
"""

from __future__ import annotations

import difflib
import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import TypeVar

from pinfold.errors import InputError, InvalidPlan, QuantityError
from pinfold.figures import given
from pinfold.store.bounds import bounds_of
from pinfold.tables import shelf as shelves
from pinfold.tables.shelf import Kind
from pinfold.units import METER, RATIO, UNIT_BY_SYMBOL, System, Unit, read, show

Word = TypeVar("Word", bound=StrEnum)
Record = TypeVar("Record")
NO_KIND = Kind(name="?", shelf="?", figures={}, words={})


@dataclass(frozen=True)
class Form:
    """One table of a file while it is being read; owns the list that its complaints go to.

    Attributes:
        table: key and value as the file has them.
        at: key path of the table, empty for the file itself.
        complaints: shared by all forms of one file.
        asked: keys that the reader has asked for; what is left is unknown.
    """

    table: Mapping[str, object]
    at: str = ""
    complaints: list[InputError] = field(default_factory=list)
    asked: set[str] = field(default_factory=set)

    def place(self, key: str) -> str:
        """Key path of one key."""
        return f"{self.at}.{key}" if self.at else key

    def complain(self, key: str, message: str) -> None:
        """Note one complaint about a key."""
        self.complaints.append(InputError(message, place=self.place(key) if key else self.at))

    def raw(self, key: str) -> object:
        """The value as it stands, None when absent; the key then counts as asked for."""
        self.asked.add(key)
        return self.table.get(key)

    def has(self, key: str) -> bool:
        """Whether the key is there."""
        self.asked.add(key)
        return key in self.table

    def quantity(
        self, key: str, like: Unit, *, otherwise: float | None = None, low: float = -math.inf, high: float = math.inf
    ) -> float:
        """A quantity that must be there unless a stand-in is given; nan after a complaint."""
        value = self.perhaps(key, like, low=low, high=high)
        if value is not None:
            return value
        if otherwise is None and key not in self.table:
            self.complain(key, f"is missing; write {key} = {_example(like, low, high)}")
        return math.nan if otherwise is None else otherwise

    def perhaps(self, key: str, like: Unit, *, low: float = -math.inf, high: float = math.inf) -> float | None:
        """A quantity that may be absent; None when absent, nan after a complaint."""
        found = self.raw(key)
        if found is None:
            return None
        return self.measure(found, like, key, low=low, high=high)

    def measure(self, found: object, like: Unit, key: str, *, low: float = -math.inf, high: float = math.inf) -> float:
        """One value as a quantity within limits; nan after a complaint."""
        try:
            value = read(found, like=like)
        except QuantityError as mistake:
            self.complain(key, mistake.message)
            return math.nan
        if not low <= value <= high:
            self.complain(key, f"{found!r} is out of bounds: {_bounds(low, high, like)}")
            return math.nan
        return value

    def text(self, key: str, *, otherwise: str | None = None, longest: int = 200) -> str:
        """A line of text; a stand-in where it may be absent."""
        found = self.raw(key)
        if found is None:
            if otherwise is None:
                self.complain(key, f'is missing; write {key} = "…"')
            return otherwise or ""
        if not isinstance(found, str) or (otherwise is None and not found.strip()):
            self.complain(key, f"{found!r} found; a line of text in quotes is wanted")
            return otherwise or ""
        if len(found) > longest or any(ord(letter) < 32 for letter in found):
            self.complain(
                key, f"one line of at most {longest} letters is wanted; {len(found)} found or a line break in it"
            )
            return otherwise or ""
        return found.strip()

    def word(self, key: str, words: type[Word], *, otherwise: Word | None = None) -> Word:
        """One of a few words."""
        choices = [str(word) for word in words]
        found = self.raw(key)
        if found is None and otherwise is not None:
            return otherwise
        if found not in choices:
            self.complain(key, _choice_complaint(found, choices))
            return next(iter(words))
        return words(found)

    def choice(self, key: str, choices: Sequence[str], *, otherwise: str | None = None) -> str | None:
        """One of some words that are no enumeration of ours; None when absent or after a complaint."""
        found = self.raw(key)
        if found is None:
            return otherwise
        if found not in choices:
            self.complain(key, _choice_complaint(found, choices))
            return otherwise
        return str(found)

    def count(self, key: str, *, otherwise: int, low: int = 0, high: int = 1000) -> int:
        """A whole number."""
        found = self.raw(key)
        if found is None:
            return otherwise
        if not isinstance(found, int) or isinstance(found, bool) or not low <= found <= high:
            self.complain(key, f"{found!r} found; a whole number from {low} to {high} is wanted")
            return otherwise
        return found

    def flag(self, key: str, *, otherwise: bool) -> bool:
        """true or false."""
        found = self.raw(key)
        if found is None:
            return otherwise
        if not isinstance(found, bool):
            self.complain(key, f"{found!r} found; true or false is wanted, without quotes")
            return otherwise
        return found

    def kind(self, key: str, shelf: str, *, otherwise: str | None = None) -> Kind:
        """A kind of one of the shelves by name, or a table of `kind` and own figures; a stand-in after a complaint."""
        found = self.raw(key)
        if isinstance(found, dict):
            inner = Form(found, self.place(key), self.complaints)
            kind = inner.own_figures(inner.kind("kind", shelf, otherwise=otherwise))
            if kind is not NO_KIND:  # which figures it may have is not known
                inner.refuse_unknown()
            return kind
        name = otherwise if found is None else found
        if name is None:
            self.complain(key, f"is missing; it is one of: {_listed(shelves.shelf(shelf))}")
            return NO_KIND
        if not isinstance(name, str) or name not in shelves.shelf(shelf):
            self.complain(key, _choice_complaint(name, list(shelves.shelf(shelf))))
            return NO_KIND
        return shelves.kind(shelf, name)

    def kind_if(self, key: str, shelf: str) -> Kind | None:
        """A kind that may be absent."""
        return self.kind(key, shelf) if self.has(key) else None

    def own_figures(self, kind: Kind) -> Kind:
        """The kind with every figure this table states itself over the shipped one, or for one it asks for.

        A reader calls it last: a key it has asked for itself is no figure of the kind.
        """
        asks = kind.words.get("asks", {})
        units = {name: UNIT_BY_SYMBOL[str(symbol)] for name, symbol in asks.items()} if isinstance(asks, dict) else {}
        units |= {name: figure.unit for name, figure in kind.figures.items()}
        own = {}
        for name, unit in units.items():
            low, high = bounds_of(name, unit)
            value = self.perhaps(name, unit, low=low, high=high) if name not in self.asked else None
            if value is not None:
                own[name] = given(value, unit, str(self.table[name]))
        return replace(kind, figures={**kind.figures, **own}) if own else kind

    def point(self, found: object, key: str, *, names: str = "x, y", reach: float = 5000.0) -> tuple[float, ...]:
        """A row of lengths such as ["12 ft", "40 ft"]."""
        wanted = names.count(",") + 1
        if not isinstance(found, list) or len(found) != wanted:
            example = ", ".join(['"3 m"'] * wanted)
            self.complain(key, f"{_short(found)} found; {wanted} lengths ({names}) are wanted, like [{example}]")
            return (math.nan,) * wanted
        return tuple(self.measure(part, METER, key, low=-reach, high=reach) for part in found)

    def points(self, key: str, *, least: int, most: int = 2000, names: str = "x, y") -> tuple[tuple[float, ...], ...]:
        """A list of rows of lengths."""
        found = self.raw(key)
        if not isinstance(found, list) or not least <= len(found) <= most:
            count = f"{len(found)} found" if isinstance(found, list) else f"{_short(found)} found"
            self.complain(key, f"{count}; from {least} to {most} points are wanted, each a list of lengths ({names})")
            return ()
        return tuple(self.point(row, f"{key}[{number}]", names=names) for number, row in enumerate(found))

    def sub(self, key: str) -> Form | None:
        """A table inside this one; None when absent or no table."""
        found = self.raw(key)
        if found is None:
            return None
        if not isinstance(found, dict):
            self.complain(key, f"{_short(found)} found; a table is wanted, written [{self.place(key)}]")
            return None
        return Form(found, self.place(key), self.complaints)

    def subs(self, key: str, *, most: int = 500) -> tuple[Form, ...]:
        """Tables of one name, written [[name]]; places carry their own name where they have one."""
        found = self.raw(key)
        if found is None:
            return ()
        if not isinstance(found, list) or not all(isinstance(row, dict) for row in found) or len(found) > most:
            self.complain(
                key, f"{_short(found)} found; at most {most} tables are wanted, written [[{self.place(key)}]]"
            )
            return ()
        return tuple(
            Form(row, _numbered(self.place(key), number, row), self.complaints) for number, row in enumerate(found)
        )

    def tables(self, key: str, *, most: int = 200) -> dict[str, Form]:
        """Tables by name, written [key.name]."""
        whole = self.sub(key)
        if whole is None:
            return {}
        if len(whole.table) > most:
            self.complain(key, f"{len(whole.table)} tables found; at most {most} are wanted")
            return {}
        return {name: form for name in whole.table if (form := whole.sub(name)) is not None}

    def refuse_unknown(self) -> None:
        """Complain about every key that nobody asked for."""
        for key in self.table:
            if key not in self.asked:
                near = difflib.get_close_matches(key, sorted(self.asked), n=1)
                hint = f"; did you mean {near[0]}?" if near else f"; keys here: {', '.join(sorted(self.asked))}"
                self.complain(str(key)[:60], f"no such key{hint}")

    def check(self, name: str) -> None:
        """Stop if there is any complaint.

        Raises:
            InvalidPlan: with every complaint.
        """
        if self.complaints:
            raise InvalidPlan(name, self.complaints)


def unique(forms: Iterable[Form], names: Iterable[str], what: str) -> None:
    """Complain where two tables bear one name."""
    seen: set[str] = set()
    for form, name in zip(forms, names, strict=True):
        if name and name in seen:
            form.complain("name", f"{name!r} names a second {what}; give each its own name")
        seen.add(name)


def each(forms: Iterable[Form], reader: Callable[[Form], Record]) -> tuple[Record, ...]:
    """Read each table with one reader, then refuse the keys it did not ask for."""
    records = []
    for form in forms:
        records.append(reader(form))
        form.refuse_unknown()
    return tuple(records)


def _numbered(at: str, number: int, row: Mapping[str, object]) -> str:
    name = row.get("name")
    return f"{at}.{name}" if isinstance(name, str) and name and len(name) < 60 else f"{at}[{number}]"


def _example(like: Unit, low: float, high: float) -> str:
    """A quantity as it is written, within the limits."""
    from pinfold.units.reading import EXAMPLES

    usual = EXAMPLES.get(like.kind, f"'1.2 {like.symbol}'").split(" or ")[0].replace("'", "")
    if not low <= read(usual, like=like) <= high and high < math.inf:
        usual = show(math.sqrt(max(low, 1e-3 * high) * high), like, System.METRIC, digits=2)
    return f'"{usual}"'


def _bounds(low: float, high: float, like: Unit) -> str:
    parts = [f"at least {_limit(low, like)}"] if low > -math.inf else []
    parts += [f"at most {_limit(high, like)}"] if high < math.inf else []
    return " and ".join(parts) + " is wanted"


def _limit(value: float, like: Unit) -> str:
    """A limit in both systems, where they differ."""
    if like.kind == RATIO.kind:
        return f"{value:g} ({100 * value:.4g} %)"
    metric, american = show(value, like, System.METRIC), show(value, like, System.US)
    return metric if metric == american else f"{american} ({metric})"


def _choice_complaint(found: object, choices: Sequence[str]) -> str:
    near = difflib.get_close_matches(str(found), choices, n=1) if found is not None else []
    hint = f"; did you mean {near[0]!r}?" if near else ""
    return f"{'nothing' if found is None else _short(found)} found; one of {_listed(choices)} is wanted{hint}"


def _listed(names: Iterable[str]) -> str:
    return ", ".join(names)


def _short(found: object) -> str:
    if isinstance(found, list):
        return f"a list of {len(found)}"
    if isinstance(found, dict):
        return "a table"
    text = repr(found)
    return text if len(text) <= 40 else f"{text[:37]}…"
