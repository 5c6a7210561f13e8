// The plan editor's page: pointers, keys, undo, saving; what is drawn and typed goes through the book of changes.

import { between, cross, dot, minus, plus, leftOf, steps, tape, unitOf, along } from "./editor_measure.js";
import { Book } from "./editor_model.js";
import { Sketch, View, handleList, unfold } from "./editor_draw.js";
import { Notes } from "./editor_notes.js";
import { Panel } from "./editor_panel.js";
import { snapAlong, snapCorner, snapPoint } from "./editor_snap.js";
import { Trials, measured, opened, saved } from "./editor_talk.js";

const $ = (id) => document.getElementById(id);
const paper = $("paper");
const state = { answer: null, picked: null, mode: null, points: [], cursor: null, moving: false };
const MODES = {
  plot: "Click each corner in turn, then the first again or Enter. Keys: arrows move the pencil, Space sets a corner, Backspace takes one back.",
  corner: "Click the side where the new corner comes.",
  gate: "Click the side where the gate comes.",
  neighbor: "Click two opposite corners of it.",
  line: "Click along the line, then Enter.",
  spot: "Click where a height was taken.",
};
let book, view, sketch, panel, notes, trials, drag = null, due = false;
const pointers = new Map();

async function start() {
  const { ok, found } = await opened();
  if (!ok) { notesBeforeOpening(found); return; }
  book = new Book(found);
  view = new View(paper);
  sketch = new Sketch(paper, book, view);
  panel = new Panel($("picked"), { commit, act, remove });
  notes = new Notes(book, { pickPlace, pickSide });
  trials = new Trials(answered);
  state.answer = found;
  notes.opened(found);
  paper.dataset.coarse = matchMedia("(pointer: coarse)").matches ? "yes" : "no";
  new ResizeObserver(() => { view.measure(); later(); }).observe(paper);
  wire();
  fit();
  $("draft").dataset.ready = "yes";
  draw();
}

function notesBeforeOpening(found) {
  $("opening").textContent = found.message ?? "the plan cannot be opened";
  $("opening").hidden = false;
}

// --- drawing -------------------------------------------------------------------------------------------------------

function later() { if (!due) { due = true; requestAnimationFrame(() => { due = false; draw(); }); } }

function draw() {
  if (state.picked) state.picked = handleList(book).find((one) => one.key === state.picked.key) ?? null;
  sketch.draw(state);
  panel.draw(book, state.picked, state.answer?.complaints ?? []);
  $("undo").disabled = !book.past.length;
  $("redo").disabled = !book.future.length;
  $("save").disabled = !book.dirty;
  $("unsaved").textContent = state.answer?.revision && state.answer.revision !== book.revision
    ? "changed on disk by another hand" : book.dirty ? "not saved" : "saved";
  $("unsaved").classList.toggle("dirty", book.dirty);
  for (const button of document.querySelectorAll("[data-mode]")) button.setAttribute("aria-pressed", String(button.dataset.mode === state.mode));
}

function answered(found, newest) {
  book.learn(found.meters);
  const last = state.answer;
  state.answer = found.reads ? found : { ...last, ...found, shapes: last?.shapes, findings: last?.findings };
  notes.draw(state.answer, newest);
  if (found.reads) unfold($("strip"), found, book.system);
  draw();
  if (newest && !state.moving && state.said) { $("live").textContent = `${state.said}. ${notes.told(state.answer)}`; state.said = ""; }
}

function tell(parts, before) {
  book.put(parts, before);
  trials.want(book.sent());
  later();
}

const tellBoth = (text) => { hint(text); $("live").textContent = text; };
const hint = (text) => { if ($("hint").textContent !== text) $("hint").textContent = text; };

// One change that can be undone, told to those who listen.
function change(parts, says) {
  if (!parts) { tellBoth("That cannot be: the plot would have too few corners, or its side no length."); return; }
  if (JSON.stringify(book.sent(parts)) === JSON.stringify(book.sent())) { later(); return; }
  state.said = says;
  tell(parts);
}

// --- picking, typing -----------------------------------------------------------------------------------------------

function pick(one) {
  if (state.picked?.key === one?.key) return;
  state.picked = one;
  later();
}

function pickKey(key) { pick(handleList(book).find((one) => one.key === key) ?? null); }
function pickSide(name) { const one = handleList(book).find((each) => each.kind === "side" && each.label === name); if (one) { pick(one); focusHandle(one.key); } }

