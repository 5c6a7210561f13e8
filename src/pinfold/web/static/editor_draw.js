// The sketch: squared paper, ground, what is built, a handle for everything that can be moved, and the letters beside it.

import { MARKS, disc, gateMark, handleList, teeth, verdictOf } from "./editor_handles.js";
import { along, aroundPoint, besideLine, besidePath, besideRing, beyond, markRoom, onContour, settled } from "./editor_labels.js";
import { between, middleOf, minus, plus, unitOf } from "./editor_measure.js";
import { keep, path, set, svg } from "./editor_sheet.js";

const WORD = { FAILS: "fails", "NOT SHOWN": "not shown", HOLDS: "holds" };

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
    const { view } = this;
    this.squares();
    set(this.layer.world, { transform: view.matrix });
    this.ground(state.answer);
    this.built(state);
    const list = handleList(this.book).filter((one) => one.at && Number.isFinite(one.at.x + one.at.y));
    const marks = this.marks(state);
    this.places = settled([...this.handleTexts(list, state), ...marks], this.taken(list), view);
    this.labels(marks);
    this.handles(list, state);
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

  // What no letter may lie on: every mark that can be taken hold of, the sides, the edges of neighbors.
  taken(list) {
    const { book, view } = this;
    const edges = book.parts.neighbor.flatMap((row) => { const ring = book.points(row, "footprint").map((at) => view.px(at)); return ring.map((at, n) => [at, ring[(n + 1) % ring.length]]); });
    const sides = list.filter((one) => one.kind === "side").map((one) => one.ends.map((end) => view.px(end)));
    return [
      ...list.filter((one) => one.kind !== "side" && one.kind !== "gate").map((one) => markRoom(one, view.px(one.at))),
      ...[...sides, ...edges].flatMap(([a, b]) => Number.isFinite(a.x + a.y + b.x + b.y) ? along(a, b, 5) : []),
    ];
  }

  // Corners first, then gates and sides: what can be moved keeps its name beside it.
  handleTexts(list, state) {
    const { view } = this;
    const of = (kind) => list.filter((one) => one.kind === kind);
    const corners = of("corner").map((one) => aroundPoint(one.key, [one.label], { at: view.px(one.at), away: { x: one.away.x, y: -one.away.y } }, view.letters("corner")));
    const bars = [...of("gate"), ...of("side")].map((one) => {
      const [a, b] = one.ends.map((end) => view.px(end)), side = one.kind === "side";
      const fails = this.verdict(one, state) === "FAILS";
      const place = { a, b, out: { x: one.out.x, y: -one.out.y }, gap: side && fails ? 18 : 12, first: side ? 1 : -1 };
      return besideLine(one.key, this.words(one, state), place, view.letters());
    });
    return [...corners, ...bars];
  }

  // The lines of letters beside a side or gate; a short one has but its name.
  words(one, state) {
    const fails = this.verdict(one, state) === "FAILS";
    const [a, b] = one.ends.map((end) => this.view.px(end));
    const second = one.kind === "side" ? `${one.text}${fails ? " · FAILS" : ""}` : fails ? "FAILS" : "";
    return second && between(a, b) >= 34 ? [one.label, second] : [one.label];
  }

  verdict(one, state) { return state.answer?.reads ? verdictOf(one, state.answer) : ""; }

  // Names and heights beside what is there, in paper space so that they stay readable.
  marks(state) {
    const { book, view } = this, letters = view.letters();
    const px = (points) => points.map((at) => view.px(at)), spot = ([x, y]) => ({ x, y });
    const neighbors = book.parts.neighbor.map((row, n) => [row, px(book.points(row, "footprint")), n]).filter(([, ring]) => ring.length)
      .map(([row, ring, n]) => ({ ...besideRing(`n${n}`, [row.name], ring, letters), kind: "t-neighbor" }));
    const banks = (state.answer?.shapes?.banks ?? []).map((bank, n) => {
      const [foot, back] = [[0, 1], [2, 3]].map((ends) => view.px(middleOf(ends.map((end) => spot(bank.ring[end])))));
      return { ...beyond(`b${n}`, [bank.text], { at: back, way: unitOf(minus(back, foot)) }, letters), kind: "t-bank" };
    });
    const lines = book.parts.line.map((row, n) => [row, px(book.points(row, "points")), n]).filter(([, points]) => points.length > 1)
      .map(([row, points, n]) => ({ ...besidePath(`l${n}`, [row.located ? row.name : `${row.name}: find it first`], points, letters), kind: "t-line" }));
    const contours = (state.answer?.contours ?? []).map((line, n) => ({ ...onContour(`z${line.z}/${n}`, [line.text], px(line.path.map(spot)), view, view.letters("contour")), kind: "t-contour" }));
    return [...neighbors, ...banks, ...lines, ...contours];
  }

  labels(marks) {
    keep(this.layer.marks, marks, (one) => one.key, () => svg("text"), (element, one) => {
      set(element, { class: one.kind });
      this.letter(element, one.lines[0], this.places[one.key]);
    });
  }

  // One line of letters at its place; `line` of `count` where there is more than one.
  letter(element, text, place, line = 0, count = 1) {
    if (element.textContent !== text) element.textContent = text;
    set(element, { visibility: place && text ? null : "hidden" });
    if (!place) return;
    const { em } = this.view, turn = place.turn ?? 0, down = (line - (count - 1) / 2) * em + em * 0.32;
    const x = (place.x - Math.sin(turn) * down).toFixed(1), y = (place.y + Math.cos(turn) * down).toFixed(1);
    set(element, { x, y, "text-anchor": "middle", transform: turn ? `rotate(${(turn * 180 / Math.PI).toFixed(2)} ${x} ${y})` : null });
  }

  handles(list, state) {
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
    const verdict = this.verdict(one, state);
    set(group, {
      class: `h h-${one.kind}${picked ? " picked" : ""}${verdict === "FAILS" ? " fails" : verdict === "NOT SHOWN" ? " open" : ""}`,
      "aria-label": `${one.name}${verdict ? `, ${WORD[verdict]}` : ""}`, "aria-pressed": picked ? "true" : "false",
    });
    const [hit, mark, warn, name, size] = group.children;
    const bar = one.kind === "side" || one.kind === "gate";
    if (bar) this.bar(one, verdict, { hit, mark, warn });
    else this.dot(one, { hit, mark });
    const lines = bar ? this.words(one, state) : [one.label ?? ""], place = this.places[one.key];
    [name, size].forEach((element, n) => this.letter(element, lines[n] ?? "", place, n, lines.length));
  }

  dot(one, { hit, mark }) {
    const at = this.view.px(one.at);
    set(hit, { d: disc(at, this.reach) });
    set(mark, { d: MARKS[one.kind](at) });
  }

  bar(one, verdict, { hit, mark, warn }) {
    const [a, b] = one.ends.map((end) => this.view.px(end));
    const way = unitOf(minus(b, a)), long = between(a, b);
    const over = one.kind === "side" ? 9 : 0;
    const line = (start, end) => `M${start.x.toFixed(1)} ${start.y.toFixed(1)}L${end.x.toFixed(1)} ${end.y.toFixed(1)}`;
    set(hit, { d: line(plus(a, way, Math.min(12, long / 4)), plus(b, way, -Math.min(12, long / 4))) });
    set(mark, { d: one.kind === "side" ? line(plus(a, way, -over), plus(b, way, over)) : gateMark(a, b, way) });
    set(warn, { d: verdict === "FAILS" ? teeth(a, b, way, one.out) : "" });
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
