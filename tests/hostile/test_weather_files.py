"""Hostile and broken files sent to the page of the weather: each is told or read, none breaks anything or lands outside."""

from __future__ import annotations

import json
import random
import re

import pytest

import weathers
from asking import scope_of
from hostile.test_requests import Plot, harmless

EDGE = b"----edge"
DEEP = b'{"hourly":' + b"[" * 3000 + b"]" * 3000 + b"}"
HEAD = b"LOCATION,Made up,,,,0,39.7,-104.7,-7,1700\n" + b"X\n" * 7
ROW = b"2001,1,1,1,0,?,5,1,60,83000" + b",0" * 25 + b"\n"


def csv(*rows, head="time,air temperature (C)"):
    return "\n".join([head, *rows]).encode()


FILES = {
    "nothing": b"",
    "blanks": b" \n\t\n" * 50,
    "noughts": b"\0" * 5000,
    "random": random.Random(6).randbytes(20_000),
    "a picture": b"\x89PNG\r\n\x1a\n" + b"\0\x01" * 400,
    "half a character": "2026-05-03 41 78 °F".encode()[:-2],
    "utf-16 cut": "date,low (C),high (C)\n2026-05-03,4,17\n".encode("utf-16")[:-1],
    "one long line": b"a," * 400_000,
    "many heads": (",".join(f"c{number}" for number in range(20_000)) + "\n1\n").encode(),
    "deep json": DEEP,
    "a list of lists": b"[[[[]]]]",
    "a number alone": b"7",
    "no hours": b'{"hourly": {"time": []}, "utc_offset_seconds": 0}',
    "odd hours": b'{"hourly": {"time": {"a": 1}, "temperature_2m": 3}, "utc_offset_seconds": 0}',
    "endless offset": weathers.columns(utc_offset_seconds=10**18),
    "beyond any number": weathers.columns().replace(b"2.5", b"1e999"),
    "not a number": weathers.columns().replace(b"2.5", b"NaN"),
    "a million digits": weathers.columns().replace(b"2.5", b"9" * 1_000_000, 1),
    "the poles": weathers.columns(latitude=90.0, longitude=180.0),
    "off the earth": weathers.columns(latitude=1e300, longitude=-1e300, elevation=1e300),
    "texts for numbers": weathers.columns(temperature_2m=["<b>warm</b>"] * 48),
    "booleans": weathers.columns(temperature_2m=[True] * 48),
    "cut forecast": weathers.columns()[:700],
    "cut periods": weathers.periods()[:900],
    "words for wind": weathers.periods(windSpeed="9" * 400 + " mph"),
    "no time in it": weathers.periods(startTime=None),
    "a year of one": HEAD + ROW,
    "a year cut": HEAD + ROW * 3 + ROW[:20],
    "a thirteenth month": HEAD + ROW.replace(b"2001,1,1,1", b"2001,13,45,99"),
    "the year nought": HEAD + ROW.replace(b"2001", b"0"),
    "far apart": csv("1901-01-01T00:00,5", "2199-12-31T23:00,5"),
    "the last year": csv("9999-12-31T23:00,5", "9999-12-31T24:00,5"),
    "the same hour": csv(*["2026-05-03T10:00,5"] * 5000),
    "backwards": csv(*[f"2026-05-{day:02}T10:00,5" for day in range(28, 0, -1)]),
    "infinite": csv("2026-05-03T10:00,inf", "2026-05-03T11:00,-1e308"),
    "a sheet's formula": csv("2026-05-03T10:00,=HYPERLINK(A1)"),
    "markup": csv("<script>alert(1)</script>,<img src=x>", head="time,air temperature (C),<script>x()</script>"),
    "twice a head": csv("1,2", head="time,time"),
    "open quotes": b'time,air temperature (C)\n"2026-05-03T10:00,5\n' + b'"' * 999,
    "days that are none": b"2026-02-31 41 78 F\n0000-00-00 1 2 F\n",
    "endless days": b"2026-05-03 41 78 F\n" + b"2026-05-04 " + b"9" * 4000 + b" 78 F\n",
    "bad toml": b"[normals]\nhigh = [1, 2\n",
    "normals of nothing": b"[normals]\n",
    "normals beyond": b'[normals]\n"high (C)" = [' + b"1e308, " * 12 + b']\n"low (C)" = [' + b"-1e308, " * 12 + b"]\n",
    "normals upside down": b'[normals]\n"high (C)" = [' + b"1, " * 12 + b']\n"low (C)" = [' + b"30, " * 12 + b"]\n",
    "more rain than days": b'[normals]\n"high (C)" = [' + b"20, " * 12 + b']\n"low (C)" = [' + b"9, " * 12
    + b']\n"rain (mm)" = [' + b"9e9, " * 12 + b']\n"wet days" = [' + b"400, " * 12 + b"]\n",
}  # fmt: skip
NAMES = (
    "../../plan.toml", "..\\..\\plan.toml", "/etc/passwd", ".hidden", "plan.toml", "con", "a" * 400 + ".csv", "", "..", ".",
    "<script>alert(1)</script>.csv", 'x" onmouseover="alert(1)', "white\u202etxt.exe", "log.sqlite", "two\nlines.csv",
)  # fmt: skip


