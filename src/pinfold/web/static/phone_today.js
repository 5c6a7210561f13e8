// What the phone shows of the work: today, the batches in hand, what was written here, and what still waits.

import { clock, day, el, now, settings, several, stamp, upper } from "./phone_basics.js";
import { exported } from "./phone_outbox.js";
import { deviceName, formOf, go, names, ofCard, phone, say, unsent } from "./phone_state.js";
import { download, keep } from "./phone_writing.js";

const GROUPS = { work: "Work", money: "Money and stock", reading: "Readings", note: "Notes" };
const STATES = { kept: ["◔", "kept on this phone"], sent: ["✓", "in the log"], doubted: ["?", "in the log; a name in it is not known"], wrong: ["✗", "refused, to be mended"], clash: ["≠", "the log has another entry under this id"] };

export function home() {
  const today = day(stamp(now()));
  const mine = phone.items.filter((item) => day(item.raw.at) === today || item.state !== "sent").reverse();
  const open = phone.record.cards.filter((card) => !isDone(card));
  const done = phone.record.cards.filter(isDone);
  return [
    el("h1", {}, "Today"),
    el("section", { id: "day-windows", "aria-label": "what the weather leaves of the day" }, sheet()),
    el("section", { "aria-label": "batches in hand" }, open.map(card)),
    done.length ? el("details", { class: "more" }, el("summary", {}, `Mixed in full: ${done.length}`), done.map(card)) : null,
    ...Object.entries(GROUPS).map(([group, words]) => el("section", {}, el("h2", {}, words), el("div", { class: "kinds" },
      phone.record.forms.filter((form) => form.group === group).map((form) => el("a", { class: "button big", id: `kind-${form.kind}`, href: `#write/${form.kind}` }, upper(form.says)))))),
    el("section", {}, el("h2", {}, "Written here today"), mine.length ? el("ul", { class: "written" }, mine.slice(0, 30).map(line)) : el("p", { class: "hint" }, "Nothing yet.")),
    el("section", {}, el("h2", {}, "This phone"), el("div", { class: "kinds" },
      el("a", { class: "button big", href: "#unsent" }, `Not in the log: ${unsent().length}`),
      el("a", { class: "button big", href: "#names" }, `Names: ${settings.get("who")}, ${deviceName()}`),
      el("a", { class: "button big", href: "/log" }, "The whole log"))),
  ];
}

// Today's work by the weather, laid out on the laptop for some days ahead: it is here without a signal too.
function sheet() {
  const { sheets, told, pending } = phone.record.days || { sheets: [], told: [], pending: false };
  const date = day(stamp(now()));
  const ours = sheets.find((each) => each.day === date);
  const last = sheets.at(-1);
  const none = pending ? "The day is being laid out on the laptop: look again in a moment."
    : last && last.day < date ? `What was laid out for this phone ended on ${last.day}. Within reach of the laptop it gets today's.` : null;
  return [
    none ? el("p", { class: "hint" }, none) : null,
    ours ? el("ol", { class: "hours" }, ours.work.map((piece) => el("li", {}, el("b", {}, piece.when), " ", piece.says,
      piece.more.map((words) => el("p", { class: "hint" }, words))))) : null,
    ours && !ours.work.length ? el("p", {}, "No work is laid out for today.") : null,
    ...(ours?.also || []).map(([what, words]) => el("p", {}, el("b", {}, `${upper(what)}: `), words)),
    ...(ours || !last ? told : []).map((words) => el("p", { class: "hint" }, words)),
  ];
}

const here = (card) => phone.items.filter((item) => item.state === "kept" && !item.raw.corrects && ofCard(card, item))
  .reduce((sum, item) => sum + Number(item.raw.fields.batches || 1), 0);
const isDone = (card) => card.batches > 0 && (card.logged || 0) + here(card) >= card.batches;

function card(each) {
  const at = phone.record.cards.indexOf(each);
  const kept = here(each);
  const logged = each.logged === null ? "not counted yet" : `${each.logged}${each.batches ? ` of ${each.batches}` : ""} in the log`;
  return el("article", { class: "batch" },
    el("h2", {}, upper(`${each.layer}: ${each.says.split(",")[0]}`)),
    el("p", { class: "hint" }, `${logged}${kept ? `, ${kept} kept here` : ""}`),
    each.batches ? el("progress", { max: each.batches, value: Math.min(each.batches, (each.logged || 0) + kept), "aria-label": `batches for ${each.layer}` }) : null,
    each.amounts.length ? el("p", { class: "into" }, each.amounts.map(([, text], place) => `${several(text)} ${each.names[place]}`).join(", ")) : null,
    each.ladder?.length ? ladder(each) : null,
    el("a", { class: "button big primary", id: `batch-${at}`, href: `#write/batch/${at}` }, "Batch mixed"));
}

// What a bucket weighs or a cone sinks, and what to add then: works out of reach.
const ladder = ({ ladder: [heads, ...rows], ladder_note: note }) => el("details", { class: "more" },
  el("summary", {}, upper(heads[0]), " …"),
  el("dl", {}, rows.flatMap(([found, then]) => [el("dt", {}, found), el("dd", {}, then)])),
  el("p", { class: "hint" }, note));

// The page on the laptop that puts a batch right by what was measured on it; none for another entry.
function toPutRight({ kind, fields }) {
  const told = Object.entries({ density: fields.wet_density, slump: fields.slump }).filter(([, text]) => text);
  if (kind !== "batch" || !fields.mix || !told.length) return null;
  return el("a", { class: "button", href: `/mix/correct?${new URLSearchParams([["mix", fields.mix], ...told])}` }, "Put it right");
}

