// The phone's page: today's work, a form for each kind of entry, and what is not in the log yet.

import { clock, day, el, newId, now, settings, several, since, stamp, upper } from "./phone_basics.js";
import { makeForm } from "./phone_forms.js";
import { exported, openOutbox, PictureTooLarge } from "./phone_outbox.js";
import { Sender } from "./phone_sync.js";

const GROUPS = { work: "Work", money: "Money and stock", reading: "Readings", note: "Notes" };
const STATES = { kept: ["◔", "kept on this phone"], sent: ["✓", "in the log"], wrong: ["✗", "refused, to be mended"], clash: ["≠", "the log has another entry under this id"] };
const main = document.getElementById("main");
const live = document.getElementById("live");
const banners = document.getElementById("banners");
const reach = document.getElementById("reach");

let record = newest(JSON.parse(document.getElementById("record").textContent), settings.get("record"));
let outbox;
let sender;
let items = [];
let link = { state: "asking", clock: 0 };
let unkept = null; // an entry the browser would not keep: it lives on in this page until it is safe

function newest(embedded, held) {
  return held && held.site === embedded.site && held.made > embedded.made ? held : embedded;
}

const names = () => Object.fromEntries(record.cards.flatMap((card) => [
  ...card.amounts.map(([item], at) => [item, card.names[at]]), [card.mix, card.says.split(",")[0]]]));
const formOf = (kind) => record.forms.find((form) => form.kind === kind);
const say = (words) => { live.textContent = ""; setTimeout(() => { live.textContent = words; }, 50); };
const unsent = () => items.filter((item) => item.state !== "sent");

// ---- screens, one address each, so that the phone's own way back works

const SCREENS = { "": home, write: write, mend: mend, unsent: unsentScreen, names: namesScreen, item: itemScreen, unkept: unkeptScreen };

let turns = 0;
let drawn = "";
const seen = () => JSON.stringify([location.hash, record.mark, items.map((item) => [item.id, item.state, item.turn])]);

async function show() {
  turns += 1;
  const turn = turns;
  const [screen, ...rest] = location.hash.slice(1).split("/").map(decodeURIComponent);
  items = await outbox.all();
  const wanted = !settings.get("who") && screen !== "names" ? namesScreen : SCREENS[screen] || home;
  const inside = [await wanted(...rest)].flat().filter(Boolean);
  if (turn !== turns) return; // another screen was asked for meanwhile
  main.replaceChildren(...inside);
  drawn = seen();
  frame();
  document.title = `${main.querySelector("h1")?.textContent || record.site} · pinfold`;
  scrollTo(0, 0);
}

// Everything that changes by itself, without touching a form that is being filled in.
async function refresh() {
  items = await outbox.all();
  frame();
  const alive = location.hash.slice(1) === "" || location.hash === "#unsent";
  if (alive && settings.get("who") && seen() !== drawn) { // else a finger on its way down would miss its button
    drawn = seen();
    const at = document.activeElement?.id;
    const high = scrollY;
    main.replaceChildren(...(location.hash === "#unsent" ? unsentScreen() : home()).filter(Boolean));
    if (at) document.getElementById(at)?.focus({ preventScroll: true });
    scrollTo(0, high);
  }
}

function go(hash) {
  if (location.hash.slice(1) === hash) void show();
  else location.hash = hash;
}

function frame() {
  const waiting = unsent().length;
  const WORDS = {
    asking: "looking for the log …", near: "the log is in reach", away: "the log is out of reach; all you write is kept here",
    strange: "the log does not know this phone", broken: "the log cannot write just now; all you write is kept here",
  };
  const count = waiting ? `${waiting} not in the log yet` : "nothing waits here";
  const sign = waiting ? "◔" : "✓";
  reach.textContent = `${sign} ${count}; ${WORDS[link.state]}`;
  reach.className = waiting ? "reach waits" : "reach";
  banners.replaceChildren(...[clockBanner(), strangeBanner(), plainBanner(), smallBanner(), newerBanner(), unkeptBanner(), otherSite()].filter(Boolean));
}

