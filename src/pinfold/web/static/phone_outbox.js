// What was written down and is not known to be in the log: kept in the browser's database, or in its small store where
// there is no database. An item is only called kept once the browser has said that it is written.
//
// item: {id, raw, site, state, complaints, remarks, photos, placed, tried, kept, sent, turn}
//   state       kept: to be sent · sent: in the log · wrong: refused with complaints · clash: the id is taken
//   remarks     what the log said of one that it has: names that nothing is known by; gone once the builder leaves it so
//   photos      keys of fields whose picture is still here
//   placed      those of them whose place is to be kept; not there in an item of before that could be wished
//   tried       whether it was ever on its way, so that the log may have it although no answer came
//   turn        another one each time the builder writes it anew

const NAME = "pinfold-phone";
const SMALL = "pinfold.phone.item.";
const SMALL_PICTURE = 400000;
const SENT_KEPT = 60;

export class PictureTooLarge extends Error {}

export async function openOutbox() {
  try {
    return new Database(await opened());
  } catch {
    return new Small();
  }
}

function opened() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("items", { keyPath: "id" });
      request.result.createObjectStore("pictures", { keyPath: "name" });
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error("blocked"));
  });
}

class Database {
  kind = "database";

  constructor(database) {
    this.database = database;
    database.onversionchange = () => database.close();
  }

  // Runs `work` in one transaction and answers when it is on disk. `work` is given the two stores and `held`, which
  // reads an item and goes on with it, or with null.
  change(work) {
    return new Promise((resolve, reject) => {
      const turn = this.database.transaction(["items", "pictures"], "readwrite", { durability: "strict" });
      turn.oncomplete = () => resolve();
      turn.onabort = () => reject(turn.error || new DOMException("the browser stopped it", "AbortError"));
      const items = turn.objectStore("items");
      const whole = (step) => {
        try {
          step();
        } catch (fault) {
          reject(fault);
          try {
            turn.abort();
          } catch {
            // it has ended already
          }
        }
      };
      const held = (id, go) => { items.get(id).onsuccess = ({ target }) => whole(() => go(target.result || null)); };
      whole(() => work(items, turn.objectStore("pictures"), held));
    });
  }

