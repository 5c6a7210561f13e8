"""The weather through its doors: the command line, JSON, taking a file, a page that is sent files good and hostile."""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime

import pytest
from starlette.testclient import TestClient

from pinfold.actions.answers import told
from pinfold.actions.days_weather import days_weather, look_at, take_in, take_weather, weather_in
from pinfold.cli import main
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.store.starting import from_sample
from pinfold.web.app import make_app
from pinfold.web.desk import Desk
from weathers import GREENSBORO, columns, periods

HOST = "127.0.0.1:8765"
NOW = datetime(2026, 5, 3, 12, tzinfo=UTC)
EVERY_FORM = {
    "typical.csv": GREENSBORO.read_bytes(),
    "saved": periods(),
    "other": columns(),
    "hours.txt": b"time,air temperature (F),humidity (%)\n2026-05-03 14:00,70,35\n2026-05-03 15:00,72,33\n",
    "days": b"2026-05-03 41 78 F\n2026-05-04 45 80 F rain\n",
    "days.csv": b"date,low (C),high (C)\n2026-05-03,5,21\n",
    "normals.toml": f'[normals]\n"high (C)" = {list(range(10, 22))}\n"low (C)" = {list(range(12))}\n'.encode(),
}


@pytest.fixture
def garden(tmp_path):
    folder = tmp_path / "garden"
    from_sample(folder, "seed-garden")
    for path in (folder / "weather").glob("*"):
        path.unlink()
    return folder


@pytest.fixture
def client(garden):
    desk = Desk(folder=garden, hosts=frozenset({HOST}), home=frozenset({HOST}), secret=b"a secret")
    return TestClient(make_app(desk), base_url=f"http://{HOST}", client=("127.0.0.1", 1))


def token_on(text):
    return re.search(r'name="token" value="([^"]+)"', text)[1]


def sent(client, content=b"", *, name="file.json", **fields):
    fields["token"] = token_on(client.get("/days/weather").text)
    return client.post(
        "/days/weather", data=fields, files={"file": (name, content)}, headers={"Origin": f"http://{HOST}"}
    )


@pytest.mark.parametrize("name", EVERY_FORM)
def test_every_form_is_looked_at_taken_and_used(garden, tmp_path, name):
    path = tmp_path / name
    path.write_bytes(EVERY_FORM[name])
    answer = weather_in(garden, path, now=NOW)
    text = told(answer, as_json=False)

    assert max(map(len, text.splitlines())) <= 80
    assert "NOT SHOWN" in text
    json.loads(told(answer, as_json=True))
    take_weather(garden, path)
    known = days_weather(garden, now=NOW)
    assert known.record.sources[0].says.startswith(name)
    assert any(name in note for note in known.record.used)


def test_nothing_known_is_told_with_how_to_mend_it(garden):
    assert "No weather is known" in told(days_weather(garden, now=NOW), as_json=False)


def test_json_is_in_si_and_what_is_not_known_is_null(garden, tmp_path):
    path = tmp_path / "f"
    path.write_bytes(periods(start=datetime(2026, 5, 3, 6, tzinfo=UTC)))
    record = json.loads(told(weather_in(garden, path, now=NOW), as_json=True))
    day = record["spells"][0]

    assert day["rain_m"] is None
    assert day["highest_c"] == pytest.approx((75 - 32) / 1.8)
    assert "sun" in day["estimated"]
    assert "sun and sky on the level" in record["estimated"]


def test_the_command_line_looks_takes_and_refuses(garden, tmp_path, capsys):
    good, bad = tmp_path / "good.txt", tmp_path / "bad.txt"
    good.write_text("2026-05-03 41 78 F\n")
    bad.write_text("2026-05-03 41 78\n")

    assert main(["days", "weather", str(good), "--site", str(garden), "--take"]) == 0
    assert "~41" in capsys.readouterr().out.replace("~42", "~41")
    assert (garden / "weather" / "good.txt").read_text() == "2026-05-03 41 78 F\n"
    assert main(["days", "weather", str(bad), "--site", str(garden), "--take"]) == 2
    assert "line 1: '2026-05-03 41 78' found" in capsys.readouterr().err
    assert not (garden / "weather" / "bad.txt").exists()
    assert main(["days", "weather", "--site", str(garden), "--take"]) == 2
    assert main(["days", "weather", str(tmp_path / "none"), "--site", str(garden)]) == 2
    assert main(["days", "weather", "--site", str(garden), "--json"]) == 0


