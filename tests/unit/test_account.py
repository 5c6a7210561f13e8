"""The account to share: what was not chosen is in none of its forms."""

from __future__ import annotations

import base64
import json
import re
import zlib
from contextlib import suppress
from io import BytesIO
from types import SimpleNamespace

import pytest
from PIL import Image
from pypdf import PdfReader

import half_built
from pinfold.actions import reckon_account as shared
from pinfold.actions.answers import told
from pinfold.actions.taking import take_entries, take_pictured
from pinfold.cli import main
from pinfold.errors import InvalidPlan
from pinfold.reports.reckon_account import cracks_told, learned_told
from pinfold.store import starting
from pinfold.studies.account.records import Part, SharedCrack, SharedWidth
from pinfold.studies.account.taught import learned_of
from pinfold.studies.cracks.records import CrackVerdict
from pinfold.studies.lessons.records import Topic

SECRETS = {
    "name": "Zanzabelle", "place": "Quorndale", "person": "Wilhelmine", "run": "Hopfengrund", "mark": "Krähenfuß",
    "note": "Brombeerweg", "caption": "Schlehdorn", "file": "Dachsbau", "layer": "Eberesche", "shop": "Kornhandel",
    "exif": "Linsenbauer", "comment": "Tintenklecks", "xmp": "Federkiel",
}  # fmt: skip
LATITUDE, LONGITUDE = "37.61234", "-7.98765"
DIGITS = ("37.61", "-7.98", "7.98765", "37°", "Lisbon", "2026", "April", "EUR", "Quinta")


def jpeg():
    """A photo full of what cameras and other programs write: place, owner, comment, XMP, a small picture of itself."""
    image, out, exif = Image.new("RGB", (2400, 1600), "tan"), BytesIO(), Image.Exif()
    exif[0x013B], exif[0x9C9D] = SECRETS["exif"], SECRETS["exif"].encode("utf-16-le")
    exif.get_ifd(0x8825).update({1: "N", 2: (37.0, 36.0, 44.4), 3: "W", 4: (7.0, 59.0, 15.5)})
    xmp = f"<x:xmpmeta xmlns:x='adobe:ns:meta/'>{SECRETS['xmp']}</x:xmpmeta>".encode()
    image.save(out, "JPEG", exif=exif, comment=SECRETS["comment"].encode(), xmp=xmp)
    return out.getvalue()


def said(number, kind, **fields):
    return {"id": f"entry-{number:08}", "kind": kind, "at": "2026-05-20T10:00:00+01:00", "who": SECRETS["person"],
            "device": SECRETS["person"], "fields": fields}  # fmt: skip


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    folder = tmp_path_factory.mktemp(SECRETS["file"]) / "plot"
    starting.from_sample(folder, "quinta")
    plan = (folder / "plan.toml").read_text()
    plan = plan.replace('name = "Quinta"', f'name = "{SECRETS["name"]}"')
    plan = plan.replace("an invented hillside with old terraces", SECRETS["place"])
    plan = re.sub(r"^latitude = .*$", f'latitude = "{LATITUDE} deg"', plan, flags=re.M)
    plan = re.sub(r"^longitude = .*$", f'longitude = "{LONGITUDE} deg"', plan, flags=re.M)
    plan = plan.replace('"earth block"', f'"{SECRETS["run"]}"')
    (folder / "plan.toml").write_text(plan)
    half_built.write(folder, "quinta", 0.5)
    assert all(SECRETS[each] in plan for each in ("name", "place", "run"))
    taken = take_pictured(folder, said(1, "photo", text=SECRETS["caption"]), {"photo": jpeg()}, keep_place=True)
    assert taken.state == "new"
    widths = ("0.2 mm", "0.3 mm", "0.4 mm", "0.5 mm")
    states = take_entries(folder, [
        said(2, "note", text=SECRETS["note"]),
        *(said(10 + n, "crack", mark=SECRETS["mark"], width=width) for n, width in enumerate(widths)),
        said(20, "hours", time="3 h", layer=SECRETS["layer"]),
        said(21, "purchase", item=SECRETS["layer"], packs="1", cost="20.00", shop=SECRETS["shop"], layer=SECRETS["layer"]),
    ])  # fmt: skip
    assert {each.state for each in states} == {"new"}
    # what lies in the folder may have been put there by another program, with all that cameras write
    file = next((folder / "photos").glob("*.jpg"))
    file.write_bytes(jpeg())
    return folder


