// What was written down and is not known to be in the log: kept in the browser's database, or in its small store where
// there is no database. An item is only called kept once the browser has said that it is written.
//
// item: {id, raw, site, state, complaints, photos, tried, kept, sent}
//   state       kept: to be sent · sent: in the log · wrong: refused with complaints · clash: the id is taken
//   photos      keys of fields whose picture is still here
//   tried       whether it was ever on its way, so that the log may have it although no answer came

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

  // Runs `work` in one transaction and answers when it is on disk.
  change(work) {
    return new Promise((resolve, reject) => {
      const turn = this.database.transaction(["items", "pictures"], "readwrite", { durability: "strict" });
      turn.oncomplete = () => resolve();
      turn.onabort = () => reject(turn.error || new DOMException("the browser stopped it", "AbortError"));
      try {
        work(turn.objectStore("items"), turn.objectStore("pictures"));
      } catch (fault) {
        reject(fault);
        try {
          turn.abort();
        } catch {
          // it has ended already
        }
      }
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

  put(item, pictures = {}) {
    return this.change((items, kept) => {
      for (const [key, blob] of Object.entries(pictures)) kept.put({ name: `${item.id}.${key}`, blob });
      items.put(item);
    });
  }

  // A change to an item as it is now; nothing when it is gone. Two tabs can never overwrite each other's news.
  update(id, mend) {
    return this.change((items, kept) => {
      items.get(id).onsuccess = ({ target }) => {
        if (!target.result) return;
        const mended = mend(target.result);
        items.put(mended);
        if (mended.state === "sent") for (const key of target.result.photos) kept.delete(`${id}.${key}`);
      };
    });
  }

  async remove(id) {
    const item = await this.get(id);
    await this.change((items, kept) => {
      items.delete(id);
      for (const key of item ? item.photos : []) kept.delete(`${id}.${key}`);
    });
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

  async put(item, pictures = {}) {
    const held = { ...(this.raw(item.id)?.pictures || {}) };
    for (const [key, blob] of Object.entries(pictures)) {
      if (blob.size > SMALL_PICTURE) throw new PictureTooLarge();
      held[key] = await asText(blob);
    }
    localStorage.setItem(SMALL + item.id, JSON.stringify({ ...item, pictures: held }));
  }

  async update(id, mend) {
    const found = this.raw(id);
    if (!found) return;
    const { pictures, ...item } = found;
    const mended = mend(item);
    localStorage.setItem(SMALL + id, JSON.stringify({ ...mended, pictures: mended.state === "sent" ? {} : pictures }));
  }

  async remove(id) {
    localStorage.removeItem(SMALL + id);
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
    entries.push(Object.keys(pictures).length ? { ...item.raw, pictures } : item.raw);
  }
  return { "pinfold-log": 1, entries };
}
