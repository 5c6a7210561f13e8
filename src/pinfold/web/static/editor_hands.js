// Hands on the sketch: one pointer drags or pans, two pinch, and the keys that do the same.

import { minus, plus } from "./editor_measure.js";
import { $, book, draw, fit, focusHandle, hint, later, paper, pick, state, view, zoom } from "./editor_desk.js";
import { handleList } from "./editor_handles.js";
import { begin, cancelDrag, drag, dragTo, dropped, nudge } from "./editor_moving.js";
import { MODES, aimed, lengthHint, pencilKey, place } from "./editor_pencil.js";

const pointers = new Map();
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
  if (state.mode) { const found = aimed(view.of(event), event); state.cursor = found; hint(found.why.length ? `Trued up: ${found.why.join("; ")}.` : lengthHint(found) || MODES[state.mode]); later(); }
}

function up(event) {
  pointers.delete(event.pointerId);
  if (pinch) { if (!pointers.size) pinch = null; return; }
  if (drag) dropped();
  else if (pan && !pan.far && event.type === "pointerup") { if (state.mode) place(aimed(view.of(event), event)); else pick(null); }
  pan = null;
  later();
}

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

function keys(event, { save, turnBack, remove }) {
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
  else if (!handleKey(event, remove)) return;
  event.preventDefault();
}

function handleKey(event, remove) {
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

// What keys do beyond the sketch comes with them.
export function wireHands({ save, turnBack, remove }) {
  paper.addEventListener("pointerdown", down);
  paper.addEventListener("pointermove", move);
  paper.addEventListener("pointerup", up);
  paper.addEventListener("pointercancel", (event) => { cancelDrag(); up(event); });
  paper.addEventListener("wheel", (event) => { event.preventDefault(); zoom(Math.exp(-event.deltaY * 0.0015), view.of(event)); }, { passive: false });
  paper.addEventListener("focusin", (event) => { const one = event.target.closest(".h")?.handle; if (one && !state.mode) pick(one); });
  document.addEventListener("keydown", (event) => keys(event, { save, turnBack, remove }));
}
