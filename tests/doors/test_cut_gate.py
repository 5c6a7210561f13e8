"""One gate to build, through the command line and as a page: the same words, the same record, the same complaints."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from pinfold.cli.commands import pinfold
from pinfold.store import starting


@pytest.fixture(scope="module", params=["seed-garden", "quinta"])
def site(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp("gates") / request.param
    starting.from_sample(folder, request.param)
    return folder


def run(site, *words):
    return CliRunner().invoke(pinfold, ["cut", "gate", *words, "--site", str(site)], catch_exceptions=True)


@pytest.mark.parametrize("name", ["foot gate", "barrow gate", "cart gate"])
def test_a_gate_is_told_within_eighty_columns(site, name):
    told = run(site, name)

    assert told.exit_code == 0
    assert "Pieces of one leaf" in told.output
    assert "Who passes" in told.output
    assert max(len(line) for line in told.output.splitlines()) <= 80


def test_its_record_is_in_si_and_its_gaps_add_up(site):
    record = json.loads(run(site, "cart gate", "--json").output)
    size = record["frame"]["size"]

    assert sum(size["gaps"]) + 2 * size["width"] == size["opening"]
    assert {finding["check"] for finding in record["findings"]} >= {"hinge screws", "leaf square", "sag", "latch gap"}
    assert record["ways"][0]["planned"] is True


def test_a_leaf_on_hand_is_tried(site):
    told = run(site, "foot gate", "--leaf", "80 cm")
    wide = run(site, "foot gate", "--leaf", "2 m")

    assert told.exit_code == 0
    assert "leaf" in told.output
    assert "too wide" in str(wide.exception)


@pytest.mark.parametrize(("words", "said"), [(("nix",), "there is no gate"), (("foot gate", "--leaf", "wide"), "wide")])
def test_what_cannot_be_is_told(site, words, said):
    told = run(site, *words)

    assert told.exit_code != 0
    assert said in str(told.exception)
