// The plan editor's page: opening the plan, what is typed into the panel, undo, saving.

import { $, book, change, draw, fit, focusHandle, hint, later, layOut, notes, panel, paper, pick, state, tellBoth, trials, view, zoom } from "./editor_desk.js";
import { handleList } from "./editor_handles.js";
import { wireHands } from "./editor_hands.js";
import { setMode } from "./editor_pencil.js";
import { unfold } from "./editor_strip.js";
import { measured, opened, saved } from "./editor_talk.js";

async function start() {
  const { ok, found } = await opened();
  if (!ok) { notesBeforeOpening(found); return; }
  layOut(found, { commit, act, remove, pickPlace, pickSide });
  paper.dataset.coarse = matchMedia("(pointer: coarse)").matches ? "yes" : "no";
  const again = () => { view.measure(); later(); };
  new ResizeObserver(again).observe(paper);
  document.fonts.addEventListener("loadingdone", again);
  wire();
  fit();
  $("draft").dataset.ready = "yes";
  draw();
}

function notesBeforeOpening(found) {
  $("opening").textContent = found.message ?? "the plan cannot be opened";
  $("opening").hidden = false;
}

// --- picking, typing -----------------------------------------------------------------------------------------------

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

// --- the page's own buttons ------------------------------------------------------------------------------------------

function turnBack(backward) {
  if (backward ? !book.undo() : !book.redo()) return;
  state.said = backward ? "Undone" : "Done again";
  panel.wrong.clear();
  trials.want(book.sent());
  later();
}

function wire() {
  wireHands({ save, turnBack, remove });
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
