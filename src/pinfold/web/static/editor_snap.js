// Where a dragged thing wants to go: square to its neighbors, in line with others, whole units, round lengths.
// Pure: points in meters in, a point and the reasons for it out. What is farther than `reach` never pulls.

import { along, between, cross, dot, leftOf, minus, plus, size, unitOf } from "./editor_measure.js";

const RANK = { square: 0, line: 1, unit: 2, round: 3 };

// A corner between two neighbors.
//   around: { before, after, beforeBefore, afterAfter } each {x, y} or null
//   others: [{x, y, name}] to line up with; unit: {before, after} length of a wall unit in meters or null
export function snapCorner(raw, { around = {}, others = [], unit = {}, round = 0, reach = 0, off = false }) {
  if (off || !(reach > 0)) return { x: raw.x, y: raw.y, why: [] };
  return settle(raw, [...squares(raw, around), ...inLine(raw, others), ...lengths(raw, around, unit, round)], reach);
}

// A free point: in line with others, or on round distances from nothing.
export function snapPoint(raw, { others = [], reach = 0, off = false }) {
  if (off || !(reach > 0)) return { x: raw.x, y: raw.y, why: [] };
  return settle(raw, inLine(raw, others), reach);
}

// A place along a side for something of a width: its edges on units, its middle on the side's, round lengths.
export function snapAlong(raw, { length, width = 0, unit = null, round = 0, reach = 0, off = false }) {
  if (off || !(reach > 0)) return { at: raw, why: [] };
  const wanted = [{ at: (length - width) / 2, rank: 0, says: "middle of the side" }];
  for (const [step, says, rank] of unitSteps(unit)) {
    wanted.push({ at: Math.round(raw / step) * step, rank, says });
    wanted.push({ at: length - width - Math.round((length - width - raw) / step) * step, rank, says: `${says} from the far end` });
  }
  if (round) wanted.push({ at: Math.round(raw / round) * round, rank: 4, says: "round length" });
  const near = wanted.filter((one) => Math.abs(one.at - raw) <= reach && one.at >= 0 && one.at + width <= length + 1e-9);
  near.sort((a, b) => a.rank - b.rank || Math.abs(a.at - raw) - Math.abs(b.at - raw));
  return near.length ? { at: near[0].at, why: [near[0].says] } : { at: raw, why: [] };
}

const unitSteps = (unit) => unit ? [[unit, "whole units", 1], [unit / 2, "half units", 2]] : [];

function squares(raw, { before, after, beforeBefore, afterAfter }) {
  const found = [];
  if (before && beforeBefore && between(before, beforeBefore) > 1e-9) {
    found.push(line(before, leftOf(minus(before, beforeBefore)), "square", "square to the side before"));
  }
  if (after && afterAfter && between(after, afterAfter) > 1e-9) {
    found.push(line(after, leftOf(minus(afterAfter, after)), "square", "square to the side after"));
  }
  if (before && after && between(before, after) > 1e-9) {
    const center = { x: (before.x + after.x) / 2, y: (before.y + after.y) / 2 };
    found.push({ kind: "circle", center, radius: between(before, after) / 2, rank: RANK.square, says: "square corner" });
  }
  return found;
}

function inLine(raw, others) {
  return others.flatMap((one) => [
    line(one, { x: 0, y: 1 }, "line", `in line with ${one.name}`),
    line(one, { x: 1, y: 0 }, "line", `in line with ${one.name}`),
  ]);
}

function lengths(raw, { before, after }, unit, round) {
  const found = [];
  for (const [neighbor, own, which] of [[before, unit.before, "side before"], [after, unit.after, "side after"]]) {
    if (!neighbor) continue;
    const far = between(raw, neighbor);
    for (const [step, says] of unitSteps(own)) {
      const radius = Math.round(far / step) * step;
      if (radius > 0) found.push({ kind: "circle", center: neighbor, radius, says: `${says}, ${which}`, rank: RANK.unit + (step < own ? 0.5 : 0) });
    }
    const radius = round ? Math.round(far / round) * round : 0;
    if (radius > 0) found.push({ kind: "circle", center: neighbor, radius, says: `round length, ${which}`, rank: RANK.round });
  }
  return found;
}

const line = (through, way, rank, says) => ({ kind: "line", through, way: unitOf(way), rank: RANK[rank], says });

// The most wanted rule within reach first; then the most wanted place on it where another rule is met as well.
function settle(raw, rules, reach) {
  const near = rules.map((rule) => ({ rule, at: nearest(rule, raw) })).filter(({ at }) => at && between(at, raw) <= reach);
  if (!near.length) return { x: raw.x, y: raw.y, why: [] };
  near.sort((a, b) => a.rule.rank - b.rule.rank || between(a.at, raw) - between(b.at, raw));
  const first = near[0];
  const meets = near.slice(1).flatMap(({ rule }) => crossings(first.rule, rule).map((at) => ({ rule, at })))
    .filter(({ at }) => between(at, raw) <= reach * 1.5);
  meets.sort((a, b) => a.rule.rank - b.rule.rank || between(a.at, raw) - between(b.at, raw));
  if (!meets.length) return { ...first.at, why: [first.rule.says] };
  const at = meets[0].at;
  const why = [first.rule.says, ...near.slice(1).filter(({ rule }) => off(rule, at) < 1e-6).map(({ rule }) => rule.says)];
  const said = [...new Set(why)].filter((one) => !why.includes(one.replace("half units", "whole units")) || !one.startsWith("half units"));
  return { x: at.x, y: at.y, why: said.slice(0, 3) };
}

const off = (rule, point) => { const at = nearest(rule, point); return at ? between(at, point) : Infinity; };

function nearest(rule, point) {
  if (rule.kind === "line") return plus(rule.through, rule.way, dot(minus(point, rule.through), rule.way));
  const out = minus(point, rule.center);
  return size(out) < 1e-9 ? null : plus(rule.center, unitOf(out), rule.radius);
}

function crossings(one, other) {
  if (one.kind === "line" && other.kind === "line") {
    const turn = cross(one.way, other.way);
    if (Math.abs(turn) < 1e-6) return [];
    return [plus(one.through, one.way, cross(minus(other.through, one.through), other.way) / turn)];
  }
  if (one.kind === "circle" && other.kind === "circle") return circles(one, other);
  const [straight, circle] = one.kind === "line" ? [one, other] : [other, one];
  const foot = nearest(straight, circle.center);
  const half = circle.radius ** 2 - between(foot, circle.center) ** 2;
  return half < 0 ? [] : [1, -1].map((sign) => plus(foot, straight.way, sign * Math.sqrt(half)));
}

function circles(one, other) {
  const apart = between(one.center, other.center);
  if (apart < 1e-9) return [];
  const reach = (apart ** 2 + one.radius ** 2 - other.radius ** 2) / (2 * apart);
  const half = one.radius ** 2 - reach ** 2;
  if (half < 0) return [];
  const way = unitOf(minus(other.center, one.center));
  return [1, -1].map((sign) => plus(plus(one.center, way, reach), leftOf(way), sign * Math.sqrt(half)));
}

export { along };
