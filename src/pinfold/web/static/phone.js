// The phone's page: its screens, what stands above them, and the log's news.

import { el, settings, since } from "./phone_basics.js";
import { openOutbox } from "./phone_outbox.js";
import { deviceName, go, pairedName, phone, remarked, say, unsent } from "./phone_state.js";
import { Sender } from "./phone_sync.js";
import { home, itemScreen, summary, unsentScreen } from "./phone_today.js";
import { fill, mend, unkeptScreen, write } from "./phone_writing.js";

const main = document.getElementById("main");
const banners = document.getElementById("banners");
const reach = document.getElementById("reach");

// ---- screens, one address each, so that the phone's own way back works

const SCREENS = { "": home, write, fill, mend, unsent: unsentScreen, names: namesScreen, item: itemScreen, unkept: unkeptScreen };

let turns = 0;
let drawn = "";
const seen = () => JSON.stringify([location.hash, phone.record.mark, phone.record.days_mark, phone.items.map((item) => [item.id, item.state, item.turn, item.remarks?.length])]);

async function show() {
  turns += 1;
  const turn = turns;
  const [screen, ...rest] = location.hash.startsWith("#fill/") ? ["fill"] : location.hash.slice(1).split("/").map(decodeURIComponent);
  phone.items = await phone.outbox.all();
  const wanted = !settings.get("who") && screen !== "names" ? namesScreen : SCREENS[screen] || home;
  const inside = ((await wanted(...rest)) || home()).filter(Boolean);
  if (turn !== turns) return; // another screen was asked for meanwhile
  main.replaceChildren(...inside);
  drawn = seen();
  frame();
  document.title = `${main.querySelector("h1")?.textContent || phone.record.site} · pinfold`;
  scrollTo(0, 0);
}

// Everything that changes by itself, without touching a form that is being filled in.
async function refresh() {
  phone.items = await phone.outbox.all();
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

function frame() {
  const waiting = unsent().length;
  const WORDS = {
    asking: "looking for the log …", near: "the log is in reach", away: "the log is out of reach; all you write is kept here",
    strange: "the log does not know this phone", broken: "the log cannot write just now; all you write is kept here",
    slow: "a photo did not get through yet; it is sent again by itself",
  };
  const count = waiting ? `${waiting} not in the log yet` : "nothing waits here";
  const sign = waiting ? "◔" : "✓";
  reach.textContent = `${sign} ${count}; ${WORDS[phone.link.state]}`;
  reach.className = waiting ? "reach waits" : "reach";
  banners.replaceChildren(...[logBanner(), clockBanner(), strangeBanner(), plainBanner(), smallBanner(), newerBanner(), unkeptBanner(), doubtBanner(), otherSite()].filter(Boolean));
}

function banner(...inside) {
  return el("div", { class: "caution" }, ...inside);
}

const logBanner = () => (phone.record.cautions?.length ? banner(...phone.record.cautions.map((text) => el("p", {}, text))) : null);

function doubtBanner() {
  const [item] = remarked().slice(-1);
  if (!item || location.hash === `#item/${item.id}` || location.hash === `#mend/${item.id}`) return null;
  return banner(el("p", {}, `In the log, ${summary(item.raw)}: ${item.remarks[0].message}`), el("a", { class: "button", href: `#item/${item.id}` }, "See to it"));
}

function clockBanner() {
  const corrected = settings.get("clock", 0);
  if (!phone.link.clock) return corrected ? banner(`New entries carry the log’s time, ${since(corrected)} ${corrected > 0 ? "later" : "earlier"} than this phone’s clock.`, el("button", { type: "button", id: "clock-own", onclick: () => { settings.set("clock", 0); void phone.sender.send(); frame(); } }, "Use this phone’s clock")) : null;
  const words = `This phone’s clock is ${since(phone.link.clock)} ${phone.link.clock > 0 ? "ahead of" : "behind"} the log’s. One of the two is wrong: set it right, or let new entries carry the log’s time.`;
  return banner(el("p", {}, words), el("button", { type: "button", id: "clock-log", onclick: () => {
    settings.set("clock", corrected - Math.round(phone.link.clock));
    phone.link = { ...phone.link, clock: 0 };
    frame();
    say("New entries carry the log’s time.");
  } }, "Use the log’s time"));
}

const strangeBanner = () => (phone.link.state === "strange"
  ? banner(el("p", {}, "This phone is not paired with the log any more. What you wrote stays here and is sent once it is paired again."), el("a", { class: "button", href: "/phone" }, "Pair it again")) : null);
const plainBanner = () => (!isSecureContext
  ? banner("Plain connection: out of reach, do not reload this page and do not pull it down; it would not come back. Open it by its link or from a bookmark instead. What you wrote stays kept.") : null);
const smallBanner = () => (phone.outbox.kind === "small"
  ? banner("This browser gives little room (private window?): photos over 400 kB are refused, and all is lost when the window’s data are cleared. Send often.") : null);
const newerBanner = () => (phone.link.hello && phone.link.hello.version !== main.dataset.version
  ? banner(el("p", {}, "There is a newer version of this page."), el("a", { class: "button", href: "/phone" }, "Open it")) : null);
const unkeptBanner = () => (phone.unkept && location.hash !== "#unkept"
  ? el("div", { class: "told" }, el("p", {}, "An entry is NOT kept."), el("a", { class: "button", href: "#unkept" }, "See to it")) : null);

function otherSite() {
  const here = phone.link.hello?.site;
  const others = here ? phone.items.filter((item) => item.site !== here && item.state === "kept") : [];
  if (!others.length) return null;
  return banner(el("p", {}, `${others.length} of them were written for ${others[0].site}; this log is of ${here}.`), el("button", { type: "button", onclick: async () => {
    for (const item of others) await phone.outbox.update(item.id, (held) => ({ ...held, site: here }));
    void phone.sender.send();
    await refresh();
  } }, `Send them to ${here} all the same`));
}

// ---- names

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
      go(location.hash === "#names" ? "" : location.hash.slice(1)); // on to what was opened, such as a scanned batch
    } },
    el("div", { class: "part" }, el("label", { for: "who" }, "Who writes"), who), el("div", { class: "part" }, el("label", { for: "device" }, pairedName() ? "Name of this phone, as paired" : "Name of this phone"), device),
    el("div", { class: "keep" }, el("button", { type: "submit", class: "big primary", id: "names-keep" }, "Keep"))),
  ];
}

// ---- the log's news

async function told(news) {
  phone.link = { ...phone.link, ...news };
  if (news.hello) settings.set("paired", news.hello.device);
  if (news.hello && (news.hello.mark !== phone.record.mark || news.hello.days_mark !== phone.record.days_mark)) {
    const answer = await fetch("/api/phone", { cache: "no-store", headers: { accept: "application/json" } }).catch(() => null);
    if (answer?.ok) {
      phone.record = await answer.json();
      settings.set("record", phone.record);
    }
  }
  await refresh();
}

async function start() {
  phone.outbox = await openOutbox();
  phone.sender = new Sender(phone.outbox, (news) => void told(news));
  addEventListener("hashchange", () => void show());
  await show();
  phone.sender.start();
  if (navigator.serviceWorker && isSecureContext) {
    navigator.serviceWorker.register("/sw.js", { scope: "/phone" }).catch(() => undefined); // unpaired, or a certificate the phone does not trust
  }
  document.documentElement.dataset.ready = "yes";
}

void start();
