"""The log of a site folder: writing, asking, photos, backup, CSV."""

from __future__ import annotations

import shutil
import sqlite3
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from pathlib import Path
from types import SimpleNamespace

import pytest

from pinfold.errors import InputError, InvalidPlan, NotFoundError, StoreError
from pinfold.logbook.entries import entry_of
from pinfold.store import log_schema
from pinfold.store.log import open_log
from pinfold.store.log_backup import backup, restore
from pinfold.store.log_check import check
from pinfold.store.log_csv import csv_of, read_csv, rows_of
from pinfold.store.log_file import NAME
from pinfold.store.log_photos import photo_file, photo_name

NOW = "2026-05-03T12:20:00+00:00"
SAVED = Path(__file__).parents[1] / "logs"


def entry(number, kind="note", corrects="", at="2026-05-03T14:20+02:00", who="ana", **fields):
    head = {"id": f"entry-{number:05}", "kind": kind, "at": at, "who": who, "device": "phone", "corrects": corrects}
    return entry_of({**head, "fields": fields or {"text": f"wet {number}"}})


@pytest.fixture
def log(tmp_path):
    with open_log(tmp_path) as log:
        yield log


def ids(entries):
    return [int(each.id.split("-")[1]) for each in entries]


def test_a_log_that_is_not_there_reads_as_an_empty_one_and_no_file_is_made(log, tmp_path):
    assert (log.entries(), log.count(), log.tip(), log.changed_since(0), log.photos()) == ((), 0, 0, (), ())
    assert log.last_values("batch") == {}
    with pytest.raises(NotFoundError):
        log.entry("entry-00001")
    assert list(tmp_path.iterdir()) == []
    assert check(tmp_path) == ()


def test_what_is_written_is_read_again(log):
    batch = entry(1, "batch", mix="earth", amounts=[["sand", "10 bucket"]], wet_density="1850 kg/m3", batches="3")
    told = log.append([batch, entry(2)], received=NOW)

    assert [(receipt.seq, receipt.outcome) for receipt in told] == [(1, "new"), (2, "new")]
    found = log.entry("entry-00001")
    assert (found.values, found.typed, found.at, found.received) == (batch.values, batch.typed, batch.at, NOW)
    assert log.entry("1") == found
    assert ids(log.entries()) == [2, 1]
    assert log.tip() == 2


def test_the_same_entry_again_changes_nothing_and_other_words_under_one_id_are_a_conflict(log):
    log.append([entry(1)], received=NOW)
    told = log.append([entry(1), entry(1, text="dry"), entry(2)], received="later")

    assert [receipt.outcome for receipt in told] == ["known", "conflict", "new"]
    assert "new id" in told[1].message
    assert log.entry("entry-00001").text("text") == "wet 1"
    assert log.entry("entry-00001").received == NOW


def test_what_would_come_is_told_without_writing(log):
    log.append([entry(1)], received=NOW)
    told = log.outcomes([entry(1), entry(1, text="dry"), entry(2), entry(2), entry(2, text="dry")])

    assert [receipt.outcome for receipt in told] == ["known", "conflict", "new", "new", "conflict"]
    assert log.count() == 1


def test_filters_say_which_entries(log):
    log.append(
        [
            entry(1, "batch", at="2026-05-01T10:00+02:00", mix="Earth", place="south"),
            entry(2, "crack", at="2026-05-02T00:30+02:00", mark="C1", width="0.3 mm", place="south"),
            entry(3, who="bo", at="2026-05-02T10:00-05:00", text="Rain in the NORTH"),
            entry(4, "batch", at="2026-05-03T10:00+02:00", corrects="entry-00001", mix="lime"),
        ],
        received=NOW,
    )
    day = datetime(2026, 5, 2, tzinfo=UTC)

    assert ids(log.entries(kind="batch")) == [4, 1]
    assert ids(log.entries(kind="batch", standing=True)) == [4]
    assert ids(log.entries(who="bo")) == [3]
    assert ids(log.entries(place="south")) == [2, 1]
    assert ids(log.entries(since=day)) == [4, 3]
    assert ids(log.entries(until=day, newest_first=False)) == [1, 2]
    assert ids(log.entries(since=day, until=day + timedelta(hours=15, minutes=1))) == [3]
    assert ids(log.entries(text="north")) == [3]
    assert ids(log.entries(text="EARTH")) == [1]
    assert ids(log.entries(limit=2)) == [4, 3]
    assert ids(log.entries(limit=2, before_seq=3)) == [2, 1]
    assert ids(log.changed_since(2)) == [3, 4]
    assert log.count(kind="batch", place="south") == 1
    assert ids(log.page(size=2, standing=True).entries) == [4, 3]
    assert log.page(size=2, standing=True).more
    assert not log.page(size=2, standing=True, before_seq=3).more


