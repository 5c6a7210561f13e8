"""The verbs of the log as a builder types them."""

from __future__ import annotations

import json
import re
import shutil
import time
from datetime import datetime
from types import SimpleNamespace
from zoneinfo import ZoneInfo

import pytest

from pinfold.actions.clock import now_local, received_now
from pinfold.actions.taking import take_entries, take_photo
from pinfold.cli import main
from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.store import starting
from pinfold.store.log import open_log
from pinfold.store.log_photos import photo_file


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "site"
    starting.from_sample(folder, "seed-garden")
    return folder


@pytest.fixture
def run(capsys, monkeypatch, site):
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("PINFOLD_WHO", "ana")

    def running(*words):
        status = main(["log", *map(str, words), "--site", str(site)])
        said = capsys.readouterr()
        too_long = [line for line in said.out.splitlines() if len(line) > 80 and "/" not in line]  # paths stay whole
        assert too_long == [] or "--json" in words
        return status, said.out, said.err

    return running


def test_an_entry_is_added_listed_corrected_shown_and_taken_back(run):
    status, out, err = run("add", "batch", "mix=earth", "batches=2", "amounts.sand=10 bucket", "amounts.water=14 L")
    assert (status, err) == (0, "")
    assert "Written down as entry 1" in out

    assert "earth, batches 2, sand 10 bucket, water 14 L" in " ".join(run("list")[1].split())
    assert run("correct", "1", "batches=3", "amounts=")[0] == 0
    shown = run("show", "1")[1]
    assert "entry 3" not in shown
    assert "Corrected since; entry 2" in shown
    listed = run("list")[1]
    assert "earth, batches 3" in listed
    assert "1 entry." in listed
    assert run("withdraw", "1", "--why", "wrong heap")[0] == 0
    assert "No entry." in run("list")[1]
    assert "3 entries." in run("list", "--all")[1]
    status, _, err = run("correct", "2", "batches=4")
    assert (status, "taken back" in err) == (2, True)


def test_a_correction_keeps_who_when_and_all_other_fields(run, site):
    run("add", "hours", "time=6 h", "people=2", "layer=laying", "--who", "bo", "--at", "2026-05-01T16:00+02:00")
    run("correct", "1", "time=7 h")

    with open_log(site) as log:
        first, second = log.entries(newest_first=False)
    assert (second.who, second.at, second.corrects) == ("bo", first.at, first.id)
    assert second.typed == {"time": "7 h", "people": "2", "layer": "laying"}


@pytest.mark.parametrize(
    ("words", "stands"),
    [
        (["amounts.sand=11 bucket"], [["sand", "11 bucket"], ["water", "14 L"], ["lime", "2 bag"]]),
        (["amounts.clay=1 bucket"], [["sand", "10 bucket"], ["water", "14 L"], ["lime", "2 bag"], ["clay", "1 bucket"]]),
        (["amounts.water="], [["sand", "10 bucket"], ["lime", "2 bag"]]),
        (["amounts.water=", "amounts.sand=9 bucket"], [["sand", "9 bucket"], ["lime", "2 bag"]]),
        (["amounts=sand=1 bucket"], [["sand", "1 bucket"]]),
        (["amounts.water=3 L", "amounts=sand=1 bucket"], [["sand", "1 bucket"], ["water", "3 L"]]),
        (["amounts="], None),
        (["amounts.sand=", "amounts.water=", "amounts.lime="], None),
        (["batches=2"], [["sand", "10 bucket"], ["water", "14 L"], ["lime", "2 bag"]]),
    ],
)  # fmt: skip
def test_a_corrected_amount_leaves_the_others_as_they_stand(run, site, words, stands):
    run("add", "batch", "mix=earth", "amounts.sand=10 bucket", "amounts.water=14 L", "amounts.lime=2 bag")

    assert run("correct", "1", *words)[0] == 0
    with open_log(site) as log:
        last = log.entries(standing=True)[0]
    assert last.typed.get("amounts") == stands
    assert last.typed["mix"] == "earth"


def test_an_amount_that_is_not_there_is_not_taken_out_in_silence(run, site):
    run("add", "batch", "mix=earth", "amounts.sand=10 bucket")

    status, _, err = run("correct", "1", "amounts.snad=")
    assert (status, "sand" in err) == (2, True)
    with open_log(site) as log:
        assert log.count() == 1


