"""The pages of the verbs without a browser: what they answer, what they hold, that no text of a plan becomes markup."""

from __future__ import annotations

import html.parser
import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.request

import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.testclient import TestClient

from pinfold.actions.drawing import FACES, screen_style
from pinfold.cli import main
from pinfold.figures import Figure
from pinfold.findings import Finding, Verdict
from pinfold.reports.html import cards_html, html_of
from pinfold.reports.html_findings import names_of
from pinfold.reports.html_text import named
from pinfold.reports.pages import Caution, Findings, Heading, Page, Paragraph, table
from pinfold.sources import Standing
from pinfold.store import starting
from pinfold.units import METER, System
from pinfold.web.app import make_app
from pinfold.web.desk import Desk

HOST = "127.0.0.1:8017"
PAGES = (
    "/",
    "/plan",
    "/plan/file",
    "/stand",
    "/stand/working",
    "/stand/storms",
    "/stand/mends",
    "/stand/mends?now=yes",
    "/mix",
    "/mix/strength",
    "/mix/strength?mix=mortar-S&at=7 d",
    "/gather",
    "/cut",
    "/reckon",
    "/weigh",
    "/weigh/option?name=adobe",
    "/weigh/search",
    "/binder",
    "/exports",
)


def client_of(folder):
    desk = Desk(folder=folder, hosts=frozenset({HOST}), home=frozenset({HOST}), secret=b"a secret")
    return TestClient(make_app(desk), base_url=f"http://{HOST}", client=("127.0.0.1", 1))


