"""The command line against sample sites and broken ones: what it says, in how many columns, with which exit status."""

from __future__ import annotations

import csv
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from pinfold import errors
from pinfold.cli import main
from pinfold.store import starting

ROOT = Path(__file__).parents[2]
VERBS = ("plan", "stand", "mix", "gather", "cut", "reckon")


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


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_answers_within_80_columns(run, site, verb):
    status, out, err = run(verb, "--site", site, *(["--check"] if verb == "plan" else []))

    assert (status, err) == (0, "")
    too_long = [line for line in out.splitlines() if len(line) > 80 and " " in line.strip()]
    assert too_long == []
    assert len(out.splitlines()) > 10


@pytest.mark.parametrize("verb", VERBS)
def test_every_answer_is_json_too_and_says_its_units(run, site, verb):
    status, out, _ = run(verb, "--site", site, "--json", *(["--check"] if verb == "plan" else []))

    assert status == 0
    answer = json.loads(out)
    keys = set(_keys(answer))
    assert not any("NaN" in key for key in keys)
    assert any(key.endswith(("_m", "_m3", "_kg")) for key in keys) or verb in ("reckon", "stand")


def _keys(answer):
    if isinstance(answer, dict):
        for key, value in answer.items():
            yield key
            yield from _keys(value)
    if isinstance(answer, list):
        for value in answer:
            yield from _keys(value)


def test_stand_shows_its_working(run, site):
    _, plain, _ = run("stand", "--site", site)
    _, worked, _ = run("stand", "--site", site, "--working")

    assert len(worked) > 3 * len(plain)
    assert "→" in worked
    assert "(derived)" in worked


def test_plan_draws_every_sheet(run, site, tmp_path):
    status, out, _ = run("plan", "--site", site, "--drawings", tmp_path / "drawings")

    names = {path.name for path in (tmp_path / "drawings").iterdir()}
    assert status == 0
    assert {"plan.svg", "plan.dxf"} <= names
    assert len([name for name in names if name.startswith("elevation-")]) == 2 * 5
    assert len([name for name in names if name.startswith("section-")]) == 2 * 2
    assert len([name for name in names if name.startswith("gate-")]) == 2 * 3
    assert all(name in out for name in names if name.endswith(".svg"))


def test_binder_is_a_pdf(run, site, tmp_path):
    status, out, _ = run("binder", "--site", site, "--out", tmp_path / "b.pdf")

    assert status == 0
    assert (tmp_path / "b.pdf").read_bytes().startswith(b"%PDF")
    assert "b.pdf" in out


def test_gather_writes_a_list_for_the_shop(run, site, tmp_path):
    run("gather", "--site", site, "--csv", tmp_path / "list.csv")

    rows = list(csv.DictReader((tmp_path / "list.csv").read_text(encoding="utf-8").splitlines()))
    assert len(rows) > 10
    assert {"item", "unit", "net", "with waste", "bought"} <= set(rows[0])
    assert all(float(row["bought"]) >= 0 for row in rows)
    assert "\u00a0" not in (tmp_path / "list.csv").read_text(encoding="utf-8")


def test_mix_shows_one_card_and_another_mixer(run, site):
    _, every, _ = run("mix", "--site", site, "--json")
    name = json.loads(every)["cards"][0]["mix"]
    _, small, _ = run("mix", "card", name, "--site", site, "--batch", "20 L", "--json")
    _, large, _ = run("mix", "card", name, "--site", site, "--batch", "200 L", "--json")

    assert {card["mix"] for card in json.loads(small)["cards"]} == {name}
    assert json.loads(small)["cards"][0]["batches"] > json.loads(large)["cards"][0]["batches"]


@pytest.mark.parametrize(
    ("words", "status", "says"),
    [
        (["mix", "card", "mud"], 2, "names no place"),
        (["mix", "--batch", "20"], 2, "unit"),
        (["mix", "--batch", "900 m3"], 2, "wanted"),
    ],
)
def test_odd_wishes_are_refused_in_one_line(run, site, words, status, says):
    got, out, err = run(*words, "--site", site)

    assert (got, out) == (status, "")
    assert says in err
    assert "Traceback" not in err