def test_a_conflict_is_told_and_never_taken_for_written(run, site, monkeypatch):
    monkeypatch.setattr("pinfold.actions.log_book.new_id", lambda: "always-the-same")
    assert run("add", "note", "text=wet")[0] == 0

    status, out, err = run("add", "note", "text=dry")
    assert (status, out) == (2, "")
    assert "says something else" in err
    with open_log(site) as log:
        assert [entry.text("text") for entry in log.entries()] == ["wet"]


@pytest.mark.parametrize("words", [("note", "text=wet"), ("purchase", "item=sand", "packs=1", "cost=1")])
def test_what_is_typed_is_in_the_one_file_once_it_is_told(run, site, words):
    run("add", *words)
    assert [each.name for each in site.glob("log.sqlite*")] == ["log.sqlite"]


def sent(kind="note", number=1, **fields):
    head = {"id": f"sent-{kind}-{number:04}", "kind": kind, "at": "2026-05-03T14:20+02:00", "who": "ana"}
    return {**head, "device": "phone", "fields": fields}


def test_phones_write_while_the_plan_has_complaints(site):
    (site / "plan.toml").write_text("format = 1\nnonsense = 3\n")

    found = take_entries(site, [sent(text="wet"), sent("purchase", item="sand", packs="1", cost="12.50")])
    assert [each.state for each in found] == ["new", "new"]


def test_phones_write_what_needs_no_money_while_the_price_list_has_complaints(site):
    (site / "prices.toml").write_text("format = 1\nnonsense = 3\n")

    assert take_entries(site, [sent(text="wet")])[0].state == "new"
    with pytest.raises(InvalidPlan, match=r"prices\.toml"):
        take_entries(site, [sent(number=2, text="dry"), sent("purchase", item="sand", packs="1", cost="12.50")])
    with open_log(site) as log:
        assert log.count() == 1


def test_money_sent_is_read_with_the_decimals_of_the_price_list(site):
    (site / "prices.toml").write_text('format = 1\ncurrency = "yen"\ndigits = 0\n')

    found = [take_entries(site, [sent("purchase", n, item="x", packs="1", cost=c)])[0].state
             for n, c in enumerate(["12.50", "1250"])]  # fmt: skip
    assert found == ["wrong", "new"]


def test_nothing_is_taken_where_there_is_no_plan(tmp_path):
    with pytest.raises(NotFoundError, match=r"plan\.toml"):
        take_entries(tmp_path, [sent(text="wet")])
    with pytest.raises(NotFoundError, match=r"plan\.toml"):
        take_photo(tmp_path, b"")
    assert list(tmp_path.iterdir()) == []


def test_the_clock_tells_the_offset_here_and_utc_for_what_is_taken():
    local, taken = now_local(), received_now()

    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d", local)
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}\+00:00", taken)
    when = datetime.fromisoformat(local)
    assert abs((datetime.fromisoformat(taken) - when).total_seconds()) < 5
    assert when.utcoffset() == when.astimezone().utcoffset()


def test_now_and_a_time_without_offset_are_of_the_place(run, site):
    run("add", "note", "text=wet")
    run("add", "note", "text=dry", "--at", "2026-05-03T14:20")
    run("add", "note", "text=dry", "--at", "2026-01-03T14:20")
    run("add", "note", "text=dry", "--at", "2026-05-03T14:20Z")

    with open_log(site) as log:
        now, summer, winter, given = log.entries(newest_first=False)
    assert now.when.utcoffset() == now.when.astimezone(ZoneInfo("America/Denver")).utcoffset()
    assert (summer.at, winter.at) == ("2026-05-03T14:20:00-06:00", "2026-01-03T14:20:00-07:00")
    assert given.at == "2026-05-03T14:20Z"


@pytest.fixture
def computer_zone(monkeypatch):
    """Sets this computer's clock to a zone for as long as a test runs."""

    def to(name):
        monkeypatch.setenv("TZ", name)
        time.tzset()

    yield to
    monkeypatch.undo()
    time.tzset()


