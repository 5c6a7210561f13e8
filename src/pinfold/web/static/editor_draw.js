// The sketch: squared paper, ground, what is built, and a handle for everything that can be moved. Meters, y up.

import { areaOf, between, leftOf, middleOf, minus, plus, tape, unitOf } from "./editor_measure.js";

const NS = "http://www.w3.org/2000/svg";
const WORD = { FAILS: "fails", "NOT SHOWN": "not shown", HOLDS: "holds" };

export function svg(name, attributes = {}, ...inside) {
  const made = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(attributes)) if (value !== null) made.setAttribute(key, value);
  made.append(...inside);
  return made;
}

export function set(element, attributes) {
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null) element.removeAttribute(key);
    else if (element.getAttribute(key) !== String(value)) element.setAttribute(key, value);
  }
}

// Keeps one element for each key, in order, so that what has the focus keeps it.
export function keep(group, list, key, make, update) {
  const old = new Map([...group.children].map((child) => [child.dataset.key, child]));
  let place = null;
  for (const one of list) {
    const name = key(one);
    let child = old.get(name);
    if (!child) { child = make(one); child.dataset.key = name; }
    old.delete(name);
    const wanted = place ? place.nextSibling : group.firstChild;
    if (child !== wanted) {
      const focused = child.contains(document.activeElement);
      group.insertBefore(child, wanted);
      if (focused) child.focus({ preventScroll: true });
    }
    update(child, one);
    place = child;
  }
  for (const child of old.values()) child.remove();
}

const path = (points, closed = false) => points.length ? `M${points.map(([x, y]) => `${x} ${y}`).join("L")}${closed ? "Z" : ""}` : "";

export class View {
  constructor(element) {
    this.element = element;
    this.center = { x: 0, y: 0 };
    this.scale = 20;
    this.fitted = false;
    this.measure();
  }
  measure() {
    const box = this.element.getBoundingClientRect();
    this.width = Math.max(box.width, 50);
    this.height = Math.max(box.height, 50);
    set(this.element, { viewBox: `0 0 ${this.width} ${this.height}` });
    this.em = parseFloat(getComputedStyle(document.documentElement).fontSize) * 0.88;
  }
  px(at) { return { x: (at.x - this.center.x) * this.scale + this.width / 2, y: (this.center.y - at.y) * this.scale + this.height / 2 }; }
  world(x, y) { return { x: (x - this.width / 2) / this.scale + this.center.x, y: this.center.y - (y - this.height / 2) / this.scale }; }
  of(event) { const box = this.element.getBoundingClientRect(); return this.world(event.clientX - box.left, event.clientY - box.top); }
  zoom(times, at = this.center) {
    const scale = Math.min(600, Math.max(1.5, this.scale * times));
    const share = this.scale / scale;
    this.center = { x: at.x + (this.center.x - at.x) * share, y: at.y + (this.center.y - at.y) * share };
    this.scale = scale;
  }
  fit(points) {
    const known = points.filter((at) => Number.isFinite(at.x) && Number.isFinite(at.y));
    if (!known.length) { this.center = { x: 8, y: 6 }; this.scale = Math.min(this.width / 22, this.height / 18); return; }
    const xs = known.map((at) => at.x), ys = known.map((at) => at.y);
    const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    this.center = { x: (left + right) / 2, y: (low + high) / 2 };
    this.scale = Math.min(600, Math.max(1.5, Math.min((this.width - 130) / Math.max(right - left, 2), (this.height - 150) / Math.max(high - low, 2))));
  }
  get matrix() { return `matrix(${this.scale} 0 0 ${-this.scale} ${this.width / 2 - this.center.x * this.scale} ${this.height / 2 + this.center.y * this.scale})`; }
}

export class Sketch {
  constructor(root, book, view) {
    Object.assign(this, { root, book, view });
    this.layer = Object.fromEntries(["squares", "world", "marks", "handles", "pencil"].map((name) => [name, root.querySelector(`[data-layer=${name}]`)]));
    this.world = {};
    for (const name of ["contour", "bank", "footing", "wall", "mesh", "apron", "leaf", "neighbor", "line", "post"]) {
      this.world[name] = svg("path", { class: `w-${name}` });
      this.layer.world.append(this.world[name]);
    }
  }