def test_a_history_has_all_versions_whichever_is_asked_for(log):
    log.append([entry(3, corrects="entry-00002"), entry(9), entry(1), entry(2, corrects="entry-00001")], received=NOW)

    for number in (1, 2, 3):
        assert ids(log.history(f"entry-{number:05}")) == [3, 1, 2]
    assert ids(log.entries(standing=True)) == [9, 3]


def test_forms_are_offered_what_was_typed_last_and_not_what_was_taken_back(log):
    log.append(
        [
            entry(1, "purchase", item="sand", packs="3", cost="12", shop="the yard"),
            entry(2, "purchase", item="lime", packs="1", cost="9"),
            entry(3, "purchase", item="wire", packs="1", cost="1"),
            entry(4, "withdrawn", corrects="entry-00003", text="twice"),
        ],
        received=NOW,
    )

    assert log.last_values("purchase") == {"item": "lime", "packs": "1", "cost": "9", "shop": "the yard"}


@pytest.mark.parametrize(
    "statement",
    ["UPDATE entry SET who = 'x'", "DELETE FROM entry", "UPDATE photo SET taken = 'x'", "DELETE FROM photo",
     "REPLACE INTO entry SELECT * FROM entry", "INSERT OR REPLACE INTO entry SELECT * FROM entry"],
)  # fmt: skip
def test_no_program_can_change_or_remove_what_was_written(log, tmp_path, statement):
    log.keep_photo(b"a picture", width=1, height=1, at=NOW)
    log.append([entry(1)], received=NOW)
    log.close()
    other = sqlite3.connect(tmp_path / NAME)
    with pytest.raises(sqlite3.IntegrityError):
        other.execute(statement)
    other.close()
    assert log.count() == 1


def test_the_log_is_kept_as_carefully_as_the_database_can(log, tmp_path):
    log.append([entry(1)], received=NOW)
    with log.writing() as connection:
        settings = {name: connection.execute(f"PRAGMA {name}").fetchone()[0]
                    for name in ("journal_mode", "synchronous", "foreign_keys", "recursive_triggers", "user_version",
                                 "application_id")}  # fmt: skip

    assert settings == {
        "journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "recursive_triggers": 1,
        "user_version": len(log_schema.STEPS), "application_id": log_schema.APPLICATION_ID,
    }  # fmt: skip


def test_a_photo_is_a_file_named_by_its_content_and_an_entry_may_show_it(log, tmp_path):
    name = log.keep_photo(b"a picture", width=40, height=30, at=NOW, taken="2026-05-03T14:00:00")
    log.append([entry(1, "photo", photo=name)], received=NOW)

    assert name == photo_name(b"a picture")
    assert photo_file(tmp_path, name).read_bytes() == b"a picture"
    assert log.photo(name)[1:] == (NOW, 40, 30, "2026-05-03T14:00:00")
    assert log.keep_photo(b"a picture", width=1, height=1, at="later") == name
    assert [photo.width for photo in log.photos()] == [40]
    assert check(tmp_path) == ()


def test_an_entry_that_shows_a_photo_that_is_not_stored_is_refused_and_nothing_is_written(log):
    with pytest.raises(InvalidPlan, match="store the photo first"):
        log.append([entry(1), entry(2, "photo", photo="ab" * 32)], received=NOW)
    assert log.count() == 0


