"""The documents say what the program does: plan file keys, words, verbs, error tree."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from dataclasses import fields, is_dataclass
from importlib.resources import files
from pathlib import Path

import click
import pytest

import kinds_page
import pinfold.plan as plan_package
from pinfold import errors
from pinfold.cli.commands import pinfold
from pinfold.store import planfile, prices, starting
from pinfold.store.forms import Form
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess

ROOT = Path(__file__).parents[2]


def read(name):
    return (ROOT / name).read_text(encoding="utf-8")


def test_every_key_of_the_plan_file_is_documented(monkeypatch):
    asked = set()
    original = Form.raw

    def listening(self, key):
        if self.at not in ("buildup", "price"):  # below these stand names of the builder's own
            asked.add(key)
        return original(self, key)

    monkeypatch.setattr(Form, "raw", listening)
    for sample in starting.SAMPLES:
        shelf = files("pinfold.store").joinpath("samples", sample)
        planfile.plan_of(shelf.joinpath("plan.toml").read_text(encoding="utf-8"))
        prices.prices_of(shelf.joinpath("prices.toml").read_text(encoding="utf-8"))
    planfile.plan_of(starting.start_plan({}) + TOPOGRAPHY)
    shelves = {name for name in asked if name in FIGURES}
    documented = set(re.findall(r"`\[*([a-z_]+)\]*`|\[\[?([a-z_]+)", read("docs/plan-file.md")))
    words = {word for pair in documented for word in pair if word}
    words |= set(re.findall(r"[a-z_]+", " ".join(re.findall(r"`\[+[^`]*\]+`", read("docs/plan-file.md")))))

    assert asked - shelves - words == set()


TOPOGRAPHY = '\n[place.topography]\nshape = "hill"\nheight = "20 m"\nhalf_length = "50 m"\n'
FIGURES = {
    figure
    for entry in files("pinfold.tables").iterdir()
    if entry.name.endswith(".toml")
    for figure in re.findall(r"(?m)^(\w+) = \[\"|(?m:(\w+) = \")", entry.read_text(encoding="utf-8"))
    for figure in figure
}


@pytest.mark.parametrize("verb", sorted(pinfold.commands))
def test_every_verb_is_a_word_of_the_words_page_and_the_guide(verb):
    assert f"**{verb}**" in read("docs/words.md")
    assert f"pinfold {verb}" in read("docs/guide.md")
    command = pinfold.commands[verb]
    assert command.help
    assert all(option.help for option in command.params if isinstance(option, click.Option))


def test_the_error_tree_is_drawn_whole_and_each_has_its_own_code():
    tree = [
        thing for thing in vars(errors).values() if inspect.isclass(thing) and issubclass(thing, errors.PinfoldError)
    ]
    drawn = errors.__doc__ or ""

    assert len({error.code for error in tree}) == len(tree)
    for error in tree:
        assert re.search(rf"\b{error.__name__}\b", drawn), f"{error.__name__} is not in the tree drawn in errors.py"
        if error is not errors.PinfoldError:
            assert re.search(rf"{error.__name__}\b[^\n]*\s{error.exit_status}\s", drawn), error.__name__


def fields_of(record):
    """Names of a record's fields; none for what is no record."""
    return tuple(field.name for field in fields(record)) if is_dataclass(record) else getattr(record, "_fields", ())


def records_of(*modules):
    """Every record that the modules define, by name: dataclasses and named tuples."""
    return sorted(
        (
            record
            for name in modules
            for record in vars(importlib.import_module(name)).values()
            if inspect.isclass(record) and record.__module__ == name and fields_of(record)
        ),
        key=lambda record: record.__name__,
    )


