"""Full disks, folders that may only be read, files of other programs and other times: told plainly, nothing lost."""

from __future__ import annotations

import os
import sqlite3
import subprocess

import pytest

from pinfold.errors import NewerFileError, StoreError
from pinfold.logbook.entries import entry_of
from pinfold.store import log_file, log_schema
from pinfold.store.log import open_log
from pinfold.store.log_backup import backup
from pinfold.store.log_check import check
from pinfold.store.log_file import NAME

NOW = "2026-05-03T12:20:00+00:00"


def note(number, text="wet"):
    head = {"id": f"note-{number:05}", "kind": "note", "at": "2026-05-03T14:20+02:00", "who": "ana", "device": "pc"}
    return entry_of({**head, "fields": {"text": text}})


@pytest.fixture
def mounted(tmp_path):
    """A disk of its own of 800 kB, where the system lets us make one."""
    place = tmp_path / "disk"
    place.mkdir()
    try:
        made = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=800k", "tmpfs", place], capture_output=True)
    except FileNotFoundError:
        pytest.skip("there is no mount here")
    if made.returncode:
        pytest.skip("no right to make a disk here")
    yield place
    subprocess.run(["umount", "-l", place], check=True)


def fill(log):
    """Append until nothing more goes in; how many were acknowledged."""
    for number in range(5000):
        try:
            log.append([note(number, "x" * 3000)], received=NOW)
        except StoreError as full:
            return number, str(full)
    raise AssertionError("it never got full")


def test_a_full_disk_is_told_and_keeps_all_that_was_acknowledged(mounted):
    with open_log(mounted) as log:
        acknowledged, said = fill(log)
        assert "full" in said
        assert log.count() == acknowledged > 10
    with open_log(mounted) as log:
        assert log.count() == acknowledged, "a full disk can still be read"
    subprocess.run(["mount", "-o", "remount,size=8m", mounted], check=True)

    assert check(mounted) == ()
    with open_log(mounted) as log:
        log.append([note(90_000)], received=NOW)
        assert log.count() == acknowledged + 1


def test_a_photo_that_finds_no_room_leaves_no_half_file_and_no_row(mounted):
    with open_log(mounted) as log:
        log.append([note(1)], received=NOW)
        with pytest.raises(StoreError, match=r"space|full"):
            log.keep_photo(b"x" * 2_000_000, width=1, height=1, at=NOW)
        assert log.photos() == ()
        assert log.count() == 1
    assert [each.name for each in (mounted / "photos").iterdir()] == []
    assert check(mounted) == ()


def test_a_backup_that_finds_no_room_leaves_no_file(mounted, tmp_path):
    with open_log(tmp_path) as log:
        log.append([note(number, "x" * 3000) for number in range(400)], received=NOW)
    with pytest.raises(StoreError, match="full"):
        backup(tmp_path, mounted / "b.pinfold-log")
    assert list(mounted.iterdir()) == []


def test_a_file_that_cannot_grow_keeps_all_that_was_acknowledged(tmp_path, monkeypatch):
    with open_log(tmp_path) as log:
        log.append([note(90_000)], received=NOW)
    original = log_file._connect

    def bounded(path, mode):
        connection = original(path, mode)
        connection.execute("PRAGMA max_page_count = 120")
        return connection

    with monkeypatch.context() as patch, open_log(tmp_path) as log:
        patch.setattr(log_file, "_connect", bounded)
        acknowledged, said = fill(log)
        assert "full" in said
        assert log.count() == acknowledged + 1
    assert check(tmp_path) == ()
    with open_log(tmp_path) as log:
        log.append([note(number, "x" * 3000) for number in range(acknowledged + 5)], received=NOW)
        assert log.count() == acknowledged + 6


def test_a_batch_that_does_not_fit_leaves_nothing_of_itself(tmp_path, monkeypatch):
    original = log_file._connect

    def bounded(path, mode):
        connection = original(path, mode)
        connection.execute("PRAGMA max_page_count = 60")
        return connection

    monkeypatch.setattr(log_file, "_connect", bounded)
    with open_log(tmp_path) as log:
        log.append([note(1)], received=NOW)
        with pytest.raises(StoreError, match="full"):
            log.append([note(number, "x" * 3000) for number in range(2, 300)], received=NOW)
        assert [entry.id for entry in log.entries()] == [note(1).id]


@pytest.fixture
def read_only(request, tmp_path):
    """A folder with a log of one entry that may only be read; root needs a disk of its own for that."""
    as_root = os.geteuid() == 0
    folder = request.getfixturevalue("mounted") if as_root else tmp_path
    with open_log(folder) as log:
        log.append([note(1)], received=NOW)
    if as_root:
        subprocess.run(["mount", "-o", "remount,ro", folder], check=True)
    else:
        folder.chmod(0o555)
        (folder / NAME).chmod(0o444)
    yield folder
    if not as_root:
        folder.chmod(0o755)


