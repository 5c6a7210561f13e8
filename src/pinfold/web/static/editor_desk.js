// What the parts of the plan editor's page work on together: the book of changes, the sketch, what is picked; drawing it,
// telling of it, and one change that can be undone.

import { Sketch } from "./editor_draw.js";
import { handleList } from "./editor_handles.js";
import { Book } from "./editor_model.js";
import { Notes } from "./editor_notes.js";
import { Panel } from "./editor_panel.js";
import { View } from "./editor_sheet.js";
import { unfold } from "./editor_strip.js";
import { Trials } from "./editor_talk.js";

export const $ = (id) => document.getElementById(id);
export const paper = $("paper");
export const state = { answer: null, picked: null, mode: null, points: [], cursor: null, moving: false };
export let book, view, sketch, panel, notes, trials;
let due = false;

// Lays the plan that was opened on the page; who listens to the panel and the notes comes with it.
export function layOut(found, { commit, act, remove, pickPlace, pickSide }) {
  book = new Book(found);
  view = new View(paper);
  sketch = new Sketch(paper, book, view);
  panel = new Panel($("picked"), { commit, act, remove });
  notes = new Notes(book, { pickPlace, pickSide });
  trials = new Trials(answered);
  state.answer = found;
  notes.opened(found);
}

export function later() { if (!due) { due = true; requestAnimationFrame(() => { due = false; draw(); }); } }

export function draw() {
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

export function tell(parts, before) {
  book.put(parts, before);
  trials.want(book.sent());
  later();
}

export const tellBoth = (text) => { hint(text); $("live").textContent = text; };
export const hint = (text) => { if ($("hint").textContent !== text) $("hint").textContent = text; };

// One change that can be undone, told to those who listen.
export function change(parts, says) {
  if (!parts) { tellBoth("That cannot be: the plot would have too few corners, or its side no length."); return; }
  if (JSON.stringify(book.sent(parts)) === JSON.stringify(book.sent())) { later(); return; }
  state.said = says;
  tell(parts);
}

export function pick(one) {
  if (state.picked?.key === one?.key) return;
  state.picked = one;
  later();
}

export function focusHandle(key) { draw(); paper.querySelector(`[data-key="${CSS.escape(key)}"]`)?.focus({ preventScroll: true }); }

// --- looking about ---------------------------------------------------------------------------------------------------

export function fit() {
  view.measure();
  const own = book.parts.corner.map((_, n) => book.corner(n));
  const rest = [...book.parts.neighbor.flatMap((row) => book.points(row, "footprint")), ...book.points(book.parts.ground ?? {}, "points")];
  view.fit(own.length ? [...own, ...book.parts.neighbor.flatMap((row) => book.points(row, "footprint"))] : rest);
  later();
}

export function zoom(times, at) { view.zoom(times, at); later(); }

export const snapsOff = (event) => event?.altKey || !$("snaps").checked;
export const reach = () => 9 / view.scale;

export function others(but = []) {
  return book.parts.corner.map((_, n) => book.corner(n)).filter((one) => !but.includes(one.name));
}
