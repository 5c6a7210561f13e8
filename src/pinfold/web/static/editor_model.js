// The outline as the plan file has it, and every change to it as a function from one outline to the next.
// A length is the file's own text, or a number of meters once it was dragged; the server writes numbers out.

import { along, between, minus, plus, unitOf } from "./editor_measure.js";

export const KINDS = ["corner", "side", "gate", "neighbor", "line", "bank"];
let counted = 0;
const withId = (row) => ({ ...row, _id: ++counted });
const copy = (parts) => structuredClone(parts);

export class Book {
  constructor(answer) {
    this.meters = new Map();
    this.open(answer);
  }

  open(answer) {
    this.revision = answer.revision;
    this.system = answer.units;
    this.step = answer.step;
    this.buildups = answer.buildups;
    this.kinds = { gate: answer.gate_kinds, post: answer.post_kinds };
    this.learn(answer.meters);
    const given = answer.parts;
    this.parts = { ground: given.ground ?? null };
    for (const kind of KINDS) this.parts[kind] = (given[kind] ?? []).map(withId);
    this.past = [];
    this.future = [];
    this.kept();
  }

  learn(meters) { for (const [text, value] of Object.entries(meters ?? {})) this.meters.set(text, value); }

  // The plan file now is as the page has it.
  kept(revision = this.revision) {
    this.revision = revision;
    this.saved = this.parts;
    this.names = new Map(KINDS.flatMap((kind) => this.parts[kind].map((row) => [row._id, row.name])));
  }

  get dirty() { return this.saved !== this.parts; }

  m(value) { return typeof value === "number" ? value : this.meters.get(value) ?? NaN; }

  // One step that can be undone; `before` is given when a drag started from there.
  put(parts, before = this.parts) {
    if (parts === before) return;
    this.past.push(before);
    this.future = [];
    this.parts = parts;
  }

  undo() { if (this.past.length) { this.future.push(this.parts); this.parts = this.past.pop(); return true; } return false; }

  redo() { if (this.future.length) { this.past.push(this.parts); this.parts = this.future.pop(); return true; } return false; }

  sent(parts = this.parts) {
    const bare = Object.fromEntries(KINDS.map((kind) => [kind, parts[kind].map(({ _id, ...row }) => row)]));
    return { ...bare, ground: parts.ground };
  }

  renamed() {
    const found = {};
    for (const kind of KINDS) {
      for (const row of this.parts[kind]) {
        const old = this.names.get(row._id);
        if (old !== undefined && old !== row.name) (found[kind] ??= {})[row.name] = old;
      }
    }
    return found;
  }

  // --- looking ---
  corner(number, parts = this.parts) { const row = parts.corner[number]; return row && { x: this.m(row.x), y: this.m(row.y), name: row.name }; }
  spot(name, parts = this.parts) { const row = parts.corner.find((one) => one.name === name); return row ? { x: this.m(row.x), y: this.m(row.y), name } : null; }
  ends(side, parts = this.parts) { return [this.spot(side.from, parts), this.spot(side.to, parts)]; }
  length(side, parts = this.parts) { const [a, b] = this.ends(side, parts); return a && b ? between(a, b) : NaN; }
  points(row, key) { return (row?.[key] ?? []).map(([x, y, z]) => ({ x: this.m(x), y: this.m(y), z: this.m(z) })); }
  runs(side) {
    const length = this.length(side);
    const rows = side.runs ?? [{ buildup: side.buildup }];
    let start = 0;
    return rows.map((row, number) => {
      const end = number === rows.length - 1 && row.to === undefined ? length : this.m(row.to);
      const run = { ...row, start, end };
      start = end;
      return run;
    });
  }
  unit(side, at = null) {
    const runs = this.runs(side);
    const run = at === null ? runs[0] : runs.find((one) => at <= one.end) ?? runs.at(-1);
    return this.buildups.find((one) => one.name === run?.buildup)?.unit ?? null;
  }

  // --- changing: each gives new parts ---
  set(kind, number, values, parts = this.parts) {
    const rows = parts[kind].map((row, n) => n === number ? trimmed({ ...row, ...values }) : row);
    return { ...parts, [kind]: rows };
  }

