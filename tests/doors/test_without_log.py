"""Answers of a site whose log cannot be read: found without it, saying so first, and the log left as it lies."""

from __future__ import annotations

import io
import json
import shutil
import sqlite3

import pypdf
import pytest
from starlette.testclient import TestClient

from pinfold.actions.sites import open_site
from pinfold.cli import main
from pinfold.logbook.entries import entry_of
from pinfold.store import starting
from pinfold.store.log import open_log
from pinfold.web.app import make_app
from pinfold.web.desk import Desk

VERBS = (("plan", "--check"), ("stand",), ("mix",), ("gather",), ("cut",), ("reckon",))
OF_THE_LOG = (("list",), ("out", "all.csv"), ("backup", "saved"))
HOST = "127.0.0.1:8765"
NOW = "2026-05-03T12:20:00+00:00"
MANY = 400
PAGE = 4096


def said(number, kind="note", **fields):
    head = {"id": f"entry-{number:06}", "kind": kind, "at": "2026-05-03T14:20+02:00", "who": "ana", "device": "pc"}
    return entry_of({**head, "fields": fields or {"text": f"words {number} {'x' * 300}"}})


def damaged_behind_a_journal(folder):
    """Damaged pages that most questions never meet, with entries in a journal that was not put into the file yet."""
    log = open_log(folder)
    with sqlite3.connect(folder / "log.sqlite") as open_all_the_while:
        open_all_the_while.execute("SELECT count(*) FROM entry").fetchone()
        log.append([said(MANY + 1)], received=NOW)
        journal = (folder / "log.sqlite-wal").read_bytes()
    open_all_the_while.close()
    log.close()
    content = bytearray((folder / "log.sqlite").read_bytes())
    content[3 * PAGE : -2 * PAGE] = b"\xff" * (len(content) - 5 * PAGE)
    (folder / "log.sqlite").write_bytes(content)
    (folder / "log.sqlite-wal").write_bytes(journal)


def of_a_later_format(folder):
    with sqlite3.connect(folder / "log.sqlite") as database:
        database.execute("PRAGMA user_version = 99")
    database.close()


def of_another_program(folder):
    (folder / "log.sqlite").unlink()
    with sqlite3.connect(folder / "log.sqlite") as database:
        database.execute("CREATE TABLE songs(name)")
    database.close()


def a_folder_in_its_place(folder):
    (folder / "log.sqlite").unlink()
    (folder / "log.sqlite" / "in").mkdir(parents=True)


FAULTS = {
    "damaged": (lambda folder: (folder / "log.sqlite").write_bytes(b"no log of anything" * 400), "it is damaged"),
    "damaged behind a journal": (damaged_behind_a_journal, "it is damaged"),
    "of a later format": (of_a_later_format, "Get a newer one"),
    "of another program": (of_another_program, "another program"),
    "a folder": (a_folder_in_its_place, "log.sqlite"),
}


@pytest.fixture(scope="module")
def good(tmp_path_factory):
    """A site whose log teaches what a bucket of sand weighs, and what was paid."""
    folder = tmp_path_factory.mktemp("good") / "quinta"
    starting.from_sample(folder, "quinta")
    teaching = [
        said(1, "bucket", item="sand", measure="bucket", mass="24 kg", volume="12 L"),
        said(2, "purchase", item="portland-cement", packs="10", cost="78.00"),
    ]
    with open_log(folder) as log:
        log.append([*teaching, *map(said, range(3, MANY))], received=NOW)
    return folder


@pytest.fixture(params=sorted(FAULTS))
def faulty(request, good, tmp_path):
    """A site whose log has a fault, and what is said of it."""
    spoil, says = FAULTS[request.param]
    folder = tmp_path / "quinta"
    shutil.copytree(good, folder)
    spoil(folder)
    return folder, says


@pytest.fixture
def bare(good, tmp_path):
    """The same site without a log."""
    folder = tmp_path / "bare"
    shutil.copytree(good, folder, ignore=shutil.ignore_patterns("log.sqlite*"))
    return folder


