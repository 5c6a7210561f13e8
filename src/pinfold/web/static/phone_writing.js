// Writing an entry down: its form, keeping it on the phone, and what can be done when it would not be kept.

import { clock, day, el, newId, now, settings, stamp, upper } from "./phone_basics.js";
import { makeForm } from "./phone_forms.js";
import { PictureTooLarge } from "./phone_outbox.js";
import { deviceName, formOf, go, names, ofCard, phone, say } from "./phone_state.js";

export function write(kind, at) {
  const form = formOf(kind);
  if (!form) return null;
  const chosen = kind === "batch" && at !== undefined ? phone.record.cards[Number(at)] : null;
  return entryScreen({ form, title: chosen ? `${chosen.layer}: ${chosen.says.split(",")[0]}` : form.says, fields: chosen ? likeLast(chosen) : {}, cautions: chosen?.cautions || [], settled: chosen ? ["mix", "layer"] : [] });
}

// A form filled in by an address, such as the square code of a batch card; looked over and kept like any other.
export function fill() {
  const [kind, query = ""] = location.hash.slice("#fill/".length).split("?", 2);
  const form = formOf(kind);
  if (!form) return null;
  const fields = {};
  const complaints = [];
  const amounts = form.fields.find((field) => field.sort === "amounts");
  for (const [key, text] of new URLSearchParams(query)) {
    const field = form.fields.find((each) => each.key === key && !["amounts", "photo"].includes(each.sort));
    if (key === "with" && amounts) {
      const at = text.indexOf(":");
      fields[amounts.key] = [...(fields[amounts.key] || []), at < 0 ? [text, ""] : [text.slice(0, at), text.slice(at + 1)]];
    } else if (field && text.length <= Math.max(field.longest, 60)) fields[key] = text;
    else complaints.push({ place: key.slice(0, 40), message: field ? "too long to be read" : "the form has no such field" });
  }
  const card = phone.record.cards.find((each) => each.mix === fields.mix && each.layer === fields.layer);
  const title = card ? `${card.layer}: ${card.says.split(",")[0]}` : form.says;
  return entryScreen({ form, title, fields, complaints, cautions: card?.cautions || [] });
}

// A batch like the last one of its card, else as the card says.
function likeLast(chosen) {
  const mine = phone.items.filter((item) => ofCard(chosen, item) && item.state !== "wrong").at(-1)?.raw.fields;
  const last = mine || phone.record.batches[`${chosen.mix}|${chosen.layer}`];
  if (last) {
    const { slump, temperature, wet_density, made, ...alike } = last; // readings are of that batch alone
    return { ...alike, batches: "1" };
  }
  return { mix: chosen.mix, batches: "1", amounts: chosen.amounts, layer: chosen.layer };
}

export async function mend(id) {
  const item = await phone.outbox.get(id);
  if (!item || !formOf(item.raw.kind)) return null;
  return entryScreen({ form: formOf(item.raw.kind), title: `Mend: ${formOf(item.raw.kind).says}`, fields: item.raw.fields, complaints: [...item.complaints, ...(item.remarks || [])].map(({ place, message }) => ({ place: place.split(".")[0], message })), item });
}

