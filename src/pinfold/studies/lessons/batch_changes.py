"""What each change of a batch against the one before did: what was changed, what came of it, how often it went so.

Only what was changed by itself is laid to the change; changes that contradict each other stay side by side.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from pinfold.findings import Step, work
from pinfold.formulas import carrying
from pinfold.logbook.entries import Amount, Entry
from pinfold.logbook.kinds import entry_kind
from pinfold.studies.batching.loose import parts_of
from pinfold.studies.lessons.things import Measures, part_named, thing
from pinfold.tables.shelf import Kind
from pinfold.units import Ratio

SURE: Ratio = 0.95
"""From so sure on it is told that a change works one way; below, that there is not enough to tell."""
CHANGED: Ratio = 0.02
"""A part that differs by less from the batch before, over its binder, is the same: no bucket is filled nearer."""
_SAME: Mapping[str, tuple[float, float]] = {
    "wet_density": (0.01, 0.0), "made": (0.03, 0.0), "slump": (0.0, 0.01), "score": (0.0, 0.25),
}  # fmt: skip
"""What was seen is the same within this share, or within this much: common practice."""
_RANKED = ("sticks", "spreads", "cracks", "hardness", "dusts")
"""What was seen in words, from the first choice to the last."""
_AROUND = ("thickness", "kept_wet", "base", "air", "wind", "sun")
"""What a trial may have otherwise beside its amounts."""
_WATER = "water"
_FOAM = "foam"


class Made(NamedTuple):
    """A batch or trial as it is compared.

    Attributes:
        entry: of the log.
        shares: of each part over the first binder, by part; in the measure it was told in, with that measure.
        around: what else may differ, by field.
    """

    entry: Entry
    shares: Mapping[str, tuple[float, str]]
    around: Mapping[str, str]


class Seen(NamedTuple):
    """One thing seen before and after a change.

    Attributes:
        what: field of the entry.
        before: as it was, a number in SI or a word.
        after: as it is.
        way: 1 up, -1 down, 0 the same.
    """

    what: str
    before: float | str
    after: float | str
    way: int


@dataclass(frozen=True, kw_only=True)
class BatchChange:
    """One batch against the one before it of the same mix.

    Attributes:
        mix: name of it.
        kind: of the entries: batch, trial.
        before: day of the batch before, ISO.
        day: of this one.
        changes: what was changed, such as `more water`, with by how much over the binder; None for what is no amount.
        seen: what came of it.
    """

    mix: str
    kind: str
    before: str
    day: str
    changes: tuple[tuple[str, Ratio | None], ...]
    seen: tuple[Seen, ...]

    @property
    def is_alone(self) -> bool:
        """Whether one thing alone was changed, so that what was seen can be laid to it."""
        return len(self.changes) == 1


@dataclass(frozen=True, kw_only=True)
class ChangeEffect:
    """What one change, made alone, did to one thing, all times together.

    Attributes:
        mix: name of it.
        change: such as `more water`.
        what: field that was seen.
        up: how often it went up.
        down: how often down.
        same: how often it stayed.
        chance: how surely it goes the way it mostly went.
        step: line of working of that.
    """

    mix: str
    change: str
    what: str
    up: int
    down: int
    same: int
    chance: Ratio
    step: Step

    @property
    def is_told(self) -> bool:
        """Whether there is enough to tell."""
        return self.chance >= SURE

    @property
    def contradicts(self) -> bool:
        """Whether it went both ways."""
        return self.up > 0 and self.down > 0


def batch_changes(logged: Iterable[Entry], measures: Measures) -> tuple[BatchChange, ...]:
    """Each batch and trial with amounts against the one before it of its mix, in the order they happened.

    Args:
        logged: entries of batches and trials that stand
        measures: of the site
    """
    rows: dict[tuple[str, str], list[Made]] = defaultdict(list)
    for entry in sorted(logged, key=lambda each: (each.when, each.seq)):
        mix = thing("mixes", entry.text("mix"))
        made = None if mix is None else _made(entry, mix, measures)
        if mix is not None and made is not None:
            rows[mix.name, entry.kind].append(made)
    found = [
        _change(mix, kind, *pair) for (mix, kind), of_it in rows.items() for pair in pairwise(of_it)
    ]  # fmt: skip
    return tuple(sorted((each for each in found if each.changes and each.seen), key=lambda each: (each.day, each.mix)))


def _made(entry: Entry, mix: Kind, measures: Measures) -> Made | None:
    amounts, parts = entry.values.get("amounts"), parts_of(mix)
    if not isinstance(amounts, tuple):
        return None
    sums: dict[str, list[Amount]] = defaultdict(list)
    for amount in amounts:
        sums[_part(amount, parts)].append(amount)
    binder = next((part for part, _ in parts if part in sums), None)
    whole = None if binder is None else _sum(sums[binder], dict(parts)[binder], measures)
    if binder is None or whole is None or not whole[0]:
        return None
    shares = {
        part: (found[0] / whole[0], f"{found[1]} for 1 {whole[1]} {binder}") for part, of_it in sums.items()
        if part != binder and (found := _sum(of_it, dict(parts).get(part), measures)) is not None
    }  # fmt: skip
    around = {key: str(entry.values[key]) for key in _AROUND if key in entry.values}
    return Made(entry, {**shares, **_batch_size(entry, whole)}, around)


def _batch_size(entry: Entry, whole: tuple[float, str]) -> dict[str, tuple[float, str]]:
    """What it gave is told over its binder; kept beside the shares under a name that no part has."""
    made = entry.number("made")
    return {} if made is None else {"": (made / whole[0], f"of 1 {whole[1]}")}


def _part(amount: Amount, parts: Sequence[tuple[str, Kind]]) -> str:
    plain = amount.item.strip().casefold()
    if plain in (_WATER, _FOAM):
        return plain
    return part_named(amount.item, parts) or plain.replace(" ", "-")


def _sum(amounts: Sequence[Amount], material: Kind | None, measures: Measures) -> tuple[float, str] | None:
    """All of a part in one measure: weighed, else by volume, else by the one measure it was told in."""
    ways = (
        ("kg", lambda one: None if material is None else measures.mass(one, material)), ("m3", measures.volume),
        (amounts[0].measure, lambda one: one.amount if one.measure == amounts[0].measure else None),
    )  # fmt: skip
    for name, way in ways:
        found = [way(one) for one in amounts]
        known = [each for each in found if each is not None]
        if len(known) == len(found):
            return sum(known), name
    return None


def _change(mix: str, kind: str, before: Made, after: Made) -> BatchChange:
    return BatchChange(
        mix=mix, kind=kind, before=before.entry.when.date().isoformat(), day=after.entry.when.date().isoformat(),
        changes=tuple(_changed(before, after)), seen=tuple(_seen(before, after)),
    )  # fmt: skip


def _changed(before: Made, after: Made) -> Iterator[tuple[str, Ratio | None]]:
    for part in dict.fromkeys((*before.shares, *after.shares)):
        one, other = before.shares.get(part), after.shares.get(part)
        name = part.replace("_", " ").replace("-", " ")
        if not part:
            continue
        if one is None or other is None:
            yield (f"with {name}" if one is None else f"without {name}"), None
        elif one[1] != other[1]:  # nobody knows whether it was as much
            yield f"{name} measured another way", None
        elif abs(other[0] / one[0] - 1) > CHANGED:
            yield f"{'more' if other[0] > one[0] else 'less'} {name}", other[0] / one[0] - 1
    for key in _AROUND:
        if key in before.around and key in after.around and before.around[key] != after.around[key]:
            yield _around(key, before, after), None


def _around(key: str, before: Made, after: Made) -> str:
    one, other = before.entry.number(key), after.entry.number(key)
    name = key.replace("_", " ")
    if one is None or other is None:
        return f"{name} {after.around[key]} instead of {before.around[key]}"
    return f"{'more' if other > one else 'less'} {name}"


def _seen(before: Made, after: Made) -> Iterator[Seen]:
    for what, (share, much) in _SAME.items():
        one, other = _number(before, what), _number(after, what)
        if what == "made" and before.shares.get("", (0.0, ""))[1] != after.shares.get("", (0.0, ""))[1]:
            continue  # told over binders that were measured in different ways
        if one is not None and other is not None:
            near = abs(other - one) <= max(share * abs(one), much) * (1 + 1e-9)
            yield Seen(what, one, other, 0 if near else 1 if other > one else -1)
    for what in _RANKED:
        said, now = before.entry.text(what), after.entry.text(what)
        field = entry_kind(after.entry.kind).field(what)
        if said and now and field is not None:
            step = field.choices.index(now) - field.choices.index(said)
            yield Seen(what, said, now, (step > 0) - (step < 0))


def _number(made: Made, what: str) -> float | None:
    if what == "made":
        return made.shares[""][0] if "" in made.shares else None
    return made.entry.number(what)


def effects(changes: Iterable[BatchChange]) -> tuple[ChangeEffect, ...]:
    """What each change did, all times it was made alone; the surest first.

    Args:
        changes: as `batch_changes` has them
    """
    ways: dict[tuple[str, str, str], list[int]] = defaultdict(list)
    for change in changes:
        for seen in change.seen if change.is_alone else ():
            ways[change.mix, change.changes[0][0], seen.what].append(seen.way)
    found = [_effect(*key, ways=of_it) for key, of_it in ways.items()]
    return tuple(sorted(found, key=lambda each: (-each.chance, each.mix, each.change, each.what)))


def _effect(mix: str, change: str, what: str, *, ways: Sequence[int]) -> ChangeEffect:
    up, down = ways.count(1), ways.count(-1)
    other = len(ways) - max(up, down)  # what stayed the same speaks against a way too
    step = work(
        carrying.chance_of_mostly, why=f"{change}: {what.replace('_', ' ')}", yes=float(max(up, down)), no=float(other)
    )
    return ChangeEffect(
        mix=mix, change=change, what=what, up=up, down=down, same=ways.count(0), chance=step.number, step=step
    )