@pytest.fixture
def run(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")

    def running(*words):
        status = main([str(word) for word in words])
        told = capsys.readouterr()
        return status, told.out, told.err

    return running


def log_files(folder):
    """The log and its journal; the index of the journal is made anew whenever somebody reads."""
    found = {path.name: path for path in folder.glob("log.sqlite*") if not path.name.endswith("-shm")}
    return {name: path.read_bytes() if path.is_file() else b"" for name, path in found.items()}


def test_every_verb_answers_as_without_a_log_with_the_caution_first_and_touches_nothing(run, faulty, bare):
    folder, says = faulty
    before = log_files(folder)

    for verb in VERBS:
        status, out, err = run(*verb, "--site", folder)
        head, caution, rest = out.split("\n\n", 2)
        told = " ".join(caution.split())
        assert (status, err) == (0, ""), verb
        assert told.startswith("! The log cannot be read: log.sqlite"), verb
        assert says in told
        assert all(word in told for word in ("Nothing learned from it", "pinfold log check", "pinfold log restore"))
        assert f"{head}\n\n{rest}" == run(*verb, "--site", bare)[1], verb
    assert log_files(folder) == before


def test_json_of_every_verb_is_the_same_record_with_the_caution_first_and_on_stderr(run, faulty, bare):
    folder, says = faulty

    for verb in VERBS:
        status, out, err = run(*verb, "--site", folder, "--json")
        answer = json.loads(out)
        assert (status, next(iter(answer))) == (0, "cautions"), verb
        (caution,) = answer.pop("cautions")
        assert says in caution
        assert err == f"pinfold: {caution}\n"
        assert answer == json.loads(run(*verb, "--site", bare, "--json")[1]), verb


def test_a_good_log_gives_no_caution_and_teaches(run, good):
    for verb in VERBS:
        status, out, err = run(*verb, "--site", good, "--json")
        assert (status, err, "cautions" in json.loads(out)) == (0, "", False), verb
        assert "cannot be read" not in run(*verb, "--site", good)[1]
    assert "by 1 entry" in run("mix", "--site", good)[1]


def test_verbs_of_the_log_stop_with_the_message_and_touch_nothing(run, faulty, tmp_path, monkeypatch):
    folder, says = faulty
    before = log_files(folder)
    monkeypatch.chdir(tmp_path)

    for words in OF_THE_LOG:
        status, out, err = run("log", *words, "--site", folder)
        assert (status, out) == (3, ""), words
        assert says in err or "the file is damaged" in err, words
    if "log.sqlite-wal" not in before:  # else what these ask lies where nothing is damaged
        for words in (("show", "1"), ("cracks",), ("add", "note", "text=x")):
            assert run("log", *words, "--site", folder)[0] == 3, words
    status, out, _ = run("log", "check", "--site", folder)
    assert status == 3
    assert says in " ".join(out.split()) or "the file is damaged" in out
    assert log_files(folder) == before


@pytest.fixture
def client():
    def made(folder):
        hosts = frozenset({HOST})
        desk = Desk(folder=folder, hosts=hosts, home=hosts, secret=b"s" * 32)
        return TestClient(make_app(desk), base_url=f"http://{HOST}", client=("127.0.0.1", 1), follow_redirects=False)

    return made


PAGES = ("/", "/plan", "/plan/edit", "/stand", "/mix", "/gather", "/cut", "/reckon", "/binder", "/exports")


def test_every_page_that_answers_says_so_at_its_top_and_those_of_the_log_stop(client, faulty):
    folder, _ = faulty
    before, pages = log_files(folder), client(folder)

    for path in PAGES:
        answer = pages.get(path)
        main_part = answer.text.partition("<main")[2]
        assert answer.status_code == 200, path
        assert main_part.count("Nothing learned from it is in this answer") == 1, path
        assert main_part.index("Nothing learned from it") < main_part.index("<h1"), path
        assert str(folder) not in answer.text, path
    for path in ("/reckon/lessons", "/log/csv"):
        answer = pages.get(path)
        assert answer.status_code == 409, path
        assert "Nothing learned from it" not in answer.text
    assert log_files(folder) == before


def test_the_phone_has_its_cards_with_the_caution_and_is_told_to_keep_what_it_has(client, faulty):
    folder, _ = faulty
    record, hello = client(folder).get("/api/phone").json(), client(folder).get("/api/phone/hello")

    assert len(record["cards"]) > 2
    assert "Nothing learned from it" in record["cautions"][0]
    assert client(folder).get("/phone").status_code == 200
    assert (hello.status_code, hello.json()["error"]) == (409, "store")


def test_the_binder_says_so_on_its_cover(run, faulty, tmp_path):
    folder, _ = faulty
    assert run("binder", "--site", folder, "--out", tmp_path / "b.pdf")[0] == 0
    cover = " ".join(pypdf.PdfReader(io.BytesIO((tmp_path / "b.pdf").read_bytes())).pages[0].extract_text().split())

    assert "The log cannot be read" in cover
    assert "Nothing learned from it" in cover


def test_a_log_that_is_whole_again_teaches_again(good, tmp_path):
    folder = tmp_path / "quinta"
    shutil.copytree(good, folder)
    whole = (folder / "log.sqlite").read_bytes()
    taught = open_site(folder)
    (folder / "log.sqlite").write_bytes(b"no log of anything" * 400)
    without = open_site(folder)
    (folder / "log.sqlite").write_bytes(whole)

    assert without.cautions
    assert without.entries == ()
    assert open_site(folder).entries == taught.entries
    assert open_site(folder).cautions == ()
