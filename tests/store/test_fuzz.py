"""Broken plan files, price lists and piles: never a trace, never a hang, never a file half-written.

What reads is laid out or refused; what is laid out is assessed, taken off, batched, cut, gathered and costed without
any complaint at all: a figure that is missing or out of a formula's range is NOT SHOWN, never an error.
"""

from __future__ import annotations

import json
import math
import random
import re
import time
from contextlib import suppress
from dataclasses import dataclass
from importlib.resources import files

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.drawings.all_scenes import scenes
from pinfold.errors import InvalidPlan, NewerFileError, NoSolutionError, PinfoldError
from pinfold.plan.stock import NO_PRICES, PilePiece, Prices
from pinfold.reports.record import as_json
from pinfold.store.bounds import bounds_of
from pinfold.store.pile import pile_of
from pinfold.store.planfile import plan_of
from pinfold.store.prices import prices_of
from pinfold.studies.batching.cards import batch_cards
from pinfold.studies.costing import planned_cost
from pinfold.studies.gathering.gather import gather
from pinfold.studies.layout.records import Layout
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.parts.listing import parts
from pinfold.studies.quantities.take_off import take_off
from pinfold.studies.stability.assess import assess
from pinfold.tables.shelf import shelf
from pinfold.units import UNIT_BY_SYMBOL


def _file(sample: str, name: str) -> str:
    return files("pinfold.store").joinpath(f"samples/{sample}/{name}").read_text(encoding="utf-8")


NAMES = ("seed-garden", "quinta")
SAMPLES = tuple(_file(name, "plan.toml") for name in NAMES)
PRICE_LISTS = tuple(_file(name, "prices.toml") for name in NAMES)
PILES = tuple(_file(name, "pile.csv") for name in NAMES)
LONGEST = 2.0
"""Process time that reading, or everything that follows from it, may take, s."""


@dataclass(frozen=True)
class Stock:
    """Price list and pile beside a plan."""

    prices: Prices = NO_PRICES
    pile: tuple[PilePiece, ...] = ()


STOCKS = tuple(Stock(prices_of(prices), pile_of(pile)) for prices, pile in zip(PRICE_LISTS, PILES, strict=True))


def survives(text: str, stock: Stock = STOCKS[0], *, drawn: bool = False) -> None:
    """Reads or refuses in time; what reads can be laid out or is refused; what is laid out is answered whole."""
    start = time.process_time()
    layout = None
    with suppress(PinfoldError):
        layout = lay_out(plan_of(text))
    if layout is not None:
        reckons(layout, stock)
    assert time.process_time() - start < LONGEST
    if layout is not None and drawn:
        draws(layout)


def reckons(layout: Layout, stock: Stock) -> None:
    """Every study of a layout, and all of it as JSON, which knows no infinity and no nan."""
    lines, pieces = take_off(layout), parts(layout)
    cards = batch_cards(lines, layout.plan.mixing)
    gathered = gather(lines, cards, layout=layout, prices=stock.prices, pile=stock.pile, parts=pieces)
    told = (assess(layout), pieces, cards, gathered, planned_cost(gathered, layout, stock.prices))
    json.dumps(as_json(told), allow_nan=False)


def draws(layout: Layout) -> None:
    """Every scene, or no room for its texts."""
    start = time.process_time()
    with suppress(NoSolutionError):
        scenes(layout)
    assert time.process_time() - start < 5 * LONGEST


def read_stock(prices: str, pile: str) -> Stock:
    """Price list and pile, each read or refused in time."""
    start = time.process_time()
    found, pieces = NO_PRICES, ()
    with suppress(InvalidPlan, NewerFileError):
        found = prices_of(prices)
    with suppress(InvalidPlan):
        pieces = pile_of(pile)
    assert time.process_time() - start < LONGEST
    return Stock(found, pieces)


# --- mistakes of any text -------------------------------------------------------------------------------------------

ODD = (
    "", "nan m", "-1 m", "1e308 m", "0 m", "9999999 ft", "1,5 m", "🜁", '"', "[[", "]", "\x00", "true", "12", "{}",
    "1 2 3 in", "inf", "1e-300 m", "0.0001 m", "0 %", "100 %", "-0.0 m", "1e-9", "99 lb", "2.9 m", "5 m",
)  # fmt: skip


def broken(text, chance, ways=None):
    """The text with one to four mistakes of the kind people and editors make."""
    for _ in range(chance.randint(1, 4)):
        lines = text.split("\n")
        place = chance.randrange(len(lines))
        text = chance.choice(ways or _WAYS)(text, lines, place, chance)
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
    return _in_place_of_a_value(text, chance, f'"{chance.choice(ODD)}"')


