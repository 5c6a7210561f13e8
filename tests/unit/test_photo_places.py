"""The place a photo was taken: dropped at every door, unless it is wished there."""

from __future__ import annotations

import base64
import json
import re
from io import BytesIO

import pytest
from PIL import Image
from starlette.testclient import TestClient

from imaging.wall_photos import Wall, photo_of
from pinfold.cli import main
from pinfold.logbook.kinds import Sort, entry_kinds
from pinfold.store import starting
from pinfold.store.log import open_log
from pinfold.store.log_photos import photo_file
from pinfold.web.app import make_app
from pinfold.web.desk import Desk
from pinfold.web.guard import token_of

HOST = "127.0.0.1:8765"
PLACE = {"latitude": "-38.51000 deg", "longitude": "9.25000 deg"}


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


@pytest.fixture
def run(site, capsys):
    def running(*words):
        status = main(["log", *map(str, words), "--site", str(site)])
        said = capsys.readouterr()
        return status, said.out + said.err

    return running


def picture(*, place=True, raw=None, color="teal"):
    """A photo as a camera writes it."""
    image, out, exif = Image.open(BytesIO(raw)) if raw else Image.new("RGB", (40, 30), color), BytesIO(), Image.Exif()
    exif[0x010F] = "a maker's name"
    if place:
        exif.get_ifd(0x8825).update({1: "S", 2: (38.0, 30.0, 36.0), 3: "E", 4: (9.0, 15.0, 0.0)})
    image.save(out, "JPEG", exif=exif, quality=95)
    return out.getvalue()


@pytest.fixture
def photo(tmp_path):
    (tmp_path / "lane.jpg").write_bytes(picture())
    return tmp_path / "lane.jpg"


@pytest.fixture(scope="module")
def cracked():
    return picture(raw=photo_of(Wall(across=1150, down=900, view=132.0, width=0.6)))


def kept(site, *, kind="photo"):
    """Of the newest entry what it says of the place, and whether its picture tells it."""
    entry = open_log(site).entries(kind=kind, standing=True)[0]
    exif = Image.open(BytesIO(photo_file(site, entry.text("photo")).read_bytes())).getexif()
    assert set(exif) <= {0x8825}, "nothing else of what cameras write"
    return {key: text for key, text in entry.typed.items() if key in PLACE}, bool(exif.get_ifd(0x8825))


WISHED, DROPPED = (PLACE, True), ({}, False)


@pytest.mark.parametrize("wish", [True, False])
def test_on_the_command_line(run, site, photo, wish):
    status, said = run("add", "photo", "text=the lane", "--photo", photo, *(["--keep-place"] if wish else []))

    assert status == 0
    assert kept(site) == (WISHED if wish else DROPPED)
    assert ("-38.51000 deg" in said) is wish
    entry = json.loads(run("show", "1", "--json")[1])["stands"]
    if wish:
        assert entry["values"]["latitude_rad"] == pytest.approx(-0.672126, abs=1e-6)
        assert entry["values"]["longitude_rad"] == pytest.approx(0.161443, abs=1e-6)


def test_a_correction_keeps_the_place_until_another_photo_comes(run, site, photo, tmp_path):
    (tmp_path / "other.jpg").write_bytes(picture(color="tan"))
    run("add", "photo", "text=the lane", "--photo", photo, "--keep-place")
    run("correct", "1", "text=the lane in May")
    assert kept(site) == WISHED
    run("correct", "1", "--photo", tmp_path / "other.jpg")
    assert kept(site) == DROPPED
    run("correct", "1", "--photo", photo, "--keep-place")
    assert kept(site) == WISHED
    run("correct", "1", "latitude=", "longitude=")
    assert kept(site) == ({}, True), "the entry as it stands tells it no more; its picture does"


def test_a_wish_that_cannot_be_met_is_told(run, site, photo, tmp_path):
    (tmp_path / "bare.jpg").write_bytes(picture(place=False))

    assert (
        "does not tell where it was taken" in run("add", "photo", "--photo", tmp_path / "bare.jpg", "--keep-place")[1]
    )
    assert kept(site) == DROPPED
    for words in (("add", "note", "text=wet", "--keep-place"), ("correct", "1", "--keep-place")):
        status, said = run(*words)
        assert status == 2
        assert "add --photo FILE" in said


@pytest.mark.parametrize("wish", [True, False])
def test_with_a_crack_measured_on_the_command_line(run, site, cracked, tmp_path, wish):
    (tmp_path / "crack.jpg").write_bytes(cracked)
    status, said = run("measure", tmp_path / "crack.jpg", "--mark", "C1", *(["--keep-place"] if wish else []))

    assert status == 0
    assert ("and the place it was taken" in " ".join(said.split())) is wish
    assert kept(site, kind="crack") == (WISHED if wish else DROPPED)


def test_what_was_traced_is_drawn_into_a_file(run, site, cracked, tmp_path):
    (tmp_path / "crack.jpg").write_bytes(cracked)
    status, said = run("measure", tmp_path / "crack.jpg", "--picture", tmp_path / "traced.svg")

    assert status == 0
    assert "What was traced is drawn in" in said
    assert "<image " in (tmp_path / "traced.svg").read_text()
    assert open_log(site).count() == 0, "without a mark nothing is written down"
    status, said = run("measure", tmp_path / "crack.jpg", "--mark", "C1", "--picture", tmp_path / "traced.png")
    assert status == 2
    assert "a name like crack.svg" in said
    nowhere = tmp_path / "none" / "traced.svg"
    assert run("measure", tmp_path / "crack.jpg", "--mark", "C1", "--picture", nowhere)[0] != 0
    assert open_log(site).count() == 0, "where the drawing cannot be written, nothing is"