function banner(...inside) {
  return el("div", { class: "caution" }, ...inside);
}

function clockBanner() {
  const corrected = settings.get("clock", 0);
  if (!link.clock) return corrected ? banner(`New entries carry the log’s time, ${since(corrected)} ${corrected > 0 ? "later" : "earlier"} than this phone’s clock.`, el("button", { type: "button", id: "clock-own", onclick: () => { settings.set("clock", 0); void sender.send(); frame(); } }, "Use this phone’s clock")) : null;
  const words = `This phone’s clock is ${since(link.clock)} ${link.clock > 0 ? "ahead of" : "behind"} the log’s. One of the two is wrong: set it right, or let new entries carry the log’s time.`;
  return banner(el("p", {}, words), el("button", { type: "button", id: "clock-log", onclick: () => {
    settings.set("clock", corrected - Math.round(link.clock));
    link = { ...link, clock: 0 };
    frame();
    say("New entries carry the log’s time.");
  } }, "Use the log’s time"));
}

const strangeBanner = () => (link.state === "strange"
  ? banner(el("p", {}, "This phone is not paired with the log any more. What you wrote stays here and is sent once it is paired again."), el("a", { class: "button", href: "/phone" }, "Pair it again")) : null);
const plainBanner = () => (!isSecureContext
  ? banner("Plain connection: out of reach, do not reload this page and do not pull it down; it would not come back. Open it by its link or from a bookmark instead. What you wrote stays kept.") : null);
const smallBanner = () => (outbox.kind === "small"
  ? banner("This browser gives little room (private window?): photos over 400 kB are refused, and all is lost when the window’s data are cleared. Send often.") : null);
const newerBanner = () => (link.hello && link.hello.version !== main.dataset.version
  ? banner(el("p", {}, "There is a newer version of this page."), el("a", { class: "button", href: "/phone" }, "Open it")) : null);
const unkeptBanner = () => (unkept && location.hash !== "#unkept"
  ? el("div", { class: "told" }, el("p", {}, "An entry is NOT kept."), el("a", { class: "button", href: "#unkept" }, "See to it")) : null);

function otherSite() {
  const here = link.hello?.site;
  const others = here ? items.filter((item) => item.site !== here && item.state === "kept") : [];
  if (!others.length) return null;
  return banner(el("p", {}, `${others.length} of them were written for ${others[0].site}; this log is of ${here}.`), el("button", { type: "button", onclick: async () => {
    for (const item of others) await outbox.update(item.id, (held) => ({ ...held, site: here }));
    void sender.send();
    await refresh();
  } }, `Send them to ${here} all the same`));
}

// ---- today

function home() {
  const today = day(stamp(now()));
  const mine = items.filter((item) => day(item.raw.at) === today || item.state !== "sent").reverse();
  const open = record.cards.filter((card) => !isDone(card));
  const done = record.cards.filter(isDone);
  return [
    el("h1", {}, "Today"),
    el("div", { id: "day-windows" }),
    el("section", { "aria-label": "batches in hand" }, open.map(card)),
    done.length ? el("details", { class: "more" }, el("summary", {}, `Mixed in full: ${done.length}`), done.map(card)) : null,
    ...Object.entries(GROUPS).map(([group, words]) => el("section", {}, el("h2", {}, words), el("div", { class: "kinds" },
      record.forms.filter((form) => form.group === group).map((form) => el("a", { class: "button big", id: `kind-${form.kind}`, href: `#write/${form.kind}` }, upper(form.says)))))),
    el("section", {}, el("h2", {}, "Written here today"), mine.length ? el("ul", { class: "written" }, mine.slice(0, 30).map(line)) : el("p", { class: "hint" }, "Nothing yet.")),
    el("section", {}, el("h2", {}, "This phone"), el("div", { class: "kinds" },
      el("a", { class: "button big", href: "#unsent" }, `Not in the log: ${unsent().length}`),
      el("a", { class: "button big", href: "#names" }, `Names: ${settings.get("who")}, ${deviceName()}`),
      el("a", { class: "button big", href: "/log" }, "The whole log"))),
  ];
}

