"""The page on which a build-up is chosen, without a browser: a plan that changed meanwhile is shown again, not written over."""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from pinfold.store.starting import from_sample
from pinfold.web.app import make_app
from pinfold.web.desk import Desk

HOST = "127.0.0.1:8765"


@pytest.fixture
def folder(tmp_path):
    from_sample(tmp_path / "quinta", "quinta")
    return tmp_path / "quinta"


@pytest.fixture
def client(folder):
    desk = Desk(folder=folder, hosts=frozenset({HOST}), home=frozenset({HOST}), secret=b"a secret")
    return TestClient(make_app(desk), base_url=f"http://{HOST}", client=("127.0.0.1", 1))


def written(client, page):
    """The answer to the form of a page that offers a choice."""
    asked = {key: re.search(rf'name="{key}" value="([^"]+)"', page)[1] for key in ("token", "revision", "name")}
    return client.post("/weigh/choose", data=asked, headers={"Origin": f"http://{HOST}"})


def test_a_plan_that_changed_meanwhile_is_told_and_what_is_shown_then_can_be_written(client, folder):
    page = client.get("/weigh/choose?name=dry-stone").text
    plan = folder / "plan.toml"
    plan.write_text(f"{plan.read_text(encoding='utf-8')}\n# meanwhile\n", encoding="utf-8")

    refused = written(client, page)
    assert refused.status_code == 409
    assert "the plan has changed since" in refused.text
    assert "# before:" not in plan.read_text(encoding="utf-8")

    assert written(client, refused.text).status_code == 200
    text = plan.read_text(encoding="utf-8")
    assert '"dry-stone" # before: earth block' in text
    assert "# meanwhile" in text


def test_what_was_chosen_names_buttons_that_stand_there_and_no_command(client, folder):
    before = (folder / "plan.toml").read_text(encoding="utf-8")
    page = written(client, client.get("/weigh/choose?name=dry-stone").text).text
    main = page[page.index("<main") : page.index("</main>")]

    assert "pinfold" not in main
    for button in re.findall("&#39;([^&]+)&#39;", main):
        assert f">{button}</" in main, button

    token = re.search(r'name="token" value="([^"]+)"', page)[1]
    client.post("/weigh/choose", data={"token": token, "undo": "yes"}, headers={"Origin": f"http://{HOST}"})
    assert (folder / "plan.toml").read_text(encoding="utf-8") == before
