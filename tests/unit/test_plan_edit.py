"""Changing a plan file from the editor: comments stay, the file equals the table, hostile requests are told."""

from __future__ import annotations

import json
import tomllib
from collections import Counter
from importlib.resources import files

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from banked_plots import BLOCKS, banked_text
from pinfold.actions import editing
from pinfold.errors import InputError, InvalidPlan
from pinfold.store import plan_edit, starting
from pinfold.store.lengths import Style, length_text, meters_of, spelled, style_of
from pinfold.store.plan_blocks import blocks_of, joined
from pinfold.store.planfile import plan_of, plan_of_table
from pinfold.units import METER, read

SEED = files("pinfold.store").joinpath("samples/seed-garden/plan.toml").read_text(encoding="utf-8")
QUINTA = files("pinfold.store").joinpath("samples/quinta/plan.toml").read_text(encoding="utf-8")
START = starting.start_plan({"units": "metric"})
TEXTS = (SEED, QUINTA, START)
BANKED = banked_text("seed-garden").replace('name = "raised bed"', 'name = "raised bed"  # of the herbs')


def changed(text, changes, renamed=None):
    """The text after some changes, as a save would write it."""
    wanted = plan_edit.put_into(tomllib.loads(text), changes)
    return plan_edit.edited(text, wanted, renamed)


def comments(text):
    return [line.partition("#")[2].strip() for line in text.splitlines() if "#" in line.replace('"#', "")]


def rows(text, kind):
    return [dict(row) for row in tomllib.loads(text)[kind]]


# --- lengths ---------------------------------------------------------------------------------------------------------


@given(st.floats(-5000, 5000), st.sampled_from(list(Style)))
def test_a_written_length_reads_back_to_the_nearest_step_and_stays_there(value, style):
    text = length_text(value, style)
    found = read(text, like=METER)

    assert abs(found - value) <= style.step / 2 * (1 + 1e-9) + 1e-9
    assert length_text(found, style) == text


@given(st.integers(-(10**6), 10**6), st.sampled_from(list(Style)))
def test_a_length_on_the_tape_is_written_exactly(steps, style):
    assert read(length_text(steps * style.step, style), like=METER) == pytest.approx(steps * style.step, abs=1e-9)


@pytest.mark.parametrize(
    ("meters", "style", "text"),
    [
        (64 * 0.3048, Style.WORDS, "64 ft"), (6.29167 * 0.3048, Style.MARKS, "6' 3 1/2\""),
        (6.29167 * 0.3048, Style.WORDS, "6 ft 3-1/2 in"), (-0.0254, Style.WORDS, "-1 in"), (0.0, Style.WORDS, "0 ft"),
        (0.0127, Style.MARKS, '1/2"'), (18.0, Style.METERS, "18 m"), (0.35, Style.METERS, "0.35 m"),
        (0.35, Style.CENTIMETERS, "35 cm"), (1.234, Style.MILLIMETERS, "1234 mm"), (-1.5, Style.METERS, "-1.5 m"),
    ],
)  # fmt: skip
def test_lengths_are_written_as_the_trade_writes_them(meters, style, text):
    assert length_text(meters, style) == text


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf"), 1e9])
def test_what_is_no_length_is_refused(value):
    with pytest.raises(InputError, match="no length"):
        length_text(value, Style.METERS)


def test_the_style_is_the_one_most_lengths_of_the_plan_have():
    marks = {"units": "us", "corner": [{"x": "6' 3\"", "y": "4'"}, {"x": "2 m", "y": "1 ft"}, {"x": "9'", "y": "8'"}]}

    assert style_of(tomllib.loads(SEED)) is Style.WORDS
    assert style_of(tomllib.loads(QUINTA)) is Style.METERS
    assert style_of(marks) is Style.MARKS
    assert style_of({"units": "metric"}) is Style.METERS
    assert style_of({}) is Style.WORDS