const ofCard = (card, item) => item.raw.kind === "batch" && item.raw.fields.mix === card.mix && item.raw.fields.layer === card.layer;
const here = (card) => items.filter((item) => item.state === "kept" && !item.raw.corrects && ofCard(card, item))
  .reduce((sum, item) => sum + Number(item.raw.fields.batches || 1), 0);
const isDone = (card) => card.batches > 0 && (card.logged || 0) + here(card) >= card.batches;

function card(each) {
  const at = record.cards.indexOf(each);
  const kept = here(each);
  const logged = each.logged === null ? "being counted" : `${each.logged}${each.batches ? ` of ${each.batches}` : ""} in the log`;
  return el("article", { class: "batch" },
    el("h2", {}, upper(`${each.layer}: ${each.says.split(",")[0]}`)),
    el("p", { class: "hint" }, `${logged}${kept ? `, ${kept} kept here` : ""}`),
    each.batches ? el("progress", { max: each.batches, value: Math.min(each.batches, (each.logged || 0) + kept), "aria-label": `batches for ${each.layer}` }) : null,
    each.amounts.length ? el("p", { class: "into" }, each.amounts.map(([, text], place) => `${several(text)} ${each.names[place]}`).join(", ")) : null,
    el("a", { class: "button big primary", id: `batch-${at}`, href: `#write/batch/${at}` }, "Batch mixed"));
}

function line(item) {
  const [sign, words] = STATES[item.state];
  return el("li", { class: item.state, "data-id": item.id }, el("a", { href: `#item/${item.id}` },
    el("b", {}, clock(item.raw.at)), " ", summary(item.raw), " ",
    el("span", { class: "state" }, `${sign} ${words}`)));
}

function summary(raw) {
  const says = raw.kind === "withdrawn" ? "taken back" : formOf(raw.kind)?.says || raw.kind;
  const known = names();
  const parts = Object.entries(raw.fields).filter(([key, value]) => typeof value === "string" && key !== "photo" && value)
    .slice(0, 3).map(([key, value]) => (key === "mix" ? known[value] || value : value));
  return `${raw.corrects && raw.kind !== "withdrawn" ? "corrected: " : ""}${says}${parts.length ? `, ${parts.join(", ")}` : ""}`;
}

// ---- writing

function write(kind, at) {
  const form = formOf(kind);
  if (!form) return home();
  const chosen = kind === "batch" && at !== undefined ? record.cards[Number(at)] : null;
  return entryScreen({ form, title: chosen ? `${chosen.layer}: ${chosen.says.split(",")[0]}` : form.says, fields: chosen ? likeLast(chosen) : {}, cautions: chosen?.cautions || [], settled: chosen ? ["mix", "layer"] : [] });
}

// A batch like the last one of its card, else as the card says.
function likeLast(chosen) {
  const mine = items.filter((item) => ofCard(chosen, item) && item.state !== "wrong").at(-1)?.raw.fields;
  const last = mine || record.batches[`${chosen.mix}|${chosen.layer}`];
  if (last) {
    const { slump, temperature, wet_density, made, ...alike } = last; // readings are of that batch alone
    return { ...alike, batches: "1" };
  }
  return { mix: chosen.mix, batches: "1", amounts: chosen.amounts, layer: chosen.layer };
}

async function mend(id) {
  const item = await outbox.get(id);
  if (!item || !formOf(item.raw.kind)) return home();
  return entryScreen({ form: formOf(item.raw.kind), title: `Mend: ${formOf(item.raw.kind).says}`, fields: item.raw.fields, complaints: item.complaints, item });
}