  draw(state) {
    this.squares();
    set(this.layer.world, { transform: this.view.matrix });
    this.ground(state.answer);
    this.built(state);
    this.labels(state);
    this.handles(state);
    this.pencil(state);
  }

  squares() {
    const { view, book } = this;
    const sizes = book.system === "us" ? [0.1524, 0.3048, 1.524, 3.048, 15.24, 30.48] : [0.1, 0.5, 1, 5, 10, 50];
    const step = sizes.find((size) => size * view.scale >= 11) ?? sizes.at(-1);
    const heavy = sizes[sizes.indexOf(step) + 1] ?? step * 5;
    const low = view.world(0, view.height), high = view.world(view.width, 0);
    const lines = (size) => {
      const parts = [];
      for (let x = Math.ceil(low.x / size) * size; x <= high.x; x += size) { const at = view.px({ x, y: 0 }).x.toFixed(1); parts.push(`M${at} 0V${view.height}`); }
      for (let y = Math.ceil(low.y / size) * size; y <= high.y; y += size) { const at = view.px({ x: 0, y }).y.toFixed(1); parts.push(`M0 ${at}H${view.width}`); }
      return parts.join("");
    };
    const [fine, bold] = this.layer.squares.children;
    set(fine, { d: lines(step) });
    set(bold, { d: lines(heavy) });
  }

  ground(answer) {
    set(this.world.contour, { d: (answer?.contours ?? []).map((line) => path(line.path)).join("") });
  }

  built({ answer, moving }) {
    const shapes = answer?.shapes;
    this.layer.world.classList.toggle("stale", Boolean(moving) || answer?.reads === false);
    if (shapes) {
      set(this.world.footing, { d: shapes.walls.map((wall) => path(wall.footing, true)).join("") });
      set(this.world.wall, { d: shapes.walls.map((wall) => path(wall.ring, true)).join("") });
      set(this.world.bank, { d: shapes.banks.map((bank) => path(bank.ring, true)).join("") });
      set(this.world.mesh, { d: shapes.mesh.map((bay) => path(bay)).join("") });
      const leaf = ([hinge, open, shut], r) => `M${hinge.join(" ")}L${open.join(" ")}A${r} ${r} 0 0 ${turned(hinge, open, shut) > 0 ? 1 : 0} ${shut.join(" ")}`;
      set(this.world.leaf, { d: shapes.gates.flatMap((gate) => gate.leaves.map((one) => leaf(one, gate.leaf))).join("") });
      const dot = ({ x, y, r }) => { const size = Math.max(r, 2.4 / this.view.scale); return `M${x - size} ${y}a${size} ${size} 0 1 0 ${2 * size} 0a${size} ${size} 0 1 0 ${-2 * size} 0`; };
      set(this.world.post, { d: shapes.posts.map(dot).join("") });
    }
    const { book } = this;
    const sound = (points) => points.every((at) => Number.isFinite(at.x + at.y));
    set(this.world.neighbor, { d: book.parts.neighbor.map((row) => book.points(row, "footprint")).filter(sound).map((ring) => path(ring.map((at) => [at.x, at.y]), true)).join("") });
    set(this.world.line, { d: book.parts.line.map((row) => book.points(row, "points")).filter(sound).map((line) => path(line.map((at) => [at.x, at.y]))).join("") });
  }