@pytest.fixture
def plot(tmp_path_factory, monkeypatch):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path_factory.mktemp("settings")))
    made = Plot(tmp_path_factory.mktemp("weather") / "plot")
    yield made
    made.loop.close()


def sent(plot, content, name="made.csv"):
    """The answer to a file."""
    told = name.replace("\\", "\\\\").replace('"', "%22").replace("\n", "%0A")
    part = b'Content-Disposition: form-data; name="file"; filename="' + told.encode() + b'"\r\n\r\n'
    body = b"--" + EDGE + b"\r\n" + part + content + b"\r\n--" + EDGE + b"--\r\n"
    return plot.change("/days/weather", b"multipart/form-data; boundary=" + EDGE, body)


def taken(plot, answer):
    """The answer to taking what was looked at; None where it cannot be taken."""
    key = re.search(rb'name="waiting" value="([^"]+)"', answer.body)
    if key is None:
        return None
    return plot.change("/days/weather", b"application/x-www-form-urlencoded", b"waiting=" + key[1])


def test_no_file_breaks_the_page_and_none_is_kept_unasked(plot):
    before = plot.files()
    for about, content in FILES.items():
        answer = sent(plot, content)
        harmless(answer, about)
        assert answer.status in (200, 400, 413, 422), about
        assert b"<script>alert" not in answer.body, about
        assert plot.files() == before, about


def test_whatever_can_be_taken_leaves_every_page_of_the_days_standing(plot):
    before = plot.files()
    for about, content in FILES.items():
        answer = taken(plot, sent(plot, content))
        if answer is None:
            continue
        harmless(answer, about)
        for path in ("/days/weather", "/api/phone"):
            shown = plot.ask(scope_of("GET", path))
            harmless(shown, (about, path))
            assert shown.status == 200, (about, path)
        plot.put_back(before)


def test_no_name_leads_out_of_the_folder(plot):
    before = plot.files()
    for name in NAMES:
        answer = taken(plot, sent(plot, weathers.columns(), name))
        if answer is not None:
            harmless(answer, name)
        changed = {path for path, content in plot.files().items() if before.get(path) != content}
        assert all(path.startswith("weather/") and path.count("/") == 1 for path in changed), name
        assert not any("/." in path or "<" in path or '"' in path for path in changed), name
        plot.put_back(before)


def test_a_file_past_the_limit_is_told_so(plot):
    answer = sent(plot, b"time,air temperature (C)\n" + b"2026-05-03T10:00,5\n" * 700_000)
    assert answer.status in (400, 413)
    assert b"12 MB" in answer.body


@pytest.mark.parametrize("waiting", [b"", b"nothing", b"../../plan.toml", b"%00", b"a" * 5000])
def test_what_was_never_looked_at_cannot_be_taken(plot, waiting):
    before = plot.files()
    answer = plot.change("/days/weather", b"application/x-www-form-urlencoded", b"waiting=" + waiting)
    harmless(answer, waiting)
    assert answer.status >= 400
    assert plot.files() == before


def test_what_was_taken_cannot_be_taken_again(plot):
    looked = sent(plot, weathers.columns(), "mine.json")
    assert taken(plot, looked).status == 200
    again = taken(plot, looked)
    harmless(again, "again")
    assert again.status == 404
    assert json.loads((plot.folder / "weather" / "mine.json").read_bytes()) == json.loads(weathers.columns())
