"""The plan editor in a browser: drawing, dragging, typing, keys, saving; what it does to findings and cost."""

from __future__ import annotations

import random
import statistics
import tomllib

import pytest

from banked_plots import BLOCKS, banked_text
from looks import enlarge, fits, kept_out
from pinfold.store import plan_edit
from pinfold.store.planfile import plan_of
from pinfold.units import METER, read

WIDE = {"width": 1280, "height": 900}


def plan_text(site):
    return (site / "plan.toml").read_text(encoding="utf-8")


def without_outline(site):
    """The site with its build-ups, but nothing drawn yet."""
    table = tomllib.loads(plan_text(site))
    wanted = {key: value for key, value in table.items() if key not in plan_edit.EDITED}
    (site / "plan.toml").write_text(plan_edit.edited(plan_text(site), wanted), encoding="utf-8")


class Editor:
    """The page as a hand and an eye have it; counts what the hand does."""

    def __init__(self, page):
        self.page, self.clicks, self.keys = page, 0, 0
        page.goto("/plan/edit")
        page.locator("#draft[data-ready=yes]").wait_for()

    def settled(self):
        """Nothing is asked or drawn any more."""
        self.page.evaluate("""async () => {
            const draft = document.getElementById("draft"), frame = () => new Promise((go) => requestAnimationFrame(go));
            for (let n = 0; n < 600; n += 1) {
                await frame();
                if (draft.dataset.asking === "yes") continue;
                await frame();
                await frame();
                if (draft.dataset.asking !== "yes") return;
            }
        }""")

    def handle(self, kind, name):
        return self.page.locator(f'.h-{kind}[aria-label^="{name}"]').first

    def middle(self, kind, name):
        box = self.handle(kind, name).locator(".mark").bounding_box()
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def text(self, place):
        return self.page.locator(place).text_content()

    def click(self, place):
        self.clicks += 1
        self.page.locator(place).first.click()

    def click_at(self, x, y):
        self.clicks += 1
        self.page.mouse.click(x, y)

    def press(self, *keys):
        for key in keys:
            self.keys += 1
            self.page.keyboard.press(key)

    def type(self, place, text):
        """Over what stands in a field, then Enter."""
        self.page.locator(place).fill(text)
        self.keys += len(text) + 1
        with self.page.expect_response(lambda answer: "/api/plan/" in answer.url):
            self.page.locator(place).press("Enter")
        self.settled()

    def choose(self, place, value):
        self.clicks += 2
        self.page.locator(place).select_option(value)
        self.settled()

    def drag(self, start, end, steps=8):
        mouse = self.page.mouse
        mouse.move(*start)
        mouse.down()
        mouse.move(*end, steps=steps)
        mouse.up()
        self.clicks += 1
        self.settled()


@pytest.fixture
def editor(new_tab):
    return Editor(new_tab(viewport=WIDE))


def saves(editor):
    with editor.page.expect_response(lambda answer: answer.url.endswith("/api/plan/save")) as found:
        editor.press("Control+s")
    editor.settled()
    return found.value


# --- journeys ----------------------------------------------------------------------------------------------------------


@pytest.mark.slow
def test_a_plot_is_drawn_from_nothing_to_a_saved_plan(site, new_tab):
    without_outline(site)
    editor = Editor(new_tab(viewport=WIDE))
    assert "at least two corners" in editor.text("#complaints")
    editor.click('[data-mode="plot"]')
    box = editor.page.locator("#paper").bounding_box()
    for across, up in ((0.2, 0.8), (0.75, 0.8), (0.75, 0.25), (0.2, 0.25), (0.2, 0.8)):
        editor.page.mouse.move(box["x"] + box["width"] * across - 3, box["y"] + box["height"] * up)
        editor.click_at(box["x"] + box["width"] * across, box["y"] + box["height"] * up)
    editor.settled()

    assert editor.page.locator("#complaints").is_hidden()
    assert editor.page.locator(".h-corner").count() == 4
    assert saves(editor).status == 200
    plan = plan_of(plan_text(site))
    assert plan.is_closed
    assert [corner.name for corner in plan.corners] == ["A", "B", "C", "D"]
    assert "bindweed by August" in plan_text(site)