def put_zone(site, line):
    plan = (site / "plan.toml").read_text(encoding="utf-8")
    (site / "plan.toml").write_text(re.sub(r"(?m)^time_zone.*$", line, plan), encoding="utf-8")


EDGES = {  # the first and last minute of 3 May at the place, and the minutes outside
    "America/Denver": ("05:59Z", "06:00Z", "05:59Z", "06:00Z"), "Asia/Kathmandu": ("18:14Z", "18:15Z", "18:14Z", "18:15Z"),
}  # fmt: skip


@pytest.mark.parametrize("computer", ["UTC", "Pacific/Auckland", "America/Los_Angeles"])
@pytest.mark.parametrize("zone", sorted(EDGES))
def test_a_day_asked_for_is_one_of_the_place_whatever_the_computers_zone(run, site, computer_zone, zone, computer):
    computer_zone(computer)
    put_zone(site, f'time_zone = "{zone}"')
    before, first, last, after = EDGES[zone]
    days = ("02", "02", "03", "03") if zone == "Asia/Kathmandu" else ("03", "03", "04", "04")
    for text, day, clock in zip(("before", "first", "last", "after"), days, (before, first, last, after), strict=True):
        run("add", "note", f"text={text}", "--at", f"2026-05-{day}T{clock}")

    status, out, err = run("list", "--since", "2026-05-03", "--until", "2026-05-03")
    assert (status, err) == (0, "")
    assert [word for word in ("before", "first", "last", "after") if word in out] == ["first", "last"]
    assert f"Days and times go by the clock of the place, {zone}." in " ".join(out.split())
    answer = json.loads(run("list", "--since", "2026-05-03", "--json")[1])
    assert (answer["zone"], answer["count"]) == (zone, 3)
    assert "clock of the place" not in run("list")[1]


@pytest.mark.parametrize(
    ("spoil", "why"),
    [
        (lambda site: put_zone(site, ""), "gives no time_zone under [place]"),
        (lambda site: put_zone(site, "time_zone = 3"), "the plan has complaints"),
    ],
)
def test_without_a_zone_of_the_place_days_go_by_this_computers_and_that_is_told(run, site, computer_zone, spoil, why):
    computer_zone("Asia/Kathmandu")
    spoil(site)
    run("add", "note", "text=early", "--at", "2026-05-02T18:15Z")
    run("add", "note", "text=late", "--at", "2026-05-03T18:15Z")

    _, out, _ = run("list", "--since", "2026-05-03", "--until", "2026-05-03")
    told = " ".join(out.split())
    assert "early" in out
    assert "late" not in out
    assert "Days and times go by this computer's clock, UTC+05:45 today" in told
    assert why in told
    assert json.loads(run("list", "--json")[1])["zone"] == "UTC+05:45"


def test_the_day_the_clocks_go_forward_ends_where_it_ends_at_the_place(run, site):
    for text, at in (("first", "2026-03-08T07:00Z"), ("last", "2026-03-09T05:59Z"), ("after", "2026-03-09T06:00Z")):
        run("add", "note", f"text={text}", "--at", at)  # 23 hours long

    _, out, _ = run("list", "--since", "2026-03-08", "--until", "2026-03-08")
    assert [word for word in ("first", "last", "after") if word in out] == ["first", "last"]


def test_filters_narrow_the_list(run):
    for day, place in (("01", "south"), ("02", "north"), ("03", "south")):
        run("add", "note", f"text=Rain on day {day}", f"place={place}", "--at", f"2026-05-{day}T10:00", "--who", place)

    assert "2 entries." in run("list", "--place", "south")[1]
    assert "2 entries." in run("list", "--since", "2026-05-02")[1]
    assert "2 entries." in run("list", "--until", "2026-05-02")[1]
    assert "1 entry." in run("list", "--since", "2026-05-02", "--until", "2026-05-02T11:00")[1]
    assert "1 entry." in run("list", "--find", "DAY 03", "--kind", "note", "--who", "south")[1]
    assert "The newest 1 are shown" in " ".join(run("list", "--limit", "1")[1].split())
    assert run("list", "--since", "soon")[0] == 2
    assert run("list", "--kind", "bath")[0] == 2


