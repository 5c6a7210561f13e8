"""Starting a site folder: from a shipped sample, or from a few answers."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from string import Template
from zoneinfo import ZoneInfo

from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.store.planfile import NAME, plan_of
from pinfold.store.writing import write_bytes, write_text

SAMPLES = ("seed-garden", "quinta")


@dataclass(frozen=True, kw_only=True)
class Question:
    """One thing asked when a plan is started.

    Attributes:
        key: name of the flag and of the place in the start plan.
        asks: the question.
        us: answer offered where feet are used.
        metric: answer offered where meters are used.
    """

    key: str
    asks: str
    us: str
    metric: str


QUESTIONS = (
    Question(key="name", asks="What is the plot called", us="My plot", metric="My plot"),
    Question(key="width", asks="How wide is it", us="60 ft", metric="18 m"),
    Question(key="depth", asks="How deep is it", us="40 ft", metric="12 m"),
    Question(key="wind-speed", asks="Basic wind speed of your code there", us="105 mph", metric="26 m/s"),
    Question(key="exposure", asks="Exposure (US: B, C, D; EU: 0, I, II, III, IV)", us="C", metric="II"),
    Question(key="frost-depth", asks="How deep does the ground freeze", us="24 in", metric="60 cm"),
    Question(key="soil", asks="Soil (sandy-gravel, sand, clay)", us="sand", metric="sand"),
    Question(key="wall-height", asks="How high is the low wall", us="2 ft 8 in", metric="80 cm"),
    Question(key="fence-height", asks="How much mesh above it", us="3 ft", metric="1 m"),
)


def from_sample(folder: Path, sample: str, *, today: date | None = None) -> tuple[Path, ...]:
    """Copy a sample into a new site folder.

    Args:
        folder: to make
        sample: name of one
        today: the day its invented forecast is moved to begin on; it stays as it is shipped where not given

    Raises:
        NotFoundError: no such sample.
        InputError: the folder holds a plan already.
        StoreError: it cannot be written.
    """
    if sample not in SAMPLES:
        raise NotFoundError(f"no sample {sample!r}; there are: {', '.join(SAMPLES)}")
    _refuse_existing(folder)
    found = dict(_files_of(files("pinfold.store").joinpath("samples", sample)))
    for name in sorted(found, key=lambda name: (name == NAME, name)):
        content = found[name].read_bytes()
        moved = _moved(content, today) if today is not None and name.endswith(".json") else content
        write_bytes(folder / name, moved, make_folder=True)
    return tuple(folder / name for name in sorted(found, key=lambda name: (name == NAME, name)))


def _files_of(shelf: Traversable, under: str = "") -> Iterator[tuple[str, Traversable]]:
    """All files of a sample, by their names in the site folder."""
    for entry in shelf.iterdir():
        if entry.is_dir():
            yield from _files_of(entry, f"{under}{entry.name}/")
        else:
            yield f"{under}{entry.name}", entry


_DAY = re.compile(r"\d{4}-\d\d-\d\d(?=T)")
_OFFSET = re.compile(r'(?<="utc_offset_seconds": )-?\d+')


def _moved(content: bytes, first: date) -> bytes:
    """A forecast with its days moved so that it begins on another one, by the offset its place has then."""
    text = content.decode()
    begins = date.fromisoformat(min(_DAY.findall(text)))
    noon = datetime.combine(first, time(12), ZoneInfo(json.loads(text)["timezone"]))
    offset = noon.utcoffset() or timedelta()
    moved = _DAY.sub(lambda day: str(date.fromisoformat(day[0]) + (first - begins)), text)
    return _OFFSET.sub(f"{offset.total_seconds():.0f}", moved).encode()


def from_answers(folder: Path, answers: Mapping[str, str]) -> tuple[Path, ...]:
    """Write a commented plan to start from.

    Args:
        folder: to make
        answers: text by question key, and `units` and `family`; what is not answered gets the answer offered

    Raises:
        InvalidPlan: answers that are wrong, each by its flag, or make no plan together.
        InputError: the folder holds a plan already.
        StoreError: it cannot be written.
    """
    _refuse_existing(folder)
    wrong = [fault for question in QUESTIONS if (fault := fault_of(question.key, answers)) is not None]
    if wrong:
        raise InvalidPlan("what was answered", wrong)
    text = start_plan(answers)
    plan_of(text)
    shelf = files("pinfold.store")
    written = {NAME: text}
    for name in ("prices.toml", "pile.csv"):
        template = shelf.joinpath(f"start_{name}").read_text(encoding="utf-8")
        written[name] = Template(template).safe_substitute(
            currency="USD" if answers.get("units", "us") == "us" else "EUR"
        )
    for name, content in written.items():
        write_text(folder / name, content, make_folder=True)
    return tuple(folder / name for name in written)


def fault_of(key: str, answers: Mapping[str, str]) -> InputError | None:
    """What is wrong with the answer to one question, by itself in a plan otherwise as offered; None where nothing is.

    Args:
        key: of a question
        answers: as of `from_answers`
    """
    alone = {name: text for name, text in answers.items() if name in ("units", "family", key)}
    try:
        plan_of(start_plan(alone))
    except InvalidPlan as wrong:
        return InputError(wrong.problems[0].message, place=f"--{key}")
    return None


def start_plan(answers: Mapping[str, str]) -> str:
    """The text of a start plan."""
    units = answers.get("units", "us")
    filled = {question.key: question.us if units == "us" else question.metric for question in QUESTIONS}
    filled |= {key: value for key, value in answers.items() if value}
    family = answers.get("family") or ("us" if units == "us" else "eu")
    filled |= {"units": units, "family": family}
    if not answers.get("exposure"):
        filled["exposure"] = "C" if family == "us" else "II"
    words = {key.replace("-", "_"): _quoted(value) for key, value in filled.items()}
    sizes = _US_SIZES if units == "us" else _METRIC_SIZES
    template = files("pinfold.store").joinpath("start_plan.toml").read_text(encoding="utf-8")
    return Template(template).substitute(words | sizes | {"paper": "letter" if units == "us" else "a4"})


_US_SIZES = {
    "wall": "block-8-hollow", "footing_width": "30 in", "footing_thickness": "12 in", "grouted_every": "24 in",
    "bar": "#4", "course_bar": "ladder-9ga", "course_bar_every": "16 in", "coat": "3/8 in", "finish": "1/8 in",
    "post": "pipe-2in", "stout": "pipe-2-1/2in", "spacing": "8 ft", "embed": "3 ft 6 in", "collar": "14 in",
    "mesh": "welded-2x4-14ga",
    "wire": "wire-12ga-ht", "wire_at": "1 ft 6 in", "tension": "40 lbf", "rail": "pipe-rail-1-3-8in",
    "gate": "steel-frame-mesh", "gate_at": "6 ft", "gate_width": "3 ft 6 in", "gate_height": "5 ft",
    "ground_far": "6 in", "payload": "1400 lb", "tank": "65 gal", "bucket": "5 gal",
}  # fmt: skip
_METRIC_SIZES = {
    "wall": "block-200-hollow", "footing_width": "90 cm", "footing_thickness": "36 cm", "grouted_every": "60 cm",
    "bar": "12 mm", "course_bar": "8 mm", "course_bar_every": "60 cm", "coat": "10 mm", "finish": "4 mm",
    "post": "pipe-60", "stout": "pipe-76", "spacing": "2.4 m", "embed": "1.1 m", "collar": "30 cm",
    "mesh": "welded-50x50", "wire": "wire-3mm", "wire_at": "45 cm", "tension": "150 N", "rail": "pipe-rail-42",
    "gate": "steel-frame-mesh-50x50", "gate_at": "2 m", "gate_width": "1.1 m", "gate_height": "1.5 m",
    "ground_far": "15 cm", "payload": "600 kg", "tank": "300 L", "bucket": "12 L",
}  # fmt: skip


def _quoted(text: str) -> str:
    """Text fit to stand between quotes in TOML."""
    return "".join(letter for letter in text if ord(letter) >= 32).replace("\\", "\\\\").replace('"', '\\"')


def _refuse_existing(folder: Path) -> None:
    if (folder / NAME).exists():
        raise InputError(f"{folder} holds a {NAME} already; choose another folder, or take that file away first")
