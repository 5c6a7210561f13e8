// Where the sketch's letters go, so that none lies on another: each text knows the places it would take, the dearest
// first, and has the first that is free. Pure: pixels in, pixels out, y down.

import { middleOf, minus, plus, unitOf } from "./editor_measure.js";

const SHARES = [0.5, 0.36, 0.64, 0.22, 0.78, 0.1, 0.9];
const ROUND = [0, 0.7, -0.7, 1.4, -1.4, Math.PI];
const TURNS = 5;
const AIR = 6;
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

// How deep a room lies in others; asked thousands of times while something is dragged.
function crowding(room, taken) {
  let sum = 0;
  for (const one of room) {
    let most = 0;
    for (const other of taken) {
      const reach = one.r + other.r, x = one.x - other.x, y = one.y - other.y;
      if (x < reach && x > -reach && y < reach && y > -reach) most = Math.max(most, reach - Math.sqrt(x * x + y * y));
    }
    sum += most;
  }
  return sum;
}

// How far a room runs out of the sheet, where its letters would be cut.
const past = (room, { width, height }) => room.reduce((most, { x, y, r }) => Math.max(most, r - x, x + r - width, r - y, y + r - height), 0);

// The place of a text that is least crowded, the first free one if there is one; what lies on letters or is cut cannot be read.
function dearest(text, marks, letters, sheet) {
  let best = null;
  for (const place of text.places) {
    const room = roomAt(place, text), unread = crowding(room, letters) + past(room, sheet);
    const over = crowding(room, marks) + 4 * unread;
    if (!best || over < best.over) best = { place, room, over, unread };
    if (!over) break;
  }
  return best;
}

// Every text at its dearest place, one after another; who found no free one stands among `crowded`.
function inTurn(texts, marks, sheet) {
  const found = {}, letters = [], crowded = [];
  let over = 0;
  for (const text of texts) {
    const best = dearest(text, marks, letters, sheet), left = text.spare ? best.over : best.unread;
    found[text.key] = left ? null : best.place;
    if (!left) letters.push(...best.room);
    if (text.spare || !best.over) continue;
    over += best.over;
    crowded.push(text);
  }
  return { found, crowded, over };
}

const seen = (text, { width, height }) => text.places.some(({ x, y }) => x > 0 && y > 0 && x < width && y < height);

// By key the place of each text on the sheet; null for one that could not be read there (it comes when looked at nearer),
// and for one that may be spared and has no free place.
// Who finds none comes first in the next turn, so that those with more to choose from make room.
//   texts: [{ key, wide, high, places: [{ x, y, turn }], spare }]; taken: [{ x, y, r }] what no letter may lie on;
//   sheet: { width, height }
export function settled(texts, taken, sheet) {
  let order = texts.filter((text) => seen(text, sheet)), last = inTurn(order, taken, sheet), best = last;
  for (let turn = 1; turn < TURNS && last.crowded.length; turn += 1) {
    order = [...last.crowded, ...order.filter((text) => !last.crowded.includes(text))];
    last = inTurn(order, taken, sheet);
    if (last.over < best.over) best = last;
  }
  return { ...Object.fromEntries(texts.map((text) => [text.key, null])), ...best.found };
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

// Lines of letters as tall and as wide as they are drawn, with a little air; `letters` knows them: { em, wide(line) }.
const size = (lines, letters) => ({ wide: Math.max(...lines.map(letters.wide)) + AIR, high: lines.length * letters.em });

// Beside a line from a to b: outside in the middle, else nearer to its ends, else inside, else farther off; `gap` is kept free.
export function besideLine(key, lines, { a, b, out, gap, first = 1 }, letters) {
  const box = size(lines, letters), turn = upright(unitOf(minus(b, a)));
  const off = (more) => [first, -first].flatMap((side) => SHARES.map((share) =>
    ({ ...plus(plus(a, minus(b, a), share), out, side * (gap + more + box.high / 2)), turn })));
  return { key, lines, ...box, places: [...off(0), ...off(letters.em)] };
}

// Around a point, away from the plot first.
export function aroundPoint(key, lines, { at, away }, letters) {
  const start = Math.atan2(away.y, away.x), far = 8 + letters.em * 0.62;
  const places = ROUND.map((more) => ({ x: at.x + Math.cos(start + more) * far, y: at.y + Math.sin(start + more) * far }));
  return { key, lines, ...size(lines, letters), places };
}

// Above or below a ring in its middle or at its ends, inside it, beside it; else farther above or below.
export function besideRing(key, lines, ring, letters) {
  const box = size(lines, letters), middle = middleOf(ring);
  const xs = ring.map((at) => at.x), ys = ring.map((at) => at.y);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const half = box.wide / 2, over = 7 + box.high / 2, aside = 9 + half;
  const rows = (more) => [middle.x, left + half, right - half].flatMap((x) => [{ x, y: top - over - more }, { x, y: bottom + over + more }]);
  return { key, lines, ...box, places: [
    ...rows(0), { x: middle.x, y: middle.y + 5 + over }, { x: middle.x, y: middle.y - 5 - over },
    { x: left - aside, y: middle.y }, { x: right + aside, y: middle.y }, ...rows(letters.em),
  ] };
}

// Beside one of the stretches of a path.
export function besidePath(key, lines, points, letters) {
  const box = size(lines, letters);
  const places = points.slice(1).flatMap((end, n) => SHARES.flatMap((share) => {
    const at = plus(points[n], minus(end, points[n]), share);
    return [1, -1].map((side) => ({ x: at.x + side * (8 + box.wide / 2), y: at.y - 6 }));
  }));
  return { key, lines, ...box, places };
}

// On a contour at either end or at a bend of it, inside the sheet; left out where it would lie on something.
export function onContour(key, lines, points, { width, height }, letters) {
  const box = size(lines, letters);
  const inside = points.filter((at) => at.x > -box.wide && at.x < width && at.y > box.high && at.y < height).sort((a, b) => a.x - b.x);
  const order = [inside[0], inside.at(-1), ...inside.slice(1, -1)].filter(Boolean);
  const fit = (x) => Math.min(width - box.wide / 2 - 4, Math.max(box.wide / 2 + 4, x));
  return { key, lines, ...box, spare: true, places: order.map((at, n) => ({ x: fit(at.x + (n === 1 ? -1 : 1) * box.wide / 2), y: at.y - 2 - box.high / 2 })) };
}

// Beyond the back of a bank, farther off where that is taken.
export function beyond(key, lines, { at, way }, letters) {
  const box = size(lines, letters), aside = Math.abs(way.x) * box.wide / 2 + Math.abs(way.y) * box.high / 2;
  return { key, lines, ...box, places: [0, 1.2, 2.4].map((more) => plus(at, way, 8 + aside + more * letters.em)) };
}