  // Names and heights, in paper space so that they stay readable.
  labels(state) {
    const { book, view } = this;
    const found = [];
    for (const line of state.answer?.contours ?? []) {
      const at = view.px({ x: line.path[0][0], y: line.path[0][1] }), end = view.px({ x: line.path.at(-1)[0], y: line.path.at(-1)[1] });
      const left = at.x < end.x ? at : end;
      found.push({ key: `z${line.z}/${left.x.toFixed()}`, x: Math.max(left.x, 6), y: left.y - 4, text: line.text, kind: "t-contour", anchor: "start" });
    }
    (state.answer?.shapes?.banks ?? []).forEach((bank, n) => {
      const [foot, back] = [[0, 1], [2, 3]].map((ends) => view.px(middleOf(ends.map((end) => ({ x: bank.ring[end][0], y: bank.ring[end][1] })))));
      const way = unitOf(minus(back, foot)), at = plus(back, way, 14);
      found.push({ key: `b${n}`, x: at.x, y: at.y + 4, text: bank.text, kind: "t-bank", anchor: way.x > .5 ? "start" : way.x < -.5 ? "end" : "middle" });
    });
    book.parts.neighbor.forEach((row, n) => {
      const ring = book.points(row, "footprint");
      const at = ring.length ? view.px({ x: middleOf(ring).x, y: Math.max(...ring.map((spot) => spot.y)) }) : null;
      if (at) found.push({ key: `n${n}`, x: at.x, y: at.y - 9, text: row.name, kind: "t-neighbor" });
    });
    book.parts.line.forEach((row, n) => {
      const points = book.points(row, "points");
      if (points.length < 2) return;
      const at = view.px({ x: (points[0].x + points[1].x) / 2, y: (points[0].y + points[1].y) / 2 });
      found.push({ key: `l${n}`, x: at.x + 8, y: at.y - 6, text: row.located ? row.name : `${row.name}: find it first`, kind: "t-line", anchor: "start" });
    });
    keep(this.layer.marks, found, (one) => one.key, () => svg("text"), (element, one) => {
      set(element, { x: one.x.toFixed(1), y: one.y.toFixed(1), class: one.kind, "text-anchor": one.anchor ?? "middle" });
      if (element.textContent !== one.text) element.textContent = one.text;
    });
  }

  handles(state) {
    const list = handleList(this.book).filter((one) => one.at && Number.isFinite(one.at.x + one.at.y));
    const make = (one) => {
      const group = svg("g", { tabindex: "0", role: "button", "data-kind": one.kind });
      group.append(svg("path", { class: "hit" }), svg("path", { class: "mark" }), svg("path", { class: "warn" }), svg("text", { class: "name" }), svg("text", { class: "size" }));
      return group;
    };
    keep(this.layer.handles, list, (one) => one.key, make, (group, one) => this.handle(group, one, state));
  }

  handle(group, one, state) {
    const picked = state.picked?.key === one.key;
    group.handle = one;
    const verdict = state.answer?.reads ? verdictOf(one, state.answer) : "";
    set(group, {
      class: `h h-${one.kind}${picked ? " picked" : ""}${verdict === "FAILS" ? " fails" : verdict === "NOT SHOWN" ? " open" : ""}`,
      "aria-label": `${one.name}${verdict ? `, ${WORD[verdict]}` : ""}`, "aria-pressed": picked ? "true" : "false",
    });
    const [hit, mark, warn, name, size] = group.children;
    if (one.kind === "side" || one.kind === "gate") this.bar(one, verdict, { hit, mark, warn, name, size });
    else this.dot(one, { hit, mark, name });
  }

  dot(one, { hit, mark, name }) {
    const at = this.view.px(one.at);
    const reach = this.reach;
    set(hit, { d: disc(at, reach) });
    set(mark, { d: MARKS[one.kind](at) });
    const away = one.away ?? { x: 1, y: 1 };
    const far = 7 + this.view.em * 0.75;
    set(name, { x: (at.x + away.x * far).toFixed(1), y: (at.y - away.y * far + this.view.em * 0.36).toFixed(1), "text-anchor": "middle" });
    const text = one.label ?? "";
    if (name.textContent !== text) name.textContent = text;
  }