def test_only_lengths_are_written_out():
    table = {
        "corner": [{"name": "A", "x": 1.5, "y": 2}],
        "gate": [{"leaves": 2, "at": 1.0}],
        "side": [{"runs": [{"to": 2.0}]}],
    }

    found = spelled(table, Style.METERS)

    assert found["corner"] == [{"name": "A", "x": "1.5 m", "y": "2 m"}]
    assert found["gate"] == [{"leaves": 2, "at": "1 m"}]
    assert found["side"] == [{"runs": [{"to": "2 m"}]}]


def test_every_length_of_the_samples_is_known_in_meters():
    for text in (SEED, QUINTA):
        table = tomllib.loads(text)
        assert all(value == read(length, like=METER) for length, value in meters_of(table).items())
        assert {row["x"] for row in table["corner"]} <= set(meters_of(table))


# --- the text ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text", [*TEXTS, SEED.replace("\n", "\r\n"), "", "format = 1", "[a]\nb=1", 'a = """\n[[corner]]\n"""\n[b]\n']
)
def test_a_text_cut_into_tables_is_the_same_text_again(text):
    assert joined(blocks_of(text)) == text


def test_headers_inside_of_texts_and_lists_are_no_tables():
    text = 'a = """\n[[corner]]\n"""\nb = [\n["x"],\n]\n[ground]\npoints = [\n["1 m", "2 m", "0 m"], # [[side]]\n]\n'

    assert [block.kind for block in blocks_of(text)] == ["", "ground"]


@pytest.mark.parametrize("text", TEXTS)
def test_nothing_changed_writes_the_same_text(text):
    table = tomllib.loads(text)

    assert changed(text, {key: table[key] for key in plan_edit.EDITED if key in table}) == text


def test_a_moved_corner_changes_its_line_and_nothing_else():
    corner = rows(SEED, "corner")
    corner[1]["x"] = 19.9

    after = changed(SEED, {"corner": corner})

    different = [(a, b) for a, b in zip(SEED.splitlines(), after.splitlines(), strict=True) if a != b]
    assert different == [('x = "64 ft"', 'x = "65 ft 3-7/16 in"')]


def test_a_value_keeps_the_comment_behind_it_and_the_file_its_line_ends():
    text = SEED.replace('x = "64 ft"\ny = "0 ft"', 'x = "64 ft"   # to the old post\ny = "0 ft"').replace("\n", "\r\n")
    corner = rows(text, "corner")
    corner[1]["x"] = "63 ft"

    after = changed(text, {"corner": corner})

    assert 'x = "63 ft"   # to the old post\r\n' in after
    assert after.count("\n") == after.count("\r\n")


def test_all_comments_stay_when_a_corner_and_a_side_are_added_in_between():
    corner, side = rows(SEED, "corner"), rows(SEED, "side")
    corner.insert(1, {"name": "F", "x": "30 ft", "y": "-4 ft"})
    side[0]["to"] = "F"
    side.insert(1, {"name": "south 2", "from": "F", "to": "B", "buildup": "block and mesh"})

    after = changed(SEED, {"corner": corner, "side": side})

    assert comments(after) == comments(SEED)
    assert [row["name"] for row in rows(after, "corner")] == ["A", "F", "B", "C", "D", "E"]
    assert '[[corner]]\nname = "F"\nx = "30 ft"\ny = "-4 ft"\n' in after
    assert plan_of(after).is_closed


def test_a_table_taken_out_takes_its_own_comments_along_and_no_others():
    text = QUINTA.replace('[[gate]]\nname = "barrow gate"', '# hung in spring\n[[gate]]\nname = "barrow gate"')
    gates = [row for row in rows(text, "gate") if row["name"] != "barrow gate"]

    after = changed(text, {"gate": gates})

    assert "hung in spring" not in after
    assert "downhill: inside the ground rises" in after
    assert comments(after) == comments(QUINTA)