def test_a_dragged_corner_changes_numbers_findings_and_cost_and_snaps_back_by_undo(editor):
    cost, length = editor.text("#total"), editor.handle("side", "side south").get_attribute("aria-label")
    editor.page.evaluate("performance.clearMeasures()")
    x, y = editor.middle("corner", "corner B")
    editor.drag((x, y), (x - 90, y - 4), steps=25)
    moved_cost, moved = editor.text("#total"), editor.handle("side", "side south").get_attribute("aria-label")
    spans, server = (
        editor.page.evaluate("(name) => performance.getEntriesByName(name).map((one) => one.duration)", name)
        for name in ("pinfold answered", "pinfold server")
    )

    assert moved_cost != cost
    assert moved != length
    assert "less than the file" in editor.text("#difference")
    assert editor.text("#unsaved") == "not saved"
    assert len(spans) >= 2
    assert statistics.median(spans) < 8 * statistics.median(server), (spans, server)
    editor.press("Control+z")
    editor.settled()
    assert editor.text("#total") == cost
    assert editor.handle("side", "side south").get_attribute("aria-label") == length
    editor.press("Control+Shift+z")
    editor.settled()
    assert editor.text("#total") == moved_cost
    editor.click("#undo")
    editor.press("Control+y")
    editor.settled()
    assert editor.text("#total") == moved_cost


def test_numbers_are_typed_as_the_plan_takes_them_and_told_beside_the_field_where_not(site, editor):
    editor.handle("corner", "corner B").focus()
    editor.type("#f-x", "60 ft 6-1/2 in")
    assert "60' 6 1/2\"" in editor.handle("corner", "corner B").get_attribute("aria-label")
    editor.type("#f-x", "1,5 m")
    assert "comma" in editor.text("#f-x-told")
    assert editor.page.locator("#f-x").get_attribute("aria-invalid") == "true"
    editor.type("#f-x", "5 lb")
    assert "length is wanted" in editor.text("#f-x-told")
    editor.type("#f-x", "20 m")
    assert editor.page.locator("#f-x-told").is_hidden()
    assert saves(editor).status == 200
    assert 'x = "20 m"' in plan_text(site)
    editor.handle("side", "side south").focus()
    editor.type("#f-length", "64 ft")
    editor.page.keyboard.press("Control+s")
    editor.settled()
    assert 'x = "64 ft"' in plan_text(site)


def test_a_gate_is_dragged_along_and_an_impossible_place_is_told_beside_it(editor):
    before = editor.handle("gate", "gate foot gate").get_attribute("aria-label")
    x, y = editor.middle("gate", "gate foot gate")
    editor.drag((x, y), (x + 70, y + 30))
    assert editor.handle("gate", "gate foot gate").get_attribute("aria-label") != before
    assert editor.page.locator("#complaints").is_hidden()
    editor.type("#f-at", "63 ft")
    assert "move or narrow" in editor.text("#f-at-told")
    assert "move or narrow" in editor.text("#complaints")
    editor.type("#f-at", "12 ft")
    assert editor.page.locator("#complaints").is_hidden()


def test_a_corner_snaps_square_and_on_whole_units_and_free_hand_does_not(editor):
    x, y = editor.middle("corner", "corner C")
    page = editor.page
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x - 3, y + 25, steps=6)
    editor.settled()
    hint = editor.text("#hint")
    page.keyboard.down("Alt")
    page.mouse.move(x - 2, y + 26)
    free = editor.text("#hint")
    page.keyboard.up("Alt")
    page.mouse.up()
    editor.settled()

    assert "Trued up" in hint
    assert "square" in hint or "in line with B" in hint
    assert free == "Free hand."


