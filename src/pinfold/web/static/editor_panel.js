// The numbers of what is picked, typed as the plan file takes them, each with its complaint beside it.

import { between, tape, turnOf } from "./editor_measure.js";

const CARRIES = ["water", "power", "gas", "signal", "drain"];

// Enter takes a typed value over as leaving the field does, and stays in it.
function entered(event) {
  if (event.key !== "Enter") return;
  event.preventDefault();
  event.target.blur();
  event.target.focus();
}

export function element(name, attributes = {}, ...inside) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (key === "on") for (const [event, call] of Object.entries(value)) made.addEventListener(event, call);
    else if (value !== null && value !== false) made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...inside);
  return made;
}

// Fields of one thing: { id, place, says, value, kind: length | angle | text | choice | tick, choices, give }
export function fieldsOf(book, picked) {
  if (!picked) return null;
  const tell = { corner, side, gate, neighbor, footprint: neighbor, line, spot }[picked.kind];
  return tell ? tell(book, picked) : null;
}

const shown = (book, value) => typeof value === "number" ? tape(value, book.system) : value ?? "";
const length = (id, place, says, value, give) => ({ id, place, says, value, kind: "length", give });

function named(book, kind, number, at, what) {
  return { id: "name", place: `${at}.name`, says: what, value: book.parts[kind][number].name, kind: "text", give: (text) => book.rename(kind, number, text) };
}

function corner(book, { number }) {
  const row = book.parts.corner[number];
  if (!row) return null;
  const at = `corner.${row.name}`;
  return {
    title: `Corner ${row.name}`, remove: "Take this corner out",
    fields: [
      named(book, "corner", number, at, "name"),
      length("x", `${at}.x`, "x, to the right", shown(book, row.x), (text) => book.set("corner", number, { x: text })),
      length("y", `${at}.y`, "y, up the page", shown(book, row.y), (text) => book.set("corner", number, { y: text })),
    ],
  };
}

function side(book, { number }) {
  const row = book.parts.side[number];
  if (!row) return null;
  const at = `side.${row.name}`, [start, end] = book.ends(row);
  if (!start || !end) return null;
  const before = book.parts.side.find((one) => one.to === row.from);
  const from = before && book.spot(before.from);
  const fields = [
    named(book, "side", number, at, "name"),
    length("length", at, `length; ${row.to} moves`, tape(between(start, end), book.system), (text, value) => value > 0 ? book.stretchSide(number, value) : null),
  ];
  if (from) fields.push({ id: "turn", place: `${at}.turn`, says: `turn from ${before.name}`, kind: "angle", value: `${turnOf(from, start, end).toFixed(1)} deg`, give: (text, value) => book.turnSide(number, value * 180 / Math.PI) });
  fields.push({ id: "follow", place: `${at}.follow`, says: "follows the ground", kind: "choice", value: row.follow ?? "step", choices: [["step", "in steps"], ["rake", "raked with it"]], give: (text) => book.set("side", number, { follow: text }) });
  const runs = book.runs(row);
  const options = [...book.buildups.map((one) => [`b:${one.name}`, one.name]), ...book.parts.neighbor.map((one) => [`n:${one.name}`, `stands: ${one.name}`])];
  runs.forEach((run, which) => {
    const place = row.runs ? `${at}.runs[${which}]` : at;
    const many = runs.length > 1;
    const says = many ? `run ${which + 1}, ${tape(run.end - run.start, book.system)}` : "build-up";
    fields.push({ id: `run${which}`, place: `${place}.buildup`, says, kind: "choice", value: run.neighbor ? `n:${run.neighbor}` : `b:${run.buildup}`, choices: options, give: (text) => book.setRun(number, which, text.startsWith("n:") ? { neighbor: text.slice(2), buildup: undefined } : { buildup: text.slice(2), neighbor: undefined }), drop: many ? () => book.dropRun(number, which) : null });
    if (which < runs.length - 1) fields.push(length(`to${which}`, `${place}.to`, `run ${which + 1} ends at`, shown(book, row.runs[which].to), (text) => book.setRun(number, which, { to: text })));
  });
  const middle = (runs.at(-1).start + runs.at(-1).end) / 2;
  return {
    title: `Side ${row.name}`, fields,
    acts: [
      ["New corner in the middle", () => book.splitSide(number, between(start, end) / 2)],
      ["Cut the last run in two", () => book.cutRun(number, middle)],
      ["Hang a gate here", () => book.addGate(row, between(start, end) / 2)],
    ],
  };
}