def test_the_heading_over_the_first_table_stays_when_that_is_taken_out():
    after = changed(START, {"corner": rows(START, "corner")[1:], "side": rows(START, "side")[1:3], "gate": []})

    assert "Corners lie on the center line" in after
    assert "Sides go from corner to corner" in after
    assert "gate" not in tomllib.loads(after)


def test_a_renamed_thing_keeps_its_comments():
    gates = rows(QUINTA, "gate")
    gates[0]["name"] = "goat gate"

    after = changed(QUINTA, {"gate": gates}, {"gate": {"goat gate": "foot gate"}})

    assert comments(after) == comments(QUINTA)
    assert 'name = "goat gate"' in after


def test_points_are_changed_in_place_added_and_taken_out():
    line = rows(QUINTA, "line")
    line[0]["points"][1] = [6.5, "5 m"]
    line[1]["points"].append(["22 m", "9 m"])
    ground = tomllib.loads(QUINTA)["ground"]
    ground["points"] = ground["points"][1:]

    after = changed(QUINTA, {"line": line, "ground": ground})

    found = tomllib.loads(after)
    assert found["line"][0]["points"][1] == ["6.5 m", "5 m"]
    assert len(found["line"][1]["points"]) == 4
    assert len(found["ground"]["points"]) == 8
    assert comments(after) == comments(QUINTA)


def test_banks_and_blocks_stay_when_other_things_move_and_banks_follow_their_side():
    corners = [{**row, "x": "-1 ft"} if row["name"] == "A" else row for row in rows(BANKED, "corner")]
    moved = [{**row, "height": "9 ft"} for row in rows(BANKED, "neighbor")]
    sides = [{**row, "name": "lane"} if row["name"] == "south" else row for row in rows(BANKED, "side")]
    gates = [{**row, "side": "lane"} if row["side"] == "south" else row for row in rows(BANKED, "gate")]
    bed, road = rows(BANKED, "bank")
    after = changed(
        BANKED,
        {"corner": corners, "neighbor": moved, "side": sides, "gate": gates, "bank": [{**bed, "side": "lane"}, road]},
        {"side": {"lane": "south"}},
    )

    assert comments(after) == comments(BANKED)
    assert rows(after, "bank") == [{**bed, "side": "lane"}, road]
    assert rows(after, "neighbor")[0]["blocks"] == BLOCKS["seed-garden"]
    assert [bank.side for bank in plan_of(after).banks] == ["lane", "east"]


def test_the_strips_of_banks_lie_along_their_walls(tmp_path):
    (tmp_path / "plan.toml").write_text(BANKED, encoding="utf-8")
    shapes = editing.edited_plan(tmp_path)["shapes"]

    assert [bank["text"] for bank in shapes["banks"]] == ["raised bed, 1' 6\" higher", 'road, 10" higher']
    lengths = [abs(bank["ring"][1][0] - bank["ring"][0][0]) for bank in shapes["banks"][:1]]
    assert lengths == [pytest.approx(16 * 0.3048)]
    assert {side["side"] for side in shapes["unfolded"] if side["banks"]} == {"south", "east"}


def test_first_gates_lines_and_ground_find_a_place_before_the_build_ups():
    bare = changed(
        QUINTA,
        {
            "gate": [],
            "line": [],
            "neighbor": [],
            "ground": None,
            "side": [
                row
                if "runs" not in row
                else {"name": row["name"], "from": row["from"], "to": row["to"], "buildup": "earth block"}
                for row in rows(QUINTA, "side")
            ],
        },
    )
    table = tomllib.loads(QUINTA)

    after = changed(bare, {key: table[key] for key in plan_edit.EDITED if key in table})

    assert {"gate", "line", "neighbor", "ground"}.isdisjoint(tomllib.loads(bare))
    assert tomllib.loads(after) == table
    assert after.index("[[line]]") < after.index("[buildup")


