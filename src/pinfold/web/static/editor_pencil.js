// Setting down new things: where the pencil goes, what its points become, and the keys that lead it.

import { along, between, steps, tape } from "./editor_measure.js";
import { $, book, change, draw, focusHandle, hint, later, others, paper, pick, reach, snapsOff, state, view } from "./editor_desk.js";
import { handleList } from "./editor_handles.js";
import { snapAlong, snapCorner } from "./editor_snap.js";

export const MODES = {
  plot: "Click each corner in turn, then the first again or Enter. Keys: arrows move the pencil, Space sets a corner, Backspace takes one back.",
  corner: "Click the side where the new corner comes.",
  gate: "Click the side where the gate comes.",
  neighbor: "Click two opposite corners of it.",
  line: "Click along the line, then Enter.",
  spot: "Click where a height was taken.",
};

export function setMode(mode) {
  state.mode = state.mode === mode ? null : mode;
  state.points = [];
  state.cursor = state.mode ? { ...view.center } : null;
  paper.classList.toggle("setting", Boolean(state.mode));
  hint(state.mode ? MODES[state.mode] : "");
  if (state.mode) { $("live").textContent = MODES[state.mode]; $("pencil").focus({ preventScroll: true }); }
  later();
}

// Where a pencil goes: in line with what is there, square to the last stroke.
export function aimed(raw, event) {
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

export function place(at) {
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
export const lengthHint = (at) => state.points.length ? `${tape(between(state.points.at(-1), at), book.system)} from the last point.` : "";

export function pencilKey(event) {
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