def test_check_finds_what_is_not_as_it_was_written(log, tmp_path):
    name, gone = (log.keep_photo(raw, width=1, height=1, at=NOW) for raw in (b"a picture", b"another"))
    log.append([entry(1), entry(2), entry(3, corrects="entry-00099"), entry(4, "photo", photo=name)], received=NOW)
    log.close()
    photo_file(tmp_path, name).write_bytes(b"scribbled over")
    photo_file(tmp_path, gone).unlink()
    vandal = sqlite3.connect(tmp_path / NAME)
    vandal.execute("DROP TRIGGER entry_is_never_changed")
    vandal.execute("UPDATE entry SET body = replace(body, 'wet 2', 'dry 2') WHERE seq = 2")
    vandal.commit()
    vandal.close()

    told = check(tmp_path)
    assert [
        part for part in ("entry 2", "entry-00099", "not what was stored", "is gone") if part not in str(told)
    ] == []
    assert len(told) == 4


def test_check_finds_what_stands_noted_wrongly(log, tmp_path):
    log.append([entry(1), entry(2)], received=NOW)
    log.close()
    vandal = sqlite3.connect(tmp_path / NAME)
    vandal.execute("DELETE FROM stands")
    vandal.execute("DELETE FROM said")
    vandal.commit()
    vandal.close()
    assert len(check(tmp_path)) == 2


def test_a_log_of_the_first_released_format_opens_with_all_that_was_in_it(tmp_path):
    shutil.copy(SAVED / "format1.sqlite", tmp_path / NAME)

    with open_log(tmp_path) as log:
        assert [each.id for each in log.entries(standing=True)] == ["saved-00005", "saved-00003"]
        assert log.entry("saved-00001").number("wet_density") == 1850
        assert log.entry("saved-00001").values["amounts"][1].amount == 0.014
        assert log.entry("saved-00002").values["cost"] == 1250
        assert log.entry("saved-00005").text("text").endswith("second line")
        log.append([entry(1)], received=NOW)
        assert log.tip() == 6
    assert check(tmp_path) == ()


def test_each_released_format_has_its_saved_log():
    assert {each.name for each in SAVED.glob("*.sqlite")} == {
        f"format{n + 1}.sqlite" for n in range(len(log_schema.STEPS))
    }


def test_a_log_that_may_only_be_read_shows_what_others_write_into_it_meanwhile(tmp_path, monkeypatch):
    with open_log(tmp_path) as other:
        other.append([entry(1)], received=NOW)
    with open_log(tmp_path) as log, monkeypatch.context() as locked:
        locked.setattr("pinfold.store.log_file.os.access", lambda *_: False)
        assert ids(log.entries()) == [1]
        with open_log(tmp_path) as other:
            other.append([entry(2)], received=NOW)
        assert ids(log.entries()) == [2, 1]
        log.append([entry(3)], received=NOW)  # the right to write came back
        assert ids(log.entries()) == [3, 2, 1]


def test_many_threads_share_what_is_kept_open(tmp_path):
    with open_log(tmp_path) as log:
        log.append([entry(1)], received=NOW)
        with ThreadPoolExecutor(8) as crowd:
            found = list(crowd.map(lambda turn: log.close() if turn % 3 == 0 else log.count(), range(600)))
    assert set(found) == {None, 1}


def full(log):
    name = log.keep_photo(b"a picture", width=40, height=30, at=NOW)
    log.append([entry(1), entry(2, corrects="entry-00001"), entry(3, "photo", photo=name)], received=NOW)


def test_a_backup_brought_back_elsewhere_is_the_same_log(log, tmp_path):
    full(log)
    saved = backup(tmp_path, tmp_path / "b.pinfold-log")
    other = tmp_path / "other"
    other.mkdir()
    restored = restore(saved.file, other)

    assert (saved.entries, saved.photos, saved.lacking) == (3, 1, ())
    assert (restored.new, restored.known, restored.photos, restored.damaged) == (3, 0, 1, ())
    with open_log(other) as copy:
        assert copy.entries() == log.entries()
        assert copy.entries(standing=True) == log.entries(standing=True)
        assert copy.photos() == log.photos()
    assert check(other) == ()
    assert restore(saved.file, other).known == 3
    assert {each.name for each in tmp_path.glob("*.pinfold-log*")} == {"b.pinfold-log"}


