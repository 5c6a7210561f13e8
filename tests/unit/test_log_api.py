"""What phones and forms send to the log over the network, and what comes of hostile things they might send."""

from __future__ import annotations

import json
import sqlite3
from io import BytesIO

import pytest
from PIL import Image
from starlette.testclient import TestClient

from pinfold.store import starting
from pinfold.store.log import open_log
from pinfold.web.app import make_app
from pinfold.web.desk import Desk
from pinfold.web.guard import token_of

HOST = "127.0.0.1:8765"


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "quinta"
    starting.from_sample(folder, "quinta")
    return folder


@pytest.fixture
def client(site):
    hosts = frozenset({HOST})
    desk = Desk(folder=site, hosts=hosts, home=hosts, secret=b"s" * 32)
    with TestClient(
        make_app(desk), base_url=f"http://{HOST}", client=("127.0.0.1", 1), follow_redirects=False,
        headers={"Origin": f"http://{HOST}", "X-Pinfold-Token": token_of(desk)},
    ) as client:  # fmt: skip
        yield client


def note(number=1, **also):
    return {
        "id": f"note-number-{number:04}", "kind": "note", "at": "2026-05-03T14:20+02:00", "who": "Ana",
        "device": "phone", "fields": {"text": f"words {number}"}, **also,
    }  # fmt: skip


def picture(size=(40, 30), form="JPEG"):
    out = BytesIO()
    Image.new("RGB", size, "teal").save(out, form)
    return out.getvalue()


def states(answer):
    return [receipt["state"] for receipt in answer.json()["receipts"]]


def in_log(site):
    return [entry.id for entry in open_log(site).entries(newest_first=False)]


def test_entries_are_taken_once_however_often_they_are_sent(client, site):
    sent = {"entries": [note(1), note(2)]}
    assert states(client.post("/api/log", json=sent)) == ["new", "new"]
    assert states(client.post("/api/log", json=sent)) == ["known", "known"]
    assert in_log(site) == ["note-number-0001", "note-number-0002"]


def test_one_wrong_entry_stops_no_other_and_tells_which_field(client, site):
    wrong = {**note(2), "kind": "crack", "fields": {"mark": "C1", "width": "three"}}
    answer = client.post("/api/log", json={"entries": [note(1), wrong, "no table", note(3)]})
    assert states(answer) == ["new", "wrong", "wrong", "new"]
    assert answer.json()["receipts"][1]["complaints"][0]["place"] == "width"
    assert in_log(site) == ["note-number-0001", "note-number-0003"]


def test_an_entry_with_a_photo_that_is_not_stored_stops_no_other(client, site):
    lost = {**note(2), "kind": "photo", "fields": {"photo": "a" * 64}}
    assert states(client.post("/api/log", json={"entries": [note(1), lost, note(3)]})) == ["new", "wrong", "new"]
    assert in_log(site) == ["note-number-0001", "note-number-0003"]


def test_the_same_id_with_other_words_is_a_conflict_and_changes_nothing(client, site):
    client.post("/api/log", json={"entries": [note(1)]})
    answer = client.post("/api/log", json={"entries": [note(1, fields={"text": "other"}), note(2)]})
    assert states(answer) == ["conflict", "new"]
    assert answer.json()["receipts"][0]["complaints"]
    assert open_log(site).entry("note-number-0001").text("text") == "words 1"


def test_more_entries_than_allowed_are_refused_whole(client, site):
    assert client.post("/api/log", json={"entries": [note(n) for n in range(201)]}).status_code == 400
    assert in_log(site) == []


def test_what_came_in_since_is_told_in_order(client):
    client.post("/api/log", json={"entries": [note(n) for n in range(5)]})
    found = client.get("/api/log/since?seq=2").json()
    assert [entry["seq"] for entry in found["entries"]] == [3, 4, 5]
    assert found["tip"] == 5
    assert not found["more"]


@pytest.mark.parametrize("seq", ["-1", "x", "1e9", "9" * 30, "%00", "٣"])
def test_a_place_in_the_log_that_is_none_is_refused(client, seq):
    assert client.get(f"/api/log/since?seq={seq}").status_code == 400


def test_a_photo_is_stored_under_its_content_and_shown_under_no_other_name(client, site):
    name = client.post("/api/photo", content=picture(), headers={"content-type": "image/jpeg"}).json()["name"]
    again = client.post("/api/photo", content=picture(), headers={"content-type": "application/octet-stream"})
    assert again.json()["name"] == name
    shown = client.get(f"/photos/{name}.jpg")
    assert shown.headers["content-type"] == "image/jpeg"
    assert Image.open(BytesIO(shown.content)).size == (40, 30)
    (site / "photos" / "secret.jpg").write_bytes(b"x")
    (site / "photos" / f"{'b' * 64}.jpg").write_bytes(b"x")
    for wrong in ("secret", "b" * 64, "..%2fplan", name.upper(), name[:-1]):
        assert client.get(f"/photos/{wrong}.jpg").status_code in {400, 404}


