"""Broken plan files: never a trace, never a hang, never a file half-written."""

from __future__ import annotations

import random
import re
import time
from contextlib import suppress
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import PinfoldError
from pinfold.store import planfile
from pinfold.studies.layout.resolve import lay_out

SAMPLES = tuple(
    files("pinfold.store").joinpath(f"samples/{name}/plan.toml").read_text(encoding="utf-8")
    for name in ("seed-garden", "quinta")
)
LONGEST = 2.0
ODD = (
    "",
    "nan m",
    "-1 m",
    "1e308 m",
    "0 m",
    "9999999 ft",
    "1,5 m",
    "🜁",
    '"',
    "[[",
    "]",
    "\x00",
    "true",
    "12",
    "{}",
    "1 2 3 in",
)


def survives(text):
    """Reads or refuses in time; what reads can be laid out or is refused in time too."""
    start = time.process_time()
    with suppress(PinfoldError):
        lay_out(planfile.plan_of(text))
    assert time.process_time() - start < LONGEST


def broken(text, chance):
    """The text with one to four mistakes of the kind people and editors make."""
    for _ in range(chance.randint(1, 4)):
        lines = text.split("\n")
        place = chance.randrange(len(lines))
        text = chance.choice(_WAYS)(text, lines, place, chance)
    return text


def _drop_line(_text, lines, place, _chance):
    return "\n".join(lines[:place] + lines[place + 1 :])


def _double_line(_text, lines, place, _chance):
    return "\n".join(lines[: place + 1] + lines[place:])


def _swap_lines(_text, lines, place, chance):
    other = chance.randrange(len(lines))
    lines[place], lines[other] = lines[other], lines[place]
    return "\n".join(lines)


def _odd_value(text, _lines, _place, chance):
    values = list(re.finditer(r'"[^"\n]*"', text))
    if not values:
        return text
    spot = chance.choice(values)
    return text[: spot.start()] + f'"{chance.choice(ODD)}"' + text[spot.end() :]


def _bare_value(text, _lines, _place, chance):
    values = list(re.finditer(r'"[^"\n]*"', text))
    if not values:
        return text
    spot = chance.choice(values)
    return text[: spot.start()] + chance.choice(ODD) + text[spot.end() :]


def _swap_values(text, _lines, _place, chance):
    values = list(re.finditer(r'"[^"\n]*"', text))
    if len(values) < 2:
        return text
    first, second = sorted(chance.sample(values, 2), key=lambda spot: spot.start())
    return text[: first.start()] + second[0] + text[first.end() : second.start()] + first[0] + text[second.end() :]


def _flip_byte(text, _lines, _place, chance):
    spot = chance.randrange(len(text) + 1)
    return text[:spot] + chr(chance.randrange(1, 0x2FF)) + text[spot + 1 :]


def _cut_off(text, _lines, _place, chance):
    return text[: chance.randrange(len(text) + 1)]


def _scale_number(text, _lines, _place, chance):
    numbers = list(re.finditer(r"\d+(?:\.\d+)?", text))
    if not numbers:
        return text
    spot = chance.choice(numbers)
    return text[: spot.start()] + str(float(spot[0]) * chance.choice((0, -1, 0.001, 7, 1000, 1e9))) + text[spot.end() :]


_WAYS = (
    _drop_line, _double_line, _swap_lines, _odd_value, _bare_value, _swap_values, _flip_byte, _cut_off, _scale_number,
)  # fmt: skip


@given(st.integers(0, 2**32), st.sampled_from(SAMPLES))
def test_a_broken_plan_is_read_or_refused(seed, sample):
    survives(broken(sample, random.Random(seed)))


@given(st.text(max_size=300))
def test_any_text_is_read_or_refused(text):
    survives(text)


@pytest.mark.parametrize(
    "text",
    [
        "format = 1\n" + "a." * 2000 + "b = 1",
        "format = 1\nname = " + "[" * 5000 + "]" * 5000,
        "format = 1\n" + "\n".join(f'[[corner]]\nname = "c{n}"\nx = "{n} m"\ny = "{n * n % 97} m"' for n in range(499)),
        SAMPLES[0].replace('spacing = "8 ft"', 'spacing = "12 in"').replace('"64 ft"', '"4900 m"'),
        SAMPLES[0].replace('"-3 ft 4 in"', '"-900 m"'),
        SAMPLES[1].replace('"2.6 m"', '"4900 m"'),
    ],
    ids=["deep-key", "deep-list", "many-corners", "many-posts", "cliff", "tall-cliff"],
)
def test_extremes_do_not_hang(text):
    survives(text)


@pytest.mark.fuzz
@pytest.mark.parametrize("part", range(20))
def test_five_thousand_broken_plans(part):
    chance = random.Random(part)
    for _ in range(250):
        survives(broken(chance.choice(SAMPLES), chance))