def test_a_backup_adds_what_is_missing_and_replaces_nothing(log, tmp_path):
    full(log)
    saved = backup(tmp_path, tmp_path / "b.pinfold-log")
    other = tmp_path / "other"
    other.mkdir()
    with open_log(other) as copy:
        copy.append([entry(7), entry(1, text="said otherwise")], received=NOW)
        restored = restore(saved.file, other)

        assert (restored.new, [each.id for each in restored.conflicts]) == (2, ["entry-00001"])
        assert copy.entry("entry-00001").text("text") == "said otherwise"
        assert copy.count() == 4


def test_a_backup_is_never_written_over_another_file(log, tmp_path):
    with pytest.raises(NotFoundError, match="no log"):
        backup(tmp_path, tmp_path / "b.pinfold-log")
    full(log)
    (tmp_path / "b.pinfold-log").write_text("mine")
    with pytest.raises(InputError, match="there already"):
        backup(tmp_path, tmp_path / "b.pinfold-log")
    assert (tmp_path / "b.pinfold-log").read_text() == "mine"


def test_a_backup_tells_of_photos_that_it_could_not_save_and_their_entries_come_back(log, tmp_path):
    full(log)
    photo_file(tmp_path, photo_name(b"a picture")).unlink()
    saved = backup(tmp_path, tmp_path / "b.pinfold-log")
    other = tmp_path / "other"
    other.mkdir()

    assert "gone" in saved.lacking[0]
    restored = restore(saved.file, other)
    assert restored.new == 3
    assert "left out" in restored.damaged[0]
    assert "knows nothing" in check(other)[0]


@pytest.mark.parametrize("named", [NAME, "kept.sqlite"])
def test_a_log_copied_with_its_journal_while_it_was_open_comes_back_whole(log, tmp_path, named):
    log.append([entry(1), entry(2)], received=NOW)
    log.append([entry(3), entry(4)], received=NOW)
    kept, other = tmp_path / "kept", tmp_path / "other"
    kept.mkdir()
    other.mkdir()
    for end in ("", "-wal"):
        shutil.copyfile(tmp_path / f"{NAME}{end}", kept / f"{named}{end}")
    before = {each.name: each.read_bytes() for each in kept.iterdir()}
    assert len(before[f"{named}-wal"]) > 0

    assert restore(kept / named, other).new == 4
    with open_log(other) as copy:
        assert copy.entries() == log.entries()
    assert {each.name: each.read_bytes() for each in kept.iterdir()} == before
    assert list(other.glob(".restoring*")) == []


@pytest.mark.parametrize("content", [b"", b"no backup", b"SQLite format 3\0" + b"\1" * 5000])
def test_what_is_no_backup_is_told_and_nothing_is_brought_back(log, tmp_path, content):
    full(log)
    (tmp_path / "b").write_bytes(content)

    with pytest.raises(StoreError, match="backup"):
        restore(tmp_path / "b", tmp_path)
    with pytest.raises(NotFoundError):
        restore(tmp_path / "none", tmp_path)
    assert log.count() == 3
    assert (tmp_path / "b").read_bytes() == content
    assert list(tmp_path.glob(".restoring*")) == []


def test_entries_and_photos_that_were_altered_in_a_backup_are_left_out_and_told(log, tmp_path):
    full(log)
    saved = backup(tmp_path, tmp_path / "b.pinfold-log")
    vandal = sqlite3.connect(saved.file)
    vandal.execute("DROP TRIGGER entry_is_never_changed")
    vandal.execute("UPDATE entry SET body = replace(body, 'wet', 'dry') WHERE seq = 2")
    vandal.execute("UPDATE photo_file SET jpeg = x'00'")
    vandal.commit()
    vandal.close()
    other = tmp_path / "other"
    other.mkdir()

    restored = restore(saved.file, other)
    assert (restored.new, len(restored.damaged)) == (2, 2)


def read(text, **more):
    return rows_of(text, name="log.csv", **{"who": "me", "device": "pc", **more})


def test_csv_out_and_in_again_gives_the_same_entries(log):
    full(log)
    log.append(
        [entry(4, "batch", mix="-earth", amounts=[["sand", "10 bucket"], ["water", "14 L"]], temperature="-3 °C"),
         entry(5, text='=SUM(A1)\nsaid "so"; twice, \'=x'), entry(6, text="'=already")],
        received=NOW,
    )  # fmt: skip
    text = csv_of(log.entries(newest_first=False))

    assert {receipt.outcome for receipt in log.outcomes([row.entry for row in read(text)])} == {"known"}
    assert [row.complaints for row in read(text) if row.complaints] == []


