// What every part of the phone's page works on, and the few things all of them say about it.

import { settings } from "./phone_basics.js";

const main = document.getElementById("main");
const live = document.getElementById("live");

function newest(embedded, held) {
  return held && held.site === embedded.site && held.made > embedded.made ? held : embedded;
}

export const phone = {
  record: newest(JSON.parse(document.getElementById("record").textContent), settings.get("record")),
  outbox: null,
  sender: null,
  items: [],
  link: { state: "asking", clock: 0 },
  unkept: null, // an entry the browser would not keep: it lives on in this page until it is safe
};

export const names = () => Object.fromEntries(phone.record.cards.flatMap((card) => [
  ...card.amounts.map(([item], at) => [item, card.names[at]]), [card.mix, card.says.split(",")[0]]]));
export const formOf = (kind) => phone.record.forms.find((form) => form.kind === kind);
export const say = (words) => { live.textContent = ""; setTimeout(() => { live.textContent = words; }, 50); };
export const unsent = () => phone.items.filter((item) => item.state !== "sent");
// Those in the log that name something nothing is known by, unless they were corrected here since.
export const remarked = () => phone.items.filter((item) => item.state === "sent" && item.remarks?.length
  && !phone.items.some((other) => other.raw.corrects === item.id));
export const ofCard = (card, item) => item.raw.kind === "batch" && item.raw.fields.mix === card.mix && item.raw.fields.layer === card.layer;

// The name given at pairing, which the log puts on what a paired phone sends; empty where there was no pairing.
export const pairedName = () => settings.get("paired", main.dataset.device);
export const deviceName = () => pairedName() || settings.get("device") || "phone";

// Screens have an address each, so that the phone's own way back works.
export function go(hash) {
  if (location.hash.slice(1) === hash) dispatchEvent(new Event("hashchange"));
  else location.hash = hash;
}
