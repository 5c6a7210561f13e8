// Where the sketch's letters go, so that none lies on another: each text knows the places it would take, the dearest
// first, and has the first that is free. Pure: pixels in, pixels out, y down.

import { middleOf, minus, plus, unitOf } from "./editor_measure.js";

const SHARES = [0.5, 0.36, 0.64, 0.22, 0.78];
const ROUND = [0, 0.7, -0.7, 1.4, -1.4, Math.PI];
const MARK_ROOM = { corner: 9, neighbor: 9, footprint: 5, line: 7, spot: 8 };

// The room a text takes at a place: a row of discs along it.
function roomAt({ x, y, turn = 0 }, { wide, high }) {
  const r = high / 2, half = Math.max(0, wide / 2 - r);
  const count = Math.max(1, Math.ceil(2 * half / r));
  return Array.from({ length: count + 1 }, (_, n) => {
    const at = half * (2 * n / count - 1);
    return { x: x + Math.cos(turn) * at, y: y + Math.sin(turn) * at, r };
  });
}

const crowding = (room, taken) => room.reduce((sum, one) => sum
  + taken.reduce((most, other) => Math.max(most, one.r + other.r - Math.hypot(one.x - other.x, one.y - other.y)), 0), 0);

// By key the place of each text, the least crowded where none is free; null for one that may be spared then.
//   texts: [{ key, wide, high, places: [{ x, y, turn }], spare }]; taken: [{ x, y, r }] what no letter may lie on
export function settled(texts, taken = []) {
  const found = {}, full = [...taken];
  for (const text of texts) {
    let best = null;
    for (const place of text.places) {
      const room = roomAt(place, text), over = crowding(room, full);
      if (!best || over < best.over) best = { place, room, over };
      if (!over) break;
    }
    const spared = !best || (text.spare && best.over > 0);
    found[text.key] = spared ? null : best.place;
    if (!spared) full.push(...best.room);
  }
  return found;
}

// A row of discs along a line, for walls and edges.
export function along(a, b, r) {
  const far = minus(b, a), count = Math.max(1, Math.ceil(Math.hypot(far.x, far.y) / (2 * r)));
  return Array.from({ length: count + 1 }, (_, n) => ({ ...plus(a, far, n / count), r }));
}

export const markRoom = (one, at) => ({ ...at, r: MARK_ROOM[one.kind] });

// Readable from below or from the right.
function upright(way) {
  const turn = Math.atan2(way.y, way.x);
  if (turn > Math.PI / 2 - 0.01) return turn - Math.PI;
  return turn < -Math.PI / 2 - 0.01 ? turn + Math.PI : turn;
}

const size = (lines, em) => ({ wide: Math.max(...lines.map((line) => line.length)) * em * 0.5, high: lines.length * em });

// Beside a line from a to b: outside in the middle, else nearer to its ends, else inside; `gap` is kept free.
export function besideLine(key, lines, { a, b, out, gap, first = 1 }, em) {
  const box = size(lines, em), turn = upright(unitOf(minus(b, a)));
  const places = [first, -first].flatMap((side) => SHARES.map((share) =>
    ({ ...plus(plus(a, minus(b, a), share), out, side * (gap + box.high / 2)), turn })));
  return { key, lines, ...box, places };
}

// Around a point, away from the plot first.
export function aroundPoint(key, lines, { at, away }, em) {
  const start = Math.atan2(away.y, away.x), far = 8 + em * 0.75;
  const places = ROUND.map((more) => ({ x: at.x + Math.cos(start + more) * far, y: at.y + Math.sin(start + more) * far }));
  return { key, lines, ...size(lines, em * 1.2), places };
}

// Above a ring, else below, beside or inside it.
export function besideRing(key, lines, ring, em) {
  const box = size(lines, em), middle = middleOf(ring);
  const xs = ring.map((at) => at.x), ys = ring.map((at) => at.y);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const over = 7 + box.high / 2, aside = 9 + box.wide / 2;
  return { key, lines, ...box, places: [
    { x: middle.x, y: top - over }, { x: middle.x, y: bottom + over }, { x: middle.x, y: middle.y + 12 + box.high / 2 },
    { x: middle.x, y: middle.y - 12 - box.high / 2 }, { x: left - aside, y: middle.y }, { x: right + aside, y: middle.y },
  ] };
}

// Beside one of the stretches of a path.
export function besidePath(key, lines, points, em) {
  const box = size(lines, em);
  const places = points.slice(1).flatMap((end, n) => SHARES.flatMap((share) => {
    const at = plus(points[n], minus(end, points[n]), share);
    return [1, -1].map((side) => ({ x: at.x + side * (8 + box.wide / 2), y: at.y - 6 }));
  }));
  return { key, lines, ...box, places };
}

// On a contour at either end or at a bend of it, inside the sheet; left out where it would lie on something.
export function onContour(key, lines, points, { width, height, em }) {
  const box = size(lines, em * 0.92);
  const inside = points.filter((at) => at.x > -box.wide && at.x < width && at.y > box.high && at.y < height).sort((a, b) => a.x - b.x);
  const order = [inside[0], inside.at(-1), ...inside.slice(1, -1)].filter(Boolean);
  const fit = (x) => Math.min(width - box.wide / 2 - 4, Math.max(box.wide / 2 + 4, x));
  return { key, lines, ...box, spare: true, places: order.map((at, n) => ({ x: fit(at.x + (n === 1 ? -1 : 1) * box.wide / 2), y: at.y - 2 - box.high / 2 })) };
}

// Beyond the back of a bank, farther off where that is taken.
export function beyond(key, lines, { at, way }, em) {
  const box = size(lines, em), aside = Math.abs(way.x) * box.wide / 2 + Math.abs(way.y) * box.high / 2;
  return { key, lines, ...box, places: [0, 1.2, 2.4].map((more) => plus(at, way, 8 + aside + more * em)) };
}