def test_no_cell_of_the_csv_starts_a_formula(log):
    log.append([entry(number, text=f"{sign}1+1") for number, sign in enumerate("=+-@")], received=NOW)
    cells = [line.rsplit(",", 1)[1] for line in csv_of(log.entries()).splitlines()[1:]]

    assert cells == ["'@1+1", "'-1+1", "'+1+1", "'=1+1"]


@pytest.mark.parametrize("sign", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_csv_of_a_spreadsheet_is_read(sign, end):
    rows = [
        ["id", "kind", "at", "who", "device", "corrects", "text", ""], [""] * 8,
        ["", "note", "2026-05-03T14:20+02:00", "", "", "", "wet ground", ""], [""] * 8, [],
        ["entry-00007", " note ", "2026-05-03T15:00Z", "bo", "phone", "", "dry", ""],
    ]  # fmt: skip
    first, second = read("\ufeff" + end.join(sign.join(row) for row in rows) + end)

    assert (first.line, second.line) == (3, 6)
    assert (first.entry.who, first.entry.device, first.entry.text("text")) == ("me", "pc", "wet ground")
    assert (second.entry.id, second.entry.kind) == ("entry-00007", "note")


def test_rows_without_an_id_get_the_same_one_each_time_and_equal_rows_different_ones():
    text = "kind,at,text\nnote,2026-05-03T14:20Z,wet\nnote,2026-05-03T14:20Z,wet\nnote,2026-05-03T14:20Z,dry\n"

    names = [row.entry.id for row in read(text)]
    assert len(set(names)) == 3
    assert [row.entry.id for row in read(text)] == names


def test_every_row_that_is_wrong_is_told_with_its_line_and_column():
    text = (
        "kind,at,text,amounts,mix\nnote,2026-05-03T14:20Z,\"two\nlines\",,\n"
        "note,never,,,\nbatch,2026-05-03T14:20Z,,sand 10,earth\nbath,2026-05-03T14:20Z,,,\nnote,2026-05-03T14:20Z,x,,,extra\n"
    )  # fmt: skip
    rows = read(text)

    assert rows[0].complaints == ()
    told = [str(each) for row in rows for each in row.complaints]
    assert [told_of.split(":")[0] for told_of in told] == [
        "line 4, at", "line 4, text", "line 5, amounts", "line 6, kind", "line 7",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "lacks kind"),
        ("a,b\n1,2\n", "no kind of entry has 'a'"),
        ("kind,kind,at\n", "twice"),
        ('kind,at\n"x', "CSV"),
    ],
)
def test_a_file_with_wrong_heads_is_told(text, says):
    with pytest.raises(InvalidPlan, match=says):
        read(text)


def test_a_csv_that_is_not_there_or_no_text_is_told(tmp_path):
    with pytest.raises(NotFoundError):
        read_csv(tmp_path / "none.csv")
    (tmp_path / "a.csv").write_bytes("kind;at;text\nnote;x;caf\xe9".encode("latin-1"))
    with pytest.raises(StoreError, match="UTF-8"):
        read_csv(tmp_path / "a.csv")


class Between:
    """A connection behind which another program makes the log once so many questions are answered."""

    def __init__(self, path, questions):
        self.own, self.other = sqlite3.connect(path), sqlite3.connect(path, isolation_level=None)
        self.left = questions

    def execute(self, question):
        answer = self.own.execute(question).fetchall()
        self.left -= 1
        if self.left == 0:
            log_schema.bring_up(self.other, NAME)
        return SimpleNamespace(fetchone=lambda: answer[0] if answer else None)


@pytest.mark.parametrize("questions", [1, 2, 3])
def test_a_log_that_another_program_is_just_making_is_not_taken_for_another_programs_file(tmp_path, questions):
    connection = Between(tmp_path / NAME, questions)

    found = [log_schema.format_of(connection, NAME) for _ in range(4)]
    assert found == sorted(found)
    assert found[-1] == len(log_schema.STEPS)