def test_keys_alone_reach_and_move_and_take_out_every_handle(editor):
    page = editor.page
    page.locator("#save").focus()
    page.locator("#snaps").focus()
    seen = []
    for _ in range(60):
        editor.press("Tab")
        label = page.evaluate("document.activeElement.closest?.('.h')?.getAttribute('aria-label')")
        if label:
            seen.append(label)
        elif seen:
            break
    assert len(seen) == page.locator(".h").count()
    assert all((label and any(letter.isdigit() for letter in label)) or "whole" in label for label in seen)
    editor.handle("corner", "corner B").focus()
    editor.press("ArrowLeft")
    editor.settled()
    assert "63' 6\"" in page.evaluate("document.activeElement.getAttribute('aria-label')")
    editor.press("Shift+ArrowRight", "Alt+ArrowDown")
    editor.settled()
    told = editor.text("#live")
    assert "68' 6\"" in told
    assert "Cost USD" in told
    editor.press("Enter")
    assert page.evaluate("document.activeElement.id") == "f-name"
    editor.handle("line", "buried line irrigation main, point 2").focus()
    editor.press("Delete")
    editor.settled()
    assert page.locator(".h-line").count() == 3


def test_keys_pressed_faster_than_the_drawing_all_count(editor):
    page = editor.page
    editor.handle("corner", "corner B").focus()
    page.evaluate("""() => {
        for (const key of ["ArrowRight", "ArrowRight", "ArrowUp", "ArrowRight"])
            document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key, shiftKey: true, bubbles: true }));
    }""")
    editor.settled()
    label = page.evaluate("document.activeElement.getAttribute('aria-label')")
    assert "x 79'" in label
    assert "y 5'" in label


def test_keys_alone_draw_a_whole_plot(site, new_tab):
    without_outline(site)
    editor = Editor(new_tab(viewport=WIDE))
    page = editor.page
    page.locator('[data-mode="plot"]').focus()
    editor.press("Enter", " ")
    for way in ("Right", "Up", "Left"):
        editor.press(*[f"Shift+Arrow{way}"] * 4, " ")
    editor.press("Enter")
    editor.settled()

    assert page.locator(".h-corner").count() == 4
    assert page.locator("#complaints").is_hidden()
    assert saves(editor).status == 200
    lengths = {
        round(abs(a.at[0] - b.at[0]) + abs(a.at[1] - b.at[1]), 3)
        for a, b in zip(*[plan_of(plan_text(site)).corners] * 2, strict=True)
    }
    assert lengths == {0.0}
    assert plan_of(plan_text(site)).path[1][0] - plan_of(plan_text(site)).path[0][0] == pytest.approx(
        20 * 0.3048, abs=0.002
    )


def test_a_finding_broken_is_bitten_into_its_side_and_mended_again(editor):
    page = editor.page
    editor.handle("gate", "gate barrow gate").focus()
    editor.type("#f-embed", "6 in")
    assert page.locator(".h-side.fails .warn").first.get_attribute("d")
    assert "FAILS" in page.locator(".h-side.fails .size").first.text_content()
    assert "fails" in page.locator(".h-side.fails").first.get_attribute("aria-label")
    assert editor.text("#verdict").endswith("FAILS")
    assert "FAILS" in page.locator("#worst li").first.text_content()
    editor.press("Control+z")
    editor.settled()
    assert not page.locator(".h.fails").count()


def test_a_file_changed_on_disk_meanwhile_is_told_and_both_are_kept(site, editor):
    theirs = plan_text(site).replace('name = "Seed garden"', 'name = "Theirs"')
    (site / "plan.toml").write_text(theirs, encoding="utf-8")
    editor.page.watch.expected.append("409")
    editor.handle("corner", "corner B").focus()
    editor.press("ArrowLeft")
    editor.settled()
    assert saves(editor).status == 409
    editor.page.locator("#conflict").wait_for()
    with editor.page.expect_response(lambda answer: answer.url.endswith("/save")):
        editor.click("#mine")
    editor.settled()
    assert plan_text(site) == theirs
    mine = plan_of((site / "plan-mine.toml").read_text(encoding="utf-8"))
    assert mine.corner("B")[0] == pytest.approx(63.5 * 0.3048)
    assert saves(editor).status == 409
    with editor.page.expect_response(lambda answer: answer.url.endswith("/api/plan")):
        editor.click("#theirs")
    editor.settled()
    assert editor.text("#unsaved") == "saved"