function pickPlace(place) {
  const list = handleList(book);
  const found = list.filter((one) => {
    const row = one.kind === "spot" ? null : book.parts[one.of ?? one.kind][one.number];
    return row ? place.startsWith(`${one.of ?? one.kind}.${row.name}`) : place.startsWith(`ground.points[${one.number}]`);
  });
  const best = found.sort((a, b) => (b.label?.length ?? 0) - (a.label?.length ?? 0))[0];
  if (best) { pick(best); draw(); $("picked").querySelector("[aria-invalid], input")?.focus(); }
}

function focusHandle(key) { draw(); paper.querySelector(`[data-key="${CSS.escape(key)}"]`)?.focus({ preventScroll: true }); }

async function commit(field, input) {
  const text = input.type === "checkbox" ? input.checked : input.value.trim();
  if (text === field.value) { panel.wrong.delete(field.id); later(); return; }
  let si;
  if ((field.kind === "length" || field.kind === "angle") && text !== "") {
    const found = await measured(text);
    if (found.complaint || found.kind !== field.kind) {
      panel.wrong.set(field.id, found.complaint ?? `'${text}' is no ${field.kind}`);
      draw();
      return;
    }
    si = found.si;
    book.meters.set(text, si);
  }
  panel.wrong.delete(field.id);
  input.dataset.shown = "";
  change(field.give(text, si), `${panel.told.title}: ${field.says} ${text}`);
}

function act(make, says) {
  const before = new Set(handleList(book).map((one) => one.key));
  change(make(), says);
  const fresh = handleList(book).find((one) => !before.has(one.key) && one.kind !== "side") ?? null;
  if (fresh) pick(fresh);
}

function remove() {
  const one = state.picked;
  if (!one) return;
  if (one.kind === "side") { tellBoth("A side goes when one of its corners is taken out."); return; }
  const place = handleList(book).findIndex((each) => each.key === one.key);
  const parts = book.remove(one.of ?? one.kind, one.number, one.which ?? null);
  change(parts, `${one.name.split(",")[0]} taken out`);
  if (!parts) return;
  const next = handleList(book)[Math.max(0, place - 1)];
  state.picked = null;
  if (next) { pick(next); focusHandle(next.key); }
}

// --- moving --------------------------------------------------------------------------------------------------------

const snapsOff = (event) => event?.altKey || !$("snaps").checked;
const reach = () => 9 / view.scale;

function cornersBeside(number) {
  const name = book.parts.corner[number].name;
  const into = book.parts.side.find((side) => side.to === name), out = book.parts.side.find((side) => side.from === name);
  const before = into && book.spot(into.from), after = out && book.spot(out.to);
  const past = into && book.parts.side.find((side) => side.to === into.from), next = out && book.parts.side.find((side) => side.from === out.to);
  return {
    around: { before, after, beforeBefore: past ? book.spot(past.from) : null, afterAfter: next ? book.spot(next.to) : null },
    unit: { before: into ? book.unit(into) : null, after: out ? book.unit(out) : null },
  };
}

function others(but = []) {
  return book.parts.corner.map((_, n) => book.corner(n)).filter((one) => !but.includes(one.name));
}

// The outline with one thing moved to where the pointer is, and why it went there.
function moved(one, at, grip, event) {
  const off = snapsOff(event), near = { reach: reach(), off, round: steps(book.system).round };
  const goal = plus(at, grip, -1);
  if (one.kind === "corner") {
    const found = snapCorner(goal, { ...near, ...cornersBeside(one.number), others: others([one.label]) });
    return [book.moveCorner(one.number, found, drag.parts), found.why];
  }
  if (one.kind === "gate") return movedGate(one, goal, near);
  if (one.kind === "side") return movedSide(one, goal, near);
  const found = snapPoint(goal, { ...near, others: others() });
  if (one.kind === "spot") return [book.moveSpot(one.number, { x: found.x, y: found.y }, drag.parts), found.why];
  if (one.kind === "neighbor") return [book.moveAll("neighbor", "footprint", one.number, minus(goal, drag.start), drag.parts), []];
  const key = one.of === "neighbor" ? "footprint" : "points";
  return [book.movePoint(one.of, key, one.number, one.which, found, drag.parts), found.why];
}