function gate(book, { number }) {
  const row = book.parts.gate[number];
  if (!row) return null;
  const at = `gate.${row.name}`;
  const size = (key, says, must = true) => length(key, `${at}.${key}`, says, shown(book, row[key]), (text) => book.set("gate", number, { [key]: must || text ? text : undefined }));
  const choice = (key, says, value, choices) => ({ id: key, place: `${at}.${key}`, says, kind: "choice", value, choices, give: (text) => book.set("gate", number, { [key]: text }) });
  const same = (list) => list.map((one) => [one, one]);
  return {
    title: `Gate ${row.name}`, remove: "Take this gate off",
    fields: [
      named(book, "gate", number, at, "name"),
      choice("side", "in side", row.side, same(book.parts.side.map((one) => one.name))),
      size("at", `from the side’s first corner`), size("width", "clear width"), size("height", "height of leaf"),
      { id: "leaves", place: `${at}.leaves`, says: "leaves", kind: "choice", value: String(row.leaves ?? 1), choices: [["1", "one"], ["2", "two"]], give: (text) => book.set("gate", number, text === "2" ? { leaves: 2, hinges: undefined } : { leaves: undefined, hinges: "left" }) },
      ...(row.leaves === 2 ? [] : [choice("hinges", "hinges, from outside", row.hinges ?? "left", [["left", "left"], ["right", "right"]])]),
      choice("swing", "opens", row.swing ?? "in", [["in", "inward"], ["out", "outward"]]),
      size("under", "gap under it", false),
      choice("kind", "leaf", row.kind, same(book.kinds.gate)), choice("post", "posts", row.post, same(book.kinds.post)),
      size("embed", "posts in the ground"), size("collar", "concrete round them", false),
    ],
  };
}

function pointFields(book, kind, key, number, which, at) {
  const point = book.parts[kind][number][key][which];
  if (!point) return [];
  const give = (axis) => (text) => book.set(kind, number, { [key]: book.parts[kind][number][key].map((one, n) => n === which ? one.map((old, a) => a === axis ? text : old) : one) });
  return [
    length("px", `${at}.${key}[${which}]`, `point ${which + 1}: x`, shown(book, point[0]), give(0)),
    length("py", `${at}.${key}[${which}]`, `point ${which + 1}: y`, shown(book, point[1]), give(1)),
  ];
}

function neighbor(book, { number, which }) {
  const row = book.parts.neighbor[number];
  if (!row) return null;
  const at = `neighbor.${row.name}`;
  const fields = [
    named(book, "neighbor", number, at, "name"),
    { id: "says", place: `${at}.says`, says: "what it is", kind: "text", value: row.says ?? "", give: (text) => book.set("neighbor", number, { says: text || undefined }) },
    length("height", `${at}.height`, "height", shown(book, row.height), (text) => book.set("neighbor", number, { height: text })),
  ];
  if (which !== undefined) fields.push(...pointFields(book, "neighbor", "footprint", number, which, at));
  return { title: `Neighbor ${row.name}`, remove: which === undefined ? "Take it off the plan" : "Take this point out", fields };
}

function line(book, { number, which }) {
  const row = book.parts.line[number];
  if (!row) return null;
  const at = `line.${row.name}`;
  const size = (key, says) => length(key, `${at}.${key}`, says, shown(book, row[key]), (text) => book.set("line", number, { [key]: text }));
  return {
    title: `Buried line ${row.name}`, remove: row.points.length > 2 ? "Take this point out" : "Take the line off the plan",
    fields: [
      named(book, "line", number, at, "name"),
      { id: "carries", place: `${at}.carries`, says: "carries", kind: "choice", value: row.carries, choices: CARRIES.map((one) => [one, one]), give: (text) => book.set("line", number, { carries: text }) },
      size("depth", "depth to its middle"), size("clearance", "keep away from it"),
      { id: "located", place: `${at}.located`, says: "found on the ground", kind: "tick", value: row.located === true, give: (on) => book.set("line", number, { located: on }) },
      ...(which !== undefined ? pointFields(book, "line", "points", number, which, at) : []),
    ],
  };
}