def test_a_folder_that_may_only_be_read_is_read_and_writing_is_told(read_only):
    with open_log(read_only) as log:
        assert [entry.id for entry in log.entries()] == [note(1).id]
        with pytest.raises(StoreError, match="may only be read"):
            log.append([note(2)], received=NOW)
        assert log.count() == 1
    assert check(read_only) == ()


def test_a_log_that_another_program_holds_is_told_after_a_while(tmp_path, monkeypatch):
    monkeypatch.setattr(log_file, "WAIT_S", 0.2)
    with open_log(tmp_path) as log:
        log.append([note(1)], received=NOW)
    other = sqlite3.connect(tmp_path / NAME, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with open_log(tmp_path) as log:
        assert log.count() == 1, "reading goes on meanwhile"
        log.close()
        with pytest.raises(StoreError, match="another program"):
            log.append([note(2)], received=NOW)
        other.execute("ROLLBACK")
        other.close()
        assert log.append([note(2)], received=NOW)[0].outcome == "new"


def test_a_log_of_a_later_pinfold_is_refused_untouched(tmp_path):
    with open_log(tmp_path) as log:
        log.append([note(1)], received=NOW)
    with sqlite3.connect(tmp_path / NAME) as later:
        later.execute(f"PRAGMA user_version = {len(log_schema.STEPS) + 1}")
    later.close()
    before = (tmp_path / NAME).read_bytes()

    with open_log(tmp_path) as log:
        with pytest.raises(NewerFileError, match="Get a newer"):
            log.entries()
        with pytest.raises(NewerFileError):
            log.append([note(2)], received=NOW)
    assert "Get a newer" in check(tmp_path)[0]
    assert (tmp_path / NAME).read_bytes() == before


@pytest.mark.parametrize(
    "content", [b"not a database at all, but long enough to be one" * 90, b"SQLite format 3\0" + b"\xff" * 4000]
)
def test_a_file_that_is_no_log_is_told_and_left_as_it_is(tmp_path, content):
    (tmp_path / NAME).write_bytes(content)

    with open_log(tmp_path) as log, pytest.raises(StoreError, match="damaged"):
        log.append([note(1)], received=NOW)
    assert "damaged" in check(tmp_path)[0]
    assert (tmp_path / NAME).read_bytes() == content


def test_a_database_of_another_program_is_told_and_left_as_it_is(tmp_path):
    with sqlite3.connect(tmp_path / NAME) as other:
        other.execute("CREATE TABLE stamps(id)")
    other.close()

    with open_log(tmp_path) as log:
        with pytest.raises(StoreError, match="another program"):
            log.entries()
        with pytest.raises(StoreError, match="another program"):
            log.append([note(1)], received=NOW)


def test_an_empty_file_is_an_empty_log(tmp_path):
    (tmp_path / NAME).touch()
    with open_log(tmp_path) as log:
        assert log.entries() == ()
        log.append([note(1)], received=NOW)
        assert log.count() == 1
    assert check(tmp_path) == ()


NEXT = ("ALTER TABLE entry ADD COLUMN weather TEXT", "UPDATE photo SET taken = taken")


def test_a_step_to_a_later_format_keeps_every_entry(tmp_path, monkeypatch):
    with open_log(tmp_path) as log:
        log.append([note(number) for number in range(20)], received=NOW)
        before = log.entries()
    monkeypatch.setattr(log_schema, "STEPS", (*log_schema.STEPS, NEXT[:1]))

    with open_log(tmp_path) as log:
        assert log.entries() == before
        log.append([note(30)], received=NOW)
    with sqlite3.connect(tmp_path / NAME) as later:
        assert later.execute("PRAGMA user_version").fetchone() == (2,)
    later.close()
    assert check(tmp_path) == ()


def test_a_step_that_fails_half_way_leaves_the_file_as_it_was(tmp_path, monkeypatch):
    with open_log(tmp_path) as log:
        log.append([note(number) for number in range(20)], received=NOW)
        before = log.entries()
    with monkeypatch.context() as patch:
        patch.setattr(log_schema, "STEPS", (*log_schema.STEPS, (NEXT[0], "INSERT INTO nowhere VALUES(1)")))
        with open_log(tmp_path) as log, pytest.raises(StoreError, match="nowhere"):
            log.entries()

    with open_log(tmp_path) as log:
        assert log.entries() == before
    with sqlite3.connect(tmp_path / NAME) as same:
        assert same.execute("PRAGMA user_version").fetchone() == (1,)
        assert "weather" not in [row[1] for row in same.execute("PRAGMA table_info(entry)")]
    same.close()


def test_a_file_moved_away_under_a_running_program_is_not_written_any_more(tmp_path):
    with open_log(tmp_path) as log:
        log.append([note(1)], received=NOW)
        (tmp_path / "kept").mkdir()
        for each in list(tmp_path.glob(f"{NAME}*")):
            each.rename(tmp_path / "kept" / each.name)
        assert log.count() == 0
        log.append([note(2)], received=NOW)
        assert [entry.id for entry in log.entries()] == [note(2).id]
    with open_log(tmp_path / "kept") as log:
        assert [entry.id for entry in log.entries()] == [note(1).id]