PLAN_MODULES = tuple(module.name for module in pkgutil.iter_modules(plan_package.__path__, "pinfold.plan."))
TOLD = (
    "layout.records",
    "batching.records",
    "gates.records",
    "gathering.records",
    "quantities.records",
    "costing",
    "lessons.records",
    "correcting.records",
    "trials.records",
    "ripening.records",
    "seasons.records",
    "seasons.days",
    "seasons.people",
    "parts.sawn",
    "parts.flat_cut",
    "parts.labels",
    "weighing.records",
    "weighing.weighing",
    "weighing.trading",
    "weighing.limits",
    "weighing.misses",
    "weighing.between",
    "weighing.supposing",
    "weighing.drivers",
    "weighing.plans",
    "ledger.records",
    "actuals.records",
    "forecasting.records",
    "account.records",
)
"""Studies whose records reach JSON."""
RECORDS = records_of(*PLAN_MODULES, *(f"pinfold.studies.{name}" for name in TOLD), "pinfold.findings",
                     "pinfold.logbook.entries", "pinfold.logbook.kinds")  # fmt: skip
PLAIN = {"name", "names", "says", "at", "x", "y", "z", "note", "notes", "count", "number", "days", "by_item"}
"""Field names that are plain English and need no entry."""


def stands_in(words, name):
    """Whether a word, or words, stands whole in a text, in singular or plural."""
    return re.search(rf"\b{re.escape(name)}s?\b|\b{re.escape(name.removesuffix('s'))}\b", words) is not None


@pytest.mark.parametrize("record", RECORDS, ids=lambda record: record.__name__)
def test_every_field_of_a_record_is_a_word_of_the_words_page(record):
    words = read("docs/words.md").lower().replace("build-up", "buildup")
    missing = [name for name in fields_of(record) if name not in PLAIN and not stands_in(words, name.replace("_", " "))]

    assert missing == []


def test_half_a_word_is_no_word():
    assert stands_in("the end kind of it, its lots", "end kind")
    assert stands_in("the end kind of it, its lots", "lot")
    assert not stands_in("the end kind of it, its lots", "en")
    assert not stands_in("the end kind of it, its lots", "dkind")


CHECKS = (
    "overturning", "sliding", "bearing", "bed-joint tension", "bending", "embedment", "anchorage", "hinge", "swing",
    "frost", "clearance", "joints", "surveyed ground", "dowel", "resultant in the base",
    "footing width", "footing thickness", "footing step", "wet ground", "pad area", "pier load", "pier spacing",
    "stack height",
    "change in the wall", "shear in a bed", "pressed edge", "slenderness", "lap", "cover", "shear at the bars",
    "span between bars", "panel between piers",
    "deflection", "shear", "rail", "wire", "slack", "tie", "brace",
    "hinge screws", "leaf square", "strut joint", "sag", "latch gap",
    "skin tension", "skin bond", "core shear", "shrinkage", "joint set-out", "while green",
)  # fmt: skip


@pytest.mark.parametrize("check", CHECKS)
def test_every_check_is_a_word_of_its_own(check):
    bold = {word.removesuffix("s") for word in re.findall(r"\*\*([^*]+)\*\*", read("docs/words.md"))}

    assert check.removesuffix("s") in bold


@pytest.mark.parametrize("sample", starting.SAMPLES)
def test_no_finding_asks_what_the_words_page_has_not(sample):
    text = files("pinfold.store").joinpath("samples", sample, "plan.toml").read_text(encoding="utf-8")
    asked = {finding.check for finding in assess(lay_out(planfile.plan_of(text)))}

    assert {_without_action(check) for check in asked} <= set(CHECKS)


ACTIONS = ("under a push", "in an earthquake")
"""What a check may be asked of beside the wind."""


def _without_action(check):
    return next((check.removesuffix(f" {action}") for action in ACTIONS if check.endswith(f" {action}")), check)


@pytest.mark.parametrize("action", ACTIONS)
def test_every_action_is_a_word_of_its_own(action):
    assert f"**{action}**" in read("docs/words.md")


def test_the_kinds_page_lists_every_kind():
    assert kinds_page.PAGE.read_text(encoding="utf-8") == kinds_page.page(), "run python tests/kinds_page.py"
