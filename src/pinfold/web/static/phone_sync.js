// Sending what is kept: one tab at a time, again and again until each entry has its receipt. Sending twice is harmless,
// for the log knows each entry by its id.

import { newId, settings } from "./phone_basics.js";

const PATIENCE = 12000;
const PICTURE_PATIENCE = 90000;
const AT_ONCE = 50;
const TURN = 4000;
const LEASE = 20000;
const WRONG_CLOCK = 5 * 60000;
const TAB = newId();
const REFUSALS = [400, 413, 415, 422]; // said of what was sent; any other fault is the laptop's, and passes

export class Sender {
  // tells: called with {state, clock, hello} after each try
  constructor(outbox, tells) {
    this.outbox = outbox;
    this.tells = tells;
    this.running = null;
    this.again = false;
    this.waits = ""; // why one of them could not be taken just now, which keeps no other waiting: broken, slow
    this.late = new Set(); // those whose picture got no answer; they come last, so that they keep no other waiting
    this.left = true; // whether anything is known to wait; asked less often when not
  }

  start() {
    const go = () => void this.send();
    addEventListener("online", go);
    addEventListener("focus", go);
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && go());
    let turn = 0;
    setInterval(() => {
      turn += 1;
      if (document.visibilityState === "visible" && (this.left || turn % 4 === 0)) go();
    }, TURN);
    go();
  }

  send() {
    if (this.running) {
      this.again = true;
      return this.running;
    }
    this.running = alone(() => this.once())
      .catch((fault) => this.tells({ state: "away", fault: String(fault) }))
      .finally(() => {
        this.running = null;
        if (this.again) {
          this.again = false;
          void this.send();
        }
      });
    return this.running;
  }

  async once() {
    this.left = true;
    let hello = await this.hello();
    if (!hello) return;
    const kept = (await this.outbox.all()).filter((item) => item.state === "kept" && item.site === hello.site);
    const plain = kept.filter(({ photos }) => !photos.length).map((item) => ({ item, raw: item.raw }));
    this.waits = "";
    for (let from = 0; from < plain.length; from += AT_ONCE) {
      if (!(await this.post(plain.slice(from, from + AT_ONCE), hello.token))) return;
    }
    if (!(await this.pictured(kept.filter(({ photos }) => photos.length), hello.token))) return;
    if (kept.length) {
      await this.outbox.tidy();
      hello = (await this.hello()) || hello; // what was sent is news to this page too
    }
    this.left = (await this.outbox.all()).some((item) => item.state === "kept" && item.site === hello.site);
    this.tells({ state: this.waits || "near", hello, clock: this.clock });
  }

  async hello() {
    const asked = Date.now();
    const answer = await fetched("/api/phone/hello", { headers: { accept: "application/json" } }, PATIENCE);
    if (!answer) return this.tells({ state: "away" });
    if (answer.status === 401 || answer.status === 403) return this.tells({ state: "strange" });
    if (!answer.ok || answer.redirected) return this.tells({ state: answer.redirected ? "strange" : "broken" });
    const hello = await answer.json().catch(() => null);
    if (!hello) return this.tells({ state: "away" });
    const middle = (asked + Date.now()) / 2 + settings.get("clock", 0);
    const off = middle - Date.parse(hello.time);
    this.clock = Math.abs(off) > WRONG_CLOCK ? off : 0;
    return hello;
  }

  // Whether to go on. One after the other, for pictures take long; one that gets no answer while the log is in reach is
  // tried again the next time.
  async pictured(items, token) {
    for (const item of [...items.filter(({ id }) => !this.late.has(id)), ...items.filter(({ id }) => this.late.has(id))]) {
      const { raw, trouble } = await this.withPictures(item, token);
      if (trouble === "strange") {
        this.tells({ state: trouble });
        return false;
      }
      if (trouble === "away") {
        this.late.add(item.id);
        this.waits = "slow";
        if (!(await this.hello())) return false;
      } else {
        this.late.delete(item.id);
        if (trouble) this.waits = trouble;
        if (raw && !(await this.post([{ item, raw }], token))) return false;
      }
    }
    return true;
  }

  // What is sent of an item, its pictures being in the log; nothing when one was refused, or the trouble that passes.
  async withPictures(item, token) {
    let { raw } = item;
    for (const key of item.photos) {
      const blob = await this.outbox.picture(item.id, key);
      if (!blob) continue;
      const answer = await fetched(`/api/photo${item.placed?.includes(key) ? "?keep_place=yes" : ""}`, {
        method: "POST", body: blob,
        headers: { "content-type": "application/octet-stream", "x-pinfold-token": token, accept: "application/json" },
      }, PICTURE_PATIENCE);
      const { said, refused, trouble } = await understood(answer);
      if (trouble) return { trouble };
      if (refused !== undefined) {
        await this.refuse(item, [{ place: key, message: refused || "the picture was refused" }]);
        return {};
      }
      raw = { ...raw, fields: { ...raw.fields, [key]: said.name, ...said.place } };
    }
    return { raw };
  }

  // Whether to go on. Only what is still as it was read goes out; what was changed meanwhile goes the next time.
  async post(ready, token) {
    const claimed = await this.outbox.claim(ready.map(({ item }) => item));
    const going = ready.filter(({ item }) => claimed.includes(item.id));
    if (!going.length) return true;
    const answer = await fetched("/api/log", {
      method: "POST", body: JSON.stringify({ entries: going.map(({ raw }) => raw) }),
      headers: { "content-type": "application/json", "x-pinfold-token": token, accept: "application/json" },
    }, PATIENCE);
    const { said, refused, trouble, some } = await understood(answer);
    if (refused !== undefined || some) return this.apart(going, token, refused);
    if (trouble) {
      this.tells({ state: trouble });
      return false;
    }
    for (const receipt of said.receipts) await this.take(receipt, going[receipt.place]);
    return true;
  }

  // One of them cannot even be read, or not be taken just now: each by itself, so that it stops no other.
  async apart(going, token, refused) {
    if (going.length > 1) {
      for (const each of going) if (!(await this.post([each], token))) return false;
      return true;
    }
    if (refused === undefined) this.waits = "broken";
    else await this.refuse(going[0].item, [{ place: "entry", message: refused || "it cannot be read" }]);
    return true;
  }

  async take(receipt, { item, raw }) {
    if (receipt.state === "wrong") return this.refuse(item, receipt.complaints);
    if (receipt.state === "conflict") return this.settle(item, { state: "clash", complaints: receipt.complaints });
    return this.settle(item, { state: "sent", sent: new Date().toISOString(), complaints: [], remarks: receipt.remarks || [], photos: [], placed: [], raw });
  }

  refuse(item, complaints) {
    return this.settle(item, { state: "wrong", complaints, tried: false });
  }

  // An item mended in the meantime keeps what the builder wrote last.
  settle(item, news) {
    return this.outbox.update(item.id, (held) => (held.turn === item.turn ? { ...held, ...news } : held));
  }
}