@pytest.mark.parametrize(
    "text",
    [
        'format = 1\nname = "x"\ncorner = [{ name = "A", x = "0 m", y = "0 m" }, { name = "B", x = "9 m", y = "0 m" }]\n[buildup]\n',
        'format = 1\nname = "x"\n[["corner"]]\nname = "A"\nx = "0 m"\ny = "0 m"\n[[corner]]\nname = "B"\nx = "9 m"\ny = "0 m"\n',
        'name = "x"\n[[corner]]\nname = "A"\nx = "0 m"\ny = "0 m"\n[place]\nsays = "between"\n[[corner]]\nname = "B"\nx = "9 m"\ny = "0 m"\n',
    ],
)  # fmt: skip
def test_unusual_ways_to_write_a_plan_are_changed_all_the_same(text):
    corner = rows(text, "corner")
    corner[1]["x"] = "8 m"
    corner.append({"name": "C", "x": "8 m", "y": "5 m"})

    after = tomllib.loads(changed(text, {"corner": corner}))

    assert after["corner"] == corner
    assert {key: after[key] for key in after if key != "corner"} == {
        key: value for key, value in tomllib.loads(text).items() if key != "corner"
    }


NAMES = st.sampled_from(["A", "gate", 'a "b" c', "no\\rth", "ä#[x]", "x = 1"])
LENGTH = st.one_of(
    st.sampled_from(["1 m", "6' 3 1/2\"", "2 ft", "1 m # x"]), st.floats(-900, 900), st.integers(-900, 900)
)
POINT = st.lists(LENGTH, min_size=2, max_size=2)


@st.composite
def edits(draw):
    """One change of the outline: what a hand does, and what it should not."""
    table = draw(st.sampled_from([tomllib.loads(text) for text in TEXTS]))
    return table, draw(st.lists(st.tuples(st.sampled_from(["move", "add", "drop", "swap", "points", "runs", "rename"]),
                                          st.sampled_from(["corner", "side", "gate", "neighbor", "line"]),
                                          st.integers(0, 8), NAMES, LENGTH, st.lists(POINT, max_size=4)), min_size=1, max_size=6))  # fmt: skip


def _edited(parts, edit):
    what, kind, number, name, length, points = edit
    list_ = [json.loads(json.dumps(row)) for row in parts.get(kind, [])]
    place = number % len(list_) if list_ else 0
    if what == "add" or not list_:
        taken = {row.get("name") for row in list_}
        list_.insert(
            place,
            {
                "name": next(f"{name} {n}" for n in range(99) if f"{name} {n}" not in taken),
                "x": length,
                "points": points,
            },
        )
    elif what == "drop":
        del list_[place]
    elif what == "swap":
        list_[0], list_[place] = list_[place], list_[0]
    elif what == "move":
        list_[place]["x"] = length
    elif what == "points":
        list_[place]["footprint" if kind == "neighbor" else "points"] = points
    elif what == "runs":
        list_[place]["runs"] = [{"to": length, "buildup": name}, {"neighbor": name}]
    elif all(row.get("name") != name for row in list_):
        list_[place]["name"] = name
    return {**parts, kind: list_}


@settings(max_examples=120)
@given(edits())
def test_after_any_edits_the_file_is_readable_and_equal_to_the_table(case):
    table, changes = case
    text = next(text for text in TEXTS if tomllib.loads(text) == table)
    parts = {key: table[key] for key in plan_edit.EDITED if key in table}
    for edit in changes:
        parts = _edited(parts, edit)
        wanted = plan_edit.put_into(tomllib.loads(text), parts)
        with pytest.MonkeyPatch.context() as patched:
            patched.setattr(plan_edit, "_wholesale", None)  # table by table is enough for files like the samples
            text = plan_edit.edited(text, wanted)

        found = tomllib.loads(text)
        assert {key: value for key, value in found.items() if value} == {
            key: value for key, value in wanted.items() if value
        }
    back = changed(text, {key: table.get(key) for key in plan_edit.EDITED})

    assert tomllib.loads(back) == table
    assert "Every quantity is written in quotes" in back or "The place is invented" in back