def _bare_value(text, _lines, _place, chance):
    return _in_place_of_a_value(text, chance, chance.choice(ODD))


def _in_place_of_a_value(text, chance, value):
    values = list(re.finditer(r'"[^"\n]*"', text))
    if not values:
        return text
    spot = chance.choice(values)
    return text[: spot.start()] + value + text[spot.end() :]


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
    times = chance.choice((0, -1, 0.001, 7, 1000, 1e9))
    return _scaled(text, spot, times)


def _scale_a_little(text, _lines, _place, chance):
    numbers = list(re.finditer(r'(?<== ")\d+(?:\.\d+)?', text))
    return _scaled(text, chance.choice(numbers), chance.choice((0.3, 0.5, 0.9, 1.1, 2, 3))) if numbers else text


def _scaled(text, spot, times):
    return text[: spot.start()] + str(float(spot[0]) * times) + text[spot.end() :]


# --- mistakes of a plan: it still reads, more often than not ---------------------------------------------------------

SHELVES = {
    "wall": "walls", "footing": "footings", "coat": "coats", "coping": "copings", "posts": "posts", "rail": "rails",
    "mesh": "meshes",
}  # fmt: skip
STRAY = tuple(f'{figure} = "1"' for figure in ("waste", "roll_length", "unit_length", "joint_ratio", "thickness"))
LAYER = re.compile(r'(?m)^\[+(?:buildup\.(?:"[^"]*"|\w+)\.)?(wall|footing|coat|coping|posts|rail|mesh)\]+$')
KIND = re.compile(r'(?m)^kind = "([^"]*)"')
GATE = re.compile(r'(?m)^\[\[gate\]\]\n(?:.+\n)*?at = "[^"]*"')
LENGTHS = (
    "0 m", "1 mm", "1 cm", "5 m", "9 m", "16 ft", "28 ft", "4.999 m", "8.1 m", "64 ft", "40 ft", "18 m", "15 m",
    "17.1 m", "61 ft", "10 ft", "24 ft",
)  # fmt: skip
GROUPS = re.compile(r"(?m)^(?=\[)")


def _own_figure(text, _lines, _place, chance):
    """A figure of the layer's own kind, at or near the edge of what the reader lets through."""
    spots = list(LAYER.finditer(text))
    if not spots:
        return text
    spot = chance.choice(spots)
    named = KIND.search(text, spot.end())
    known = shelf(SHELVES[spot[1]])
    units = _figures_of(known[named[1]]) if named and named[1] in known else {}
    if not units:
        return text[: spot.end()] + "\n" + chance.choice(STRAY) + text[spot.end() :]
    name, unit = chance.choice(sorted(units.items()))
    low, high = bounds_of(name, unit)
    middle = math.sqrt(max(low, 1e-6) * high) if 0 < high < math.inf else 1.0
    usual = known[named[1]].value(name) if known[named[1]].has(name) else middle
    value = chance.choice((low, high, middle, usual / 10, usual / 2, usual * 2, usual * 10, 0.0, max(low, 1e-9)))
    end = text.find("\n[", spot.end()) % (len(text) + 1)
    table, rest = text[spot.end() : end], text[end:]
    symbol = "" if unit.symbol == "-" else unit.symbol
    line = f'\n{name} = "{value / unit.factor!r} {symbol}"'
    return text[: spot.end()] + line + re.sub(rf"(?m)\n{name} = .*$", "", table) + rest


def _figures_of(one):
    asks = one.words.get("asks", {})
    return {name: figure.unit for name, figure in one.figures.items()} | {
        name: UNIT_BY_SYMBOL[str(symbol)] for name, symbol in asks.items()
    }


def _gate_elsewhere(text, _lines, _place, chance):
    """A gate at a run's end, at a corner, on another side, over another gate."""
    spots = list(GATE.finditer(text))
    if not spots:
        return text
    spot = chance.choice(spots)
    gate = re.sub(r'at = "[^"]*"$', f'at = "{chance.choice(LENGTHS)}"', spot[0])
    if chance.random() < 0.5:
        sides = re.findall(r'(?m)^\[\[side\]\]\nname = ("[^"]*")', text) or ['"south"']
        gate = re.sub(r'(?m)^side = "[^"]*"', f"side = {chance.choice(sides)}", gate)
    return text[: spot.start()] + gate + text[spot.end() :]


