"""Which cards a builder means: by run, stretch, gate, side, layer or mix, or several of them together."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.studies.quantities.records import Quantity


@dataclass(frozen=True, kw_only=True)
class CardsMeant:
    """What a name picks out.

    Attributes:
        quantities: lines of the take-off that are meant.
        placed: whether places were named.
    """

    quantities: tuple[Quantity, ...]
    placed: bool


def cards_meant(name: str, mixed: Sequence[Quantity]) -> CardsMeant:
    """The lines that a name such as `south/1a mortar` picks out of those that ask for a mix.

    Args:
        name: words of places, layers and mixes in any order
        mixed: lines of the take-off that ask for a mix

    Raises:
        NotFoundError: a word of it names nothing, or nothing is mixed so; the message offers what is near.
    """
    named: dict[str, set[str]] = {"place": set(), "layer": set(), "mix": set()}
    rest = f" {' '.join(name.split())} "
    for word, sort in _words(mixed):
        if f" {word} " in rest:
            rest = rest.replace(f" {word} ", "  ")
            named[sort].add(word)
    if rest.strip():
        raise NotFoundError(_unknown(rest.split(), [word for word, _ in _words(mixed)]))
    found = tuple(line for line in mixed if _is_meant(line, named))
    if not found:
        there = ", ".join(dict.fromkeys(f"{line.layer} {line.kind.name}" for line in mixed)) or "nothing"
        raise NotFoundError(f"nothing is mixed for {name!r} alone; the plan mixes {there}")
    return CardsMeant(quantities=found, placed=bool(named["place"]))


def _is_meant(line: Quantity, named: dict[str, set[str]]) -> bool:
    at = named["place"]
    return (
        (not at or bool(at & set(wider(line.place))))
        and (not named["layer"] or line.layer in named["layer"])
        and (not named["mix"] or line.kind.name in named["mix"])
    )


def wider(place: str) -> tuple[str, ...]:
    """A place with the run and the side it is part of: `south/1a`, `south/1`, `south`."""
    side, slash, run = place.partition("/")
    return tuple(dict.fromkeys((place, f"{side}{slash}{run.rstrip('abcdefghijklmnopqrstuvwxyz')}", side)))


def _words(mixed: Iterable[Quantity]) -> list[tuple[str, str]]:
    """Every word that names something, the longest first, so that a name within another is not taken out of it."""
    words: dict[str, str] = {}
    for line in mixed:
        words |= {line.kind.name: "mix", line.layer: "layer"}
        for place in wider(line.place):
            words.setdefault(place, "place")
    return sorted(words.items(), key=lambda pair: -len(pair[0]))


def _unknown(rest: Sequence[str], words: Sequence[str]) -> str:
    text = " ".join(rest)
    near = difflib.get_close_matches(text, words, n=3, cutoff=0.5) or difflib.get_close_matches(rest[0], words, n=3)
    meant = f"did you mean {' or '.join(map(repr, near))}?" if near else f"there are {', '.join(sorted(words))}"
    return f"{text[:60]!r} names no place, layer or mix that the plan mixes for; {meant}"