@pytest.fixture(scope="module")
def numbers(site):
    offers = shared.offers_of(site)
    return next(str(each.number) for each in offers if each.photo), next(str(e.number) for e in offers if not e.photo)


def pdf_words(pdf):
    """All that a PDF holds: its bytes, its unpacked streams, its words, and what it says of itself."""
    found = PdfReader(BytesIO(pdf))
    whole = pdf.decode("latin-1") + repr(found.metadata) + str(found.trailer)
    for page in found.pages:
        whole += page.extract_text() + "".join(image.data.decode("latin-1") for image in page.images)
    for stream in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.S):
        with suppress(zlib.error):
            whole += zlib.decompress(stream).decode("latin-1")
    return whole


def forms(shown):
    """Every form of an account as text, with all that its embedded pictures hold."""
    html, pdf = shown.html(), shown.pdf()
    pictures = [base64.b64decode(each) for each in re.findall(r"base64,([A-Za-z0-9+/=]+)", html)]
    return {
        "json": told(shown.answer, as_json=True), "terminal": told(shown.answer, as_json=False), "html": html,
        "page": shown.body(), "pdf": pdf_words(pdf),
        **{f"picture {n}": each.decode("latin-1") for n, each in enumerate(pictures)},
    }, pictures  # fmt: skip


def paper_words(monkeypatch, shown):
    """The words that reach the typesetter: nothing else can stand on paper."""
    from pinfold.reports import account_paper

    seen = []
    whole = account_paper.compiler_of
    monkeypatch.setattr(
        account_paper, "compiler_of", lambda file, content: seen.append(content) or whole(file, content)
    )
    shown.pdf()
    return json.dumps(seen, ensure_ascii=False)


SECRET = (*SECRETS.values(), *DIGITS)


def leaks(text, words=SECRET):
    return [word for word in words if word in text]


def test_nothing_that_tells_where_or_who_is_in_any_form_unless_it_was_chosen(site, monkeypatch):
    shown = shared.share_site(site, shared.wish_of(None, "", (), ()))
    for form, text in {**forms(shown)[0], "paper": paper_words(monkeypatch, shown)}.items():
        assert leaks(text) == [], form
    assert "latitude" not in shown.html()