function entryScreen({ form, title, fields, cautions = [], complaints = [], settled = [], item = null }) {
  const made = makeForm(form, { last: record.last[form.kind] || {}, currency: record.currency, names: names(), fields, complaints, pictures: item?.photos || [], settled });
  const other = complaints.filter(({ place }) => !made.field(place));
  const when = el("input", { id: "when", type: "datetime-local", step: 60, value: item ? item.raw.at.slice(0, 16) : "" });
  const written = when.value;
  const at = () => (when.value && when.value !== written ? stamp(new Date(when.value)) : item ? item.raw.at : stamp(now()));
  const shell = el("form", { novalidate: true, onsubmit: async (event) => {
    event.preventDefault();
    if (shell.dataset.busy || made.complaints()) return;
    shell.dataset.busy = "yes"; // a second tap of a wet finger writes nothing twice
    await keep({ kind: form.kind, at: at(), fields: made.read() }, made.pictures(), item).finally(() => { delete shell.dataset.busy; });
  } },
  other.length ? el("div", { class: "told" }, other.map(({ place, message }) => el("p", {}, `${place}: ${message}`))) : null,
  made.element,
  el("details", { class: "more" }, el("summary", {}, item ? `When: ${day(item.raw.at)} ${clock(item.raw.at)}` : "When: now"), el("label", { for: "when" }, "It happened at"), when),
  el("div", { class: "keep" }, el("button", { type: "submit", class: "big primary", id: "keep" }, "Keep"), el("a", { class: "button big", href: "#" }, "Back")));
  return [el("h1", {}, upper(title)), cautions.length ? el("p", { class: "caution" }, cautions.join(" ")) : null, shell];
}

// Whether the log may have it.
const isUnderway = (item) => item.state === "sent" || item.tried;

// What an entry written over another becomes: the same one again as long as the log cannot have it, else a correction.
function inPlaceOf(before) {
  if (!before) return { id: newId() };
  if (before.state === "clash") return { id: newId(), corrects: before.raw.corrects, replaces: before.id };
  if (isUnderway(before)) return { id: newId(), corrects: before.id };
  return { id: before.id, corrects: before.raw.corrects, replaces: before.id };
}

// Without signs that no text can hold; one of them would keep all entries sent with it from being read.
const clean = (found) => (typeof found === "string" ? found.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\u0080-\u009f\ud800-\udfff]/gu, "")
  : Array.isArray(found) ? found.map(clean) : Object.fromEntries(Object.entries(found).map(([key, value]) => [key, clean(value)])));

// Whether it is kept.
async function keep(said, pictures, opened) {
  const before = opened && !opened.sure ? (await outbox.get(opened.id)) || opened : opened; // it may have been sent meanwhile
  const { id, corrects, replaces } = inPlaceOf(before);
  const raw = { id, kind: said.kind, at: said.at, who: settings.get("who"), device: deviceName(), fields: clean(said.fields) };
  if (corrects) raw.corrects = corrects;
  const item = { id, raw, site: record.site, state: "kept", complaints: [], photos: Object.keys(pictures), tried: false,
    kept: replaces ? before.kept : new Date().toISOString(), turn: newId() };
  const blobs = {};
  for (const [key, blob] of Object.entries(pictures)) {
    if (blob !== true) blobs[key] = blob;
    else if (before && before.id !== id) blobs[key] = await outbox.picture(before.id, key);
    if (blobs[key] === null) delete blobs[key];
  }
  return put({ item, pictures: blobs, replaces, redo: () => keep(said, pictures, opened) });
}

// Whether it is kept. What is to replace one under its own id is made anew when that one went on its way meanwhile.
async function put(wanted) {
  try {
    const over = wanted.replaces === wanted.item.id;
    if (!(await outbox.put(wanted.item, wanted.pictures, over ? isUnderway : null))) return await wanted.redo();
    if (wanted.replaces && wanted.replaces !== wanted.item.id) await outbox.remove(wanted.replaces);
  } catch (fault) {
    unkept = { ...wanted, fault };
    say("Not kept.");
    go("unkept");
    return false;
  }
  unkept = null;
  say("Kept on this phone.");
  if (isSecureContext) void navigator.storage?.persist?.();
  go("");
  void sender.send();
  return true;
}