function movedGate(one, goal, near) {
  const gate = drag.parts.gate[one.number], side = drag.parts.side.find((each) => each.name === gate.side);
  const [a, b] = book.ends(side);
  const width = book.m(gate.width), length = between(a, b);
  const found = snapAlong(along(goal, a, b).at, { ...near, length, width, unit: book.unit(side, book.m(gate.at)) });
  const at = Math.max(0, Math.min(found.at, length - width));
  return [book.set("gate", one.number, { at: book.near(gate.at, at) }, drag.parts), found.why];
}

// A side goes square to itself, with both corners.
function movedSide(one, goal, near) {
  const [a, b] = drag.ends;
  const out = leftOf(unitOf(minus(b, a)));
  let far = dot(minus(goal, drag.start), out);
  const rounded = Math.round(far / near.round * 2) * near.round / 2;
  const snaps = !near.off && Math.abs(rounded - far) < near.reach;
  if (snaps) far = rounded;
  let parts = drag.parts;
  for (const spot of [a, b]) parts = book.moveCorner(parts.corner.findIndex((row) => row.name === spot.name), plus(spot, out, far), parts);
  return [parts, snaps && far ? [`moved by ${tape(Math.abs(far), book.system)}`] : []];
}

function begin(one, at) {
  const start = one.kind === "side" || one.kind === "neighbor" ? at : one.at;
  drag = { one, parts: book.parts, start, grip: one.kind === "side" || one.kind === "neighbor" ? { x: 0, y: 0 } : minus(at, one.at), ends: one.ends, far: false };
}

function dragTo(event) {
  const at = view.of(event);
  if (!drag.far && between(view.px(at), view.px(plus(drag.start, drag.grip))) < 4) return;
  drag.far = true;
  state.moving = true;
  const [parts, why] = moved(drag.one, at, drag.grip, event);
  book.parts = parts;
  trials.want(book.sent(parts));
  hint(why.length ? `Snapped: ${why.join("; ")}.` : snapsOff(event) ? "Free hand." : "Free.");
  later();
}

function dropped() {
  const { parts, one, far } = drag;
  drag = null;
  state.moving = false;
  if (!far) return;
  const now = handleList(book).find((each) => each.key === one.key);
  state.said = now?.name ?? "";
  tell(book.parts, parts);
}

// Arrow keys: one step of the plan's tape; Shift a large one, Alt a small one.
function nudge(one, key, event) {
  const sizes = steps(book.system);
  const far = event.shiftKey ? sizes.coarse : event.altKey ? sizes.fine : sizes.unit;
  const by = { ArrowLeft: { x: -far, y: 0 }, ArrowRight: { x: far, y: 0 }, ArrowUp: { x: 0, y: far }, ArrowDown: { x: 0, y: -far } }[key];
  const start = one.kind === "neighbor" || one.kind === "side" ? { x: 0, y: 0 } : one.at;
  drag = { one, parts: book.parts, start, grip: { x: 0, y: 0 }, ends: one.ends };
  const still = { altKey: true };
  let parts;
  if (one.kind === "gate") {
    const way = unitOf(minus(one.ends[1], one.ends[0]));
    const share = dot(by, way);
    const sign = Math.abs(share) > 0.1 * far ? Math.sign(share) : by.x + by.y > 0 ? 1 : -1;
    parts = moved(one, plus(one.at, way, sign * far), drag.grip, still)[0];
  } else if (one.kind === "side") {
    const out = leftOf(unitOf(minus(one.ends[1], one.ends[0])));
    const share = dot(by, out);
    parts = Math.abs(share) > far * 0.1 ? moved(one, plus({ x: 0, y: 0 }, out, Math.sign(share) * far), drag.grip, still)[0] : book.parts;
  } else parts = moved(one, plus(start, by), drag.grip, still)[0];
  drag = null;
  if (parts === book.parts) { tellBoth("A side moves square to itself: take the other arrows."); return; }
  tell(parts);
  state.said = handleList(book).find((each) => each.key === one.key)?.name ?? "";
}

// --- setting down new things ---------------------------------------------------------------------------------------

function setMode(mode) {
  state.mode = state.mode === mode ? null : mode;
  state.points = [];
  state.cursor = state.mode ? { ...view.center } : null;
  paper.classList.toggle("setting", Boolean(state.mode));
  hint(state.mode ? MODES[state.mode] : "");
  if (state.mode) { $("live").textContent = MODES[state.mode]; $("pencil").focus({ preventScroll: true }); }
  later();
}