@pytest.fixture(scope="module", params=starting.SAMPLES)
def client(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp(request.param) / "site"
    starting.from_sample(folder, request.param)
    return client_of(folder)


@pytest.mark.parametrize("path", PAGES)
def test_every_page_answers_with_one_title_and_well_nested_html(client, path):
    answer = client.get(path)

    assert answer.status_code == 200
    assert answer.text.count("<h1") == 1
    assert _Nesting.faults(answer.text) == []


def test_the_stand_page_leaves_the_working_for_later(client):
    page = client.get("/stand").text
    link = re.search(r'href="(/stand/working/[^"]+)"', page)[1]

    assert len(page) < 250_000
    assert 'class="working"' not in page
    assert 'class="working"' in client.get("/stand/working").text
    part = client.get(f"{link}?part").text
    assert "<html" not in part
    assert 'class="gives"' in part or "<li>" in part


def test_anchors_on_a_page_are_unique(client):
    for path in PAGES:
        ids = re.findall(r'\sid="([^"]+)"', client.get(path).text)
        assert len(ids) == len(set(ids)), path


def test_every_address_on_a_page_answers(client):
    seen, faults = set(), []
    for path in PAGES:
        for link in re.findall(r'(?:href|src)="(/[^"#]*)"', client.get(path).text):
            known = link.partition("?")[0]
            if known in seen or (known.startswith(("/stand/working/", "/formula/")) and len(seen) > 30):
                continue
            seen.add(known)
            if known.endswith((".pdf", ".zip")):
                continue
            if client.get(html.unescape(link), follow_redirects=True).status_code != 200:
                faults.append(f"{path} leads to {link}")
    assert faults == []


def test_pages_ask_nothing_of_another_address(client):
    for path in (*PAGES, "/formula", "/formula/wind.velocity_pressure"):
        assert re.findall(r'(?:href|src|action)="(?:https?:)?//', client.get(path).text) == []
    assert "http" not in screen_style()


def test_drawings_are_handed_out_by_name_and_never_by_path(client):
    assert client.get("/drawings/plan.svg").text.startswith("<svg")
    assert client.get("/drawings/plan.dxf").headers["content-disposition"] == 'attachment; filename="plan.dxf"'
    for name in FACES:
        assert client.get(f"/drawings/{name}").headers["content-type"] == "font/ttf"
    for wrong in ("/drawings/nothing.svg", "/drawings/..%2Fplan.svg", "/drawings/binder.ttf", "/plan/drawing/none"):
        assert client.get(wrong).status_code in {400, 404}, wrong


def test_files_of_the_folder_are_handed_out_from_a_list_only(client):
    assert client.get("/exports/plan.toml").text.strip().startswith(("#", "format"))
    for wrong in ("/exports/secret.txt", "/exports/..%2Fplan.toml", "/exports/drawings"):
        assert client.get(wrong).status_code in {400, 404}, wrong


def test_a_card_that_is_not_there_is_told(client):
    answer = client.get("/mix/card/no-such-card")

    assert answer.status_code == 404
    assert "names no place, layer or mix" in answer.text


def test_a_folder_without_a_plan_is_told_on_every_page(tmp_path):
    client = client_of(tmp_path)

    for path in PAGES:
        assert client.get(path).status_code in ({200} if path == "/exports" else {404}), path


def test_a_changed_plan_shows_at_once(tmp_path):
    starting.from_sample(tmp_path / "site", "seed-garden")
    client, plan = client_of(tmp_path / "site"), tmp_path / "site" / "plan.toml"
    assert "Seed garden" in client.get("/").text

    plan.write_text(plan.read_text().replace("Seed garden", "Bean garden"))

    assert "Bean garden" in client.get("/").text


def test_hostile_names_in_a_plan_stay_text(tmp_path):
    starting.from_sample(tmp_path / "site", "seed-garden")
    client, plan = client_of(tmp_path / "site"), tmp_path / "site" / "plan.toml"
    plan.write_text(plan.read_text().replace("Seed garden", "<img src=x onerror=alert(1)> & {{ 7 * 7 }}"))

    for path in PAGES:
        page = client.get(path).text
        assert "<img" not in page, path
        assert "49" not in re.findall(r"<title>(.*?)</title>", page)[0]
    assert "&lt;img" in client.get("/").text


def test_a_formula_keeps_what_was_typed_and_escapes_it(client):
    answer = client.get("/formula/wind.velocity_pressure", params={"speed": '"><script>1</script>', "air_density": "1"})

    assert answer.status_code == 400
    assert "<script>1" not in answer.text
    assert "is missing" in answer.text
    assert client.get("/formula", params={"word": "zzz"}).text.count("No formula holds") == 1


def test_a_formula_out_of_its_range_says_so_and_keeps_the_form(client):
    figures = {"speed": "-5 m/s", "air_density": "1.2 kg/m3", "exposure_coefficient": "1", "topographic_factor": "1",
               "elevation_factor": "1"}  # fmt: skip
    answer = client.get("/formula/wind.velocity_pressure", params=figures)

    assert answer.status_code == 400
    assert 'value="-5 m/s"' in answer.text
    assert 'role="alert"' in answer.text


class _Nesting(html.parser.HTMLParser):
    """Finds tags that are closed in another order than they were opened."""

    VOID = frozenset({"meta", "link", "input", "br", "img", "hr"})

    @classmethod
    def faults(cls, text):
        parser = cls()
        parser.open, parser.found = [], []
        parser.feed(text)
        parser.close()
        return parser.found + parser.open

    def handle_starttag(self, tag, attrs):
        self.open += [] if tag in self.VOID else [tag]

    def handle_endtag(self, tag):
        if tag in {"p", "li", "option"} and self.open and self.open[-1] != tag:
            self.found.append(f"{tag} closed inside {self.open[-1]}")
        elif tag not in self.VOID and (not self.open or self.open.pop() != tag):
            self.found.append(tag)


def tags_of(text):
    """Every tag with its attributes' names: what text can change only by becoming markup."""
    found = []

    class Tags(html.parser.HTMLParser):
        def handle_starttag(self, tag, attrs):
            found.append((tag, tuple(name for name, _ in attrs)))

        def handle_comment(self, data):
            found.append(("comment", ()))

        def handle_decl(self, decl):
            found.append(("decl", ()))

    Tags().feed(text)
    return found


hostile = st.one_of(
    st.text(max_size=30),
    st.sampled_from(['"><script>', "<!--", "</table>", "' onload='x", "&lt;", "<b>", "]]>", "\u202eabc", "\x00", "javascript:"]),
).map(lambda text: text or "x")  # fmt: skip


def page_of(text, other):
    finding = Finding(
        check=text, subject=other, demand=1.0, capacity=2.0, unit=METER, because=text, mend=other, left_out=text,
        caution=other, figures=((text, Figure(value=1.0, unit=METER, source="PRACTICE", standing=Standing.PRACTICE)),),
    )  # fmt: skip
    return Page(
        title=text,
        blocks=(
            Heading(text=other), Paragraph(text=f"a {text}"), Caution(text=other),
            table((text, other, "c", "d"), [(other, text, "1", "2")], right=(3,), title=text, note=other, links=[f"/mix/card/{text}"]),
            Findings(findings=(finding,), working=True),
        ),
    )  # fmt: skip


@given(text=hostile, other=hostile)
def test_no_text_becomes_markup(text, other):
    plain = tags_of(html_of(page_of("text", "other"), System.METRIC, boxes=True))

    assert tags_of(html_of(page_of(text, other), System.METRIC, boxes=True)) == plain
    cards = tags_of(cards_html(page_of("text", "other"), System.US))
    assert tags_of(cards_html(page_of(text, other), System.US)) == cards


@given(texts=st.lists(st.text(max_size=80), max_size=30))
def test_names_are_unique_plain_and_the_same_each_time(texts):
    names = named(texts)

    assert len(set(names)) == len(names) == len(texts)
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name) for name in names)
    assert named(texts) == names