  read(store, ask) {
    return new Promise((resolve, reject) => {
      const request = ask(this.database.transaction(store, "readonly").objectStore(store));
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  }

  async all() {
    return inTurn(await this.read("items", (items) => items.getAll()));
  }

  async get(id) {
    return (await this.read("items", (items) => items.get(id))) || null;
  }

  // Whether it was written: not over an item that `spares` tells to leave as it is.
  async put(item, pictures = {}, spares = null) {
    let written = false;
    await this.change((items, kept, held) => {
      const write = () => {
        for (const [key, blob] of Object.entries(pictures)) kept.put({ name: `${item.id}.${key}`, blob });
        items.put(item);
        written = true;
      };
      if (spares) held(item.id, (found) => { if (!found || !spares(found)) write(); });
      else write();
    });
    return written;
  }

  // A change to an item as it is now; nothing when it is gone. Two tabs can never overwrite each other's news.
  update(id, mend) {
    return this.change((items, kept, held) => held(id, (found) => {
      if (!found) return;
      const mended = mend(found);
      items.put(mended);
      if (mended.state === "sent") for (const key of found.photos) kept.delete(`${id}.${key}`);
    }));
  }

  // Those that are still as they were read, marked as on their way; the others are left alone. All in one transaction,
  // so that nobody can remove or change one in between.
  async claim(wanted) {
    const claimed = [];
    await this.change((items, kept, held) => {
      for (const item of wanted) held(item.id, (found) => {
        if (!isAsRead(found, item)) return;
        items.put({ ...found, tried: true });
        claimed.push(item.id);
      });
    });
    return claimed;
  }

  // Whether it is gone: not when `spares` tells to leave it.
  async remove(id, spares = () => false) {
    let gone = true;
    await this.change((items, kept, held) => held(id, (found) => {
      gone = !found || !spares(found);
      if (!gone) return;
      items.delete(id);
      for (const key of found ? found.photos : []) kept.delete(`${id}.${key}`);
    }));
    return gone;
  }

  async picture(id, key) {
    const found = await this.read("pictures", (kept) => kept.get(`${id}.${key}`));
    return found ? found.blob : null;
  }

  async tidy() {
    const sent = (await this.all()).filter((item) => item.state === "sent");
    for (const item of sent.slice(0, Math.max(0, sent.length - SENT_KEPT))) await this.remove(item.id);
  }
}

class Small {
  kind = "small";

  async all() {
    const found = [];
    for (let place = 0; place < localStorage.length; place += 1) {
      const key = localStorage.key(place);
      if (key.startsWith(SMALL)) found.push(JSON.parse(localStorage.getItem(key)));
    }
    return inTurn(found.map(({ pictures, ...item }) => item));
  }

  raw(id) {
    const text = localStorage.getItem(SMALL + id);
    return text === null ? null : JSON.parse(text);
  }

  async get(id) {
    return this.raw(id);
  }

  async put(item, pictures = {}, spares = null) {
    const texts = {};
    for (const [key, blob] of Object.entries(pictures)) {
      if (blob.size > SMALL_PICTURE) throw new PictureTooLarge();
      texts[key] = await asText(blob);
    }
    const found = this.raw(item.id); // from here on in one go
    if (found && spares && spares(found)) return false;
    localStorage.setItem(SMALL + item.id, JSON.stringify({ ...item, pictures: { ...found?.pictures, ...texts } }));
    return true;
  }

  async update(id, mend) {
    const found = this.raw(id);
    if (!found) return;
    const { pictures, ...item } = found;
    const mended = mend(item);
    localStorage.setItem(SMALL + id, JSON.stringify({ ...mended, pictures: mended.state === "sent" ? {} : pictures }));
  }

  async claim(wanted) {
    const claimed = wanted.map((item) => [item.id, this.raw(item.id)]).filter(([, found], at) => isAsRead(found, wanted[at]));
    for (const [id, found] of claimed) localStorage.setItem(SMALL + id, JSON.stringify({ ...found, tried: true }));
    return claimed.map(([id]) => id);
  }

  async remove(id, spares = () => false) {
    const found = this.raw(id);
    if (found && spares(found)) return false;
    localStorage.removeItem(SMALL + id);
    return true;
  }

  async picture(id, key) {
    const text = this.raw(id)?.pictures?.[key];
    if (!text) return null;
    const bytes = Uint8Array.from(atob(text.split(",")[1]), (letter) => letter.charCodeAt(0));
    return new Blob([bytes], { type: text.slice(5, text.indexOf(";")) });
  }

  async tidy() {
    const sent = (await this.all()).filter((item) => item.state === "sent");
    for (const item of sent.slice(0, Math.max(0, sent.length - SENT_KEPT))) await this.remove(item.id);
  }
}

const isAsRead = (found, item) => Boolean(found) && found.state === item.state && found.site === item.site
  && found.turn === item.turn && JSON.stringify(found.raw) === JSON.stringify(item.raw);

const inTurn = (items) => items.sort((one, other) => (one.kept < other.kept ? -1 : one.kept > other.kept ? 1 : 0));

function asText(blob) {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(reader.result);
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(blob);
  });
}

// What a file for the laptop holds: the entries as the log takes them, with their pictures as text.
export async function exported(outbox, items) {
  const entries = [];
  for (const item of items) {
    const pictures = {};
    for (const key of item.photos) {
      const blob = await outbox.picture(item.id, key);
      if (blob) pictures[key] = await asText(blob);
    }
    const placed = Object.keys(pictures).filter((key) => item.placed?.includes(key));
    entries.push({ ...item.raw, ...(Object.keys(pictures).length ? { pictures } : {}), ...(placed.length ? { placed } : {}) });
  }
  return { "pinfold-log": 1, entries };
}
