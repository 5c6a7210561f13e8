"""Concrete for a small job without a strength to prove: table A.7.1 by the scale, its companion by the bucket."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, cast

from pinfold.errors import InputError, InvalidPlan
from pinfold.figures import Figure, given, practice
from pinfold.findings import Step, work
from pinfold.formulas import concrete_mix, concrete_small, mixes
from pinfold.sources import Standing
from pinfold.studies.batching.loose import water_density
from pinfold.studies.proportioning.aggregates import with_figures
from pinfold.studies.proportioning.massed_mix import Weights, mix_by_mass
from pinfold.studies.proportioning.records import Ask, Family, Proportioned, Rival, Wish
from pinfold.tables.concrete import grid
from pinfold.tables.shelf import Kind
from pinfold.units import KG_PER_CUBIC_METER, METER, RATIO, UNIT_BY_SYMBOL, Meter, Ratio, both

Letter = Literal["A", "B", "C"]
_INCH = UNIT_BY_SYMBOL["in"].factor
_LETTERS: tuple[Letter, ...] = ("A", "B", "C")
_STEPS = {"well": 0, "sandy": 1, "stony": -1}
_TABLES = {"scale": "small-gravel", "bucket": "parts-gravel"}
_QUARTER: Ratio = 0.25
"""What one look at a batch by the bucket shifts from sand to stone, or back (common practice)."""
_HALF = practice("0.50", RATIO, "starting value, half a part by volume with damp sand")
_SHOVEL = (
    "Water by feel: well-made concrete slides off a shovel and does not run.",
    "Too sandy, more mortar than the gaps of the stone take: the next of A, B, C. Too stony, harsh and open: the one "
    "before.",
    "The table promises no strength. Where one is asked for, take 'pinfold mix concrete'.",
)

STONE = Ask(key="stone_size", says="largest stone", unit=METER, otherwise="3/4 in", low=0.0094, high=2.02 * _INCH,
            example="3/4 in or 20 mm")  # fmt: skip
AIR = Ask(key="air", says="without air put in, or with air-entraining cement or agent", choices=("plain", "entrained"),
          otherwise="plain")  # fmt: skip
DAMPNESS = Ask(key="dampness", says="how the sand lies", choices=("dry", "damp", "very-wet"), otherwise="damp")
ASKS = (
    STONE, AIR, DAMPNESS,
    Ask(key="measure", says="measured by the scale or by the bucket", choices=tuple(_TABLES), otherwise="scale"),
    Ask(key="letter", says="mix of the table made last, B to begin with", choices=_LETTERS, otherwise="B"),
    Ask(key="looked", says="how that batch looked", choices=tuple(_STEPS), otherwise="well"),
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Job:
    """A small job in hand.

    Attributes:
        size: largest stone.
        air: plain or entrained.
        letter: mix of the table.
        shift: parts by the bucket to take from the sand and give to the stone.
        dampness: of the sand.
        cement, sand, stone: of shelf `materials`.
    """

    size: Meter
    air: concrete_mix.Air
    letter: Letter
    shift: Ratio
    dampness: concrete_small.Dampness
    cement: Kind
    sand: Kind
    stone: Kind


@dataclass(frozen=True, kw_only=True)
class Made:
    """A small job's mix with how it was found.

    Attributes:
        mix: of shelf `mixes`.
        working: lines of working.
        parts: sand and stone by loose volume to one of cement.
    """

    mix: Kind
    working: tuple[Step, ...]
    parts: tuple[float, float]


def propose(wish: Wish) -> Proportioned:
    """A concrete for a small job.

    Raises:
        InvalidPlan: stone outside the table, or no mix of it left that is stonier or sandier.
    """
    measure = wish.word("measure")
    job = job_of(wish, letter=wish.word("letter"), looked=wish.word("looked"), measure=measure)
    made = WAYS[measure](job)
    return Proportioned(
        mix=made.mix, method=way_named(measure, job), working=made.working,
        rivals=(*_other_way(job, made, measure), *_companion(job)), notes=(*_SHOVEL, *_air(job)),
    )  # fmt: skip


def job_of(wish: Wish, *, letter: str, looked: str, measure: str) -> Job:
    """A small job with the mix that follows the last one.

    Raises:
        InvalidPlan: as propose tells.
    """
    size, next_one = wish.number("stone_size"), _LETTERS.index(cast("Letter", letter)) + _STEPS[looked]
    problems = [*_outside(size, measure), *_past_the_end(letter, looked, next_one, measure)]
    if problems:
        raise InvalidPlan("the wish for a small job", problems)
    return Job(
        size=size, air=cast("concrete_mix.Air", wish.word("air")), letter=_LETTERS[min(max(next_one, 0), 2)],
        shift=_QUARTER * _STEPS[looked],
        dampness=cast("concrete_small.Dampness", wish.word("dampness")), cement=wish.material("portland-cement"),
        sand=wish.material("sand"), stone=wish.material("gravel"),
    )  # fmt: skip


def way_named(measure: str, job: Job) -> str:
    """The table a measure goes by."""
    if measure == "bucket":
        return "the small-job table by loose volume"
    return f"table A.7.1 of ACI 211 for small jobs, mix {job.letter}"


def by_scale(job: Job) -> Made:
    """By weight, sand told as dry by the table and weighed as it lies; water is what fills the rest."""
    table = work(concrete_mix.small_job, why="by the table, sand dry", size=job.size, air=job.air, mix=job.letter)
    job_masses = table.result
    assert isinstance(job_masses, concrete_mix.SmallJob)
    lying = work(concrete_small.sand_as_it_lies, why="sand as it lies", dry=job_masses.sand, dampness=job.dampness)
    sand = with_figures(job.sand, {"moisture": _read(lying.number / job_masses.sand - 1)})
    masses = {
        "cement": job_masses.cement, "sand": job_masses.sand * (1 + sand.value("absorption")),
        "gravel": job_masses.gravel,
    }  # fmt: skip
    uses = {"cement": job.cement, "sand": sand, "gravel": job.stone}
    steps = _filled(job, masses, uses)
    weights = Weights(
        parts=masses, water=steps[-1].number * water_density(), air=steps[-2].number, standing=Standing.READ,
        source="ACI-211", where="table A.7.1",
    )  # fmt: skip
    mix = mix_by_mass("small-job", _says(job), weights, uses=uses, figures={"stone_size": given(job.size, METER)})
    return Made(mix=mix, working=(table, lying, *steps), parts=_parts(masses, uses))


def by_bucket(job: Job) -> Made:
    """By loose volume with damp sand."""
    table = work(concrete_small.small_job_parts, why="parts by loose volume", size=job.size, air=job.air)
    parts = table.result
    assert isinstance(parts, concrete_small.SmallParts)
    air = work(concrete_mix.air_content, why="air", size=job.size, exposure=_exposure(job))
    figures = {
        "cement": _read(1.0), "sand": _read(parts.sand - job.shift), "gravel": _read(parts.gravel + job.shift),
        "water_cement": _HALF,
        "air": _read(air.number), "stone_size": given(job.size, METER),
    }  # fmt: skip
    uses = {"cement": job.cement, "sand": job.sand, "gravel": job.stone}
    words = {"says": _says(job), "family": "concrete", "yield_method": "absolute", "uses": uses}
    mix = Kind(name="small-job", shelf="mixes", figures=figures, words=words)
    return Made(mix=mix, working=(table, air), parts=(parts.sand - job.shift, parts.gravel + job.shift))


def _reaches(size: Meter, measure: str) -> bool:
    places = grid(_TABLES[measure]).across
    return places[0] * 0.99 <= size <= places[-1] * 1.01


def _outside(size: Meter, measure: str) -> list[InputError]:
    if _reaches(size, measure):
        return []
    places = grid(_TABLES[measure]).across
    says = (
        f"stone to {both(size, METER)} found; the table by the {measure} has {both(places[0], METER)} to "
        f"{both(places[-1], METER)}. Take other stone, or measure the other way."
    )
    return [InputError(says, place="stone_size")]


def _past_the_end(letter: str, looked: str, next_one: int, measure: str) -> list[InputError]:
    if measure == "bucket" or 0 <= next_one < len(_LETTERS):
        return []
    mend = {
        "sandy": "C has the least sand: take coarser sand, or larger stone.",
        "stony": "A has the most sand: take finer sand, or smaller stone.",
    }[looked]
    return [InputError(f"{letter} found too {looked}; no mix of the table lies beyond it. {mend}", place="looked")]


def _read(value: float) -> Figure:
    return Figure(value=value, unit=RATIO, standing=Standing.READ, source="ACI-211", where="table A.7.1")


def _says(job: Job) -> str:
    return f"concrete for a small job, stone to {both(job.size, METER)}"


def _exposure(job: Job) -> str:
    return "entrapped" if job.air == "plain" else "f1"


def _filled(job: Job, masses: dict[str, float], uses: dict[str, Kind]) -> tuple[Step, ...]:
    """Rooms of the parts, air, and the water that fills the rest of a cubic meter."""
    rooms = [
        work(mixes.absolute_volume, why=f"room {part} takes", mass=mass, density=uses[part].value("particle_density"))
        for part, mass in masses.items()
    ]
    air = work(concrete_mix.air_content, why="air", size=job.size, exposure=_exposure(job))
    solids = sum(room.number for room in rooms)
    water = work(mixes.filling_water, why="water that fills the rest", made=1.0, solids=solids, air=air.number)
    return *rooms, air, water


def _parts(masses: dict[str, float], uses: dict[str, Kind]) -> tuple[float, float]:
    """Sand and stone by the bucket to one of cement."""
    loose = {
        part: mass / (1 + (uses[part].value("absorption") if part == "sand" else 0.0))
        / uses[part].value("bulk_density")
        for part, mass in masses.items()
    }  # fmt: skip
    return loose["sand"] / loose["cement"], loose["gravel"] / loose["cement"]


def _other_way(job: Job, made: Made, measure: str) -> tuple[Rival, ...]:
    """By the bucket beside the scale, or the scale beside the bucket, where both tables have this stone."""
    otherwise = "bucket" if measure == "scale" else "scale"
    if not _reaches(job.size, otherwise):
        return ()
    other = WAYS[otherwise](job)
    rows = (
        ("sand by the bucket to 1 of cement", made.parts[0], other.parts[0], RATIO),
        ("stone by the bucket to 1 of cement", made.parts[1], other.parts[1], RATIO),
    )
    says = (
        "Buckets count loose volumes, and those change with the sand's damp and the stone's shape; the scale does not. "
        "What a batch by the bucket makes is about two thirds of its loose volumes added up."
    )
    return (Rival(method=way_named(otherwise, job), rows=rows, says=says, working=other.working),)


def _companion(job: Job) -> tuple[Rival, ...]:
    """The other published masses for small jobs, where they have this stone."""
    if not all(_reaches(job.size, measure) for measure in _TABLES):
        return ()
    ours = concrete_mix.small_job(size=job.size, air=job.air, mix=job.letter)
    table = work(concrete_small.small_job_masses, why="by the companion table", size=job.size, air=job.air)
    theirs = table.result
    assert isinstance(theirs, concrete_small.SmallMasses)
    wet = concrete_small.sand_as_it_lies(dry=ours.sand, dampness="very-wet")
    rows = (
        ("cement", ours.cement, theirs.cement, KG_PER_CUBIC_METER),
        ("sand, very wet", wet, theirs.sand, KG_PER_CUBIC_METER),
        ("stone", ours.gravel, theirs.gravel, KG_PER_CUBIC_METER),
    )
    more = theirs.cement / ours.cement - 1
    says = (
        f"Two tables for the same work: the companion takes {abs(more):.0%} {'more' if more > 0 else 'less'} cement. "
        "Begin with either; the shovel and the first batch decide."
    )
    return (Rival(method="small-job masses of the companion table", rows=rows, says=says, working=(table,)),)


def _air(job: Job) -> tuple[str, ...]:
    if job.air == "plain":
        return ()
    return ("The air wants air-entraining cement or an agent, and a machine: mixing by hand cannot entrain it.",)


WAYS = {"scale": by_scale, "bucket": by_bucket}
FAMILY = Family(
    name="small-job", says="concrete by a table of small jobs, without a strength to prove", asks=ASKS, propose=propose
)
