"""Plan files, good and bad: every complaint at once, nothing half-written, comments kept."""

from __future__ import annotations

import os
import stat
from importlib.resources import files

import pytest

from pinfold.errors import InputError, InvalidPlan, NewerFileError, NotFoundError, StoreError
from pinfold.store import planfile, starting, writing
from pinfold.units import System

SEED = files("pinfold.store").joinpath("samples/seed-garden/plan.toml").read_text(encoding="utf-8")
QUINTA = files("pinfold.store").joinpath("samples/quinta/plan.toml").read_text(encoding="utf-8")


def complaints(text):
    with pytest.raises(InvalidPlan) as stopped:
        planfile.plan_of(text)
    return {problem.place: problem.message for problem in stopped.value.problems}


@pytest.mark.parametrize("text", [SEED, QUINTA])
def test_samples_read(text):
    plan = planfile.plan_of(text)

    assert plan.is_closed
    assert len(plan.gates) == 3
    assert len(plan.buildups) == 2
    assert plan.lines
    assert any(run.neighbor for _, run in plan.runs)


def test_feet_and_meters_stand_side_by_side():
    plan = planfile.plan_of(SEED.replace('x = "64 ft"\ny = "0 ft"', 'x = "19.5072 m"\ny = "0 ft"'))

    assert plan.corner("B")[0] == pytest.approx(64 * 0.3048)
    assert plan.units is System.US


def test_all_complaints_come_at_once_with_place_and_mend():
    broken = (
        SEED.replace('x = "64 ft"\ny = "0 ft"', "x = 64\ny = '0,5 m'")
        .replace('kind = "block-8-hollow"', 'kind = "block-8-holow"')
        .replace('wind_speed = "105 mph"', 'wind_speed = "105 psf"')
        .replace('swing = "in"', 'swing = "inwards"', 1)
        .replace('soil = "sand"', 'soyl = "sand"')
    )

    found = complaints(broken)

    assert "no unit" in found["corner.B.x"]
    assert "comma" in found["corner.B.y"]
    assert "did you mean 'block-8-hollow'" in found["buildup.block and mesh.wall.kind"]
    assert "speed is wanted" in found["place.wind_speed"]
    assert "one of in, out is wanted" in found["gate.foot gate.swing"]
    assert "did you mean soil" in found["place.soyl"]


@pytest.mark.parametrize(
    ("old", "new", "place", "word"),
    [
        ("format = 1", "", "format", "write format = 1"),
        ("format = 1", 'format = "1"', "format", "write format = 1"),
        ('name = "Seed garden"', "name = 3", "name", "text in quotes"),
        ('to = "B"', 'to = "Z"', "side.south.to", "no corner called 'Z'"),
        ('at = "10 ft"', 'at = "63 ft"', "gate.foot gate.at", "move or narrow"),
        ('side = "south"\nat = "10 ft"', 'side = "north"\nat = "20 ft"', "gate.foot gate.at", "there stands 'pump house'"),
        ('side = "south"\nat = "10 ft"', 'side = "north"\nat = "15 ft"', "gate.foot gate.at", "across two runs"),
        ('side = "south"\nat = "10 ft"', 'side = "south"\nat = "1 in"', "gate.foot gate.at", "room for its posts"),
        ('at = "22 ft"', 'at = "37 ft"', "gate.barrow gate.at", "move or narrow"),
        ('neighbor = "pump house"', 'neighbor = "barn"', "side.north.runs[1].neighbor", "no neighbor"),
        ('{ to = "16 ft"', '{ to = "1 in"', "side.north.runs[0].to", "nothing shorter"),
        ('leaves = 2', 'leaves = 3', "gate.cart gate.leaves", "from 1 to 2"),
        ('height = "2 ft 8 in"', 'height = "30 m"', "buildup.block and mesh.wall.height", "out of bounds"),
        ('grout = "partial"\ngrout_spacing = "24 in"', 'grout = "partial"', "buildup.block and mesh.wall.grout_spacing", "missing"),
        ('bars = 2\nbar = "#4"', "bars = 2", "buildup.block and mesh.footing.bar", "say which"),
        ('at = "2 ft 11 in"', 'at = "5 ft"', "buildup.block and mesh.rail[1].at", "above the posts"),
        ('grown = "40 %"', 'grown = "140 %"', "buildup.block and mesh.mesh.grown", "out of bounds"),
        ('exposure = "C"', 'exposure = "II"', "place.exposure", "one of B, C, D"),
        ('latitude = "38.9 deg"', 'latitude = "98.9 deg"', "place.latitude", "out of bounds"),
        ('carries = "water"', 'carries = "beer"', "line.irrigation main.carries", "one of water"),
    ],
)  # fmt: skip
def test_each_mistake_is_told_at_its_place(old, new, place, word):
    assert old in SEED
    found = complaints(SEED.replace(old, new, 1))

    assert place in found, found
    assert any(part in found[place] for part in word.split("|")), found[place]