  moveCorner(number, at, parts = this.parts) {
    const row = parts.corner[number];
    return this.set("corner", number, { x: this.near(row.x, at.x), y: this.near(row.y, at.y) }, parts);
  }

  // The text that stands there while it still says the same, else meters to the plan's step.
  near(old, value) {
    const whole = Math.round(value / this.step) * this.step;
    return Math.abs(this.m(old) - whole) < this.step / 100 ? old : whole;
  }

  movePoint(kind, key, number, which, at, parts = this.parts) {
    const rows = parts[kind][number][key].map((point, n) => n === which ? [this.near(point[0], at.x), this.near(point[1], at.y)] : point);
    return this.set(kind, number, { [key]: rows }, parts);
  }

  moveAll(kind, key, number, by, parts = this.parts) {
    const rows = parts[kind][number][key].map(([x, y]) => [this.near(x, this.m(x) + by.x), this.near(y, this.m(y) + by.y)]);
    return this.set(kind, number, { [key]: rows }, parts);
  }

  moveSpot(number, at, parts = this.parts) {
    const points = parts.ground.points.map((point, n) => n === number
      ? [this.near(point[0], at.x ?? this.m(point[0])), this.near(point[1], at.y ?? this.m(point[1])), at.z ?? point[2]] : point);
    return { ...parts, ground: { ...parts.ground, points } };
  }

  addSpot(at, z, parts = this.parts) {
    return { ...parts, ground: { ...(parts.ground ?? {}), points: [...(parts.ground?.points ?? []), [this.near(null, at.x), this.near(null, at.y), z]] } };
  }

  rename(kind, number, name) {
    const old = this.parts[kind][number].name;
    const parts = copy(this.set(kind, number, { name }));
    if (kind === "corner") for (const side of parts.side) for (const end of ["from", "to"]) if (side[end] === old) side[end] = name;
    if (kind === "side") for (const row of [...parts.gate, ...parts.bank]) if (row.side === old) row.side = name;
    if (kind === "neighbor") for (const side of parts.side) for (const run of side.runs ?? []) if (run.neighbor === old) run.neighbor = name;
    return parts;
  }

  free(kind, wanted) {
    const taken = new Set(this.parts[kind].map((row) => row.name));
    if (!taken.has(wanted)) return wanted;
    for (let n = 2; ; n += 1) if (!taken.has(`${wanted} ${n}`)) return `${wanted} ${n}`;
  }

  letter(taken = new Set(this.parts.corner.map((row) => row.name))) {
    for (let n = 0; ; n += 1) {
      const name = (n >= 26 ? String.fromCharCode(64 + Math.floor(n / 26)) : "") + String.fromCharCode(65 + n % 26);
      if (!taken.has(name)) return name;
    }
  }

  newPlot(points) {
    const parts = copy(this.parts);
    const taken = new Set();
    parts.corner = points.map((at) => {
      const name = this.letter(taken);
      taken.add(name);
      return withId({ name, x: this.near(null, at.x), y: this.near(null, at.y) });
    });
    const buildup = this.parts.side.find((side) => side.buildup)?.buildup ?? this.buildups[0]?.name ?? "";
    parts.side = parts.corner.map((corner, n) => {
      const next = parts.corner[(n + 1) % parts.corner.length];
      return withId({ name: `${corner.name} to ${next.name}`, from: corner.name, to: next.name, buildup });
    });
    parts.gate = [];
    parts.bank = [];
    return parts;
  }

  splitSide(number, at) {
    const parts = copy(this.parts);
    const side = parts.side[number];
    const [start, end] = this.ends(side);
    const spot = plus(start, unitOf(minus(end, start)), at);
    const name = this.letter();
    const corner = withId({ name, x: this.near(null, spot.x), y: this.near(null, spot.y) });
    parts.corner.splice(parts.corner.findIndex((row) => row.name === side.from) + 1, 0, corner);
    const [first, last] = this.cut(side, at);
    parts.side.splice(number, 1, { ...bareRuns(side), to: name, ...first },
      withId({ ...bareRuns(side), name: this.free("side", side.name), from: name, ...last }));
    for (const gate of parts.gate) {
      if (gate.side === side.name && this.m(gate.at) >= at) { gate.side = parts.side[number + 1].name; gate.at = this.m(gate.at) - at; }
    }
    parts.bank = parts.bank.flatMap((bank) => bank.side === side.name ? this.cutBank(bank, at, parts.side[number + 1].name) : [bank]);
    return parts;
  }

