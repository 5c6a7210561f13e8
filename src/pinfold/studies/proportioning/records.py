"""What proportioning takes and gives: a family with what it asks, a wish that answers, and the mix that meets it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from pinfold.findings import Step
from pinfold.plan.place import Mixing
from pinfold.studies.layout.records import Post
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, Meter, Unit


@dataclass(frozen=True, kw_only=True)
class Ask:
    """One thing a family asks of the builder.

    Attributes:
        key: its word, such as `stone_size`; an option of the command line and a field of the page.
        says: what is asked, in plain words.
        unit: SI unit of a quantity; None for a choice.
        choices: words it may be; empty for a quantity.
        otherwise: the text taken when nothing is given; empty where there is none.
        needed: whether there is no mix without it.
        low: least a quantity may be at all, in SI; outside published ranges is told, outside this refused.
        high: likewise the most.
        example: how it may be written.
        whole: whether only a whole number will do.
    """

    key: str
    says: str
    unit: Unit | None = None
    choices: tuple[str, ...] = ()
    otherwise: str = ""
    needed: bool = False
    low: float | None = None
    high: float | None = None
    example: str = ""
    whole: bool = False


@dataclass(frozen=True, kw_only=True)
class Wish:
    """What the builder answered.

    Attributes:
        numbers: quantities in SI by key; only those given or with an `otherwise`.
        words: choices by key, likewise.
        told: keys the builder gave, all else is an `otherwise`.
        mixing: mixer, bucket, bags and sand of the site.
        material: a material by name, as the log teaches it.
        posts: gives those of the plan that stand in concrete collars.
    """

    numbers: Mapping[str, float]
    words: Mapping[str, str]
    told: frozenset[str]
    mixing: Mixing
    material: Callable[[str], Kind]
    posts: Callable[[], tuple[Post, ...]] = tuple

    def number(self, key: str) -> float:
        """A quantity in SI.

        Raises:
            KeyError: it was neither given nor has it an `otherwise`.
        """
        return self.numbers[key]

    def perhaps(self, key: str) -> float | None:
        """A quantity in SI; None when it was not given."""
        return self.numbers.get(key)

    def word(self, key: str) -> str:
        """A choice; empty when it was not given."""
        return self.words.get(key, "")


@dataclass(frozen=True, kw_only=True)
class Departure:
    """Something outside a published range: it can be mixed, but the publication does not speak for it.

    Attributes:
        what: which figure, in plain words.
        found: as it is, such as `sand 6 parts`.
        wanted: the range, such as `2-1/4 to 3 parts of cement and lime together`.
        source: publication key of the range.
        says: what comes of it.
    """

    what: str
    found: str
    wanted: str
    source: str
    says: str = ""


@dataclass(frozen=True, kw_only=True)
class Rival:
    """The same mix by another published method, for comparison.

    Attributes:
        method: what it is called.
        rows: what is compared, as the method here has it and as the rival has it; texts by (metric, US) are made later,
            so each row is (what, ours, theirs, unit).
        says: why they differ, in plain words.
        working: lines of the rival's working.
    """

    method: str
    rows: tuple[tuple[str, float, float, Unit], ...]
    says: str
    working: tuple[Step, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Proportioned:
    """A mix that meets a wish.

    Attributes:
        mix: of shelf `mixes`, made for this wish.
        method: the published method it follows, in a line.
        working: lines of working that led to its proportions.
        departures: what lies outside published ranges.
        rivals: the same by other methods.
        thickness: of one coat of it; None where it is no coat.
        volume: of mix that the wish itself tells, such as so many post holes; None where it tells none.
        notes: what was assumed, and what to mind.
    """

    mix: Kind
    method: str
    working: tuple[Step, ...] = ()
    departures: tuple[Departure, ...] = ()
    rivals: tuple[Rival, ...] = ()
    thickness: Meter | None = None
    volume: CubicMeter | None = None
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Family:
    """A family of mixes.

    Attributes:
        name: its word: concrete, mortar, plaster, foamed.
        says: what it is for, in a line.
        asks: what it asks, in order.
        propose: from a wish to a mix; raises OutOfRangeError, NotFoundError, or InvalidPlan with all complaints.
    """

    name: str
    says: str
    asks: tuple[Ask, ...]
    propose: Callable[[Wish], Proportioned]