def test_a_verdict_is_told_by_its_word():
    findings = tuple(
        Finding(check="lean", subject=str(place), demand=demand, capacity=1.0, unit=METER)
        for place, demand in enumerate((0.5, 2.0, None))
    )
    page = html_of(Page(title="t", blocks=(Findings(findings=findings),)), System.METRIC)

    for verdict in Verdict:
        assert f">{verdict.value}</b>" in page
    assert names_of(findings) == ("lean-0", "lean-1", "lean-2")


def test_serve_says_where_it_is_and_ctrl_c_ends_it_in_order(tmp_path):
    starting.from_sample(tmp_path / "site", "quinta")
    command = [sys.executable, "-m", "pinfold", "serve", "--site", str(tmp_path / "site"), "--port", "0", "--no-open"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                          env=os.environ | {"PYTHONUNBUFFERED": "1"}) as served:  # fmt: skip
        line = served.stdout.readline()
        host, port = re.search(r"http://([\d.]+):(\d+)", line).groups()
        for _ in range(100):
            try:
                urllib.request.urlopen(f"http://{host}:{port}/exports", timeout=20).close()
                break
            except OSError:
                time.sleep(0.05)
        served.send_signal(signal.SIGINT)
        said, complained = served.communicate(timeout=20)
        assert (served.returncode, complained) == (0, "")
        assert said.rstrip().endswith("Stopped.")


def test_a_taken_port_is_one_clear_line(tmp_path, capsys):
    starting.from_sample(tmp_path / "site", "quinta")
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        assert main(["serve", "--site", str(tmp_path / "site"), "--port", str(port), "--no-open"]) == 3
    told = capsys.readouterr().err
    assert len(told.strip().splitlines()) == 1
    assert f"port {port}" in told
    assert "--port" in told


def test_serving_a_folder_without_a_plan_offers_what_to_do(tmp_path, capsys):
    assert main(["serve", "--site", str(tmp_path), "--no-open"]) == 2
    assert "pinfold new my-plot --sample seed-garden" in capsys.readouterr().err
