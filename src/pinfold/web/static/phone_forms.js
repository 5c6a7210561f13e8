// The form of one kind of entry, made from the kind's fields. `read()` gives what the log takes, `fill()` puts it back.

import { el } from "./phone_basics.js";
import { placeOf, withPlace } from "./phone_place.js";

const LARGEST_PICTURE = 25000000;
const LONGEST_SIDE = 1600;

export function makeForm(form, { last = {}, currency = "", names = {}, fields = {}, complaints = [], pictures = [], placed = [], settled = [] }) {
  const parts = form.fields.map((field) => {
    const part = MAKERS[field.sort](field, { offers: last[field.key] || [], currency, names, held: pictures, placed });
    part.key = field.key;
    if (fields[field.key] !== undefined) part.fill(fields[field.key]);
    const told = el("p", { class: "complaint", id: `complaint-${field.key}`, hidden: true });
    const shell = el("div", { class: "part", "data-field": field.key }, part.element, told);
    part.tell = (message) => {
      told.textContent = message;
      told.hidden = !message;
      for (const input of shell.querySelectorAll("input, select, textarea")) {
        input.toggleAttribute("aria-invalid", Boolean(message));
        if (message) input.setAttribute("aria-describedby", told.id);
      }
    };
    part.shell = shell;
    part.field = field;
    return part;
  });
  for (const { place, message } of complaints) parts.find((part) => part.key === place)?.tell(message);
  const asked = (part) => part.field.needed || part.field.first || filled(part) || part.field.sort === "amounts" || form.fields.length < 5;
  const wrong = (part) => complaints.some(({ place }) => place === part.key);
  const first = parts.filter((part) => wrong(part) || (asked(part) && !(settled.includes(part.key) && filled(part))));
  const rest = parts.filter((part) => !first.includes(part));
  const unasked = Object.entries(fields).filter(([key]) => !form.fields.some((field) => field.key === key)); // told by the photo there
  const element = el(
    "div", { class: "fields" }, first.map((part) => part.shell),
    rest.length ? el("details", { class: "more" }, el("summary", {}, `More: ${rest.map((part) => part.field.says).join(", ")}`),
      rest.map((part) => part.shell)) : null,
  );
  return {
    element,
    complaints: () => check(parts),
    read: () => Object.fromEntries([
      ...(parts.some((part) => part.isNew?.()) ? [] : unasked),
      ...parts.map((part) => [part.key, part.read()]).filter(([, value]) => !empty(value)),
    ]),
    pictures: () => Object.fromEntries(parts.filter((part) => part.picture?.()).map((part) => [part.key, part.picture()])),
    placed: () => parts.filter((part) => part.placed?.()).map((part) => part.key),
    field: (key) => parts.find((part) => part.key === key),
  };
}

const empty = (value) => value === "" || value === null || value === undefined || value.length === 0;
const filled = (part) => !empty(part.read()) || Boolean(part.picture?.());

function check(parts) {
  let first = null;
  for (const part of parts) {
    const message = part.field.needed && !filled(part) ? "This is needed." : part.wrong?.() || "";
    part.tell(message);
    if (message && !first) first = part;
  }
  if (first) {
    first.shell.closest("details")?.setAttribute("open", "");
    first.shell.querySelector("input, select, textarea, button")?.focus();
  }
  return Boolean(first);
}

const label = (field) => [field.says, field.needed ? el("span", { class: "needed" }, " needed") : null];

function chips(values, take, says = (value) => value) {
  if (!values.length) return null;
  return el("div", { class: "chips", role: "group", "aria-label": "written last" }, values.map((value) =>
    el("button", { type: "button", class: "chip", onclick: () => take(value) }, says(value))));
}

// 12,5 is how half the world writes 12.5; what it became stays in sight.
function plainNumber(input) {
  const text = input.value.trim();
  if (/^-?\d+,\d+$/.test(text)) input.value = text.replace(",", ".");
  return input.value.trim();
}