// What an answer comes to: what was `said`, why it was `refused` for good, or the `trouble` that passes; `some` when
// that may be in the way of some entries only, as a plan or price list being written just now is.
async function understood(answer) {
  if (!answer) return { trouble: "away" };
  const said = await answer.json().catch(() => null);
  if (answer.ok) return said ? { said } : { trouble: "away" };
  if (answer.status === 401 || answer.status === 403) return { trouble: "strange" };
  if (said?.error === "invalid-plan") return { trouble: "broken", some: true };
  return REFUSALS.includes(answer.status) ? { refused: said?.message || "" } : { trouble: "broken" };
}

async function fetched(address, options, patience) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), patience);
  try {
    const answer = await fetch(address, { cache: "no-store", credentials: "same-origin", ...options, signal: stop.signal });
    const body = await answer.text(); // which may fail to come, too
    return { ok: answer.ok, status: answer.status, redirected: answer.redirected, json: async () => JSON.parse(body) };
  } catch {
    return null;
  } finally {
    clearTimeout(timer);
  }
}

// Runs `work` in this tab alone.
async function alone(work) {
  if (navigator.locks) {
    return navigator.locks.request("pinfold-phone-send", { ifAvailable: true }, (lock) => (lock ? work() : undefined));
  }
  const held = settings.get("lease");
  if (held && held.tab !== TAB && held.until > Date.now()) return undefined;
  const renew = () => settings.set("lease", { tab: TAB, until: Date.now() + LEASE });
  const release = () => { if (settings.get("lease")?.tab === TAB) settings.drop("lease"); };
  addEventListener("pagehide", release); // the next page need not wait until it runs out
  renew();
  let timer;
  try {
    await new Promise((resolve) => setTimeout(resolve, 30 + Math.random() * 40)); // two tabs at once: the last one has it
    if (settings.get("lease")?.tab !== TAB) return undefined;
    timer = setInterval(renew, LEASE / 3);
    return await work();
  } finally {
    clearInterval(timer);
    removeEventListener("pagehide", release);
    release();
  }
}
