// Asking the server: one question at a time, the newest only; saving; typed quantities.

const token = () => document.getElementById("main").dataset.token;

async function ask(path, record) {
  const answer = await fetch(path, record === undefined ? { headers: { Accept: "application/json" } } : {
    method: "POST", body: JSON.stringify(record),
    headers: { "Content-Type": "application/json", Accept: "application/json", "X-Pinfold-Token": token() },
  });
  const kind = answer.headers.get("content-type") ?? "";
  const found = kind.includes("json") ? await answer.json() : { message: (await answer.text()).slice(0, 300) };
  return { ok: answer.ok, status: answer.status, found };
}

export const opened = () => ask("/api/plan");
export const saved = (record) => ask("/api/plan/save", record);

// The page tells whether an answer is awaited, for those who wait for it.
const awaited = new Set();
function asking(on, what) {
  if (on) awaited.add(what); else awaited.delete(what);
  document.getElementById("draft").dataset.asking = awaited.size ? "yes" : "no";
}

export async function measured(text) {
  asking(1, "measure");
  const { ok, found } = await ask("/api/plan/measure", { texts: [text] }).finally(() => setTimeout(() => asking(0, "measure")));
  return ok ? found.measured[0] : { text, complaint: found.message };
}

// Tries the newest outline as soon as the last answer is there and a frame has passed; older ones are never asked.
export class Trials {
  constructor(answered) {
    this.answered = answered;
    this.waiting = null;
    this.busy = false;
    this.serial = 0;
  }

  want(parts) {
    asking(1, "trial");
    this.waiting = { parts, since: performance.now(), serial: ++this.serial };
    if (!this.busy) requestAnimationFrame(() => this.next());
  }

  get quiet() { return !this.busy && !this.waiting; }

  async next() {
    if (this.busy || !this.waiting) return;
    const { parts, since, serial } = this.waiting;
    this.waiting = null;
    this.busy = true;
    try {
      if (serial % 400 === 0) performance.clearMeasures();
      const asked = performance.now();
      const { ok, found } = await ask("/api/plan/try", { changes: parts, serial });
      const back = performance.now();
      if (ok) this.answered(found, serial === this.serial);
      else this.answered({ reads: false, complaints: found.problems?.length ? found.problems : [{ place: "", message: found.message }] }, true);
      performance.measure("pinfold server", { start: asked, end: back });
      performance.measure("pinfold answered", { start: since, end: performance.now() });
    } catch {
      this.answered({ reads: false, complaints: [{ place: "", message: "the server does not answer; what you drew stays here, try again" }] }, true);
    } finally {
      this.busy = false;
      if (this.waiting) requestAnimationFrame(() => this.next());
      else asking(0, "trial");
    }
  }
}