@pytest.mark.parametrize("wish", [True, False])
def test_with_a_crack_measured_on_its_page(client, site, cracked, wish):
    answer = client.post(
        "/cracks/measure", data={"token": client.headers["X-Pinfold-Token"], "id": "crack-form-1", "mark": "C1",
                                 **({"keep_place": "yes"} if wish else {})},
        files={"photo": ("crack.jpg", cracked, "image/jpeg")},
    )  # fmt: skip
    assert answer.status_code == 200
    assert kept(site, kind="crack") == (WISHED if wish else DROPPED)


def form(client, address, fields, content=None):
    files = {"p.photo": ("lane.jpg", content, "image/jpeg")} if content else {"p.photo": ("", b"", "image/jpeg")}
    data = {"token": client.headers["X-Pinfold-Token"], "who": "Ana", "at": "2026-05-03T14:20", **fields}
    return client.post(address, data=data, files=files)


def ticked(page):
    return re.search(r'name="keep_place" value="yes"( checked)?', page)[1] is not None


@pytest.mark.parametrize("wish", [True, False])
def test_on_the_pages_of_the_log(client, site, wish):
    assert not ticked(client.get("/log/new/photo").text)
    wished = {"keep_place": "yes"} if wish else {}
    assert form(client, "/log/new/photo", {"id": "photo-form-1", **wished}, picture()).status_code == 303
    assert kept(site) == (WISHED if wish else DROPPED)
    shown = client.get("/log/photo-form-1").text
    assert ("latitude of the photo" in shown) is wish
    assert ("-38.51000 deg" in shown) is wish


def test_a_correction_on_the_page_keeps_the_place_until_another_photo_is_chosen(client, site):
    form(client, "/log/new/photo", {"id": "photo-form-1", "keep_place": "yes"}, picture())
    page = client.get("/log/photo-form-1/correct").text
    assert not ticked(page), "the wish is of one photo"
    assert "latitude" not in page
    again = {"id": "photo-form-2", "version": "photo-form-1", "f.text": "the lane"}
    assert form(client, "/log/photo-form-1/correct", again).status_code == 303
    assert kept(site) == WISHED
    again = {"id": "photo-form-3", "version": "photo-form-2"}
    assert form(client, "/log/photo-form-1/correct", again, picture(color="tan")).status_code == 303
    assert kept(site) == DROPPED


@pytest.mark.parametrize("wish", [True, False])
def test_from_a_phone(client, site, wish):
    address = f"/api/photo{'?keep_place=yes' if wish else ''}"
    said = client.post(address, content=picture(), headers={"content-type": "image/jpeg"}).json()
    assert said["place"] == (PLACE if wish else {})
    raw = {"id": "photo-phone-1", "kind": "photo", "at": "2026-05-03T14:20+02:00", "who": "Ana", "device": "phone",
           "fields": {"photo": said["name"], **said["place"]}}  # fmt: skip
    assert client.post("/api/log", json={"entries": [raw]}).json()["receipts"][0]["state"] == "new"
    assert kept(site) == (WISHED if wish else DROPPED)


@pytest.mark.parametrize("placed", [["photo"], [], None, "photo", ["other"]])
def test_by_a_file_of_a_phone(client, site, placed):
    data = "data:image/jpeg;base64," + base64.b64encode(picture()).decode()
    raw = {"id": "photo-saved-1", "kind": "photo", "at": "2026-05-03T14:20+02:00", "who": "Ana", "device": "phone",
           "fields": {}, "pictures": {"photo": data}, "placed": placed}  # fmt: skip
    content = json.dumps({"pinfold-log": 1, "entries": [raw]}).encode()
    token = {"token": client.headers["X-Pinfold-Token"]}
    told = client.post("/log/import", data=token, files={"file": ("phone.json", content, "application/json")}).text
    assert not (site / "photos").exists(), "a trial keeps no photo"
    waiting = told.partition('name="waiting" value="')[2].partition('"')[0]
    assert client.post("/log/import", data={**token, "waiting": waiting}).status_code == 200
    assert kept(site) == (WISHED if placed == ["photo"] else DROPPED)


def test_csv_takes_the_place_out_and_in(run, site, photo, tmp_path):
    run("add", "photo", "--photo", photo, "--keep-place")
    run("out", tmp_path / "log.csv")
    text = (tmp_path / "log.csv").read_text()
    assert "latitude,longitude" in text
    assert "'-38.51000 deg,9.25000 deg" in text, "safe in a spreadsheet"
    before = open_log(site).entries()[0]
    for each in site.glob("log.sqlite*"):
        each.unlink()
    run(
        "add", "photo", "--photo", photo, "--keep-place"
    )  # photos do not travel in CSV: the same one is there by itself
    assert run("in", tmp_path / "log.csv")[0] == 0
    assert open_log(site).entry(before.id).values == before.values


def test_what_was_written_last_offers_no_place(client, site):
    form(client, "/log/new/photo", {"id": "photo-form-1", "keep_place": "yes"}, picture())
    record = client.get("/api/phone").json()

    assert "latitude" not in json.dumps(record)
    assert "latitude" not in open_log(site).last_values("photo")


def test_every_kind_with_a_photo_can_say_where_it_was_taken():
    for kind in entry_kinds().values():
        has_photo = any(field.sort is Sort.PHOTO for field in kind.fields)

        assert kind.from_photo == (frozenset(PLACE) if has_photo else frozenset())


def test_the_terminal_says_how_a_place_is_kept(run, capsys):
    assert main(["log", "kinds", "photo"]) == 0

    assert "--keep-place" in capsys.readouterr().out