function unkeptScreen() {
  if (!unkept) return home();
  const { item, pictures, fault } = unkept;
  const text = JSON.stringify({ "pinfold-log": 1, entries: [item.raw] }, null, 1);
  const why = fault instanceof PictureTooLarge ? "The photo is too large for the room this browser gives; take a smaller one, or go without it."
    : fault?.name === "QuotaExceededError" ? "The phone’s storage is full. Free some room (old photos, other apps), then try again." : `The browser would not write it: ${fault?.message || fault}.`;
  const area = el("textarea", { id: "unkept-text", rows: 8, readonly: true, "aria-label": "the entry as text" }, text);
  return [
    el("h1", {}, "This entry is not kept"),
    el("p", { class: "told", role: "alert" }, `${why} Do not close this page before the entry is safe: try again, send it, or copy it.`),
    el("div", { class: "kinds" },
      el("button", { type: "button", class: "big primary", id: "unkept-again", onclick: () => put(unkept) }, "Try again"),
      item.photos.length ? el("button", { type: "button", class: "big", onclick: async () => {
        unkept.item = { ...item, photos: [] };
        unkept.pictures = {};
        await show();
      } }, "Go without the photo") : null,
      el("button", { type: "button", class: "big", id: "unkept-send", onclick: async () => {
        const hello = item.photos.length ? null : await sender.hello();
        const answer = hello && (await fetch("/api/log", { method: "POST", headers: { "content-type": "application/json", "x-pinfold-token": hello.token }, body: JSON.stringify({ entries: [item.raw] }) }).catch(() => null));
        const state = answer?.ok ? (await answer.json()).receipts[0].state : "";
        if (state === "new" || state === "known") {
          unkept = null;
          say("In the log.");
          go("");
        } else say("It could not be sent now.");
      } }, "Send it straight to the log"),
      el("button", { type: "button", class: "big", onclick: async () => {
        area.select();
        try {
          await navigator.clipboard.writeText(text);
        } catch {
          document.execCommand("copy");
        }
        say("Copied.");
      } }, "Copy it"),
      el("button", { type: "button", class: "big", onclick: () => download(text) }, "Save it as a file")),
    area,
  ];
}

// ---- what waits

function unsentScreen() {
  const waiting = unsent();
  return [
    el("h1", {}, "Not in the log yet"),
    waiting.length ? el("ul", { class: "written" }, waiting.map((item) => el("li", { class: item.state, "data-id": item.id }, ...detail(item))))
      : el("p", {}, "Nothing waits here: all you wrote on this phone is in the log."),
    el("div", { class: "kinds" },
      el("button", { type: "button", class: "big primary", id: "send-now", onclick: async () => { await sender.send(); say(unsent().length ? "Some still wait." : "All is in the log."); } }, "Send now"),
      waiting.length ? el("button", { type: "button", class: "big", id: "export", onclick: async () => download(JSON.stringify(await exported(outbox, waiting))) }, "Save them to a file for the laptop") : null,
      el("a", { class: "button big", href: "#" }, "Back")),
  ];
}

async function itemScreen(id) {
  const item = await outbox.get(id);
  if (!item) return home();
  return [el("h1", {}, formOf(item.raw.kind)?.says || item.raw.kind), el("div", { class: `one ${item.state}` }, ...detail(item)), el("div", { class: "kinds" }, el("a", { class: "button big", href: "#" }, "Back"))];
}

function detail(item) {
  const [sign, words] = STATES[item.state];
  const form = formOf(item.raw.kind);
  const says = (key) => form?.fields.find((field) => field.key === key)?.says || key;
  const known = names();
  const worded = (value) => (Array.isArray(value) ? value.map(([what, text]) => `${several(text)} ${known[what] || what}`).join(", ") : known[value] || value);
  return [
    el("p", {}, el("b", {}, `${day(item.raw.at)} ${clock(item.raw.at)}`), ` ${summary(item.raw)} `, el("span", { class: "state" }, `${sign} ${words}`)),
    item.complaints.length ? el("div", { class: "told" }, item.complaints.map(({ place, message }) => el("p", {}, el("b", {}, `${says(place)}: `), message))) : null,
    el("dl", {}, Object.entries(item.raw.fields).filter(([key]) => key !== "photo").flatMap(([key, value]) => [el("dt", {}, says(key)), el("dd", {}, worded(value))])),
    item.photos.length && item.state !== "sent" ? el("p", { class: "hint" }, "A photo goes with it.") : null,
    el("div", { class: "kinds" },
      form ? el("a", { class: "button", href: `#mend/${item.id}` }, item.state === "wrong" ? "Mend it" : "Change it") : null,
      item.raw.kind === "withdrawn" && item.state === "sent" ? null : el("button", { type: "button", onclick: (event) => takeBack(item, event.target) }, item.state === "sent" ? "Take it back" : "Remove it"),
      item.state === "clash" ? el("button", { type: "button", onclick: () => asNew(item) }, "Send it as a new entry") : null),
  ];
}