function apart(text, units) {
  const found = /^(-?[\d.\s/-]+?)\s*([A-Za-z°%].*)?$/.exec(text.trim());
  return found && units.includes(found[2] || "") ? [found[1], found[2] || ""] : [text, null];
}

function limit(text, least, most, unit) {
  const number = Number(text);
  const low = least !== null && least !== undefined && number < least;
  const high = most !== null && most !== undefined && number > most;
  if (!low && !high) return "";
  const ends = [least, most].map((end) => (end === null || end === undefined ? "" : String(Number(end.toPrecision(4)))));
  return `${text} ${unit} cannot be; from ${ends[0]} to ${ends[1]} ${unit}.`;
}

function quantity(field, { offers }) {
  const id = `field-${field.key}`;
  const input = el("input", { id, inputmode: "decimal", autocomplete: "off", onchange: () => plainNumber(input) });
  const choice = field.units.length > 1
    ? el("select", { "aria-label": `unit of ${field.says}` }, field.units.map((unit, at) => el("option", { value: unit }, field.shown[at])))
    : null;
  const unit = () => (choice ? choice.value : field.units[0] || "");
  const fill = (text) => {
    const [number, symbol] = apart(text, field.units);
    input.value = number;
    if (choice && symbol) choice.value = symbol;
  };
  const shown = (text) => {
    const [number, symbol] = apart(text, field.units);
    return symbol ? `${number} ${field.shown[field.units.indexOf(symbol)]}` : text;
  };
  const worded = (text) => /[^\d.\s/-]/.test(text);
  return {
    element: el("div", {}, el("label", { for: id }, label(field)), el("div", { class: "beside" }, input,
      choice || (field.shown[0] ? el("span", { class: "unit" }, field.shown[0]) : null)), chips(offers, fill, shown)),
    fill,
    read: () => {
      const text = plainNumber(input);
      return text === "" || worded(text) ? text : `${text} ${unit()}`.trim();
    },
    wrong: () => {
      const text = plainNumber(input);
      if (text === "" || worded(text)) return "";
      if (!/^-?(\d+\.?\d*|\.\d+|\d+\/\d+|\d+[ -]\d+\/\d+)$/.test(text)) return `“${text}” is no number.`;
      const at = choice ? choice.selectedIndex : 0;
      return text.includes("/") ? "" : limit(text, field.least[at], field.most[at], field.shown[at] || "");
    },
  };
}

// A number as it is written: 2, 0.5, 1/3, 1 1/4; 0 for none.
function worth(text) {
  const parts = text.trim().split(/[ -]+/).map((part) => part.split("/"));
  return parts.reduce((sum, [above, below = "1"]) => sum + Number(above) / Number(below), 0) || 0;
}

function stepper(input, step, least) {
  const go = (by) => {
    const from = worth(input.value);
    input.value = String(Math.max(least, Math.round((from + by) * 1000) / 1000));
    input.dispatchEvent(new Event("change"));
  };
  return [
    el("button", { type: "button", class: "step less", "aria-label": `less ${input.getAttribute("data-says")}`, onclick: () => go(-step()) }),
    input,
    el("button", { type: "button", class: "step greater", "aria-label": `more ${input.getAttribute("data-says")}`, onclick: () => go(step()) }),
  ];
}

function count(field) {
  const id = `field-${field.key}`;
  const input = el("input", { id, inputmode: "numeric", autocomplete: "off", "data-says": field.says });
  return {
    element: el("div", {}, el("label", { for: id }, label(field)), el("div", { class: "beside" }, stepper(input, () => 1, field.least[0] || 0))),
    fill: (text) => { input.value = text; },
    read: () => input.value.trim(),
    wrong: () => {
      const text = input.value.trim();
      if (text === "") return "";
      return /^\d{1,9}$/.test(text) ? limit(text, field.least[0], field.most[0], "") : "A whole number is wanted.";
    },
  };
}

