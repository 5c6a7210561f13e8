"""Pages that take seconds the first time tell that they are worked out, look again by themselves, and then show it."""

from __future__ import annotations

import time

import pytest
from starlette.testclient import TestClient

from pinfold.store.starting import from_sample
from pinfold.web import waiting
from pinfold.web.app import make_app
from pinfold.web.desk import Desk

HOST = "127.0.0.1:8765"


@pytest.fixture(scope="module")
def client(tmp_path_factory):
    folder = tmp_path_factory.mktemp("waited") / "quinta"
    from_sample(folder, "quinta")
    (folder / "plan-other.toml").write_text((folder / "plan.toml").read_text(encoding="utf-8"), encoding="utf-8")
    desk = Desk(folder=folder, hosts=frozenset({HOST}), home=frozenset({HOST}), secret=b"a secret")
    return TestClient(make_app(desk), base_url=f"http://{HOST}", client=("127.0.0.1", 1))


@pytest.mark.parametrize(
    ("path", "meanwhile", "then"),
    [
        ("/weigh?name=adobe", "laid out, checked, priced and timed", 'id="sorts"'),
        ("/weigh/option?name=adobe", "laid out, checked, priced and timed", "All checks together"),
        ("/weigh/plans?other=plan-other.toml", "are being weighed against each other", "<table"),
        ("/reckon/account", "is being put together", "Show it so"),
    ],
)
def test_a_page_that_is_not_there_yet_says_so_and_shows_itself_once_it_is(client, monkeypatch, path, meanwhile, then):
    monkeypatch.setattr(waiting, "PATIENCE_S", 0.0)
    first = client.get(path)
    assert meanwhile in first.text
    assert 'role="status"' in first.text
    assert first.headers["refresh"] == "2"

    found = first
    for _ in range(600):
        if "refresh" not in found.headers:
            break
        time.sleep(0.1)
        found = client.get(path)
    assert then in found.text
    assert meanwhile not in found.text


def test_what_cannot_be_asked_is_told_once_that_is_known(client):
    assert client.get("/weigh?years=soon&name=adobe").status_code == 400
    assert client.get("/weigh/option?name=nothing").status_code == 404


def test_another_plan_that_changed_is_weighed_anew(client, monkeypatch):
    path = "/weigh/plans?other=plan-other.toml"
    before = client.get(path)
    other = client.app.state.desk.folder / "plan-other.toml"
    other.write_text(other.read_text(encoding="utf-8") + "\n# changed\n", encoding="utf-8")
    monkeypatch.setattr(waiting, "PATIENCE_S", 0.0)

    assert "refresh" not in before.headers
    assert "refresh" in client.get(path).headers