def _runs_odd(text, _lines, _place, chance):
    names = re.findall(r'(?m)^\[buildup\.("[^"]*"|\w+)\]', text) or ['"b"']
    one, other = chance.choice(names), chance.choice(names)
    first, second = chance.choice(LENGTHS), chance.choice(LENGTHS)
    runs = chance.choice((
        "[]", f"[{{ buildup = {one} }}]", f'[{{ to = "{first}", buildup = {one} }}]', "[{}]", '"b"',
        f'[{{ to = "{first}", buildup = {one} }}, {{ buildup = {other} }}]',
        f'[{{ to = "{first}", buildup = {one} }}, {{ to = "{second}", buildup = {other} }}, {{ buildup = {one} }}]',
        f'[{{ to = "{first}", neighbor = "pump house" }}, {{ buildup = {one} }}]',
        f'[{{ to = "{first}", neighbor = "tool store" }}, {{ buildup = {one} }}]',
    ))  # fmt: skip
    spots = list(re.finditer(r"(?m)^buildup = .*$|^runs = \[\n(?:.+\n)*?\]$", text))
    if not spots:
        return text
    spot = chance.choice(spots)
    return text[: spot.start()] + f"runs = {runs}" + text[spot.end() :]


def _same_name(text, _lines, _place, chance):
    names = list(re.finditer(r'(?m)^name = ("[^"]*")', text))
    if len(names) < 2:
        return text
    one, other = chance.sample(names, 2)
    return text[: one.start(1)] + other[1] + text[one.end(1) :]


def _drop_table(text, _lines, _place, chance):
    groups = GROUPS.split(text)
    groups.pop(chance.randrange(len(groups)))
    return "".join(groups)


def _double_table(text, _lines, _place, chance):
    groups = GROUPS.split(text)
    place = chance.randrange(len(groups))
    return "".join([*groups[: place + 1], groups[place], *groups[place + 1 :]])


def _other_kind(text, _lines, _place, chance):
    """Another kind of the same shelf, or another of the plan's own words."""
    spots = list(CHOICE.finditer(text))
    if not spots:
        return text
    spot = chance.choice(spots)
    key, at = spot[1], text.rfind("\n[", 0, spot.start())
    layer = LAYER.search(text, at)
    name = SHELVES.get(layer[1], "") if layer and key == "kind" and layer.end() < spot.start() else CHOICES.get(key, "")
    words = sorted(shelf(name)) if name in ALL_SHELVES else name.split()
    return text[: spot.start()] + f'{key} = "{chance.choice(words)}"' + text[spot.end() :] if words else text


CHOICE = re.compile(
    r'(?m)^(kind|post|stout|bar|course_bar|mortar|setting|grout|soil|follow|family|units|exposure) = "[^"]*"'
)
CHOICES = {
    "post": "posts", "stout": "posts", "bar": "bars", "course_bar": "bars", "mortar": "mixes", "soil": "soils",
    "setting": "ground wall wall-top", "grout": "none partial full", "follow": "step rake", "family": "us eu",
    "units": "us metric", "exposure": "B C D II III",
}  # fmt: skip
ALL_SHELVES = {*SHELVES.values(), "bars", "mixes", "soils"}

_WAYS = (
    _drop_line, _double_line, _swap_lines, _odd_value, _bare_value, _swap_values, _flip_byte, _cut_off, _scale_number,
)  # fmt: skip
_PLAN_WAYS = (
    _own_figure, _own_figure, _own_figure, _own_figure, _gate_elsewhere, _gate_elsewhere, _runs_odd, _runs_odd,
    _other_kind, _other_kind, _other_kind, _scale_a_little, _scale_a_little, _scale_a_little, _drop_line, _same_name,
    _drop_table, _double_table,
)  # fmt: skip

seeds = st.integers(0, 2**32)


@given(seeds, st.sampled_from(SAMPLES))
def test_a_broken_plan_is_read_or_refused(seed, sample):
    survives(broken(sample, random.Random(seed)))


@given(seeds, st.sampled_from(SAMPLES))
def test_a_plan_changed_in_its_own_words_is_answered_or_refused(seed, sample):
    survives(broken(sample, random.Random(seed), _PLAN_WAYS))


@given(st.text(max_size=300))
def test_any_text_is_read_or_refused(text):
    survives(text)
    read_stock(text, text)


@settings(max_examples=25)
@given(seeds, st.integers(0, 1))
def test_a_broken_price_list_or_pile_is_read_or_refused(seed, number):
    chance = random.Random(seed)
    stock = read_stock(broken(PRICE_LISTS[number], chance), broken(PILES[number], chance))

    if stock != Stock():
        survives(SAMPLES[number], stock)


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