function money(field, { currency, offers }) {
  const id = `field-${field.key}`;
  const input = el("input", { id, inputmode: "decimal", autocomplete: "off", onchange: () => plainNumber(input) });
  const fill = (text) => { input.value = text; };
  return {
    element: el("div", {}, el("label", { for: id }, label(field)), el("div", { class: "beside" }, input,
      currency ? el("span", { class: "unit" }, currency) : null), chips(offers, fill)),
    fill,
    read: () => plainNumber(input),
    wrong: () => (/^(\d+\.?\d*|\.\d+)?$/.test(plainNumber(input)) ? "" : "Digits are wanted, like 12.50."),
  };
}

function text(field, { offers }) {
  const id = `field-${field.key}`;
  const input = field.longest > 200
    ? el("textarea", { id, rows: 4, maxlength: field.longest })
    : el("input", { id, maxlength: field.longest, autocomplete: "off" });
  const fill = (value) => { input.value = value; };
  const offered = [...new Set([...offers, ...field.offers])].slice(0, 8);
  return {
    element: el("div", {}, el("label", { for: id }, label(field)), input, chips(offered, fill)),
    fill,
    read: () => input.value.trim(),
  };
}

function choice(field) {
  const name = `field-${field.key}`;
  const boxes = field.choices.map((each) => el("input", { type: "radio", name, value: each, id: `${name}-${each}` }));
  return {
    element: el("fieldset", {}, el("legend", {}, label(field)), el("div", { class: "choices" }, field.choices.map((each, at) =>
      el("label", { class: "choice", for: `${name}-${each}` }, boxes[at], el("span", {}, each))))),
    fill: (value) => boxes.forEach((box) => { box.checked = box.value === value; }),
    read: () => boxes.find((box) => box.checked)?.value || "",
  };
}

const OTHER = "\u0000other";

// One of the names the plan knows, or another one typed.
function named(field, { offers, names = {} }) {
  const id = `field-${field.key}`;
  const input = el("input", { id: `${id}-other`, "aria-label": `${field.says}, another name`, maxlength: field.longest, hidden: true, autocomplete: "off" });
  const select = el("select", { id, onchange: () => {
    input.hidden = select.value !== OTHER;
    if (!input.hidden) input.focus();
  } },
  el("option", { value: "" }, "—"), field.offers.map((each) => el("option", { value: each }, names[each] || each)),
  el("option", { value: OTHER }, "another …"));
  const fill = (value) => {
    const known = value === "" || field.offers.includes(value);
    select.value = known ? value : OTHER;
    input.value = known ? "" : value;
    input.hidden = known;
  };
  return {
    element: el("div", {}, el("label", { for: id }, label(field)), select, input, chips(offers, fill, (value) => names[value] || value)),
    fill,
    read: () => (select.value === OTHER ? input.value.trim() : select.value),
  };
}

// Rows of an item, how much, and the measure, with steps.
function amounts(field, { names = {} }) {
  const list = el("div", { class: "amounts" });
  const rows = [];
  const add = (item, measured) => {
    const [number, unit] = apart(measured, field.units);
    const symbol = unit === null ? field.units[0] : unit;
    const says = names[item] || item;
    const input = el("input", { inputmode: "decimal", autocomplete: "off", value: unit === null ? measured : number, "aria-label": `how much ${says}`, "data-says": says, onchange: () => plainNumber(input) });
    const select = el("select", { "aria-label": `measure of ${says}` }, field.units.map((each, at) => el("option", { value: each, selected: each === symbol }, field.shown[at])));
    const size = () => ({ bucket: 0.25, pail: 0.25, bag: 0.5, L: 0.5, gal: 0.25 })[select.value] || 1;
    const row = { item, input, select };
    const element = el("div", { class: "amount", role: "group", "aria-label": says }, el("span", { class: "item" }, says), stepper(input, size, 0), select);
    rows.push(row);
    list.append(element);
  };
  const offered = el("select", { id: `field-${field.key}-item`, onchange: () => {
    if (offered.value) add(offered.value, `1 ${field.units[0]}`);
    offered.value = "";
  } }, el("option", { value: "" }, "add something …"), field.offers.map((each) => el("option", { value: each }, names[each] || each)));
  return {
    element: el("div", {}, el("p", { class: "says" }, label(field)), list,
      el("label", { class: "unseen", for: `field-${field.key}-item` }, "add something that went in"), offered),
    fill: (pairs) => {
      rows.length = 0;
      list.replaceChildren();
      for (const [item, measured] of pairs) add(item, measured);
    },
    read: () => rows.filter(({ input }) => plainNumber(input) !== "" && Number(plainNumber(input)) !== 0)
      .map(({ item, input, select }) => [item, `${plainNumber(input)} ${select.value}`]),
    wrong: () => (rows.every(({ input }) => /^(\d*\.?\d*|\d+\/\d+|\d+[ -]\d+\/\d+)$/.test(plainNumber(input))) ? "" : "Digits are wanted."),
  };
}

