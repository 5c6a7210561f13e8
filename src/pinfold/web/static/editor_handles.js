// What can be taken hold of: where it is, what it is called, the mark it has. Meters in, marks in pixels.

import { areaOf, between, leftOf, middleOf, minus, plus, tape, unitOf } from "./editor_measure.js";

export const disc = (at, r) => `M${(at.x - r).toFixed(1)} ${at.y.toFixed(1)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
const box = (at, r) => `M${(at.x - r).toFixed(1)} ${(at.y - r).toFixed(1)}h${2 * r}v${2 * r}h${-2 * r}Z`;

// A corner is a driven peg: a ring with its nail; a point of a footprint a small square; of a buried line a cross.
export const MARKS = {
  corner: (at) => disc(at, 7) + disc(at, 1.6),
  neighbor: (at) => box(at, 6),
  footprint: (at) => box(at, 3.5),
  line: (at) => `M${at.x - 5} ${at.y - 5}l10 10m0 -10l-10 10`,
  spot: (at) => `M${at.x} ${at.y}l-5 -8h10Z`,
};
export const gateMark = (a, b, way) => {
  const side = { x: -way.y * 6, y: way.x * 6 };
  const tick = (at) => `M${(at.x - side.x).toFixed(1)} ${(at.y - side.y).toFixed(1)}l${(2 * side.x).toFixed(1)} ${(2 * side.y).toFixed(1)}`;
  return `M${a.x.toFixed(1)} ${a.y.toFixed(1)}L${b.x.toFixed(1)} ${b.y.toFixed(1)}${tick(a)}${tick(b)}`;
};

// A side that fails is bitten all along: a row of teeth outside of it.
export function teeth(a, b, way, out) {
  const count = Math.max(2, Math.floor(between(a, b) / 11));
  const step = between(a, b) / count;
  const parts = [`M${a.x.toFixed(1)} ${a.y.toFixed(1)}`];
  for (let n = 0; n < count; n += 1) {
    const top = plus(plus(a, way, (n + 0.5) * step), { x: out.x, y: -out.y }, 8), foot = plus(a, way, (n + 1) * step);
    parts.push(`L${top.x.toFixed(1)} ${top.y.toFixed(1)}L${foot.x.toFixed(1)} ${foot.y.toFixed(1)}`);
  }
  return parts.join("");
}

export function verdictOf(one, answer) {
  if (one.kind === "side") return answer.findings?.by_side[one.label] ?? "";
  if (one.kind === "gate") return answer.findings?.by_gate[one.label] ?? "";
  return "";
}

// Everything that can be taken hold of, in the order that Tab goes: around the plot, then gates, then what is there.
export function handleList(book) {
  const { parts, system } = book;
  const ring = parts.corner.map((_, n) => book.corner(n));
  const inward = areaOf(ring) > 0 ? 1 : -1;
  const outOf = (a, b) => { const left = leftOf(unitOf(minus(b, a))); return { x: -left.x * inward, y: -left.y * inward }; };
  const list = [];
  const show = (at) => `x ${tape(at.x, system)}, y ${tape(at.y, system)}`;
  const center = ring.length ? middleOf(ring) : { x: 0, y: 0 };
  parts.side.forEach((side, n) => {
    const [a, b] = book.ends(side);
    if (!a || !b) return;
    const text = tape(between(a, b), system);
    list.push({ key: `side${side._id}`, kind: "side", number: n, ends: [a, b], at: a, out: outOf(a, b), label: side.name, text, name: `side ${side.name}, ${side.from} to ${side.to}, ${text} long` });
  });
  parts.corner.forEach((row, n) => {
    const away = unitOf(minus(ring[n], center));
    list.push({ key: `corner${row._id}`, kind: "corner", number: n, at: ring[n], away, label: row.name, name: `corner ${row.name}, ${show(ring[n])}` });
  });
  parts.gate.forEach((gate, n) => {
    const side = parts.side.find((one) => one.name === gate.side);
    const [a, b] = side ? book.ends(side) : [];
    if (!a || !b) return;
    const way = unitOf(minus(b, a)), start = plus(a, way, book.m(gate.at)), end = plus(start, way, book.m(gate.width));
    list.push({ key: `gate${gate._id}`, kind: "gate", number: n, ends: [start, end], at: start, out: outOf(a, b), label: gate.name, name: `gate ${gate.name}, ${tape(book.m(gate.width), system)} wide, ${tape(book.m(gate.at), system)} along ${gate.side}` });
  });
  for (const [kind, key, inner] of [["neighbor", "footprint", "footprint"], ["line", "points", "line"]]) {
    parts[kind].forEach((row, n) => {
      const points = book.points(row, key);
      if (kind === "neighbor") list.push({ key: `neighbor${row._id}`, kind: "neighbor", number: n, at: middleOf(points), label: "", name: `neighbor ${row.name}, whole` });
      points.forEach((at, which) => list.push({ key: `${kind}${row._id}.${which}`, kind: inner, of: kind, number: n, which, at, name: `${kind === "line" ? "buried line" : "neighbor"} ${row.name}, point ${which + 1}, ${show(at)}` }));
    });
  }
  (parts.ground?.points ?? []).forEach(([x, y, z], n) => {
    const at = { x: book.m(x), y: book.m(y), z: book.m(z) };
    list.push({ key: `spot${n}`, kind: "spot", number: n, at, name: `ground height ${n + 1}, ${show(at)}, height ${tape(at.z, system)}` });
  });
  return list;
}