BREAKS = {
    "no file": (None, 2, "pinfold new"),
    "later format": (("format = 1", "format = 7"), 3, "newer pinfold"),
    "no TOML": (("[place]", "[place"), 2, "TOML"),
    "bare number": (('x = "0 ft"', "x = 0"), 2, "corner.A.x"),
    "unknown kind": (('kind = "strip-concrete"', 'kind = "strip-cheese"'), 2, "strip-concrete"),
    "gate outside": (('at = "10 ft"', 'at = "62 ft"'), 2, "move or narrow"),
}


@pytest.mark.parametrize("verb", [*VERBS, "binder"])
@pytest.mark.parametrize("way", BREAKS)
def test_a_broken_plan_is_told_by_every_verb(run, tmp_path, verb, way):
    change, status, says = BREAKS[way]
    starting.from_sample(tmp_path, "seed-garden")
    path = tmp_path / "plan.toml"
    if change is None:
        path.unlink()
    else:
        path.write_text(path.read_text(encoding="utf-8").replace(*change, 1), encoding="utf-8")
    before = sorted(entry.name for entry in tmp_path.iterdir())

    got, out, err = run(verb, "--site", tmp_path)

    assert (got, out) == (status, "")
    assert says in err
    assert "Traceback" not in err
    assert sorted(entry.name for entry in tmp_path.iterdir()) == before


def test_a_value_is_changed_from_the_command_line(run, tmp_path):
    starting.from_sample(tmp_path, "seed-garden")

    status, out, _ = run("plan", "--site", tmp_path, "--check", "--set", "gate.foot gate.width=4 ft", "--json")

    assert status == 0
    assert json.loads(out)["gates"][0]["gate"]["width_m"] == pytest.approx(4 * 0.3048)
    assert 'width = "4 ft"' in (tmp_path / "plan.toml").read_text(encoding="utf-8")


ERRORS = {
    "InputError": (["mix", "--batch", "900 m3"], 2),
    "QuantityError": (["mix", "--batch", "3,5 L"], 2),
    "InvalidPlan": (["formula", "eccentricity", "load=1"], 2),
    "NotFoundError": (["mix", "card", "mud"], 2),
    "StoreError": (["gather", "--csv", "{site}/plan.toml/list.csv"], 3),
    "NewerFileError": (["plan", "--check", "--set", "format=2"], 3),
    "OutOfRangeError": (["formula", "eccentricity", "moment=1 N m/m", "load=0 N/m"], 4),
}


@pytest.mark.parametrize("error", [error for error in vars(errors).values() if isinstance(error, type)], ids=str)
def test_every_error_is_reached_from_the_door_with_its_status(run, site, tmp_path, monkeypatch, error):
    if not issubclass(error, errors.PinfoldError) or error is errors.PinfoldError:
        return
    if error is errors.NoSolutionError:  # no plan is known whose labels fit on no sheet

        def stuck(*_words, **_more):
            raise errors.NoSolutionError("the texts fit on no sheet")

        monkeypatch.setattr("pinfold.drawings.all_scenes.largest_sheet", stuck)
        words, wanted = ["plan", "--drawings", str(tmp_path)], 4
    else:
        words, wanted = ERRORS[error.__name__]
    place = [] if words[0] == "formula" else ["--site", site]

    status, out, err = run(*(word.format(site=site) for word in words), *place)

    assert (status, out) == (wanted, "")
    assert err.startswith("pinfold: ")
    assert "Traceback" not in err