// Where a pencil goes: in line with what is there, square to the last stroke.
function aimed(raw, event) {
  const near = { reach: reach(), off: snapsOff(event), round: steps(book.system).round };
  if (state.mode === "corner" || state.mode === "gate") return { x: raw.x, y: raw.y, why: [] };
  const set = state.points.map((at, n) => ({ ...at, name: state.mode === "plot" ? `corner ${n + 1}` : `point ${n + 1}` }));
  const [last, before] = [set.at(-1) ?? null, set.at(-2) ?? null];
  const lined = state.mode === "plot" ? set : [...others(), ...set];
  const unit = state.mode === "plot" ? { before: book.buildups[0]?.unit ?? null } : {};
  const found = snapCorner(raw, { ...near, around: { before: last, beforeBefore: before }, others: lined, unit, round: state.mode === "neighbor" ? 0 : near.round });
  return last ? found : onRound(found, near);
}

function onRound(found, near) {
  if (near.off || found.why.length) return found;
  const step = near.round;
  const at = { x: Math.round(found.x / step) * step, y: Math.round(found.y / step) * step };
  return between(at, found) <= near.reach ? { ...at, why: ["round place"] } : found;
}

function place(at) {
  const { mode, points } = state;
  if (mode === "corner" || mode === "gate") return placeOnSide(at, mode);
  if (mode === "spot") { const z = heightAt(at); make(book.addSpot(at, z), "ground height set down", true); return; }
  if (mode === "plot" && points.length > 2 && between(view.px(at), view.px(points[0])) < 12) { finish(); return; }
  state.points = [...points, { x: at.x, y: at.y }];
  $("live").textContent = `Point ${state.points.length} at x ${tape(at.x, book.system)}, y ${tape(at.y, book.system)}.`;
  if (mode === "neighbor" && state.points.length === 2) finish();
  later();
}

function placeOnSide(at, mode) {
  const near = book.parts.side.map((side, number) => {
    const [a, b] = book.ends(side);
    const found = a && b ? along(at, a, b) : { off: Infinity, at: 0, length: 0 };
    return { ...found, side, number };
  }).filter((one) => one.at > 0 && one.at < one.length).sort((a, b) => Math.abs(a.off) - Math.abs(b.off))[0];
  if (!near || Math.abs(near.off) * view.scale > 30) { hint("No side is near there."); return; }
  if (mode === "corner") make(book.splitSide(near.number, book.near(null, near.at)), `corner set in side ${near.side.name}`);
  else make(book.addGate(near.side, snapAlong(near.at, { length: near.length, unit: book.unit(near.side, near.at), reach: reach(), off: !$("snaps").checked }).at), `gate hung in side ${near.side.name}`);
}

// The height that its three nearest neighbors suggest, to be typed over; level where there is none.
function heightAt(at) {
  const spots = (book.parts.ground?.points ?? []).map((row) => ({ x: book.m(row[0]), y: book.m(row[1]), z: book.m(row[2]) }));
  const near = spots.map((spot) => ({ z: spot.z, far: between(spot, at) + 0.01 })).sort((a, b) => a.far - b.far).slice(0, 3);
  if (!near.length) return 0;
  const all = near.reduce((sum, one) => sum + 1 / one.far, 0);
  return book.near(null, near.reduce((sum, one) => sum + one.z / one.far, 0) / all);
}

function finish() {
  const { mode, points } = state;
  if (mode === "plot" && points.length > 2) make(book.newPlot(points), `plot of ${points.length} corners drawn`);
  else if (mode === "neighbor" && points.length === 2) make(book.addNeighbor(points[0], points[1]), "neighbor set down");
  else if (mode === "line" && points.length > 1) make(book.addLine(points), "buried line set down");
  else hint("More points are wanted first.");
}

function make(parts, says, again = false) {
  const mode = state.mode;
  const keys = new Set(handleList(book).map((one) => one.key));
  change(parts, says);
  const fresh = handleList(book).find((one) => !keys.has(one.key) && (mode !== "corner" || one.kind === "corner"));
  state.points = [];
  if (!again) setMode(null);
  if (fresh) { pick(fresh); draw(); if (!again) focusHandle(fresh.key); }
}

// --- saving --------------------------------------------------------------------------------------------------------