function entryScreen({ form, title, fields, cautions = [], complaints = [], settled = [], item = null }) {
  const made = makeForm(form, { last: phone.record.last[form.kind] || {}, currency: phone.record.currency, names: names(), fields, complaints, pictures: item?.photos || [], placed: item?.placed || [], settled });
  const other = complaints.filter(({ place }) => !made.field(place));
  const when = el("input", { id: "when", type: "datetime-local", step: 60, value: item ? item.raw.at.slice(0, 16) : "" });
  const written = when.value;
  const at = () => (when.value && when.value !== written ? stamp(new Date(when.value)) : item ? item.raw.at : stamp(now()));
  const shell = el("form", { novalidate: true, onsubmit: async (event) => {
    event.preventDefault();
    if (shell.dataset.busy || made.complaints()) return;
    shell.dataset.busy = "yes"; // a second tap of a wet finger writes nothing twice
    await keep({ kind: form.kind, at: at(), fields: made.read(), placed: made.placed() }, made.pictures(), item).finally(() => { delete shell.dataset.busy; });
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
export async function keep(said, pictures, opened) {
  const before = opened && !opened.sure ? (await phone.outbox.get(opened.id)) || opened : opened; // it may have been sent meanwhile
  const { id, corrects, replaces } = inPlaceOf(before);
  const raw = { id, kind: said.kind, at: said.at, who: settings.get("who"), device: deviceName(), fields: clean(said.fields) };
  if (corrects) raw.corrects = corrects;
  const item = { id, raw, site: phone.record.site, state: "kept", complaints: [], photos: Object.keys(pictures), placed: said.placed || [], tried: false,
    kept: replaces ? before.kept : new Date().toISOString(), turn: newId() };
  const blobs = {};
  for (const [key, blob] of Object.entries(pictures)) {
    if (blob !== true) blobs[key] = blob;
    else if (before && before.id !== id) blobs[key] = await phone.outbox.picture(before.id, key);
    if (blobs[key] === null) delete blobs[key];
  }
  return put({ item, pictures: blobs, replaces, redo: () => keep(said, pictures, opened) });
}

// Whether it is kept. What is to replace one under its own id is made anew when that one went on its way meanwhile.
async function put(wanted) {
  try {
    const over = wanted.replaces === wanted.item.id;
    if (!(await phone.outbox.put(wanted.item, wanted.pictures, over ? isUnderway : null))) return await wanted.redo();
    if (wanted.replaces && wanted.replaces !== wanted.item.id) await phone.outbox.remove(wanted.replaces);
  } catch (fault) {
    phone.unkept = { ...wanted, fault };
    say("Not kept.");
    go("unkept");
    return false;
  }
  phone.unkept = null;
  say("Kept on this phone.");
  if (isSecureContext) void navigator.storage?.persist?.();
  go("");
  void phone.sender.send();
  return true;
}

export function unkeptScreen() {
  if (!phone.unkept) return null;
  const { item, pictures, fault } = phone.unkept;
  const text = JSON.stringify({ "pinfold-log": 1, entries: [item.raw] }, null, 1);
  const why = fault instanceof PictureTooLarge ? "The photo is too large for the room this browser gives; take a smaller one, or go without it."
    : fault?.name === "QuotaExceededError" ? "The phone’s storage is full. Free some room (old photos, other apps), then try again." : `The browser would not write it: ${fault?.message || fault}.`;
  const area = el("textarea", { id: "unkept-text", rows: 8, readonly: true, "aria-label": "the entry as text" }, text);
  return [
    el("h1", {}, "This entry is not kept"),
    el("p", { class: "told", role: "alert" }, `${why} Do not close this page before the entry is safe: try again, send it, or copy it.`),
    el("div", { class: "kinds" },
      el("button", { type: "button", class: "big primary", id: "unkept-again", onclick: () => put(phone.unkept) }, "Try again"),
      item.photos.length ? el("button", { type: "button", class: "big", onclick: () => {
        phone.unkept.item = { ...item, photos: [] };
        phone.unkept.pictures = {};
        go("unkept");
      } }, "Go without the photo") : null,
      el("button", { type: "button", class: "big", id: "unkept-send", onclick: async () => {
        const hello = item.photos.length ? null : await phone.sender.hello();
        const answer = hello && (await fetch("/api/log", { method: "POST", headers: { "content-type": "application/json", "x-pinfold-token": hello.token }, body: JSON.stringify({ entries: [item.raw] }) }).catch(() => null));
        const state = answer?.ok ? (await answer.json()).receipts[0].state : "";
        if (state === "new" || state === "known") {
          phone.unkept = null;
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

export function download(text) {
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const anchor = el("a", { href: address, download: `pinfold-${deviceName()}-${stamp(now()).slice(0, 16).replaceAll(":", "")}.json` });
  document.body.append(anchor);
  anchor.click();
  anchor.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}