def test_corners_gates_neighbors_lines_and_heights_are_set_down(site, editor):
    page = editor.page
    counts = {kind: page.locator(f".h-{kind}").count() for kind in ("corner", "gate", "neighbor", "line", "spot")}
    x, y = editor.middle("side", "side south")
    for mode, at in (("corner", (x + 30, y)), ("gate", (x + 80, y)), ("spot", (x - 30, y - 90))):
        editor.click(f'[data-mode="{mode}"]')
        editor.click_at(*at)
        editor.settled()
    editor.press("Escape")
    editor.click('[data-mode="neighbor"]')
    editor.click_at(x - 60, y - 200)
    editor.click_at(x - 20, y - 160)
    editor.click('[data-mode="line"]')
    editor.click_at(x - 90, y - 60)
    editor.click_at(x - 40, y - 50)
    editor.press("Enter")
    editor.settled()

    after = {kind: page.locator(f".h-{kind}").count() for kind in counts}
    assert after == {
        "corner": counts["corner"] + 1,
        "gate": counts["gate"] + 1,
        "neighbor": counts["neighbor"] + 1,
        "line": counts["line"] + 2,
        "spot": counts["spot"] + 1,
    }
    assert page.locator("#complaints").is_hidden(), editor.text("#complaints")
    assert saves(editor).status == 200
    plan = plan_of(plan_text(site))
    assert len(plan.corners) == 6
    assert len(plan.gates) == 4
    assert "dug up at both ends" in plan_text(site)


