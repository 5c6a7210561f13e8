// Small things every part of the phone page needs: elements, ids, times, settings that outlive the page.

export function el(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else if (name === "value" || name === "checked" || name === "disabled" || name === "selected") made[name] = value;
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) made.setAttribute(name, value);
  }
  made.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== ""));
  return made;
}

export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16)); // randomUUID is not there on plain http
  return btoa(String.fromCharCode(...bytes)).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

// Local time with its offset: 2026-05-03T14:20:05+02:00
export function stamp(date) {
  const ahead = -date.getTimezoneOffset();
  const two = (number) => String(Math.floor(Math.abs(number))).padStart(2, "0");
  const local = new Date(date.getTime() + ahead * 60000).toISOString().slice(0, 19);
  return `${local}${ahead < 0 ? "-" : "+"}${two(ahead / 60)}:${two(ahead % 60)}`;
}

export const clock = (at) => at.slice(11, 16);
export const day = (at) => at.slice(0, 10);

const PREFIX = "pinfold.phone.";

export const settings = {
  get(name, otherwise = null) {
    try {
      const text = localStorage.getItem(PREFIX + name);
      return text === null ? otherwise : JSON.parse(text);
    } catch {
      return otherwise;
    }
  },
  set(name, value) {
    try {
      localStorage.setItem(PREFIX + name, JSON.stringify(value));
      return true;
    } catch {
      return false; // full or not allowed: the page goes on with what it has in hand
    }
  },
  drop(name) {
    try {
      localStorage.removeItem(PREFIX + name);
    } catch {
      // nothing was kept
    }
  },
};

// The device's clock, corrected where the builder asked for it.
export const now = () => new Date(Date.now() + settings.get("clock", 0));

export function since(milliseconds) {
  const minutes = Math.round(Math.abs(milliseconds) / 60000);
  if (minutes < 120) return `${minutes} minutes`;
  const hours = Math.round(minutes / 60);
  return hours < 48 ? `${hours} hours` : `${Math.round(hours / 24)} days`;
}

export const upper = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);

const EIGHTHS = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];

// 3.5 bucket → 3 1/2 buckets, as one fills them
export const several = (text) => text.replace(/^(\S+) (bag|bucket|pail|shovel|barrow)$/, (all, number, word) => `${inEighths(number)} ${word}${Number(number) > 1 ? "s" : ""}`);

function inEighths(number) {
  const eighths = Number(number) * 8;
  if (!Number.isInteger(eighths) || eighths < 1) return number;
  return [Math.floor(eighths / 8) || "", EIGHTHS[eighths % 8]].filter(Boolean).join(" ");
}