def test_another_file_of_the_same_name_is_never_written_over(garden, tmp_path):
    path = tmp_path / "f.txt"
    path.write_text("2026-05-03 41 78 F\n")
    take_weather(garden, path)
    take_weather(garden, path)
    path.write_text("2026-05-03 42 79 F\n")

    with pytest.raises(InputError, match="another file of that name"):
        take_weather(garden, path)
    assert "41" in (garden / "weather" / "f.txt").read_text()


def test_a_bad_file_in_the_folder_stops_no_other(garden):
    (garden / "weather").mkdir(exist_ok=True)
    (garden / "weather" / "bad.json").write_text("{")
    (garden / "weather" / "days.txt").write_text("2026-05-03 41 78 F\n")
    record = days_weather(garden, now=NOW).record

    assert len(record.sources) == 1
    assert "ends in the middle" in record.wrong[0]


def test_a_page_looks_at_a_file_and_takes_it(client, garden):
    looked = sent(client, periods(), name="..\\..\\evil\\.saved.json")
    waiting = re.search(r'name="waiting" value="([^"]+)"', looked.text)[1]

    assert looked.status_code == 200
    assert "saved.json" in looked.text
    taken = sent(client, waiting=waiting)
    assert "Taken into the folder" in taken.text
    assert [path.name for path in (garden / "weather").iterdir()] == ["saved.json"]
    assert sent(client, waiting=waiting).status_code == 404


def test_days_are_typed_on_the_page(client):
    looked = sent(client, typed="2026-05-03 41 78 F\r\n2026-05-04 45 80 F rain\r\n")

    assert looked.status_code == 200
    assert "typed-" in looked.text
    assert sent(client, typed="2026-05-03 78 41 F").status_code == 400
    assert sent(client).status_code == 400


@pytest.mark.parametrize(("content", "status"), [
    (b"[" * 100_000, 400), (b'{"a":' * 2000, 400), (b"\x00" * 1000, 400), (b"PK\x03\x04" + b"\x00" * 500, 400), (b"x" * 13_000_000, 400),
    (b"x" * 26_000_000, 413), (b"<script>alert(1)</script>", 400), (b"LOCATION,<script>alert(1)</script>,,,,,1,1,1,1", 400),
], ids=["brackets", "depth", "zeros", "archive", "13 MB", "26 MB", "script", "script in a head"])  # fmt: skip
def test_hostile_files_are_refused_in_words_and_leave_nothing(client, garden, content, status):
    refused = sent(client, content)

    assert refused.status_code == status
    assert "<script>alert" not in refused.text
    assert not list((garden / "weather").glob("*"))


def test_words_out_of_a_file_do_not_run_on_the_page(client):
    made = columns().replace(b'"timezone_abbreviation"', b'"x"')
    forecast = periods(shortForecast="<script>alert(1)</script>").replace(
        b"HourlyForecastGenerator", b"<img src=x onerror=a>"
    )

    for content in (made, forecast):
        looked = sent(client, content)
        assert looked.status_code == 200
        assert "<script>alert" not in looked.text
        assert "<img src=x" not in looked.text


def test_a_file_that_was_looked_at_is_for_that_site_alone(garden, tmp_path):
    other = tmp_path / "other"
    from_sample(other, "quinta")
    waiting = look_at(garden, "f.txt", b"2026-05-03 41 78 F", now=NOW).waiting

    with pytest.raises(NotFoundError, match="choose it again"):
        take_in(other, waiting)


def test_a_plan_without_a_time_zone_is_told_what_to_add(garden, tmp_path):
    plan = garden / "plan.toml"
    plan.write_text("\n".join(line for line in plan.read_text().splitlines() if not line.startswith("time_zone")))
    path = tmp_path / "days.txt"
    path.write_text("2026-05-03 41 78 F\n")

    with pytest.raises(InvalidPlan, match="add time_zone"):
        weather_in(garden, path, now=NOW)