async function takeBack(item, button) {
  if (!button.dataset.sure) {
    button.dataset.sure = "yes";
    button.textContent = "Sure? Tap again";
    return;
  }
  const needsWord = (held) => held.state === "sent" || (held.tried && held.state === "kept"); // as it is now, not as it was shown
  if (!(await outbox.remove(item.id, needsWord))) {
    const words = { kind: "withdrawn", at: stamp(now()), fields: { text: "taken back on the phone" } };
    if (!(await keep(words, {}, { ...item, tried: true, state: "kept", sure: true }))) return;
    await outbox.remove(item.id);
  }
  go("");
}

async function asNew(item) {
  await keep({ kind: item.raw.kind, at: item.raw.at, fields: item.raw.fields }, Object.fromEntries(item.photos.map((key) => [key, true])), item);
}

function download(text) {
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const anchor = el("a", { href: address, download: `pinfold-${deviceName()}-${stamp(now()).slice(0, 16).replaceAll(":", "")}.json` });
  document.body.append(anchor);
  anchor.click();
  anchor.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}

// ---- names

// The name given at pairing, which the log puts on what a paired phone sends; empty where there was no pairing.
const pairedName = () => settings.get("paired", main.dataset.device);
const deviceName = () => pairedName() || settings.get("device") || "phone";

function namesScreen() {
  const who = el("input", { id: "who", maxlength: 40, autocomplete: "given-name", value: settings.get("who", "") });
  const device = el("input", { id: "device", maxlength: 40, autocomplete: "off", value: deviceName(), readonly: pairedName() !== "" });
  return [
    el("h1", {}, "Names"),
    el("p", {}, "They stand beside each entry, so that it can be told later who wrote it, and on which phone. Any names will do."),
    el("form", { onsubmit: (event) => {
      event.preventDefault();
      if (!who.value.trim()) return who.focus();
      settings.set("who", who.value.trim());
      if (!pairedName()) settings.set("device", device.value.trim() || "phone");
      go("");
    } },
    el("div", { class: "part" }, el("label", { for: "who" }, "Who writes"), who), el("div", { class: "part" }, el("label", { for: "device" }, pairedName() ? "Name of this phone, as paired" : "Name of this phone"), device),
    el("div", { class: "keep" }, el("button", { type: "submit", class: "big primary", id: "names-keep" }, "Keep"))),
  ];
}

// ---- the log's news

async function told(news) {
  link = { ...link, ...news };
  if (news.hello) settings.set("paired", news.hello.device);
  if (news.hello && news.hello.mark !== record.mark) {
    const answer = await fetch("/api/phone", { cache: "no-store", headers: { accept: "application/json" } }).catch(() => null);
    if (answer?.ok) {
      record = await answer.json();
      settings.set("record", record);
    }
  }
  await refresh();
}

async function start() {
  outbox = await openOutbox();
  sender = new Sender(outbox, (news) => void told(news));
  addEventListener("hashchange", () => void show());
  await show();
  sender.start();
  if (navigator.serviceWorker && isSecureContext) {
    navigator.serviceWorker.register("/sw.js", { scope: "/phone" }).catch(() => undefined); // unpaired, or a certificate the phone does not trust
  }
  document.documentElement.dataset.ready = "yes";
}

void start();