def test_a_chosen_photo_brings_nothing_but_its_points(site, numbers, monkeypatch):
    shown = shared.share_site(site, shared.wish_of(None, "", (numbers[0],), ()))
    told_in, pictures = forms(shown)
    assert len(pictures) == 1
    image = Image.open(BytesIO(pictures[0]))
    assert max(image.size) <= shared.LONGEST
    assert not image.getexif()
    assert set(image.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    for marker in (b"Exif", b"http://ns.adobe.com", b"\xff\xfe", b"ICC_PROFILE"):
        assert marker not in pictures[0][:2000]
    for form, text in {**told_in, "paper": paper_words(monkeypatch, shown)}.items():
        assert leaks(text) == [], form
    assert b"Exif" not in shown.pdf()


def test_the_file_stands_alone_and_says_neither_who_made_it_nor_when(site, numbers):
    shown = shared.share_site(site, shared.wish_of(None, "", (numbers[0],), ()))
    html, pdf = shown.html(), shown.pdf()
    assert not re.search(r"https?:|//[a-z]|<script|<link|url\(|@import|\bon\w+=", html)
    assert set(re.findall(r'(?:src|href)="([^"]{5})', html)) == {"data:"}
    assert not re.search(rb"/(Author|CreationDate|ModDate|Keywords|Subject)\b", pdf)
    assert b"CreateDate" not in pdf
    assert b"/home" not in pdf
    assert shown.pdf() == pdf


@pytest.mark.parametrize(
    ("parts", "when", "words"),
    [
        (["name"], "", ["Zanzabelle"]), (["place"], "", ["Quorndale"]), (["coordinates"], "", ["37.61234", "-7.98765"]),
        (["people"], "", ["Wilhelmine"]), (["money"], "", ["EUR"]), ([], "months", ["April 2026"]),
        ([], "days", ["2026-04-06"]),
    ],
)  # fmt: skip
def test_what_was_chosen_is_in_it_and_nothing_else_that_was_not(site, parts, when, words):
    shown = shared.share_site(site, shared.wish_of(parts, when, (), ()))
    text = shown.html()
    assert all(word in text for word in words)
    others = [word for word in (*SECRETS.values(), *DIGITS) if not any(word in own or own in word for own in words)]
    allowed = {"2026", "April", "37.61", "-7.98", "7.98765"} if words[0][0] in "A237" else set()
    assert set(leaks(text, others)) <= allowed
    assert "Hours by task" not in text
    assert "h of work" not in text


def test_words_of_the_log_go_out_only_where_they_were_chosen(site, numbers):
    shown = shared.share_site(site, shared.wish_of([], "", (numbers[0],), numbers))
    text = shown.html()
    assert SECRETS["note"] in text
    assert SECRETS["caption"] in text
    assert leaks(text) == [SECRETS["note"], SECRETS["caption"]]
    assert SECRETS["note"] in pdf_words(shown.pdf())
    assert SECRETS["caption"] in pdf_words(shown.pdf())


def test_with_money_left_out_the_shares_still_show(site):
    record = json.loads(told(shared.share_site(site, shared.wish_of(["hours"], "", (), ())).answer, as_json=True))
    assert sum(each["share"] for each in record["costs"]) == pytest.approx(1.0)
    assert {each["coins"] for each in record["costs"]} == {None}
    assert record["cost_of_length"]["planned"] is None
    assert record["cost_of_length"]["foreseen"]["low"] < record["cost_of_length"]["foreseen"]["high"]
    assert record["currency"] == ""
    assert sum(each["took_s"] for each in record["works"]) == pytest.approx(record["took_s"])


def test_half_a_wall_says_so_with_what_is_to_come(site):
    shown = shared.share_site(site, shared.wish_of(None, "", (), ()))
    assert "Under way, 49\u00a0% of the work done" in shown.html()
    assert "What is still to come" in shown.html()
    assert shown.account.ahead.days.low <= shown.account.ahead.days.likely <= shown.account.ahead.days.high


def test_with_money_the_layers_add_up_to_what_was_spent_even_where_one_gave_more_back(tmp_path):
    folder = tmp_path / "new"
    starting.from_sample(folder, "quinta")
    take_entries(folder, [
        said(1, "purchase", item="portland-cement", packs="10", cost="90.00", layer="footing"),
        said(2, "leftover", item="portland-cement", packs="1", worth="9.00", layer="coat"),
    ])  # fmt: skip
    open_, closed = (
        shared.share_site(folder, shared.wish_of(parts, "", (), ())).account for parts in (["money"], None)
    )

    assert sum(each.coins for each in open_.costs) == 8100
    assert [(each.layer, each.coins) for each in open_.costs] == [("footing", 9000), ("coat", -900)]
    assert [each.layer for each in closed.costs] == ["footing"]


def test_without_log_photos_and_prices_it_says_what_is_missing(tmp_path):
    starting.from_sample(tmp_path / "new", "quinta")
    (tmp_path / "new" / "prices.toml").write_text('format = 1\ncurrency = "EUR"\n')
    shown = shared.share_site(tmp_path / "new", shared.wish_of(None, "", (), ()))
    text = shown.html()
    assert "Planned and not begun" in text
    for words in ("The log has no hours", "The log has nothing bought", "no price", "No photo was chosen",
                  "No crack was measured"):  # fmt: skip
        assert words in text
    assert "costs are planned ones" not in text, "there are none"
    assert shown.pdf().startswith(b"%PDF")


def test_a_log_that_cannot_be_read_is_named_without_its_words(tmp_path):
    starting.from_sample(tmp_path / "new", "quinta")
    (tmp_path / "new" / "log.sqlite").write_bytes(b"Brombeerweg" * 400)
    shown = shared.share_site(tmp_path / "new", shared.wish_of(None, "", (), ()))
    assert "The log cannot be read" in shown.html()
    assert leaks(told(shown.answer, as_json=True)) == []


def test_all_that_cannot_be_chosen_is_told_at_once(site):
    with pytest.raises(InvalidPlan) as told_of:
        shared.wish_of(["hours", "shoes"], "noon", ("x",), ("-1",))
    assert [problem.place for problem in told_of.value.problems] == ["share", "when", "photo", "note"]
    with pytest.raises(InvalidPlan) as told_of:
        shared.share_site(site, shared.wish_of(None, "", ("1", "999999"), ("3",)))
    assert len(told_of.value.problems) == 3


def test_on_the_command_line_it_writes_both_files_and_tells_what_is_shared(site, tmp_path, capsys):
    html, pdf = tmp_path / "a.html", tmp_path / "a.pdf"
    assert main(["reckon", "account", "--site", str(site), "--json", "--html", str(html), "--pdf", str(pdf)]) == 0
    out = capsys.readouterr()
    assert leaks(out.out) == []
    assert json.loads(out.out)["people"] == []
    assert html.read_text().startswith("<!doctype html>")
    assert pdf.read_bytes().startswith(b"%PDF")
    assert main(["reckon", "account", "--site", str(site), "--share", "shoes"]) == 2
    assert "one of hours, cracks" in " ".join(capsys.readouterr().err.split())


def test_what_was_learned_is_told_in_words_and_not_in_the_keys_of_tables():
    def lesson(topic, subject, first=1.0):
        prior = SimpleNamespace(first=SimpleNamespace(value=first))
        return SimpleNamespace(topic=topic, subject=subject, prior=prior, value=1.2, count=9)

    lessons = SimpleNamespace(lessons=(
        lesson(Topic.COVERAGE, "lime-first, thickness"), lesson(Topic.COVERAGE, "lime-first, mix used"),
        lesson(Topic.YIELD, "mortar-O"), lesson(Topic.BUCKET_WEIGHT, "sand, loose"),
        lesson(Topic.MOISTURE, "sand, swollen by"), lesson(Topic.PRICE, "hydrated-lime"),
        lesson(Topic.YIELD, "my own mud"),
    ))  # fmt: skip
    parts = {Part.LESSONS, Part.MONEY}
    said = [learned_told(each) for each in learned_of(lessons, SimpleNamespace(works=()), parts)]

    assert said[0] == "First coat of lime plaster, how thick it is put on: 20\u00a0% more than thought, by 9 entries."
    assert [text.partition(":")[0].partition(", ")[2] for text in said] == [
        "how thick it is put on", "mix it takes", "what a batch gives", "weight of a bucket", "swollen by", "price"
    ]  # fmt: skip
    assert not any("lime-first" in text or "hydrated-lime" in text or "mortar-O" in text for text in said)


def test_of_a_crack_it_is_told_what_is_not_shown():
    cracks = tuple(SharedCrack(verdict.value, (SharedWidth(0.0, 4e-4, 1e-5),)) for verdict in CrackVerdict)
    texts = cracks_told(SimpleNamespace(cracks=cracks)).texts

    assert [text.partition(";")[0] for text in texts] == [
        "Crack 1: still moving", "Crack 2: not moving any more", "Crack 3: whether it still moves is not shown yet"
    ]  # fmt: skip