@pytest.mark.parametrize("verb", ["plan", "binder", "gather"])
def test_a_full_disk_leaves_what_was_there(run, tmp_path, monkeypatch, verb):
    starting.from_sample(tmp_path, "quinta")
    target = {"plan": "drawings/plan.svg", "binder": "binder.pdf", "gather": "list.csv"}[verb]
    (tmp_path / target).parent.mkdir(exist_ok=True)
    (tmp_path / target).write_text("yesterday's")
    before = sorted(path.name for path in tmp_path.rglob("*"))

    def full(_descriptor):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    status, _, err = run(verb, "--site", tmp_path, *(["--csv", tmp_path / target] if verb == "gather" else []))

    assert status == 3
    assert "no space left on device" in err
    assert len(err.strip().splitlines()) == 1
    assert (tmp_path / target).read_text() == "yesterday's"
    assert sorted(path.name for path in tmp_path.rglob("*")) == before


def test_drawings_into_a_file_are_told(run, site, tmp_path):
    (tmp_path / "taken").write_text("x")

    status, _, err = run("plan", "--site", site, "--drawings", tmp_path / "taken" / "drawings")

    assert status == 3
    assert "cannot be written" in err


def test_new_starts_from_flags_and_plans_at_once(run, tmp_path):
    folder = tmp_path / "mine"
    status, out, _ = run("new", folder, "--no-ask", "--units", "metric", "--width", "20 m", "--name", "Mein Hof")

    assert status == 0
    assert "plan.toml" in out
    assert run("plan", "--site", folder, "--check")[0] == 0
    status, _, err = run("new", folder, "--no-ask")
    assert (status, "already" in err) == (2, True)


@pytest.mark.parametrize("units", ["us", "metric"])
def test_nothing_fails_in_the_plan_to_start_from(run, tmp_path, units):
    folder = tmp_path / "mine"
    run("new", folder, "--no-ask", "--units", units)
    status, out, _ = run("stand", "--site", folder, "--json")

    assert status == 0
    assert {finding["verdict"] for finding in json.loads(out)["findings"]} == {"HOLDS", "NOT SHOWN"}


def test_a_sample_takes_no_answers(run, tmp_path):
    status, _, err = run("new", tmp_path / "mine", "--sample", "quinta", "--width", "20 m")

    assert (status, "--width" in err, (tmp_path / "mine").exists()) == (2, True, False)


def test_new_asks_what_is_not_given(monkeypatch, capsys, tmp_path):
    from click.testing import CliRunner

    from pinfold.cli.commands import pinfold

    answers = "\n".join(["metric", "", "30", "30 m", "", "", "Q", "II", "", "", "", ""])
    result = CliRunner().invoke(pinfold, ["new", str(tmp_path / "asked"), "--ask"], input=answers + "\n")

    assert result.exit_code == 0, result.output
    assert "Error: '30' has a number without a unit" in result.output  # and asks again, as for the exposure
    assert "Error: 'Q' found; one of 0, I, II, III, IV is wanted" in result.output
    assert '"30 m"' in (tmp_path / "asked" / "plan.toml").read_text(encoding="utf-8")


def test_answers_that_are_wrong_are_told_by_their_flags(run, tmp_path):
    status, _, err = run("new", tmp_path / "a", "--units", "metric", "--width", "18", "--soil", "mud", "--no-ask")
    assert status == 2
    assert "  --width: '18' has a number without a unit" in err
    assert "  --soil: 'mud' found" in err
    assert not (tmp_path / "a").exists()


def test_a_name_in_quotes_is_found_as_it_stands_in_the_file(run, tmp_path):
    site = tmp_path / "site"
    starting.from_sample(site, "quinta")

    place = 'buildup."earth block".footing.width'
    assert run("plan", "--check", "--site", site, "--set", f"{place}=75 cm")[0] == 0
    assert 'width = "75 cm"' in (site / "plan.toml").read_text(encoding="utf-8")


def test_a_caution_is_given_once(run, site):
    _, out, _ = run("stand", "--mend", "none", "--site", site)

    assert " ".join(out.split()).count("A fresh wall has no strength and a small wind tips it.") == 1


def test_a_formula_is_worked_out_by_name(run):
    status, out, _ = run("formula", "base_pressure", "load=12 kN/m", "width=60 cm", "eccentricity=10 cm")

    assert status == 0
    assert "40 kPa" in out
    assert "derived" in out