# --- the actions -------------------------------------------------------------------------------------------------------


@pytest.fixture(params=["seed-garden", "quinta"])
def folder(request, tmp_path):
    starting.from_sample(tmp_path / "site", request.param)
    return tmp_path / "site"


def test_what_is_tried_is_what_the_plan_would_be_and_nothing_is_written(folder):
    before = (folder / "plan.toml").read_bytes()
    opened = editing.edited_plan(folder)
    parts = json.loads(json.dumps(opened["parts"]))
    parts["corner"][1]["x"] = 19.0

    tried = editing.try_plan(folder, parts)

    assert opened["reads"]
    assert tried["reads"]
    assert tried["cost"]["coins"] != opened["cost"]["coins"]
    assert tried["revision"] == opened["revision"] == plan_edit.revision_of(before)
    assert (folder / "plan.toml").read_bytes() == before
    json.dumps(tried, allow_nan=False)


def test_the_shapes_are_those_of_the_layout(folder):
    from pinfold.geometry.outlines import area
    from pinfold.studies.layout.resolve import lay_out

    layout = lay_out(plan_of((folder / "plan.toml").read_text(encoding="utf-8")))
    shapes = editing.edited_plan(folder)["shapes"]

    assert len(shapes["posts"]) == len(layout.posts)
    assert [wall["stretch"] for wall in shapes["walls"]] == [one.name for one in layout.stretches if one.steps]
    walls = sum(abs(area([tuple(point) for point in wall["ring"]])) for wall in shapes["walls"])
    hand = sum(one.length * one.buildup.wall.thickness for one in layout.stretches if one.buildup.wall)
    assert walls == pytest.approx(hand, rel=0.01)
    assert sum(side["length"] for side in shapes["unfolded"]) == pytest.approx(layout.perimeter, abs=0.01)
    posts = {post.name: post for post in layout.posts}
    assert {(one["name"], one["x"], one["y"]) for one in shapes["posts"]} == {
        (name, round(post.point[0], 4), round(post.point[1], 4)) for name, post in posts.items()
    }


def test_a_plan_that_does_not_read_is_told_whole_with_places(folder):
    parts = editing.edited_plan(folder)["parts"]
    parts["gate"][1]["at"] = 900.0
    parts["corner"][0]["x"] = "5 lb"

    tried = editing.try_plan(folder, parts)

    assert not tried["reads"]
    assert {problem["place"] for problem in tried["complaints"]} >= {"corner.A.x", "gate.barrow gate.at"}


def test_a_finding_names_its_side(folder):
    opened = editing.edited_plan(folder)
    sides = {row["name"] for row in opened["parts"]["side"]}
    worst = opened["findings"]["worst"]

    assert len(worst) <= 12
    assert set(opened["findings"]["by_side"]) == sides
    assert all(set(one["sides"]) <= sides for one in worst)
    assert any(one["sides"] for one in worst)


def test_saving_keeps_comments_and_gives_the_new_revision(folder):
    opened = editing.edited_plan(folder)
    before = (folder / "plan.toml").read_text(encoding="utf-8")
    opened["parts"]["corner"][1]["x"] = 19.0

    saved = editing.save_plan(folder, opened["revision"], opened["parts"], {})

    after = (folder / "plan.toml").read_text(encoding="utf-8")
    assert saved["saved"]
    assert saved["revision"] == editing.edited_plan(folder)["revision"]
    assert comments(after) == comments(before)
    assert plan_of(after).corner("B")[0] == pytest.approx(19.0, abs=0.001)