  cutBank(bank, at, beyond) {
    const from = this.m(bank.from ?? 0), to = this.m(bank.to);
    if (to <= at) return [bank];
    const past = { ...bank, side: beyond, from: Math.max(0, from - at), to: to - at };
    return from >= at ? [past] : [{ ...bank, to: at }, withId({ ...past, name: this.free("bank", bank.name) })];
  }

  cut(side, at) {
    if (!side.runs) return [{ buildup: side.buildup }, { buildup: side.buildup }];
    const runs = this.runs(side);
    const own = (run, to) => trimmed({ to, buildup: run.buildup, neighbor: run.neighbor });
    const low = runs.filter((run) => run.start < at), high = runs.filter((run) => run.end > at);
    const told = (list, from) => list.length === 1 && list[0].buildup
      ? { buildup: list[0].buildup }
      : { runs: list.map((run, n) => own(run, n === list.length - 1 ? undefined : run.end - from)) };
    return [told(low, 0), told(high, at)];
  }

  removeCorner(number) {
    const name = this.parts.corner[number].name;
    const parts = copy(this.parts);
    const into = parts.side.findIndex((side) => side.to === name), out = parts.side.findIndex((side) => side.from === name);
    const closed = parts.side.length > 2 && parts.side.at(-1).to === parts.side[0].from;
    if (parts.corner.length <= (closed ? 3 : 2)) return null;
    parts.corner.splice(number, 1);
    if (into < 0 || out < 0) {
      const gone = parts.side[Math.max(into, out)];
      if (gone) { parts.side = parts.side.filter((side) => side !== gone); for (const kind of ["gate", "bank"]) parts[kind] = parts[kind].filter((row) => row.side !== gone.name); }
      return parts;
    }
    const before = parts.side[into], after = parts.side[out];
    const length = this.length(before, this.parts);
    before.to = after.to;
    if (before.runs) delete before.runs.at(-1).to;
    parts.side.splice(out, 1);
    const long = this.length(before, parts);
    for (const gate of parts.gate) {
      if (gate.side !== after.name) continue;
      gate.side = before.name;
      gate.at = Math.max(0.3, Math.min(this.m(gate.at) + length, long - this.m(gate.width) - 0.3));
    }
    for (const bank of parts.bank) {
      if (bank.side !== after.name) continue;
      Object.assign(bank, { side: before.name, from: Math.min(this.m(bank.from ?? 0) + length, long - 0.1), to: Math.min(this.m(bank.to) + length, long) });
    }
    return parts;
  }

  // Lets the last corner of a side go so far from its first, and the side turn so much from the one before.
  stretchSide(number, length) {
    const side = this.parts.side[number];
    const [start, end] = this.ends(side);
    const at = plus(start, unitOf(minus(end, start)), length);
    return this.moveCorner(this.parts.corner.findIndex((row) => row.name === side.to), at);
  }

  turnSide(number, degrees) {
    const side = this.parts.side[number];
    const before = this.parts.side.find((one) => one.to === side.from);
    if (!before) return null;
    const [start, end] = this.ends(side), from = this.spot(before.from);
    const way = unitOf(minus(start, from)), angle = degrees * Math.PI / 180, long = between(start, end);
    const at = plus(start, { x: way.x * Math.cos(angle) - way.y * Math.sin(angle), y: way.x * Math.sin(angle) + way.y * Math.cos(angle) }, long);
    return this.moveCorner(this.parts.corner.findIndex((row) => row.name === side.to), at);
  }