function spot(book, { number }) {
  const point = book.parts.ground?.points?.[number];
  if (!point) return null;
  const give = (axis) => (text) => ({ ...book.parts, ground: { ...book.parts.ground, points: book.parts.ground.points.map((one, n) => n === number ? one.map((old, a) => a === axis ? text : old) : one) } });
  const place = `ground.points[${number}]`;
  return {
    title: `Ground height ${number + 1}`, remove: "Take this height out",
    fields: ["x", "y", "height"].map((says, axis) => length(["x", "y", "z"][axis], place, says, shown(book, point[axis]), give(axis))),
  };
}

// Draws the form anew only when another thing is picked or its fields changed; else the values are put in place.
export class Panel {
  constructor(root, { commit, act, remove }) {
    Object.assign(this, { root, commit, act, remove });
    this.shape = "";
    this.wrong = new Map();
  }

  draw(book, picked, complaints) {
    const told = fieldsOf(book, picked);
    this.root.hidden = !told;
    if (!told) { this.shape = ""; return; }
    const shape = JSON.stringify([picked.key, told.title, told.fields.map((one) => [one.id, one.says, one.choices, one.place])]);
    this.told = told;
    if (shape !== this.shape) this.build(told, picked.key !== this.key);
    this.shape = shape;
    this.key = picked.key;
    for (const field of told.fields) this.fill(field, complaints);
  }

  build(told, another) {
    const focused = this.root.contains(document.activeElement) ? document.activeElement.id : "";
    if (another) this.wrong.clear();
    const rows = told.fields.map((field) => this.row(field));
    const acts = (told.acts ?? []).map(([says, make]) => element("button", { type: "button", on: { click: () => this.act(make, says) } }, says));
    if (told.remove) acts.push(element("button", { type: "button", on: { click: () => this.remove() } }, told.remove));
    this.root.replaceChildren(element("h2", { id: "picked-title" }, told.title), ...rows, element("div", { class: "acts" }, ...acts));
    if (focused) document.getElementById(focused)?.focus();
  }

  row(field) {
    const id = `f-${field.id}`;
    const at = () => this.told.fields.find((one) => one.id === field.id);
    const changed = (event) => this.commit(at(), event.target);
    let input;
    if (field.kind === "choice") input = element("select", { id, on: { change: changed } }, ...field.choices.map(([value, says]) => element("option", { value }, says)));
    else if (field.kind === "tick") input = element("input", { id, type: "checkbox", on: { change: changed } });
    else input = element("input", { id, type: "text", autocomplete: "off", spellcheck: "false", inputmode: field.kind === "text" ? null : "text", on: { change: changed, keydown: entered } });
    input.setAttribute("aria-describedby", `${id}-told`);
    const extra = field.drop ? [element("button", { type: "button", class: "small", on: { click: () => this.act(at().drop, "run taken out") } }, `Take ${field.says.split(",")[0]} out`)] : [];
    return element("div", { class: "entry" }, element("label", { for: id }, field.says), input, ...extra, element("p", { class: "told-beside", id: `${id}-told`, hidden: true }));
  }

  fill(field, complaints) {
    const input = document.getElementById(`f-${field.id}`);
    const own = this.wrong.get(field.id);
    if (field.kind === "tick") input.checked = field.value;
    else if (!own && (document.activeElement !== input || input.dataset.shown !== String(field.value))) input.value = field.value;
    if (!own) input.dataset.shown = String(field.value);
    const from = complaints.find((one) => one.place === field.place || one.place.startsWith(`${field.place}[`) || (field.place.endsWith(".buildup") && one.place === field.place.slice(0, -8)));
    const message = own ?? from?.message ?? "";
    const told = document.getElementById(`f-${field.id}-told`);
    told.hidden = !message;
    if (told.textContent !== message) told.textContent = message;
    if (message) input.setAttribute("aria-invalid", "true"); else input.removeAttribute("aria-invalid");
  }
}