def test_json_has_what_was_typed_and_si_with_units(run):
    run("add", "batch", "mix=earth", "wet_density=115 lb/ft3", "temperature=54 °F")

    answer = json.loads(run("list", "--json")[1])
    values = answer["entries"][0]["values"]
    assert values["wet_density_kg_m3"] == pytest.approx(1842.1, abs=0.1)
    assert answer["entries"][0]["typed"]["wet_density"] == "115 lb/ft3"
    assert json.loads(run("show", "1", "--json")[1])["stands"]["seq"] == 1
    assert json.loads(run("check", "--json")[1]) == {"complaints": []}


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("add", "batch", "wet_density=1850"), "number without a unit"), (("add", "batch"), "mix: is missing"),
        (("add", "bath"), "no kind of entry"), (("add", "note", "wet"), "key=value"),
        (("add", "note", "text=a", "text=b"), "twice"), (("add", "note", "text=a", "--at", "soon"), "--at"),
        (("show", "99"), "no entry"), (("correct", "99", "text=x"), "no entry"), (("withdraw", "99"), "no entry"),
        (("restore", "none"), "no file"), (("in", "none.csv"), "no file"), (("backup", "b"), "no log"),
        (("add", "batch", "mix=earth", "--photo", "x.jpg"), "has no photo"),
        (("add", "photo", "--photo", "none.jpg"), "no picture"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_told_in_words_and_nothing_is_written(run, site, words, says):
    status, out, err = run(*words)

    assert (status, out) == (2, "")
    assert says in err
    with open_log(site) as log:
        assert log.count() == 0


def test_no_log_is_started_where_there_is_no_plan(run, site):
    (site / "plan.toml").unlink()

    for words in (("add", "note", "text=x"), ("list",), ("check",), ("out", "a.csv")):
        assert run(*words)[0] == 2
    assert not (site / "log.sqlite").exists()


def test_a_log_is_kept_while_the_plan_has_complaints(run, site):
    (site / "plan.toml").write_text("format = 1\nnonsense = 3\n")

    assert run("add", "note", "text=wet")[0] == 0
    assert "wet" in run("list")[1]


def test_money_is_read_with_the_decimals_of_the_price_list(run, site):
    (site / "prices.toml").write_text('format = 1\ncurrency = "yen"\ndigits = 0\n')

    assert run("add", "purchase", "item=sand", "packs=1", "cost=12.50")[0] == 2
    assert run("add", "purchase", "item=sand", "packs=1", "cost=1250")[0] == 0


def test_a_photo_is_kept_with_its_entry(run, site, tmp_path, monkeypatch):
    ready = SimpleNamespace(jpeg=b"made small", width=40, height=30, taken="2026-05-03T14:00:00", place=None)
    monkeypatch.setattr("pinfold.imaging.photos.prepared_photo", lambda raw, keep_place=False: ready)
    (tmp_path / "a.jpg").write_bytes(b"from the camera")

    assert run("add", "crack", "mark=C1", "width=0.3 mm", "--photo", tmp_path / "a.jpg")[0] == 0
    with open_log(site) as log:
        name = log.entries()[0].text("photo")
    assert photo_file(site, name).read_bytes() == b"made small"
    status, _, _ = run("add", "crack", "width=0.3 mm", "--photo", tmp_path / "a.jpg")
    assert status == 2
    assert run("check")[0] == 0


def test_a_name_nothing_is_known_by_is_told_at_once_and_written_down_as_it_is(run, site):
    status, out, err = run("add", "batch", "mix=earth", "amounts.snad=10 bucket")
    told = " ".join(out.split())
    assert (status, err) == (0, "")
    assert out.startswith("Written down as entry 1\n")
    assert "! mix: the plan has no mix called 'earth'; did you mean earth-plaster? Known are " in told
    assert "! amounts.snad: the plan has no material called 'snad'; did you mean sand?" in told
    assert "It is written down as it is, and nothing is learned from it until it is corrected." in told
    with open_log(site) as log:
        assert log.entries()[0].typed["mix"] == "earth"
    status, out, err = run("add", "purchase", "item=gold nails", "packs=1", "cost=3", "--json")
    answer = json.loads(out)
    assert (status, next(iter(answer))) == (0, "cautions")
    assert answer["cautions"][0].startswith("item: the plan has no item called 'gold nails'")
    assert err == f"pinfold: {answer['cautions'][0]}\n"
    assert "no mix called" in " ".join(run("show", "1")[1].split())


def test_once_it_is_corrected_nothing_is_said_any_more(run):
    run("add", "batch", "mix=earth")
    assert "no mix called" not in run("correct", "1", "mix=earth plaster")[1]
    assert "no mix called" not in run("show", "1")[1]
    for words in (
        ("batch", "mix=plaster-scratch"),
        ("note", "text=wet", "place=behind the shed"),
        ("hours", "time=3 h"),
    ):
        out = run("add", *words, "--json")[1]
        assert "cautions" not in json.loads(out)


def test_names_are_judged_even_while_the_plan_has_complaints(run, site):
    (site / "plan.toml").write_text("format = 1\nnonsense = 3\n")

    status, out, _ = run("add", "batch", "mix=earth-plasta")
    assert status == 0
    assert "did you mean earth-plaster?" in " ".join(out.split())


def test_rows_of_a_table_are_told_their_unknown_names_and_written_all_the_same(run, site, tmp_path):
    (tmp_path / "a.csv").write_text(
        "kind;at;mix;item;packs;cost\nbatch;2026-05-03T14:20Z;earth;;;\nbatch;2026-05-03T14:20Z;earth-plaster;;;\n"
        "purchase;2026-05-03T14:20Z;;gold nails;1;3\n"
    )

    for words in (("--dry-run",), ()):
        status, out, err = run("in", tmp_path / "a.csv", *words)
        told = " ".join(out.split())
        assert (status, err) == (0, "")
        assert "! line 2, mix: the plan has no mix called 'earth'" in told
        assert "! line 4, item: the plan has no item called 'gold nails'" in told
        assert "line 3" not in told.partition("new, 0 known")[0]
    rows = json.loads(run("in", tmp_path / "a.csv", "--dry-run", "--json")[1])["rows"]
    assert [len(row["remarks"]) for row in rows] == [1, 0, 1]
    with open_log(site) as log:
        assert log.count() == 3


def test_of_many_remarks_on_a_table_the_first_are_told_and_the_rest_counted(run, tmp_path):
    rows = "".join(f"batch;2026-05-03T14:20Z;earth {number}\n" for number in range(30))
    (tmp_path / "a.csv").write_text(f"kind;at;mix\n{rows}")

    out = run("in", tmp_path / "a.csv", "--dry-run")[1]
    assert out.count("! line") == 20
    assert "! and 10 more like it" in out


def test_csv_goes_out_and_comes_in_elsewhere_and_twice_is_once(run, site, tmp_path):
    run("add", "note", "text==SUM(A1)")
    run("add", "batch", "mix=earth", "amounts.sand=10 bucket")
    run("correct", "1", "text=wet; and cold")
    assert "3 entries written" in run("out", tmp_path / "a.csv")[1]
    assert "0 entries new, 3 known" in run("in", tmp_path / "a.csv")[1]
    before = json.loads(run("list", "--all", "--json")[1])["entries"]
    for each in site.glob("log.sqlite*"):
        each.unlink()

    dry = run("in", tmp_path / "a.csv", "--dry-run")
    assert "3 entries would be new, 0 known." in dry[1]
    assert run("list", "--all")[1].endswith("No entry.\n")
    assert "3 entries new" in run("in", tmp_path / "a.csv")[1]
    after = json.loads(run("list", "--all", "--json")[1])["entries"]
    assert [{**each, "received": ""} for each in after] == [{**each, "received": ""} for each in before]


def test_nothing_of_a_csv_is_written_when_any_row_is_wrong(run, site, tmp_path):
    run("add", "note", "text=wet")
    name = json.loads(run("list", "--json")[1])["entries"][0]["id"]
    (tmp_path / "a.csv").write_text(
        "id;kind;at;text;width;mark;photo\n;note;2026-05-03T14:20Z;good;;;\n;note;noon;;;;\n;crack;2026-05-03T14:20Z;;3;;\n"
        f"'{name};note;2026-05-03T14:20Z;otherwise;;;\n;photo;2026-05-03T14:20Z;;;;{'ab' * 32}\n"
        .replace(f"'{name}", f"'{name}" if name.startswith("-") else name)
    )  # fmt: skip

    status, _, err = run("in", tmp_path / "a.csv")
    assert status == 2
    assert [mark for mark in ("line 3, at", "line 3, text", "line 4, width", "line 4, mark", "line 5, id", "line 6, photo")
            if mark not in err] == []  # fmt: skip
    status, out, _ = run("in", tmp_path / "a.csv", "--dry-run", "--json")
    told = json.loads(out)
    assert status == 0
    assert [row["outcome"] for row in told["rows"]] == ["new", "wrong", "wrong", "conflict", "wrong"]
    assert told["rows"][0]["says"].startswith("note ")
    assert (told["new"], told["wrong"], told["conflicts"], told["written"]) == (1, 3, 1, False)
    assert "nothing is written until" in " ".join(run("in", tmp_path / "a.csv", "--dry-run")[1].split())
    assert "1 entry." in run("list")[1]


def test_without_a_log_none_is_called_whole(run):
    status, out, _ = run("check")

    assert status == 0
    assert "There is no log yet" in out
    assert "whole" not in out


def test_a_photo_that_is_missing_is_asked_for_by_its_option(run):
    assert "photo: is missing; --photo FILE or the form adds one" in run("add", "photo", "text=x")[2]


def test_a_backup_is_made_brought_back_and_checked(run, site, tmp_path):
    run("add", "note", "text=wet")
    assert "1 entry and 0 photos saved" in " ".join(run("backup", tmp_path / "b.pinfold-log")[1].split())
    shutil.copy(site / "log.sqlite", tmp_path / "kept")
    for each in site.glob("log.sqlite*"):
        each.unlink()
    assert "1 entry brought back" in run("restore", tmp_path / "b.pinfold-log")[1]
    assert "The log is whole" in run("check")[1]
    assert run("backup", tmp_path / "b.pinfold-log")[0] == 2


def test_a_damaged_log_gives_exit_3_and_says_what_to_do(run, site):
    run("add", "note", "text=wet")
    content = bytearray((site / "log.sqlite").read_bytes())
    content[4096 * 2 :] = b"\xff" * (len(content) - 4096 * 2)
    (site / "log.sqlite").write_bytes(content)

    status, out, _ = run("check")
    assert status == 3
    assert "damaged" in out
    status, _, err = run("list")
    assert status == 3
    assert "restore" in err
    assert "sqlite3" not in err


def test_kinds_and_their_fields_are_listed(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    for words in ((), ("batch",), ("crack",), ("photo",), ("purchase",)):
        assert main(["log", "kinds", *words]) == 0
        out = capsys.readouterr().out
        assert [line for line in out.splitlines() if len(line) > 80] == []
        assert len(out.splitlines()) > 5
    assert main(["log", "kinds", "bath"]) == 2
    assert json.loads(capsys.readouterr().out or "[]") == []
    assert main(["log", "kinds", "crack", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)[0]["name"] == "crack"


@pytest.mark.parametrize("computer", ["UTC", "Pacific/Auckland"])
def test_what_happened_now_stands_in_the_log_by_the_clock_of_the_place(run, site, computer_zone, computer):
    computer_zone(computer)
    put_zone(site, 'time_zone = "Asia/Kathmandu"')
    run("add", "note", "text=x")
    run("withdraw", "1")

    _, out, _ = run("list", "--all", "--json")
    assert [entry["at"][-6:] for entry in json.loads(out)["entries"]] == ["+05:45", "+05:45"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("hours", "time=60 h"), "time: '60 h' cannot be; from 1 min to 24 h is wanted"),
        (("crack", "mark=C1", "width=-0.3 mm"), "width: '-0.3 mm' cannot be; from 0 mm to 100 mm (0\" to 3 15/16\")"),
        (("batch", "mix=mortar-S", "batches=501"), "batches: '501' cannot be; from 1 to 500 is wanted"),
    ],
)
def test_what_cannot_be_is_told_as_it_was_typed_with_limits_a_builder_reads(run, words, says):
    status, _, err = run("add", *words)

    assert status == 2
    assert says in err