  addGate(side, at) {
    const like = this.parts.gate[0];
    const us = this.system === "us";
    const usual = us
      ? { width: "3 ft", height: "5 ft", hinges: "left", swing: "in", kind: "steel-frame-mesh", post: "pipe-2in", embed: "3 ft 6 in", collar: "12 in" }
      : { width: "1 m", height: "1.5 m", hinges: "left", swing: "in", kind: "steel-frame-mesh-50x50", post: "pipe-60", embed: "1.1 m", collar: "35 cm" };
    for (const [text, value] of US_AND_METRIC) this.meters.set(text, value);
    const { _id, name, leaves, leaf_mass, hinge_capacity, ...rest } = like ?? usual;
    const row = { ...usual, ...rest, name: this.free("gate", "gate"), side: side.name };
    if (leaves === 2) Object.assign(row, { hinges: "left", width: usual.width });
    row.at = this.near(null, Math.max(0, Math.min(at, this.length(side) - this.m(row.width))));
    return { ...this.parts, gate: [...this.parts.gate, withId(row)] };
  }

  addNeighbor(a, b) {
    const us = this.system === "us";
    const ring = [[a.x, a.y], [b.x, a.y], [b.x, b.y], [a.x, b.y]].map(([x, y]) => [this.near(null, x), this.near(null, y)]);
    this.meters.set(us ? "8 ft" : "2.5 m", us ? 2.4384 : 2.5);
    const row = { name: this.free("neighbor", "neighbor"), says: "", height: us ? "8 ft" : "2.5 m", footprint: ring };
    return { ...this.parts, neighbor: [...this.parts.neighbor, withId(row)] };
  }

  addLine(points) {
    const us = this.system === "us";
    for (const [text, value] of US_AND_METRIC) this.meters.set(text, value);
    const row = {
      name: this.free("line", "line"), carries: "water", depth: us ? "2 ft" : "60 cm", clearance: us ? "12 in" : "30 cm", located: false,
      points: points.map((at) => [this.near(null, at.x), this.near(null, at.y)]),
    };
    return { ...this.parts, line: [...this.parts.line, withId(row)] };
  }

  cutRun(number, at) {
    const side = this.parts.side[number];
    const runs = this.runs(side);
    const rows = runs.flatMap((run, n) => {
      const last = n === runs.length - 1;
      const row = (to) => trimmed({ to, buildup: run.buildup, neighbor: run.neighbor });
      const own = last ? undefined : side.runs ? side.runs[n].to : run.end;
      return run.start < at && at < run.end ? [row(this.near(null, at)), row(own)] : [row(own)];
    });
    return this.set("side", number, { buildup: undefined, runs: rows });
  }

  setRun(number, which, values) {
    const side = this.parts.side[number];
    if (!side.runs && values.buildup !== undefined) return this.set("side", number, values);
    const rows = (side.runs ?? [{ buildup: side.buildup }]).map((row, n) => n === which ? trimmed({ ...row, ...values }) : row);
    return this.set("side", number, { runs: rows, buildup: undefined });
  }

  dropRun(number, which) {
    const rows = this.parts.side[number].runs.filter((_, n) => n !== which).map((row) => ({ ...row }));
    if (which === rows.length) delete rows.at(-1).to;
    const alone = rows.length === 1 && rows[0].buildup;
    return this.set("side", number, alone ? { runs: undefined, buildup: rows[0].buildup } : { runs: rows });
  }

  remove(kind, number, which = null) {
    if (kind === "corner") return this.removeCorner(number);
    if (kind === "spot") {
      const points = this.parts.ground.points.filter((_, n) => n !== number);
      return { ...this.parts, ground: points.length ? { ...this.parts.ground, points } : null };
    }
    const key = kind === "neighbor" ? "footprint" : "points";
    const row = this.parts[kind]?.[number];
    if (which !== null && row?.[key]?.length > (kind === "neighbor" ? 3 : 2)) {
      return this.set(kind, number, { [key]: row[key].filter((_, n) => n !== which) });
    }
    if (kind === "side") return null;
    return { ...this.parts, [kind]: this.parts[kind].filter((_, n) => n !== number) };
  }
}

const US_AND_METRIC = [
  ["3 ft", 0.9144], ["5 ft", 1.524], ["3 ft 6 in", 1.0668], ["12 in", 0.3048], ["1 m", 1], ["1.5 m", 1.5], ["1.1 m", 1.1], ["35 cm", 0.35],
  ["2 ft", 0.6096], ["60 cm", 0.6], ["30 cm", 0.3],
];

const trimmed = (row) => Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined));
const bareRuns = ({ runs, buildup, ...row }) => row;
export { along };