def test_a_file_changed_by_another_hand_is_not_overwritten_and_mine_goes_beside_it(folder):
    opened = editing.edited_plan(folder)
    theirs = (folder / "plan.toml").read_text(encoding="utf-8") + "# their note\n"
    (folder / "plan.toml").write_text(theirs, encoding="utf-8")
    opened["parts"]["corner"][1]["x"] = 19.0

    told = editing.save_plan(folder, opened["revision"], opened["parts"], {})
    mine = editing.save_mine(folder, opened["parts"], {})

    assert editing.save_mine(folder, opened["parts"], {})["file"] == "plan-mine-2.toml"
    assert told["conflict"]
    assert not told["saved"]
    assert (folder / "plan.toml").read_text(encoding="utf-8") == theirs
    assert plan_of((folder / mine["file"]).read_text(encoding="utf-8")).corner("B")[0] == pytest.approx(19.0, abs=0.001)


def test_a_plan_that_does_not_read_is_not_saved(folder):
    before = (folder / "plan.toml").read_bytes()
    opened = editing.edited_plan(folder)
    opened["parts"]["gate"][0]["side"] = "nowhere"

    with pytest.raises(InvalidPlan, match="nowhere"):
        editing.save_plan(folder, opened["revision"], opened["parts"], {})
    assert (folder / "plan.toml").read_bytes() == before


def test_a_plan_without_outline_opens_with_its_complaints(folder):
    text = changed((folder / "plan.toml").read_text(encoding="utf-8"), dict.fromkeys(plan_edit.EDITED))
    (folder / "plan.toml").write_text(text, encoding="utf-8")

    opened = editing.edited_plan(folder)

    assert not opened["reads"]
    assert {problem["place"] for problem in opened["complaints"]} >= {"corner", "side"}
    assert opened["buildups"]


def test_other_parts_of_the_plan_are_not_changed_from_here(folder):
    with pytest.raises(InputError, match="buildup"):
        editing.try_plan(folder, {"buildup": {}})


def test_typed_quantities_are_measured_or_told():
    found = editing.measured(["6' 3 1/2\"", "90 deg", "1,5 m", "12", "3 lb"])["measured"]

    assert found[0]["si"] == pytest.approx(1.9177)
    assert found[1]["kind"] == "angle"
    assert all("complaint" in one for one in found[2:])


# --- hostile requests ----------------------------------------------------------------------------------------------------

ANY = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=12),
              st.sampled_from(["1 m", "-1 m", "9e99 m", "nan m", "A", "earth block", "\ud800"])),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(
        st.sampled_from(["name", "x", "y", "from", "to", "runs", "at", "side", "points", "footprint", "buildup", "z\u2028[["]), inner, max_size=4)),
    max_leaves=12,
)  # fmt: skip


AS_IT_IS = object()
"""Stands for the part that the plan has already."""


def test_any_table_is_tried_or_told_never_a_trace():
    came = Counter()

    @settings(max_examples=150)
    @given(
        st.dictionaries(
            st.sampled_from([*plan_edit.EDITED]), st.one_of(st.just(AS_IT_IS), ANY), min_size=1, max_size=3
        ),
        st.booleans(),
    )
    def tried(changes, merged):
        table = tomllib.loads(SEED)
        for key, value in changes.items():
            there = table.get(key)
            added = [*there, value] if merged and isinstance(there, list) else value
            changes[key] = there if value is AS_IT_IS else added
        came[_outcome(table, changes)] += 1
        for key, value in changes.items():
            meters_of({key: value})

    tried()
    assert came["accepted"] >= 5, came
    assert came["refused"] >= 5, came


def _outcome(table, changes):
    """What comes of some changes; any error that is none of the tree is a trace, and goes through."""
    told = None
    try:
        plan = plan_of_table(plan_edit.put_into(table, changes))
    except (InvalidPlan, InputError) as error:
        told = error
    if told is None:
        assert plan.corners
        return "accepted"
    problems = told.problems if isinstance(told, InvalidPlan) else (told,)
    assert problems
    assert all(problem.message for problem in problems)
    return "refused"


