"""Reading a wish from what was typed: every complaint at once, each with the name of what was asked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.place import Mixing
from pinfold.studies.proportioning.records import Ask, Family, Wish
from pinfold.tables.shelf import Kind
from pinfold.units import CUBIC_METER, METER, SQUARE_METER, both, read

AMOUNTS = (
    Ask(key="volume", says="how much to make", unit=CUBIC_METER, low=1e-4, high=1000.0, example="2 yd3 or 1.5 m3"),
    Ask(key="area", says="area to cover", unit=SQUARE_METER, low=0.01, high=1e5, example="120 ft2 or 11 m2"),
    Ask(key="thickness", says="thickness of the coat", unit=METER, low=5e-4, high=0.2, example="3/8 in or 10 mm"),
    Ask(key="batch", says="most the mixer turns at once", unit=CUBIC_METER, low=0.002, high=1.0, example="60 L"),
)
"""What every family asks beside its own: how much of it."""


def asks_of(family: Family) -> tuple[Ask, ...]:
    """All that a family asks, its own first; its own stands where both ask the same."""
    own = {ask.key for ask in family.asks}
    return (*family.asks, *(ask for ask in AMOUNTS if ask.key not in own))


def read_wish(
    family: Family, typed: Mapping[str, str], *, mixing: Mixing, material: Callable[[str], Kind]
) -> Wish:  # fmt: skip
    """A wish from texts by key; empty texts are not given.

    Raises:
        InvalidPlan: what is missing, unknown, unreadable or out of bounds, all at once.
    """
    answered = read_asks(asks_of(family), typed, of=f"the wish for {family.name}")
    return Wish(numbers=answered.numbers, words=answered.words, told=answered.told, mixing=mixing, material=material)


@dataclass(frozen=True, kw_only=True)
class Answered:
    """What was typed, read.

    Attributes:
        numbers: quantities in SI by key; only those given or with an `otherwise`.
        words: choices by key, likewise.
        told: keys that were given.
    """

    numbers: Mapping[str, float]
    words: Mapping[str, str]
    told: frozenset[str]


def read_asks(asked: Iterable[Ask], typed: Mapping[str, str], *, of: str) -> Answered:
    """What was typed for what is asked; empty texts are not given.

    Args:
        asked: in order
        typed: texts by key
        of: what it is for, at the head of the complaints

    Raises:
        InvalidPlan: what is missing, unknown, unreadable or out of bounds, all at once.
    """
    asks = {ask.key: ask for ask in asked}
    given = {key: text.strip() for key, text in typed.items() if text.strip()}
    problems = [
        InputError(f"nothing of that name is asked; asked are {', '.join(asks)}", place=key)
        for key in given if key not in asks
    ]  # fmt: skip
    numbers: dict[str, float] = {}
    words: dict[str, str] = {}
    for key, ask in asks.items():
        text = given.get(key, ask.otherwise)
        if not text:
            problems += [InputError(f"is missing: {ask.says}{_like(ask)}", place=key)] if ask.needed else []
            continue
        try:
            if ask.unit is None:
                words[key] = _choice(ask, text)
            else:
                numbers[key] = _quantity(ask, text)
        except InputError as mistake:
            problems.append(InputError(mistake.message, place=key))
    if problems:
        raise InvalidPlan(of, problems)
    return Answered(numbers=numbers, words=words, told=frozenset(given))


def _like(ask: Ask) -> str:
    return f", such as {ask.example}" if ask.example else f", one of {', '.join(ask.choices)}" if ask.choices else ""


def _choice(ask: Ask, text: str) -> str:
    by_word = {choice.casefold(): choice for choice in ask.choices}
    if text.casefold() not in by_word:
        raise InputError(f"{text!r} found; one of {', '.join(ask.choices)} is wanted")
    return by_word[text.casefold()]


def _quantity(ask: Ask, text: str) -> float:
    assert ask.unit is not None
    value = read(text, like=ask.unit)
    low, high = ask.low, ask.high
    if (low is not None and value < low) or (high is not None and value > high):
        raise InputError(f"{text!r} found; {_bounds(ask)} is wanted")
    if ask.whole and value != round(value):
        raise InputError(f"{text!r} found; a whole number is wanted")
    return value


def _bounds(ask: Ask) -> str:
    assert ask.unit is not None
    low, high = (None if end is None else both(end, ask.unit) for end in (ask.low, ask.high))
    if low is not None and high is not None:
        return f"from {low} to {high}"
    return f"at least {low}" if low is not None else f"at most {high}"
