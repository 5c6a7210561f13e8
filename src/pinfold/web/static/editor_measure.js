// Lengths as a tape shows them, and plane geometry in meters. Pure: no page, no plan.

const INCH = 0.0254;

export const steps = (system) => system === "us"
  ? { unit: 6 * INCH, coarse: 60 * INCH, fine: INCH / 2, round: 12 * INCH, says: ["6 in", "5 ft", "1/2 in"] }
  : { unit: 0.1, coarse: 1, fine: 0.01, round: 0.5, says: ["10 cm", "1 m", "1 cm"] };

export const quantized = (value, step) => {
  const found = Math.round(value / step) * step;
  return Math.abs(found) < step / 2 ? 0 : found;
};

// A length as text that the plan file could hold: feet, inches and sixteenths, or meters to the millimeter.
export function tape(value, system) {
  if (!Number.isFinite(value)) return "?";
  if (system !== "us") {
    const millimeters = Math.round(Math.abs(value) * 1000);
    const sign = value < 0 && millimeters ? "-" : "";
    return `${sign}${String(millimeters / 1000)} m`;
  }
  const sixteenths = Math.round(Math.abs(value) / INCH * 16);
  const sign = value < 0 && sixteenths ? "-" : "";
  const feet = Math.floor(sixteenths / 192);
  const rest = sixteenths % 192;
  if (feet && !rest) return `${sign}${feet}'`;
  let part = rest % 16, whole = (rest - part) / 16, of = 16;
  while (part && part % 2 === 0) { part /= 2; of /= 2; }
  const inches = [whole || !part ? whole : "", part ? `${part}/${of}` : ""].filter((piece) => piece !== "").join(" ");
  return `${sign}${feet ? `${feet}' ` : ""}${inches}"`;
}

export const minus = (a, b) => ({ x: a.x - b.x, y: a.y - b.y });
export const plus = (a, b, times = 1) => ({ x: a.x + b.x * times, y: a.y + b.y * times });
export const dot = (a, b) => a.x * b.x + a.y * b.y;
export const cross = (a, b) => a.x * b.y - a.y * b.x;
export const size = (a) => Math.hypot(a.x, a.y);
export const between = (a, b) => size(minus(b, a));
export const unitOf = (a) => { const long = size(a) || 1; return { x: a.x / long, y: a.y / long }; };
export const leftOf = (a) => ({ x: -a.y, y: a.x });

// How far along a segment the foot of a point lies, and how far off it.
export function along(point, start, end) {
  const way = unitOf(minus(end, start));
  const reach = minus(point, start);
  return { at: dot(reach, way), off: cross(way, reach), length: between(start, end) };
}

export const areaOf = (ring) => ring.reduce((sum, a, n) => sum + cross(a, ring[(n + 1) % ring.length]), 0) / 2;

export const middleOf = (ring) => ({
  x: ring.reduce((sum, a) => sum + a.x, 0) / ring.length,
  y: ring.reduce((sum, a) => sum + a.y, 0) / ring.length,
});

// Turn to the left from one way to the next, in degrees.
export const turnOf = (before, corner, after) => {
  const a = minus(corner, before), b = minus(after, corner);
  return Math.atan2(cross(a, b), dot(a, b)) * 180 / Math.PI;
};