def test_the_paper_is_looked_at_nearer_and_farther_by_wheel_keys_and_two_fingers(editor):
    page = editor.page

    def apart():
        (ax, ay), (bx, by) = editor.middle("corner", "corner A"), editor.middle("corner", "corner B")
        return ((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5

    whole = apart()
    page.mouse.move(*editor.middle("corner", "corner A"))
    page.mouse.wheel(0, -300)
    editor.settled()
    assert apart() > 1.2 * whole
    editor.handle("corner", "corner A").focus()
    editor.press("0")
    editor.settled()
    assert apart() == pytest.approx(whole, rel=0.01)
    editor.press("-", "-")
    editor.settled()
    assert apart() < 0.8 * whole
    editor.press("+", "+")
    editor.settled()
    near = apart()
    pinch = """async () => {
        const paper = document.getElementById("paper"), box = paper.getBoundingClientRect();
        const send = (kind, id, x) => paper.dispatchEvent(new PointerEvent(kind, { pointerId: id, pointerType: "touch", bubbles: true, clientX: box.x + x, clientY: box.y + 20 }));
        paper.setPointerCapture = () => {};
        send("pointerdown", 11, 300); send("pointerdown", 12, 400);
        send("pointermove", 11, 250); send("pointermove", 12, 450);
        send("pointerup", 11, 250); send("pointerup", 12, 450);
    }"""
    page.evaluate(pinch)
    editor.settled()
    assert apart() > 1.6 * near
    assert editor.text("#unsaved") == "saved"


def test_a_renamed_corner_and_side_are_renamed_everywhere(site, editor):
    editor.handle("side", "side north").focus()
    editor.type("#f-name", "mill side")
    editor.handle("corner", "corner E").focus()
    editor.type("#f-name", "Oak")
    assert saves(editor).status == 200
    table = tomllib.loads(plan_text(site))
    assert [row["to"] for row in table["side"]] == ["B", "C", "D", "Oak", "A"]
    assert table["side"][3]["name"] == "mill side"


def test_earth_against_a_wall_is_seen_and_follows_its_side(site, new_tab):
    (site / "plan.toml").write_text(banked_text("seed-garden"), encoding="utf-8")
    editor = Editor(new_tab(viewport=WIDE))
    assert editor.page.locator(".w-bank").get_attribute("d").count("Z") == 2
    assert editor.page.locator(".t-bank").all_text_contents() == ["raised bed, 1' 6\" higher", 'road, 10" higher']

    editor.handle("side", "side south").focus()
    editor.type("#f-name", "lane")
    editor.settled()
    assert saves(editor).status == 200
    table = tomllib.loads(plan_text(site))
    assert [bank["side"] for bank in table["bank"]] == ["lane", "east"]
    assert table["neighbor"][0]["blocks"] == BLOCKS["seed-garden"]


def test_a_corner_set_down_in_a_bank_cuts_it_in_two_and_taken_out_joins_its_side(site, new_tab):
    (site / "plan.toml").write_text(banked_text("seed-garden"), encoding="utf-8")
    editor = Editor(new_tab(viewport=WIDE))
    cut = """async (at) => {
        const { Book } = await import(document.querySelector("script[type=module]").src.replace("editor.js", "editor_model.js"));
        const book = new Book(await (await fetch("/api/plan")).json());
        const seen = () => book.parts.bank.map((bank) => [bank.name, bank.side, book.m(bank.from ?? 0), book.m(bank.to)]);
        book.put(book.splitSide(0, at));
        const apart = seen();
        book.put(book.removeCorner(1));
        return [apart, seen()];
    }"""
    apart, joined = editor.page.evaluate(cut, 6.0)
    foot = 0.3048

    assert apart[0][:2] == ["raised bed", "south"]
    assert apart[0][2:] == pytest.approx([14 * foot, 6.0])
    assert apart[1][:2] == ["raised bed 2", "south 2"]
    assert apart[1][2:] == pytest.approx([0.0, 30 * foot - 6.0])
    assert [one[1] for one in joined] == ["south", "south", "east"]
    assert joined[1][2:] == pytest.approx([6.0, 30 * foot], abs=2e-3)  # corners lie on sixteenths


# --- what everybody needs --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_keeps_people_out(new_tab, scheme):
    editor = Editor(new_tab(viewport=WIDE, color_scheme=scheme))
    editor.handle("side", "side north").focus()
    editor.settled()

    assert [each for each in kept_out(editor.page) if ": <text " not in each] == []
    assert min(ratios(editor.page)) >= 4.5


def ratios(page):
    """Contrast of every kind of lettering on the sketch and the strip with the paper, which axe cannot see through."""
    return page.evaluate("""() => {
        const light = (color) => { const [r, g, b] = color.match(/[\\d.]+/g).map((part) => { const v = part / 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; }); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
        const paper = light(getComputedStyle(document.querySelector(".leaf")).backgroundColor);
        return [...document.querySelectorAll("#paper text, #strip text")].map((text) => { const own = light(getComputedStyle(text).fill); return (Math.max(own, paper) + 0.05) / (Math.min(own, paper) + 0.05); });
    }""")


def test_text_twice_as_large_only_wraps(new_tab):
    editor = Editor(new_tab(viewport=WIDE))
    enlarge(editor.page)
    editor.handle("corner", "corner B").focus()
    editor.settled()

    fits(editor.page)
    for field in ("#f-x", "#f-y", "#save"):
        box = editor.page.locator(field).bounding_box()
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 1280


def test_a_phone_shows_everything_and_handles_are_as_large_as_a_thumb(new_tab):
    editor = Editor(new_tab(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True))
    page = editor.page

    fits(page)
    boxes = [page.locator(".h-corner .hit").nth(n).bounding_box() for n in range(5)]
    assert min(min(box["width"], box["height"]) for box in boxes) >= 43.9
    editor.handle("corner", "corner B").focus()
    editor.settled()
    for button in page.locator("#draft button:visible, #picked input:visible").all():
        if "link" not in (button.get_attribute("class") or ""):
            assert button.bounding_box()["height"] >= 43.9, button.inner_html()


def test_leaving_with_unsaved_strokes_is_asked_about(editor):
    asked = []
    editor.page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.accept()))
    editor.page.locator("h1").click()
    editor.handle("corner", "corner B").focus()
    editor.press("ArrowLeft")
    editor.settled()
    editor.page.goto("/stand")

    assert asked == ["beforeunload"]