@pytest.mark.parametrize(
    "content", [b"", b"no picture", b"\xff\xd8\xff\xe0 cut", b"GIF89a" + b"\0" * 99, picture()[:200]]
)
def test_what_is_no_picture_is_refused_with_words(client, content):
    answer = client.post("/api/photo", content=content, headers={"content-type": "image/jpeg"})
    assert answer.status_code == 400
    assert answer.json()["message"]


HOSTILE = [
    None, True, 0, -1, 1e308, "x", [], {}, [[]], {"entries": None}, {"entries": {}}, {"entries": "abc"},
    {"entries": [None, 1, "x", [], {}]}, {"entries": [{"id": {}, "kind": [], "at": 5, "who": None, "fields": 3}]},
    {"entries": [{**note(1), "kind": "__class__"}]}, {"entries": [{**note(1), "id": "../../etc/passwd"}]},
    {"entries": [{**note(1), "fields": {"text": ["a"] * 9}}]}, {"entries": [{**note(1), "at": "0000-00-00"}]},
    {"entries": [{**note(1), "at": "2026-05-03T14:20+99:99"}]}, {"entries": [{**note(1), "who": "x" * 10_000}]},
    {"entries": [{**note(1), "corrects": "note-number-0001"}]}, {"entries": [{**note(1), "extra": {"a": {"b": [1]}}}]},
    {"entries": [{**note(1), "kind": "batch", "fields": {"mix": "m", "amounts": {"sand": "1 bag"}}}]},
    {"entries": [{**note(1), "kind": "batch", "fields": {"mix": "m", "amounts": [["sand"], "x", [1, 2], ["a", "b"]]}}]},
    {"entries": [{**note(1), "kind": "batch", "fields": {"mix": "m", "batches": "1e9"}}]},
    {"entries": [{**note(1), "kind": "purchase", "fields": {"item": "x", "packs": "1", "cost": "NaN"}}]},
    {"entries": [{**note(1), "kind": "crack", "fields": {"mark": "x", "width": "1e999999 mm"}}]},
]  # fmt: skip