// The place it was taken is kept for each photo anew, or not: the box is only ticked where it is for the photo that waits.
function photo(field, { held, placed }) {
  const id = `field-${field.key}`;
  let picture = null;
  let place = null;
  let name = "";
  const keepsPlace = el("input", { type: "checkbox", id: `${id}-place`, checked: placed.includes(field.key), onchange: () => tellPlace() });
  const untold = el("p", { class: "hint", "aria-live": "polite" });
  const tellPlace = () => { untold.textContent = keepsPlace.checked && picture && !place ? "This photo does not tell where it was taken." : ""; };
  const told = el("p", { class: "hint", "aria-live": "polite" }, held.includes(field.key) ? "a photo is kept with it" : "");
  const shown = el("img", { class: "taken", alt: "the photo taken", hidden: true });
  const input = el("input", { id, type: "file", accept: "image/*", capture: "environment", class: "unseen", onchange: async () => {
    const file = input.files[0];
    if (!file) return;
    told.textContent = "making it small …";
    const [small, found] = await Promise.all([smaller(file), placeOf(file)]);
    [picture, place] = [small || file, found];
    if (picture.size > LARGEST_PICTURE) {
      [picture, place] = [null, null];
      told.textContent = "This picture is over 25 MB and cannot be sent. Take it again, smaller.";
      return;
    }
    told.textContent = `${Math.max(1, Math.round(picture.size / 1000))} kB`;
    if (shown.src) URL.revokeObjectURL(shown.src);
    shown.src = URL.createObjectURL(picture);
    shown.hidden = false;
    tellPlace();
  } });
  const placedAnew = () => (keepsPlace.checked && place && picture !== input.files[0] ? withPlace(picture, place) : picture);
  return {
    element: el("div", {}, el("p", { class: "says" }, label(field)), input, el("label", { class: "button", for: id }, "Take a photo"), told, shown,
      el("label", { class: "choice", for: keepsPlace.id }, keepsPlace, el("span", {}, "keep the place the photo was taken")), untold),
    fill: (value) => { name = value; },
    read: () => (picture ? "" : name),
    picture: () => placedAnew() || (held.includes(field.key) ? true : null),
    placed: () => keepsPlace.checked && Boolean(picture ? place : placed.includes(field.key)),
    isNew: () => Boolean(picture),
  };
}

// At most 1600 pixels, as JPEG; nothing where the browser cannot.
async function smaller(file) {
  try {
    const bitmap = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, LONGEST_SIDE / Math.max(bitmap.width, bitmap.height));
    const canvas = el("canvas");
    canvas.width = Math.round(bitmap.width * scale);
    canvas.height = Math.round(bitmap.height * scale);
    canvas.getContext("2d").drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    bitmap.close();
    return await new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", 0.85));
  } catch {
    return null;
  }
}

const MAKERS = { quantity, count, money, text, choice, place: named, mix: named, item: named, amounts, photo };