  bar(one, verdict, { hit, mark, warn, name, size }) {
    const [a, b] = one.ends.map((end) => this.view.px(end));
    const way = unitOf(minus(b, a)), long = between(a, b);
    const over = one.kind === "side" ? 9 : 0;
    const line = (start, end) => `M${start.x.toFixed(1)} ${start.y.toFixed(1)}L${end.x.toFixed(1)} ${end.y.toFixed(1)}`;
    set(hit, { d: line(plus(a, way, Math.min(12, long / 4)), plus(b, way, -Math.min(12, long / 4))) });
    set(mark, { d: one.kind === "side" ? line(plus(a, way, -over), plus(b, way, over)) : gateMark(a, b, way) });
    set(warn, { d: verdict === "FAILS" ? teeth(a, b, way, one.out) : "" });
    const out = { x: one.out.x, y: -one.out.y };
    const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
    let turn = Math.atan2(way.y, way.x) * 180 / Math.PI;
    if (turn > 89.5) turn -= 180;
    if (turn < -90.5) turn += 180;
    const words = one.kind === "side" ? [one.label, `${one.text}${verdict === "FAILS" ? " · FAILS" : ""}`] : [one.label, verdict === "FAILS" ? "FAILS" : ""];
    const far = one.kind === "side" ? 10 + this.view.em : -(8 + this.view.em);
    [name, size].forEach((element, n) => {
      const down = (turnIsUpright(turn, out) ? -1 : 1);
      const at = plus(middle, out, far + (words[1] ? (down < 0 ? 1 - n : n) : 0) * this.view.em * Math.sign(far));
      set(element, { x: at.x.toFixed(1), y: (at.y + 4).toFixed(1), "text-anchor": "middle", transform: `rotate(${turn.toFixed(2)} ${at.x.toFixed(1)} ${at.y.toFixed(1)})` });
      if (element.textContent !== words[n]) element.textContent = words[n];
      element.classList.toggle("tight", long < 34 && n === 1);
    });
  }

  get reach() { return this.root.dataset.coarse === "yes" ? 22 : 14; }

  pencil({ mode, points, cursor }) {
    const { view } = this;
    const [trail, spots, tip] = this.layer.pencil.children;
    const seen = (points ?? []).map((at) => view.px(at));
    const end = cursor ? view.px(cursor) : null;
    const line = mode === "neighbor" && seen.length && end
      ? [[seen[0].x, seen[0].y], [end.x, seen[0].y], [end.x, end.y], [seen[0].x, end.y], [seen[0].x, seen[0].y]]
      : [...seen, ...(end && seen.length ? [end] : [])].map((at) => [at.x, at.y]);
    set(trail, { d: path(line) });
    set(spots, { d: seen.map((at) => disc(at, 4)).join("") });
    set(tip, { d: mode && end ? `M${end.x - 11} ${end.y}h22M${end.x} ${end.y - 11}v22` : "" });
  }
}