def test_a_formula_answers_in_json(run):
    _, out, _ = run("formula", "bearing.eccentricity", "moment=500 N m/m", "load=5 kN/m", "--json")

    answer = json.loads(out)
    assert answer["result"] == pytest.approx(0.1)
    assert answer["result_units"] == {"result": "m"}
    assert answer["standing"] == ["derived"]


def test_formulas_are_listed(run):
    _, out, _ = run("formula", "--list", "--json")

    names = [line["name"] for line in json.loads(out)]
    assert len(names) > 60
    assert names == list(dict.fromkeys(names))


@pytest.mark.parametrize(
    ("words", "status", "says"),
    [
        (["formula", "base_presure"], 2, "near it"),
        (["formula", "eccentricity", "moment=1"], 2, "load: is missing"),
        (["formula", "eccentricity", "moment=1 N m/m", "load=0 N/m"], 4, "above 0"),
        (["formula", "eccentricity", "moment=1 N m/m", "load=1 N/m", "load=2 N/m"], 2, "twice"),
        (["formula", "eccentricity", "moment"], 2, "key=value"),
        (["formula", "--list", "zzz"], 2, "no formula holds"),
        (["dance"], 2, "No such command"),
        (["plan", "--sight", "x"], 2, "No such option"),
    ],
)
def test_what_cannot_be_answered_says_why(run, words, status, says):
    got, out, err = run(*words)

    assert (got, out) == (status, "")
    assert says in err


def test_a_bug_shows_its_trace_and_status_70(run, monkeypatch):
    import pinfold.actions.formulas as actions

    monkeypatch.setattr(actions, "list_all", lambda _word: 1 / 0)
    status, _, err = run("formula", "--list")

    assert status == 70
    assert "ZeroDivisionError" in err


def test_a_closed_pipe_is_no_fault(tmp_path):
    line = f"{sys.executable} -m pinfold formula --list | head -1"
    done = subprocess.run(
        ["bash", "-o", "pipefail", "-c", line], capture_output=True, text=True, env=os.environ, check=False
    )

    assert "Traceback" not in done.stderr
    assert done.stdout.strip()


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no full device on this system")
def test_a_full_output_is_told_in_one_line():
    line = f"{sys.executable} -m pinfold formula --list > /dev/full"
    done = subprocess.run(["bash", "-c", line], capture_output=True, text=True, check=False)

    assert done.returncode == 3
    assert "no space left" in done.stderr
    assert "Traceback" not in done.stderr


def test_help_imports_nothing_heavy():
    code = (
        "import sys; from pinfold.cli import main; main(['--help']); "
        "print(sorted(set(sys.modules) & {'numpy','shapely','ezdxf','typst','tomlkit','pinfold.studies','pinfold.store'}))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.strip().endswith("[]")


def test_will_it_stand_is_answered_for_a_script_as_the_guide_says(run, tmp_path):
    starting.from_sample(tmp_path / "site", "seed-garden")
    plan = tmp_path / "site" / "plan.toml"
    plan.write_text(plan.read_text(encoding="utf-8").replace('embed = "3 ft"', 'embed = "2 ft"'), encoding="utf-8")
    guide = (ROOT / "docs" / "guide.md").read_text(encoding="utf-8")
    told = guide.partition("### The answer for a script")[2].partition("\n## ")[0]
    rows = [line.split("|")[1:3] for line in told.splitlines() if line.startswith("| `")]
    words = re.compile(r"`([a-z_]+)`")
    _, out, _ = run("stand", "--site", plan.parent, "--json", "--storms")
    answer = json.loads(out, parse_constant=pytest.fail)

    assert {key for heads, _ in rows for key in words.findall(heads)} == set(answer) - {"cautions"}
    for heads, holds in rows:
        for key in words.findall(heads):
            named = set(words.findall(holds)) - {"null"}
            assert named <= set(_keys(answer[key])), key


def test_what_was_not_asked_is_null_for_a_script(run, site):
    answer = json.loads(run("stand", "--site", site, "--json", "--mend", "none")[1])

    assert (answer["mends"], answer["worlds"]) == (None, None)