def test_sides_that_cross_are_told():
    crossed = SEED.replace('name = "C"\nx = "64 ft"\ny = "40 ft"', 'name = "C"\nx = "-10 ft"\ny = "40 ft"')

    assert any("crosses" in message for message in complaints(crossed).values())


def test_two_of_one_name_are_told():
    assert "second corner" in complaints(SEED.replace('name = "B"', 'name = "A"', 1))["corner.A.name"]


def test_text_that_is_no_toml_is_told_with_its_line():
    with pytest.raises(InvalidPlan, match="line"):
        planfile.plan_of('format = 1\nname = "a\n')


def test_a_later_format_asks_for_a_newer_pinfold():
    with pytest.raises(NewerFileError, match="newer pinfold"):
        planfile.plan_of(SEED.replace("format = 1", "format = 2"))


def test_a_missing_file_names_the_way_to_start(tmp_path):
    with pytest.raises(NotFoundError, match="pinfold new"):
        planfile.read_plan(tmp_path / "plan.toml")


def test_a_file_that_is_no_text_is_told(tmp_path):
    (tmp_path / "plan.toml").write_bytes(b"format = 1\xff\xfe")

    with pytest.raises(StoreError, match="UTF-8"):
        planfile.read_plan(tmp_path / "plan.toml")


def test_a_mark_at_the_start_of_the_file_does_no_harm(tmp_path):
    (tmp_path / "plan.toml").write_bytes(b"\xef\xbb\xbf" + SEED.encode("utf-8"))

    assert planfile.read_plan(tmp_path / "plan.toml").name == "Seed garden"


def test_only_plain_files_are_written_and_links_are_followed(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "real.txt").write_text("old")
    (tmp_path / "link.txt").symlink_to(tmp_path / "real.txt")

    for place in (tmp_path / "pipe", tmp_path):
        with pytest.raises(StoreError, match="no plain file"):
            writing.write_text(place, "new")
    with pytest.raises(StoreError, match="no such file or directory"):
        writing.write_text(tmp_path / "missing" / "list.csv", "new")
    writing.write_text(tmp_path / "link.txt", "new")

    assert (tmp_path / "link.txt").is_symlink()
    assert (tmp_path / "real.txt").read_text() == "new"
    assert not (tmp_path / "missing").exists()


def test_limits_are_told_with_their_sign_in_both_systems():
    found = complaints(SEED.replace('x = "64 ft"\ny = "0 ft"', 'x = "64000 mi"\ny = "0 ft"'))

    assert "at least -16\u00a0404 ft (-5 km)" in found["corner.B.x"]


def test_a_huge_file_is_refused_before_it_is_read(tmp_path):
    path = tmp_path / "plan.toml"
    with path.open("wb") as file:
        file.truncate(writing.MOST_BYTES + 1)

    with pytest.raises(StoreError, match="larger"):
        planfile.read_plan(path)


@pytest.mark.parametrize(
    ("place", "value", "reads"),
    [
        ("gate.foot gate.width", "3 ft 2 in", lambda plan: plan.gates[0].width / 0.0254 == pytest.approx(38)),
        ("gate[0].width", "3 ft 2 in", lambda plan: plan.gates[0].width / 0.0254 == pytest.approx(38)),
        ("place.soil", "clay", lambda plan: plan.place.soil.name == "clay"),
        ("gate.cart gate.leaves", "2", lambda plan: plan.gates[2].leaves == 2),
        ("line.irrigation main.located", "false", lambda plan: plan.lines[0].located is False),
        (
            "buildup.block and mesh.wall.height",
            "60 cm",
            lambda plan: plan.buildups["block and mesh"].wall.height == 0.6,
        ),
        ("side.north.runs[0].to", "15 ft", lambda plan: plan.sides[3].runs[0].end / 0.3048 == pytest.approx(15)),
        ("buildup.block and mesh.wall.joints", "10 ft", lambda plan: plan.buildups["block and mesh"].wall.joints > 3),
    ],
)
def test_a_change_keeps_every_comment_and_every_other_line(place, value, reads):
    text = planfile.changed(SEED, place, value)

    assert reads(planfile.plan_of(text))
    lines, kept = SEED.splitlines(), text.splitlines()
    assert [line.split("#")[1] for line in lines if "#" in line] == [line.split("#")[1] for line in kept if "#" in line]
    assert len(set(kept) - set(lines)) <= 1


