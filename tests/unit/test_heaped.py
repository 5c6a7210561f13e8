"""Flaws of what goes onto the pile: refused where they are entered, told where an old log has wrong ones."""

from __future__ import annotations

from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from pinfold.cli import main
from pinfold.errors import InvalidPlan
from pinfold.logbook.entries import entry_of
from pinfold.plan.stock import Condition
from pinfold.store import starting
from pinfold.store.log import open_log
from pinfold.studies.lessons.piled import piled
from pinfold.web.app import make_app
from pinfold.web.desk import Desk
from pinfold.web.guard import token_of

HOST = "127.0.0.1:8765"
HEAD = {"id": "entry-0001", "at": "2026-05-03T14:20+02:00", "who": "ana", "device": "phone", "kind": "pile"}
GOOD = {"way": "in", "item": "sawn-2x4", "length": "7 ft", "flaws": "Nails 3 ft to 3 ft 4 in; knot 1 ft to 1 ft 2 in"}
WRONG = {
    "nails 8 ft to 9 ft": "reaches past the end of its piece",
    "nails 1 ft to 9 ft": "is longer than its piece",
    "rotten all over": "no such flaw: 'rotten'",
    "nails 4 ft to 3 ft": "ends after it begins",
    "nails 3 ft": "a flaw is written like",
    "nails 3 to 4": "without a unit",
}


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "site"
    starting.from_sample(folder, "seed-garden")
    return folder


def complaints(**fields):
    with pytest.raises(InvalidPlan) as stopped:
        entry_of({**HEAD, "fields": {**GOOD, **fields}})
    return [(problem.place, problem.message) for problem in stopped.value.problems]


def test_good_flaws_are_taken_as_they_are_written():
    assert entry_of({**HEAD, "fields": GOOD}).text("flaws") == GOOD["flaws"]


@pytest.mark.parametrize("flaws", WRONG)
def test_a_wrong_flaw_is_refused_and_the_message_says_what_is_wanted(flaws):
    ((place, message),) = complaints(flaws=flaws)

    assert place == "flaws"
    assert WRONG[flaws] in message


def test_all_wrong_flaws_of_a_piece_are_told_at_once():
    ((_, message),) = complaints(flaws="rotten all over; nails 8 ft to 9 ft; knot 1 ft to 2 ft")

    assert "rotten" in message
    assert "past the end" in message
    assert "knot 1 ft" not in message


def test_flaws_without_a_length_of_the_piece_are_refused():
    assert complaints(length="") == [("flaws", "says nothing alone; length (length of each) is wanted with it")]


def test_the_command_line_refuses_them_and_writes_nothing(site, capsys):
    words = ["way=in", "item=sawn-2x4", "length=7 ft", "flaws=nails 8 ft to 9 ft"]

    assert main(["log", "add", "pile", *words, "--site", str(site)]) == 2
    assert "flaws: 'nails 8 ft to 9 ft' reaches past the end" in capsys.readouterr().err
    assert not (site / "log.sqlite").exists() or not list(open_log(site).entries())


def test_a_table_that_is_brought_in_refuses_them_by_row(site, tmp_path, capsys):
    table = tmp_path / "pile.csv"
    table.write_text(
        "kind,at,way,item,length,flaws\n"
        "pile,2026-05-03T14:20+02:00,in,sawn-2x4,7 ft,nails 1 ft to 2 ft\n"
        "pile,2026-05-03T14:21+02:00,in,sawn-2x4,7 ft,nails 8 ft to 9 ft\n"
    )

    assert main(["log", "in", str(table), "--site", str(site)]) == 2
    said = capsys.readouterr()
    assert "reaches past the end" in said.out + said.err
    assert list(open_log(site).entries()) == []


def test_a_phone_and_a_form_are_told_with_the_field(site):
    hosts = frozenset({HOST})
    desk = Desk(folder=site, hosts=hosts, home=hosts, secret=b"s" * 32)
    raw = {**HEAD, "fields": {**GOOD, "flaws": "rotten all over"}}
    form = {f"f.{key}": text for key, text in {**GOOD, "flaws": "rotten all over"}.items()}
    form |= {"id": "from-a-form-1", "who": "ana", "at": "2026-05-03T14:20", "offset": "-06:00", "token": token_of(desk)}
    with TestClient(
        make_app(desk), base_url=f"http://{HOST}", client=("127.0.0.1", 1), follow_redirects=False,
        headers={"Origin": f"http://{HOST}", "X-Pinfold-Token": token_of(desk)},
    ) as client:  # fmt: skip
        (receipt,) = client.post("/api/log", json={"entries": [raw]}).json()["receipts"]
        page = client.post("/log/new/pile", data=form)

    assert receipt["state"] == "wrong"
    assert "no such flaw" in str(receipt)
    assert page.status_code == 400
    assert "no such flaw" in page.text
    assert list(open_log(site).entries()) == []


def test_an_old_log_tells_what_it_has_wrong_and_lets_no_part_rely_on_it():
    good = entry_of({**HEAD, "fields": GOOD})
    old = replace(good, values={**good.values, "flaws": "nails 8 ft to 9 ft"})

    found = piled([old], [])

    assert found.pile[0].condition is Condition.POOR
    assert any("past the end" in reason for reason in found.set_aside)