async function save(beside = false) {
  if (!book.dirty && !beside) return;
  const parts = book.parts;
  const { ok, status, found } = await saved({ revision: book.revision, changes: book.sent(), renamed: book.renamed(), beside });
  if (ok && found.saved && beside) { $("live").textContent = `Saved beside it as ${found.file}.`; hint(`Saved beside it as ${found.file}.`); return true; }
  if (ok && found.saved) {
    book.parts === parts ? book.kept(found.revision) : (book.saved = parts, book.revision = found.revision);
    notes.kept();
    if (state.answer) state.answer = { ...state.answer, revision: found.revision };
    hint("Saved to plan.toml, its comments kept.");
    $("live").textContent = "Saved.";
    draw();
  } else if (status === 409 && found.conflict) { hint("Not saved: plan.toml was changed meanwhile."); $("conflict").showModal(); }
  else {
    hint(`Not saved: ${(found.message ?? "the server does not answer").split("\n")[0]}`);
    $("live").textContent = $("hint").textContent;
  }
  return false;
}

async function loadTheirs() {
  const { ok, found } = await opened();
  if (!ok) { hint(found.message); return; }
  book.open(found);
  state.answer = found;
  state.picked = null;
  notes.opened(found);
  unfold($("strip"), found, book.system);
  fit();
  draw();
  $("live").textContent = "The plan as it is in the folder now.";
}

// --- looking about ---------------------------------------------------------------------------------------------------

function fit() {
  view.measure();
  const own = book.parts.corner.map((_, n) => book.corner(n));
  const rest = [...book.parts.neighbor.flatMap((row) => book.points(row, "footprint")), ...book.points(book.parts.ground ?? {}, "points")];
  view.fit(own.length ? [...own, ...book.parts.neighbor.flatMap((row) => book.points(row, "footprint"))] : rest);
  later();
}

function zoom(times, at) { view.zoom(times, at); later(); }

// --- pointers ------------------------------------------------------------------------------------------------------

let pinch = null, pan = null;

function down(event) {
  if (event.button > 0) return;
  paper.setPointerCapture(event.pointerId);
  pointers.set(event.pointerId, event);
  if (pointers.size === 2) { cancelDrag(); pan = null; pinch = { far: spread(), middle: middle() }; return; }
  const handle = state.mode ? null : event.target.closest?.(".h")?.handle;
  if (handle) { pick(handle); focusHandle(handle.key); begin(handle, view.of(event)); event.preventDefault(); } else pan = { at: event, center: { ...view.center }, far: false };
}

function move(event) {
  if (pointers.has(event.pointerId)) pointers.set(event.pointerId, event);
  if (pinch && pointers.size === 2) { pinched(); return; }
  if (drag) { dragTo(event); return; }
  if (pan) { panned(event); if (pan.far) return; }
  if (state.mode) { const found = aimed(view.of(event), event); state.cursor = found; hint(found.why.length ? `Snapped: ${found.why.join("; ")}.` : lengthHint(found) || MODES[state.mode]); later(); }
}

const lengthHint = (at) => state.points.length ? `${tape(between(state.points.at(-1), at), book.system)} from the last point.` : "";

function up(event) {
  pointers.delete(event.pointerId);
  if (pinch) { if (!pointers.size) pinch = null; return; }
  if (drag) dropped();
  else if (pan && !pan.far && event.type === "pointerup") { if (state.mode) place(aimed(view.of(event), event)); else pick(null); }
  pan = null;
  later();
}

function cancelDrag() { if (drag) { book.parts = drag.parts; drag = null; state.moving = false; trials.want(book.sent()); later(); } }

function panned(event) {
  const by = { x: event.clientX - pan.at.clientX, y: event.clientY - pan.at.clientY };
  if (!pan.far && Math.hypot(by.x, by.y) < 5) return;
  pan.far = true;
  view.center = { x: pan.center.x - by.x / view.scale, y: pan.center.y + by.y / view.scale };
  later();
}

const both = () => [...pointers.values()];
const spread = () => { const [a, b] = both(); return Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY) || 1; };
const middle = () => { const [a, b] = both(); return { clientX: (a.clientX + b.clientX) / 2, clientY: (a.clientY + b.clientY) / 2 }; };

function pinched() {
  const far = spread(), now = middle();
  const old = view.of(pinch.middle), at = view.of(now);
  view.center = plus(view.center, minus(old, at));
  view.zoom(far / pinch.far, view.of(now));
  pinch = { far, middle: now };
  later();
}

// --- keys ------------------------------------------------------------------------------------------------------------

const typing = (event) => event.target.matches?.("input[type=text], textarea, select");