NORTH = re.compile(r"(?m)^runs = \[\n(?:.+\n)*?\]$")


@pytest.mark.parametrize("at", ["0 ft", "1 in", "2 3/8 in", "36 ft", "60 ft 6 in", "61 ft", "64 ft", "65 ft"])
def test_a_gate_anywhere_along_its_side_is_built_or_refused(at):
    survives(SAMPLES[0].replace('at = "10 ft"', f'at = "{at}"'), drawn=True)


@pytest.mark.parametrize("at", ["12 ft 11 in", "13 ft", "15 ft", "16 ft", "20 ft", "27 ft 11 in", "28 ft", "45 ft"])
def test_a_gate_at_a_runs_end_is_built_or_refused(at):
    gate = 'side = "north"\nat = "' + at + '"'
    survives(SAMPLES[0].replace('side = "south"\nat = "10 ft"', gate), drawn=True)


@pytest.mark.parametrize("runs", ["[]", "[{}]", '""', "[[]]", "3", '[{ to = "16 ft" }]', '[{ buildup = "none" }]'])
def test_runs_that_are_none_are_refused(runs):
    with pytest.raises(InvalidPlan):
        plan_of(NORTH.sub(f"runs = {runs}", SAMPLES[0]))


@pytest.mark.parametrize(("name", "other"), [("A", "B"), ("south", "east"), ("foot gate", "barrow gate")])
def test_a_name_given_twice_is_refused(name, other):
    with pytest.raises(InvalidPlan, match=other):
        plan_of(SAMPLES[0].replace(f'name = "{name}"', f'name = "{other}"'))


@pytest.mark.parametrize(
    "text",
    [
        "", "item", "item,count\n,1", "item,item\nsand,sand", "item,count\nsand,1e9", "item,count\nsand,²",
        'item,note\nsand,"open', "item,amount\nsand,nan m3", "item,amount\nsand,1 lb\n", "item,length\nsand,3 m\n",
        "item,count,length,amount,note\npipe-2in,1000000,1e8 m,,", "item;count\nsand;1", "\x00", "\ufeffitem\nsand",
        "item,amount\n#4,3 kg\npipe-2in,2 m2\nblock-8-hollow,1 yd3",
    ],
)  # fmt: skip
def test_an_odd_pile_is_counted_or_refused(text):
    survives(SAMPLES[0], read_stock(PRICE_LISTS[0], text))


HEAD = 'format = 1\ncurrency = "X"\n'


@pytest.mark.parametrize(
    "text",
    [
        "", "format = 1", "format = 2", HEAD + "digits = 9", HEAD + 'trip = "nan"', HEAD + "trip = 1e400",
        HEAD + '[price.sand]\ncost = "0"', HEAD + '[price.sand]\npack = "0 m3"\ncost = "1"',
        HEAD + '[price.sand]\npack = "1e-9 m3"\ncost = "1"', HEAD + '[price.sand]\npack = "1e9 m3"\ncost = "1e10"',
        HEAD + '[price.sand]\npack = "5 m"\ncost = "1"', HEAD + '[price.portland-cement]\npack = "1 yd3"\ncost = "1"',
        HEAD + '[price.pipe-2in]\npack = "1e-9 m"\ncost = "1"', HEAD + '[price.pipe-2in]\npack = "3 kg"\ncost = "1"',
        HEAD + '[price."block-8-hollow"]\npack = "0.3 m2"\ncost = "1"', HEAD + 'price = "all"', HEAD + "price = []",
        HEAD + '[price.welded-2x4-14ga]\npack = "1 lb"\ncost = "2"', HEAD + "digits = 0\n[price.sand]\ncost = 1",
    ],
)  # fmt: skip
def test_an_odd_price_list_is_counted_or_refused(text):
    survives(SAMPLES[0], read_stock(text, PILES[0]))


@pytest.mark.fuzz
@pytest.mark.parametrize("part", range(24))
def test_six_thousand_broken_plans(part):
    chance = random.Random(part)
    for turn in range(250):
        number = chance.randrange(2)
        plan = broken(SAMPLES[number], chance, _PLAN_WAYS if turn % 3 else None)
        prices, pile = (broken(each[number], chance) if turn % 2 else each[number] for each in (PRICE_LISTS, PILES))
        survives(plan, read_stock(prices, pile), drawn=turn % 5 == 0)