@pytest.fixture
def client(tmp_path):
    from starlette.testclient import TestClient

    from pinfold.web.app import make_app
    from pinfold.web.desk import Desk

    starting.from_sample(tmp_path / "site", "seed-garden")
    host = "127.0.0.1:8765"
    desk = Desk(folder=tmp_path / "site", hosts=frozenset({host}), home=frozenset({host}), secret=b"s" * 32)
    made = TestClient(make_app(desk), base_url=f"http://{host}", client=("127.0.0.1", 1), raise_server_exceptions=True)
    from pinfold.web.guard import token_of

    made.headers.update(
        {"Origin": f"http://{host}", "X-Pinfold-Token": token_of(desk), "Content-Type": "application/json"}
    )
    return made


HOSTILE = [
    b"", b"{", b"[]", b"null", b'"x"', b"{}", b'{"changes": []}', b'{"changes": {"corner": NaN}}',
    b'{"changes": {"corner": [{"x": 1e999}]}}', b'{"changes": {"corner": [{"x": ' + b"9" * 5000 + b"}]}}",
    b'{"changes": ' + b'{"corner":' * 2000 + b"1" + b"}" * 2000 + b"}", b'{"changes": {"corner": ' + b"[" * 5000 + b"]" * 5000 + b"}}",
    b'{"changes": {"corner": "\\ud800"}}', b'{"changes": {"place": {}}}', b'{"changes": {"corner": [{"x": 1e14}]}}',
    b'{"changes": {}, "revision": 3}', b'{"changes": {}, "revision": "x", "renamed": 1}',
    b'{"changes": {}, "revision": "x", "renamed": {"corner": {"A": 2}}}', b"\xff\xfe", b'{"texts": 3}',
    b'{"texts": ["' + b"1" * 3000 + b'"]}', b'{"changes": {"corner": [' + b"0," * 70_000 + b"0]}}", b"[" * 900_000,
]  # fmt: skip


@pytest.mark.parametrize("body", HOSTILE, ids=range(len(HOSTILE)))
@pytest.mark.parametrize("path", ["/api/plan/try", "/api/plan/save", "/api/plan/measure"])
def test_hostile_requests_are_told_in_words(client, path, body):
    answer = client.post(path, content=body)

    tried_empty = path == "/api/plan/try" and body.startswith(b'{"changes": {},')
    conflict = path == "/api/plan/save" and answer.status_code == 409
    assert tried_empty or conflict or 400 <= answer.status_code < 500, answer.text
    assert "Traceback" not in answer.text


def test_the_page_and_its_answers_come_through_the_server(client):
    plan = client.get("/api/plan").json()
    page = client.get("/plan/edit")
    tried = client.post("/api/plan/try", json={"changes": plan["parts"], "serial": 7}).json()
    kept = client.post("/api/plan/save", json={"changes": plan["parts"], "revision": "other", "renamed": {}})

    assert page.status_code == 200
    assert "Draw the plan" in page.text
    assert tried["serial"] == 7
    assert tried["reads"]
    assert kept.status_code == 409
    assert kept.json()["conflict"]


@pytest.mark.parametrize(
    ("changes", "words"),
    [({"corner": [{"x": None}]}, "null stands for a value"), ({"corner": [{"x": 10**16}]}, "too large"),
     ({"corner": [{"x": "1" * 2001}]}, "too long"), ({"corner": [0] * 60_000}, "too much")],
    ids=["nothing", "number", "text", "parts"],
)  # fmt: skip
@pytest.mark.parametrize("path", ["/api/plan/try", "/api/plan/save"])
def test_what_no_plan_holds_is_refused_before_the_plan_is_looked_at(client, path, changes, words):
    answer = client.post(path, json={"changes": changes, "revision": "x"})

    assert answer.status_code == 400
    assert words in answer.json()["message"]


def test_a_change_of_the_plan_is_read_once_by_the_guard(client):
    from pinfold.web.pages import editor

    assert not hasattr(editor, "json")
    for kind in ("image/jpeg", "application/octet-stream"):
        answer = client.post("/api/plan/try", content=b'{"changes": {}}', headers={"content-type": kind})
        assert answer.status_code == 400