const turned = (hinge, open, shut) => {
  const a = [open[0] - hinge[0], open[1] - hinge[1]], b = [shut[0] - hinge[0], shut[1] - hinge[1]];
  return a[0] * b[1] - a[1] * b[0];
};
const turnIsUpright = (turn, out) => { const rad = turn * Math.PI / 180; return -Math.sin(rad) * out.x + Math.cos(rad) * out.y < 0; };
const disc = (at, r) => `M${(at.x - r).toFixed(1)} ${at.y.toFixed(1)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
const box = (at, r) => `M${(at.x - r).toFixed(1)} ${(at.y - r).toFixed(1)}h${2 * r}v${2 * r}h${-2 * r}Z`;

// A corner is a driven peg: a ring with its nail; a point of a footprint a small square; of a buried line a cross.
const MARKS = {
  corner: (at) => disc(at, 7) + disc(at, 1.6),
  neighbor: (at) => box(at, 6),
  footprint: (at) => box(at, 3.5),
  line: (at) => `M${at.x - 5} ${at.y - 5}l10 10m0 -10l-10 10`,
  spot: (at) => `M${at.x} ${at.y}l-5 -8h10Z`,
};
const gateMark = (a, b, way) => {
  const side = { x: -way.y * 6, y: way.x * 6 };
  const tick = (at) => `M${(at.x - side.x).toFixed(1)} ${(at.y - side.y).toFixed(1)}l${(2 * side.x).toFixed(1)} ${(2 * side.y).toFixed(1)}`;
  return `M${a.x.toFixed(1)} ${a.y.toFixed(1)}L${b.x.toFixed(1)} ${b.y.toFixed(1)}${tick(a)}${tick(b)}`;
};

// A side that fails is bitten all along: a row of teeth outside of it.
function teeth(a, b, way, out) {
  const count = Math.max(2, Math.floor(between(a, b) / 11));
  const step = between(a, b) / count;
  const parts = [`M${a.x.toFixed(1)} ${a.y.toFixed(1)}`];
  for (let n = 0; n < count; n += 1) {
    const top = plus(plus(a, way, (n + 0.5) * step), { x: out.x, y: -out.y }, 8), foot = plus(a, way, (n + 1) * step);
    parts.push(`L${top.x.toFixed(1)} ${top.y.toFixed(1)}L${foot.x.toFixed(1)} ${foot.y.toFixed(1)}`);
  }
  return parts.join("");
}

function verdictOf(one, answer) {
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

// All sides unfolded into one strip, seen from outside.
export function unfold(strip, answer, system) {
  const em = parseFloat(getComputedStyle(document.documentElement).fontSize);
  const sides = answer?.shapes?.unfolded ?? [];
  if (!sides.length) return;
  const ordered = answer.shapes.outside_is_right ? sides : [...sides].reverse();
  const gap = 2.2;
  const heights = sides.flatMap((side) => [...side.ground.map(([, z]) => z), ...side.posts.map(([, , , top]) => top), ...side.neighbors.map((one) => Math.min(one.top, one.low + 3.4)), ...side.steps.map((step) => step.foot)]);
  const heightsLow = Math.min(...heights), heightsHigh = Math.max(...heights);
  const whole = ordered.reduce((sum, side) => sum + side.length + gap, 0);
  const scale = Math.max(16, Math.min(60, 170 / (heightsHigh - heightsLow)));
  const low = heightsLow - 1.3 * em / scale, high = heightsHigh + 1.6 * em / scale;
  set(strip, { viewBox: `0 0 ${(whole * scale).toFixed(0)} ${((high - low) * scale).toFixed(0)}`, width: (whole * scale).toFixed(0), height: ((high - low) * scale).toFixed(0) });
  let start = gap / 2;
  const list = ordered.map((side) => { const one = { ...side, start }; start += side.length + gap; return one; });
  keep(strip, list, (side) => side.side, () => svg("g", {}, svg("path", { class: "u-neighbor" }), svg("path", { class: "u-fence" }), svg("path", { class: "u-wall" }), svg("path", { class: "u-foot" }), svg("path", { class: "u-post" }), svg("path", { class: "u-gate" }), svg("path", { class: "u-bank" }), svg("path", { class: "u-ground" }), svg("text", { class: "u-name" }), svg("text", { class: "u-left" }), svg("text", { class: "u-right" })), (group, side) => {
    const to = ([x, z]) => [((x + side.start) * scale).toFixed(1), ((high - z) * scale).toFixed(1)];
    const ring = (points) => path(points.map(to), true);
    const rect = (from, end, foot, top) => ring([[from, foot], [end, foot], [end, top], [from, top]]);
    const [neighbor, fence, wall, foot, post, gate, bank, ground, name, left, right] = group.children;
    const verdict = answer.findings.by_side[side.side];
    set(group, { class: verdict === "FAILS" ? "fails" : verdict === "NOT SHOWN" ? "open" : "holds" });
    set(neighbor, { d: side.neighbors.map((one) => rect(one.from, one.to, one.low, one.top)).join("") });
    set(fence, { d: side.fence.map(ring).join("") });
    set(wall, { d: side.steps.map((step) => ring(step.shown)).join("") });
    set(foot, { d: side.steps.map((step) => { const xs = step.shown.map(([x]) => x); return path([[Math.min(...xs), step.foot], [Math.max(...xs), step.foot]].map(to)); }).join("") });
    set(post, { d: side.posts.map(([x, under, base, top]) => path([[x, base], [x, top]].map(to))).join("") });
    set(gate, { d: side.gates.map((one) => rect(one.from, one.to, one.low, one.top) + path([[one.from, one.low], [one.to, one.top]].map(to))).join("") });
    set(bank, { d: side.banks.map(ring).join("") });
    set(ground, { d: path([...side.ground].sort((a, b) => a[0] - b[0]).map(to)) });
    const texts = [[name, side.length / 2, high - em / scale, `${side.side}, ${tape(side.length, system)}${verdict === "FAILS" ? ", FAILS" : ""}`], [left, 0, low + 0.25 * em / scale, side.corners[0]], [right, side.length, low + 0.25 * em / scale, side.corners[1]]];
    for (const [element, x, z, text] of texts) {
      const [a, b] = to([x, z]);
      set(element, { x: a, y: b, "text-anchor": "middle" });
      if (element.textContent !== text) element.textContent = text;
    }
  });
}
