// Moving what is there: by the pointer that has hold of it, or a step at a time by the arrow keys.

import { along, between, dot, leftOf, minus, plus, steps, tape, unitOf } from "./editor_measure.js";
import { book, hint, later, others, reach, snapsOff, state, tell, tellBoth, trials, view } from "./editor_desk.js";
import { handleList } from "./editor_handles.js";
import { snapAlong, snapCorner, snapPoint } from "./editor_snap.js";

export let drag = null;

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

export function begin(one, at) {
  const start = one.kind === "side" || one.kind === "neighbor" ? at : one.at;
  drag = { one, parts: book.parts, start, grip: one.kind === "side" || one.kind === "neighbor" ? { x: 0, y: 0 } : minus(at, one.at), ends: one.ends, far: false };
}

export function dragTo(event) {
  const at = view.of(event);
  if (!drag.far && between(view.px(at), view.px(plus(drag.start, drag.grip))) < 4) return;
  drag.far = true;
  state.moving = true;
  const [parts, why] = moved(drag.one, at, drag.grip, event);
  book.parts = parts;
  trials.want(book.sent(parts));
  hint(why.length ? `Trued up: ${why.join("; ")}.` : snapsOff(event) ? "Free hand." : "Free.");
  later();
}

export function dropped() {
  const { parts, one, far } = drag;
  drag = null;
  state.moving = false;
  if (!far) return;
  const now = handleList(book).find((each) => each.key === one.key);
  state.said = now?.name ?? "";
  tell(book.parts, parts);
}

// Arrow keys: one step of the plan's tape; Shift a large one, Alt a small one.
export function nudge(one, key, event) {
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

export function cancelDrag() { if (drag) { book.parts = drag.parts; drag = null; state.moving = false; trials.want(book.sent()); later(); } }