@pytest.mark.parametrize(
    ("place", "word"),
    [("gate[9].width", "there are"), ("gate.cat gate.width", "foot gate"), ("place", "one value inside"),
     ("place.soil.depth", "below a single value"), ("", "there is no"), ("name.x[", "below a single value")],
)  # fmt: skip
def test_a_change_to_nowhere_is_told(place, word):
    with pytest.raises(InputError, match=word):
        planfile.changed(SEED, place, "1 m")


def test_changes_are_written_all_or_none(tmp_path):
    path = tmp_path / "plan.toml"
    planfile.write_plan(path, SEED)

    with pytest.raises(InvalidPlan, match="lump"):
        planfile.write_changes(path, ["place.soil=clay", "place.frost_depth=a lump"])
    assert path.read_text(encoding="utf-8") == SEED
    with pytest.raises(InputError, match="place=value"):
        planfile.write_changes(path, ["place.soil"])

    planfile.write_changes(path, ["place.soil=clay", "place.frost_depth=20 in"])
    assert planfile.read_plan(path).place.soil.name == "clay"


def test_a_bad_text_is_not_written(tmp_path):
    path = tmp_path / "plan.toml"
    planfile.write_plan(path, SEED)

    with pytest.raises(InvalidPlan):
        planfile.write_plan(path, SEED.replace('"64 ft"', '"64"'))

    assert path.read_text(encoding="utf-8") == SEED
    assert [entry.name for entry in tmp_path.iterdir()] == ["plan.toml"]


def test_a_failed_write_leaves_the_old_file_and_no_rubbish(tmp_path, monkeypatch):
    path = tmp_path / "plan.toml"
    planfile.write_plan(path, SEED)

    def full(_descriptor):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StoreError, match="no space left"):
        planfile.write_plan(path, QUINTA)

    assert path.read_text(encoding="utf-8") == SEED
    assert [entry.name for entry in tmp_path.iterdir()] == ["plan.toml"]


def test_a_folder_that_is_a_file_cannot_be_written(tmp_path):
    (tmp_path / "site").write_text("not a folder")

    with pytest.raises(StoreError, match="cannot be written"):
        writing.write_text(tmp_path / "site" / "plan.toml", SEED)


@pytest.mark.skipif(os.geteuid() == 0, reason="root writes everywhere; the folder-is-a-file case stands in")
def test_a_read_only_folder_is_told(tmp_path):
    tmp_path.chmod(stat.S_IRUSR | stat.S_IXUSR)
    with pytest.raises(StoreError, match="cannot be written"):
        writing.write_text(tmp_path / "plan.toml", SEED)


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("family", ["us", "eu"])
def test_the_start_plan_reads_in_both_units(units, family):
    answers = {"units": units, "family": family, "exposure": "C" if family == "us" else "II"}

    plan = planfile.plan_of(starting.start_plan(answers))

    assert plan.units == units
    assert plan.family == family


def test_answers_are_data_never_toml(tmp_path):
    hostile = 'x"\n[place]\nsoil = "rock\\'

    starting.from_answers(tmp_path, {"name": hostile})

    assert planfile.read_plan(tmp_path / "plan.toml").name == 'x"[place]soil = "rock\\'


def test_answers_that_make_no_plan_write_nothing(tmp_path):
    with pytest.raises(InvalidPlan, match=r"width|corner"):
        starting.from_answers(tmp_path / "site", {"width": "60"})

    assert not (tmp_path / "site").exists()


def test_a_plan_is_never_overwritten_by_a_new_one(tmp_path):
    starting.from_sample(tmp_path, "quinta")

    with pytest.raises(InputError, match="already"):
        starting.from_sample(tmp_path, "seed-garden")
    with pytest.raises(NotFoundError, match="seed-garden"):
        starting.from_sample(tmp_path / "other", "farm")