LETTERS_ON_LETTERS = """() => {
    const shown = [...document.querySelectorAll("#paper text")].filter((each) => each.textContent && getComputedStyle(each).visibility === "visible");
    const boxes = shown.map((each) => {
        const box = each.getBBox(), matrix = each.getScreenCTM(), trim = box.height * 0.2;
        return [[0, trim], [box.width, trim], [box.width, box.height - trim], [0, box.height - trim]].map(([x, y]) => {
            const at = new DOMPoint(box.x + x, box.y + y).matrixTransform(matrix);
            return [at.x, at.y];
        });
    });
    const ways = (ring) => [[ring[1][0] - ring[0][0], ring[1][1] - ring[0][1]], [ring[2][0] - ring[1][0], ring[2][1] - ring[1][1]]];
    const apart = (one, other) => [...ways(one), ...ways(other)].some(([x, y]) => {
        const reach = (ring) => ring.map((at) => at[0] * x + at[1] * y);
        const [a, b] = [reach(one), reach(other)];
        return Math.max(...a) <= Math.min(...b) || Math.max(...b) <= Math.min(...a);
    });
    const found = [];
    for (let n = 0; n < boxes.length; n += 1) for (let m = 0; m < n; m += 1) {
        if (!apart(boxes[n], boxes[m])) found.push(`${shown[n].textContent} on ${shown[m].textContent}`);
    }
    return [shown.length, found];
}"""


@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
@pytest.mark.parametrize("size", [(1280, 800), (640, 400), (390, 844)], ids=["desk", "200 %", "phone"])
def test_no_letters_lie_on_others(new_tab, size, sample):
    editor = Editor(new_tab(viewport={"width": size[0], "height": size[1]}))
    for way, count in (("whole", 20), ("nearer", 20), ("farther", 20), ("farther", 14)):
        editor.click(f"#{way}")
        editor.settled()
        shown, found = editor.page.evaluate(LETTERS_ON_LETTERS)
        assert found == [], way
        assert shown >= count, way


def test_letters_twice_as_large_on_a_phone_lie_on_no_others(new_tab):
    editor = Editor(new_tab(viewport={"width": 390, "height": 844}))
    enlarge(editor.page)
    editor.page.evaluate("dispatchEvent(new Event('resize'))")
    editor.click("#whole")
    editor.settled()
    shown, found = editor.page.evaluate(LETTERS_ON_LETTERS)
    assert found == []
    assert shown > 12


# --- the pure modules -------------------------------------------------------------------------------------------------


def call(page, module, name, *arguments):
    """What a function of one of the page's modules answers."""
    return page.evaluate(
        "async ([module, name, given]) => { const base = document.querySelector('script[type=module]').src.replace('editor.js', module);"
        " return (await import(base))[name](...given); }",
        [module, name, list(arguments)],
    )


def test_lengths_shown_on_the_page_read_back_as_the_plan_reads_them(tab):
    tab.goto("/plan/edit")
    chance = random.Random(7)
    values = [chance.uniform(-300, 300) for _ in range(60)] + [0, 0.3048, -0.0254, 0.00159, 99.9999]
    for system, step in (("us", 0.0254 / 16), ("metric", 0.001)):
        for value in values:
            text = call(tab, "editor_measure.js", "tape", value, system)
            assert abs(read(text, like=METER) - value) <= step / 2 + 1e-9, text


