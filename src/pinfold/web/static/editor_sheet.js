// The sheet that is drawn on: its elements, kept from one drawing to the next, and what of the plot it shows. Meters, y up.

const NS = "http://www.w3.org/2000/svg";

export function svg(name, attributes = {}, ...inside) {
  const made = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(attributes)) if (value !== null) made.setAttribute(key, value);
  made.append(...inside);
  return made;
}

export function set(element, attributes) {
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null) element.removeAttribute(key);
    else if (element.getAttribute(key) !== String(value)) element.setAttribute(key, value);
  }
}

// Keeps one element for each key, in order, so that what has the focus keeps it.
export function keep(group, list, key, make, update) {
  const old = new Map([...group.children].map((child) => [child.dataset.key, child]));
  let place = null;
  for (const one of list) {
    const name = key(one);
    let child = old.get(name);
    if (!child) { child = make(one); child.dataset.key = name; }
    old.delete(name);
    const wanted = place ? place.nextSibling : group.firstChild;
    if (child !== wanted) {
      const focused = child.contains(document.activeElement);
      group.insertBefore(child, wanted);
      if (focused) child.focus({ preventScroll: true });
    }
    update(child, one);
    place = child;
  }
  for (const child of old.values()) child.remove();
}

export const path = (points, closed = false) => points.length ? `M${points.map(([x, y]) => `${x} ${y}`).join("L")}${closed ? "Z" : ""}` : "";

// Letters of the sketch, as editor.css has them: of how many root ems, how bold.
const LETTERS = { name: [0.82, 400], corner: [1, 700], contour: [0.74, 400] };

export class View {
  constructor(element) {
    this.element = element;
    this.center = { x: 0, y: 0 };
    this.scale = 20;
    this.pen = document.createElement("canvas").getContext("2d");
    this.measure();
  }
  measure() {
    const box = this.element.getBoundingClientRect();
    this.width = Math.max(box.width, 50);
    this.height = Math.max(box.height, 50);
    set(this.element, { viewBox: `0 0 ${this.width} ${this.height}` });
    this.root = parseFloat(getComputedStyle(document.documentElement).fontSize);
    this.em = this.root * 0.88;
    this.family = getComputedStyle(this.element).fontFamily;
    this.widths = new Map();
  }
  // How tall a line of letters of a kind is, and how wide each line.
  letters(kind = "name") {
    const [size, weight] = LETTERS[kind], font = `${weight} ${size * this.root}px ${this.family}`;
    const wide = (line) => {
      const key = `${kind} ${line}`;
      if (!this.widths.has(key)) { this.pen.font = font; this.widths.set(key, this.pen.measureText(line).width); }
      return this.widths.get(key);
    };
    return { em: this.em * size / LETTERS.name[0], wide };
  }
  px(at) { return { x: (at.x - this.center.x) * this.scale + this.width / 2, y: (this.center.y - at.y) * this.scale + this.height / 2 }; }
  world(x, y) { return { x: (x - this.width / 2) / this.scale + this.center.x, y: this.center.y - (y - this.height / 2) / this.scale }; }
  of(event) { const box = this.element.getBoundingClientRect(); return this.world(event.clientX - box.left, event.clientY - box.top); }
  zoom(times, at = this.center) {
    const scale = Math.min(600, Math.max(1.5, this.scale * times));
    const share = this.scale / scale;
    this.center = { x: at.x + (this.center.x - at.x) * share, y: at.y + (this.center.y - at.y) * share };
    this.scale = scale;
  }
  fit(points) {
    const known = points.filter((at) => Number.isFinite(at.x) && Number.isFinite(at.y));
    if (!known.length) { this.center = { x: 8, y: 6 }; this.scale = Math.min(this.width / 22, this.height / 18); return; }
    const xs = known.map((at) => at.x), ys = known.map((at) => at.y);
    const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    this.center = { x: (left + right) / 2, y: (low + high) / 2 };
    this.scale = Math.min(600, Math.max(1.5, Math.min((this.width - 130) / Math.max(right - left, 2), (this.height - 150) / Math.max(high - low, 2))));
  }
  get matrix() { return `matrix(${this.scale} 0 0 ${-this.scale} ${this.width / 2 - this.center.x * this.scale} ${this.height / 2 + this.center.y * this.scale})`; }
}