const stateOf = (item) => STATES[item.state === "sent" && item.remarks?.length ? "doubted" : item.state];

function line(item) {
  const [sign, words] = stateOf(item);
  const doubted = item.remarks?.length ? " doubted" : "";
  return el("li", { class: `${item.state}${doubted}`, "data-id": item.id }, el("a", { href: `#item/${item.id}` },
    el("b", {}, clock(item.raw.at)), " ", summary(item.raw), " ",
    el("span", { class: "state" }, `${sign} ${words}`)));
}

const UNSAID = ["photo", "latitude", "longitude"];

export function summary(raw) {
  const says = raw.kind === "withdrawn" ? "taken back" : formOf(raw.kind)?.says || raw.kind;
  const known = names();
  const parts = Object.entries(raw.fields).filter(([key, value]) => typeof value === "string" && !UNSAID.includes(key) && value)
    .slice(0, 3).map(([key, value]) => (key === "mix" ? known[value] || value : value));
  return `${raw.corrects && raw.kind !== "withdrawn" ? "corrected: " : ""}${says}${parts.length ? `, ${parts.join(", ")}` : ""}`;
}

// ---- what waits

export function unsentScreen() {
  const waiting = unsent();
  return [
    el("h1", {}, "Not in the log yet"),
    waiting.length ? el("ul", { class: "written" }, waiting.map((item) => el("li", { class: item.state, "data-id": item.id }, ...detail(item))))
      : el("p", {}, "Nothing waits here: all you wrote on this phone is in the log."),
    el("div", { class: "kinds" },
      el("button", { type: "button", class: "big primary", id: "send-now", onclick: async () => { await phone.sender.send(); say(unsent().length ? "Some still wait." : "All is in the log."); } }, "Send now"),
      waiting.length ? el("button", { type: "button", class: "big", id: "export", onclick: async () => download(JSON.stringify(await exported(phone.outbox, waiting))) }, "Save them to a file for the laptop") : null,
      el("a", { class: "button big", href: "#" }, "Back")),
  ];
}

export async function itemScreen(id) {
  const item = await phone.outbox.get(id);
  if (!item) return null;
  return [el("h1", {}, formOf(item.raw.kind)?.says || item.raw.kind), el("div", { class: `one ${item.state}` }, ...detail(item)), el("div", { class: "kinds" }, el("a", { class: "button big", href: "#" }, "Back"))];
}

function detail(item) {
  const [sign, words] = stateOf(item);
  const form = formOf(item.raw.kind);
  const says = (place) => form?.fields.find((field) => field.key === place.split(".")[0])?.says || place;
  const known = names();
  const worded = (value) => (Array.isArray(value) ? value.map(([what, text]) => `${several(text)} ${known[what] || what}`).join(", ") : known[value] || value);
  return [
    el("p", {}, el("b", {}, `${day(item.raw.at)} ${clock(item.raw.at)}`), ` ${summary(item.raw)} `, el("span", { class: "state" }, `${sign} ${words}`)),
    item.complaints.length ? el("div", { class: "told" }, item.complaints.map(({ place, message }) => el("p", {}, el("b", {}, `${says(place)}: `), message))) : null,
    item.remarks?.length ? el("div", { class: "caution" }, item.remarks.map(({ place, message }) => el("p", {}, el("b", {}, `${says(place)}: `), message))) : null,
    el("dl", {}, Object.entries(item.raw.fields).filter(([key]) => key !== "photo").flatMap(([key, value]) => [el("dt", {}, says(key)), el("dd", {}, worded(value))])),
    item.photos.length && item.state !== "sent" ? el("p", { class: "hint" }, "A photo goes with it.") : null,
    el("div", { class: "kinds" },
      toPutRight(item.raw),
      form ? el("a", { class: "button", href: `#mend/${item.id}` }, item.state === "wrong" ? "Mend it" : "Change it") : null,
      item.remarks?.length ? el("button", { type: "button", onclick: () => leave(item) }, "Leave it as it is") : null,
      item.raw.kind === "withdrawn" && item.state === "sent" ? null : el("button", { type: "button", onclick: (event) => takeBack(item, event.target) }, item.state === "sent" ? "Take it back" : "Remove it"),
      item.state === "clash" ? el("button", { type: "button", onclick: () => asNew(item) }, "Send it as a new entry") : null),
  ];
}

async function leave(item) {
  await phone.outbox.update(item.id, (held) => ({ ...held, remarks: [] }));
  go("");
}

async function takeBack(item, button) {
  if (!button.dataset.sure) {
    button.dataset.sure = "yes";
    button.textContent = "Sure? Tap again";
    return;
  }
  const needsWord = (held) => held.state === "sent" || (held.tried && held.state === "kept"); // as it is now, not as it was shown
  if (!(await phone.outbox.remove(item.id, needsWord))) {
    const words = { kind: "withdrawn", at: stamp(now()), fields: { text: "taken back on the phone" } };
    if (!(await keep(words, {}, { ...item, tried: true, state: "kept", sure: true }))) return;
    await phone.outbox.remove(item.id);
  }
  go("");
}

async function asNew(item) {
  await keep({ kind: item.raw.kind, at: item.raw.at, fields: item.raw.fields, placed: item.placed }, Object.fromEntries(item.photos.map((key) => [key, true])), item);
}