@pytest.mark.parametrize("sent", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_json_is_refused_and_never_a_fault(client, site, sent):
    answer = client.post("/api/log", json=sent)
    assert answer.status_code < 500
    if answer.status_code == 200:
        assert set(states(answer)) == {"wrong"}
    assert in_log(site) == []


@pytest.mark.parametrize(
    "body",
    [b"", b"{", b"\xff\xfe", b'{"entries": [' + b"[" * 5000, b'{"entries": [NaN]}', b'{"a":1,"a":2}', b"9" * 5000,
     b'{"entries": ["\\ud800"]}', b'{"entries": ["\\u0000"]}'],
)  # fmt: skip
def test_a_body_that_is_no_plain_json_is_refused(client, site, body):
    answer = client.post("/api/log", content=body, headers={"content-type": "application/json"})
    assert 400 <= answer.status_code < 500
    assert in_log(site) == []


def test_changes_without_the_token_or_from_elsewhere_write_nothing(client, site):
    body = {"entries": [note(1)]}
    assert client.post("/api/log", json=body, headers={"X-Pinfold-Token": "no"}).status_code == 403
    assert client.post("/api/log", json=body, headers={"Origin": "http://elsewhere"}).status_code == 403
    assert in_log(site) == []


def test_script_and_manifest_hold_nothing_of_the_site(client):
    for path in ("/sw.js", "/phone.webmanifest"):
        answer = client.get(path)
        assert answer.status_code == 200
        assert "Quinta" not in answer.text
        assert "valley" not in answer.text
    assert client.get("/sw.js").headers["service-worker-allowed"] == "/"


def test_every_file_the_service_worker_keeps_is_there(client):
    text = client.get("/sw.js").text
    files = json.loads(text.partition("const FILES = ")[2].partition(";")[0])
    assert len(files) > 5
    assert all(client.get(file).status_code == 200 for file in files)


def test_the_phone_is_told_the_time_the_site_and_a_token_that_works(client, site):
    hello = client.get("/api/phone/hello").json()
    assert hello["site"] == "Quinta"
    answer = client.post("/api/log", json={"entries": [note(1)]}, headers={"X-Pinfold-Token": hello["token"]})
    assert states(answer) == ["new"]


def test_batches_are_counted_by_mix_and_layer_with_corrections_and_what_was_taken_back(client):
    def batch(number, batches, **also):
        fields = {"mix": "concrete-footing", "layer": "footing", "batches": str(batches)}
        return note(number, kind="batch", fields=fields, **also)

    def logged():
        return next(card["logged"] for card in client.get("/api/phone").json()["cards"] if card["layer"] == "footing")

    assert logged() == 0
    client.post("/api/log", json={"entries": [batch(1, 2), batch(2, 3), note(3)]})
    assert logged() == 5
    client.post("/api/log", json={"entries": [batch(4, 7, corrects="note-number-0002")]})
    assert logged() == 9
    client.post("/api/log", json={"entries": [note(5, kind="withdrawn", fields={}, corrects="note-number-0001")]})
    assert logged() == 7
    client.post("/api/log", json={"entries": [batch(7, 4, corrects="note-number-0006"), batch(6, 9)]})
    assert logged() == 11, "a correction that came in before what it corrects"


def counted(client):
    """Ask until the batches are counted, which may take a moment beside other work."""
    for _ in range(100):
        if all(card["logged"] is not None for card in client.get("/api/phone").json()["cards"]):
            return
    pytest.fail("the batches were never counted")


def test_the_mark_changes_with_the_log_and_only_then(client):
    counted(client)
    first = client.get("/api/phone/hello").json()["mark"]
    assert client.get("/api/phone/hello").json()["mark"] == first
    crack = note(1, kind="crack", fields={"mark": "C1", "width": "0.2 mm"})
    client.post("/api/log", json={"entries": [crack]})
    assert client.get("/api/phone/hello").json()["mark"] != first
    assert client.get("/api/phone").json()["last"]["crack"]["width"] == ["0.2 mm"]


FORM = {"f.mark": "C1", "f.width": "0.3", "u.width": "mm", "at": "2026-05-03T14:20", "who": "Ana"}


def form(client, path, fields):
    return client.post(path, data={**fields, "token": client.headers["X-Pinfold-Token"]})


def test_a_form_without_script_writes_an_entry_and_sent_twice_writes_it_once(client, site):
    fields = {**FORM, "id": "from-a-form-1"}
    for _ in range(2):
        answer = form(client, "/log/new/crack", fields)
        assert answer.status_code == 303
        assert answer.headers["location"] == "/log/from-a-form-1"
    entry = open_log(site).entry("from-a-form-1")
    assert entry.number("width") == pytest.approx(0.0003)
    assert in_log(site) == ["from-a-form-1"]


def test_a_wrong_form_comes_back_filled_in_with_the_complaint_beside_it(client, site):
    answer = form(client, "/log/new/crack", {**FORM, "id": "from-a-form-1", "f.width": "wide", "f.place": "valley/1a"})
    assert answer.status_code == 400
    assert 'value="wide"' in answer.text
    assert 'value="valley/1a"' in answer.text
    assert 'class="complaint"' in answer.text
    assert in_log(site) == []


def test_a_correction_is_a_further_entry_and_what_was_there_stays(client, site):
    form(client, "/log/new/crack", {**FORM, "id": "from-a-form-1"})
    shown = client.get("/log/from-a-form-1/correct").text
    assert 'value="0.3"' in shown
    fields = {**FORM, "id": "correction-1", "version": "from-a-form-1", "f.width": "0.4"}
    for _ in range(2):  # sent twice, written once
        assert form(client, "/log/from-a-form-1/correct", fields).status_code == 303
    log = open_log(site)
    assert log.entry("from-a-form-1").number("width") == pytest.approx(0.0003)
    assert log.entry("correction-1").corrects == "from-a-form-1"
    assert log.entry("correction-1").at == log.entry("from-a-form-1").at
    assert [entry.id for entry in log.entries(standing=True)] == ["correction-1"]
    assert log.count() == 2


def test_an_entry_taken_back_is_told_so_and_not_wiped_out(client, site):
    form(client, "/log/new/crack", {**FORM, "id": "from-a-form-1"})
    assert form(client, "/log/from-a-form-1/withdraw", {"id": "taken-back-1", "why": "wrong wall"}).status_code == 303
    assert open_log(site).entries(standing=True) == ()
    assert "wrong wall" in client.get("/log/from-a-form-1").text
    assert "from-a-form-1" not in client.get("/log").text
    assert "from-a-form-1" in client.get("/log?everything=yes").text
    assert client.get("/log/from-a-form-1/correct").status_code == 400


def test_a_form_with_a_name_nothing_is_known_by_is_written_and_told_so_beside_its_entry(client, site):
    fields = {"id": "from-a-form-1", "f.mix": "lime", "at": "2026-05-03T14:20", "who": "Ana"}
    assert form(client, "/log/new/batch", fields).status_code == 303
    shown = client.get("/log/from-a-form-1").text
    assert "the plan has no mix called &#39;lime&#39;; did you mean lime-plaster?" in shown
    assert "nothing is learned from it until it is corrected" in shown
    assert open_log(site).entry("from-a-form-1").text("mix") == "lime"
    mended = {**fields, "id": "correction-1", "version": "from-a-form-1", "f.mix": "lime-plaster"}
    assert form(client, "/log/from-a-form-1/correct", mended).status_code == 303
    assert "nothing is learned" not in client.get("/log/from-a-form-1").text


def test_phones_are_told_what_is_not_known_with_the_receipt_whenever_they_send_it(client):
    sent = {"entries": [note(1), note(2, kind="batch", fields={"mix": "lime"}), note(3, kind="crack", fields={})]}
    for outcome in ("new", "known"):
        receipts = client.post("/api/log", json=sent).json()["receipts"]
        assert [receipt["state"] for receipt in receipts] == [outcome, outcome, "wrong"]
        assert [len(receipt["remarks"]) for receipt in receipts] == [0, 1, 0]
        assert receipts[1]["remarks"][0]["place"] == "mix"
        assert "did you mean lime-plaster?" in receipts[1]["remarks"][0]["message"]


def test_a_file_brought_in_tells_what_is_not_known(client, site):
    entries = [note(1), note(2, kind="batch", fields={"mix": "lime"}), note(2, kind="batch", fields={"mix": "limes"})]
    told = choose(client, saved(entries)).text
    waiting = told.partition('name="waiting" value="')[2].partition('"')[0]
    written = form(client, "/log/import", {"waiting": waiting}).text
    for text in (told, written):
        assert text.count("did you mean lime-plaster?") == 1
        assert "no. 2, mix: the plan has no mix called" in text
    assert in_log(site) == ["note-number-0001", "note-number-0002"]


def test_an_entry_taken_back_by_a_form_sent_twice_is_taken_back_once_with_the_same_answer(client, site):
    form(client, "/log/new/crack", {**FORM, "id": "from-a-form-1"})
    sent = {"id": "taken-back-1", "why": "wrong wall"}
    answers = [form(client, "/log/from-a-form-1/withdraw", sent) for _ in range(2)]
    assert [(each.status_code, each.headers["location"]) for each in answers] == [(303, "/log/from-a-form-1")] * 2
    assert in_log(site) == ["from-a-form-1", "taken-back-1"]
    assert form(client, "/log/from-a-form-1/withdraw", {**sent, "id": "taken-back-2"}).status_code == 400
    assert in_log(site) == ["from-a-form-1", "taken-back-1"]


def test_of_the_same_withdrawal_sent_many_times_at_once_one_is_written(client, site):
    from concurrent.futures import ThreadPoolExecutor

    form(client, "/log/new/crack", {**FORM, "id": "from-a-form-1"})

    def send(_):
        return form(client, "/log/from-a-form-1/withdraw", {"id": "taken-back-1", "why": "wrong wall"}).status_code

    with ThreadPoolExecutor(6) as pool:
        assert set(pool.map(send, range(6))) == {303}
    assert in_log(site) == ["from-a-form-1", "taken-back-1"]


def test_amounts_and_a_photo_come_through_a_form(client, site):
    fields = {
        "id": "batch-form-1", "f.mix": "lime-plaster", "f.batches": "2", "f.amounts.0.item": "sand",
        "f.amounts.0.number": "6", "f.amounts.0.unit": "bucket", "f.amounts.1.item": "water",
        "f.amounts.1.number": "1.5 gal", "f.amounts.1.unit": "L", "at": "2026-05-03T14:20", "who": "Ana",
    }  # fmt: skip
    assert form(client, "/log/new/batch", fields).status_code == 303
    assert open_log(site).entry("batch-form-1").typed["amounts"] == [["sand", "6 bucket"], ["water", "1.5 gal"]]
    shown = client.get("/log/batch-form-1/correct").text
    assert 'value="sand"' in shown
    answer = client.post(
        "/log/new/photo", data={"token": client.headers["X-Pinfold-Token"], "id": "photo-form-1", "who": "Ana",
                                "at": "2026-05-03T14:20"},
        files={"p.photo": ("wall.png", picture(form="PNG"), "image/png")},
    )  # fmt: skip
    assert answer.status_code == 303
    name = open_log(site).entry("photo-form-1").text("photo")
    assert client.get(f"/photos/{name}.jpg").status_code == 200


def test_the_log_is_found_by_kind_day_who_place_and_words(client):
    client.post("/api/log", json={"entries": [
        note(1), note(2, at="2026-05-04T08:00+02:00", who="Rui"),
        note(3, fields={"text": "goats got in", "place": "lane/1a"}),
        note(4, kind="crack", fields={"mark": "C1", "width": "1 mm"}),
    ]})  # fmt: skip

    def found(query):
        text = client.get(f"/log?{query}").text
        return [n for n in range(1, 5) if f"/log/note-number-000{n}" in text]

    assert found("") == [1, 2, 3, 4]
    assert found("kind=crack") == [4]
    assert found("who=Rui") == [2]
    assert found("place=lane/1a") == [3]
    assert found("text=GOATS") == [3]
    assert found("day=2026-05-04") == [2]
    assert found("kind=note&who=Ana") == [1, 3]
    for wrong in ("day=yesterday", "before=x"):
        assert client.get(f"/log?{wrong}").status_code == 400
    assert client.get("/log?text=%27%3B+DROP+TABLE+entry%3B--").status_code == 200


def test_sheets_follow_each_other_without_gap_or_double(client):
    for start in range(0, 120, 60):
        client.post("/api/log", json={"entries": [note(n) for n in range(start, start + 60)]})
    seen, address = [], "/log"
    while address:
        text = client.get(address).text
        seen += [int(part[:4]) for part in text.split("/log/note-number-")[1:]]
        address = "/log?" + text.partition('href="/log?before=')[2].partition('"')[0] if "?before=" in text else ""
        address = address.replace("/log?", "/log?before=") if address else ""
    assert seen == list(range(119, -1, -1))


def test_what_was_typed_is_shown_as_text_never_as_markup(client):
    client.post("/api/log", json={"entries": [note(1, fields={"text": "<script>alert(1)</script>"}, who="<b>A</b>")]})
    for path in ("/log", "/log/note-number-0001", "/log/note-number-0001/correct"):
        assert "<script>alert" not in client.get(path).text
        assert "<b>A</b>" not in client.get(path).text
    record = note(2, kind="crack", fields={"mark": "</script><script>alert(2)</script>", "width": "1 mm"})
    client.post("/api/log", json={"entries": [record]})
    assert "<script>alert(2)" not in client.get("/phone").text


def saved(entries):
    return json.dumps({"pinfold-log": 1, "entries": entries}).encode()


def choose(client, content, name="phone.json"):
    return client.post(
        "/log/import", data={"token": client.headers["X-Pinfold-Token"]},
        files={"file": (name, content, "application/octet-stream")},
    )  # fmt: skip


@pytest.mark.parametrize(("content", "status", "told"), [
    (b"", 400, "nothing is in it"),
    (b"a,b\n1,2\n", 400, "line 1: the first line lacks kind"),
    (b"\xff\xfe\x00\x01", 409, "the file is not text in UTF-8"),
    (b'{"pinfold-log": 2}', 400, "the file holds no entries of a phone"),
])  # fmt: skip
def test_a_file_that_is_none_is_told_by_its_name_where_another_can_be_chosen(client, content, status, told):
    answer = choose(client, content, name="mine.csv")

    assert answer.status_code == status
    assert "mine.csv cannot be brought in; nothing was written" in answer.text
    assert told in answer.text
    assert "Change the plan" not in answer.text
    assert 'type="file"' in answer.text


def test_a_file_of_a_phone_is_told_first_and_written_then(client, site):
    import base64

    client.post("/api/log", json={"entries": [note(1)]})
    shot = {**note(4), "kind": "photo", "fields": {},
            "pictures": {"photo": "data:image/jpeg;base64," + base64.b64encode(picture()).decode()}}  # fmt: skip
    told = choose(client, saved([note(1), note(2), {**note(3), "kind": "nothing"}, shot]))
    assert told.status_code == 200
    assert in_log(site) == ["note-number-0001"], "nothing is written before it is said so"
    assert "there is no kind of entry" in told.text
    assert "Write 2 new entries" in told.text
    waiting = told.text.partition('name="waiting" value="')[2].partition('"')[0]
    assert form(client, "/log/import", {"waiting": waiting}).status_code == 200
    assert in_log(site) == ["note-number-0001", "note-number-0002", "note-number-0004"]
    assert client.get(f"/photos/{open_log(site).entry('note-number-0004').text('photo')}.jpg").status_code == 200
    assert form(client, "/log/import", {"waiting": waiting}).status_code == 404


@pytest.mark.parametrize(
    "content", [b"{", b"{}", b'{"pinfold-log": 2, "entries": []}', b'{"entries": "x"}', b"\xff\xfe{}", b"\0" * 50,
                b'{"pinfold-log": 1, "entries": 5}', b"{" + b'"a":{' * 3000, b"hello,you\nx,y\n", b"\x89PNG"],
)  # fmt: skip
def test_a_file_that_is_none_of_ours_is_refused_with_words(client, site, content):
    assert 400 <= choose(client, content).status_code < 500
    assert in_log(site) == []


def test_the_log_goes_out_as_csv_and_comes_back_into_another_one(client, site, tmp_path):
    client.post("/api/log", json={"entries": [note(1), note(2, kind="crack", fields={"mark": "C", "width": "1 mm"})]})
    content = client.get("/log/csv").content
    told = choose(client, content, "log.csv")
    assert told.status_code == 200
    assert "<dt>known already</dt><dd>2</dd>" in told.text


def test_cracks_stand_by_their_mark(client):
    for number, width in ((1, "0.2 mm"), (2, "0.4 mm")):
        record = note(
            number, kind="crack", fields={"mark": "by the gate", "width": width}, at=f"2026-05-0{number}T08:00+02:00"
        )
        client.post("/api/log", json={"entries": [record]})
    text = client.get("/cracks").text
    assert "by the gate" in text
    assert text.index("0.20 mm") < text.index("0.40 mm")


def test_a_log_that_cannot_be_read_is_told_and_no_fault(client, site):
    (site / "log.sqlite").write_bytes(b"no database at all" * 100)
    for answer in (
        client.get("/log"),
        client.get("/reckon/lessons"),
        client.post("/api/log", json={"entries": [note(1)]}),
    ):
        assert answer.status_code == 409
    with pytest.raises(sqlite3.Error):
        sqlite3.connect(site / "log.sqlite").execute("SELECT * FROM entry")


@pytest.mark.parametrize(
    ("spoil", "units"),
    [(lambda text: text.replace('side = "', 'side = "no-', 1), "mm"), (lambda text: text + "\nbroken = [", "mm"),
     (lambda text: 'name = "Quinta"\nunits = "us"\nx = = 3\n', "in"), (lambda text: "= 3\n", "mm")],
    ids=["no such side", "no TOML", "a head in other units", "nothing to tell"],
)  # fmt: skip
def test_the_log_is_looked_up_and_its_forms_are_shown_while_the_plan_has_complaints(client, site, spoil, units):
    import re

    plan = site / "plan.toml"
    plan.write_text(spoil(plan.read_text(encoding="utf-8")), encoding="utf-8")
    assert client.get("/log").status_code == 200
    assert client.get("/phone").status_code == 200
    assert client.get("/log/new/note").status_code == 200
    offered = re.search(r'<select name="u\.width".*?<option value="(.*?)"', client.get("/log/new/crack").text)[1]
    assert offered == units
    hello = client.get("/api/phone/hello").json()
    assert hello["site"] == ("Quinta" if "Quinta" in plan.read_text(encoding="utf-8") else "quinta")
    assert client.get("/api/phone").json()["cards"] == []


def shot(number, content, **also):
    import base64

    data = "data:image/jpeg;base64," + base64.b64encode(content).decode()
    return {**note(number), "kind": "photo", "fields": {}, "pictures": {"photo": data}, **also}


def counts_in(text):
    import re

    names = ("new", "known", "conflict", "wrong")
    return dict(zip(names, map(int, re.findall(r"</dt><dd>(\d+)</dd>", text)), strict=True))


def test_a_trial_of_a_file_tells_what_the_writing_tells(client, site):
    kept = client.post("/api/photo", content=picture((60, 60)), headers={"content-type": "image/jpeg"}).json()["name"]
    entries = [
        shot(1, picture()), shot(2, b"no picture"), shot(3, picture()[:200]), note(4), note(4),
        note(4, fields={"text": "other"}), note(5, kind="photo", fields={"photo": "a" * 64}),
        note(6, kind="photo", fields={"photo": kept}), *[note(n) for n in range(10, 210)], note(4),
    ]  # fmt: skip
    told = choose(client, saved(entries)).text
    assert in_log(site) == []
    assert [file.stem for file in (site / "photos").iterdir()] == [kept], "a trial keeps no photo"
    waiting = told.partition('name="waiting" value="')[2].partition('"')[0]
    written = form(client, "/log/import", {"waiting": waiting}).text
    assert counts_in(told) == counts_in(written) == {"new": 203, "known": 2, "conflict": 1, "wrong": 3}
    again = counts_in(choose(client, saved(entries)).text)
    assert again == {"new": 0, "known": 205, "conflict": 1, "wrong": 3}


def stored(site):
    return sorted(file.stem for file in (site / "photos").glob("*.jpg")) if (site / "photos").exists() else []


def test_of_an_entry_in_a_file_that_is_refused_no_picture_is_kept(client, site):
    entries = [
        shot(1, picture((50, 40)), at="some day"), shot(2, picture((51, 40)), kind="crack", fields={"width": "wide"}),
        shot(3, picture((52, 40))), shot(3, picture((53, 40))), shot(4, picture((54, 40)), fields={"nonsense": "x"}),
        {**shot(5, picture((55, 40))), "kind": "note"},
    ]  # fmt: skip
    told = choose(client, saved(entries)).text
    waiting = told.partition('name="waiting" value="')[2].partition('"')[0]
    written = form(client, "/log/import", {"waiting": waiting}).text

    assert counts_in(told) == counts_in(written) == {"new": 1, "known": 0, "conflict": 1, "wrong": 4}
    assert stored(site) == [open_log(site).entry("note-number-0003").text("photo")]
    assert [photo.name for photo in open_log(site).photos()] == stored(site)


def test_an_entry_that_shows_the_picture_of_a_refused_one_is_refused_too(client, site):
    from pinfold.actions.taking import take_photo

    name = take_photo(site, picture((50, 40)), write=False).name
    entries = [shot(1, picture((50, 40)), at="some day"), note(2, kind="photo", fields={"photo": name})]
    told = choose(client, saved(entries)).text
    waiting = told.partition('name="waiting" value="')[2].partition('"')[0]

    assert counts_in(told) == {"new": 0, "known": 0, "conflict": 0, "wrong": 2}
    assert waiting == ""
    assert stored(site) == []


def with_picture(client, path, fields):
    files = {"p.photo": ("wall.png", picture((50, 40), form="PNG"), "image/png")}
    return client.post(path, data={**fields, "token": client.headers["X-Pinfold-Token"]}, files=files)


def test_of_a_form_that_is_refused_no_picture_is_kept(client, site):
    assert with_picture(client, "/log/new/crack", {**FORM, "id": "from-a-form-1", "f.width": "wide"}).status_code == 400
    assert stored(site) == []
    for _ in range(2):
        assert with_picture(client, "/log/new/crack", {**FORM, "id": "from-a-form-1"}).status_code == 303
    assert stored(site) == [open_log(site).entry("from-a-form-1").text("photo")]
    assert form(client, "/log/new/crack", {**FORM, "id": "from-a-form-2"}).status_code == 303
    answer = with_picture(client, "/log/new/crack", {**FORM, "id": "from-a-form-2", "f.width": "0.9"})
    assert (answer.status_code, len(stored(site))) == (400, 1), "the id is another entry's"


def test_a_table_with_a_wrong_row_is_not_offered_to_be_written(client, site):
    client.post("/api/log", json={"entries": [note(1), note(2, kind="crack", fields={"mark": "C", "width": "1 mm"})]})
    content = client.get("/log/csv").text.replace("1 mm", "wide").replace("note-number-0001", "note-number-0007")
    told = choose(client, content.encode(), "log.csv").text
    assert counts_in(told)["new"] == 1
    assert 'name="waiting"' not in told
    assert "until all of it is mended" in told


def version_in(text):
    return text.partition('name="version" value="')[2].partition('"')[0]


@pytest.mark.parametrize("at", ["2026-05-03T23:20-07:00", "2026-05-03T23:20+14:00", "20260503T232000+0545"])
def test_a_corrected_time_stays_in_the_zone_it_was_written_in(client, site, at):
    client.post("/api/log", json={"entries": [note(1, at=at)]})
    shown = client.get("/log/note-number-0001/correct").text
    assert 'value="2026-05-03T23:20"' in shown
    fields = {"id": "correction-1", "version": version_in(shown), "f.text": "w", "at": "2026-05-03T23:35", "who": "Ana"}
    assert form(client, "/log/note-number-0001/correct", fields).status_code == 303
    first, second = open_log(site).entries(newest_first=False)
    assert (second.when - first.when).total_seconds() == 15 * 60
    assert second.when.utcoffset() == first.when.utcoffset()


def test_an_entry_is_found_by_the_day_it_has_in_the_list(client):
    client.post("/api/log", json={"entries": [
        note(1, at="2026-05-03T23:50-11:00"), note(2, at="2026-05-03T00:10+14:00"), note(3, at="2026-05-03T12:00Z"),
        note(4, at="2026-05-02T23:50-11:00"), note(5, at="2026-05-04T00:10+14:00"),
    ]})  # fmt: skip
    for day, wanted in (("2026-05-02", [4]), ("2026-05-03", [1, 2, 3]), ("2026-05-04", [5]), ("2026-05-05", [])):
        text = client.get(f"/log?day={day}").text
        assert [n for n in range(1, 6) if f"/log/note-number-000{n}" in text] == wanted
    for wrong in ("0001-01-01", "9999-12-31", "2026-02-30"):
        assert client.get(f"/log?day={wrong}").status_code == 400


def test_sheets_of_a_day_hold_all_of_it_among_the_days_beside_it(client):
    import html
    import re

    for start in range(0, 240, 120):
        days = [note(n, at=f"2026-05-0{3 + n % 2}T01:00+02:00") for n in range(start, start + 120)]
        client.post("/api/log", json={"entries": days})
    seen, address, asked = [], "/log?day=2026-05-03", 0
    while address:
        text = client.get(address).text
        seen += map(int, re.findall(r"/log/note-number-(\d{4})", text))
        older = re.search(r'href="(/log\?[^"]*before=[^"]*)"', text)
        address, asked = html.unescape(older[1]) if older else "", asked + 1
    assert seen == list(range(238, -1, -2))
    assert asked == 3


def test_a_correction_of_what_was_corrected_meanwhile_is_shown_again_and_not_written(client, site):
    form(client, "/log/new/crack", {**FORM, "id": "from-a-form-1"})
    shown = client.get("/log/from-a-form-1/correct").text
    assert version_in(shown) == "from-a-form-1"
    first = {**FORM, "id": "correction-1", "version": "from-a-form-1", "f.width": "0.4", "who": "Rui"}
    second = {**FORM, "id": "correction-2", "version": "from-a-form-1", "f.width": "0.9"}
    assert form(client, "/log/from-a-form-1/correct", first).status_code == 303
    answer = form(client, "/log/from-a-form-1/correct", second)
    assert answer.status_code == 409
    assert "Changed meanwhile" in answer.text
    assert 'value="0.9"' in answer.text
    assert "in the log now: <strong>0.4 mm</strong>" in answer.text
    assert "in the log now: <strong>Rui</strong>" in answer.text
    assert in_log(site) == ["from-a-form-1", "correction-1"]
    assert form(client, "/log/from-a-form-1/correct", first).status_code == 303, "the first one sent once more"
    second["version"] = version_in(answer.text)
    for _ in range(2):
        assert form(client, "/log/from-a-form-1/correct", second).status_code == 303
    assert form(client, "/log/from-a-form-1/correct", first).status_code == 303
    assert in_log(site) == ["from-a-form-1", "correction-1", "correction-2"]
    assert open_log(site).entry("correction-2").corrects == "correction-1"


@pytest.mark.parametrize("version", [None, "", "no-such-version", "elsewhere-0001"])
def test_a_correction_that_names_no_version_of_the_entry_is_not_written(client, site, version):
    client.post("/api/log", json={"entries": [note(1, id="elsewhere-0001")]})
    form(client, "/log/new/crack", {**FORM, "id": "from-a-form-1"})
    fields = {**FORM, "id": "correction-1"} | ({} if version is None else {"version": version})
    assert form(client, "/log/from-a-form-1/correct", fields).status_code == 409
    assert in_log(site) == ["elsewhere-0001", "from-a-form-1"]


def test_of_two_corrections_at_once_one_is_written(client, site):
    from concurrent.futures import ThreadPoolExecutor

    form(client, "/log/new/crack", {**FORM, "id": "from-a-form-1"})

    def send(number):
        fields = {**FORM, "id": f"correction-{number}", "version": "from-a-form-1", "f.width": f"0.{number}"}
        return form(client, "/log/from-a-form-1/correct", fields).status_code

    with ThreadPoolExecutor(6) as pool:
        assert sorted(pool.map(send, range(1, 7))) == [303, 409, 409, 409, 409, 409]
    assert len(in_log(site)) == 2


def test_the_log_as_csv_is_a_file_to_save(client):
    headers = client.get("/log/csv").headers
    assert headers["content-type"] == "text/csv; charset=utf-8"
    assert headers["content-disposition"] == 'attachment; filename="log.csv"'


@pytest.fixture
def paired(site):
    """Makes clients that are a phone paired under a name."""
    from pinfold.actions.pairing import pair_device

    phone = "192.168.7.5:8765"
    desk = Desk(folder=site, hosts=frozenset({HOST, phone}), home=frozenset({HOST}), secret=b"s" * 32)

    def made(name):
        client = TestClient(
            make_app(desk), base_url=f"http://{phone}", client=("192.168.7.40", 1), follow_redirects=False,
            headers={"Origin": f"http://{phone}"}, cookies={"pinfold": pair_device(site, name)},
        )  # fmt: skip
        client.headers["X-Pinfold-Token"] = client.get("/api/phone/hello").json()["token"]
        return client

    return made


def test_entries_of_a_paired_phone_carry_the_name_given_at_pairing(paired, client, site):
    phone = paired("Shed phone")
    nameless = {key: value for key, value in note(2).items() if key != "device"}
    for outcome in ("new", "known"):
        assert states(phone.post("/api/log", json={"entries": [note(1), nameless]})) == [outcome] * 2
    assert states(client.post("/api/log", json={"entries": [note(3)]})) == ["new"]
    assert [each.device for each in open_log(site).entries(newest_first=False)] == ["Shed phone", "Shed phone", "phone"]


def test_a_paired_phone_is_told_its_name(paired, client):
    phone = paired("Shed phone")
    assert phone.get("/api/phone/hello").json()["device"] == "Shed phone"
    assert client.get("/api/phone/hello").json()["device"] == ""


def test_an_entry_known_under_the_name_it_brings_is_no_conflict_when_its_phone_has_another_name_by_now(
    paired, client, site
):
    client.post("/api/log", json={"entries": [note(1), note(2)]})  # as by a file that was carried here
    other = note(2, fields={"text": "other"})
    answer = paired("Shed phone").post("/api/log", json={"entries": [note(3), note(1), other, "no table"]})
    assert states(answer) == ["new", "known", "conflict", "wrong"]
    assert [receipt["place"] for receipt in answer.json()["receipts"]] == [0, 1, 2, 3]
    assert open_log(site).count() == 3


def test_a_paired_phone_whose_name_grew_too_long_is_still_heard(paired, site):
    paired("x" * 40)
    assert states(paired("x" * 40).post("/api/log", json={"entries": [note(1)]})) == ["new"]
    assert open_log(site).entry("note-number-0001").device == f"{'x' * 38} 2"


def test_forms_filled_in_on_a_paired_phone_carry_its_name_and_others_this_computer(paired, client, site):
    phone = paired("Shed phone")
    assert form(phone, "/log/new/crack", {**FORM, "id": "from-a-phone-1"}).status_code == 303
    fields = {**FORM, "id": "correction-1", "version": "from-a-phone-1", "f.width": "0.4"}
    assert form(phone, "/log/from-a-phone-1/correct", fields).status_code == 303
    assert form(phone, "/log/correction-1/withdraw", {"id": "taken-back-1", "why": "wrong wall"}).status_code == 303
    assert form(client, "/log/new/crack", {**FORM, "id": "from-a-form-1", "who": "Rui"}).status_code == 303

    by_id = {each.id: each.device for each in open_log(site).entries()}
    assert by_id.pop("from-a-form-1") == "computer"
    assert set(by_id.values()) == {"Shed phone"}
    assert len(by_id) == 3
    assert 'name="who" value="Ana"' in phone.get("/log/new/note").text, "who wrote last on this phone"
    assert 'name="who" value="Rui"' in client.get("/log/new/note").text