// A field without a half-typed value leaves undo to the plan.
const unchanged = (field) => field.matches("input[type=text]") && field.value === field.dataset.shown;

function keys(event) {
  const control = event.ctrlKey || event.metaKey;
  const key = event.key.toLowerCase();
  if (control && key === "s") { event.preventDefault(); document.activeElement?.blur?.(); save(); return; }
  if ((typing(event) && !(control && unchanged(event.target))) || $("conflict").open) return;
  if (control && key === "z") { event.preventDefault(); turnBack(!event.shiftKey); return; }
  if (control && key === "y") { event.preventDefault(); turnBack(false); return; }
  if (control) return;
  if (state.mode && pencilKey(event)) { event.preventDefault(); return; }
  if (!event.target.closest?.("#paper")) return;
  if (key === "+" || key === "=") zoom(1.25);
  else if (key === "-") zoom(0.8);
  else if (key === "0") fit();
  else if (!handleKey(event)) return;
  event.preventDefault();
}

function handleKey(event) {
  const drawn = event.target.closest(".h")?.handle;
  const one = drawn && handleList(book).find((each) => each.key === drawn.key);  // a key may come before the drawing
  if (event.key.startsWith("Arrow")) { if (one) nudge(one, event.key, event); else panBy(event.key); return true; }
  if (!one) return false;
  if (event.key === "Enter" || event.key === " ") { pick(one); draw(); $("picked").querySelector("input, select")?.focus(); return true; }
  if (event.key === "Delete" || event.key === "Backspace") { pick(one); draw(); remove(); return true; }
  return false;
}

function panBy(key) {
  const by = { ArrowLeft: [-60, 0], ArrowRight: [60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] }[key];
  view.center = { x: view.center.x + by[0] / view.scale, y: view.center.y + by[1] / view.scale };
  later();
}

function pencilKey(event) {
  if (event.key === "Escape") { setMode(null); return true; }
  if (event.key === "Enter" && !event.target.closest("button")) { finish(); return true; }
  if (event.target.closest("button, a, input")) return false;
  if (event.key === " ") { if (state.cursor) place(state.cursor); return true; }
  if (event.key === "Backspace") { state.points = state.points.slice(0, -1); later(); return true; }
  if (!event.key.startsWith("Arrow")) return false;
  const sizes = steps(book.system), far = event.shiftKey ? sizes.coarse : event.altKey ? sizes.fine : sizes.unit;
  const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
  const from = state.cursor ?? view.center;
  state.cursor = { x: Math.round((from.x + by[0] * far) / book.step) * book.step, y: Math.round((from.y + by[1] * far) / book.step) * book.step };
  const text = `Pencil at x ${tape(state.cursor.x, book.system)}, y ${tape(state.cursor.y, book.system)}. ${lengthHint(state.cursor)}`;
  hint(text);
  $("live").textContent = text;
  later();
  return true;
}

function turnBack(backward) {
  if (backward ? !book.undo() : !book.redo()) return;
  state.said = backward ? "Undone" : "Done again";
  panel.wrong.clear();
  trials.want(book.sent());
  later();
}

function wire() {
  paper.addEventListener("pointerdown", down);
  paper.addEventListener("pointermove", move);
  paper.addEventListener("pointerup", up);
  paper.addEventListener("pointercancel", (event) => { cancelDrag(); up(event); });
  paper.addEventListener("wheel", (event) => { event.preventDefault(); zoom(Math.exp(-event.deltaY * 0.0015), view.of(event)); }, { passive: false });
  paper.addEventListener("focusin", (event) => { const one = event.target.closest(".h")?.handle; if (one && !state.mode) pick(one); });
  document.addEventListener("keydown", keys);
  for (const button of document.querySelectorAll("[data-mode]")) button.addEventListener("click", () => setMode(button.dataset.mode));
  $("undo").addEventListener("click", () => turnBack(true));
  $("redo").addEventListener("click", () => turnBack(false));
  $("save").addEventListener("click", () => save());
  $("nearer").addEventListener("click", () => zoom(1.25));
  $("farther").addEventListener("click", () => zoom(0.8));
  $("whole").addEventListener("click", fit);
  $("theirs").addEventListener("click", () => { $("conflict").close(); loadTheirs(); });
  $("mine").addEventListener("click", async () => { $("conflict").close(); await save(true); });
  addEventListener("beforeunload", (event) => { if (book.dirty) event.preventDefault(); });
  unfold($("strip"), state.answer, book.system);
}

start();