def test_snapping_keeps_its_laws(tab):
    tab.goto("/plan/edit")
    chance = random.Random(11)
    for _ in range(40):
        spot = lambda: {"x": chance.uniform(-10, 10), "y": chance.uniform(-10, 10)}  # noqa: E731
        raw, rules = spot(), {
            "around": {"before": spot(), "after": spot(), "beforeBefore": spot(), "afterAfter": spot()},
            "others": [{**spot(), "name": "Q"}], "unit": {"before": 0.4, "after": 0.3}, "round": 0.5, "reach": 0.3,
        }  # fmt: skip
        found = call(tab, "editor_snap.js", "snapCorner", raw, rules)
        away = ((found["x"] - raw["x"]) ** 2 + (found["y"] - raw["y"]) ** 2) ** 0.5
        assert away <= 0.3 * 1.5 + 1e-9
        assert (away < 1e-12) or found["why"]
        _holds(found, rules)
        assert call(tab, "editor_snap.js", "snapCorner", raw, {**rules, "off": True}) == {**raw, "why": []}
        assert call(tab, "editor_snap.js", "snapCorner", raw, {**rules, "reach": 0})["why"] == []


def _holds(found, rules):
    """Every reason given is true of the place."""
    around = rules["around"]
    minus = lambda a, b: (a["x"] - b["x"], a["y"] - b["y"])  # noqa: E731
    dot = lambda a, b: a[0] * b[0] + a[1] * b[1]  # noqa: E731
    for why in found["why"]:
        if why == "square to the side before":
            assert abs(dot(minus(found, around["before"]), minus(around["before"], around["beforeBefore"]))) < 1e-6
        elif why == "square to the side after":
            assert abs(dot(minus(found, around["after"]), minus(around["afterAfter"], around["after"]))) < 1e-6
        elif why == "square corner":
            assert abs(dot(minus(found, around["before"]), minus(found, around["after"]))) < 1e-6
        elif why.startswith("in line"):
            other = rules["others"][0]
            assert min(abs(found["x"] - other["x"]), abs(found["y"] - other["y"])) < 1e-9
        else:
            which = "before" if why.endswith("before") else "after"
            step = {"whole": rules["unit"][which], "half": rules["unit"][which] / 2, "round": 0.5}[why.split()[0]]
            far = dot(minus(found, around[which]), minus(found, around[which])) ** 0.5
            assert abs(far / step - round(far / step)) < 1e-6


def test_gates_snap_within_their_side(tab):
    tab.goto("/plan/edit")
    for raw in (0.01, 1.19, 3.98, 6.9, 8.99):
        found = call(
            tab, "editor_snap.js", "snapAlong", raw, {"length": 10, "width": 1, "unit": 0.4, "round": 0.5, "reach": 0.2}
        )
        assert 0 <= found["at"] <= 9
        assert abs(found["at"] - raw) <= 0.2
    assert call(tab, "editor_snap.js", "snapAlong", 4.4, {"length": 10, "width": 1, "reach": 0.2})[
        "at"
    ] == pytest.approx(4.5)


def test_each_text_has_its_first_free_place(tab):
    tab.goto("/plan/edit")
    text = {"wide": 60, "high": 15, "places": [{"x": 50, "y": 20}, {"x": 50, "y": 60}, {"x": 50, "y": 100}]}
    texts = [{**text, "key": key} for key in "ab"] + [{**text, "key": "c", "spare": True}]
    sheet = {"width": 200, "height": 200}
    found = call(tab, "editor_labels.js", "settled", texts, [{"x": 60, "y": 23, "r": 6}], sheet)
    assert found == {"a": {"x": 50, "y": 60}, "b": {"x": 50, "y": 100}, "c": None}
    lower = call(tab, "editor_labels.js", "settled", texts[:1], [], {**sheet, "height": 24})
    assert lower == {"a": None}, "cut at the foot of the sheet"
    aside = call(tab, "editor_labels.js", "settled", texts[:1], [], {**sheet, "width": 40})
    assert aside == {"a": None}, "off the sheet"


def test_a_text_with_more_to_choose_from_makes_room(tab):
    tab.goto("/plan/edit")
    here, there = {"x": 50, "y": 20}, {"x": 50, "y": 60}
    easy, hard = (
        {"key": key, "wide": 60, "high": 15, "places": places}
        for key, places in (("easy", [here, there]), ("hard", [here]))
    )
    found = call(tab, "editor_labels.js", "settled", [easy, hard], [], {"width": 200, "height": 200})
    assert found == {"easy": there, "hard": here}
