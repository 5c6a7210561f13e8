"""Every family at the terminal of both samples: it answers in 80 columns, in JSON, and refuses without a trace."""

from __future__ import annotations

import json

import pytest

from pinfold.cli import main
from pinfold.store import starting

WISHES = {
    "mortar": ["--sand", "8"], "grout": ["--cell", "3 in", "--slump", "6 in"],
    "plaster": ["--coat", "finish", "--base", "lath", "--area", "100 ft2"], "bond": ["--area", "10 m2"],
    "lime": ["--binder", "hydraulic"], "earth": ["--gap", "24 mm"], "stabilized-earth": ["--gap", "20 mm"],
    "adobe": ["--clay", "45 %", "--weather", "bare"], "limewash": ["--lime", "quicklime", "--area", "30 m2"],
    "cement-wash": ["--coats", "2"],
}  # fmt: skip


@pytest.fixture(scope="module", params=starting.SAMPLES)
def site(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp(request.param) / "site"
    starting.from_sample(folder, request.param)
    return folder


@pytest.fixture
def run(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")

    def running(*words):
        status = main([str(word) for word in words])
        said = capsys.readouterr()
        return status, said.out, said.err

    return running


@pytest.mark.parametrize("name", WISHES)
def test_a_family_answers_in_80_columns_with_its_cautions(run, site, name):
    status, out, err = run("mix", name, *WISHES[name], "--site", site)

    assert (status, err) == (0, "")
    assert max(len(line) for line in out.splitlines()) <= 80
    assert "\n! " in out
    assert "How it was worked out" in out


@pytest.mark.parametrize("name", WISHES)
def test_a_family_answers_in_json_with_what_departs(run, site, name):
    status, out, _ = run("mix", name, *WISHES[name], "--site", site, "--json")
    answer = json.loads(out)

    assert status == 0
    assert answer["family"] == name
    assert isinstance(answer["proportioned"]["departures"], list)
    assert answer["card"]["charge"]["makes_m3"] > 0


def test_what_cannot_be_mixed_is_told_all_at_once_and_nothing_is_written(run, site):
    before = sorted(path.name for path in site.iterdir())
    status, out, err = run("mix", "mortar", "--sand", "0", "--water", "9", "--site", site)

    assert status == 2
    assert out == ""
    assert "sand: 0 found" in err
    assert "drowns the mix" in err
    assert "Traceback" not in err
    assert sorted(path.name for path in site.iterdir()) == before


def test_what_was_asked_is_told_without_waste_and_one_batch_as_one(run, site):
    _, asked, _ = run("mix", "mortar", "--volume", "0.1 m3", "--site", site)
    _, one, _ = run("mix", "mortar", "--site", site)
    _, holes, _ = run("mix", "post", "--holes", "4", "--site", site)

    assert "waste" not in asked.partition("into each batch")[0]
    assert "what was asked" in " ".join(asked.split())
    assert "ask for about a tenth more" in " ".join(asked.split())
    assert "this is one batch" in " ".join(one.split())
    assert "a tenth more" not in " ".join(holes.split()), "holes count their own waste"


def test_a_thickness_told_is_the_one_the_batch_covers_at(run, site):
    _, out, _ = run("mix", "plaster", "--area", "10 m2", "--thickness", "20 mm", "--site", site, "--json")
    assert json.loads(out)["proportioned"]["thickness_m"] == pytest.approx(0.02)
